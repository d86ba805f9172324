"""Lives against scipy.stats.weibull_min, best ages against a search over many ages, the sums against trials."""

import math

import numpy as np
import pytest
from scipy import integrate, stats

from gudgeon.calc.planning.life import (
    Weibull,
    age_at,
    chance_of_failing,
    hazard,
    life_deviation,
    life_through,
    mean_life,
    mean_residual_life,
    mean_use,
    reliability,
)
from gudgeon.calc.planning.wear_out import Openings, best_age, cost_rate, cost_rate_of, while_open

LIVES = [
    Weibull(shape, scale, start)
    for shape in (0.4, 0.8, 1.0, 1.3, 2.5, 4.0, 12.0, 200.0)
    for scale, start in ((1.0, 0.0), (120_000.0, 0.0), (50.0, 30.0))
]


@pytest.mark.parametrize("life", LIVES, ids=str)
def test_a_life_as_scipy_has_it(life: Weibull) -> None:
    other = stats.weibull_min(life.shape, loc=life.start, scale=life.scale)
    assert mean_life(life) == pytest.approx(other.mean(), rel=1e-11)
    # Where the shape is large scipy takes one from another that is nearly equal.
    assert life_deviation(life) == pytest.approx(other.std(), rel=1e-10 if life.shape < 20 else 1e-6)
    for percent in (0.1, 5, 20, 50, 90, 99.9):
        age = age_at(life, percent=percent)
        assert age == pytest.approx(other.ppf(percent / 100), rel=1e-12)
        assert reliability(life, age=age) == pytest.approx(other.sf(age), rel=1e-10)
        assert hazard(life, age=age) == pytest.approx(other.pdf(age) / other.sf(age), rel=1e-9)
        further = 0.3 * life.scale
        lost = 1 - other.sf(age + further) / other.sf(age)
        assert chance_of_failing(life, age=age, further=further) == pytest.approx(lost, rel=1e-8)


@pytest.mark.parametrize("life", [one for one in LIVES if 0.8 <= one.shape <= 12], ids=str)
@pytest.mark.parametrize("percent", [1, 40, 63, 65, 90, 99.9])
def test_areas_under_the_reliability_as_scipy_has_them(life: Weibull, percent: float) -> None:
    age = age_at(life, percent=percent)
    other = stats.weibull_min(life.shape, loc=life.start, scale=life.scale)
    if life.start:
        inner = life.start + integrate.quad(other.sf, life.start, age, epsabs=0, epsrel=1e-11)[0]
    else:
        inner = integrate.quad(other.sf, 0, age, epsabs=0, epsrel=1e-11)[0]
    assert mean_use(life, age=age) == pytest.approx(inner, rel=1e-9)
    far = other.isf(1e-18)
    outer = integrate.quad(other.sf, age, far, epsabs=0, epsrel=1e-11, limit=200)[0] / other.sf(age)
    assert mean_residual_life(life, age=age) == pytest.approx(outer, rel=1e-8)


@pytest.mark.parametrize("life", [one for one in LIVES if one.shape > 1 and one.shape < 20], ids=str)
@pytest.mark.parametrize("failed", [1.5, 5, 40])
def test_no_other_age_costs_less(life: Weibull, failed: float) -> None:
    best = best_age(life, planned=1, failed=failed)
    if best.age is None:
        assert best.rate == pytest.approx(cost_rate(life, age=50 * life.scale, planned=1, failed=failed))
        return
    least = best.rate * (1 - 1e-12)
    for age in np.linspace(best.age / 300, life.start + 3 * life.scale, 300):
        assert cost_rate(life, age=float(age), planned=1, failed=failed) >= least
    assert best.rate < best.rate_to_failure


