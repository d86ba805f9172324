"""The search for the cheapest purchase: the branch with the lowest bound first, and prices that raise the bound."""

import heapq
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from typing import Any

from gudgeon.calc.planning.purchase_first import Given, Purchases
from gudgeon.calc.planning.purchase_proof import (
    OUT,
    Branch,
    Closed,
    Market,
    Origin,
    Proof,
    Split,
    Spread,
    Way,
    bound,
    origins_of,
    rate,
    rows_of,
    supplier_bound,
    whole,
    with_part,
    with_ways,
)

FIRST_STEPS, LATER_STEPS, DECIDED_STEPS = 200, 30, 6
"""How often prices are moved in the first branch, in later ones, and in those where every supplier is decided."""
SWEEPS = 4
"""How often every limit is given its rate anew."""
PATIENCE = 8
"""So many moves without a better bound halve the step."""
MOST_TIES = 9
"""So many parts are tried in two places each, all together, where the prices hardly tell which is better."""
FEW_SUPPLIERS = 8
"""Of so many suppliers every set is tried for a first purchase."""


@dataclass(frozen=True, slots=True)
class Searched:
    """The cheapest purchase found, what none can cost less than, and the proof where the search came to its end."""

    given: Given | None
    cost: int
    bound: int
    branches: int
    proof: Proof | None


@dataclass(slots=True)
class _Node:
    """A branch, the prices it begins with, and what became of it."""

    branch: Branch
    prices: tuple[int, ...]
    bound: int
    closed: Closed | None = None
    supplier: int | None = None
    part: int | None = None
    into: "list[tuple[Any, _Node]]" = field(default_factory=list)

    def proof(self) -> Proof | None:
        """What proves that this branch holds nothing cheaper."""
        if self.supplier is not None:
            return Split(self.supplier, [(ways, node.proof()) for ways, node in self.into])
        if self.part is not None:
            return Spread(self.part, [(origins, node.proof()) for origins, node in self.into])
        return self.closed


@dataclass(frozen=True, slots=True)
class _Raised:
    """The best bound found in a branch, its prices, and what the relaxed purchase does there."""

    bound: int | None
    prices: tuple[int, ...]


def search(market: Market, *, unit: int, most: int) -> Searched:
    """Search until every branch is closed, or until so many were looked at.

    Equation:
        branch and bound: the open branch of the lowest bound first; it is closed where its bound > best cost − unit

    Parameters:
        market: what can be had; every part somewhere [coin]
        unit: every cost is a multiple of it [coin]
        most: branches to look at [1]

    Returns:
        the cheapest purchase found, the bound and the proof

    Valid for:
        any market; a purchase of a few suppliers and a hundred parts takes milliseconds

    Source:
        A. H. Land and A. G. Doig 1960; M. Held, P. Wolfe and H. P. Crowder 1974 for the moves of the prices (memory).

    Example:
        >>> market = Market(1, ((Way(5, 0),), (Way(0, 40), Way(9, 0))), ({0: (30,)}, {0: (28,)}))
        >>> found = search(market, unit=1, most=100)
        >>> found.given, found.cost, found.bound
        (((0, 0),), 35, 35)

    Not covered:
        see purchase.
    """
    known = Purchases(market)
    _first(known)
    start = tuple(
        min(costs[part][0] for costs in market.costs if part in costs) for part in range(market.parts)
    )
    top = _Node(whole(market), start, 0)
    heap, made, looked = [(0, 0, top)], 1, 0
    while heap and looked < most:
        node = heapq.heappop(heap)[2]
        looked += 1
        for child in _work(known, node, unit=unit, steps=FIRST_STEPS if looked == 1 else LATER_STEPS):
            heapq.heappush(heap, (child.bound, made, child))
            made += 1
    least = min([known.cost, *(entry[0] for entry in heap)])
    return Searched(known.best, known.cost, least, looked, None if heap else top.proof())


def _first(known: Purchases) -> None:
    """A first purchase: every set of few suppliers; of many all of them, then fewer and fewer."""
    everyone = [at for at, costs in enumerate(known.market.costs) if costs]
    if len(everyone) <= FEW_SUPPLIERS:
        for size in range(1, len(everyone) + 1):
            for chosen in combinations(everyone, size):
                known.try_suppliers(frozenset(chosen))
        return
    used, cost = set(everyone), known.try_suppliers(frozenset(everyone))
    while len(used) > 1:
        now, gone = min((known.try_suppliers(frozenset(used - {one})), one) for one in sorted(used))
        if now > cost:
            return
        used, cost = used - {gone}, now


