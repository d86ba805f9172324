"""A job written by hand as YAML: its shape, and what would make it go wrong."""

from collections.abc import Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from typing import Any, Literal, get_args

from pydantic import Field

from gudgeon.bench.features import FEATURES
from gudgeon.bench.holds import all_holds
from gudgeon.book.gates import Act
from gudgeon.quantity.written import Printed
from gudgeon.sheet.inspections import Milestone
from gudgeon.sheet.joints import Role
from gudgeon.written.check import unknown
from gudgeon.written.errors import Problem
from gudgeon.written.fields import Duration, Key, Section, Text, Whole, YesNo
from gudgeon.written.load import parse
from gudgeon.written.located import Path, Written


class WaitSection(Section):
    """A wait that begins when the hands are done: a clock, or an estimate of somebody else's time."""

    time: Duration | None = None
    about: Duration | None = None
    what: Text = Field(alias="for")


class CautionSection(Section):
    """What can hurt, and where it is said."""

    text: Text
    basis: Text


class ShopSection(Section):
    """The task is done by a part going to the machine shop, or coming back."""

    part: Text
    when: Literal["sent", "back"]


class Wording(Section):
    """What is said otherwise for an engine that lacks something."""

    title: Text | None = None
    minutes: Whole | None = Field(default=None, ge=1, le=10_000)
    two_people: YesNo | None = None
    on_the_bench: tuple[Text, ...] | None = None
    cautions: tuple[Key, ...] | None = None


class MadeSection(Section):
    """What a finished task makes of the engine."""

    crank: Literal["near the top", "half-way", "moved"] | None = None
    cams: Literal["in", "out"] | None = None
    belt: Literal["on", "off"] | None = None
    followers: Literal["bled down", "pumped up"] | None = None


class TaskSection(Section):
    """One task; `acts` are those that a gate asks for, `makes` is what is so of the engine when it is done."""

    title: Text
    after: tuple[Key, ...] = ()
    engine_has: tuple[Text, ...] = ()
    minutes: Whole = Field(ge=0, le=10_000)
    wait: WaitSection | None = None
    on_the_bench: tuple[Text, ...] = ()
    two_people: YesNo = False
    after_hold: tuple[Key, ...] = ()
    proves: tuple[Key, ...] = ()
    joint: Text | None = None
    shop: ShopSection | None = None
    gate: Milestone | None = None
    no_timer: YesNo = False
    due_before: Milestone | None = None
    acts: tuple[Act, ...] = ()
    makes: MadeSection | None = None
    cautions: tuple[Key, ...] = ()
    without: dict[Text, Wording] = Field(default_factory=dict)


class PhaseSection(Section):
    """A stretch of the job; its tasks are due before a milestone unless they say another."""

    phase: Text
    due_before: Milestone
    tasks: dict[Key, TaskSection] = Field(min_length=1)


class JobFile(Section):
    """The whole job, in the order of the work."""

    gudgeon: Literal["job 1"]
    name: Text
    cautions: dict[Key, CautionSection] = Field(default_factory=dict)
    # A list: a tuple would be called too short as well whenever one of its members is refused.
    phases: list[PhaseSection] = Field(min_length=1)


def read_job(text: str, *, file: str) -> dict[str, Any]:
    """A job as plain data, its tasks in the order of the file; else everything that is wrong with it."""
    job, _, _ = parse(JobFile, text, file=file, what="job", problems=_problems)
    return {
        "name": job.name,
        "tasks": [_plain(key, task, phase, job) for phase in job.phases for key, task in phase.tasks.items()],
    }


def _plain(key: str, task: TaskSection, phase: PhaseSection, job: JobFile) -> dict[str, Any]:
    def hurts(keys: Iterable[str]) -> list[list[str]]:
        return [[job.cautions[one].text, job.cautions[one].basis] for one in keys]

    said = {feature: one.model_dump(exclude_none=True) for feature, one in task.without.items()}
    for one in said.values():
        if "cautions" in one:
            one["cautions"] = hurts(one["cautions"])
        if "on_the_bench" in one:
            one["needs"] = list(one.pop("on_the_bench"))
    return {
        "key": key,
        "title": task.title,
        "phase": phase.phase,
        "after": list(task.after),
        "engine_has": list(task.engine_has),
        "minutes": task.minutes,
        "wait": _wait(task.wait),
        "needs": list(task.on_the_bench),
        "two_people": task.two_people,
        "after_hold": list(task.after_hold),
        "proves": list(task.proves),
        "joint": task.joint or "",
        "shop": [task.shop.part, task.shop.when] if task.shop else [],
        "gate": task.gate or "",
        "no_timer": task.no_timer,
        "due_before": task.due_before or phase.due_before,
        "acts": list(task.acts),
        "makes": task.makes.model_dump(exclude_none=True) if task.makes else {},
        "cautions": hurts(task.cautions),
        "without": said,
    }


def _wait(wait: WaitSection | None) -> list[Any]:
    if wait is None:
        return []
    length = wait.time or wait.about
    assert length is not None
    # A clock runs to the later end of a range; an estimate is its middle.
    late = length.high_in("min") if wait.time else None
    minutes = length.middle_in("min") if late is None else late
    return [round(minutes), wait.what, wait.time is not None]


Tasks = Mapping[str, tuple[Path, TaskSection]]


