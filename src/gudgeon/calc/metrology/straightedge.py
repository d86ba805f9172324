"""The straightedge: what a blade finds under it, and what that says of the line and of the face."""

import itertools
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from gudgeon.calc.errors import positive
from gudgeon.calc.metrology.cloud import Cloud, Floats
from gudgeon.calc.metrology.form_errors import LineWithoutLength, NoPointOnLine, TooManyWindows
from gudgeon.calc.metrology.plane import Plane
from gudgeon.calc.metrology.profile import Corner, Profile

MOST_PLACES = 5000
Line = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Gap:
    """The largest gap between the points that a straightedge bridges, and where.

    `laid_mm` is the largest gap anywhere under it when it rests on the two points on either side of its
    middle: on a crowned line it rocks there, and the gap is at its ends. The straightness of the line is at least
    `gap_mm` and at most `laid_mm`.
    """

    gap_mm: float
    at_mm: float
    rests_on_mm: tuple[float, float]
    laid_mm: float
    laid_at_mm: float


def straightedge_gap(profile_mm: ArrayLike) -> Gap:
    """The largest gap under a straightedge that is laid along a whole line.

    Equation:
        max over s of U(s) − z(s), U the least concave line above all points

    Parameters:
        profile_mm: one row place, height for each point of the line, at least two places [mm]

    Returns:
        largest gap, its place, the two points between which it opens [mm]

    Valid for:
        a line that is about level: the gap is measured along the height

    Source:
        HAND: a straightedge touches at two points and lies above all others. A point below the segment
        between two others needs a zone of that gap (two above, one below, which balance): so the gap is a lower
        bound of straightness, and of flatness where the line lies on a face. It is no upper bound of flatness:
        on a twisted face z = w/2 · u · v, with u and v from −1 to 1, edges show nothing and one diagonal shows
        w/2, half of the least zone w.

    Example:
        >>> found = straightedge_gap([[0, 0.0], [100, -0.03], [200, 0.01]])
        >>> round(found.gap_mm, 9), found.at_mm, found.rests_on_mm
        (0.035, 100.0, (0.0, 200.0))

    Not covered:
        errors of straightedge and blades; what lies beside the line.
    """
    return _gap(Profile.of(profile_mm, what="a straightedge"))


def sliding_gap(profile_mm: ArrayLike, *, length_mm: float) -> Gap:
    """The largest gap under a straightedge of one length, wherever along a line it is laid.

    Equation:
        greatest of straightedge_gap over the points from s_i to s_i + L, for each place s_i

    Parameters:
        profile_mm: one row place, height for each point of the line [mm]
        length_mm: length of the straightedge, L [mm]

    Returns:
        largest gap, its place, the two points between which it opens [mm]

    Valid for:
        at most 5,000 points: any place of the straightedge covers no more points than one that begins at a point

    Source:
        HAND: as straightedge_gap.

    Example:
        >>> bow = [[s, 1e-6 * (s - 200) ** 2] for s in range(0, 401, 50)]
        >>> round(sliding_gap(bow, length_mm=200).gap_mm, 9)
        0.01

    Not covered:
        places between the points.
    """
    length = positive(length_mm, "Length", unit="mm")
    profile = Profile.of(profile_mm, what="a straightedge")
    if len(profile) > MOST_PLACES:
        raise TooManyWindows(len(profile), MOST_PLACES)
    found = []
    for start in np.unique(profile.places).tolist():
        part = profile.part(start, end=start + length * (1 + 1e-12))
        if part.places[0] < part.places[-1]:
            found.append(_gap(part))
    if not found:
        raise NoPointOnLine(f"of {length:g} mm", 1, length)
    return max(found, key=lambda one: one.gap_mm)


