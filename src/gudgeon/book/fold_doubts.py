"""What is in doubt: entries made on an outdated state, and closings of what was not open."""

import re
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any

from gudgeon.book.entries import Entry
from gudgeon.book.fold_readings import items_of
from gudgeon.book.part_names import words_for


def _of_joint(kind: str) -> Callable[[Mapping[str, Any]], str]:
    return lambda body: f"{kind}:{body['joint']}"


def _of_bolt(kind: str) -> Callable[[Mapping[str, Any]], str]:
    return lambda body: f"{kind}:{body['joint']}:{body['stage']}:{body['round']}:{body['bolt']}"


def _of_part(kind: str) -> Callable[[Mapping[str, Any]], str]:
    return lambda body: f"{kind}:{body['part']}"


def _of_task(kind: str) -> Callable[[Mapping[str, Any]], str]:
    return lambda body: f"{kind}:{body['task']}"


def _of_item(list_name: str) -> Callable[[Mapping[str, Any]], str]:
    return lambda body: f"{list_name}:{body['item']}"


_ON_A_JOINT = ("joint-marked", "joint-witnessed", "joint-disturbed", "tightened-again")
_ON_A_BOLT = ("pull", "bolt-loosened")

_SUBJECTS: Mapping[str, Callable[[Mapping[str, Any]], str]] = {
    "reading": lambda body: f"reading:{body['item']}:{body['place']}:{body['condition']}",
    "face-scanned": lambda body: f"scan:{body['item']}:{body['condition']}",
    "identity-read": lambda body: "identity",
    **{kind: _of_bolt(kind) for kind in _ON_A_BOLT},
    **{kind: _of_joint(kind) for kind in _ON_A_JOINT},
    **dict.fromkeys(("hold-proved", "hold-voided"), lambda body: f"hold:{body['hold']}"),
    **dict.fromkeys(("timer-started", "timer-ended", "sealant-laid"), lambda body: f"timer:{body['timer']}"),
    **dict.fromkeys(("task-started", "task-paused", "task-done"), lambda body: f"task:{body['task']}"),
    **dict.fromkeys(("provisional-made", "provisional-cleared"), _of_item("provisional")),
    **dict.fromkeys(("left-in", "taken-out"), _of_item("left in")),
    **dict.fromkeys(("plugged", "opened"), _of_item("plugged")),
    **dict.fromkeys(("taken-off", "refitted"), _of_item("left over")),
    **{kind: _of_part(kind) for kind in ("part-disposition", "part-received")},
    **dict.fromkeys(("shop-out", "shop-back"), _of_part("shop")),
    **dict.fromkeys(("engine-state", "turned"), lambda body: "engine"),
    "inspected": lambda body: f"breach:{body['entry']}:{body['gate']}",
    "counted": lambda body: f"counted:{body['group']}:{body['when']}",
    "odometer-read": lambda body: "odometer",
    "job-chosen": lambda body: "job",
    **{kind: _of_task(kind) for kind in ("task-added", "task-dropped", "task-minutes", "task-order")},
    "day-planned": lambda body: f"day:{body['whose']}:{body['day']}",
    "promised": lambda body: f"promised:{body['of']}:{body['what']}",
    "price-seen": lambda body: f"price:{body['part']}:{body['supplier']}",
    **{kind: _of_part(kind) for kind in ("part-age", "part-life")},
    "cost-expected": lambda body: f"cost:{body['what']}",
    "ceiling-agreed": lambda body: "ceiling",
}


def subject(entry: Entry) -> str:
    """What exactly an entry states: a later entry on the same subject states it anew."""
    found = _SUBJECTS.get(entry.kind)
    return found(entry.body) if found is not None else ""


def concerns(entry: Entry, own: str) -> tuple[str, ...]:
    """What an entry touches, its own subject or more: whoever writes about one of these must have seen it."""
    kind, body = entry.kind, entry.body
    if kind in _ON_A_BOLT or kind in _ON_A_JOINT:
        return (f"joint:{body['joint']}",)
    if kind == "sealant-laid":
        # Whoever ends one of its clocks speaks of this bead.
        return (own, f"{own}_open", f"{own}_cure")
    if kind == "provisional-made" and body["joint"]:
        return (own, f"joint:{body['joint']}")
    return (own,) if own else ()


