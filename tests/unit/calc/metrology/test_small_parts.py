"""Ring gaps, plastic strip, a rocked valve, a leaning spring: sums by hand, and the refusals."""

import math

import pytest

from gudgeon.calc.errors import Negative, NotPositive
from gudgeon.calc.metrology import round_errors
from gudgeon.calc.metrology.small_parts import (
    ClearanceSteps,
    bore_change_from_gaps,
    guide_clearance,
    ring_gap_in_bore,
    spring_lean,
    strip_clearance,
)

SCALE = [(4.3, 0.025), (2.2, 0.051), (1.5, 0.076)]


def test_a_ring_in_a_bore_wider_by_a_tenth_opens_by_pi_tenths() -> None:
    assert ring_gap_in_bore(0.30, bore_mm=86.0, other_bore_mm=86.1) == pytest.approx(0.30 + 0.1 * math.pi)
    assert ring_gap_in_bore(0.30, bore_mm=86.0, other_bore_mm=85.95) == pytest.approx(0.30 - 0.05 * math.pi)


def test_a_ring_that_would_not_fit() -> None:
    # HAND: 0.30 − 0.1 π = −0.01416
    with pytest.raises(round_errors.GapImpossible) as refusal:
        ring_gap_in_bore(0.30, bore_mm=86.0, other_bore_mm=85.9)
    assert str(refusal.value) == (
        "A ring gap of -0.01416 mm in a bore of 85.9 mm cannot be: it lies above 0, or the ends meet, and below the "
        "round of the bore. Check both bores; a ring whose ends meet is filed or changed."
    )
    with pytest.raises(round_errors.GapImpossible):
        ring_gap_in_bore(300.0, bore_mm=86.0, other_bore_mm=86.0)
    with pytest.raises(NotPositive) as none:
        ring_gap_in_bore(0.0, bore_mm=86.0, other_bore_mm=86.0)
    assert str(none.value) == "Ring gap 0 mm cannot be: it is above 0. Check the figure and its sign."


def test_gaps_at_two_heights_tell_the_taper() -> None:
    assert bore_change_from_gaps(0.30, other_gap_mm=0.30 + 0.05 * math.pi) == pytest.approx(0.05)
    assert bore_change_from_gaps(0.50, other_gap_mm=0.50 - 0.05 * math.pi) == pytest.approx(-0.05)
    with pytest.raises(Negative) as refusal:
        bore_change_from_gaps(-0.1, other_gap_mm=0.3)
    assert str(refusal.value) == "Ring gap -0.1 mm cannot be: it is 0 or more. Check the figure and its sign."


@pytest.mark.parametrize(
    ("width", "low", "high"),
    [(3.0, 0.025, 0.051), (1.8, 0.051, 0.076), (2.2, 0.051, 0.051), (5.0, None, 0.025), (1.0, 0.076, None)],
)
def test_a_strip_lies_between_two_marks(width: float, low: float | None, high: float | None) -> None:
    # HAND: the wider the strip, the less the clearance
    assert strip_clearance(width, marks_mm=SCALE) == ClearanceSteps(low, high)


def test_a_scale_that_cannot_be() -> None:
    for marks in ([(1.0, 0.02), (2.0, 0.05)], [(1.0, 0.05), (1.0, 0.02)]):
        with pytest.raises(round_errors.MarksUnordered) as refusal:
            strip_clearance(1.5, marks_mm=marks)
        assert str(refusal.value) == (
            "The marks of the strip cannot be: a wider mark stands for less clearance, and no width stands twice. "
            "Copy the scale from its wrapper, width and clearance of each mark."
        )
    with pytest.raises(round_errors.MarksMissing) as none:
        strip_clearance(1.5, marks_mm=[])
    assert str(none.value) == (
        "No mark of the strip is given, and its width alone says nothing. "
        "Copy the scale from its wrapper, width and clearance of each mark."
    )


def test_a_valve_rocked_close_to_its_guide_and_far_from_it() -> None:
    # HAND: at the very end of the guide the stem moves by the clearance; half a guide further on, by twice that
    assert guide_clearance(0.05, guide_length_mm=40.0, height_mm=0.0) == pytest.approx(0.05)
    assert guide_clearance(0.10, guide_length_mm=40.0, height_mm=20.0) == pytest.approx(0.05)


def test_a_rocked_valve_against_lines_drawn_through_its_guide() -> None:
    """HAND: the stem rests at the near end on one side and at the far end on the other, then the other way round."""
    clearance, length, height = 0.06, 38.0, 14.0
    near, far = clearance / 2, -clearance / 2
    leaned = near + (near - far) / length * height
    assert guide_clearance(2 * leaned, guide_length_mm=length, height_mm=height) == pytest.approx(clearance)


def test_a_spring_leans() -> None:
    assert spring_lean(0.0, length_mm=45.0) == 0.0
    assert spring_lean(45.0, length_mm=45.0) == pytest.approx(45.0)
    with pytest.raises(NotPositive) as refusal:
        spring_lean(1.0, length_mm=0.0)
    assert str(refusal.value) == "Free length 0 mm cannot be: it is above 0. Check the figure and its sign."
