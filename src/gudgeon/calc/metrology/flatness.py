"""Flatness: how far apart two parallel planes must be to hold all points of a face between them."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from gudgeon.calc.metrology.cloud import ROUNDING, Cloud, Floats, Indices
from gudgeon.calc.metrology.exchange import Exchange, Four, Held
from gudgeon.calc.metrology.plane import Plane, coefficients, points_down
from gudgeon.calc.metrology.zone_bound import least_by_contacts, least_zone, narrowest

ALL = 1500  # up to so many points all are searched; of more, the highest and lowest of so many blocks first
BLOCKS = 256
MOST_PASSES = 60
MOST_TURNS = 40
THICK = 0.1  # of its width: points that thick are hardly a face
UNPROVEN = 1e-12  # mm that may stay unproven before all directions are tried
NEAREST = 30
MOST_ROUNDS = 40


@dataclass(frozen=True, slots=True)
class Flatness:
    """The least zone of a face, the planes of which it is between, and what proves it.

    `upper` and `lower` are the points that touch the two planes, counted from zero. No zone is narrower
    than `minimum_zone_mm` by more than `certificate_gap_mm`. `across_least_squares_mm` is the zone of the same
    kind measured square to the plane of least squares, as linear programs find it.
    """

    minimum_zone_mm: float
    least_squares_mm: float
    across_least_squares_mm: float
    certificate_gap_mm: float
    normal: tuple[float, float, float]
    plane: tuple[float, float, float] | None
    upper: tuple[int, ...]
    lower: tuple[int, ...]
    flags: tuple[str, ...] = ()


def flatness(points_mm: ArrayLike) -> Flatness:
    """The distance of the two closest parallel planes that hold all points of a face between them.

    Equation:
        least over all directions n of max n · p − min n · p. In a frame on the plane of least squares: least
        over a, b of max(z − a x − b y) − min(z − a x − b y), a linear problem, solved by exchanging the four
        points that hold the planes; the frame is turned onto the planes and the problem solved again,
        until nothing turns. Proof: shares of the four that balance bound every plane from below.

    Parameters:
        points_mm: one row x, y, z for each point, at least three [mm]

    Returns:
        least zone [mm], zone about the plane of least squares [mm], middle plane, points that touch, gap
        between what is found and what is proven [mm]

    Valid for:
        points scattered anyhow over a face that lies anyhow. Heights over a surface plate, with x and y of
        each place, are such points: there the plate's own error is in every height and adds to the result

    Source:
        ISO 12781-1:2011 (minimum zone reference plane). HAND: Stiefel's exchange for the linear problem, and
        weak duality for the proof.

    Example:
        >>> found = flatness([[0, 0, 0.05], [450, 0, -0.05], [450, 180, 0.05], [0, 180, -0.05]])
        >>> round(found.minimum_zone_mm, 9), found.upper, found.lower
        (0.1, (0, 2), (1, 3))

    Not covered:
        what lies between the points; errors of the gauge; filtering of roughness.
    """
    cloud = Cloud.of(points_mm, what="flatness")
    plane, heights = Plane.among(cloud)
    search = _Search(cloud, plane, heights)
    found = search.solve(plane.axes)
    across = found.along
    least, thick = search.at_once(found)
    if found.width - least > UNPROVEN:
        found = search.turned(found)
        least, thick = search.proven(found)
    if found.width - least > UNPROVEN:
        found, least = search.every_way(found, least)
    return _result(cloud, search, found, plane, across, least, thick)


@dataclass(frozen=True, slots=True)
class _Found:
    """The planes found in one frame; width and ends are those of all points, `along` is measured along the frame."""

    axes: Floats
    normal: Floats
    held: Held
    low: float
    high: float
    along: float

    @property
    def width(self) -> float:
        return self.high - self.low


class _Search:
    """The points that are searched, which grow by those that a pass over all finds beyond the planes."""

    def __init__(self, cloud: Cloud, plane: Plane, heights: Floats) -> None:
        self.cloud = cloud
        self.center = plane.center_mm - cloud.origin
        if len(cloud) <= ALL:
            self.which: Indices = np.arange(len(cloud))
            self.points = cloud.all() - self.center
        else:
            spaced = np.linspace(0, len(cloud) - 1, BLOCKS // 4).astype(np.intp)
            self.which = np.unique(np.concatenate([*_extremes(heights), spaced]))
            self.points = cloud.at(self.which) - self.center
        self.reach = float(np.abs(self.points).max())
        self.wide: list[int] | None = None
        self.thick = plane.deviation_mm
        self.last: tuple[Floats, Floats] | None = None

    def solve(self, axes: Floats, four: Four | None = None) -> _Found:
        """The planes whose distance along the third axis is least, for all points."""
        for _ in range(MOST_PASSES):
            exchange = Exchange(self.points @ axes.T)
            if self.wide is None:
                self.wide = exchange.wide[:3]
            held = exchange.solve(four)
            normal = axes[2] - held.slope[0] * axes[0] - held.slope[1] * axes[1]
            stretch = float(np.sqrt(normal @ normal))
            normal /= stretch
            heights = self._heights(normal)
            low, high = float(heights.min()), float(heights.max())
            if not self._grown(heights):
                break
            four = held.four
        return _Found(axes, normal, held, low, high, (high - low) * stretch)

    def turned(self, found: _Found) -> _Found:
        """The same with the frame turned onto the planes, until that turns nothing."""
        for _ in range(MOST_TURNS):
            axes, four = _frame(found.normal, like=found.axes), found.held.four
            held = Held.by(four, points=self.points[[max(one, -1 - one) for one in four]] @ axes.T)
            if held is not None and held.balanced:  # all points already lie between these planes
                return _Found(axes, found.normal, held, found.low, found.high, found.width)
            again = self.solve(axes, four)
            if again.width >= found.width:
                return again
            found = again
        return found

    def at_once(self, found: _Found) -> tuple[float, float]:
        """The proof by the points that touch alone, which mostly holds before the frame is turned."""
        above, below = (self.points[side] @ found.axes[:2].T for side in (found.held.upper, found.held.lower))
        wide = _least_width(self.points[self.wide] @ found.axes.T)
        slope = math.hypot(*found.held.slope)
        level = found.held.least / math.hypot(1.0, slope)
        return least_by_contacts(
            level, above=above, below=below, wide_mm=wide, slope=slope, zone_mm=self.thick
        ), found.width / wide

    def proven(self, found: _Found) -> tuple[float, float]:
        """What the zone is at least, whichever way it lies; and how thick the points are for their width."""
        rest = self._heights(found.normal)[self.which]
        wide = _least_width(self.points[self.wide] @ found.axes.T)
        bound = least_zone(
            found.held.least,
            places=self.points @ found.axes[:2].T,
            rest=rest,
            wide_mm=wide,
            found_mm=found.width,
        )
        return bound, found.width / wide

    def every_way(self, found: _Found, least: float) -> tuple[_Found, float]:
        """The narrowest way of all, and what is proven, by trying each that the points nearest to the planes have.

        They are as wide as that at least, and so are all points; those that lie beyond are added.
        """
        few = self._nearest(found)
        for _ in range(MOST_ROUNDS):
            tried = narrowest(few)
            if tried is None:
                break
            normal, width = tried
            heights = self.cloud.heights(normal)
            least = max(least, min(width, found.width))
            if float(np.ptp(heights)) < found.width:
                found = self._between(normal, heights, found.axes)
            if found.width - least <= UNPROVEN:
                break
            ends = np.concatenate(_extremes(heights))
            order = np.argsort(heights[ends])
            beyond = self.cloud.at(ends[np.concatenate([order[:4], order[-4:]])]) - self.center
            few = np.unique(np.concatenate([few, beyond]), axis=0)
        return found, min(least, found.width)

    def _between(self, normal: Floats, heights: Floats, like: Floats) -> _Found:
        """The planes square to a direction, and the points that touch them to within rounding."""
        low, high = float(heights.min()), float(heights.max())
        slack = 16 * ROUNDING * self.reach
        upper, lower = np.flatnonzero(heights >= high - slack)[:3], np.flatnonzero(heights <= low + slack)[:3]
        start = len(self.which)
        self.which = np.concatenate([self.which, upper, lower])
        self.points = self.cloud.at(self.which) - self.center
        places = range(start, len(self.which))
        four = [one if k < len(upper) else -1 - one for k, one in enumerate(places)]
        held = Held((0.0, 0.0), high - low, 0.0, four)
        return _Found(_frame(normal, like=like), normal, held, low, high, high - low)

    def _nearest(self, found: _Found) -> Floats:
        """The points nearest to the planes, and those that lie farthest out."""
        local = self.points @ found.axes.T
        order = np.argsort(local[:, 2])
        wide = Exchange(local).wide[:3]
        held = [max(one, -1 - one) for one in found.held.four]
        which = np.unique(np.concatenate([order[:NEAREST], order[-NEAREST:], wide, held]))
        return np.asarray(self.points[which], np.float64)

    def _heights(self, normal: Floats) -> Floats:
        """Of all points along a direction; kept, because the last direction is often asked again."""
        if self.last is None or float(np.abs(self.last[0] - normal).max()) > ROUNDING:
            self.last = normal, self.cloud.heights(normal)
        return self.last[1]

    def _grown(self, heights: Floats) -> bool:
        """Whether points beyond the planes had to be added."""
        if len(self.which) == len(self.cloud):
            return False
        slack = 8 * ROUNDING * self.reach
        inside = heights[self.which]
        top, bottom = float(inside.max()) + slack, float(inside.min()) - slack
        highest, lowest = _extremes(heights)
        beyond = np.concatenate([highest[heights[highest] > top], lowest[heights[lowest] < bottom]])
        if not len(beyond):
            return False
        self.which = np.concatenate([self.which, beyond])
        self.points = self.cloud.at(self.which) - self.center
        return True


def _extremes(heights: Floats) -> tuple[Indices, Indices]:
    """The highest and the lowest point of each block of points that follow each other."""
    size = max(8, len(heights) // BLOCKS)
    whole = len(heights) // size * size
    blocks = heights[:whole].reshape(-1, size)
    first = np.arange(0, whole, size)
    high, low = first + blocks.argmax(axis=1), first + blocks.argmin(axis=1)
    if whole < len(heights):
        high = np.append(high, whole + int(heights[whole:].argmax()))
        low = np.append(low, whole + int(heights[whole:].argmin()))
    return high, low


def _frame(normal: Floats, *, like: Floats) -> Floats:
    """Axes with this third one, turned as little as can be from others."""
    first = like[0] - (like[0] @ normal) * normal
    if float(first @ first) < 0.25:  # the first axis lies along it: take another
        first = like[2] - (like[2] @ normal) * normal
    first = first / np.sqrt(first @ first)
    return np.array([first, _square(normal, first), normal])


def _square(one: Floats, other: Floats) -> Floats:
    """The direction square to two."""
    (a, b, c), (d, e, f) = one.tolist(), other.tolist()
    return np.array([b * f - c * e, c * d - a * f, a * e - b * d])


def _least_width(corners: Floats) -> float:
    """The points are at least so wide in every direction: the least height of a triangle among them."""
    (a, b, _), (c, d, _), (e, f, _) = corners.tolist()
    sides = math.hypot(c - a, d - b), math.hypot(e - c, f - d), math.hypot(e - a, f - b)
    return float(abs((c - a) * (f - b) - (d - b) * (e - a))) / max(sides)


def _result(
    cloud: Cloud, search: _Search, found: _Found, plane: Plane, across: float, least: float, thick: float
) -> Flatness:
    upper, lower = (
        tuple(sorted(int(search.which[one]) for one in side)) for side in (found.held.upper, found.held.lower)
    )
    normal, middle = found.normal, (found.high + found.low) / 2
    if points_down(normal):
        normal, middle, upper, lower = -normal, -middle, lower, upper
    told = coefficients(normal, center_mm=cloud.origin + middle * normal)
    flags = []
    if told is None:
        flags.append(
            "The face stands nearly along z: z = a x + b y + c cannot say its plane. The zone holds all the same."
        )
    if thick > THICK:
        flags.append(
            f"The points are {100 * thick:.0f} % as thick as they are wide: is that a face, are its columns x, y, z?"
        )
    return Flatness(
        minimum_zone_mm=found.width,
        least_squares_mm=plane.deviation_mm,
        across_least_squares_mm=across,
        certificate_gap_mm=max(0.0, found.width - least),
        normal=(float(normal[0]), float(normal[1]), float(normal[2])),
        plane=told,
        upper=upper,
        lower=lower,
        flags=tuple(flags),
    )
