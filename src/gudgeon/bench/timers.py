"""Every wait as it stands now: what runs out when, what is too late, what is due, and what each of them stops.

Two clocks run for a bead of sealant. The joint must be together before the open time ends: every bolt of it has been
worked on since the bead was laid. The cure counts from then, and not from when the bead was laid, as some makers
print it: that ends later, so it is the safe side. A start that lies in the future says that a clock is wrong; such a
wait is never over by itself. One that lies before what the book knew already counts from that (`book/fold_timers.py`).
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from fractions import Fraction
from typing import Literal

from gudgeon.bench.context import Bench
from gudgeon.bench.reason import Reason, here, left
from gudgeon.book.fold_records import MILE, kilometers
from gudgeon.book.state import TimerState

Mark = Literal["running", "over", "late", "unknown", "due"]
"""Running by itself; over by itself; over before something was done; of unknown length or not begun; due now."""

AFTER_THE_JOB = ("cold morning", "recall")
"""Waits that no work of the job itself has to wait for, unless it is named."""

MORNING = time(6, 0)
COLD_HOURS = 8
"""COMMON PRACTICE: an engine that has stood for a night, at least eight hours, is cold right through."""

ANEW = "take it off, clean both faces, lay it anew"


@dataclass(frozen=True, slots=True)
class Waiting:
    """One wait. `words` say until when, or what is wrong; `ends` is None where the clock does not end it."""

    key: str
    name: str
    kind: str
    mark: Mark
    words: str
    task: str
    due_before: str
    joint: str = ""
    bead: str = ""
    ends: datetime | None = None

    @property
    def open(self) -> bool:
        """Whether it is a reason why not."""
        return self.mark != "over"

    @property
    def blocks(self) -> bool:
        """Whether its task has to wait: not for a joint to be closed in time, and not once the task is due."""
        return self.mark in ("late", "unknown") or (self.mark == "running" and self.kind != "open time")


def waits(bench: Bench) -> tuple[Waiting, ...]:
    """Every wait that nobody ended by his word; an open time that was kept is none."""
    found = (_waiting(bench, key, timer) for key, timer in bench.state.timers.items() if not timer.ended)
    return tuple(one for one in found if one is not None)


def reasons(bench: Bench) -> Iterator[Reason]:
    """What waits is a reason why not, due before what it was said to be due before."""
    for one in waits(bench):
        if not one.open:
            continue
        typed, how, value = _closing(one)
        yield Reason(
            "waiting", one.name, one.words, one.due_before, typed, how, value, about=f"timer:{one.key}"
        )


def _closing(one: Waiting) -> tuple[str, str, str]:
    """What is typed, in words, and what is written down."""
    ended = f"gudgeon record timer-ended {one.key} --how …"
    if one.mark == "due":
        return f"do it, then: {ended}", "Do it now, then say that it is done.", "what was done"
    again = f"gudgeon record sealant {one.bead} --joint {one.joint}" if one.bead else ""
    if one.mark == "late":
        typed = (
            f"{ANEW}: {again}; or say how it was: {ended}" if again else f"{ANEW}, or say how it was: {ended}"
        )
        return typed, f"{ANEW[0].upper()}{ANEW[1:]}, or say how it was.", "when the new bead was laid"
    if one.mark == "unknown" and one.kind == "open time":
        return (
            f"say when it was together: {ended}",
            "Close the joint while the bead is wet.",
            "when it was together",
        )
    if one.mark == "unknown" and one.joint and "not begun" in one.words:
        how = "Close the joint: every bolt in and worked on, by its card."
        return f"close the joint: gudgeon tighten {one.joint}", how, "when it was together"
    if one.mark == "unknown":
        typed = f"read it off the tube: {again} --cure … --why …; or: {ended}" if again else ended
        return (
            typed,
            "Read it off the tube or ask its maker, and write it down with the reason.",
            "how long it cures",
        )
    if one.kind == "open time":
        return (
            f"close the joint before it ends, or say how it was: {ended}",
            "Close the joint.",
            "when it was together",
        )
    how = "Wait until it has run out, or end it for a reason that you write down."
    return f"wait, or end it with a reason: {ended}", how, "when it had run out"


def sealing(bench: Bench, joint: str) -> tuple[str, ...]:
    """What the clocks of its sealant say to whoever stands at a joint."""
    return tuple(
        f"{one.name}: {one.words}"
        for one in waits(bench)
        if one.joint == joint and one.kind in ("open time", "cure") and one.mark != "over"
    )


def _waiting(bench: Bench, key: str, timer: TimerState) -> Waiting | None:
    if timer.until:
        mark, words, ends = _by_distance(bench, timer)
    elif timer.kind == "open time":
        kept = _open_time(bench, timer)
        if kept is None:
            return None
        mark, words, ends = kept
    elif timer.kind == "cure" and timer.joint:
        mark, words, ends = _cure(bench, timer)
    elif timer.kind == "cold morning":
        mark, words, ends = _cold(bench, timer)
    else:
        mark, words, ends = _by_clock(bench, timer, datetime.fromisoformat(timer.ends))
    return Waiting(
        key, timer.name, timer.kind, mark, words, timer.task, timer.due_before, timer.joint, timer.bead, ends
    )


Standing = tuple[Mark, str, datetime | None]


def _by_clock(bench: Bench, timer: TimerState, ends: datetime) -> Standing:
    started = datetime.fromisoformat(timer.behind or timer.started)
    if started > bench.now:
        return "running", f"until {here(ends)}; {_odd(started)}", ends
    if ends > bench.now:
        return "running", f"until {here(ends)}, {left(ends, now=bench.now)} to go{behind(timer)}", ends
    if timer.kind == "recall":
        return "due", f"due NOW, since {here(ends)}", ends
    return "over", f"ended {here(ends)}", ends


def behind(timer: TimerState) -> str:
    """From when a wait counts whose device showed an hour that was over; nothing where its clock was right."""
    if not timer.behind:
        return ""
    known = here(datetime.fromisoformat(timer.behind))
    return f"; its device showed an earlier hour than the book knew, so it counts from {known}"


def _odd(started: datetime) -> str:
    return f"its start, {here(started)}, lies in the future of this clock: which of the two is wrong?"


def _open_time(bench: Bench, timer: TimerState) -> Standing | None:
    """Too late, or how long there is; nothing where the joint was together in time."""
    started, closed = datetime.fromisoformat(timer.started), together(bench, timer)
    if not timer.ends:
        if closed is not None:
            return None
        return "unknown", "no open time is known: the sheet states none, and nobody gave one by hand", None
    ends = datetime.fromisoformat(timer.ends)
    if closed is not None:
        if closed <= ends:
            return None
        return (
            "late",
            f"together at {here(closed)}, and the open time was over since {here(ends)}: {ANEW}",
            ends,
        )
    if started > bench.now:
        return "running", f"must be together by {here(ends)}; {_odd(started)}", ends
    if ends >= bench.now:
        return "running", f"must be together by {here(ends)}, {left(ends, now=bench.now)} to go", ends
    return "late", f"the open time is over since {here(ends)}: {ANEW}", ends


def _cure(bench: Bench, timer: TimerState) -> Standing:
    closed = together(bench, timer)
    if timer.minutes is None:
        return "unknown", "no cure time is known: the sheet states none, and nobody gave one by hand", None
    if closed is None:
        return "unknown", "has not begun: it counts from when the joint is together", None
    return _by_clock(
        bench, timer, max(datetime.fromisoformat(timer.ends), closed + timedelta(minutes=timer.minutes))
    )


def together(bench: Bench, timer: TimerState) -> datetime | None:
    """When the last bolt of the joint was worked on for the first time; for a bead, since it was laid."""
    joint, state = bench.sheet.joints.get(timer.joint), bench.state.joints.get(timer.joint)
    if joint is None or state is None:
        return None
    bolts = {bolt for _, stage in joint.stages() if stage.kind != "wait" for bolt in joint.stage_bolts(stage)}
    started = datetime.fromisoformat(timer.started)
    first: dict[str, datetime] = {}
    for (_, _, bolt), pull in state.pulls.items():
        at = datetime.fromisoformat(pull.time)
        if timer.bead and pull.order < timer.order and at < started:
            continue
        first[bolt] = min(at, first.get(bolt, at))
    if not bolts or not bolts <= first.keys():
        return None
    return max(first[bolt] for bolt in bolts)


def _cold(bench: Bench, timer: TimerState) -> Standing:
    """An engine that was run since is warm again: it waits for another morning."""
    ends, started = datetime.fromisoformat(timer.ends), datetime.fromisoformat(timer.started)
    ran = datetime.fromisoformat(bench.state.last_run) if bench.state.last_run else None
    if ran is not None and ran > started:
        mark, words, end = _by_clock(bench, timer, max(ends, cold_morning(ran)))
        return mark, f"{words}; the starter turned it at {here(ran)}, so it counts from then", end
    return _by_clock(bench, timer, ends)


def cold_morning(since: datetime) -> datetime:
    """Six in the morning of the first day by which the engine has stood for eight hours, by the local clock."""
    day = since.astimezone().date()
    while True:
        morning = datetime.combine(day, MORNING).astimezone()
        if morning - since >= timedelta(hours=COLD_HOURS):
            return morning
        day += timedelta(days=1)


def _by_distance(bench: Bench, timer: TimerState) -> Standing:
    shown = bench.state.odometer
    assert shown is not None  # what the odometer showed was said when the wait began
    value, unit = shown
    there, until = kilometers(value, unit=unit), kilometers(timer.until, unit=timer.unit)
    seen = f"the odometer shows {grouped(value)} {unit}"
    if there >= until:
        return "due", f"due NOW: {grouped(timer.until)} {timer.unit} is reached, {seen}", None
    rest = (until - there) / (MILE if timer.unit == "mi" else 1)
    return (
        "running",
        f"due at {grouped(timer.until)} {timer.unit}; {seen}, {_whole(rest)} {timer.unit} to go",
        None,
    )


def grouped(number: str) -> str:
    """A distance as it is read: 84,120."""
    whole, point, rest = number.partition(".")
    return f"{int(whole):,}{point}{rest}"


def _whole(rest: Fraction) -> str:
    """What is left to drive, never rounded down to nothing."""
    return f"{-(-rest.numerator // rest.denominator):,}"
