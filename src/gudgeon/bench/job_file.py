"""A job written by hand as YAML: what would make it go wrong, and the tasks that it comes to as plain data."""

from collections.abc import Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from typing import Any, get_args

from gudgeon.bench.features import FEATURES
from gudgeon.bench.holds import Hold, all_holds
from gudgeon.bench.job_based import BASED, Laid, Tasks, based_on, lay, lay_on
from gudgeon.bench.job_shape import LATE, BasedFile, JobFile, TaskSection, WaitSection
from gudgeon.quantity.written import Printed
from gudgeon.sheet.joints import Role
from gudgeon.written.check import unknown
from gudgeon.written.errors import Problem
from gudgeon.written.load import parse
from gudgeon.written.located import Path, Written


def read_job(text: str, *, file: str, bases: Mapping[str, str] | None = None) -> dict[str, Any]:
    """A job as plain data, its tasks in the order of the work; else everything that is wrong with it.

    `bases` are the texts of the jobs that another may be based on, by the name of their file.
    """
    laid = _laid(text, file, bases or {}, (file.removesuffix(".yaml"),))
    return {
        "name": laid.name,
        "engine_has": list(laid.engine_has),
        "whole": laid.whole,
        "tasks": [_plain(key, laid) for key in laid.order()],
    }


def _laid(text: str, file: str, bases: Mapping[str, str], above: tuple[str, ...]) -> Laid:
    """A job with what it takes over from the one that it is based on; `above` are those that are based on it."""
    if not BASED.search(text):
        job, written, _ = parse(JobFile, text, file=file, what="job", problems=_whole_problems)
        return lay(job, written)[0]
    known: list[Laid] = []

    def problems(job: BasedFile, written: Written) -> Iterator[Problem]:
        wrong = based_on(job.based_on, above, bases=bases)
        if wrong:
            yield Problem(written.place(("based_on",)), wrong)
            return
        under = _laid(bases[job.based_on], f"{job.based_on}.yaml", bases, (*above, job.based_on))
        laid, found = lay_on(under, job, written)
        known.append(laid)
        yield from found
        yield from _problems(laid, written)
        yield from _wanted(laid, written)

    parse(BasedFile, text, file=file, what="job", problems=problems)
    return known[0]


