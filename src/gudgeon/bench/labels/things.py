"""What has a label: everything that ever came off, every opening that was plugged, and the bolts of every joint."""

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.open_lists import several
from gudgeon.bench.pin_items import pin_of_item
from gudgeon.bench.progress import progress
from gudgeon.bench.pull_list import state_words
from gudgeon.bench.reason import when
from gudgeon.book.entries import Entry
from gudgeon.book.state import OpenItem
from gudgeon.calc.labels.codes import CODES, SIGNS, code_of

_ON = {"taken-off": "left over", "plugged": "plugged"}
_STATE = {"left over": "left_over", "plugged": "plugged"}
_BACK = {"refitted": "left over", "opened": "plugged"}
_JOINTS_FROM = 20 * len(SIGNS) ** 4
"""Codes from here on are of joints, those below of what the book names: a thing that comes off later never takes the
code of a bag that has its label already."""


@dataclass(frozen=True, slots=True)
class Label:
    """One thing with a label.

    `family` is the list that it is on, or `joint`; `number` the place or the bag, empty where it has none. `open` says
    whether it is off, plugged or apart now, `state` since when in words, `since` the day alone. `photo` and `pin` show
    it, where one does.
    """

    code: str
    family: str
    key: str
    kind: str
    number: str
    what: str
    where: str
    state: str
    open: bool
    since: str = ""
    photo: str = ""
    pin: int = 0

    @property
    def close_with(self) -> str:
        """What to type when it goes back, or when work at the joint goes on; nothing where nothing is open."""
        typed = {
            "left over": "gudgeon record refitted",
            "plugged": "gudgeon record opened",
            "joint": "gudgeon tighten",
        }
        return f"{typed[self.family]} {self.key}" if self.open else ""


@dataclass(frozen=True, slots=True)
class _Known:
    """What the entries of the book say of one thing: its last body, and when it went back last."""

    body: Mapping[str, object]
    struck: bool
    back: str = ""


def labeled(bench: Bench) -> tuple[Label, ...]:
    """Everything that has a code in this build, in the order in which the book came to know it; then the joints."""
    known = _known(bench)
    of_book = [f"{family} {key}" for family, key in known]
    codes = dict(zip(known, _codes(bench, of_book, first=0, span=_JOINTS_FROM), strict=True))
    joints = list(bench.sheet.joints)
    made = [
        _of_entry(bench, family, key, code=codes[family, key], known=one)
        for (family, key), one in known.items()
    ]
    of_joints = _codes(
        bench, [f"joint {key}" for key in joints], first=_JOINTS_FROM, span=CODES - _JOINTS_FROM
    )
    return (*made, *(_of_joint(bench, key, code=code) for key, code in zip(joints, of_joints, strict=True)))


def _codes(bench: Bench, things: list[str], *, first: int, span: int) -> Iterator[str]:
    """A code for each, from the first entry of the build and what the thing is called; none twice."""
    book = f"{bench.build} {entries_of(bench)[0].hash}"
    given: set[int] = set()
    for thing in things:
        turn = 0
        while (number := first + _drawn(f"{book}\n{thing}\n{turn}") % span) in given:
            turn += 1
        given.add(number)
        yield code_of(number)


def _drawn(text: str) -> int:
    return int.from_bytes(hashlib.sha256(text.encode("utf-8")).digest()[:8], "big")


def _known(bench: Bench) -> dict[tuple[str, str], _Known]:
    """What came off or was plugged, by list and key, in the order of the chain.

    What was struck stays among them: its code is never given to another thing.
    """
    found: dict[tuple[str, str], _Known] = {}
    struck = bench.state.struck
    for entry in entries_of(bench):
        if entry.kind in _ON:
            at = (_ON[entry.kind], str(entry.body["item"]))
            there = found.get(at)
            if there is None or there.struck or entry.id not in struck:
                found[at] = _Known(entry.body, entry.id in struck, there.back if there else "")
        elif entry.kind in _BACK and entry.id not in struck:
            _went_back(found, entry)
    return found


def _went_back(found: dict[tuple[str, str], _Known], entry: Entry) -> None:
    at = (_BACK[entry.kind], str(entry.body["item"]))
    if at in found:
        found[at] = _Known(found[at].body, found[at].struck, entry.device_time)


def _of_entry(bench: Bench, family: str, key: str, *, code: str, known: _Known) -> Label:
    item: OpenItem | None = getattr(bench.state, _STATE[family]).get(key)
    body = known.body
    photo, pin = pin_of_item(bench, key) if family == "left over" else ("", 0)
    place, bag = str(body.get("place") or ""), str(body.get("bag") or "")
    where = str(body["where"]) if family == "plugged" else _goes(place, bag, int(str(body.get("count") or 1)))
    return Label(
        code,
        family,
        key,
        "plug" if family == "plugged" else str(body["group"]),
        place or bag,
        str(body["name"]),
        where,
        _state(item, family, known),
        open=item is not None,
        since=f"{datetime.fromisoformat(item.since):%b %d}" if item is not None else "",
        photo=photo,
        pin=pin,
    )


def _goes(place: str, bag: str, count: int) -> str:
    """Where it goes, as far as the book knows, how many there are, and the bag they lie in."""
    many = f"{count} in all" if count > 1 else ""
    goes = f"place {place}" if place else ""
    return ", ".join(filter(None, (goes, many, f"bag {bag}" if bag else "")))


def _state(item: OpenItem | None, family: str, known: _Known) -> str:
    if item is not None:
        since = when(datetime.fromisoformat(item.since))
        many = several(item) if item.off < item.of else ""
        return (
            f"plugged since {since}"
            if family == "plugged"
            else ", ".join(filter(None, (f"off since {since}", many)))
        )
    if known.struck:
        return "the entry that named it was struck"
    word = "open again" if family == "plugged" else "back on"
    return f"{word} since {when(datetime.fromisoformat(known.back))}" if known.back else word


def _of_joint(bench: Bench, key: str, *, code: str) -> Label:
    joint = bench.sheet.joints[key]
    found = progress(joint, bench.state.joints.get(key))
    count = len(joint.bolt_names)
    many = "1 place" if count == 1 else f"{count} places"
    return Label(
        code,
        "joint",
        key,
        "joint",
        "",
        joint.name,
        f"joint with {many}",
        state_words(joint, found),
        not found.complete,
    )
