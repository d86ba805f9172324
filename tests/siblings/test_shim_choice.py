"""The choice of shims against another solver: integer programs solved aim by aim (HiGHS, through SciPy).

The other solver counts equal shims instead of telling them apart, and holds what an aim reached as an equation.
"""

import random
from collections.abc import Sequence

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array, vstack

from gudgeon.calc.engine.shim_choice import choose
from gudgeon.calc.engine.shim_valves import Shim, Supply, Valve
from tests.unit.calc.engine_shims import counted, some_supply, some_valves


def other_solver(valves: Sequence[Valve], supply: Supply) -> list[int]:
    """What each aim comes to at its best, one after the other."""
    rows = len(valves)
    kinds = [(Shim(valve.shim_nm, "place", at), 1) for at, valve in enumerate(valves)]
    kinds += [(Shim(size, "stock", row), count) for row, (size, count) in enumerate(supply.stock)]
    kinds += [(Shim(size, "bought", row, 0, price), rows) for row, (size, price) in enumerate(supply.to_buy)]
    each = np.array([_one(valve, at, shim) for at, valve in enumerate(valves) for shim, _ in kinds])
    one_each = csr_array(np.kron(np.eye(rows), np.ones(len(kinds))))
    at_most = csr_array(np.kron(np.ones(rows), np.eye(len(kinds))))
    rules = [LinearConstraint(one_each, 1, 1), LinearConstraint(at_most, 0, [count for _, count in kinds])]
    reached: list[int] = []
    for aim in range(6):
        weights = each[:, aim] / (
            1000 if aim == 4 else 1
        )  # micrometers, so that its tolerances do not matter
        solved = milp(
            weights, constraints=rules, integrality=np.ones(len(weights), dtype=np.int64), bounds=Bounds(0, 1)
        )
        assert solved.success
        best = int(each[:, aim] @ np.rint(solved.x).astype(int))
        reached.append(best)
        held = best / (1000 if aim == 4 else 1)
        rules.append(LinearConstraint(vstack([csr_array(weights[None, :])]), held - 0.25, held + 0.25))
    return reached


def _one(valve: Valve, at: int, shim: Shim) -> tuple[int, ...]:
    """What one pair counts for; a shim of a place is told by its own place."""
    own = shim if (shim.origin, shim.at) != ("place", at) else Shim(shim.thickness_nm, "place", 0)
    if shim.origin == "place" and own is shim:
        own = Shim(shim.thickness_nm, "place", 1)
    return counted([valve], [own])


def _agree(seed: int) -> None:
    chance = random.Random(seed)
    valves = some_valves(chance, 24)
    supply = some_supply(chance, stock=chance.randint(0, 12), sizes=chance.choice((0, 9, 17)))
    found = choose(valves, supply=supply)
    ours, theirs = list(counted(valves, [one.shim for one in found.fitted])), other_solver(valves, supply)
    assert ours <= theirs
    assert ours == theirs


@pytest.mark.parametrize("seed", range(30))
def test_never_worse(seed: int) -> None:
    _agree(seed)


@pytest.mark.long
@pytest.mark.parametrize("hundred", range(10))
def test_never_worse_a_thousand_times(hundred: int) -> None:
    for seed in range(100):
        _agree(1000 * (hundred + 1) + seed)
