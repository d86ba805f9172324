"""What an entry says in words of ours alone, and which of its fields hold words of his own.

A shared page is made of the first; the second go in one entry at a time, when he names it. A kind that is in neither
table says nothing but its name: what is added to the book later stays out until somebody has looked at it.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from gudgeon.bench.codes import same_code
from gudgeon.bench.context import Bench, entry_of
from gudgeon.bench.holds import all_holds
from gudgeon.bench.network import known_task, title_of
from gudgeon.bench.timers import grouped
from gudgeon.book.entries import Entry
from gudgeon.errors import GudgeonError
from gudgeon.quantity.written import parse_printed

Body = Mapping[str, Any]

PRICES = frozenset((
    "money", "cost-expected", "estimate-told", "ceiling-agreed", "approval", "part-ordered", "price-seen", "part-life",
))  # fmt: skip
"""Kinds that are about money: out as a whole, unless prices were chosen."""
PLANS = frozenset((
    "task-added", "task-dropped", "task-minutes", "task-order", "day-planned", "promised", "part-age", "job-chosen",
))  # fmt: skip
"""Kinds that say what was meant to be, not what was done: always out."""
NUMBERS = frozenset(("odometer-read",))
"""Kinds that are nothing but a number by which a car could be known."""

OWN: Mapping[str, tuple[str, ...]] = {
    "identity-read": ("read_from", "why_not"),
    "reading": ("note",),
    "face-scanned": ("note",),
    "pull": ("why",),
    "bolt-loosened": ("why",),
    "joint-marked": ("how",),
    "joint-disturbed": ("why",),
    "joint-witnessed": ("seen",),
    "tightened-again": ("seen",),
    "looked": ("seen",),
    "provisional-made": ("name", "why", "due_task"),
    "provisional-cleared": ("how",),
    "left-in": ("name", "where"),
    "plugged": ("name", "where"),
    "taken-off": ("name", "place", "bag"),
    "counted": ("note",),
    "explained": ("what", "why"),
    "hold-proved": ("value",),
    "hold-voided": ("why",),
    "timer-started": ("name", "why"),
    "timer-ended": ("how",),
    "sealant-laid": ("why",),
    "task-paused": ("why",),
    "task-done": ("note",),
    "part-disposition": ("part", "why"),
    "part-received": ("part", "note"),
    "shop-out": ("part", "ordered", "most_off"),
    "shop-back": ("part", "found"),
    "accepted": ("why",),
    "paused": ("hand", "next_action"),
    "note": ("text",),
    "engine-state": ("seen",),
    "turned": ("seen",),
    "inspected": ("found",),
    "override": ("why",),
    "signed-off": ("words",),
    "strike": ("why",),
    "money": ("what", "part"),
    "cost-expected": ("what", "basis"),
    "estimate-told": ("note",),
    "ceiling-agreed": ("note",),
    "approval": ("what", "note"),
    "part-ordered": ("part", "note"),
    "price-seen": ("part", "article"),
    "part-life": ("part", "basis"),
}
"""The fields that a person writes freely: nobody knows what stands in them but he."""


def deed(bench: Bench, one: Entry) -> str:
    """What was done, by an entry, in words of the program and of the data sheet alone."""
    if one.kind == "taken-off":
        return off_words((one,))
    said = _DEEDS.get(one.kind)
    words = said(bench, one.body) if said is not None else one.kind.replace("-", " ")
    return f"{words[:1].upper()}{words[1:]}"


def own_words(one: Entry) -> str:
    """What he wrote freely in an entry; empty where there is nothing."""
    return ", ".join(filter(None, _own(one)))


def _own(one: Entry) -> Iterator[str]:
    for field in OWN.get(one.kind, ()):
        said = one.body.get(field)
        if isinstance(said, str):
            yield said.strip()


def joint_name(bench: Bench, key: Any) -> str:
    """A joint as the sheet calls it; one that it no longer has is a joint."""
    joint = bench.sheet.joints.get(str(key))
    return joint.name if joint is not None else "a joint"


def part_name(bench: Bench, said: Any) -> str:
    """A part where the data sheet calls it so; what he calls otherwise is a part."""
    known = {item.part.casefold(): item.part for item in bench.sheet.characteristics.values()}
    known |= {joint.name.casefold(): joint.name for joint in bench.sheet.joints.values()}
    known |= {part.name.casefold(): part.name for part in bench.sheet.parts.values()}
    return known.get(str(said).casefold(), "a part")


def _joint(words: str) -> Callable[[Bench, Body], str]:
    return lambda bench, body: f"{joint_name(bench, body['joint'])}: {words}"


def _plain(words: str) -> Callable[[Bench, Body], str]:
    return lambda bench, body: words


def _identity(bench: Bench, body: Body) -> str:
    fits = same_code(body["code"], bench.sheet.engine.codes)
    return "The engine code was read off the engine: " + (
        "the data sheet is for it" if fits else "it is not the one of the data sheet"
    )


def _looked(bench: Bench, body: Body) -> str:
    entry = entry_of(bench, body["entry"])
    which = f"entry {entry.number}" if entry is not None else "what was done last"
    seen = "as it was recorded" if body["as_recorded"] else "NOT as it was recorded"
    return f"After a stop {which} was looked at: {seen}"


def _loose(bench: Bench, body: Body) -> str:
    return f"Left loose on purpose: {joint_name(bench, body['joint']) if body['joint'] else 'one thing'}"


_BEFORE = {
    "crank": "the starter turns it",
    "fire": "it fires",
    "drive": "it is driven",
    "handover": "it is handed over",
    "recall": "the recall",
}


def _due(words: str) -> Callable[[Bench, Body], str]:
    return lambda bench, body: f"{words}, to be undone before {_BEFORE[body['due_before']]}"


def off_words(entries: Iterable[Entry]) -> str:
    """How many of a kind came off, by one entry or several."""
    listed = tuple(entries)
    many = sum(int(one.body.get("count") or 1) for one in listed)
    return f"Taken off: {many} {listed[0].body['group']}{'' if many == 1 else 's'}"


def _counted(bench: Bench, body: Body) -> str:
    many = f"{body['count']} {body['group']}{'' if body['count'] == 1 else 's'}"
    return f"Counted: {many} {'as they came off' if body['when'] == 'off' else 'as they went back'}"


def _hold(words: str) -> Callable[[Bench, Body], str]:
    return lambda bench, body: f"{words}: {hold_name(body['hold'])}"


def hold_name(key: str) -> str:
    """What a hold is called."""
    found = all_holds().get(key)
    return found.name if found is not None else "a hold that this program does not know"


def _timer(bench: Bench, body: Body) -> str:
    long = f"{body['minutes']} min" if body["minutes"] is not None else "a distance to drive"
    kind = "a wait" if body["kind"] == "other" else f"a wait ({body['kind']})"
    return f"Begun: {kind}, {long}"


def _sealant(bench: Bench, body: Body) -> str:
    sealant = bench.sheet.sealants.get(body["sealant"])
    name = sealant.name if sealant is not None else "a sealant"
    waits = [
        f"{words} {body[field]} min"
        for words, field in (("together within", "open_minutes"), ("cures", "cure_minutes"))
        if body[field]
    ]
    return ", ".join((f"Sealant laid: {name} at {joint_name(bench, body['joint'])}", *waits))


def _task(words: str) -> Callable[[Bench, Body], str]:
    def said(bench: Bench, body: Body) -> str:
        shipped = known_task(body["task"]) is not None
        title = (
            title_of(body["task"], sheet=bench.sheet, state=bench.state)
            if shipped
            else "a task of this job alone"
        )
        minutes = f", {body['minutes']} min" if body.get("minutes") else ""
        return f"{words}: {title}{minutes}"

    return said


_DECISIONS = {
    "reuse": "goes back",
    "rework": "is reworked",
    "renew": "is renewed",
    "accept": "stays as it is",
}


def _disposition(bench: Bench, body: Body) -> str:
    if body["joint"]:
        which = "all fasteners" if body["bolt"] == "all" else f"fastener {body['bolt']}"
        known = bench.sheet.joints.get(body["joint"])
        which = which if known and body["bolt"] in ("all", *known.bolt_names) else "a fastener"
        return f"Decided: {joint_name(bench, body['joint'])}, {which} {_DECISIONS[body['decision']]}"
    return f"Decided: {part_name(bench, body['part'])} {_DECISIONS[body['decision']]}"


def _received(bench: Bench, body: Body) -> str:
    laid = ", laid against the old one" if body["compared"] else ""
    return f"Came: {part_name(bench, body['part'])}{laid}"


def _shop(words: str) -> Callable[[Bench, Body], str]:
    return lambda bench, body: f"{part_name(bench, body['part'])} {words}"


def _sent(bench: Bench, body: Body) -> str:
    said = f"{part_name(bench, body['part'])} went to the machine shop"
    try:
        most = parse_printed(body["most_off"] or "", kind="length_difference").text
    except GudgeonError:
        return said
    return f"{said}; at most {most} may come off"


def _accepted(bench: Bench, body: Body) -> str:
    key = body["what"].partition(" ")[0]
    item = bench.sheet.characteristics.get(key)
    name = item.name if item is not None else joint_name(bench, key)
    return f"Let be, outside its limit or in doubt: {name}"


def _engine_state(bench: Bench, body: Body) -> str:
    names = {"crank": "crankshaft", "cams": "camshafts", "pins": "timing pins", "holder": "crankshaft holder"}
    said = [
        f"{names.get(field, field)} {body[field]}"
        for field in ("crank", "cams", "belt", "pins", "holder", "followers")
        if body.get(field)
    ]
    return f"Looked at the engine: {', '.join(said)}"


def _turned(bench: Bench, body: Body) -> str:
    return f"The engine was turned {'by hand' if body['by'] == 'hand' else 'with the starter'}"


def _signed(bench: Bench, body: Body) -> str:
    return f"Signed for, before {_BEFORE[body['milestone']]}"


def _inspected(bench: Bench, body: Body) -> str:
    entry = entry_of(bench, body["entry"])
    return f"What an act against a gate had done was looked for{f' (entry {entry.number})' if entry else ''}"


def _strike(bench: Bench, body: Body) -> str:
    entry = entry_of(bench, body["entry"])
    return f"Struck as wrong: entry {entry.number}" if entry is not None else "Struck as wrong: an entry"


def _photo(bench: Bench, body: Body) -> str:
    return "A photo was taken"


def _range(words: str, fields: tuple[str, ...]) -> Callable[[Bench, Body], str]:
    def said(bench: Bench, body: Body) -> str:
        figures = [str(body[field]) for field in fields if body.get(field) is not None]
        return f"{words}: {' to '.join(figures)} {body['currency']}" if figures else words

    return said


def _odometer(bench: Bench, body: Body) -> str:
    return f"The odometer was read: {grouped(body['value'])} {body['unit']}"


_DEEDS: Mapping[str, Callable[[Bench, Body], str]] = {
    "build-opened": _plain("The book of this engine was begun"),
    "identity-read": _identity,
    "joint-marked": _joint("marked as finished"),
    "joint-disturbed": _joint("slackened or opened again"),
    "joint-witnessed": _joint("looked at a second time"),
    "tightened-again": _joint("tightened again, as the sheet wants it"),
    "looked": _looked,
    "provisional-made": _loose,
    "provisional-cleared": _plain("Something that was left loose is finished"),
    "left-in": _due("Put in for a time"),
    "taken-out": _plain("Taken out again"),
    "plugged": _due("An opening was closed"),
    "opened": _plain("An opening is open again"),
    "refitted": _plain("Put back"),
    "counted": _counted,
    "explained": _plain("A difference in the count was explained"),
    "hold-proved": _hold("Proved"),
    "hold-voided": _hold("No longer proved"),
    "timer-started": _timer,
    "timer-ended": _plain("A wait was over"),
    "sealant-laid": _sealant,
    "task-started": _task("Begun"),
    "task-paused": _task("Left standing"),
    "task-done": _task("Finished"),
    "part-disposition": _disposition,
    "part-received": _received,
    "shop-out": _sent,
    "shop-back": _shop("came back from the machine shop"),
    "accepted": _accepted,
    "paused": _plain("Work stopped here"),
    "note": _plain("A note"),
    "photo": _photo,
    "engine-state": _engine_state,
    "turned": _turned,
    "inspected": _inspected,
    "override": _plain("Something that was open or refused was let pass"),
    "signed-off": _signed,
    "strike": _strike,
    "odometer-read": _odometer,
    "money": _range("Spent or got back", ("amount",)),
    "cost-expected": _range("Expected cost", ("low", "high")),
    "estimate-told": _range("Estimate told", ("low", "high")),
    "ceiling-agreed": _range("Ceiling agreed", ("amount",)),
    "approval": lambda bench, body: _range(f"Asked about a cost: {body['answer']}", ("amount",))(bench, body),
    "part-ordered": _range("Part ordered", ("amount",)),
    "price-seen": _range("Price seen", ("price",)),
    "part-life": _range("What a failure of a part would cost", ("cost",)),
}
