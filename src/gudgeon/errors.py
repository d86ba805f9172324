"""The two families of errors that a person may meet; anything else is a bug of ours.

Each cause has a class of its own, built from facts, that writes its whole message:
what was refused, the value, the limit and where it comes from, what to do.
"""

from dataclasses import dataclass


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
