"""Hours of a kit: what can be planned with, and what is refused with its line and column."""

from datetime import date
from decimal import Decimal

import pytest

from gudgeon.kit.hours import ClockHours, DaysOff, week_words
from gudgeon.kit.load import parse_kit
from gudgeon.kit.model import Hours
from gudgeon.written.errors import FileWrong

KIT = """\
gudgeon: kit 1
hours:
  week:
    Saturday: [10:00-12:00, 13:00-17:00]
    Tuesday: 19:00-21:00
  second_person:
    week: {Saturday: 14:00-17:00}
  days_off: [2026-12-24, 2026-12-26 to 2027-01-02]
  late: 21:00
  pace: 1.3
"""


def hours(old: str = "", new: str = "") -> Hours:
    assert not old or KIT.count(old) == 1
    found = parse_kit(KIT.replace(old, new) if old else KIT, file="kit.yaml").kit.hours
    assert found is not None
    return found


def test_hours_are_minutes_of_the_clock_on_the_wall() -> None:
    """HAND: 19:00 is 19 · 60 = 1140 min after midnight, 21:00 is 1260, 13:00 is 780, 17:00 is 1020."""
    found = hours()
    assert found.week["Tuesday"] == (ClockHours(1140, 1260),)
    assert found.week["Saturday"] == (ClockHours(600, 720), ClockHours(780, 1020))
    assert found.second_person is not None
    assert found.second_person.week == {"Saturday": (ClockHours(840, 1020),)}
    assert found.late == 1260
    assert found.pace == Decimal("1.3")
    assert found.plannable


def test_days_off_are_days_from_the_first_to_the_last() -> None:
    """HAND: December 26 to January 2 are six days of December and two of January."""
    one, more = hours().days_off
    assert one == DaysOff(date(2026, 12, 24), date(2026, 12, 24))
    assert list(one.days()) == [date(2026, 12, 24)]
    assert len(list(more.days())) == 8


def test_a_week_is_told_in_the_order_of_its_days() -> None:
    assert week_words(hours().week) == "Tuesday 19:00–21:00; Saturday 10:00–12:00 and 13:00–17:00"


def test_a_day_may_last_until_midnight_and_hours_may_touch() -> None:
    found = hours("Tuesday: 19:00-21:00", "Tuesday: [20:00-24:00, 19:00–20:00]")
    assert found.week["Tuesday"] == (ClockHours(1200, 1440), ClockHours(1140, 1200))


def test_older_words_load_and_cannot_be_planned_with() -> None:
    text = "gudgeon: kit 1\nhours:\n  evenings: two a week\n  weekend: Saturday\n"
    found = parse_kit(text, file="kit.yaml").kit.hours
    assert found is not None
    assert (found.evenings, found.weekend, found.plannable) == ("two a week", "Saturday", False)


def test_no_hours_at_all_are_no_error() -> None:
    assert parse_kit("gudgeon: kit 1\nhours:\n", file="kit.yaml").kit.hours is None
    empty = parse_kit("gudgeon: kit 1\nhours: {days_off: []}\n", file="kit.yaml").kit.hours
    assert empty is not None
    assert not empty.plannable


REFUSED = (
    (
        "Tuesday:", "Tusday:",
        "line 5, column 5: `Tusday` is not a known day of the week here. Did you mean `Tuesday`?",
    ),
    (
        "13:00-17:00]", "11:30-17:00]",
        "line 4, column 29: Saturday: 11:30–17:00 overlaps 10:00–12:00. Write each hour of a day once.",
    ),
    (
        "19:00-21:00", "21:00-19:00",
        "line 5, column 14: Tuesday: `21:00-19:00` ends before it begins. What lies after midnight stands under the next "
        "day; a day ends at 24:00.",
    ),
    (
        "19:00-21:00", "19:00-19:00",
        "line 5, column 14: Tuesday: `19:00-19:00` ends before it begins. What lies after midnight stands under the next "
        "day; a day ends at 24:00.",
    ),
    (
        "19:00-21:00", "19:00-24:30",
        "line 5, column 14: Tuesday: `24:30` is no time of a day: it goes from 00:00 to 24:00.",
    ),
    (
        "19:00-21:00", "19:61-21:00",
        "line 5, column 14: Tuesday: `19:61` is no time of a day: it goes from 00:00 to 24:00.",
    ),
    (
        "19:00-21:00", "evening",
        "line 5, column 14: Tuesday: Hours like 19:00-21:00 were expected, `evening` was found.",
    ),
    ("late: 21:00", "late: 9 pm", "line 9, column 9: late: A time like 21:00 was expected, `9 pm` was found."),
    (
        "2026-12-26 to 2027-01-02", "2027-01-02 to 2026-12-26",
        "line 8, column 26: days_off: `2027-01-02 to 2026-12-26` ends before it begins. Write the earlier day first.",
    ),
    (
        "2026-12-26 to 2027-01-02", "2026-12-26 to 2028-01-02",
        "line 8, column 26: days_off: `2026-12-26 to 2028-01-02` is 373 days: more than a year off. Check the years.",
    ),
    (
        "[2026-12-24,", "[2026-02-30,",
        "line 8, column 14: days_off: `2026-02-30`: that day does not exist.",
    ),
    (
        "pace: 1.3", "pace: 12",
        "line 10, column 9: pace: `12` cannot be your pace: it lies from 0.2 to 5. 1.3 means that a work planned with 60 "
        "min takes you 78 min.",
    ),
    (
        "pace: 1.3", "pace: slow",
        "line 10, column 9: pace: A number like 1.3 was expected, `slow` was found. Above 1 you take longer.",
    ),
    (
        "week: {Saturday: 14:00-17:00}", "week: {Sonday: 14:00-17:00}",
        "line 7, column 12: `Sonday` is not a known day of the week here. Did you mean `Sunday`?",
    ),
)  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), REFUSED)
def test_what_cannot_be_is_refused_at_its_place(old: str, new: str, said: str) -> None:
    """HAND: from December 26, 2026 to December 25, 2027 are 365 days, and from there to January 2, 2028 eight more."""
    with pytest.raises(FileWrong) as caught:
        hours(old, new)
    assert str(caught.value).endswith(f"kit.yaml, {said}")
