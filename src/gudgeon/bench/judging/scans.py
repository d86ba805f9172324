"""A face that was scanned: the least zone of all its points, and of those in any stretch of it."""

from dataclasses import dataclass

from gudgeon.bench.judging.decision import Value
from gudgeon.bench.judging.finding import Case

BETTER = ("scan it again with a better gauge, or more slowly", "have the face measured at a machine shop")


@dataclass(frozen=True, slots=True)
class Surface:
    """The points of a face [mm], and how uncertain the height of one is."""

    points: tuple[tuple[float, float, float], ...]
    u: float
    known: bool
    notes: tuple[str, ...] = ()
    way_out: tuple[str, ...] = BETTER

    def zone(self) -> Value:
        """The least zone of all points."""
        from gudgeon.calc.metrology.flatness import flatness

        return self._value(flatness(self.points).minimum_zone_mm)

    def worst_window(self, over: float) -> Value:
        """The widest least zone of the points that lie in a square of this side, wherever it is laid."""
        from gudgeon.calc.metrology.flatness import flatness

        widest = 0.0
        for x, y, _ in self.points:
            inside = [
                point for point in self.points if 0 <= point[0] - x <= over and abs(point[1] - y) <= over / 2
            ]
            if len(inside) > 3:
                widest = max(widest, flatness(inside).minimum_zone_mm)
        return self._value(widest)

    def _value(self, zone: float) -> Value:
        # The zone is a height less a height, each a mean of points that touch a plane, with shares that add up to
        # one: at most √2 times as uncertain as one point.
        return Value(zone, zone, self.u * 2**0.5, self.known)


def surface(case: Case) -> Surface | None:
    """The scan of a face, or its heights over a plate."""
    return None
