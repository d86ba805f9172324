"""How early a goal can be reached at best: a bound that no plan can beat."""

from bisect import insort
from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush, heapreplace

from gudgeon.calc.planning.hours import BOTH, EARLY, Calendar, Hours
from gudgeon.calc.planning.placing import Placer, Stuck
from gudgeon.calc.planning.rules import FIRST_RULE, View, priorities, view_of
from gudgeon.calc.planning.schedule import Reason
from gudgeon.calc.planning.works import Numbered, Work

Links = Sequence[Sequence[tuple[int, int]]]
KINDS = range(4)


def lower_bound(
    works: Sequence[Work], *, hours: Hours, goal: str, at_most: int | None = None, keep_late: bool = True
) -> int:
    """The earliest minute at which a goal can be reached that is not proved impossible.

    Equation:
        least T that the tests below do not refute, by bisection

    Parameters:
        works: the works
        hours: his hours, those of the second person, the early ones [min]
        goal: what is to be reached
        at_most: a finish that is known to be possible [min]
        keep_late: whether torque and timing work stays out of late hours that it can avoid

    Returns:
        a minute before which no plan reaches the goal [min]

    Valid for:
        every plan in which he does one work at a time, within the hours that it needs, after what comes before it.
        Proof, for the works that the goal needs. (1) A work begins no earlier than its predecessors end with their
        waits, or than its delivery; its hands then take so many minutes of its hours, or, in one go, the first hours
        that are long enough: later the further it begins. (2) All works before it are done by one person in the same
        hours. If each may be interrupted at will, ends last for which max (end + shortest way from there to the work)
        is least are found by always doing what has the longest way left (exchange two works: the later end of the two
        stays, and the shorter way moves to it), so no plan is earlier. The same holds for the part that needs the
        second person, or early hours, in those hours. (3) Seen backward from T, the same gives the latest end of each
        work: (1) and (2) know no direction. (4) T is refuted when a work must begin later than it may, or when, with
        interruption at will, the works cannot all be done between their earliest starts and latest ends; doing first
        what must end first succeeds whenever anything does. (5) What is impossible by T is impossible by less than
        T, so every T refuted is below the finish of every plan.

    Source:
        Carlier, The one-machine sequencing problem, European Journal of Operational Research 11 (1982), for (2); Klein
        and Scholl, Computing lower bounds by destructive improvement, European Journal of Operational Research 112
        (1999), for (4) and (5).

    Example:
        >>> hours = Hours(((0, 60), (1440, 1500)), horizon=2880)
        >>> works = (Work("glue", 20, wait=600), Work("fit", 30, after=("glue",)))
        >>> lower_bound(works, hours=hours, goal="fit")
        1470

    Not covered:
        the least piece of 15 minutes, and that several works in one go may not fit into one evening: the bound may lie
        below the best plan.
    """
    view = view_of(works, hours=hours, goal=goal, deadline=hours.horizon)
    numbered = Numbered.of(works, calendars=view.calendars, keep_late=keep_late)
    bound = Bound(numbered, view.calendars, numbered.goal(goal))
    least = bound.forward()
    if least is None:
        if keep_late:
            return lower_bound(works, hours=hours, goal=goal, at_most=at_most, keep_late=False)
        raise _why_not(view, hours.horizon)
    most = hours.horizon + sum(one.wait for one in works) if at_most is None else at_most
    return bound.raised(least, most=most)


def _why_not(view: View, horizon: int) -> Exception:
    """The error that a plan gives where the bound finds that there is none."""
    try:
        Placer(view.works, view.calendars).place(priorities(FIRST_RULE, view=view))
    except Stuck as stuck:
        return Reason(view, horizon).of(stuck)
    raise AssertionError("a plan was found where the bound refuted all")


@dataclass(frozen=True, slots=True)
class Heads:
    """The start of each work and the end of its hands: the earliest, forward or backward; or the latest."""

    starts: list[int]
    ends: list[int]


