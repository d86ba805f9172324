"""What the kernels of bolts that see each other refuse, and what they flag; whole messages."""

from collections.abc import Callable

import numpy as np
import pytest

from gudgeon.calc.errors import NotFinite, NotPositive
from gudgeon.calc.joint.interaction import (
    PartsCompliance,
    common_spring,
    endless_beam,
    free_beam,
    given_matrix,
    rigid_bar,
)
from gudgeon.calc.joint.interaction_errors import (
    BoltBesidePart,
    BoltOnEdge,
    CountOff,
    MatrixGivesEnergy,
    MatrixNotSquare,
    MatrixOneSided,
    NoBolts,
    NothingGives,
    OrderTwice,
    OrderUnknownBolt,
    PlateTooNarrow,
    PoissonImpossible,
)
from gudgeon.calc.joint.interaction_passes import pass_over
from gudgeon.calc.joint.interaction_plate import endless_plate, free_plate
from gudgeon.errors import InputError


def beam(*places: float, bending: float = 1.26e11, foundation: float = 2000.0) -> PartsCompliance:
    return free_beam(
        places, bending_stiffness_n_mm2=bending, foundation_n_per_mm2=foundation, length_mm=440.0
    )


def plate(*places: tuple[float, float], width: float = 200.0, poisson: float = 0.3) -> PartsCompliance:
    return free_plate(
        places,
        rigidity_n_mm=1e9,
        foundation_n_per_mm3=10.0,
        length_mm=400.0,
        width_mm=width,
        poisson=poisson,
    )


def passed(order: list[int], *, bolt: float | list[float] = 1e-5, target: float | list[float] = 1e4) -> None:
    parts = common_spring(2, stiffness_n_per_mm=5e5).matrix_mm_per_n
    pass_over(parts, bolt_mm_per_n=bolt, order=order, target_n=target)


REFUSALS: list[tuple[Callable[[], object], type[InputError], str]] = [
    (lambda: given_matrix([]), NoBolts, "No bolt is given. Give the place of each bolt."),
    (lambda: beam(), NoBolts, "No bolt is given. Give the place of each bolt."),
    (lambda: plate(), NoBolts, "No bolt is given. Give the place of each bolt."),
    (
        lambda: common_spring(0, stiffness_n_per_mm=1.0),
        NoBolts,
        "No bolt is given. Give the place of each bolt.",
    ),
    (
        lambda: given_matrix([[1e-6, 0.0], [0.0]]),
        MatrixNotSquare,
        "The compliance matrix has 2 rows, but 1 figures in row 2. Give one row and one column for each bolt.",
    ),
    (
        lambda: given_matrix([[2e-6, 1e-6], [5e-7, 2e-6]]),
        MatrixOneSided,
        "The compliance matrix has 1e-06 mm/N in row 1, column 2, but 5e-07 mm/N the other way round. "
        "The two are equal (Maxwell's reciprocity): mend the figure.",
    ),
    (
        lambda: given_matrix([[1e-6, 3e-6], [3e-6, 1e-6]]),
        MatrixGivesEnergy,
        "The compliance matrix has an eigenvalue of -2e-06 mm/N: under some loads the parts would move against "
        "the bolts. Check signs, and that no figure beside the diagonal outweighs it.",
    ),
    (
        lambda: given_matrix([[float("nan")]]),
        NotFinite,
        "Figure of the compliance matrix nan is not a finite number. Give the number that was read.",
    ),
    (
        lambda: beam(20.0, 450.0),
        BoltBesidePart,
        "Bolt 2 at 450 mm does not stand on the part, whose length runs from 0 to 440 mm. "
        "Measure all bolts from the same end.",
    ),
    (
        lambda: plate((20.0, -5.0)),
        BoltBesidePart,
        "Bolt 1 at -5 mm does not stand on the part, whose width runs from 0 to 200 mm. "
        "Measure all bolts from the same end.",
    ),
    (
        lambda: plate((20.0, 1.0)),
        BoltOnEdge,
        "Bolt 1 at 1 mm of the width stands on the edge of the plate; centers lie between 2 and 198 mm. "
        "Measure to the center of the hole.",
    ),
    (
        lambda: plate((20.0, 3.0), width=6.0),
        PlateTooNarrow,
        "Plate 6 mm wide is a beam: as a plate of that length it is computed from 8 mm on. "
        "Use the beam, with EI = D · (1 − ν²) · width.",
    ),
    (
        lambda: plate((20.0, 20.0), poisson=0.6),
        PoissonImpossible,
        "Poisson's ratio 0.6 cannot be: it lies from 0 to 0.5. 0.3 is usual for steel, 0.33 for aluminum.",
    ),
    (
        lambda: beam(20.0, bending=0.0),
        NotPositive,
        "Bending stiffness 0 N·mm² cannot be: it is above 0. Check the figure and its sign.",
    ),
    (
        lambda: beam(20.0, foundation=-2.0),
        NotPositive,
        "Foundation -2 N/mm² cannot be: it is above 0. Check the figure and its sign.",
    ),
    (
        lambda: passed([0, 2]),
        OrderUnknownBolt,
        "Bolt 2 of the order does not exist: the joint has bolts 0 to 1, counted from 0.",
    ),
    (
        lambda: passed([0, 1, 0]),
        OrderTwice,
        "Bolt 0 stands twice in the order of one pass. Take it out, or make two passes.",
    ),
    (
        lambda: passed([0, 1], target=[1e4]),
        CountOff,
        "Target: 1 figures for 2 bolts. Give one figure for all, or one for each.",
    ),
    (
        lambda: pass_over(
            np.full((3, 3), 1e-6), bolt_mm_per_n=0.0, order=[0, 1, 2], target_n=[1e4, 2e4, 3e4]
        ),
        NothingGives,
        "Bolts without compliance on parts that some loads do not move at all: the preloads cannot be found. "
        "Give the compliance of the bolts.",
    ),
]


