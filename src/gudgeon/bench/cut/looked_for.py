"""What was looked for in sheet and book, and not found."""

from dataclasses import dataclass, field

from gudgeon.bench.cut.given import Given, Missing


@dataclass
class LookedFor:
    """What is missing, and what is to be said, gathered while the figures are."""

    missing: list[Missing] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def take(self, found: Given | Missing) -> Given | None:
        """A figure, or nothing: what is missing is kept."""
        if isinstance(found, Missing):
            self.missing.append(found)
            return None
        return found
