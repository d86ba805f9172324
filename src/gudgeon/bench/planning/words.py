"""Days, hours and lengths of time in the words of a plan."""

import unicodedata
from datetime import date, datetime, timedelta

from gudgeon.bench.reason import when
from gudgeon.errors import short


def plain_words(text: str) -> str:
    """Words that somebody wrote, on one line, without signs that steer a screen, and cut where they are very long."""
    shown = "".join(" " if unicodedata.category(sign) in ("Cc", "Cf", "Cs") else sign for sign in text)
    return short(" ".join(shown.split()))


def moment_words(moment: datetime, *, now: datetime) -> str:
    """A day and an hour; the year where it is another one."""
    local = moment.astimezone()
    return when(local) if local.year == now.astimezone().year else f"{local:%a %b %d, %Y, %H:%M}"


def day_words(day: date, *, now: datetime) -> str:
    """A day; the year where it is another one."""
    return f"{day:%a %b %d}" if day.year == now.astimezone().year else f"{day:%a %b %d, %Y}"


def span_words(begins: datetime, *, ends: datetime, now: datetime) -> str:
    """From when to when; a day is named once."""
    first, last = begins.astimezone(), ends.astimezone()
    if first.date() == last.date():
        return f"{moment_words(first, now=now)} to {last:%H:%M}"
    return f"{moment_words(first, now=now)} to {moment_words(last, now=now)}"


def week_words(begins: date, *, ends: date, now: datetime) -> str:
    """A week, from its first day to its last."""
    year = "" if ends.year == now.astimezone().year else f", {ends.year}"
    return f"{begins:%b %d} to {ends:%b %d}{year}"


def hours_words(minutes: int) -> str:
    """Minutes of hands as hours and minutes."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours:,} h {rest} min" if rest else f"{hours:,} h"


def days_words(days: float) -> str:
    """A length of time by the calendar: hours below two days, else days."""
    if days < 1 / 24:
        return f"{round(days * 1440)} min"
    if days < 2:
        return f"{round(days * 24)} h"
    return f"{days:.1f}".removesuffix(".0") + " days" if days < 10 else f"{days:.0f} days"


def days_between(begins: datetime, *, ends: datetime) -> float:
    """Days of 24 hours between two moments."""
    return (ends - begins) / timedelta(days=1)


def listed(names: list[str], *, most: int = 4) -> str:
    """A few names, and how many more there are."""
    shown = ", ".join(names[:most])
    return f"{shown} and {len(names) - most} more" if len(names) > most else shown
