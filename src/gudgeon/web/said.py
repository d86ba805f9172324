"""What was said when something was recorded, kept for the page that follows."""

from dataclasses import dataclass, field

from gudgeon.bench.record import Recorded
from gudgeon.web.kept import Kept

_MOST = 200


@dataclass(frozen=True, slots=True)
class Said:
    """The last answers of the recorder, by the id of their entry; lost with the program, as talk is."""

    _kept: Kept = field(default_factory=lambda: Kept(_MOST))

    def keep(self, said: Recorded) -> None:
        """Keep what was said about an entry."""
        self._kept.keep(said.entry, said)

    def of(self, entry: str) -> Recorded | None:
        """What was said about an entry, if it was said by this program and not long ago."""
        return self._kept.of(entry)
