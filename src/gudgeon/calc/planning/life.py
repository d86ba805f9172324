"""How long parts last, after Weibull: with a shape above 1 they wear out, with 1 they fail by chance, below 1 early.

Ages count from new in one unit: distance, running hours, or years.
"""

import math
from dataclasses import dataclass

from gudgeon.calc.errors import not_negative, positive
from gudgeon.calc.planning.network_errors import (
    ChancesNotRising,
    LifeOver,
    PercentOutOfRange,
    ShapeOutOfRange,
)

SHAPES = (0.1, 1000.0)
"""Shapes that can be worked with; parts have 0.5 to 10 (common practice, no source)."""
MOST_HAZARD = 690.0
"""At this cumulative hazard less than one part in 10^299 is left."""
_EXACT = 1e-16
_TINY = 1e-300


@dataclass(frozen=True, slots=True)
class Weibull:
    """A life: its shape, its scale above the start, and the start, before which none fails.

    Of parts without a start 63.2 % have failed at the age of the scale, the characteristic life.
    """

    shape: float
    scale: float
    start: float = 0.0

    def __post_init__(self) -> None:
        if not SHAPES[0] <= positive(self.shape, "Shape") <= SHAPES[1]:
            raise ShapeOutOfRange(self.shape, SHAPES)
        positive(self.scale, "Characteristic life")
        not_negative(self.start, "Age before which none fails")


def life_through(early_age: float, *, early_percent: float, late_age: float, late_percent: float) -> Weibull:
    """The life by which so many percent have failed at one age and so many at a later one.

    Equation:
        shape = ln(ln(1 − F₂) / ln(1 − F₁)) / ln(t₂ / t₁); scale = t₁ / (−ln(1 − F₁))^(1 / shape)

    Parameters:
        early_age: the earlier age [any one unit]
        early_percent: failed by then [%]
        late_age: the later age [the same unit]
        late_percent: failed by then [%]

    Returns:
        the life, without a start [the same unit]

    Valid for:
        two ages with the greater share at the later one

    Source:
        HAND: the reliability exp(−(t / scale)^shape), solved for both.

    Example:
        >>> found = life_through(100.0, early_percent=10.0, late_age=200.0, late_percent=50.0)
        >>> round(found.shape, 3), round(found.scale, 1)
        (2.718, 228.9)

    Not covered:
        how sure the two shares are; two guesses make one life that looks exact.
    """
    positive(early_age, "Earlier age")
    positive(late_age, "Later age")
    for percent in (early_percent, late_percent):
        if not 0 < percent < 100:
            raise PercentOutOfRange("A share of failed parts", percent)
    if not (early_age < late_age and early_percent < late_percent):
        raise ChancesNotRising(early_age, early_percent, late_age, late_percent)
    early, late = (-math.log1p(-percent / 100) for percent in (early_percent, late_percent))
    shape = math.log(late / early) / math.log(late_age / early_age)
    return Weibull(shape, early_age / early ** (1 / shape) if shape >= SHAPES[0] else early_age)


def cumulative_hazard(life: Weibull, *, age: float) -> float:
    """The hazard added up from new.

    Equation:
        H = ((t − start) / scale)^shape, 0 before the start

    Parameters:
        life: of the part
        age: since new [the unit of the life]

    Returns:
        cumulative hazard [1]; infinite where no part is left

    Valid for:
        ages from 0

    Source:
        Weibull, A statistical distribution function of wide applicability, Journal of Applied Mechanics 18 (1951).

    Example:
        >>> cumulative_hazard(Weibull(2.0, 10.0), age=5.0)
        0.25

    Not covered:
        parts of mixed origin.
    """
    above = not_negative(age, "Age") - life.start
    if above <= 0:
        return 0.0
    ratio = above / life.scale
    power = life.shape * math.log(ratio) if ratio > 0 else -math.inf
    return math.exp(power) if power < 700 else math.inf


