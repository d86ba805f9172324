"""Shells by grade, pistons with rods, grams to take off: against every choice there is, and worked by hand."""

from itertools import permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.calc.engine.fits_errors import CountsDiffer, NoGrades, RangeCrossed
from gudgeon.calc.engine.selective import pair_by_weight, shells_for, to_take_off

MASS = st.integers(3000, 9000).map(lambda one: one / 10)


def test_the_grade_in_the_middle() -> None:
    # HAND: room 3.036; 2 · 1.490 leaves 0.056, 2 · 1.500 leaves 0.036, 2 · 1.510 leaves 0.016; the middle is 0.035.
    found = shells_for(3.036, thicknesses_mm=[1.49, 1.50, 1.51], wanted_mm=(0.02, 0.05))
    assert (found.first, found.second) == (1, 1)
    assert found.clearance_mm == pytest.approx(0.036)
    assert found.off_middle_mm == pytest.approx(0.001)


def test_two_halves_where_they_may_differ() -> None:
    # HAND: room 3.044; alike: 0.064, 0.044, 0.024. Mixed 1.500 + 1.510 leaves 0.034, nearest to 0.035.
    sizes = [1.49, 1.50, 1.51]
    alike = shells_for(3.044, thicknesses_mm=sizes, wanted_mm=(0.02, 0.05))
    mixed = shells_for(3.044, thicknesses_mm=sizes, wanted_mm=(0.02, 0.05), mixed=True)
    assert (alike.first, alike.second) == (1, 1)
    assert (mixed.first, mixed.second) == (1, 2)
    assert mixed.clearance_mm == pytest.approx(0.034)


def test_halves_that_are_alike_come_before_halves_that_are_not() -> None:
    # HAND: 1.49 + 1.51 is as thick as 1.50 + 1.50.
    found = shells_for(3.035, thicknesses_mm=[1.49, 1.50, 1.51], wanted_mm=(0.02, 0.05), mixed=True)
    assert (found.first, found.second) == (1, 1)


@settings(max_examples=100, deadline=None)
@given(
    st.floats(2.9, 3.1),
    st.lists(st.sampled_from([1.48, 1.485, 1.49, 1.5, 1.51]), min_size=1, max_size=5, unique=True),
    st.booleans(),
)
def test_no_choice_is_nearer(room: float, sizes: list[float], mixed: bool) -> None:
    found = shells_for(room, thicknesses_mm=sizes, wanted_mm=(0.02, 0.05), mixed=mixed)
    every = product(sizes, sizes) if mixed else ((one, one) for one in sizes)
    nearest = min(abs(room - first - second - 0.035) for first, second in every)
    assert abs(found.off_middle_mm) == pytest.approx(nearest, abs=1e-8)
    assert mixed or found.first == found.second


@settings(max_examples=100, deadline=None)
@given(
    st.integers(1, 5).flatmap(
        lambda n: st.tuples(st.lists(MASS, min_size=n, max_size=n), st.lists(MASS, min_size=n, max_size=n))
    )
)
def test_no_pairing_is_more_even(masses: tuple[list[float], list[float]]) -> None:
    pistons, rods = masses
    found = pair_by_weight(pistons, rods_g=rods)

    def spread(order: tuple[int, ...]) -> float:
        sums = [piston + rods[rod] for piston, rod in zip(pistons, order, strict=True)]
        return max(sums) - min(sums)

    assert sorted(found.rods) == list(range(len(rods)))
    assert found.spread_g == pytest.approx(spread(found.rods))
    assert found.spread_g == pytest.approx(min(map(spread, permutations(range(len(rods))))))


@given(st.lists(MASS, min_size=1, max_size=8), st.floats(0.0, 20.0))
def test_what_comes_off_is_as_little_as_can_be(masses: list[float], most: float) -> None:
    off = to_take_off(masses, most_difference_g=most)
    left = [mass - gone for mass, gone in zip(masses, off, strict=True)]
    assert max(left) - min(left) <= most + 1e-9
    assert min(left) == pytest.approx(min(masses), abs=1e-9)
    assert all(
        gone == 0 or mass - gone == pytest.approx(min(masses) + most)
        for mass, gone in zip(masses, off, strict=True)
    )


def test_refusals() -> None:
    with pytest.raises(NoGrades) as none:
        shells_for(3.0, thicknesses_mm=[], wanted_mm=(0.02, 0.05))
    assert none.value.message == (
        "No shell thickness is given, so none can be chosen. Give the thickness of at least one grade."
    )
    with pytest.raises(RangeCrossed) as crossed:
        shells_for(3.0, thicknesses_mm=[1.5], wanted_mm=(0.05, 0.02))
    assert crossed.value.message == (
        "Clearance 0.05 to 0.02 mm cannot be: its least is above its most. Give the least first."
    )
    with pytest.raises(CountsDiffer) as counts:
        pair_by_weight([400.0], rods_g=[600.0, 601.0])
    assert counts.value.message == (
        "Weighed pistons: 1, rods: 2. They are paired one to one: weigh those that are missing."
    )
