"""Bolts of one joint that see each other: figures derived by hand (HAND), at their printed digits.

EI-EQ4: four equal bolts on one spring. EI-2BAR: two bolts on a rigid bar on a line of gasket. EI-HET: influence
of the endless beam. EI-B5-soft: five bolts on a beam, taken as endless; with free ends they come out otherwise.
"""

import math

import numpy as np
import pytest

from gudgeon.calc.joint.interaction import (
    beam_influence,
    common_spring,
    endless_beam,
    free_beam,
    rigid_bar,
)
from gudgeon.calc.joint.interaction_passes import pass_over
from tests.reference import reference_rows

ROWS = {
    "EI-EQ4-P2": "0.8831,0.9377,0.9763,1",
    "EI-2BAR": "-0.227273,0,+0.203540",
    "EI-HET": "0.82307,0.50833,0.06674,0,-0.04321,-0.02583",
    "EI-B5-soft": "1.0093,0.8464,0.6680,0.8727,1.0000",
    "EI-B5-soft-P2": "1.0003,0.9921,0.9493,0.9960,1.0000",
}
FIVE = [0.0, 100.0, 200.0, 300.0, 400.0]
ORDER = [2, 1, 3, 0, 4]


def printed(row: str) -> list[float]:
    return [float(text) for text in ROWS[row].split(",")]


def half_digit(row: str) -> float:
    return 0.5 * 10.0 ** -max(len(text.partition(".")[2]) for text in ROWS[row].split(","))


def met(row: str, found: list[float]) -> None:
    assert found == pytest.approx(printed(row), rel=0, abs=half_digit(row) * (1 + 1e-9))


def test_the_rows_are_those_of_the_reference_table() -> None:
    found = {row["id"]: row["expected"] for row in reference_rows("joint.csv") if row["id"].startswith("EI-")}
    assert found == ROWS


def test_four_bolts_on_one_spring_after_the_second_pass() -> None:
    bolt, ratio = 1e-5, 0.25  # the ratio is (1 / K) / dS
    parts = common_spring(4, stiffness_n_per_mm=1 / (ratio * bolt))
    found = pass_over(parts.matrix_mm_per_n, bolt_mm_per_n=bolt, order=[0, 1, 2, 3], target_n=1.0, passes=2)
    met("EI-EQ4-P2", found[1].tolist())


@pytest.mark.parametrize("bolts", [2, 3, 4, 6, 10])
@pytest.mark.parametrize("ratio", [0.05, 0.1])
def test_n_bolts_on_one_spring_after_the_first_pass(bolts: int, ratio: float) -> None:
    """The (m + 1)th pull takes r / (1 + m · r) of the target from each of the m bolts before it. HAND."""
    parts = common_spring(bolts, stiffness_n_per_mm=1 / (ratio * 1e-5))
    found = pass_over(parts.matrix_mm_per_n, bolt_mm_per_n=1e-5, order=list(range(bolts)), target_n=20000.0)
    lost = [sum(ratio / (1 + m * ratio) for m in range(place, bolts)) for place in range(1, bolts + 1)]
    assert found[0] / 20000 == pytest.approx([1 - one for one in lost], rel=1e-9)


def test_two_bolts_on_a_rigid_bar() -> None:
    """What the first bolt gains when the second is pulled, as a share of that pull; nothing at L / √12."""
    found = []
    for arm in (50.0, 300 / math.sqrt(12), 120.0):  # the second is printed rounded, as 86.603
        parts = rigid_bar([150 - arm, 150 + arm], stiffness_n_per_mm=2e5, length_mm=300.0).matrix_mm_per_n
        # Far below the first bolt's preload, so that it stays under load.
        after = pass_over(parts, bolt_mm_per_n=8e-6, order=[0, 1], target_n=[1e6, 1.0])
        found.append(float(after[0, 0]) - 1e6)
    met("EI-2BAR", found)


def test_influence_along_an_endless_beam() -> None:
    met("EI-HET", [beam_influence(reach) for reach in (0.5, 1.0, 2.0, 2.3562, 3.1416, 4.0)])


def test_five_bolts_on_an_endless_beam() -> None:
    parts = endless_beam(FIVE, bending_stiffness_n_mm2=1.26e11, foundation_n_per_mm2=2000.0)
    found = (
        pass_over(parts.matrix_mm_per_n, bolt_mm_per_n=7e-6, order=ORDER, target_n=40000.0, passes=2) / 40000
    )
    met("EI-B5-soft", found[0].tolist())
    met("EI-B5-soft-P2", found[1].tolist())


@pytest.mark.parametrize("overhang", [0.0, 20.0, 50.0, 100.0])
def test_the_same_bolts_on_a_beam_with_free_ends_come_out_otherwise(overhang: float) -> None:
    """So the rows can only have been meant for the endless beam."""
    places = [place + overhang for place in FIVE]
    parts = free_beam(
        places, bending_stiffness_n_mm2=1.26e11, foundation_n_per_mm2=2000.0, length_mm=400.0 + 2 * overhang
    )
    found = pass_over(parts.matrix_mm_per_n, bolt_mm_per_n=7e-6, order=ORDER, target_n=1.0)
    assert np.abs(found[0] - printed("EI-B5-soft")).max() > 0.003
