"""Which bolts may be used again: each rule by itself, and several together.

Limits of head bolts as manuals print them: at most 156.5 mm for 156.0 new, 187.5 for 187.0 (rows HB-5 and
HB-6 of the reference table, VERIFIED); least diameter 11.3 mm, difference of two diameters 0.25 mm, pits
0.12 mm deep, five uses (decision D26 of the trade: maker procedures).
"""

from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.reuse import AGAIN, DOUBT, NOT, UNKNOWN, ReuseAnswer, reuse
from gudgeon.errors import InputError
from gudgeon.sheet.load import parse_sheet
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

PLACES = "places: {bolt: [1, 2, 3, 4]}, part: Head bolts, source: manual p. 7"
MEASURED = f"""
  bolt_length: {{name: Bolt length, {PLACES}}}
  bolt_shank: {{name: Bolt shank, {PLACES}}}
  bolt_neck: {{name: Bolt neck, {PLACES}}}
  bolt_thread: {{name: Gap at the thread, method: gap, {PLACES}}}
  bolt_pits: {{name: Depth of pits, method: gap, {PLACES}}}
"""


def with_rule(rule: str) -> str:
    """The small engine with this rule for its head bolts."""
    head, rest = SMALL.split("characteristics:\n", 1)
    text = f"{head}characteristics:{MEASURED}{rest}"
    start = text.index("  head:", text.index("joints:"))
    line = text.index("    thread_state:", start)
    lines = [one for one in text[line:].splitlines(keepends=True) if not one.startswith("    reuse:")]
    return f"{text[:line]}    reuse: {rule}\n{''.join(lines)}"


def judged(folder: Path, rule: str, *readings: dict[str, str]) -> ReuseAnswer:
    """The answer after these readings."""
    job = make_job(folder, sheet=with_rule(rule))
    job.read_code()
    for reading in readings:
        job.record("reading", condition="as found", note="", sure=True, **reading)
    return asked(job)


def asked(job: Job) -> ReuseAnswer:
    bench = open_bench(job.book, now=job.now)
    try:
        return reuse(bench, "head")
    finally:
        bench.store.close()


def read(item: str, bolt: int, value: str, instrument: str = "caliper") -> dict[str, str]:
    """One reading of one bolt."""
    return {"item": item, "place": f"bolt {bolt}", "value": value, "instrument": instrument}


def verdicts(answer: ReuseAnswer) -> list[str]:
    return [one.verdict for one in answer.bolts]


def test_always_new(tmp_path: Path) -> None:
    assert verdicts(judged(tmp_path, "{rule: always new}")) == [NOT] * 4


def test_free_length_with_the_doubt_of_the_gauge(tmp_path: Path) -> None:
    """HAND: a caliper off by at most 0.03 mm has u = 0.03 / √3 = 0.017 mm; 1.645 u = 0.028 mm."""
    answer = judged(
        tmp_path,
        "{rule: free length, limit: max 156.5 mm, measured_as: bolt_length}",
        read("bolt_length", 1, "156.47 mm"),
        read("bolt_length", 2, "156.48 mm"),
        read("bolt_length", 3, "156.53 mm"),
    )
    assert verdicts(answer) == [AGAIN, DOUBT, NOT, UNKNOWN]
    assert answer.bolts[3].rules[0].reason == "not measured: Bolt length"


def test_least_diameter(tmp_path: Path) -> None:
    answer = judged(
        tmp_path,
        "{rule: least diameter, limit: min 11.3 mm, measured_as: bolt_neck}",
        read("bolt_neck", 1, "11.35 mm"),
        read("bolt_neck", 2, "11.25 mm"),
    )
    assert verdicts(answer)[:2] == [AGAIN, NOT]


def test_difference_of_two_diameters_takes_both_doubts(tmp_path: Path) -> None:
    """HAND: of what one caliper errs half of the variance cancels, and its step counts twice: u = √(0.0173² + 2 · 0.0029²)
    = 0.0178 mm; 1.645 u = 0.029 mm: 0.20 is inside 0.25, 0.23 is in doubt, 0.30 outside."""
    rule = (
        "{rule: difference of two diameters, difference: max 0.25 mm, measured_as: [bolt_shank, bolt_neck]}"
    )
    pairs = ((1, "11.20 mm"), (2, "11.17 mm"), (3, "11.10 mm"))
    readings = [read("bolt_shank", bolt, "11.40 mm") for bolt, _ in pairs]
    answer = judged(tmp_path, rule, *readings, *(read("bolt_neck", bolt, neck) for bolt, neck in pairs))
    assert verdicts(answer) == [AGAIN, DOUBT, NOT, UNKNOWN]
    assert "0.20 mm" in answer.bolts[0].rules[0].read