def _work(known: Purchases, node: _Node, *, unit: int, steps: int) -> list[_Node]:
    """Close a branch, or split it; the branches that stay open."""
    market = known.market
    if node.bound > known.cost - unit:  # a better purchase was found since it was split off
        node.closed = Closed(node.prices)
        return []
    found = _raise(known, node, unit=unit, steps=steps)
    if found.bound is None or found.bound > known.cost - unit:
        node.closed = Closed(found.prices)
        return []
    node.bound, node.prices = found.bound, found.prices
    node = _without_idle_ways(market, node, limit=known.cost - unit)
    if bound(market, branch=node.branch, prices=node.prices) is None:
        node.closed = Closed(node.prices)
        return []
    if all(len(ways) == 1 for ways in node.branch.ways):
        node = _without_idle_origins(known, node, unit=unit)
        if bound(market, branch=node.branch, prices=node.prices) is None:
            node.closed = Closed(node.prices)
            return []
        if all(len(origins_of(market, branch=node.branch, part=part)) < 2 for part in range(market.parts)):
            return [node]
    return _split(market, node)


def _without_idle_ways(market: Market, node: _Node, *, limit: int) -> _Node:
    """The branch without the ways of suppliers that by its prices are in no cheaper purchase."""
    while (gone := _not_worth_it(market, node, limit=limit)) is not None:
        supplier, way = gone
        rest = tuple(one for one in node.branch.ways[supplier] if one != way)
        closed = _Node(with_ways(node.branch, supplier=supplier, ways=(way,)), node.prices, node.bound)
        closed.closed = Closed(node.prices)
        stays = _Node(with_ways(node.branch, supplier=supplier, ways=rest), node.prices, node.bound)
        node.supplier, node.into = supplier, [((way,), closed), (rest, stays)]
        node = stays
    return node


def _not_worth_it(market: Market, node: _Node, *, limit: int) -> tuple[int, int] | None:
    """A way of a supplier that by the prices of the branch is in no cheaper purchase."""
    for supplier, values in enumerate(_values(market, node.branch, node.prices)):
        if len(values) < 2:
            continue
        least = min((value for _, value in values if value is not None), default=0)
        for way, value in values:
            if value is None or node.bound - least + value > limit:
                return supplier, way
    return None


def _values(market: Market, branch: Branch, prices: Sequence[int]) -> list[list[tuple[int, int | None]]]:
    found = []
    for supplier, ways in enumerate(branch.ways):
        rows = rows_of(market, branch=branch, supplier=supplier)
        found.append(
            [
                (
                    way,
                    0 if way == OUT else supplier_bound(rows, prices=prices, way=market.ways[supplier][way]),
                )
                for way in ways
            ]
        )
    return found


def _split(market: Market, node: _Node) -> list[_Node]:
    """By the undecided supplier whose prices draw most; once all are decided, by the dearest part."""
    undecided = [at for at, ways in enumerate(node.branch.ways) if len(ways) > 1]
    if undecided:
        supplier = max(undecided, key=lambda at: (_drawn(market, node, at), -at))
        ways = node.branch.ways[supplier]
        halves = [(ways[0],), ways[1:]]
        node.supplier = supplier
        node.into = [
            (half, _Node(with_ways(node.branch, supplier=supplier, ways=half), node.prices, node.bound))
            for half in halves
        ]
    else:
        part, first = _most_in_doubt(market, node)
        origins = origins_of(market, branch=node.branch, part=part)
        rest = tuple(one for one in origins if one != first)
        node.part = part
        node.into = [
            (some, _Node(with_part(node.branch, part=part, origins=some), node.prices, node.bound))
            for some in ((first,), rest)
        ]
    return [child for _, child in node.into]


def _drawn(market: Market, node: _Node, supplier: int) -> int:
    """How much the prices are above what the parts cost there."""
    return sum(max(0, node.prices[part] - costs[0]) for part, costs in market.costs[supplier].items())


