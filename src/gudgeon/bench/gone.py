"""What is named to a form and cannot be chosen there any more: what became of it, and by whose hand."""

from collections.abc import Iterator
from datetime import datetime

from gudgeon.bench.asking import Choices
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.entries import item_names
from gudgeon.bench.reason import when
from gudgeon.bench.which_item import CLOSES as LISTS
from gudgeon.book.entries import Entry
from gudgeon.book.fold_lists import CLOSES

CLOSED_BY = {
    **dict.fromkeys(CLOSES, "item"),
    "timer-ended": "timer",
    "shop-back": "part",
    "hold-proved": "hold",
    "accepted": "what",
    "override": "about",
    "inspected": "entry",
}
"""Kinds that close what they name, and the field that names it."""
EMPTY_LISTS = {
    **{(kind, "item"): f"Nothing is {words} now" for kind, (_, words) in LISTS.items()},
    ("timer-ended", "timer"): "No wait runs now",
    ("shop-back", "part"): "Nothing is at the shop now",
    ("inspected", "entry"): "No act waits for a look now",
}
"""Lists from which something has to be chosen, and what is said where nothing is on them."""


def not_offered(bench: Bench, *, kind: str, field: str, said: str, offered: Choices) -> str:
    """What became of the thing that is named, where a form cannot offer it; empty where it can."""
    if not said or said in {sent for sent, _ in offered}:
        return ""
    if not offered and (kind, field) not in EMPTY_LISTS:
        return ""
    name = _name(bench, kind, said)
    if CLOSED_BY.get(kind) != field:
        return f"“{name}” is not on this list."
    closing = next(_closings(bench, kind, field, said), None)
    if closing is None:
        return f"“{name}” is not open, and no entry of the book closed it under this name."
    return (
        f"“{name}” is not open any more: {closing.who} ({closing.device}) closed it on "
        f"{when(datetime.fromisoformat(closing.device_time))}, entry {closing.number}."
    )


def _closings(bench: Bench, kind: str, field: str, said: str) -> Iterator[Entry]:
    """The entries that closed it and still count, the last one first."""
    numbers = {one.id: str(one.number) for one in entries_of(bench)}
    for one in reversed(entries_of(bench)):
        if one.kind != kind or one.id in bench.state.struck:
            continue
        named = numbers.get(one.body["entry"], "") if kind == "inspected" else str(one.body[field])
        if named == said:
            yield one


def _name(bench: Bench, kind: str, said: str) -> str:
    """What it is called in the book; as it was said where the book does not know it."""
    if kind in CLOSES:
        return item_names(entries_of(bench)).get((CLOSES[kind], said), said)
    if kind == "timer-ended" and said in bench.state.timers:
        return bench.state.timers[said].name
    return said
