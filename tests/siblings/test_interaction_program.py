"""Elastic passes against the simulated program: one states a preload per pull, the other a torque."""

import numpy as np
import pytest
from numpy.typing import NDArray

from gudgeon.calc.joint.interaction import common_spring, endless_beam, free_beam
from gudgeon.calc.joint.interaction_passes import pass_over
from gudgeon.calc.joint.interaction_plate import free_plate
from gudgeon.calc.joint.preload import thread_torque_per_newton
from gudgeon.calc.joint.program import Act, BoltSpec, JointModel, certain, tighten
from gudgeon.calc.joint.thread import read_thread

BOLT = BoltSpec(read_thread("M10"), yield_mpa=5000.0, bearing_diameter_mm=12.815, compliance_mm_per_n=7e-6)
ORDER = [2, 1, 3, 0, 4]
PLACES = [20.0, 120.0, 220.0, 320.0, 420.0]
BENDING = {"bending_stiffness_n_mm2": 1.26e11, "foundation_n_per_mm2": 2000.0}
PARTS = {
    "common spring": common_spring(5, stiffness_n_per_mm=6e5),
    "soft common spring": common_spring(5, stiffness_n_per_mm=1e5),
    "endless beam": endless_beam(PLACES, **BENDING),
    "beam": free_beam(PLACES, **BENDING, length_mm=440.0),
    "plate": free_plate(
        [(place, 60.0) for place in PLACES],
        rigidity_n_mm=1e9,
        foundation_n_per_mm3=10.0,
        length_mm=440.0,
        width_mm=200.0,
    ),
}


def by_torque(parts: NDArray[np.float64], *, target_n: float, passes: int) -> NDArray[np.float64]:
    """The torque whose friction equals the target; far from yield, no breakaway, no scatter."""
    per_newton = thread_torque_per_newton(BOLT.thread, mu_thread=0.12) + BOLT.bearing_diameter_mm / 2 * 0.12
    torque = target_n * per_newton / 1000
    model = JointModel((BOLT,) * len(parts), parts)
    acts = [Act(number, bolt, "torque", torque) for number in range(passes) for bolt in ORDER]
    draws = certain(model, acts=acts, mu_thread=0.12, mu_head=0.12)
    return np.asarray(tighten(model, acts=acts, draws=draws).preload_n[0], np.float64)


@pytest.mark.parametrize("name", PARTS)
def test_a_program_of_equal_torques_is_a_joint_gone_over(name: str) -> None:
    """A wrench never lowers a preload, so bolts above their target are left (only_raise)."""
    parts = PARTS[name].matrix_mm_per_n
    passed = pass_over(parts, bolt_mm_per_n=7e-6, order=ORDER, target_n=20000.0, passes=3, only_raise=True)
    assert by_torque(parts, target_n=20000.0, passes=3) == pytest.approx(passed, rel=1e-7, abs=1e-3)
