"""What was said when something was recorded, kept for the page that follows."""

from collections import OrderedDict
from dataclasses import dataclass, field
from threading import Lock

from gudgeon.bench.record import Recorded

_MOST = 200


@dataclass(frozen=True, slots=True)
class Said:
    """The last answers of the recorder, by the id of their entry; lost with the program, as talk is."""

    _kept: OrderedDict[str, Recorded] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def keep(self, said: Recorded) -> None:
        """Keep what was said about an entry."""
        with self._lock:
            self._kept[said.entry] = said
            while len(self._kept) > _MOST:
                self._kept.popitem(last=False)

    def of(self, entry: str) -> Recorded | None:
        """What was said about an entry, if it was said by this program and not long ago."""
        with self._lock:
            return self._kept.get(entry)
