"""What of the orders came, what went back for its money, and what is still on its way: entry by entry.

A receipt says neither how many came nor of whom. It closes one order: that of the supplier whom its note names, else
the oldest. What else was ordered stays open.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from gudgeon.bench.buying.supplier_named import names_supplier
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.part_keys import key_of
from gudgeon.book.entries import Entry

_KINDS = ("part-ordered", "part-received", "money")


@dataclass(slots=True)
class Arrived:
    """The orders of one part by their entries: on their way, here, gone back; whether something of it is here."""

    open: dict[str, str] = field(default_factory=dict)
    """Each with its supplier, the oldest first."""
    here: list[str] = field(default_factory=list)
    back: list[str] = field(default_factory=list)
    received: bool = False
    compared: bool = False
    amounts: dict[str, tuple[Decimal, str]] = field(default_factory=dict)
    """What each order comes to, where that was said."""
    paid: dict[str, Decimal] = field(default_factory=dict)


def arrived(bench: Bench) -> Mapping[str, Arrived]:
    """What became of the orders of each part, by its key."""
    found: dict[str, Arrived] = {}
    for entry in _standing(bench):
        body = entry.body
        said = str(body["part"] or body["what"]) if entry.kind == "money" else str(body["part"])
        one = found.setdefault(key_of(bench.sheet, said), Arrived())
        if entry.kind == "part-ordered":
            one.open[entry.id] = str(body["supplier"])
            if body["amount"]:
                one.amounts[entry.id] = (Decimal(body["amount"]), str(body["currency"]))
        elif entry.kind == "part-received":
            _came(bench, one, compared=bool(body["compared"]), note=str(body["note"]))
        elif body["way"] == "spent":
            one.paid[body["currency"]] = one.paid.get(body["currency"], Decimal(0)) + Decimal(body["amount"])
        else:
            _refunded(one, Decimal(body["amount"]), currency=str(body["currency"]))
    return found


def _standing(bench: Bench) -> Iterator[Entry]:
    gone = bench.state.struck
    return (one for one in entries_of(bench) if one.kind in _KINDS and one.id not in gone)


def _came(bench: Bench, one: Arrived, *, compared: bool, note: str) -> None:
    """What lies there uncompared is meant where a comparison is said, and no other supplier is named."""
    named = next((key for key, of in one.open.items() if names_supplier(bench, note, supplier=of)), "")
    if compared and one.received and not one.compared and not named:
        one.compared = True
        return
    closes = named or next(iter(one.open), "")
    if closes:
        del one.open[closes]
        one.here.append(closes)
    one.received, one.compared = True, compared


def _refunded(one: Arrived, amount: Decimal, *, currency: str) -> None:
    """All the money for an order, or for everything, came back: so did the goods. A part of it says nothing of them."""
    same = [
        key
        for key in (*reversed(one.here), *reversed(one.open))
        if one.amounts.get(key) == (amount, currency)
    ]
    paid = one.paid.get(currency, Decimal(0))
    whole = paid > 0 and amount == paid
    one.paid[currency] = paid - amount
    if same:
        _goes_back(one, same[:1])
    elif whole:
        _goes_back(one, [*one.here, *one.open])
    if (same or whole) and not one.here:
        one.received = one.compared = False


def _goes_back(one: Arrived, orders: Iterable[str]) -> None:
    for key in orders:
        one.open.pop(key, None)
        if key in one.here:
            one.here.remove(key)
        one.back.append(key)
