"""Two printed manuals, transcribed as data sheets: clean figures raise no error, misprinted ones do.

TM 10-3930-653-14&P (manual_1) and TM 10-4320-315-24 with TM 10-3930-669-20 (manual_4), as their figures
stand in the folder of check values beside the checkout (PRINTED). The templates in manuals/ say where each
figure goes in a sheet and hold none of their own; a row that has no place in a sheet is named here.
"""

from dataclasses import dataclass

import pytest

from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.errors import InputError
from gudgeon.sheet.load import parse_sheet
from tests.published.manuals.filling import MANUALS, Manual, left_out


@dataclass(frozen=True)
class Misprint:
    """A row as it was printed: what stands in the sheet instead of what, and what is said of it."""

    manual: str
    clean: str
    printed: str
    says: str


MISPRINTS = (
    Misprint("manual_1", '11.0 kgf/cm2"', '11.0 kgf/cm2 (15 psi)"', "a digit 6 lost"),
    Misprint(
        "manual_1",
        'new_range: "0.01-0.066 mm (0.0004-0.0026 in)"',
        'new_range: "0.01-0.066 mm (0.0004-0.0026 in)", wear_limit: max 0.03 mm (0.0012 in)',
        "inside the new range",
    ),
    Misprint("manual_4", 'required: "0.15 mm"', 'required: "0.15 mm (005 in)"', "5 in"),
)
REFUSED = (
    Misprint("manual_4", 'total_turn: "105 deg"', 'total_turn: "1050 deg"', "1050"),
    Misprint("manual_4", 'total_turn: "150 deg"', 'total_turn: "600 deg"', "600"),
    Misprint("manual_4", "  cylinders: 6\n", "  cylinders: 6\n  firing_order: [1, 5, 3, 6]\n", "1-5-3-6"),
)


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


@pytest.mark.parametrize("row", MISPRINTS, ids=lambda row: row.printed)
def test_a_misprinted_row_is_found(row: Misprint) -> None:
    clean = next(one for one in MANUALS if one.name == row.manual).sheet()
    assert clean.count(row.clean) >= 1
    raised = found(clean.replace(row.clean, row.printed, 1))
    assert any(row.says in (one.why + one.digit + one.agrees) and one.grade != "note" for one in raised), (
        raised
    )


@pytest.mark.parametrize("row", REFUSED, ids=lambda row: row.printed)
def test_a_misprinted_row_is_refused_when_the_sheet_is_read(row: Misprint) -> None:
    clean = next(one for one in MANUALS if one.name == row.manual).sheet()
    assert clean.count(row.clean) >= 1
    with pytest.raises(InputError, match=row.says):
        found(clean.replace(row.clean, row.printed, 1))
