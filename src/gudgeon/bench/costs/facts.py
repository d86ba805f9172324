"""Everything that the book says of costs, by the key of what it is for."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field

from gudgeon.bench.buying.said import SaidOfPart, said_of_parts
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.costs.covered import Covered
from gudgeon.bench.costs.expected import Expected, every_word, key_of, known_at
from gudgeon.bench.costs.known_prices import known_prices
from gudgeon.bench.costs.owed import Owed, owed
from gudgeon.bench.costs.parts import ToBuy, to_buy
from gudgeon.bench.costs.priced import Priced
from gudgeon.bench.costs.said import Approval, approvals
from gudgeon.bench.plan_words import part_name
from gudgeon.book.plan_state import Order
from gudgeon.book.state import MoneyState


@dataclass(frozen=True, slots=True)
class Facts:
    """What was expected, ordered, paid, approved and asked for each thing.

    `orders` are those that stand, without what went back; `owed` is what is not paid of them.
    `at_price` is what was ordered or came without an amount, at a price that is known; `numbers` are those of the
    entries of orders and payments.
    """

    words: tuple[Expected, ...]
    today: Mapping[str, Expected]
    orders: Mapping[str, tuple[Order, ...]]
    payments: Mapping[str, tuple[MoneyState, ...]]
    said: tuple[Approval, ...]
    to_buy: ToBuy
    names: Mapping[str, str]
    covered: Covered
    owed: Mapping[str, Owed] = field(default_factory=dict)
    at_price: Mapping[str, Priced] = field(default_factory=dict)
    numbers: Mapping[str, int] = field(default_factory=dict)

    @property
    def prices(self) -> Mapping[str, Priced]:
        """What is to be bought, with what it costs."""
        return self.to_buy.priced

    @property
    def texts(self) -> tuple[str, ...]:
        """The words of everything that has an amount."""
        said = [one.what for one in self.today.values() if not one.nothing]
        said += [one.what for each in self.payments.values() for one in each]
        return (*said, *(one.what for one in self.approved.values() if one.amount is not None))

    @property
    def approved(self) -> Mapping[str, Approval]:
        """The latest yes or no to each thing."""
        return {one.key: one for one in self.said}

    @property
    def keys(self) -> tuple[str, ...]:
        """Every thing that was spoken of, in the order in which it was first mentioned."""
        spoken = [one.key for one in self.words]
        return tuple(
            dict.fromkeys(
                [*spoken, *self.approved, *self.orders, *self.at_price, *self.prices, *self.payments]
            )
        )


def facts(bench: Bench, *, still_to_buy: bool = True) -> Facts:
    """What the book says of costs now; without what is `still_to_buy` the shopping list is not asked."""
    words, said, of_parts = every_word(bench), approvals(bench), said_of_parts(bench)
    numbers = {one.id: one.number for one in entries_of(bench) if one.kind in ("money", "part-ordered")}
    orders: dict[str, list[Order]] = {}
    for order in bench.state.buying.orders:
        orders.setdefault(key_of(bench, order.part), []).append(order)
    known = {*(one.key for one in words), *(one.key for one in said), *orders}
    payments: dict[str, list[MoneyState]] = {}
    for one in bench.state.money:
        payments.setdefault(_thing(bench, one, known), []).append(one)
    own = {key: of_parts.get(key, SaidOfPart()) for key in (*orders, *payments)}
    owes = {
        key: owed(
            orders.get(key, ()), payments.get(key, ()), numbers=numbers,
            here={each.entry for each in of.here}, returned={each.entry for each in of.returned},
        )
        for key, of in own.items()
    }  # fmt: skip
    stand = {key: of.orders for key, of in own.items() if of.orders}
    today = known_at(words, "today")
    covered = Covered(today, {one.key: one for one in said}, payments, stand, owes)
    bought = to_buy(bench, covered=covered) if still_to_buy else ToBuy()
    at_price = known_prices(bench, of_parts=of_parts, covered=covered)
    return Facts(
        words=words,
        today=today,
        orders=stand,
        payments={key: tuple(each) for key, each in payments.items()},
        said=said,
        to_buy=bought,
        names=_names(bench, [*bought.priced.values(), *at_price.values()]),
        covered=covered,
        owed=owes,
        at_price=at_price,
        numbers=numbers,
    )


def _names(bench: Bench, prices: Iterable[Priced]) -> Mapping[str, str]:
    """What the parts are called that were ordered, paid or priced."""
    said = [one.part for one in bench.state.buying.orders] + [
        one.part for one in bench.state.money if one.part
    ]
    return {key_of(bench, one): part_name(bench, one) for one in said} | {one.key: one.name for one in prices}


def _thing(bench: Bench, one: MoneyState, known: Collection[str]) -> str:
    """What an amount was for: the words, where something was expected under them, else the part, else the words."""
    keys = [key_of(bench, text) for text in (one.what, one.part) if text]
    return next((key for key in keys if key in known), keys[-1])


def currencies(found: Facts, *, more: Iterable[str]) -> tuple[str, ...]:
    """Every currency that something is counted in; the one of most lines first."""
    said = [one.currency for one in found.today.values()]
    said += [one.currency for each in found.payments.values() for one in each]
    said += [one.currency for each in found.orders.values() for one in each]
    said += [one.money.currency for one in found.prices.values()]
    said += [one.money.currency for one in found.at_price.values()]
    said += [one.currency for one in found.said]
    counted = {one: said.count(one) for one in dict.fromkeys([*said, *more]) if one}
    return tuple(sorted(counted, key=lambda one: (-counted[one], one)))
