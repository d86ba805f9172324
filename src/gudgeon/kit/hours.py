"""His hours: the week, days off, when it is late for torque and timing, a second person, and how fast he is."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal, InvalidOperation
from itertools import pairwise
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator, WithJsonSchema

from gudgeon.written.check import unknown
from gudgeon.written.fields import Section, Text, refuse
from gudgeon.written.located import Path

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
DAY = 1440
SLOWEST, FASTEST = Decimal(5), Decimal("0.2")
LONGEST_OFF = 366
"""A row of days off that is longer is a slip of the year."""

_WINDOW = re.compile(r"(\d{1,2}:\d\d)\s*(?:-|–|to)\s*(\d{1,2}:\d\d)")
_SPAN = re.compile(r"(\d{4}-\d\d-\d\d)(?:\s*(?:to|–)\s*(\d{4}-\d\d-\d\d))?")


@dataclass(frozen=True, slots=True)
class ClockHours:
    """Hours of one day by the clock on the wall, in minutes since midnight."""

    begins: int
    ends: int

    def __str__(self) -> str:
        return f"{clock_words(self.begins)}–{clock_words(self.ends)}"


@dataclass(frozen=True, slots=True)
class DaysOff:
    """Days on which nobody works, from the first to the last."""

    first: date
    last: date

    def days(self) -> Iterator[date]:
        """Each of them."""
        for number in range((self.last - self.first).days + 1):
            yield self.first + timedelta(days=number)


def clock_words(minutes: int) -> str:
    """Minutes since midnight as a clock shows them."""
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def clock_minutes(text: str) -> int:
    """Minutes since midnight of `19:30`; midnight at the end of a day is `24:00`."""
    hours, minutes = (int(part) for part in text.split(":"))
    if minutes > 59 or hours * 60 + minutes > DAY:
        raise refuse(f"`{text}` is no time of a day: it goes from 00:00 to 24:00.")
    return hours * 60 + minutes


def clock_hours(value: Any) -> ClockHours:
    """Hours like `19:00-21:00`."""
    if isinstance(value, ClockHours):
        return value
    found = _WINDOW.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None:
        raise refuse(f"Hours like 19:00-21:00 were expected, {_shown(value)} was found.")
    begins, ends = clock_minutes(found[1]), clock_minutes(found[2])
    if ends <= begins:
        raise refuse(
            f"`{value}` ends before it begins. What lies after midnight stands under the next day; a day ends at 24:00."
        )
    return ClockHours(begins, ends)


def _one_or_more(value: Any) -> Any:
    """One time may stand without a list around it."""
    return [value] if isinstance(value, str | ClockHours) else value


def _late(value: Any) -> int:
    if isinstance(value, int):
        return value
    if not (isinstance(value, str) and re.fullmatch(r"\d{1,2}:\d\d", value.strip())):
        raise refuse(f"A time like 21:00 was expected, {_shown(value)} was found.")
    return clock_minutes(value.strip())


def _days_off(value: Any) -> DaysOff:
    if isinstance(value, DaysOff):
        return value
    found = _SPAN.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None:
        raise refuse(
            f"A day like 2026-12-24, or days like 2026-12-26 to 2027-01-02, were expected, {_shown(value)} was found."
        )
    try:
        first, last = date.fromisoformat(found[1]), date.fromisoformat(found[2] or found[1])
    except ValueError:
        raise refuse(f"`{value}`: that day does not exist.") from None
    if last < first:
        raise refuse(f"`{value}` ends before it begins. Write the earlier day first.")
    if (last - first).days >= LONGEST_OFF:
        raise refuse(f"`{value}` is {(last - first).days + 1:,} days: more than a year off. Check the years.")
    return DaysOff(first, last)


def _pace(value: Any) -> Decimal:
    try:
        found = Decimal(str(value).strip())
    except InvalidOperation:
        found = Decimal("NaN")
    if not found.is_finite():
        raise refuse(f"A number like 1.3 was expected, {_shown(value)} was found. Above 1 you take longer.")
    if not FASTEST <= found <= SLOWEST:
        raise refuse(
            f"`{value}` cannot be your pace: it lies from {FASTEST} to {SLOWEST}. 1.3 means that a work planned with "
            "60 min takes you 78 min."
        )
    return found


def _shown(value: Any) -> str:
    if value is None or value == "":
        return "nothing"
    return f"`{value}`" if isinstance(value, str | int | float) else "something else"


HourText = Annotated[
    ClockHours,
    PlainValidator(clock_hours),
    WithJsonSchema({"type": "string", "pattern": _WINDOW.pattern, "examples": ["19:00-21:00"]}),
]
_ONE_DAY = {"type": "string", "examples": ["19:00-21:00"]}
DayHours = Annotated[
    tuple[HourText, ...],
    BeforeValidator(_one_or_more),
    WithJsonSchema({"anyOf": [_ONE_DAY, {"type": "array", "items": _ONE_DAY}]}),
]
Week = dict[Text, DayHours]
OffText = Annotated[
    DaysOff,
    PlainValidator(_days_off),
    WithJsonSchema({"type": "string", "examples": ["2026-12-24", "2026-12-26 to 2027-01-02"]}),
]
ClockText = Annotated[int, PlainValidator(_late), WithJsonSchema({"type": "string", "examples": ["21:00"]})]
Pace = Annotated[
    Decimal, PlainValidator(_pace), WithJsonSchema({"type": ["number", "string"], "examples": [1, 1.3]})
]


class SecondPerson(Section):
    """When somebody else can be there too, for what two people do."""

    week: Week = Field(default_factory=dict)


class Hours(Section):
    """When there is time for the engine.

    `late` is the hour after which torque and timing wait for another day, `pace` how his minutes compare with planned
    ones. `evenings` and `weekend` are older: free words, by which nothing can be planned.
    """

    week: Week = Field(default_factory=dict)
    second_person: SecondPerson | None = None
    days_off: tuple[OffText, ...] = Field(default=())
    late: ClockText | None = None
    pace: Pace | None = None
    evenings: Text | None = None
    weekend: Text | None = None

    @property
    def plannable(self) -> bool:
        """Whether anything can be planned by them."""
        return any(self.week.values())


def problems(hours: Hours | None) -> Iterator[tuple[Path, str, bool]]:
    """What well-formed hours get wrong: where, what, and whether it is the key that is wrong."""
    if hours is None:
        return
    yield from _week(hours.week, path=("hours", "week"))
    if hours.second_person is not None:
        yield from _week(hours.second_person.week, path=("hours", "second_person", "week"))


def _week(week: Week, *, path: Path) -> Iterator[tuple[Path, str, bool]]:
    for day, hours in week.items():
        if day not in WEEKDAYS:
            yield (*path, day), unknown("day of the week", value=day, known=WEEKDAYS), True
        in_order = sorted(enumerate(hours), key=lambda one: (one[1].begins, one[1].ends))
        for (_, before), (number, one) in pairwise(in_order):
            if one.begins < before.ends:
                yield (
                    (*path, day, number),
                    f"{day}: {one} overlaps {before}. Write each hour of a day once.",
                    False,
                )


def off_words(off: DaysOff) -> str:
    """Days off in words."""
    return f"{off.first}" if off.first == off.last else f"{off.first} to {off.last}"


def week_words(week: Mapping[str, tuple[ClockHours, ...]]) -> str:
    """A week in words: the days in their order, each with its hours."""
    return "; ".join(
        f"{day} {' and '.join(str(one) for one in week[day])}" for day in WEEKDAYS if week.get(day)
    )
