"""A file of points, one line each: x, y, z, or whatever columns the caller names. Its unit is never guessed.

Cells stand apart by commas, semicolons, tabs or blanks. A header may say the unit (`x mm`, `x [mm]`, `x (in)`,
`x_mm`); its columns may stand in any order, and further ones are left out. Decimal commas are read where
they cannot mean anything else. Lines that begin with # are remarks.
"""

import csv
import math
import re
from array import array
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from gudgeon.errors import InputError, Place
from gudgeon.quantity.units import Unit, unit
from gudgeon.written import points_errors as refused

_NAMED = re.compile(
    r"^(?P<name>[^\W\d_]\w*?)(?:\s*[\[(]\s*(?P<bracketed>[^\])]+?)\s*[\])]|[\s_/]+(?P<behind>\S.*))?$"
)
_COMMA = re.compile(r"^[-+]?\d*,\d+(?:[eE][-+]?\d+)?$")
_THOUSANDS = re.compile(r"^[-+]?[1-9]\d{0,2},\d{3}$")
_NUMBER = re.compile(r"^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?$")
_NOT_FINITE = re.compile(r"^[-+]?(?:nan|inf|infinity)$", re.IGNORECASE)
Split = Callable[[str], list[str]]
Told = Callable[[int, int], None]
"""Is told between two pieces how many lines were read, and of how many; what it raises ends the reading."""
PIECE = 5_000
"""So many lines are read before somebody is told."""
WRITTEN = "the points"
"""What messages call points that came without a file."""


@dataclass(frozen=True, slots=True)
class Points:
    """Points in mm, all figures of one point after the other; the line of each; the unit that was understood."""

    file: str
    columns: tuple[str, ...]
    unit: str
    flat: "array[float]" = field(repr=False)
    lines: "array[int]" = field(repr=False)
    left_out: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.lines)

    def rows(self) -> Iterator[tuple[float, ...]]:
        """The figures of each point, in mm."""
        return zip(*(self.column(name) for name in self.columns), strict=True)

    def column(self, name: str) -> "array[float]":
        """The figures of one column, in mm."""
        return self.flat[self.columns.index(name) :: len(self.columns)]


def read_points(
    path: str | Path,
    *,
    columns: Sequence[str] = ("x", "y", "z"),
    unit_said: str | None = None,
    unit_else: str | None = None,
    told: Told | None = None,
) -> Points:
    """The points of a file; `unit_said` must agree with a header, `unit_else` holds where nobody says a unit."""
    file = Path(path)
    try:
        size = file.stat().st_size
        if size > refused.MOST_BYTES:
            raise refused.PointsFileTooLarge(str(path), size, refused.MOST_BYTES)
        content = file.read_bytes()
    except FileNotFoundError:
        raise refused.PointsFileMissing(str(path)) from None
    except OSError as error:
        raise refused.PointsFileUnreadable(str(path), error.strerror or type(error).__name__) from None
    text = _text_in(content, file=str(path))
    return _Reading(text, str(path), tuple(columns), unit_said, unit_else, told).points()


def points_said(
    said: str, *, columns: Sequence[str], unit_said: str | None = None, unit_else: str | None = None
) -> Points:
    """The points of the file of that name; a text of several lines holds them itself, and no file is looked for."""
    if "\n" not in said:
        return read_points(said, columns=columns, unit_said=unit_said, unit_else=unit_else)
    text = said.replace("\r\n", "\n")
    return parse_points(text, file=WRITTEN, columns=columns, unit_said=unit_said, unit_else=unit_else)


def points_in(content: bytes, *, file: str, unit_said: str | None = None, told: Told | None = None) -> Points:
    """The points of a file that was sent; `file` is what it was called."""
    if len(content) > refused.MOST_BYTES:
        raise refused.PointsFileTooLarge(file, len(content), refused.MOST_BYTES)
    return parse_points(_text_in(content, file=file), file=file, unit_said=unit_said, told=told)


def _text_in(content: bytes, *, file: str) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise refused.PointsNotUtf8(place=Place(file, line)) from None


def parse_points(
    text: str,
    *,
    file: str,
    columns: Sequence[str] = ("x", "y", "z"),
    unit_said: str | None = None,
    unit_else: str | None = None,
    told: Told | None = None,
) -> Points:
    """The points of a text; `file` is the name that messages carry."""
    return _Reading(text, file, tuple(columns), unit_said, unit_else, told).points()


