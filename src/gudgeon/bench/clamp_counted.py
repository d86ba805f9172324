"""How many of the tightenings of a question are done, over all the runs that it takes."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from gudgeon.book.tell import Tell


class Counted:
    """Counts the tightenings of run after run against how many there are in all, and says so."""

    def __init__(self, whole: int, tell: Tell) -> None:
        self._whole, self._done, self._tell = whole, 0, tell

    @contextmanager
    def run(self, trials: int) -> Iterator[Callable[[float], None]]:
        """One run of so many trials: gives what is told the part of them that is done."""

        def told(part: float) -> None:
            self._tell(f"tightening at random: {self._done + int(part * trials):,} of {self._whole:,}")

        yield told
        self._done += trials

    def left_out(self, trials: int) -> None:
        """So many of them need not be done."""
        self._done += trials
