"""From a photo of a flat part to millimeters: the map of a plane by perspective, and how far a traced place may be off.

Places in a photo are pixels from its upper left corner to the right and down; places on the part are millimeters to the
right and up, as the photo shows the part.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING, TypeAlias

from gudgeon.calc.errors import not_negative, positive
from gudgeon.calc.template.trace_errors import (
    BeyondTheHorizon,
    NotAFinitePoint,
    PointsCrossed,
    PointsInALine,
    TooFewKnown,
    TooManyKnown,
)

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[float64]

Point: TypeAlias = tuple[float, float]
LEANEST = 0.02
"""A triangle of known points less high than this share of their extent is taken for a line."""
MOST_KNOWN = 20
"""More known points are not taken; common practice, no source: 8 around a part are plenty."""
_STEP = 1e-2
"""Of a derivative, in pixels or in millimeters: far below what anybody picks, far above rounding."""
COVERAGE = 2.45
"""By which the standard uncertainty is multiplied, so that 95 % of the places lie no farther off in any direction.

HAND: of errors alike in both directions √(−2 ln 0.05) = 2.448; two, as along one line alone, would hold 86 %."""


@dataclass(frozen=True, slots=True)
class Known:
    """A point whose place is known both in the photo [px] and on the part [mm]."""

    name: str
    photo_px: Point
    true_mm: Point


@dataclass(frozen=True, slots=True)
class Traced:
    """A place on the part [mm], and how far off it may be in any direction at about 95 % [mm]."""

    name: str
    x_mm: float
    y_mm: float
    off_mm: float


@dataclass(frozen=True, slots=True)
class Tracing:
    """Traced places; `residual_mm` is by how much the known points miss at worst, 0 where there are just four."""

    places: tuple[Traced, ...]
    residual_mm: float


def trace(
    known: Sequence[Known], *, places: Sequence[tuple[str, Point]], pick_px: float, known_off_mm: float = 0.0
) -> Tracing:
    """Places on a flat part from where they are seen in a photo, by four or more known points.

    Equation:
        (x, y) = ((h11 u + h12 v + h13) / w, (h21 u + h22 v + h23) / w), w = h31 u + h32 v + 1; the eight h from
        two equations for each known point, exact of four, by least squares of more;
        U = 2.45 √(Σ (∂(x, y)/∂q · u(q))²) over every coordinate q that was picked or measured

    Parameters:
        known: points with their places in the photo and on the part, at least four, no three in a line [px, mm]
        places: what is to be traced, by name, in the photo [px]
        pick_px: standard uncertainty of a picked coordinate [px]
        known_off_mm: standard uncertainty of a coordinate of a known point on the part [mm]

    Returns:
        the places on the part, how far off they may be in any direction (k = 2.45, 95 %), and the worst miss of the
        known points [mm]

    Valid for:
        a flat part, known points in its plane, a lens that keeps straight lines straight

    Source:
        Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd edition 2004, 4.1 (map of a plane, with
        its points scaled) and 5.2 (uncertainty carried through); JCGM 100:2008, 5.1.2.

    Example:
        >>> sheet = ((0, 0), (200, 0), (200, 100), (0, 100))
        >>> photo = ((100, 700), (900, 700), (700, 300), (300, 300))
        >>> known = [Known(str(n), p, t) for n, (p, t) in enumerate(zip(photo, sheet, strict=True), 1)]
        >>> middle = trace(known, places=[("1", (500, 1300 / 3))], pick_px=1.0).places[0]
        >>> round(middle.x_mm, 6), round(middle.y_mm, 6)  # where the diagonals of the photo meet
        (100.0, 50.0)

    Not covered:
        what stands proud of the plane of the known points, like the head of a bolt seen at a slant; a lens that
        bends lines, so keep to the middle of the picture.
    """
    import numpy as np

    positive(pick_px, "Uncertainty of a picked point", unit="px")
    not_negative(known_off_mm, "Uncertainty of a known point", unit="mm")
    _check(known)
    photo = np.array([one.photo_px for one in known], dtype=float)
    true = np.array([one.true_mm for one in known], dtype=float)
    spots = np.array([spot for _, spot in places], dtype=float).reshape(-1, 2)
    solved = map_by(photo, true=true)
    _check_view(solved, photo)
    for (name, _), spot in zip(places, spots, strict=True):
        if not np.all(np.isfinite(spot)) or _depth(solved, spot) <= 0:
            raise BeyondTheHorizon(name)
    mapped = _mapped(solved, spots)
    off = COVERAGE * np.sqrt(_variances(photo, true, spots, pick_px=pick_px, known_off_mm=known_off_mm))
    miss = np.hypot(*(_mapped(solved, photo) - true).T)
    return Tracing(
        tuple(
            Traced(name, float(x), float(y), float(u))
            for (name, _), (x, y), u in zip(places, mapped, off, strict=True)
        ),
        float(miss.max()) if len(known) > 4 else 0.0,
    )


def _check(known: Sequence[Known]) -> None:
    import numpy as np

    if len(known) < 4:
        raise TooFewKnown(len(known))
    if len(known) > MOST_KNOWN:
        raise TooManyKnown(len(known), most=MOST_KNOWN)
    for one in known:
        if not np.all(np.isfinite([one.photo_px, one.true_mm])):
            raise NotAFinitePoint(one.name)
    for where, points in (
        ("in the photo", [one.photo_px for one in known]),
        ("on the part", [one.true_mm for one in known]),
    ):
        best = max(_leanest(four) for four in combinations(points, 4))
        if best < LEANEST:
            raise PointsInALine(where, best, LEANEST)


def _leanest(four: Sequence[Point]) -> float:
    """The least height of any triangle of four points, as a share of their extent."""
    import numpy as np

    extent = max(float(np.hypot(a[0] - b[0], a[1] - b[1])) for a, b in combinations(four, 2))
    if not extent:
        return 0.0
    heights = []
    for a, b, c in combinations(four, 3):
        area = abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]))
        longest = max(float(np.hypot(p[0] - q[0], p[1] - q[1])) for p, q in ((a, b), (b, c), (a, c)))
        heights.append(area / longest if longest else 0.0)
    return min(heights) / extent


def map_by(photo: "Floats", *, true: "Floats") -> "Floats":
    """The matrix of the map from the photo onto the part; points are first moved to their middle and scaled to one.

    Equation:
        x = (h11 u + h12 v + h13) / w, y = (h21 u + h22 v + h23) / w, w = h31 u + h32 v + h33, up to one factor

    Parameters:
        photo: known points in the photo, n × 2 with n at least 4 [px]
        true: the same points on the part, n × 2 [mm]

    Returns:
        the 3 × 3 matrix h, from [px] to [mm]; exact of four points, by least squares of more

    Valid for:
        points of which no three lie in a line; nothing is checked here, `trace` does

    Source:
        Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd edition 2004, 4.1 and 4.4.4 (scaling).

    Example:
        >>> import numpy as np
        >>> square = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
        >>> h = map_by(square, true=2 * square)
        >>> [float(round(one, 9)) for one in (h / h[2, 2]).diagonal()]  # twice as large, and nothing else
        [2.0, 2.0, 1.0]

    Not covered:
        a lens that bends lines
    """
    import numpy as np

    (seen, from_photo), (meant, from_true) = _scaled(photo), _scaled(true)
    rows, wanted = [], []
    for (u, v), (x, y) in zip(seen, meant, strict=True):
        rows += [[u, v, 1, 0, 0, 0, -u * x, -v * x], [0, 0, 0, u, v, 1, -u * y, -v * y]]
        wanted += [x, y]
    found = np.linalg.lstsq(np.array(rows), np.array(wanted), rcond=None)[0]
    matrix = np.linalg.inv(from_true) @ np.append(found, 1.0).reshape(3, 3) @ from_photo
    return np.asarray(matrix, dtype=float)


def _scaled(points: "Floats") -> "tuple[Floats, Floats]":
    import numpy as np

    middle = points.mean(axis=0)
    size = float(np.abs(points - middle).max())
    move = np.array([[1 / size, 0, -middle[0] / size], [0, 1 / size, -middle[1] / size], [0, 0, 1]])
    return (points - middle) / size, move


def _mapped(matrix: "Floats", points: "Floats") -> "Floats":
    import numpy as np

    full = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    return np.asarray(full[:, :2] / full[:, 2:], dtype=float)


def _depth(matrix: "Floats", point: "Floats") -> float:
    """Above 0 on the side of the horizon on which the middle of the known points lies."""
    return float(matrix[2, 0] * point[0] + matrix[2, 1] * point[1] + matrix[2, 2])


def _check_view(matrix: "Floats", photo: "Floats") -> None:
    """A camera sees all known points before it, and left as left.

    The photo counts down and the part up, so the map of a part that is seen from its front turns the way round.
    """
    import numpy as np

    seen = all(_depth(matrix, one) > 0 for one in photo)
    if not seen or np.linalg.det(matrix) >= 0:
        raise PointsCrossed


def _variances(
    photo: "Floats", true: "Floats", spots: "Floats", *, pick_px: float, known_off_mm: float
) -> "Floats":
    """Of each place along its worst direction: the law of propagation, with derivatives by central differences."""
    import numpy as np

    spread = np.zeros((len(spots), 2, 2))

    def add(one_way: "Floats", other_way: "Floats", *, off: float) -> None:
        change = (one_way - other_way) / (2 * _STEP) * off
        spread[:] += change[:, :, None] * change[:, None, :]

    solved = map_by(photo, true=true)
    for axis in range(2):
        step = np.zeros(2)
        step[axis] = _STEP
        add(_mapped(solved, spots + step), _mapped(solved, spots - step), off=pick_px)
    for point in range(len(photo)):
        for axis in range(2):
            moved = np.zeros_like(photo)
            moved[point, axis] = _STEP
            seen = [_mapped(map_by(photo + way * moved, true=true), spots) for way in (1, -1)]
            meant = [_mapped(map_by(photo, true=true + way * moved), spots) for way in (1, -1)]
            add(seen[0], seen[1], off=pick_px)
            add(meant[0], meant[1], off=known_off_mm)
    return np.asarray(np.linalg.eigvalsh(spread)[:, -1], dtype=float)
