"""What every section is made from: the bench, and the entries of the build, struck ones too, in words."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from gudgeon.bench.closed.model import Mark, Row, Table
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.entries import EntryLine, entry_line, item_names
from gudgeon.bench.reason import written_at
from gudgeon.book.entries import Entry
from gudgeon.book.state import Struck
from gudgeon.errors import GudgeonError

Answer = TypeVar("Answer")
_ENGINE = {
    "crank": "crankshaft",
    "cams": "camshafts",
    "belt": "timing drive",
    "pins": "timing pins",
    "holder": "what holds the crankshaft",
    "followers": "followers",
}


@dataclass(frozen=True)
class Told:
    """The bench and all entries of its build, in order."""

    bench: Bench

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """Every entry of the build."""
        return entries_of(self.bench)

    @cached_property
    def numbers(self) -> Mapping[str, int]:
        """The number of each entry by its id."""
        return {one.id: one.number for one in self.entries}

    @cached_property
    def lines(self) -> Mapping[str, EntryLine]:
        """Every entry in words, by its id."""
        names = item_names(self.entries)
        return {one.id: entry_line(self.bench, one, names=names) for one in self.entries}

    def of(self, *kinds: str) -> Iterator[Entry]:
        """The entries of some kinds, struck ones too."""
        return (one for one in self.entries if one.kind in kinds)

    def standing(self, *kinds: str) -> Iterator[Entry]:
        """The entries of some kinds that nobody struck."""
        return (one for one in self.of(*kinds) if one.id not in self.bench.state.struck)

    def struck(self, one: Entry) -> Struck | None:
        """Which entry struck this one, and why."""
        return self.bench.state.struck.get(one.id)

    def row(self, one: Entry, *cells: str, mark: Mark = "") -> Row:
        """A row of one entry; where it was struck its last cell says so."""
        struck = self.struck(one)
        if struck is None:
            return Row(cells, (one.number,), mark)
        said = f"STRUCK by {struck.who}: {struck.why}"
        return Row((*cells[:-1], "; ".join(filter(None, [cells[-1], said]))), (one.number,), "struck")

    def listed(self, name: str, entries: Iterable[Entry], *, note: str = "") -> tuple[Table, ...]:
        """Entries as they are listed everywhere: the hour, who, what; no table where there is none."""
        rows = tuple(self.row(one, hour(one.device_time), one.who, self.words(one)) for one in entries)
        return (Table(name, ("When", "Who", "What the book says"), rows, note),) if rows else ()

    def words(self, one: Entry) -> str:
        """What an entry says, with the kind in front."""
        line = self.lines[one.id]
        if one.kind == "engine-state":
            parts = [f"{words} {one.body[key]}" for key, words in _ENGINE.items() if one.body.get(key)]
            return f"The engine: {', '.join(parts)}; {one.body['seen']}"
        kind = f"{line.kind[0].upper()}{line.kind[1:]}"
        return f"{kind}: {line.what}" if line.what else kind


def hour(text: str) -> str:
    """An hour as it stands in tables."""
    return written_at(text)


def asked(answer: Callable[[], Answer]) -> tuple[Answer | None, tuple[str, ...]]:
    """An answer; or nothing, and in words why there is none."""
    try:
        return answer(), ()
    except GudgeonError as error:
        return None, (error.message.splitlines()[0],)


def table(name: str, heads: tuple[str, ...], rows: Iterable[Row], *, note: str = "") -> tuple[Table, ...]:
    """A table; none where there is no row."""
    found = tuple(rows)
    return (Table(name, heads, found, note),) if found else ()
