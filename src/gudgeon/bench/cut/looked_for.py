"""What was looked for in sheet and book, and not found."""

from dataclasses import dataclass, field

from gudgeon.bench.cut.given import Given, Missing
from gudgeon.bench.sheet_place import line_of
from gudgeon.written.located import Written


@dataclass
class LookedFor:
    """What is missing, and what is to be said, gathered while the figures are."""

    written: Written | None
    missing: list[Missing] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def lacks(self, name: str, *, path: str, do: str) -> None:
        """Name a figure that is not known, with where the sheet would state it and what to do."""
        self.missing.append(Missing(name, path, do, line_of(self.written, path)))

    def take(self, found: Given | Missing) -> Given | None:
        """A figure, or nothing: what is missing is kept."""
        if isinstance(found, Missing):
            self.missing.append(found)
            return None
        return found