def _problems(job: JobFile, written: Written) -> Iterator[Problem]:
    """What a reader of the file would get wrong, each with its line."""
    tasks: dict[str, tuple[Path, TaskSection]] = {}
    for number, phase in enumerate(job.phases):
        for key, task in phase.tasks.items():
            path: Path = ("phases", number, "tasks", key)
            if key in tasks:
                first = written.place(tasks[key][0], key=True).line
                yield Problem(
                    written.place(path, key=True),
                    f"`{key}` is here a second time; the first is on line {first}. Give it another name.",
                )
            tasks.setdefault(key, (path, task))
    for path, task in tasks.values():
        yield from _names(path, task, tasks, job, written)
        yield from _sense(path, task, written)
    yield from _titles(tasks, written)
    yield from _order(tasks, written)
    yield from _proofs(tasks, written)


def _names(path: Path, task: TaskSection, tasks: Tasks, job: JobFile, written: Written) -> Iterator[Problem]:
    """Every name that a task uses is one that is known."""
    known: tuple[tuple[str, Iterable[str], Iterable[str], str], ...] = (
        ("after", task.after, tasks, "task"),
        ("engine_has", task.engine_has, FEATURES, "feature of an engine"),
        ("after_hold", task.after_hold, all_holds(), "hold"),
        ("proves", task.proves, all_holds(), "hold"),
        ("cautions", task.cautions, job.cautions, "caution of this file"),
    )
    for field, said, names, what in known:
        for number, name in enumerate(said):
            if name not in names:
                yield Problem(written.place((*path, field, number)), unknown(what, value=name, known=names))
    if task.joint is not None and task.joint not in get_args(Role):
        message = unknown("role of a joint", value=task.joint, known=get_args(Role))
        yield Problem(written.place((*path, "joint")), message)
    for feature, said_otherwise in task.without.items():
        where = (*path, "without", feature)
        if feature not in FEATURES:
            message = unknown("feature of an engine", value=feature, known=FEATURES)
            yield Problem(written.place(where, key=True), message)
        for number, name in enumerate(said_otherwise.cautions or ()):
            if name not in job.cautions:
                message = unknown("caution of this file", value=name, known=job.cautions)
                yield Problem(written.place((*where, "cautions", number)), message)


def _sense(path: Path, task: TaskSection, written: Written) -> Iterator[Problem]:
    if task.wait is not None and (task.wait.time is None) == (task.wait.about is None):
        yield Problem(
            written.place((*path, "wait")),
            "A wait has either a `time` (a clock that runs) or an `about` (an estimate). Write one of them.",
        )
    for name in ("time", "about"):
        length = getattr(task.wait, name, None)
        if length is not None and not _runs(length):
            yield Problem(
                written.place((*path, "wait", name)),
                f"`{length.text}` is no length of a wait. Write how many minutes or hours, like `30 min`.",
            )
    if task.minutes == 0 and task.shop is None:
        yield Problem(
            written.place((*path, "minutes")),
            "Only what the machine shop does takes no minutes of hands. Write how long it takes.",
        )


def _runs(length: Printed) -> bool:
    """Whether it is a length of time that runs out: both its ends are known, and it ends later than it begins."""
    low, high = length.first.low_in("min"), length.first.high_in("min")
    return low is not None and high is not None and low > 0


def _titles(tasks: Tasks, written: Written) -> Iterator[Problem]:
    """A title names one task, on whatever engine, because people find tasks by their words."""
    first: dict[str, str] = {}
    for key, (path, task) in tasks.items():
        titles = [((*path, "title"), task.title)]
        titles += [
            ((*path, "without", what, "title"), said.title or "") for what, said in task.without.items()
        ]
        for where, title in titles:
            there = first.setdefault(title.casefold(), key) if title else key
            if there != key:
                yield Problem(
                    written.place(where),
                    f"`{there}` has this title already. Say what is different about this one.",
                )


def _order(tasks: Tasks, written: Written) -> Iterator[Problem]:
    """No task waits for itself, and no hold is asked for before it can be proved."""
    known = {key: [name for name in task.after if name in tasks] for key, (_, task) in tasks.items()}
    try:
        order = tuple(TopologicalSorter(known).static_order())
    except CycleError as error:
        circle = tuple(reversed(error.args[1]))
        yield Problem(
            written.place((*tasks[circle[0]][0], "after")),
            f"These tasks wait for each other, so none can begin: {' after '.join(circle)}. Take one `after` out.",
        )
        return
    before: dict[str, set[str]] = {}
    for key in order:
        before[key] = set(known[key]).union(*(before[name] for name in known[key]))
    for key, (path, task) in tasks.items():
        for number, hold in enumerate(task.after_hold):
            provers = [name for name, (_, other) in tasks.items() if hold in other.proves]
            if provers and all(name == key or key in before[name] for name in provers):
                yield Problem(
                    written.place((*path, "after_hold", number)),
                    f"`{hold}` is proved only in `{provers[0]}`, which comes after this task. It could never begin.",
                )


def _proofs(tasks: Tasks, written: Written) -> Iterator[Problem]:
    """Wherever a hold applies there is a task that proves it."""
    for key, hold in all_holds().items():
        proving = [task for _, task in tasks.values() if key in task.proves]
        if not any(set(task.engine_has) <= set(hold.needs) for task in proving):
            where = f"for every engine with {' and '.join(hold.needs)}" if hold.needs else "for every engine"
            yield Problem(
                written.place(("phases",), key=True),
                f"No task proves the hold `{key}` {where}. Add `proves: [{key}]` to the task in which it is seen.",
            )
