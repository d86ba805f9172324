"""Purchases that can be made: each supplier of a set the parts that are cheapest there, moved where a limit is near."""

from collections import Counter
from collections.abc import Mapping, Sequence

from gudgeon.calc.planning.purchase_proof import Market, Origin

Given = tuple[Origin, ...]
"""For every part where it comes from."""


class Purchases:
    """The best purchase so far of those that were tried; `cost` is above every purchase until one was found."""

    def __init__(self, market: Market) -> None:
        self.market = market
        self.best: Given | None = None
        dearest = (
            max(costs[part][-1] for costs in market.costs if part in costs) for part in range(market.parts)
        )
        fees = (max((way.fee for way in ways), default=0) for ways in market.ways)
        self.cost = 1 + sum(dearest) + sum(fees)
        self._tried: dict[frozenset[int], int] = {}
        self._moved_before: dict[Given, int] = {}

    def try_suppliers(self, chosen: frozenset[int]) -> int:
        """What the parts cost from these suppliers, as far as simple moves find it."""
        if chosen not in self._tried:
            self._tried[chosen] = self._try(chosen)
        return self._tried[chosen]

    def _try(self, chosen: frozenset[int]) -> int:
        given: dict[int, Origin] = {}
        for part in range(self.market.parts):
            found = [
                (costs[part][0], at) for at in sorted(chosen) if part in (costs := self.market.costs[at])
            ]
            if not found:
                return self._never
            given[part] = (min(found)[1], 0)
        return self.try_given(given)

    def try_given(self, given: dict[int, Origin]) -> int:
        """What a purchase costs, as it is and with parts moved where a limit is near."""
        known = tuple(given[part] for part in range(self.market.parts))
        if known in self._moved_before:
            return self._moved_before[known]
        self._moved_before[known] = cost = self._keep(given)
        for _ in range(2):
            given = self._filled(given)
        self._moved_before[known] = cost = min(cost, self._keep(given))
        return cost

    def try_ties(self, ranked: Mapping[int, Sequence[Origin]], *, ties: Sequence[int]) -> None:
        """Every purchase in which each part comes from its first origin, those in `ties` from first or second.

        From one purchase to the next only one part moves (the order of a Gray code), so that few sums change.
        """
        given = {part: origins[0] for part, origins in ranked.items()}
        goods, parcels = self._goods(given), Counter(at for at, _ in given.values())
        for turn in range(1, 2 ** len(ties) + 1):
            cost = self._with_fees(goods)
            if cost is not None and cost < self.cost:
                self._keep(given)
            if turn == 2 ** len(ties):
                return
            part = ties[(turn & -turn).bit_length() - 1]
            before = given[part]
            after = ranked[part][1] if before == ranked[part][0] else ranked[part][0]
            given[part] = after
            for (at, number), sign in ((before, -1), (after, 1)):
                goods[at] = goods.get(at, 0) + sign * self.market.costs[at][part][number]
                parcels[at] += sign
            if not parcels[before[0]]:
                del goods[before[0]]

    @property
    def _never(self) -> int:
        return 2 * self.cost + 1

    def _keep(self, given: Mapping[int, Origin]) -> int:
        cost = self.cost_of(given)
        if cost is None:
            return self._never
        if cost < self.cost:
            self.cost = cost
            self.best = tuple(given[part] for part in range(self.market.parts))
        return cost

    def cost_of(self, given: Mapping[int, Origin]) -> int | None:
        """What a purchase costs; None where a least order is not reached."""
        return self._with_fees(self._goods(given))

    def _with_fees(self, goods: Mapping[int, int]) -> int | None:
        total = 0
        for supplier, value in goods.items():
            fees = [way.fee for way in self.market.ways[supplier] if way.least <= value]
            if not fees:
                return None
            total += value + min(fees)
        return total

    def _goods(self, given: Mapping[int, Origin]) -> dict[int, int]:
        goods: dict[int, int] = {}
        for part, (supplier, number) in given.items():
            goods[supplier] = goods.get(supplier, 0) + self.market.costs[supplier][part][number]
        return goods

    def _filled(self, given: dict[int, Origin]) -> dict[int, Origin]:
        """Parts moved to a supplier who is short of a limit, where that is needed or costs less."""
        for supplier in sorted(self._goods(given)):
            for way in self.market.ways[supplier]:
                moved = self._moved(given, supplier, way.least)
                if moved is None:
                    continue
                before, after = self.cost_of(given), self.cost_of(moved)
                if self._rank(moved, after) < self._rank(given, before):
                    given = moved
                self._keep(given)
        return given

    def _rank(self, given: Mapping[int, Origin], cost: int | None) -> tuple[int, int]:
        """First how many least orders are not reached, then the cost."""
        short = sum(
            all(way.least > goods for way in self.market.ways[at]) for at, goods in self._goods(given).items()
        )
        return (0, cost) if cost is not None else (short, 0)

    def _moved(self, given: dict[int, Origin], supplier: int, least: int) -> dict[int, Origin] | None:
        """The parts that cost least more there, one after the other, until the goods come to the limit."""
        short = least - self._goods(given).get(supplier, 0)
        if short <= 0:
            return None
        here = self.market.costs[supplier]
        moves = []
        for part, costs in here.items():
            at, number = given[part]
            now = self.market.costs[at][part][number]
            for other, cost in enumerate(costs):
                gain = cost - (now if at == supplier else 0)
                if gain > 0:
                    moves.append(((cost - now) / gain, -gain, part, other, gain))
        moved, done = dict(given), set()
        for _, _, part, other, gain in sorted(moves):
            if part not in done:
                moved[part] = (supplier, other)
                done.add(part)
                short -= gain
            if short <= 0:
                return moved
        return None
