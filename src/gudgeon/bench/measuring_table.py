"""A table of readings that was filled in elsewhere: all of it goes into the book, or nothing."""

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from gudgeon.bench.bodies import body, characteristic
from gudgeon.bench.context import Bench, entry_of
from gudgeon.bench.measuring import Spot, items_of, reading_of, sheet_of
from gudgeon.bench.measuring_errors import (
    ColumnsUnknown,
    NothingFilled,
    TableEmpty,
    TableMissing,
    TableRefused,
    TableTooLarge,
)
from gudgeon.bench.places import find_place
from gudgeon.bench.reading_body import gauge_of
from gudgeon.bench.record import Recorded, record_many
from gudgeon.bench.sent_before import ids_before, sent_before
from gudgeon.bench.warmth import warmth
from gudgeon.errors import GudgeonError, short

COLUMNS = (
    "item", "place", "value", "unit", "gauge", "condition", "part_temperature", "gauge_temperature", "repeats", "note",
)  # fmt: skip
"""The columns of a table; only `item` and `value` have to be there, in any order."""
NEEDED = ("item", "value")
MOST_ROWS = 5000
MOST_BYTES = 4 * 1024 * 1024
CONDITIONS = ("as found", "as left")


@dataclass(frozen=True, slots=True)
class Usual:
    """What counts where a row says nothing."""

    gauge: str = ""
    unit: str = ""
    condition: str = "as found"
    part_temperature: str = ""
    gauge_temperature: str = ""
    sure: bool = False


