"""When will it run? The plan of the rest, its date, what drives it, and what to do next."""

from dataclasses import replace
from datetime import datetime

from gudgeon.bench.context import Bench
from gudgeon.bench.job_choice import left_out
from gudgeon.bench.lately import Lately
from gudgeon.bench.planning.answer import Distribution, Doable, Done, Gap, InHand, Late, PlanAnswer
from gudgeon.bench.planning.arrivals import late_ones
from gudgeon.bench.planning.bars import bars, marks, phases
from gudgeon.bench.planning.drives import drives, on_chain, shares
from gudgeon.bench.planning.figures import figures
from gudgeon.bench.planning.finish import distribution
from gudgeon.bench.planning.lay import Job, Plan, laid
from gudgeon.bench.planning.meanwhile import first, meanwhile
from gudgeon.bench.planning.own_hours import said_hours, starts
from gudgeon.bench.planning.slots import slots
from gudgeon.bench.planning.words import days_words, hours_words, moment_words
from gudgeon.bench.reason import here
from gudgeon.bench.timers import waits

QUESTION = "When will it run?"
METHODS = (
    "Kolisch, European Journal of Operational Research 90 (1996): the serial scheme, works laid one after the other",
    "Kolisch and Hartmann, European Journal of Operational Research 174 (2006): rules, then sampling around the best",
    "Carlier, European Journal of Operational Research 11 (1982): the bound that no plan beats",
    "Van Slyke, Operations Research 11 (1963): the date by simulation",
)

_Facts = tuple[str, tuple[str, ...], str, str, str, datetime, bool]
_LAID = Lately[_Facts, "tuple[Job | None, Plan | None, tuple[Gap, ...]]"]()
_ANSWERS = Lately[tuple[_Facts, bool], PlanAnswer]()


def plan_answer(bench: Bench, *, simulate: bool = True, quick: bool = False) -> PlanAnswer:
    """Answer “When will it run?”; without `simulate` there is no distribution, `quick` tries the rules alone.

    Of the same book, sheet and kit the same is said again as long as the same quarter of an hour lasts, or until his
    next hours begin.
    """
    facts = _facts(bench, quick)
    answer = _ANSWERS.of((facts, simulate), lambda: _answer(bench, facts, simulate=simulate, quick=quick))
    today = tuple(replace(one, at=bench.now) if one.kind == "today" else one for one in answer.marks)
    return replace(answer, heading=bench.heading(QUESTION), marks=today)


def known_answer(bench: Bench, *, quick: bool = False) -> PlanAnswer | None:
    """The whole answer where it was worked out lately, so that nobody has to wait for it."""
    return _ANSWERS.known((_facts(bench, quick), True))


def _facts(bench: Bench, quick: bool) -> _Facts:
    """Everything that a plan is made of."""
    papers, start = bench.papers, starts(bench, days=figures().most_days)
    heads = tuple(bench.store.head(build) for build in bench.store.builds() if build != bench.build)
    return (bench.state.head, heads, papers.sheet_sha, papers.kit_sha, str(bench.book), start, quick)


def _answer(bench: Bench, facts: _Facts, *, simulate: bool, quick: bool) -> PlanAnswer:
    job, plan, gaps = _LAID.of(facts, lambda: laid(bench, quick=quick))
    if job is None:
        return _nothing_left(bench)
    if plan is None:
        return _undated(job, gaps)
    return _dated(plan, distribution(plan) if simulate else None, quick=quick)


def _dated(plan: Plan, spread: Distribution | None, *, quick: bool) -> PlanAnswer:
    job, now = plan.job, plan.job.bench.now
    goal, finish = plan.at(plan.date), plan.at(plan.schedule.finish)
    found, made, chain = drives(plan), slots(plan), on_chain(plan)
    drawn = bars(plan, chain)
    gap = plan.planned.gap_minutes / 1440
    next_slot = made[0] if made else None
    return replace(
        _common(job),
        dated=True,
        said=_said(plan, goal, spread),
        first_start=goal,
        first_start_words=moment_words(goal, now=now),
        finish=finish,
        finish_words=moment_words(finish, now=now),
        gap_days=gap,
        gap_words=_gap_words(gap),
        distribution=spread,
        next_slot=next_slot,
        slots=made,
        next_tasks=tuple(
            Doable(one.task, one.title, one.minutes, moment_words(one.begins, now=now))
            for one in (next_slot.tasks if next_slot is not None else ())
        ),
        drives=found,
        shares=shares(plan, found),
        meanwhile=meanwhile(plan),
        first=first(plan, quick=quick),
        bars=drawn,
        phases=phases(drawn),
        marks=marks(job, planned=goal, middle=spread.middle if spread is not None else None),
        remarks=(*_common(job).remarks, *plan.schedule.flags),
        tries=plan.planned.tries,
    )


def _said(plan: Plan, goal: datetime, spread: Distribution | None) -> str:
    now, aim = plan.job.bench.now, plan.job.aim
    planned = f"{aim[0].upper()}{aim[1:]} is planned for {moment_words(goal, now=now)}"
    if spread is None or spread.late is None or spread.middle is None:
        return f"{planned}, if everything takes what was planned and nothing goes wrong."
    return (
        f"{planned}, if nothing goes wrong; as it goes, by {spread.middle_words} in half of all cases, and by "
        f"{spread.late_words} in nine of ten."
    )


def _gap_words(gap: float) -> str:
    if not gap:
        return "No order of the work could reach it earlier: that is proved."
    return f"At most {days_words(gap)} later than the best that any order of the work could reach: that is proved."


