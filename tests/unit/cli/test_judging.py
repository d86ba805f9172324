"""The inspection sheet as it is printed: every limit with its places, why, and what to do. Expected words are HAND."""

import pytest

from gudgeon.bench.good import inspect
from gudgeon.book.state import Accepted
from gudgeon.cli.judging import show_inspection
from tests.unit.bench.judging.judged import Read, bench_with

SHEET = """\
  flat: {name: Head face, part: head, method: straightedge lines, places: [a, b, c], wear_limit: max 0.05 mm, source: manual p. 4}
  pin: {name: Pin, part: crankshaft, new_range: 59.98–60.00 mm, wear_limit: min 59.95 mm, source: manual p. 5}
  bolts: {name: Head bolts, part: head, source: manual p. 8, limits: [{shape: replace always}]}
"""


@pytest.fixture
def printed(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.setenv("COLUMNS", "80")
    read: Read = {
        ("flat", "a"): (None, "0.04"), ("flat", "b"): ("0.03", "0.05"), ("flat", "c"): ("0.08", "0.10"),
        ("pin", ""): "59.99",
    }  # fmt: skip
    gauges = {"flat": "feelers", "pin": "micrometer"}
    accepted = (Accepted("e", "flat b", "Kim", "it goes on a soft gasket", frozenset({"entry2"})),)
    show_inspection(inspect(bench_with(SHEET, read, gauge=gauges, accepted=accepted)))
    return capsys.readouterr().out


def test_parts_stand_together_whatever_the_order_of_the_sheet(printed: str) -> None:
    assert [line for line in printed.splitlines() if line in ("HEAD", "CRANKSHAFT")] == ["HEAD", "CRANKSHAFT"]
    assert printed.index("Head bolts") < printed.index("CRANKSHAFT")


def test_every_limit_has_its_words_and_its_source(printed: str) -> None:
    assert "Head face; source: manual p. 4\n" in printed
    assert "  wear limit: at most 0.05 mm\n" in printed
    assert "Pin: new 59.98–60.00 mm; source: manual p. 5\n" in printed
    assert "  wear limit: replace always\n" in printed


def test_a_verdict_stands_beside_its_reading_and_what_to_do_below(printed: str) -> None:
    row = next(line for line in printed.splitlines() if line.startswith("b "))
    assert "0.03–0.05 mm (0.0012–0.0020 in)" in row
    assert "± 0.006 mm (0.00023 in)" in row
    assert "IN DOUBT" in row
    below = printed[printed.index("  ? b: ") :]
    assert below.startswith(
        "  ? b: an end of what was read lies too near the limit for this gauge\n"
        "    way out: a blade of 0.04 mm (0.0016 in) must not enter\n"
        "  = b: accepted by Kim, because it goes on a soft gasket\n"
    )


def test_what_is_as_new_says_so_and_no_more(printed: str) -> None:
    row = next(line for line in printed.splitlines() if "59.99 mm" in line)
    assert row.rstrip().endswith("INSIDE    as new")


def test_the_counts_and_the_rule_stand_at_the_end(printed: str) -> None:
    assert "2 inside, 1 in doubt, 2 outside\n" in printed
    assert "U is twice the standard uncertainty" in printed.replace("\n", " ")


def test_running_text_fits_a_narrow_terminal(printed: str) -> None:
    text = [
        line
        for line in printed.splitlines()
        if "mm (" not in line and "─" not in line and "verdict" not in line
    ]
    assert max(map(len, text)) <= 80
