"""A profile: heights along one line, in the order of their places."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from gudgeon.calc.metrology.cloud import Floats
from gudgeon.calc.metrology.form_errors import PlacesRepeat, PointNotFinite, PointsMisshapen, TooFewPoints

Corner = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Profile:
    """Heights over places along a line, by rising place [mm]."""

    places: Floats
    heights: Floats

    @staticmethod
    def of(profile_mm: ArrayLike, *, what: str) -> "Profile":
        """The profile, tried for its shape, its figures and its length."""
        values = np.array(profile_mm, dtype=np.float64)
        if values.ndim != 2 or values.shape[1] != 2:
            raise PointsMisshapen(values.shape, 2)
        if len(values) < 2:
            raise TooFewPoints(len(values), 2, what)
        if not np.isfinite(values).all():
            row, column = (int(one) for one in np.argwhere(~np.isfinite(values))[0])
            raise PointNotFinite(row + 1, ("its place", "its height")[column], float(values[row, column]))
        values = values[np.lexsort((values[:, 1], values[:, 0]))]
        if values[0, 0] == values[-1, 0]:
            raise PlacesRepeat(float(values[0, 0]))
        return Profile(values[:, 0].copy(), values[:, 1].copy())

    def __len__(self) -> int:
        return len(self.places)

    def part(self, start: float, *, end: float) -> "Profile":
        """The profile from one place to another."""
        first, last = np.searchsorted(self.places, [start, end], side="left").tolist()
        last += int(np.searchsorted(self.places[last:], end, side="right"))
        return Profile(self.places[first:last], self.heights[first:last])

    def over(self, line: tuple[Corner, Corner]) -> Floats:
        """How far each point lies above a line through two points, along the height."""
        (x, y), (u, v) = line
        return np.asarray(self.heights - (y + (v - y) / (u - x) * (self.places - x)), np.float64)

    def upper(self) -> list[Corner]:
        """The corners of the line that lies on the profile from above, from left to right."""
        return _chain(list(zip(self.places.tolist(), self.heights.tolist(), strict=True)))

    def lower(self) -> list[Corner]:
        """The corners of the line that lies against the profile from below, from left to right."""
        turned = _chain(list(zip(self.places.tolist(), (-self.heights).tolist(), strict=True)))
        return [(place, -height) for place, height in turned]

    def turned(self) -> tuple["Profile", float]:
        """The same off its line of least squares, and the slope of that line; squares are of distances to the line."""
        places, heights = self.places - self.places.mean(), self.heights - self.heights.mean()
        across, up, both = (float(one) for one in (places @ places, heights @ heights, places @ heights))
        angle = math.atan2(2 * both, across - up) / 2
        cosine, sine = math.cos(angle), math.sin(angle)
        along = places * cosine + heights * sine
        order = np.argsort(along, kind="stable")
        return Profile(along[order], (heights * cosine - places * sine)[order]), math.tan(angle)


def _chain(points: list[Corner]) -> list[Corner]:
    """The upper corners of points that stand by rising place; of points at one place only the highest counts."""
    corners: list[Corner] = []
    for point in points:
        while corners and corners[-1][0] == point[0] and corners[-1][1] <= point[1]:
            corners.pop()
        if corners and corners[-1][0] == point[0]:
            continue
        while len(corners) > 1 and _turns_left(corners[-2], corners[-1], point):
            corners.pop()
        corners.append(point)
    return corners


def _turns_left(a: Corner, b: Corner, c: Corner) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) >= 0