def _most_in_doubt(market: Market, node: _Node) -> tuple[int, Origin]:
    """The part that is taken by no supplier, by several or in a share, the dearest first; and where it comes from."""
    rows = [
        rows_of(market, branch=node.branch, supplier=supplier) for supplier in range(len(node.branch.ways))
    ]
    _, takers = _relaxed(market, node.branch, rows, node.prices)
    found = []
    for part in range(market.parts):
        origins = origins_of(market, branch=node.branch, part=part)
        if len(origins) > 1:
            shares = [taken.get(part, 0.0) for taken in takers]
            apart = max(min(one, 1.0 - one) for one in shares) or abs(1.0 - sum(shares))
            first = max(
                origins, key=lambda one: (shares[one[0]], -market.costs[one[0]][part][one[1]], -one[0])
            )
            found.append((apart > 0, market.costs[first[0]][part][first[1]], -part, first))
    _, _, part, first = max(found)
    return -part, first


def _without_idle_origins(known: Purchases, node: _Node, *, unit: int) -> _Node:
    """The branch without the places from where a part is in no cheaper purchase, by the prices."""
    market = known.market
    kept, lost = _surpluses(market, node)
    _try_ties(known, kept)
    limit = known.cost - unit
    for part, origins in kept.items():
        idle = tuple(one for one, surplus in origins if node.bound - lost[part] + surplus > limit + 1)
        stays = tuple(one for one, _ in origins if one not in idle)
        if not idle or not stays:
            continue
        branch = with_part(node.branch, part=part, origins=idle)
        least = bound(market, branch=branch, prices=node.prices)
        if least is None or least > limit:
            closed = _Node(branch, node.prices, node.bound, Closed(node.prices))
            rest = _Node(with_part(node.branch, part=part, origins=stays), node.prices, node.bound)
            node.part, node.into = part, [(idle, closed), (stays, rest)]
            node = rest
    return node


def _try_ties(known: Purchases, surpluses: Mapping[int, Sequence[tuple[Origin, float]]]) -> None:
    """The purchases that the prices can hardly tell apart: the closest ties in both ways."""
    ranked = {part: sorted(origins, key=lambda one: (one[1], one[0])) for part, origins in surpluses.items()}
    apart = sorted((two[1][1] - two[0][1], part) for part, two in ranked.items() if len(two) > 1)
    known.try_ties(
        {part: [one for one, _ in origins] for part, origins in ranked.items()},
        ties=[part for _, part in apart[:MOST_TIES]],
    )


def _surpluses(market: Market, node: _Node) -> tuple[dict[int, list[tuple[Origin, float]]], dict[int, float]]:
    """What a part costs in each place above its price, where goods towards a limit count; and what it brings now."""
    kept: dict[int, list[tuple[Origin, float]]] = {}
    rates = []
    for supplier, ways in enumerate(node.branch.ways):
        rows = rows_of(market, branch=node.branch, supplier=supplier)
        rates.append(
            0.0 if ways == (OUT,) else rate(rows, prices=node.prices, way=market.ways[supplier][ways[0]])
        )
    for part in range(market.parts):
        kept[part] = [
            ((at, one), market.costs[at][part][one] * (1 - rates[at]) - node.prices[part])
            for at, one in origins_of(market, branch=node.branch, part=part)
        ]
    lost = {}
    for part, origins in kept.items():
        of_supplier: dict[int, float] = {}
        for (at, _), surplus in origins:
            of_supplier[at] = min(surplus, of_supplier.get(at, 0.0))
        lost[part] = sum(of_supplier.values())
    return kept, lost


def _raise(known: Purchases, node: _Node, *, unit: int, steps: int) -> _Raised:
    """Move the prices so that the bound rises: up where no supplier takes a part, down where several do."""
    market, branch = known.market, node.branch
    rows = [rows_of(market, branch=branch, supplier=supplier) for supplier in range(len(branch.ways))]
    best, best_prices = -1, node.prices
    decided = list(_of_decided(market, branch))
    starts, steps = [node.prices, *decided], DECIDED_STEPS if decided else steps
    prices = max(starts, key=lambda one: _relaxed(market, branch, rows, one)[0] or 0)
    pace, idle = 1.5, 0
    for step in range(steps):
        now, takers = _relaxed(market, branch, rows, prices)
        if now is None:
            return _Raised(None, prices)
        idle = 0 if now > best else idle + 1
        if now > best:
            best, best_prices = now, prices
        if best > known.cost - unit:
            break
        if step % (2 * PATIENCE) == 0:
            _try(known, branch, takers)
        off = [1.0] * market.parts
        for taken in takers:
            for part, share in taken.items():
                off[part] -= share
        length = sum(one * one for one in off)
        if length < 1e-9:
            break
        if idle >= PATIENCE:
            pace, idle, prices = pace / 2, 0, best_prices
        far = pace * max(known.cost - now, unit) / length
        prices = tuple(max(0, round(price + far * one)) for price, one in zip(prices, off, strict=True))
    return _Raised(bound(market, branch=branch, prices=best_prices), best_prices)


