"""Pins: numbered places on a photo, set with it or later, and what of them came off the engine.

The book only grows: who names things afterwards writes the photo once more with its pins, and the latest that stands
counts. A piece that came off under a pin has a key made of the photo and the number, so each leads to the other.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal, InvalidOperation
from typing import Any

from gudgeon.bench.context import Bench
from gudgeon.bench.pin_errors import (
    NoSuchPin,
    PinNumberTwice,
    PinNumberUnread,
    PinOffThePhoto,
    PinStillOff,
    PinWithoutWords,
    TooManyPins,
)
from gudgeon.bench.pin_items import item_key, standing_photo
from gudgeon.bench.record import Recorded, record, record_many

MOST_PINS = 60
MOST_NUMBER = 999
_GROUPS = (
    ("connector", ("connector", "plug", "socket", "sensor", "wire", "loom", "harness")),
    ("hose", ("hose", "pipe", "tube", "line", "vacuum")),
    ("strap", ("strap", "cable", "earth", "ground")),
    ("bracket", ("bracket", "clamp", "mount", "support")),
    ("bolt", ("bolt", "nut", "screw", "stud", "bolts", "nuts", "screws", "studs")),
    ("cover", ("cover", "shield", "guard", "lid", "cap")),
)
"""Words by which a kind of thing is offered; whoever took it off may choose another."""


@dataclass(frozen=True, slots=True)
class PinSaid:
    """A pin as it was typed or tapped: its place in percent across and down, from the top left corner."""

    number: str
    across: str
    down: str
    text: str


def pins_said(said: Sequence[PinSaid]) -> list[dict[str, Any]]:
    """Pins as they go into the book, by their numbers; places in thousandths of the picture."""
    if len(said) > MOST_PINS:
        raise TooManyPins(len(said), MOST_PINS)
    found: dict[int, dict[str, Any]] = {}
    for one in said:
        number, text = _number(one.number), one.text.strip()
        if not text:
            raise PinWithoutWords(str(number))
        if number in found:
            raise PinNumberTwice(number, found[number]["text"], text)
        x, y = _share(one, one.across, "across"), _share(one, one.down, "down")
        found[number] = {"number": number, "x": x, "y": y, "text": text}
    return [found[number] for number in sorted(found)]


def _number(said: str) -> int:
    plain = said.strip()
    if not (plain.isascii() and plain.isdecimal() and len(plain) <= 6 and 1 <= int(plain) <= MOST_NUMBER):
        raise PinNumberUnread(said, MOST_NUMBER)
    return int(plain)


def _share(one: PinSaid, said: str, side: str) -> int:
    """Percent as thousandths."""
    try:
        percent = Decimal(said.strip().removesuffix("%").strip().replace(",", "."))
        inside = percent.is_finite() and 0 <= percent <= 100
    except InvalidOperation:
        inside = False
    if not inside:
        raise PinOffThePhoto(one.number, said, side)
    return int((percent * 10).quantize(Decimal(1), rounding=ROUND_HALF_EVEN))


def write_pins(
    bench: Bench,
    sha: str,
    said: Sequence[PinSaid],
    *,
    caption: str = "",
    entry_id: str | None = None,
    basis: str | None = None,
) -> Recorded:
    """Write a photo once more, with these pins in place of those it had; what it is about stays."""
    photo = standing_photo(bench, sha)
    pins = pins_said(said)
    kept = {one["number"] for one in pins}
    for pin in photo.pins:
        item = bench.state.left_over.get(item_key(sha, _of(pin)))
        if item is not None and _of(pin) not in kept:
            raise PinStillOff(_of(pin), item.name)
    fields = {
        "sha": photo.sha,
        "type": photo.type,
        "width": photo.width,
        "height": photo.height,
        "taken": photo.taken,
        "caption": caption.strip() or photo.caption,
        "about": list(photo.about),
        "pins": pins,
    }
    return record(bench, "photo", fields, entry_id=entry_id, basis=basis)


def _of(pin: Mapping[str, object]) -> int:
    return int(str(pin["number"]))


def group_for(text: str) -> str:
    """The kind of thing that words speak of; a part where they speak of none."""
    words = re.findall(r"[a-z]+", text.lower())
    return next(
        (group for word in words for group, names in _GROUPS if word in names or word.rstrip("s") in names),
        "part",
    )


def take_off(
    bench: Bench,
    sha: str,
    numbers: Iterable[str],
    *,
    groups: Mapping[str, str],
    due: str = "crank",
    entry_id: str | None = None,
    basis: str | None = None,
) -> Recorded:
    """Put the pieces under some pins on the list of what came off, all of them or none; each keeps its number."""
    photo = standing_photo(bench, sha)
    pins = {str(_of(pin)): pin for pin in photo.pins}
    wanted = list(dict.fromkeys(numbers))
    strange = next((one for one in wanted if one not in pins), None)
    if strange is not None or not wanted:
        raise NoSuchPin(strange or "at all", f"“{photo.caption}”", ", ".join(pins) or "none")
    entries = [
        (
            "taken-off",
            {
                "item": item_key(photo.sha, int(one)),
                "group": groups.get(one) or group_for(str(pins[one]["text"])),
                "name": str(pins[one]["text"]),
                "place": one,
                "count": 1,
                "bag": None,
                "due_before": due,
            },
        )
        for one in wanted
    ]
    return record_many(bench, entries, entry_id=entry_id, basis=basis)
