"""Which promise of a delivery is about which order: nothing else is said of it but who said so, and when."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime

from gudgeon.bench.buying.supplier_named import names_supplier
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.part_keys import key_of
from gudgeon.book.plan_state import Order, Promise


def promises_of(bench: Bench, orders: Iterable[Order]) -> Mapping[str, Promise]:
    """The promise that counts for each order, by the entry of the order; none for those of which nothing was said.

    It is the last that was said since the order was placed. A promise by a supplier of one of the orders is about his
    orders alone; by anybody else it is about every order of the part.
    """
    known = [(key_of(bench.sheet, one.part), one) for one in orders]
    found: dict[str, Promise] = {}
    for key, promise in _deliveries(bench) if known else ():
        own = [one for part, one in known if part == key]
        his = [one for one in own if names_supplier(bench, promise.by, supplier=one.supplier)]
        for one in his or own:
            if datetime.fromisoformat(promise.said) >= datetime.fromisoformat(one.time):
                found[one.entry] = promise
    return found


def _deliveries(bench: Bench) -> Iterator[tuple[str, Promise]]:
    """Every promise of a delivery that stands, with the key of its part, in the order in which they were said."""
    for entry in entries_of(bench):
        body = entry.body
        if entry.kind == "promised" and body["of"] == "delivery" and entry.id not in bench.state.struck:
            on = body["on"]
            yield (
                key_of(bench.sheet, body["what"]),
                Promise(
                    body["what"], body["of"], on, body["earliest"] or on, body["latest"] or on, body["by"],
                    entry.device_time,
                ),
            )  # fmt: skip
