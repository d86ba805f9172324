"""What the book says of one task by itself: recorded, or seen from its joint, its hold, the machine shop."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from gudgeon.bench.buying.part_tasks import tasks_by_name
from gudgeon.bench.holds import IDENTITY, joints_playing
from gudgeon.bench.network import Task
from gudgeon.bench.progress import Progress, progress
from gudgeon.bench.reason import when
from gudgeon.book.part_names import is_part
from gudgeon.book.state import HoldState, ShopState, State, TaskState
from gudgeon.sheet.model import DataSheet

Status = Literal["none", "running", "paused", "away", "done", "undone"]
UNFINISHED: tuple[Status, ...] = ("running", "paused", "away", "undone")
"""The book itself says that it was begun and is not done."""

BEGUN: tuple[Status, ...] = ("running", "paused", "away", "done", "undone")
"""Whoever is here has been through everything that comes before."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """What is known of a task: its status, since when where that is known, and the words for it.

    `undone` was done once, and no longer is: its joint was disturbed, or its proof is void. `said` tells that
    nothing but the word of an entry on the task itself is behind it: no pull, no shop, no proof. `order` is the
    number in the chain of that word, or of the last time that its joint was disturbed; 0 for none.
    """

    status: Status = "none"
    since: datetime | None = None
    why: str = ""
    joint: str = ""
    said: bool = False
    order: int = 0


def evidence(task: Task, sheet: DataSheet, state: State, *, holds: Iterable[str]) -> Evidence:
    """What the book says of a task; `holds` are those of its holds that this engine has.

    A joint speaks before what was said of it; else what was finished is finished, and what is on a
    list or proved counts when nothing later was said.
    """
    recorded = state.tasks.get(task.key)
    for found in (
        _of_joint(task, sheet, state, recorded),
        _sent_again(task, state, recorded),
        _finished(recorded),
        _of_shop(task, state),
        _of_holds(state, recorded, tuple(holds)),
        _begun(recorded),
    ):
        if found is not None:
            return found
    return Evidence()


def joints_of(task: Task, sheet: DataSheet) -> tuple[str, ...]:
    """The joints that the task tightens: every one that plays its role."""
    return joints_playing(task.joint, sheet)


def _moment(text: str) -> datetime:
    return datetime.fromisoformat(text)


def _of_joint(task: Task, sheet: DataSheet, state: State, recorded: TaskState | None) -> Evidence | None:
    """From the pulls: done when complete, running when begun, undone when disturbed and not begun again."""
    keys = joints_of(task, sheet)
    touched = [state.joints[key] for key in keys if key in state.joints]
    pulled = [pull.time for one in touched for pull in one.pulls.values()]
    said_done = recorded is not None and recorded.status == "done"
    disturbed = max((one.disturbed_order for one in touched), default=0)
    if pulled:
        found = {key: progress(sheet.joints[key], state.joints.get(key)) for key in keys}
        key = next((key for key, one in found.items() if not one.complete), keys[0])
        if found[key].complete:
            return Evidence("done", _moment(max(pulled)), "", key, order=disturbed)
        more = "; it was recorded as finished all the same" if said_done else ""
        return Evidence(
            "running", _moment(min(pulled)), _pulls(sheet.joints[key].name, found[key]) + more, key,
            order=disturbed,
        )  # fmt: skip
    last = max(touched, key=lambda one: one.disturbed_order, default=None)
    if last is None or not (last.history or said_done):
        return None
    if recorded is not None and said_done and recorded.order > last.disturbed_order:
        return None
    return Evidence(
        "undone", None, f"its joint was disturbed: {last.disturbed_why}", keys[0], order=disturbed
    )


def _pulls(name: str, found: Progress) -> str:
    if found.doubts:
        return f"{name}: in doubt, {'; '.join(found.doubts[:2])}"
    return f"{name}: {found.done} of {len(found.steps)} pulls done"


def _finished(recorded: TaskState | None) -> Evidence | None:
    if recorded is None or recorded.status != "done":
        return None
    return Evidence("done", _moment(recorded.since), recorded.said, said=True, order=recorded.order)


def _sent_again(task: Task, state: State, recorded: TaskState | None) -> Evidence | None:
    """A part that left once more after its task was said to be done."""
    if recorded is None or task.shop_when != "back":
        return None
    found = _of_shop(task, state)
    if found is None or found.status != "away" or found.since is None:
        return None
    return found if found.since > _moment(recorded.since) else None


def _of_shop(task: Task, state: State) -> Evidence | None:
    """From the parts that went to the machine shop, found by the word for them."""
    parts = shop_parts(task, state)
    if not parts:
        return None
    out = _moment(min(one.out for one in parts))
    if task.shop_when == "sent" or all(one.back for one in parts):
        return Evidence("done", out if task.shop_when == "sent" else None)
    away = next(one for one in parts if not one.back)
    return Evidence("away", _moment(away.out), f"at {away.shop} since {when(_moment(away.out))}")


def _of_holds(state: State, recorded: TaskState | None, holds: tuple[str, ...]) -> Evidence | None:
    """From the proofs: all there, and no word since that the task was begun again, means done."""
    if not holds:
        return None
    if holds == (IDENTITY,) and state.identity is not None and recorded is None:
        return Evidence("done")
    found: list[HoldState] = [state.holds[hold] for hold in holds if hold in state.holds]
    if not found:
        return None
    void = next((one for one in found if one.status != "proved"), None)
    if void is not None and void.value and recorded is None:
        return Evidence("undone", None, f"its proof is void: {void.why_void}")
    since = max((one.time for one in found), default="")
    complete = void is None and len(found) == len(holds) and since
    if complete and (recorded is None or _moment(since) >= _moment(recorded.since)):
        return Evidence("done", _moment(since))
    return None


def shop_parts(task: Task, state: State) -> list[ShopState]:
    """The parts at the machine shop that a task is about."""
    return [one for name, one in state.shop.items() if is_shop_part(task, name)]


def is_shop_part(task: Task, name: str) -> bool:
    """Whether a part of this name is the one that a task brings to the machine shop, or gets back."""
    return is_part(task.shop_part, said=name)


def at_shop(tasks: Mapping[str, Task], state: State) -> dict[str, str]:
    """The parts at the machine shop that no task of the job gets back, and the task that needs each."""
    found: dict[str, str] = {}
    for name, one in state.shop.items():
        if one.back or any(is_shop_part(task, name) for task in tasks.values()):
            continue
        needed = next((key for key in tasks_by_name(name) if key in tasks), None)
        if needed is not None:
            found[name] = needed
    return found


def _begun(recorded: TaskState | None) -> Evidence | None:
    if recorded is None:
        return None
    if recorded.status == "paused":
        return Evidence(
            "paused",
            _moment(recorded.since),
            f"left standing: {recorded.said}",
            said=True,
            order=recorded.order,
        )
    return Evidence("running", _moment(recorded.since), said=True, order=recorded.order)
