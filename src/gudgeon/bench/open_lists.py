"""The four open lists: provisional, left in, plugged, left over; and what was counted off and on."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.provisional import finished_by_pulling, provisional
from gudgeon.bench.reason import when
from gudgeon.book.state import OpenItem

MEANING = {
    "provisional": "left loose on purpose; made final at the work named",
    "left in": "temporary things in the engine",
    "plugged": "openings closed",
    "left over": "taken off and not back yet",
}


@dataclass(frozen=True, slots=True)
class Item:
    """One open thing; `pull` is the joint whose next stages take it off the list, where no word can."""

    item: str
    name: str
    where: str
    why: str
    since: str
    due: str
    pull: str = ""


@dataclass(frozen=True, slots=True)
class OpenList:
    """One of the four lists."""

    name: str
    meaning: str
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class GroupCount:
    """How many of a group came off, and how many are back."""

    group: str
    off: int
    on: int


@dataclass(frozen=True, slots=True)
class OpenLists:
    """The four lists and the counts."""

    heading: Heading
    lists: tuple[OpenList, ...]
    counts: tuple[GroupCount, ...]


def open_lists(bench: Bench) -> OpenLists:
    """What is open, list by list."""
    state = bench.state
    kept: dict[str, Mapping[str, OpenItem]] = {
        "provisional": provisional(bench),
        "left in": state.left_in,
        "plugged": state.plugged,
        "left over": state.left_over,
    }
    lists = tuple(
        OpenList(name, MEANING[name], tuple(_item(one) for one in items.values()))
        for name, items in kept.items()
    )
    counts = tuple(GroupCount(group, count.off, count.on) for group, count in state.counts.items())
    return OpenLists(bench.heading("What is open?"), lists, counts)


def _item(one: OpenItem) -> Item:
    due = f"{one.due_before}: {one.due_task}" if one.due_task else one.due_before
    return Item(
        one.item,
        one.name,
        one.where or "no place number",
        one.why,
        when(datetime.fromisoformat(one.since)),
        due,
        one.joint or "" if finished_by_pulling(one) else "",
    )
