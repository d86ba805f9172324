"""What the list of “What do I buy?” adds to the costs: parts at the least cost, shipping, and what has no price."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from gudgeon.bench.buying.ask import buy
from gudgeon.bench.buying.model import Buying, FromSupplier
from gudgeon.bench.context import Bench
from gudgeon.bench.costs.expected import key_of
from gudgeon.bench.costs.named import names
from gudgeon.bench.costs.priced import Priced
from gudgeon.bench.supplies.model import Lacking, Supply
from gudgeon.quantity.money import money_in


@dataclass(frozen=True, slots=True)
class ToBuy:
    """What is to be bought: with a price, without one, tools that are lacking, and what is used up.

    `why_not` says why nothing is known of it: the engine code was not read yet.
    """

    priced: Mapping[str, Priced] = field(default_factory=dict)
    unpriced: tuple[str, ...] = ()
    tools: tuple[Lacking, ...] = ()
    supplies: tuple[Supply, ...] = ()
    why_not: str = ""


def to_buy(bench: Bench, *, named: Sequence[str]) -> ToBuy:
    """What is to be bought; a part that one of these costs names already is left to that."""
    if bench.locked is not None:
        return ToBuy(why_not=" ".join(bench.locked.message.split()))
    answer = buy(bench)
    priced: dict[str, Priced] = {}
    for purchase in answer.purchases:
        for order in purchase.orders:
            priced |= _of_order(bench, order, named)
    unpriced = [
        *answer.nobody,
        *_cannot(answer.purchases, [one.name for one in answer.lines if one.to_order], priced),
    ]
    return ToBuy(
        priced,
        tuple(one for one in dict.fromkeys(unpriced) if not _told(one, named)),
        answer.tools,
        answer.supplies,
    )


def _told(name: str, named: Sequence[str]) -> bool:
    return any(names(text, part=name) for text in named)


def _of_order(bench: Bench, order: FromSupplier, named: Sequence[str]) -> dict[str, Priced]:
    """The lines of one supplier that no other cost names, with what their shipping costs."""
    found = {}
    for line in order.lines:
        money = money_in(line.cost)
        if money is not None and not _told(line.name, named):
            key = key_of(bench, line.part)
            found[key] = Priced(key, line.name, money, f"least cost, {order.supplier}")
    shipping = money_in(order.shipping)
    if found and shipping is not None and shipping.amount:
        name = f"Shipping, {order.supplier}"
        found[key_of(bench, name)] = Priced(
            key_of(bench, name), name, shipping, "with what is to be bought there"
        )
    return found


def _cannot(purchases: Sequence[Buying], wanted: Sequence[str], priced: Mapping[str, Priced]) -> list[str]:
    """What is to be ordered and in no purchase, where one cannot be made."""
    if not any(one.cannot for one in purchases):
        return []
    had = {one.name for one in priced.values()}
    return [name for name in wanted if name not in had]
