"""What is done while something is away or runs by itself, and what is found out first so that a part leaves earlier."""

from collections.abc import Iterator
from dataclasses import replace

from gudgeon.bench.planning.answer import Doable, First, Meanwhile
from gudgeon.bench.planning.figures import figures
from gudgeon.bench.planning.lay import Plan
from gudgeon.bench.planning.slots import doable
from gudgeon.bench.planning.words import days_between, days_words, moment_words, span_words
from gudgeon.calc.planning.driving import slack
from gudgeon.calc.planning.schedule import Schedule
from gudgeon.calc.planning.schedule_errors import CannotFinish

AT_SHOP = "at the machine shop"
MOST = 8
TRIES = 60
TIGHTEST = 8
"""So many tasks before a part leaves are named: those that can wait least."""


def meanwhile(plan: Plan) -> tuple[Meanwhile, ...]:
    """What is planned within each long wait before the date: the shop, deliveries, what cures or cools."""
    found = sorted((one for one in _waits(plan) if one[1] < plan.date), key=lambda one: (one[1], one[2]))
    made: list[Meanwhile] = []
    for what, begins, ends in found:
        tasks = tuple(_within(plan, begins, ends))
        if tasks:
            first, last = plan.at(begins), plan.at(ends)
            words = span_words(first, ends=last, now=plan.job.bench.now)
            made.append(Meanwhile(what, first, last, words, sum(one.minutes for one in tasks), tasks))
    return tuple(_folded(made)[:MOST])


def _folded(found: list[Meanwhile]) -> list[Meanwhile]:
    """Each task once: the machine shop's time before all other, of two waits the longer; one without news is named."""
    told: set[str] = set()
    made: list[Meanwhile] = []
    for one in sorted(found, key=lambda one: (not one.what.endswith(AT_SHOP), one.begins - one.ends)):
        new = tuple(task for task in one.tasks if task.task not in told)
        told |= {task.task for task in new}
        if new:
            made.append(replace(one, tasks=new, minutes=sum(task.minutes for task in new)))
            continue
        over = next((at for at, other in enumerate(made) if _covers(other, one)), None)
        over = next((at for at, other in enumerate(made) if _meets(other, one)), 0) if over is None else over
        made[over] = replace(made[over], what=f"{made[over].what}; {one.what}")
    return sorted(made, key=lambda one: (one.begins, one.ends))


def _meets(one: Meanwhile, other: Meanwhile) -> bool:
    return one.begins < other.ends and other.begins < one.ends


def _covers(one: Meanwhile, other: Meanwhile) -> bool:
    return one.begins <= other.begins and other.ends <= one.ends


def first(plan: Plan, *, quick: bool) -> tuple[First, ...]:
    """For each part that has to leave: the tasks before that, and how many days doing them first would win."""
    network = plan.job.network
    sent = [key for key in plan.job.works if key in network.tasks and network.tasks[key].shop_when == "sent"]
    return tuple(_first(plan, key, quick=quick) for key in sent)


def _first(plan: Plan, key: str, *, quick: bool) -> First:
    job, now = plan.job, plan.job.bench.now
    earlier = _sooner(plan, key, quick=quick)
    leaves, could = plan.at(plan.hands_end(key)), plan.at(_hands_end(earlier, key))
    days = max(0.0, days_between(could, ends=leaves))
    before = [one for one in job.works if one in job.network.before[key]]
    room = slack(job.left.works, hours=job.real.hours, schedule=plan.schedule, goal=job.goal)
    tight = sorted((one for one in before if job.works[one].minutes), key=lambda one: room[one])[:TIGHTEST]
    tight.sort(key=lambda one: (earlier.begins[one], earlier.ends[one]))
    tasks = tuple(doable(plan, one, job.works[one].minutes) for one in tight)
    part = job.network.tasks[key].shop_part
    said = (
        f"The {part} leaves on {moment_words(leaves, now=now)}. Done before anything else, these would let it leave "
        f"{days_words(days)} earlier, on {moment_words(could, now=now)}."
        if days * 24 >= 1
        else f"The {part} leaves on {moment_words(leaves, now=now)}: the plan has these before anything else already."
    )
    return First(
        part, leaves, moment_words(leaves, now=now), tasks,
        tuple(_room_words(room[one.task]) for one in tasks), days, said,
    )  # fmt: skip


def _sooner(plan: Plan, key: str, *, quick: bool) -> Schedule:
    """The plan that aims at the part's leaving alone."""
    from numpy.random import default_rng

    from gudgeon.calc.planning.search import plan as search

    job = plan.job
    try:
        found = search(
            job.left.works, hours=job.real.hours, goal=key, trials=0 if quick else TRIES,
            generator=default_rng(job.seed),
        )  # fmt: skip
    except CannotFinish:  # in another order the hours may not reach for all the rest
        return plan.schedule
    return found.schedule


def _hands_end(schedule: Schedule, key: str) -> int:
    slots = schedule.slots[key]
    return slots[-1][1] if slots else schedule.begins[key]


def _room_words(minutes: int) -> str:
    """How long a task may wait."""
    if minutes < 60:
        return "cannot wait"
    return f"may wait {days_words(minutes / 1440)}"


def _waits(plan: Plan) -> Iterator[tuple[str, int, int]]:
    """Each long wait: what it is, from which minute to which."""
    job, least = plan.job, figures().long_wait
    for one in job.coming:
        ends = job.clock.minute(one.planned)
        if ends >= least and one.ordered and not one.still_here:
            yield _coming_words(one.what, one.kind), 0, ends
    for until, what in _running(plan):
        if until >= least:
            yield what, 0, until
    shop: dict[str, tuple[int, int]] = {}
    for key, work in job.works.items():
        begins, ends = plan.hands_end(key), plan.schedule.ends[key]
        task = job.network.tasks.get(key)
        if task is not None and task.shop_when == "back" and work.wait:
            known = shop.get(task.shop_part, (begins, ends))
            shop[task.shop_part] = (min(begins, known[0]), max(ends, known[1]))
        elif ends - begins >= least:
            yield (
                (task.wait.what if task is not None and task.wait is not None else job.title(key)),
                begins,
                ends,
            )
    for part, (begins, ends) in shop.items():
        yield _coming_words(part, "shop"), begins, ends


def _coming_words(what: str, kind: str) -> str:
    name = what[:1].upper() + what[1:]
    return f"{name} {AT_SHOP}" if kind == "shop" else f"{name} on its way"


def _running(plan: Plan) -> Iterator[tuple[int, str]]:
    """Waits of the book that run now, each once."""
    found: dict[str, int] = {}
    for key, words in plan.job.left.held.items():
        if plan.job.left.held_kind[key] == "wait":
            found[words] = max(found.get(words, 0), plan.job.works[key].not_before)
    for words, until in found.items():
        yield until, words


def _within(plan: Plan, begins: int, ends: int) -> Iterator[Doable]:
    """The tasks that are worked on within a wait, with their minutes in it."""
    found: list[tuple[int, str, int]] = []
    for key, slots in plan.schedule.slots.items():
        minutes = sum(max(0, min(end, ends) - max(start, begins)) for start, end in slots)
        if minutes:
            found.append((plan.schedule.begins[key], key, minutes))
    for _, key, minutes in sorted(found):
        yield doable(plan, key, minutes)
