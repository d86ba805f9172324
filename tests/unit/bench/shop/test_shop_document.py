"""The page on the machine shop says the figures that the program uses."""

from pathlib import Path

from gudgeon.bench.budget import FACTOR
from gudgeon.bench.context import open_bench
from gudgeon.bench.shop.finish import asked_words
from gudgeon.bench.shop.incoming import incoming
from gudgeon.bench.shop.room import FINEST_MM
from gudgeon.cli.main import main
from gudgeon.quantity.format import both
from gudgeon.sources.finish import asked_finishes, straighten_above
from tests.house.code import ROOT

PAGE = " ".join((ROOT / "docs" / "how-it-works" / "shop.md").read_text("utf-8").split())


def test_the_figures_are_those_of_the_program() -> None:
    assert (
        f"{both(straighten_above().value, kind='length_difference').replace('0.0030', '0.003')} counts"
        in PAGE
    )
    assert f"rounded down to {FINEST_MM:g} mm" in PAGE
    assert FACTOR == 2.0
    assert "with twice the standard uncertainty of all that goes into it" in PAGE


def test_every_finish_of_the_trade_stands_there() -> None:
    for one in asked_finishes():
        asked = asked_words(one).split(" Ra")[0]
        assert f"| {one.gasket} | {one.metal or 'any'} | {asked} |" in PAGE
    assert PAGE.count(" µin) |") == len(asked_finishes())


def test_what_the_invented_job_is_told(tmp_path: Path) -> None:
    assert main(["demo", "--folder", str(tmp_path / "job")]) == 0
    bench = open_bench(tmp_path / "job" / "book.gudgeon")
    bench.store.close()
    assert f"The check says: “{incoming(bench).plain[0]}”" in PAGE