@pytest.mark.parametrize(
    ("action", "cause", "message"), REFUSALS, ids=[f"{n}-{one[1].__name__}" for n, one in enumerate(REFUSALS)]
)
def test_refused(action: Callable[[], object], cause: type[InputError], message: str) -> None:
    with pytest.raises(cause) as refusal:
        action()
    assert str(refusal.value) == message


def test_an_endless_beam_flags_bolts_near_the_ends_of_the_real_one() -> None:
    figures = {"bending_stiffness_n_mm2": 1.26e11, "foundation_n_per_mm2": 2000.0}  # felt over 126 mm
    told = "nearer to an end of the beam than 3 characteristic lengths (378 mm), where the endless form no longer holds."
    places = [377.0, 379.0, 500.0, 623.0]
    assert endless_beam(places, **figures, length_mm=1000.0).flags == (f"Bolts 1, 4: {told}",)
    assert endless_beam(places[1:3], **figures, length_mm=1000.0).flags == ()
    assert endless_beam(places[:2], **figures, length_mm=1000.0).flags == (f"Bolt 1: {told}",)
    assert endless_beam(places, **figures).flags == (), "no ends are known"


def test_an_endless_plate_flags_by_side() -> None:
    figures = {"rigidity_n_mm": 1e9, "foundation_n_per_mm3": 10.0}  # felt over 100 mm
    found = endless_plate([(400.0, 400.0), (400.0, 250.0)], **figures, length_mm=800.0, width_mm=800.0)
    assert found.flags == (
        "Bolt 2: nearer to an end of the width than 3 characteristic lengths (300 mm), "
        "where the endless form no longer holds.",
    )


def test_a_plate_larger_than_was_tried_is_flagged() -> None:
    found = free_plate(
        [(500.0, 50.0)], rigidity_n_mm=1e4, foundation_n_per_mm3=1.0, length_mm=1000.0, width_mm=100.0
    )
    assert found.flags == (
        "The plate is 100 characteristic lengths long; near its edges the figures are tried up to 24.",
    )


def test_a_given_matrix_written_with_few_digits_is_taken() -> None:
    found = given_matrix([[2.0e-6, 5.0e-7], [5.0e-7, 2.0e-6]])
    assert found.matrix_mm_per_n.tolist() == [[2e-6, 5e-7], [5e-7, 2e-6]]
    assert given_matrix(common_spring(3, stiffness_n_per_mm=4e5).matrix_mm_per_n.tolist()).flags == ()


@pytest.mark.parametrize("bending", [1e22, 1e26, 1e40])
def test_a_part_too_stiff_to_bend_is_rigid_and_not_lost_in_rounding(bending: float) -> None:
    bar = rigid_bar([20.0, 420.0], stiffness_n_per_mm=2000.0 * 440, length_mm=440.0).matrix_mm_per_n
    assert np.abs(beam(20.0, 420.0, bending=bending).matrix_mm_per_n - bar).max() < 1e-8 * bar.max()
    stiff = free_plate(
        [(20.0, 100.0), (420.0, 100.0)],
        rigidity_n_mm=bending,
        foundation_n_per_mm3=10.0,
        length_mm=440.0,
        width_mm=200.0,
    ).matrix_mm_per_n
    assert np.abs(stiff - bar).max() < 1e-8 * bar.max()


def test_a_neighbor_may_slacken_a_bolt_and_bring_it_back() -> None:
    """One spring with r = 1, all in units of target and dS. HAND.

    Before the fourth pull the travels are 2, 2.5 and 17/6. Then F_i = x_i − (F1 + F2 + F3 + 1) would make
    F1 = −1/12: bolt 1 is slack, and F2 + F3 = 10/9. The second pass keeps travels in the same way.
    """
    parts = common_spring(4, stiffness_n_per_mm=1e5).matrix_mm_per_n
    found = pass_over(parts, bolt_mm_per_n=1e-5, order=[0, 1, 2, 3], target_n=1.0, passes=2)
    assert found[0].tolist() == pytest.approx([0.0, 7 / 18, 13 / 18, 1.0], abs=1e-9)
    assert found[1].tolist() == pytest.approx([0.436198, 0.651476, 0.837240, 1.0], abs=1e-6)
