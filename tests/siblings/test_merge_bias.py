"""The simulated finish against exact distributions and against a convex bound.

scipy gives the beta distribution a second time. HAND: tasks side by side are all done by t with the product of their
probabilities. HAND (Jensen): the longest path is convex in the durations, so the mean of the finishes is never
earlier than the finish of the mean durations, for the very durations that were drawn.
"""

from typing import Any

import numpy as np
import pytest
from scipy import stats

from gudgeon.calc.planning.estimate import (
    FORMS,
    Form,
    ThreePoint,
    beta_moments,
    classical_finish,
    drawn,
    finishes,
    simulated_finish,
)
from gudgeon.calc.planning.network import critical_path, order_of

SIDE_BY_SIDE = {"A": ThreePoint(2, 5, 9), "B": ThreePoint(1, 6, 8), "C": ThreePoint(4, 4, 10)}


def second(estimate: ThreePoint, form: Form) -> Any:
    width = estimate.pessimistic - estimate.optimistic
    peak = (estimate.likely - estimate.optimistic) / width
    if form == "beta":
        return stats.beta(1 + 4 * peak, 5 - 4 * peak, loc=estimate.optimistic, scale=width)
    return stats.triang(peak, loc=estimate.optimistic, scale=width)


@pytest.mark.parametrize("form", FORMS)
def test_tasks_side_by_side_are_done_with_the_product_of_their_chances(form: Form) -> None:
    trials = 40_000
    found = simulated_finish(
        SIDE_BY_SIDE, after={}, random=np.random.default_rng(8), trials=trials, form=form
    )
    for limit in (4.5, 5.0, 6.0, 7.0, 8.0):
        exact = np.prod([second(one, form).cdf(limit) for one in SIDE_BY_SIDE.values()])
        assert found.chance_by(limit) == pytest.approx(exact, abs=4 * 0.5 / trials**0.5)
    assert sum(found.critical_share.values()) == pytest.approx(1)


@pytest.mark.parametrize("estimate", [*SIDE_BY_SIDE.values(), ThreePoint(0, 9, 9)])
def test_the_moments_of_the_beta_distribution(estimate: ThreePoint) -> None:
    ours, other = beta_moments(estimate), second(estimate, "beta")
    assert ours.mean == pytest.approx(other.mean(), rel=1e-12)
    assert ours.deviation == pytest.approx(other.std(), rel=1e-12)


def some_network(seed: int) -> tuple[dict[str, ThreePoint], dict[str, list[str]]]:
    chance = np.random.default_rng([9, seed])
    names = [f"t{at}" for at in range(int(chance.integers(2, 15)))]
    after = {
        name: [names[one] for one in set(chance.integers(0, at, 2).tolist())] if at else []
        for at, name in enumerate(names)
    }
    return {name: ThreePoint(*sorted(chance.uniform(0, 9, 3).round(1).tolist())) for name in names}, after


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("seed", range(10))
def test_the_mean_finish_is_never_earlier_than_that_of_the_means(seed: int, form: Form) -> None:
    tasks, after = some_network(seed)
    order = order_of(tasks, after=after)
    lasts = drawn([tasks[name] for name in order], random=np.random.default_rng(seed), trials=1000, form=form)
    found, _ = finishes(order, after=after, durations=lasts)
    means = dict(zip(order, lasts.mean(axis=0).tolist(), strict=True))
    assert found.mean() >= critical_path(means, after=after).duration - 1e-9


@pytest.mark.parametrize("seed", range(10))
def test_the_simulated_mean_is_not_earlier_than_the_classical_one(seed: int) -> None:
    """Four standard errors of the simulation are allowed."""
    tasks, after = some_network(seed)
    classical = classical_finish(tasks, after=after)
    found = simulated_finish(tasks, after=after, random=np.random.default_rng(seed), trials=4000)
    assert found.mean >= classical.mean - 4 * found.deviation / 4000**0.5


@pytest.mark.parametrize("seed", range(5))
def test_all_trials_at_once_agree_with_one_after_the_other(seed: int) -> None:
    tasks, after = some_network(seed)
    order = order_of(tasks, after=after)
    lasts = drawn([tasks[name] for name in order], random=np.random.default_rng(seed), trials=50)
    found, share = finishes(order, after=after, durations=lasts)
    each = [critical_path(dict(zip(order, row.tolist(), strict=True)), after=after) for row in lasts]
    assert found.tolist() == pytest.approx([one.duration for one in each], rel=1e-12)
    counted = [np.mean([name in one.critical for one in each]) for name in order]
    assert share.tolist() == pytest.approx(counted)
