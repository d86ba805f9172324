"""What the list of “What do I buy?” adds to the costs: parts at the least cost, shipping, and what has no price."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from gudgeon.bench.buying.ask import buy
from gudgeon.bench.buying.model import Buying, FromSupplier, Line
from gudgeon.bench.context import Bench
from gudgeon.bench.costs.covered import Covered
from gudgeon.bench.costs.expected import key_of
from gudgeon.bench.costs.priced import Priced
from gudgeon.bench.supplies.model import Lacking, Supply
from gudgeon.quantity.money import Money, money_in

NO_PURCHASE = "no purchase can be worked out, so the parts stand at what is asked for them."


@dataclass(frozen=True, slots=True)
class ToBuy:
    """What is to be bought: with a price, without one, tools that are lacking, and what is used up.

    `why_not` says why nothing is known of it: the engine code was not read yet. Where no purchase can be worked out
    parts count at the least that is asked: `no_shipping` says of each supplier why its shipping is in no sum.
    """

    priced: Mapping[str, Priced] = field(default_factory=dict)
    unpriced: tuple[str, ...] = ()
    tools: tuple[Lacking, ...] = ()
    supplies: tuple[Supply, ...] = ()
    why_not: str = ""
    no_shipping: Mapping[str, str] = field(default_factory=dict)


def to_buy(bench: Bench, *, covered: Covered) -> ToBuy:
    """What is to be bought; a part that another amount stands for already is left to that."""
    if bench.locked is not None:
        return ToBuy(why_not=" ".join(bench.locked.message.split()))
    answer = buy(bench)
    priced: dict[str, Priced] = {}
    bought: set[str] = set()
    for purchase in answer.purchases:
        for order in purchase.orders:
            priced |= _of_order(bench, order, covered)
            bought |= {line.part for line in order.lines}
    unpriced, no_shipping = [], dict[str, str]()
    for line in answer.lines:
        key = key_of(bench, line.part)
        if not line.to_order or line.part in bought or covered.has(key, name=line.name):
            continue
        asked = _least(line)
        if asked is None:
            unpriced.append(line.name)
        else:
            priced[key] = Priced(key, line.name, asked.money, f"asked by {asked.supplier}, shipping apart")
            no_shipping |= _no_shipping(bench, asked.supplier, answer.purchases)
    return ToBuy(
        priced,
        tuple(dict.fromkeys(unpriced)),
        answer.tools,
        answer.supplies,
        no_shipping=no_shipping,
    )


def _of_order(bench: Bench, order: FromSupplier, covered: Covered) -> dict[str, Priced]:
    """The lines of one supplier that no other amount stands for, with what their shipping costs."""
    found = {}
    for line in order.lines:
        money, key = _money(line.cost), key_of(bench, line.part)
        if money is not None and not covered.has(key, name=line.name):
            found[key] = Priced(key, line.name, money, f"least cost, {order.supplier}")
    shipping = _money(order.shipping)
    if found and shipping is not None and shipping.amount:
        name = f"Shipping, {order.supplier}"
        found[key_of(bench, name)] = Priced(
            key_of(bench, name), name, shipping, "with what is to be bought there"
        )
    return found


def _no_shipping(bench: Bench, supplier: str, purchases: Iterable[Buying]) -> dict[str, str]:
    """Why the shipping of a supplier is in no sum, by its name; nothing where it costs nothing."""
    shop = next((one for one in bench.kit.suppliers.values() if one.name == supplier), None)
    if shop is None:
        return {supplier: "the kit lists no such supplier, so what its shipping costs is not known"}
    if not shop.shipping.amount:
        return {}
    return {supplier: " ".join((NO_PURCHASE, *(one.cannot for one in purchases if one.cannot)))}


def _money(words: str) -> Money | None:
    """An amount of the list, which sets thousands apart."""
    return money_in(words.replace(",", ""))


@dataclass(frozen=True, slots=True)
class _Asked:
    supplier: str
    money: Money


def _least(line: Line) -> _Asked | None:
    """What is asked at least for all of a line that is in no purchase, in whole packs and the currency asked most."""
    prices = [(one, price) for one in line.asked if (price := _money(one.price)) is not None]
    currencies = [price.currency for _, price in prices]
    return min(
        (
            _Asked(one.supplier, Money(-(-line.to_order // one.pack) * price.amount, price.currency))
            for one, price in prices
            if price.currency == max(currencies, key=currencies.count)
        ),
        key=lambda found: found.money.amount,
        default=None,
    )
