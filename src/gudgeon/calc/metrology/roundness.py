"""Roundness of points of a section: minimum zone, least squares, circumscribed and inscribed circle.

The zone and the circumscribed circle are solved exactly on a few of the points, by trying every circle that
could be the answer; points that contradict it are added, until none does. What is best on a few points
is never worse than what is best on all, so the last answer is the best of all circles, not of those nearby.
"""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from gudgeon.calc.metrology.circle import Floats, Points, Section, least_squares_circle
from gudgeon.calc.metrology.round_errors import CloserToLine, NotSurrounded

Method = Literal["minimum-zone", "least-squares", "circumscribed", "inscribed"]
SAME = 1e-11  # share of the radius within which points count as touching one circle
ROUNDING = 8 * float(np.finfo(float).eps)
PARALLEL = 1e-12  # sine of an angle between two lines that counts as none
RIGHT = 1e-12  # share by which the longest side of a right triangle may seem too long
SECTORS = 4  # the first points tried are the highest and the lowest of each quarter
AT_ONCE = 100_000  # centers tried in one go, which bounds the memory


@dataclass(frozen=True, slots=True)
class Roundness:
    """The deviation from a circle, and what decides it.

    `radius_mm` is that of the reference circle; for the minimum zone the mean of its two circles. `outer` and
    `inner` number the points, from 0, that are farthest from the center and nearest to it. `gap_deg` is the largest
    angle, seen from the center, that no point lies in.
    """

    method: Method
    deviation_mm: float
    center_x_mm: float
    center_y_mm: float
    radius_mm: float
    outer: tuple[int, ...]
    inner: tuple[int, ...]
    gap_deg: float

    @property
    def surrounded(self) -> bool:
        """Whether points lie on all sides of the center; on an arc the center itself says little."""
        return self.gap_deg < 180


def minimum_zone(points: Points) -> Roundness:
    """Roundness as the least distance of two circles of one center that hold all points between them.

    Equation:
        minimize max |p_i − c| − min |p_i − c| over c

    Parameters:
        points: x and y of each point [mm]

    Returns:
        deviation, center, mean radius of the zone [mm], numbers of the points that touch

    Valid for:
        points all around and arcs: the answer is the least of all centers. On an arc it holds for the arc alone,
        and the center moves far with a small change of one reading

    Source:
        ISO 12181-1:2011 (minimum zone reference circles). HAND: at a least zone two points touch outside and
        two inside, in turn, so its center lies on the bisectors of two pairs; every such center is tried.

    Example:
        >>> found = minimum_zone([(3.0, 0.0), (0.0, 2.0), (-3.0, 0.0), (0.0, -2.0)])
        >>> found.deviation_mm, found.radius_mm, found.outer, found.inner
        (1.0, 2.5, (0, 2), (1, 3))

    Not covered:
        filtering: what waviness is cut off is decided by how the points are spaced.
    """
    section = Section.of(points)
    tried = _first_tried(section)
    while True:
        center, least = _narrowest_ring(section.points[tried])
        width, across = _narrowest_strip(section.points[tried])
        if width < least:
            heights = section.points @ across
            more = {int(heights.argmax()), int(heights.argmin())} - set(tried)
            if not more:
                raise CloserToLine(width * section.spread)
        else:
            away = section.distances(center)
            more = {int(away.argmax()), int(away.argmin())} - set(tried)
            if not more or np.ptp(away) - least <= ROUNDING * float(away.max()):
                return _about(section, center, method="minimum-zone")
        tried += sorted(more)


def least_squares(points: Points) -> Roundness:
    """Roundness as the distance of the farthest from the nearest point about the least-squares center.

    Equation:
        max |p_i − c| − min |p_i − c|, c of the least-squares circle

    Parameters:
        points: x and y of each point [mm]

    Returns:
        deviation, center, radius [mm], numbers of the farthest and the nearest point

    Valid for:
        points all around and arcs; never below the minimum zone

    Source:
        ISO 12181-1:2011 (least squares reference circle).

    Example:
        >>> found = least_squares([(3.0, 0.0), (0.0, 2.0), (-3.0, 0.0), (0.0, -2.0)])
        >>> round(found.deviation_mm, 9), round(found.radius_mm, 9)
        (1.0, 2.5)

    Not covered:
        filtering.
    """
    section = Section.of(points)
    circle = least_squares_circle(points)
    center = (np.asarray([circle.center_x_mm, circle.center_y_mm]) - section.middle) / section.spread
    return _about(section, center, method="least-squares", radius_mm=circle.radius_mm)


