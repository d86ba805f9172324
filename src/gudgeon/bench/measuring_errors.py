"""What is refused of a reading, one class per cause."""

from collections.abc import Sequence

from gudgeon.bench.errors import FarFromRange
from gudgeon.errors import InputError, quoted, short


class UnitsDiffer(InputError):
    """One reading in several units."""

    def __init__(self, of: str, units: Sequence[str]) -> None:
        super().__init__(
            f"Of {of} figures in {' and '.join(units)} were given. Give all of them in one unit."
        )


class BelowZero(InputError):
    """A reading below 0 of what is never below 0."""

    def __init__(self, text: str, of: str, method: str) -> None:
        super().__init__(
            f"{text} is below 0, and a {method} is not; the sheet prints no figure below 0 for {of}. Is the sign "
            "right? If it is what the gauge says, add --sure."
        )


class RepeatsApart(InputError):
    """Readings of one place that cannot be readings of one place."""

    def __init__(self, of: str, least: str, most: str) -> None:
        super().__init__(
            f"Of {of} {least} and {most} were read at one place: nine-fold apart or more. Is a digit or a unit wrong? "
            "If it is what the gauge says, add --sure."
        )


class TemperatureOut(InputError):
    """A temperature at which nobody measures."""

    def __init__(self, of: str, said: str, least: float, most: float) -> None:
        super().__init__(
            f"The temperature of the {of} cannot be {said}: what is measured by hand is between {least:.0f} and "
            f"{most:.0f} °C. Read it again."
        )


class TemperatureSlip(InputError):
    """A temperature that is likelier one of the other scale."""

    def __init__(self, of: str, said: str, otherwise: str, unit: str) -> None:
        super().__init__(
            f"The temperature of the {of} was given as {said}. Read in {unit} it would be {otherwise}. Was it read in "
            f"{unit}? If the {of} is that warm or cold, add --sure."
        )


LIKELY_SLIPS = (BelowZero, FarFromRange, RepeatsApart, TemperatureSlip)
"""What is asked back because a slip is likelier, and is kept where the person says that it is what the gauge says."""


class NoPartTemperature(InputError):
    """A gauge as warm as a part of which nobody says how warm it is."""

    def __init__(self) -> None:
        super().__init__(
            "The gauge is said to be as warm as the part, and how warm the part is was not said. Give it as well: "
            "--part-temp `24 °C`."
        )


class TemperatureOfWhat(InputError):
    """A gauge that is as warm as the part and has a temperature of its own."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"The gauge is said to be as warm as the part, and to be at {said}. Say one of both."
        )


class NotMeasured(InputError):
    """A part of which nothing is read with a gauge."""

    def __init__(self, what: str, why: Sequence[tuple[str, str]]) -> None:
        said = "; ".join(f"{name} is {reason}" for name, reason in why)
        super().__init__(f"Nothing of `{what}` is read with a gauge: {said}.")


class IntervalUnreadable(InputError):
    """A line that should be what enters and what does not."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"`{short(said)}` cannot be read. Write a value with its unit, or what enters and what does not like "
            "`0.05/0.06 mm`, or one end like `<0.05 mm` (does not enter) or `>0.05 mm` (enters)."
        )


class TableMissing(InputError):
    """A table that cannot be read."""

    def __init__(self, file: str, why: str) -> None:
        super().__init__(
            f"{file} cannot be read: {why}. Save the table as CSV in UTF-8. Nothing was recorded."
        )


class TableEmpty(InputError):
    """A table without a header."""

    def __init__(self, file: str, columns: Sequence[str]) -> None:
        super().__init__(
            f"{file} is empty. Its first line names the columns: {', '.join(columns)}. Nothing was recorded."
        )


class NothingFilled(InputError):
    """A table in which no value was filled in."""

    def __init__(self, file: str) -> None:
        super().__init__(f"{file} has no row with a value: fill in the column `value`. Nothing was recorded.")


class ColumnsUnknown(InputError):
    """A table with columns that mean nothing here, or without those that are needed."""

    def __init__(
        self, file: str, strange: Sequence[str], missing: Sequence[str], known: Sequence[str]
    ) -> None:
        said = [
            f"{'columns' if len(names) > 1 else 'column'} {words}: {quoted(names)}"
            for words, names in (("not known", strange), ("missing", missing))
            if names
        ]
        super().__init__(
            f"{file}, line 1: {'; '.join(said) or 'a column stands there twice'}. The columns are: {', '.join(known)}. "
            "Nothing was recorded."
        )


class TableTooLarge(InputError):
    """A table with more than anybody fills in."""

    def __init__(self, file: str, has: str, most: str) -> None:
        super().__init__(f"{file} has {has}; a table may have {most}. Nothing was recorded.")


class TableRefused(InputError):
    """A table in which something is wrong: all of it is said at once, and nothing is written."""

    def __init__(self, file: str, wrong: Sequence[tuple[int, int, str, str]]) -> None:
        lines = [
            f"{file}, line {line}, column {column}{f' ({name})' if name else ''}: {why}"
            for line, column, name, why in wrong
        ]
        count = "1 cell is" if len(wrong) == 1 else f"{len(wrong)} cells are"
        super().__init__("\n".join([*lines, f"{count} refused, so nothing of the table was recorded."]))


class NoFace(InputError):
    """Points of a face for something that is no face."""

    def __init__(self, name: str, method: str, methods: Sequence[str]) -> None:
        super().__init__(
            f"{name} is read by the method `{method}`: points of a face say nothing of it. Methods that take them: "
            f"{', '.join(methods)}. Nothing was recorded."
        )


class JudgedByPoints(InputError):
    """A figure for a face that only its points can judge."""

    def __init__(self, item: str, name: str) -> None:
        super().__init__(
            f"{name} is judged by the points of the face, and by no single figure: a reading of it would never be "
            f"judged. Take the points x, y, z over from a file: gudgeon measure {item} --face FILE.csv (on its page: "
            "“The face was scanned”). Nothing was recorded."
        )


class TooManyPoints(InputError):
    """More points than the book keeps of one face."""

    def __init__(self, file: str, points: int, most: int, every: int) -> None:
        super().__init__(
            f"{file} has {points:,} points; the book keeps at most {most:,} of one face. Thin them out: keep "
            f"one line in {every}, or the middle of each square of a grid. `gudgeon calc metrology.flatness` takes all "
            "of them. Nothing was recorded."
        )


class TravelTooFar(InputError):
    """Points of a face that lie further apart in height than the gauge reaches."""

    def __init__(self, name: str, travel: str, gauge: str) -> None:
        super().__init__(
            f"From the lowest to the highest the points of {name} differ by {travel}, which is more than {gauge} "
            "reaches. Is the unit right, or was it another gauge? Nothing was recorded."
        )


class FaceTooLarge(InputError):
    """Points that reach further than the face that they are said to be of."""

    def __init__(self, name: str, reach: str, across: str, hint: str) -> None:
        super().__init__(
            f"The points of {name} reach {reach} along x or y; by the sheet the face is {across} across at the "
            f"widest. {hint} If they are this face, add --sure. Nothing was recorded."
        )


class FaceTooSmall(InputError):
    """Points that lie so close together that they are hardly the face that they are said to be of."""

    def __init__(self, name: str, reach: str, across: str, hint: str) -> None:
        super().__init__(
            f"The points of {name} reach only {reach} along x and y; by the sheet the face is {across} across at "
            f"the widest. {hint} If they are this face, add --sure. Nothing was recorded."
        )
