"""Circles through points: answers known by hand, what an arc can say, and the refusals."""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from gudgeon.calc.metrology import form_errors, round_errors
from gudgeon.calc.metrology.circle import least_squares_circle
from gudgeon.calc.metrology.roundness import (
    Roundness,
    circumscribed,
    inscribed,
    least_squares,
    minimum_zone,
)
from gudgeon.errors import InputError

Way = Callable[..., Any]
WAYS: tuple[Way, ...] = (minimum_zone, least_squares, circumscribed, inscribed)
CROSS = [(3.0, 0.0), (0.0, 2.0), (-3.0, 0.0), (0.0, -2.0)]


def ring(
    count: int, *, radius: float = 43.0, lobes: int = 0, height: float = 0.0
) -> list[tuple[float, float]]:
    """Points all around, exactly on a circle with lobes."""
    turned = [2 * math.pi * number / count for number in range(count)]
    return [
        ((radius + height * math.cos(lobes * t)) * math.cos(t), (radius + height * math.cos(lobes * t)) * math.sin(t))
        for t in turned
    ]  # fmt: skip


def center(found: Roundness) -> tuple[float, float]:
    return found.center_x_mm, found.center_y_mm


@pytest.mark.parametrize("way", WAYS)
def test_an_exact_circle_is_round(way: Way) -> None:
    found = way(ring(72))
    assert found.deviation_mm == pytest.approx(0.0, abs=1e-11)
    assert center(found) == pytest.approx((0.0, 0.0), abs=1e-11)
    assert found.radius_mm == pytest.approx(43.0, abs=1e-11)
    assert found.gap_deg == pytest.approx(5.0)
    assert found.surrounded


def test_three_points_have_one_circle_and_no_deviation() -> None:
    # HAND: (5, 0), (−3, 4), (−3, −4) lie 5 from the origin
    for way in WAYS:
        found = way([(5.0, 0.0), (-3.0, 4.0), (-3.0, -4.0)])
        assert (found.deviation_mm, found.radius_mm, *center(found)) == pytest.approx((0, 5, 0, 0), abs=1e-12)


def test_a_cross_with_a_long_and_a_short_bar() -> None:
    # HAND: about the middle the ends lie 3, 2, 3, 2 away; any other middle makes one pair differ more
    found = minimum_zone(CROSS)
    assert (found.deviation_mm, found.radius_mm, *center(found)) == pytest.approx((1, 2.5, 0, 0), abs=1e-12)
    assert (found.outer, found.inner) == ((0, 2), (1, 3))
    assert circumscribed(CROSS).radius_mm == pytest.approx(3.0)
    # HAND: through (0, ±2) and (3, 0): x² + 4 = (3 − x)², x = 5/6, R = 13/6; (−3, 0) lies 23/6 away
    within = inscribed(CROSS)
    assert within.radius_mm == pytest.approx(13 / 6)
    assert within.deviation_mm == pytest.approx(10 / 6)
    assert abs(within.center_x_mm) == pytest.approx(5 / 6)


def test_three_lobes_have_the_zone_of_their_height_about_the_middle() -> None:
    # HAND: three high and three low places in turn, evenly around, so the zone is 2 × 0.01
    found = minimum_zone(ring(36, lobes=3, height=0.01))
    assert found.deviation_mm == pytest.approx(0.02, abs=1e-12)
    assert center(found) == pytest.approx((0, 0), abs=1e-12)
    assert (found.outer, found.inner) == ((0, 12, 24), (6, 18, 30))


def test_three_points_outside_never_hold_one_inside() -> None:
    """HAND: three corners 5 out and one point 4.9 out: about the origin the zone is 0.1, and a step makes it smaller.

    A least zone needs the slope of an inner distance within the slopes of the outer ones. All are of length one, so
    that of one inner point never lies between three outer ones: two of each must touch, in turn.
    """
    corners = [(5 * math.cos(math.radians(a)), 5 * math.sin(math.radians(a))) for a in (0, 120, 240)]
    inner = (4.9 * math.cos(math.radians(20)), 4.9 * math.sin(math.radians(20)))
    found = minimum_zone([*corners, inner])
    assert found.deviation_mm < 0.09
    # in turn: 0°, 20°, 120°, 240°
    assert (found.outer, found.inner) in (((0, 1), (2, 3)), ((2, 3), (0, 1)))


def test_a_point_twice_changes_nothing_but_the_least_squares() -> None:
    for way in (minimum_zone, circumscribed):
        assert way([*CROSS, CROSS[0]]).deviation_mm == pytest.approx(way(CROSS).deviation_mm, abs=1e-12)
    weighed = least_squares([*CROSS, CROSS[0], CROSS[0]])
    assert weighed.center_x_mm != pytest.approx(0.0, abs=1e-3)


