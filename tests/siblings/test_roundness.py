"""Circles against other ways to the same: linear programming (scipy), a search with bounds, and trying everything."""

import itertools
import math
from collections.abc import Iterator

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import least_squares as scipy_least_squares
from scipy.optimize import linprog

from gudgeon.calc.metrology.circle import least_squares_circle
from gudgeon.calc.metrology.round_errors import NotSurrounded
from gudgeon.calc.metrology.roundness import circumscribed, inscribed, minimum_zone

Floats = NDArray[np.float64]
BORE = 43.0
# No circle at all: the zone has several lowest places.
MANY_VALLEYS = np.asarray(
    [(-2, 0), (-1, -2), (-1, 2), (0, 1), (-3, 3), (-2, -3), (0, 2), (1, 0)], dtype=np.float64
)


def lobed(seed: int, *, count: int, arc_deg: float = 360.0) -> Floats:
    """A bore of 86 mm with lobes of hundredths and scatter of microns, off its zero."""
    chance = np.random.default_rng(seed)
    turned = np.radians(arc_deg) * (np.arange(count) + chance.uniform(0, 0.9, count)) / count
    lobes = int(chance.integers(2, 6))
    radius = BORE + 0.015 * np.cos(lobes * turned + 1) + chance.normal(0, 0.003, count)
    return np.column_stack([radius * np.cos(turned) + 1.2, radius * np.sin(turned) - 0.7])


def scattered(seed: int, *, count: int) -> Floats:
    """Points that are no circle at all, on whole millimeters, so that there are ties."""
    return np.random.default_rng(seed).integers(-4, 5, (count, 2)).astype(float)


def zone_by_linear_program(points: Floats, center: Floats) -> float:
    """The zone about the center that linear programs, each about the last center, come to (OTHER TOOL: HiGHS)."""
    best = math.inf
    for _ in range(30):
        apart = center - points
        away = np.hypot(*apart.T)
        if np.ptp(away) >= best * (1 - 1e-13):
            break
        best = float(np.ptp(away))
        unit = apart / away[:, None]
        one = np.ones((len(points), 1))
        # unknown: step of the center, radius less the mean, half of the zone; in µm, where the solver is exact enough
        upper = np.hstack([unit, -one, -one])
        lower = np.hstack([-unit, one, -one])
        level = (away - away.mean()) * 1000
        found = linprog(
            [0, 0, 0, 1], A_ub=np.vstack([upper, lower]), b_ub=np.concatenate([-level, level]),
            bounds=[(None, None)] * 3 + [(0, None)], method="highs",
        )  # fmt: skip
        assert found.success and found.x is not None
        center = center + found.x[:2] / 1000
    return best


def start(points: Floats) -> Floats:
    found = least_squares_circle(points)
    return np.asarray([found.center_x_mm, found.center_y_mm])


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize(("count", "arc"), [(8, 360.0), (36, 360.0), (200, 360.0), (60, 200.0), (40, 90.0)])
def test_the_zone_is_that_of_linear_programs_made_about_each_last_center(
    seed: int, count: int, arc: float
) -> None:
    points = lobed(seed, count=count, arc_deg=arc)
    found = minimum_zone(points)
    theirs = zone_by_linear_program(points, start(points))
    assert found.deviation_mm == pytest.approx(theirs, abs=1e-9)
    assert found.deviation_mm <= theirs + 1e-12


def test_linear_programs_may_stop_at_a_worse_center_and_the_zone_does_not() -> None:
    found = minimum_zone(MANY_VALLEYS).deviation_mm
    assert zone_by_linear_program(MANY_VALLEYS, start(MANY_VALLEYS)) > found * 1.05


def no_center_is_better(points: Floats, than: float, *, reach: float, slack: float) -> None:
    """Squares of centers are cut smaller until each is shown to hold nothing better.

    Moving the center by d changes each distance by at most d, so the zone by at most 2 d. HAND.
    """
    squares, half = points.mean(axis=0)[None, :], reach
    quarter = np.asarray(list(itertools.product((-0.5, 0.5), repeat=2)))
    for _ in range(60):
        away = np.hypot(squares[:, :1] - points[:, 0], squares[:, 1:] - points[:, 1])
        zone = np.ptp(away, axis=1)
        assert zone.min() > than - slack
        squares = squares[zone - 2 * half * math.sqrt(2) < than - slack]
        if not len(squares):
            return
        squares, half = (squares[:, None, :] + half * quarter).reshape(-1, 2), half / 2
    pytest.fail("no bound was reached")


@pytest.mark.parametrize("seed", range(6))
def test_no_center_anywhere_gives_a_smaller_zone(seed: int) -> None:
    points = lobed(seed, count=12)
    no_center_is_better(points, minimum_zone(points).deviation_mm, reach=4 * BORE, slack=1e-5)


