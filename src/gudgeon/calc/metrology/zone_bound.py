"""What proves that no zone is narrower: the bound for planes that are tilted, and all directions one by one."""

import math

import numpy as np
from numpy.typing import NDArray

from gudgeon.calc.metrology.cloud import ROUNDING, Floats

SLACKS = (1e-12, 1e-6, 1e-3, 1e-2, 0.1, 0.3)  # of the zone: points so near to the planes hold them too
MOST_CORNERS = 300


def least_zone(level_mm: float, *, places: Floats, rest: Floats, wide_mm: float, found_mm: float) -> float:
    """What the zone of a face is at least, whichever way its planes are tilted.

    Equation:
        along the frame, planes tilted by t need v(t) ≥ level, v(t) ≥ level − δ + γ · |t| and v(t) ≥ W · |t| − zone;
        square to themselves v(t) / √(1 + t²). Only |t| < 2 · zone / (W − zone) can do better than what is found

    Parameters:
        level_mm: what every plane needs along the frame, proven by the exchange [mm]
        places: points across the frame [mm]
        rest: their heights over the planes found [mm]
        wide_mm: the points are at least so wide in every direction, W [mm]
        found_mm: the zone found, square to its planes [mm]

    Returns:
        bound of the zone [mm]

    Valid for:
        a frame that lies on the planes found

    Source:
        HAND: of points that touch the planes to within δ, those above and those below spread by γ in the
        direction in which they spread least (the width of the zone grows at least so fast as planes tilt).

    Example:
        >>> corners = np.array([[0.0, 0.0], [450.0, 0.0], [450.0, 180.0], [0.0, 180.0]])
        >>> rest = np.array([0.05, -0.05, 0.05, -0.05])
        >>> round(least_zone(0.1, places=corners, rest=rest, wide_mm=167.0, found_mm=0.1), 12)
        0.1

    Not covered:
        points as thick as they are wide: narrowest tries all their directions.
    """
    tilt = 2 * found_mm / (wide_mm - found_mm) if wide_mm > found_mm else math.inf
    bound = _over(level_mm, 0.0, 0.0, tilt)
    high, low = float(rest.max()), float(rest.min())
    for share in SLACKS:
        if found_mm - bound <= 4 * ROUNDING * wide_mm:
            break
        slack = share * (high - low)
        above, below = places[rest >= high - slack / 2], places[rest <= low + slack / 2]
        bound = max(bound, _over(level_mm, slack, _growth(above, below), tilt))
    return bound


def least_by_contacts(
    level_mm: float, *, above: Floats, below: Floats, wide_mm: float, slope: float, zone_mm: float
) -> float:
    """What the zone is at least, from the points that touch its planes alone, seen in a frame that is not yet turned.

    Equation:
        as least_zone with δ = 0; turning the frame by the slope moves no place by more than slope · zone, so γ falls
        by twice that at most, and W by twice that

    Parameters:
        level_mm: distance of the planes, proven along the frame and divided by √(1 + slope²) [mm]
        above: places of the points on the upper plane [mm]
        below: places of the points on the lower plane [mm]
        wide_mm: the points are at least so wide in every direction, W [mm]
        slope: of the planes in the frame [1]
        zone_mm: how thick the points are along the frame [mm]

    Returns:
        bound of the zone [mm]; 0 where the points that touch prove nothing

    Valid for:
        points that touch in three and one, or in two and two that cross

    Source:
        HAND: where γ stays above 0 the shares of the points that touch stay above 0, and the planes stay the best.

    Example:
        >>> above, below = np.array([[0.0, 0.0], [450.0, 180.0]]), np.array([[450.0, 0.0], [0.0, 180.0]])
        >>> least_by_contacts(0.1, above=above, below=below, wide_mm=167.0, slope=1e-3, zone_mm=0.1)
        0.1

    Not covered:
        contacts in a line: least_zone takes the points beside them too.
    """
    moved = 2 * slope * zone_mm
    growth, wide = _growth(above, below) - moved, wide_mm - moved
    if growth <= 0 or wide <= 2 * zone_mm:
        return 0.0
    return _over(level_mm, 0.0, growth, 2 * zone_mm / (wide - zone_mm))


