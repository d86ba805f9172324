"""The loop that places works into free hours, one after the other: as early as each can be, by priority.

Plain lists and no objects within the loop: a simulation runs it thousands of times.
"""

from bisect import bisect_right
from collections.abc import Sequence
from heapq import heapify, heappop, heappush

from gudgeon.calc.planning.hours import EARLY, OWN, Calendar
from gudgeon.calc.planning.works import Numbered

LEAST_PIECE = 15
"""A work is not begun for less, in minutes, unless that finishes it (common practice, no source)."""

NEVER = 1 << 40
Piece = tuple[int, int, int]


class Stuck(Exception):
    """A work found no place; what is wrong is told by whoever asked."""

    def __init__(self, at: int, ready: int, free: int) -> None:
        self.at, self.ready, self.free = at, ready, free


class Placed:
    """Where the works were placed: start and end of each (with its wait), its pieces, and what made it ready."""

    __slots__ = ("begins", "by", "ends", "late", "pieces", "ready")

    def __init__(self, count: int) -> None:
        self.begins = [0] * count
        self.ends = [0] * count
        self.ready: list[int] = []
        self.by = [-1] * count
        self.pieces: list[Piece] = []
        self.late: list[int] = []


class Free:
    """The hours that are still free: gaps in order, each with the number of his window that it lies in."""

    __slots__ = ("calendars", "ends", "starts", "windows")

    def __init__(self, calendars: Sequence[Calendar]) -> None:
        self.calendars = calendars
        own = calendars[OWN]
        self.starts, self.ends = list(own.starts), list(own.ends)
        self.windows = list(range(len(own.starts)))

    def copy(self) -> "Free":
        """The same gaps, to be taken anew."""
        other = Free.__new__(Free)
        other.calendars = self.calendars
        other.starts, other.ends, other.windows = list(self.starts), list(self.ends), list(self.windows)
        return other

    def _take(self, gap: int, start: int, end: int) -> None:
        """Take a piece out of a gap."""
        starts, ends = self.starts, self.ends
        if starts[gap] == start:
            if ends[gap] == end:
                del starts[gap], ends[gap], self.windows[gap]
            else:
                starts[gap] = end
        elif ends[gap] == end:
            ends[gap] = start
        else:
            starts.insert(gap + 1, end)
            ends.insert(gap, start)
            self.windows.insert(gap, self.windows[gap])

    def pieces(self, ready: int, *, minutes: int, kind: int, whole: bool) -> list[Piece] | None:
        """The first gaps that hold a work, as (gap, start, end); None when the plan has no room for it.

        Within one window a work is not put down for another and taken up again.
        """
        if kind != OWN:
            return self._within(self.calendars[kind], ready, minutes, whole)
        starts, ends, windows = self.starts, self.ends, self.windows
        found: list[Piece] = []
        last = -1
        for gap in range(bisect_right(ends, ready), len(ends)):
            start = starts[gap]
            if start < ready:
                start = ready
            room = ends[gap] - start
            if windows[gap] == last:
                continue
            if room >= minutes:
                found.append((gap, start, start + minutes))
                return found
            if room >= LEAST_PIECE and not whole:
                found.append((gap, start, ends[gap]))
                minutes -= room
                last = windows[gap]
        return None

    def _within(self, calendar: Calendar, ready: int, minutes: int, whole: bool) -> list[Piece] | None:
        """The same where only part of his hours will do."""
        starts, ends, firsts, lasts = self.starts, self.ends, calendar.starts, calendar.ends
        gap, window, last = bisect_right(ends, ready), bisect_right(lasts, ready), -1
        found: list[Piece] = []
        while gap < len(ends) and window < len(lasts):
            start, end = max(starts[gap], firsts[window], ready), min(ends[gap], lasts[window])
            room = end - start
            if window != last and room > 0:
                if room >= minutes:
                    found.append((gap, start, start + minutes))
                    return found
                if room >= LEAST_PIECE and not whole:
                    found.append((gap, start, end))
                    minutes -= room
                    last = window
            if ends[gap] <= lasts[window]:
                gap += 1
            else:
                window += 1
        return None


def _left(free: Free) -> int:
    return sum(free.ends) - sum(free.starts)


class Placer:
    """Places the same works again and again, by other priorities or with other minutes."""

    __slots__ = ("counts", "free", "works")

    def __init__(self, works: Numbered, calendars: Sequence[Calendar]) -> None:
        self.works = works
        self.free = Free(calendars)
        self.counts = [len(one) for one in works.before]

    def place(
        self, priority: Sequence[float], *, minutes: Sequence[int] | None = None, waits: Sequence[int] | None = None,
        released: Sequence[int] | None = None, counts: Sequence[int] | None = None, stop: int = -1,
    ) -> Placed:  # fmt: skip
        """Place by priority, the smallest first among what can be placed; end when `stop` is placed.

        A work that has nothing before it and no count left is placed; one whose count never falls to 0 is left out.
        """
        works, free = self.works, self.free.copy()
        minutes, waits = minutes or works.minutes, waits or works.waits
        following, kinds, whole, leads = works.following, works.kinds, works.whole, works.leads
        open_count = list(counts or self.counts)
        placed = Placed(len(open_count))
        ready, by = list(released or works.released), placed.by
        placed.ready = ready
        begins, ends, all_pieces = placed.begins, placed.ends, placed.pieces
        heap = [(priority[at], at) for at, count in enumerate(open_count) if not count]
        heapify(heap)
        while heap:
            at = heappop(heap)[1]
            begin = end = ready[at] + leads[at]
            if minutes[at]:
                pieces = free.pieces(begin, minutes=minutes[at], kind=kinds[at], whole=whole[at])
                if pieces is None and kinds[at] >= EARLY:
                    pieces = free.pieces(begin, minutes=minutes[at], kind=kinds[at] - EARLY, whole=whole[at])
                    placed.late.append(at)
                if pieces is None:
                    raise Stuck(at, begin, _left(free))
                for gap, start, last in reversed(pieces):  # from behind: the gaps before keep their numbers
                    free._take(gap, start, last)
                    all_pieces.append((start, last, at))
                begin, end = pieces[0][1], pieces[-1][2]
            begins[at] = begin
            end += waits[at]
            ends[at] = end
            if at == stop:
                break
            for one in following[at]:
                if end > ready[one]:
                    ready[one], by[one] = end, at
                open_count[one] -= 1
                if not open_count[one]:
                    heappush(heap, (priority[one], one))
        return placed
