"""Sums of uncertain costs. Expected values are HAND unless said: means and mixtures worked out on paper."""

import numpy as np
import pytest
from scipy import stats

from gudgeon.calc.planning.cost_errors import ChanceOutOfRange, TogetherOutOfRange
from gudgeon.calc.planning.costs import UncertainCost, drawn_costs, mean_cost
from gudgeon.calc.planning.estimate import ThreePoint, percentiles
from gudgeon.calc.planning.network_errors import TrialsTooFew

TRIALS = 40_000


def drawn(*costs: UncertainCost, together: float = 0.3, trials: int = TRIALS) -> "np.ndarray":
    return drawn_costs(costs, random=np.random.default_rng(5), trials=trials, together=together)


def cost(low: float, likely: float, high: float, chance: float = 1.0) -> UncertainCost:
    return UncertainCost(ThreePoint(low, likely, high), chance)


def test_the_mean_is_that_of_the_law_of_expectation() -> None:
    # (60 + 4·90 + 180)/6 = 100; 0.25 · (100 + 4·200 + 300)/6 = 50
    costs = (cost(60, 90, 180), cost(100, 200, 300, 0.25))
    assert mean_cost(costs) == pytest.approx(150)
    # standard error: (sqrt(7/12·…)) at most 95 of one trial, so 0.5 of 40,000; five of them
    assert drawn(*costs).mean() == pytest.approx(150, abs=2.5)


def test_one_cost_has_the_percentiles_of_its_beta_distribution() -> None:
    # OTHER TOOL: scipy.stats.beta, another way to the same distribution; m in the middle: exponents 3 and 3
    expected = 100 + 100 * stats.beta(3, 3).ppf([0.1, 0.5, 0.9])
    assert percentiles(drawn(cost(100, 150, 200))) == pytest.approx(expected, abs=1.0)


def test_costs_that_err_all_the_same_way_add_up_at_every_percentile() -> None:
    """At a correlation of 1 the percentiles of a sum are the sums of the percentiles."""
    one, two = cost(100, 150, 200), cost(10, 20, 90)
    alone = [percentiles(drawn(each, together=1.0)) for each in (one, two)]
    both = percentiles(drawn(one, two, together=1.0))
    assert both == pytest.approx([first + second for first, second in zip(*alone, strict=True)], rel=1e-9)


def test_costs_that_err_by_themselves_add_up_in_quadrature() -> None:
    # each: variance (µ − a)(b − µ)/7 = 50 · 50/7; sixteen of them: 16 times that
    costs = [cost(100, 150, 200)] * 16
    assert drawn(*costs, together=0.0).std() == pytest.approx((16 * 2500 / 7) ** 0.5, rel=0.02)
    assert drawn(*costs, together=0.3).std() > 2 * drawn(*costs, together=0.0).std()


def test_a_finding_by_chance_comes_as_often_as_it_says() -> None:
    # HAND: 0 in seven of ten, 60 in three of ten; five standard errors of 40,000 are 0.0115
    found = drawn(cost(60, 60, 60, 0.3))
    assert set(np.unique(found)) == {0.0, 60.0}
    assert (found == 60).mean() == pytest.approx(0.3, abs=0.0115)


def test_a_cost_more_leaves_what_was_drawn_as_it_was() -> None:
    one, two = cost(100, 150, 200), cost(10, 20, 90, 0.5)
    alone, both = drawn(one), drawn(one, two)
    assert (both >= alone).all()
    assert (both[both == alone]).size == pytest.approx(TRIALS / 2, rel=0.05)


def test_nothing_costs_nothing() -> None:
    assert mean_cost([]) == 0
    assert not drawn(trials=20).any()


@pytest.mark.parametrize("chance", [0.0, -0.1, 1.1, float("nan")])
def test_an_impossible_chance_is_refused(chance: float) -> None:
    with pytest.raises(ChanceOutOfRange) as refused:
        cost(1, 2, 3, chance)
    assert str(refused.value) == (
        f"A chance of {chance:g} cannot be: it lies above 0 and is at most 1. Leave out what never comes; what is "
        "certain has the chance 1."
    )


def test_an_impossible_correlation_and_too_few_trials_are_refused() -> None:
    with pytest.raises(TogetherOutOfRange) as refused:
        drawn(cost(1, 2, 3), together=1.5)
    assert str(refused.value) == (
        "Estimates that err together by 1.5 cannot be: 0 is each by itself, 1 all the same way. Give a share between "
        "them."
    )
    with pytest.raises(TrialsTooFew):
        drawn(cost(1, 2, 3), trials=19)
