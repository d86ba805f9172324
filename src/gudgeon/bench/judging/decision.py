"""The one rule by which everything measured is judged, and values that are worked out from readings."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.bench.budget import degrees_of_freedom, signed
from gudgeon.bench.measured import End, Measured
from gudgeon.calc.metrology.verdict import Conformity, Rule, judge, judge_interval

RISK = 0.05
NORMAL = 1.645
"""How many standard uncertainties inside a reading must lie, at that risk, where one limit is near."""

Terms = Sequence[tuple[float, Measured]]
"""Readings of which a value is made, each with the factor it goes in with."""


@dataclass(frozen=True, slots=True)
class Value:
    """What is judged: between low and high, if known with standard uncertainty u.

    Of two ends `u` is that of the less certain one, `dof` the fewer, and `u_ends` those of both.
    """

    low: float
    high: float
    u: float
    known: bool
    dof: float = math.inf
    u_ends: tuple[float, float] | None = None

    @property
    def step(self) -> bool:
        """Whether it is known only as lying between two ends, as of blades."""
        return self.low != self.high


def value_of(one: Measured) -> Value:
    """A reading as a value."""
    return between(one.at_low, one.at_high, known=one.u_known)


def between(low: End, high: End, *, known: bool) -> Value:
    """A value from its two ends; of a single figure they are one."""
    ends = None if low.value == high.value else (low.u, high.u)
    dof = min(degrees_of_freedom(end.components) for end in (low, high))
    return Value(low.value, high.value, max(low.u, high.u), known, dof, ends)


def total(terms: Terms) -> Value:
    """A sum of readings with their factors; what they have in common cancels or adds up."""
    low, high = (
        [(factor, one.at_low if (factor >= 0) == least else one.at_high) for factor, one in terms]
        for least in (True, False)
    )
    return between(_sum(low), _sum(high), known=all(one.u_known for _, one in terms))


def _sum(ends: Sequence[tuple[float, End]]) -> End:
    return End(math.fsum(factor * end.value for factor, end in ends), signed(ends))


def decide(value: Value, *, low: float | None, high: float | None, as_read: bool = False) -> Conformity:
    """What a value proves; an end that was not read is open, and proves nothing.

    A gauge whose error nobody states proves no inside: that is in doubt, unless the reading alone is to decide.
    """
    found = _found(value, low, high, as_read=as_read)
    if found.verdict == "inside" and not value.known and not as_read:
        return Conformity("in doubt", found.probability_inside, None)
    return found


def _found(value: Value, low: float | None, high: float | None, *, as_read: bool) -> Conformity:
    rule: Rule = "simple" if as_read else "guard-band"
    if not value.step:
        return judge(value.low, u=value.u, lower=low, upper=high, risk=RISK, rule=rule, dof=value.dof)
    start = None if math.isinf(value.low) else value.low
    end = None if math.isinf(value.high) else value.high
    if start is None and end is None:
        return Conformity("in doubt", 0.0, None)
    u = value.u_ends or value.u
    return judge_interval(start, high=end, u=u, lower=low, upper=high, risk=RISK, rule=rule, dof=value.dof)


def inside_as_read(value: Value, *, low: float | None, high: float | None) -> bool:
    """Whether the reading itself, and all of it, lies within its limits."""
    return (low is None or value.low >= low) and (high is None or value.high <= high)


def distance(value: Value, *, low: float | None, high: float | None) -> float:
    """How far the reading lies from the nearest of its limits."""
    ends = [one for one in (value.low, value.high) if math.isfinite(one)]
    limits = [one for one in (low, high) if one is not None]
    return min((abs(end - limit) for end in ends for limit in limits), default=0.0)