def test_thread_against_a_straightedge(tmp_path: Path) -> None:
    """No limit stated: the thinnest blade decides whether every thread touches."""
    blade = {"item": "bolt_thread", "instrument": "feelers"}
    answer = judged(
        tmp_path,
        "{rule: thread against a straightedge, measured_as: bolt_thread}",
        {**blade, "place": "bolt 1", "high": "0.03 mm"},
        {**blade, "place": "bolt 2", "low": "0.05 mm", "high": "0.06 mm"},
    )
    assert verdicts(answer)[:2] == [AGAIN, NOT]


def test_pits(tmp_path: Path) -> None:
    answer = judged(
        tmp_path,
        "{rule: pits, limit: max 0.12 mm, measured_as: bolt_pits}",
        read("bolt_pits", 1, "0.02 mm"),
        read("bolt_pits", 2, "0.20 mm"),
    )
    assert verdicts(answer)[:2] == [AGAIN, NOT]


def test_uses_are_counted_from_the_book(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=with_rule("{rule: count of uses, most_uses: 2}"))
    job.read_code()
    assert verdicts(asked(job)) == [DOUBT] * 4
    job.tighten_all()
    assert asked(job).bolts[0].rules[0].read == "1 in this book"
    job.record("joint-disturbed", joint="head", why="the gasket leaked")
    job.tighten_all()
    assert verdicts(asked(job)) == [NOT] * 4


def test_only_its_own_bolts_make_a_joint_one_of_new_bolts(tmp_path: Path) -> None:
    """A new head is no new head nut, though its name stands in that of the joint."""
    job = make_job(tmp_path, sheet=with_rule("{rule: count of uses, most_uses: 2}"))
    job.read_code()
    job.record("part-disposition", part="head", decision="renew", why="cracked")
    assert verdicts(asked(job)) == [DOUBT] * 4
    job.record("part-disposition", part="head nuts", decision="renew", why="a new set")
    assert verdicts(asked(job)) == [AGAIN] * 4


def test_one_rule_against_a_bolt_is_enough(tmp_path: Path) -> None:
    rule = (
        "{rule: free length, limit: max 156.5 mm, measured_as: bolt_length, "
        "and: [{rule: least diameter, limit: min 11.3 mm, measured_as: bolt_neck}]}"
    )
    answer = judged(
        tmp_path, rule, read("bolt_length", 1, "156.2 mm"), read("bolt_neck", 1, "11.1 mm"),
        read("bolt_length", 2, "156.2 mm"), read("bolt_neck", 2, "11.5 mm"), read("bolt_length", 3, "156.2 mm"),
    )  # fmt: skip
    assert verdicts(answer) == [NOT, AGAIN, UNKNOWN, UNKNOWN]
    assert answer.rules == ("free length: max 156.5 mm", "least diameter: min 11.3 mm")


@pytest.mark.parametrize(
    ("rule", "said"),
    [
        ("{rule: count of uses}", "needs the most uses"),
        ("{rule: free length, most_uses: 3}", "belongs to the rule `count of uses` alone"),
        ("{rule: free length, measured_as: [bolt_neck, bolt_shank]}", "takes one characteristic"),
        ("{rule: free length, difference: max 0.2 mm}", "belongs to the rule `difference of two diameters`"),
        ("{rule: free length, measured_as: bolt_lenght}", "bolt_lenght"),
    ],
)
def test_a_rule_that_cannot_be_judged_is_refused(rule: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        parse_sheet(with_rule(rule), file="sheet.yaml")


def test_a_rule_without_its_characteristic_says_so_in_words(tmp_path: Path) -> None:
    (first, *_) = judged(tmp_path, "{rule: free length, limit: max 156.5 mm}").bolts
    assert first.rules[0].reason == (
        "the sheet does not say which characteristic holds this reading of each bolt: name it in the rule, as measured_as"
    )
