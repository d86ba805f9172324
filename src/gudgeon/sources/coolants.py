"""Freezing points of mixes of glycol and water, their specific gravities, and the least that guards against rust."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from gudgeon.sources.figures import Figure, Source
from gudgeon.sources.tables import read


@dataclass(frozen=True, slots=True)
class FreezingTable:
    """Freezing points [°C] over the share of glycol by volume or by mass, falling; the first share is 0."""

    name: str
    glycol: str
    basis: str
    shares: tuple[float, ...]
    freeze_c: tuple[float, ...]
    source: Source


@lru_cache(maxsize=1)
def _coolant() -> tuple[dict[str, Any], dict[str, Source]]:
    return read("coolant")


@lru_cache(maxsize=1)
def freezing_tables() -> tuple[FreezingTable, ...]:
    """All tables; the first of a glycol and a basis is the one that is followed."""
    data, found = _coolant()
    return tuple(
        FreezingTable(
            row["name"],
            row["glycol"],
            row["basis"],
            tuple(row["shares"]),
            tuple(row["freeze_c"]),
            found[row["source"]],
        )
        for row in data["table"]
    )


def specific_gravity(glycol: str) -> Figure:
    """How heavy a glycol is against water, both at 20 °C."""
    data, found = _coolant()
    return Figure(data["gravity"][glycol], "1", found[data["gravity"]["source"]])


def least_against_corrosion() -> Figure:
    """The least share of glycol, by volume, whose inhibitors still protect."""
    data, found = _coolant()
    return Figure(data["corrosion"]["least_share"], "1", found[data["corrosion"]["source"]])
