"""Readings taken again: their mean, their scatter, and how many more are worth taking."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.calc.errors import finite, not_negative, positive
from gudgeon.calc.metrology.student import checked_probability, coverage_factor
from gudgeon.calc.metrology.uncertainty_errors import RangeOfSoMany, TooFewReadings, TooManyReadings
from gudgeon.calc.metrology.verdict import judge

MOST_IN_RANGE = 25
MOST_REPEATS = 1000  # nobody measures one place more often
MOST_COUNTED = 1_000_000


@dataclass(frozen=True, slots=True)
class Repeats:
    """Readings of one place: how many, their mean, their scatter s, and the standard uncertainty of the mean."""

    count: int
    mean: float
    scatter: float
    u_mean: float
    dof: float


@dataclass(frozen=True, slots=True)
class Pooled:
    """The scatter of several places together, and its degrees of freedom."""

    scatter: float
    dof: float


def mean_of(readings: Sequence[float]) -> Repeats:
    """Mean and scatter of the repeats of one place; none of them is dropped.

    Equation:
        s = √(Σ (x − x̄)² / (n − 1)); u = s / √n; ν = n − 1

    Parameters:
        readings: readings of one place, at least two [unit of the reading]

    Returns:
        mean, scatter, standard uncertainty of the mean [unit of the reading], degrees of freedom [1]

    Valid for:
        repeats that were each set up anew

    Source:
        JCGM 100:2008, 4.2.

    Example:
        >>> found = mean_of([86.012, 86.014, 86.010, 86.012])
        >>> round(found.mean, 4), round(found.scatter, 5), round(found.u_mean, 5), found.dof
        (86.012, 0.00163, 0.00082, 3.0)

    Not covered:
        a slip among the readings: strike it in the book with its reason, then ask again.
    """
    count = len(readings)
    if count < 2:
        raise TooFewReadings(count)
    for one in readings:
        finite(one, "Reading")
    mean = math.fsum(readings) / count
    scatter = math.hypot(*(one - mean for one in readings)) / math.sqrt(count - 1)
    return Repeats(count, mean, scatter, scatter / math.sqrt(count), float(count - 1))


def pooled_scatter(groups: Sequence[Sequence[float]]) -> Pooled:
    """The scatter of one way of measuring, from the repeats of several places.

    Equation:
        s = √(Σ νᵢ sᵢ² / Σ νᵢ), νᵢ = nᵢ − 1

    Parameters:
        groups: the readings of each place; a place read once tells nothing and counts for nothing [unit of the reading]

    Returns:
        scatter [unit of the reading], degrees of freedom [1]

    Valid for:
        places that scatter alike: one gauge, one hand, one kind of face

    Source:
        JCGM 100:2008, H.3.6 and H.5 (pooled estimate).

    Example:
        >>> found = pooled_scatter([[1.0, 3.0], [11.0, 13.0], [7.0]])
        >>> round(found.scatter, 6), found.dof
        (1.414214, 2.0)

    Not covered:
        differences between the places: they are no scatter.
    """
    several = [mean_of(group) for group in groups if len(group) > 1]
    if not several:
        raise TooFewReadings(max((len(group) for group in groups), default=0))
    dof = math.fsum(one.dof for one in several)
    return Pooled(math.hypot(*(one.scatter * math.sqrt(one.dof) for one in several)) / math.sqrt(dof), dof)


def range_factor(count: int) -> float:
    """How many times their scatter the range of so many readings is, on average.

    Equation:
        d₂ = ∫ (1 − (1 − Φ)ⁿ − Φⁿ) dx

    Parameters:
        count: n, how many readings [1]

    Returns:
        d₂ [1]

    Valid for:
        2 to 25 readings whose errors are normally distributed

    Source:
        HAND: mean of the greatest less the least of n normal errors; ISO 7870-2:2013 tables 1.128, 1.693, 2.059.

    Example:
        >>> [round(range_factor(count), 3) for count in (2, 3, 4, 5)]
        [1.128, 1.693, 2.059, 2.326]

    Not covered:
        the mean of several ranges: divide it by the factor of one.
    """
    if count < 2:
        raise TooFewReadings(count)
    if count > MOST_IN_RANGE:
        raise RangeOfSoMany(count, MOST_IN_RANGE)
    step = 1 / 64  # the trapezoidal rule is exact to the last digits where everything fades out at the ends

    def height(x: float) -> float:
        below = math.erfc(-x / math.sqrt(2)) / 2
        return 1 - float((1 - below) ** count) - float(below**count)

    return step * math.fsum(height(i * step) for i in range(-640, 641))


def scatter_from_range(width: float, *, count: int) -> float:
    """The scatter of readings of which only the least and the greatest were written down.

    Equation:
        s = R / d₂

    Parameters:
        width: R, greatest less least reading [unit of the reading]
        count: how many readings there were [1]

    Returns:
        scatter [unit of the reading]

    Valid for:
        2 to 25 readings whose errors are normally distributed

    Source:
        ISO 7870-2:2013, factors d₂.

    Example:
        >>> round(scatter_from_range(0.004, count=3), 5)
        0.00236

    Not covered:
        its degrees of freedom: a little fewer than n − 1.
    """
    return not_negative(width, "Range") / range_factor(count)


def half_width_of_mean(count: int, *, scatter: float, probability: float = 0.95) -> float:
    """How far the mean of repeats may lie from what endless repeats would give.

    Equation:
        h = t(p, n − 1) · s / √n

    Parameters:
        count: n, how many readings [1]
        scatter: s, worked out from these readings [unit of the reading]
        probability: p, how often the statement shall be true [1]

    Returns:
        half-width [unit of the reading]

    Valid for:
        repeats that were each set up anew

    Source:
        JCGM 100:2008, 4.2.3 and G.3.2.

    Example:
        >>> round(half_width_of_mean(5, scatter=1.0), 3)
        1.242

    Not covered:
        what all repeats have in common: the error of the gauge.
    """
    if count < 2:
        raise TooFewReadings(count)
    return coverage_factor(probability, dof=count - 1) * not_negative(scatter, "Scatter") / math.sqrt(count)


def repeats_needed(half_width_over_s: float, *, probability: float = 0.95) -> int:
    """How many readings bring the half-width of their mean down to a share of their scatter.

    Equation:
        least n ≥ 2 with t(p, n − 1) / √n ≤ x

    Parameters:
        half_width_over_s: x, half-width wanted over the scatter of one reading [1]
        probability: p, how often the statement shall be true [1]

    Returns:
        readings [1]

    Valid for:
        repeats that were each set up anew, their scatter worked out from these same readings

    Source:
        JCGM 100:2008, 4.2.3 and G.3.2.

    Example:
        >>> repeats_needed(0.5), repeats_needed(2.0)
        (18, 4)

    Not covered:
        what all repeats have in common: no number of readings takes away the error of the gauge.
    """
    positive(half_width_over_s, "Half-width over scatter")
    checked_probability(probability)
    low, high = 1, 2  # the least number lies above `low`, and is at most `high`
    while half_width_of_mean(high, scatter=1.0, probability=probability) > half_width_over_s:
        if high > MOST_COUNTED:
            raise TooManyReadings(half_width_over_s, MOST_COUNTED)
        low, high = high, 2 * high
    while high - low > 1:
        middle = (low + high) // 2
        if half_width_of_mean(middle, scatter=1.0, probability=probability) > half_width_over_s:
            low = middle
        else:
            high = middle
    return high


def repeats_for_verdict(
    value: float,
    *,
    u_fixed: float,
    scatter: float,
    lower: float | None = None,
    upper: float | None = None,
    risk: float = 0.05,
) -> int | None:
    """How many readings in all it takes until their mean is inside or outside, should it stay where it is.

    Equation:
        least n ≥ 2 whose verdict is not in doubt with u² = u_fixed² + s²/n and
        ν = (n − 1) · (u / (s/√n))⁴

    Parameters:
        value: mean of the readings so far [unit of the reading]
        u_fixed: standard uncertainty of what all repeats have in common [unit of the reading]
        scatter: s of one reading [unit of the reading]
        lower: lower limit, if there is one [unit of the reading]
        upper: upper limit, if there is one [unit of the reading]
        risk: the risk taken of a wrong verdict [1]

    Returns:
        readings in all [1]; None where repeats cannot decide it, because what they have in common alone leaves it
        in doubt, or a thousand would not do

    Valid for:
        scatter that stays as it is

    Source:
        JCGM 106:2012, 8.3; JCGM 100:2008, G.4.1.

    Example:
        >>> repeats_for_verdict(0.097, u_fixed=0.001, scatter=0.003, upper=0.10)
        6
        >>> repeats_for_verdict(0.099, u_fixed=0.001, scatter=0.003, upper=0.10) is None
        True

    Not covered:
        a mean that moves when readings are added: the verdict is asked anew with each.
    """
    not_negative(u_fixed, "Standard uncertainty")
    not_negative(scatter, "Scatter")

    def decided(count: float) -> bool:
        own = scatter / math.sqrt(count)
        u = math.hypot(u_fixed, own)
        dof = (count - 1) * (u / own) ** 4 if own > 0 and math.isfinite(count) else math.inf
        return judge(value, u=u, lower=lower, upper=upper, risk=risk, dof=dof).verdict != "in doubt"

    if not decided(math.inf) or not decided(MOST_REPEATS):
        return None
    low, high = 1, MOST_REPEATS
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if decided(middle) else (middle, high)
    return high
