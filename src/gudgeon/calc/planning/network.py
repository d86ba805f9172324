"""The critical path of tasks that wait for each other: when each can begin, when it must, and what decides the end."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from heapq import heapify, heappop, heappush

from gudgeon.calc.planning.network_errors import (
    DurationImpossible,
    DurationMissing,
    NoTasks,
    TasksInARing,
    UnknownPredecessor,
)

SAME = 1e-9
"""Two times closer than this part of the whole are one: durations such as 16/3 add up with rounding."""


@dataclass(frozen=True, slots=True)
class TaskTimes:
    """When a task can begin and end, when it must at the latest, and how long it may wait.

    `total_float` is how long it may wait without moving the end of all, `free_float` without moving any other task.
    """

    earliest_start: float
    earliest_finish: float
    latest_start: float
    latest_finish: float
    total_float: float
    free_float: float

    @property
    def critical(self) -> bool:
        """Whether any wait of it moves the end."""
        return self.total_float == 0


@dataclass(frozen=True, slots=True)
class CriticalPath:
    """The times of all tasks, in an order in which they can be done; `critical` are those without float."""

    duration: float
    times: Mapping[str, TaskTimes]
    critical: tuple[str, ...]


def order_of(tasks: Iterable[str], *, after: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """An order in which tasks can be done: none before what it comes after, else as they are given.

    Equation:
        of the tasks whose predecessors are all placed, the first as given comes next (Kahn)

    Parameters:
        tasks: the tasks by name
        after: for each task those that must be done before it; a task without any may be left out

    Returns:
        the tasks in order

    Valid for:
        any number of tasks; a predecessor named twice counts once

    Source:
        Kahn, Topological sorting of large networks, Communications of the ACM 5 (1962).

    Example:
        >>> order_of(["test", "paint", "dry"], after={"test": ["dry"], "dry": ["paint"]})
        ('paint', 'dry', 'test')

    Not covered:
        persons, benches and hours, which may ask for another order.
    """
    place = {task: at for at, task in enumerate(tasks)}
    if not place:
        raise NoTasks
    before = _checked(place, after)
    followers: dict[str, list[str]] = {task: [] for task in place}
    for task, needed in before.items():
        for one in needed:
            followers[one].append(task)
    open_count = {task: len(needed) for task, needed in before.items()}
    ready = [place[task] for task, count in open_count.items() if count == 0]
    heapify(ready)
    names, found = list(place), list[str]()
    while ready:
        found.append(names[heappop(ready)])
        for task in followers[found[-1]]:
            open_count[task] -= 1
            if open_count[task] == 0:
                heappush(ready, place[task])
    if len(found) < len(place):
        raise TasksInARing(_ring({task: before[task] for task in place if open_count[task]}))
    return tuple(found)


def critical_path(durations: Mapping[str, float], *, after: Mapping[str, Sequence[str]]) -> CriticalPath:
    """Earliest and latest times of tasks, their floats, and the tasks that decide the end.

    Equation:
        earliest start = greatest earliest finish of what comes before; latest finish = least latest start of what
        comes after; total float = latest start − earliest start; free float = least earliest start of what comes
        after − earliest finish

    Parameters:
        durations: how long each task takes [any one unit of time]
        after: for each task those that must be done before it; a task without any may be left out

    Returns:
        duration of the whole, times and floats of each task [the same unit of time]

    Valid for:
        tasks that begin as soon as what comes before them is done

    Source:
        Kelley and Walker, Critical-path planning and scheduling, Proceedings of the Eastern Joint Computer
        Conference (1959); Taylor, Introduction to Management Science, chapter 8.

    Example:
        >>> found = critical_path({"A": 3.0, "B": 2.0, "C": 5.0}, after={"C": ["A"], "B": []})
        >>> found.duration, found.critical, found.times["B"].total_float
        (8.0, ('A', 'C'), 6.0)

    Not covered:
        who is there to do it, and when: tasks with nothing between them are taken to go side by side.
    """
    for task, duration in durations.items():
        if not math.isfinite(duration) or duration < 0:
            raise DurationImpossible(task, duration)
    order = order_of(durations, after=after)
    start: dict[str, float] = {}
    for task in order:
        start[task] = max((start[one] + durations[one] for one in after.get(task, ())), default=0.0)
    end = max(start[task] + durations[task] for task in order)
    if not math.isfinite(end):
        raise DurationImpossible(*max(durations.items(), key=lambda one: one[1]))
    latest, following = dict.fromkeys(order, end), dict.fromkeys(order, end)
    for task in reversed(order):
        for one in after.get(task, ()):
            latest[one] = min(latest[one], latest[task] - durations[task])
            following[one] = min(following[one], start[task])
    times = {
        task: _times(start[task], durations[task], latest=latest[task], following=following[task], end=end)
        for task in order
    }
    return CriticalPath(end, times, tuple(task for task in order if times[task].critical))


def _times(start: float, duration: float, *, latest: float, following: float, end: float) -> TaskTimes:
    """The times of one task; what is only rounding of sums is no float."""
    finish, least = start + duration, SAME * end
    total, free = latest - finish, following - finish
    if total <= least:
        return TaskTimes(start, finish, start, finish, 0.0, 0.0)
    return TaskTimes(start, finish, latest - duration, latest, total, free if free > least else 0.0)


def _checked(place: Mapping[str, int], after: Mapping[str, Sequence[str]]) -> dict[str, tuple[str, ...]]:
    """For every task what comes before it, each once."""
    for task, needed in after.items():
        if task not in place:
            raise DurationMissing(task, place)
        for one in needed:
            if one not in place:
                raise UnknownPredecessor(task, one, place)
    return {task: tuple(dict.fromkeys(after.get(task, ()))) for task in place}


def _ring(stuck: Mapping[str, Sequence[str]]) -> list[str]:
    """A ring among tasks each of which waits for another of them."""
    task, seen = next(iter(stuck)), dict[str, int]()
    while task not in seen:
        seen[task] = len(seen)
        task = next(one for one in stuck[task] if one in stuck)
    return list(seen)[seen[task] :]
