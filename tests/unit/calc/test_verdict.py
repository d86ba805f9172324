"""Readings judged: by probability, by both ends of an interval, and the refusals."""

import math

import pytest

from gudgeon.calc import errors
from gudgeon.calc.metrology.uncertainty import combined, from_permitted_error, from_resolution
from gudgeon.calc.metrology.verdict import guard_band, judge, judge_interval, probability_inside
from gudgeon.errors import InputError


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(0.07, "inside"), (0.0835, "inside"), (0.0836, "in doubt"), (0.10, "in doubt"), (0.1164, "in doubt"),
     (0.1165, "outside"), (0.2, "outside")],
)  # fmt: skip
def test_one_limit_and_a_band_of_1_645_u_on_either_side(value: float, verdict: str) -> None:
    # HAND: z = 1.6449 for a risk of 0.05, so the band ends at 0.10 ± 0.016449
    found = judge(value, u=0.01, upper=0.10)
    assert found.verdict == verdict
    assert found.guard_band == pytest.approx(0.0164485, abs=1e-7)


def test_the_simple_rule_takes_the_reading_alone() -> None:
    found = judge(0.10, u=0.01, upper=0.10, rule="simple")
    assert (found.verdict, found.guard_band) == ("inside", 0.0)
    assert found.probability_inside == pytest.approx(0.5)
    assert judge(0.11, u=0.01, upper=0.10, rule="simple").verdict == "outside"
    assert judge(-0.01, u=0.01, lower=0.0, upper=0.10, rule="simple").verdict == "outside"


def test_limits_close_together_leave_nothing_that_can_be_proved() -> None:
    # HAND: limits 2 u apart hold at most Φ(1) − Φ(−1) = 0.683
    found = judge(1.0, u=1.0, lower=0.0, upper=2.0)
    assert (found.verdict, found.guard_band) == ("in doubt", None)
    assert found.probability_inside == pytest.approx(0.6827, abs=5e-5)


def test_the_band_of_two_limits_is_wider_than_that_of_one() -> None:
    two = guard_band(1.0, lower=0.0, upper=4.0)
    assert two is not None
    assert 1.645 < two < 2.0
    assert probability_inside(two, u=1.0, lower=0.0, upper=4.0) == pytest.approx(0.95, abs=1e-12)


def test_a_reading_without_uncertainty_is_taken_as_true() -> None:
    assert judge(0.10, u=0.0, upper=0.10).verdict == "inside"
    assert judge(0.1001, u=0.0, upper=0.10).verdict == "outside"


@pytest.mark.parametrize(
    ("low", "high", "verdict"),
    [
        (0.05, 0.06, "inside"),
        (0.09, 0.12, "in doubt"),
        (0.12, 0.15, "outside"),
        (None, 0.06, "inside"),  # the 0.06 blade does not enter
        (0.12, None, "outside"),  # the 0.12 blade enters
        (0.05, None, "in doubt"),  # the 0.05 blade enters: it may be anything above
        (None, 0.12, "in doubt"),
    ],
)
def test_one_blade_enters_and_one_does_not(low: float | None, high: float | None, verdict: str) -> None:
    assert judge_interval(low, high=high, u=0.003, upper=0.10).verdict == verdict


def test_an_interval_across_both_limits_proves_nothing() -> None:
    assert judge_interval(0.5, high=2.5, u=0.01, lower=1.0, upper=2.0).verdict == "in doubt"
    assert judge_interval(0.5, high=0.9, u=0.01, lower=1.0, upper=2.0).verdict == "outside"
    assert judge_interval(1.2, high=1.8, u=0.01, lower=1.0, upper=2.0).verdict == "inside"


def test_the_simple_rule_on_an_interval_needs_no_uncertainty() -> None:
    assert judge_interval(0.05, high=0.10, u=0.01, upper=0.10, rule="simple").verdict == "inside"
    assert judge_interval(0.11, high=0.12, u=0.01, upper=0.10, rule="simple").verdict == "outside"


def test_what_cannot_be_judged_is_refused() -> None:
    with pytest.raises(errors.LimitMissing) as missing:
        judge(1.0, u=0.1)
    assert str(missing.value) == (
        "No limit is given, so nothing can be judged. Give the lower limit, the upper, or both."
    )
    with pytest.raises(errors.LimitsCrossed) as crossed:
        judge(1.0, u=0.1, lower=2.0, upper=1.0)
    assert str(crossed.value) == "Lower limit 2 lies above the upper 1. Exchange or mend them."
    with pytest.raises(errors.RiskOutOfRange) as risk:
        judge(1.0, u=0.1, upper=2.0, risk=0.6)
    assert str(risk.value) == (
        "Risk 0.6 cannot be used: it lies above 0 and below 0.5 (JCGM 106:2012). 0.05 is usual."
    )
    with pytest.raises(errors.Negative):
        judge(1.0, u=-0.1, upper=2.0)
    with pytest.raises(errors.NotFinite):
        judge(math.nan, u=0.1, upper=2.0)
    with pytest.raises(errors.ReadingMissing) as reading:
        judge_interval(None, high=None, u=0.1, upper=2.0)
    assert str(reading.value) == (
        "Neither end of the reading is given. Give what enters, what does not, or both."
    )
    with pytest.raises(errors.ReadingCrossed) as downward:
        judge_interval(2.0, high=1.0, u=0.1, upper=2.0)
    assert str(downward.value) == "Reading 2–1 runs downward. Give what enters first, then what does not."


