"""A work of the plan, and all of them by number instead of by name."""

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.calc.planning.hours import BOTH, EARLY, OWN, Calendar
from gudgeon.calc.planning.network import order_of
from gudgeon.calc.planning.schedule_errors import MinutesImpossible, NoSuchGoal, NoWindowLongEnough, WorkTwice


@dataclass(frozen=True, slots=True)
class Work:
    """One work: minutes of hands, then a wait that runs by itself before what comes after may begin.

    `not_before` is a delivery or a promise, in minutes since the plan's start. A work of 0 minutes takes nobody's time:
    a wait alone, or a milestone.
    """

    key: str
    minutes: int
    after: tuple[str, ...] = ()
    wait: int = 0
    not_before: int = 0
    two_people: bool = False
    in_one_go: bool = False
    not_late: bool = False
    begun: bool = False

    def __post_init__(self) -> None:
        given = {"Work": self.minutes, "Wait": self.wait, "Earliest start": self.not_before}
        for what, minutes in given.items():
            if minutes < 0:
                raise MinutesImpossible(self.key, what, minutes)


@dataclass(frozen=True, slots=True)
class Numbered:
    """Works by number: what comes before and after each, an order that keeps it, the hours that each needs.

    `leads` are waits before the hands instead of after them, as a plan seen backward has them.
    """

    keys: tuple[str, ...]
    index: dict[str, int]
    order: tuple[int, ...]
    before: tuple[tuple[int, ...], ...]
    following: tuple[tuple[int, ...], ...]
    minutes: list[int]
    waits: list[int]
    released: list[int]
    kinds: list[int]
    whole: list[bool]
    begun: list[bool]
    leads: list[int]

    @classmethod
    def of(
        cls, works: Sequence[Work], *, calendars: Sequence[Calendar], keep_late: bool = True
    ) -> "Numbered":
        """Number works; refused are names given twice or unknown, rings, and what fits into no hours at all.

        Torque and timing work is kept out of the late hours where the early ones can hold it at all.
        """
        index = {work.key: at for at, work in enumerate(works)}
        if len(index) < len(works):
            raise WorkTwice(next(one.key for at, one in enumerate(works) if index[one.key] != at))
        order = order_of(index, after={one.key: one.after for one in works}) if works else ()
        before = tuple(tuple(dict.fromkeys(index[one] for one in work.after)) for work in works)
        following: list[list[int]] = [[] for _ in works]
        for at, needed in enumerate(before):
            for one in needed:
                following[one].append(at)
        return cls(
            keys=tuple(index), index=index, order=tuple(index[one] for one in order), before=before,
            following=tuple(map(tuple, following)), minutes=[one.minutes for one in works],
            waits=[one.wait for one in works], released=[one.not_before for one in works],
            kinds=[_kind(one, calendars, keep_late) for one in works], whole=[one.in_one_go for one in works],
            begun=[one.begun for one in works], leads=[0] * len(works),
        )  # fmt: skip

    def goal(self, key: str) -> int:
        """The number of the work whose finish is asked for."""
        if key not in self.index:
            raise NoSuchGoal(key, self.keys)
        return self.index[key]

    def needed_for(self, goal: int) -> set[int]:
        """What must be done before a work, and itself."""
        found, left = {goal}, [goal]
        while left:
            for one in self.before[left.pop()]:
                if one not in found:
                    found.add(one)
                    left.append(one)
        return found


def _kind(work: Work, calendars: Sequence[Calendar], keep_late: bool) -> int:
    """Which hours a work needs; the early ones where they can hold it."""
    kind = BOTH if work.two_people else OWN
    if work.in_one_go and work.minutes > calendars[kind].longest:
        raise NoWindowLongEnough(
            work.key, minutes=work.minutes, longest=calendars[kind].longest, two_people=work.two_people
        )
    if not (work.not_late and keep_late and work.minutes):
        return kind
    early = calendars[kind + EARLY]
    if work.in_one_go:
        holds = early.first_room(work.not_before, minutes=work.minutes) is not None
    else:
        holds = early.later(work.not_before, minutes=work.minutes) is not None
    return kind + EARLY if holds else kind
