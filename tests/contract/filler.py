"""A program that makes a book, writes into it, and says what has been acknowledged; for looking at what it asks of the disk.

Called with the path of the book, how many acts to write, and how the disk is waited for: FULL as Gudgeon does it, or
OFF, which only this program can choose.
"""

import sys
from pathlib import Path

from gudgeon.book.sqlite import open_book
from tests.contract.stores import NOW, draft
from tests.contract.writer import say

PAGES_OF_LOG = 30
"""So short a log is copied into the book every few entries; a thousand pages would be some hundred entries."""


def main(path: Path, *, count: int, waits: str) -> None:
    """Begin a build, then single notes and pairs of notes in turn."""
    with open_book(path, clock=lambda: NOW, create=True) as store:
        store._opened.connection.execute(f"PRAGMA wal_autocheckpoint = {PAGES_OF_LOG}")
        if waits == "OFF":
            store._opened.connection.execute("PRAGMA synchronous = OFF")
        say(store.append(draft("build-opened")).entry.id)
        for number in range(count):
            halves = ("first", "second") if number % 3 == 0 else ("only",)
            done = store.append_many(
                [draft(text=f"{number} {half} {'x' * (number % 7) * 500}") for half in halves]
            )
            say(" ".join(one.entry.id for one in done))


if __name__ == "__main__":
    main(Path(sys.argv[1]), count=int(sys.argv[2]), waits=sys.argv[3])
