"""The date as a distribution: minutes, waits and deliveries drawn anew in each trial, and what may go wrong as well."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from gudgeon.bench.planning.answer import Chance, Distribution, Week
from gudgeon.bench.planning.figures import figures
from gudgeon.bench.planning.lay import Job, Plan
from gudgeon.bench.planning.mishaps import setbacks, told
from gudgeon.bench.planning.words import day_words, moment_words, week_words
from gudgeon.calc.planning.finishes import Spread
from gudgeon.calc.planning.works import Work

TRIALS = 2000
SUNDAYS = 4
"""For so many ends of weeks the chance is told."""


def distribution(plan: Plan, *, trials: int = TRIALS) -> Distribution:
    """The date of what the plan aims at, simulated."""
    from numpy.random import default_rng

    from gudgeon.calc.planning.finishes import simulate

    job, now = plan.job, plan.job.bench.now
    works, spreads = _until_goal(job)
    found = simulate(
        works, hours=job.real.hours, goal=job.goal, priority=plan.planned.priority,
        generator=default_rng(job.seed), trials=trials, spreads=spreads, setbacks=setbacks(job),
        pace=figures().all_minutes,
    )  # fmt: skip
    days = [plan.at(int(minute)).date() for minute in sorted(found.goal)[: trials - found.beyond_horizon]]
    tenths = [found.by(share) for share in (0.1, 0.5, 0.9)]
    early, middle, late = (plan.at(minute) if minute is not None else None for minute in tenths)
    beyond = f"later than the {job.real.days} days that are planned ahead"
    words = [moment_words(one, now=now) if one is not None else beyond for one in (early, middle, late)]
    said = (
        f"In {trials:,} simulated runs of the rest, each with minutes, deliveries and mishaps of its own, {job.aim} "
        f"came in one of ten by {words[0]}, in half of them by {words[1]}, in nine of ten by {words[2]}."
    )
    return Distribution(
        trials=trials, early=early, middle=middle, late=late, early_words=words[0], middle_words=words[1],
        late_words=words[2], chances=tuple(_chances(plan, days, trials)), weeks=tuple(_weeks(plan, days, trials)),
        setbacks=told(job, found.hits, trials=trials), beyond=100 * found.beyond_horizon / trials, said=said,
    )  # fmt: skip


def _until_goal(job: Job) -> tuple[tuple[Work, ...], Mapping[str, Spread]]:
    """The works without the wait after the goal: the date is when its hands are done."""
    works = tuple(replace(one, wait=0) if one.key == job.goal else one for one in job.left.works)
    spreads = dict(job.left.spreads)
    if job.goal in spreads:
        spreads[job.goal] = replace(spreads[job.goal], wait=None)
    return works, spreads


def _chances(plan: Plan, days: Sequence[date], trials: int) -> Iterator[Chance]:
    """By the planned day, and by the ends of the weeks in which it may well come."""
    now = plan.job.bench.now
    planned = plan.at(plan.date).date()
    asked = {planned: "as planned"}
    ends = dict.fromkeys(_sunday(day) for day in days)
    useful = [day for day in ends if 5 <= _percent(days, day, trials) <= 99]
    for day in useful[:: max(1, -(-len(useful) // SUNDAYS))]:
        asked.setdefault(day, "end of a week")
    said = ""
    for day in sorted(asked):
        percent = _percent(days, day, trials)
        # The planned day is told always; an end of a week only where it says something new as it is read.
        if day == planned or f"{percent:.0f}" != said:
            yield Chance(day, day_words(day, now=now), percent, asked[day])
        said = f"{percent:.0f}"


def _percent(days: Sequence[date], by: date, trials: int) -> float:
    return 100 * sum(day <= by for day in days) / trials


def _sunday(day: date) -> date:
    return day + timedelta(days=6 - day.weekday())


def _weeks(plan: Plan, days: Sequence[date], trials: int) -> Iterator[Week]:
    """From the first week in which it came to the last, those without any too."""
    if not days:
        return
    end = _sunday(days[0])
    while end <= _sunday(days[-1]):
        begins = end - timedelta(days=6)
        count = sum(begins <= day <= end for day in days)
        yield Week(
            begins, end, week_words(begins, ends=end, now=plan.job.bench.now), 100 * count / trials,
            _percent(days, end, trials),
        )  # fmt: skip
        end += timedelta(days=7)
