"""What is said at once of what becomes of a part: which limits it settles, or that the sheet knows no such part."""

from collections.abc import Iterator
from difflib import get_close_matches

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.acceptance import part_names
from gudgeon.bench.part_keys import key_of
from gudgeon.book.entries import Entry
from gudgeon.book.state import State

MOST = 6


def part_remarks(bench: Bench, entry: Entry, _after: State) -> Iterator[str]:
    """What a decision about a part settles, in a sentence."""
    said, sheet = str(entry.body["part"]), bench.sheet
    if entry.body.get("joint"):
        return
    named = [key for key in sheet.characteristics if said.lower() in part_names(sheet, key)]
    listed = {key.lower() for key in sheet.parts} | {one.name.lower() for one in sheet.parts.values()}
    if not named and said.lower() not in listed and not _a_joint(bench, said):
        parts = dict.fromkeys(
            (
                *(one.part for one in sheet.characteristics.values()),
                *(one.name for one in sheet.parts.values()),
            )
        )
        known = ", ".join(f"“{one}”" for one in list(parts)[:MOST]) + (
            " and others" if len(parts) > MOST else ""
        )
        yield (
            f"The sheet has no part called “{said}”, so no limit is settled by it. Its parts: {known or 'none'}. If "
            f"one of them was meant: gudgeon strike {entry.number} --why …"
        )
    elif named and entry.body["decision"] in ("renew", "accept"):
        names = [sheet.characteristics[key].name for key in named]
        more = f" and {len(names) - MOST} more" if len(names) > MOST else ""
        yield f"It settles what is outside until now of: {', '.join(names[:MOST])}{more}."


def own_part_remarks(bench: Bench, entry: Entry, _after: State) -> Iterator[str]:
    """What is ordered, priced or told of a part that neither the sheet nor the book has: perhaps a slip of the pen."""
    if entry.kind == "price-seen":
        yield from _there_already(bench, entry)
    if entry.kind == "part-ordered":
        yield from _not_sold(bench, entry)
    said = str(entry.body["part"])
    named = [(key, part.name) for key, part in bench.sheet.parts.items()]
    known = {text.lower() for pair in named for text in pair} | {one.lower() for one in bench.state.parts}
    known |= {one.part.lower() for one in bench.state.buying.orders} | {
        one.part.lower() for one in bench.state.buying.prices.values()
    }
    if said.lower() in known or _a_joint(bench, said):
        return
    near = get_close_matches(said.lower(), [name.lower() for _, name in named], n=1, cutoff=0.7)
    meant = next((name for _, name in named if near and name.lower() == near[0]), "")
    asked = f" If “{meant}” was meant: gudgeon strike {entry.number} --why …" if meant else ""
    yield f"The sheet has no part called “{said}”: it is kept under that name, as one of your own.{asked}"


def received_remarks(bench: Bench, entry: Entry, _after: State) -> Iterator[str]:
    """What is still on its way once a part of it came: a receipt closes one order."""
    from gudgeon.bench.buying.arrived import arrived

    there = arrived(bench).get(key_of(bench.sheet, str(entry.body["part"])))
    if there is None or not there.open:
        return
    names = ", ".join(there.open.values())
    yield (
        f"It closes one order. Still open is what was ordered of it at: {names}. If that came too, record that it came "
        "once more; a note that names the supplier says which of them."
    )


def promised_remarks(bench: Bench, entry: Entry, _after: State) -> Iterator[str]:
    """A delivery that is promised of a part that nobody ordered: the plan counts on it, the list asks for it."""
    from gudgeon.bench.buying.said import SaidOfPart, said_of_parts

    key = key_of(bench.sheet, str(entry.body["what"]))
    there = said_of_parts(bench).get(key, SaidOfPart())
    if entry.body["of"] == "delivery" and not there.orders and not there.state.received:
        part = bench.sheet.parts.get(key)
        yield (
            f"By the book nobody ordered {part.name if part is not None else key}: the plan counts on that day, and "
            "the list goes on asking for it. If it is ordered, record that too, so that it is not bought twice."
        )


def _there_already(bench: Bench, entry: Entry) -> Iterator[str]:
    """A part of which everything came, and of which nothing is on its way."""
    from gudgeon.bench.buying.counts import counted
    from gudgeon.bench.buying.said import SaidOfPart, said_of_parts

    key = key_of(bench.sheet, str(entry.body["part"]))
    there = said_of_parts(bench).get(key, SaidOfPart())
    part = bench.sheet.parts.get(key)
    needed = counted(part.quantity if part is not None else None).number
    lacking = bool(there.here) and sum(one.quantity for one in there.here) < needed
    if there.state.received and not there.under_way and not lacking:
        name = part.name if part is not None else key
        yield (
            f"By the book {name} came already and nothing of it is on its way: no price is needed of it. It "
            f"is kept. If it was not meant: gudgeon strike {entry.number} --why …"
        )


def _not_sold(bench: Bench, entry: Entry) -> Iterator[str]:
    """An order of a part of the sheet at a supplier of the kit of whom only prices of others are known."""
    from gudgeon.bench.buying.market import market_of, shop_key
    from gudgeon.bench.buying.said import said_of_parts

    key = key_of(bench.sheet, str(entry.body["part"]))
    part = bench.sheet.parts.get(key)
    if part is None:
        return
    market = market_of(bench, said_of_parts(bench))
    shop = shop_key(market.shops, str(entry.body["supplier"]))
    sold = {one.part for one in market.offers if one.shop == shop}
    if shop and sold and key not in sold:
        yield (
            f"Neither the kit nor the book has a price of {part.name} at {market.name(shop)}. It is kept; look whether "
            "the supplier is the one that is meant."
        )


def _a_joint(bench: Bench, said: str) -> bool:
    """Whether it is the fasteners of a joint."""
    return any(said.lower() in (key.lower(), one.name.lower()) for key, one in bench.sheet.joints.items())
