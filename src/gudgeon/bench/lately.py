"""Answers that were worked out lately: of the same facts the same answer is not worked out again.

Two facts are the same when they are equal in everything that the answer is made of, so that nothing has to be thrown
away when the book or a file changes. What is kept is bounded.
"""

from collections.abc import Callable
from typing import Generic, TypeVar

_Facts = TypeVar("_Facts")
_Answer = TypeVar("_Answer")
MOST = 8


class Lately(Generic[_Facts, _Answer]):
    """A few answers, the last ones, with the facts of each."""

    def __init__(self) -> None:
        self._known: tuple[tuple[_Facts, _Answer], ...] = ()

    def known(self, facts: _Facts) -> _Answer | None:
        """The answer for these facts where it was worked out lately."""
        return next((answer for known, answer in self._known if known == facts), None)

    def of(self, facts: _Facts, work: Callable[[], _Answer]) -> _Answer:
        """The answer for these facts. Of two threads that ask at once both may work it out."""
        for known, answer in self._known:
            if known == facts:
                return answer
        answer = work()
        self._known = ((facts, answer), *self._known[: MOST - 1])
        return answer
