"""A face that was read point by point: the least zone of all its points, and of those in any stretch of it."""

import math
from dataclasses import dataclass

from gudgeon.bench.gauge_error import standard_uncertainty
from gudgeon.bench.judging.decision import Value
from gudgeon.bench.judging.finding import Case
from gudgeon.bench.judging.spacing import largest_step, not_covered
from gudgeon.bench.measured import Measured
from gudgeon.bench.scans import scanned
from gudgeon.calc.metrology.form_errors import TooManyWindows, WindowTooSmall

BETTER = ("read the heights again with a better gauge", "have the face measured at a machine shop")
LEAST_POINTS = 4
"""Through three points there is always a plane: they prove nothing."""
AS_LEFT = "as left"


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
    not_covered: str = ""

    def zone(self) -> Value:
        """The least zone of all points."""
        from gudgeon.calc.metrology.flatness import flatness

        zone = flatness(self.points).minimum_zone_mm
        return self.of_heights(zone, high=zone)

    def worst_window(self, over: float) -> Value:
        """The widest least zone of any square of this side: at least and at most, as its points tell.

        At least that of the points in a square. The square itself may reach one step further than they do, on either
        side: at most that of the points in a square two steps larger.
        """
        low, _ = _widest(self.points, over)
        _, high = _widest(self.points, over + 2 * self.step)
        return self.of_heights(low, high=high)

    @property
    def step(self) -> float:
        """How far its points lie apart."""
        return largest_step(self.points)

    def of_heights(self, low: float, *, high: float) -> Value:
        """A zone or a gap of these points: between low and high, with what is uncertain of it."""
        # It is a height less a height, each a mean of points that touch a plane or a line, with shares that add up
        # to one: at most √2 times as uncertain as one point.
        return Value(low, max(low, high), self.u * math.sqrt(2), self.known)


def _widest(points: tuple[tuple[float, float, float], ...], side: float) -> tuple[float, float]:
    """The widest least zone of the points in a square; of very many, two ends between which it lies."""
    from gudgeon.calc.metrology.flatness_windows import worst_window, worst_window_between

    try:
        zone = worst_window(points, side_mm=side).minimum_zone_mm
    except WindowTooSmall:
        return 0.0, 0.0
    except TooManyWindows:
        return worst_window_between(points, side_mm=side)
    return zone, zone


def by_hand(case: Case, scan: Surface) -> dict[str, Measured]:
    """The readings that a scan does not take the place of: those of the same state of the part, or of a later one."""
    later = scan.condition == AS_LEFT
    return {place: one for place, one in case.readings.items() if not later or one.condition == AS_LEFT}


def surface(case: Case) -> Surface | None:
    """The scan of a face; or its heights over a plate, when all of them are read."""
    scan = scanned(case.bench, case.key)
    # What was scanned as found says nothing of a face of which there are readings as left.
    worked_on = any(one.condition == AS_LEFT for one in case.readings.values())
    if scan is not None and (scan.condition == AS_LEFT or not worked_on):
        notes = (f"from {scan.file}, {scan.condition}", *scan.notes)
        return Surface(
            scan.points,
            scan.u,
            scan.u_known,
            notes,
            condition=scan.condition,
            gauge=scan.instrument,
            not_covered=not_covered(scan.points, case.face),
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