@pytest.mark.parametrize("seed", range(25))
def test_no_center_anywhere_gives_a_smaller_zone_to_points_that_are_no_circle(seed: int) -> None:
    points = scattered(seed, count=9)
    no_center_is_better(points, minimum_zone(points).deviation_mm, reach=60.0, slack=1e-4)


def test_nor_where_there_are_many_valleys() -> None:
    found = minimum_zone(MANY_VALLEYS).deviation_mm
    no_center_is_better(MANY_VALLEYS, found, reach=60.0, slack=1e-5)


def circle_through(corners: Floats) -> tuple[Floats, float] | None:
    """Center and radius of the circle through three points, by a system of equations."""
    sides = 2 * (corners[1:] - corners[0])
    if abs(np.linalg.det(sides)) < 1e-9:
        return None
    center = np.linalg.solve(sides, np.sum(corners[1:] ** 2 - corners[0] ** 2, axis=1))
    return center, float(np.hypot(*(corners[0] - center)))


def all_circles(points: Floats) -> Iterator[tuple[Floats, float, Floats]]:
    for three in itertools.combinations(range(len(points)), 3):
        corners = points[list(three)]
        found = circle_through(corners)
        if found is not None:
            yield *found, corners


@pytest.mark.parametrize("seed", range(20))
def test_the_circumscribed_circle_is_the_smallest_of_all_that_hold_the_points(seed: int) -> None:
    for points in (scattered(seed, count=9), lobed(seed, count=14), lobed(seed, count=10, arc_deg=120)):
        over_two = [
            ((one + other) / 2, float(np.hypot(*(one - other))) / 2)
            for one, other in itertools.combinations(points, 2)
        ]
        radii = [
            radius
            for center, radius, *_ in itertools.chain(over_two, all_circles(points))
            if np.hypot(*(points - center).T).max() <= radius * (1 + 1e-12)
        ]
        assert circumscribed(points).radius_mm == pytest.approx(min(radii), rel=1e-12)


def largest_between(points: Floats) -> float:
    """The largest circle with no point in it, through three points that surround its center."""
    largest = 0.0
    for center, radius, corners in all_circles(points):
        beside = corners - center
        turns = [float(np.linalg.det([beside[n], beside[n - 2]])) for n in range(3)]
        around = min(turns) >= -1e-9 or max(turns) <= 1e-9
        if around and np.hypot(*(points - center).T).min() >= radius * (1 - 1e-12):
            largest = max(largest, radius)
    return largest


@pytest.mark.parametrize("seed", range(15))
def test_the_inscribed_circle_is_the_largest_of_all_between_points_that_surround_it(seed: int) -> None:
    points = lobed(seed, count=14)
    assert inscribed(points).radius_mm == pytest.approx(largest_between(points), rel=1e-12)


@pytest.mark.parametrize("count", [24, 36, 60])
def test_so_it_is_where_points_are_rounded_and_stand_in_lines(count: int) -> None:
    turned = 2 * np.pi * np.arange(count) / count
    points = np.round(BORE * np.column_stack([np.cos(turned), np.sin(turned)]), 1)
    assert inscribed(points).radius_mm == pytest.approx(largest_between(points), rel=1e-12)
    assert inscribed(points).deviation_mm < 0.2


def test_so_it_is_between_points_that_are_no_circle() -> None:
    compared = 0
    for seed in range(30):
        points = scattered(seed, count=9)
        try:
            ours = inscribed(points).radius_mm
        except NotSurrounded:
            continue
        assert ours == pytest.approx(largest_between(points), rel=1e-12)
        compared += 1
    assert compared >= 20


@pytest.mark.parametrize(("count", "arc"), [(5, 360.0), (30, 360.0), (30, 90.0), (40, 20.0)])
def test_the_least_squares_circle_is_that_of_a_general_solver(count: int, arc: float) -> None:
    """OTHER TOOL: scipy's trust region solver on center and radius, started where the points were made."""
    points = lobed(5, count=count, arc_deg=arc)

    def off_by(circle: Floats) -> Floats:
        return np.asarray(np.hypot(*(points - circle[:2]).T) - circle[2])

    theirs = scipy_least_squares(off_by, [1.2, -0.7, BORE], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    ours = least_squares_circle(points)
    circle = np.asarray([ours.center_x_mm, ours.center_y_mm, ours.radius_mm])
    off = off_by(circle)
    assert circle == pytest.approx(theirs.x, abs=2e-6)
    assert off @ off <= 2 * theirs.cost * (1 + 1e-12)


@pytest.mark.parametrize("at_once", [1, 7, 40])
def test_centers_tried_in_parts_give_the_same_zone(monkeypatch: pytest.MonkeyPatch, at_once: int) -> None:
    whole = [minimum_zone(scattered(seed, count=9)).deviation_mm for seed in range(6)]
    monkeypatch.setattr("gudgeon.calc.metrology.roundness.AT_ONCE", at_once)
    parts = [minimum_zone(scattered(seed, count=9)).deviation_mm for seed in range(6)]
    assert parts == pytest.approx(whole, abs=1e-12)
