"""Dials on parts that are turned or pushed: what is bend, what is form, what is float."""

import math

import pytest

from gudgeon.calc.errors import NotFinite
from gudgeon.calc.metrology.round_errors import AnglesTooFew, AnglesUnpaired, NoPushes
from gudgeon.calc.metrology.run_out import end_float, run_out

EIGHT = [45.0 * number for number in range(8)]


def test_a_round_shaft_bent_by_a_hundredth_swings_the_dial_by_two() -> None:
    # HAND: e cos(φ − 90°) with e = 0.01
    found = run_out([0.01 * math.sin(math.radians(a)) for a in EIGHT], angles_deg=EIGHT)
    assert (found.total_mm, found.eccentricity_mm, found.bend_mm) == pytest.approx((0.02, 0.01, 0.01))
    assert found.high_deg == pytest.approx(90.0)
    assert found.form_mm == pytest.approx(0.0, abs=1e-15)
    assert (found.highest, found.lowest) == (2, 6)


def test_an_oval_that_runs_true_is_all_form() -> None:
    # HAND: cos 2φ has no part in cos φ or sin φ over even angles
    found = run_out([0.01 * math.cos(math.radians(2 * a)) for a in EIGHT], angles_deg=EIGHT)
    assert found.total_mm == pytest.approx(0.02)
    assert found.eccentricity_mm == pytest.approx(0.0, abs=1e-15)
    assert found.form_mm == pytest.approx(0.02)


def test_angles_that_are_not_even_and_a_dial_that_does_not_begin_at_zero() -> None:
    angles = [0.0, 10.0, 35.0, 120.0, 200.0, 290.0, 730.0]
    readings = [1.5 + 0.03 * math.cos(math.radians(a - 50)) for a in angles]
    found = run_out(readings, angles_deg=angles)
    assert found.eccentricity_mm == pytest.approx(0.03, abs=1e-12)
    assert found.high_deg == pytest.approx(50.0, abs=1e-9)
    assert found.form_mm == pytest.approx(0.0, abs=1e-12)


def test_three_angles_leave_no_form() -> None:
    assert run_out([0.0, 0.01, 0.05], angles_deg=[0, 120, 240]).form_mm == 0.0


def test_refused() -> None:
    with pytest.raises(AnglesUnpaired) as unpaired:
        run_out([0.0, 0.1], angles_deg=[0.0, 120.0, 240.0])
    assert str(unpaired.value) == "2 readings do not go with 3 angles. Give one angle for each reading."
    with pytest.raises(AnglesTooFew) as few:
        run_out([0.0, 0.1, 0.1], angles_deg=[0.0, 90.0, 360.0])
    assert str(few.value) == (
        "Readings at 2 different angles cannot show how far a part runs out: it takes 3, and 4 to see any form. "
        "Take 8 in one turn."
    )
    with pytest.raises(AnglesTooFew, match=r"^Readings at 0 different angles cannot"):
        run_out([], angles_deg=[])
    with pytest.raises(NotFinite) as endless:
        run_out([0.0, math.inf, 0.0], angles_deg=[0.0, 120.0, 240.0])
    assert str(endless.value) == "Reading inf is not a finite number. Give the number that was read."


def test_end_float_takes_each_push_by_itself() -> None:
    # HAND: 0.12, 0.13, 0.12 though the dial crept by 0.02
    found = end_float([(0.00, 0.12), (0.01, 0.14), (0.14, 0.02)])
    assert (found.largest_mm, found.spread_mm) == pytest.approx((0.13, 0.01))
    assert found.mean_mm == pytest.approx(0.37 / 3)


def test_no_push() -> None:
    with pytest.raises(NoPushes) as refusal:
        end_float([])
    assert str(refusal.value) == (
        "End float cannot be said without a push: it takes the dial at both ends. Push to and fro 3 times."
    )
