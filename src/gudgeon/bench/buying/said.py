"""What the book says of the parts: decided, ordered, come, compared; under one key, however each entry named it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from gudgeon.bench.buying.arrived import arrived
from gudgeon.bench.buying.promised import promises_of
from gudgeon.bench.context import Bench
from gudgeon.bench.part_keys import key_of
from gudgeon.book.plan_state import Age, Life, Order, Price, Promise
from gudgeon.book.state import PartState


@dataclass(frozen=True, slots=True)
class SaidOfPart:
    """Everything that the book says of one part; of its orders `here` are those that came.

    `returned` are the orders whose money came back. `prices` are the last of each supplier in each currency. `promises`
    are the days that count for orders, by their entries; they count above what was expected when it was ordered.
    """

    state: PartState = field(default_factory=PartState)
    orders: tuple[Order, ...] = ()
    here: tuple[Order, ...] = ()
    returned: tuple[Order, ...] = ()
    prices: tuple[Price, ...] = ()
    age: Age | None = None
    life: Life | None = None
    promises: Mapping[str, Promise] = field(default_factory=dict)

    @property
    def under_way(self) -> tuple[Order, ...]:
        """The orders that have not come yet."""
        return tuple(one for one in self.orders if one not in self.here)


def said_of_parts(bench: Bench) -> Mapping[str, SaidOfPart]:
    """What the book says, by the key of the part."""
    sheet, buying = bench.sheet, bench.state.buying
    found: dict[str, SaidOfPart] = {}

    def of(said: str) -> SaidOfPart:
        return found.get(key_of(sheet, said), SaidOfPart())

    for name, state in bench.state.parts.items():
        found[key_of(sheet, name)] = replace(of(name), state=_together(of(name).state, state))
    for order in buying.orders:
        found[key_of(sheet, order.part)] = replace(of(order.part), orders=(*of(order.part).orders, order))
    for price in _prices(bench):
        found[key_of(sheet, price.part)] = replace(of(price.part), prices=(*of(price.part).prices, price))
    for name, age in buying.ages.items():
        found[key_of(sheet, name)] = replace(of(name), age=age)
    for name, life in buying.lives.items():
        found[key_of(sheet, name)] = replace(of(name), life=life)
    _came(bench, found)
    _promised(bench, found)
    return found


def _together(one: PartState, other: PartState) -> PartState:
    """Two names of one part: the later decision counts, and what came came."""
    later = max((one, other), key=lambda state: (state.decided, bool(state.decision)))
    return replace(
        later,
        received=one.received or other.received,
        compared=one.compared or other.compared,
    )


def _came(bench: Bench, found: dict[str, SaidOfPart]) -> None:
    """Which orders came, and which went back."""
    if not any(one.orders or (one.state.received and bench.state.money) for one in found.values()):
        return
    for key, there in arrived(bench).items():
        if key in found:
            of = found[key]
            found[key] = replace(
                of,
                state=replace(of.state, received=there.received, compared=there.compared),
                orders=tuple(one for one in of.orders if one.entry not in there.back),
                here=tuple(one for one in of.orders if one.entry in there.here),
                returned=tuple(one for one in of.orders if one.entry in there.back),
            )


def _prices(bench: Bench) -> tuple[Price, ...]:
    """The last price of each part, supplier and currency, however the two were written; the newest at the end."""
    found: dict[tuple[str, str, str], Price] = {}
    for price in bench.state.buying.prices.values():
        at = (key_of(bench.sheet, price.part), price.supplier.casefold(), price.currency)
        found.pop(at, None)
        found[at] = price
    return tuple(found.values())


def _promised(bench: Bench, found: dict[str, SaidOfPart]) -> None:
    """What was promised of the orders."""
    promises = promises_of(bench, [order for of in found.values() for order in of.orders])
    for key, of in found.items():
        own = {one.entry: promises[one.entry] for one in of.orders if one.entry in promises}
        if own:
            found[key] = replace(of, promises=own)


def other_names(bench: Bench, known: Iterable[str]) -> tuple[str, ...]:
    """Parts that the book names and the sheet does not list, in the words of the book."""
    there = set(known)
    buying = bench.state.buying
    said = [*bench.state.parts, *(one.part for one in buying.orders), *buying.ages, *buying.lives]
    return tuple(
        {key: name for name in reversed(said) if (key := key_of(bench.sheet, name)) not in there}.values()
    )[::-1]


def day_words(day: str) -> str:
    """`Sat Mar 07` for a day of the book; nothing for none."""
    return date.fromisoformat(day).strftime("%a %b %d") if day else ""
