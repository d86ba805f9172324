"""`units: inch` in the kit: every face shows inches, lbf·ft and psi first; figures stay as printed, and nothing else moves."""

import re
import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from functools import cache
from html import unescape
from pathlib import Path

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.bench.budget import Component
from gudgeon.bench.context import open_bench
from gudgeon.bench.cut.known import Known
from gudgeon.bench.cut.words import plus_minus
from gudgeon.bench.good import inspect
from gudgeon.cli.main import main
from gudgeon.quantity.format import both, both_ends, first_system, in_order, known_between, show_first
from tests.paired import paired
from tests.unit.paper.reading import words


@pytest.fixture(autouse=True)
def _metric_again() -> Iterator[None]:
    """Which system comes first holds for a context: the next test begins as a person who says nothing."""
    yield
    show_first("metric")


@pytest.fixture(scope="module")
def inch(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The invented job of somebody who reads inches."""
    folder = tmp_path_factory.mktemp("inch") / "job"
    open_demo(folder, now=datetime.now(UTC).astimezone())
    kit = folder / "kit.yaml"
    kit.write_text(kit.read_text("utf-8").replace("units: metric", "units: inch"), "utf-8")
    return folder / "book.gudgeon"


@pytest.fixture(scope="module")
def shown(inch: Path) -> Iterator[Callable[[str], str]]:
    """What a page says to the person who reads inches; one server, each page asked once."""
    with paired(inch) as pages:
        yield cache(lambda address: unescape(pages.get(address).text))


@pytest.fixture(scope="module")
def metric(inch: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same job of somebody who reads millimeters."""
    folder = tmp_path_factory.mktemp("metric") / "job"
    shutil.copytree(inch.parent, folder)
    kit = folder / "kit.yaml"
    kit.write_text(kit.read_text("utf-8").replace("units: inch", "units: metric"), "utf-8")
    return folder / "book.gudgeon"


def test_figures_turn_around_and_keep_their_digits() -> None:
    """HAND: 0.05 mm / 25.4 = 0.00197 in; 40 N·m / 1.35582 = 29.5 lbf·ft; the digits are those of the metric order."""
    show_first("inch")
    assert both(0.05, kind="length_difference") == "0.0020 in (0.05 mm)"
    assert both(40.0, kind="torque") == "29.5 lbf·ft (40 N·m)"
    assert both(40.0, kind="torque", first="metric") == "40 N·m (29.5 lbf·ft)"
    assert both(90.0, kind="angle") == "90°"
    assert (
        both_ends(0.08, high=0.09, kind="length_difference", decimals=2) == "0.0031–0.0035 in (0.08–0.09 mm)"
    )
    middle = both_ends(0.11, high=0.17, kind="length_difference", decimals=2, middle=0.14)
    assert middle == "0.0055 (0.0043 to 0.0067) in; 0.14 (0.11 to 0.17) mm"
    assert known_between(0.05, high=float("inf"), kind="length_difference") == "over 0.0020 in (0.05 mm)"
    assert (
        plus_minus(Known(1.0, (Component("gauge", 0.01),)), kind="length")
        == "0.0394 ± 0.0008 in (1.00 ± 0.02 mm)"
    )
    assert in_order("1.10 bar", inch="16.0 psi") == "16.0 psi (1.10 bar)"


def test_the_bench_says_what_comes_first_when_it_opens_the_kit(inch: Path, metric: Path) -> None:
    for book, system in ((inch, "inch"), (metric, "metric")):
        open_bench(book).store.close()
        assert first_system() == system


@pytest.mark.parametrize(
    ("address", "said"),
    [
        # HAND: each is the metric figure of the same page divided by 25.4, 1.35582 or 6.89476.
        ("/good/head_flatness", r"\d in \(0\.\d+ mm\)"),
        ("/cut", r"0\.0055 ± 0\.0010 in \(0\.14 ± 0\.02 mm\)"),
        ("/cut/order", r"0\.0039 in \(0\.10 mm\)"),
        ("/set/head/whole", r"± 1\.22 lbf·ft \(1\.65 N·m\)"),
        ("/fits", r"0\.00079–0\.00236 in \(0\.02–0\.06 mm\)"),
        ("/timing", r"0\.0055 in \(0\.14 mm\) ± 0\.00098 in"),
        ("/timing/shims", r"0\.0965 in \(2\.45 mm\)"),
        ("/running", r"181\.1–228\.7 psi \(12\.49–15\.77 bar\)"),
        ("/running", r"3\.01 US qt \(2\.85 L\)"),
    ],
)
def test_pages_show_it_first(shown: Callable[[str], str], address: str, said: str) -> None:
    text = re.sub(r"<[^>]+>", "", shown(address))
    assert re.search(said, " ".join(text.split()))


def test_the_terminal_shows_it_first(inch: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cut", "--book", str(inch)]) in (0, 1)
    assert "0.0055 ± 0.0010 in (0.14 ± 0.02 mm)" in " ".join(capsys.readouterr().out.split())


def test_paper_shows_it_first(inch: Path) -> None:
    with paired(inch) as pages:
        text = words(pages.get("/paper/shims.pdf?size=letter").content)
    assert "0.0965in(2.45mm)" in text


def test_figures_stay_as_they_are_printed(shown: Callable[[str], str]) -> None:
    assert "132.30 mm (5.2087 in)" in shown("/sheet")


def test_verdicts_and_what_is_stored_are_the_same(inch: Path, metric: Path) -> None:
    told = []
    for book in (inch, metric):
        bench = open_bench(book)
        told.append([(row.item, row.place, row.verdict) for row in inspect(bench).rows])
        bench.store.close()
    assert told[0] == told[1]