def _undated(job: Job, gaps: tuple[Gap, ...]) -> PlanAnswer:
    """No date, and what to do next all the same."""
    stands = [job.network.stand(key) for key in job.works if key in job.network.tasks]
    some = [one for one in stands if one.where in ("running", "ready") and one.task.minutes]
    some.sort(key=lambda one: (one.where != "running", -one.ahead))
    tasks = tuple(Doable(one.task.key, one.task.title, job.works[one.task.key].minutes, "") for one in some)
    return replace(
        _common(job),
        said=f"There is no date for {job.aim}: {gaps[0].what[0].lower()}{gaps[0].what[1:]}" if gaps else "",
        cannot=gaps,
        marks=marks(job, planned=None, middle=None),
        next_tasks=tasks,
    )


def _nothing_left(bench: Bench) -> PlanAnswer:
    return replace(_empty(bench), said="Every task of the job is done: nothing is left to plan.")


def _common(job: Job) -> PlanAnswer:
    """What is said with a date and without one."""
    bench = job.bench
    return replace(
        _empty(bench),
        goal=job.aim,
        hands=hours_words(sum(one.minutes for one in job.left.works)),
        longest=_longest(job),
        late=(*late_ones(job.coming, now=bench.now), *_late_waits(bench)),
        running=tuple(_in_hand(job)),
        done=tuple(_done(job)),
        taken=job.paces.rows,
        hours=said_hours(bench),
        assumed=_assumed(job),
        seed=job.seed,
        remarks=tuple(f"Left out of the job, and of the plan: {one}." for one in left_out(bench)),
    )


def _empty(bench: Bench) -> PlanAnswer:
    return PlanAnswer(
        heading=bench.heading(QUESTION), dated=False, said="", cannot=(), goal="", first_start=None,
        first_start_words="", finish=None, finish_words="", gap_days=None, gap_words="", distribution=None,
        next_slot=None, slots=(), next_tasks=(), hands="0 min", longest="", drives=(), shares=(), meanwhile=(),
        first=(), late=(), running=(), done=(), bars=(), phases=(), marks=(), taken=(), hours=(), assumed=(),
        sources=METHODS, remarks=(),
    )  # fmt: skip


def _longest(job: Job) -> str:
    """Along the longest chain of what is left, without any calendar: hands, and waiting."""
    works = job.works
    ways: dict[str, tuple[int, int]] = {}
    order = [one for one in job.network.order if one in works] + list(job.left.cures)
    for key in sorted(order, key=lambda one: (one in job.left.cures, 0)):
        before = [ways[one] for one in works[key].after if one in ways]
        hands, waiting = max(before, key=sum, default=(0, 0))
        ways[key] = (hands + works[key].minutes, waiting + works[key].wait)
    hands, waiting = ways.get(job.goal, (0, 0))
    waiting -= works[job.goal].wait  # what runs after the goal is not on the way to it
    return f"{hours_words(hands)} of hands and {days_words(waiting / 1440)} of waiting, one after the other"


def _late_waits(bench: Bench) -> list[Late]:
    return [
        Late(one.name, here(one.ends) if one.ends is not None else "", 0, f"{one.name}: {one.words}")
        for one in waits(bench)
        if one.mark in ("late", "unknown")
    ]


def _in_hand(job: Job) -> list[InHand]:
    found = []
    for key, work in job.works.items():
        own = job.network.own.get(key)
        if own is None or own.status not in ("running", "paused"):
            continue
        left = f"about {hours_words(work.minutes)} left" + (
            "" if key in job.left.shares else ", as nobody knows how much of it is done"
        )
        since = moment_words(own.since, now=job.bench.now) if own.since is not None else ""
        words = "; ".join(filter(None, (own.why, left)))
        found.append(InHand(key, job.title(key), since, work.minutes, words))
    return found


def _done(job: Job) -> list[Done]:
    found = []
    for key in job.network.order:
        if job.network.finished(key):
            own, said = job.network.own[key], job.bench.state.tasks.get(key)
            when_done = moment_words(own.since, now=job.bench.now) if own.since is not None else ""
            minutes = said.minutes if said is not None and said.status == "done" else None
            found.append(Done(key, job.title(key), when_done, minutes, job.network.taken(key)))
    return found


def _assumed(job: Job) -> tuple[str, ...]:
    """What the plan takes for granted, in words."""
    known = figures()
    low, _, high = known.minutes
    found = [
        f"A task without a spread of your own takes from {low:g} to {high:g} times its minutes ({known.source}).",
        f"What is promised for a day is there at {known.here_at}; without a span of its own a promise slips by "
        f"{known.slip_share:.0%} of the days until then, and by {known.slip_days_shop} days at the shop or "
        f"{known.slip_days_delivery} days with a delivery at least ({known.source}).",
        f"The shop takes from {known.shop[0]:g} to {known.shop[2]:g} times the usual time where nobody promised a day, "
        f"a delivery from {known.delivery[0]:g} to {known.delivery[2]:g} times ({known.source}).",
        "One work at a time; a work goes on another day unless it is done in one go.",
    ]
    kit = job.bench.kit.hours
    if kit is not None and kit.plannable and kit.late is None:
        found.append("No hour is late: the kit names none after which torque and timing rest.")
    if job.left.rest is not None:
        found.append(job.left.rest.words)
    if job.coming:
        found.append(
            "What is on its way holds up the task that needs it; what came is looked at from the first of it on."
        )
    return tuple(found)
