"""Labels that are not printed, and codes that nothing is known of; one class per cause."""

import shlex
from collections.abc import Iterable, Sequence

from gudgeon.errors import InputError, quoted, short


class NotACode(InputError):
    """Signs that cannot be a code, whatever book it is of; `near` are codes that may be meant."""

    def __init__(self, said: str, *, why: str, near: Sequence[str]) -> None:
        self.near = tuple(near)
        meant = f" It may be {_or(near)}." if near else ""
        super().__init__(
            f"“{short(said)}” is no code of a label: {why}.{meant} Read it once more, sign by sign; no 0, O, 1, I or L "
            "is ever in one."
        )


class NoSuchLabel(InputError):
    """A whole code, of which this build knows nothing; `near` are codes that may be meant."""

    def __init__(self, code: str, *, build: str, near: Sequence[str]) -> None:
        self.near = tuple(near)
        meant = f" It may be {_or(near)}." if near else ""
        super().__init__(
            f"Nothing in the book of `{build}` has the code {spaced(code)}: no sign of it is wrong by itself, so the "
            f"label is of another engine or another book.{meant} What has a label here stands under “Labels”."
        )


class LabelOfOtherBuild(InputError):
    """A code of another engine in the same book; `what` is its thing there."""

    def __init__(self, code: str, *, build: str, other: str, what: str) -> None:
        self.near = ()
        super().__init__(
            f"The code {spaced(code)} is not of `{build}`, which is open: in this book it is of `{other}`, {what}. "
            f"Do not put it on this engine. What it is there: gudgeon label {code} --build {shlex.quote(other)}"
        )


class SheetUnknown(InputError):
    """A sheet of labels by a name that none has."""

    def __init__(self, said: str, *, known: Iterable[str]) -> None:
        listed = "\n".join(f"  {one}" for one in known)
        super().__init__(
            f"No sheet of labels is called “{short(said)}” here. Known by their measures:\n{listed}\n"
            "For any other give its measures: rows, columns and the label, like 63.5 x 33.9 mm."
        )


class MeasuresMissing(InputError):
    """A sheet of his own of which not all is given that it takes."""

    def __init__(self, missing: Sequence[str]) -> None:
        super().__init__(
            f"A sheet of your own takes rows, columns and the size of a label; missing: {', '.join(missing)}. "
            "Measure a label with a rule, width × height."
        )


class SheetSaidTwice(InputError):
    """Two ways to say which sheet it is, of which only one can count."""

    def __init__(self, one: str, other: str) -> None:
        super().__init__(
            f"You named {one}, and {other}: they exclude each other. Leave one of them away. Nothing was printed."
        )


class CountOutOfRange(InputError):
    """Rows or columns that no sheet has."""

    def __init__(self, what: str, said: str, *, most: int) -> None:
        super().__init__(
            f"“{short(said)}” {what}: a sheet has a whole number of them, 1 to {most} (the limit of this program). "
            "Count the labels side by side, and those one below the other."
        )


class PaperOutOfRange(InputError):
    """A sheet that no printer draws in."""

    def __init__(self, said: str, *, least_mm: float, most_mm: float) -> None:
        super().__init__(
            f"A sheet of {short(said)} is not printed: each side is {least_mm:,.0f} to {most_mm:,.0f} mm long (common "
            "practice of printers). Measure the sheet, width × height."
        )


class NotTwoMeasures(InputError):
    """Something that should read like `63.5 x 33.9 mm`."""

    def __init__(self, what: str, said: str) -> None:
        super().__init__(
            f"{what}: “{short(said)}” is not read as two measures. Write width x height with a unit, like "
            "63.5 x 33.9 mm or 2 5/8 x 1 in."
        )


class StartUnreadable(InputError):
    """A place to begin at that is no row and column."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"“{short(said)}” is no place on a sheet. Write row and column of the first label that is still there, "
            "like 3,2; or one number, counted row by row from the top left."
        )


class NothingToLabel(InputError):
    """Nothing is left to print."""

    def __init__(self, kinds: Sequence[str], *, only: Sequence[str]) -> None:
        asked = f" of {', '.join(kinds)}" if kinds else ""
        named = f" named {quoted(only)}" if only else ""
        super().__init__(
            f"Nothing{asked}{named} is off, plugged or apart, so there is no label to print. Ask for all to have those "
            "of what is back again too."
        )


class KindUnknown(InputError):
    """A kind of thing that no label is made for."""

    def __init__(self, said: str, *, known: Iterable[str]) -> None:
        super().__init__(f"“{short(said)}” is no kind of label. Known: {', '.join(known)}.")


class NoRoomForTheNote(InputError):
    """One label that fills its sheet: nothing on it could say which book it is of."""

    def __init__(self, *, least_mm: float) -> None:
        super().__init__(
            "One label that fills its sheet leaves no room to say which engine and which book it is of. Leave a margin "
            f"of {least_mm:g} mm at one side, or take smaller labels."
        )


class TooManyLabels(InputError):
    """More than a printer should be sent at once."""

    def __init__(self, count: int, *, most: int) -> None:
        super().__init__(
            f"{count:,} labels are too many for one print, the limit of this program is {most:,}. Print one kind after "
            "the other."
        )


def spaced(code: str) -> str:
    """A code as it is read: two groups of three."""
    return f"{code[:3]} {code[3:]}"


def _or(codes: Sequence[str]) -> str:
    *some, last = [spaced(code) for code in codes]
    return f"{', '.join(some)} or {last}" if some else last
