"""Works, hours and wishes that cannot be planned; one class per cause."""

from collections.abc import Sequence

from gudgeon.errors import InputError, quoted, short


def _told(minutes: int) -> str:
    """Minutes as hours and minutes."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours:,} h {rest} min" if rest else f"{hours:,} h"


class WorkTwice(InputError):
    """Two works under one name."""

    def __init__(self, key: str) -> None:
        super().__init__(f"`{short(key)}` is given twice. Give each work a name of its own, or take one out.")


class MinutesImpossible(InputError):
    """A work that takes less than no time, waits so, or is promised before the plan's start."""

    def __init__(self, key: str, what: str, minutes: int) -> None:
        super().__init__(
            f"{what} of `{short(key)}` is {minutes:,} min, and nothing takes less than 0 or comes before the plan "
            "starts. Check the figure and its sign."
        )


class NoSuchGoal(InputError):
    """The work whose finish is asked for is not among the works."""

    def __init__(self, goal: str, known: Sequence[str]) -> None:
        there = f"There are: {quoted(known)}." if known else "No work is given at all."
        super().__init__(f"`{short(goal)}` is to be reached and is no work here. {there}")


class HoursCrossed(InputError):
    """Hours that end before they begin, overlap, stand out of order or lie outside the plan."""

    def __init__(self, which: str, window: tuple[int, int], why: str) -> None:
        super().__init__(
            f"{which} from minute {window[0]:,} to {window[1]:,} cannot be: {why}. Give hours in order, each ending "
            "after it begins and before the next one begins."
        )


class HoursNotHisOwn(InputError):
    """A second person, or early hours, at a time when he himself does not work."""

    def __init__(self, which: str, window: tuple[int, int]) -> None:
        super().__init__(
            f"{which} from minute {window[0]:,} to {window[1]:,} lie outside his own hours, and nothing is done "
            "without him. Give only the part in which he works."
        )


class PriorityUnknown(InputError):
    """A rule that is not known."""

    def __init__(self, rule: str, known: Sequence[str]) -> None:
        super().__init__(f"`{short(rule)}` is no rule for what comes first. There are: {quoted(known)}.")


class PriorityMisshapen(InputError):
    """Not one number for each work."""

    def __init__(self, given: int, works: int) -> None:
        super().__init__(
            f"{given:,} priorities cannot order {works:,} works. Give one number for each, the smallest for the first."
        )


class TriesTooFew(InputError):
    """Less than no tries."""

    def __init__(self, trials: int) -> None:
        super().__init__(f"{trials:,} tries cannot be made. Give 0, for the rules alone, or more.")


class ChanceImpossible(InputError):
    """A chance that is none."""

    def __init__(self, key: str, chance: float) -> None:
        super().__init__(
            f"Chance {chance:g} of `{short(key)}` cannot be: it lies from 0 to 1. Write 20 % as 0.2."
        )


class SpreadOfNothing(InputError):
    """A three-point estimate for a work that is not there."""

    def __init__(self, key: str) -> None:
        super().__init__(
            f"An estimate is given for `{short(key)}`, which is no work here. Take it out, or add the work."
        )


class CannotFinish(InputError):
    """The plan does not finish within the days that are planned; the message says what is missing."""

    def __init__(self, message: str, *, key: str) -> None:
        super().__init__(message)
        self.key = key


class OwnHoursShort(CannotFinish):
    """His own hours do not suffice."""

    def __init__(self, key: str, *, short_minutes: int, horizon: int) -> None:
        super().__init__(
            f"`{short(key)}` cannot be finished: his own hours are {_told(short_minutes)} short within the "
            f"{_days(horizon)} that are planned. Give more hours, plan further ahead, or drop works.",
            key=key,
        )
        self.short_minutes = short_minutes


class SecondPersonShort(CannotFinish):
    """The second person is not there long enough."""

    def __init__(self, key: str, *, short_minutes: int, horizon: int) -> None:
        super().__init__(
            f"`{short(key)}` needs a second person, who is {_told(short_minutes)} short within the {_days(horizon)} "
            "that are planned. Find hours in which both are there.",
            key=key,
        )
        self.short_minutes = short_minutes


class NoWindowLongEnough(CannotFinish):
    """What must be done in one go fits into none of his hours."""

    def __init__(self, key: str, *, minutes: int, longest: int, two_people: bool) -> None:
        whose = "with the second person" if two_people else "of his own"
        super().__init__(
            f"`{short(key)}` takes {_told(minutes)} in one go, and the longest hours {whose} are {_told(longest)}. "
            "Keep one longer time free, or say where the work may be interrupted.",
            key=key,
        )
        self.minutes, self.longest = minutes, longest


class NoWindowLeft(CannotFinish):
    """Hours long enough for what must be done in one go are all taken, or lie before it can begin."""

    def __init__(self, key: str, *, minutes: int, two_people: bool, horizon: int) -> None:
        whose = "with the second person " if two_people else ""
        super().__init__(
            f"`{short(key)}` takes {_told(minutes)} in one go, and no hours {whose}that long are left once it can "
            f"begin within the {_days(horizon)} that are planned. Keep one more such time free, or plan further ahead.",
            key=key,
        )
        self.minutes = minutes


class DeliveryTooLate(CannotFinish):
    """A delivery or a promise after his last hours."""

    def __init__(self, key: str, *, arrives: int, horizon: int, late: str) -> None:
        super().__init__(
            f"`{short(key)}` cannot be done: `{short(late)}` waits for a delivery or a promise on day "
            f"{arrives // 1440 + 1:,}, after his last hours within the {_days(horizon)} that are planned. Plan further "
            "ahead, or find it sooner.",
            key=key,
        )
        self.late, self.arrives = late, arrives


def _days(horizon: int) -> str:
    days = -(-horizon // 1440)
    return "one day" if days == 1 else f"{days:,} days"


class SetbackBlocksNothing(InputError):
    """A setback before a work that is not there."""

    def __init__(self, key: str, before: str) -> None:
        super().__init__(
            f"`{short(key)}` is to be dealt with before `{short(before)}`, which is no work here. Name works of the "
            "plan, or leave this setback out."
        )
