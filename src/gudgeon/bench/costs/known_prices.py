"""What was ordered or came without an amount counts at a price that is known: as it was seen, or as the kit has it."""

from collections.abc import Iterator, Mapping
from datetime import datetime

from gudgeon.bench.buying.counts import counted
from gudgeon.bench.buying.kit_shops import Offered
from gudgeon.bench.buying.market import Market, market_of, shop_key
from gudgeon.bench.buying.said import SaidOfPart
from gudgeon.bench.context import Bench
from gudgeon.bench.costs.covered import Covered
from gudgeon.bench.costs.priced import Priced
from gudgeon.bench.part_keys import key_of, plain_name
from gudgeon.bench.plan_words import part_name
from gudgeon.quantity.money import Money

ORDERED = "ordered, and not for how much"
CAME = "it came, and what it cost is not written down"


def known_prices(
    bench: Bench, *, of_parts: Mapping[str, SaidOfPart], covered: Covered
) -> Mapping[str, Priced]:
    """By its key, what an order or a delivery without an amount costs by the price that is known.

    What another amount stands for already is left to that.
    """
    found: dict[str, Priced] = {}
    market: Market | None = None
    for key, name, supplier, quantity, why in without_amount(bench, of_parts, covered):
        market = market or market_of(bench, of_parts)
        offer = _offer(market, key, supplier)
        if offer is None:
            continue
        money, before = _cost(offer, quantity), found.get(key)
        if before is None:
            basis = f"{why}: counted at the price of {market.name(offer.shop)}, {_whence(offer)}"
            found[key] = Priced(key, name, money, basis)
        elif before.money.currency == money.currency:
            found[key] = Priced(
                key, name, Money(before.money.amount + money.amount, money.currency), before.basis
            )
    return found


def without_amount(
    bench: Bench, of_parts: Mapping[str, SaidOfPart], covered: Covered
) -> Iterator[tuple[str, str, str, int, str]]:
    """Orders without an amount, and parts that came without one: key, name, supplier, how many, and which it is.

    A part that came without an order is taken to be all that is needed, however often that was said.
    """
    called = {key_of(bench.sheet, said): said for said in reversed(list(bench.state.parts))}
    for key, of in of_parts.items():
        name = part_name(bench, key)
        if name == key:
            name = of.orders[0].part if of.orders else called.get(key, key)
        if covered.has(key, name=name):
            continue
        owes = covered.owed.get(key)
        for one in of.orders:
            if owes is not None and one.entry in owes.open:
                yield key, name, one.supplier, one.quantity, ORDERED
        if of.state.received and not of.orders:
            yield key, name, "", _needed(bench, key), CAME


def _needed(bench: Bench, key: str) -> int:
    """As many as the sheet says; the fasteners of a joint are as many as it has."""
    part = bench.sheet.parts.get(key)
    if part is not None:
        return counted(part.quantity).number
    return next(
        (len(one.bolt_names) for one in bench.sheet.joints.values() if plain_name(one.name) == key), 1
    )


def _offer(market: Market, part: str, supplier: str) -> Offered | None:
    """The price of the supplier that was named, else the least of any."""
    offers = [one for one in (*market.offers, *market.loose) if one.part == part]
    shop = shop_key(market.shops, supplier) or supplier
    own = [one for one in offers if supplier and one.shop == shop]
    return min(own or offers, key=lambda one: one.price.amount / one.pack, default=None)


def _cost(offer: Offered, quantity: int) -> Money:
    """So many pieces in whole packs."""
    packs = -(-quantity // offer.pack)
    return Money(packs * offer.price.amount, offer.price.currency)


def _whence(offer: Offered) -> str:
    if not offer.seen:
        return "as it stands in the kit"
    return f"seen on {datetime.fromisoformat(offer.seen):%a %b %d}"
