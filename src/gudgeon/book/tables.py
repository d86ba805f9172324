"""The entries of a build as tables for a spreadsheet: RFC 4180, UTF-8, units in a column of their own.

A spreadsheet may run a text that begins with = + - or @ as a formula. Such a text gets an apostrophe before it, and so
does one that begins with an apostrophe, so that taking the first one away gives back what was written. A plain number
is never touched: -0.02 stays -0.02.
"""

import csv
import io
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from gudgeon.book.entries import Entry
from gudgeon.book.fold import fold

TABLES: dict[str, tuple[str, ...]] = {
    "readings": ("reading", "odometer-read", "identity-read"),
    "faces": ("face-scanned",),
    "pulls": ("pull", "bolt-loosened"),
    "joints": ("joint-marked", "joint-witnessed", "joint-disturbed", "tightened-again", "looked"),
    "holds": ("hold-proved", "hold-voided"),
    "lists": (
        "provisional-made", "provisional-cleared", "left-in", "taken-out", "plugged", "opened", "taken-off",
        "refitted", "counted", "explained",
    ),
    "timers": ("timer-started", "sealant-laid", "timer-ended"),
    "tasks": ("task-started", "task-paused", "task-done", "paused", "signed-off"),
    "engine": ("engine-state", "turned", "inspected", "override"),
    "parts": ("part-disposition", "part-received", "shop-out", "shop-back", "accepted"),
    "money": ("money",),
    "agreed": ("cost-expected", "estimate-told", "ceiling-agreed", "approval"),
    "plan": (
        "job-chosen", "task-added", "task-dropped", "task-minutes", "task-order", "day-planned", "promised",
    ),
    "buying": ("part-ordered", "price-seen", "part-age", "part-life"),
    "photos": ("photo",),
    "notes": ("note", "build-opened", "strike"),
}  # fmt: skip
OTHER = "other"
"""Where an entry of any other kind stands, its body as JSON, so that no entry is left out of the tables."""

_AROUND = ("number", "id", "kind", "struck", "made", "stored", "who", "device")
_UNITS = {
    "angle_deg": ("angle", "°"),
    "minutes": ("duration", "min"),
    "minutes_ago": ("ago", "min"),
    "open_minutes": ("open_time", "min"),
    "cure_minutes": ("cure", "min"),
    "width": ("width", "px"),
    "height": ("height", "px"),
}
"""Fields whose unit is in their name."""
_SAID_WITH_UNIT = ("setting",)
"""Fields in which a person's figure stands together with its unit."""
_COUNTED = ("points",)
"""Fields that are too long for a cell: how many they hold stands there, and `entries.jsonl` has them all."""
_TABLE_OF = {kind: name for name, kinds in TABLES.items() for kind in kinds}
_PLAIN = re.compile(r"[+-]?\d+(\.\d+)?", re.ASCII)
_FIGURE = re.compile(r"([+-]?\d+(?:\.\d+)?)\s*([^\d\s].*)", re.ASCII)
_RUNS = ("=", "+", "-", "@", "\t", "\r", "\n", "'", "＝", "＋", "－", "＠")


def tables(entries: Sequence[Entry]) -> Iterator[tuple[str, bytes]]:
    """The tables of a build that have something in them, by their names."""
    struck = {key: one.why for key, one in fold(entries).struck.items()}
    sorted_out: dict[str, list[Entry]] = {}
    for entry in entries:
        sorted_out.setdefault(_TABLE_OF.get(entry.kind, OTHER), []).append(entry)
    for name in (*TABLES, OTHER):
        if name in sorted_out:
            yield name, _table(name, sorted_out[name], struck)


def safe(cell: str) -> str:
    """A cell that no spreadsheet runs as a formula; a plain number as it is."""
    if (
        cell[:1].isalnum()
        or _PLAIN.fullmatch(cell)
        or not (cell.startswith(_RUNS) or cell.lstrip().startswith(_RUNS))
    ):
        return cell
    return f"'{cell}"


def _table(name: str, entries: Sequence[Entry], struck: Mapping[str, str]) -> bytes:
    columns = _columns(name, entries)
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([*_AROUND, *columns])
    for entry in entries:
        cells = _cells(name, entry.body)
        around = (
            str(entry.number), entry.id, entry.kind, _struck(entry, struck), entry.device_time, entry.server_time,
            entry.who, entry.device,
        )  # fmt: skip
        writer.writerow([safe(cell) for cell in (*around, *(cells.get(column, "") for column in columns))])
    return text.getvalue().encode()


def _struck(entry: Entry, struck: Mapping[str, str]) -> str:
    return f"yes: {struck[entry.id]}" if entry.id in struck else ""


def _columns(name: str, entries: Sequence[Entry]) -> list[str]:
    """The columns after the common ones: every field that a body of these kinds has, once.

    Columns of a later version stand behind those of the first, and only where an entry has them: the tables of a book
    that was given out before are the same for ever.
    """
    from gudgeon.book.bodies import known_bodies

    if name == OTHER:
        return ["body"]
    there = {(entry.kind, entry.version) for entry in entries}
    known = known_bodies()
    first = [known[kind, 1] for kind in TABLES[name] if (kind, 1) in known]
    later = [
        model for key, model in sorted(known.items(), key=lambda one: one[0]) if key[1] > 1 and key in there
    ]
    fields = (field for model in (*first, *later) for field in model.model_fields)
    found = [column for field in dict.fromkeys(fields) for column in _names(field)]
    return list(dict.fromkeys(found))


@cache
def _names(field: str) -> tuple[str, ...]:
    if field in _UNITS:
        return _UNITS[field][0], f"{_UNITS[field][0]}_unit"
    if field in _SAID_WITH_UNIT:
        return field, f"{field}_unit"
    return (_renamed(field),)


def _renamed(field: str) -> str:
    """A field that is called as one of the common columns is the body's own."""
    return f"{field}_said" if field in _AROUND else field


def _cells(name: str, body: Mapping[str, Any]) -> dict[str, str]:
    """The cells of a body by the names of their columns."""
    if name == OTHER:
        return {"body": json.dumps(body, ensure_ascii=False, sort_keys=True)}
    cells: dict[str, str] = {}
    for field, value in body.items():
        text = f"{len(value)}" if field in _COUNTED else _text(value)
        names = _names(field)
        if field in _UNITS:
            cells.update(zip(names, (text, _UNITS[field][1] if text else ""), strict=True))
        elif field in _SAID_WITH_UNIT and (figure := _FIGURE.fullmatch(text)):
            cells.update(zip(names, figure.groups(), strict=True))
        else:
            cells[names[0]] = text
    return cells


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str | int):
        return str(value)
    return json.dumps(value, ensure_ascii=False, sort_keys=True) if value else ""
