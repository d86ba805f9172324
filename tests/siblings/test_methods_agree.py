"""Several methods for one quantity, compared over a grid; an outlier has its reason beside it."""

import itertools
import math
from collections.abc import Iterable
from dataclasses import replace
from statistics import NormalDist
from typing import Any

import numpy as np
import pytest
from scipy import integrate, optimize, stats

from gudgeon.calc.engine.cut import after_cut
from gudgeon.calc.engine.cylinder import CylinderGeometry, compression_ratio, piston_position
from gudgeon.calc.joint.preload import BoltJoint, Torsion, assembly_preload
from gudgeon.calc.joint.thread import metric_thread, read_thread
from gudgeon.calc.joint.wrench import adapter_setting
from gudgeon.calc.metrology.verdict import guard_band, probability_inside

THREADS = ("M6", "M8x1", "M10", "M12x1.25", "M16", "1/2-13 UNC", "3/8-24 UNF")
FRICTIONS = (0.08, 0.12, 0.16, 0.20, 0.30)


def grid(*axes: Iterable[Any]) -> list[tuple[Any, ...]]:
    """Every combination."""
    return list(itertools.product(*axes))


def joint(thread: str, mu: float, torsion: Torsion = "plastic") -> BoltJoint:
    found = read_thread(thread)
    return BoltJoint(found, 640.0, mu, mu, bearing_diameter_mm=1.3 * found.nominal_mm, torsion=torsion)


@pytest.mark.parametrize(("thread", "mu"), grid(THREADS, FRICTIONS))
def test_the_linear_torque_formula_stays_close_to_the_exact_tangent(thread: str, mu: float) -> None:
    """T = F (P / 2π + 0.577 µ d2 + µ D / 2), as VDI 2230 prints it beside the tangent.

    It leaves out the product of the two tangents in tan(φ + ρ') = (a + b) / (1 − a b), so it falls
    below the exact torque by that product, on the share that the thread takes. HAND.
    """
    bolt = joint(thread, mu)
    exact = assembly_preload(bolt)
    per_newton = (
        bolt.thread.pitch_mm / (2 * math.pi)
        + mu / math.cos(math.radians(30)) * bolt.thread.pitch_diameter_mm / 2
        + mu * bolt.bearing_diameter_mm / 2
    )
    shortfall = 1 - exact.preload_n * per_newton / 1000 / exact.torque_nm
    lead = bolt.thread.pitch_mm / (math.pi * bolt.thread.pitch_diameter_mm)
    product = lead * mu / math.cos(math.radians(30))
    assert shortfall == pytest.approx(product * exact.thread_torque_nm / exact.torque_nm, rel=1e-9)
    assert 0 < shortfall < 0.02


@pytest.mark.parametrize(("thread", "mu", "torsion"), grid(THREADS, FRICTIONS, ("plastic", "elastic")))
def test_preload_solves_the_yield_condition(thread: str, mu: float, torsion: Torsion) -> None:
    """Closed form against a root search on σ² + 3 τ² = (0.9 Rp)² (scipy, OTHER TOOL)."""
    bolt = joint(thread, mu, torsion)
    diameter = math.sqrt(4 * bolt.thread.stress_area_mm2 / math.pi)
    lead = bolt.thread.pitch_mm / (math.pi * bolt.thread.pitch_diameter_mm)
    flank = mu / math.cos(math.radians(30))
    # the tangent of a sum, written out
    arm = bolt.thread.pitch_diameter_mm / 2 * (lead + flank) / (1 - lead * flank)

    def over(preload: float) -> float:
        sigma = preload / (math.pi / 4 * diameter**2)
        tau = preload * arm / (math.pi / (12 if torsion == "plastic" else 16) * diameter**3)
        return math.hypot(sigma, math.sqrt(3) * tau) - 0.9 * 640.0

    root = optimize.brentq(over, 1.0, 1e6, xtol=1e-9, rtol=1e-14)
    assert assembly_preload(bolt).preload_n == pytest.approx(root, rel=1e-10)


@pytest.mark.parametrize("mu", FRICTIONS)
def test_the_torsion_of_a_fully_plastic_section_is_four_thirds_of_the_elastic_one(mu: float) -> None:
    """W = π d³/12 against ∫ r dA of a section all at yield (numeric integral, scipy)."""
    radius = 4.5
    plastic = integrate.quad(lambda r: 2 * math.pi * r**2, 0, radius)[0]
    assert plastic == pytest.approx(math.pi * (2 * radius) ** 3 / 12)
    bolt = joint("M10", mu)
    ratio = assembly_preload(bolt).preload_n / assembly_preload(replace(bolt, torsion="elastic")).preload_n
    assert 1 < ratio < 4 / 3


@pytest.mark.parametrize(("nominal", "pitch"), grid((4.0, 8.0, 12.0, 20.0), (0.5, 0.7, 1.0, 1.25)))
def test_the_stress_area_by_its_short_formula(nominal: float, pitch: float) -> None:
    """As = π/4 (d − 0.9382 P)², the form that handbooks print; 0.9382 is rounded from 0.93819."""
    short = math.pi / 4 * (nominal - 0.9382 * pitch) ** 2
    assert metric_thread(nominal, pitch_mm=pitch).stress_area_mm2 == pytest.approx(short, rel=2e-5)


