"""Why the date is what it is: what each work waited for, and how far each may slip."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from gudgeon.calc.planning.hours import BOTH, EARLY, OWN, Calendar, Hours
from gudgeon.calc.planning.placing import Piece, Placed
from gudgeon.calc.planning.pushed import Pushed
from gudgeon.calc.planning.rules import view_of
from gudgeon.calc.planning.schedule import Schedule
from gudgeon.calc.planning.works import Numbered, Work


class Cause(StrEnum):
    """What a work waited for before it began, or before it went on."""

    HANDS = "hands"
    WAIT = "wait"
    DELIVERY = "delivery"
    SECOND_PERSON = "second person"
    EARLY_HOURS = "early hours"
    LONG_HOURS = "long hours"
    BUSY = "busy"
    START = "start"


@dataclass(frozen=True, slots=True)
class Link:
    """A work of the chain that leads to the goal, and what it waited for; `by` names the work that caused it."""

    key: str
    cause: Cause
    by: str | None = None


class Laid:
    """A schedule by number, with the pieces in order."""

    __slots__ = ("by", "calendars", "kinds", "own", "pieces", "ready", "starts")

    def __init__(
        self, pieces: Sequence[Piece], *, ready: Sequence[int], by: Sequence[int], kinds: Sequence[int],
        calendars: Sequence[Calendar],
    ) -> None:  # fmt: skip
        self.pieces = sorted(pieces)
        self.starts = [one[0] for one in self.pieces]
        self.ready, self.by, self.kinds, self.calendars = ready, by, kinds, calendars
        self.own: dict[int, list[tuple[int, int]]] = {}
        for start, end, at in self.pieces:
            self.own.setdefault(at, []).append((start, end))

    @classmethod
    def of(cls, placed: Placed, *, works: Numbered, calendars: Sequence[Calendar]) -> "Laid":
        """What was just placed."""
        kinds = works.kinds
        if placed.late:
            kinds = [kind - EARLY if at in placed.late else kind for at, kind in enumerate(kinds)]
        return cls(placed.pieces, ready=placed.ready, by=placed.by, kinds=kinds, calendars=calendars)

    def before(self, at: int, *, until: int) -> tuple[Cause | None, int, int]:
        """What held a work up before a minute: the cause, the work that did (or −1), and the minute it did until.

        No cause of his hours: then it is what made the work ready.
        """
        own = [one for one in self.own.get(at, ()) if one[1] <= until]
        calendar, his = self.calendars[self.kinds[at]], self.calendars[OWN]
        while own:
            start = own.pop()[0]
            since = own[-1][1] if own else self.ready[at]
            if start <= since:
                continue
            if calendar.between(since, until=start):
                place = bisect_right(self.starts, start - 1) - 1
                if place >= 0 and self.pieces[place][1] > since and self.pieces[place][2] != at:
                    return Cause.BUSY, self.pieces[place][2], self.pieces[place][1]
                if not own:
                    return Cause.LONG_HOURS, self.by[at], self.ready[at]
            elif his.between(since, until=start) and not own:
                return self._missing(self.kinds[at], since, start), self.by[at], self.ready[at]
        return None, self.by[at], self.ready[at]

    def _missing(self, kind: int, since: int, start: int) -> Cause:
        """Which of the hours that a work needs were missing while he had hours."""
        if kind % EARLY == BOTH and not self.calendars[BOTH].between(since, until=start):
            return Cause.SECOND_PERSON
        return Cause.EARLY_HOURS

    def chain(self, goal: int) -> list[tuple[int, Cause | None, int]]:
        """From the goal backward: each work, what held it up, and by which work."""
        found = []
        at, until = goal, 1 << 60
        while at >= 0:
            cause, by, until = self.before(at, until=until)
            found.append((at, cause, by))
            at = by
        return found


def driving(schedule: Schedule, *, works: Sequence[Work], hours: Hours, goal: str) -> tuple[Link, ...]:
    """The chain of works that leads to the date, from the goal backward, and what each of them waited for.

    Equation:
        between what made a work ready and its start, or between two of its pieces: another work in hours that it could
        have used (busy), hours without the second person, hours too late for it, hours too short for it; else what
        made it ready: hands or wait of a predecessor, a delivery, the start of the plan

    Parameters:
        schedule: what is done when [min]
        works: the works of the schedule
        hours: the hours of the schedule [min]
        goal: the work whose date is asked about

    Returns:
        links: work, cause, and the work that caused it

    Valid for:
        one cause is named where several would each suffice: the one that was the last to give way

    Source:
        HAND: each link ends at the minute at which the next begins to wait, so the chain ends at the plan's start,
        at a delivery, or at the second person's first hours.

    Example:
        >>> from gudgeon.calc.planning.schedule import schedule as laid
        >>> hours = Hours(((0, 60), (1440, 1500)), horizon=2880)
        >>> works = (Work("glue", 20, wait=600), Work("fit", 30, after=("glue",)))
        >>> found = driving(laid(works, hours=hours), works=works, hours=hours, goal="fit")
        >>> [(one.key, str(one.cause), one.by) for one in found]
        [('fit', 'wait', 'glue'), ('glue', 'start', None)]

    Not covered:
        what would happen if a link were shorter: the next best chain takes over.
    """
    view = view_of(works, hours=hours, goal=goal, deadline=hours.horizon)
    numbered = view.works
    laid = _laid(schedule, numbered, view.calendars)
    links = []
    for at, cause, by in laid.chain(numbered.goal(goal)):
        named = numbered.keys[by] if by >= 0 else None
        if cause is None:
            cause = _made_ready(numbered, at, by)
        links.append(Link(numbered.keys[at], cause, named))
    return tuple(links)


def _made_ready(works: Numbered, at: int, by: int) -> Cause:
    """What made a work ready."""
    if by >= 0:
        return Cause.WAIT if works.waits[by] else Cause.HANDS
    return Cause.DELIVERY if works.released[at] else Cause.START


def _laid(schedule: Schedule, works: Numbered, calendars: Sequence[Calendar]) -> Laid:
    """The schedule by number."""
    pieces = [(start, end, works.index[key]) for key, slots in schedule.slots.items() for start, end in slots]
    ready, by = list(works.released), [-1] * len(works.keys)
    for at in works.order:
        for one in works.before[at]:
            end = schedule.ends[works.keys[one]]
            if end > ready[at]:
                ready[at], by[at] = end, one
    kinds = [
        kind - EARLY if kind >= EARLY and works.keys[at] in schedule.late else kind
        for at, kind in enumerate(works.kinds)
    ]
    return Laid(pieces, ready=ready, by=by, kinds=kinds, calendars=calendars)


def slack(works: Sequence[Work], *, hours: Hours, schedule: Schedule, goal: str) -> dict[str, int]:
    """How many minutes each work may begin later without moving the goal.

    Equation:
        start when all works are pushed as late as they go, the last one first, with the goal held − start in the plan

    Parameters:
        works: the works of the schedule
        hours: the hours of the schedule [min]
        schedule: what is done when [min]
        goal: what must not be moved

    Returns:
        by name: minutes, never below 0 [min]. For what the goal does not need: up to the end of the plan

    Valid for:
        all works may slip so far at once, as one plan holds them all; one work alone may be able to slip further

    Source:
        HAND: the plan pushed late is itself a plan with the same goal, found by placing the works backward (Wiest, Some
        properties of schedules for large projects with limited resources, Operations Research 12 (1964)).

    Example:
        >>> from gudgeon.calc.planning.schedule import schedule as laid
        >>> hours = Hours(((0, 60), (1440, 1500)), horizon=2880)
        >>> works = (Work("glue", 20, wait=600), Work("fit", 30, after=("glue",)))
        >>> slack(works, hours=hours, schedule=laid(works, hours=hours), goal="fit")
        {'glue': 40, 'fit': 0}

    Not covered:
        pieces of less than 15 minutes that only pushing late would make.
    """
    view = view_of(works, hours=hours, goal=goal, deadline=hours.horizon)
    keys = view.works.keys
    pushed = Pushed(view.works, calendars=view.calendars, goal=view.works.goal(goal), needed=view.needed)
    late = pushed.starts([schedule.ends[key] for key in keys], finish=schedule.ends[goal]) or {}
    found = {}
    for at, key in enumerate(keys):
        last = late.get(at, schedule.begins[key]) if at in view.needed else hours.horizon
        found[key] = max(0, last - schedule.begins[key])
    return found
