"""The earliest finish by trying everything: quarter of an hour by quarter of an hour, every work that may be done, or none.

Slow, plain, and without any order of works: it shares nothing with the planner but the rules.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gudgeon.calc.planning.hours import Hours, Window
from gudgeon.calc.planning.works import Work

UNIT = 15


@dataclass(frozen=True, slots=True)
class Quarter:
    """Fifteen minutes of his hours, and the number of the window in which they lie."""

    start: int
    window: int
    both: bool
    early: bool


@dataclass(frozen=True, slots=True)
class State:
    """Quarters left of each work, when each is over (−1: not yet), what he is at, what he put down in this window."""

    left: tuple[int, ...]
    over: tuple[int, ...]
    at: int
    put_down: frozenset[int]


def quarters(hours: Hours) -> list[Quarter]:
    """His hours, cut into quarters."""
    return [
        Quarter(minute, window, _in(minute, hours.both), _in(minute, hours.early))
        for window, (start, end) in enumerate(hours.own)
        for minute in range(start, end, UNIT)
    ]


def _in(minute: int, windows: Sequence[Window]) -> bool:
    return any(start <= minute < end for start, end in windows)


def best_finish(works: Sequence[Work], *, hours: Hours, goal: str) -> int | None:
    """The earliest minute at which the goal can be reached; None when it cannot within these hours."""
    keys = [one.key for one in works]
    aim = keys.index(goal)
    states = {State(tuple(one.minutes // UNIT for one in works), (-1,) * len(works), -1, frozenset())}
    window = 0
    for quarter in quarters(hours):
        if quarter.window != window:
            window = quarter.window
            states = {State(one.left, one.over, -1, frozenset()) for one in states if not _cut(one, works)}
        states = {new for one in states for new in _steps(one, works, keys, quarter)}
        reached = [one.over[aim] for one in states if one.over[aim] >= 0]
        if reached:
            return min(reached)
    return None


def _cut(state: State, works: Sequence[Work]) -> bool:
    """Whether what must be done in one go is begun and not over."""
    return state.at >= 0 and works[state.at].in_one_go and state.left[state.at] > 0


def _steps(state: State, works: Sequence[Work], keys: Sequence[str], quarter: Quarter) -> Iterator[State]:
    """Every state after a quarter: idle, or at one of the works that may be done in it."""
    for at, work in enumerate(works):
        if _cut(state, works) and at != state.at:
            continue
        if not state.left[at] or at in state.put_down or quarter.start < work.not_before:
            continue
        if (work.two_people and not quarter.both) or (work.not_late and not quarter.early):
            continue
        if any(not 0 <= state.over[keys.index(one)] <= quarter.start for one in work.after):
            continue
        left = (*state.left[:at], state.left[at] - 1, *state.left[at + 1 :])
        over = state.over
        if not left[at]:
            over = (*over[:at], quarter.start + UNIT + work.wait, *over[at + 1 :])
        down = state.put_down | {state.at} if state.at not in (-1, at) else state.put_down
        yield State(left, over, at, down)
    if not _cut(state, works):
        down = state.put_down | {state.at} if state.at >= 0 else state.put_down
        yield State(state.left, state.over, -1, down)
