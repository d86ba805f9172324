"""The page on the cut says the figures of the invented job, and the sheet's part on it reads as printed."""

import re
from contextlib import closing

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import open_bench
from gudgeon.bench.cut.consequences import CutAnswer, consequences
from gudgeon.quantity.format import number
from gudgeon.sheet.load import parse_sheet
from gudgeon.sources.cutting import below_bolt, first_pass
from tests.house.code import ROOT
from tests.unit.bench.benches import START
from tests.unit.bench.cut.cylinders import line, surely, value
from tests.unit.sheet.sheets import SMALL

PAGE = " ".join((ROOT / "docs" / "how-it-works" / "cut.md").read_text("utf-8").split())
SHEET = (ROOT / "docs" / "data-sheet.md").read_text("utf-8")


@pytest.fixture(scope="module")
def answer(tmp_path_factory: pytest.TempPathFactory) -> CutAnswer:
    book = open_demo(tmp_path_factory.mktemp("demo"), now=START).book
    bench = open_bench(book, now=START)
    with closing(bench.store):
        return consequences(bench)


def test_the_figures_of_the_invented_engine(answer: CutAnswer) -> None:
    least = answer.least
    assert least is not None
    assert f"{least.surely.split(' mm')[0]} mm surely cleans it up" in PAGE
    assert surely(answer, "gasket") == pytest.approx(0.15, abs=1e-6)
    assert answer.most.binds == "gasket"
    (other,) = answer.most.other_gaskets
    assert other.startswith("repair")
    assert "at most 0.24 mm" in other
    assert other.endswith("then the height binds")
    ratio = line(answer, "Compression ratio")
    assert f"ratio {ratio.before.split(' ')[0]} before, {ratio.after.split(' ')[0]} after" in PAGE
    told = (
        ("squish {} mm", "Squish"), ("exhaust valves {} mm from", "Exhaust valve to piston"),
        ("{} mm free below the bolts", "Free below the head bolts"),
        ("later by {}° of the crankshaft", "Timing, Exhaust camshaft sprocket"),
    )  # fmt: skip
    for words, what in told:
        assert words.format(number(value(answer, what), decimals=2)) in PAGE
    assert "took 0.14 mm instead of 0.10 mm" in PAGE
    assert answer.tables[0].cut.startswith("0.14 ")


def test_what_is_common_practice_is_said_with_its_figure() -> None:
    assert f"about {first_pass().value:g} mm (0.002 in) in any case, which is common practice" in PAGE
    assert f"without it {below_bolt().value:g} mm count (common practice)" in " ".join(SHEET.split())


def test_the_example_of_the_sheet_reads() -> None:
    part = SHEET.split("\n## What a cut rests on\n")[1].split("\n## ")[0]
    (example,) = re.findall(r"```yaml\n(.*?)```", part, re.DOTALL)
    start = SMALL[: SMALL.index("cylinder:\n")]
    start = start.replace(
        "edition: 1st}", "edition: 1st}\n  bulletin: {title: Invented bulletin, edition: 1st}"
    )
    keys = ("bore", "piston_height", "head_height", "head_pits", "camshaft_clearance")
    held = "characteristics:\n" + "".join(
        f"  {key}: {{name: {key}, part: x, source: manual p. 1}}\n" for key in keys
    )
    face = "faces:\n  head: {name: Head, source: manual p. 1}\n"
    sheet = parse_sheet(f"{start}{example}{held}{face}{SMALL[SMALL.index('joints:') :]}", file="s.yaml").sheet
    assert sheet.cylinder is not None
    assert sheet.head is not None
    assert set(sheet.cylinder.gaskets) == {"standard", "repair"}
    assert sheet.head.pits == "head_pits"
