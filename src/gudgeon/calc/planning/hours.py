"""His hours, those of the second person, and those before it is late: counted in minutes since the plan's start."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from gudgeon.calc.planning.schedule_errors import HoursCrossed, HoursNotHisOwn

Window = tuple[int, int]

OWN, BOTH, EARLY, BOTH_EARLY = range(4)
"""Which of the four kinds of hours a work needs; without the early ones it is two less."""


class Calendar:
    """Hours of one kind, with the minutes summed, so that no question takes longer in a long plan."""

    __slots__ = ("before", "ends", "longest", "starts", "through", "total")

    def __init__(self, windows: Iterable[Window]) -> None:
        self.starts: list[int] = []
        self.ends: list[int] = []
        for start, end in windows:
            if self.ends and self.ends[-1] == start:
                self.ends[-1] = end  # what touches is one time of work
            else:
                self.starts.append(start)
                self.ends.append(end)
        self.before: list[int] = []
        self.through: list[int] = []
        total = 0
        for start, end in zip(self.starts, self.ends, strict=True):
            self.before.append(total)
            total += end - start
            self.through.append(total)
        self.total = total
        self.longest = max((e - s for s, e in zip(self.starts, self.ends, strict=True)), default=0)

    def worked(self, minute: int) -> int:
        """Minutes of these hours before a minute."""
        at = bisect_right(self.starts, minute) - 1
        if at < 0:
            return 0
        end = self.ends[at]
        return self.before[at] + min(minute, end) - self.starts[at]

    def between(self, start: int, *, until: int) -> int:
        """Minutes of these hours between two minutes."""
        return self.worked(until) - self.worked(start) if until > start else 0

    def done(self, work: int) -> int | None:
        """The minute at which so many minutes of these hours are over; None when there are not so many."""
        if work > self.total:
            return None
        at = bisect_left(self.through, work)
        return self.starts[at] + work - self.before[at]

    def begun(self, work: int) -> int | None:
        """The last minute before which no more than so many minutes of these hours lie, at which there is work."""
        at = bisect_right(self.before, work) - 1
        if at < 0 or work >= self.total:
            return None
        return self.starts[at] + work - self.before[at]

    def later(self, minute: int, *, minutes: int) -> int | None:
        """When work begun at a minute is done."""
        return self.done(self.worked(minute) + minutes) if minutes else minute

    def earlier(self, minute: int, *, minutes: int) -> int | None:
        """When work that is to be done by a minute must begin."""
        if not minutes:
            return minute
        work = self.worked(minute) - minutes
        return None if work < 0 else self.begun(work)

    def first(self, minute: int) -> int | None:
        """The first minute of these hours from a minute on."""
        at = bisect_right(self.ends, minute)
        return None if at == len(self.ends) else max(minute, self.starts[at])

    def first_room(self, minute: int, *, minutes: int) -> int | None:
        """The first start from a minute on of a work that must not be interrupted."""
        for at in range(bisect_right(self.ends, minute), len(self.ends)):
            start = max(minute, self.starts[at])
            if self.ends[at] - start >= minutes:
                return start
        return None

    def mirrored(self, minute: int) -> "Calendar":
        """The same hours seen backward from a minute."""
        kept = [
            (minute - min(end, minute), minute - start)
            for start, end in zip(self.starts, self.ends, strict=True)
            if start < minute
        ]
        return Calendar(reversed(kept))

    def windows(self) -> list[Window]:
        """The hours themselves."""
        return list(zip(self.starts, self.ends, strict=True))


@dataclass(frozen=True, slots=True)
class Hours:
    """When he works, when a second person is there too, and which of his hours are before the late one.

    Minutes since the plan's start; windows [start, end) in order; nothing is done after the horizon.
    """

    own: tuple[Window, ...]
    both: tuple[Window, ...] = ()
    early: tuple[Window, ...] = ()
    horizon: int = 0

    def __post_init__(self) -> None:
        for name, windows in (
            ("His hours", self.own),
            ("Hours of both", self.both),
            ("Early hours", self.early),
        ):
            _check_order(name, windows, self.horizon)
        own = Calendar(self.own)
        for name, windows in (("Hours of both", self.both), ("Early hours", self.early)):
            for start, end in windows:
                if own.between(start, until=end) != end - start:
                    raise HoursNotHisOwn(name, (start, end))

    def calendars(self) -> tuple[Calendar, Calendar, Calendar, Calendar]:
        """His own hours, those of both, the early ones, and the early ones of both."""
        both, early = Calendar(self.both), Calendar(self.early)
        return Calendar(self.own), both, early, Calendar(_common(both.windows(), early.windows()))


def _check_order(name: str, windows: Sequence[Window], horizon: int) -> None:
    last = 0
    for start, end in windows:
        if end <= start:
            raise HoursCrossed(name, (start, end), "they end before they begin")
        if start < last:
            why = (
                "they begin before the plan does"
                if start < 0
                else "they overlap the hours before, or stand after later ones"
            )
            raise HoursCrossed(name, (start, end), why)
        if end > horizon:
            raise HoursCrossed(name, (start, end), f"the plan ends at minute {horizon:,}")
        last = end


def _common(some: Sequence[Window], others: Sequence[Window]) -> list[Window]:
    """What lies in both of two rows of windows."""
    found, at, other = list[Window](), 0, 0
    while at < len(some) and other < len(others):
        start, end = max(some[at][0], others[other][0]), min(some[at][1], others[other][1])
        if start < end:
            found.append((start, end))
        if some[at][1] <= others[other][1]:
            at += 1
        else:
            other += 1
    return found