def _of_decided(market: Market, branch: Branch) -> Iterator[tuple[int, ...]]:
    """Prices where every supplier is decided: a part is worth what it costs, less what it brings a limit closer.

    Each limit in turn is given the rate at which the parts that are cheapest to move there just reach it.
    """
    if any(len(ways) > 1 for ways in branch.ways):
        return
    costs: list[dict[int, int]] = [{} for _ in range(market.parts)]
    used = [at for at, ways in enumerate(branch.ways) if ways != (OUT,)]
    for at in used:
        for part, cost, _ in rows_of(market, branch=branch, supplier=at):
            costs[part][at] = cost
    rates = dict.fromkeys(used, 0.0)
    limits = [at for at in used if market.ways[at][branch.ways[at][0]].least]
    for _ in range(SWEEPS if limits else 1):
        for at in limits:
            rates[at] = _rate_for(at, market.ways[at][branch.ways[at][0]].least, costs, rates)
        yield tuple(
            int(min((cost * (1 - rates[at]) for at, cost in one.items()), default=0.0)) for one in costs
        )


def _rate_for(
    supplier: int, least: int, costs: Sequence[Mapping[int, int]], rates: Mapping[int, float]
) -> float:
    """The rate of one supplier at which the goods that come there reach the limit, the others' rates as they are."""
    moves = []
    for one in costs:
        if supplier in one:
            others = [cost * (1 - rates[at]) for at, cost in one.items() if at != supplier]
            needed = 1 - min(others) / one[supplier] if others and one[supplier] else 0.0
            moves.append((max(0.0, needed), one[supplier]))
    goods = 0
    for needed, cost in sorted(moves):
        goods += cost
        if goods >= least:
            return needed
    return 1.0


def _try(known: Purchases, branch: Branch, takers: Sequence[dict[int, float]]) -> None:
    """A purchase after the relaxed one: each part from the cheapest that takes it, else from the cheapest used."""
    market = known.market
    users = frozenset(at for at, taken in enumerate(takers) if taken or OUT not in branch.ways[at])
    known.try_suppliers(users)
    given = {}
    for part in range(market.parts):
        having = [one for one in origins_of(market, branch=branch, part=part) if one[0] in users]
        if not having:
            return
        taking = [one for one in having if part in takers[one[0]]]
        given[part] = min(taking or having, key=lambda one: market.costs[one[0]][part][one[1]])
    known.try_given(given)


def _relaxed(
    market: Market,
    branch: Branch,
    rows: Sequence[Sequence[tuple[int, int, int]]],
    prices: Sequence[int],
) -> tuple[int | None, list[dict[int, float]]]:
    """The bound at these prices, and which parts, or what share of them, each supplier takes there."""
    total, takers = sum(prices), []
    for supplier, ways in enumerate(branch.ways):
        value, chosen = None, OUT
        for way in ways:
            asked = (
                0
                if way == OUT
                else supplier_bound(rows[supplier], prices=prices, way=market.ways[supplier][way])
            )
            if asked is not None and (value is None or asked < value):
                value, chosen = asked, way
        if value is None:
            return None, []
        total += value
        takers.append({} if chosen == OUT else _taken(rows[supplier], prices, market.ways[supplier][chosen]))
    return total, takers


def _taken(rows: Sequence[tuple[int, int, int]], prices: Sequence[int], way: Way) -> dict[int, float]:
    taken, goods, rest = {}, 0, []
    for part, cost, _ in rows:
        if cost <= prices[part]:
            taken[part] = 1.0
            goods += cost
        else:
            rest.append(((cost - prices[part]) / cost, part, cost))
    if goods < way.least:
        for _, part, cost in sorted(rest):
            if goods >= way.least:
                break
            taken[part] = min(1.0, (way.least - goods) / cost)
            goods += cost
    return taken
