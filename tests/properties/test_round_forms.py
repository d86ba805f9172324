"""Whatever the points: moving, turning, scaling and sorting them changes nothing; one more never makes a zone smaller."""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from gudgeon.calc.metrology.diameters import Diameters, out_of_round, taper
from gudgeon.calc.metrology.roundness import circumscribed, inscribed, least_squares, minimum_zone
from gudgeon.calc.metrology.run_out import run_out
from gudgeon.calc.metrology.small_parts import bore_change_from_gaps, ring_gap_in_bore
from gudgeon.errors import InputError

Floats = NDArray[np.float64]
Way = Callable[..., Any]
WAYS: tuple[Way, ...] = (minimum_zone, least_squares, circumscribed, inscribed)
RADIUS = st.integers(-40, 40).map(lambda microns: 43 + microns / 1000)


@st.composite
def bores(draw: st.DrawFn) -> Floats:
    """Points all around a bore of 86 mm, within some hundredths."""
    radii = np.asarray(draw(st.lists(RADIUS, min_size=5, max_size=24)))
    turned = 2 * np.pi * np.arange(len(radii)) / len(radii)
    return np.column_stack([radii * np.cos(turned), radii * np.sin(turned)])


@pytest.mark.parametrize("way", WAYS)
@settings(max_examples=25)
@given(points=bores(), turn=st.floats(0, 6.3), x=st.floats(-500, 500), y=st.floats(-500, 500))
def test_moving_and_turning_a_part(way: Way, points: Floats, turn: float, x: float, y: float) -> None:
    about = np.asarray([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    before, after = way(points), way(points @ about.T + [x, y])
    assert after.deviation_mm == pytest.approx(before.deviation_mm, abs=1e-9)
    assert after.radius_mm == pytest.approx(before.radius_mm, abs=1e-9)


@pytest.mark.parametrize("way", WAYS)
@settings(max_examples=25)
@given(points=bores(), factor=st.floats(1e-3, 1e3), data=st.data())
def test_scaling_and_sorting(way: Way, points: Floats, factor: float, data: st.DataObject) -> None:
    order = data.draw(st.permutations(range(len(points))))
    before, after = way(points), way(points[list(order)] * factor)
    assert after.deviation_mm == pytest.approx(before.deviation_mm * factor, abs=1e-10 * factor)


@settings(max_examples=25)
@given(points=bores(), share=st.floats(0.0, 1.0), turn=st.floats(0, 6.3))
def test_a_point_inside_the_zone_changes_nothing_and_one_beyond_it_never_makes_it_smaller(
    points: Floats, share: float, turn: float
) -> None:
    found = minimum_zone(points)
    away = found.radius_mm + (share - 0.5) * found.deviation_mm
    direction = np.asarray([math.cos(turn), math.sin(turn)])
    center = np.asarray([found.center_x_mm, found.center_y_mm])
    inside = np.vstack([points, center + away * direction])
    assert minimum_zone(inside).deviation_mm == pytest.approx(found.deviation_mm, abs=1e-10)
    beyond = np.vstack([points, center + (away + 0.05) * direction])
    assert minimum_zone(beyond).deviation_mm >= found.deviation_mm - 1e-10


@settings(max_examples=25)
@given(bores())
def test_the_zone_is_the_least_of_all_and_two_points_touch_on_either_side_in_turn(points: Floats) -> None:
    found = minimum_zone(points)
    for way in (least_squares, circumscribed, inscribed):
        assert found.deviation_mm <= way(points).deviation_mm + 1e-12
    assume(found.deviation_mm > 1e-9)
    touching = [(one, 1) for one in found.outer] + [(one, -1) for one in found.inner]
    center = np.asarray([found.center_x_mm, found.center_y_mm])
    turned = sorted((math.atan2(*(points[one] - center)), side) for one, side in touching)
    changes = sum(one[1] != other[1] for one, other in zip(turned, [*turned[1:], turned[0]], strict=True))
    assert changes >= 4


@settings(max_examples=25)
@given(bores())
def test_circles_hold_what_they_say(points: Floats) -> None:
    ring, plug = circumscribed(points), inscribed(points)
    for found, sign in ((ring, 1), (plug, -1)):
        away = np.hypot(*(points - [found.center_x_mm, found.center_y_mm]).T)
        assert (sign * (found.radius_mm - away)).min() >= -1e-11
    assert plug.radius_mm <= ring.radius_mm


@settings(max_examples=25)
@given(st.lists(st.tuples(st.integers(-3, 3), st.integers(-3, 3)), max_size=12))
def test_any_points_have_an_answer_or_a_refusal(points: list[tuple[int, int]]) -> None:
    for way in WAYS:
        told = ""
        try:
            found = way(points)
        except InputError as refusal:
            told = str(refusal)
        if told:
            assert told.endswith(".")
        else:
            assert math.isfinite(found.deviation_mm) and found.deviation_mm >= 0
            assert found.outer and found.inner


@settings(max_examples=25)
@given(
    st.lists(st.floats(-1, 1), min_size=4, max_size=24),
    st.floats(0, 0.5),
    st.floats(0, 360),
)
def test_a_part_off_its_axis_adds_to_the_first_harmonic_alone(
    form: list[float], off: float, high: float
) -> None:
    angles = [360 * number / len(form) for number in range(len(form))]
    moved = [one + off * math.cos(math.radians(a - high)) for one, a in zip(form, angles, strict=True)]
    before, after = run_out(form, angles_deg=angles), run_out(moved, angles_deg=angles)
    assert after.form_mm == pytest.approx(before.form_mm, abs=1e-9)
    assert abs(after.eccentricity_mm - off) <= before.eccentricity_mm + 1e-9
    assert after.bend_mm <= before.bend_mm + off + 1e-9


@settings(max_examples=25)
@given(st.floats(0.1, 1.0), st.floats(80, 90), st.floats(0.0, 0.3))
def test_a_ring_tells_the_bore_that_its_gap_comes_from(gap: float, bore: float, wear: float) -> None:
    there = ring_gap_in_bore(gap, bore_mm=bore, other_bore_mm=bore + wear)
    assert bore_change_from_gaps(gap, other_gap_mm=there) == pytest.approx(wear, abs=1e-12)
    assert ring_gap_in_bore(there, bore_mm=bore + wear, other_bore_mm=bore) == pytest.approx(gap, abs=1e-12)


@settings(max_examples=25)
@given(
    st.lists(st.lists(st.floats(85.9, 86.1), min_size=3, max_size=3), min_size=2, max_size=5),
    st.data(),
)
def test_a_reading_more_never_makes_a_bore_better(rows: list[list[float]], data: st.DataObject) -> None:
    planes = tuple(f"plane {number}" for number in range(len(rows)))
    directions = ("a", "b", "c")
    whole = Diameters(planes, directions, tuple(map(tuple, rows)))
    row = data.draw(st.integers(0, len(rows) - 1))
    less = [
        [None if (r, c) == (row, 0) else value for c, value in enumerate(one)] for r, one in enumerate(rows)
    ]
    without = Diameters(planes, directions, tuple(map(tuple, less)))
    for worked in (out_of_round, taper):
        assert worked(without).value_mm <= worked(whole).value_mm
        assert [str(one) for one in worked(without).missing] == [f"plane {row}, a"]
