"""VDI 2230: fine-thread table of 2001, table A1 of 2003, stainless tables, and values before 2001.

The tables compute with thread diameters rounded to 0.001 mm (ISO 724) and 1.155 for 1/cos 30°. We use
the exact figures; the last test shows that the two cells we miss are missed by that rounding alone.
"""

import math
from dataclasses import replace

import pytest

from gudgeon.calc.joint.preload import AssemblyPreload, BoltJoint, assembly_preload, strength_class
from gudgeon.calc.joint.thread import read_thread
from tests.published.cases import Case, cases, check

CELLS = cases("vdi2230")
FINE = [case for case in CELLS if case.source.startswith("VDI 2230:2001")]


@pytest.mark.parametrize("case", CELLS, ids=[case.id for case in CELLS])
def test_preload_and_torque_as_printed(case: Case) -> None:
    check(case)


def as_the_table_computes(case: Case) -> AssemblyPreload:
    """The cell with the rounded diameters and the rounded flank factor of the table."""
    thread = read_thread(case.inputs["thread"])
    pitch_diameter, root = round(thread.pitch_diameter_mm, 3), round(thread.root_diameter_mm, 3)
    rounded = replace(
        thread,
        pitch_diameter_mm=pitch_diameter,
        root_diameter_mm=root,
        stress_area_mm2=math.pi / 4 * ((pitch_diameter + root) / 2) ** 2,
    )
    mu = float(case.inputs["mu_thread"])
    strength = strength_class(case.inputs["strength_class"], nominal_mm=thread.nominal_mm)
    return assembly_preload(
        BoltJoint(
            rounded,
            yield_mpa=strength.yield_mpa,
            mu_thread=mu * 1.155 * math.cos(math.radians(30)),
            mu_head=mu,
            bearing_diameter_mm=float(case.inputs["bearing_diameter"]),
        )
    )


@pytest.mark.parametrize("case", FINE, ids=[case.id for case in FINE])
def test_every_cell_is_met_with_the_roundings_of_the_table(case: Case) -> None:
    found = as_the_table_computes(case)
    ours = found.preload_n / 1000 if case.result == "preload_n" else found.torque_nm
    assert ours == pytest.approx(case.value, abs=case.half_digit + 1e-9)


def test_elastic_torsion_lowers_the_torque_more_with_more_friction() -> None:
    def drop(mu: float) -> float:
        joint = BoltJoint(read_thread("M10"), 640.0, mu_thread=mu, mu_head=mu, bearing_diameter_mm=12.815)
        plastic = assembly_preload(joint).torque_nm
        return 1 - assembly_preload(replace(joint, torsion="elastic")).torque_nm / plastic

    drops = [drop(mu) for mu in (0.08, 0.12, 0.16, 0.20, 0.24)]
    assert drops == sorted(drops)
    # "about 5 to 14 %": the difference between the editions, as their users report it
    assert 0.04 < drops[0] < 0.06
    assert 0.11 < drops[-1] < 0.15
