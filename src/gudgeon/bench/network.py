"""The job as a network of tasks: what it holds for any engine, and what of it one engine needs."""

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import resources
from types import MappingProxyType
from typing import Any

from gudgeon.bench.features import has
from gudgeon.sheet.model import DataSheet

JOB = "top_end"
"""The job that is shipped."""


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


@dataclass(frozen=True, slots=True)
class Job:
    """A job for any engine, its tasks in the order of the file."""

    name: str
    tasks: Mapping[str, Task]

    def for_engine(self, sheet: DataSheet) -> tuple[Task, ...]:
        """The tasks that this engine needs, in words that fit it; what is dropped passes its `after` on."""
        kept = {key for key, task in self.tasks.items() if all(has(sheet, one) for one in task.engine_has)}
        through: dict[str, tuple[str, ...]] = {}
        return tuple(
            _in_words_for(replace(task, after=self._after(key, kept, through)), sheet)
            for key, task in self.tasks.items()
            if key in kept
        )

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


def _in_words_for(task: Task, sheet: DataSheet) -> Task:
    for feature, said in task.without.items():
        if not has(sheet, feature):
            task = replace(task, **said)
    return task


@lru_cache(maxsize=8)
def read(text: str, *, file: str, compiled: str = "") -> Job:
    """A job from its YAML; from `compiled` instead when that was made from exactly this text.

    Reading YAML with line and column takes 80 ms, half of what a command has left after start-up.
    """
    made = json.loads(compiled) if compiled else {}
    if made.get("of") == fingerprint(text):
        return _job(made)
    from gudgeon.bench.job_file import read_job

    return _job(read_job(text, file=file))


def fingerprint(text: str) -> str:
    """What ties a compiled job to the text it was made from."""
    return hashlib.sha256(text.encode()).hexdigest()


def compiled(text: str, *, file: str) -> str:
    """A job as JSON, a task a line, with the fingerprint of the text that it was made from."""
    from gudgeon.bench.job_file import read_job

    made = read_job(text, file=file)
    lines = ",\n".join(json.dumps(task, ensure_ascii=False) for task in made["tasks"])
    return f'{{"of": "{fingerprint(text)}", "name": {json.dumps(made["name"])}, "tasks": [\n{lines}\n]}}\n'


@lru_cache(maxsize=1)
def job() -> Job:
    """The job that is shipped."""
    folder = resources.files("gudgeon.bench").joinpath("data")
    file = folder.joinpath(f"{JOB}.json")
    return read(
        folder.joinpath(f"{JOB}.yaml").read_text(encoding="utf-8"),
        file=f"{JOB}.yaml",
        compiled=file.read_text(encoding="utf-8") if file.is_file() else "",
    )


def _job(plain: Mapping[str, Any]) -> Job:
    tasks = {one["key"]: _task(one) for one in plain["tasks"]}
    return Job(plain["name"], MappingProxyType(tasks))


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
