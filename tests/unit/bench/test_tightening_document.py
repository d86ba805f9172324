"""The page on how tightening is worked out says the figures that the program uses, and those that come out."""

import re

import numpy as np
import pytest

from gudgeon.bench.clamp import SHARED_OUT
from gudgeon.bench.clamp_asked import TRIALS
from gudgeon.calc.joint.program import Act
from gudgeon.sources.tables import tightening_ways
from gudgeon.sources.tightening import usual
from tests.house.code import ROOT
from tests.published.test_scatter_simulated import ELASTIC, TORQUE, YIELD, off

PAGE = " ".join((ROOT / "docs" / "how-it-works" / "tightening.md").read_text("utf-8").split())


@pytest.mark.parametrize(
    ("program", "acts"),
    [
        ("30 N·m", TORQUE),
        ("30 N·m, then 45°, elastic", ELASTIC),
        ("30 N·m, then 180°, into yield", YIELD),
    ],
)
def test_what_comes_out_of_it(program: str, acts: list[Act]) -> None:
    said = re.search(rf"\| {re.escape(program)} \| ± (\d+) % \|", PAGE)
    assert said is not None
    assert float(np.quantile(off(acts), 0.9)) * 100 == pytest.approx(float(said[1]), abs=0.7)


def test_the_sizes_are_those_of_the_program() -> None:
    assert f"{100 * usual('shared_friction').value:.0f} % of the variance is shared" in PAGE
    assert f"from 1 to {usual('breakaway').value:g} times" in PAGE
    assert f"± {usual('paint_marks').value:g}° by marks and ± {usual('by_eye').value:g}° by eye" in PAGE
    assert f"{TRIALS:,} times" in PAGE
    assert f"{SHARED_OUT:,} trials" in PAGE


def test_the_published_bands_are_those_on_file() -> None:
    ways = {one.name: one for one in tightening_ways()}
    for name in ("torque, estimated friction", "angle controlled"):
        assert f"± {100 * ways[name].low:.0f}–{100 * ways[name].high:.0f} %" in PAGE
    assert f"± {100 * ways['torque wrench'].low:.0f} % (Machinery's Handbook, 31st edition" in PAGE
    assert f"± {100 * ways['turn of nut'].low:.0f} %, turn of nut" in PAGE


def test_it_says_what_it_is_not() -> None:
    assert "**not a design check of a joint**" in PAGE
    assert "The maker's program always rules." in PAGE