def touches(entry: Entry, own: str) -> tuple[str, ...]:
    """What an entry touches and what it takes the ground from: a proof that rests on it must have seen it."""
    kind, body, about = entry.kind, entry.body, concerns(entry, own)
    if kind in ("bolt-loosened", "joint-disturbed"):
        return (*about, f"under:{body['joint']}")
    if kind in ("shop-out", "shop-back"):
        return (*about, *(f"shop:{word}" for word in words_for(body["part"])))
    return about


def _looks_at(entry: Entry) -> tuple[str, ...]:
    """What a sender must have seen; a proof looks at all it rests on, and whether a reading of it was struck."""
    about = concerns(entry, subject(entry))
    if entry.kind != "hold-proved":
        return about
    under = (re.sub("^part:", "shop:", name) for name in entry.body["rests_on"])
    return (*about, *under, *(f"reading:{item}" for item in items_of(entry.body["shown"])))


class Outdated:
    """Finds entries whose sender had not seen what had been written on the same thing.

    A struck entry counts too: its sender had not seen it either, and striking it mends nothing.
    """

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}
        self._touched: dict[str, Entry] = {}
        self._hours: dict[str, datetime] = {}
        """The latest hour that anybody knows who has seen an entry: its own, or that of one before it."""
        self._last: Entry | None = None

    def why(self, entry: Entry) -> str:
        """What makes an entry outdated; nothing when its sender had seen all it looks at."""
        if not entry.basis or entry.basis == entry.prev:
            return ""
        seen = self._numbers.get(entry.basis)
        if seen is None:
            return "recorded on a state that is not in this chain" if _looks_at(entry) else ""
        for thing in _looks_at(entry):
            other = self._touched.get(thing)
            if other is not None and other.number > seen:
                what = other.kind.replace("-", " ")
                return f"recorded on an older state: {other.who} had recorded “{what}” on the same in the meantime"
        return ""

    def not_before(self, entry: Entry) -> datetime | None:
        """The hour that its sender had seen in the book, so that it cannot be earlier; None where he had not looked.

        What waited on a device was written before what came into the book meanwhile, and had not seen that. Of what is
        written at once the later ones have seen what the first has.
        """
        last = self._last
        at_once = last is not None and (last.device, last.server_time) == (entry.device, entry.server_time)
        return self._hours.get(entry.basis or (entry.prev if at_once else ""))

    def note(self, entry: Entry, touches: tuple[str, ...], *, struck: bool = False) -> None:
        """Remember an entry, its hour and what it touches; the hour of one that is struck says nothing."""
        self._numbers[entry.hash] = entry.number
        hours = [self._hours[entry.prev]] if entry.prev in self._hours else []
        if not struck:  # a clock ahead of that of the book makes nothing later than the book has it
            hours.append(min(map(datetime.fromisoformat, (entry.device_time, entry.server_time))))
        if hours:
            self._hours[entry.hash] = max(hours)
        self._last = entry
        for thing in touches:
            self._touched[thing] = entry


class Doubts:
    """Entries in doubt. Those with a subject are settled by the next entry that states the same anew."""

    def __init__(self) -> None:
        self._lasting: list[tuple[Entry, str]] = []
        self._open: dict[str, list[tuple[Entry, str]]] = {}

    def add(self, entry: Entry, why: str, *, settled_by: str = "") -> None:
        """An entry is in doubt."""
        found = self._open.setdefault(settled_by, []) if settled_by else self._lasting
        found.append((entry, why))

    def settle(self, stated: str) -> None:
        """The same was stated anew by someone who had seen the doubt."""
        self._open.pop(stated, None)

    def listed(self) -> list[tuple[Entry, str]]:
        """Every doubt that still stands."""
        return [*self._lasting, *(one for found in self._open.values() for one in found)]
