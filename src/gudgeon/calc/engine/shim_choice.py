"""All valves together: the choice of shims that nothing beats, with the prices that prove it.

Which valve gets which shim is an assignment problem. It is solved aim by aim: what one aim leaves equal is where the
next one chooses. Each aim gives prices – of every valve and of every shim – by which no other choice can be better;
they are checked in whole numbers (`shim_proof`), whatever found them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from gudgeon.calc.engine.shim_proof import OptimumNotProved, Prices, check_prices
from gudgeon.calc.engine.shim_valves import (
    AIMS,
    Shim,
    Supply,
    Valve,
    Verdict,
    Worth,
    bought_shims,
    refuse_too_large,
    single_shims,
    worth,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Whole = NDArray[np.int64]
    Truth = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Fitted:
    """What one valve gets, and the clearance that results [nm]."""

    shim: Shim
    low_nm: int
    high_nm: int
    verdict: Verdict
    moved: bool


@dataclass(frozen=True, slots=True)
class Nearest:
    """A valve that no shim brings inside: the nearest of all, and what it would leave [nm]."""

    at: int
    shim: Shim
    low_nm: int
    high_nm: int
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Choice:
    """The choice for all valves, in their order; `total` holds what every aim comes to; `prices` prove it."""

    fitted: tuple[Fitted, ...]
    total: Worth
    prices: Prices
    never: tuple[Nearest, ...]

    @property
    def inside(self) -> int:
        """How many valves are inside."""
        return len(self.fitted) - self.total[0]

    @property
    def bought(self) -> int:
        """How many shims are bought."""
        return self.total[2]

    @property
    def money(self) -> int:
        """What they cost, in the smallest coin."""
        return self.total[3]

    @property
    def from_the_middle_nm(self) -> float:
        """How far all valves together lie from the middle of what is wanted."""
        return self.total[4] / 2

    @property
    def moved(self) -> int:
        """How many places get another shim."""
        return self.total[5]


def choose(valves: Sequence[Valve], *, supply: Supply) -> Choice:
    """The shims for all valves: most inside, then fewest outside, fewest bought, least money, nearest the middle.

    Equation:
        the least of Σ (not inside, outside, bought, money, from the middle, moved), compared from the first on

    Parameters:
        valves: the valves with their shims, clearances and what is wanted [nm]
        supply: what is in stock and what can be bought [nm, smallest coin]

    Returns:
        the choice, what it comes to, and the prices that prove it [nm, smallest coin]

    Valid for:
        shims that fit every valve given; up to a thousand valves

    Source:
        HAND: assignment with dual prices (Kuhn 1955; Bertsekas, Network Optimization, 1998, chapter 7), aim by aim.

    Example:
        >>> loose = Valve("intake 1", 2_300_000, 300_000, 300_000, 150_000, 250_000)
        >>> tight = Valve("intake 2", 2_400_000, 100_000, 100_000, 150_000, 250_000)
        >>> found = choose([loose, tight], supply=Supply(to_buy=((2_350_000, 480),)))
        >>> [one.shim.at for one in found.fitted], found.bought
        ([1, 0], 0)

    Not covered:
        shims of two diameters on one engine: give each kind by itself.
    """
    refuse_too_large(valves, supply=supply)
    single, to_buy = single_shims(valves, supply=supply), bought_shims(supply)
    if not valves:
        return Choice((), (0,) * len(AIMS), Prices((), ()), ())
    best = [_best_to_buy(valve, at, to_buy) for at, valve in enumerate(valves)]
    table = _table(valves, single, best)
    matched, of_valves, of_shims = _solved(table)
    prices = Prices(of_valves, of_shims[: len(single)])
    given = tuple(single[at] if at < len(single) else _bought(best, row) for row, at in enumerate(matched))
    total = check_prices(valves, supply=supply, given=given, prices=prices)
    fitted = tuple(
        _fitted(valve, at, shim) for at, (valve, shim) in enumerate(zip(valves, given, strict=True))
    )
    never = tuple(_never(valves, (*single, *to_buy)))
    return Choice(fitted, total, prices, never)


def _bought(best: Sequence[Shim | None], row: int) -> Shim:
    shim = best[row]
    assert shim is not None  # a column without a shim is never allowed
    return shim


def _best_to_buy(valve: Valve, at: int, to_buy: Sequence[Shim]) -> Shim | None:
    """A size can be bought any number of times, so each valve has one best size of its own; of equals the thinner."""
    return min(to_buy, key=lambda shim: (*worth(valve, at=at, shim=shim), shim.thickness_nm), default=None)


@dataclass(frozen=True, slots=True)
class _Table:
    """For each aim what valve (row) and shim (column) add to it; which pairs there are."""

    aims: "Whole"
    there: "Truth"


def _table(valves: Sequence[Valve], single: Sequence[Shim], best: Sequence[Shim | None]) -> _Table:
    """The shims there are one of, then for each valve a column of its own: the best size to buy."""
    import numpy as np

    rows, columns = len(valves), len(single) + len(valves)
    aims = np.zeros((len(AIMS), rows, columns), dtype=np.int64)
    there = np.zeros((rows, columns), dtype=np.bool_)
    there[:, : len(single)] = True
    for at, valve in enumerate(valves):
        for column, shim in enumerate(single):
            aims[:, at, column] = worth(valve, at=at, shim=shim)
        own = best[at]
        if own is not None:
            aims[:, at, len(single) + at] = worth(valve, at=at, shim=own)
            there[at, len(single) + at] = True
    return _Table(aims, there)


def _solved(table: _Table) -> tuple[list[int], tuple[Worth, ...], tuple[Worth, ...]]:
    """Aim by aim the best match; the pairs and the idle shims that an aim leaves are those its prices allow."""
    import numpy as np

    allowed, idle = table.there.copy(), np.ones(table.there.shape[1], dtype=np.bool_)
    of_valves, of_shims, matched = [], [], [0]
    for aim in table.aims:
        found = _match(aim, allowed, idle)
        shims = _shim_prices(aim, allowed, idle, found)
        rows = np.arange(len(aim))
        valves = aim[rows, found] - shims[found]
        allowed &= aim == valves[:, None] + shims[None, :]
        idle &= shims == 0
        of_valves.append(valves.tolist())
        of_shims.append(shims.tolist())
        matched = found.tolist()
    return matched, tuple(zip(*of_valves, strict=True)), tuple(zip(*of_shims, strict=True))


def _match(aim: "Whole", allowed: "Truth", idle: "Truth") -> Any:
    """The least match for one aim; rows are added, at no cost, for the shims that stay idle."""
    import numpy as np
    from scipy.optimize import linear_sum_assignment

    rows, columns = aim.shape
    square = np.full((columns, columns), np.inf)
    square[:rows][allowed] = aim[allowed]
    square[rows:, idle] = 0.0
    _, found = linear_sum_assignment(square)
    return found[:rows]


def _shim_prices(aim: "Whole", allowed: "Truth", idle: "Truth", found: Any) -> "Whole":
    """Prices of the shims: the shortest ways by which shims change hands, begun at any shim that may be idle.

    A way that ended at an idle shim below 0 would be a better choice, and one that never ends a ring of them: then the
    match was not the best.
    """
    import numpy as np

    rows, columns = aim.shape
    far = (columns + 1) * (int(aim.max(initial=0)) + 1)
    prices = np.where(idle, 0, far).astype(np.int64)
    steps = np.where(allowed, aim - aim[np.arange(rows), found][:, None], far)
    for _ in range(columns + 1):
        shorter = np.minimum(prices, (prices[found][:, None] + steps).min(axis=0))
        if np.array_equal(shorter, prices):
            break
        prices = shorter
    else:
        raise OptimumNotProved("a ring of exchanges makes it better")
    taken = np.zeros(columns, dtype=np.bool_)
    taken[found] = True
    if prices[~taken].any():
        raise OptimumNotProved("an idle shim makes it better")
    return prices


def _fitted(valve: Valve, at: int, shim: Shim) -> Fitted:
    kept = shim.origin == "place" and shim.at == at
    low, high = valve.after(shim.thickness_nm)
    return Fitted(shim, low, high, valve.verdict(shim.thickness_nm, kept=kept), not kept)


def _never(valves: Sequence[Valve], shims: Sequence[Shim]) -> list[Nearest]:
    """The valves that none of all shims and sizes brings inside, each with the nearest."""
    found = []
    for at, valve in enumerate(valves):
        ranked = [(worth(valve, at=at, shim=shim), shim.thickness_nm, shim) for shim in shims]
        if all(value[0] for value, _, _ in ranked):
            shim = min(ranked, key=lambda one: (one[0][1], one[0][4], one[0][2:], one[1]))[2]
            one = _fitted(valve, at, shim)
            found.append(Nearest(at, shim, one.low_nm, one.high_nm, one.verdict))
    return found
