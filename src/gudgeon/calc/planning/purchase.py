"""Which supplier sells which part: the purchase that costs least, and the proof that none costs less."""

from collections.abc import Callable, Sequence

from gudgeon.calc.planning.purchase_errors import (
    LeastOrderNotReached,
    LeastOrdersExclude,
    NobodyInTime,
    NobodySells,
    NoPurchaseFound,
    in_days,
)
from gudgeon.calc.planning.purchase_model import Line as Line
from gudgeon.calc.planning.purchase_model import Needed as Needed
from gudgeon.calc.planning.purchase_model import Offer as Offer
from gudgeon.calc.planning.purchase_model import Order as Order
from gudgeon.calc.planning.purchase_model import Purchase as Purchase
from gudgeon.calc.planning.purchase_model import Supplier as Supplier
from gudgeon.calc.planning.purchase_model import check_list, packs
from gudgeon.calc.planning.purchase_proof import Market, Way, check
from gudgeon.calc.planning.purchase_search import Searched, search

MOST_BRANCHES = 2_000
"""So many branches are looked at before the search stops with what it has."""
FINE = 64
"""Prices of parts may lie so fine between two whole costs."""


def least_cost(
    needed: Sequence[Needed],
    *,
    suppliers: Sequence[Supplier],
    offers: Sequence[Offer],
    in_time: bool = False,
    when: Callable[[int], str] = in_days,
    decimals: int = 2,
    most_branches: int = MOST_BRANCHES,
) -> Purchase:
    """The purchase of all parts that costs least, goods and shipping; of equally cheap ones that with fewest orders.

    Equation:
        least Σ packs · price + Σ shipping over the suppliers used, packs = quantity / pack rounded up; for every
        supplier used goods ≥ least order, and shipping 0 where goods ≥ free-from. A supplier with a free-from is used
        in one of two ways: shipping paid, or nothing paid and goods ≥ free-from. Each way is a fee and a least value of
        goods, which is all that couples the parts. Branches: how a supplier is used, then where a part comes from.
        Bound of a branch: parts are given prices, each supplier in its cheapest way takes what gains by them, the
        least value filled as in a knapsack whose parts may be cut. It is below every purchase of the branch, whatever
        the prices. Once all is decided it equals the purchase, so the search ends with the least cost

    Parameters:
        needed: the parts to buy
        suppliers: who sells; amounts in the smallest coin [coin]
        offers: who has which part, at which price [coin]
        in_time: only what comes within the days of its part
        when: how days from the order [1] are told, for the words of a refusal
        decimals: digits behind the point that a coin is shown with, for the words of a refusal [1]
        most_branches: so many branches at most; the gap is told where they did not do [1]

    Returns:
        orders, bound, and what it costs from one supplier alone [coin]

    Valid for:
        whole coins of one currency; a dozen suppliers and a hundred parts

    Source:
        HAND: facility location with least values; A. M. Geoffrion 1974 for the bound (memory). The proof is checked
        anew by purchase_proof.check.

    Example:
        >>> parts = [Needed("gasket", "Head gasket"), Needed("nuts", "Nuts", 8)]
        >>> shops = [Supplier("north", "North", shipping=690, free_from=5000), Supplier("south", "South", shipping=490)]
        >>> sold = [Offer("gasket", "north", 4700), Offer("nuts", "north", 120), Offer("nuts", "south", 600, pack=10)]
        >>> found = least_cost(parts, suppliers=shops, offers=sold)
        >>> found.total, found.proven, [order.supplier for order in found.orders]
        (5660, True, ['north'])

    Not covered:
        more than is needed to reach a limit; one part from two suppliers; two sizes of pack for one part.
    """
    check_list(needed, suppliers=suppliers, offers=offers)
    offered = _in_time(needed, suppliers, offers) if in_time else list(offers)
    for one in needed:
        if all(offer.part != one.key for offer in offered):
            raise _missing(one, suppliers, offers=offers, when=when)
    table = _Table(needed, suppliers=suppliers, offers=offered)
    table.check_least_orders(decimals)
    market = table.market(suppliers)
    found = search(market, unit=FINE, most=most_branches)
    closed = check(market, proof=found.proof, cost=found.cost, unit=FINE) if found.proof else 0
    if found.given is None:
        limited = [one.name for one in suppliers if one.least_order]
        raise LeastOrdersExclude(limited) if found.proof else NoPurchaseFound(found.branches, limited)
    orders = table.orders(found, suppliers)
    return Purchase(orders, table.coins(found.bound), table.alone(), found.branches, closed)


def _leads(suppliers: Sequence[Supplier], offers: Sequence[Offer]) -> list[int]:
    own = {one.key: one.lead_days for one in suppliers}
    return [own[offer.supplier] if offer.lead_days is None else offer.lead_days for offer in offers]


def _in_time(needed: Sequence[Needed], suppliers: Sequence[Supplier], offers: Sequence[Offer]) -> list[Offer]:
    within = {one.key: one.within_days for one in needed}
    kept = []
    for offer, lead in zip(offers, _leads(suppliers, offers), strict=True):
        days = within.get(offer.part)
        if days is None or lead <= days:
            kept.append(offer)
    return kept


