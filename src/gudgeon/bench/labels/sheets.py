"""Sheets of labels: the common ones by their measures, and one of his own."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.bench.labels.errors import (
    CountOutOfRange,
    MeasuresMissing,
    NotTwoMeasures,
    PaperOutOfRange,
    SheetSaidTwice,
    SheetUnknown,
    StartUnreadable,
)
from gudgeon.calc.labels.sheet import MOST_SIDE_BY_SIDE, LabelSheet, label_sheet
from gudgeon.errors import short
from gudgeon.quantity.written import parse_amount

INCH_MM = 25.4
LEAST_SIDE_MM, MOST_SIDE_MM = 20.0, 1000.0
"""COMMON PRACTICE, no source: what a printer draws in, from a strip of labels to a roll."""
PAPERS_MM: Mapping[str, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (8.5 * INCH_MM, 11 * INCH_MM)}
"""PRINTED, by title: A4 in ISO 216, Letter in ANSI/ASME Y14.1."""


@dataclass(frozen=True, slots=True)
class CommonSheet:
    """One sheet that is sold everywhere; the name says its measures, columns × rows and width × height of a label."""

    key: str
    name: str
    paper: str
    sheet: LabelSheet


def _a4(columns: int, rows: int, width: float, height: float, gap: float = 0.0) -> CommonSheet:
    name = f"A4, {columns} × {rows}, {width:g} × {height:g} mm"
    return _common("a4", name, columns=columns, rows=rows, label_mm=(width, height), gap_mm=gap)


def _letter(columns: int, rows: int, width: float, height: float, *, gap: float, label: str) -> CommonSheet:
    name, label_mm = f"Letter, {columns} × {rows}, {label} in", (width * INCH_MM, height * INCH_MM)
    return _common("letter", name, columns=columns, rows=rows, label_mm=label_mm, gap_mm=gap * INCH_MM)


def _common(
    paper: str, name: str, *, columns: int, rows: int, label_mm: tuple[float, float], gap_mm: float
) -> CommonSheet:
    width, height = PAPERS_MM[paper]
    sheet = label_sheet(
        width_mm=width,
        height_mm=height,
        label_width_mm=label_mm[0],
        label_height_mm=label_mm[1],
        columns=columns,
        rows=rows,
        gap_across_mm=gap_mm,
    )
    return CommonSheet(_typed(name), name, paper, sheet)


def _typed(name: str) -> str:
    """A name as it is typed.

    Example:
        >>> _typed("Letter, 3 × 10, 2⅝ × 1 in"), _typed("a4-3x8-63.5x33.9")
        ('letter-3x10-2.625x1in', 'a4-3x8-63.5x33.9mm')
    """
    for sign, typed in (("⅝", ".625"), ("¾", ".75"), ("½", "0.5"), ("×", "x"), (",", "-")):
        name = name.replace(sign, typed)
    name = re.sub(r"-+", "-", re.sub(r"\s+", "", name.lower()))
    return name if name.endswith(("mm", "in")) else f"{name}mm"


COMMON = (
    _a4(3, 8, 63.5, 33.9, 2.5),
    _a4(3, 7, 63.5, 38.1, 2.5),
    _a4(2, 7, 99.1, 38.1, 2.5),
    _a4(2, 4, 99.1, 67.7, 2.5),
    _a4(5, 13, 38.1, 21.2, 2.5),
    _a4(3, 8, 70.0, 37.0),
    _letter(3, 10, 2.625, 1.0, gap=0.125, label="2⅝ × 1"),
    _letter(2, 5, 4.0, 2.0, gap=0.1875, label="4 × 2"),
    _letter(4, 20, 1.75, 0.5, gap=0.3, label="1¾ × ½"),
)
"""COMMON PRACTICE, no source: measured on sheets as shops sell them. Measure yours before the first print."""

USUAL = {"a4": COMMON[0], "letter": COMMON[6]}


@dataclass(frozen=True, slots=True)
class SheetSaid:
    """A sheet as it was asked for, all in his own words; what is empty was not said.

    `size` is the size of paper that was asked for this print, where one was: the sheet named has to be of it.
    """

    name: str = ""
    rows: str = ""
    columns: str = ""
    label: str = ""
    margins: str = ""
    gaps: str = ""
    paper: str = ""
    size: str = ""

    @property
    def own(self) -> tuple[str, ...]:
        """Which measures of a sheet of his own were said."""
        return tuple(name for name in MEASURES if getattr(self, name))


MEASURES = ("rows", "columns", "label", "margins", "gaps", "paper")


def sheet_of(said: SheetSaid, *, paper: str) -> LabelSheet:
    """The sheet that is meant: by its name, by its measures, else the usual one of his paper."""
    if said.name and said.own:
        raise SheetSaidTwice(
            f"the sheet “{short(said.name)}”", f"measures of your own ({', '.join(said.own)})"
        )
    if said.size and said.paper:
        raise SheetSaidTwice(f"{said.size} as its size", f"a paper of {short(said.paper)}")
    if said.own:
        return _own(said, paper=paper)
    if not said.name:
        return USUAL[paper].sheet
    wanted = _typed(said.name)
    found = next((one for one in COMMON if one.key in (wanted, wanted.removesuffix("mm") + "in")), None)
    if found is None:
        raise SheetUnknown(said.name, known=(f"{one.name}  ({one.key})" for one in COMMON))
    if said.size and said.size != found.paper:
        raise SheetSaidTwice(f"the sheet {found.key}", f"{said.size} as its size")
    return found.sheet


def _own(said: SheetSaid, *, paper: str) -> LabelSheet:
    given = {"rows": said.rows, "columns": said.columns, "label": said.label}
    missing = [name for name, text in given.items() if not text]
    if missing:
        raise MeasuresMissing(missing)
    width, height = _paper(said.paper) if said.paper else PAPERS_MM[paper]
    label = two_measures(said.label, what="Label")
    margins = two_measures(said.margins, what="Margins") if said.margins else (None, None)
    gaps = two_measures(said.gaps, what="Gaps") if said.gaps else (None, None)
    return label_sheet(
        width_mm=width,
        height_mm=height,
        label_width_mm=label[0],
        label_height_mm=label[1],
        columns=_count("columns", said.columns),
        rows=_count("rows", said.rows),
        left_mm=margins[0],
        top_mm=margins[1],
        gap_across_mm=gaps[0],
        gap_down_mm=gaps[1],
    )


def _paper(said: str) -> tuple[float, float]:
    sides = two_measures(said, what="Sheet")
    if not all(LEAST_SIDE_MM <= side <= MOST_SIDE_MM for side in sides):
        raise PaperOutOfRange(said, least_mm=LEAST_SIDE_MM, most_mm=MOST_SIDE_MM)
    return sides


def _count(what: str, said: str) -> int:
    if not re.fullmatch(r"\s*\d{1,4}\s*", said) or not 1 <= int(said) <= MOST_SIDE_BY_SIDE:
        raise CountOutOfRange(what, said, most=MOST_SIDE_BY_SIDE)
    return int(said)


def two_measures(said: str, *, what: str) -> tuple[float, float]:
    """Two lengths in mm of `63.5 x 33.9 mm`; the unit stands with the second, mm where there is none."""
    parts = re.split(r"\s*[xX×]\s*", said.strip())
    if len(parts) != 2 or not all(parts):
        raise NotTwoMeasures(what, said)
    second = parse_amount(parts[1], kind="length", default_unit="mm")
    first = parse_amount(parts[0], kind="length", default_unit=second.unit.symbol)
    return first.to("mm"), second.to("mm")


def start_of(said: str, sheet: LabelSheet) -> tuple[int, int]:
    """Row and column of `3,2`, or of the eighth label by `8`; the first one where nothing is said."""
    if not said.strip():
        return 1, 1
    found = re.fullmatch(r"\s*(\d{1,4})\s*(?:[,;/ ]\s*(\d{1,4})\s*)?", said)
    if found is None or int(found[1]) < 1:
        raise StartUnreadable(said)
    if found[2] is not None:
        return int(found[1]), int(found[2])
    row, column = divmod(int(found[1]) - 1, sheet.columns)
    return row + 1, column + 1
