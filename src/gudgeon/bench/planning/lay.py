"""What is left of the job, laid into his hours: the plan that every part of the answer looks at."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.context import Bench
from gudgeon.bench.network import Task, tasks_of
from gudgeon.bench.planning.answer import Gap
from gudgeon.bench.planning.arrivals import Arrival, arrivals
from gudgeon.bench.planning.cannot import gap_of, no_hours
from gudgeon.bench.planning.figures import figures
from gudgeon.bench.planning.left import Left, left
from gudgeon.bench.planning.own_hours import Clock, RealHours, real_hours
from gudgeon.bench.planning.taken import Paces, paces
from gudgeon.bench.standing import Network
from gudgeon.calc.planning.schedule import Schedule
from gudgeon.calc.planning.schedule_errors import CannotFinish
from gudgeon.calc.planning.search import Planned, plan
from gudgeon.calc.planning.works import Work

GOALS = {
    "fire": "the first start",
    "drive": "the first drive",
    "handover": "handing it over",
    "crank": "turning it with the starter",
}
"""What is aimed at, by the gate of its task: the first of these that is not done."""


@dataclass(frozen=True, slots=True)
class Job:
    """What is left of the job, whether or not it can be laid into his hours."""

    bench: Bench
    network: Network
    goal: str
    aim: str
    real: RealHours
    left: Left
    coming: tuple[Arrival, ...]
    paces: Paces
    seed: int

    @property
    def clock(self) -> Clock:
        """Minutes of the plan as moments."""
        return self.real.clock

    @property
    def works(self) -> Mapping[str, Work]:
        """The works by name."""
        return {one.key: one for one in self.left.works}

    def title(self, key: str) -> str:
        """What a work is called."""
        task = self.network.tasks.get(key)
        return task.title if task is not None else self.left.cures.get(key, key)


@dataclass(frozen=True, slots=True)
class Plan:
    """The job laid into his hours."""

    job: Job
    planned: Planned

    @property
    def schedule(self) -> Schedule:
        """What is done when."""
        return self.planned.schedule

    def at(self, minute: int) -> datetime:
        """A minute of the plan as a moment."""
        return self.job.clock.at(minute)

    @property
    def date(self) -> int:
        """The minute of the date: when the hands of what is aimed at are done; a wait after it moves no date."""
        return self.hands_end(self.job.goal)

    def hands_end(self, key: str) -> int:
        """When the hands of a work are done, before its wait."""
        slots = self.schedule.slots[key]
        return slots[-1][1] if slots else self.schedule.begins[key]


def job_left(bench: Bench, *, days: int) -> Job | None:
    """What is left of the job; nothing where everything is done."""
    network = Network(bench, tasks_of(bench.sheet, bench.state))
    aimed = aimed_at(network)
    if aimed is None:
        return None
    real, known = real_hours(bench, days=days), paces(bench)
    coming = arrivals(network, goal=aimed.key)
    works = left(network, clock=real.clock, paces=known, coming=coming)
    aim = GOALS.get(aimed.gate, f"“{aimed.title}”")
    return Job(bench, network, aimed.key, aim, real, works, coming, known, _seed(bench, real.clock.start))


def aimed_at(network: Network) -> Task | None:
    """The task whose date is asked for: the first start, then what comes after it."""
    open_tasks = [network.tasks[key] for key in network.order if not network.finished(key)]
    for gate in ("fire", "drive", "handover", "crank"):
        found = next((task for task in open_tasks if task.gate == gate), None)
        if found is not None:
            return found
    return open_tasks[-1] if open_tasks else None


def laid(bench: Bench, *, quick: bool) -> tuple[Job | None, Plan | None, tuple[Gap, ...]]:
    """What is left, the plan of it where there is one, and what keeps it from a date where there is none."""
    job = job_left(bench, days=_days(bench))
    if job is None:
        return None, None, ()
    if not job.real.hours.own and job.real.days < figures().most_days:
        job = job_left(bench, days=figures().most_days) or job  # days off may fill all that was looked at
    if not job.real.hours.own:
        return job, None, no_hours(bench)
    try:
        return job, Plan(job, _planned(job, quick)), ()
    except CannotFinish as first:
        refused = first
    if job.real.days < figures().most_days:
        job = job_left(bench, days=figures().most_days) or job
        try:
            return job, Plan(job, _planned(job, quick)), ()
        except CannotFinish as again:
            refused = again
    gap = gap_of(refused, job.title, job.real, two_people=job.works[refused.key].two_people)
    return job, None, (gap,)


def _planned(job: Job, quick: bool) -> Planned:
    from numpy.random import default_rng

    return plan(
        job.left.works, hours=job.real.hours, goal=job.goal, trials=0 if quick else None,
        generator=default_rng(job.seed),
    )  # fmt: skip


def _days(bench: Bench) -> int:
    """How far ahead is planned at first: far enough in nearly every case, and no further, as that costs time."""
    known = figures()
    promised = [one.latest for one in bench.state.plan.promises.values()]
    ahead = max(
        ((datetime.fromisoformat(day).date() - bench.now.astimezone().date()).days for day in promised),
        default=0,
    )
    return min(known.most_days, known.least_days + max(ahead, 0))


def _seed(bench: Bench, start: datetime) -> int:
    """Chance follows from the book and the day, so that the same book says the same all day."""
    said = f"{bench.state.head} {start.astimezone():%Y-%m-%d}"
    return int.from_bytes(hashlib.sha256(said.encode()).digest()[:4])
