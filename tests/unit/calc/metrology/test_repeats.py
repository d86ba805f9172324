"""Repeats: mean, scatter, range, how many are needed, and how many for a verdict."""

import math

import pytest

from gudgeon.calc import errors
from gudgeon.calc.metrology.repeats import (
    half_width_of_mean,
    mean_of,
    pooled_scatter,
    range_factor,
    repeats_for_verdict,
    repeats_needed,
    scatter_from_range,
)
from gudgeon.calc.metrology.verdict import judge
from gudgeon.errors import InputError


def test_mean_and_scatter_of_repeats() -> None:
    # HAND: 2, 4, 4, 4, 5, 5, 7, 9 have the mean 5 and the squares 32, so s = √(32/7)
    found = mean_of([2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0])
    assert (found.count, found.mean, found.dof) == (8, 5.0, 7.0)
    assert found.scatter == pytest.approx(math.sqrt(32 / 7))
    assert found.u_mean == pytest.approx(math.sqrt(32 / 7 / 8))


def test_an_odd_reading_is_kept() -> None:
    assert mean_of([1.0, 1.0, 1.0, 5.0]).mean == 2.0
    assert mean_of([1.0, 1.0, 1.0, 5.0]).count == 4


def test_scatter_of_large_figures_keeps_its_digits() -> None:
    assert mean_of([1e9 + 4, 1e9 + 7, 1e9 + 13, 1e9 + 16]).scatter == pytest.approx(math.sqrt(30))  # HAND


def test_scatter_of_several_places_together() -> None:
    # HAND: squares 2 (1 degree) and 8 (2 degrees): √(10/3); the place read once counts for nothing
    found = pooled_scatter([[1.0, 3.0], [8.0, 10.0, 12.0], [100.0]])
    assert found.scatter == pytest.approx(math.sqrt(10 / 3))
    assert found.dof == 3.0


def test_the_range_of_two_has_a_closed_form() -> None:
    assert range_factor(2) == pytest.approx(2 / math.sqrt(math.pi), rel=1e-12)  # HAND
    assert range_factor(3) == pytest.approx(3 / math.sqrt(math.pi), rel=1e-12)  # HAND
    assert range_factor(25) == pytest.approx(3.931, abs=5e-4)  # MEMORY: tables of control charts
    assert scatter_from_range(1.128, count=2) == pytest.approx(1.0, abs=5e-4)


def test_the_number_needed_is_the_least_that_does() -> None:
    for x in (3.0, 1.0, 0.4, 0.15):
        found = repeats_needed(x)
        assert half_width_of_mean(found, scatter=1.0) <= x
        assert found == 2 or half_width_of_mean(found - 1, scatter=1.0) > x
    assert repeats_needed(100.0) == 2
    assert repeats_needed(0.5, probability=0.99) > repeats_needed(0.5)


def test_more_repeats_for_a_verdict() -> None:
    # HAND: with 6 readings u = 0.00158, 13.9 degrees, t = 1.76, 0.00279 < 0.003; with 5 it is 0.00304
    assert repeats_for_verdict(0.097, u_fixed=0.001, scatter=0.003, upper=0.10) == 6
    assert repeats_for_verdict(0.103, u_fixed=0.001, scatter=0.003, upper=0.10) == 6
    assert repeats_for_verdict(0.103, u_fixed=0.001, scatter=0.003, lower=0.10) == 6


def test_repeats_do_not_help_where_the_fixed_part_alone_is_in_doubt() -> None:
    # HAND: 1.645 · 0.002 = 0.0033 from the limit is needed, 0.003 is there
    assert repeats_for_verdict(0.097, u_fixed=0.002, scatter=0.001, upper=0.10) is None
    assert repeats_for_verdict(0.10, u_fixed=0.0, scatter=0.001, upper=0.10) is None
    # would need z² s² / d² = 27,000 readings
    assert repeats_for_verdict(0.09999, u_fixed=0.0, scatter=0.001, upper=0.10) is None


def test_without_scatter_two_readings_are_enough() -> None:
    assert repeats_for_verdict(0.05, u_fixed=0.001, scatter=0.0, upper=0.10) == 2


def test_the_verdict_that_was_promised_is_given() -> None:
    count = repeats_for_verdict(0.05, u_fixed=0.004, scatter=0.02, lower=0.03, upper=0.10)
    assert count is not None
    for readings, decided in ((count, True), (count - 1, False)):
        own = 0.02 / math.sqrt(readings)
        u = math.hypot(0.004, own)
        found = judge(0.05, u=u, lower=0.03, upper=0.10, dof=(readings - 1) * (u / own) ** 4)
        assert (found.verdict == "inside") is decided


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(InputError) as one:
        mean_of([1.0])
    assert str(one.value) == (
        "1 reading cannot show how far readings scatter: it takes at least 2. Measure again."
    )
    with pytest.raises(InputError) as none:
        pooled_scatter([])
    assert str(none.value) == (
        "0 readings cannot show how far readings scatter: it takes at least 2. Measure again."
    )
    with pytest.raises(errors.NotFinite):
        mean_of([1.0, math.nan])
    with pytest.raises(InputError) as many:
        range_factor(26)
    assert str(many.value) == (
        "The range of 26 readings tells little of their scatter: the factors go up to 25 (ISO 7870-2:2013). "
        "Work it out from all readings."
    )
    with pytest.raises(InputError) as close:
        repeats_needed(1e-6)
    assert str(close.value) == (
        "A half-width of 1e-06 times the scatter takes more than 1,000,000 readings (t / √n, JCGM 100:2008, G.3.2). "
        "Take a gauge that scatters less."
    )
    with pytest.raises(errors.NotPositive):
        repeats_needed(0.0)
