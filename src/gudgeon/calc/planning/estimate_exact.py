"""One three-point estimate without trials: by when a task is done with so many percent, and how likely by a time."""

import math

from gudgeon.calc.planning.estimate import Form, ThreePoint
from gudgeon.calc.planning.network_errors import PercentOutOfRange


def chance_within(estimate: ThreePoint, *, limit: float, form: Form = "beta") -> float:
    """The probability that one task is done by a time.

    Equation:
        beta: the regularized incomplete beta function at (t − a) / (b − a), with the exponents
        1 + 4 (m − a) / (b − a) and 1 + 4 (b − m) / (b − a); triangular: (t − a)² / ((b − a) (m − a)) up to m,
        1 − (b − t)² / ((b − a) (b − m)) beyond

    Parameters:
        estimate: least, most likely and greatest duration [any unit of time]
        limit: the time by which it shall be done [the same unit]
        form: beta, or triangular

    Returns:
        probability [1]

    Valid for:
        one task by itself

    Source:
        HAND: areas under the densities that estimate.drawn draws from; Abramowitz and Stegun 26.5.1.

    Example:
        >>> round(chance_within(ThreePoint(2, 3, 7), limit=4), 3)
        0.728
        >>> chance_within(ThreePoint(0, 5, 10), limit=5, form="triangular")
        0.5

    Not covered:
        networks: see simulated_finish.
    """
    low, likely, high = estimate.optimistic, estimate.likely, estimate.pessimistic
    if limit >= high:
        return 1.0
    if limit <= low:
        return 0.0
    share, peak = (limit - low) / (high - low), (likely - low) / (high - low)
    if form == "triangular":
        return share**2 / peak if share < peak else 1 - (1 - share) ** 2 / (1 - peak)
    from scipy.special import betainc

    return float(betainc(1 + 4 * peak, 5 - 4 * peak, share))


def done_by(estimate: ThreePoint, *, percent: float, form: Form = "beta") -> float:
    """The time by which one task is done with so many percent.

    Equation:
        chance_within, solved for the time

    Parameters:
        estimate: least, most likely and greatest duration [any unit of time]
        percent: chance to be done by then [%]
        form: beta, or triangular

    Returns:
        time [the unit of the estimate]

    Valid for:
        one task by itself

    Source:
        HAND: chance_within, solved for the time.

    Example:
        >>> [round(done_by(ThreePoint(2, 3, 7), percent=percent), 2) for percent in (10, 50, 90)]
        [2.45, 3.38, 4.73]

    Not covered:
        networks: see simulated_finish.
    """
    if not 0 < percent < 100:
        raise PercentOutOfRange("A percentile", percent)
    low, width = estimate.optimistic, estimate.pessimistic - estimate.optimistic
    if width == 0:
        return low
    peak, chance = (estimate.likely - low) / width, percent / 100
    if form == "triangular":
        share = math.sqrt(chance * peak) if chance < peak else 1 - math.sqrt((1 - chance) * (1 - peak))
        return low + width * share
    from scipy.special import betaincinv

    return low + width * float(betaincinv(1 + 4 * peak, 5 - 4 * peak, chance))
