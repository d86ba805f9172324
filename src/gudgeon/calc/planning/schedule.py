"""Works laid into real hours: what he does when, and when each is over."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.calc.planning.hours import BOTH, EARLY, OWN, Hours, Window
from gudgeon.calc.planning.placing import Placed, Placer, Stuck
from gudgeon.calc.planning.rules import FIRST_RULE, View, priorities, view_of
from gudgeon.calc.planning.schedule_errors import (
    CannotFinish,
    DeliveryTooLate,
    NoWindowLeft,
    OwnHoursShort,
    PriorityMisshapen,
    SecondPersonShort,
)
from gudgeon.calc.planning.works import Work


@dataclass(frozen=True, slots=True)
class Schedule:
    """What is done when, in minutes since the plan's start.

    `slots` are the hours of hands (none for a wait or a milestone), `begins` the start, `ends` when hands and wait are
    over; `goal` when the goal is reached, `finish` when everything is over; `late` the torque and timing works for
    which only late hours were left.
    """

    slots: Mapping[str, tuple[Window, ...]]
    begins: Mapping[str, int]
    ends: Mapping[str, int]
    goal: int
    finish: int
    late: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()

    @classmethod
    def of(cls, works: Sequence[Work], *, view: View, placed: Placed, goal: str | None) -> "Schedule":
        """What was placed, by name."""
        keys = view.works.keys
        slots: dict[str, list[Window]] = {key: [] for key in keys}
        for start, end, at in sorted(placed.pieces):
            slots[keys[at]].append((start, end))
        early = view.calendars[EARLY]
        late = tuple(
            work.key for work in works
            if work.not_late and any(early.between(start, until=end) < end - start for start, end in slots[work.key])
        )  # fmt: skip
        ends = dict(zip(keys, placed.ends, strict=True))
        finish = max(placed.ends, default=0)
        return cls(
            {key: tuple(some) for key, some in slots.items()}, dict(zip(keys, placed.begins, strict=True)), ends,
            finish if goal is None else ends[goal], finish, late, _late_flag(late),
        )  # fmt: skip


def schedule(
    works: Sequence[Work],
    *,
    hours: Hours,
    priority: Sequence[float] | str = FIRST_RULE,
    goal: str | None = None,
) -> Schedule:
    """Lay works into the hours in which they can be done, each as early as it can be, in the order of a priority.

    Equation:
        of the works whose predecessors are placed, the one of the smallest priority is placed next, into the first
        hours still free from the end of its predecessors (hands and wait) and its delivery on

    Parameters:
        works: the works
        hours: his hours, those of the second person, the early ones [min]
        priority: one number for each work, the smallest first [1], or the name of a rule
        goal: the work whose finish counts; nothing: all of them

    Returns:
        hours of each work, when it is over, when the goal is reached [min]

    Valid for:
        one person who does one work at a time. A work is interrupted only by the end of his hours; at least 15 minutes
        are begun, less only where they finish it; what must be done in one go is not interrupted

    Source:
        Kolisch, Serial and parallel resource-constrained project scheduling methods revisited, European Journal of
        Operational Research 90 (1996): the serial scheme.

    Example:
        >>> hours = Hours(((0, 60), (1440, 1500)), horizon=2880)
        >>> works = (Work("glue", 20, wait=600), Work("fit", 30, after=("glue",)), Work("tidy", 50))
        >>> found = schedule(works, hours=hours, priority=(1.0, 2.0, 3.0), goal="fit")
        >>> found.goal, found.slots["tidy"]
        (1470, ((20, 60), (1470, 1480)))

    Not covered:
        the best order: see plan.
    """
    if goal is None and not works:
        return Schedule({}, {}, {}, 0, 0)
    view = view_of(works, hours=hours, goal=goal)
    if isinstance(priority, str):
        order = priorities(priority, view=view)
    elif len(priority) != len(works):
        raise PriorityMisshapen(len(priority), len(works))
    else:
        order = [
            float("-inf") if one.begun else float(given) for one, given in zip(works, priority, strict=True)
        ]
    try:
        placed = Placer(view.works, view.calendars).place(order)
    except Stuck as stuck:
        raise Reason(view, hours.horizon).of(stuck) from None
    return Schedule.of(works, view=view, placed=placed, goal=goal)


@dataclass(frozen=True, slots=True)
class Reason:
    """Says which resource is missing when a work found no place."""

    view: View
    horizon: int

    def of(self, stuck: Stuck) -> CannotFinish:
        """The error that names it."""
        works, at = self.view.works, stuck.at
        kind, key = works.kinds[at] % EARLY, works.keys[at]
        last = max(self.view.calendars[OWN].ends, default=0)
        waited = self._delivery(at, last)
        if waited is not None:
            arrives = works.released[waited]
            return DeliveryTooLate(key, arrives=arrives, horizon=self.horizon, late=works.keys[waited])
        own = self._short(OWN, range(len(works.keys)))
        both = self._short(BOTH, [one for one, needs in enumerate(works.kinds) if needs % EARLY == BOTH])
        if own > 0:
            return OwnHoursShort(key, short_minutes=own, horizon=self.horizon)
        if kind == BOTH and both > 0:
            return SecondPersonShort(key, short_minutes=both, horizon=self.horizon)
        left = self.view.calendars[kind].between(stuck.ready, until=self.horizon)
        if works.whole[at] and left >= works.minutes[at]:
            return NoWindowLeft(key, minutes=works.minutes[at], two_people=kind == BOTH, horizon=self.horizon)
        short = max(works.minutes[at] - min(left, stuck.free), 1)
        named = SecondPersonShort if kind == BOTH else OwnHoursShort
        return named(key, short_minutes=short, horizon=self.horizon)

    def _short(self, kind: int, some: Sequence[int] | range) -> int:
        """How many minutes more all these works take than there are."""
        return sum(self.view.works.minutes[one] for one in some) - self.view.calendars[kind].total

    def _delivery(self, at: int, last: int) -> int | None:
        """What keeps a work beyond his last hours by a delivery or a promise: itself, or what it needs."""
        works = self.view.works
        some = [
            one for one in works.needed_for(at) if works.released[one] >= last and works.released[one] > 0
        ]
        return max(some, key=lambda one: works.released[one], default=None)


def _late_flag(late: Sequence[str]) -> tuple[str, ...]:
    if not late:
        return ()
    works = "One work" if len(late) == 1 else f"{len(late)} works"
    falls = "falls" if len(late) == 1 else "fall"
    return (f"{works} of torque or timing {falls} into late hours: no others are left before the plan ends.",)