def _over(level: float, slack: float, growth: float, tilt: float) -> float:
    """The least of max(level, level − slack + growth t) / √(1 + t²) from 0 to the tilt."""
    if growth <= 0:
        return level / math.hypot(1.0, tilt) if math.isfinite(tilt) else 0.0
    turn = min(slack / growth, tilt)
    first = level / math.hypot(1.0, turn)
    last = growth if math.isinf(tilt) else (level - slack + growth * tilt) / math.hypot(1.0, tilt)
    return min(first, max(last, level / math.hypot(1.0, tilt) if math.isfinite(tilt) else 0.0))


def _growth(above: Floats, below: Floats) -> float:
    """How fast the zone grows as the planes tilt: the least over directions d of max d·above − min d·below."""
    tops, bottoms = _corners(above), _corners(below)
    least = math.inf
    for corners in (tops, bottoms):
        for (x, y), (u, v) in zip(corners, corners[1:] + corners[:1], strict=True):
            size = math.hypot(u - x, v - y)
            for across, up in ((v - y, x - u), (y - v, u - x)) if size else ():
                high = max([across * x + up * y for x, y in tops])  # lists: much quicker than generators here
                low = min([across * x + up * y for x, y in bottoms])
                least = min(least, (high - low) / size)
    return least if math.isfinite(least) else 0.0


def _corners(places: Floats) -> list[tuple[float, float]]:
    """The corners of the outline of points, in their order round it."""
    ordered = sorted({(x, y) for x, y in places.tolist()})
    sides = []
    for order in (ordered, ordered[::-1]):
        side: list[tuple[float, float]] = []
        for point in order:
            while len(side) > 1 and _left(side[-2], side[-1], point) <= 0:
                side.pop()
            side.append(point)
        sides += side[:-1]
    return sides or ordered


def _left(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def narrowest(points_mm: Floats) -> tuple[Floats, float] | None:
    """The direction in which points are narrowest, by trying every one that can be.

    Equation:
        least over n of max n · p − min n · p, n square to a face of the hull or to two of its edges

    Parameters:
        points_mm: points of any shape, from about their middle [mm]

    Returns:
        direction and width [mm]; None where more than 300 points are corners, or all lie in a plane

    Valid for:
        points with at most 300 corners

    Source:
        HAND: between two parallel planes that are closest, one holds a face, or each an edge.

    Example:
        >>> edge = 0.125**0.5
        >>> corners = edge * np.array([[1, 1, 1], [1, -1, -1], [-1, 1, -1], [-1, -1, 1]])
        >>> round(narrowest(corners)[1], 12)
        0.707106781187

    Not covered:
        points of which more than 300 are corners.
    """
    from scipy.spatial import ConvexHull, QhullError

    # The thickness of a face is drawn out, or its hull is lost in rounding; corners stay corners.
    drawn = points_mm / np.maximum(np.ptp(points_mm, axis=0), ROUNDING)
    try:
        hull = ConvexHull(drawn)
    except QhullError:
        return None
    if len(hull.vertices) > MOST_CORNERS:
        return None
    corners = points_mm[hull.vertices]
    best: tuple[Floats, float] | None = None
    for directions in _directions(points_mm, hull.simplices):
        sizes = np.sqrt((directions**2).sum(axis=1))
        able = directions[sizes > 0] / sizes[sizes > 0, None]
        if not len(able):
            continue
        reach = able @ corners.T
        widths = reach.max(axis=1) - reach.min(axis=1)
        least = int(widths.argmin())
        if best is None or widths[least] < best[1]:
            best = able[least], float(widths[least])
    return best


def _directions(points: Floats, faces: NDArray[np.int32]) -> list[Floats]:
    """Directions square to each face and to each two edges, in portions."""
    first, second, third = (points[faces[:, k]] for k in range(3))
    pairs = {
        (min(a, b), max(a, b))
        for face in faces.tolist()
        for a, b in zip(face, face[1:] + face[:1], strict=True)
    }
    edges = np.array([points[b] - points[a] for a, b in sorted(pairs)])
    portions = [np.cross(second - first, third - first)]
    portions += [np.cross(edges[k], edges[k + 1 :]) for k in range(len(edges) - 1)]
    return portions