@pytest.mark.parametrize("shape", [0.5, 0.9, 1.0])
def test_what_does_not_wear_costs_least_when_it_runs(shape: float) -> None:
    life = Weibull(shape, 100)
    best = best_age(life, planned=1, failed=50)
    assert (best.age, best.why, best.share) == (None, "does not wear out", 1)
    for age in np.geomspace(1e-3, 1000, 200):
        assert cost_rate(life, age=float(age), planned=1, failed=50) >= best.rate * (1 - 1e-9)


@pytest.mark.parametrize("shape", [0.5, 1.0])
def test_after_a_time_in_which_none_fails_its_end_may_be_best(shape: float) -> None:
    life = Weibull(shape, 100, start=40)
    best = best_age(life, planned=1, failed=50)
    assert (best.age, best.why) == (40, "none fails before")
    ages = [*np.linspace(1, 39.9, 50).tolist(), *np.geomspace(40.1, 2000, 200).tolist()]
    assert all(cost_rate(life, age=age, planned=1, failed=50) > best.rate for age in ages)
    assert best_age(life, planned=49, failed=50).why == "does not wear out"


@pytest.mark.parametrize("life", [Weibull(2.5, 1000), Weibull(0.8, 10), Weibull(3, 50, 30)], ids=str)
def test_a_life_told_by_its_reliability_costs_the_same(life: Weibull) -> None:
    for age in (0.2, 0.9, 1.7):
        at = life.start + age * life.scale
        ours = cost_rate_of(lambda use: reliability(life, age=use), age=at, planned=1, failed=5)
        assert ours == pytest.approx(cost_rate(life, age=at, planned=1, failed=5), rel=1e-8)


def test_a_life_of_one_step() -> None:
    """HAND: none fails before 10, all at 10: run to 20, each is in use for 10 and fails."""
    assert cost_rate_of(lambda age: float(age < 10), age=20, planned=1, failed=5) == pytest.approx(
        0.5, rel=1e-9
    )


def test_the_sums_of_a_part_that_is_open_as_trials_have_them() -> None:
    life, age, further = Weibull(3, 100, start=10), 80.0, 30.0
    costs = Openings(40, 600, 45, 200)
    chance = np.random.default_rng(12)
    lives = 10 + 100 * chance.weibull(3, 400_000)
    lasted = lives[lives > age]
    kept, new = (lasted <= age + further).mean(), (lives <= further).mean()
    found = while_open(life, age=age, further=further, costs=costs)
    assert found.chance_kept == pytest.approx(kept, abs=4 * 0.5 / math.sqrt(len(lasted)))
    assert found.chance_new == pytest.approx(new, abs=4 * math.sqrt(new / 400_000))
    # HAND: 600 + 45 + 200 is what a failure costs.
    assert found.failure == 845
    assert found.saved == pytest.approx(845 * found.chance_kept - 40 - 845 * found.chance_new)


def test_at_break_even_both_choices_cost_the_same() -> None:
    life = Weibull(2.2, 100)
    first = while_open(life, age=60, further=20, costs=Openings(100, 500, 60))
    equal = while_open(life, age=60, further=20, costs=Openings(first.break_even_price, 500, 60))
    assert equal.saved == pytest.approx(0, abs=1e-9)
    assert first.break_even_failure is not None
    dear = while_open(life, age=60, further=20, costs=Openings(100, first.break_even_failure, 0))
    assert dear.saved == pytest.approx(0, abs=1e-9)
    assert first.break_even_chance is not None
    assert first.break_even_chance * first.failure == pytest.approx(first.renewed)


@pytest.mark.parametrize(("shape", "scale"), [(0.7, 10.0), (1.0, 5.0), (3.3, 140_000.0)])
def test_a_life_through_two_ages_is_found_again(shape: float, scale: float) -> None:
    life = Weibull(shape, scale)
    early, late = age_at(life, percent=10), age_at(life, percent=50)
    found = life_through(early, early_percent=10, late_age=late, late_percent=50)
    assert [found.shape, found.scale] == pytest.approx([shape, scale])
