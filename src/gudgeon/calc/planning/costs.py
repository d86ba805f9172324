"""What a job costs whose parts are uncertain: three-point estimates, some of which come by chance, and err together."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.calc.planning.cost_errors import ChanceOutOfRange, TogetherOutOfRange
from gudgeon.calc.planning.estimate import LEAST_TRIALS, ThreePoint, moments
from gudgeon.calc.planning.network_errors import TrialsTooFew

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

_WIDEST, _STEPS = 4.5, 181


@dataclass(frozen=True, slots=True)
class UncertainCost:
    """What something costs at least, as a rule and at most, and how likely it comes at all."""

    estimate: ThreePoint
    chance: float = 1.0

    def __post_init__(self) -> None:
        if not 0 < self.chance <= 1:
            raise ChanceOutOfRange(self.chance)


def mean_cost(costs: Sequence[UncertainCost]) -> float:
    """What so many uncertain costs come to on the average.

    Equation:
        sum of p (a + 4 m + b) / 6

    Parameters:
        costs: each with its three-point estimate a, m, b and its chance p [any one currency]

    Returns:
        the mean of the sum [that currency]

    Valid for:
        any dependence between them: means add up whatever the costs have to do with each other

    Source:
        Malcolm and others, Operations Research 7 (1959), for the mean of each; the rest is the law of expectation.

    Example:
        >>> mean_cost([UncertainCost(ThreePoint(80, 100, 180)), UncertainCost(ThreePoint(60, 60, 60), 0.5)])
        140.0

    Not covered:
        how far the sum scatters: see drawn_costs.
    """
    return sum(one.chance * moments(one.estimate).mean for one in costs)


def drawn_costs(
    costs: Sequence[UncertainCost], *, random: "np.random.Generator", trials: int, together: float
) -> "Floats":
    """What so many uncertain costs come to together, once for each trial.

    Equation:
        z = √r Z + √(1 − r) e, with one Z of a trial for all costs and an e of each; amount = a + (b − a) X with X the
        quantile Φ(z) of the beta distribution of the exponents 1 + 4 (m − a) / (b − a) and 1 + 4 (b − m) / (b − a),
        read off straight between 181 values of z from −4.5 to 4.5; it counts where an even chance lies below p

    Parameters:
        costs: each with its three-point estimate a, m, b and its chance p [any one currency]
        random: where chance comes from; the same seed gives the same sums. A cost more at the end leaves what is
            drawn for those before it as it was [generator]
        trials: how many, at least 20 [1]
        together: correlation r between the estimates, 0 each by itself, 1 all the same way [1]

    Returns:
        the sum in each trial [that currency]

    Valid for:
        0 ≤ r ≤ 1; whether something comes at all has nothing to do with the rest

    Source:
        HAND: a normal copula of one common factor over the beta distributions of the classical mean (Malcolm and
        others, 1959).

    Example:
        >>> import numpy as np
        >>> two = [UncertainCost(ThreePoint(80, 100, 180)), UncertainCost(ThreePoint(60, 60, 60), 0.5)]
        >>> found = drawn_costs(two, random=np.random.default_rng(1), trials=4000, together=0.3)
        >>> found.shape, round(float(found.mean()) / 10)
        ((4000,), 14)

    Not covered:
        findings that bring others with them: write those as one cost.
    """
    import numpy as np
    from scipy.special import betaincinv, ndtr

    if trials < LEAST_TRIALS:
        raise TrialsTooFew(trials, LEAST_TRIALS)
    if not 0 <= together <= 1:
        raise TogetherOutOfRange(together)
    grid = np.linspace(-_WIDEST, _WIDEST, _STEPS)
    shares = ndtr(grid)
    common = np.sqrt(together) * random.standard_normal(trials)
    total: Floats = np.zeros(trials)
    for one in costs:
        own, comes = random.standard_normal(trials), random.random(trials)
        low, likely, high = one.estimate.optimistic, one.estimate.likely, one.estimate.pessimistic
        amount = np.full(trials, float(low))
        if high > low:
            peak = (likely - low) / (high - low)
            # The inverse costs more than all the rest: it is worked out on a grid and read off between.
            inverse = betaincinv(1 + 4 * peak, 5 - 4 * peak, shares)
            amount += (high - low) * np.interp(common + np.sqrt(1 - together) * own, grid, inverse)
        total += np.where(comes < one.chance, amount, 0.0)
    return total
