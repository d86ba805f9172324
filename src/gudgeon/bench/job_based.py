"""A job laid out from its file: by itself, or as another one with tasks left out, changed and added."""

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field

from gudgeon.bench.job_shape import BasedFile, CautionSection, JobFile, OwnPhase, PhaseSection, TaskSection
from gudgeon.written.check import unknown
from gudgeon.written.errors import Problem
from gudgeon.written.located import Path, Written

BASED = re.compile(r"^based_on:[ \t]*[\"']?([a-z0-9_]+)", re.MULTILINE)
"""By this line a file says that it is no whole job."""

Tasks = Mapping[str, tuple[Path, TaskSection]]
"""The tasks by their key, each with where the file that is read says something of it."""


@dataclass(frozen=True, slots=True)
class Laid:
    """A job with all of its tasks, whoever wrote them; `phase_of` gives the phase of a task and when it is due."""

    name: str
    engine_has: tuple[str, ...] = ()
    whole: bool = True
    cautions: dict[str, CautionSection] = field(default_factory=dict)
    phases: list[str] = field(default_factory=list)
    tasks: dict[str, tuple[Path, TaskSection]] = field(default_factory=dict)
    phase_of: dict[str, tuple[str, str]] = field(default_factory=dict)

    def order(self) -> list[str]:
        """The tasks in the order of the phases, and within a phase as they were written."""
        return sorted(self.tasks, key=lambda key: self.phases.index(self.phase_of[key][0]))

    def take(self, path: Path, phase: PhaseSection) -> Iterator[str]:
        """Take the tasks of a phase in; the keys of those that are there already."""
        for key, task in phase.tasks.items():
            if key in self.tasks:
                yield key
            else:
                self.tasks[key] = ((*path, "tasks", key), task)
                self.phase_of[key] = (phase.phase, phase.due_before)


def lay(job: JobFile, written: Written) -> tuple[Laid, list[Problem]]:
    """A job that stands by itself."""
    laid, found = Laid(job.name, job.engine_has, cautions=job.cautions), list[Problem]()
    for number, phase in enumerate(job.phases):
        if phase.phase not in laid.phases:
            laid.phases.append(phase.phase)
        for key in laid.take(("phases", number), phase):
            found.append(_twice(key, ("phases", number, "tasks", key), laid, written))
    return laid, found


def _twice(key: str, path: Path, laid: Laid, written: Written) -> Problem:
    first = written.place(laid.tasks[key][0], key=True).line
    return Problem(
        written.place(path, key=True),
        f"`{key}` is here a second time; the first is on line {first}. Give it another name.",
    )


def based_on(name: str, above: tuple[str, ...], *, bases: Mapping[str, str]) -> str:
    """What is wrong with the job that another is based on; nothing where it can be read."""
    if name in above:
        round_about = " on ".join(f"`{one}`" for one in (*above[above.index(name) :], name))
        return f"These jobs are based on each other without an end: {round_about}. Take one `based_on` out."
    return "" if name in bases else unknown("job", value=name, known=bases)


def lay_on(under: Laid, job: BasedFile, written: Written) -> tuple[Laid, list[Problem]]:
    """A job that is another one with tasks left out, changed and added."""
    found: list[Problem] = []
    gone = set(job.leave_out)
    laid = Laid(
        job.name,
        (*under.engine_has, *job.engine_has),
        under.whole and not job.leave_out,
        {**under.cautions, **job.cautions},
        list(under.phases),
        _kept(under.tasks, gone),
        {key: one for key, one in under.phase_of.items() if key not in gone},
    )
    for number, key in enumerate(job.leave_out):
        if key not in under.tasks:
            message = unknown("task of the job that this is based on", value=key, known=under.tasks)
            found.append(Problem(written.place(("leave_out", number)), message))
    for key, change in job.changes.items():
        if key in laid.tasks:
            laid.tasks[key] = (("changes", key), change.of(laid.tasks[key][1]))
            continue
        message = (
            f"`{key}` is left out, so nothing of it can be changed. Take it out of one of the two."
            if key in gone & set(under.tasks)
            else unknown("task of the job that this is based on", value=key, known=under.tasks)
        )
        found.append(Problem(written.place(("changes", key), key=True), message))
    for number, phase in enumerate(job.phases):
        found += _add_phase(number, phase, laid, under, written)
    return laid, found


def _add_phase(number: int, phase: OwnPhase, laid: Laid, under: Laid, written: Written) -> Iterator[Problem]:
    path: Path = ("phases", number)
    if phase.behind is not None and phase.behind not in laid.phases:
        message = unknown("phase", value=phase.behind, known=laid.phases)
        yield Problem(written.place((*path, "behind")), message)
    if phase.phase not in laid.phases:
        behind = phase.behind in laid.phases
        place = laid.phases.index(phase.behind) + 1 if behind and phase.behind else len(laid.phases)
        laid.phases.insert(place, phase.phase)
    for key in laid.take(path, phase):
        where = (*path, "tasks", key)
        if key in under.tasks:
            yield Problem(
                written.place(where, key=True),
                f"`{key}` is a task of the job that this is based on. Say under `changes` what is otherwise, or give "
                "it another name.",
            )
        else:
            yield _twice(key, where, laid, written)


def _kept(tasks: Tasks, gone: Collection[str]) -> dict[str, tuple[Path, TaskSection]]:
    """The tasks that stay; one that is left out hands its own `after` on to those that came after it."""

    def through(names: tuple[str, ...]) -> tuple[str, ...]:
        found: list[str] = []
        for name in names:
            found += [name] if name not in gone else through(tasks[name][1].after)
        return tuple(dict.fromkeys(found))

    return {
        key: (("based_on",), task.model_copy(update={"after": through(task.after)}))
        for key, (_, task) in tasks.items()
        if key not in gone
    }
