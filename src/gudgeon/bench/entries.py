"""The entries of a build as a list to read, and the verification of the book."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench, clock
from gudgeon.bench.errors import NoBook
from gudgeon.bench.network import job
from gudgeon.book.entries import Entry
from gudgeon.book.sqlite import open_book


@dataclass(frozen=True, slots=True)
class EntryLine:
    """One entry, in words."""

    number: int
    id: str
    when: str
    who: str
    kind: str
    what: str
    struck: str


@dataclass(frozen=True, slots=True)
class EntryList:
    """The entries of a build and the head of its chain."""

    heading: Heading
    lines: tuple[EntryLine, ...]
    head: str


@dataclass(frozen=True, slots=True)
class Verified:
    """What the verification of a book found: every chain, with its head."""

    entries: int
    heads: dict[str, str]
    problems: tuple[str, ...]


def listed(bench: Bench, *, last: int | None = None) -> EntryList:
    """Every entry, or the last so many."""
    entries = list(bench.store.entries(bench.build))
    chosen = entries[-last:] if last else entries
    lines = tuple(_line(bench, one) for one in chosen)
    return EntryList(bench.heading("What was done?"), lines, bench.state.head)


def _line(bench: Bench, one: Entry) -> EntryLine:
    struck = bench.state.struck.get(one.id)
    return EntryLine(
        one.number,
        one.id,
        datetime.fromisoformat(one.device_time).astimezone().strftime("%Y-%m-%d %H:%M"),
        one.who,
        one.kind.replace("-", " "),
        entry_words(bench, one).partition(": ")[2],
        f"struck: {struck.why}" if struck is not None else "",
    )


def entry_words(bench: Bench, one: Entry) -> str:
    """What an entry says, in a line: names before values, every value with its unit."""
    body, kind = one.body, one.kind.replace("-", " ")
    if one.kind == "pull":
        return _pull_words(body)
    if one.kind == "reading":
        return _reading_words(body)
    if one.kind in TASK_KINDS:
        body = {**body, "task": job().title(body["task"], sheet=bench.sheet)}
        if body.get("minutes"):
            body["minutes"] = f"{body['minutes']} min"
    said = [body.get(key) for key in _ORDER.get(one.kind, tuple(body))]
    return f"{kind}: {', '.join(str(value) for value in said if value not in (None, '', [], True, False))}"


TASK_KINDS = ("task-started", "task-paused", "task-done")
_ORDER = {
    "build-opened": ("engine",),
    "identity-read": ("code", "read_from", "why_not"),
    "joint-marked": ("joint", "how"),
    "provisional-made": ("name", "why", "due_task"),
    "provisional-cleared": ("item", "how"),
    "left-in": ("name", "where"),
    "plugged": ("name", "where"),
    "taken-off": ("group", "name", "place"),
    "hold-proved": ("hold", "value"),
    "timer-started": ("name", "why"),
    "accepted": ("what", "by", "why"),
    "paused": ("hand", "next_action"),
    "strike": ("why",),
    "task-paused": ("task", "why"),
    "task-done": ("task", "minutes", "note"),
}


def _pull_words(body: Mapping[str, Any]) -> str:
    shown = body.get("shown", {})
    angle = f" {body['angle_deg']}°" if body["angle_deg"] else ""
    said = [
        f"pull: {body['joint']}, bolt {body['bolt']}, stage {shown.get('stage', body['stage'])}",
        f"{shown.get('kind', '')} {shown.get('target', '')}".strip(),
        f"{body['outcome']}{angle}",
        f"{body['tool']} set to {body['setting']}" if body["setting"] else str(body["tool"]),
        str(body["why"]),
    ]
    return ", ".join(part for part in said if part)


def _reading_words(body: Mapping[str, Any]) -> str:
    if body["value"] is not None:
        value = f"{body['value']} {body['unit']}"
    else:
        low = f"{body['low']} {body['unit']} enters" if body["low"] is not None else ""
        high = f"{body['high']} {body['unit']} does not enter" if body["high"] is not None else ""
        value = ", ".join(part for part in (low, high) if part)
    said = [
        "reading: " + str(body["item"]),
        body["place"],
        value,
        body["condition"],
        body["instrument"],
        body["note"],
    ]
    return ", ".join(part for part in said if part)


def verified(book: Path) -> Verified:
    """Check every chain of a book; its sheet and kit are not needed for it."""
    if not book.exists():
        raise NoBook(str(book))
    store = open_book(book, clock=clock)
    try:
        builds = store.builds()
        entries = sum(len(store.entries(build)) for build in builds)
        heads = {build: store.head(build) for build in builds}
        return Verified(entries, heads, tuple(str(problem) for problem in store.verify()))
    finally:
        store.close()
