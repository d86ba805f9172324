"""His hours as they fall on real days: the week of the kit, days off, and days that the book plans otherwise.

Hours are those of the clock on the wall. Where the clocks are changed within them, they last an hour more or less, and
end when that clock says so. The rest of the plan counts minutes that really pass.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from gudgeon.bench.context import Bench
from gudgeon.bench.planning.figures import figures
from gudgeon.bench.planning.words import day_words, plain_words
from gudgeon.book.plan_state import PlannedDay
from gudgeon.calc.planning.hours import Hours
from gudgeon.kit.hours import DAY, WEEKDAYS, ClockHours, clock_hours, clock_words, off_words, week_words
from gudgeon.kit.hours import Hours as KitHours

QUARTER, MINUTE = timedelta(minutes=15), timedelta(minutes=1)
Window = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Clock:
    """Minutes of the plan, and the moments that they are."""

    start: datetime

    def at(self, minute: int) -> datetime:
        """The moment of a minute, by the clock of this machine."""
        return (self.start + timedelta(minutes=minute)).astimezone()

    def minute(self, moment: datetime) -> int:
        """The first minute of the plan that is not before a moment; 0 for what is over."""
        seconds = (moment - self.start).total_seconds()
        return max(0, -int(-seconds // 60))


@dataclass(frozen=True, slots=True)
class RealHours:
    """His hours from the start of the plan on, and whether a second person has hours at all."""

    clock: Clock
    hours: Hours
    days: int
    second_person: bool


def real_hours(bench: Bench, *, days: int) -> RealHours:
    """The hours of so many days from now on; the plan starts with the first of them."""
    kit = bench.kit.hours or KitHours()
    today = bench.now.astimezone().date()
    every = [today + timedelta(days=number) for number in range(days)]
    own_days = {day: _of_day(bench, kit, day, whose="own") for day in every}
    now = _next_quarter(bench.now.astimezone(UTC))
    own_moments = [one for day in every for one in _moments(day, own_days[day])]
    clock = Clock(_first(own_moments, now))
    own = _windows(clock, own_moments)
    other = _windows(
        clock,
        (one for day in every for one in _moments(day, _of_day(bench, kit, day, whose="second person"))),
    )
    late = kit.late
    early = (
        own
        if late is None
        else _common(
            own,
            _windows(clock, (one for day in every for one in _moments(day, _early(bench, kit, day, late)))),
        )
    )
    horizon = max(clock.minute(_moment(every[-1], DAY)), own[-1][1] if own else 0)
    both = _common(own, other)
    return RealHours(clock, Hours(tuple(own), tuple(both), tuple(early), horizon), days, bool(other))


def starts(bench: Bench, *, days: int) -> datetime:
    """When a plan that is made now starts: within his hours with the next quarter, else with his next hours."""
    kit = bench.kit.hours or KitHours()
    today, now = bench.now.astimezone().date(), _next_quarter(bench.now.astimezone(UTC))
    for number in range(days):
        day = today + timedelta(days=number)
        found = [one for one in _moments(day, _of_day(bench, kit, day, whose="own")) if one[1] > now]
        if found:
            return _first(found, now)
    return now


def _first(moments: Iterable[tuple[datetime, datetime]], now: datetime) -> datetime:
    return min((max(begins, now) for begins, ends in moments if ends > now), default=now)


def minutes_within(windows: Iterable[Window], begins: int, *, ends: int) -> int:
    """Minutes of windows between two minutes."""
    return sum(max(0, min(last, ends) - max(first, begins)) for first, last in windows)


def said_hours(bench: Bench) -> tuple[str, ...]:
    """His hours in words, as the kit and the book have them."""
    kit = bench.kit.hours or KitHours()
    found = [f"You: {week_words(kit.week)}."] if kit.plannable else []
    if kit.second_person is not None and kit.second_person.week:
        found.append(f"A second person: {week_words(kit.second_person.week)}.")
    if kit.days_off:
        found.append(f"Days off: {', '.join(off_words(one) for one in kit.days_off)}.")
    if kit.late is not None:
        found.append(
            f"No torque and no timing after {clock_words(kit.late)}, nor past midnight in hours that go on from an "
            "evening, as far as that can be."
            if _over_midnight(kit.week)
            else f"No torque and no timing after {clock_words(kit.late)}, as far as that can be."
        )
    today = bench.now.astimezone().date().isoformat()
    coming = [one for one in bench.state.plan.days.values() if one.day >= today]
    found += [_day_said(one, bench.now) for one in sorted(coming, key=lambda one: (one.day, one.whose))]
    return tuple(found)


def _over_midnight(week: Mapping[str, tuple[ClockHours, ...]]) -> bool:
    """Whether an evening of the week goes on after midnight."""
    following = zip(WEEKDAYS, (*WEEKDAYS[1:], WEEKDAYS[0]), strict=True)
    return any(
        any(one.ends == DAY for one in week.get(day, ()))
        and any(one.begins == 0 for one in week.get(then, ()))
        for day, then in following
    )


def old_words(bench: Bench) -> tuple[str, ...]:
    """Free words about his hours, which nothing can be planned with."""
    kit = bench.kit.hours
    return tuple(plain_words(one) for one in (kit.evenings, kit.weekend) if one) if kit is not None else ()


def planned_hours(day: PlannedDay) -> tuple[ClockHours, ...]:
    """The hours that the book says of a day; what is no time of a day counts as nothing."""
    found = []
    for text in day.hours:
        try:
            found.append(clock_hours(text))
        except ValueError:
            continue
    return tuple(found)


def _day_said(day: PlannedDay, now: datetime) -> str:
    whose = "" if day.whose == "own" else " for the second person"
    hours = " and ".join(str(one) for one in planned_hours(day)) or "no hours"
    why = f" ({plain_words(day.why)})" if day.why else ""
    return f"{day_words(date.fromisoformat(day.day), now=now)}{whose}: {hours}{why}."


def _of_day(bench: Bench, kit: KitHours, day: date, *, whose: str) -> Sequence[ClockHours]:
    """The hours of one day: what the book says of it, else none on a day off, else those of the week."""
    said = bench.state.plan.days.get((whose, day.isoformat()))
    if said is not None:
        return planned_hours(said)
    if any(off.first <= day <= off.last for off in kit.days_off):
        return ()
    week: Mapping[str, tuple[ClockHours, ...]] = kit.week
    if whose != "own":
        week = kit.second_person.week if kit.second_person is not None else {}
    return week.get(WEEKDAYS[day.weekday()], ())


def _early(bench: Bench, kit: KitHours, day: date, late: int) -> Sequence[ClockHours]:
    """The hours of a day before it is late: what goes on over midnight from an evening is late until the morning."""
    begins = 0
    if any(one.ends == DAY for one in _of_day(bench, kit, day - timedelta(days=1), whose="own")):
        night = time.fromisoformat(figures().morning)
        today = _of_day(bench, kit, day, whose="own")
        begins = min(
            max((one.ends for one in today if one.begins == 0), default=0), 60 * night.hour + night.minute
        )
    return (ClockHours(begins, late),) if begins < late else ()


def _moment(day: date, minutes: int) -> datetime:
    """A time of a day by the clock on the wall of this machine; one that it leaves out is when it is set forward."""
    wall = datetime.combine(day, time()) + timedelta(minutes=minutes)
    found = wall.astimezone(UTC)
    if found.astimezone().replace(tzinfo=None) == wall:
        return found
    first, last = sorted((found, wall.replace(fold=1).astimezone(UTC)))
    before = first.astimezone().utcoffset()
    while last - first > MINUTE:
        middle = first + (last - first) // 2
        first, last = (middle, last) if middle.astimezone().utcoffset() == before else (first, middle)
    return last.replace(second=0, microsecond=0)


def _moments(day: date, hours: Iterable[ClockHours]) -> Iterator[tuple[datetime, datetime]]:
    for one in hours:
        begins, ends = _moment(day, one.begins), _moment(day, one.ends)
        if begins < ends:  # an hour that the change of clocks leaves out is none
            yield begins, ends


def _next_quarter(now: datetime) -> datetime:
    """The next full quarter of an hour: within it the same book gives the same plan."""
    whole = now.replace(minute=0, second=0, microsecond=0)
    return whole - QUARTER * (-(now - whole) // QUARTER)


def _windows(clock: Clock, moments: Iterable[tuple[datetime, datetime]]) -> list[Window]:
    """Windows in minutes of the plan, in order; what overlaps or touches is one."""
    found: list[Window] = []
    for begins, ends in sorted(moments):
        if ends <= clock.start:
            continue
        start, end = clock.minute(begins), clock.minute(ends)
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        elif start < end:
            found.append((start, end))
    return found


def _common(some: Sequence[Window], others: Sequence[Window]) -> list[Window]:
    """What lies in both."""
    found: list[Window] = []
    at = other = 0
    while at < len(some) and other < len(others):
        start, end = max(some[at][0], others[other][0]), min(some[at][1], others[other][1])
        if start < end:
            found.append((start, end))
        if some[at][1] <= others[other][1]:
            at += 1
        else:
            other += 1
    return found
