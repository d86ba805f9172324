"""Inside, outside or in doubt: what a reading with its uncertainty proves about a limit."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from gudgeon.calc.errors import (
    LimitMissing,
    LimitsCrossed,
    ReadingCrossed,
    ReadingMissing,
    RiskOutOfRange,
    finite,
    not_negative,
)
from gudgeon.calc.metrology.student import checked_dof, one_sided_factor, tail

Verdict = Literal["inside", "outside", "in doubt"]
Rule = Literal["guard-band", "simple"]


@dataclass(frozen=True, slots=True)
class Conformity:
    """A verdict, the probability of lying inside, and how far inside a reading must lie to prove it.

    `guard_band` is None where no reading could prove it with this uncertainty. Of an interval, the probability is
    the least it can be; where the verdict is outside, the most.
    """

    verdict: Verdict
    probability_inside: float
    guard_band: float | None


def judge(
    value: float,
    *,
    u: float,
    lower: float | None = None,
    upper: float | None = None,
    risk: float = 0.05,
    rule: Rule = "guard-band",
    dof: float = math.inf,
) -> Conformity:
    """Whether a reading proves that the true value lies inside its limits.

    Equation:
        p = P(T > (lower − value) / u) − P(T > (upper − value) / u); inside when p ≥ 1 − risk, outside when
        p ≤ risk and the reading itself lies outside, else in doubt

    Parameters:
        value: reading [unit of the reading]
        u: its standard uncertainty [unit of the reading]
        lower: lower limit, if there is one [unit of the reading]
        upper: upper limit, if there is one [unit of the reading]
        risk: the risk taken of a wrong verdict [1]
        rule: guard-band, or simple: the reading alone decides
        dof: degrees of freedom of u; without end T is normal, with few of them a verdict takes more [1]

    Returns:
        verdict, probability of lying inside [1], guard band [unit of the reading]

    Valid for:
        errors about normally distributed, nothing known beforehand about the part

    Source:
        ISO 14253-1:2017 (decision rule); JCGM 106:2012, 7.3 and 8.3 (probability, guard band);
        JCGM 101:2008, 6.4.9.2 (Student's distribution where the scatter comes from few readings).

    Example:
        >>> found = judge(0.07, u=0.01, upper=0.10)
        >>> found.verdict, round(found.probability_inside, 4), round(found.guard_band, 5)
        ('inside', 0.9987, 0.01645)
        >>> judge(0.07, u=0.01, upper=0.10, dof=2).verdict, judge(0.072, u=0.01, upper=0.10, dof=2).verdict
        ('inside', 'in doubt')

    Not covered:
        limits that a maker set with his own method in mind: there the simple rule belongs. Limits much closer
        together than u: a reading between them never proves that the part lies outside, however small p is.
    """
    not_negative(u, "Standard uncertainty")
    _check(lower, upper, risk)
    probability = probability_inside(finite(value, "Reading"), u=u, lower=lower, upper=upper, dof=dof)
    within = (lower is None or value >= lower) and (upper is None or value <= upper)
    if rule == "simple":
        return Conformity("inside" if within else "outside", probability, 0.0)
    band = guard_band(u, lower=lower, upper=upper, risk=risk, dof=dof)
    verdict: Verdict = "in doubt"
    if sum(_beyond(value, u=u, lower=lower, upper=upper, dof=dof)) <= risk:
        verdict = "inside"
    elif probability <= risk and not within:
        verdict = "outside"
    return Conformity(verdict, probability, band)


def judge_interval(
    low: float | None,
    *,
    high: float | None,
    u: float | tuple[float, float],
    lower: float | None = None,
    upper: float | None = None,
    risk: float = 0.05,
    rule: Rule = "guard-band",
    dof: float = math.inf,
) -> Conformity:
    """Whether a reading known only as an interval proves anything: a blade enters, the next does not.

    Equation:
        inside when P(low end below the lower limit) + P(high end above the upper limit) ≤ risk; outside when
        both ends lie beyond the same limit, each with a probability of at least 1 − risk; else in doubt

    Parameters:
        low: the value is at least this; None where that end is open [unit of the reading]
        high: the value is at most this; None where that end is open [unit of the reading]
        u: standard uncertainty of both ends, or of the low and of the high one [unit of the reading]
        lower: lower limit, if there is one [unit of the reading]
        upper: upper limit, if there is one [unit of the reading]
        risk: the risk taken of a wrong verdict [1]
        rule: guard-band, or simple: the ends alone decide
        dof: degrees of freedom of u, of two ends the fewer; without end the errors are normal [1]

    Returns:
        verdict, probability of lying inside (the least; the most where it is outside) [1], guard band of the less
        certain end [unit of the reading]

    Valid for:
        feeler blades, plug gauges, plastic strips between two steps

    Source:
        ISO 14253-1:2017, applied to both ends; HAND: P(A or B) ≤ P(A) + P(B).

    Example:
        >>> judge_interval(0.05, high=0.06, u=0.003, upper=0.10).verdict
        'inside'
        >>> judge_interval(0.05, high=None, u=0.003, upper=0.10).verdict
        'in doubt'
        >>> judge_interval(0.08, high=0.095, u=(0.003, 0.006), upper=0.10).verdict
        'in doubt'

    Not covered:
        how hard the blade was pushed.
    """
    start, end = _ends(low, high)
    u_low, u_high = u if isinstance(u, tuple) else (u, u)
    for one in (u_low, u_high):
        not_negative(one, "Standard uncertainty")
    _check(lower, upper, risk)
    band, allowed = guard_band(max(u_low, u_high), lower=lower, upper=upper, risk=risk, dof=dof), risk
    if rule == "simple":
        u_low, u_high, band, allowed = 0.0, 0.0, 0.0, 0.0
    before, _ = _beyond(start, u=u_low, lower=lower, upper=None, dof=dof)
    _, beyond = _beyond(end, u=u_high, lower=None, upper=upper, dof=dof)
    if before + beyond <= allowed:
        return Conformity("inside", max(0.0, 1.0 - before - beyond), band)
    below_upper = 1.0 if upper is None else probability_inside(start, u=u_low, upper=upper, dof=dof)
    above_lower = 1.0 if lower is None else probability_inside(end, u=u_high, lower=lower, dof=dof)
    if min(below_upper, above_lower) <= allowed:
        return Conformity("outside", min(below_upper, above_lower), band)
    return Conformity("in doubt", max(0.0, 1.0 - before - beyond), band)


def probability_inside(
    value: float,
    *,
    u: float,
    lower: float | None = None,
    upper: float | None = None,
    dof: float = math.inf,
) -> float:
    """The probability that the true value lies inside its limits.

    Equation:
        p = P(T > (lower − value) / u) − P(T > (upper − value) / u)

    Parameters:
        value: reading [unit of the reading]
        u: its standard uncertainty; 0 takes the reading as true [unit of the reading]
        lower: lower limit, if there is one [unit of the reading]
        upper: upper limit, if there is one [unit of the reading]
        dof: degrees of freedom of u; without end T is normal [1]

    Returns:
        probability [1]

    Valid for:
        normally distributed errors

    Source:
        JCGM 106:2012, 7.3; JCGM 101:2008, 6.4.9.2 (few degrees of freedom).

    Example:
        >>> round(probability_inside(-5.47, u=0.05, upper=-5.40), 4)
        0.9192

    Not covered:
        knowledge of the parts made so far (a prior).
    """
    checked_dof(dof)
    if upper is not None and value > upper:
        # Beyond a limit the small tails are subtracted from each other, so that a small p keeps its digits.
        lower_tail = 0.0 if lower is None else _chance((value - lower), u=u, dof=dof)
        return max(0.0, _chance(value - upper, u=u, dof=dof) - lower_tail)
    if lower is not None and value < lower:
        upper_tail = 0.0 if upper is None else _chance((upper - value), u=u, dof=dof)
        return max(0.0, _chance(lower - value, u=u, dof=dof) - upper_tail)
    # Inside, the tails are subtracted from one, so that a probability near one keeps its digits.
    return max(0.0, 1.0 - sum(_beyond(value, u=u, lower=lower, upper=upper, dof=dof)))


def guard_band(
    u: float,
    *,
    lower: float | None = None,
    upper: float | None = None,
    risk: float = 0.05,
    dof: float = math.inf,
) -> float | None:
    """How far inside its limits a reading must lie to prove that the value is inside.

    Equation:
        one limit: g = t · u with P(T > t) = risk; two limits: g where p(lower + g) = 1 − risk

    Parameters:
        u: standard uncertainty [unit of the reading]
        lower: lower limit, if there is one [unit of the reading]
        upper: upper limit, if there is one [unit of the reading]
        risk: the risk taken of a wrong verdict [1]
        dof: degrees of freedom of u; without end T is normal [1]

    Returns:
        guard band [unit of the reading]; None where even the middle proves nothing

    Valid for:
        normally distributed errors

    Source:
        JCGM 106:2012, 8.3.2; t = 1.645 for a risk of 0.05 and a well-known u.

    Example:
        >>> round(guard_band(0.01, upper=0.10), 5), round(guard_band(0.01, upper=0.10, dof=2), 4)
        (0.01645, 0.0292)

    Not covered:
        guard bands agreed otherwise between two parties.
    """
    _check(lower, upper, risk)
    checked_dof(dof)
    if u == 0:
        return 0.0
    if lower is None or upper is None:
        return one_sided_factor(risk, dof=dof) * u
    return _both_limits(upper - lower, u=u, risk=risk, dof=dof)


@lru_cache(maxsize=1024)
def _both_limits(width: float, *, u: float, risk: float, dof: float) -> float | None:
    """The guard band between two limits; kept, because the places of a part share limits and gauge."""
    low, high = 0.0, width / 2

    def proves(inside: float) -> bool:
        return _chance(inside, u=u, dof=dof) + _chance(width - inside, u=u, dof=dof) <= risk

    if not proves(high):
        return None
    for _ in range(80):  # halving: the probability rises from the limit to the middle
        middle = (low + high) / 2
        low, high = (low, middle) if proves(middle) else (middle, high)
    return high


def _check(lower: float | None, upper: float | None, risk: float) -> None:
    if lower is None and upper is None:
        raise LimitMissing
    for limit in (lower, upper):
        if limit is not None:
            finite(limit, "Limit")
    if lower is not None and upper is not None and lower > upper:
        raise LimitsCrossed(lower, upper)
    if not 0 < risk < 0.5:
        raise RiskOutOfRange(risk)


def _ends(low: float | None, high: float | None) -> tuple[float, float]:
    if low is None and high is None:
        raise ReadingMissing
    start = -math.inf if low is None else finite(low, "Reading")
    end = math.inf if high is None else finite(high, "Reading")
    if start > end:
        raise ReadingCrossed(start, end)
    return start, end


def _beyond(
    value: float, *, u: float, lower: float | None, upper: float | None, dof: float = math.inf
) -> tuple[float, float]:
    """The probabilities that the true value lies below the lower limit, and above the upper."""
    below = 0.0 if lower is None else _chance(value - lower, u=u, dof=dof)
    above = 0.0 if upper is None else _chance(upper - value, u=u, dof=dof)
    return below, above


def _chance(room: float, *, u: float, dof: float) -> float:
    """The probability that an error uses up more than the room there is; on the limit itself is inside."""
    if u == 0 or math.isinf(room):
        return float(room < 0)
    return tail(room / u, dof=dof)
