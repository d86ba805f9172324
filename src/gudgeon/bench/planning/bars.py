"""Bars over real days: each task with its work, its waits and what is away, and the days that have a line."""

from collections.abc import Iterator
from datetime import datetime, timedelta

from gudgeon.bench.planning.answer import Bar, BarState, Mark, MarkKind, PhaseBar, Span, SpanKind
from gudgeon.bench.planning.arrivals import Arrival
from gudgeon.bench.planning.figures import wait_kind
from gudgeon.bench.planning.lay import Job, Plan
from gudgeon.bench.planning.words import day_words, hours_words, moment_words, span_words


def bars(plan: Plan, chain: frozenset[str]) -> tuple[Bar, ...]:
    """A bar for each task of the job, in the order of the work."""
    job = plan.job
    return tuple(
        _bar(plan, key, chain) if key in job.works else _done_bar(job, key) for key in job.network.order
    )


def phases(found: tuple[Bar, ...]) -> tuple[PhaseBar, ...]:
    """The same by phase, in the order of the job."""
    made = []
    for phase in dict.fromkeys(one.phase for one in found):
        some = [one for one in found if one.phase == phase]
        done = sum(one.state == "done" for one in some)
        minutes = sum(one.minutes for one in some)
        spans = sorted(
            (span for one in some for span in one.spans), key=lambda span: (span.begins, span.ends)
        )
        words = f"{done} of {len(some)} done" + (f", {hours_words(minutes)} left" if minutes else "")
        made.append(PhaseBar(phase, tuple(spans), len(some), done, minutes, words))
    return tuple(made)


def marks(job: Job, *, planned: datetime | None, middle: datetime | None) -> tuple[Mark, ...]:
    """Today, what is promised, what runs out, and the date where there is one."""
    now = job.bench.now
    found = [Mark("today", now, f"today, {day_words(now.astimezone().date(), now=now)}")]
    found += [_arrival(one) for one in job.coming]
    for timer in job.network.timers:
        if timer.ends is not None and timer.mark in ("running", "due"):
            kind: MarkKind = "recall" if timer.kind == "recall" else "timer"
            due = timer.mark == "due"
            found.append(Mark(kind, timer.ends, f"{timer.name}: {timer.words}", due, timer.name))
    if planned is not None:
        words = f"{job.aim}, as planned: {moment_words(planned, now=now)}"
        found.append(Mark("start planned", planned, words, about=job.aim))
    if middle is not None:
        words = f"{job.aim}, as likely before as after: {moment_words(middle, now=now)}"
        found.append(Mark("start likely", middle, words, about=job.aim))
    return tuple(sorted(found, key=lambda one: one.at))


def _arrival(one: Arrival) -> Mark:
    kind: MarkKind = "promise" if one.kind == "shop" else "delivery"
    return Mark(kind, one.planned, one.words, one.late, one.what)


def _bar(plan: Plan, key: str, chain: frozenset[str]) -> Bar:
    job = plan.job
    task, work = job.network.tasks[key], job.works[key]
    state: BarState = "running" if job.network.own[key].status in ("running", "paused", "away") else "planned"
    spans = tuple(sorted(_spans(plan, key), key=lambda one: one.begins))
    ends = plan.at(plan.hands_end(key))
    words = (
        f"{hours_words(work.minutes)}, done {moment_words(ends, now=job.bench.now)}" if work.minutes else ""
    )
    return Bar(key, task.title, task.phase, state, spans, key in chain, work.minutes, words)


def _spans(plan: Plan, key: str) -> Iterator[Span]:
    """Hands, the wait after them, and what is away for this task or on its way to it."""
    job, now = plan.job, plan.job.bench.now
    task, work = job.network.tasks[key], job.works[key]
    for start, end in plan.schedule.slots[key]:
        first, last = plan.at(start), plan.at(end)
        yield Span("work", first, last, span_words(first, ends=last, now=now))
    if work.wait and task.wait is not None:
        kinds: dict[str, SpanKind] = {"shop": "shop", "delivery": "delivery"}
        first, last = plan.at(plan.hands_end(key)), plan.at(plan.schedule.ends[key])
        yield Span(kinds.get(wait_kind(task), "wait"), first, last, task.wait.what)
    for name, what in job.left.cures.items():
        if key in job.works[name].after:
            yield Span("wait", plan.at(plan.schedule.begins[name]), plan.at(plan.schedule.ends[name]), what)
    for one in job.coming:
        if key in one.holds and not one.still_here:
            kind: SpanKind = "shop" if one.kind == "shop" else "delivery"
            yield Span(kind, one.since or now, one.planned, one.words)


def _done_bar(job: Job, key: str) -> Bar:
    """What is done, on the day on which that was said; without a bar where nobody knows."""
    task, own, said = job.network.tasks[key], job.network.own[key], job.bench.state.tasks.get(key)
    if own.since is None:
        return Bar(key, task.title, task.phase, "done", (), False, 0, "done")
    minutes = said.minutes if said is not None and said.minutes else max(task.minutes, 1)
    words = f"done {moment_words(own.since, now=job.bench.now)}"
    span = Span("work", own.since - timedelta(minutes=minutes), own.since, words)
    return Bar(key, task.title, task.phase, "done", (span,), False, 0, words)
