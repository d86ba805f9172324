"""The shopping list on paper: by supplier, a box for each line; then what is on its way, and what is used up."""

import re
from collections.abc import Iterator
from typing import Any

from gudgeon.bench.buying.model import (
    LATE,
    ORDERED,
    RECEIVED,
    TO_ORDER,
    BuyAnswer,
    Buying,
    FromSupplier,
    Line,
)
from gudgeon.bench.supplies.model import Lacking, Supply
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words, without_commands

_TYPED = re.compile(r"(?:[:;,]\s*)?gudgeon [a-z][^;)]*")


def _plain(text: str) -> str:
    """A text without what would be typed."""
    return _TYPED.sub("", without_commands(text)).strip()


def shopping_pdf(answer: BuyAnswer, *, size: str) -> bytes:
    """The shopping list on paper."""
    return press("shopping.typ", shopping_data(answer), size=size, dated_as=dated(answer.heading))


def shopping_data(answer: BuyAnswer) -> dict[str, Any]:
    """Everything that stands on the list, in the order in which it stands there."""
    by_part = {one.part: one for one in answer.lines}
    priced = {line.part for one in answer.purchases for order in one.orders for line in order.lines}
    return {
        "page": page_words(answer.heading, about="Shopping list"),
        "question": answer.heading.question,
        "said": _plain(answer.said),
        "remarks": [_plain(text) for text in answer.remarks],
        "suppliers": [_supplier(order, by_part) for one in answer.purchases for order in one.orders],
        "sums": [text for one in answer.purchases for text in _sums(one)],
        "how": "Without delay" if answer.no_delay else "At the least cost",
        "elsewhere": [_line(one) for one in answer.lines if one.state == TO_ORDER and one.part not in priced],
        "coming": [_coming(one) for one in answer.lines if one.state in (ORDERED, LATE)],
        "compare": [_line(one) for one in answer.lines if one.state == RECEIVED],
        "may_come": [_plain(text) for text in answer.may_come],
        "supplies": [_supply(one) for one in answer.supplies],
        "tools": [_tool(one) for one in answer.tools],
        "missing": [_plain(text) for text in answer.missing],
    }


def _supplier(order: FromSupplier, lines: dict[str, Line]) -> dict[str, Any]:
    return {
        "name": order.supplier,
        "days": order.days,
        "rows": [
            {
                "many": f"{one.pieces} ×",
                "name": _called(lines[one.part]),
                "article": one.article,
                "told": list(_told(lines[one.part])),
                "cost": one.cost,
            }
            for one in order.lines
        ],
        "goods": order.goods,
        "shipping": order.shipping,
        "total": order.total,
    }


def _called(one: Line) -> str:
    return f"{one.name}, {one.size}" if one.size and one.size not in one.name else one.name


def _told(one: Line) -> Iterator[str]:
    """What has to be known of a line at the counter, and before when it is needed."""
    if one.counted != str(one.quantity):
        yield f"{one.counted} in all"
    if one.one_time:
        yield "new every time"
    if one.before:
        yield f"before: {one.before}" + (f", planned {one.day}" if one.day else "")
    if one.compare:
        yield f"compare: {one.compare}"
    yield from (_plain(text) for text in one.notes)


def _line(one: Line) -> dict[str, Any]:
    many = one.to_order if one.state == TO_ORDER else one.quantity
    return {
        "many": f"{many} ×",
        "name": _called(one),
        "article": "",
        "told": [*_told(one), *([one.old] if one.old else [])],
        "cost": "",
    }


def _coming(one: Line) -> dict[str, Any]:
    said = [
        ", ".join(
            filter(
                None,
                (
                    f"{order.quantity} of {order.supplier}",
                    f"expected {order.expected}" if order.expected else "",
                    order.late,
                ),
            )
        )
        for order in one.orders
    ]
    row = _line(one)
    return {**row, "told": [*said, *row["told"]]}


def _sums(one: Buying) -> Iterator[str]:
    if one.cannot:
        yield f"{one.currency}: {_plain(one.cannot)}"
    if one.total:
        yield f"Together {one.total}. {one.proof}"
    yield from one.alone
    yield from one.too_late


def _supply(one: Supply) -> dict[str, Any]:
    case = f", only {one.only_if}" if one.only_if else ""
    how = "; ".join(filter(None, (one.how, f"not known: {one.missing}" if one.missing else "")))
    source = f" ({one.source})" if one.source else ""
    return {
        "many": "",
        "name": f"{one.name}: {one.amount}" if one.amount else one.name,
        "article": "",
        "told": [f"{one.for_what}{case}", _plain(f"{how}{source}")],
        "cost": "",
    }


def _tool(one: Lacking) -> dict[str, Any]:
    return {
        "many": "",
        "name": f"{one.name}: {' or '.join(one.get)}",
        "article": "",
        "told": [text for text in (one.why, f"before: {one.before}" if one.before else "", one.how) if text],
        "cost": "",
    }
