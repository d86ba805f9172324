"""When a part that wears is best replaced: by its age, and while everything around it is open."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from gudgeon.calc.errors import not_negative, positive
from gudgeon.calc.planning.life import (
    MOST_HAZARD,
    Weibull,
    chance_of_failing,
    cumulative_hazard,
    hazard,
    mean_life,
    mean_use,
    reliability,
)
from gudgeon.calc.planning.network_errors import SurvivalImpossible

Why = Literal["wears out", "none fails before", "does not wear out", "no dearer to fail", "never reached"]
_NO_DIFFERENCE = 1e-12  # chances closer than that are one
_DEEPEST = 40
_PARTS = 8  # what is integrated is cut into so many parts before any of them is looked at


@dataclass(frozen=True, slots=True)
class BestAge:
    """The age at which replacing costs least in the long run, or none; rates are costs for one unit of use.

    Without an age `rate` is that of running to failure. `why` says what makes the age, or why there is none.
    """

    age: float | None
    rate: float
    rate_to_failure: float
    why: Why

    @property
    def share(self) -> float:
        """The cost rate as a share of that of running to failure [1]."""
        return self.rate / self.rate_to_failure


@dataclass(frozen=True, slots=True)
class Openings:
    """What a part costs now and what it would cost later, in one currency.

    `price` is the new part fitted now, while it is open. Should it fail before the next opening: `opening` it again,
    the `part_later`, and the `consequence`, such as a tow and what else it breaks.
    """

    price: float
    opening: float
    part_later: float
    consequence: float = 0.0

    def __post_init__(self) -> None:
        not_negative(self.price, "Price of the part now")
        not_negative(self.opening, "Cost of opening again")
        not_negative(self.part_later, "Price of the part later")
        not_negative(self.consequence, "Cost of what a failure brings")

    @property
    def failure(self) -> float:
        """What a failure before the next opening costs in all."""
        return self.opening + self.part_later + self.consequence


@dataclass(frozen=True, slots=True)
class OpenSums:
    """All the sums of the question whether a part is renewed while it is open; which is decided elsewhere.

    Kept, it costs `kept` on the average: the chance of failing times what a failure costs. Renewed, the price and
    `new`, as the new part may fail too. `saved` is what renewing saves, below 0 what it costs more. Break-even are
    the price, the chance (of the part that is kept) and the cost of a failure at which both cost the same; None where
    nothing makes them equal.
    """

    chance_kept: float
    chance_new: float
    failure: float
    price: float
    kept: float
    new: float
    break_even_price: float
    break_even_chance: float | None
    break_even_failure: float | None

    @property
    def renewed(self) -> float:
        """What renewing costs on the average: the price, and what the new part may bring."""
        return self.price + self.new

    @property
    def saved(self) -> float:
        """What renewing saves on the average; below 0 it costs more."""
        return self.kept - self.renewed


def cost_rate(life: Weibull, *, age: float, planned: float, failed: float) -> float:
    """The cost for one unit of use when a part is always replaced at an age, or before at its failure.

    Equation:
        C(T) = (planned · R(T) + failed · (1 − R(T))) / ∫ R(t) dt from 0 to T

    Parameters:
        life: of the part
        age: T, at which it is replaced [the unit of the life]
        planned: cost of a replacement before failure [any one currency]
        failed: cost of a failure with all that it brings [the same currency]

    Returns:
        cost rate [currency per unit of the life]

    Valid for:
        parts replaced by equal ones again and again

    Source:
        Barlow and Hunter, Optimum preventive maintenance policies, Operations Research 8 (1960), policy I.

    Example:
        >>> round(cost_rate(Weibull(2.5, 1000.0), age=493.047, planned=1.0, failed=5.0), 8)
        0.00346204

    Not covered:
        interest, and the time that a replacement takes.
    """
    positive(age, "Age of replacement")
    left = reliability(life, age=age)
    spent = positive(planned, "Cost of a planned replacement") * left
    spent += positive(failed, "Cost of a failure") * -math.expm1(-cumulative_hazard(life, age=age))
    return spent / mean_use(life, age=age)


def cost_rate_of(survival: Callable[[float], float], *, age: float, planned: float, failed: float) -> float:
    """The same cost rate for any life, told by its reliability.

    Equation:
        C(T) = (planned · R(T) + failed · (1 − R(T))) / ∫ R(t) dt from 0 to T, by Simpson's rule on ever finer parts

    Parameters:
        survival: the reliability R at an age, from 1 at 0, never rising [1]
        age: T, at which it is replaced [any unit]
        planned: cost of a replacement before failure [any one currency]
        failed: cost of a failure with all that it brings [the same currency]

    Returns:
        cost rate [currency per unit of the age]

    Valid for:
        parts replaced by equal ones again and again

    Source:
        Barlow and Hunter, Operations Research 8 (1960), policy I.

    Example:
        >>> even = lambda km: max(0.0, 1 - km / 40000)
        >>> [round(cost_rate_of(even, age=km, planned=100.0, failed=200.0), 4) for km in (10000, 20000, 30000, 40000)]
        [0.0143, 0.01, 0.0093, 0.01]

    Not covered:
        interest, and the time that a replacement takes.
    """
    positive(age, "Age of replacement")
    positive(planned, "Cost of a planned replacement")
    positive(failed, "Cost of a failure")
    left = _checked(survival, age, most=1.0)
    return (planned * left + failed * (1 - left)) / _area(survival, age)


def best_age(life: Weibull, *, planned: float, failed: float) -> BestAge:
    """The age at which replacing a part costs least in the long run.

    Equation:
        h(T) ∫ R dt + R(T) = failed / (failed − planned)

        The left side begins at 1 and has the slope h′(T) ∫ R dt. With a shape above 1 the hazard h rises without end,
        so the left side does, and passes the right one, which is above 1, exactly once. With a shape up to 1 it never
        rises after the start: no age is better than running to failure, but for the end of a time in which none fails.

    Parameters:
        life: of the part
        planned: cost of a replacement before failure [any one currency]
        failed: cost of a failure with all that it brings [the same currency]

    Returns:
        age [the unit of the life], or none; cost rates at it and without it [currency per unit of the life]

    Valid for:
        parts replaced by equal ones again and again

    Source:
        Barlow and Hunter, Operations Research 8 (1960), policy I; the proof by hand.

    Example:
        >>> found = best_age(Weibull(2.5, 1000.0), planned=1.0, failed=5.0)
        >>> round(found.age, 3), round(found.rate, 8), round(found.share, 2)
        (493.047, 0.00346204, 0.61)
        >>> best_age(Weibull(1.0, 1000.0), planned=1.0, failed=5.0).why
        'does not wear out'

    Not covered:
        interest, and the time that a replacement takes; parts that are only reached when something else is open.
    """
    positive(planned, "Cost of a planned replacement")
    to_failure = positive(failed, "Cost of a failure") / mean_life(life)
    if planned >= failed:
        return BestAge(None, to_failure, to_failure, "no dearer to fail")
    if life.shape <= 1:
        at_start = planned / life.start if life.start > 0 else math.inf
        if at_start < to_failure:
            return BestAge(life.start, at_start, to_failure, "none fails before")
        return BestAge(None, to_failure, to_failure, "does not wear out")
    age = _root(life, planned / (failed - planned))
    if age is None:
        return BestAge(None, to_failure, to_failure, "never reached")
    return BestAge(age, cost_rate(life, age=age, planned=planned, failed=failed), to_failure, "wears out")


def while_open(life: Weibull, *, age: float, further: float, costs: Openings) -> OpenSums:
    """What it costs on the average to keep a part that is open now, and what to renew it.

    Equation:
        kept = P(age) · failure; renewed = price + P(0) · failure, with the chance P of failing within the further use
        and failure = opening again + part + consequence

    Parameters:
        life: of the part
        age: since new, now [the unit of the life]
        further: use until it will be open again anyway [the same unit]
        costs: of the part now, and of a failure, in one currency

    Returns:
        chances [1], costs and break-even values [the currency of the costs]

    Valid for:
        a part that was found good, and one failure at most before the next opening

    Source:
        HAND: expected cost of two choices.

    Example:
        >>> costs = Openings(price=40.0, opening=600.0, part_later=40.0)
        >>> found = while_open(Weibull(3.0, 100.0), age=80.0, further=20.0, costs=costs)
        >>> round(found.kept), round(found.renewed), round(found.saved), round(found.break_even_price)
        (247, 45, 202, 242)

    Not covered:
        what the eye saw of the part; a second failure; what a part renewed now is still worth at the next opening.
    """
    kept = chance_of_failing(life, age=age, further=further)
    new = chance_of_failing(life, age=0.0, further=further)
    failure, price = costs.failure, costs.price
    chance = new + price / failure if failure > 0 else math.inf
    return OpenSums(
        kept,
        new,
        failure,
        price,
        kept * failure,
        new * failure,
        break_even_price=(kept - new) * failure,
        break_even_chance=chance if chance <= 1 else None,
        break_even_failure=price / (kept - new) if kept - new > _NO_DIFFERENCE else None,
    )


def _root(life: Weibull, wanted: float) -> float | None:
    """The age at which h ∫ R dt − (1 − R) is as wanted, by halving; none where no part gets so old."""

    def at(log_hazard: float) -> float:
        return life.start + life.scale * math.exp(log_hazard / life.shape)

    def less(log_hazard: float) -> bool:
        age = at(log_hazard)
        failed = -math.expm1(-math.exp(log_hazard))
        return hazard(life, age=age) * mean_use(life, age=age) - failed < wanted

    low, high = -700.0, math.log(MOST_HAZARD)
    if less(high):
        return None
    while (middle := (low + high) / 2) not in (low, high):
        low, high = (middle, high) if less(middle) else (low, middle)
    return at(high)


def _checked(survival: Callable[[float], float], age: float, *, most: float) -> float:
    """The reliability at an age, no greater than at an earlier one."""
    found = survival(age)
    if not 0 <= found <= most * (1 + 1e-12):
        raise SurvivalImpossible(age, found)
    return found


def _area(survival: Callable[[float], float], age: float) -> float:
    """The area under the reliability; where a part of it is not exact enough it is halved."""
    step, total, left = age / _PARTS, 0.0, _checked(survival, 0.0, most=1.0)
    waiting: list[tuple[float, float, float, float, float, int]] = []
    for number in range(_PARTS):
        begin, middle = number * step, (number + 0.5) * step
        half = _checked(survival, middle, most=left)
        right = _checked(survival, begin + step, most=half)
        waiting.append((begin, step, left, half, right, 0))
        left = right
    while waiting:
        begin, wide, first, half, last, depth = waiting.pop()
        early = _checked(survival, begin + wide / 4, most=first)
        late = _checked(survival, begin + 3 * wide / 4, most=half)
        coarse = wide / 6 * (first + 4 * half + last)
        fine = wide / 12 * (first + 4 * early + 2 * half + 4 * late + last)
        if abs(fine - coarse) <= 1e-12 * age or depth == _DEEPEST:
            total += fine
        else:
            waiting.append((begin, wide / 2, first, early, half, depth + 1))
            waiting.append((begin + wide / 2, wide / 2, half, late, last, depth + 1))
    return total
