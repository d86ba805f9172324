"""The times at the engine and the deadlines as a calendar file, RFC 5545, that any calendar takes over.

An event keeps its identity as long as it is about the same: a time at the engine by the task that it begins with, a
deadline by what comes or runs out. A calendar that takes the file over again moves what has moved.
"""

import unicodedata
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING
from uuid import UUID, uuid5

from gudgeon.bench.answer import RULES
from gudgeon.bench.planning.answer import Mark, PlanAnswer, Slot

if TYPE_CHECKING:
    from icalendar import Event

NAMES = UUID("6b6f3f7e-5a0d-4f43-9f0a-6d2b6f1c8a51")
"""The space in which the identities of these events are names; made once by chance."""
MAKER = "-//Gudgeon//Bench book//EN"
DEADLINES = {
    "promise": "Promised: {}",
    "delivery": "Expected: {}",
    "timer": "Runs out: {}",
    "recall": "Due: {}",
    "start planned": "Planned: {}",
}


def calendar_file(answer: PlanAnswer) -> bytes:
    """The whole file: a VEVENT for each time at the engine and for each deadline."""
    from icalendar import Calendar

    made = Calendar()
    made.add("prodid", MAKER)
    made.add("version", "2.0")
    made.add("calscale", "GREGORIAN")
    said: dict[str, int] = {}
    for slot in answer.slots:
        made.add_component(_slot(answer, slot, said))
    for mark in answer.marks:
        if mark.kind in DEADLINES:
            made.add_component(_deadline(answer, mark, said))
    return bytes(made.to_ical())


def is_ours(text: bytes) -> bool:
    """Whether a file is a calendar that this program wrote."""
    return text.startswith(b"BEGIN:VCALENDAR\r\n") and f"PRODID:{MAKER}".encode() in text[:400]


def _slot(answer: PlanAnswer, slot: Slot, said: dict[str, int]) -> "Event":
    first, more = slot.tasks[0].title, len(slot.tasks) - 1
    summary = first + (f", and {more} more" if more else "")
    made = _event(
        answer, f"slot {slot.tasks[0].task}", f"Engine: {summary}", "\n".join(_slot_lines(slot)), said
    )
    made.add("dtstart", slot.begins.astimezone(UTC))
    made.add("dtend", slot.ends.astimezone(UTC))
    made.add("transp", "OPAQUE")
    return made


def _slot_lines(slot: Slot) -> Iterator[str]:
    for task in slot.tasks:
        rest = f" of {task.of} min, {task.rest}" if task.rest else " min"
        yield f"- {task.title}: {task.minutes}{rest}"
    if slot.two_people:
        yield "Takes two people."
    if slot.needs:
        yield f"On the bench: {', '.join(slot.needs)}."
    if slot.runs_on:
        yield f"Runs by itself afterwards: {'; '.join(slot.runs_on)}."
    if slot.late:
        yield f"Late: {slot.late}"
    for caution in slot.cautions:
        yield f"Caution: {caution}"
    yield RULES


def _deadline(answer: PlanAnswer, mark: Mark, said: dict[str, int]) -> "Event":
    words = DEADLINES[mark.kind].format(mark.about) + (" (late)" if mark.late else "")
    made = _event(answer, f"{mark.kind} {mark.about}", words, mark.words, said)
    if mark.kind in ("promise", "delivery", "recall"):
        day = mark.at.astimezone().date()
        made.add("dtstart", day)
        made.add("dtend", _next(day))
    else:
        made.add("dtstart", mark.at.astimezone(UTC))
    made.add("transp", "TRANSPARENT")
    return made


def _next(day: date) -> date:
    return day + timedelta(days=1)


def _event(answer: PlanAnswer, about: str, summary: str, text: str, said: dict[str, int]) -> "Event":
    """What every event has; the second event about the same has another identity."""
    from icalendar import Event

    heading = answer.heading
    said[about] = number = said.get(about, 0) + 1
    made = Event()
    made.add("uid", f"{uuid5(NAMES, f'{heading.engine}/{heading.build}/{about}/{number}')}@gudgeon")
    made.add("dtstamp", datetime.fromisoformat(heading.asked).astimezone(UTC))
    made.add("summary", _clean(summary))
    notice = f"\n{heading.notice}" if heading.notice else ""
    made.add("description", _clean(f"{text}\n{heading.engine}, {heading.build}{notice}"))
    return made


def _clean(text: str) -> str:
    """Text without what no calendar may hold: control characters other than the end of a line."""
    return "".join(mark if mark == "\n" or unicodedata.category(mark) != "Cc" else " " for mark in text)
