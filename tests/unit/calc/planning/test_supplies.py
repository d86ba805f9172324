"""Beads and films: HAND figures from cylinders, rectangles and their skins; what cannot be is refused word by word."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc.calculator import calculator
from gudgeon.calc.errors import NotPositive
from gudgeon.calc.planning.supplies import bead_cm3, bead_from_tube_mm, closed_path_mm, journal_film_cm3
from gudgeon.calc.planning.supplies_errors import LengthOrPoints, PathTooShort, PointUnreadable
from gudgeon.errors import InputError


def test_a_bead_is_a_thin_cylinder() -> None:
    # HAND: 1000 mm of 2 mm: π · 1000 = 3141.6 mm³ = 3.1416 cm³; with 30 % more 4.0841
    assert bead_cm3(1000.0, diameter_mm=2.0) == pytest.approx(math.pi)
    assert bead_cm3(1000.0, diameter_mm=2.0, reserve=0.3) == pytest.approx(4.0841, abs=5e-5)
    # twice as wide takes four times as much
    assert bead_cm3(1000.0, diameter_mm=4.0) == pytest.approx(4 * math.pi)


@given(st.floats(1.0, 500.0), st.floats(0.5, 10.0), st.floats(0.0, 1.0))
def test_a_tube_is_enough_for_the_bead_that_takes_it(tube: float, width: float, reserve: float) -> None:
    way = bead_from_tube_mm(tube, diameter_mm=width, reserve=reserve)
    assert bead_cm3(way, diameter_mm=width, reserve=reserve) == pytest.approx(tube)


def test_the_way_around_a_rectangle_whatever_the_order_of_its_bolts() -> None:
    # HAND: 2 · (90 + 60); the bolt in the middle of a side adds nothing
    bolts = [(90.0, 60.0), (0.0, 0.0), (45.0, 0.0), (0.0, 60.0), (90.0, 0.0)]
    assert closed_path_mm(bolts) == pytest.approx(300.0)
    assert closed_path_mm(bolts[::-1]) == pytest.approx(300.0)


def test_a_film_is_the_skin_of_a_cylinder() -> None:
    # HAND: π · 50 · 20 = 3141.6 mm², 0.1 mm thick: 314.16 mm³
    assert journal_film_cm3(50.0, width_mm=20.0, film_mm=0.1) == pytest.approx(0.31416, abs=5e-6)


@pytest.mark.parametrize(
    ("inputs", "cause", "message"),
    [
        (
            {"width": "2 mm"},
            LengthOrPoints,
            "A bead has one length: give `length`, or `points` that it goes around through, and not both.",
        ),
        (
            {"width": "2 mm", "points": "0 0; 1"},
            PointUnreadable,
            "`1` is no point. Write x and y in mm with a space between, points parted by `;`: `0 0; 90 0; 90 60`.",
        ),
        (
            {"width": "2 mm", "points": "0 0; 1 1"},
            PathTooShort,
            "A closed way goes through 3 points or more, and 2 were given. Give x and y of every bolt around the cover, or "
            "the length of the bead.",
        ),
        (
            {"width": "0 mm", "length": "10 mm"},
            NotPositive,
            "Width of the bead 0 mm cannot be: it is above 0. Check the figure and its sign.",
        ),
    ],
)
def test_what_cannot_be_is_refused(inputs: dict[str, str], cause: type[InputError], message: str) -> None:
    with pytest.raises(cause) as refused:
        calculator("planning.sealant-bead").run(inputs)
    assert refused.value.message == message
