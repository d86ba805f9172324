"""The least-squares circle through points of a section, and the points made ready for any circle."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gudgeon.calc.metrology.form_errors import PointNotFinite, PointsMisshapen, TooFewPoints
from gudgeon.calc.metrology.round_errors import CircleFromLine, CloserToLine, PlacesTooFew

Floats = NDArray[np.float64]
Points = Sequence[Sequence[float]] | Floats
IN_LINE = 1e-12  # width of the points over their length that is rounding alone
STRAIGHT = 1e6  # radius over spread beyond which the center is rounding alone


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle in the plane of the section."""

    center_x_mm: float
    center_y_mm: float
    radius_mm: float

    @property
    def diameter_mm(self) -> float:
        """Twice the radius."""
        return 2 * self.radius_mm


@dataclass(frozen=True, slots=True)
class Section:
    """Points of a section that can have a circle, moved to their middle and scaled to a spread of one."""

    points: Floats
    middle: Floats
    spread: float

    @classmethod
    def of(cls, points: Points) -> "Section":
        """The points, when they are finite, at three places at least, and not in a line."""
        given = np.asarray(points, dtype=np.float64)
        if not given.size:
            raise TooFewPoints(0, 3, "a circle")
        if given.ndim != 2 or given.shape[1] != 2:
            raise PointsMisshapen(given.shape, 2)
        wrong = np.argwhere(~np.isfinite(given))
        if wrong.size:
            row, column = (int(one) for one in wrong[0])
            raise PointNotFinite(row + 1, "xy"[column], float(given[row, column]))
        if len(given) < 3:
            raise TooFewPoints(len(given), 3, "a circle")
        places = _places(given)
        if places < 3:
            raise PlacesTooFew(len(given), places)
        middle = given.mean(axis=0)
        moved = given - middle
        # The largest distance first: squares of figures near 1e200 or 1e-200 are no numbers.
        largest = float(np.abs(moved).max())
        spread = largest * float(np.sqrt(np.mean(np.sum((moved / largest) ** 2, axis=1))))
        scaled = moved / spread
        long, wide = np.linalg.svd(scaled, compute_uv=False)
        # What rounding of the coordinates themselves does to a line far from the origin counts too.
        rounding = float(np.finfo(float).eps * np.abs(given).max() / spread)
        if wide <= long * max(IN_LINE, 4 * rounding):
            raise CircleFromLine(len(given))
        return cls(scaled, middle, spread)

    def distances(self, center: Floats) -> Floats:
        """The distance of every point from a center, both scaled."""
        return np.asarray(np.hypot(self.points[:, 0] - center[0], self.points[:, 1] - center[1]))

    def placed(self, center: Floats) -> tuple[float, float]:
        """A scaled center, back where the points were."""
        x, y = self.middle + self.spread * center
        return float(x), float(y)


def least_squares_circle(points: Points) -> Circle:
    """The circle from which the squares of the distances of the points add up to least.

    Equation:
        minimize Σ (|p_i − c| − R)² over c, with R = mean |p_i − c|; from an algebraic start by damped
        Gauss-Newton steps, ended by Newton steps on the gradient itself

    Parameters:
        points: x and y of each point [mm]

    Returns:
        center and radius [mm]

    Valid for:
        points all around and arcs; distances are square to the circle, not algebraic, so that a short arc
        is not drawn small

    Source:
        ISO 12181-1:2011 (least squares reference circle). The start after Taubin, 1991. Meets the 30 circles
        of the NIST algorithm testing service.

    Example:
        >>> found = least_squares_circle([(6.0, 0.0), (1.0, 5.0), (-4.0, 0.0), (1.0, -5.0)])
        >>> round(found.center_x_mm, 9), abs(round(found.center_y_mm, 9)), round(found.radius_mm, 9)
        (1.0, 0.0, 5.0)

    Not covered:
        the uncertainty of the center: on an arc of few degrees it is many times that of a reading.
    """
    section = Section.of(points)
    center = _polished(section, _damped(section, _algebraic(section)))
    radius = float(section.distances(center).mean())
    return Circle(*section.placed(center), radius * section.spread)


def _places(given: Floats) -> int:
    """How many different places there are, counted no further than three."""
    places, rest = 0, given
    while len(rest) and places < 3:
        places, rest = places + 1, rest[(rest != rest[0]).any(axis=1)]
    return places


def _algebraic(section: Section) -> Floats:
    """The center of the algebraic circle after Taubin."""
    squares = np.sum(section.points**2, axis=1)
    mean = squares.mean()
    stack = np.column_stack([(squares - mean) / (2 * math.sqrt(mean)), section.points])
    first, *rest = np.linalg.svd(stack, full_matrices=False)[2][-1]
    first /= 2 * math.sqrt(mean)
    if abs(first) * STRAIGHT < math.hypot(*rest) / 2:
        raise CloserToLine(_width(section))
    return np.asarray([-one / (2 * first) for one in rest])


def _damped(section: Section, center: Floats) -> Floats:
    """Gauss-Newton steps, held back as long as they make the sum of squares larger."""
    damping = 1e-3
    slopes, errors = _slopes(section, center)
    least = float(errors @ errors)
    for _ in range(500):
        normal = slopes.T @ slopes
        step = np.linalg.solve(normal + damping * np.diag(np.diag(normal)), -(slopes.T @ errors))
        there = center + step
        slopes_there, errors_there = _slopes(section, there)
        sum_there = float(errors_there @ errors_there)
        if np.hypot(*there) > STRAIGHT:
            raise CloserToLine(_width(section))
        if sum_there < least:
            gain = least - sum_there
            center, slopes, errors, least = there, slopes_there, errors_there, sum_there
            damping /= 10
            if gain <= 1e-14 * least:
                break
        else:
            damping *= 10
            if damping > 1e16:
                break
    return center


def _polished(section: Section, center: Floats) -> Floats:
    """Newton steps on the gradient: near the minimum the sum of squares is flat, its gradient is not."""
    before = math.inf
    for _ in range(50):
        apart = center - section.points
        radii = np.hypot(apart[:, 0], apart[:, 1])
        slopes, errors = _slopes(section, center)
        unit = apart / radii[:, None]
        across = np.column_stack([-unit[:, 1], unit[:, 0]])
        bend = (across * (errors / radii)[:, None]).T @ across
        step = np.linalg.solve(slopes.T @ slopes + bend, -(slopes.T @ errors))
        size = float(np.hypot(*step))
        if size >= before:  # no longer smaller: what is left is rounding
            break
        center, before = center + step, size
    return center


def _slopes(section: Section, center: Floats) -> tuple[Floats, Floats]:
    """How each distance less the mean changes with the center, and the distances less the mean."""
    apart = center - section.points
    radii = np.hypot(apart[:, 0], apart[:, 1])
    unit = apart / np.where(radii == 0, 1.0, radii)[:, None]
    return unit - unit.mean(axis=0), radii - radii.mean()


def _width(section: Section) -> float:
    """How far the points spread across their own direction [mm]."""
    across = np.linalg.svd(section.points, full_matrices=False)[2][-1]
    return float(np.ptp(section.points @ across)) * section.spread