def circumscribed(points: Points) -> Roundness:
    """Roundness about the smallest circle that holds all points: a shaft in the smallest ring that takes it.

    Equation:
        minimize max |p_i − c| over c; deviation = max |p_i − c| − min |p_i − c|

    Parameters:
        points: x and y of each point [mm]

    Returns:
        deviation, center, radius of the circumscribed circle [mm], numbers of the points that touch it

    Valid for:
        any points; on an arc below half a turn the circle is far smaller than that of the arc

    Source:
        ISO 12181-1:2011 (minimum circumscribed reference circle). HAND: two points across from each other or three
        points fix it.

    Example:
        >>> found = circumscribed([(3.0, 0.0), (0.0, 2.0), (-3.0, 0.0), (0.0, -2.0)])
        >>> found.radius_mm, found.outer
        (3.0, (0, 2))

    Not covered:
        filtering.
    """
    section = Section.of(points)
    tried = sorted({int(one) for axis in section.points.T for one in (axis.argmax(), axis.argmin())})
    while True:
        center, radius = _smallest_round(section.points[tried])
        away = section.distances(center)
        farthest = int(away.argmax())
        if farthest in tried or away[farthest] - radius <= ROUNDING * radius:
            return _about(
                section, center, method="circumscribed", radius_mm=float(away.max()) * section.spread
            )
        tried.append(farthest)


def inscribed(points: Points) -> Roundness:
    """Roundness about the largest circle within the points: a bore with the largest plug that it takes.

    Equation:
        maximize min |p_i − c| over c within the points; deviation = max |p_i − c| − min |p_i − c|

    Parameters:
        points: x and y of each point [mm]

    Returns:
        deviation, center, radius of the inscribed circle [mm], numbers of the points that touch it

    Valid for:
        points on all sides of the center; between points the plug is taken to pass

    Source:
        ISO 12181-1:2011 (maximum inscribed reference circle). HAND: it goes through three points that surround
        its center, and no point lies in it, so it belongs to the triangles of Delaunay.

    Example:
        >>> found = inscribed([(5.0, 0.0), (0.0, 6.0), (-3.0, 4.0), (-3.0, -4.0), (0.0, -6.0)])
        >>> round(found.radius_mm, 9), round(found.deviation_mm, 9), found.inner
        (5.0, 1.0, (0, 2, 3))

    Not covered:
        filtering; arcs.
    """
    section = Section.of(points)
    circle = least_squares_circle(points)
    middle = (np.asarray([circle.center_x_mm, circle.center_y_mm]) - section.middle) / section.spread
    gap = _largest_gap(section, middle)
    center = _largest_empty(section) if gap < 180 else None
    if center is None:
        raise NotSurrounded(gap)
    smallest = float(section.distances(center).min()) * section.spread
    return _about(section, center, method="inscribed", radius_mm=smallest)


def _about(section: Section, center: Floats, *, method: Method, radius_mm: float | None = None) -> Roundness:
    """The deviation about a center; without a radius that of the middle of the zone."""
    away = section.distances(center)
    most, least = float(away.max()), float(away.min())
    touching = SAME * most
    return Roundness(
        method,
        (most - least) * section.spread,
        *section.placed(center),
        (most + least) / 2 * section.spread if radius_mm is None else radius_mm,
        tuple(np.flatnonzero(away >= most - touching).tolist()),
        tuple(np.flatnonzero(away <= least + touching).tolist()),
        _largest_gap(section, center),
    )


def _first_tried(section: Section) -> list[int]:
    """The highest and the lowest point of each sector about the least-squares center."""
    try:
        circle = least_squares_circle(section.points)
    except CloserToLine:  # far off there may still be a circle: begin with any points
        return [0, 1, 2]
    center = np.asarray([circle.center_x_mm, circle.center_y_mm])
    away = section.distances(center)
    turned = np.arctan2(*(section.points - center).T)
    order = np.argsort(turned, kind="stable")
    parts = [part for part in np.array_split(order, SECTORS) if part.size]
    return sorted({int(part[pick(away[part])]) for part in parts for pick in (np.argmax, np.argmin)})


