"""What was ordered or came without an amount counts at a price that is known: as it was seen, or as the kit has it."""

from collections.abc import Collection, Iterator, Mapping
from datetime import datetime

from gudgeon.bench.buying.counts import counted
from gudgeon.bench.buying.kit_shops import Offered
from gudgeon.bench.buying.market import Market, market_of, shop_key
from gudgeon.bench.buying.said import said_of_parts
from gudgeon.bench.context import Bench
from gudgeon.bench.costs.expected import key_of
from gudgeon.bench.costs.named import names
from gudgeon.bench.costs.priced import Priced
from gudgeon.bench.part_keys import key_of as part_of
from gudgeon.bench.plan_words import part_name
from gudgeon.quantity.money import Money

ORDERED = "ordered, and not for how much"
CAME = "it came, and what it cost is not written down"


def known_prices(bench: Bench, *, told: Collection[str], texts: Collection[str]) -> Mapping[str, Priced]:
    """By its key, what an order or a delivery without an amount costs by the price that is known.

    `told` are the keys of what has an amount, `texts` the words of every amount: what they name is left to them.
    """
    found: dict[str, Priced] = {}
    market: Market | None = None
    for key, said, supplier, quantity, why in _without_amount(bench):
        name = part_name(bench, said)
        if key in told or any(names(text, part=name) for text in texts):
            continue
        market = market or market_of(bench, said_of_parts(bench))
        offer = _offer(market, part_of(bench.sheet, said), supplier)
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


def _without_amount(bench: Bench) -> Iterator[tuple[str, str, str, int, str]]:
    """Orders without an amount, and parts that came without one: key, name, supplier, how many, and which it is."""
    ordered = {key_of(bench, one.part) for one in bench.state.buying.orders}
    for one in bench.state.buying.orders:
        if not one.amount:
            yield key_of(bench, one.part), one.part, one.supplier, one.quantity, ORDERED
    for said, part in bench.state.parts.items():
        key = key_of(bench, said)
        if part.received and key not in ordered:
            of_sheet = bench.sheet.parts.get(said)
            yield key, said, "", counted(of_sheet.quantity if of_sheet is not None else None).number, CAME


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
    return f"seen on {datetime.fromisoformat(offer.seen).astimezone():%a %b %d}"
