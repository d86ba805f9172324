"""What is kept for whoever asks again: little of it, the last ones, lost with the program."""

from collections import OrderedDict
from collections.abc import Hashable
from dataclasses import dataclass, field
from threading import Lock
from typing import Any

MOST = 24


@dataclass(frozen=True, slots=True)
class Kept:
    """The last answers, by all that they depend on."""

    most: int = MOST
    _kept: OrderedDict[Hashable, Any] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def keep(self, question: Hashable, answer: Any) -> None:
        """Keep an answer; the one that was asked for longest ago goes."""
        with self._lock:
            self._kept[question] = answer
            self._kept.move_to_end(question)
            while len(self._kept) > self.most:
                self._kept.popitem(last=False)

    def of(self, question: Hashable) -> Any | None:
        """The answer to a question, where it is kept."""
        with self._lock:
            if question in self._kept:
                self._kept.move_to_end(question)
            return self._kept.get(question)
