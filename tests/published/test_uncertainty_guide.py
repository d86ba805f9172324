"""JCGM 100:2008, examples H.2, H.3 and H.5: second opinions on the law of propagation and on pooled scatter.

The readings of H.2, H.3 and H.5 are those of the guide, PRINTED in a republished copy; so are the results of H.3 and
H.5. The results of H.2 are from MEMORY. Means, fitted lines and derivatives are worked out here, by numpy or by hand.
"""

import math
from collections.abc import Callable

import numpy as np
import pytest

from gudgeon.calc.metrology.propagation import Component, combine
from gudgeon.calc.metrology.repeats import mean_of, pooled_scatter
from tests.reference import reference_rows

VOLTS = (5.007, 4.994, 5.005, 4.990, 4.999)
AMPERES = tuple(0.001 * one for one in (19.663, 19.639, 19.640, 19.685, 19.678))
RADIANS = (1.0456, 1.0438, 1.0468, 1.0428, 1.0433)
TEMPERATURES = (21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511)
CORRECTIONS = (-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160)
DAY_MEANS = (10.000172, 10.000116, 10.000013, 10.000144, 10.000106, 10.000031, 10.000060, 10.000125, 10.000163, 10.000041)  # fmt: skip
DAY_SCATTER = (60e-6, 77e-6, 111e-6, 101e-6, 67e-6, 93e-6, 80e-6, 73e-6, 88e-6, 86e-6)


def test_the_readings_are_those_of_the_guide() -> None:
    columns = (
        ("data/gum_h2.csv", "V_volt", VOLTS),
        ("data/gum_h2.csv", "phi_rad", RADIANS),
        ("data/gum_h3.csv", "t_degC", TEMPERATURES),
        ("data/gum_h3.csv", "b_degC", CORRECTIONS),
        ("data/gum_h5.csv", "mean_V", DAY_MEANS),
        ("data/gum_h5.csv", "s_V", DAY_SCATTER),
    )
    for file, column, ours in columns:
        assert tuple(float(row[column]) for row in reference_rows(file)) == pytest.approx(ours, rel=1e-12)


def impedance(part: str) -> Callable[[float, float, float], float]:
    ways: dict[str, Callable[[float, float, float], float]] = {
        "resistance": lambda volt, ampere, phase: volt / ampere * math.cos(phase),
        "reactance": lambda volt, ampere, phase: volt / ampere * math.sin(phase),
        "impedance": lambda volt, ampere, phase: volt / ampere,
    }
    return ways[part]


@pytest.mark.parametrize(
    ("part", "value", "u"),
    [("resistance", 127.732, 0.071), ("reactance", 219.847, 0.295), ("impedance", 254.260, 0.236)],
)
def test_h2_means_that_were_read_together_are_correlated(part: str, value: float, u: float) -> None:
    means = [mean_of(readings) for readings in (VOLTS, AMPERES, RADIANS)]
    alike = np.corrcoef([VOLTS, AMPERES, RADIANS])
    assert [alike[0, 1], alike[0, 2], alike[1, 2]] == pytest.approx([-0.36, 0.86, -0.65], abs=0.006)
    of, place = impedance(part), [one.mean for one in means]
    assert of(*place) == pytest.approx(value, abs=0.0006)
    components = []
    for number, one in enumerate(means):
        ends = [list(place), list(place)]
        ends[0][number] -= 1e-6 * one.mean
        ends[1][number] += 1e-6 * one.mean
        slope = (of(*ends[1]) - of(*ends[0])) / (2e-6 * one.mean)
        components.append(Component("VIφ"[number], one.u_mean, sensitivity=slope, dof=one.dof))
    pairs = {("V", "I"): alike[0, 1], ("V", "φ"): alike[0, 2], ("I", "φ"): alike[1, 2]}
    found = combine(components, correlation={names: float(r) for names, r in pairs.items()})
    assert found.u == pytest.approx(u, abs=0.0006)
    assert found.dof == pytest.approx(4.0)  # five sets of readings, less one
    alone = combine(components).u
    assert abs(alone - u) > 0.1 * u, "the correlation must matter, or this proves nothing"


def test_h3_a_line_through_readings_has_correlated_ends() -> None:
    design = np.column_stack([np.ones(11), np.array(TEMPERATURES) - 20.0])
    fitted, squares, _, _ = np.linalg.lstsq(design, np.array(CORRECTIONS), rcond=None)
    variance = float(squares[0]) / 9
    covariance = variance * np.linalg.inv(design.T @ design)
    u = np.sqrt(np.diag(covariance))
    correlation = float(covariance[0, 1] / (u[0] * u[1]))
    assert [*fitted, *u, correlation, math.sqrt(variance)] == [
        pytest.approx(-0.1712, abs=5e-5), pytest.approx(0.00218, abs=5e-6), pytest.approx(0.0029, abs=5e-5),
        pytest.approx(0.00067, abs=5e-6), pytest.approx(-0.930, abs=5e-4), pytest.approx(0.0035, abs=5e-5),
    ]  # fmt: skip
    ends = [
        Component("at 20 °C", float(u[0]), dof=9),
        Component("slope", float(u[1]), sensitivity=10.0, dof=9),
    ]
    found = combine(ends, correlation={("at 20 °C", "slope"): correlation})
    assert fitted[0] + 10 * fitted[1] == pytest.approx(-0.1494, abs=5e-5)
    assert found.u == pytest.approx(0.0041, abs=5e-5)
    assert found.dof == pytest.approx(9.0)


def five_readings(scatter: float) -> list[float]:
    """Five readings of a known scatter: -2, -1, 0, 1, 2 have √2.5. HAND."""
    return [step * scatter / math.sqrt(2.5) for step in (-2, -1, 0, 1, 2)]


def test_h5_days_scatter_more_than_readings_of_a_day() -> None:
    days = mean_of(DAY_MEANS)
    assert days.mean == pytest.approx(10.000097, abs=5e-7)
    assert days.scatter == pytest.approx(57e-6, abs=5e-7)
    assert days.u_mean == pytest.approx(18e-6, abs=5e-7)
    within = pooled_scatter([five_readings(scatter) for scatter in DAY_SCATTER])
    assert within.scatter == pytest.approx(85e-6, abs=5e-7)
    assert within.dof == pytest.approx(40.0)
    # F = 5 s²(means) / s²(within): 2.25 printed; 2.26 from these readings, which are rounded
    assert 5 * days.scatter**2 / within.scatter**2 == pytest.approx(2.25, abs=0.02)
