"""Where each label stands on its sheet."""

from dataclasses import dataclass

from gudgeon.calc.errors import not_negative, positive
from gudgeon.calc.labels.errors import NoLabels, SheetTooSmall, StartOutside

MOST_SIDE_BY_SIDE = 50
_ROUNDING_MM = 0.01


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle, by its left and upper edge from those of what it stands on."""

    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A sheet of equal labels; left and top margin and the gaps are all known."""

    width_mm: float
    height_mm: float
    label_width_mm: float
    label_height_mm: float
    columns: int
    rows: int
    left_mm: float
    top_mm: float
    gap_across_mm: float
    gap_down_mm: float

    @property
    def right_mm(self) -> float:
        """What is free right of the last column."""
        used = self.columns * self.label_width_mm + (self.columns - 1) * self.gap_across_mm
        return self.width_mm - self.left_mm - used

    @property
    def bottom_mm(self) -> float:
        """What is free below the last row."""
        used = self.rows * self.label_height_mm + (self.rows - 1) * self.gap_down_mm
        return self.height_mm - self.top_mm - used


@dataclass(frozen=True, slots=True)
class LabelPlace:
    """Where one label stands: sheet, row and column from 1, and its left and upper edge on the sheet."""

    sheet: int
    row: int
    column: int
    left_mm: float
    top_mm: float


@dataclass(frozen=True, slots=True)
class _Line:
    """Labels along one side of the sheet."""

    count: int
    label_mm: float
    sheet_mm: float
    across: bool


def label_sheet(
    *,
    width_mm: float,
    height_mm: float,
    label_width_mm: float,
    label_height_mm: float,
    columns: int,
    rows: int,
    left_mm: float | None = None,
    top_mm: float | None = None,
    gap_across_mm: float | None = None,
    gap_down_mm: float | None = None,
) -> LabelSheet:
    """A sheet by its measures; what is not given follows from the sheet being the same at both sides.

    Equation:
        2 · margin + n · label + (n − 1) · gap = sheet, along each side. Where the margin alone is given it gives the
        gap, 0 at least; where the gap alone is given, or neither (gap 0), it gives the margin; where both are, what
        is left over stands at the other side

    Parameters:
        width_mm: width of the sheet [mm]
        height_mm: height of the sheet [mm]
        label_width_mm: width of a label [mm]
        label_height_mm: height of a label [mm]
        columns: labels side by side [1]
        rows: labels one below the other [1]
        left_mm: margin left of the first column [mm]
        top_mm: margin above the first row [mm]
        gap_across_mm: between two columns [mm]
        gap_down_mm: between two rows [mm]

    Returns:
        the sheet with all its measures [mm]

    Valid for:
        1 to 50 columns and rows of equal labels

    Source:
        HAND: the measures along one side add up to it

    Example:
        >>> made = label_sheet(width_mm=210, height_mm=297, label_width_mm=63.5, label_height_mm=33.9, columns=3,
        ...     rows=8, gap_across_mm=2.5)
        >>> round(made.left_mm, 2), round(made.top_mm, 2)
        (7.25, 12.9)

    Not covered:
        labels of several sizes on one sheet; how far a printer shifts the page
    """
    if not (1 <= columns <= MOST_SIDE_BY_SIDE and 1 <= rows <= MOST_SIDE_BY_SIDE):
        raise NoLabels(columns, rows, most=MOST_SIDE_BY_SIDE)
    positive(width_mm, "Width of the sheet", unit="mm")
    positive(height_mm, "Height of the sheet", unit="mm")
    positive(label_width_mm, "Width of a label", unit="mm")
    positive(label_height_mm, "Height of a label", unit="mm")
    left, across = _shared(
        _Line(columns, label_width_mm, width_mm, across=True), margin=left_mm, gap=gap_across_mm
    )
    top, down = _shared(_Line(rows, label_height_mm, height_mm, across=False), margin=top_mm, gap=gap_down_mm)
    return LabelSheet(
        width_mm, height_mm, label_width_mm, label_height_mm, columns, rows, left, top, across, down
    )


def _shared(line: _Line, *, margin: float | None, gap: float | None) -> tuple[float, float]:
    """Margin and gap along one side; refused where the labels stand over the edge."""
    between = line.count - 1
    if margin is not None:
        not_negative(margin, "Margin of the sheet", unit="mm")
    if gap is not None:
        not_negative(gap, "Gap between two labels", unit="mm")
    elif margin is not None and between:
        gap = max(0.0, (line.sheet_mm - 2 * margin - line.count * line.label_mm) / between)
    gap = gap if gap is not None and between else 0.0
    used = line.count * line.label_mm + between * gap
    if (margin or 0.0) + used > line.sheet_mm + _ROUNDING_MM:
        raise SheetTooSmall(
            _words(line, margin=margin, gap=gap),
            needed_mm=(margin or 0.0) + used,
            has_mm=line.sheet_mm,
            across=line.across,
        )
    return (max(0.0, (line.sheet_mm - used) / 2) if margin is None else margin), gap


def _words(line: _Line, *, margin: float | None, gap: float) -> str:
    word = ("column" if line.across else "row") + ("" if line.count == 1 else "s")
    parts = [f"{line.count} {word} of {line.label_mm:g} mm"]
    if gap:
        parts.append(f"{line.count - 1} gap{'' if line.count == 2 else 's'} of {gap:g} mm")
    if margin:
        parts.append(f"a {'left' if line.across else 'top'} margin of {margin:g} mm")
    return " and ".join([", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)


def places(sheet: LabelSheet, *, count: int, row: int = 1, column: int = 1) -> tuple[LabelPlace, ...]:
    """Where so many labels stand, row by row from the first one that is still there, on as many sheets as it takes.

    Equation:
        left + (column − 1) · (label width + gap), top + (row − 1) · (label height + gap)

    Parameters:
        sheet: with all its measures
        count: how many labels [1]
        row: of the first label, from the top [1]
        column: of the first label, from the left [1]

    Returns:
        the places; only the first sheet is a part-used one [mm]

    Valid for:
        a start on the sheet

    Source:
        HAND: counted along the rows

    Example:
        >>> sheet = label_sheet(width_mm=100, height_mm=50, label_width_mm=50, label_height_mm=25, columns=2, rows=2)
        >>> [(one.sheet, one.row, one.column, one.left_mm) for one in places(sheet, count=3, row=2)]
        [(1, 2, 1, 0.0), (1, 2, 2, 50.0), (2, 1, 1, 0.0)]

    Not covered:
        single labels missing in the middle of a sheet
    """
    if not (1 <= row <= sheet.rows and 1 <= column <= sheet.columns):
        raise StartOutside(row, column, rows=sheet.rows, columns=sheet.columns)
    begun = (row - 1) * sheet.columns + column - 1
    found = []
    for number in range(begun, begun + count):
        page, on_it = divmod(number, sheet.rows * sheet.columns)
        down, across = divmod(on_it, sheet.columns)
        found.append(
            LabelPlace(
                page + 1,
                down + 1,
                across + 1,
                sheet.left_mm + across * (sheet.label_width_mm + sheet.gap_across_mm),
                sheet.top_mm + down * (sheet.label_height_mm + sheet.gap_down_mm),
            )
        )
    return tuple(found)
