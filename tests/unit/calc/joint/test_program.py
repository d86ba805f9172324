"""A tightening program on one bolt and on bolts that share a spring, against figures worked by hand.

HAND, for M10 with µ = 0.12, DKm = 12.8 mm, Rp = 940 MPa: l = 1.63844 mm and Fy = 48237 N (see test_turn.py); with
dS = 6e-6 and C = 2e-6 mm/N, 90° at P = 1.5 mm are 0.375 mm or 46875 N. Five digits: a force may differ by 2 N.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import inf

import numpy as np
import pytest

from gudgeon.calc.errors import Negative, NotPositive
from gudgeon.calc.joint import program_errors as refusals
from gudgeon.calc.joint.program import (
    Act,
    BoltSpec,
    Draws,
    JointModel,
    Kind,
    Tightened,
    certain,
    tighten,
)
from gudgeon.calc.joint.thread import read_thread
from gudgeon.calc.joint.turn import SnugBolt, turn

BOLT = BoltSpec(read_thread("M10"), yield_mpa=940.0, bearing_diameter_mm=12.8, compliance_mm_per_n=6e-6)
ALONE = JointModel((BOLT,), np.array([[2e-6]]))
LEVER_MM, YIELD_N = 1.63844, 48237.0


def done(model: JointModel, *acts: tuple[Kind, float], order: Sequence[int] = (0,)) -> Tightened:
    """What each act as a stage of its own, on each bolt in that order, does without scatter."""
    each = [Act(stage, bolt, *act) for stage, act in enumerate(acts, start=1) for bolt in order]
    return tighten(model, acts=each, draws=certain(model, acts=each, mu_thread=0.12, mu_head=0.12))


def test_a_torque_makes_its_preload() -> None:
    found = done(ALONE, ("torque", 30.0))
    assert found.preload_n[0, 0, 0] == pytest.approx(30000 / LEVER_MM, abs=2)
    assert found.travel_mm[0, 0, 0] == pytest.approx(18310 * 8e-6, abs=2e-5)
    assert found.moved.tolist() == found.reached.tolist() == [[True]]


@pytest.mark.parametrize("hardening", [0.0, 5000.0])
@pytest.mark.parametrize("angle", [20.0, 60.0, 90.0, 180.0])
def test_a_turn_is_that_of_a_bolt_alone(angle: float, hardening: float) -> None:
    bolt = replace(BOLT, hardening_n_per_mm=hardening)
    found = done(JointModel((bolt,), np.array([[2e-6]])), ("torque", 30.0), ("turn", angle))
    alone = turn(SnugBolt(bolt, 2e-6, 0.12, 0.12, snug_torque_nm=30.0), angle_deg=angle)
    assert found.preload_n[0, 1, 0] == pytest.approx(alone.preload_n, rel=1e-12)
    assert found.permanent_stretch_mm[0, 1, 0] == pytest.approx(alone.permanent_stretch_mm, abs=1e-12)
    assert found.yield_share[0, 1, 0] == pytest.approx(alone.preload_n / alone.yield_preload_n, rel=1e-12)


def test_a_wrench_that_clicks_at_once_has_moved_nothing() -> None:
    found = done(ALONE, ("torque", 30.0), ("torque", 30.0), ("torque", 25.0), ("torque", 31.0))
    assert found.moved.tolist() == [[True, False, False, True]]
    assert found.slipped[0, :, 0].tolist() == [True, False, False, True]
    assert (found.preload_n[0, :3, 0] == found.preload_n[0, 0, 0]).all()
    assert found.preload_n[0, 3, 0] / found.preload_n[0, 0, 0] == pytest.approx(31 / 30, rel=1e-12)


def test_a_head_that_sticks_needs_more_to_start() -> None:
    """HAND: with breakaway 1.2 a head at 30 N·m stays at 35 and moves at 37; then it runs to 37."""
    acts = [Act(1, 0, "torque", 30.0), Act(2, 0, "torque", 35.0), Act(3, 0, "torque", 37.0)]
    smooth = certain(ALONE, acts=acts, mu_thread=0.12, mu_head=0.12)
    found = tighten(ALONE, acts=acts, draws=replace(smooth, breakaway=np.array([[1.2]])))
    assert found.moved.tolist() == [[True, False, True]]
    assert found.preload_n[0, 2, 0] == pytest.approx(37000 / LEVER_MM, abs=2)


def test_a_verify_changes_nothing() -> None:
    found = done(ALONE, ("torque", 30.0), ("verify", 29.0), ("verify", 31.0))
    assert found.moved.tolist() == [[True, False, True]]
    assert np.unique(found.preload_n).size == 1


def test_loosened_and_tightened_again_a_bolt_keeps_its_stretch() -> None:
    """HAND: 90° from 30 N·m leave 0.1356 mm. Half a turn back (0.75 mm) from 48237 N, or 0.386 mm, makes it slack.

    From contact the elastic line starts anew: 20° are 0.08333 mm or 10417 N.
    """
    found = done(ALONE, ("torque", 30.0), ("turn", 90.0), ("loosen", 180.0), ("snug", 0.0), ("turn", 20.0))
    assert found.permanent_stretch_mm[0, :, 0] == pytest.approx([0, *[0.13558] * 4], abs=2e-5)
    assert found.preload_n[0, 1:, 0] == pytest.approx([YIELD_N, 0, 0, 0.5 / 6 / 8e-6], abs=2)
    assert found.travel_mm[0, 3, 0] == pytest.approx(0.13558, abs=2e-5)


def test_a_stretched_bolt_that_hardened_yields_later() -> None:
    """HAND: H = 5000 N/mm, 90° from 30 N·m: p = 0.13037 mm, F = 48889 N; loosened by 10° (0.041667 mm, 5208 N)."""
    bolt = replace(BOLT, hardening_n_per_mm=5000.0)
    model = JointModel((bolt,), np.array([[2e-6]]))
    found = done(model, ("torque", 30.0), ("turn", 90.0), ("loosen", 10.0), ("turn", 10.0), ("turn", 30.0))
    assert found.preload_n[0, 1:4, 0] == pytest.approx([48889, 43681, 48889], abs=3)
    assert found.permanent_stretch_mm[0, 1:4, 0] == pytest.approx([0.13037] * 3, abs=2e-5)
    assert found.permanent_stretch_mm[0, 4, 0] == pytest.approx(0.13037 + 15625 / 130000, abs=3e-5)


def test_an_angle_is_first_used_up_by_the_gap() -> None:
    """HAND: 30 N·m are 0.14648 mm; 60° back (0.25 mm) leave a gap of 0.10352 mm; 60° forward take 0.25 mm again."""
    found = done(ALONE, ("torque", 30.0), ("loosen", 60.0), ("turn", 24.0), ("turn", 36.0))
    assert found.preload_n[0, :, 0] == pytest.approx([18310, 0, 0, 18310], abs=2)
    assert found.travel_mm[0, :, 0] == pytest.approx([0.14648, -0.10352, -0.00352, 0.14648], abs=2e-5)


def test_a_bolt_that_is_out_is_turned_from_contact() -> None:
    found = done(ALONE, ("torque", 30.0), ("loosen", inf), ("turn", 20.0), ("loosen", inf), ("loosen", 10.0))
    assert found.preload_n[0, :, 0] == pytest.approx([18310, 0, 0.5 / 6 / 8e-6, 0, 0], abs=2)
    assert found.moved.tolist() == [[True, True, True, True, False]]
    assert found.travel_mm[0, 3, 0] == 0


def test_a_torque_beyond_what_the_bolt_bears_is_not_reached() -> None:
    """HAND: 90 N·m would be 54930 N; with H = 5000 N/mm the bolt gives way by (54930 − 48237) / 5000 = 1.3386 mm."""
    soft = done(ALONE, ("torque", 90.0))
    assert (soft.preload_n[0, 0, 0], soft.reached.tolist()) == (pytest.approx(YIELD_N, abs=2), [[False]])
    hard = done(JointModel((replace(BOLT, hardening_n_per_mm=5000.0),), np.array([[2e-6]])), ("torque", 90.0))
    assert (hard.preload_n[0, 0, 0], hard.reached.tolist()) == (pytest.approx(54930, abs=2), [[True]])
    assert hard.permanent_stretch_mm[0, 0, 0] == pytest.approx(1.3386, abs=5e-4)


def test_a_draw_down_raises_and_never_lowers() -> None:
    found = done(ALONE, ("snug", 2000.0), ("snug", 1000.0))
    assert found.preload_n[0, :, 0].tolist() == [2000.0, 2000.0]
    assert found.moved.tolist() == [[True, False]]


def test_creep_of_the_parts_takes_preload() -> None:
    """HAND: 0.02 mm / 8e-6 mm/N = 2500 N."""
    found = done(ALONE, ("torque", 30.0), ("creep", 0.02))
    assert found.preload_n[0, 0, 0] - found.preload_n[0, 1, 0] == pytest.approx(2500, abs=1e-6)
    assert found.moved.tolist() == [[True, False]]


def spring(count: int, ratio: float) -> JointModel:
    """Bolts on one common spring that gives `ratio` times as much as a bolt."""
    return JointModel((BOLT,) * count, np.full((count, count), ratio * 6e-6))


def test_bolts_on_a_common_spring_take_from_each_other() -> None:
    """HAND: with r = 1/4 raising a bolt by f among k others under load takes r f / (1 + k r) from each of them.

    First pass 1; 0.8, 1; 0.6333, 0.8333, 1; 0.4905, 0.6905, 0.8571, 1. Second pass: 0.8831, 0.9377, 0.9763, 1.
    """
    found = done(spring(4, 0.25), ("torque", 30.0), ("torque", 30.0), order=range(4))
    share = found.preload_n[0] * LEVER_MM / 30000
    assert share[0] == pytest.approx([0.4905, 0.6905, 0.8571, 1.0], abs=1e-4)
    assert share[1] == pytest.approx([0.8831, 0.9377, 0.9763, 1.0], abs=1e-4)


def test_a_neighbor_goes_slack_and_comes_back() -> None:
    """HAND: r = 4, dS = 6e-6, C = 24e-6 mm/N; a bolt at f sinks both seats by 24e-6 f.

    Bolt 1 at 2000 N stands at x = 0.06 mm; bolt 2 at 12000 N sinks the seat to 0.288 mm: bolt 1 is slack.
    Alone, bolt 2 has x = 0.36 mm; turned back by 51.6° (0.215 mm) it stands at 0.145 mm, where both hold:
    30 F1 + 24 F2 = 60000 and 24 F1 + 30 F2 = 145000 give F1 < 0, so F2 = 0.145 / 30e-6 = 4833.3 N.
    Turned back by 18° more (0.075 mm) it stands at 0.07 mm: F1 = (30 · 60 − 24 · 70) / 324 · 1000 = 370.4 N,
    F2 = (30 · 70 − 24 · 60) / 324 · 1000 = 2037.0 N.
    """
    acts = [
        Act(1, 0, "snug", 2000.0),
        Act(1, 1, "snug", 12000.0),
        Act(2, 1, "loosen", 51.6),
        Act(3, 1, "loosen", 18.0),
        Act(4, 1, "loosen", inf),
    ]
    model = spring(2, 4.0)
    found = tighten(model, acts=acts, draws=certain(model, acts=acts, mu_thread=0.12, mu_head=0.12))
    assert found.preload_n[0] == pytest.approx(
        np.array([[0, 12000], [0, 4833.33], [370.37, 2037.04], [2000, 0]]), abs=0.01
    )


def test_a_neighbor_yields_when_another_is_taken_out() -> None:
    """HAND: r = 1, dS = C = 6e-6: raising a bolt by f takes f/2 from the other.

    Bolt 1 at 40000 N falls to 20000 when bolt 2 is raised to 40000; raised to 48000 it takes 14000 from bolt 2.
    Taking bolt 2 out would give bolt 1 13000 more, 61000: it yields at 48237 and keeps
    (61000 − 48237) · 12e-6 = 0.15316 mm.
    """
    acts = [
        Act(1, 0, "snug", 40000.0),
        Act(1, 1, "snug", 40000.0),
        Act(2, 0, "snug", 48000.0),
        Act(3, 1, "loosen", inf),
    ]
    model = spring(2, 1.0)
    found = tighten(model, acts=acts, draws=certain(model, acts=acts, mu_thread=0.12, mu_head=0.12))
    assert found.preload_n[0] == pytest.approx(np.array([[20000, 40000], [48000, 26000], [48236, 0]]), abs=2)
    assert found.permanent_stretch_mm[0, 2] == pytest.approx([0.15316, 0.0], abs=3e-5)


def test_each_trial_has_its_own_friction_and_errors() -> None:
    """HAND: the factor multiplies the torque, the error of the angle adds 6° or 0.025 mm, 3125 N."""
    acts = [Act(1, 0, "torque", 20.0), Act(2, 0, "turn", 30.0)]
    draws = Draws(
        mu_thread=np.array([[0.12], [0.12], [0.10]]),
        mu_head=np.array([[0.12], [0.12], [0.10]]),
        breakaway=np.ones((3, 1)),
        torque_factor=np.array([[1.0, 1.0], [1.05, 1.0], [1.0, 1.0]]),
        angle_error_deg=np.array([[0.0, 0.0], [0.0, 6.0], [0.0, 0.0]]),
    )
    found = tighten(ALONE, acts=acts, draws=draws)
    first, second, slippery = found.preload_n[:, :, 0]
    assert second[0] / first[0] == pytest.approx(1.05, rel=1e-12)
    assert (second[1] - second[0]) - (first[1] - first[0]) == pytest.approx(3125, abs=1e-6)
    assert slippery[0] > first[0] * 1.15


def test_stages_are_kept_by_their_numbers() -> None:
    acts = [Act(2, 0, "torque", 20.0), Act(2, 1, "torque", 20.0), Act(5, 0, "turn", 30.0)]
    model = JointModel((BOLT, BOLT), np.diag([2e-6, 2e-6]))
    found = tighten(model, acts=acts, draws=certain(model, acts=acts, mu_thread=0.12, mu_head=0.12))
    assert found.stages == (2, 5)
    assert found.preload_n.shape == (1, 2, 2)
    assert found.preload_n[0, 0] == pytest.approx([20000 / LEVER_MM] * 2, abs=2)


def test_no_act_and_no_trial_are_answered_too() -> None:
    assert done(ALONE).preload_n.shape == (1, 0, 1)
    none = Draws(np.ones((0, 1)), np.ones((0, 1)), np.ones((0, 1)), np.ones((0, 1)), np.ones((0, 1)))
    assert tighten(ALONE, acts=[Act(1, 0, "torque", 30.0)], draws=none).preload_n.shape == (0, 1, 1)


@pytest.mark.parametrize(
    ("bolts", "parts", "cause", "text"),
    [
        ((BOLT, BOLT), [[1e-6]], refusals.PartsMatrixMisshapen,
         "Compliance matrix of 1 × 1 cannot serve 2 bolts. Give 2 × 2 figures in mm/N."),
        ((BOLT, BOLT), [[1e-6, 2e-7], [3e-7, 1e-6]], refusals.PartsMatrixImpossible,
         "Compliance matrix is not symmetric, which no elastic part can be. Check figures and signs: row i, column j "
         "is the give at bolt i for each newton at bolt j."),
        ((BOLT, BOLT), [[1e-6, 2e-6], [2e-6, 1e-6]], refusals.PartsMatrixImpossible,
         "Compliance matrix is not positive, which no elastic part can be. Check figures and signs: row i, column j "
         "is the give at bolt i for each newton at bolt j."),
        ((replace(BOLT, compliance_mm_per_n=-1e-6),), [[1e-6]], NotPositive,
         "Bolt compliance -1e-06 mm/N cannot be: it is above 0. Check the figure and its sign."),
        ((replace(BOLT, hardening_n_per_mm=-1.0),), [[1e-6]], Negative,
         "Hardening -1 N/mm cannot be: it is 0 or more. Check the figure and its sign."),
    ],
)  # fmt: skip
def test_a_joint_that_cannot_be_is_refused(
    bolts: tuple[BoltSpec, ...], parts: list[list[float]], cause: type[Exception], text: str
) -> None:
    with pytest.raises(cause) as caught:
        JointModel(bolts, np.array(parts))
    assert str(caught.value) == text


@pytest.mark.parametrize(
    ("acts", "cause", "text"),
    [
        ([Act(1, 1, "torque", 30.0)], refusals.ActOnUnknownBolt,
         "Bolt 1 is not one of this joint's 1. Count them from 0 to 0."),
        ([Act(1, 0, "torque", -30.0)], refusals.ActAmountImpossible,
         "Torque by -30 cannot be: it is finite, and 0 or more. Check the stage."),
        ([Act(1, 0, "turn", inf)], refusals.ActAmountImpossible,
         "Turn by inf cannot be: it is finite, and 0 or more. Check the stage."),
        ([Act(2, 0, "turn", 5.0), Act(1, 0, "turn", 5.0)], refusals.StagesOutOfOrder,
         "Stage 1 stands after stage 2. Give the acts in the order in which they are done."),
    ],
)  # fmt: skip
def test_an_act_that_cannot_be_is_refused(acts: list[Act], cause: type[Exception], text: str) -> None:
    with pytest.raises(cause) as caught:
        tighten(ALONE, acts=acts, draws=certain(ALONE, acts=acts, mu_thread=0.12, mu_head=0.12))
    assert str(caught.value) == text


@pytest.mark.parametrize(
    ("change", "cause", "text"),
    [
        ({"breakaway": np.ones((1, 2))}, refusals.DrawsMisshapen,
         "Draws of breakaway are 1 × 2, not 1 × 1 (trials × bolts or acts). Draw them anew."),
        ({"breakaway": np.full((1, 1), 0.9)}, refusals.DrawsImpossible,
         "Draws of breakaway hold a value that cannot be: all are 1 or more. Check their spread."),
        ({"mu_head": np.full((1, 1), -0.1)}, refusals.DrawsImpossible,
         "Draws of mu_head hold a value that cannot be: all are above 0 and below 1. Check their spread."),
        ({"angle_error_deg": np.full((1, 1), np.nan)}, refusals.DrawsImpossible,
         "Draws of angle_error_deg hold a value that cannot be: all are finite. Check their spread."),
    ],
)  # fmt: skip
def test_draws_that_cannot_be_are_refused(
    change: dict[str, np.ndarray], cause: type[Exception], text: str
) -> None:
    acts = [Act(1, 0, "torque", 30.0)]
    draws = certain(ALONE, acts=acts, mu_thread=0.12, mu_head=0.12)
    with pytest.raises(cause) as caught:
        tighten(ALONE, acts=acts, draws=replace(draws, **change))
    assert str(caught.value) == text


def test_thousands_of_trials_are_each_their_own() -> None:
    """HAND: the preload of a torque is in proportion to it, in the first trial as in the last."""
    factor = np.linspace(0.5, 1.5, 9001)[:, None]
    draws = Draws(
        mu_thread=np.full((9001, 1), 0.12),
        mu_head=np.full((9001, 1), 0.12),
        breakaway=np.ones((9001, 1)),
        torque_factor=factor,
        angle_error_deg=np.zeros((9001, 1)),
    )
    found = tighten(ALONE, acts=[Act(1, 0, "torque", 30.0)], draws=draws)
    assert found.preload_n[:, 0, 0] == pytest.approx(factor[:, 0] * 30000 / LEVER_MM, rel=1e-5)
