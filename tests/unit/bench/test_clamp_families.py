"""What limits the clamp: two families in one joint, stages left out, and the words for both."""

from pathlib import Path

import pytest

from gudgeon.bench.clamp import Clamp
from gudgeon.bench.clamp_acts import WhatIf
from gudgeon.bench.clamp_unseen import LAST, SEATING, VERIFY, WAIT, ZERO, unseen
from gudgeon.bench.clamp_words import NO_GAIN, OF_YIELD, compared, forces
from tests.unit.bench.test_clamp import FASTENER, PARTS, TURN, asked, done, joint_of, sheet

SHORT = 'thread: M8, strength_class: "8.8", bearing_diameter: 13.0 mm, hole: 9.0 mm'
LONG = 'thread: M10, strength_class: "10.9", bearing_diameter: 15.0 mm, hole: 11.0 mm'
BOTH = "{1: {family: long}, 2: {family: short}, 3: {family: long}, 4: {family: short}}"


def two(*program: str, short: str = SHORT, more: str = "") -> str:
    """A joint with bolts 1 and 3 of one family and 2 and 4 of another."""
    text = sheet(*program, bolts=BOTH, more=more)
    return text.replace(
        f"    fastener:\n{FASTENER}", f"    families: {{long: {{{LONG}}}, short: {{{short}}}}}\n"
    )


TURNS = ("{torque: 30 N·m, family: long}", "{torque: 20 N·m, family: short}")


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Clamp:
    return asked(tmp_path_factory.mktemp("both"), two(*TURNS), "skip=2", "friction=A")


def test_each_family_has_a_row_of_its_own(both: Clamp) -> None:
    """No line mixes both; HAND: the short ones have no clamp before their stage."""
    first, last = both.stages
    assert [row.family for row in first.families] == ["long (M10)", "short (M8)"]
    assert [row.clamp == "none" for row in first.families] == [False, True]
    assert [[row.pulled for row in one.families] for one in both.stages] == [[True, False], [False, True]]
    assert [row.band == "" for row in first.families] == [False, True]
    assert [row.clamp == "none" for row in last.families] == [False, False]
    for row, bolts in zip(last.families, ("13", "24"), strict=True):
        middles = [one.clamp_n for one in last.bolts if one.bolt in bolts]
        assert row.middle_n == pytest.approx(sum(middles) / 2)
        assert {one.family for one in last.bolts if one.bolt in bolts} == {row.family}
        assert sum(row.causes.values()) == pytest.approx(1.0, abs=0.1)
    assert first.clamp == f"long (M10): {first.families[0].clamp}; short (M8): none"


def test_what_is_said_names_the_family(both: Clamp) -> None:
    assert both.said.startswith("long (M10): ")
    assert " short (M8): " in both.said
    assert {name.split(":")[0] for name, _ in both.causes} == {"long (M10)", "short (M8)"}


def test_a_what_if_has_a_line_for_each_family(both: Clamp) -> None:
    assert [(one.asked, one.family) for one in both.what_ifs] == [
        ("skip=2", "long (M10)"), ("skip=2", "short (M8)"), ("friction=A", "long (M10)"), ("friction=A", "short (M8)"),
    ]  # fmt: skip
    long, short, *_ = both.what_ifs
    assert short.compared == "no clamp at all"
    assert (long.compared, short.clamp) == ("the same clamp, the same spread" + NO_GAIN, "none")
    assert short.said == "short (M8): the program leaves these bolts without clamp."


def test_what_is_missing_names_its_family(tmp_path: Path) -> None:
    answer = asked(tmp_path, two(*TURNS, short="thread: M8"))
    named = {one.what for one in answer.missing}
    assert "the bearing diameter under the head and the hole of short (M8)" in named
    assert "the strength class or yield strength of short (M8)" in named
    assert not any("bearing" in one and "long" in one for one in named)
    assert "of short (M8)" in answer.said