@pytest.mark.parametrize("angle", range(0, 181, 15))
def test_the_adapter_by_a_balance_of_moments(angle: int) -> None:
    """Two points in a plane and a pull square to the wrench: moment about the bolt and about the drive."""
    length, adapter, torque = 400.0, 55.0, 95.0
    away = math.radians(180 - angle)
    bolt = np.array([adapter * math.cos(away), adapter * math.sin(away)])  # the drive is the origin
    grip, pull = np.array([length, 0.0]), np.array([0.0, 1.0])
    about_bolt = float(np.cross(np.append(grip - bolt, 0.0), np.append(pull, 0.0))[2])
    about_drive = float(np.cross(np.append(grip, 0.0), np.append(pull, 0.0))[2])
    setting = adapter_setting(
        torque, wrench_length_mm=length, adapter_length_mm=adapter, adapter_angle_deg=angle
    )
    assert setting == pytest.approx(torque * about_drive / about_bolt, rel=1e-12)


@pytest.mark.parametrize(("angle", "offset"), grid(range(0, 360, 20), (-1.5, 0.0, 1.0)))
def test_the_piston_by_the_length_of_the_rod(angle: int, offset: float) -> None:
    """The place at which the rod just reaches, found by a root search (scipy); the speed by differences."""
    throw, rod = 43.0, 143.0
    pin = np.array([throw * math.sin(math.radians(angle)), throw * math.cos(math.radians(angle))])
    ends = (pin[1], pin[1] + 2 * rod)
    height = optimize.brentq(lambda y: math.dist((offset, y), pin) - rod, *ends, xtol=1e-12)
    top = math.sqrt((rod + throw) ** 2 - offset**2)
    found = piston_position(86.0, rod_length_mm=rod, crank_angle_deg=angle, pin_offset_mm=offset)
    assert found.drop_mm == pytest.approx(top - height, abs=1e-9)
    near = [
        piston_position(86.0, rod_length_mm=rod, crank_angle_deg=angle + d, pin_offset_mm=offset).drop_mm
        for d in (-0.01, 0.01)
    ]
    slope = (near[1] - near[0]) / math.radians(0.02)
    assert found.speed_ratio == pytest.approx(slope * math.pi / found.stroke_mm, abs=1e-6)


@pytest.mark.parametrize(("cut", "chamber"), grid((0.0, 0.1, 0.3, 0.8), (35.0, 45.0, 55.0)))
def test_the_cut_by_building_the_smaller_chamber(cut: float, chamber: float) -> None:
    geometry = CylinderGeometry(86.0, 86.0, chamber, 87.0, 1.2, 3.0, -0.1)
    before = compression_ratio(geometry)
    after = compression_ratio(replace(geometry, chamber_volume_cm3=chamber - 48.0 * cut / 10))
    found = after_cut(
        cut,
        swept_cm3=before.swept_volume_cm3,
        clearance_cm3=before.clearance_volume_cm3,
        mouth_area_mm2=4800.0,
    )
    assert found.new_ratio == pytest.approx(after.ratio, rel=1e-12)


LIMITS = ((None, 1.0), (0.0, None), (0.0, 1.0), (0.4, 0.6))


@pytest.mark.parametrize(
    ("value", "u", "limits"), grid((-0.2, 0.0, 0.3, 0.5, 0.97, 1.4), (0.02, 0.1, 0.4), LIMITS)
)
def test_the_probability_by_two_libraries(
    value: float, u: float, limits: tuple[float | None, float | None]
) -> None:
    """The normal distribution of scipy and of the standard library (OTHER TOOL)."""
    lower, upper = limits
    ours = probability_inside(value, u=u, lower=lower, upper=upper)
    ends = [-math.inf if lower is None else lower, math.inf if upper is None else upper]
    by_scipy = float(np.diff(stats.norm.cdf(ends, loc=value, scale=u))[0])
    standard = NormalDist(value, u)
    above, below = (standard.cdf(end) if math.isfinite(end) else float(end > 0) for end in reversed(ends))
    assert ours == pytest.approx(by_scipy, abs=1e-12)
    assert ours == pytest.approx(above - below, abs=1e-12)


@pytest.mark.parametrize("risk", [0.01, 0.05, 0.1, 0.25])
def test_the_guard_band_by_the_quantile_of_two_libraries(risk: float) -> None:
    found = guard_band(0.01, upper=1.0, risk=risk)
    assert found == pytest.approx(0.01 * float(stats.norm.ppf(1 - risk)), rel=1e-10)
    assert found == pytest.approx(0.01 * NormalDist().inv_cdf(1 - risk), rel=1e-8)


@pytest.mark.parametrize("width", [3.4, 4.0, 6.0, 20.0])
def test_the_guard_band_of_two_limits_by_a_root_search(width: float) -> None:
    def short(g: float) -> float:
        return float(stats.norm.cdf(width - g) - stats.norm.cdf(-g)) - 0.90

    expected = optimize.brentq(short, 0.0, width / 2, xtol=1e-13)
    assert guard_band(1.0, lower=0.0, upper=width, risk=0.10) == pytest.approx(expected, abs=1e-10)
