"""Purchases against a general solver: scipy's HiGHS (OTHER TOOL) on the same lists written as equations."""

import pytest

from gudgeon.calc.planning.purchase import least_cost
from tests.random_purchases import by_highs, locations, shopping


@pytest.mark.parametrize("first", [0, *(pytest.param(at, marks=pytest.mark.long) for at in range(8, 56, 8))])
def test_random_lists(first: int) -> None:
    for seed in range(first, first + 8):
        case = shopping(seed)
        found = least_cost(case[0], suppliers=case[1], offers=case[2])
        assert found.proven, seed
        assert found.closed > 0, seed
        assert found.total == by_highs(case), seed


@pytest.mark.parametrize("seed", range(6))
def test_facility_location_is_a_purchase_without_limits(seed: int) -> None:
    case = locations(seed)
    found = least_cost(case[0], suppliers=case[1], offers=case[2])
    assert found.proven
    assert found.total == by_highs(case)
