"""From whom it costs least: one purchase for each currency, with its proof, and what a single supplier would cost."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gudgeon.bench.buying.kit_shops import Offered, Shop
from gudgeon.bench.buying.lines import Need
from gudgeon.bench.buying.market import Market, days_words
from gudgeon.bench.buying.model import Bought, Buying, FromSupplier
from gudgeon.bench.buying.money_words import coins, coins_words, decimals_of
from gudgeon.errors import InputError

if TYPE_CHECKING:
    from gudgeon.calc.planning.purchase import Offer, Order, Purchase, Supplier


@dataclass(frozen=True, slots=True)
class Wanted:
    """A part to buy, and within how many days it has to come; None where nothing presses."""

    need: Need
    quantity: int
    within: int | None = None


def purchases(
    market: Market, wanted: Sequence[Wanted], *, no_delay: bool
) -> tuple[tuple[Buying, ...], tuple[str, ...], tuple[str, ...]]:
    """A purchase for each currency; what nobody sells; and what is to be said about currencies."""
    nobody = tuple(one.need.name for one in wanted if not market.for_need(one.need))
    sold = [one for one in wanted if market.for_need(one.need)]
    by_currency, remarks = _by_currency(market, sold)
    made = tuple(
        _in_currency(market, currency, parts, no_delay=no_delay) for currency, parts in by_currency.items()
    )
    return made, nobody, tuple(remarks)


def _by_currency(market: Market, wanted: Iterable[Wanted]) -> tuple[dict[str, list[Wanted]], list[str]]:
    """Each part in one currency: what can be had in that of the most offers is bought in it."""
    offered = {
        one.need.key: list(dict.fromkeys(offer.price.currency for offer in market.for_need(one.need)))
        for one in wanted
    }
    counts: dict[str, int] = {}
    for currencies in offered.values():
        for currency in currencies:
            counts[currency] = counts.get(currency, 0) + 1
    found: dict[str, list[Wanted]] = {}
    both = []
    for one in wanted:
        currencies = offered[one.need.key]
        chosen = max(currencies, key=counts.__getitem__)
        found.setdefault(chosen, []).append(one)
        if len(currencies) > 1:
            both.append(one.need.name)
    remarks = []
    if len(found) > 1 or both:
        told = (
            f" In more than one is sold: {', '.join(both)}; which is less there cannot be said."
            if both
            else ""
        )
        remarks.append(
            f"Prices stand in {' and '.join(sorted(counts))}, and amounts of different currencies are not added: each "
            f"has a purchase of its own.{told}"
        )
    return found, remarks


def _in_currency(market: Market, currency: str, wanted: Sequence[Wanted], *, no_delay: bool) -> Buying:
    from gudgeon.calc.planning.purchase import Needed, least_cost

    offers = {
        one.need.key: [offer for offer in market.for_need(one.need) if offer.price.currency == currency]
        for one in wanted
    }
    pressed, too_late = wanted, tuple[str, ...]()
    if no_delay:
        offers, unknown = _with_known_days(market, wanted, offers)
        pressed, late = _pressed(market, wanted, offers)
        too_late = (*late, *unknown)
    shops = _shops(market, offers)
    decimals = _decimals(shops, offers)
    try:
        found = least_cost(
            [Needed(one.need.key, one.need.name, one.quantity, one.within) for one in pressed],
            suppliers=[_supplier(one, decimals) for one in shops],
            offers=list(_offers(offers, decimals)),
            in_time=no_delay,
            decimals=decimals,
        )
    except InputError as error:
        return Buying(currency, (), "", False, "", (), too_late, str(error))
    names = {one.need.key: one.need.name for one in wanted}
    return Buying(
        currency,
        tuple(
            _from(market, order, names, offers=offers, currency=currency, decimals=decimals)
            for order in found.orders
        ),
        coins_words(found.total, currency=currency, decimals=decimals),
        found.proven,
        _proof(found, currency, decimals),
        tuple(_alone(market, found, shops, currency=currency, decimals=decimals)),
        too_late,
    )


def _shops(market: Market, offers: Mapping[str, Sequence[Offered]]) -> list[Shop]:
    selling = {offer.shop for found in offers.values() for offer in found}
    return [shop for key, shop in market.shops.items() if key in selling]


def _decimals(shops: Iterable[Shop], offers: Mapping[str, Sequence[Offered]]) -> int:
    amounts = [offer.price.amount for found in offers.values() for offer in found]
    for shop in shops:
        amounts += [shop.shipping, shop.least, *([shop.free_from] if shop.free_from is not None else [])]
    return decimals_of(amounts)


def _supplier(shop: Shop, decimals: int) -> "Supplier":
    from gudgeon.calc.planning.purchase import Supplier

    free = coins(shop.free_from, decimals=decimals) if shop.free_from is not None else None
    return Supplier(
        shop.key, shop.name, coins(shop.shipping, decimals=decimals), free, coins(shop.least, decimals=decimals),
        shop.days or 0, shop.currency,
    )  # fmt: skip


def _offers(offers: Mapping[str, Sequence[Offered]], decimals: int) -> Iterator["Offer"]:
    from gudgeon.calc.planning.purchase import Offer

    for key, found in offers.items():
        for one in found:
            price = coins(one.price.amount, decimals=decimals)
            yield Offer(key, one.shop, price, one.pack, one.article, one.days)


def _with_known_days(
    market: Market, wanted: Sequence[Wanted], offers: Mapping[str, Sequence[Offered]]
) -> tuple[dict[str, list[Offered]], tuple[str, ...]]:
    """Of each part the offers of which it is known when they come, all where it is known of none; and what is said."""
    kept, said = dict[str, list[Offered]](), []
    for one in wanted:
        found = list(offers[one.need.key])
        known = [offer for offer in found if market.days(offer) is not None]
        kept[one.need.key] = known or found
        if not known:
            said.append(
                f"{one.need.name}: how long it takes is known of no supplier, so whether it comes in time is not said"
            )
        elif len(known) < len(found):
            shops = dict.fromkeys(market.name(offer.shop) for offer in found if market.days(offer) is None)
            said.append(
                f"{one.need.name}: how long it takes from {', '.join(shops)} is not known, so it is not bought there"
            )
    return kept, tuple(said)


def _pressed(
    market: Market, wanted: Sequence[Wanted], offers: Mapping[str, Sequence[Offered]]
) -> tuple[list[Wanted], tuple[str, ...]]:
    """Within how many days each part has to come: its own day, else that of the part that takes longest anyway.

    A part that comes too late from everywhere is bought where it comes first, and said. Nothing presses a part of which
    nobody knows when it comes.
    """
    first = {
        key: min(known)
        for key, found in offers.items()
        if (known := [days for one in found if (days := market.days(one)) is not None])
    }
    longest = max(first.values(), default=0)
    pressed, late = [], []
    for one in wanted:
        soonest = first.get(one.need.key)
        if soonest is None:
            pressed.append(replace(one, within=None))
            continue
        within = one.within if one.within is not None else longest
        if soonest > within:
            late.append(
                f"{one.need.name}: needed {days_words(within)}, from everywhere it comes later; the first is there "
                f"{days_words(soonest)}"
            )
            within = soonest
        pressed.append(replace(one, within=within))
    return pressed, tuple(late)


def _from(
    market: Market,
    order: "Order",
    names: Mapping[str, str],
    *,
    offers: Mapping[str, Sequence[Offered]],
    currency: str,
    decimals: int,
) -> FromSupplier:
    def words(count: int) -> str:
        return coins_words(count, currency=currency, decimals=decimals)

    lines = tuple(
        Bought(one.part, names[one.part], one.pieces, one.packs, one.article, words(one.cost))
        for one in order.lines
    )
    shop = market.shops[order.supplier]
    known = all(
        market.days(offer) is not None
        for line in order.lines
        for offer in offers[line.part]
        if (offer.shop, offer.article, offer.pack * line.packs) == (order.supplier, line.article, line.pieces)
    )
    days = days_words(order.lead_days) if known else ""
    shipping = words(order.shipping) if order.shipping else "free"
    return FromSupplier(shop.name, lines, words(order.goods), shipping, words(order.total), days)


def _proof(found: "Purchase", currency: str, decimals: int) -> str:
    if found.proven:
        return "Proven: no other way of sharing it out costs less."
    gap = coins_words(found.gap, currency=currency, decimals=decimals)
    return f"Not proven: another way of sharing it out might cost up to {gap} less; the search was ended."


def _alone(
    market: Market, found: "Purchase", shops: Sequence[Shop], *, currency: str, decimals: int
) -> Iterator[str]:
    """What everything costs from each supplier who has it all."""
    here = {order.supplier for order in found.orders}
    for one in found.alone:
        more = one.total - found.total
        amount = coins_words(one.total, currency=currency, decimals=decimals)
        told = f"{coins_words(more, currency=currency, decimals=decimals)} more" if more else "as much"
        if {one.supplier} != here:
            yield f"all from {market.shops[one.supplier].name}: {amount}, {told}"
    if not found.alone and len(shops) > 1:
        yield "no supplier has everything"
