"""The plane that lies best among points, by least squares."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from gudgeon.calc.metrology.cloud import ROUNDING, Cloud, Floats, Spread

STEEPEST = 1000.0  # mm per mm: a face that stands steeper is not written as z over x and y
SLENDER = 10.0  # times as long as wide: from there the direction found is mended
STEPS = 3  # by which the direction is mended; each leaves a millionth of a millionth of what was there


@dataclass(frozen=True, slots=True)
class Plane:
    """A plane through a center, its axes (rows: along, across, square to it), and how far points lie off it."""

    center_mm: Floats
    axes: Floats
    lowest_mm: float
    highest_mm: float

    @property
    def deviation_mm(self) -> float:
        """From the lowest point to the highest, square to the plane."""
        return self.highest_mm - self.lowest_mm

    @property
    def coefficients(self) -> tuple[float, float, float] | None:
        """a, b, c of z = a x + b y + c; None where the face stands nearly along z."""
        return coefficients(self.axes[2], center_mm=self.center_mm)

    @staticmethod
    def among(cloud: Cloud) -> tuple["Plane", Floats]:
        """The plane of least squares, and how far each point lies off it."""
        spread = cloud.spread()
        along, across, normal = spread.axes
        if spread.deviations[0] < SLENDER * spread.deviations[1]:
            heights = cloud.heights(normal)
            heights -= spread.center @ normal
        else:
            along, across, normal, heights = _mended(cloud, spread)
        if points_down(normal):
            normal, heights = -normal, -heights
        axes = np.array([along, across, normal])
        plane = Plane(cloud.origin + spread.center, axes, float(heights.min()), float(heights.max()))
        return plane, heights


def points_down(normal: Floats) -> bool:
    """Whether a direction points down: its last figure that is not nothing is below zero.

    Equation:
        sign of n_z; of n_y where n_z = 0; of n_x where both are

    Parameters:
        normal: direction, n [1]

    Returns:
        whether −n is the same direction pointing up

    Valid for:
        directions of length one

    Source:
        HAND: so that each plane has one normal.

    Example:
        >>> points_down(np.array([0.6, 0.0, -0.8])), points_down(np.array([0.6, 0.8, 0.0]))
        (True, False)

    Not covered:
        a direction of no length.
    """
    return any(one < 0 for one in [k for k in normal.tolist() if abs(k) > ROUNDING][-1:])


def _mended(cloud: Cloud, spread: Spread) -> tuple[Floats, Floats, Floats, Floats]:
    """Axes and heights once the points pull no more on the direction: squares alone lose digits on a slender face."""
    along, across, normal = (axis.copy() for axis in spread.axes)
    size = len(cloud) * spread.deviations**2
    reach = 4 * float(spread.deviations[0])
    for _ in range(STEPS):
        heights, pull = cloud.along(normal, center=spread.center)
        turn = np.array([pull @ along / size[0], pull @ across / size[1]])
        if float(np.abs(turn * spread.deviations[:2]).max()) <= 4 * ROUNDING * reach:
            return along, across, normal, heights
        normal = _unit(normal - turn[0] * along - turn[1] * across)
        along = _unit(along - (along @ normal) * normal)
        across = _unit(across - (across @ normal) * normal - (across @ along) * along)
    return along, across, normal, cloud.along(normal, center=spread.center)[0]


def _unit(direction: Floats) -> Floats:
    return np.asarray(direction / np.sqrt(direction @ direction), np.float64)


def least_squares_plane(points_mm: ArrayLike) -> Plane:
    """The plane from which the points lie off least, by the squares of their distances.

    Equation:
        Σ(n · (p − m))² least, |n| = 1, m the mean of the points: n is the axis of least spread, the last
        of the singular value decomposition of p − m

    Parameters:
        points_mm: one row x, y, z for each point, at least three [mm]

    Returns:
        plane, with the lowest and the highest point off it [mm]

    Valid for:
        points that are not in a line, anywhere: a face 10 m off the origin loses nothing

    Source:
        HAND: the sum is nᵀ · S · n with S the moments of the points about their mean, least along the
        eigenvector of the least eigenvalue.

    Example:
        >>> found = least_squares_plane([[0, 0, 1], [100, 0, 2], [100, 100, 2], [0, 100, 1]])
        >>> [round(one, 9) + 0.0 for one in found.coefficients], round(found.deviation_mm, 9)
        ([0.01, 0.0, 1.0], 0.0)

    Not covered:
        form: the least zone that holds all points is narrower, see flatness.
    """
    return Plane.among(Cloud.of(points_mm))[0]


def coefficients(normal: Floats, *, center_mm: Floats) -> tuple[float, float, float] | None:
    """A plane as its height over x and y.

    Equation:
        z = a · x + b · y + c; a = −n_x / n_z, b = −n_y / n_z, c = n · m / n_z

    Parameters:
        normal: direction square to the plane, n [1]
        center_mm: a point of the plane, m [mm]

    Returns:
        a [1], b [1] and c [mm]; None where the plane is steeper than 1000 mm per mm

    Valid for:
        planes that do not stand along z

    Source:
        HAND: n · (p − m) = 0, solved for z.

    Example:
        >>> coefficients(np.array([0.0, 0.0, 1.0]), center_mm=np.array([5.0, 5.0, 2.0]))
        (0.0, 0.0, 2.0)

    Not covered:
        a face that stands along z: give its points with the axes exchanged.
    """
    across, up, rise = normal.tolist()
    if math.hypot(across, up) > STEEPEST * abs(rise):
        return None
    a, b = -across / rise + 0.0, -up / rise + 0.0
    return a, b, float(normal @ center_mm) / rise + 0.0
