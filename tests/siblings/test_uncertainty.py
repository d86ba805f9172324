"""Propagation, Student's factors and repeats against general libraries: uncertainties, scipy.stats, numpy (OTHER TOOL)."""

import math

import numpy as np
import pytest
from scipy import integrate, stats
from uncertainties import correlated_values, ufloat  # type: ignore[import-untyped]

from gudgeon.calc.metrology.propagation import Component, combine, expanded
from gudgeon.calc.metrology.repeats import half_width_of_mean, mean_of, range_factor, repeats_needed
from gudgeon.calc.metrology.student import coverage_factor, one_sided_factor, tail
from gudgeon.calc.metrology.temperature import Expansion, Temperature, size_at_20
from gudgeon.calc.metrology.verdict import guard_band, probability_inside

DOF = (1.0, 1.5, 2.0, 4.7, 16.0, 50.0, 1000.0)


@pytest.mark.parametrize("dof", DOF)
def test_students_factors(dof: float) -> None:
    for probability in (0.5, 0.6827, 0.9, 0.95, 0.9973, 0.999999):
        wanted = float(stats.t.isf((1 - probability) / 2, dof))
        assert coverage_factor(probability, dof=dof) == pytest.approx(wanted, rel=1e-9)
    for t in (-5.0, -0.3, 0.0, 0.7, 3.0, 40.0):
        assert tail(t, dof=dof) == pytest.approx(float(stats.t.sf(t, dof)), rel=1e-9)


def test_normal_factors() -> None:
    for risk in (1e-12, 1e-6, 0.001, 0.05, 0.3):
        assert one_sided_factor(risk) == pytest.approx(float(stats.norm.isf(risk)), rel=1e-12)
    for t in (-8.0, -1.0, 0.0, 2.0, 9.0, 30.0):
        assert tail(t) == pytest.approx(float(stats.norm.sf(t)), rel=1e-12)


@pytest.mark.parametrize("dof", [*DOF, math.inf])
@pytest.mark.parametrize(("value", "u"), [(0.3, 0.1), (0.0, 0.4), (1.4, 0.2), (0.5, 3.0), (-2.0, 0.7)])
def test_probability_inside(value: float, u: float, dof: float) -> None:
    law = stats.norm(value, u) if math.isinf(dof) else stats.t(dof, value, u)
    wanted = float(law.cdf(1.0) - law.cdf(0.0))
    assert probability_inside(value, u=u, lower=0.0, upper=1.0, dof=dof) == pytest.approx(wanted, abs=1e-12)


@pytest.mark.parametrize("dof", DOF)
def test_guard_bands_with_few_degrees(dof: float) -> None:
    assert guard_band(0.2, upper=1.0, risk=0.05, dof=dof) == pytest.approx(
        0.2 * float(stats.t.isf(0.05, dof)), rel=1e-9
    )


def test_a_difference_of_bores_and_pistons_with_a_shared_gauge() -> None:
    micrometer, bore, repeat = ufloat(0, 2.9), ufloat(0, 1.2), ufloat(0, 0.8)
    wanted = (micrometer + bore) - (micrometer + repeat)
    found = combine(
        [
            Component("micrometer", 2.9, tag="m"),
            Component("bore gauge", 1.2),
            Component("micrometer at the piston", 2.9, sensitivity=-1, tag="m"),
            Component("repeat", 0.8, sensitivity=-1),
        ]
    )
    assert found.u == pytest.approx(wanted.std_dev, rel=1e-12)


def test_correlated_components() -> None:
    chance = np.random.default_rng(6)
    for _ in range(50):
        count = int(chance.integers(2, 6))
        factors = chance.normal(size=(count, count))
        covariance = factors @ factors.T
        u = np.sqrt(np.diag(covariance))
        sensitivities = chance.normal(size=count)
        alike = covariance / np.outer(u, u)
        whole = sum(
            c * x for c, x in zip(sensitivities, correlated_values([0.0] * count, covariance), strict=True)
        )
        pairs = {(str(i), str(j)): float(alike[i, j]) for i in range(count) for j in range(i)}
        parts = [Component(str(i), float(u[i]), sensitivity=float(sensitivities[i])) for i in range(count)]
        assert combine(parts, correlation=pairs).u == pytest.approx(whole.std_dev, rel=1e-9)


