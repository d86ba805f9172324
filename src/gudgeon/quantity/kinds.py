"""Kinds of quantity: what a figure is *of*, which its dimension alone does not tell.

Torque and energy share a dimension and are never the same thing; neither are a diameter and
a difference of two diameters, or gauge and absolute pressure.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from gudgeon.quantity.errors import UnknownKind


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity, its base unit, and the family of units that it takes."""

    name: str
    base: str
    family: str

    @property
    def words(self) -> str:
        """The name as it reads in a sentence."""
        first, _, last = self.name.partition("_")
        return f"{last} {first}" if first == "pressure" else self.name.replace("_", " ")


def _table(*rows: tuple[str, str, str]) -> Mapping[str, Kind]:
    return MappingProxyType({name: Kind(name, base, family) for name, base, family in rows})


KINDS: Mapping[str, Kind] = _table(
    ("length", "mm", "length"),
    ("length_difference", "mm", "length"),
    ("distance", "km", "distance"),
    ("altitude", "mm", "length"),
    ("angle", "°", "angle"),
    ("torque", "N·m", "torque"),
    ("energy", "J", "energy"),
    ("force", "N", "force"),
    ("mass", "kg", "mass"),
    ("area", "mm²", "area"),
    ("volume", "cm³", "volume"),
    ("pressure_gauge", "kPa", "pressure"),
    ("pressure_absolute", "kPa", "pressure"),
    ("stress", "MPa", "stress"),
    ("temperature", "°C", "temperature"),
    ("temperature_difference", "K", "temperature_difference"),
    ("time", "s", "time"),
    ("ratio", "1", "ratio"),
    ("number", "1", "number"),
    ("speed", "r/min", "speed"),
    ("roughness", "µm", "roughness"),
    ("voltage", "V", "voltage"),
    ("stiffness", "N/mm", "stiffness"),
    ("compliance", "mm/N", "compliance"),
    ("bending_stiffness", "N·mm²", "bending_stiffness"),
    ("plate_rigidity", "N·mm", "plate_rigidity"),
    ("beam_foundation", "N/mm²", "beam_foundation"),
    ("plate_foundation", "N/mm³", "plate_foundation"),
    ("expansion", "1/K", "expansion"),
    ("density", "kg/m³", "density"),
)


def kind(name: "str | Kind") -> Kind:
    """The kind of that name; a kind is returned as it is."""
    if isinstance(name, Kind):
        return name
    found = KINDS.get(name)
    if found is None:
        raise UnknownKind(name, KINDS)
    return found
