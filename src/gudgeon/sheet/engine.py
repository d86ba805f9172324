"""Which engine a sheet is for: identity, sources, what it has and has not, its main sizes."""

from typing import Literal

from pydantic import Field

from gudgeon.sheet.figures import (
    Sourced,
    StatedArea,
    StatedGap,
    StatedLength,
    StatedRatio,
    StatedVolume,
)
from gudgeon.written.fields import Key, Section, Text, Whole

Feature = Literal[
    "timing belt",
    "timing chain",
    "timing gears",
    "shims",
    "screw adjusters",
    "hydraulic lifters",
    "overhead cam",
    "camshaft caps",
    "liquid cooling",
    "wet liners",
    "graded head gasket",
    "removable head",
    "turbocharger",
    "one-time-use bolts",
    "oil filter",
    "electrical connectors",
    "fuel injection",
    "crank pulley",
]
"""What an engine may be said not to have; nothing then asks for it."""


class Book(Section):
    """A source of figures: a manual, a bulletin, a supplier's page."""

    title: Text
    edition: Text
    note: Text | None = None


class Engine(Sourced):
    """Identity and applicability."""

    name: Text
    codes: tuple[Text, ...] = Field(min_length=1)
    code_is_read: Text
    years: Text | None = None
    variant: Text | None = None
    vehicle: Text | None = None
    check_with_engine: tuple[Text, ...] = ()
    layout: Literal["single", "inline", "vee", "flat"]
    cylinders: Whole = Field(ge=1, le=16)
    numbered_from: Text
    firing_order: tuple[Whole, ...] | None = None
    rotation: Text | None = None
    does_not_have: tuple[Feature, ...] = ()


class Cylinder(Sourced):
    """Bore, stroke and the volumes that make the compression ratio."""

    bore: StatedLength | None = None
    stroke: StatedLength | None = None
    rod_length: StatedLength | None = None
    displacement: StatedVolume | None = None
    compression_ratio: StatedRatio | None = None
    chamber_volume: StatedVolume | None = None
    chamber_mouth_area: StatedArea | None = None
    crown_volume: StatedVolume | None = None
    piston_height: StatedGap | None = None
    gasket_bore: StatedLength | None = None
    gasket_thickness: StatedGap | None = None
    squish_pad_recess: StatedGap | None = None
    least_squish: StatedGap | None = None


class Head(Sourced):
    """The cylinder head as a part that may be resurfaced."""

    measured_as: Key | None = None
    height: StatedLength | None = None
    least_height: StatedLength | None = None
    most_off: StatedGap | None = None
