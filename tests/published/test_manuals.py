"""Two printed manuals, transcribed as data sheets: clean figures raise no error, misprinted ones do.

TM 10-3930-653-14&P (manual_1) and TM 10-4320-315-24 with TM 10-3930-669-20 (manual_4), as their figures
stand in the folder of check values beside the checkout (PRINTED). The templates in manuals/ say where each
figure goes in a sheet and hold none of their own; a row that has no place in a sheet is named here.
"""

import re
from dataclasses import dataclass

import pytest

from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.errors import InputError
from gudgeon.sheet.load import parse_sheet
from tests.published.manuals.filling import MANUALS, Manual, left_out


@dataclass(frozen=True)
class Misprint:
    """A row that the table marks as misprinted: what stands at its place instead, and what is said of it."""

    manual: str
    row: str
    place: str
    printed: str
    says: str
    path: str = ""
    """Where the error is found; empty where the sheet is refused when it is read."""


def _total(row: str, cell: str, printed: str) -> Misprint:
    """A total turn whose degree sign was read as a zero, or whose digits are wrong."""
    return Misprint(
        "manual_4", row, f"<{row} | {cell} | {{0}} deg>", f"{printed} deg", f"the stated total is {printed}°"
    )


ROD = 'new_range: "<rod bearing clearance | 1 | {0} mm ({1} in)>"'
CYLINDERS = "cylinders: <6 cylinders | 0 | {0}>"
MISPRINTS = (
    Misprint(
        "manual_1",
        "compression pressure",
        "<compression pressure | 1>",
        "11.0 kgf/cm2 (15 psi)",
        "15 psi for 156 psi: a digit 6 lost",
        "characteristics.compression.new_range",
    ),
    Misprint(
        "manual_1",
        "rod bearing clearance",
        ROD,
        f'{ROD}, wear_limit: "<rod bearing clearance | 2 | max {{0}} mm ({{1}} in)>"',
        "inside the new range",
        "characteristics.rod_clearance.wear_limit",
    ),
    Misprint(
        "manual_1",
        "camshaft end play",
        "<camshaft end play | 1 | {0} mm ({1} in)>",
        "05 to 0.28 mm",
        "downward",
    ),
    Misprint(
        "manual_4",
        "valve clearance",
        "<valve clearance | 0 | {0} mm>",
        "0.15 mm (005 in)",
        "0.15 mm is 0.0059 in; 005 in is 127.00 mm",
        "characteristics.valve_clearance.required",
    ),
    Misprint(
        "manual_4",
        "firing order printed",
        CYLINDERS,
        f"{CYLINDERS}\n  firing_order: [1, 5, 3, 6]",
        "The firing order 1-5-3-6 does not name each of 6 cylinders once",
    ),
    _total("flywheel M10x1x40", "5.1", "900"),
    _total("flywheel M10x1x50", "5.1", "900"),
    _total("cooling blower", "5", "900"),
    _total("filter carrier", "5", "600"),
    _total("filter carrier", "5", "1500"),
    _total("engine suspension", "5.2", "1050"),
)
MARKED = re.compile(r'\bprinted\b|\bOCR "')
NO_MISPRINT = {"ring end gap 2nd": "the word says where the figure of the oversize ring stands"}


def as_printed(row: Misprint) -> str:
    """The sheet with this one row as the manual has it."""
    manual = next(one for one in MANUALS if one.name == row.manual)
    assert manual.template.count(row.place) == 1
    return manual.table.fill(manual.template.replace(row.place, row.printed))


def found(text: str) -> tuple[Finding, ...]:
    """What proof-reading finds in a sheet."""
    loaded = parse_sheet(text, file="manual.yaml")
    return proofread(loaded.sheet, written=loaded.written)


@pytest.mark.parametrize("manual", MANUALS, ids=lambda manual: manual.name)
def test_the_clean_rows_raise_no_error(manual: Manual) -> None:
    raised = found(manual.sheet())
    assert [one for one in raised if one.grade == "error"] == []
    assert [(one.grade, one.path) for one in raised] == list(manual.remarked)


@pytest.mark.parametrize("manual", MANUALS, ids=lambda manual: manual.name)
def test_every_row_has_its_place_or_is_named(manual: Manual) -> None:
    """A row that was forgotten fails here, and so does one that is named although it has its place."""
    assert left_out(manual) == set(manual.not_taken)


@pytest.mark.parametrize("manual", MANUALS, ids=lambda manual: manual.name)
def test_every_row_that_is_marked_as_misprinted_is_put_in(manual: Manual) -> None:
    """The table marks such a row by what was `printed`, or by what `OCR` reads there."""
    marked = {row[0] for row in manual.table.rows if MARKED.search(" ".join(row))}
    named = {row.row for row in MISPRINTS if row.manual == manual.name} | set(NO_MISPRINT)
    assert {row for row in marked if not row.startswith(tuple(named))} == set()
    assert all(manual.table.row(row.row)[0] in marked for row in MISPRINTS if row.manual == manual.name)


@pytest.mark.parametrize("row", [row for row in MISPRINTS if row.path], ids=lambda row: row.row)
def test_a_misprinted_row_is_found(row: Misprint) -> None:
    errors = [one for one in found(as_printed(row)) if one.grade == "error"]
    assert [one.path for one in errors] == [row.path]
    assert row.says in " | ".join((errors[0].why, errors[0].digit, errors[0].agrees))


@pytest.mark.parametrize(
    "row", [row for row in MISPRINTS if not row.path], ids=lambda row: f"{row.row} {row.says}"
)
def test_a_misprinted_row_is_refused_when_the_sheet_is_read(row: Misprint) -> None:
    text = as_printed(row)
    with pytest.raises(InputError) as refused:
        found(text)
    assert row.says in str(refused.value)
