"""Whether a job can be what was said of it: chosen, with a task left out, in an order of his own."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from gudgeon.bench.buying.part_tasks import tasks_by_name
from gudgeon.bench.context import Bench
from gudgeon.bench.evidence import shop_parts
from gudgeon.bench.features import has
from gudgeon.bench.holds import IDENTITY, holds_of
from gudgeon.bench.network import JOBS, Job, Task, adapted, circle, job, job_named, job_of, tasks_of, title_of
from gudgeon.bench.plan_errors import (
    AfterItself,
    AlreadyOut,
    DoneAlready,
    IsAGate,
    NotThisEngine,
    ProvesSomething,
    ProvesThere,
    WaitForEachOther,
)
from gudgeon.book.plan_state import AddedTask, PlanState
from gudgeon.book.state import State
from gudgeon.errors import short
from gudgeon.sheet.model import DataSheet


def suits(sheet: DataSheet, wanted: str) -> None:
    """A job is for an engine that has what it is about."""
    lacking = [one for one in job(wanted).engine_has if not has(sheet, one)]
    if lacking:
        raise NotThisEngine(job(wanted).name, lacking)


def can_be_chosen(sheet: DataSheet, state: State, *, wanted: str) -> None:
    """A smaller job is refused once work was begun that it does not have.

    From a part to a whole job is never smaller: what the part does by itself, the whole one does in another task.
    """
    suits(sheet, wanted)
    there = adapted(job(wanted), state.plan)
    larger = there.whole and not job(job_named(state)).whole
    begun = [title_of(key, sheet=sheet, state=state) for key in _begun_without(there, sheet, state)]
    if begun and not larger:
        raise DoneAlready(f"The job “{there.name}”", begun)
    for key in state.plan.dropped:
        lost = _lost(key, job(wanted), there, sheet, wanted)
        if lost:
            raise ProvesThere(title_of(key, sheet=sheet, state=state), there.name, lost)


def _begun_without(there: Job, sheet: DataSheet, state: State) -> Iterator[str]:
    """The tasks of the present job that the book speaks of, and that another job does not have."""
    joints = {task.joint for task in there.tasks.values()}
    for task in tasks_of(sheet, state):
        if task.key in there.tasks:
            continue
        pulled = task.joint and task.joint not in joints and _pulled(task, sheet, state)
        proved = any(one in state.holds for one in task.proves if one not in there.proves and one != IDENTITY)
        away = bool(shop_parts(task, state))
        if task.key in state.tasks or pulled or proved or away:
            yield task.key


def begun_in_another(state: State) -> tuple[str, list[str]]:
    """A whole job of which work was begun that the present one does not have, and its tasks; empty where there is none.

    No smaller job can be chosen then; it comes so where the choice of the larger one was struck.
    """
    here = job(job_named(state)).tasks
    elsewhere = [key for key in state.tasks if key not in here]
    if not elsewhere:
        return "", []  # the other jobs are not even read
    begun = {name: [key for key in elsewhere if key in job(name).tasks] for name in JOBS if job(name).whole}
    name = max(begun, key=lambda one: len(begun[one]))
    return (name, begun[name]) if begun[name] else ("", [])


def _pulled(task: Task, sheet: DataSheet, state: State) -> bool:
    touched = (
        state.joints[key]
        for key, one in sheet.joints.items()
        if one.role == task.joint and key in state.joints
    )
    return any(one.pulls or one.history for one in touched)


def _lost(key: str, whole: Job, kept: Job, sheet: DataSheet, named: str) -> list[str]:
    """The names of the holds that are proved in a task and, without it, in no other task of this engine."""
    task = whole.tasks.get(key)
    if task is None:
        return []
    proved = {hold for one in kept.for_engine(sheet) if one.key != key for hold in one.proves}
    return [one.name for one in holds_of(sheet, named) if one.id in task.proves and one.id not in proved]


def can_be_dropped(sheet: DataSheet, state: State, *, key: str) -> None:
    """Nothing is left out that was begun, that proves something, or that is a gate."""
    whole, title = job_of(state), title_of(key, sheet=sheet, state=state)
    if key not in whole.tasks:
        raise AlreadyOut(title)
    if key in state.tasks:
        raise DoneAlready(f"A job without “{title}”", [title])
    if whole.tasks[key].gate:
        raise IsAGate(title)
    lost = _lost(key, whole, whole, sheet, job_named(state))
    if lost:
        raise ProvesSomething(title, lost)


def keeps_an_order(sheet: DataSheet, state: State, said: Mapping[str, Any]) -> None:
    """An order that is said now, laid over the job with all else that was said of it."""
    key, title, after = str(said["task"]), str(said.get("title", "")), tuple(said.get("after", ()))
    if key in after:
        raise AfterItself(title_of(key, sheet=sheet, state=state))
    own = state.plan
    if title:
        before, minutes = tuple(said.get("before", ())), int(said["minutes"])
        added = AddedTask(key, title, after, before, minutes, False, (), "crank", "")
        then = PlanState(added={key: added})
    else:
        # What is said now takes the place of what was said of the same task before.
        own = replace(own, after={one: names for one, names in own.after.items() if one != key})
        then = PlanState(after={key: after})
    found = circle(adapted(job(job_named(state)), own), then)
    if found:
        names = [title if one == key and title else title_of(one, sheet=sheet, state=state) for one in found]
        raise WaitForEachOther(*names)


def left_out(bench: Bench) -> tuple[str, ...]:
    """The tasks that he leaves out, each with why: nobody is to take silence for done."""
    return tuple(
        f"“{title_of(key, sheet=bench.sheet, state=bench.state)}”" + (f" ({short(why)})" if why else "")
        for key, why in bench.state.plan.dropped.items()
    )


def untouched(bench: Bench) -> tuple[str, ...]:
    """The joints that the job leaves alone: no task of it tightens them, and the book never speaks of them.

    A joint that plays no role belongs to any whole job, and to a part of one that fits what its name says (an idler
    bolt to that of the belt). A task that he leaves out is left out of the plan only: its joint is asked for all the
    same, because it may have been off.
    """
    whole = job(job_named(bench.state))
    roles = {task.joint for task in whole.tasks.values()}
    return tuple(
        key
        for key, joint in bench.sheet.joints.items()
        if key not in bench.state.joints
        and joint.role not in roles
        and (
            joint.role is not None or not (whole.whole or whole.tasks.keys() & set(tasks_by_name(joint.name)))
        )
        and not any(item.joint == key for item in bench.state.provisional.values())
    )
