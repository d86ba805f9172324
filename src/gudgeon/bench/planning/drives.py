"""What drives the date: the chain of works and waits that leads to it, and how its days divide."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.planning.answer import Driver, LinkKind, Share
from gudgeon.bench.planning.figures import wait_kind
from gudgeon.bench.planning.lay import Plan
from gudgeon.bench.planning.own_hours import minutes_within
from gudgeon.bench.planning.words import days_between, days_words, hours_words
from gudgeon.calc.planning.driving import Cause, Link, driving

WORDS: dict[LinkKind, str] = {
    "shop": "the machine shop",
    "delivery": "deliveries",
    "wait": "waits that run by themselves",
    "hands": "your own hours: work, and the days between",
    "second person": "the hours of the second person",
    "long hours": "one time that is long enough",
    "early hours": "hours that are not too late for torque and timing",
    "start": "the start",
}
SHORT = 120
"""A wait of fewer minutes belongs to the work around it."""
CAUSES: dict[Cause, LinkKind] = {
    Cause.SECOND_PERSON: "second person",
    Cause.EARLY_HOURS: "early hours",
    Cause.LONG_HOURS: "long hours",
}


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Minutes of the plan that one cause takes, and the words for it."""

    kind: LinkKind
    key: str
    begins: int
    ends: int
    words: str


def drives(plan: Plan) -> tuple[Driver, ...]:
    """The chain that leads to the date, in the order of time; what belongs together is one link."""
    return tuple(
        Driver(
            one.kind, one.key, one.words, plan.at(one.begins), plan.at(one.ends),
            days_between(plan.at(one.begins), ends=plan.at(one.ends)),
        )
        for one in _joined(plan, _stretches(plan))
    )  # fmt: skip


def shares(plan: Plan, found: tuple[Driver, ...]) -> tuple[Share, ...]:
    """How the days until the date divide, the greatest share first."""
    whole = sum(one.days for one in found)
    made = []
    for kind, name in WORDS.items():
        some = [one for one in found if one.kind == kind]
        days = sum(one.days for one in some)
        if days <= 0 or not whole:
            continue
        words = f"{name}: {days_words(days)} of {days_words(whole)}"
        if kind == "hands":
            clock = plan.job.clock
            own = plan.job.real.hours.own
            worked = sum(
                minutes_within(own, clock.minute(one.begins), ends=clock.minute(one.ends)) for one in some
            )
            words += f", in which you are at the engine for {hours_words(worked)}"
        made.append(Share(name, days, 100 * days / whole, words[0].upper() + words[1:]))
    return tuple(sorted(made, key=lambda one: -one.days))


def on_chain(plan: Plan) -> frozenset[str]:
    """The works of the chain."""
    return frozenset(one.key for one in _links(plan))


def _links(plan: Plan) -> tuple[Link, ...]:
    job = plan.job
    return driving(plan.schedule, works=job.left.works, hours=job.real.hours, goal=job.goal)


def _stretches(plan: Plan) -> list[_Stretch]:
    """Without gaps from the start of the plan to the date."""
    found: list[_Stretch] = []
    at = 0
    for link in reversed(_links(plan)):
        for one in _of_link(plan, link, at):
            if one.ends > one.begins:
                found.append(one)
                at = one.ends
    return found


def _of_link(plan: Plan, link: Link, at: int) -> Iterator[_Stretch]:
    """What a work waited for, and then the work itself."""
    schedule, job = plan.schedule, plan.job
    begins, ends = schedule.begins[link.key], plan.hands_end(link.key)
    if link.cause is Cause.WAIT and link.by is not None:
        kind, words = _wait(plan, link.by)
        if kind == "wait" and schedule.ends[link.by] - at < SHORT:
            kind, words = "hands", job.title(link.by)
        yield _Stretch(kind, link.by, at, schedule.ends[link.by], words)
        at = max(at, schedule.ends[link.by])
    elif link.cause is Cause.DELIVERY:
        until = job.works[link.key].not_before
        held: dict[str, LinkKind] = {"shop": "shop", "delivery": "delivery"}
        kind = held.get(job.left.held_kind.get(link.key, ""), "wait")
        yield _Stretch(kind, link.key, at, until, job.left.held.get(link.key, "something that comes"))
        at = max(at, until)
    elif link.cause in CAUSES and _passed(plan, link, at, begins):
        kind = CAUSES[link.cause]
        yield _Stretch(kind, link.key, at, begins, f"until “{job.title(link.key)}” finds {WORDS[kind]}")
        at = max(at, begins)
    yield _Stretch("hands", link.key, at, ends, job.title(link.key))


def _passed(plan: Plan, link: Link, begins: int, ends: int) -> bool:
    """Whether hours passed in which the work could have been done but for what it lacked; else they only came later."""
    return minutes_within(plan.job.real.hours.own, begins, ends=ends) >= plan.job.works[link.key].minutes


def _wait(plan: Plan, key: str) -> tuple[LinkKind, str]:
    """Whose time the wait after a work is, and what waits."""
    task = plan.job.network.tasks.get(key)
    if task is None or task.wait is None:
        return "wait", f"{plan.job.title(key)}: cure"
    kinds: dict[str, LinkKind] = {"shop": "shop", "delivery": "delivery"}
    return kinds.get(wait_kind(task), "wait"), task.wait.what


def _joined(plan: Plan, stretches: list[_Stretch]) -> Iterator[_Stretch]:
    """Works of one kind one after the other are one link, told by its first and its last work."""
    at = 0
    while at < len(stretches):
        last = at
        while last + 1 < len(stretches) and stretches[last + 1].kind == stretches[at].kind == "hands":
            last += 1
        some = stretches[at : last + 1]
        words = some[0].words if len(some) == 1 else f"from “{some[0].words}” to “{some[-1].words}”"
        yield _Stretch(some[0].kind, some[0].key, some[0].begins, some[-1].ends, words)
        at = last + 1