def test_an_arc_has_a_circle_and_says_that_it_is_open() -> None:
    turned = np.radians(np.linspace(0, 40, 9))
    points = np.column_stack([43 * np.cos(turned), 43 * np.sin(turned)])
    points[4] *= 1 - 0.004 / 43
    found = minimum_zone(points)
    assert found.gap_deg > 300
    assert not found.surrounded
    assert 0 < found.deviation_mm < 0.004  # HAND: about the true center it is 0.004
    assert circumscribed(points).radius_mm == pytest.approx(43 * math.sin(math.radians(20)), abs=0.01)


def test_far_from_the_origin_no_digits_are_lost() -> None:
    away = [(x + 1e6, y - 1e6) for x, y in ring(36, lobes=3, height=0.01)]
    # HAND: a coordinate of a million is kept to 1.2e-10
    assert minimum_zone(away).deviation_mm == pytest.approx(0.02, abs=1e-9)


def test_points_as_large_and_as_small_as_numbers_go() -> None:
    for scale in (1e150, 1e-150):
        found = minimum_zone([(x * scale, y * scale) for x, y in CROSS])
        assert found.deviation_mm == pytest.approx(scale, rel=1e-12)
        assert least_squares_circle([(x * scale, y * scale) for x, y in CROSS]).diameter_mm == pytest.approx(
            5 * scale, rel=1e-12
        )


REFUSED = [
    ([], form_errors.TooFewPoints(0, 3, "a circle"),
     "0 points are too few: a circle needs at least 3 (fewer leave it open). Measure more points."),
    ([(0.0, 0.0), (1.0, 0.0)], form_errors.TooFewPoints(2, 3, "a circle"),
     "2 points are too few: a circle needs at least 3 (fewer leave it open). Measure more points."),
    ([(0.0, 0.0, 1.0)] * 4, form_errors.PointsMisshapen((4, 3), 2),
     "Figures in the shape (4, 3) are no points. Give one row for each point, each with x, y in mm."),
    ([(0.0, 0.0), (1.0, math.nan), (2.0, 1.0)], form_errors.PointNotFinite(2, "y", math.nan),
     "Point 2 has y = nan, which is not a finite number. Give the number that was read, or leave the point out."),
    ([(1.0, 1.0)] * 4, round_errors.PlacesTooFew(4, 1),
     "The 4 points lie at 1 place only; a circle takes 3 places. Check whether a line was written twice."),
    ([(1.0, 1.0), (2.0, 1.0), (1.0, 1.0)], round_errors.PlacesTooFew(3, 2),
     "The 3 points lie at 2 places only; a circle takes 3 places. Check whether a line was written twice."),
    ([(0.1, 0.1), (0.2, 0.2), (0.3, 0.3), (0.7, 0.7)], round_errors.CircleFromLine(4),
     "The 4 points lie in a straight line; no circle goes through 3 points of a line. "
     "Check that x and y are not the same column."),
]  # fmt: skip


@pytest.mark.parametrize("way", [*WAYS, least_squares_circle])
@pytest.mark.parametrize(("points", "error", "words"), REFUSED)
def test_refused(way: Way, points: list[tuple[float, ...]], error: InputError, words: str) -> None:
    with pytest.raises(type(error)) as refusal:
        way(points)
    assert str(refusal.value) == words
    assert str(error) == words


def test_a_bent_line_is_no_arc() -> None:
    # HAND: heights 0, 1, 0, 1 over a long line lie between two lines, and no circle can follow them
    points = [(0.0, 0.0), (10.0, 0.001), (20.0, 0.0), (30.0, 0.001)]
    with pytest.raises(round_errors.CloserToLine) as refusal:
        minimum_zone(points)
    assert str(refusal.value) == (
        "The points lie between two straight lines 0.001 mm apart, and no circle comes closer. "
        "Take points over more of the round."
    )


def test_an_arc_takes_no_plug() -> None:
    with pytest.raises(round_errors.NotSurrounded) as refusal:
        inscribed([(43.0, 0.0), (43 * math.cos(1), 43 * math.sin(1)), (43 * math.cos(2), 43 * math.sin(2))])
    assert str(refusal.value) == (
        "The points leave 245° of the round open, and an inscribed circle takes points on all sides "
        "(gaps below 180°, ISO 12181-1). Take points all around, or use minimum-zone or least-squares."
    )


@pytest.mark.parametrize("count", [360, 3000])
def test_points_rounded_to_hundredths_stand_in_lines_and_still_take_a_plug(count: int) -> None:
    # HAND: rounding moves a point by at most 0.005 √2, so a plug within 0.0071 of 43 fits about the middle
    found = inscribed([(round(x, 2), round(y, 2)) for x, y in ring(count)])
    assert 43 - 0.0071 <= found.radius_mm <= 43 + 0.0071
    assert found.deviation_mm < 0.0285
