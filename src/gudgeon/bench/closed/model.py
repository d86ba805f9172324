"""The answer “What was done?” as one book to hand over: sections of sentences, tables, drawings and photos."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from gudgeon.bench.answer import Heading
from gudgeon.bench.pattern import Pattern
from gudgeon.bench.pictures.cut import CutPicture
from gudgeon.bench.pictures.drive import DrivePicture
from gudgeon.bench.pictures.events import EventsPicture
from gudgeon.bench.pictures.of import Picture

Drawn: TypeAlias = "Picture | CutPicture | DrivePicture | EventsPicture | BoltsPicture"
Mark = Literal["", "group", "struck", "doubt", "outside"]
"""What a row is besides: the name of those below it; struck; in doubt; outside, let pass, or against a gate."""


@dataclass(frozen=True, slots=True)
class BoltsPicture:
    """The bolts of one joint as they stand."""

    name: str
    pattern: Pattern


@dataclass(frozen=True, slots=True)
class Row:
    """One row; `entries` are the numbers of the entries that it was made of."""

    cells: tuple[str, ...]
    entries: tuple[int, ...] = ()
    mark: Mark = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A table with its name and the heads of its columns; `note` says how it is read."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[Row, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """One section. `missing` says in words what the book does not hold of it."""

    key: str
    title: str
    said: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    missing: tuple[str, ...] = ()
    pictures: tuple[Drawn, ...] = ()

    @property
    def entries(self) -> frozenset[int]:
        """The numbers of all entries that stand in it."""
        return frozenset(number for table in self.tables for row in table.rows for number in row.entries)


@dataclass(frozen=True, slots=True)
class PinPlace:
    """A pin of a photo: its number, its place in thousandths of the picture, and its words."""

    number: int
    x: int
    y: int
    words: str


@dataclass(frozen=True, slots=True)
class PhotoShown:
    """One photo as it stands in the book: what it shows, by whom and when, its pins; `wrong` with its file."""

    number: int
    sha: str
    width: int
    height: int
    caption: str
    said: tuple[str, ...]
    pins: tuple[PinPlace, ...]
    wrong: str
    struck: str


@dataclass(frozen=True, slots=True)
class OpenGroup:
    """What is open of one family, each thing with why."""

    family: str
    things: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ClosedBook:
    """The whole book. `open` is what is open before it is handed over: while it is not empty, nothing is closed.

    `checker` are the lines of the program that checks an archive of the book, and `head` is what it compares.
    """

    heading: Heading
    closed: bool
    lead: str
    open: tuple[OpenGroup, ...]
    sections: tuple[Section, ...]
    photos: tuple[PhotoShown, ...]
    photos_missing: tuple[str, ...]
    entries: int
    head: str
    checker: tuple[str, ...]

    @property
    def open_things(self) -> int:
        """How many things are open."""
        return sum(len(one.things) for one in self.open)
