"""Every part: what became of it, whether it came and was compared, where it was ordered, and its receipt."""

from collections.abc import Iterator
from decimal import Decimal

from gudgeon.bench.buying.model import RENEW
from gudgeon.bench.closed.model import Row, Section
from gudgeon.bench.closed.told import Told, hour, table
from gudgeon.bench.costs.money import sums
from gudgeon.bench.costs.named import names
from gudgeon.bench.part_keys import key_of
from gudgeon.bench.plan_words import part_name
from gudgeon.book.entries import Entry

OF_PARTS = ("part-disposition", "part-received", "part-ordered")
USED = ("part-age", "part-life", "price-seen")


def parts(told: Told) -> Section:
    """The parts with what is written of each, the receipts, and what has none."""
    heads = ("When", "Who", "For what", "Part", "To or from", "Amount")
    receipts = (
        told.row(
            one, hour(one.device_time), one.who, one.body["what"], one.body["part"] or "", one.body["to"],
            _amount(one),
        )
        for one in told.of("money")
    )  # fmt: skip
    totals = [
        f"In {one.currency}: spent {one.spent}, got back {one.back}, together {one.total}."
        for one in sums(told.bench)
    ]
    return Section(
        "parts",
        "Parts, with their receipts",
        said=tuple(totals),
        tables=(
            *table("Every part", ("Part", "What became of it, and why", "Ordered", "Came", "Receipt"), _rows(told)),
            *table("Receipts", heads, receipts),
            *told.listed("Ages, lives and prices", told.of(*USED)),
        ),
        missing=tuple(_missing(told)),
    )  # fmt: skip


def _amount(one: Entry) -> str:
    sign = "−" if one.body["way"] == "got back" else ""
    back = " back" if sign else ""
    return f"{sign}{one.body['amount']} {one.body['currency']}{back}"


def _key(told: Told, one: Entry) -> str:
    joint = one.body.get("joint")
    name = f"{one.body['part']}, {joint} {one.body['bolt']}" if joint else str(one.body["part"])
    return key_of(told.bench.sheet, name)


def _rows(told: Told) -> Iterator[Row]:
    """A row for each part, made of everything that stands; what was struck follows in rows of its own."""
    spoken: dict[str, list[Entry]] = {}
    for one in told.standing(*OF_PARTS):
        spoken.setdefault(_key(told, one), []).append(one)
    for key, entries in spoken.items():
        name = _name(told, entries[0], key)
        receipts = [one for one in told.standing("money") if _is_for(told, one, key=key, name=name)]
        by_kind = {kind: [one for one in entries if one.kind == kind] for kind in OF_PARTS}
        yield Row(
            (
                name,
                "; then ".join(
                    f"{one.body['decision']}: {one.body['why']}" for one in by_kind["part-disposition"]
                )
                or "nothing decided in the book",
                "; ".join(_ordered(one) for one in by_kind["part-ordered"]),
                "; ".join(_came(one) for one in by_kind["part-received"]),
                "; ".join(f"{_amount(one)} (No. {one.number})" for one in receipts),
            ),
            tuple(one.number for one in entries),
        )
    for one in told.of(*OF_PARTS):
        if told.struck(one) is not None:
            yield told.row(one, str(one.body["part"]), told.words(one), "", "", "")


def _name(told: Told, one: Entry, key: str) -> str:
    named = part_name(told.bench, key)
    return named if named != key else str(one.body["part"])


def _ordered(one: Entry) -> str:
    body = one.body
    cost = f", {body['amount']} {body['currency']}" if body["amount"] else ""
    due = f"expected {body['expected']}" if body["expected"] else ""
    said = (f"{body['quantity']} of {body['supplier']}{cost}", hour(one.device_time)[:10], due, body["note"])
    return ", ".join(filter(None, said))


def _came(one: Entry) -> str:
    compared = "compared with the old one" if one.body["compared"] else "not compared"
    return ", ".join(filter(None, [hour(one.device_time)[:10], compared, one.body["note"]]))


def _is_for(told: Told, one: Entry, *, key: str, name: str) -> bool:
    """Whether a sum was paid for a part: it names it as its part, or in its words."""
    said = one.body["part"]
    if said and key_of(told.bench.sheet, str(said)) == key:
        return True
    return names(str(one.body["what"]), part=name)


def _missing(told: Told) -> Iterator[str]:
    came = {_key(told, one): one for one in told.standing("part-received")}
    ordered = {_key(told, one): one for one in told.standing("part-ordered")}
    decided = {_key(told, one): one for one in told.standing("part-disposition")}
    renewed = {key: one for key, one in decided.items() if one.body["decision"] == RENEW}
    paid = list(told.standing("money"))
    without = [
        _name(told, one, key)
        for key, one in {**ordered, **renewed, **came}.items()
        if not any(_is_for(told, sum_, key=key, name=_name(told, one, key)) for sum_ in paid)
    ]
    if without:
        yield f"No receipt in the book for: {'; '.join(without)}."
    not_here = [_name(told, one, key) for key, one in renewed.items() if key not in came]
    if not_here:
        yield f"Renewed by what was decided, and not written down as come: {'; '.join(not_here)}."
    if not decided:
        yield "Nothing is decided of any part in the book."
    if not came:
        yield "No part is written down as come."
    if not any(Decimal(one.body["amount"]) for one in paid):
        yield "No receipt in the book."
