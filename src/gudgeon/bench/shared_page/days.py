"""How days and hours are called on a page: counted from the first day, as dates, or with the hour."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from gudgeon.bench.shared_page.choices import Choices
from gudgeon.book.entries import Entry


@dataclass(frozen=True, slots=True)
class Days:
    """The first day of the book, and what is told of a day."""

    first: date
    choices: Choices

    def day(self, one: Entry) -> str:
        """The day of an entry, by the clock of the device that wrote it."""
        moment = _moment(one)
        if self.choices.dates or self.choices.hours:
            return moment.date().isoformat()
        return f"Day {(moment.date() - self.first).days + 1}"

    def hours(self, entries: Sequence[Entry]) -> str:
        """From when to when entries of one day were written; empty where hours were not chosen."""
        if not self.choices.hours or not entries:
            return ""
        first, last = (_moment(one).strftime("%H:%M") for one in (entries[0], entries[-1]))
        return first if first == last else f"{first} to {last}"

    def now(self, moment: datetime, *, last: Entry) -> str:
        """A moment, as far as it is told, by the clock of the device that wrote the last entry."""
        moment = moment.astimezone(_moment(last).tzinfo)
        if self.choices.hours:
            return moment.strftime("%Y-%m-%d %H:%M")
        if self.choices.dates:
            return moment.date().isoformat()
        return f"day {(moment.date() - self.first).days + 1}"


def _moment(one: Entry) -> datetime:
    return datetime.fromisoformat(one.device_time)


def days_of(entries: Sequence[Entry], choices: Choices) -> Days:
    """Days counted from the first entry of the book."""
    return Days(datetime.fromisoformat(entries[0].device_time).date(), choices)
