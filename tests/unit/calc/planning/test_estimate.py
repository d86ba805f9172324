"""Three-point estimates: refusals, what is drawn, and the finish of networks."""

import math

import numpy as np
import pytest

from gudgeon.calc.planning.estimate import (
    FORMS,
    Form,
    ThreePoint,
    beta_moments,
    chance_by,
    classical_finish,
    drawn,
    moments,
    percentiles,
    simulated_finish,
)
from gudgeon.calc.planning.network_errors import (
    EstimateNegative,
    EstimateNotFinite,
    EstimateOutOfOrder,
    NoTrials,
    PercentOutOfRange,
    TrialsTooFew,
)
from gudgeon.errors import InputError


@pytest.mark.parametrize(
    ("given", "kind", "told"),
    [
        ((5, 3, 7), EstimateOutOfOrder, "The estimate 5 – 3 – 7 cannot be: the least, 5, lies above the most likely, 3. Write them in rising order: least, most likely, greatest; they may be equal."),
        ((5, 8, 7), EstimateOutOfOrder, "The estimate 5 – 8 – 7 cannot be: the most likely, 8, lies above the greatest, 7. Write them in rising order: least, most likely, greatest; they may be equal."),
        ((-1, 3, 7), EstimateNegative, "The estimate -1 – 3 – 7 begins below 0, and nothing takes less than no time. Check the signs."),
        ((1, math.nan, 7), EstimateNotFinite, "The estimate 1 – nan – 7 is not of three finite numbers. Give the least, the most likely and the greatest."),
        ((1, 3, math.inf), EstimateNotFinite, "The estimate 1 – 3 – inf is not of three finite numbers. Give the least, the most likely and the greatest."),
    ],
)  # fmt: skip
def test_impossible_estimates(given: tuple[float, float, float], kind: type[InputError], told: str) -> None:
    with pytest.raises(kind) as caught:
        ThreePoint(*given)
    assert caught.value.message == told


def test_too_few_trials_and_percentiles_of_nothing() -> None:
    with pytest.raises(TrialsTooFew) as few:
        drawn([ThreePoint(1, 2, 3)], random=np.random.default_rng(1), trials=19)
    assert few.value.message == (
        "19 trials tell no distribution: at least 20 are needed. 2,000 to 20,000 are usual."
    )
    with pytest.raises(NoTrials) as none:
        percentiles(np.array([]))
    assert none.value.message == ("No outcome is given, so no percentile can be told. Give at least one.")
    with pytest.raises(PercentOutOfRange) as whole:
        percentiles(np.array([1.0]), percents=(10, 100))
    assert whole.value.message == "A percentile of 100 % cannot be: it lies above 0 and below 100 %."


def test_percentiles_lie_between_ranks() -> None:
    """HAND: of 0, 10, 20 and 30 the middle is 15; a tenth of the three steps is 3."""
    assert percentiles(np.array([30.0, 0.0, 20.0, 10.0])) == pytest.approx((3.0, 15.0, 27.0))


def test_an_estimate_without_width_does_not_scatter() -> None:
    for form in FORMS:
        found = drawn([ThreePoint(4, 4, 4)], random=np.random.default_rng(1), trials=50, form=form)
        assert (found == 4).all()
    assert moments(ThreePoint(4, 4, 4)).deviation == beta_moments(ThreePoint(4, 4, 4)).deviation == 0
    certain = classical_finish({"A": ThreePoint(4, 4, 4)}, after={})
    chances = [chance_by(limit, mean=certain.mean, deviation=certain.deviation) for limit in (3.9, 4, 4.1)]
    assert chances == [0, 1, 1]


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("peak", [2, 4, 11, 12])
def test_what_is_drawn_stays_between_the_ends_and_has_its_mean(form: Form, peak: float) -> None:
    """HAND: the mean of a triangle is a third of its three corners."""
    estimate = ThreePoint(2, peak, 12)
    found = drawn([estimate], random=np.random.default_rng(7), trials=40_000, form=form)[:, 0]
    mean = moments(estimate).mean if form == "beta" else (2 + peak + 12) / 3
    assert found.min() >= 2
    assert found.max() <= 12
    assert found.mean() == pytest.approx(mean, abs=5 * found.std() / 200)


def test_the_same_seed_gives_the_same_finishes() -> None:
    tasks = {"A": ThreePoint(1, 2, 3), "B": ThreePoint(1, 2, 5)}
    first, again = (
        simulated_finish(tasks, after={}, random=np.random.default_rng(5), trials=100) for _ in range(2)
    )
    assert (first.finishes == again.finishes).all()


def test_of_two_critical_paths_that_of_the_greater_variance_is_taken() -> None:
    """HAND: both take 10; the deviations are 0 and 4/6 + 0."""
    tasks = {"A": ThreePoint(10, 10, 10), "B": ThreePoint(3, 5, 7), "C": ThreePoint(5, 5, 5)}
    found = classical_finish(tasks, after={"C": ["B"]})
    assert found.path == ("B", "C")
    assert found.deviation == pytest.approx(4 / 6)


def test_tasks_without_duration_stand_in_the_path() -> None:
    tasks = {"A": ThreePoint(1, 2, 3), "ready": ThreePoint(0, 0, 0)}
    assert classical_finish(tasks, after={"ready": ["A"]}).path == ("A", "ready")
