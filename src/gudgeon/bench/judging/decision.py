"""The one rule by which everything measured is judged, and values that are worked out from readings."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

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

    Of two ends `u` is that of the less certain one, `dof` the fewer, and `u_ends` those of both. What differs over
    several places has its least and its greatest in `extremes`, and each of them is judged by itself.
    """

    low: float
    high: float
    u: float
    known: bool
    dof: float = math.inf
    u_ends: tuple[float, float] | None = None
    extremes: tuple["Extreme", ...] = ()

    @property
    def step(self) -> bool:
        """Whether it is known only as lying between two ends, as of blades."""
        return self.low != self.high

    def with_u(self, u: float) -> "Value":
        """The same, as if every figure of it were as uncertain as this, and that were known."""
        extremes = tuple(replace(one, value=one.value.with_u(u)) for one in self.extremes)
        return replace(self, u=u, known=True, dof=math.inf, u_ends=None, extremes=extremes)


@dataclass(frozen=True, slots=True)
class Extreme:
    """The least or the greatest of what differs over several places, and where it is."""

    where: str
    value: Value


def value_of(one: Measured) -> Value:
    """A reading as a value."""
    value = between(one.at_low, high=one.at_high, known=one.u_known)
    if one.span is None:
        return value
    least = between(one.at_low, high=one.span.least, known=one.u_known)
    greatest = between(one.span.greatest, high=one.at_high, known=one.u_known)
    return spanned(
        value, least=least, greatest=greatest, least_at=one.span.least_at, greatest_at=one.span.greatest_at
    )


def spanned(value: Value, *, least: Value, greatest: Value, least_at: str, greatest_at: str) -> Value:
    """A value with the least and the greatest of it, which are both there."""
    extremes = (
        Extreme(f"at its least, at {least_at}", least), Extreme(f"at its greatest, at {greatest_at}", greatest)
    )  # fmt: skip
    return replace(value, extremes=extremes)


def between(low: End, *, high: End, known: bool) -> Value:
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
    return between(_sum(low), high=_sum(high), known=all(one.u_known for _, one in terms))


def added(terms: Sequence[Measured]) -> Value:
    """Readings added. Where one of them differs over several places the sum does so too.

    Where one is at its greatest the others are at least at their least: so much the greatest sum is in any case.
    """
    value = total([(1.0, one) for one in terms])
    wide = [(one, one.span) for one in terms if one.span is not None]
    if not wide:
        return value
    least = [_added(span.least, [other.at_high for other in terms if other is not one]) for one, span in wide]
    most = [
        _added(span.greatest, [other.at_low for other in terms if other is not one]) for one, span in wide
    ]
    low, high = _added(None, [one.at_low for one in terms]), _added(None, [one.at_high for one in terms])
    inner_low, inner_high = min(least, key=lambda end: end.value), max(most, key=lambda end: end.value)
    return spanned(
        value, least=between(low, high=inner_low, known=value.known),
        greatest=between(inner_high, high=high, known=value.known),
        least_at=wide[0][1].least_at, greatest_at=wide[0][1].greatest_at,
    )  # fmt: skip


def _added(first: End | None, others: Sequence[End]) -> End:
    return _sum([(1.0, end) for end in ([first] if first is not None else []) + list(others)])


def _sum(ends: Sequence[tuple[float, End]]) -> End:
    return End(math.fsum(factor * end.value for factor, end in ends), signed(ends))


def decide(value: Value, *, low: float | None, high: float | None, as_read: bool = False) -> Conformity:
    """What a value proves; an end that was not read is open, and proves nothing.

    A gauge whose error nobody states proves no inside: that is in doubt, unless the reading alone is to decide.
    """
    if value.extremes:
        return _of_extremes(value, low=low, high=high, as_read=as_read)
    found = _found(value, low, high, as_read=as_read)
    if found.verdict == "inside" and not value.known and not as_read:
        return Conformity("in doubt", found.probability_inside, None)
    return found


def _of_extremes(value: Value, *, low: float | None, high: float | None, as_read: bool) -> Conformity:
    """Outside as soon as one of them is proven outside; inside when all are proven inside."""
    found = [decide(one.value, low=low, high=high, as_read=as_read) for one in value.extremes]
    verdicts = [one.verdict for one in found]
    told = next((one for one in found if one.verdict == "outside"), None)
    if told is not None:
        return told
    least_likely = min(found, key=lambda one: one.probability_inside)
    return least_likely if set(verdicts) == {"inside"} else replace(least_likely, verdict="in doubt")


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
