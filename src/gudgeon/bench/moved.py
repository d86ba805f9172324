"""A book that was moved: the old one stays as it was, and says so with every answer.

No entry says it, because the two chains have to stay the same; a page of words beside the file does.
"""

from datetime import datetime
from pathlib import Path

from gudgeon.book.address import BookAddress

_WORDS = """\
The book {name} was moved to {place} on {day}.
It was left as it was. What is recorded in it from now on is missing there, and the two books part.
Name the other one with --book, or in GUDGEON_BOOK: {place}
If you go on with this one all the same, delete this file.
"""


def marker_of(address: BookAddress) -> Path | None:
    """The page of words beside a book; a database has none."""
    return address.with_name(f"{address.name}.moved.txt") if isinstance(address, Path) else None


def mark_moved(address: BookAddress, place: str, *, at: datetime) -> Path | None:
    """Say beside the old book where it went; nothing where that cannot be said."""
    marker = marker_of(address)
    if marker is None:
        return None
    try:
        marker.write_text(
            _WORDS.format(name=marker.name.removesuffix(".moved.txt"), place=place, day=f"{at:%Y-%m-%d}"),
            encoding="utf-8",
        )
    except OSError:
        return None
    return marker


def moved_remarks(address: BookAddress) -> tuple[str, ...]:
    """What is said with every answer from a book that was moved."""
    marker = marker_of(address)
    if marker is None or not marker.is_file():
        return ()
    try:
        first = marker.read_text(encoding="utf-8").partition("\n")[0]
    except (OSError, UnicodeDecodeError):
        first = f"This book was moved, says {marker.name}, which cannot be read."
    return (f"{first} What is recorded here is missing there; {marker.name} says more.",)
