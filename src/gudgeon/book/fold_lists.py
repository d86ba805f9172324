"""The four open lists, and the counts of what came off and went back."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from gudgeon.book.entries import Entry
from gudgeon.book.fold_doubts import Doubts, subject
from gudgeon.book.kept import as_it_is
from gudgeon.book.state import Count, OpenItem

OPENS = {
    "provisional-made": "provisional",
    "left-in": "left in",
    "plugged": "plugged",
    "taken-off": "left over",
}
CLOSES = {
    "provisional-cleared": "provisional",
    "taken-out": "left in",
    "opened": "plugged",
    "refitted": "left over",
}
MILESTONES = ("crank", "fire", "drive", "handover")


class OpenLists:
    """The lists while the entries are folded. Nothing leaves one but by its closing."""

    def __init__(self, doubts: Doubts) -> None:
        self._doubts = doubts
        self._lists: dict[str, dict[str, OpenItem]] = {name: {} for name in OPENS.values()}
        self._off: Counter[str] = Counter()
        self._on: Counter[str] = Counter()
        self._named: dict[str, dict[str, int]] = {}
        self._due: dict[str, str] = {}
        self._final: dict[str, OpenItem] = {}

    def put_on(self, entry: Entry) -> None:
        """An item comes on a list; if it is on it already, the stricter milestone counts."""
        body, items = entry.body, self._lists[OPENS[entry.kind]]
        there = items.get(body["item"])
        if entry.kind == "taken-off":
            self._came_off(body, there)
        if there is None:
            items[body["item"]] = _item(entry)
            if entry.kind == "provisional-made":
                self._final.pop(body["item"], None)
            return
        stricter = min(there.due_before, body["due_before"], key=MILESTONES.index)
        # Two entries of one thing that is off: as many are off as the one that says more.
        off = max(there.off, body.get("count", 1))
        items[body["item"]] = replace(there, due_before=stricter, off=off, of=max(there.of, off))
        self._doubts.add(entry, f"{body['name']} was on the list already")

    def _came_off(self, body: Mapping[str, Any], there: OpenItem | None) -> None:
        """Count what came off by its group, and as what it has a name."""
        group = there.group if there is not None else body["group"]
        self._off[group] += max(0, body["count"] - (there.off if there is not None else 0))
        named = self._named.setdefault(group, {})
        named[body["item"]] = max(named.get(body["item"], 0), body["count"])
        known = self._due.get(group, body["due_before"])
        self._due[group] = min(known, body["due_before"], key=MILESTONES.index)

    def take_off(self, entry: Entry) -> None:
        """An item leaves a list; what was not on it, or went to a place not its own, is in doubt.

        Of several in a bag so many may go back: the others stay on the list.
        """
        item, items = entry.body["item"], self._lists[CLOSES[entry.kind]]
        there = items.get(item)
        if there is None:
            self._doubts.add(entry, f"it closes {item}, which was not open")
            return
        if entry.kind == "refitted":
            self._went_back(entry, there)
            return
        del items[item]
        if entry.kind == "provisional-cleared":
            self._final[item] = there

    def _went_back(self, entry: Entry, there: OpenItem) -> None:
        items, back = self._lists["left over"], entry.body["count"]
        back = there.off if back is None else back
        if back < there.off:
            items[there.item] = replace(there, off=there.off - back)
        else:
            del items[there.item]
        if back > there.off:
            more = f"{back} of {there.name} went back, and only {there.off} were off: whose are the others?"
            self._doubts.add(entry, more, settled_by=subject(entry))
        self._on[there.group] += min(back, there.off)
        place = entry.body["place"]
        if place and there.where and place != there.where:
            why = f"{there.name} came from place {there.where}, went to {place}"
            self._doubts.add(entry, why, settled_by=subject(entry))

    def items(self, name: str) -> Mapping[str, OpenItem]:
        """One list as it stands."""
        return as_it_is(self._lists[name])

    def made_final(self) -> Mapping[str, OpenItem]:
        """What was left loose on purpose, and is said to be final."""
        return as_it_is(self._final)

    def counts(self) -> Mapping[str, Count]:
        """What came off and what is back, by group."""
        return MappingProxyType(
            {
                group: Count(
                    self._off[group], self._on[group], sum(self._named[group].values()), self._due[group]
                )
                for group in sorted(self._off)
            }
        )


def _item(entry: Entry) -> OpenItem:
    body = entry.body
    return OpenItem(
        entry=entry.id,
        item=body["item"],
        name=body["name"],
        where=body.get("where") or body.get("place") or "",
        why=body.get("why", ""),
        due_before=body["due_before"],
        due_task=body.get("due_task", ""),
        since=entry.device_time,
        group=body.get("group", ""),
        joint=body.get("joint"),
        off=body.get("count", 1),
        of=body.get("count", 1),
        bag=body.get("bag") or "",
        holds=body.get("holds", "nothing"),
    )
