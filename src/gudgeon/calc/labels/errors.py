"""Sheets, labels and codes that cannot be; one class per cause."""

from gudgeon.errors import InputError


class SheetTooSmall(InputError):
    """Labels that stand over the edge of their sheet."""

    def __init__(self, words: str, *, needed_mm: float, has_mm: float, across: bool) -> None:
        what = ("columns", "narrower", "wide") if across else ("rows", "lower", "high")
        super().__init__(
            f"The labels do not fit: {words} take {needed_mm:.2f} mm, and the sheet is {has_mm:.2f} mm {what[2]}. "
            f"Take fewer {what[0]}, {what[1]} labels, smaller gaps, or measure the sheet again."
        )


class NoLabels(InputError):
    """A sheet without a row or without a column, or with more than anybody cuts."""

    def __init__(self, columns: int, rows: int, *, most: int) -> None:
        super().__init__(
            f"{columns} columns × {rows} rows is no sheet of labels: of each there are 1 to {most}. "
            "Count the labels side by side, and those one below the other."
        )


class LabelTooSmall(InputError):
    """A label on which a code of six signs cannot be read."""

    def __init__(self, width_mm: float, height_mm: float, *, least: tuple[float, float]) -> None:
        super().__init__(
            f"A label of {width_mm:g} × {height_mm:g} mm is too small: its code can be read from {least[0]:g} × "
            f"{least[1]:g} mm on (common practice). Take larger labels."
        )


class StartOutside(InputError):
    """A place to begin at that the sheet does not have."""

    def __init__(self, row: int, column: int, *, rows: int, columns: int) -> None:
        super().__init__(
            f"Row {row}, column {column} is not on this sheet: it has {rows} rows and {columns} columns, counted from "
            "1 at the top left. Name the row and the column of the first label that is still there."
        )


class FlagTooShort(InputError):
    """A flag whose halves hold no words once it is round its wire."""

    def __init__(
        self, *, length_mm: float, wire_mm: float, strip_mm: float, half_mm: float, least_mm: float
    ) -> None:
        left = (
            f"that leaves {half_mm:.1f} mm for each half"
            if half_mm > 0
            else "that leaves nothing for the halves"
        )
        super().__init__(
            f"A flag of {length_mm:g} mm is too short for a wire of {wire_mm:g} mm: {strip_mm:.1f} mm go round it, and "
            f"{left}; a half is {least_mm:g} mm or more, or nobody reads it (common practice). Take longer labels."
        )


class NumberTooLarge(InputError):
    """A number that no code of so many signs stands for."""

    def __init__(self, number: int, *, most: int) -> None:
        super().__init__(
            f"No code stands for {number}: the codes of five signs and a check sign run from 0 to {most}."
        )
