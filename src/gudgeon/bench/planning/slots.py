"""The times at the engine: what is done in each, what has to lie on the bench, what can hurt."""

from collections.abc import Iterator, Sequence

from gudgeon.bench.network import Task
from gudgeon.bench.planning.answer import Doable, Slot, SlotTask
from gudgeon.bench.planning.lay import Plan
from gudgeon.bench.planning.own_hours import minutes_within
from gudgeon.bench.planning.words import day_words, days_words, moment_words, span_words
from gudgeon.calc.planning.hours import Window
from gudgeon.kit.hours import clock_words

Piece = tuple[int, int, str]


def slots(plan: Plan) -> tuple[Slot, ...]:
    """Every time at the engine that has work in it, in order."""
    pieces = sorted((start, end, key) for key, some in plan.schedule.slots.items() for start, end in some)
    return tuple(_slot(plan, some) for some in _by_window(plan.job.real.hours.own, pieces) if some)


def doable(plan: Plan, key: str, minutes: int) -> Doable:
    """A task, so many minutes of it, and when it is planned."""
    begins = plan.at(plan.schedule.begins[key])
    return Doable(key, plan.job.title(key), minutes, moment_words(begins, now=plan.job.bench.now))


def _by_window(windows: Sequence[Window], pieces: list[Piece]) -> Iterator[list[Piece]]:
    """The pieces of work within each of his windows."""
    at = 0
    for _, end in windows:
        found = []
        while at < len(pieces) and pieces[at][0] < end:
            found.append(pieces[at])
            at += 1
        yield found


def _slot(plan: Plan, pieces: list[Piece]) -> Slot:
    begins, ends = plan.at(pieces[0][0]), plan.at(max(end for _, end, _ in pieces))
    tasks = [task for _, _, key in pieces if (task := plan.job.network.tasks.get(key)) is not None]
    late = [one for one in pieces if _is_late(plan, one)]
    return Slot(
        begins,
        ends,
        span_words(begins, ends=ends, now=plan.job.bench.now),
        sum(end - start for start, end, _ in pieces),
        tuple(_slot_task(plan, one, one in late) for one in pieces),
        tuple(dict.fromkeys(need for task in tasks for need in task.needs)),
        tuple(dict.fromkeys(said for task in tasks for said in _cautions(task))),
        any(task.two_people for task in tasks),
        _late_words(plan, late),
        tuple(_runs_on(plan, pieces)),
    )


def _slot_task(plan: Plan, piece: Piece, late: bool) -> SlotTask:
    start, end, key = piece
    task, work = plan.job.network.tasks[key], plan.job.works[key]
    later = [one for one in plan.schedule.slots[key] if one[0] > start]
    rest = ""
    if later:
        rest = f"goes on {day_words(plan.at(later[0][0]).date(), now=plan.job.bench.now)}"
    return SlotTask(
        key, task.title, task.phase, end - start, work.minutes, plan.at(start), plan.at(end), task.two_people, rest,
        tuple(_cautions(task)), late,
    )  # fmt: skip


def _cautions(task: Task) -> Iterator[str]:
    return (f"{one.text} ({one.basis})" for one in task.cautions)


def _is_late(plan: Plan, piece: Piece) -> bool:
    """Whether torque or timing work is done in late hours."""
    start, end, key = piece
    if not plan.job.works[key].not_late:
        return False
    return minutes_within(plan.job.real.hours.early, start, ends=end) < end - start


def _late_words(plan: Plan, late: list[Piece]) -> str:
    kit = plan.job.bench.kit.hours
    if not late or kit is None or kit.late is None:
        return ""
    named = " and ".join(dict.fromkeys(f"“{plan.job.title(key)}”" for _, _, key in late))
    return (
        f"{named}: after {clock_words(kit.late)}, and most slips with torque and timing are made by tired people. No "
        "earlier hours hold it: keep some free, or read every figure twice."
    )


def _runs_on(plan: Plan, pieces: list[Piece]) -> Iterator[str]:
    """The waits that are begun in a slot."""
    for _, end, key in pieces:
        task, wait = plan.job.network.tasks[key], plan.job.works[key].wait
        if task.wait is not None and wait and plan.hands_end(key) == end:
            until = moment_words(plan.at(end + wait), now=plan.job.bench.now)
            yield f"{task.wait.what}: {days_words(wait / 1440)}, until {until}"
