"""A gap that was read by blades: whether the set has such a blade, alone or of two together."""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.blades import stacks
from gudgeon.book.entries import Entry
from gudgeon.quantity.written import parse_amount

BLADES = "feeler blades"
SAME_MM = 0.0005
"""Blades in inches and their rounding in mm differ by less than this."""


def blade_remarks(bench: Bench, entry: Entry) -> Iterator[str]:
    """What was read that no blade of the set can have shown; nothing where its blades are not written down."""
    body = entry.body
    gauge = bench.kit.gauges.get(str(body.get("instrument") or ""))
    if gauge is None or gauge.kind != BLADES or not gauge.blades:
        return
    item = bench.sheet.characteristics[body["item"]]
    owned = [one.thick for one in stacks(gauge)]
    for name in ("value", "low", "high"):
        if body.get(name) is None:
            continue
        said = f"{body[name]} {body['unit']}"
        size = parse_amount(said, kind=item.kind).to("mm")
        if size > 0 and all(abs(one - size) > SAME_MM for one in owned):
            yield (
                f"No blade of your {gauge.name} is {said} thick, nor are two together: look again which one it was, "
                "and write the one that enters and the next that does not."
            )
