"""The proof that it is timed: what of it is in the book, what is not, and what records each.

Nothing here decides whether the hold stands: `bench.holds` does, from what it rests on.
"""

import re
from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.gates import refusals
from gudgeon.bench.held_against import begins
from gudgeon.bench.holds import Hold, Standing, standings
from gudgeon.bench.reason import when
from gudgeon.bench.resting import Under, not_standing_among
from gudgeon.book.entries import Entry
from gudgeon.book.gates import TIMING_PROOF
from gudgeon.sheet.drive import Drive

PIN_OUT, TOOLS_OUT = "tensioner_pin_out", "locking_tools_out"
TURN = "turn by hand"
FULL_TURNS = 2.0
_NUMBERS = {"a": 1.0, "one": 1.0, "two": 2.0, "three": 3.0, "four": 4.0, "half": 0.5, "quarter": 0.25}
_TURNS = re.compile(
    r"\b(?P<number>\d+(?:\.\d+)?|half a|quarter of a|a quarter|one|two|three|four|a) "
    r"(?:(?:full|whole|complete|more|crank|crankshaft|and a half) )*(?P<what>turns?|revolutions?|rounds?)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class ProofPart:
    """One thing of the proof: how it stands (`proved`, `in doubt`, `not yet`), what the book says, what records it."""

    what: str
    state: str
    said: str
    do: str
    command: str


@dataclass(frozen=True, slots=True)
class Proof:
    """The whole proof. `answer` is what it comes to; `refused` says why the engine may not be turned by hand now.

    `first` is what the proof rests on and is not proved: as long as one of it is open, no word makes the proof stand.
    """

    answer: str
    stands: bool
    why_not: str
    parts: tuple[ProofPart, ...]
    refused: tuple[str, ...]
    command: str
    first: tuple[Under, ...] = ()


@dataclass(frozen=True, slots=True)
class _Turned:
    when: str
    seen: str


def proof(bench: Bench) -> Proof:
    """What of the proof is in the book."""
    found = {one.hold.id: one for one in standings(bench.sheet, bench.state)}
    timing = found.get(TIMING_PROOF)
    first = _first(bench, timing, found)
    on, turned = _since_belt_on(bench)
    parts = (*_turns(bench, timing, on, turned), *_out(bench, found))
    stands = timing is not None and timing.stands
    return Proof(
        "proved" if stands else "not proved",
        stands,
        "" if stands or timing is None else timing.why_not,
        parts,
        () if stands else tuple(f"{one.why}. {one.way_out}" for one in refusals(bench, (TURN,))),
        "" if stands else f"gudgeon record hold {TIMING_PROOF} VALUE",
        first,
    )


def _first(bench: Bench, timing: Standing | None, found: dict[str, Standing]) -> tuple[Under, ...]:
    """What is to be proved before the timing can be."""
    if timing is None or timing.stands:
        return ()
    return not_standing_among(timing.hold, found.values(), sheet=bench.sheet, state=bench.state)


def _since_belt_on(bench: Bench) -> tuple[str, tuple[_Turned, ...]]:
    """When belt, chain or gears went on last, and every turn by hand since; nothing while they are off."""
    on, turned = "", list[_Turned]()
    for entry in entries_of(bench):
        if entry.id in bench.state.struck:
            continue
        belt = _belt(entry)
        if belt is not None:
            on, turned = (entry.device_time, []) if belt == "on" else ("", [])
        if on and entry.kind == "turned" and entry.body["by"] == "hand":
            turned.append(_Turned(entry.device_time, str(entry.body["seen"])))
    return on, tuple(turned)


def _belt(entry: Entry) -> str | None:
    if entry.kind == "engine-state":
        said = entry.body["belt"]
    else:
        doing = entry.body.get("doing")
        said = (doing.get("sets") or {}).get("belt") if isinstance(doing, dict) else None
    return None if said is None else str(said)


def _turns(
    bench: Bench, timing: Standing | None, on: str, turned: tuple[_Turned, ...]
) -> tuple[ProofPart, ...]:
    """Two turns by hand, marks back, no hard contact: what was written of them, word for word."""
    way = "in the running direction"
    rows = (
        ("Two full turns of the crankshaft by hand, " + way,
         "Plugs out; turn at the crankshaft, slowly, never backward.", "gudgeon record turned hand --seen …"),
        ("No hard contact on the way",
         "Stop at any firm contact: a valve may stand on a piston. Write down what you felt.",
         "gudgeon record turned hand --seen …"),
        ("All marks of the wheels back in their places",
         "Look straight at each mark.", f"gudgeon record hold {TIMING_PROOF} VALUE"),
    )  # fmt: skip
    if timing is not None and timing.stands:
        said = f"“{timing.value}”, {_day(bench.state.holds[TIMING_PROOF].time)}"
        return tuple(ProofPart(what, "proved", said, do, "") for what, do, _ in rows)
    state, told = _told(on, turned, timing) if on else ("not yet", _not_on(bench))
    touched = _contact(turned)
    states = (state, touched or state, "not yet" if timing is None or not timing.value else "in doubt")
    words = (told, told, timing.why_not if timing is not None and timing.value else told)
    return tuple(
        ProofPart(what, one, said, do, command)
        for (what, do, command), one, said in zip(rows, states, words, strict=True)
    )


def _not_on(bench: Bench) -> str:
    """Turns before belt, chain or gears are on prove nothing: that they are off, or that nobody says it of them."""
    if bench.state.engine.belt == "off":
        return "by the book, belt, chain or gears are off"
    return "no entry says that belt, chain or gears went on (gudgeon record engine --belt on --seen …)"


def _told(on: str, turned: tuple[_Turned, ...], timing: Standing | None) -> tuple[str, str]:
    if not turned:
        return "not yet", f"nothing in the book since they went on, {_day(on)}"
    said = "; ".join(f"“{one.seen}”, {_day(one.when)}" for one in turned[-3:])
    count = turns_said(" ".join(one.seen for one in turned))
    if count is None:
        return "in doubt", f"{said}: how many turns is not said"
    if count < FULL_TURNS:
        return "in doubt", f"{said}: {count:g} of two turns"
    return ("proved" if timing is not None else "in doubt"), said


_HARD = re.compile(
    r"\b(contact|hit|hits|knock\w*|stuck|jam\w*|blocked|hard spot|stopped|firm)\b", re.IGNORECASE
)
_NONE = re.compile(r"\b(no|without|free of|never|not) (?:\w+ ){0,2}$", re.IGNORECASE)


def _contact(turned: tuple[_Turned, ...]) -> str:
    """In doubt where the words of a turn tell of a contact, and do not say that there was none."""
    for one in turned:
        for word in _HARD.finditer(one.seen):
            if not _NONE.search(one.seen[: word.start()]):
                return "in doubt"
    return ""


def turns_said(words: str) -> float | None:
    """How many turns some words tell of, added up; None where they tell of none."""
    found = [_number_of(match["number"]) for match in _TURNS.finditer(words)]
    return sum(found) if found else None


def _number_of(said: str) -> float:
    plain = said.lower()
    for word in ("half", "quarter"):
        if word in plain:
            return _NUMBERS[word]
    return _NUMBERS[plain] if plain in _NUMBERS else float(plain)


def _out(bench: Bench, found: dict[str, Standing]) -> tuple[ProofPart, ...]:
    """The pin of the tensioner and the locking tools: out, counted, and not on the list of what is left in."""
    drive = bench.sheet.drive or Drive(kind="timing belt")
    pin = drive.tensioner_pin or "the pin that held it"
    tools = "; ".join(drive.locking_tools) or "the sheet names none: count those that were put in"
    rows = (
        (PIN_OUT, "Tensioner pin out and counted", pin),
        (TOOLS_OUT, "Locking tools out and counted", tools),
    )
    return tuple(_one_out(bench, found[hold], what, do) for hold, what, do in rows if hold in found)


def _one_out(bench: Bench, one: Standing, what: str, do: str) -> ProofPart:
    still = _still_in(bench, one.hold)
    if still:
        said = f"still on the list of what is left in: {', '.join(still.values())}"
        return ProofPart(what, "not yet", said, do, f"gudgeon record taken-out {next(iter(still))}")
    if one.stands:
        return ProofPart(
            what, "proved", f"“{one.value}”, {_day(bench.state.holds[one.hold.id].time)}", do, ""
        )
    state = "not yet" if not one.value else "in doubt"
    return ProofPart(what, state, one.why_not, do, f"gudgeon record hold {one.hold.id} VALUE")


def _still_in(bench: Bench, hold: Hold) -> dict[str, str]:
    """What is left in and would make this proof untrue, by its key."""
    words = [said for name, said in hold.contradicted_by if name == "left in"]
    return {
        key: item.name
        for key, item in bench.state.left_in.items()
        if (hold.id == TOOLS_OUT and item.holds == "timing")
        or any(begins(said, text=f"{item.group} {item.name} {item.where}") for said in words)
    }


def _day(moment: str) -> str:
    return when(datetime.fromisoformat(moment))
