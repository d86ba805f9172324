"""Rules for what comes first: each gives a number to every work, and the smallest is placed first."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from gudgeon.calc.planning.hours import Calendar, Hours
from gudgeon.calc.planning.placing import Placer, Stuck
from gudgeon.calc.planning.schedule_errors import PriorityUnknown
from gudgeon.calc.planning.works import Numbered, Work

BEHIND = float(1 << 32)
"""What the goal does not need comes after everything that it needs."""


@dataclass(frozen=True, slots=True)
class View:
    """What a rule looks at: the works, the hours, which works the goal needs, and by when it is to be reached."""

    works: Numbered
    calendars: Sequence[Calendar]
    needed: frozenset[int]
    deadline: int


def latest_starts(view: View) -> list[int]:
    """The latest start of each work along the ways to what comes after it, over the hours that it needs.

    Equation:
        latest end of hands = least latest start of what comes after − wait; latest start = so many minutes of the
        hours that the work needs before that

    Parameters:
        view: works, hours, and the deadline [min]

    Returns:
        latest start of each work [min]; below 0 where the deadline cannot be kept

    Valid for:
        one work at a time on each way; what else he has to do between is not looked at

    Source:
        HAND: the backward pass of the critical path, with minutes that lie in hours only.

    Example:
        >>> hours = Hours(((0, 60), (1440, 1500)), horizon=2880)
        >>> works = (Work("bolt", 60), Work("run", 30, after=("bolt",), wait=10))
        >>> latest_starts(view_of(works, hours=hours, goal="run", deadline=1480))
        [0, 1440]

    Not covered:
        that he can do only one work at a time: see schedule.
    """
    works = view.works
    starts = [0] * len(works.keys)
    for at in reversed(works.order):
        end = min((starts[one] for one in works.following[at]), default=view.deadline) - works.waits[at]
        calendar = view.calendars[works.kinds[at]]
        begin = calendar.earlier(end, minutes=works.minutes[at])
        starts[at] = calendar.worked(end) - works.minutes[at] if begin is None else begin
    return starts


def earliest_starts(view: View) -> list[int]:
    """The earliest start of each work along the ways that lead to it, over the hours that it needs.

    Equation:
        earliest start = first minute of the hours that the work needs, from the greatest end of what comes before on

    Parameters:
        view: works and hours [min]

    Returns:
        earliest start of each work [min]; the deadline where the hours do not reach

    Valid for:
        one work at a time on each way; what else he has to do between is not looked at

    Source:
        HAND: the forward pass of the critical path, with minutes that lie in hours only.

    Example:
        >>> hours = Hours(((0, 60), (1440, 1500)), horizon=2880)
        >>> works = (Work("bolt", 60), Work("run", 30, after=("bolt",), wait=10))
        >>> earliest_starts(view_of(works, hours=hours, goal="run", deadline=1480))
        [0, 1440]

    Not covered:
        that he can do only one work at a time: see schedule.
    """
    works = view.works
    starts, ends = [0] * len(works.keys), [0] * len(works.keys)
    for at in works.order:
        begin = max((ends[one] for one in works.before[at]), default=0)
        begin = max(begin, works.released[at])
        if works.minutes[at]:
            first = view.calendars[works.kinds[at]].first(begin)
            begin = view.deadline if first is None else first
        starts[at] = begin
        end = view.calendars[works.kinds[at]].later(begin, minutes=works.minutes[at])
        ends[at] = (view.deadline if end is None else end) + works.waits[at]
    return starts


def _ways(view: View, weigh: Callable[[int], int]) -> list[int]:
    """The greatest sum along what comes after, each work itself included."""
    works = view.works
    found = [0] * len(works.keys)
    for at in reversed(works.order):
        found[at] = weigh(at) + max((found[one] for one in works.following[at]), default=0)
    return found


def _by_latest_start(view: View) -> list[float]:
    return [float(one) for one in latest_starts(view)]


def _by_latest_end(view: View) -> list[float]:
    works, starts = view.works, latest_starts(view)
    ends = (
        min((starts[one] for one in works.following[at]), default=view.deadline) for at in range(len(starts))
    )
    return [float(end - works.waits[at]) for at, end in enumerate(ends)]


def _by_room(view: View) -> list[float]:
    return [
        float(late - early) for late, early in zip(latest_starts(view), earliest_starts(view), strict=True)
    ]


def _by_way(view: View) -> list[float]:
    works = view.works
    return [-float(one) for one in _ways(view, lambda at: works.minutes[at] + works.waits[at])]


def _by_waits(view: View) -> list[float]:
    waits = view.works.waits
    starts = latest_starts(view)
    return [-one + start * 1e-6 for one, start in zip(_ways(view, lambda at: waits[at]), starts, strict=True)]


def _by_work_after(view: View) -> list[float]:
    works = view.works
    after: list[set[int]] = [set() for _ in works.keys]
    for at in reversed(works.order):
        for one in works.following[at]:
            after[at] |= after[one] | {one}
    return [
        -float(works.minutes[at] + sum(works.minutes[one] for one in some)) for at, some in enumerate(after)
    ]


def _as_listed(view: View) -> list[float]:
    return [float(at) for at in range(len(view.works.keys))]


RULES: dict[str, Callable[[View], list[float]]] = {
    "latest start": _by_latest_start,
    "latest end": _by_latest_end,
    "least room": _by_room,
    "longest way": _by_way,
    "longest waits": _by_waits,
    "most work after": _by_work_after,
    "as listed": _as_listed,
}
FIRST_RULE = "longest way"
"""The only rules that need no deadline are this one, the most work after, and the order of the list."""


def priorities(rule: str, *, view: View) -> list[float]:
    """What comes first by a rule: one number for each work, the smallest first.

    Equation:
        latest start, latest end, or their room over the earliest start; the longest way to the end in minutes of
        hands and waits, or of waits alone; the minutes of everything that comes after; the order of the list

    Parameters:
        rule: one of RULES
        view: works, hours, what the goal needs, and the deadline [min]

    Returns:
        a number for each work [1]; what the goal does not need comes after all that it needs, what is begun first

    Valid for:
        comparing works of one plan

    Source:
        Kolisch, Serial and parallel resource-constrained project scheduling methods revisited, European Journal of
        Operational Research 90 (1996): latest start and latest finish are among the best of such rules.

    Example:
        >>> hours = Hours(((0, 600),), horizon=600)
        >>> works = (Work("wash", 30), Work("order", 10, wait=300), Work("fit", 60, after=("wash", "order")))
        >>> priorities("longest way", view=view_of(works, hours=hours, goal="fit", deadline=600))
        [-90.0, -370.0, -60.0]

    Not covered:
        which rule serves best: see plan, which tries them all.
    """
    if rule not in RULES:
        raise PriorityUnknown(rule, list(RULES))
    found = RULES[rule](view)
    return placeable(found, view=view)


def placeable(priority: Sequence[float], *, view: View) -> list[float]:
    """Priorities with what is begun in front and what the goal does not need behind.

    Equation:
        begun: −∞; needed for the goal: as given; else: as given + 2³²

    Parameters:
        priority: one for each work, the smallest first [1]
        view: works, and which of them the goal needs

    Returns:
        priorities [1]

    Valid for:
        priorities that lie well within ± 2³¹

    Source:
        HAND.

    Example:
        >>> works = (Work("fit", 10), Work("tidy", 10), Work("wash", 10, begun=True))
        >>> view = view_of(works, hours=Hours(((0, 60),), horizon=60), goal="fit", deadline=60)
        >>> placeable([1.0, 2.0, 3.0], view=view)
        [1.0, 4294967298.0, -inf]

    Not covered:
        what is begun and the goal does not need: it is in hand, and is finished first.
    """
    begun, needed = view.works.begun, view.needed
    return [
        float("-inf") if begun[at] else float(one) if at in needed else one + BEHIND
        for at, one in enumerate(priority)
    ]


def view_of(works: Sequence[Work], *, hours: Hours, goal: str | None, deadline: int | None = None) -> View:
    """Works by number with their hours, as the rules look at them.

    Equation:
        without a deadline: the finish of the goal where the longest way comes first

    Parameters:
        works: the works
        hours: his hours, those of the second person, the early ones [min]
        goal: what is to be reached; nothing: everything
        deadline: by when [min]

    Returns:
        the view

    Valid for:
        works without rings; see Numbered.of

    Source:
        HAND.

    Example:
        >>> hours = Hours(((0, 60),), horizon=60)
        >>> view_of((Work("fit", 10), Work("tidy", 10)), hours=hours, goal="fit").deadline
        10

    Not covered:
        a first try that finds no place within the horizon: the deadline is the horizon.
    """
    calendars = hours.calendars()
    numbered = Numbered.of(works, calendars=calendars)
    end = -1 if goal is None else numbered.goal(goal)
    needed = frozenset(range(len(works)) if goal is None else numbered.needed_for(end))
    view = View(numbered, calendars, needed, hours.horizon if deadline is None else deadline)
    if deadline is not None or not works:
        return view
    return View(numbered, calendars, needed, _first_finish(view, end))


def _first_finish(view: View, goal: int) -> int:
    """When the goal is reached by a rule that needs no deadline; the horizon where it finds no place."""
    try:
        placed = Placer(view.works, view.calendars).place(priorities(FIRST_RULE, view=view))
    except Stuck:
        return view.deadline
    return placed.ends[goal] if goal >= 0 else max(placed.ends)
