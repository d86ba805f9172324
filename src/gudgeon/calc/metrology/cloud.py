"""Many points at once: what one pass over all of them tells, block by block so that a million stay quick."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from gudgeon.calc.metrology.form_errors import (
    PointNotFinite,
    PointsInALine,
    PointsInOnePlace,
    PointsMisshapen,
    PointTooFar,
    TooFewPoints,
)

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]
ROWS = 3000  # points taken at a time: they stay in the processor's own memory, and one processor does them
SAMPLE = 64  # points that tell roughly where the rest lie
THIN = 1e-6  # of its length: what is narrower is a line
MOST_MM = 1e9  # beyond it squares lose what a face is about
ROUNDING = float(np.finfo(np.float64).eps)


@dataclass(frozen=True, slots=True)
class Spread:
    """Where the points lie: center, axes by falling spread (rows), and the spread along each."""

    center: Floats
    axes: Floats
    deviations: Floats


@dataclass(frozen=True, slots=True)
class Cloud:
    """Points of a face, one row x, y, z each [mm]; `origin` is near their middle, so that no digits are lost."""

    values: Floats
    origin: Floats

    @staticmethod
    def of(points_mm: ArrayLike, *, what: str = "a plane") -> "Cloud":
        """The points, tried for their shape and number."""
        values = np.ascontiguousarray(points_mm, dtype=np.float64)
        if values.ndim != 2 or values.shape[1] != 3:
            raise PointsMisshapen(values.shape, 3)
        if len(values) < 3:
            raise TooFewPoints(len(values), 3, what)
        few = values[:: max(1, len(values) // SAMPLE)]
        origin = few.mean(axis=0)
        if not (np.abs(origin) <= MOST_MM).all():
            raise _not_usable(values)
        return Cloud(values, origin)

    def __len__(self) -> int:
        return len(self.values)

    def at(self, which: Indices) -> Floats:
        """Some of the points, from the origin."""
        return np.asarray(self.values.take(which, axis=0) - self.origin, np.float64)

    def all(self) -> Floats:
        """All of the points, from the origin."""
        return np.asarray(self.values - self.origin, np.float64)

    def spread(self) -> Spread:
        """Center and axes of all points; points in one place or in a line are refused."""
        products = np.zeros((4, 4))
        for part in self._columns():
            products += part @ part.T
        if not products.max() <= len(self) * (2 * MOST_MM) ** 2:
            raise _not_usable(self.values)
        products /= len(self)
        mean = products[3, :3]
        found, axes = np.linalg.eigh(products[:3, :3] - np.outer(mean, mean))
        deviations = np.sqrt(np.maximum(found[::-1], 0.0))
        reach = float(np.abs(self.origin + mean).max() + deviations[0])
        if deviations[0] <= 4 * ROUNDING * reach:
            raise PointsInOnePlace(len(self))
        if deviations[1] <= THIN * deviations[0]:
            raise PointsInALine(len(self), math.sqrt(12) * float(deviations[0]))
        return Spread(mean, axes.T[::-1].copy(), deviations)

    def along(self, normal: Floats, *, center: Floats) -> tuple[Floats, Floats]:
        """How far each point lies along a direction from a center, and the pull of that on the direction."""
        heights, pull = np.empty(len(self)), np.zeros(3)
        for start, part in self._parts():
            here = heights[start : start + len(part)]
            np.dot(part, normal, out=here)
            here -= center @ normal
            pull += here @ part - here.sum() * center
        return heights, pull

    def heights(self, normal: Floats) -> Floats:
        """How far each point lies along a direction, from the origin."""
        found = np.empty(len(self))
        for start, part in self._parts():
            np.dot(part, normal, out=found[start : start + len(part)])
        return found

    def _columns(self) -> Iterator[Floats]:
        """The points from the origin, block by block, as rows x, y, z and a row of ones; the next overwrites each."""
        room, origin = np.ones((4, min(ROWS, len(self)))), self.origin[:, None]
        for start in range(0, len(self), ROWS):
            given = self.values[start : start + ROWS].T
            part = room if given.shape[1] == room.shape[1] else np.ones((4, given.shape[1]))
            np.subtract(given, origin, out=part[:3])
            yield part

    def _parts(self) -> Iterator[tuple[int, Floats]]:
        """The points from the origin, block by block with the number of the first; the next overwrites each."""
        if len(self) <= ROWS:
            yield 0, self.values - self.origin
            return
        flat = self.values.reshape(-1)
        origin, room = np.tile(self.origin, ROWS), np.empty(3 * ROWS)
        for start in range(0, len(flat), 3 * ROWS):
            given = flat[start : start + 3 * ROWS]
            part = room[: len(given)]
            np.subtract(given, origin[: len(given)], out=part)
            yield start // 3, part.reshape(-1, 3)


def _not_usable(values: Floats) -> PointNotFinite | PointTooFar:
    row, column = (int(one) for one in np.argwhere(~(np.abs(values) <= MOST_MM))[0])
    point, axis, value = row + 1, "xyz"[column], float(values[row, column])
    return (
        PointTooFar(point, axis, value, MOST_MM)
        if math.isfinite(value)
        else PointNotFinite(point, axis, value)
    )
