"""The two families of errors that a person may meet; anything else is a bug of ours.

Each cause has a class of its own, built from facts, that writes its whole message:
what was refused, the value, the limit and where it comes from, what to do.
"""

from collections.abc import Sequence
from dataclasses import dataclass

LONGEST_QUOTED = 60
"""So much is shown of what was refused: a cell may be a whole file."""
MOST_NAMED = 12


def short(text: str) -> str:
    """A text as a message quotes it, cut where it is long.

    Example:
        >>> short("0.05 mm"), short("0" * 1000)[-3:]
        ('0.05 mm', '00…')
    """
    return text if len(text) <= LONGEST_QUOTED else f"{text[: LONGEST_QUOTED - 1]}…"


def quoted(names: Sequence[str]) -> str:
    """Names as a message lists them; of very many the first ones and how many more there are."""
    listed = ", ".join(f"`{short(one)}`" for one in names[:MOST_NAMED])
    return f"{listed} and {len(names) - MOST_NAMED:,} more" if len(names) > MOST_NAMED else listed


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a file a value stands; line and column count from one."""

    file: str
    line: int | None = None
    column: int | None = None

    def __str__(self) -> str:
        parts = [self.file]
        if self.line is not None:
            parts.append(f"line {self.line}")
        if self.column is not None:
            parts.append(f"column {self.column}")
        return ", ".join(parts)


class GudgeonError(Exception):
    """Something was refused, and the message says what to do."""

    def __init__(self, message: str, *, place: Place | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.place = place

    def __str__(self) -> str:
        return self.message if self.place is None else f"{self.place}: {self.message}"


class InputError(GudgeonError):
    """The person can mend it: a file, an argument, a value."""


class RecordError(GudgeonError):
    """The history of the engine refuses it."""
