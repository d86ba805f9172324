"""Lives and replacement: what is refused, and where there is no age."""

import math
from collections.abc import Callable

import pytest

from gudgeon.calc.errors import Negative, NotPositive
from gudgeon.calc.planning.life import (
    Weibull,
    age_at,
    chance_of_failing,
    hazard,
    life_through,
    mean_residual_life,
    reliability,
)
from gudgeon.calc.planning.network_errors import (
    ChancesNotRising,
    LifeOver,
    PercentOutOfRange,
    ShapeOutOfRange,
    SurvivalImpossible,
)
from gudgeon.calc.planning.wear_out import Openings, best_age, cost_rate_of, while_open
from gudgeon.errors import InputError

LIFE = Weibull(3, 100)


@pytest.mark.parametrize(
    ("asked", "kind", "told"),
    [
        (lambda: Weibull(0.05, 100), ShapeOutOfRange, "Shape 0.05 of a life cannot be used: it lies from 0.1 to 1000, and of parts from 0.5 to 10 (common practice, no source). Above 1 they wear out, at 1 they fail by chance."),
        (lambda: Weibull(2, 0), NotPositive, "Characteristic life 0 cannot be: it is above 0. Check the figure and its sign."),
        (lambda: Weibull(2, 1, -3), Negative, "Age before which none fails -3 cannot be: it is 0 or more. Check the figure and its sign."),
        (lambda: reliability(LIFE, age=-1), Negative, "Age -1 cannot be: it is 0 or more. Check the figure and its sign."),
        (lambda: chance_of_failing(LIFE, age=1, further=-1), Negative, "Further use -1 cannot be: it is 0 or more. Check the figure and its sign."),
        (lambda: chance_of_failing(LIFE, age=90_000, further=1), LifeOver, "Age 90000 cannot be reached with a characteristic life of 100: less than one part in 10^299 would be left. Check both; they count in the same unit from new."),
        (lambda: age_at(LIFE, percent=100), PercentOutOfRange, "A share of failed parts of 100 % cannot be: it lies above 0 and below 100 %."),
        (lambda: life_through(100, early_percent=10, late_age=90, late_percent=50), ChancesNotRising, "10 % failed by 100 and 50 % by 90 cannot both be: at the later age more have failed. Give two ages that differ, the later with the greater share."),
        (lambda: life_through(100, early_percent=60, late_age=190, late_percent=50), ChancesNotRising, "60 % failed by 100 and 50 % by 190 cannot both be: at the later age more have failed. Give two ages that differ, the later with the greater share."),
        (lambda: cost_rate_of(lambda age: 0.5 + age, age=10, planned=1, failed=2), SurvivalImpossible, "Reliability 10.5 at age 10 cannot be: it begins at 1, never rises, and stays from 0 to 1."),
        (lambda: cost_rate_of(lambda age: 1 - abs(age - 5) / 10, age=10, planned=1, failed=2), SurvivalImpossible, "Reliability 0.5625 at age 0.625 cannot be: it begins at 1, never rises, and stays from 0 to 1."),
        (lambda: best_age(LIFE, planned=0, failed=2), NotPositive, "Cost of a planned replacement 0 cannot be: it is above 0. Check the figure and its sign."),
        (lambda: Openings(-4, 1, 1), Negative, "Price of the part now -4 cannot be: it is 0 or more. Check the figure and its sign."),
    ],
)  # fmt: skip
def test_refusals(asked: Callable[[], object], kind: type[InputError], told: str) -> None:
    with pytest.raises(kind) as caught:
        asked()
    assert caught.value.message == told


def test_where_failing_is_no_dearer_there_is_no_age() -> None:
    for planned in (2, 3):
        best = best_age(LIFE, planned=planned, failed=2)
        assert (best.age, best.why, best.share) == (None, "no dearer to fail", 1)


def test_a_shape_hardly_above_one_asks_for_an_age_that_none_reaches() -> None:
    assert best_age(Weibull(1.001, 100), planned=1, failed=2).why == "never reached"


def test_the_hazard_where_it_begins() -> None:
    """HAND: the limits of t^(k − 1)."""
    at = [hazard(Weibull(shape, 10, 5), age=5) for shape in (0.5, 1, 2)]
    assert at == [math.inf, 0.1, 0]
    assert hazard(Weibull(0.5, 10, 5), age=4) == 0


def test_before_the_start_a_part_has_the_whole_time_in_which_none_fails() -> None:
    """HAND: an exponential life of mean 10 after 5: from an age of 2 there are 3 + 10 left."""
    assert mean_residual_life(Weibull(1, 10, 5), age=2) == pytest.approx(13)
    assert mean_residual_life(Weibull(1, 10, 5), age=500) == pytest.approx(10)


def test_a_part_that_does_not_wear_is_not_renewed_to_advantage() -> None:
    found = while_open(Weibull(1, 100), age=80, further=20, costs=Openings(40, 600, 40))
    assert found.break_even_price == pytest.approx(0, abs=1e-9)
    assert found.saved == pytest.approx(-40)
    early = while_open(Weibull(0.7, 100), age=80, further=20, costs=Openings(0, 600, 40))
    assert early.saved < 0, "the new part fails sooner than the old one"
    assert early.break_even_failure is None


def test_where_a_failure_costs_nothing_no_chance_is_break_even() -> None:
    found = while_open(LIFE, age=80, further=20, costs=Openings(40, 0, 0))
    assert (found.kept, found.renewed, found.break_even_chance) == (0, 40, None)