def test_size_at_20_by_automatic_derivatives() -> None:
    root = math.sqrt(3)
    part, gauge = ufloat(41.0, 1 / root), ufloat(12.0, 0.5 / root)
    alpha, beta = ufloat(21.5e-6, 0.5e-6 / root), ufloat(11.5e-6, 1e-6 / root)
    wanted = 86.0 * (1 + beta * (gauge - 20)) / (1 + alpha * (part - 20))
    found = size_at_20(
        86.0,
        part=Temperature(41.0, 1.0),
        gauge=Temperature(12.0, 0.5),
        part_expansion=Expansion(21.5e-6, 0.5e-6),
        gauge_expansion=Expansion(11.5e-6, 1e-6),
    )
    assert found.length_mm == pytest.approx(wanted.nominal_value, rel=1e-14)
    assert combine(found.components).u == pytest.approx(wanted.std_dev, rel=1e-6)
    together = 86.0 * (1 + beta * (part - 20)) / (1 + alpha * (part - 20))
    same = size_at_20(
        86.0,
        part=Temperature(41.0, 1.0),
        part_expansion=Expansion(21.5e-6, 0.5e-6),
        gauge_expansion=Expansion(11.5e-6, 1e-6),
    )
    assert combine(same.components).u == pytest.approx(together.std_dev, rel=1e-6)


def test_mean_and_its_half_width() -> None:
    readings = [86.012, 86.014, 86.009, 86.015, 86.011]
    found = mean_of(readings)
    assert found.scatter == pytest.approx(float(np.std(readings, ddof=1)), rel=1e-9)
    low, high = stats.t.interval(0.95, 4, loc=found.mean, scale=stats.sem(readings))
    assert half_width_of_mean(5, scatter=found.scatter) == pytest.approx(float(high - low) / 2, rel=1e-6)


@pytest.mark.parametrize("x", [0.08, 0.3, 0.77, 1.5, 5.0])
def test_repeats_needed_by_trying_every_number(x: float) -> None:
    numbers = np.arange(2, 2000)
    widths = stats.t.isf(0.025, numbers - 1) / np.sqrt(numbers)
    assert repeats_needed(x) == numbers[widths <= x][0]


@pytest.mark.parametrize("count", [2, 3, 7, 15, 25])
def test_range_factors_by_another_integral(count: int) -> None:
    """The mean of the greatest less that of the least, each by its density."""
    greatest = integrate.quad(
        lambda x: x * count * stats.norm.pdf(x) * stats.norm.cdf(x) ** (count - 1), -12, 12, epsabs=1e-12
    )[0]
    assert range_factor(count) == pytest.approx(2 * greatest, rel=1e-8)


def test_what_is_covered_is_covered() -> None:
    """Simulated: five readings, their mean ± t s / √5, in 95 of 100 trials; ± 1.96 s / √5 in only 88."""
    chance = np.random.default_rng(20)
    trials = chance.normal(size=(40_000, 5))
    means, scatter = trials.mean(axis=1), trials.std(axis=1, ddof=1)
    wide = half_width_of_mean(5, scatter=1.0)
    assert np.mean(np.abs(means) <= wide * scatter) == pytest.approx(0.95, abs=0.005)
    assert np.mean(np.abs(means) <= 1.96 / math.sqrt(5) * scatter) < 0.89


def test_welch_and_satterthwaite_by_simulation() -> None:
    """A scatter of 4 readings with a well-known error: the factor of the effective degrees covers about 95 %."""
    chance = np.random.default_rng(21)
    trials = 40_000
    scatter = chance.normal(size=(trials, 4)).std(axis=1, ddof=1)
    errors = chance.normal(size=trials) / 2 + 0.6 * chance.normal(size=trials)
    covered = 0
    for s, error in zip(scatter[:4000], errors[:4000], strict=True):
        found = combine([Component("repeats", float(s) / 2, dof=3), Component("gauge", 0.6)])
        covered += abs(error) <= expanded(found, probability=0.95).value
    assert covered / 4000 == pytest.approx(0.95, abs=0.012)
