"""Dead center and lobe center: the middle on a wheel, and what an offset pin leaves of error."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from gudgeon.calc.calculator import run
from gudgeon.calc.engine.cylinder import piston_position
from gudgeon.calc.engine.events_errors import ReadingsOpposite, ReadingsSame, StopTooDeep
from gudgeon.calc.engine.tdc import around, middle_of, stop_angles
from gudgeon.calc.errors import Negative, RodTooShort

wheel = st.floats(min_value=0.0, max_value=359.0)
halves = st.floats(min_value=1.0, max_value=85.0)


def apart(one: float, other: float) -> float:
    return abs(math.remainder(one - other, 360.0))


@given(center=wheel, half=halves)
def test_the_middle_of_what_lies_equally_far_is_the_center(center: float, half: float) -> None:
    found = middle_of((center - half) % 360, second_deg=(center + half) % 360)
    assert apart(found.middle_deg, center) < 1e-9
    assert found.half_angle_deg == pytest.approx(half, abs=1e-9)
    assert 0 <= found.middle_deg < 360


@given(first=wheel, second=wheel, turn=st.floats(min_value=-720.0, max_value=720.0))
def test_a_disk_set_otherwise_moves_the_middle_as_much(first: float, second: float, turn: float) -> None:
    assume(1e-3 < apart(first, second) < 179.9)
    before = middle_of(first, second_deg=second).middle_deg
    after = middle_of(first + turn, second_deg=second + turn).middle_deg
    assert apart(after, before + turn) < 1e-6


@given(first=wheel, second=wheel)
def test_the_order_of_both_and_a_disk_numbered_backward_change_nothing(first: float, second: float) -> None:
    assume(1e-3 < apart(first, second) < 179.9)
    found = middle_of(first, second_deg=second).middle_deg
    assert apart(middle_of(second, second_deg=first).middle_deg, found) < 1e-9
    assert apart(middle_of(-first, second_deg=-second).middle_deg, -found) < 1e-9


def test_both_errors_halve_in_the_middle() -> None:
    # √(0.3² + 0.4²) / 2 = 0.25
    found = middle_of(350.0, second_deg=20.0, u_first_deg=0.3, u_second_deg=0.4)
    assert (found.middle_deg, found.u_deg) == (5.0, 0.25)
    with pytest.raises(Negative):
        middle_of(350.0, second_deg=20.0, u_first_deg=-0.1)


def test_readings_known_to_be_wide_apart_have_their_middle_on_the_other_side() -> None:
    # 100° to either side of 0°: 260° and 100°. The shorter way between them passes 180°.
    assert middle_of(260.0, second_deg=100.0).middle_deg == 180.0
    known = middle_of(260.0, second_deg=100.0, half_angle_deg=98.0)
    assert (known.middle_deg, known.half_angle_deg) == (0.0, 100.0)


def test_one_reading_twice_and_opposite_readings_are_refused() -> None:
    with pytest.raises(ReadingsSame) as same:
        middle_of(30.0, second_deg=390.0)
    assert str(same.value) == (
        "Both readings are 30°: one is read turning one way, the other turning the other way, and the stop keeps "
        "them apart. Read the second one turning the other way."
    )
    with pytest.raises(ReadingsOpposite) as opposite:
        middle_of(10.0, second_deg=190.0)
    assert str(opposite.value) == (
        "Readings 10° and 190° lie half a turn apart, so two places are in the middle between them. "
        "Take the stop nearer to the top, and read both again."
    )


def test_an_angle_stays_on_the_wheel() -> None:
    assert [around(angle) for angle in (0.0, 360.0, -1e-12, -90.0, 725.0)] == [0.0, 0.0, 0.0, 270.0, 5.0]


@given(
    depth=st.floats(min_value=0.5, max_value=60.0),
    stroke=st.floats(min_value=65.0, max_value=110.0),
    rod=st.floats(min_value=120.0, max_value=220.0),
    offset=st.floats(min_value=-3.0, max_value=3.0),
)
def test_at_both_angles_the_piston_stands_as_deep(
    depth: float, stroke: float, rod: float, offset: float
) -> None:
    found = stop_angles(depth, stroke_mm=stroke, rod_length_mm=rod, pin_offset_mm=offset)
    for angle in (found.before_deg, found.after_deg):
        place = piston_position(stroke, rod_length_mm=rod, crank_angle_deg=angle, pin_offset_mm=offset)
        assert place.drop_mm == pytest.approx(depth, abs=1e-9)
    top = piston_position(
        stroke, rod_length_mm=rod, crank_angle_deg=found.top_center_deg, pin_offset_mm=offset
    )
    assert top.drop_mm == pytest.approx(0.0, abs=1e-9)
    assert (found.before_deg + found.after_deg) / 2 - found.top_center_deg == pytest.approx(
        found.error_deg, abs=1e-9
    )


@given(depth=st.floats(min_value=0.5, max_value=60.0), offset=st.floats(min_value=0.0, max_value=3.0))
def test_a_pin_set_to_the_other_side_errs_the_other_way(depth: float, offset: float) -> None:
    one = stop_angles(depth, stroke_mm=86.0, rod_length_mm=143.0, pin_offset_mm=offset)
    other = stop_angles(depth, stroke_mm=86.0, rod_length_mm=143.0, pin_offset_mm=-offset)
    assert other.error_deg == pytest.approx(-one.error_deg, abs=1e-12)
    assert other.before_deg == pytest.approx(-one.after_deg, abs=1e-9)


def test_without_offset_the_middle_is_the_top() -> None:
    found = stop_angles(10.0, stroke_mm=86.0, rod_length_mm=143.0)
    assert (found.error_deg, found.top_center_deg) == (0.0, 0.0)


def test_the_error_grows_with_the_depth_of_the_stop() -> None:
    errors = [
        stop_angles(depth, stroke_mm=86.0, rod_length_mm=143.0, pin_offset_mm=1.0).error_deg
        for depth in (1.0, 5.0, 10.0, 20.0, 40.0)
    ]
    assert errors == sorted(errors) and errors[0] > 0


def test_a_stop_below_the_stroke_is_refused() -> None:
    with pytest.raises(StopTooDeep) as caught:
        stop_angles(86.0, stroke_mm=86.0, rod_length_mm=143.0)
    assert str(caught.value) == (
        "A stop 86 mm below the highest place of the piston cannot be: it lies above 0 mm and below the stroke "
        "(86 mm). Give the depth at which the piston touches it."
    )
    with pytest.raises(RodTooShort):
        stop_angles(10.0, stroke_mm=86.0, rod_length_mm=40.0)


def test_the_calculator_allows_for_the_way_the_disk_is_numbered() -> None:
    geometry = {"pin_offset": "1 mm", "stop_depth": "10 mm", "stroke": "86 mm", "rod_length": "143 mm"}
    stop = stop_angles(10.0, stroke_mm=86.0, rod_length_mm=143.0, pin_offset_mm=1.0)
    with_it = run("engine.tdc", {"first": f"{stop.after_deg}", "second": f"{stop.before_deg}", **geometry})
    against = run(
        "engine.tdc",
        {
            "first": f"{-stop.after_deg}",
            "second": f"{-stop.before_deg}",
            "disk_counts": "against the turning",
            **geometry,
        },
    )
    assert with_it["true_tdc_deg"] == pytest.approx(0.3080, abs=5e-5)  # asin(1 / 186)
    assert against["true_tdc_deg"] == pytest.approx(360 - 0.3080, abs=5e-5)
    assert with_it.flags == ()


def test_the_calculator_flags_readings_that_do_not_fit_the_depth() -> None:
    # HAND: without offset cos β = (43² + 176² − 143²) / (2 · 43 · 176) = 0.81766, so β = 35.15°.
    answer = run(
        "engine.tdc",
        {"first": "30", "second": "310", "stop_depth": "10 mm", "stroke": "86 mm", "rod_length": "143 mm"},
    )
    assert answer.flags == (
        "The readings lie 40° to either side of the middle; a stop at that depth would leave 35.15°: check the "
        "depth and both readings.",
    )


def test_the_calculator_needs_the_geometry_of_an_offset_pin() -> None:
    from gudgeon.calc.input_errors import InputNeeded

    with pytest.raises(InputNeeded) as caught:
        run("engine.tdc", {"first": "30", "second": "310", "pin_offset": "1 mm"})
    assert str(caught.value) == (
        "engine.tdc needs stop_depth, which is not given. Add it, like stop_depth='10 mm'."
    )


def test_the_calculator_tells_the_uncertainty_of_the_middle() -> None:
    answer = run("engine.tdc", {"first": "30", "second": "310", "uncertainty": "0.5°"})
    assert answer["uncertainty_deg"] == pytest.approx(0.5 / math.sqrt(2))
    lobe = run("engine.lobe-center", {"first": "60", "second": "145.5", "uncertainty": "0.5°"})
    assert lobe["uncertainty_deg"] == pytest.approx(0.5 / math.sqrt(2))
