"""The path of a belt: worked figures, and every path that cannot be."""

import math

import pytest

from gudgeon.calc.engine import drive_errors as errors
from gudgeon.calc.engine.cam_shift import slack_made, turned
from gudgeon.calc.engine.drive_path import WheelAt, drive_path, length_between, span_between
from gudgeon.calc.errors import NotFinite, NotPositive
from gudgeon.errors import InputError

A, B = WheelAt("A", 0, 0, 30), WheelAt("B", 0, 200, 30)


def test_two_equal_wheels() -> None:
    """HAND: two spans of 200 mm and two halves of a circle of 30 mm radius; clockwise the belt rises on the left."""
    path = drive_path((A, B), clockwise=True)
    assert path.length_mm == pytest.approx(400 + 60 * math.pi)
    assert [one.wrap_deg for one in path.wraps] == pytest.approx([180, 180])
    up, down = path.spans
    assert up.start == pytest.approx((-30, 0))
    assert up.end == pytest.approx((-30, 200))
    assert (up.heading_deg, down.heading_deg) == pytest.approx((0, 180))
    assert down.start == pytest.approx((30, 200))
    wrap = path.wraps[1]
    assert (wrap.arrives_deg, wrap.leaves_deg, wrap.clockwise) == (270.0, 90.0, True)


def test_counterclockwise_is_the_mirror_image() -> None:
    path = drive_path((A, B), clockwise=False)
    assert path.spans[0].start == pytest.approx((30, 0))
    assert path.wraps[1].arrives_deg == pytest.approx(90)


def test_a_crossing_tangent_is_a_right_triangle() -> None:
    """HAND: radii 30 and 60 on opposite sides add to 90, centers 150 apart: √(150² − 90²) = 120."""
    span = span_between(WheelAt("A", 0, 0, 30), second=WheelAt("B", 0, 150, 60, back=True), clockwise=True)
    assert span.length_mm == pytest.approx(120)
    assert math.dist(span.start, span.end) == pytest.approx(120)


def test_a_roller_on_the_back_turns_the_other_way() -> None:
    """HAND: a roller that pushes a span of 400 mm in by its middle: it wraps twice the angle that each half turns."""
    low, high = WheelAt("low", 0, 0, 30), WheelAt("high", 0, 400, 30)
    roller = WheelAt("roller", 45, 200, 30, back=True)
    path = drive_path((low, high, roller), clockwise=True)
    # from the tangent of radii 30 + 30 over a distance of √(45² + 200²)
    away = math.hypot(45, 200)
    lean = math.asin(60 / away) - math.atan2(45, 200)
    assert path.wraps[2].wrap_deg == pytest.approx(2 * math.degrees(lean))
    assert not path.wraps[2].clockwise
    assert path.spans[1].length_mm == pytest.approx(math.sqrt(away**2 - 60**2))


def test_a_roller_that_is_only_touched_wraps_nothing() -> None:
    """HAND: it touches the straight span from outside, so the length stays that of two wheels."""
    path = drive_path((A, B, WheelAt("roller", 50, 100, 20, back=True)), clockwise=True)
    assert path.wraps[2].wrap_deg == pytest.approx(0, abs=1e-6)
    assert path.length_mm == pytest.approx(400 + 60 * math.pi)


def test_chain_links_are_counted_by_teeth_and_not_by_the_circle() -> None:
    """HAND: one turn of a sprocket carries as many links as it has teeth, whatever the circle through its pins."""
    pitch, teeth = 9.525, 20
    radius = pitch / (2 * math.sin(math.pi / teeth))
    one = WheelAt("A", 0, 0, radius, per_turn_mm=pitch * teeth)
    two = WheelAt("B", 0, 190.5, radius, per_turn_mm=pitch * teeth)
    assert drive_path((one, two), clockwise=True).length_mm / pitch == pytest.approx(20 + 40)


def test_length_between_marks_runs_as_the_belt_does() -> None:
    """HAND: from the foot of A up the left to the top of B: two quarters of 30 mm radius and 200 mm."""
    path = drive_path((A, B), clockwise=True)
    way = length_between(path, start=("A", 180), end=("B", 0))
    assert way == pytest.approx(200 + 30 * math.pi)
    assert way + length_between(path, start=("B", 0), end=("A", 180)) == pytest.approx(path.length_mm)
    assert length_between(path, start=("B", 300), end=("B", 360 + 30)) == pytest.approx(30 * math.pi / 2)
    assert length_between(path, start=("B", 30), end=("B", -60)) == pytest.approx(
        path.length_mm - 30 * math.pi / 2
    )


def test_marks_at_the_very_ends_of_a_wrap_count() -> None:
    path = drive_path((A, B), clockwise=True)
    assert length_between(path, start=("A", 270), end=("B", 270)) == pytest.approx(200)
    assert length_between(path, start=("A", 270 + 1e-9), end=("B", 270 - 1e-9)) == pytest.approx(200)