def test_few_degrees_of_freedom_take_more() -> None:
    # HAND: two degrees, t = 2.92 for a risk of 0.05: P(T > t) = (1 − t / √(t² + 2)) / 2
    assert guard_band(0.01, upper=0.10, dof=2) == pytest.approx(0.0292, abs=5e-5)
    assert judge(0.0709, u=0.01, upper=0.10, dof=2).verdict == "in doubt"
    assert judge(0.0707, u=0.01, upper=0.10, dof=2).verdict == "inside"
    assert judge(0.0709, u=0.01, upper=0.10).verdict == "inside"
    assert judge(0.1293, u=0.01, upper=0.10, dof=2).verdict == "outside"
    assert probability_inside(0.08, u=0.01, upper=0.10, dof=2) == pytest.approx((1 + 2 / math.sqrt(6)) / 2)
    with pytest.raises(InputError) as refused:
        judge(0.07, u=0.01, upper=0.10, dof=0)
    assert str(refused.value) == (
        "Degrees of freedom 0 cannot be: there is at least 1, readings less one (JCGM 100:2008, 4.2.6). "
        "Take more readings, or leave it out where the figure is well known."
    )


def test_a_gauge_far_too_coarse_proves_nothing_about_a_reading_between_the_limits() -> None:
    """The probability inside is 0.008, but nothing speaks for above or for below either."""
    found = judge(0.0, u=1.0, lower=-0.01, upper=0.01)
    assert found.probability_inside == pytest.approx(0.00798, abs=5e-6)
    assert (found.verdict, found.guard_band) == ("in doubt", None)
    assert judge(3.0, u=1.0, lower=-0.01, upper=0.01).verdict == "outside"


def test_probabilities_beyond_a_limit_keep_their_digits() -> None:
    # MEMORY: normal tables, Φ(−10) = 7.6199e-24
    assert probability_inside(10.0, u=1.0, upper=0.0) == pytest.approx(7.6199e-24, rel=1e-4)
    assert probability_inside(-10.0, u=1.0, lower=0.0, upper=1.0) == pytest.approx(7.6199e-24, rel=1e-4)
    assert judge(9.0, u=1.0, upper=0.0, risk=1e-15).verdict == "outside"
    assert judge(-9.0, u=1.0, upper=0.0, risk=1e-15).verdict == "inside"
    assert judge(-7.0, u=1.0, upper=0.0, risk=1e-15).verdict == "in doubt"


def test_each_blade_has_its_own_error() -> None:
    # HAND: 1.645 · 0.003 = 0.0049 below 0.10 must stay free above the blade that does not enter
    assert judge_interval(0.08, high=0.0950, u=(0.009, 0.003), upper=0.10).verdict == "inside"
    assert judge_interval(0.08, high=0.0952, u=(0.009, 0.003), upper=0.10).verdict == "in doubt"
    assert judge_interval(0.106, high=0.12, u=(0.003, 0.009), upper=0.10).verdict == "outside"
    assert judge_interval(0.106, high=0.12, u=(0.009, 0.003), upper=0.10).verdict == "in doubt"
    with pytest.raises(errors.Negative):
        judge_interval(0.08, high=0.09, u=(0.003, -0.003), upper=0.10)


def test_the_risks_of_both_ends_are_added() -> None:
    # HAND: 1.7 u inside at either end leaves 0.04457 at each, together 0.089: more than 0.05
    found = judge_interval(0.17, high=0.83, u=0.1, lower=0.0, upper=1.0)
    assert found.verdict == "in doubt"
    assert found.probability_inside == pytest.approx(1 - 2 * 0.04457, abs=5e-5)
    assert judge_interval(0.2, high=0.8, u=0.1, lower=0.0, upper=1.0).verdict == "inside"  # 2 u: 0.0455


def test_standard_uncertainties() -> None:
    assert from_permitted_error(0.003) == pytest.approx(0.003 / math.sqrt(3))
    assert from_resolution(0.01) == pytest.approx(0.01 / math.sqrt(12))
    assert combined(3.0, 4.0) == 5.0
    assert combined() == 0.0
