"""A sheet from a template and a table of printed figures: the template says where each figure goes.

The figures stay in the file they were read from; a template holds none. A place of a template reads

    <row | cells>            the cell as printed, without the condition after `at`
    <row | cells | form>     the numbers and ranges printed in these cells, put into the form: `{0} mm ({1} in)`

where `row` is how the row begins and each of `cells` is a column (0 is the label), or column.part where
one cell holds several figures with ` / ` between them. The form adds what the page says elsewhere: the
unit in the heading of a column, `max` where the column holds limits.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from tests.reference import reference_file

NUMBER = re.compile(r"(?<![A-Za-z\d.])-?\d*\.?\d+(?:-\d*\.?\d+)?(?![A-Za-z\d])")
PLACE = re.compile(r"<([^<>|]+)\|([^<>|]+)(?:\|([^<>|]+))?>")
_LIST_MARKS = re.compile(r"[,;](?=\s)(?![^()]*\))")  # not those inside brackets


@dataclass(frozen=True)
class Table:
    """The rows of one file of figures; sentences of a list count as rows of one cell."""

    text: str
    prose: tuple[str, ...] = field(default=())

    @cached_property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """Every row with its cells."""
        return tuple(self._rows())

    def _rows(self) -> Iterator[tuple[str, ...]]:
        lines, heading = self.text.splitlines(), ""
        for number, line in enumerate(lines):
            if line.startswith("#"):
                heading = line.lstrip("# ")
                yield (heading,)
            elif line.startswith("|"):
                below = lines[number + 1] if number + 1 < len(lines) else ""
                if not line.startswith("|---") and not below.startswith("|---"):
                    yield tuple(cell.strip() for cell in line.strip().strip("|").split("|"))
            elif any(heading.startswith(name) for name in self.prose):
                yield from ((part.strip().rstrip("."),) for part in _LIST_MARKS.split(line))
            elif line.strip():
                yield (line.strip(),)

    def row(self, begins: str) -> tuple[str, ...]:
        """The one row that begins so."""
        found = [row for row in self.rows if row[0] == begins]
        found = found or [row for row in self.rows if row[0].startswith(begins)]
        assert len(found) == 1, f"{len(found)} rows begin with {begins!r}"
        return found[0]

    def figure(self, place: str) -> str:
        """What stands at a place of the template."""
        found = PLACE.fullmatch(place)
        assert found is not None, place
        begins, cells, form = (part.strip() if part else "" for part in found.groups())
        parts = [_part(self.row(begins), cell) for cell in cells.split()]
        if not form:
            return " ".join(parts).partition(" at ")[0]
        return form.format(*(number for part in parts for number in NUMBER.findall(part)))

    def fill(self, template: str) -> str:
        """The text of the sheet."""
        return PLACE.sub(lambda found: self.figure(found[0]), template)


def _part(row: tuple[str, ...], cell: str) -> str:
    column, _, part = cell.partition(".")
    text = row[int(column)]
    return text.split(" / ")[int(part) - 1].strip() if part else text


def places(template: str) -> tuple[str, ...]:
    """Every place of a template that takes a figure."""
    return tuple(found[0] for found in PLACE.finditer(template))


@dataclass(frozen=True)
class Manual:
    """A manual: its table of figures, what of it has no place in a sheet, and what is remarked of its clean rows."""

    name: str
    prose: tuple[str, ...]
    not_taken: Mapping[str, str]
    remarked: tuple[tuple[str, str], ...]

    @property
    def template(self) -> str:
        """Where each figure goes."""
        return (Path(__file__).parent / f"{self.name}.yaml").read_text(encoding="utf-8")

    @property
    def table(self) -> Table:
        """The figures, from the folder of check values."""
        return Table(reference_file(f"data/{self.name}.md").read_text(encoding="utf-8"), self.prose)

    def sheet(self) -> str:
        """The manual as the text of a data sheet."""
        return self.table.fill(self.template)


def taken(manual: Manual) -> set[str]:
    """The rows that have a place in the sheet, by how they begin."""
    return {manual.table.row(row_of(place))[0] for place in places(manual.template)}


def left_out(manual: Manual) -> set[str]:
    """The rows that have none, as they are named with the reason."""
    found = [row[0] for row in manual.table.rows if row[0] not in taken(manual)]
    return {next((name for name in manual.not_taken if row.startswith(name)), row) for row in found}


MANUALS = (
    Manual(
        "manual_1",
        (),
        {
            "manual_1 - ": "title",
            "Nearest to": "remark on the source",
            "Pages (": "pages of the source",
            "Service data": "heading",
            "Head, valves, camshaft": "heading",
            "Crank, rods, pistons, block": "heading",
            "Rule stated on p. 76": "a rule without a figure",
        },
        (
            # the manual prints one value for the valve clearance, and no tolerance
            ("doubt", "characteristics.valve_clearance.required"),
            ("note", "characteristics.piston_clearance.new_range"),
            ("note", "joints.head.program.1.torque"),
        ),
    ),
    Manual(
        "manual_4",
        ("Data (Table", "TM 10-3930"),
        {
            "manual_4 - ": "title",
            "Sources: ": "pages of the source",
            "Data (Table 3-3)": "heading",
            "firing order printed": "misprinted; put in as printed below, and refused",
            "Check: stage angles": "remark on the table",
            "TM 10-3930-669-20 Table E-1": "heading",
            "angle tightening alternates": "how the stages go round, without a figure of its own",
        },
        (("doubt", "characteristics.valve_clearance.required"),),
    ),
)


def row_of(place: str) -> str:
    """How the row of a place begins."""
    return place.strip("<>").partition("|")[0].strip()
