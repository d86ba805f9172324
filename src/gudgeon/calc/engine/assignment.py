"""Which part goes into which place: assignments that are proven to be the best there are."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.calc.engine.fits_errors import PartsTooFew, TableUneven
from gudgeon.calc.errors import finite

Table = Sequence[Sequence[float]]
"""One row for each place, one column for each part."""


@dataclass(frozen=True, slots=True)
class Assignment:
    """For every place the part it is given, what that costs, and the prices that prove that nothing costs less.

    No price of a place and a part together is above the cost of that part in that place, no price of a part is
    above zero, and all prices add up to the cost: so no assignment can cost less.
    """

    parts: tuple[int, ...]
    cost: float
    place_prices: tuple[float, ...]
    part_prices: tuple[float, ...]

    @property
    def bound(self) -> float:
        """What any assignment costs at least, by the prices."""
        return math.fsum((*self.place_prices, *self.part_prices))


def cheapest(costs: Table) -> Assignment:
    """The assignment of one part to each place that costs least in all.

    Equation:
        least Σ cost(place, part of place), no part twice; proof: Σ prices = Σ costs, price + price ≤ cost

    Parameters:
        costs: what each part costs in each place, a row for each place [1]

    Returns:
        part of each place, sum of the costs and the prices [1]

    Valid for:
        at least as many parts as places; costs above or below zero

    Source:
        H. W. Kuhn, The Hungarian method for the assignment problem, 1955 (memory); shortest paths with prices.

    Example:
        >>> cheapest([[4.0, 1.0, 3.0], [2.0, 0.0, 5.0], [3.0, 2.0, 2.0]]).parts
        (1, 0, 2)

    Not covered:
        which of several equally cheap assignments is meant: one of them is found.
    """
    places, parts = _size(costs)
    place_prices, part_prices = [0.0] * places, [0.0] * parts
    owner: list[int | None] = [None] * parts
    for place in range(places):
        _give(costs, place, (place_prices, part_prices), owner)
    given = {place: part for part, place in enumerate(owner) if place is not None}
    chosen = tuple(given[place] for place in range(places))
    cost = math.fsum(costs[place][part] for place, part in enumerate(chosen))
    return Assignment(chosen, cost, tuple(place_prices), tuple(part_prices))


def most_inside(ranks: Sequence[Sequence[int]], *, distances: Table) -> Assignment:
    """The assignment of least rank in all, and among those the one of least distance in all.

    Equation:
        least Σ (rank · B + distance) with B above twice the sum of all greatest distances

    Parameters:
        ranks: of each part in each place: 0 inside, more the worse it is [1]
        distances: of each part in each place from where it should be, such as the middle of a range [mm]

    Returns:
        part of each place; its cost and prices are those of the sum above [1]

    Valid for:
        at least as many parts as places; whole ranks from 0

    Source:
        HAND: B outweighs all distances together, so no distance can buy a rank.

    Example:
        >>> most_inside([[0, 0], [0, 1]], distances=[[0.0, 0.9], [0.9, 0.0]]).parts
        (1, 0)

    Not covered:
        what a rank is worth against another one: that is said by how they are numbered.
    """
    _size(ranks)
    _size(distances)
    outweighs = 1.0 + 2 * math.fsum(max(map(abs, row)) for row in distances)
    return cheapest(
        [
            [rank * outweighs + distance for rank, distance in zip(row, far, strict=True)]
            for row, far in zip(ranks, distances, strict=True)
        ]
    )


def widest_least(margins: Table, *, allowed: Sequence[Sequence[bool]]) -> tuple[int, ...] | None:
    """The assignment in which the least margin is greatest, and among those the one whose margins add up to most.

    Equation:
        greatest min margin, then greatest Σ margin, over assignments of allowed pairs

    Parameters:
        margins: how far inside its limits each part is in each place [mm]
        allowed: whether that part may go there at all

    Returns:
        part of each place [1], or None where not every place can be given an allowed part of its own

    Valid for:
        at least as many parts as places

    Source:
        HAND: what can be had at one least margin can be had at every smaller one, so the greatest is found by halving.

    Example:
        >>> widest_least([[0.3, 0.1], [0.2, 0.0]], allowed=[[True, True], [True, True]])
        (1, 0)

    Not covered:
        places that no allowed part is left for: who shares too few parts is asked of the caller.
    """
    levels = sorted(
        {
            margin
            for row, may in zip(margins, allowed, strict=True)
            for margin, ok in zip(row, may, strict=True)
            if ok
        }
    )
    low, high, found = 0, len(levels) - 1, None
    while low <= high:
        middle = (low + high) // 2
        tried = _with_least(margins, allowed, levels[middle])
        if tried is None:
            high = middle - 1
        else:
            found, low = tried, middle + 1
    return found


def _with_least(margins: Table, allowed: Sequence[Sequence[bool]], least: float) -> tuple[int, ...] | None:
    """The greatest sum of margins with none below the least, where that can be had."""
    may = [
        [ok and margin >= least for margin, ok in zip(row, fine, strict=True)]
        for row, fine in zip(margins, allowed, strict=True)
    ]
    taken = [
        [-margin if ok else 0.0 for margin, ok in zip(row, fine, strict=True)]
        for row, fine in zip(margins, may, strict=True)
    ]
    found = most_inside([[0 if ok else 1 for ok in row] for row in may], distances=taken).parts
    return found if all(may[place][part] for place, part in enumerate(found)) else None


def _size(table: Sequence[Sequence[float]]) -> tuple[int, int]:
    """How many places and parts a table has."""
    parts = len(table[0]) if table else 0
    if any(len(row) != parts for row in table):
        raise TableUneven
    if parts < len(table):
        raise PartsTooFew(len(table), parts)
    for row in table:
        for value in row:
            finite(value, "Figure of a part in a place")
    return len(table), parts


def _give(costs: Table, place: int, prices: tuple[list[float], list[float]], owner: list[int | None]) -> None:
    """Give one more place a part, moving others along the cheapest way; prices stay a proof."""
    place_prices, part_prices = prices
    reach = [math.inf] * len(owner)
    before: list[int | None] = [None] * len(owner)
    done: list[bool] = [False] * len(owner)
    at, step = place, None
    while True:
        base = 0.0 if step is None else reach[step]
        for part, known in enumerate(done):
            way = base + costs[at][part] - place_prices[at] - part_prices[part]
            if not known and way < reach[part]:
                reach[part], before[part] = way, step
        step = min((part for part, known in enumerate(done) if not known), key=reach.__getitem__)
        done[step] = True
        holder = owner[step]
        if holder is None:
            break
        at = holder
    far = reach[step]
    place_prices[place] += far
    for part, known in enumerate(done):
        if known and part != step:
            part_prices[part] -= far - reach[part]
            held = owner[part]
            assert held is not None  # only the last part was free
            place_prices[held] += far - reach[part]
    _move(owner, before, step, place)


def _move(owner: list[int | None], before: Sequence[int | None], last: int, place: int) -> None:
    """Hand the parts on along the way that was found."""
    part = last
    while (earlier := before[part]) is not None:
        owner[part], part = owner[earlier], earlier
    owner[part] = place
