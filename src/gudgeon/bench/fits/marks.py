"""Marks that are read off the engine or off shells: `main: A1 B2 A1`, one for each place."""

import re
from collections.abc import Mapping, Sequence

from gudgeon.bench.fits.errors import BearingUnknown, MarksMiscounted, MarksUnreadable, MarkUnknown
from gudgeon.sheet.fits import Bearing

UNREAD = "-"
Marks = Mapping[str, tuple[str, ...]]
"""By bearing the marks of its places, in the order of the sheet."""


def read_marks(texts: Sequence[str], *, bearings: Mapping[str, Bearing]) -> Marks:
    """The marks of each bearing; commas stand between marks that have blanks of their own."""
    found: dict[str, tuple[str, ...]] = {}
    for text in texts:
        for part in filter(None, (one.strip() for one in text.split(";"))):
            key, colon, marks = part.partition(":")
            if not colon or not marks.strip():
                raise MarksUnreadable(part, bearings)
            name = _key(key.strip(), bearings)
            said = marks.split(",") if "," in marks else marks.split()
            found[name] = tuple(one.strip() for one in said)
    return found


def _key(said: str, bearings: Mapping[str, Bearing]) -> str:
    """The bearing of that key, or of that name."""
    for key, one in bearings.items():
        if said.lower() in (key.lower(), one.name.lower()):
            return key
    raise BearingUnknown(said, bearings)


def grades_of_codes(key: str, bearing: Bearing, marks: Sequence[str], *, places: int) -> list[str | None]:
    """The grade that the maker's code gives each place; None where the code cannot be read."""
    known = {_plain(code): grade for code, grade in bearing.codes.items()}
    return _each(key, marks, known, places=places, names=bearing.codes)


def grades_of_shells(key: str, bearing: Bearing, marks: Sequence[str], *, places: int) -> list[str | None]:
    """The grade of the shells that are in each place now, by their name, color or mark."""
    known = {_plain(name): name for name in bearing.grades}
    known |= {_plain(one.mark): name for name, one in bearing.grades.items() if one.mark is not None}
    names = [f"{name} ({one.mark})" if one.mark else name for name, one in bearing.grades.items()]
    return _each(key, marks, known, places=places, names=names)


def _each(
    key: str,
    marks: Sequence[str],
    known: Mapping[str, str],
    *,
    places: int,
    names: Sequence[str] | Mapping[str, str],
) -> list[str | None]:
    if len(marks) != places:
        raise MarksMiscounted(key, len(marks), places)
    found: list[str | None] = []
    for mark in marks:
        if mark != UNREAD and _plain(mark) not in known:
            raise MarkUnknown(key, mark, names)
        found.append(known.get(_plain(mark)))
    return found


def _plain(mark: str) -> str:
    """`A 1`, `a-1` and `A1` are one mark."""
    return re.sub(r"[\s\-_/]", "", mark).lower()