def _narrowest_ring(points: Floats) -> tuple[Floats, float]:
    """The center of the narrowest ring around a few points, and its width: all crossings of bisectors are tried."""
    first, second = np.triu_indices(len(points), 1)
    normal = points[first] - points[second]
    level = np.sum(points[first] ** 2 - points[second] ** 2, axis=1) / 2
    length = np.hypot(normal[:, 0], normal[:, 1])
    one, other = np.triu_indices(len(first), 1)
    best, least = np.zeros(2), math.inf
    for start in range(0, len(one), AT_ONCE):
        a, b = one[start : start + AT_ONCE], other[start : start + AT_ONCE]
        turn = normal[a, 0] * normal[b, 1] - normal[a, 1] * normal[b, 0]
        crossing = np.abs(turn) > PARALLEL * length[a] * length[b]
        a, b, turn = a[crossing], b[crossing], turn[crossing]
        x = (level[a] * normal[b, 1] - level[b] * normal[a, 1]) / turn
        y = (normal[a, 0] * level[b] - normal[b, 0] * level[a]) / turn
        centers = np.column_stack([x, y])
        # No ring is narrower than the four points that gave its center need: most centers end here.
        apart = np.abs(_away(centers, points[first[a]]) - _away(centers, points[first[b]]))
        centers = centers[apart <= least]
        if len(centers):
            away = np.hypot(centers[:, :1] - points[:, 0], centers[:, 1:] - points[:, 1])
            widths = np.ptp(away, axis=1)
            found = int(widths.argmin())
            if widths[found] < least:
                best, least = centers[found], float(widths[found])
    return best, least


def _away(centers: Floats, points: Floats) -> Floats:
    """The distance of each center from the point beside it."""
    return np.asarray(np.hypot(centers[:, 0] - points[:, 0], centers[:, 1] - points[:, 1]))


def _narrowest_strip(points: Floats) -> tuple[float, Floats]:
    """The width of the narrowest strip around a few points, and the direction across it."""
    first, second = np.triu_indices(len(points), 1)
    along = points[first] - points[second]
    apart = np.hypot(along[:, 0], along[:, 1])
    along = along[apart > 0] / apart[apart > 0][:, None]
    across = np.column_stack([-along[:, 1], along[:, 0]])
    widths = np.ptp(points @ across.T, axis=0)
    found = int(widths.argmin())
    return float(widths[found]), across[found]


def _smallest_round(points: Floats) -> tuple[Floats, float]:
    """The smallest circle that holds a few points: over two of them, or through three."""
    count = len(points)
    first, second = np.triu_indices(count, 1)
    corners = np.asarray(
        [(i, j, k) for i in range(count) for j in range(i) for k in range(j)], dtype=np.intp
    ).reshape(-1, 3)
    through = _around(points, corners)
    centers = np.vstack([(points[first] + points[second]) / 2, through[np.isfinite(through).all(axis=1)]])
    away = np.hypot(centers[:, :1] - points[:, 0], centers[:, 1:] - points[:, 1])
    radii = away.max(axis=1)
    found = int(radii.argmin())
    return centers[found], float(radii[found])


def _around(points: Floats, corners: NDArray[np.integer]) -> Floats:
    """The center of the circle through the corners of each triangle; not finite where they are in a line."""
    start = points[corners[:, 0]]
    to_second, to_third = points[corners[:, 1]] - start, points[corners[:, 2]] - start
    turn = 2 * (to_second[:, 0] * to_third[:, 1] - to_second[:, 1] * to_third[:, 0])
    second, third = np.sum(to_second**2, axis=1), np.sum(to_third**2, axis=1)
    with np.errstate(divide="ignore", invalid="ignore"):
        x = (second * to_third[:, 1] - third * to_second[:, 1]) / turn
        y = (third * to_second[:, 0] - second * to_third[:, 0]) / turn
    return np.asarray(start + np.column_stack([x, y]))


def _largest_empty(section: Section) -> Floats | None:
    """The center of the largest circle with no point in it and points on all sides; None where there is none."""
    from scipy.spatial import Delaunay

    corners = Delaunay(section.points).simplices
    at = section.points[corners]
    sides = np.sort(np.stack([np.sum((at[:, n] - at[:, n - 1]) ** 2, axis=1) for n in range(3)]), axis=0)
    # The center lies within its triangle where no corner is wider than a right angle. The center itself is no
    # witness: of three points nearly in a line it is rounding.
    corners = corners[sides[2] <= (sides[0] + sides[1]) * (1 + RIGHT)]
    if not len(corners):
        return None
    centers = _around(section.points, corners)
    radii = np.hypot(*(section.points[corners[:, 0]] - centers).T)
    alike = centers[radii >= radii.max() * (1 - 1e-12)]
    # Of circles alike in size, the one that the farthest point lies nearest to: the order of the points is no reason.
    return np.asarray(min(alike, key=lambda one: float(section.distances(one).max())))


def _largest_gap(section: Section, center: Floats) -> float:
    """The largest angle, seen from a center, without a point in it [°]."""
    turned = np.sort(np.degrees(np.arctan2(*(section.points - center).T[::-1])))
    return float(np.diff(np.append(turned, turned[0] + 360)).max())
