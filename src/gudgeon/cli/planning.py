"""When it will run, in the terminal."""

from argparse import Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, closing, heading, point, say, table
from gudgeon.errors import InputError
from gudgeon.written.replace import replace_bytes

if TYPE_CHECKING:
    from gudgeon.bench.planning.answer import Driver, PlanAnswer, Slot

LONGEST = 5
"""So many links of the chain are told: the longest, in the order of time."""
SETBACKS = 5


class NotAnIcsName(InputError):
    """A name that would promise another format."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{path} does not end in .ics, and what is written is a calendar. Name the file so.")


class FolderMissing(InputError):
    """A folder that is not there."""

    def __init__(self, folder: str) -> None:
        super().__init__(
            f"The folder {folder} is not there, so no calendar is written. Make it, or name another."
        )


class NotOurCalendar(InputError):
    """A file that is there already and holds something else."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"{path} exists already, is no calendar of this program and is left as it is. Name another file, or take "
            "it away first."
        )


def plan(chosen: Namespace) -> int:
    """Answer “When will it run?”; 1 while there is no date."""
    from gudgeon.bench.planning.question import plan_answer

    file = _ics_file(chosen.ics) if chosen.ics is not None else None
    answer = plan_answer(bench_of(chosen), simulate=not chosen.quick, quick=chosen.quick)
    code = NO if answer.cannot or (file is not None and not answer.dated) else YES
    if file is not None and answer.dated:
        _write(file, answer)
    if chosen.json:
        as_json(answer)
        return code
    heading(answer.heading)
    say(answer.said)
    for one in answer.cannot:
        point(f"{one.what} {one.do}", mark="!")
    for late in answer.late:
        point(late.words, mark="!")
    for text in answer.remarks:
        point(text, mark="!")
    _date(answer)
    _next(answer)
    _drives(answer)
    _meanwhile(answer)
    if chosen.all:
        _whole(answer)
    _grounds(answer, whole=chosen.all)
    if file is not None:
        print(
            f"\nWritten: {file}" if answer.dated else f"\nNot written: {file}. Nothing is planned on any day."
        )
    closing(answer.heading)
    return code


def _date(answer: "PlanAnswer") -> None:
    spread = answer.distribution
    if spread is not None:
        print("\nHow likely")
        for one in spread.chances:
            point(
                f"by {one.words}: {one.percent:.0f} %" + (f" ({one.why})" if one.why == "as planned" else "")
            )
        if spread.beyond:
            point(f"not within the days that are planned ahead: {spread.beyond:.0f} %")
    if answer.dated:
        point(answer.gap_words)
    if answer.hands and (answer.dated or answer.cannot):
        point(f"Left: {answer.hands} of hands. Along the longest chain: {answer.longest}.")


def _next(answer: "PlanAnswer") -> None:
    if answer.next_slot is not None:
        print(f"\nNext: {answer.next_slot.words}")
        _slot(answer.next_slot)
    elif answer.next_tasks:
        print("\nNext")
        for one in answer.next_tasks:
            point(f"{one.title}, {one.minutes} min")


def _slot(slot: "Slot") -> None:
    for task in slot.tasks:
        minutes = f"{task.minutes} min" + (f" of {task.of}, {task.rest}" if task.rest else "")
        two = ", two people" if task.two_people else ""
        point(f"{task.title}, {minutes}{two}")
    if slot.needs:
        say(f"On the bench: {', '.join(slot.needs)}", lead="    ")
    for text in slot.runs_on:
        say(f"Runs by itself afterwards: {text}", lead="    ")
    if slot.late:
        point(slot.late, mark="!")
    for text in slot.cautions:
        point(text, mark="!")


def _drives(answer: "PlanAnswer") -> None:
    if not answer.drives:
        return
    print("\nWhat drives the date")
    for share in answer.shares:
        point(share.words)
    longest = sorted(answer.drives, key=lambda one: -one.days)[:LONGEST]
    print("The longest stretches, in the order of time:")
    for one in answer.drives:
        if one in longest:
            point(_driver(one), mark="·")


def _driver(one: "Driver") -> str:
    from gudgeon.bench.planning.words import days_words

    return f"{days_words(one.days)}: {one.words}"


def _meanwhile(answer: "PlanAnswer") -> None:
    for one in answer.meanwhile:
        print(f"\nMeanwhile: {one.what}, {one.words}")
        for task in one.tasks:
            point(f"{task.title}, {task.minutes} min ({task.planned})")
    for part in answer.first:
        print("\nFirst")
        say(part.words)
        for task, room in zip(part.tasks, part.slack, strict=True):
            point(f"{task.title}, {task.minutes} min: {room}")


def _whole(answer: "PlanAnswer") -> None:
    if answer.slots:
        print("\nEvery time at the engine")
    for slot in answer.slots:
        print(f"\n{slot.words}")
        _slot(slot)
    if answer.running:
        print("\nIn hand")
    for one in answer.running:
        point(f"{one.title}: {one.words}")
    if answer.done:
        print("\nDone")
    for done in answer.done:
        when = "taken as done, because later work was begun" if done.taken else done.when
        minutes = f", {done.minutes} min" if done.minutes else ""
        point(f"{done.title}" + (f": {when}{minutes}" if when or minutes else ""))


def _grounds(answer: "PlanAnswer", *, whole: bool) -> None:
    if answer.distribution is not None and answer.distribution.setbacks:
        print("\nWhat may still go wrong")
        listed = answer.distribution.setbacks
        for one in listed if whole else listed[:SETBACKS]:
            wait = f" and {one.wait} of waiting" if one.wait else ""
            point(f"{one.percent:.0f} %: {one.title} ({one.hands}{wait})")
    if answer.taken:
        print("\nTaken against planned")
        table(
            ("kind", "tasks", "planned, min", "taken, min", "planned with"),
            [
                (one.kind, str(one.tasks), str(one.planned), str(one.taken), f"× {one.factor:.2f}")
                for one in answer.taken
            ],
            right=(1, 2, 3, 4),
        )
    if answer.hours:
        print("\nHours")
    for text in answer.hours:
        point(text)
    if whole:
        print("\nTaken for granted")
        for text in answer.assumed:
            point(text)
        print("\nSources")
        for text in answer.sources:
            point(text)


def _ics_file(name: str) -> Path:
    """The file that the calendar goes into; refused where it promises another format or holds something else."""
    from gudgeon.bench.planning.calendar_file import is_ours

    path = Path(name).expanduser()
    if path.suffix.lower() != ".ics":
        raise NotAnIcsName(str(path))
    if not path.parent.is_dir():
        raise FolderMissing(str(path.parent))
    if path.exists() and not (path.is_file() and is_ours(path.read_bytes())):
        raise NotOurCalendar(str(path))
    return path


def _write(path: Path, answer: "PlanAnswer") -> None:
    """The whole file or nothing of it."""
    from gudgeon.bench.planning.calendar_file import calendar_file

    replace_bytes(path, calendar_file(answer))