def reliability(life: Weibull, *, age: float) -> float:
    """The probability that a new part lasts to an age.

    Equation:
        R = exp(−((t − start) / scale)^shape), 1 before the start

    Parameters:
        life: of the part
        age: since new [the unit of the life]

    Returns:
        probability [1]

    Valid for:
        ages from 0

    Source:
        Weibull, Journal of Applied Mechanics 18 (1951).

    Example:
        >>> round(reliability(Weibull(2.0, 1000.0), age=500.0), 4)
        0.7788

    Not covered:
        parts of mixed origin.
    """
    return math.exp(-cumulative_hazard(life, age=age))


def chance_of_failing(life: Weibull, *, age: float, further: float) -> float:
    """The probability that a part which has lasted to its age fails within so much further.

    Equation:
        P = 1 − R(age + further) / R(age) = 1 − exp(H(age) − H(age + further))

    Parameters:
        life: of the part
        age: since new, now [the unit of the life]
        further: use until it is seen again [the same unit]

    Returns:
        probability [1]

    Valid for:
        a part that was found good now

    Source:
        HAND: the definition of a conditional probability.

    Example:
        >>> round(chance_of_failing(Weibull(3.0, 100.0), age=80.0, further=20.0), 3)
        0.386
        >>> by_chance = Weibull(1.0, 100.0)
        >>> [round(chance_of_failing(by_chance, age=age, further=20.0), 3) for age in (0.0, 500.0)]
        [0.181, 0.181]

    Not covered:
        what the eye saw of it: a part that looks worn is likelier to fail than its age says.
    """
    now = _hazard_so_far(life, age)
    then = cumulative_hazard(life, age=age + not_negative(further, "Further use"))
    return -math.expm1(now - then)


def mean_life(life: Weibull) -> float:
    """The mean life.

    Equation:
        mean = start + scale Γ(1 + 1 / shape)

    Parameters:
        life: of the part

    Returns:
        mean [the unit of the life]

    Valid for:
        shapes from 0.1 to 1000

    Source:
        Weibull, Journal of Applied Mechanics 18 (1951).

    Example:
        >>> round(mean_life(Weibull(2.0, 5.0, start=10.0)), 8)
        14.43113463

    Not covered:
        parts of mixed origin.
    """
    return life.start + life.scale * math.gamma(1 + 1 / life.shape)


def life_deviation(life: Weibull) -> float:
    """The standard deviation of the life.

    Equation:
        s = scale √(Γ(1 + 2 / shape) − Γ(1 + 1 / shape)²)

    Parameters:
        life: of the part

    Returns:
        standard deviation [the unit of the life]

    Valid for:
        shapes from 0.1 to 1000

    Source:
        Weibull, Journal of Applied Mechanics 18 (1951).

    Example:
        >>> round(life_deviation(Weibull(2.0, 5.0, start=10.0)), 8)
        2.31625688

    Not covered:
        parts of mixed origin.
    """
    # As a difference of logarithms: at large shapes the two gammas are nearly one.
    first, second = math.lgamma(1 + 1 / life.shape), math.lgamma(1 + 2 / life.shape)
    return life.scale * math.exp(first) * math.sqrt(math.expm1(second - 2 * first))


def age_at(life: Weibull, *, percent: float) -> float:
    """The age by which so many percent have failed.

    Equation:
        t = start + scale (−ln(1 − F))^(1 / shape)

    Parameters:
        life: of the part
        percent: failed by then [%]

    Returns:
        age [the unit of the life]

    Valid for:
        above 0 and below 100 %

    Source:
        HAND: reliability, solved for the age.

    Example:
        >>> round(age_at(Weibull(2.0, 5.0, start=10.0), percent=20.0), 8)
        12.36190364

    Not covered:
        parts of mixed origin.
    """
    if not 0 < percent < 100:
        raise PercentOutOfRange("A share of failed parts", percent)
    share: float = (-math.log1p(-percent / 100)) ** (1 / life.shape)
    return life.start + life.scale * share


