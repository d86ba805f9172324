"""How often a wrong code may be tried: a code is short, so that a person can type it, and must not be guessed."""

from collections import deque
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from threading import Lock

from gudgeon.errors import InputError

MOST = 5
WITHIN = timedelta(minutes=1)


class TooManyCodes(InputError):
    """More wrong codes than a person mistypes."""

    def __init__(self, wait_s: int) -> None:
        super().__init__(
            f"{MOST} wrong pairing codes within {WITHIN.seconds} s: no more are looked at for now. Wait {wait_s} s, "
            "then type the code once more."
        )


@dataclass(frozen=True, slots=True)
class Knocks:
    """The wrong codes of the last minute, whoever sent them: an address on a network is easily changed."""

    _wrong: deque[datetime] = field(default_factory=deque)
    _lock: Lock = field(default_factory=Lock)

    def look(self, now: datetime) -> None:
        """Refuse to look at another code where too many were wrong."""
        with self._lock:
            while self._wrong and now - self._wrong[0] >= WITHIN:
                self._wrong.popleft()
            if len(self._wrong) >= MOST:
                raise TooManyCodes(max(1, (self._wrong[0] + WITHIN - now).seconds))

    def wrong(self, now: datetime) -> None:
        """Count a wrong code."""
        with self._lock:
            self._wrong.append(now)
