"""The one rule by which everything measured is judged, and values that are worked out from readings."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.bench.budget import degrees_of_freedom, signed, standard_uncertainty_of
from gudgeon.bench.measured import Measured
from gudgeon.calc.metrology.verdict import Conformity, Rule, judge, judge_interval

RISK = 0.05
NORMAL = 1.645
"""How many standard uncertainties inside a reading must lie, at that risk, where one limit is near."""

Terms = Sequence[tuple[float, Measured]]
"""Readings of which a value is made, each with the factor it goes in with."""


@dataclass(frozen=True, slots=True)
class Value:
    """What is judged: between low and high, each with standard uncertainty u, if that is known."""

    low: float
    high: float
    u: float
    known: bool
    dof: float = math.inf

    @property
    def step(self) -> bool:
        """Whether it is known only as lying between two ends, as of blades."""
        return self.low != self.high


def value_of(one: Measured) -> Value:
    """A reading as a value."""
    return Value(one.low, one.high, one.u, one.u_known, degrees_of_freedom(one.components))


def total(terms: Terms) -> Value:
    """A sum of readings with their factors; what they have in common cancels or adds up."""
    low = math.fsum(factor * (one.low if factor >= 0 else one.high) for factor, one in terms)
    high = math.fsum(factor * (one.high if factor >= 0 else one.low) for factor, one in terms)
    components = signed(terms)
    return Value(
        low, high, standard_uncertainty_of(components), all(one.u_known for _, one in terms),
        degrees_of_freedom(components),
    )  # fmt: skip


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
    return judge_interval(start, high=end, u=value.u, lower=low, upper=high, risk=RISK, rule=rule)


def inside_as_read(value: Value, *, low: float | None, high: float | None) -> bool:
    """Whether the reading itself, and all of it, lies within its limits."""
    return (low is None or value.low >= low) and (high is None or value.high <= high)


def distance(value: Value, *, low: float | None, high: float | None) -> float:
    """How far the reading lies from the nearest of its limits."""
    ends = [one for one in (value.low, value.high) if math.isfinite(one)]
    limits = [one for one in (low, high) if one is not None]
    return min((abs(end - limit) for end in ends for limit in limits), default=0.0)
