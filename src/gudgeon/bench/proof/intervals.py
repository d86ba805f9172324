"""Figures as intervals: what printing may hide, and what a formula makes of all its corners."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import product

from gudgeon.bench.proof.amounts import exact
from gudgeon.quantity.written import Span


@dataclass(frozen=True, slots=True)
class Interval:
    """Everything that a printed figure leaves open, in the base unit of its kind."""

    low: float
    high: float

    def meets(self, other: "Interval") -> bool:
        """Whether both leave one value open."""
        return self.low <= other.high and other.low <= self.high

    @property
    def middle(self) -> float:
        """Halfway between its ends."""
        return (self.low + self.high) / 2

    def times(self, factor: float) -> "Interval":
        """The interval times a positive number."""
        return Interval(self.low * factor, self.high * factor)

    def off(self, other: "Interval") -> float:
        """The distance between two intervals as a share of the second; zero where they meet."""
        gap = max(self.low - other.high, other.low - self.high, 0.0)
        return gap / abs(other.middle) if other.middle else gap


def interval(span: Span) -> Interval | None:
    """A printed figure with the half digit at both ends; None where it is open at one."""
    if span.low is None or span.high is None:
        return None
    return Interval(float(exact(span.low).low), float(exact(span.high).high))


def over_corners(formula: Callable[..., float], parts: Mapping[str, Interval]) -> Interval:
    """The least and the most of a formula over the corners of its inputs; right where it is monotone in each."""
    values = [
        formula(**dict(zip(parts, corner, strict=True)))
        for corner in product(*((one.low, one.high) for one in parts.values()))
    ]
    return Interval(min(values), max(values))
