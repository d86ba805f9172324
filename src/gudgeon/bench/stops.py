"""After a stop: what was in hand, where he stood, and a look at the last recorded pull before the work goes on.

People repeat a step more often than they skip one, and an angle that is turned twice spoils a bolt. So nothing is
called the next pull before somebody has looked at the last one and written down whether it is as recorded.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.progress import Progress, Step, progress
from gudgeon.bench.pull_words import bolt_words, look_at_last
from gudgeon.bench.reason import when
from gudgeon.book.entries import Entry
from gudgeon.book.fold_stops import WORK, Stops
from gudgeon.book.state import JointState
from gudgeon.errors import RecordError

LONG = timedelta(hours=12)
"""So long after the last pull of a joint that was begun nobody remembers, whether a stop was written down or not."""

ELSEWHERE = "gudgeon now"


@dataclass(frozen=True, slots=True)
class LookAt:
    """The pull to look at before the next one of a joint: its entry, why, and what has to be seen."""

    joint: str
    entry: str
    number: int
    bolt: str
    why: str
    words: str


@dataclass(frozen=True, slots=True)
class Stop:
    """A stop: when, what was in the hand, what was wanted, and the screen that was in front of him.

    `screen` is as it was kept, the address of a page or a command; `command` shows the same in the terminal.
    """

    when: str
    hand: str
    next_action: str
    screen: str
    command: str
    joint: str
    task: str


class NothingToLookAt(RecordError):
    """A look at the last pull, where none is asked for and none is named."""

    def __init__(self) -> None:
        super().__init__(
            "No pull waits to be looked at, so say which entry was looked at: its number, as in gudgeon book show."
        )


def look_due(bench: Bench, key: str, *, found: Progress | None = None) -> LookAt | None:
    """The pull of a joint that has to be looked at before the next one; nothing where none has to be."""
    joint, state = bench.sheet.joints[key], bench.state.joints.get(key)
    if state is None or state.last_pull is None:
        return None
    found = progress(joint, state) if found is None else found
    last = found.last
    if (
        last is None
        or last.pull is None
        or (found.complete and found.marked)
        or found.halted
        or found.doubts
        or found.taken_apart
    ):
        return None
    why = _why(bench, key, state, last, complete=found.complete)
    if not why:
        return None
    name, words = bolt_words(joint, last.bolt), look_at_last(joint, found)
    return LookAt(key, last.pull.entry, last.pull.order, name, why, words)


def _why(bench: Bench, key: str, state: JointState, last: Step, *, complete: bool) -> str:
    """Why the last pull has to be looked at: a stop that was written down, or so long that it was one.

    Where every pull is in the book none is offered, so that a long time alone asks for nothing but the mark.
    """
    assert last.pull is not None
    stop, seen = bench.state.paused, datetime.fromisoformat(last.pull.time)
    if stop is not None and stop.joint == key:
        return f"you stopped on {when(datetime.fromisoformat(stop.time))}"
    if complete:
        return ""
    looked = state.looked
    if looked is not None and looked.entry == last.pull.entry and looked.as_recorded:
        seen = max(seen, datetime.fromisoformat(looked.time))
    if bench.now - seen <= LONG:
        return ""
    return f"the last pull is of {when(datetime.fromisoformat(last.pull.time))}, more than {_hours(LONG)} ago"


def _hours(time: timedelta) -> str:
    return f"{time.total_seconds() / 3600:.0f} hours"


def looks_due(bench: Bench) -> tuple[LookAt, ...]:
    """Every pull that has to be looked at, first the one at which he stopped."""
    if bench.locked is not None:
        return ()
    found = [one for key in bench.sheet.joints if (one := look_due(bench, key)) is not None]
    stopped = bench.state.paused.joint if bench.state.paused is not None else ""
    return tuple(sorted(found, key=lambda one: one.joint != stopped))


def stop(bench: Bench) -> Stop | None:
    """The stop that is not over yet."""
    paused = bench.state.paused
    if paused is None:
        return None
    return Stop(
        when(datetime.fromisoformat(paused.time)), paused.hand, paused.next_action, paused.screen,
        _command(paused.screen, joint=paused.joint), paused.joint, paused.task,
    )  # fmt: skip


def _command(screen: str, *, joint: str) -> str:
    """The command that shows what was on the screen."""
    if screen.startswith("gudgeon "):
        return screen
    return f"gudgeon tighten {joint}" if joint else ELSEWHERE


def last_before(bench: Bench) -> Entry | None:
    """The last thing done to the engine before a stop at no joint; nothing where there was none, or no such stop."""
    paused = bench.state.paused
    if paused is None or paused.joint:
        return None
    last = None
    for entry in entries_of(bench):
        if entry.id == paused.entry:
            break
        if entry.kind in WORK and entry.id not in bench.state.struck:
            last = entry
    return last


def stop_fields(bench: Bench, fields: Mapping[str, Any]) -> dict[str, Any]:
    """A stop with the screen of it: where none is named, the card of the joint that is in hand."""
    if fields.get("screen"):
        return dict(fields)
    joint = _in_hand(bench)
    return {**fields, "screen": f"gudgeon tighten {joint}" if joint else ELSEWHERE}


def _in_hand(bench: Bench) -> str:
    """The joint in hand: the one worked on last while it is not marked, else one that is begun and not complete."""
    stops = Stops()
    for entry in entries_of(bench):
        if entry.kind in WORK and entry.id not in bench.state.struck:
            stops.worked(entry)
    begun = {}
    for key, state in bench.state.joints.items():
        if state.last_pull is None or state.marked or key not in bench.sheet.joints:
            continue
        if key == stops.in_hand[0]:
            return key
        if not progress(bench.sheet.joints[key], state).complete:
            begun[key] = state.last_pull.order
    return max(begun, key=lambda key: begun[key], default="")


def looked_fields(bench: Bench, fields: Mapping[str, Any]) -> dict[str, Any]:
    """A look at the pull that waits for it, where no entry is named."""
    said = dict(fields)
    if not said.get("entry"):
        due = looks_due(bench)
        if not due:
            raise NothingToLookAt
        said["entry"] = due[0].entry
    said["as_recorded"] = said["as_recorded"] in (True, "yes")
    return said
