"""Three-point estimates, and when a network of such tasks is finished: by the classical sum, and simulated.

The classical sum follows one path and forgets that another may turn out longer; where paths meet, the later one
counts. So the simulated finish is later on the average. The difference is the merge bias.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from gudgeon.calc.planning.network import CriticalPath, critical_path, order_of
from gudgeon.calc.planning.network_errors import (
    EstimateNegative,
    EstimateNotFinite,
    EstimateOutOfOrder,
    NoTrials,
    PercentOutOfRange,
    TrialsTooFew,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

Form = Literal["beta", "triangular"]
FORMS: tuple[Form, ...] = ("beta", "triangular")
LEAST_TRIALS = 20
USUAL_PERCENTS = (10.0, 50.0, 90.0)
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class ThreePoint:
    """What a task takes at least, most likely, and at most, in any one unit of time."""

    optimistic: float
    likely: float
    pessimistic: float

    def __post_init__(self) -> None:
        given = (self.optimistic, self.likely, self.pessimistic)
        if not all(math.isfinite(one) for one in given):
            raise EstimateNotFinite(*given)
        if not self.optimistic <= self.likely <= self.pessimistic:
            raise EstimateOutOfOrder(*given)
        if self.optimistic < 0:
            raise EstimateNegative(*given)


@dataclass(frozen=True, slots=True)
class Moments:
    """Mean and standard deviation of a duration."""

    mean: float
    deviation: float


@dataclass(frozen=True, slots=True)
class ClassicalFinish:
    """The finish by the classical sum: along one critical path of the means, that of the most variance."""

    mean: float
    deviation: float
    path: tuple[str, ...]
    network: CriticalPath


@dataclass(frozen=True, slots=True)
class SimulatedFinish:
    """Finishes of so many trials, sorted, and in what share of them each task had no float.

    `merge_bias` is how much later a trial ends, on the average, than the path of the classical sum alone would in the
    same trial: never below 0, and 0 where all other paths are shorter whatever happens.
    """

    finishes: "Floats"
    mean: float
    deviation: float
    critical_share: Mapping[str, float]
    merge_bias: float

    def chance_by(self, limit: float) -> float:
        """Share of the trials finished by a time [1]."""
        import numpy as np

        return float(np.searchsorted(self.finishes, limit, side="right") / len(self.finishes))


def moments(estimate: ThreePoint) -> Moments:
    """Mean and standard deviation of a three-point estimate, classical.

    Equation:
        mean = (a + 4 m + b) / 6; standard deviation = (b − a) / 6

    Parameters:
        estimate: least, most likely and greatest duration [any unit of time]

    Returns:
        mean and standard deviation [the unit of the estimate]

    Valid for:
        0 ≤ a ≤ m ≤ b

    Source:
        Malcolm, Roseboom, Clark and Fazar, Application of a technique for research and development program
        evaluation, Operations Research 7 (1959).

    Example:
        >>> found = moments(ThreePoint(4.0, 8.0, 13.0))
        >>> round(found.mean, 2), round(found.deviation, 2)
        (8.17, 1.5)

    Not covered:
        the beta distribution that is drawn from: it has this mean and scatters up to a fifth more, or less at a
        skew; see beta_moments.
    """
    low, likely, high = estimate.optimistic, estimate.likely, estimate.pessimistic
    return Moments((low + 4 * likely + high) / 6, (high - low) / 6)


def beta_moments(estimate: ThreePoint) -> Moments:
    """Mean and standard deviation of the beta distribution that is drawn from.

    Equation:
        mean µ = (a + 4 m + b) / 6; variance = (µ − a) (b − µ) / 7

    Parameters:
        estimate: least, most likely and greatest duration [any unit of time]

    Returns:
        mean and standard deviation [the unit of the estimate]

    Valid for:
        0 ≤ a ≤ m ≤ b

    Source:
        HAND: a beta distribution over a … b with the exponents 1 + 4 (m − a) / (b − a) and 1 + 4 (b − m) / (b − a),
        whose sum is 6, has the variance (µ − a) (b − µ) / (6 + 1).

    Example:
        >>> round(beta_moments(ThreePoint(0.0, 5.0, 10.0)).deviation, 4)
        1.8898

    Not covered:
        estimates that are themselves too narrow, as most are.
    """
    mean = moments(estimate).mean
    return Moments(mean, math.sqrt((mean - estimate.optimistic) * (estimate.pessimistic - mean) / 7))


def classical_finish(
    estimates: Mapping[str, ThreePoint], *, after: Mapping[str, Sequence[str]]
) -> ClassicalFinish:
    """When a network is finished by the classical sum along its critical path.

    Equation:
        mean = sum of the means along the path; variance = sum of the variances along it

    Parameters:
        estimates: three-point estimate of each task [any one unit of time]
        after: for each task those that must be done before it; a task without any may be left out

    Returns:
        mean and standard deviation of the finish [the unit of the estimates], the path, the times of the means

    Valid for:
        networks in which one path is far longer than the others; of several critical ones that of the greatest
        variance is taken

    Source:
        Malcolm and others, Operations Research 7 (1959).

    Example:
        >>> found = classical_finish({"A": ThreePoint(1, 2, 3), "B": ThreePoint(2, 4, 6)}, after={"B": ["A"]})
        >>> found.mean, round(found.deviation, 3), found.path
        (6.0, 0.745, ('A', 'B'))

    Not covered:
        paths beside the critical one: see simulated_finish.
    """
    each = {task: moments(one) for task, one in estimates.items()}
    network = critical_path({task: one.mean for task, one in each.items()}, after=after)
    path = _path(network, each, after)
    variance = math.fsum(each[task].deviation ** 2 for task in path)
    return ClassicalFinish(network.duration, math.sqrt(variance), path, network)


def chance_by(limit: float, *, mean: float, deviation: float) -> float:
    """The probability that something normally distributed ends by a time.

    Equation:
        P = Φ((limit − mean) / standard deviation)

    Parameters:
        limit: the time by which it shall end [one unit of time]
        mean: of the end [the same unit]
        deviation: standard deviation of the end [the same unit]; 0 where it is certain

    Returns:
        probability [1]

    Valid for:
        sums of many tasks of which none outweighs all others

    Source:
        Malcolm and others, Operations Research 7 (1959).

    Example:
        >>> round(chance_by(31.0, mean=31.0, deviation=1.491), 3), round(chance_by(33.0, mean=31.0, deviation=1.0), 3)
        (0.5, 0.977)

    Not covered:
        the merge of paths, which makes it later than this says.
    """
    if deviation == 0:
        return 1.0 if limit >= mean else 0.0
    return math.erfc((mean - limit) / (deviation * math.sqrt(2))) / 2


def drawn(
    estimates: Sequence[ThreePoint], *, random: "np.random.Generator", trials: int, form: Form = "beta"
) -> "Floats":
    """Durations drawn from three-point estimates, one row for each trial.

    Equation:
        beta: a + (b − a) X with X of the exponents 1 + 4 (m − a) / (b − a) and 1 + 4 (b − m) / (b − a);
        triangular: the density rises straight from a to m and falls straight to b

    Parameters:
        estimates: one for each task [any one unit of time]
        random: where chance comes from; the same seed gives the same durations [generator]
        trials: how many, at least 20 [1]
        form: beta, or triangular, which weighs the ends more

    Returns:
        durations, trials × tasks [the unit of the estimates]

    Valid for:
        tasks whose durations have nothing to do with each other; a task whose three figures are one does not scatter

    Source:
        HAND: the beta distribution of the classical mean; JCGM 101:2008, 6.4 for the triangular one.

    Example:
        >>> import numpy as np
        >>> found = drawn([ThreePoint(1, 2, 9)] * 2, random=np.random.default_rng(1), trials=4000)
        >>> found.shape, round(float(found.mean()), 1)
        ((4000, 2), 3.0)

    Not covered:
        what makes all tasks late at once, such as a cold garage: draw that besides.
    """
    import numpy as np

    if trials < LEAST_TRIALS:
        raise TrialsTooFew(trials, LEAST_TRIALS)
    low, likely, high = (
        np.array([getattr(one, name) for one in estimates], dtype=float)
        for name in ("optimistic", "likely", "pessimistic")
    )
    width = high - low
    peak = np.divide(likely - low, width, out=np.zeros_like(width), where=width > 0)
    if form == "beta":
        share = random.beta(1 + 4 * peak, 5 - 4 * peak, size=(trials, len(width)))
    else:
        even = random.random((trials, len(width)))
        share = np.where(even < peak, np.sqrt(even * peak), 1 - np.sqrt((1 - even) * (1 - peak)))
    found: Floats = low + width * share
    return found


def finishes(
    order: Sequence[str], *, after: Mapping[str, Sequence[str]], durations: "Floats"
) -> tuple["Floats", "Floats"]:
    """The finish of each trial, and for each task the share of trials in which it had no float.

    Equation:
        as in critical_path, for all trials at once

    Parameters:
        order: the tasks in an order in which they can be done, see order_of
        after: for each task those that must be done before it; a task without any may be left out
        durations: trials × tasks, the tasks in this order [any one unit of time]

    Returns:
        finish of each trial [the same unit]; share of trials without float for each task, in this order [1]

    Valid for:
        tasks that begin as soon as what comes before them is done

    Source:
        Van Slyke, Monte Carlo methods and the PERT problem, Operations Research 11 (1963).

    Example:
        >>> import numpy as np
        >>> end, share = finishes(["A", "B"], after={}, durations=np.array([[1.0, 2.0], [3.0, 2.0]]))
        >>> end.tolist(), share.tolist()
        ([2.0, 3.0], [0.5, 0.5])

    Not covered:
        who is there to do it, and when.
    """
    import numpy as np

    place = {task: at for at, task in enumerate(order)}
    before = [[place[one] for one in after.get(task, ())] for task in order]
    lasts = np.ascontiguousarray(durations.T)  # a task is a row here: whole rows are added and compared
    ends = np.empty_like(lasts)
    for at, needed in enumerate(before):
        begins = np.maximum.reduce([ends[one] for one in needed]) if needed else 0.0
        np.add(begins, lasts[at], out=ends[at])
    finish: Floats = ends.max(axis=0)
    latest = np.broadcast_to(finish, ends.shape).copy()
    for at in range(len(order) - 1, -1, -1):
        begins = latest[at] - lasts[at]
        for one in before[at]:
            np.minimum(latest[one], begins, out=latest[one])
    share: Floats = (latest - ends <= _SAME * finish).mean(axis=1)
    return finish, share


def simulated_finish(
    estimates: Mapping[str, ThreePoint], *, after: Mapping[str, Sequence[str]],
    random: "np.random.Generator", trials: int, form: Form = "beta",
) -> SimulatedFinish:  # fmt: skip
    """When a network is finished in so many trials, each with durations of its own.

    Equation:
        durations drawn as in `drawn`; the finish of each trial is its longest path; merge bias = mean of the finish
        less the length of the classical path in the same trial

    Parameters:
        estimates: three-point estimate of each task [any one unit of time]
        after: for each task those that must be done before it; a task without any may be left out
        random: where chance comes from; the same seed gives the same finishes [generator]
        trials: how many, at least 20 [1]
        form: beta, or triangular

    Returns:
        finishes in rising order, their mean and standard deviation, the merge bias [the unit of the estimates]; share
        of the trials in which each task had no float [1]

    Valid for:
        tasks whose durations have nothing to do with each other

    Source:
        Van Slyke, Monte Carlo methods and the PERT problem, Operations Research 11 (1963).

    Example:
        >>> import numpy as np
        >>> two = {"A": ThreePoint(1, 2, 3), "B": ThreePoint(1, 2, 3)}
        >>> found = simulated_finish(two, after={}, random=np.random.default_rng(1), trials=4000)
        >>> classical_finish(two, after={}).mean, round(found.mean, 1), round(found.chance_by(2.0), 2)
        (2.0, 2.2, 0.25)

    Not covered:
        who is there to do it, and when.
    """
    import numpy as np

    order = order_of(estimates, after=after)
    lasts = drawn([estimates[task] for task in order], random=random, trials=trials, form=form)
    finish, share = finishes(order, after=after, durations=lasts)
    path = set(classical_finish(estimates, after=after).path)
    along = lasts[:, [task in path for task in order]].sum(axis=1)
    bias = max(0.0, float((finish - along).mean()))  # below 0 only by the rounding of the sums
    if bias <= _SAME * float(finish.mean()):
        bias = 0.0
    shares = {task: float(one) for task, one in zip(order, share, strict=True)}
    return SimulatedFinish(np.sort(finish), float(finish.mean()), float(finish.std(ddof=1)), shares, bias)


def percentiles(outcomes: "Floats", *, percents: Sequence[float] = USUAL_PERCENTS) -> tuple[float, ...]:
    """The values below which so many percent of the outcomes lie.

    Equation:
        straight between the two outcomes nearest in rank

    Parameters:
        outcomes: finishes or costs of trials, in any order [any unit]
        percents: above 0 and below 100 [%]

    Returns:
        one value for each [the unit of the outcomes]

    Valid for:
        as many trials as make the ends sure: 90 % of 2,000 trials rests on the 200 latest

    Source:
        Hyndman and Fan, Sample quantiles in statistical packages, The American Statistician 50 (1996), definition 7.

    Example:
        >>> import numpy as np
        >>> percentiles(np.arange(101.0))
        (10.0, 50.0, 90.0)

    Not covered:
        how far a percentile would differ with another seed.
    """
    import numpy as np

    if len(outcomes) == 0:
        raise NoTrials
    for percent in percents:
        if not 0 < percent < 100:
            raise PercentOutOfRange("A percentile", percent)
    return tuple(float(one) for one in np.percentile(outcomes, list(percents)))


def _path(
    network: CriticalPath, each: Mapping[str, Moments], after: Mapping[str, Sequence[str]]
) -> tuple[str, ...]:
    """The critical path of the greatest variance, then of the most tasks: each begins when the one before it ends."""
    weight: dict[str, tuple[float, int]] = {}
    came_from: dict[str, str | None] = {}
    close, times = _SAME * network.duration, network.times
    for task in network.critical:
        start = times[task].earliest_start
        before = [
            one
            for one in after.get(task, ())
            if one in weight and start - times[one].earliest_finish <= close
        ]
        last = max(before, key=lambda one: weight[one], default=None)
        variance, count = (0.0, 0) if last is None else weight[last]
        weight[task] = variance + each[task].deviation ** 2, count + 1
        came_from[task] = last
    ends = [one for one in weight if network.duration - times[one].earliest_finish <= close]
    at: str | None = max(ends, key=lambda one: weight[one])
    path: list[str] = []
    while at is not None:
        path.append(at)
        at = came_from[at]
    return tuple(reversed(path))