def hazard(life: Weibull, *, age: float) -> float:
    """How many of the parts that are left fail in one unit of further use.

    Equation:
        h = shape / scale · ((t − start) / scale)^(shape − 1), 0 before the start

    Parameters:
        life: of the part
        age: since new [the unit of the life]

    Returns:
        hazard [1 per unit of the life]; infinite at the start of a life with a shape below 1

    Valid for:
        ages from 0

    Source:
        Weibull, Journal of Applied Mechanics 18 (1951).

    Example:
        >>> life = Weibull(2.0, 5.0, start=10.0)
        >>> round(hazard(life, age=age_at(life, percent=0.1)), 8)
        0.01265227

    Not covered:
        parts of mixed origin.
    """
    above = not_negative(age, "Age") - life.start
    if above < 0:
        return 0.0
    if above == 0:
        return 0.0 if life.shape > 1 else 1 / life.scale if life.shape == 1 else math.inf
    power = (life.shape - 1) * math.log(max(above / life.scale, _TINY))
    return life.shape / life.scale * math.exp(power) if power < 700 else math.inf


def mean_residual_life(life: Weibull, *, age: float) -> float:
    """How much longer a part lasts on the average that has lasted to its age.

    Equation:
        MRL = ∫ R(t) dt from age to ∞, divided by R(age)

    Parameters:
        life: of the part
        age: since new, now [the unit of the life]

    Returns:
        mean residual life [the unit of the life]

    Valid for:
        ages that a part of this life can reach

    Source:
        HAND: by parts, scale / shape · e^H Γ(1 / shape, H) with the upper incomplete gamma function.

    Example:
        >>> round(mean_residual_life(Weibull(2.0, 5.0, start=10.0), age=20.0), 8)
        1.13169262

    Not covered:
        parts of mixed origin.
    """
    so_far = _hazard_so_far(life, age)
    if age <= life.start:
        return mean_life(life) - age
    return life.scale / life.shape * _scaled_upper_gamma(1 / life.shape, so_far)


def mean_use(life: Weibull, *, age: float) -> float:
    """How long a part is in use on the average when it is taken out at an age, or before by its failure.

    Equation:
        M = ∫ R(t) dt from 0 to age

    Parameters:
        life: of the part
        age: at which it is taken out at the latest [the unit of the life]

    Returns:
        mean time in use [the unit of the life]

    Valid for:
        ages from 0

    Source:
        HAND: by parts, start + scale / shape · γ(1 / shape, H) with the lower incomplete gamma function.

    Example:
        >>> round(mean_use(Weibull(1.0, 100.0), age=100.0), 4)
        63.2121

    Not covered:
        parts of mixed origin.
    """
    so_far = cumulative_hazard(life, age=age)
    return min(age, life.start) + life.scale / life.shape * _lower_gamma(1 / life.shape, so_far)


def _hazard_so_far(life: Weibull, age: float) -> float:
    """The cumulative hazard of a part that is still there."""
    found = cumulative_hazard(life, age=age)
    if found > MOST_HAZARD:
        raise LifeOver(age, life.start + life.scale)
    return found


def _lower_gamma(a: float, x: float) -> float:
    """γ(a, x), by its series where that is short (Abramowitz and Stegun 6.5.29)."""
    if x > a + 1:
        return math.gamma(a) - (math.exp(-x) * _scaled_upper_gamma(a, x) if x < MOST_HAZARD else 0.0)
    term = total = 1 / a
    at = a
    while abs(term) > _EXACT * total:
        at += 1
        term *= x / at
        total += term
    return math.exp(a * math.log(x) - x) * total if x > 0 else 0.0


def _scaled_upper_gamma(a: float, x: float) -> float:
    """e^x Γ(a, x), by its continued fraction where that is short (Abramowitz and Stegun 6.5.31, after Lentz)."""
    if x <= a + 1:
        return math.exp(x) * (math.gamma(a) - _lower_gamma(a, x))
    at = x + 1 - a
    c, d = 1 / _TINY, 1 / at
    found, step, number = d, 0.0, 0
    while abs(step - 1) > 4 * _EXACT:
        number += 1
        part = -number * (number - a)
        at += 2
        d = 1 / (part * d + at or _TINY)
        c = at + part / c or _TINY
        step = c * d
        found *= step
    return math.exp(a * math.log(x)) * found
