"""From the book to works: what is left of the job, in minutes, with what it waits for."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from gudgeon.bench.evidence import joints_of
from gudgeon.bench.network import Task
from gudgeon.bench.planning.arrivals import Arrival, Rest, is_away, rest_to_order, to_be_ordered
from gudgeon.bench.planning.figures import Points, figures, wait_kind
from gudgeon.bench.planning.own_hours import Clock
from gudgeon.bench.planning.taken import Paces
from gudgeon.bench.progress import progress
from gudgeon.bench.standing import Network
from gudgeon.bench.timers import AFTER_THE_JOB
from gudgeon.calc.planning.finishes import Spread
from gudgeon.calc.planning.works import Work
from gudgeon.quantity.written import Printed

CURE = "cure: "
"""What a work is called that is only the cure of a sealant."""


@dataclass(frozen=True, slots=True)
class Left:
    """What is left: the works, how far each may miss, how much of a task in hand is left, and what holds it till when.

    `held` says by task what it cannot begin before, where that is something that comes or runs, `held_kind` whether
    that is the shop, a delivery or a wait, `cures` by the name of the work what cures. `rest` is what comes last of the
    parts that are still to be ordered, where a task waits for them.
    """

    works: tuple[Work, ...]
    spreads: Mapping[str, Spread]
    shares: Mapping[str, float]
    held: Mapping[str, str]
    held_kind: Mapping[str, str] = field(default_factory=dict)
    cures: Mapping[str, str] = field(default_factory=dict)
    rest: Rest | None = None


@dataclass(frozen=True, slots=True)
class _Held:
    """Until which minute something holds a task, at best and at worst, what it is, and of what kind."""

    minute: int
    span: Points | None
    words: str
    kind: str


def left(network: Network, *, clock: Clock, paces: Paces, coming: tuple[Arrival, ...]) -> Left:
    """The tasks that are not done, as works."""
    hands = hands_left(network, paces=paces)
    held = _held(network, clock, coming)
    rest = rest_to_order(network.bench) if to_be_ordered(network) else None
    works, spreads, cures = [], dict[str, Spread](), dict[str, str]()
    for key, (minutes, _) in hands.items():
        task = network.tasks[key]
        wait = 0 if task.wait is None or is_away(network, task) else task.wait.minutes
        if rest is not None and wait_kind(task) == "delivery":
            wait = max(wait, rest.days * 1440)
        until = held.get(key)
        works.append(
            Work(
                key, minutes, after=tuple(network.waits_for(key)), wait=wait,
                not_before=until.minute if until is not None else 0, two_people=task.two_people,
                in_one_go=task.in_one_go, not_late=task.not_late, begun=network.own[key].status == "running",
            )
        )  # fmt: skip
        spread = _spread(task, minutes, wait, until)
        if spread is not None:
            spreads[key] = spread
    for name, what, after, minutes in _cures(network, list(hands)):
        works = [_after(one, name) if network.tasks[one.key].no_timer else one for one in works]
        cures[name] = what
        works.append(Work(name, 0, after=(after,), wait=minutes))
    return Left(
        tuple(works), spreads, {key: share for key, (_, share) in hands.items() if share < 1},
        {key: one.words for key, one in held.items()}, {key: one.kind for key, one in held.items()}, cures, rest,
    )  # fmt: skip


def hands_left(network: Network, *, paces: Paces) -> dict[str, tuple[int, float]]:
    """The minutes of hands that each task has left, his own or by his pace, and which share of the task they are."""
    plan = network.bench.state.plan
    left_over = dict[str, tuple[int, float]]()
    for key in network.order:
        if not network.finished(key):
            task = network.tasks[key]
            factor = 1.0 if key in plan.minutes or key in plan.added else paces.of(task.phase)
            share = _share_left(network, task)
            left_over[key] = _minutes(task, factor=factor, share=share), share
    return left_over


def _after(work: Work, name: str) -> Work:
    return replace(work, after=(*work.after, name))


def _minutes(task: Task, *, factor: float, share: float) -> int:
    return max(1, round(task.minutes * factor * share)) if task.minutes else 0


def _share_left(network: Network, task: Task) -> float:
    """How much of a task is left: of a joint what was not pulled, else what the recorded minutes leave."""
    own, recorded = network.own[task.key], network.bench.state.tasks.get(task.key)
    if own.status not in ("running", "paused"):
        return 1.0
    least = figures().least_left
    if own.joint:
        keys = joints_of(task, network.bench.sheet)
        found = [
            progress(network.bench.sheet.joints[key], network.bench.state.joints.get(key)) for key in keys
        ]
        steps = sum(len(one.steps) for one in found)
        return max(least, 1 - sum(one.done for one in found) / steps) if steps else 1.0
    if recorded is not None and recorded.minutes and task.minutes:
        return max(least, 1 - recorded.minutes / task.minutes)
    return 1.0


def _spread(task: Task, minutes: int, wait: int, until: _Held | None) -> Spread | None:
    """How far minutes, wait and delivery may miss; nothing where none of them does."""
    known = figures()
    hands: Points | None = None
    if task.spread is not None and task.minutes:
        hands = (task.spread[0] / task.minutes * minutes, minutes, task.spread[1] / task.minutes * minutes)
    elif minutes:
        hands = (known.minutes[0] * minutes, minutes, known.minutes[2] * minutes)
    factors = known.of_wait(wait_kind(task)) if wait else None
    waits = (factors[0] * wait, float(wait), factors[2] * wait) if factors is not None else None
    comes = until.span if until is not None else None
    return Spread(hands, waits, comes) if hands or waits or comes else None


def _held(network: Network, clock: Clock, coming: tuple[Arrival, ...]) -> dict[str, _Held]:
    """For each task the last thing that it cannot begin before."""
    found: dict[str, _Held] = {}

    def hold(key: str, one: _Held) -> None:
        if key in network.tasks and not network.finished(key) and one.minute > 0:
            before = found.get(key)
            if before is None or one.minute > before.minute:
                found[key] = one

    for one in coming:
        span = tuple(float(clock.minute(moment)) for moment in (one.earliest, one.planned, one.latest))
        for key in one.holds:
            hold(key, _Held(clock.minute(one.planned), (span[0], span[1], span[2]), one.words, one.kind))
    ordered = bool(network.bench.state.buying.orders)
    for key in network.order:
        running = network.own_wait(key) if network.finished(key) else None
        if running is None or (ordered and wait_kind(network.tasks[key]) == "delivery"):
            continue  # what was ordered is known part by part, which says more than a guess of all of them
        for name in network.after_that[key]:
            hold(name, _Held(clock.minute(running.ends), None, running.name, "wait"))
    for timer in network.timers:
        if timer.blocks and timer.ends is not None:
            for name in _waiting_for(network, timer.task, timer.kind):
                hold(name, _Held(clock.minute(timer.ends), None, timer.name, "wait"))
    return found


def _waiting_for(network: Network, task: str, kind: str) -> Iterator[str]:
    """The tasks that a wait of the book holds up."""
    yield task
    if kind not in AFTER_THE_JOB:
        yield from (key for key, one in network.tasks.items() if one.no_timer)


def _cures(network: Network, keys: list[str]) -> Iterator[tuple[str, str, str, int]]:
    """For each task that seals a joint with what has to cure by the sheet: what, after which task, how long.

    A bead that was laid has its own clock in the book.
    """
    sheet = network.bench.sheet
    laid = {(one.bead, one.joint) for one in network.bench.state.timers.values() if one.kind == "cure"}
    for key in keys:
        for joint in joints_of(network.tasks[key], sheet):
            for name, sealant in sheet.sealants.items():
                told = f"{sealant.name} {sealant.where}".lower()
                seals = name == joint or sheet.joints[joint].name.lower() in told
                if sealant.cure is None or not seals or (name, joint) in laid:
                    continue
                yield f"{CURE}{name}", sealant.name, key, _longest(sealant.cure.value)


def _longest(time: Printed) -> int:
    """Whole minutes of a printed time; of a range the longer end."""
    ends = (time.high_in("min"), time.low_in("min"))
    return max(1, math.ceil(round(next(end for end in ends if end is not None), 6)))