def _plain(key: str, laid: Laid) -> dict[str, Any]:
    def hurts(keys: Iterable[str]) -> list[list[str]]:
        return [[laid.cautions[one].text, laid.cautions[one].basis] for one in keys]

    task, (phase, due_before) = laid.tasks[key][1], laid.phase_of[key]
    said = {feature: one.model_dump(exclude_none=True) for feature, one in task.without.items()}
    for one in said.values():
        if "cautions" in one:
            one["not_late"] = LATE in one["cautions"]
            one["cautions"] = hurts(one["cautions"])
        if "on_the_bench" in one:
            one["needs"] = list(one.pop("on_the_bench"))
    return {
        "key": key,
        "title": task.title,
        "phase": phase,
        "after": list(task.after),
        "engine_has": list(task.engine_has),
        "minutes": task.minutes,
        "wait": _wait(task.wait),
        "needs": list(task.on_the_bench),
        "in_one_go": task.in_one_go,
        "not_late": LATE in task.cautions,
        "two_people": task.two_people,
        "after_hold": list(task.after_hold),
        "proves": list(task.proves),
        "joint": task.joint or "",
        "shop": [task.shop.part, task.shop.when] if task.shop else [],
        "gate": task.gate or "",
        "no_timer": task.no_timer,
        "due_before": task.due_before or due_before,
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


def _whole_problems(job: JobFile, written: Written) -> Iterator[Problem]:
    """What is wrong with a job that stands by itself."""
    laid, found = lay(job, written)
    yield from found
    yield from _problems(laid, written)
    for hold in all_holds().values():
        if _asked_of_all(hold, laid):
            yield from _proof(hold, laid, written)


def _problems(laid: Laid, written: Written) -> Iterator[Problem]:
    """What a reader of the file would get wrong, each with its line."""
    tasks = laid.tasks
    for number, feature in enumerate(laid.engine_has):
        if feature not in FEATURES:
            message = unknown("feature of an engine", value=feature, known=FEATURES)
            yield Problem(written.place(("engine_has", number)), message)
    for path, task in tasks.values():
        yield from _names(path, task, laid, written)
        yield from _sense(path, task, written)
    yield from _titles(tasks, written)
    yield from _order(tasks, written)


def _names(path: Path, task: TaskSection, job: Laid, written: Written) -> Iterator[Problem]:
    """Every name that a task uses is one that is known."""
    known: tuple[tuple[str, Iterable[str], Iterable[str], str], ...] = (
        ("after", task.after, job.tasks, "task"),
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


def _asked_of_all(hold: Hold, laid: Laid) -> bool:
    """Whether a job that stands by itself has to prove a hold: all but those of what it never opens."""
    return not hold.opened or bool(_touched(hold, laid.tasks, _opened(laid.tasks)))


def _opened(tasks: Tasks) -> set[str]:
    """What of the engine is opened that other jobs leave shut, as the holds that are proved say."""
    holds = all_holds()
    return {holds[one].opened for _, task in tasks.values() for one in task.proves if one in holds} - {""}


def _proof(hold: Hold, laid: Laid, written: Written) -> Iterator[Problem]:
    """Wherever a hold applies there is a task that proves it."""
    has = {*hold.needs, *laid.engine_has}
    proving = [task for _, task in laid.tasks.values() if hold.id in task.proves]
    if not any(set(task.engine_has) <= has for task in proving):
        where = f"for every engine with {' and '.join(hold.needs)}" if hold.needs else "for every engine"
        yield Problem(
            written.place(("phases",), key=True),
            f"No task proves the hold `{hold.id}` {where}. Add `proves: [{hold.id}]` to the task in which it is seen.",
        )


def _wanted(laid: Laid, written: Written) -> Iterator[Problem]:
    """A job that is based on another proves what its tasks ask for, and all of what it touches of the engine."""
    holds, asked = all_holds(), dict[str, None]()
    for path, task in laid.tasks.values():
        for number, name in enumerate(task.after_hold):
            if name in holds and not _proved(holds[name], laid):
                asked[name] = None
                yield Problem(
                    written.place((*path, "after_hold", number)),
                    f"“{task.title}” asks for the hold `{name}`, and no task of this job proves it. Take in the "
                    "task in which it is seen, or change `after_hold`.",
                )
    opened = _opened(laid.tasks)
    for hold in holds.values():
        why = _touched(hold, laid.tasks, opened)
        if why and hold.id not in asked and not _proved(hold, laid):
            yield Problem(
                written.place(("based_on",)),
                f"This job {why}, and no task of it proves the hold `{hold.id}`. Take in the task in which it is "
                "seen, or leave out what touches it.",
            )


def _proved(hold: Hold, laid: Laid) -> bool:
    has = {*hold.needs, *laid.engine_has}
    proving = (task for _, task in laid.tasks.values() if hold.id in task.proves)
    return any(set(task.engine_has) <= has for task in proving)


def _touched(hold: Hold, tasks: Tasks, opened: set[str]) -> str:
    """By what a job touches what a hold is about; nothing where it does not."""
    if hold.id in ALWAYS:
        return "is done on an engine"
    if hold.opened in opened:
        return f"opens the {hold.opened}"
    states = {one.removeprefix("state:") for one in hold.rests_on if one.startswith("state:")}
    for _, task in tasks.values():
        if hold.joint and task.joint == hold.joint:
            return f"tightens the {hold.joint}"
        made = set(task.makes.model_dump(exclude_none=True)) if task.makes else set()
        for name in sorted(states & made & MOVED):
            return f"moves the {name}"
    return ""


ALWAYS = ("right_engine",)
"""Proved in any job, whatever it touches."""

MOVED = {"cams", "belt", "followers"}
"""What a task makes of the engine that has to be proved anew; that the crank was turned has not."""