def test_one_family_is_not_named(tmp_path: Path) -> None:
    answer = asked(tmp_path, sheet("torque: 30 N·m"))
    assert [row.family for row in answer.stages[0].families] == [""]
    assert answer.stages[0].clamp == answer.stages[0].families[0].clamp


def test_zero_is_none_and_never_a_figure() -> None:
    assert forces(0.0, high=0.0) == "none"
    assert forces(0.0, high=21_400.0) == "none to 21.4 kN (4810 lbf)"
    assert forces(20_000.0, high=21_400.0) == "20.0–21.4 kN (4500–4810 lbf)"


@pytest.mark.parametrize(
    ("program", "skipped", "why"),
    [
        (TURN, 1, ZERO),
        (("torque: 20 N·m", "torque: 40 N·m", "turn: 90°"), 1, SEATING),
        (("torque: 20 N·m", "torque: 40 N·m", "turn: 90°"), 2, ZERO),
        (("torque: 20 N·m", "loosen: fully", "torque: 40 N·m", "turn: 90°"), 1, SEATING),
        (("torque: 20 N·m", "loosen: fully", "torque: 40 N·m", "turn: 90°"), 2, SEATING),
        (TURN, 3, LAST),
        (("torque: 20 N·m", "torque: 40 N·m"), 2, LAST),
        (("torque: 20 N·m", "verify: 20 N·m"), 2, VERIFY),
        (("torque: 20 N·m", "wait: 10 min", "torque: 40 N·m"), 2, WAIT),
    ],
)
def test_a_stage_left_out_says_what_the_model_does_not_see(
    program: tuple[str, ...], skipped: int, why: str
) -> None:
    assert unseen(joint_of(sheet(*program)), skipped) == f"What the model does not see: {why}."


def test_a_snug_torque_left_out_is_no_gain(tmp_path: Path) -> None:
    answer = asked(tmp_path, sheet("torque: 40 N·m", "turn: 30°"), "skip=1", "by-eye")
    snug, by_eye = answer.what_ifs
    assert snug.unseen.startswith("What the model does not see: a turn is counted from this stage.")
    assert "bolts that were never in touch count as turned" in snug.unseen
    assert snug.band_share < answer.stages[-1].band_share
    assert snug.compared.endswith(NO_GAIN)
    assert by_eye.unseen == ""


@pytest.mark.parametrize(
    ("clamp_n", "band", "said", "no_gain"),
    [
        (0.0, 0.0, "no clamp at all", False),
        (16_000, 0.10, "20 % less clamp, ± 10 % instead of ± 8 %", False),
        (16_000, 0.08, "20 % less clamp, the same spread", False),
        (20_000, 0.10, "the same clamp, ± 10 % instead of ± 8 %", False),
        (16_200, 0.04, "19 % less clamp, ± 4 % instead of ± 8 %", True),
        (22_000, 0.10, "10 % more clamp, ± 10 % instead of ± 8 %", True),
        (20_000, 0.08, "the same clamp, the same spread", True),
    ],
)
def test_a_stage_left_out_never_reads_as_better(
    clamp_n: float, band: float, said: str, no_gain: bool
) -> None:
    was = (20_000.0, 0.08)
    assert compared(clamp_n, band=band, was=was, no_gain=True) == said + (NO_GAIN if no_gain else "")
    assert compared(clamp_n, band=band, was=was) == said


def test_a_gasket_settles_though_nobody_waits_for_it() -> None:
    gasket = f"{PARTS}\ngasket: {{name: paper, thickness: 0.50 mm, creep: 4 %}}"
    text = sheet("torque: 30 N·m", "wait: 10 min", "torque: 40 N·m", more=gasket)
    acts = [one.act for one in done(text, what_if=WhatIf(skip=2)).acts]
    assert [one.stage for one in acts if one.kind == "creep"] == [4] * 4
    assert [one.stage for one in acts] == sorted(one.stage for one in acts)


def test_of_yield_is_explained_once(tmp_path: Path) -> None:
    answer = asked(tmp_path, sheet(*TURN))
    assert answer.of_yield == OF_YIELD
    assert "begins to yield while it is being turned" in OF_YIELD
