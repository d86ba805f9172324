"""Inside, outside or in doubt: what a reading with its uncertainty proves about a limit."""

import math
from dataclasses import dataclass
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

Verdict = Literal["inside", "outside", "in doubt"]
Rule = Literal["guard-band", "simple"]


@dataclass(frozen=True, slots=True)
class Conformity:
    """A verdict, the probability of lying inside, and how far inside a reading must lie to prove it.

    `guard_band` is None where no reading could prove it with this uncertainty.
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
) -> Conformity:
    """Whether a reading proves that the true value lies inside its limits.

    Equation:
        p = Φ((upper − value) / u) − Φ((lower − value) / u); inside when p ≥ 1 − risk, outside when
        p ≤ risk, else in doubt

    Parameters:
        value: reading [unit of the reading]
        u: its standard uncertainty [unit of the reading]
        lower: lower limit, if there is one [unit of the reading]
        upper: upper limit, if there is one [unit of the reading]
        risk: the risk taken of a wrong verdict [1]
        rule: guard-band, or simple: the reading alone decides

    Returns:
        verdict, probability of lying inside [1], guard band [unit of the reading]

    Valid for:
        errors about normally distributed, nothing known beforehand about the part

    Source:
        ISO 14253-1:2017 (decision rule); JCGM 106:2012, 7.3 and 8.3 (probability, guard band).

    Example:
        >>> found = judge(0.07, u=0.01, upper=0.10)
        >>> found.verdict, round(found.probability_inside, 4), round(found.guard_band, 5)
        ('inside', 0.9987, 0.01645)

    Not covered:
        limits that a maker set with his own method in mind: there the simple rule belongs.
    """
    not_negative(u, "Standard uncertainty")
    _check(lower, upper, risk)
    probability = probability_inside(finite(value, "Reading"), u=u, lower=lower, upper=upper)
    if rule == "simple":
        within = (lower is None or value >= lower) and (upper is None or value <= upper)
        return Conformity("inside" if within else "outside", probability, 0.0)
    return Conformity(
        _verdict(probability, risk), probability, guard_band(u, lower=lower, upper=upper, risk=risk)
    )


def judge_interval(
    low: float | None,
    *,
    high: float | None,
    u: float,
    lower: float | None = None,
    upper: float | None = None,
    risk: float = 0.05,
    rule: Rule = "guard-band",
) -> Conformity:
    """Whether a reading known only as an interval proves anything: a blade enters, the next does not.

    Equation:
        inside when both ends are inside; outside when both lie beyond the same limit; else in doubt

    Parameters:
        low: the value is at least this; None where that end is open [unit of the reading]
        high: the value is at most this; None where that end is open [unit of the reading]
        u: standard uncertainty of either end [unit of the reading]
        lower: lower limit, if there is one [unit of the reading]
        upper: upper limit, if there is one [unit of the reading]
        risk: the risk taken of a wrong verdict [1]
        rule: guard-band, or simple: the ends alone decide

    Returns:
        verdict, probability of lying inside at the end that decides [1], guard band [unit of the reading]

    Valid for:
        feeler blades, plug gauges, plastic strips between two steps

    Source:
        ISO 14253-1:2017, applied to both ends.

    Example:
        >>> judge_interval(0.05, high=0.06, u=0.003, upper=0.10).verdict
        'inside'
        >>> judge_interval(0.05, high=None, u=0.003, upper=0.10).verdict
        'in doubt'

    Not covered:
        how hard the blade was pushed.
    """
    start, end = _ends(low, high)
    not_negative(u, "Standard uncertainty")
    _check(lower, upper, risk)
    band = 0.0 if rule == "simple" else guard_band(u, lower=lower, upper=upper, risk=risk)
    spread, allowed = (0.0, 0.0) if rule == "simple" else (u, risk)
    chances = [probability_inside(one, u=spread, lower=lower, upper=upper) for one in (start, end)]
    if min(chances) >= 1 - allowed:
        return Conformity("inside", min(chances), band)
    above = upper is not None and probability_inside(start, u=spread, upper=upper) <= allowed
    below = lower is not None and probability_inside(end, u=spread, lower=lower) <= allowed
    if above or below:
        return Conformity("outside", max(chances), band)
    return Conformity("in doubt", min(chances), band)


def probability_inside(
    value: float, *, u: float, lower: float | None = None, upper: float | None = None
) -> float:
    """The probability that the true value lies inside its limits.

    Equation:
        p = Φ((upper − value) / u) − Φ((lower − value) / u)

    Parameters:
        value: reading [unit of the reading]
        u: its standard uncertainty; 0 takes the reading as true [unit of the reading]
        lower: lower limit, if there is one [unit of the reading]
        upper: upper limit, if there is one [unit of the reading]

    Returns:
        probability [1]

    Valid for:
        normally distributed errors

    Source:
        JCGM 106:2012, 7.3.

    Example:
        >>> round(probability_inside(-5.47, u=0.05, upper=-5.40), 4)
        0.9192

    Not covered:
        knowledge of the parts made so far (a prior).
    """
    if u == 0 or math.isinf(value):
        return float((lower is None or value >= lower) and (upper is None or value <= upper))
    # Tails are subtracted from one, so that a probability near one keeps its digits.
    beyond = 0.0 if upper is None else _tail((upper - value) / u)
    before = 0.0 if lower is None else _tail((value - lower) / u)
    return max(0.0, 1.0 - beyond - before)


def guard_band(
    u: float, *, lower: float | None = None, upper: float | None = None, risk: float = 0.05
) -> float | None:
    """How far inside its limits a reading must lie to prove that the value is inside.

    Equation:
        one limit: g = z · u with Φ(z) = 1 − risk; two limits: g where p(lower + g) = 1 − risk

    Parameters:
        u: standard uncertainty [unit of the reading]
        lower: lower limit, if there is one [unit of the reading]
        upper: upper limit, if there is one [unit of the reading]
        risk: the risk taken of a wrong verdict [1]

    Returns:
        guard band [unit of the reading]; None where even the middle proves nothing

    Valid for:
        normally distributed errors

    Source:
        JCGM 106:2012, 8.3.2; z = 1.645 for a risk of 0.05.

    Example:
        >>> round(guard_band(0.01, upper=0.10), 5)
        0.01645

    Not covered:
        guard bands agreed otherwise between two parties.
    """
    _check(lower, upper, risk)
    if u == 0:
        return 0.0
    if lower is None or upper is None:
        return _quantile(1 - risk) * u
    low, high = 0.0, (upper - lower) / 2
    if probability_inside(lower + high, u=u, lower=lower, upper=upper) < 1 - risk:
        return None
    for _ in range(80):  # halving: the probability rises from the limit to the middle
        middle = (low + high) / 2
        if probability_inside(lower + middle, u=u, lower=lower, upper=upper) < 1 - risk:
            low = middle
        else:
            high = middle
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


def _verdict(probability: float, risk: float) -> Verdict:
    if probability >= 1 - risk:
        return "inside"
    return "outside" if probability <= risk else "in doubt"


def _tail(z: float) -> float:
    """The probability that a standard normal error exceeds z."""
    return math.erfc(z / math.sqrt(2)) / 2


def _quantile(probability: float) -> float:
    """The z with Φ(z) = probability, by halving."""
    low, high = -40.0, 40.0
    for _ in range(100):
        middle = (low + high) / 2
        if 1 - _tail(middle) < probability:
            low = middle
        else:
            high = middle
    return (low + high) / 2
