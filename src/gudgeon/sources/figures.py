"""A figure never stands without its source."""

from dataclasses import dataclass
from typing import Literal, get_args

Provenance = Literal["PRINTED", "COMMON PRACTICE", "MEMORY", "HAND", "OTHER TOOL"]
PROVENANCES: tuple[Provenance, ...] = get_args(Provenance)


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure comes from; the provenance says how it was seen.

    PRINTED: read in the source, or in a republished copy of it. COMMON PRACTICE: a fact of the
    trade. MEMORY: not seen. HAND: derived on paper. OTHER TOOL: computed by a library that is named.
    """

    title: str
    edition: str
    page: str
    provenance: Provenance

    def __str__(self) -> str:
        parts = [f"{self.title}:{self.edition}" if self.edition else self.title]
        if self.page:
            parts.append(self.page)
        suffix = "" if self.provenance == "PRINTED" else f" ({self.provenance.lower()})"
        return ", ".join(parts) + suffix


@dataclass(frozen=True, slots=True)
class Figure:
    """A value with its unit and its source."""

    value: float
    unit: str
    source: Source
