"""What a head that comes down does to valves, bolts and lifters. HAND: every figure is derived in its comment."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc.engine.bolt_reach import free_below_bolt
from gudgeon.calc.engine.cylinder import piston_position
from gudgeon.calc.engine.gear_errors import EventsAboveLift, NeverOpens, NotAValveAngle, NotThroughTheHead
from gudgeon.calc.engine.lifter_preload import clearance_lost, preload_after
from gudgeon.calc.engine.valve_margin import ValveMotion, margin_after_cut, nearest_to_piston, plain_lift

INTAKE = ValveMotion(-12.0, 228.0, 8.8)
EXHAUST = ValveMotion(-226.0, 10.0, 8.6)


@pytest.mark.parametrize(
    ("angle", "lowering", "after"),
    [
        (0.0, 0.3, 1.2),  # along the cylinder all of it counts: 1.5 − 0.3
        (60.0, 0.3, 1.35),  # cos 60° = 1/2: 1.5 − 0.15
        (60.0, -0.2, 1.6),  # a thicker gasket gives back: 1.5 + 0.1
    ],
)
def test_margin(angle: float, lowering: float, after: float) -> None:
    assert margin_after_cut(1.5, lowering_mm=lowering, valve_angle_deg=angle) == pytest.approx(after)


def test_what_the_camshaft_brings_nearer_counts_whole() -> None:
    found = margin_after_cut(1.5, lowering_mm=0.3, valve_angle_deg=0.0, nearer_mm=0.05)
    assert found == pytest.approx(1.15)


@pytest.mark.parametrize("angle", [-1.0, 90.0, 120.0])
def test_a_valve_that_lies_down_is_refused(angle: float) -> None:
    with pytest.raises(NotAValveAngle) as refused:
        margin_after_cut(1.5, lowering_mm=0.1, valve_angle_deg=angle)
    assert str(refused.value) == (
        f"Valve angle {angle:g}° cannot be: it is from 0° to below 90°. "
        "Give the angle between valve stem and cylinder axis."
    )


def test_plain_lift() -> None:
    # Shut outside; full in the middle, at (−12 + 228) / 2 = 108°; half of it halfway up, at −12 + 60 = 48°.
    assert plain_lift(-12.0, motion=INTAKE) == 0.0
    assert plain_lift(300.0, motion=INTAKE) == 0.0
    assert plain_lift(108.0, motion=INTAKE) == pytest.approx(8.8)
    assert plain_lift(48.0, motion=INTAKE) == pytest.approx(4.4)


def test_events_at_a_lift_are_those_of_a_longer_wave() -> None:
    # HAND: at a quarter of the lift the wave stands a sixth of its length from its start (cos 60° = 1/2, 60° of 360°):
    # events 160° apart are the middle two thirds of 240°.
    motion = ValveMotion(-10.0, 150.0, 8.0, at_lift_mm=2.0)
    assert plain_lift(-10.0, motion=motion) == pytest.approx(2.0)
    assert plain_lift(150.0, motion=motion) == pytest.approx(2.0)
    assert plain_lift(70.0, motion=motion) == pytest.approx(8.0)
    assert plain_lift(-49.9, motion=motion) > 0.0
    assert plain_lift(-50.1, motion=motion) == 0.0


def test_events_above_the_lift_are_refused() -> None:
    with pytest.raises(EventsAboveLift) as refused:
        plain_lift(0.0, motion=ValveMotion(-10.0, 150.0, 8.0, at_lift_mm=10.0))
    assert str(refused.value) == (
        "Events at 10 mm of lift cannot be: the valve lifts 8 mm. Check both lifts and their units."
    )


def test_events_at_a_lift_bring_the_exhaust_nearer_than_the_same_angles_at_the_seat() -> None:
    rates = [
        nearest_to_piston(
            ValveMotion(-226.0, 10.0, 8.6, at_lift_mm=lift),
            stroke_mm=85.6,
            rod_length_mm=138.0,
            valve_angle_deg=20.0,
        ).nearer_mm_per_deg
        for lift in (0.0, 0.25, 1.0)
    ]
    assert rates == sorted(rates)
    # HAND: of 0.25 of 8.6 mm acos(1 − 0.5 / 8.6) = 0.3426, length 236 / (1 − 0.3426 / π) = 264.9°; it closes at 24.4°.
    # Nearest 4.0° before top dead center: π · 8.6 / 264.9 · sin(2π · 28.4 / 264.9) = 0.0637 mm for each degree.
    assert rates[1] == pytest.approx(0.0637, abs=1e-4)


def test_a_valve_that_never_opens_is_refused() -> None:
    with pytest.raises(NeverOpens) as refused:
        plain_lift(0.0, motion=ValveMotion(10.0, 10.0, 8.0))
    assert str(refused.value) == (
        "A valve that opens at 10° and closes at 10° is never open. "
        "Count both from one top dead center, after it plus."
    )


@pytest.mark.parametrize(
    "motion", [INTAKE, EXHAUST, ValveMotion(-12.0, 228.0, 8.8, 1.0), ValveMotion(-226.0, 10.0, 8.6, 0.25)]
)
def test_nearest_is_the_least_of_a_fine_search_and_its_rate_that_of_a_turned_camshaft(
    motion: ValveMotion,
) -> None:
    def gap(crank: float, late: float) -> float:
        drop = piston_position(85.6, rod_length_mm=138.0, crank_angle_deg=crank).drop_mm
        lift = plain_lift(crank - late, motion=motion)
        return drop * math.cos(math.radians(20)) - lift

    def least(late: float) -> float:
        return min(gap(step * 0.01, late) for step in range(-2000, 2001))

    found = nearest_to_piston(motion, stroke_mm=85.6, rod_length_mm=138.0, valve_angle_deg=20.0)
    assert gap(found.crank_deg, 0.0) <= least(0.0) + 1e-9
    assert found.nearer_mm_per_deg == pytest.approx((least(-0.1) - least(0.1)) / 0.2, rel=2e-3)


def test_a_later_camshaft_is_safe_for_the_intake_and_not_for_the_exhaust() -> None:
    rates = [
        nearest_to_piston(one, stroke_mm=85.6, rod_length_mm=138.0, valve_angle_deg=20.0).nearer_mm_per_deg
        for one in (INTAKE, EXHAUST)
    ]
    assert rates[0] < 0 < rates[1]


def test_free_below_a_bolt() -> None:
    # 100 long holds 70, lowered by 0.5: it reaches 30.5 into a hole of 34; 3.5 stay, stretched by 0.4: 3.1.
    assert free_below_bolt(34.0, length_mm=100.0, grip_mm=70.0, lowering_mm=0.5) == pytest.approx(3.5)
    assert free_below_bolt(
        34.0, length_mm=100.0, grip_mm=70.0, lowering_mm=0.5, stretch_mm=0.4
    ) == pytest.approx(3.1)


def test_a_bolt_that_does_not_reach_the_block_is_refused() -> None:
    with pytest.raises(NotThroughTheHead) as refused:
        free_below_bolt(34.0, length_mm=60.0, grip_mm=70.0)
    assert str(refused.value) == (
        "A bolt of 60 mm cannot hold 70 mm: it ends before its thread begins. "
        "Check its length and what lies between its head and the block."
    )


def test_lifters_and_clearances() -> None:
    # 0.8 + 0.25 = 1.05; a tip that stands 0.15 higher is 0.1 at the pushrod of a rocker of 1.5.
    assert preload_after(0.8, lowering_mm=0.25) == pytest.approx(1.05)
    assert preload_after(0.8, lowering_mm=0.25, tip_rise_mm=0.15, rocker_ratio=1.5) == pytest.approx(1.15)
    assert clearance_lost(0.25, rocker_ratio=1.6) == pytest.approx(0.4)


@given(
    margin=st.floats(0.1, 5.0),
    cut=st.floats(0.0, 1.0),
    more=st.floats(0.001, 1.0),
    angle=st.floats(0.0, 80.0),
)
def test_more_cut_leaves_less_margin_and_a_gasket_as_thick_gives_it_back(
    margin: float, cut: float, more: float, angle: float
) -> None:
    less = margin_after_cut(margin, lowering_mm=cut + more, valve_angle_deg=angle)
    assert less < margin_after_cut(margin, lowering_mm=cut, valve_angle_deg=angle)
    assert margin_after_cut(less, lowering_mm=-(cut + more), valve_angle_deg=angle) == pytest.approx(margin)
