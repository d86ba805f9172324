"""The job as a network of tasks: what it holds for any engine, and what of it one engine needs."""

import hashlib
import json
import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import resources
from types import MappingProxyType
from typing import Any

from gudgeon.bench.features import has
from gudgeon.book.plan_state import AddedTask, PlanState
from gudgeon.book.state import State
from gudgeon.sheet.model import DataSheet

JOB = "top_end"
"""The job of a build for which none was chosen."""
JOBS = (JOB, "with_bottom_end", "timing_belt", "cover_reseal")
"""The jobs that are shipped."""
Bases = tuple[tuple[str, str], ...]
"""The jobs that another one is based on, each with its text."""


@dataclass(frozen=True, slots=True)
class Wait:
    """What runs by itself once the hands are done; `clock` is false for an estimate of somebody else's time."""

    minutes: int
    what: str
    clock: bool


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt, and where that is said."""

    text: str
    basis: str


@dataclass(frozen=True, slots=True)
class Task:
    """One piece of work: what comes before it, what it needs, what it proves.

    `acts` are what a gate of the engine asks about, `makes` is what is so of the engine when it is done.
    """

    key: str
    title: str
    phase: str
    after: tuple[str, ...]
    engine_has: tuple[str, ...]
    minutes: int
    wait: Wait | None
    needs: tuple[str, ...]
    two_people: bool
    after_hold: tuple[str, ...]
    proves: tuple[str, ...]
    joint: str
    shop_part: str
    shop_when: str
    gate: str
    no_timer: bool
    due_before: str
    acts: tuple[str, ...]
    makes: Mapping[str, str]
    cautions: tuple[Caution, ...]
    without: Mapping[str, Mapping[str, Any]]
    spread: tuple[int, int] | None = None
    """Minutes at best and at worst, where he said them."""
    in_one_go: bool = False
    """It is not left standing half done and gone on with another day."""
    not_late: bool = False
    """Tired people slip in it: torque that counts, and timing."""


@dataclass(frozen=True, slots=True)
class Job:
    """A job for any engine that has `engine_has`, its tasks in the order of the work.

    One that is not `whole` is a part of another: of what its tasks do not touch nothing is asked.
    """

    name: str
    tasks: Mapping[str, Task]
    engine_has: tuple[str, ...] = ()
    whole: bool = True

    def for_engine(self, sheet: DataSheet) -> tuple[Task, ...]:
        """The tasks that this engine needs, in words that fit it; what is dropped passes its `after` on."""
        gone = {
            key for key, task in self.tasks.items() if not all(has(sheet, one) for one in task.engine_has)
        }
        return tuple(_in_words_for(task, sheet) for task in self.without_tasks(gone))

    def without_tasks(self, gone: Collection[str]) -> tuple[Task, ...]:
        """The tasks without some of them, which pass their `after` on."""
        kept = {key for key in self.tasks if key not in gone}
        through: dict[str, tuple[str, ...]] = {}
        return tuple(
            replace(task, after=self._after(key, kept, through))
            for key, task in self.tasks.items()
            if key in kept
        )

    @property
    def proves(self) -> frozenset[str]:
        """The holds that are proved in this job."""
        return frozenset(hold for task in self.tasks.values() for hold in task.proves)

    def title(self, key: str, *, sheet: DataSheet) -> str:
        """What a task is called on this engine; a task that the job no longer has is named as the book names it."""
        task = self.tasks.get(key)
        return _in_words_for(task, sheet).title if task else key.replace("_", " ")

    def _after(self, key: str, kept: set[str], through: dict[str, tuple[str, ...]]) -> tuple[str, ...]:
        """What comes before a task once the dropped ones are looked through, each once."""
        if key not in through:
            found: list[str] = []
            for name in self.tasks[key].after:
                found += [name] if name in kept else self._after(name, kept, through)
            through[key] = tuple(dict.fromkeys(found))
        return through[key]


def job_named(state: State) -> str:
    """Which job a build is; a book of a later program may name one that this program does not have."""
    return state.plan.job if state.plan.job in JOBS else JOB


def job_of(state: State) -> Job:
    """The job of a build: the one that was chosen, with what he changed in it."""
    return adapted(job(job_named(state)), state.plan)


def tasks_of(sheet: DataSheet, state: State) -> tuple[Task, ...]:
    """The tasks of a build: those of its job that its engine needs, and what he changed of them."""
    return job_of(state).for_engine(sheet)


def tasks_left_out(sheet: DataSheet, state: State) -> dict[str, Task]:
    """The tasks of the job that this engine needs and that he leaves out, by their keys."""
    whole = job(job_named(state)).for_engine(sheet)
    return {one.key: one for one in whole if one.key in state.plan.dropped}


def title_of(key: str, *, sheet: DataSheet, state: State) -> str:
    """What a task is called in this build, also one that it no longer has."""
    own = job_of(state)
    task = own.tasks.get(key) or job(job_named(state)).tasks.get(key) or known_task(key)
    return _in_words_for(task, sheet).title if task else own.title(key, sheet=sheet)


def known_task(key: str) -> Task | None:
    """A task of any job that is shipped: a task means the same in all of them.

    The jobs are read one after another, because most keys are in the first.
    """
    return next((task for name in JOBS if (task := job(name).tasks.get(key)) is not None), None)


def adapted(whole: Job, plan: PlanState) -> Job:
    """A job with tasks added and dropped, minutes and an order of his own.

    What names a task that is not there, or would make tasks wait for each other, is left out: an entry that the book
    has taken can lose its ground when another one is struck.
    """
    if not (plan.added or plan.dropped or plan.minutes or plan.after):
        return whole
    tasks = {
        **whole.tasks,
        **{key: _added(one, whole) for key, one in plan.added.items() if key not in whole.tasks},
    }
    for key, minutes in plan.minutes.items():
        if key in tasks:
            spread = (minutes.low, minutes.high) if minutes.low < minutes.high else None
            tasks[key] = replace(tasks[key], minutes=minutes.likely, spread=spread, without=_own(tasks[key]))
    for key, name in _own_order(plan):
        if key in tasks and name in tasks and not _leads_to(tasks, name, key):
            tasks[key] = replace(tasks[key], after=tuple(dict.fromkeys((*tasks[key].after, name))))
    gone = {key for key in plan.dropped if key in tasks}
    kept = replace(whole, tasks=MappingProxyType(tasks))
    return replace(whole, tasks=MappingProxyType({one.key: one for one in kept.without_tasks(gone)}))


def circle(whole: Job, plan: PlanState) -> tuple[str, ...]:
    """The tasks that an order of his own would make wait for each other; nothing where it can be kept."""
    tasks = {
        **whole.tasks,
        **{key: _added(one, whole) for key, one in plan.added.items() if key not in whole.tasks},
    }
    for key, name in _own_order(plan):
        if key in tasks and name in tasks:
            if _leads_to(tasks, name, key):
                return (name, key)
            tasks[key] = replace(tasks[key], after=(*tasks[key].after, name))
    return ()


def _own_order(plan: PlanState) -> list[tuple[str, str]]:
    """Pairs of a task and one that comes before it, as he wants them."""
    pairs = [(key, name) for key, one in plan.added.items() for name in one.after]
    pairs += [(name, key) for key, one in plan.added.items() for name in one.before]
    return pairs + [(key, name) for key, names in plan.after.items() for name in names]


def _leads_to(tasks: Mapping[str, Task], key: str, wanted: str) -> bool:
    """Whether a task is the wanted one, or comes after it."""
    seen: set[str] = set()
    heap = [key]
    while heap:
        one = heap.pop()
        if one == wanted:
            return True
        if one not in seen and one in tasks:
            seen.add(one)
            heap += tasks[one].after
    return False


def _added(one: AddedTask, whole: Job) -> Task:
    """A task of his own; it stands in the phase of what it waits for."""
    near = [whole.tasks[name].phase for name in (*one.after, *one.before) if name in whole.tasks]
    return Task(
        key=one.task, title=one.title, phase=near[0] if near else OWN_PHASE, after=(), engine_has=(),
        minutes=one.minutes, wait=None, needs=one.needs, two_people=one.two_people, after_hold=(), proves=(), joint="",
        shop_part="", shop_when="", gate="", no_timer=False, due_before=one.due_before, acts=(), makes={},
        cautions=(), without={},
    )  # fmt: skip


OWN_PHASE = "Your own"


def _own(task: Task) -> Mapping[str, Mapping[str, Any]]:
    """His own minutes stand against those for an engine that lacks something."""
    return {
        feature: {name: value for name, value in said.items() if name != "minutes"}
        for feature, said in task.without.items()
    }


def _in_words_for(task: Task, sheet: DataSheet) -> Task:
    for feature, said in task.without.items():
        if not has(sheet, feature):
            task = replace(task, **said)
    return task


@lru_cache(maxsize=8)
def read(text: str, *, file: str, compiled: str = "", bases: Bases = ()) -> Job:
    """A job from its YAML; from `compiled` instead when that was made from exactly this text and its bases.

    Reading YAML with line and column takes 80 ms, half of what a command has left after start-up.
    """
    made = json.loads(compiled) if compiled else {}
    if made.get("of") == fingerprint(text, bases=bases):
        return _job(made)
    from gudgeon.bench.job_file import read_job

    return _job(read_job(text, file=file, bases=dict(bases)))


def fingerprint(text: str, *, bases: Bases = ()) -> str:
    """What ties a compiled job to the texts it was made from."""
    return hashlib.sha256("".join((text, *(under for _, under in bases))).encode()).hexdigest()


def compiled(text: str, *, file: str, bases: Bases = ()) -> str:
    """A job as JSON, a task a line, with the fingerprint of the texts that it was made from."""
    from gudgeon.bench.job_file import read_job

    made = read_job(text, file=file, bases=dict(bases))
    lines = ",\n".join(json.dumps(task, ensure_ascii=False) for task in made["tasks"])
    rest = ", ".join(
        f"{json.dumps(name)}: {json.dumps(made[name])}" for name in ("name", "engine_has", "whole")
    )
    return f'{{"of": "{fingerprint(text, bases=bases)}", {rest}, "tasks": [\n{lines}\n]}}\n'


@lru_cache(maxsize=8)
def job(name: str = JOB) -> Job:
    """A job that is shipped."""
    text, bases = texts_of(name)
    file = _DATA.joinpath(f"{name}.json")
    return read(
        text,
        file=f"{name}.yaml",
        compiled=file.read_text(encoding="utf-8") if file.is_file() else "",
        bases=bases,
    )


_DATA = resources.files("gudgeon.bench").joinpath("data")
_BASED = re.compile(r"^based_on: (\w+)$", re.MULTILINE)


def texts_of(name: str) -> tuple[str, Bases]:
    """The text of a job that is shipped, and of those that it is based on."""
    text = _DATA.joinpath(f"{name}.yaml").read_text(encoding="utf-8")
    under = _BASED.search(text)
    if under is None:
        return text, ()
    below, bases = texts_of(under[1])
    return text, ((under[1], below), *bases)


def _job(plain: Mapping[str, Any]) -> Job:
    tasks = {one["key"]: _task(one) for one in plain["tasks"]}
    return Job(plain["name"], MappingProxyType(tasks), tuple(plain["engine_has"]), plain["whole"])


def _task(plain: Mapping[str, Any]) -> Task:
    part, when = plain["shop"] or ("", "")
    lists = {
        name: tuple(plain[name]) for name in ("after", "engine_has", "needs", "after_hold", "proves", "acts")
    }
    return Task(
        key=plain["key"],
        title=plain["title"],
        phase=plain["phase"],
        minutes=plain["minutes"],
        wait=Wait(*plain["wait"]) if plain["wait"] else None,
        two_people=plain["two_people"],
        in_one_go=plain["in_one_go"],
        not_late=plain["not_late"],
        joint=plain["joint"],
        shop_part=part,
        shop_when=when,
        gate=plain["gate"],
        no_timer=plain["no_timer"],
        due_before=plain["due_before"],
        makes=plain["makes"],
        cautions=_cautions(plain["cautions"]),
        without={feature: _wording(said) for feature, said in plain["without"].items()},
        **lists,
    )


def _wording(said: Mapping[str, Any]) -> dict[str, Any]:
    read: dict[str, Any] = dict(said)
    if "needs" in read:
        read["needs"] = tuple(read["needs"])
    if "cautions" in read:
        read["cautions"] = _cautions(read["cautions"])
    return read


def _cautions(plain: Iterable[tuple[str, str]]) -> tuple[Caution, ...]:
    return tuple(Caution(text, basis) for text, basis in plain)