def gaps_on_face(points_mm: ArrayLike, *, lines_mm: Mapping[str, Line], band_mm: float) -> dict[str, Gap]:
    """The largest gap under a straightedge on each named line of a scanned face.

    Equation:
        straightedge_gap of the points within the band: place along the line, height off the plane of
        least squares

    Parameters:
        points_mm: one row x, y, z for each point of the face [mm]
        lines_mm: for each line its two ends, each x, y [mm]
        band_mm: how far from the line a point may lie to count, on either side [mm]

    Returns:
        largest gap on each line [mm]

    Valid for:
        a face that is about square to z

    Source:
        HAND: as straightedge_gap; each gap is a lower bound of the flatness of the face.

    Example:
        >>> twisted = [[0, 0, 0.05], [400, 0, -0.05], [400, 200, 0.05], [0, 200, -0.05], [200, 100, 0]]
        >>> lines = {"diagonal": ((0, 0), (400, 200)), "long edge": ((0, 0), (400, 0))}
        >>> found = gaps_on_face(twisted, lines_mm=lines, band_mm=1.0)
        >>> [(name, round(one.gap_mm, 9)) for name, one in found.items()]
        [('diagonal', 0.05), ('long edge', 0.0)]

    Not covered:
        an upper bound of flatness: no line tells what lies beside it.
    """
    found = {}
    for name, profile in profiles_on_face(points_mm, lines_mm=lines_mm, band_mm=band_mm).items():
        if len(profile) < 2 or float(np.ptp(profile[:, 0])) <= 0:
            raise NoPointOnLine(name, len(profile), band_mm)
        found[name] = _gap(Profile.of(profile, what="a straightedge"))
    return found


def profiles_on_face(
    points_mm: ArrayLike, *, lines_mm: Mapping[str, Line], band_mm: float
) -> dict[str, Floats]:
    """The points of a scanned face along each named line, as profiles.

    Equation:
        s = (p − a) · e, z off the plane of least squares, for the points with |(p − a) × e| ≤ band

    Parameters:
        points_mm: one row x, y, z for each point of the face [mm]
        lines_mm: for each line its two ends, each x, y [mm]
        band_mm: how far from the line a point may lie to count, on either side and beyond its ends [mm]

    Returns:
        for each line one row place, height for each point near it, by rising place [mm]

    Valid for:
        a face that is about square to z

    Source:
        HAND: the foot of each point on the line through a in the direction e.

    Example:
        >>> face = [[0, 0, 0.0], [400, 0, 0.0], [400, 200, 0.0], [0, 200, 0.0], [200, 1, 0.0]]
        >>> found = profiles_on_face(face, lines_mm={"edge": ((0, 0), (400, 0))}, band_mm=2.0)["edge"]
        >>> [round(place) for place, _ in found.tolist()]
        [0, 200, 400]

    Not covered:
        heights between the points; how the face slopes within the band.
    """
    band = positive(band_mm, "Band", unit="mm")
    cloud = Cloud.of(points_mm, what="a face")
    _, heights = Plane.among(cloud)
    places = cloud.values[:, :2]
    found = {}
    for name, (start, end) in lines_mm.items():
        first, along = np.array(start, dtype=np.float64), np.subtract(end, start, dtype=np.float64)
        length = float(np.hypot(*along))
        if not length:
            raise LineWithoutLength(name)
        from_start = places - first
        place = from_start @ along / length
        aside = np.abs(from_start @ np.array([-along[1], along[0]])) / length
        near = (aside <= band) & (place >= -band) & (place <= length + band)
        profile = np.column_stack([place[near], heights[near]])
        found[name] = profile[np.argsort(profile[:, 0], kind="stable")]
    return found


def _gap(profile: Profile) -> Gap:
    corners = profile.upper()
    best: tuple[float, float, tuple[float, float]] = (0.0, corners[0][0], (corners[0][0], corners[1][0]))
    middle = (corners[0][0] + corners[-1][0]) / 2
    rest: tuple[Corner, Corner] = (corners[0], corners[1])
    for start, end in itertools.pairwise(corners):
        part = profile.part(start[0], end=end[0])
        under = -part.over((start, end))
        k = int(under.argmax())
        if under[k] > best[0]:
            best = float(under[k]), float(part.places[k]), (start[0], end[0])
        if start[0] <= middle:
            rest = start, end
    laid = -profile.over(rest)
    k = int(laid.argmax())
    return Gap(*best, laid_mm=float(laid[k]), laid_at_mm=float(profile.places[k]))
