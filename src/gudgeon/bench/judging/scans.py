"""A face that was read point by point: the least zone of all its points, and of those in any stretch of it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.bench.gauge_error import standard_uncertainty
from gudgeon.bench.judging.decision import Value
from gudgeon.bench.judging.finding import Case
from gudgeon.bench.scans import scanned
from gudgeon.calc.metrology.form_errors import TooManyWindows

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

BETTER = ("read the heights again with a better gauge", "have the face measured at a machine shop")
LEAST_POINTS = 4
"""Through three points there is always a plane: they prove nothing."""
WINDOWS = 4
"""Windows are laid a quarter of their side apart."""


@dataclass(frozen=True, slots=True)
class Surface:
    """The points of a face [mm], and how uncertain the height of one is."""

    points: tuple[tuple[float, float, float], ...]
    u: float
    known: bool
    notes: tuple[str, ...] = ()
    way_out: tuple[str, ...] = BETTER
    condition: str = ""
    gauge: str = ""

    def zone(self) -> Value:
        """The least zone of all points."""
        from gudgeon.calc.metrology.flatness import flatness

        zone = flatness(self.points).minimum_zone_mm
        return self._value(zone, zone)

    def worst_window(self, over: float) -> Value:
        """The widest least zone of the points in a square of this side, wherever it is laid."""
        from gudgeon.calc.metrology.flatness_windows import worst_window

        try:
            zone = worst_window(self.points, side_mm=over).minimum_zone_mm
        except TooManyWindows:
            return self.stepped(over)
        return self._value(zone, zone)

    def stepped(self, over: float) -> Value:
        """The same for so many points that not every square can be tried: between what it is at least and at most.

        Squares are laid at steps of a quarter. What they show is the least that the worst can be; squares that are a
        quarter larger hold every square between the steps, and show the most.
        """
        step = over / WINDOWS
        return self._value(self._widest(over, step), self._widest(over + step, step))

    def _widest(self, side: float, step: float) -> float:
        from gudgeon.calc.metrology.flatness import flatness

        return max(
            (
                flatness(points).minimum_zone_mm
                for points in self._windows(side, step)
                if len(points) >= LEAST_POINTS and _spreads(points)
            ),
            default=0.0,
        )

    def _windows(self, side: float, step: float) -> "Iterator[NDArray[float64]]":
        import numpy as np

        points = np.asarray(self.points, dtype=float)
        low, high = points[:, :2].min(axis=0), points[:, :2].max(axis=0)
        starts = [
            np.arange(a, max(a, b - side + step) + step / 2, step) for a, b in zip(low, high, strict=True)
        ]
        for x in starts[0]:
            column = points[(points[:, 0] >= x - 1e-9) & (points[:, 0] <= x + side + 1e-9)]
            for y in starts[1]:
                yield column[(column[:, 1] >= y - 1e-9) & (column[:, 1] <= y + side + 1e-9)]

    def _value(self, low: float, high: float) -> Value:
        # The zone is a height less a height, each a mean of points that touch a plane, with shares that add up to
        # one: at most √2 times as uncertain as one point.
        return Value(low, max(low, high), self.u * math.sqrt(2), self.known)


def _spreads(points: "NDArray[float64]") -> bool:
    """Whether the points span a plane, and do not all lie in a line."""
    import numpy as np

    centered = points[:, :2] - points[:, :2].mean(axis=0)
    return bool(np.linalg.matrix_rank(centered, tol=1e-6) == 2)


def surface(case: Case) -> Surface | None:
    """The scan of a face; or its heights over a plate, when all of them are read."""
    scan = scanned(case.bench, case.key)
    if scan is not None:
        notes = (f"from {scan.file}, {scan.condition}", *scan.notes)
        return Surface(
            scan.points, scan.u, scan.u_known, notes, condition=scan.condition, gauge=scan.instrument
        )
    return _heights(case) if case.item.method == "heights" else None


def _heights(case: Case) -> Surface | None:
    """Points of the face with their heights; the plate under it is as uneven as its kit says, or not known."""
    face = case.face
    if face is None or case.lacking() or any(place not in face.points for place in case.readings):
        return None
    points = tuple(
        (face.points[place].x.middle_in("mm"), face.points[place].y.middle_in("mm"), (one.low + one.high) / 2)
        for place, one in case.readings.items()
    )
    if len(points) < LEAST_POINTS:
        return None
    plates = [gauge for gauge in case.bench.kit.gauges.values() if gauge.kind == "surface plate"]
    plate = [standard_uncertainty(one, "length_difference", size_mm=0.0) for one in plates]
    by_plate = min((u for u, known in plate if known), default=0.0)
    notes = () if by_plate else ("no surface plate with a known error in the kit: its error is not counted",)
    u = max(one.u for one in case.readings.values())
    known = all(one.u_known for one in case.readings.values())
    return Surface(points, math.hypot(u, by_plate), known, notes)