class Bound:
    """The tests that refute a finish; everything that does not depend on it is worked out once."""

    def __init__(self, works: Numbered, calendars: Sequence[Calendar], goal: int) -> None:
        self.works, self.calendars, self.goal = works, calendars, goal
        needed = works.needed_for(goal)
        self.order = [at for at in works.order if at in needed]
        self.links: list[list[tuple[int, int]]] = [[] for _ in works.keys]
        self.back: list[list[tuple[int, int]]] = [[] for _ in works.keys]
        for at in self.order:
            for one in works.before[at]:
                self.links[at].append((one, works.waits[one]))
                self.back[one].append((at, works.waits[one]))
        self.ways = _ways(self.order, self.links, works.minutes)
        self.ways_back: list[dict[int, int]] = [{} for _ in works.keys]
        for at, ways in enumerate(self.ways):
            for one, way in ways.items():
                self.ways_back[one][at] = way
        self.heads: Heads | None = None

    def forward(self) -> int | None:
        """The earliest finish by (1) and (2); None when the hours do not reach."""
        works = self.works
        self.heads = self._heads(self.order, self.links, self.ways, works.released, self.calendars)
        return None if self.heads is None else self.heads.ends[self.goal] + works.waits[self.goal]

    def raised(self, least: int, *, most: int) -> int:
        """The least finish from `least` to `most` that is not refuted."""
        if least >= most:
            return least
        if self.refuted(most - 1):  # what was found is the best there is: the usual case
            return most
        most -= 1
        while least < most:
            middle = (least + most) // 2
            if self.refuted(middle):
                least = middle + 1
            else:
                most = middle
        return least

    def refuted(self, finish: int) -> bool:
        """Whether no plan reaches the goal by a minute."""
        heads, works = self.heads, self.works
        assert heads is not None
        tails = self._tails(finish)
        if tails is None:
            return True
        if any(heads.starts[at] + tails.ends[at] > finish for at in self.order):
            return True
        for kind in KINDS:
            calendar = self.calendars[kind]
            jobs = []
            for at in self.order:
                if works.minutes[at] and _within(works.kinds[at], kind):
                    start = calendar.worked(heads.starts[at])
                    jobs.append((start, calendar.worked(finish - tails.starts[at]), works.minutes[at]))
            if not _all_in_time(sorted(jobs)):
                return True
        return False

    def latest(self, finish: int) -> Heads | None:
        """The latest start of each work and the latest end of its hands for the goal to be reached by a minute.

        None where it cannot be. What the goal does not need may begin and end at the finish.
        """
        tails = self._tails(finish)
        if tails is None:
            return None
        return Heads([finish - end for end in tails.ends], [finish - start for start in tails.starts])

    def _tails(self, finish: int) -> Heads | None:
        """The same as forward, seen backward from a finish."""
        released = [0] * len(self.works.keys)
        released[self.goal] = self.works.waits[self.goal]
        calendars = [one.mirrored(finish) for one in self.calendars]
        return self._heads(self.order[::-1], self.back, self.ways_back, released, calendars)

    def _heads(
        self, order: Sequence[int], links: Links, ways: Sequence[dict[int, int]], released: Sequence[int],
        calendars: Sequence[Calendar],
    ) -> Heads | None:  # fmt: skip
        """Earliest starts and ends by (1) and (2), in the direction of the links."""
        works = self.works
        starts, ends = [0] * len(works.keys), [0] * len(works.keys)
        jobs: list[list[tuple[int, int]]] = [[] for _ in KINDS]
        used = [any(works.minutes[at] and _within(works.kinds[at], kind) for at in order) for kind in KINDS]
        for at in order:
            begin = released[at]
            for one, lag in links[at]:
                begin = max(begin, ends[one] + lag)
            for kind in KINDS:
                if used[kind] and len(links[at]):
                    last = _last_end(jobs[kind], ways[at], works.minutes, calendars[kind])
                    if last is None:
                        return None
                    begin = max(begin, last)
            found = self._hands(at, begin, calendars)
            if found is None:
                return None
            starts[at], ends[at] = found
            if works.minutes[at]:
                for kind in KINDS:
                    if _within(works.kinds[at], kind):
                        insort(jobs[kind], (calendars[kind].worked(starts[at]), at))
        return Heads(starts, ends)

    def _hands(self, at: int, begin: int, calendars: Sequence[Calendar]) -> tuple[int, int] | None:
        """The first start from a minute on, and the first end of the hands."""
        minutes, calendar = self.works.minutes[at], calendars[self.works.kinds[at]]
        if not minutes:
            return begin, begin
        if self.works.whole[at]:
            start = calendar.first_room(begin, minutes=minutes)
            return None if start is None else (start, start + minutes)
        start, end = calendar.first(begin), calendar.later(begin, minutes=minutes)
        return None if start is None or end is None else (start, end)


def _within(kind: int, hours: int) -> bool:
    """Whether work of a kind can only be done within hours of another."""
    return (kind % EARLY == BOTH or hours % EARLY != BOTH) and kind // EARLY >= hours // EARLY


def _ways(order: Sequence[int], links: Links, minutes: Sequence[int]) -> list[dict[int, int]]:
    """For each work the longest way from the end of each one before it to its start, as if always at work."""
    ways: list[dict[int, int]] = [{} for _ in minutes]
    for at in order:
        own = ways[at]
        for one, lag in links[at]:
            own[one] = max(own.get(one, 0), lag)
            beyond = minutes[one] + lag
            for first, way in ways[one].items():
                if own.get(first, -1) < way + beyond:
                    own[first] = way + beyond
    return ways


def _last_end(
    jobs: Sequence[tuple[int, int]], ways: dict[int, int], minutes: Sequence[int], calendar: Calendar
) -> int | None:
    """The least of max (end + way) when one person does these works and may interrupt them; 0 without works."""
    waiting = [(start, ways[at], minutes[at]) for start, at in jobs if at in ways]
    now = worst = 0
    following, count = 0, len(waiting)
    heap: list[tuple[int, int]] = []
    while heap or following < count:
        if not heap and waiting[following][0] > now:
            now = waiting[following][0]
        while following < count and waiting[following][0] <= now:
            heappush(heap, (-waiting[following][1], waiting[following][2]))
            following += 1
        way, left = heap[0]
        if following < count and now + left > waiting[following][0]:
            heapreplace(heap, (way, left - (waiting[following][0] - now)))
            now = waiting[following][0]
            continue
        heappop(heap)
        now += left
        end = calendar.done(now)
        if end is None:
            return None
        worst = max(worst, end - way)
    return worst


def _all_in_time(jobs: Sequence[tuple[int, int, int]]) -> bool:
    """Whether works (start, end, minutes) can all be done in time by one person who may interrupt them."""
    now = following = 0
    heap: list[tuple[int, int]] = []
    while heap or following < len(jobs):
        if not heap and jobs[following][0] > now:
            now = jobs[following][0]
        while following < len(jobs) and jobs[following][0] <= now:
            heappush(heap, (jobs[following][1], jobs[following][2]))
            following += 1
        end, left = heap[0]
        if following < len(jobs) and now + left > jobs[following][0]:
            heapreplace(heap, (end, left - (jobs[following][0] - now)))
            now = jobs[following][0]
            continue
        heappop(heap)
        now += left
        if now > end:
            return False
    return True
