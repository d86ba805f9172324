"""Minutes really taken against planned ones, and what the plan makes of them.

Of a kind of task (a phase of the job) the plan uses

    factor = exp((Σ ln(taken/planned) + k · ln(before)) / (n + k))

over its n tasks of which the minutes are known, with k tasks' worth of what was thought before: the same mean over all
other kinds, which in turn leans on the pace of the kit, or 1. Kinds of which nothing is known have the mean over all.
One task alone moves little, many move it all the way; a geometric mean, because twice as long and half as long cancel.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from gudgeon.bench.chain_read import read_chain
from gudgeon.bench.context import Bench
from gudgeon.bench.network import Task, job, job_named, known_task
from gudgeon.bench.planning.answer import Taken
from gudgeon.bench.planning.figures import figures
from gudgeon.book.state import State


@dataclass(frozen=True, slots=True)
class Known:
    """A task of which the minutes are known."""

    kind: str
    planned: int
    taken: int

    @property
    def ratio(self) -> float:
        """How far off, and no further than one task may count."""
        most = figures().most_ratio
        return min(max(self.taken / self.planned, 1 / most), most)


@dataclass(frozen=True, slots=True)
class Paces:
    """What his minutes are multiplied with, by the kind of task; `whole` where nothing is known of a kind."""

    whole: float
    kinds: Mapping[str, float]
    rows: tuple[Taken, ...]

    def of(self, kind: str) -> float:
        """The factor of a kind of task."""
        return self.kinds.get(kind, self.whole)


def paces(bench: Bench) -> Paces:
    """What the builds of this book tell of his minutes."""
    kit = bench.kit.hours
    pace = float(kit.pace) if kit is not None and kit.pace is not None else 1.0
    return paces_of(list(_known(bench)), pace=pace)


def paces_of(known: list[Known], *, pace: float) -> Paces:
    """Factors of what is known, leaning on a pace."""
    whole = leaning(known, on=pace)
    kinds: dict[str, list[Known]] = {}
    for one in known:
        kinds.setdefault(one.kind, []).append(one)
    factors = {
        kind: leaning(some, on=leaning([one for one in known if one.kind != kind], on=pace))
        for kind, some in kinds.items()
    }
    rows = [_row(kind, some, factors[kind]) for kind, some in kinds.items()]
    if len(rows) > 1:
        rows.append(_row("All together", known, whole))
    return Paces(whole, factors, tuple(rows))


def leaning(known: Iterable[Known], *, on: float) -> float:
    """The geometric mean of what was taken against planned, leaning on what was thought before."""
    logs = [math.log(one.ratio) for one in known]
    weight = figures().prior_tasks
    return math.exp((sum(logs) + weight * math.log(on)) / (len(logs) + weight))


def _row(kind: str, known: list[Known], factor: float) -> Taken:
    planned, taken = sum(one.planned for one in known), sum(one.taken for one in known)
    mean = math.exp(sum(math.log(one.ratio) for one in known) / len(known))
    tasks = "one task" if len(known) == 1 else f"{len(known)} tasks"
    words = f"{kind}: {tasks}, planned {planned} min, taken {taken} min; planned with {factor:.2f} times the minutes"
    most = figures().most_ratio
    far = sum(not 1 / most <= one.taken / one.planned <= most for one in known)
    if far:
        which = "one of them counts" if far > 1 or len(known) > 1 else "it counts"
        words += f"; more than {most:g} times off, {which if far == 1 else f'{far} of them count'} as {most:g} times"
    return Taken(kind, len(known), planned, taken, mean, factor, words)


def _known(bench: Bench) -> Iterator[Known]:
    """Tasks of this build and of the others in the book, of which somebody looked at the clock."""
    yield from _of_state(bench.state, {one.key: one for one in _job_tasks(bench)})
    for build in bench.store.builds():
        if build != bench.build:
            yield from _of_state(read_chain(bench.store, build, where=str(bench.book)).state, {})


def _job_tasks(bench: Bench) -> tuple[Task, ...]:
    """The tasks of the job as shipped, in the words for this engine: his own minutes are no plan to compare with."""
    return job(job_named(bench.state)).for_engine(bench.sheet)


def _of_state(state: State, tasks: Mapping[str, Task]) -> Iterator[Known]:
    for key, one in state.tasks.items():
        task = tasks.get(key) or known_task(key)
        if task is not None and one.status == "done" and one.minutes and task.minutes:
            yield Known(task.phase, task.minutes, one.minutes)
