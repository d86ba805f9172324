"""Straightness of a profile: heights read along one line."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from gudgeon.calc.errors import finite, positive
from gudgeon.calc.metrology.form_errors import ReadingsUnpaired
from gudgeon.calc.metrology.profile import Corner, Profile


@dataclass(frozen=True, slots=True)
class Straightness:
    """The least zone of a profile; beside it the zone about the line of least squares and about that through its ends.

    `highest_mm` and `lowest_mm` are measured along the height from the line through both ends.
    """

    minimum_zone_mm: float
    least_squares_mm: float
    highest_mm: float
    lowest_mm: float

    @property
    def end_points_mm(self) -> float:
        """From the lowest point to the highest, off the line through both ends."""
        return self.highest_mm - self.lowest_mm


def straightness(profile_mm: ArrayLike) -> Straightness:
    """The distance of the two closest parallel lines that hold a profile between them.

    Equation:
        least over the edges of the outline of the points of the distance to its farthest corner

    Parameters:
        profile_mm: one row place, height for each point, at least two places [mm]

    Returns:
        least zone, zone about the line of least squares, highest and lowest off the line through the ends [mm]

    Valid for:
        profiles of any slope and spacing

    Source:
        ISO 12780-1:2011 (reference lines). HAND: of two closest parallel lines one holds an edge of the outline.
        Meets STR-BOW.

    Example:
        >>> round(straightness([[0, 0.0], [100, 0.02], [200, 0.0]]).minimum_zone_mm, 9)
        0.02

    Not covered:
        a face: straight lines on it prove no flatness.
    """
    profile = Profile.of(profile_mm, what="straightness")
    turned, _ = profile.turned()
    first, last = ((float(profile.places[k]), float(profile.heights[k])) for k in (0, len(profile) - 1))
    off_ends = profile.over((first, last))
    return Straightness(
        minimum_zone_mm=_width(turned),
        least_squares_mm=float(np.ptp(turned.heights)),
        highest_mm=float(off_ends.max()),
        lowest_mm=float(off_ends.min()),
    )


def _width(profile: Profile) -> float:
    """The width of the outline: of each edge, the corner that lies farthest from it."""
    upper, lower = profile.upper(), profile.lower()
    corners = np.array(upper + lower)
    closing: list[tuple[Corner, Corner]] = [(upper[0], lower[0]), (upper[-1], lower[-1])]
    best = math.inf
    for (x, y), (u, v) in (*itertools.pairwise(upper), *itertools.pairwise(lower), *closing):
        size = math.hypot(u - x, v - y)
        if size:
            off = ((u - x) * (corners[:, 1] - y) - (v - y) * (corners[:, 0] - x)) / size
            best = min(best, float(np.ptp(off)))
    return best


def from_angles(readings_arcsec: Sequence[float], *, base_mm: float) -> tuple[float, ...]:
    """Heights along a line from the tilts of a carriage that is stepped along it.

    Equation:
        z_0 = 0; z_k = z_(k−1) + base · tan(reading_k − reading_1)

    Parameters:
        readings_arcsec: tilt at each step, against any fixed direction [″]
        base_mm: distance of the carriage's feet, which is also the step [mm]

    Returns:
        heights at the ends of the steps, one more than readings [mm]

    Valid for:
        steps that join: each begins where the last ended

    Source:
        HAND: the carriage rises by base · tan(tilt) on each step; the slope of the whole is left out with the
        first reading, and no straightness depends on it.

    Example:
        >>> [round(1000 * one, 1) for one in from_angles([10.0, 13.0, 17.0], base_mm=103.1324)]
        [0.0, 0.0, 1.5, 5.0]

    Not covered:
        a carriage that turns or is lifted between steps.
    """
    positive(base_mm, "Base", unit="mm")
    heights = [0.0]
    for reading in readings_arcsec:
        tilt = finite(reading, "Reading") - readings_arcsec[0]
        heights.append(heights[-1] + base_mm * math.tan(math.radians(tilt / 3600)))
    return tuple(heights)


def paired(places_mm: Sequence[float], *, heights_mm: Sequence[float]) -> tuple[tuple[float, float], ...]:
    """A profile from places and heights.

    Equation:
        (s_k, z_k), k = 1 … n

    Parameters:
        places_mm: where along the line [mm]
        heights_mm: what was read there [mm]

    Returns:
        one row place, height for each point [mm]

    Valid for:
        as many heights as places

    Source:
        HAND: no more than putting them side by side.

    Example:
        >>> paired([0.0, 50.0], heights_mm=[0.01, 0.02])
        ((0.0, 0.01), (50.0, 0.02))

    Not covered:
        places that were not read.
    """
    if len(places_mm) != len(heights_mm):
        raise ReadingsUnpaired(len(places_mm), len(heights_mm))
    return tuple(zip(places_mm, heights_mm, strict=True))
