"""Ways from the inputs of a published case to forms of faces and lines."""

import math
from collections.abc import Callable, Mapping

from gudgeon.calc.metrology.flatness import flatness
from gudgeon.calc.metrology.straightness import Straightness, from_angles, paired, straightness

ARC_SECOND = math.radians(1 / 3600)


def _flatness(given: Mapping[str, str]) -> float:
    points = [[float(one) for one in point.split()] for point in given["points"].split("/")]
    return flatness(points).minimum_zone_mm


def _bow(given: Mapping[str, str]) -> float:
    """The least zone of z = x² from −1 to 1."""
    last = int(given["places"]) - 1
    places = [2 * k / last - 1 for k in range(last + 1)]
    return straightness([[place, place**2] for place in places]).minimum_zone_mm


def _carriage(given: Mapping[str, str]) -> Straightness:
    """A line stepped with a carriage whose feet are so far apart that it rises by so much a second of arc."""
    base = float(given["um_per_arcsec"]) / 1000 / math.tan(ARC_SECOND)
    heights = from_angles([float(one) for one in given["readings"].split()], base_mm=base)
    return straightness(paired([base * k for k in range(len(heights))], heights_mm=heights))


FACE_WAYS: Mapping[str, Callable[[Mapping[str, str]], float]] = {
    "flatness_of_points": _flatness,
    "straightness_of_parabola": _bow,
    "highest_off_ends": lambda given: 1000 * _carriage(given).highest_mm,
    "lowest_off_ends": lambda given: 1000 * _carriage(given).lowest_mm,
}
