"""Assignments against every assignment there is, and against another solver; each with its own proof.

Expected figures are found by brute force, or by scipy's linear_sum_assignment (OTHER TOOL); nothing else is known here.
"""

from itertools import permutations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from gudgeon.calc.engine.assignment import Assignment, cheapest, most_inside
from gudgeon.calc.engine.fits_errors import PartsTooFew, TableUneven
from gudgeon.calc.errors import NotFinite

COST = st.floats(-2.0, 2.0, allow_nan=False)


@st.composite
def tables(draw: st.DrawFn, most: int = 5) -> list[list[float]]:
    places = draw(st.integers(1, most))
    parts = draw(st.integers(places, most + 1))
    return [[draw(COST) for _ in range(parts)] for _ in range(places)]


def proven(found: Assignment, costs: list[list[float]]) -> None:
    """The prices prove that nothing is cheaper, whoever found them."""
    for place, row in enumerate(costs):
        for part, cost in enumerate(row):
            assert found.place_prices[place] + found.part_prices[part] <= cost + 1e-9
    assert max(found.part_prices) <= 1e-9
    assert len(set(found.parts)) == len(costs)
    assert found.bound == pytest.approx(found.cost, abs=1e-9)
    assert sum(costs[place][part] for place, part in enumerate(found.parts)) == pytest.approx(found.cost)


@settings(max_examples=120, deadline=None)
@given(tables())
def test_nothing_is_cheaper(costs: list[list[float]]) -> None:
    found = cheapest(costs)
    proven(found, costs)
    every = permutations(range(len(costs[0])), len(costs))
    least = min(sum(costs[place][part] for place, part in enumerate(one)) for one in every)
    assert found.cost == pytest.approx(least, abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(
    st.integers(9, 16).flatmap(
        lambda size: st.lists(st.lists(COST, min_size=size, max_size=size), min_size=size, max_size=size)
    )
)
def test_sixteen_places_as_another_solver_finds_them(costs: list[list[float]]) -> None:
    found = cheapest(costs)
    proven(found, costs)
    rows, columns = linear_sum_assignment(costs)
    other = sum(costs[row][column] for row, column in zip(rows, columns, strict=True))
    assert found.cost == pytest.approx(other, abs=1e-9)


@pytest.mark.parametrize(("places", "parts"), [(60, 60), (40, 90), (1, 200)])
def test_many_places_as_another_solver_finds_them(places: int, parts: int) -> None:
    chance = Random(places + parts)
    costs = [[float(chance.randint(1, 100)) for _ in range(parts)] for _ in range(places)]
    found = cheapest(costs)
    proven(found, costs)
    rows, columns = linear_sum_assignment(costs)
    assert found.cost == sum(costs[row][column] for row, column in zip(rows, columns, strict=True))


@settings(max_examples=120, deadline=None)
@given(st.data())
def test_first_most_inside_and_then_nearest(data: st.DataObject) -> None:
    far = data.draw(tables(4))
    ranks = [[data.draw(st.sampled_from((0, 0, 1, 5))) for _ in row] for row in far]
    distances = [[abs(one) for one in row] for row in far]

    def worth(chosen: tuple[int, ...]) -> tuple[int, float]:
        return (
            sum(ranks[place][part] for place, part in enumerate(chosen)),
            round(sum(distances[place][part] for place, part in enumerate(chosen)), 7),
        )

    found = most_inside(ranks, distances=distances)
    assert worth(found.parts) == min(map(worth, permutations(range(len(far[0])), len(far))))


def test_a_part_for_every_place_is_needed() -> None:
    with pytest.raises(PartsTooFew) as refused:
        cheapest([[1.0], [2.0]])
    assert refused.value.message == (
        "With 1 measured, 2 places cannot be filled: each needs a part of its own. Measure the others."
    )


def test_a_table_has_a_figure_everywhere() -> None:
    with pytest.raises(TableUneven) as refused:
        cheapest([[1.0, 2.0], [2.0]])
    assert refused.value.message == (
        "The places do not all have a figure for every part. Give one figure for each part in each place."
    )


def test_no_figure_is_infinite() -> None:
    with pytest.raises(NotFinite) as refused:
        cheapest([[float("inf")]])
    assert refused.value.message == (
        "Figure of a part in a place inf is not a finite number. Give the number that was read."
    )