class _Reading:
    """One text on its way to points."""

    def __init__(
        self,
        text: str,
        file: str,
        columns: tuple[str, ...],
        said: str | None,
        otherwise: str | None,
        told: Told | None = None,
    ) -> None:
        self.told = told
        self.file, self.columns, self.said, self.otherwise = file, columns, said, otherwise
        self.lines = text.split("\n")
        self.start = next((k for k in range(len(self.lines)) if self._holds(k)), len(self.lines))
        first = self.lines[self.start] if self.start < len(self.lines) else ""
        self.mark = next((mark for mark in (";", "\t", ",") if mark in first), None)
        self.split = self._splitter('"' in text)

    def points(self) -> Points:
        """Reads header and lines."""
        if self.start == len(self.lines):
            raise refused.PointsFileEmpty(self.columns, place=Place(self.file, 1))
        header = self._header()
        picked, width, said, left_out = self._picked(header)
        of = self._unit(said)
        if not any(self._holds(k) for k in range(self.start, len(self.lines))):
            raise refused.NoPoints(self.columns, place=Place(self.file, len(self.lines)))
        self.comma = self._has_decimal_commas(picked)
        flat, lines = self._at_once(picked, width) or self._figures(picked, width)
        self._within_reason(flat, lines, of, picked)
        if of.factor != 1:
            over, under = of.factor.numerator, of.factor.denominator
            flat = array("d", [one * over / under for one in flat])
        return Points(self.file, self.columns, of.symbol, flat, lines, left_out)

    def _holds(self, k: int) -> bool:
        line = self.lines[k].strip()
        return bool(line) and not line.startswith("#")

    def _splitter(self, quoted: bool) -> Split:
        mark = self.mark
        if quoted and mark is not None:
            return lambda line: next(csv.reader([line], delimiter=mark), [""])
        return (lambda line: line.split(mark)) if mark else str.split

    def _header(self) -> list[str] | None:
        """The names in the first line, when not one of its cells is a figure."""
        cells = [cell.strip() for cell in self.split(self.lines[self.start])]
        if any(_is_figure(cell) for cell in cells) or not any(cells):
            return None
        self.start += 1
        return cells

    def _picked(self, header: list[str] | None) -> tuple[list[int], int, tuple[str, ...], tuple[str, ...]]:
        """Where each column stands, of how many, the units said of them, and what is left out."""
        if header is None:
            return list(range(len(self.columns))), len(self.columns), (), ()
        place = Place(self.file, self.start)
        if self.mark is None and len(header) > len(self.columns):  # `x mm y mm z mm`, parted by blanks alone
            header = [f"{a} {b}" for a, b in zip(header[::2], header[1::2], strict=False)]
        found: dict[str, tuple[int, str]] = {}
        left_out = []
        for k, cell in enumerate(header):
            match = _NAMED.match(cell)
            name = match["name"].lower() if match else cell
            if match is None or name not in self.columns:
                left_out.append(cell)
                continue
            if name in found:
                raise refused.ColumnTwice(name, place=place)
            found[name] = k, (match["bracketed"] or match["behind"] or "").strip()
        for name in self.columns:
            if name not in found:
                raise refused.ColumnMissing(name, header, place=place)
        said = tuple(dict.fromkeys(found[name][1] for name in self.columns if found[name][1]))
        return [found[name][0] for name in self.columns], len(header), said, tuple(left_out)

    def _unit(self, header: tuple[str, ...]) -> Unit:
        """The one unit of all columns."""
        place = Place(self.file, max(1, self.start))
        in_header = [self._known(symbol, place) for symbol in header]
        if len({one.symbol for one in in_header}) > 1:
            raise refused.PointsUnitsDiffer([one.symbol for one in in_header], place=place)
        told = None if self.said is None else unit(self.said, kind="length")
        if in_header:
            if told is not None and told is not in_header[0]:
                raise refused.PointsUnitContradicts(in_header[0].symbol, told.symbol, place=place)
            return in_header[0]
        if told is not None:
            return told
        if self.otherwise is None:
            raise refused.PointsUnitMissing(self.columns, place=place)
        return unit(self.otherwise, kind="length")

    def _known(self, symbol: str, place: Place) -> Unit:
        try:
            return unit(symbol, kind="length")
        except InputError as error:
            error.place = place
            raise

    def _has_decimal_commas(self, picked: list[int]) -> bool:
        """Whether decimals are written with commas; refused where that is not sure."""
        body = "\n".join(self.lines[self.start :])
        if "," not in body or (self.mark == "," and '"' not in body):
            return False
        points = "." in body
        unsure: tuple[str, Place] | None = None
        sure: tuple[str, Place] | None = None
        pointed = ""
        for k, j, cell in self._cells(picked):
            if "." in cell and _NUMBER.match(cell):
                pointed = pointed or cell
            elif _COMMA.match(cell):
                here = cell, self._place(k, j)
                sure, unsure = (sure, unsure or here) if _THOUSANDS.match(cell) else (sure or here, unsure)
            found = sure or unsure
            if pointed and found:
                raise refused.DecimalSignsMixed(pointed, found[0], place=found[1])
            if sure and not points:
                return True
        if unsure and not sure:
            raise refused.CommaUnclear(unsure[0], place=unsure[1])
        return sure is not None

    def _cells(self, picked: list[int]) -> Iterator[tuple[int, int, str]]:
        for k in range(self.start, len(self.lines)):
            if k % PIECE == 0:
                self._tell(k)
            if self._holds(k):
                cells = self.split(self.lines[k])
                yield from ((k, j, cells[j].strip()) for j in picked if j < len(cells))

    def _at_once(self, picked: list[int], width: int) -> tuple["array[float]", "array[int]"] | None:
        """All figures in one go where every line is plain; a million lines take a second or two."""
        held = [k for k in range(self.start, len(self.lines)) if self._holds(k)]
        given = array("d")
        for first in range(0, len(held), PIECE):
            piece = self._piece_at_once(held[first : first + PIECE], width)
            if piece is None:
                return None
            given.extend(piece)
            self._tell(held[min(first + PIECE, len(held)) - 1] + 1)
        flat = array("d", bytes(8 * len(held) * len(picked)))
        for k, j in enumerate(picked):
            flat[k :: len(picked)] = given[j::width]
        return flat, array("L", [k + 1 for k in held])

    def _piece_at_once(self, held: list[int], width: int) -> "array[float] | None":
        body, mark = [self.lines[k] for k in held], self.mark or " "
        if {line.count(mark) for line in body} != {width - 1}:
            return None
        text = mark.join(body)
        if '"' in text or "_" in text:  # Python would take 1_000 for a number, and nobody writes it
            return None
        try:
            given = array("d", map(float, (text.replace(",", ".") if self.comma else text).split(mark)))
        except ValueError:
            return None
        return given if math.isfinite(sum(given)) else None

    def _tell(self, lines: int) -> None:
        if self.told is not None:
            self.told(lines, len(self.lines))

    def _figures(self, picked: list[int], width: int) -> tuple["array[float]", "array[int]"]:
        """The figures line by line."""
        flat, lines = array("d"), array("L")
        for k in range(self.start, len(self.lines)):
            if k % PIECE == 0:
                self._tell(k)
            if self._holds(k):
                flat.extend(self._with_care(k, picked, width))
                lines.append(k + 1)
        return flat, lines

    def _with_care(self, k: int, picked: list[int], width: int) -> list[float]:
        """The figures of a line, cell by cell, or what is wrong with it."""
        cells = self.split(self.lines[k])
        if len(cells) != width:
            place = Place(self.file, k + 1)
            if self.mark == "," and len(cells) in (2 * width, 2 * width - 1):
                raise refused.CommaInsideNumbers(len(cells), width, place=place)
            raise refused.CellsMiscounted(len(cells), width, self.columns, place=place)
        row = []
        for name, j in zip(self.columns, picked, strict=True):
            cell = cells[j].strip()
            text = cell.replace(",", ".") if self.comma else cell
            if not cell:
                raise refused.CellBlank(name, place=self._place(k, j))
            if _NOT_FINITE.match(text):
                raise refused.CellNotFinite(name, cell, place=self._place(k, j))
            if not _NUMBER.match(text):
                raise refused.CellNotNumber(name, cell, place=self._place(k, j))
            row.append(float(text))
        return row

    def _within_reason(self, flat: "array[float]", lines: "array[int]", of: Unit, picked: list[int]) -> None:
        most = refused.MOST_MM / float(of.factor)
        if max(flat) <= most and min(flat) >= -most:
            return
        which = next(k for k, one in enumerate(flat) if abs(one) > most)
        row, column = divmod(which, len(self.columns))
        place = self._place(lines[row] - 1, picked[column])
        raise refused.CellBeyondReason(self.columns[column], f"{flat[which]:g}", of.symbol, place=place)

    def _place(self, k: int, j: int) -> Place:
        """Line and column of a cell, counted from one."""
        line = self.lines[k]
        if self.mark is None:
            starts = [match.start() for match in re.finditer(r"\S+", line)]
            return Place(self.file, k + 1, starts[j] + 1)
        start = 0
        for _ in range(j):
            start = line.find(self.mark, start) + 1
        blanks = len(line[start:]) - len(line[start:].lstrip(" "))
        return Place(self.file, k + 1, start + blanks + 1)


def _is_figure(cell: str) -> bool:
    return bool(_NUMBER.match(cell) or _COMMA.match(cell) or _NOT_FINITE.match(cell))
