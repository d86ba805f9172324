"""The proof that no purchase costs less: branches that cover every purchase, each closed by prices of the parts."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

Origin = tuple[int, int]
"""A supplier, and which of the costs of the part there."""

OUT = -1
"""The way of a supplier from whom nothing is bought."""


class PurchaseNotProved(RuntimeError):
    """A purchase that its branches do not prove: a bug of ours."""


@dataclass(frozen=True, slots=True)
class Way:
    """A way to buy from a supplier: what it costs beside the goods, and what the goods come to at least."""

    fee: int
    least: int


@dataclass(frozen=True, slots=True)
class Market:
    """What can be had, in numbers: parts and suppliers are counted from 0.

    `ways` are those of each supplier; `costs` what a part costs there, an ascending row with one cost for each
    article that may be taken.
    """

    parts: int
    ways: tuple[tuple[Way, ...], ...]
    costs: tuple[Mapping[int, tuple[int, ...]], ...]


@dataclass(frozen=True, slots=True)
class Branch:
    """A part of all purchases: the ways that each supplier may still be used, and where some parts may come from.

    `origins` gives, for a part that may not come from everywhere, its suppliers and which of the costs there.
    """

    ways: tuple[tuple[int, ...], ...]
    origins: Mapping[int, tuple[Origin, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Closed:
    """A branch in which nothing costs less, by these prices of the parts."""

    prices: tuple[int, ...]


@dataclass(slots=True)
class Split:
    """A branch that is split by how one supplier is used."""

    supplier: int
    into: "list[tuple[tuple[int, ...], Proof | None]]"


@dataclass(slots=True)
class Spread:
    """A branch that is split by where one part comes from."""

    part: int
    into: "list[tuple[tuple[Origin, ...], Proof | None]]"


Proof = Closed | Split | Spread


def whole(market: Market) -> Branch:
    """The branch of all purchases.

    Equation:
        none: every supplier out, or used in any of its ways; no part fixed

    Parameters:
        market: what can be had

    Returns:
        the branch

    Valid for:
        any market

    Source:
        HAND: it excludes nothing.

    Example:
        >>> whole(Market(1, ((Way(5, 0),),), ({0: (3,)},))).ways
        ((-1, 0),)

    Not covered:
        nothing.
    """
    return Branch(tuple((OUT, *range(len(ways))) for ways in market.ways))


def rows_of(market: Market, *, branch: Branch, supplier: int) -> list[tuple[int, int, int]]:
    """What a supplier may sell in a branch: part, its least and its greatest cost there.

    Equation:
        none: a selection

    Parameters:
        market: what can be had
        branch: which purchases are meant
        supplier: which one, counted from 0 [1]

    Returns:
        part [1], least and greatest cost [coin]

    Valid for:
        any branch

    Source:
        HAND: a part with given origins is sold there only, at those costs only.

    Example:
        >>> market = Market(2, ((),), ({0: (3, 4), 1: (7, 9)},))
        >>> rows_of(market, branch=Branch(((0,),), {1: ((0, 0),)}), supplier=0)
        [(0, 3, 4), (1, 7, 7)]

    Not covered:
        nothing.
    """
    rows = []
    for part, costs in market.costs[supplier].items():
        if part not in branch.origins:
            rows.append((part, costs[0], costs[-1]))
            continue
        allowed = [costs[number] for at, number in branch.origins[part] if at == supplier]
        if allowed:
            rows.append((part, min(allowed), max(allowed)))
    return rows


def supplier_bound(rows: Sequence[tuple[int, int, int]], *, prices: Sequence[int], way: Way) -> int | None:
    """What buying from a supplier in one way comes to at least, once every part it takes has paid its price.

    Equation:
        fee + min Σ (cost − price) over the parts taken, with Σ cost ≥ least; its bound for any rate m of 0 to 1 is
        fee + m · (least − Σ cost of those that pay for themselves) + Σ min(0, surplus − m · cost)

    Parameters:
        rows: part [1], least and greatest cost there [coin]
        prices: price of each part, 0 or more [coin]
        way: fee and least goods [coin]

    Returns:
        bound [coin]; None where even everything it has stays below the least goods

    Valid for:
        whole numbers of any size; rounded up, since what it bounds is whole

    Source:
        HAND: the continuous knapsack (Dantzig 1957, memory), written with its own price m, so that it holds whatever
        rate is tried. A dearer article of a part adds as much to the goods as to the cost: at m ≤ 1 it never pays.

    Example:
        >>> rows = [(0, 40, 40), (1, 60, 60)]
        >>> supplier_bound(rows, prices=[50, 30], way=Way(5, 0)), supplier_bound(rows, prices=[50, 30], way=Way(0, 70))
        (-5, 5)

    Not covered:
        that parts are not cut in pieces: branching sees to it.
    """
    gained, short, rest = _own(rows, prices=prices, way=way)
    if short <= 0:
        return way.fee + gained
    if sum(top for _, _, top in rows) < way.least:
        return None
    surplus, cost = _rate(rest, short)
    lost = sum(min(0, one * cost - surplus * goods) for _, one, goods in rest)
    return way.fee + gained + -((-(surplus * short + lost)) // cost)


def rate(rows: Sequence[tuple[int, int, int]], *, prices: Sequence[int], way: Way) -> float:
    """What a coin more of goods costs a supplier's limit: the rate m of supplier_bound.

    Equation:
        surplus / cost of the part that fills the gap to the least goods; 0 where there is none

    Parameters:
        rows: part [1], least and greatest cost there [coin]
        prices: price of each part, 0 or more [coin]
        way: fee and least goods [coin]

    Returns:
        rate, 0 to 1 [1]

    Valid for:
        what guides a search; no proof rests on it

    Source:
        HAND: see supplier_bound.

    Example:
        >>> rate([(0, 40, 40), (1, 60, 60)], prices=[50, 30], way=Way(0, 70))
        0.5

    Not covered:
        nothing.
    """
    _, short, rest = _own(rows, prices=prices, way=way)
    surplus, cost = _rate(rest, short) if short > 0 else (0, 1)
    return surplus / cost


def _own(
    rows: Sequence[tuple[int, int, int]], *, prices: Sequence[int], way: Way
) -> tuple[int, int, list[tuple[float, int, int]]]:
    """What the parts bring that pay for themselves, how far their goods are below the least, and the other parts."""
    gained, goods, rest = 0, 0, []
    for part, cost, _ in rows:
        surplus = cost - prices[part]
        if surplus <= 0:
            gained += surplus
            goods += cost
        else:
            rest.append((surplus / cost, surplus, cost))
    return gained, way.least - goods, rest


def _rate(rest: list[tuple[float, int, int]], short: int) -> tuple[int, int]:
    """The surplus and the cost of the part that fills a gap, those with the least surplus for their cost first."""
    filled = 0
    for _, surplus, cost in sorted(rest):
        filled += cost
        if filled >= short:
            return surplus, cost
    return 1, 1


def bound(market: Market, *, branch: Branch, prices: Sequence[int]) -> int | None:
    """What any purchase of a branch costs at least, by prices of the parts.

    Equation:
        Σ prices + Σ over suppliers of the least, over the ways still open, of (way − prices of the parts taken)

    Parameters:
        market: what can be had [coin]
        branch: which purchases are meant
        prices: price of each part, 0 or more [coin]

    Returns:
        bound [coin]; None where the branch holds no purchase

    Valid for:
        any prices of 0 or more: bad ones give a low bound, never a wrong one

    Source:
        HAND: Lagrange's relaxation of "every part from exactly one supplier"; Geoffrion 1974 (memory).

    Example:
        >>> market = Market(1, ((Way(5, 0),),), ({0: (30,)},))
        >>> bound(market, branch=whole(market), prices=[35])
        35

    Not covered:
        which prices are good: the search finds them.
    """
    total = sum(prices)
    for supplier, ways in enumerate(branch.ways):
        rows = rows_of(market, branch=branch, supplier=supplier)
        values = [
            0 if way == OUT else supplier_bound(rows, prices=prices, way=market.ways[supplier][way])
            for way in ways
        ]
        open_ways = [value for value in values if value is not None]
        if not open_ways:
            return None
        total += min(open_ways)
    return total


def check(market: Market, *, proof: Proof, cost: int, unit: int = 1) -> int:
    """Check that no purchase costs less, from what can be had and the branches alone.

    Equation:
        the branches of every split cover what was split, and the bound of every closed one > cost − unit

    Parameters:
        market: what can be had [coin]
        proof: the branches and their prices
        cost: what the purchase costs that is said to be the least [coin]
        unit: every cost is a multiple of it [coin]

    Returns:
        number of closed branches [1]

    Valid for:
        whole numbers of any size

    Source:
        HAND: a cost that is a multiple of the unit and above cost − unit is no less than the cost.

    Example:
        >>> market = Market(1, ((Way(5, 0),),), ({0: (30,)},))
        >>> check(market, proof=Closed((35,)), cost=35)
        1

    Not covered:
        that the purchase can be made at that cost: it is added up where it is made.
    """
    waiting: list[tuple[Branch, Proof | None]] = [(whole(market), proof)]
    closed = 0
    while waiting:
        branch, part = waiting.pop()
        if isinstance(part, Closed):
            closed += 1
            least = math.inf if (found := bound(market, branch=branch, prices=part.prices)) is None else found
            if min(part.prices, default=0) < 0 or least <= cost - unit:
                raise PurchaseNotProved(f"a branch may hold a purchase for {least}, below {cost}")
        elif isinstance(part, Split):
            waiting += _halves(branch, part)
        elif isinstance(part, Spread):
            waiting += _origins(market, branch, part)
        else:
            raise PurchaseNotProved("a branch was left open")
    return closed


def _halves(branch: Branch, split: Split) -> list[tuple[Branch, Proof | None]]:
    covered = sorted(way for ways, _ in split.into for way in ways)
    if covered != sorted(branch.ways[split.supplier]):
        raise PurchaseNotProved("a split leaves a way of a supplier out")
    return [(with_ways(branch, supplier=split.supplier, ways=ways), proof) for ways, proof in split.into]


def _origins(market: Market, branch: Branch, spread: Spread) -> list[tuple[Branch, Proof | None]]:
    covered = sorted(origin for origins, _ in spread.into for origin in origins)
    if covered != sorted(origins_of(market, branch=branch, part=spread.part)):
        raise PurchaseNotProved("a spread leaves a supplier of a part out")
    return [(with_part(branch, part=spread.part, origins=origins), proof) for origins, proof in spread.into]


def origins_of(market: Market, *, branch: Branch, part: int) -> list[Origin]:
    """Where a part may come from in a branch: supplier, and which of the costs there.

    Equation:
        none: a selection

    Parameters:
        market: what can be had
        branch: which purchases are meant
        part: the part, counted from 0 [1]

    Returns:
        supplier [1] and number of the cost [1]

    Valid for:
        any part of the market

    Source:
        HAND: every supplier that is not out and has it.

    Example:
        >>> market = Market(1, ((Way(5, 0),),), ({0: (30, 40)},))
        >>> origins_of(market, branch=whole(market), part=0)
        [(0, 0), (0, 1)]

    Not covered:
        nothing.
    """
    every = (
        branch.origins[part]
        if part in branch.origins
        else [(at, one) for at, costs in enumerate(market.costs) for one in range(len(costs.get(part, ())))]
    )
    return [(at, one) for at, one in every if branch.ways[at] != (OUT,)]


def with_ways(branch: Branch, *, supplier: int, ways: tuple[int, ...]) -> Branch:
    """A branch in which a supplier is used in these ways only.

    Equation:
        none: a selection

    Parameters:
        branch: the branch
        supplier: which one, counted from 0 [1]
        ways: numbers of its ways; OUT for none [1]

    Returns:
        the smaller branch

    Valid for:
        ways that the branch still has

    Source:
        HAND.

    Example:
        >>> with_ways(Branch(((-1, 0), (-1, 0))), supplier=1, ways=(0,)).ways
        ((-1, 0), (0,))

    Not covered:
        nothing.
    """
    return Branch((*branch.ways[:supplier], ways, *branch.ways[supplier + 1 :]), branch.origins)


def with_part(branch: Branch, *, part: int, origins: tuple[Origin, ...]) -> Branch:
    """A branch in which a part comes from these places only; a single supplier of them is then used.

    Equation:
        none: a selection

    Parameters:
        branch: the branch
        part: the part, counted from 0 [1]
        origins: supplier and number of the cost there [1]

    Returns:
        the smaller branch

    Valid for:
        places that the branch still has

    Source:
        HAND.

    Example:
        >>> with_part(Branch(((-1, 0), (-1, 0))), part=4, origins=((0, 1),))
        Branch(ways=((0,), (-1, 0)), origins={4: ((0, 1),)})

    Not covered:
        nothing.
    """
    suppliers = {at for at, _ in origins}
    ways = tuple(
        tuple(way for way in one if way != OUT) if suppliers == {at} else one
        for at, one in enumerate(branch.ways)
    )
    return Branch(ways, {**branch.origins, part: origins})