def _missing(
    one: Needed, suppliers: Sequence[Supplier], *, offers: Sequence[Offer], when: Callable[[int], str]
) -> NobodySells | NobodyInTime:
    """Why a part cannot be had: from nobody, or not in time."""
    names = {shop.key: shop.name for shop in suppliers}
    late = [
        (lead, names[offer.supplier])
        for offer, lead in zip(offers, _leads(suppliers, offers), strict=True)
        if offer.part == one.key
    ]
    if not late or one.within_days is None:
        return NobodySells(one.name, one.key, sorted({offer.part for offer in offers}))
    days, first = min(late)
    return NobodyInTime(one.name, one.within_days, first=first, when=when(days))


class _Table:
    """The offers by part and supplier, and the market that is searched."""

    def __init__(
        self, needed: Sequence[Needed], *, suppliers: Sequence[Supplier], offers: Sequence[Offer]
    ) -> None:
        self.needed, self.suppliers = needed, suppliers
        self.lead = {one.key: one.lead_days for one in suppliers}
        self.quantity = {one.key: one.quantity for one in needed}
        self.scale = FINE * (len(suppliers) + 1)
        self.offers: dict[tuple[str, str], list[Offer]] = {}
        for offer in offers:
            if offer.part in self.quantity:
                self.offers.setdefault((offer.part, offer.supplier), []).append(offer)
        for found in self.offers.values():
            found.sort(key=self._cost)

    def _cost(self, offer: Offer) -> int:
        return packs(offer, quantity=self.quantity[offer.part]) * offer.price

    def check_least_orders(self, decimals: int) -> None:
        """Refuse a part that only suppliers have whose least order all they have of the list does not reach."""
        most = {shop.key: self._most_goods(shop) for shop in self.suppliers}
        for one in self.needed:
            having = [shop for shop in self.suppliers if (one.key, shop.key) in self.offers]
            if all(most[shop.key] < shop.least_order for shop in having):
                raise LeastOrderNotReached(
                    one.name,
                    [
                        (
                            shop.name,
                            _amount(shop.least_order, shop, decimals=decimals),
                            _amount(most[shop.key], shop, decimals=decimals),
                        )
                        for shop in having
                    ],
                )

    def _most_goods(self, shop: Supplier) -> int:
        return sum(max(self._costs(one, shop), default=0) for one in self.needed)

    def _costs(self, one: Needed, shop: Supplier) -> list[int]:
        return [self._cost(offer) for offer in self.offers.get((one.key, shop.key), ())]

    def market(self, suppliers: Sequence[Supplier]) -> Market:
        """What can be had, as numbers; one more for every order, so that of equal costs the fewest orders win."""
        costs = tuple(
            {
                part: tuple(self.scale * cost for cost in found)
                for part, one in enumerate(self.needed)
                if (found := self._costs(one, shop))
            }
            for shop in suppliers
        )
        return Market(len(self.needed), tuple(self._ways(shop) for shop in suppliers), costs)

    def _ways(self, shop: Supplier) -> tuple[Way, ...]:
        least, of_order = self.scale * shop.least_order, FINE
        paid = Way(self.scale * shop.shipping + of_order, least)
        if shop.free_from is None or not shop.shipping:
            return (paid,)
        return (paid, Way(of_order, max(least, self.scale * shop.free_from)))

    def coins(self, bound: int) -> int:
        """What no purchase of the market above a bound costs less than, in whole coins."""
        return max(0, -((FINE * len(self.suppliers) - bound) // self.scale))

    def orders(self, found: Searched, suppliers: Sequence[Supplier]) -> tuple[Order, ...]:
        """The purchase as orders, in the order of the suppliers."""
        assert found.given is not None  # told before
        made = []
        for at, shop in enumerate(suppliers):
            chosen = [
                self.offers[one.key, shop.key][number]
                for one, (supplier, number) in zip(self.needed, found.given, strict=True)
                if supplier == at
            ]
            if chosen:
                made.append(self._order(shop, chosen))
        return tuple(made)

    def _order(self, shop: Supplier, chosen: Sequence[Offer]) -> Order:
        counts = [packs(offer, quantity=self.quantity[offer.part]) for offer in chosen]
        lines = tuple(
            Line(offer.part, offer.article, count, count * offer.pack, count * offer.price)
            for offer, count in zip(chosen, counts, strict=True)
        )
        goods = sum(line.cost for line in lines)
        free = shop.free_from is not None and goods >= shop.free_from
        lead = max(_leads([shop], chosen))
        return Order(shop.key, lines, goods, 0 if free else shop.shipping, lead)

    def alone(self) -> tuple[Order, ...]:
        """The purchases from one supplier who has everything, the cheapest first."""
        found: list[Order] = []
        for shop in self.suppliers:
            if all((one.key, shop.key) in self.offers for one in self.needed):
                one = search(self.market([shop]), unit=FINE, most=MOST_BRANCHES)
                found += self.orders(one, [shop]) if one.given is not None else ()
        return tuple(sorted(found, key=lambda order: order.total))


def _amount(coins: int, shop: Supplier, *, decimals: int) -> str:
    return f"{coins / 10**decimals:.{decimals}f} {shop.currency}".rstrip()
