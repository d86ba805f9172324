"""What a shared page is made of: days, steps, tables, drawings, photos, and the evidence behind it."""

from dataclasses import dataclass
from typing import TypeAlias

from gudgeon.bench.answer import Heading
from gudgeon.bench.pattern import Pattern
from gudgeon.bench.pictures.cut import CutPicture
from gudgeon.bench.pictures.of import Picture

Drawn: TypeAlias = Picture | Pattern | CutPicture


@dataclass(frozen=True, slots=True)
class Rows:
    """A table: what it shows, its columns, and a row for each place or bolt."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class SharedPin:
    """A numbered place on a photo, in thousandths of its width and height, with what is there."""

    number: int
    x: int
    y: int
    text: str


@dataclass(frozen=True, slots=True)
class SharedPhoto:
    """A photo that was chosen: its hash in the book, what it shows, its pins; and all of it in words."""

    sha: str
    number: int
    caption: str
    pins: tuple[SharedPin, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Step:
    """One thing that was done, or several alike one after another.

    `numbers` are those of the entries, `facts` pairs of what and how (tool, figure, source), `words` what he wrote
    himself where that was chosen, `people` who did it where names were chosen, `hours` from when to when.
    """

    numbers: tuple[int, ...]
    what: str
    facts: tuple[tuple[str, str], ...] = ()
    rows: Rows | None = None
    words: tuple[str, ...] = ()
    people: str = ""
    photo: SharedPhoto | None = None
    drawn: Drawn | None = None
    hours: str = ""

    @property
    def entries(self) -> str:
        """The numbers of its entries in words; empty where it was worked out."""
        if not self.numbers:
            return ""
        first, last = self.numbers[0], self.numbers[-1]
        if first == last:
            return f"entry {first}"
        if last - first + 1 == len(self.numbers):
            return f"entries {first} to {last}"
        return f"{len(self.numbers)} entries, {first} to {last}"


@dataclass(frozen=True, slots=True)
class Day:
    """The steps of one day, in the order in which they happened; how the day is called depends on what was chosen."""

    when: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Evidence:
    """What stands behind a page: how many entries, of how many in the book, and the hashes to hold it against."""

    entries: int
    of: int
    when: str
    head: str
    sheet: str
    kit: str


@dataclass(frozen=True, slots=True)
class SharedPage:
    """The answer: what was done, with what, by which figure, what was found and proved, and what was left out.

    `heading` is for the terminal alone: it names the build, which no shared page does.
    """

    heading: Heading
    title: str
    engine: str
    notice: str
    found: tuple[str, ...]
    cautions: tuple[str, ...]
    days: tuple[Day, ...]
    sources: tuple[str, ...]
    evidence: Evidence
    inside: tuple[str, ...]
    left_out: tuple[str, ...]

    @property
    def steps(self) -> tuple[Step, ...]:
        """Every step of every day."""
        return tuple(step for day in self.days for step in day.steps)

    @property
    def photos(self) -> tuple[SharedPhoto, ...]:
        """The photos that were chosen."""
        return tuple(step.photo for step in self.steps if step.photo is not None)
