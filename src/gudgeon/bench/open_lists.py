"""The four open lists: provisional, left in, plugged, left over; and what was counted off and on."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.counted import differences
from gudgeon.bench.pin_items import pin_of_item
from gudgeon.bench.provisional import finished_by_pulling, provisional
from gudgeon.bench.reason import when
from gudgeon.book.state import Count, OpenItem, Tally

MEANING = {
    "provisional": "left loose on purpose; made final at the work named",
    "left in": "temporary things in the engine",
    "plugged": "openings closed",
    "left over": "taken off and not back yet",
}

NO_PLACE = "no place number"
"""Where somebody left out where it is."""


@dataclass(frozen=True, slots=True)
class Item:
    """One open thing; `pull` is the joint whose next stages take it off the list, where no word can.

    Of several in one bag `off` are still off, of `of` that came off. `photo` is the hash of a photo that shows it, and
    `pin` the number of its place there, 0 where only the photo is known.
    """

    item: str
    name: str
    where: str
    why: str
    since: str
    due: str
    pull: str = ""
    off: int = 1
    of: int = 1
    bag: str = ""
    photo: str = ""
    pin: int = 0


@dataclass(frozen=True, slots=True)
class OpenList:
    """One of the four lists."""

    name: str
    meaning: str
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class GroupCount:
    """How many of a group came off, and how many are back; what was counted by hand, and where that differs.

    `named` counts what has a name on the list, once. Where nobody counted, `counted_off` and `counted_back` are None.
    """

    group: str
    off: int
    on: int
    named: int = 0
    counted_off: int | None = None
    counted_back: int | None = None
    explained: tuple[str, ...] = ()
    differs: tuple[str, ...] = ()


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
        OpenList(name, MEANING[name], tuple(_item(bench, one, name) for one in items.values()))
        for name, items in kept.items()
    )
    groups = sorted({*state.counts, *state.tallies})
    counts = tuple(
        _count(group, state.counts.get(group), state.tallies.get(group, Tally())) for group in groups
    )
    return OpenLists(bench.heading("What is open?"), lists, counts)


def _count(group: str, count: Count | None, tally: Tally) -> GroupCount:
    known = count or Count(0, 0)
    differs = tuple(one.why for one in differences(group, count, tally))
    explained = (*(f"missing: {one}" for one in tally.missing), *(f"over: {one}" for one in tally.over))
    return GroupCount(group, known.off, known.on, known.named, tally.off, tally.back, explained, differs)


def several(one: OpenItem) -> str:
    """How many of it are still off, and the bag they lie in; nothing for a single thing without one."""
    off = f"{one.off} of {one.of} still off" if one.of > 1 else ""
    return ", ".join(filter(None, [off, f"bag {one.bag}" if one.bag else ""]))


def _item(bench: Bench, one: OpenItem, on: str) -> Item:
    photo, pin = pin_of_item(bench, one.item) if on == "left over" else ("", 0)
    due = f"{one.due_before}: {one.due_task}" if one.due_task else one.due_before
    return Item(
        one.item,
        one.name,
        one.where or NO_PLACE,
        ", ".join(filter(None, [several(one), one.why])),
        when(datetime.fromisoformat(one.since)),
        due,
        one.joint or "" if finished_by_pulling(one) else "",
        one.off,
        one.of,
        one.bag,
        photo,
        pin,
    )
