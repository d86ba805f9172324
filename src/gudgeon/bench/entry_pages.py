"""The book read on, some entries at a time; and one entry whole."""

from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.entries import EntryLine, entry_line, item_names
from gudgeon.bench.record import find_entry
from gudgeon.book.entries import Entry


@dataclass(frozen=True, slots=True)
class EntryPage:
    """Entries in their order; `next` is the number of the last one, while there are more after it."""

    heading: Heading
    lines: tuple[EntryLine, ...]
    next: int | None
    head: str


@dataclass(frozen=True, slots=True)
class WholeEntry:
    """One entry as it stands in the book, and in words."""

    heading: Heading
    line: EntryLine
    entry: Entry


def entry_page(bench: Bench, *, after: int, most: int) -> EntryPage:
    """At most so many entries, from the one after a number on."""
    entries = entries_of(bench)
    names = item_names(entries)
    following = [one for one in entries if one.number > after]
    lines = tuple(entry_line(bench, one, names=names) for one in following[:most])
    return EntryPage(
        bench.heading("What was done?"),
        lines,
        lines[-1].number if len(following) > most else None,
        bench.state.head,
    )


def whole_entry(bench: Bench, said: str) -> WholeEntry:
    """The entry that is named by its number or the beginning of its id."""
    found = find_entry(bench, said)
    entries = entries_of(bench)
    one = next(entry for entry in entries if entry.id == found)
    line = entry_line(bench, one, names=item_names(entries))
    return WholeEntry(bench.heading("What was done?"), line, one)
