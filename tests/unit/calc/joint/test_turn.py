"""One bolt turned from a snug torque, against figures worked by hand.

HAND, for M10 with µ = 0.12, DKm = 12.8 mm, Rp = 940 MPa:
tan φ = 1.5 / (π · 9.0257) = 0.052901; tan ρ' = 0.12 / cos 30° = 0.138564;
tan(φ + ρ') = 0.191465 / (1 − 0.007330) = 0.192879; M/F = 4.51287 · 0.192879 = 0.87044 mm;
l = 0.87044 + 6.4 · 0.12 = 1.63844 mm; 30 N·m / l = 18310 N.
As = 57.990 mm², d0 = 8.5928 mm, W = π · 634.44 / 12 = 166.10 mm³;
√(1/As² + 3 (0.87044 / 166.10)²) = √(2.97363e-4 + 8.2388e-5) = 0.0194872; Fy = 940 / 0.0194872 = 48237 N.
Worked with five digits, so that a force may differ by 2 N.
"""

from dataclasses import replace

import pytest

from gudgeon.calc import errors
from gudgeon.calc.joint.preload import BoltJoint, assembly_preload
from gudgeon.calc.joint.thread import read_thread
from gudgeon.calc.joint.turn import BoltSpec, SnugBolt, turn, yield_preload

BOLT = BoltSpec(read_thread("M10"), yield_mpa=940.0, bearing_diameter_mm=12.8, compliance_mm_per_n=6e-6)
JOINT = SnugBolt(BOLT, 2e-6, mu_thread=0.12, mu_head=0.12, snug_torque_nm=30.0)
SNUG, YIELD = 18310.0, 48237.0


def test_the_snug_torque_alone() -> None:
    found = turn(JOINT, angle_deg=0.0)
    assert found.preload_n == found.snug_preload_n == pytest.approx(SNUG, abs=2)
    assert (found.yielded, found.permanent_stretch_mm, found.flags) == (False, 0.0, ())


def test_an_elastic_turn() -> None:
    """HAND: 45° are 0.1875 mm; over 8e-6 mm/N that is 23437.5 N more."""
    found = turn(JOINT, angle_deg=45.0)
    assert found.preload_n - found.snug_preload_n == pytest.approx(23437.5, abs=1e-6)
    assert not found.yielded


def test_ninety_degrees_of_a_whole_joint() -> None:
    """HAND: 90° at P = 1.5 mm are 0.375 mm; over 8.1637e-6 mm/N 45935 N."""
    strong = replace(BOLT, yield_mpa=2000.0, compliance_mm_per_n=5.0e-6)
    found = turn(SnugBolt(strong, 3.1637e-6, 0.12, 0.12, snug_torque_nm=0.0), angle_deg=90.0)
    assert found.preload_n == pytest.approx(45935, abs=1)


def test_a_turn_through_yield() -> None:
    """HAND: 18310 + 0.375 / 8e-6 = 65185 N would be elastic; (65185 − 48237) · 8e-6 = 0.1356 mm stay."""
    found = turn(JOINT, angle_deg=90.0)
    assert found.yielded
    assert found.preload_n == found.yield_preload_n == pytest.approx(YIELD, abs=2)
    assert found.permanent_stretch_mm == pytest.approx(0.13558, abs=2e-5)


def test_a_turn_through_yield_with_hardening() -> None:
    """HAND: p = 16948 / (125000 + 5000) = 0.13037 mm; F = 48237 + 5000 · 0.13037 = 48889 N."""
    found = turn(replace(JOINT, bolt=replace(BOLT, hardening_n_per_mm=5000.0)), angle_deg=90.0)
    assert found.permanent_stretch_mm == pytest.approx(0.13037, abs=2e-5)
    assert found.preload_n == pytest.approx(48889, abs=2)


def test_the_yield_preload_is_the_assembly_preload_at_full_utilisation() -> None:
    """HAND: 48.24 kN for M10 10.9 at µ = 0.12, whatever the friction under the head."""
    for mu in (0.08, 0.12, 0.2):
        joint = BoltJoint(BOLT.thread, 940.0, mu, 0.1, 12.8, utilisation=1.0)
        assert yield_preload(BOLT, mu_thread=mu) == pytest.approx(
            assembly_preload(joint).preload_n, rel=1e-12
        )
    assert yield_preload(BOLT, mu_thread=0.12) / 1000 == pytest.approx(48.24, abs=0.005)


def test_a_waist_yields_before_the_thread() -> None:
    """HAND: A = 50 mm², d0 = 7.9788 mm, W = 132.98 mm³; √(4e-4 + 3 · 4.2846e-5) = 0.0229905; 940 / that."""
    assert yield_preload(replace(BOLT, stress_area_mm2=50.0), mu_thread=0.12) == pytest.approx(40886, abs=2)


def test_a_snug_torque_beyond_yield_is_flagged() -> None:
    """HAND: 90 N·m / 1.63844 mm = 54930 N > 48237 N; with H = 5000 N/mm (54930 − 48237) / 5000 = 1.3386 mm."""
    soft = turn(replace(JOINT, snug_torque_nm=90.0), angle_deg=0.0)
    assert soft.preload_n == pytest.approx(YIELD, abs=2)
    assert soft.yielded
    assert soft.flags == (
        "A snug torque of 90 N·m takes this bolt to its yield and is never reached: without hardening the bolt "
        "gives way first. Check it against the manual.",
    )
    hard = turn(
        replace(JOINT, snug_torque_nm=90.0, bolt=replace(BOLT, hardening_n_per_mm=5000.0)), angle_deg=0.0
    )
    assert hard.permanent_stretch_mm == pytest.approx(1.3386, abs=5e-4)
    assert hard.preload_n == pytest.approx(54930, abs=2)
    assert hard.flags == (
        "A snug torque of 90 N·m takes this bolt to its yield. Check it against the manual.",
    )


@pytest.mark.parametrize(
    ("joint", "angle", "cause", "text"),
    [
        (
            JOINT,
            -1.0,
            errors.Negative,
            "Angle -1 ° cannot be: it is 0 or more. Check the figure and its sign.",
        ),
        (
            replace(JOINT, snug_torque_nm=-5.0),
            0.0,
            errors.Negative,
            "Snug torque -5 N·m cannot be: it is 0 or more. Check the figure and its sign.",
        ),
        (
            replace(JOINT, mu_head=1.2),
            0.0,
            errors.FrictionUnusual,
            "Head friction 1.2 cannot be: friction lies above 0 and below 1. 0.08 to 0.20 is usual.",
        ),
        (
            replace(JOINT, bolt=replace(BOLT, compliance_mm_per_n=0.0)),
            0.0,
            errors.NotPositive,
            "Bolt compliance 0 mm/N cannot be: it is above 0. Check the figure and its sign.",
        ),
        (
            replace(JOINT, bolt=replace(BOLT, bearing_diameter_mm=9.0)),
            0.0,
            errors.BearingTooSmall,
            "Bearing diameter 9 mm cannot be: it is above the thread's 10 mm. Give the mean of head and hole diameter.",
        ),
    ],
)
def test_what_cannot_be_is_refused(joint: SnugBolt, angle: float, cause: type[Exception], text: str) -> None:
    with pytest.raises(cause) as caught:
        turn(joint, angle_deg=angle)
    assert str(caught.value) == text