@dataclass(frozen=True, slots=True)
class Wrong:
    """What is wrong with one cell: the line of the file, the column, counted from one, its name, and why."""

    line: int
    column: int
    name: str
    why: str


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the file: its number, and its cells by the names of the columns."""

    line: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Filled:
    """What a table brought into the book: how many readings, and what is to be said."""

    readings: int
    skipped: int
    last: Recorded


def blank_table(bench: Bench, what: str, *, condition: str = "as found") -> str:
    """The table to fill in: a line for every place that is read, with gauge and unit as they were used last."""
    bench.unlock()
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    for key in items_of(bench, what):
        of = sheet_of(bench, key, condition=condition)
        for spot in of.places:
            writer.writerow([key, spot.place, "", of.unit, of.gauge, condition, "", "", "", ""])
    return text.getvalue()


def read_table(path: str | Path) -> tuple[bytes, str]:
    """The bytes of a file and its text."""
    file = Path(path).expanduser()
    try:
        if file.stat().st_size > MOST_BYTES:
            raise TableTooLarge(str(path), f"{file.stat().st_size:,} bytes", f"{MOST_BYTES:,}")
        content = file.read_bytes()
        return content, content.decode("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        why = (
            "it is no text in UTF-8"
            if isinstance(error, UnicodeDecodeError)
            else error.strerror or "not readable"
        )
        raise TableMissing(str(path), why) from None


def fill(bench: Bench, what: str, *, file: str | Path, usual: Usual) -> Filled:
    """Take over a filled table; every row is looked at first. The same file sent twice counts once."""
    bench.unlock()
    content, text = read_table(file)
    rows, columns = _rows(text, str(file))
    filled = [
        row for row in rows if row.cells.get("value", "").strip() or row.cells.get("repeats", "").strip()
    ]
    if not filled:
        raise NothingFilled(str(file))
    allowed = items_of(bench, what)
    readings, wrong = [], []
    for row in filled:
        made = list(_checked(bench, row, columns, allowed, usual))
        wrong += [one for one in made if isinstance(one, Wrong)]
        readings += [one for one in made if not isinstance(one, Wrong)]
    wrong += _twice(filled, readings, columns) if not wrong else []
    if wrong:
        raise TableRefused(str(file), [(one.line, one.column, one.name, one.why) for one in wrong])
    entry = _id(bench, content, usual)
    if entry_of(bench, entry) is not None:
        said = f"the readings of {Path(file).name}"
        remarks = sent_before(bench, bench.state, ids=[*ids_before(entry, len(readings) - 1), entry])
        return Filled(len(readings), len(rows) - len(filled), Recorded(entry, "reading", said, remarks))
    done = record_many(bench, [("reading", one) for one in readings], entry_id=entry)
    return Filled(len(readings), len(rows) - len(filled), done)


def _id(bench: Bench, content: bytes, usual: Usual) -> str:
    """The id of the last entry of a file, from its hash: those of its other rows follow from it."""
    said = f"{bench.build}\n{sha256(content).hexdigest()}\n{usual}"
    return sha256(said.encode()).hexdigest()[:32]


def _rows(text: str, file: str) -> tuple[list[Row], dict[str, int]]:
    """The lines below the header, and where each column stands, counted from one."""
    lines = text.splitlines()
    first = next((line for line in lines if line.strip()), "")
    if not first:
        raise TableEmpty(file, COLUMNS)
    mark = max((";", "\t", ","), key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark)
    header: list[str] = []
    found: list[Row] = []
    for cells in reader:
        if not any(cell.strip() for cell in cells):
            continue
        if not header:
            header = [cell.strip().lower().replace(" ", "_") for cell in cells]
            continue
        named = {name: cell.strip() for name, cell in zip(header, cells, strict=False)}
        extra = [cell for cell in cells[len(header) :] if cell.strip()]
        found.append(Row(reader.line_num, {**named, **({"": " ".join(extra)} if extra else {})}))
    columns = {name: place for place, name in enumerate(header, start=1)}
    strange = [name for name in header if name not in COLUMNS]
    missing = [name for name in NEEDED if name not in columns]
    if strange or missing or len(columns) != len(header):
        raise ColumnsUnknown(file, strange, missing, COLUMNS)
    if len(found) > MOST_ROWS:
        raise TableTooLarge(file, f"{len(found):,} rows", f"{MOST_ROWS:,}")
    return found, columns


def _checked(
    bench: Bench, row: Row, columns: Mapping[str, int], allowed: Sequence[str], usual: Usual
) -> Iterator[dict[str, Any] | Wrong]:
    """The fields of one row, or what is wrong with it: cell by cell, then all of it together."""
    wrong = list(_wrong_cells(bench, row, columns, allowed, usual))
    if wrong:
        yield from wrong
        return
    from gudgeon.book.bodies import validated

    try:
        fields = _fields(bench, row, usual)
        validated("reading", body(bench.sheet, bench.kit, kind="reading", fields=fields))
    except GudgeonError as error:
        yield Wrong(row.line, columns["value"], "value", str(error))
        return
    yield fields


def _wrong_cells(
    bench: Bench, row: Row, columns: Mapping[str, int], allowed: Sequence[str], usual: Usual
) -> Iterator[Wrong]:
    def cell(name: str) -> str:
        return row.cells.get(name, "")

    def looked(name: str, look: Any) -> Iterator[Wrong]:
        try:
            look()
        except GudgeonError as error:
            yield Wrong(row.line, columns.get(name, len(columns)), name, str(error))

    if "" in row.cells:
        yield Wrong(
            row.line, len(columns) + 1, "", f"there is more in this line than columns: `{row.cells['']}`"
        )
    items = list(looked("item", lambda: characteristic(bench.sheet, cell("item"))))
    yield from items
    if not items and cell("item") not in allowed:
        yield Wrong(
            row.line,
            columns["item"],
            "item",
            f"`{short(cell('item'))}` is none of what is read of this part with a gauge",
        )
    elif not items:
        of = bench.sheet.characteristics[cell("item")]
        yield from looked("place", lambda: find_place(of, cell("place")))
    yield from looked("gauge", lambda: gauge_of(bench.kit, cell("gauge") or usual.gauge))
    if cell("condition") and cell("condition") not in CONDITIONS:
        yield Wrong(
            row.line,
            columns["condition"],
            "condition",
            f"`{short(cell('condition'))}` is neither `as found` nor `as left`",
        )
    yield from looked("part_temperature", lambda: _warm(row, usual))


def _warm(row: Row, usual: Usual) -> dict[str, Any]:
    part, gauge = _temperatures(row, usual)
    return warmth(part, gauge=gauge, as_part=False, sure=usual.sure)


def _temperatures(row: Row, usual: Usual) -> tuple[str, str]:
    return (
        row.cells.get("part_temperature", "") or usual.part_temperature,
        row.cells.get("gauge_temperature", "") or usual.gauge_temperature,
    )


def _fields(bench: Bench, row: Row, usual: Usual) -> dict[str, Any]:
    """The fields of a reading that a row says."""
    cells = row.cells
    part, gauge = _temperatures(row, usual)
    of = bench.sheet.characteristics[cells["item"]]
    place = find_place(of, cells.get("place", ""))
    more = {
        "unit": cells.get("unit", "") or usual.unit,
        "instrument": cells.get("gauge", "") or usual.gauge,
        "condition": cells.get("condition", "") or usual.condition,
        "part_temperature": part or None,
        "gauge_temperature": gauge or None,
        "note": cells.get("note", ""),
        "sure": usual.sure,
    }
    repeats = cells.get("repeats", "")
    if not cells["value"]:
        return {"item": cells["item"], "place": place, **more, "repeats": [repeats]}
    fields = reading_of(Spot(cells["item"], place, place, ""), cells["value"], more=more)
    return {**fields, "repeats": [*fields.get("repeats", []), repeats]} if repeats else fields


def _twice(
    rows: Sequence[Row], readings: Sequence[Mapping[str, Any]], columns: Mapping[str, int]
) -> list[Wrong]:
    """Places that stand in the table twice: nobody knows which of both counts."""
    seen: dict[tuple[Any, ...], int] = {}
    found = []
    for row, one in zip(rows, readings, strict=True):
        key = (one["item"], one["place"], one["condition"])
        if key in seen:
            why = f"this place stands in line {seen[key]} already; write repeats into `repeats`"
            found.append(Wrong(row.line, columns.get("place", columns["item"]), "place", why))
        seen.setdefault(key, row.line)
    return found
