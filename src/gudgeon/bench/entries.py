"""The entries of a build as a list to read."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench, entries_of, entry_of
from gudgeon.bench.entry_words import OWN_WORDS
from gudgeon.bench.holds import all_holds
from gudgeon.bench.network import title_of
from gudgeon.bench.reason import written_at
from gudgeon.book.entries import Entry
from gudgeon.book.fold_lists import CLOSES, OPENS


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
    device: str = ""


@dataclass(frozen=True, slots=True)
class EntryList:
    """The entries of a build and the head of its chain."""

    heading: Heading
    lines: tuple[EntryLine, ...]
    head: str


def listed(bench: Bench, *, last: int | None = None, before: int = 0) -> EntryList:
    """Every entry, or the last so many; of these only those that stand before the last `before` of all."""
    entries = entries_of(bench)
    upto = max(0, len(entries) - before)
    chosen = entries[max(0, upto - last) if last else 0 : upto]
    names = item_names(entries)
    lines = tuple(entry_line(bench, one, names=names) for one in chosen)
    return EntryList(bench.heading("What was done?"), lines, bench.state.head)


def line_of(bench: Bench, entry_id: str) -> EntryLine:
    """One entry of the build, by its whole id."""
    entries = entries_of(bench)
    one = next(one for one in entries if one.id == entry_id)
    return entry_line(bench, one, names=item_names(entries))


def entry_line(bench: Bench, one: Entry, *, names: Mapping[tuple[str, str], str]) -> EntryLine:
    """One entry as a line of the list; `names` are those of the things on the open lists."""
    struck = bench.state.struck.get(one.id)
    return EntryLine(
        one.number,
        one.id,
        written_at(one.device_time),
        one.who,
        one.kind.replace("-", " "),
        entry_words(bench, one, names=names).partition(": ")[2],
        f"struck: {struck.why}" if struck is not None else "",
        one.device,
    )


def entry_words(bench: Bench, one: Entry, *, names: Mapping[tuple[str, str], str] | None = None) -> str:
    """What an entry says, in a line: things by their names, names before values, every value with its unit.

    `names` are those of the things on the open lists, for entries that name them by their short names.
    """
    body = {name: value for name, value in one.body.items() if name != "doing"}
    kind = one.kind.replace("-", " ")
    if one.kind in ("pull", "bolt-loosened"):
        return _pull_words(bench, kind, body)
    if one.kind == "reading":
        return _reading_words(bench, body)
    if one.kind in TASK_KINDS:
        body = {**body, "task": title_of(body["task"], sheet=bench.sheet, state=bench.state)}
        if body.get("minutes"):
            body["minutes"] = f"{body['minutes']} min"
    if one.kind in OWN_WORDS:
        return f"{kind}: {OWN_WORDS[one.kind](bench, body)}"
    body = _named(bench, one.kind, body, names or {})
    said = [body.get(key) for key in _ORDER.get(one.kind, tuple(body))]
    return f"{kind}: {', '.join(str(value) for value in said if value not in (None, '', [], True, False))}"


def item_names(entries: Iterable[Entry]) -> dict[tuple[str, str], str]:
    """What the things on the open lists are called, by the list and the short name."""
    return {(OPENS[one.kind], one.body["item"]): one.body["name"] for one in entries if one.kind in OPENS}


def _named(
    bench: Bench, kind: str, body: Mapping[str, Any], names: Mapping[tuple[str, str], str]
) -> dict[str, Any]:
    """The body with names in place of keys; a key that nothing is known of stays as it is."""
    named = dict(body)
    if kind in ("joint-marked", "joint-disturbed", "joint-witnessed", "tightened-again"):
        named["joint"] = _joint_name(bench, body["joint"])
    if kind in ("hold-proved", "hold-voided") and body["hold"] in all_holds():
        named["hold"] = all_holds()[body["hold"]].name
    if kind == "hold-proved" and body.get("photo"):
        named["photo"] = f"with photo {body['photo'][:8]}"
    if kind in ("looked", "inspected"):
        entry = entry_of(bench, body["entry"])
        named["entry"] = f"entry {entry.number}" if entry is not None else body["entry"][:8]
    if kind == "looked":
        named["as_recorded"] = "as it was recorded" if body["as_recorded"] else "NOT as it was recorded"
    if kind == "strike":
        entry = entry_of(bench, body["entry"])
        named["entry"] = _struck_words(bench, entry, names) if entry is not None else body["entry"][:8]
    if kind in CLOSES:
        named["item"] = names.get((CLOSES[kind], body["item"]), body["item"])
    if kind == "timer-ended" and body["timer"] in bench.state.timers:
        named["timer"] = bench.state.timers[body["timer"]].name
    if kind == "accepted":
        key, _, place = str(body["what"]).partition(" ")
        if key in bench.sheet.characteristics or key in bench.sheet.joints:
            named["what"] = ", ".join(filter(None, [_item_name(bench, key), place]))
    return named


def _struck_words(bench: Bench, entry: Entry, names: Mapping[tuple[str, str], str]) -> str:
    return f"entry {entry.number} ({brief(entry_words(bench, entry, names=names))})"


def brief(words: str) -> str:
    """Words of an entry where others are told of it: what is longer stands whole in the book."""
    return words if len(words) <= MOST_LETTERS else f"{words[:MOST_LETTERS].rstrip()}…"


def _joint_name(bench: Bench, key: str) -> str:
    joint = bench.sheet.joints.get(key)
    return joint.name if joint is not None else key


def _item_name(bench: Bench, key: str) -> str:
    item = bench.sheet.characteristics.get(key)
    return item.name if item is not None else _joint_name(bench, key)


MOST_LETTERS = 200
TASK_KINDS = ("task-started", "task-paused", "task-done")
_ORDER = {
    "build-opened": ("engine",),
    "identity-read": ("code", "read_from", "why_not"),
    "joint-marked": ("joint", "how"),
    "joint-witnessed": ("joint", "by", "seen"),
    "provisional-made": ("name", "why", "due_task"),
    "provisional-cleared": ("item", "how"),
    "left-in": ("name", "where"),
    "plugged": ("name", "where"),
    "taken-off": ("group", "name", "place"),
    "hold-proved": ("hold", "value", "photo"),
    "photo": ("caption",),
    "tightened-again": ("joint", "seen"),
    "accepted": ("what", "by", "why"),
    "paused": ("hand", "next_action"),
    "strike": ("entry", "why"),
    "looked": ("entry", "as_recorded", "seen"),
    "task-paused": ("task", "why"),
    "task-done": ("task", "minutes", "note"),
}


def _pull_words(bench: Bench, kind: str, body: Mapping[str, Any]) -> str:
    tool = bench.kit.wrenches.get(body["tool"]) or bench.kit.turning.get(body["tool"])
    with_what = tool.name if tool is not None else str(body["tool"])
    shown = body.get("shown", {})
    if shown.get("adapter"):
        with_what += f" with {shown['adapter']},"
    angle = f" {body['angle_deg']}°" if body.get("angle_deg") else ""
    said = [
        f"{kind}: {_joint_name(bench, body['joint'])}, bolt {body['bolt']}, stage {shown.get('stage', body['stage'])}",
        f"{shown.get('kind', '')} {shown.get('target', '')}".strip(),
        f"{body['outcome']}{angle}",
        f"{with_what} set to {body['setting']}" if body.get("setting") else with_what,
        str(body["why"]),
    ]
    return ", ".join(part for part in said if part)


def _reading_words(bench: Bench, body: Mapping[str, Any]) -> str:
    gauge = bench.kit.gauges.get(body["instrument"])
    if body["value"] is not None:
        value = f"{body['value']} {body['unit']}"
    else:
        low = f"{body['low']} {body['unit']} enters" if body["low"] is not None else ""
        high = f"{body['high']} {body['unit']} does not enter" if body["high"] is not None else ""
        value = ", ".join(part for part in (low, high) if part)
    said = [
        "reading: " + _item_name(bench, body["item"]),
        body["place"],
        value,
        *how_read(body),
        body["condition"],
        gauge.name if gauge is not None else body["instrument"],
        body["note"],
    ]
    return ", ".join(part for part in said if part)


def how_read(body: Mapping[str, Any]) -> tuple[str, ...]:
    """Of how many readings a reading is the mean, and how warm part and gauge were; what was not noted is left out."""
    repeats = body.get("repeats", ())
    mean = f"the mean of {len(repeats)}: {', '.join(repeats)}" if repeats else ""
    return tuple(filter(None, (mean, _warmth_words(body))))


def _warmth_words(body: Mapping[str, Any]) -> str:
    """How warm part and gauge were, where it was noted."""
    unit, part, gauge = (
        body.get(name) for name in ("temperature_unit", "part_temperature", "gauge_temperature")
    )
    if unit is None:
        return ""
    said = [
        f"part at {part} {unit}" if part is not None else "",
        f"gauge at {gauge} {unit}" if gauge is not None else "",
    ]
    return " and ".join(filter(None, said)) + (", gauge as warm" if body.get("gauge_as_part") else "")
