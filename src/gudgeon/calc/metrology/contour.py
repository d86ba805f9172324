"""Level lines and bands of a surface that is known at scattered points only."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from gudgeon.calc.metrology.contour_errors import LevelsUnordered, NotASurface

Spot: TypeAlias = tuple[float, float]
Corner: TypeAlias = tuple[float, float, float]
Edge: TypeAlias = tuple[int, int]
_NO_AREA = 1e-9


@dataclass(frozen=True, slots=True)
class Band:
    """What lies between two heights; each piece is a polygon, all of them turn the same way."""

    low: float
    high: float
    pieces: tuple[tuple[Spot, ...], ...]


@dataclass(frozen=True, slots=True)
class LevelLine:
    """Where the surface has one height: each piece is a line through its corners, closed where it ends as it began."""

    height: float
    pieces: tuple[tuple[Spot, ...], ...]


@dataclass(frozen=True, slots=True)
class Contour:
    """Bands from the lowest to the highest, a line for each level, and how much of it all was drawn."""

    bands: tuple[Band, ...]
    lines: tuple[LevelLine, ...]
    triangles: int
    left_out: int


def contour(
    points: Sequence[Corner],
    *,
    levels: Sequence[float],
    longest_mm: float = math.inf,
    outline: Sequence[Spot] = (),
) -> Contour:
    """Level lines and bands of a surface through points, cut exactly out of the triangles between them.

    Equation:
        Delaunay triangles in x and y; within each the height is linear, so that a level z crosses the side from
        p to q at p + (q − p) (z − z_p) / (z_q − z_p)

    Parameters:
        points: x, y [mm] and height [any unit] of every point that was read
        levels: the heights of the lines, rising [unit of the height]
        longest_mm: triangles with a longer side are left out: nothing was read there [mm]
        outline: the corners of the face; triangles whose middle lies outside it are left out [mm]

    Returns:
        bands (below the first level, between the levels, above the last) and lines, x and y in [mm]

    Valid for:
        three points or more that are not on a line; of points in one place only one counts

    Source:
        HAND: linear interpolation in a triangle is the plane through its corners

    Example:
        >>> found = contour([(0, 0, 0), (10, 0, 10), (0, 10, 0), (10, 10, 10)], levels=[4])
        >>> sorted(found.lines[0].pieces[0]), found.left_out
        ([(4.0, 0.0), (4.0, 4.0), (4.0, 10.0)], 0)

    Not covered:
        curves between the points: nothing is smoothed, and nothing is drawn beyond the outermost of them;
        openings in the face, which are laid over the drawing
    """
    if any(low >= high for low, high in pairwise(levels)):
        raise LevelsUnordered(levels)
    every = _triangles(points)
    kept = [
        one
        for one in every
        if _longest_side(points, one) <= longest_mm and _on_the_face(points, one, outline)
    ]
    ends = [-math.inf, *levels, math.inf]
    bands = [_band(points, kept, low, high) for low, high in pairwise(ends)]
    lines = [LevelLine(level, _joined(points, kept, level)) for level in levels]
    return Contour(tuple(bands), tuple(lines), len(kept), len(every) - len(kept))


def usual_side(points: Sequence[Corner]) -> float:
    """The longest side that a triangle between the points usually has.

    Equation:
        the median, over all Delaunay triangles, of the longest of the three sides

    Parameters:
        points: x, y [mm] and height [any unit] of every point

    Returns:
        the length [mm]

    Valid for:
        three points or more that are not on a line

    Source:
        HAND: on a grid of a by b all triangles have the diagonal √(a² + b²) as their longest side

    Example:
        >>> usual_side([(x, y, 0) for x in (0, 3, 6) for y in (0, 4)])
        5.0

    Not covered:
        points that are dense in one half of a face and sparse in the other
    """
    sides = sorted(_longest_side(points, one) for one in _triangles(points))
    middle = len(sides) // 2
    return sides[middle] if len(sides) % 2 else (sides[middle - 1] + sides[middle]) / 2


Triangle: TypeAlias = tuple[int, int, int]


def _triangles(points: Sequence[Corner]) -> list[Triangle]:
    """Triangles of points that all turn the same way; those without an area are none."""
    from scipy.spatial import Delaunay, QhullError

    if len(points) < 3:
        raise NotASurface(len(points))
    try:
        found = Delaunay([(x, y) for x, y, _ in points]).simplices
    except QhullError:
        raise NotASurface(len(points)) from None
    kept: list[Triangle] = []
    for a, b, c in found.tolist():
        area = _area(points, (a, b, c))
        if abs(area) > _NO_AREA * _longest_side(points, (a, b, c)) ** 2:
            kept.append((a, b, c) if area > 0 else (a, c, b))
    if not kept:
        raise NotASurface(len(points))
    return kept


def _area(points: Sequence[Corner], one: Triangle) -> float:
    (ax, ay, _), (bx, by, _), (cx, cy, _) = (points[corner] for corner in one)
    return ((bx - ax) * (cy - ay) - (cx - ax) * (by - ay)) / 2


def _longest_side(points: Sequence[Corner], one: Triangle) -> float:
    a, b, c = (points[corner][:2] for corner in one)
    return max(math.dist(a, b), math.dist(b, c), math.dist(c, a))


def _on_the_face(points: Sequence[Corner], one: Triangle, outline: Sequence[Spot]) -> bool:
    middle = sum(points[i][0] for i in one) / 3, sum(points[i][1] for i in one) / 3
    return len(outline) < 3 or _within(middle, outline)


def _within(spot: Spot, outline: Sequence[Spot]) -> bool:
    """Whether a ray from the spot crosses the outline an odd number of times."""
    x, y = spot
    odd = False
    for (ax, ay), (bx, by) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if (ay > y) != (by > y) and x < ax + (bx - ax) * (y - ay) / (by - ay):
            odd = not odd
    return odd


def _band(points: Sequence[Corner], triangles: Iterable[Triangle], low: float, high: float) -> Band:
    pieces = []
    for one in triangles:
        corners = [points[corner] for corner in one]
        least, most = min(z for *_, z in corners), max(z for *_, z in corners)
        if most < low or least >= high:
            continue
        piece = _cut(_cut(corners, low, above=True), high, above=False)
        if len(piece) > 2:
            pieces.append(tuple((x, y) for x, y, _ in piece))
    return Band(low, high, tuple(pieces))


def _cut(corners: Sequence[Corner], level: float, *, above: bool) -> list[Corner]:
    """The part of a polygon above a level, or below it."""
    if math.isinf(level):
        return list(corners)
    kept: list[Corner] = []
    for p, q in zip(corners, [*corners[1:], *corners[:1]], strict=True):
        p_in, q_in = ((z >= level) if above else (z <= level) for z in (p[2], q[2]))
        if p_in:
            kept.append(p)
        if p_in != q_in:
            kept.append(_crossing(p, q, level))
    return kept


def _crossing(p: Corner, q: Corner, level: float) -> Corner:
    share = (level - p[2]) / (q[2] - p[2])
    return p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share, level


def _joined(
    points: Sequence[Corner], triangles: Iterable[Triangle], level: float
) -> tuple[tuple[Spot, ...], ...]:
    """The crossings of one level as lines: two triangles meet in a side, so their pieces meet in its crossing."""
    beside: dict[Edge, list[Edge]] = {}
    for one in triangles:
        crossed = [
            (min(a, b), max(a, b))
            for a, b in zip(one, (*one[1:], one[0]), strict=True)
            if (points[a][2] > level) != (points[b][2] > level)
        ]
        if len(crossed) == 2:
            first, second = crossed
            beside.setdefault(first, []).append(second)
            beside.setdefault(second, []).append(first)
    starts = [edge for edge, others in beside.items() if len(others) == 1] + list(beside)
    seen: set[Edge] = set()
    pieces = []
    for start in starts:
        if start in seen:
            continue
        walk = _walk(beside, start, seen)
        pieces.append(tuple(_crossing(points[a], points[b], level)[:2] for a, b in walk))
    return tuple(pieces)


def _walk(beside: dict[Edge, list[Edge]], start: Edge, seen: set[Edge]) -> list[Edge]:
    walk, here = [start], start
    seen.add(start)
    while True:
        following = next((edge for edge in beside[here] if edge not in seen), None)
        if following is None:
            break
        walk.append(following)
        seen.add(following)
        here = following
    return [*walk, start] if len(walk) > 2 and start in beside[here] else walk
