"""The words of the bars: days, weeks, and the whole picture for somebody who does not see it."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gudgeon.bench.pictures.bars import BarRow, DrawnMark


def day_words(day: date) -> str:
    """A day as it stands in a drawing.

    Example:
        >>> day_words(date(2026, 3, 2))
        'Mar 2'
    """
    return f"{day:%b} {day.day}"


def week_title(monday: date, *, this_year: int) -> str:
    """A week by its first and last day; with the year where it is another one.

    Example:
        >>> week_title(date(2026, 3, 30), this_year=2026), week_title(date(2027, 1, 4), this_year=2026)
        ('Mar 30 – Apr 5', 'Jan 4 – 10, 2027')
    """
    sunday = monday + timedelta(days=6)
    last = str(sunday.day) if sunday.month == monday.month else day_words(sunday)
    year = f", {sunday.year}" if sunday.year != this_year else ""
    return f"{day_words(monday)} – {last}{year}"


def alternative(rows: Sequence["BarRow"], *, marks: Sequence["DrawnMark"], monday: date, days: int) -> str:
    """What the bars show: each phase with its hands and its days, each wait, and what is marked."""

    def day(number: float) -> str:
        return day_words(monday + timedelta(days=min(int(number), days - 1)))

    def between(first: float, *, last: float) -> str:
        return day(first) if day(first) == day(last) else f"{day(first)} to {day(last)}"

    said = [f"Bars over the days from {day(0)} to {day(days)}"]
    for row in rows:
        if row.bars:
            said.append(f"{row.name}: {row.said} of hands, {between(row.bars[0].day, last=row.bars[-1].day)}")
        else:
            waits = [f"{one.words}, {between(one.first, last=one.last)}" for one in row.stretches]
            said.append(f"{row.name}: {'; '.join(waits)}")
    said += [one.words for one in marks]
    return ". ".join(said) + "."