@pytest.mark.parametrize(
    ("wheels", "clockwise", "error"),
    [
        ((A,), True, errors.TooFewWheels(1)),
        ((), True, errors.TooFewWheels(0)),
        ((A, WheelAt("B", 0, 59, 30)), True, errors.WheelsOverlap("A", "B", 59, 60)),
        # named the wrong way round; HAND: headings 16.7° and 270° leave 360° − 106.7° for a turn to the right
        (
            (A, WheelAt("B", 60, 200, 30), WheelAt("C", -60, 200, 30)),
            True,
            errors.BeltMissesWheel("B", 253.3),
        ),
        # inside the loop and out of reach; HAND: headings 180° ± (asin(10 / 150.08) − atan(5 / 150)): 360° − 3.82°
        (
            (WheelAt("A", 0, 0, 30), WheelAt("B", 0, 300, 30), WheelAt("C", 5, 150, 20)),
            True,
            errors.BeltMissesWheel("C", 356.2),
        ),
    ],
)
def test_paths_that_cannot_be(wheels: tuple[WheelAt, ...], clockwise: bool, error: InputError) -> None:
    with pytest.raises(type(error)) as caught:
        drive_path(wheels, clockwise=clockwise)
    assert str(caught.value) == str(error)


def test_a_span_through_a_wheel_that_it_does_not_touch_there() -> None:
    """HAND: the span on the right stands at x = 30; the wheel on the left one reaches to 32: 2 mm."""
    wheels = (A, WheelAt("C", 0, 100, 32), WheelAt("B", 0, 200, 30))
    with pytest.raises(errors.BeltThroughWheel) as caught:
        drive_path(wheels, clockwise=True)
    assert str(caught.value) == (
        "The belt from B to A would run through C, 2.00 mm inside its pitch circle. "
        "Check the order of the path and the centers."
    )


def test_a_belt_that_crosses_itself() -> None:
    """Two rollers pushed through the loop from both sides: the span to one meets the span from the other."""
    wheels = (
        WheelAt("A", 0, 0, 30),
        WheelAt("left", 40, 150, 10, back=True),
        WheelAt("B", 0, 300, 30),
        WheelAt("right", -40, 150, 10, back=True),
    )
    with pytest.raises(errors.SpansCross) as caught:
        drive_path(wheels, clockwise=True)
    assert str(caught.value) == (
        "The belt would cross itself: the span from A to left and the span from right to A. The order of the path, "
        "the running direction, or the side of the belt that a wheel runs on is wrong."
    )


def test_figures_that_are_none() -> None:
    with pytest.raises(NotPositive, match=r"^Pitch radius of A 0 mm cannot be: it is above 0\."):
        drive_path((WheelAt("A", 0, 0, 0), B), clockwise=True)
    with pytest.raises(NotFinite, match=r"^Center of A nan is not a finite number\."):
        drive_path((WheelAt("A", math.nan, 0, 1), B), clockwise=True)


def test_a_mark_where_no_belt_lies() -> None:
    path = drive_path((A, B), clockwise=True)
    with pytest.raises(errors.MarkOffBelt) as caught:
        length_between(path, start=("A", 0), end=("B", 0))
    assert str(caught.value) == (
        "The mark of A at 0° stands where no belt lies: the belt lies on it from 90.0° to 270.0° (0° is up, 90° to the "
        "right). Teeth from there cannot be counted; check the angle."
    )
    with pytest.raises(errors.WheelNotOnPath) as other:
        length_between(path, start=("C", 0), end=("B", 0))
    assert str(other.value) == "`C` is no wheel of this path. There are: A, B."


def test_the_tight_side_turns_later_and_says_so_by_its_sign() -> None:
    """HAND: upright span, so 0.5 mm of lowering are 0.5 mm of belt: 0.5 / 30 rad; raised it is earlier."""
    found = turned((B, A), after=(B.moved(180, by_mm=0.5), A), clockwise=True)
    assert found[0].belt_mm == pytest.approx(0.5)
    assert found[0].wheel_deg == pytest.approx(math.degrees(0.5 / 30))
    assert turned((B, A), after=(B.moved(0, by_mm=0.5), A), clockwise=True)[0].belt_mm == pytest.approx(-0.5)
    assert slack_made((A, B), after=(A, B.moved(180, by_mm=0.5)), clockwise=True) == pytest.approx(1.0)


def test_before_and_after_hold_the_same_wheels() -> None:
    with pytest.raises(errors.NotSameWheels) as caught:
        turned((B, A), after=(B, A, A), clockwise=True)
    assert str(caught.value) == (
        "2 wheels before and 3 after are not the same drive. Give each wheel in both, in one order."
    )
    with pytest.raises(errors.TooFewWheels):
        turned((A,), after=(A,), clockwise=True)
