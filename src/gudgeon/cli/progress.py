"""How far long work is: one line that is written over, on standard error, and only where a person looks at it."""

import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from gudgeon.book.tell import Tell, silent


@contextmanager
def progress() -> Iterator[Tell]:
    """Shows what is being done now, and takes the line away at the end."""
    if not sys.stderr.isatty():
        yield silent
        return

    def tell(words: str) -> None:
        room = shutil.get_terminal_size((80, 24)).columns - 1
        print(f"\r{words[:room]:<{room}}", end="", file=sys.stderr, flush=True)

    try:
        yield tell
    finally:
        tell("")
        print("\r", end="", file=sys.stderr, flush=True)
