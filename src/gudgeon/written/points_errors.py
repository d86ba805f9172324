"""What can be wrong with a file of points; one class per cause."""

from collections.abc import Sequence

from gudgeon.errors import InputError, Place, quoted, short

MOST_BYTES = 150_000_000  # two million points written with all their digits
MOST_MM = 1e6  # a kilometer: no figure of an engine, and no reading of one


class PointsFileMissing(InputError):
    """The file named is not there."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{path}: there is no such file. Check its name, and the folder it is sought from.")


class PointsFileUnreadable(InputError):
    """The file is there and cannot be read."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"{path}: cannot be read ({why}). Give a file that you may read.")


class PointsFileTooLarge(InputError):
    """Larger than any scan of a face."""

    def __init__(self, path: str, size: int, most: int) -> None:
        super().__init__(
            f"{path}: {size:,} bytes is more than the {most:,} bytes a file of points may have "
            "(about two million points). Leave out every second point."
        )


class PointsNotUtf8(InputError):
    """The bytes are no text in UTF-8."""

    def __init__(self, *, place: Place) -> None:
        super().__init__(
            "This is not text in UTF-8. Save the table as CSV in UTF-8, not as a workbook.", place=place
        )


class PointsFileEmpty(InputError):
    """Not one line."""

    def __init__(self, columns: Sequence[str], *, place: Place) -> None:
        super().__init__(
            f"The file is empty. Write one line for each point, with {_list(columns)}.", place=place
        )


class NoPoints(InputError):
    """A header and nothing below it."""

    def __init__(self, columns: Sequence[str], *, place: Place) -> None:
        super().__init__(
            f"There is a header and no point below it. Write one line for each point, with {_list(columns)}.",
            place=place,
        )


class CellBlank(InputError):
    """A figure that is not there."""

    def __init__(self, column: str, *, place: Place) -> None:
        super().__init__(
            f"{column} is blank. Give the figure that was read, or leave the whole line out.", place=place
        )


class CellNotNumber(InputError):
    """Text where a figure belongs."""

    def __init__(self, column: str, text: str, *, place: Place) -> None:
        super().__init__(
            f"{column} is `{short(text)}`, which is not a number. Write a plain number like 0.05; "
            "units stand in the header.",
            place=place,
        )


class CellNotFinite(InputError):
    """NaN or infinity, as programs write what they could not read."""

    def __init__(self, column: str, text: str, *, place: Place) -> None:
        super().__init__(
            f"{column} is `{short(text)}`, which is no reading. Give the figure that was read, or leave the "
            "whole line out.",
            place=place,
        )


class CellBeyondReason(InputError):
    """Farther away than anything that is measured."""

    def __init__(self, column: str, text: str, unit: str, *, place: Place) -> None:
        super().__init__(
            f"{column} is `{short(text)}` {unit}, and at most {MOST_MM:,.0f} mm is taken. Check the figure and "
            "the unit.",
            place=place,
        )


class CellsMiscounted(InputError):
    """A cell too many or too few."""

    def __init__(self, found: int, wanted: int, columns: Sequence[str], *, place: Place) -> None:
        cells = "1 cell" if found == 1 else f"{found} cells"
        super().__init__(
            f"{cells} where {wanted} are expected. Write {_list(columns)} on each line, parted by commas.",
            place=place,
        )


class CommaInsideNumbers(InputError):
    """Commas part the cells and the decimals too."""

    def __init__(self, found: int, wanted: int, *, place: Place) -> None:
        super().__init__(
            f"{found} cells where {wanted} are expected: is the comma a decimal sign here? It parts the cells too, so "
            "nobody can tell. Save the table with semicolons between the cells, or with decimal points.",
            place=place,
        )


class CommaUnclear(InputError):
    """A comma that may part thousands."""

    def __init__(self, text: str, *, place: Place) -> None:
        text = short(text)
        whole, _, rest = text.partition(",")
        super().__init__(
            f"`{short(text)}` can mean {whole}.{rest} or {whole}{rest}, and no other figure of the file tells. "
            "Write decimals with a point.",
            place=place,
        )


class DecimalSignsMixed(InputError):
    """Decimal points and decimal commas in one file."""

    def __init__(self, pointed: str, text: str, *, place: Place) -> None:
        super().__init__(
            f"`{short(text)}` has a decimal comma and `{short(pointed)}` a decimal point: one of them means something "
            "else. Write all decimals with a point.",
            place=place,
        )


class PointsUnitMissing(InputError):
    """Neither the header nor the person says a unit."""

    def __init__(self, columns: Sequence[str], *, place: Place) -> None:
        example = ",".join(f"{name} mm" for name in columns)
        super().__init__(
            f"No unit is said for these points, and none is guessed. Begin the file with a header like `{example}`.",
            place=place,
        )


class PointsUnitsDiffer(InputError):
    """Columns in several units."""

    def __init__(self, said: Sequence[str], *, place: Place) -> None:
        super().__init__(
            f"The header says {' and '.join(said)}: all columns have one unit. Convert the others.",
            place=place,
        )


class PointsUnitContradicts(InputError):
    """The header says otherwise than the person."""

    def __init__(self, header: str, said: str, *, place: Place) -> None:
        super().__init__(
            f"The header says {header}, but {said} is given as the unit. Give no unit, or mend the header.",
            place=place,
        )


class ColumnMissing(InputError):
    """The header has no column of that name."""

    def __init__(self, column: str, found: Sequence[str], *, place: Place) -> None:
        super().__init__(
            f"The header has no column `{column}`; it has {quoted(found)}. Name it so, "
            "or leave the header out.",
            place=place,
        )


class ColumnTwice(InputError):
    """Two columns of one name."""

    def __init__(self, column: str, *, place: Place) -> None:
        super().__init__(f"The header has two columns `{column}`. Keep one.", place=place)


def _list(columns: Sequence[str]) -> str:
    return f"{', '.join(columns[:-1])} and {columns[-1]}" if len(columns) > 1 else columns[0]
