"""Which engine a sheet is for: identity, sources, what it has and has not, its main sizes."""

import re
from typing import Annotated, Any, Literal

from pydantic import Field, PlainValidator, WithJsonSchema

from gudgeon.sheet.figures import (
    Sourced,
    StatedArea,
    StatedGap,
    StatedLength,
    StatedRatio,
    StatedRoughness,
    StatedVolume,
)
from gudgeon.written.fields import Key, Name, Section, Text, Whole, refuse

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


_PHOTO = re.compile(r"photos/[A-Za-z0-9_-]{1,80}\.(jpg|jpeg|png|webp)")


def _photo_file(value: Any) -> str:
    if isinstance(value, str) and _PHOTO.fullmatch(value.strip()):
        return value.strip()
    raise refuse(
        f"`{value}` names no photo beside the sheet. Write the folder and a plain file name, like "
        "`photos/0a1b2c3d4e5f6071.jpg`; `gudgeon sheet photo` does it for you."
    )


PhotoFile = Annotated[
    str,
    PlainValidator(_photo_file),
    WithJsonSchema({"type": "string", "pattern": f"^{_PHOTO.pattern}$"}),
]
"""A photo in the folder `photos` beside the sheet; never a way out of that folder."""


class Book(Section):
    """A source of figures: a manual, a bulletin, a supplier's page.

    `photos` holds the photos of its pages, by the page as it is cited.
    """

    title: Text
    edition: Text
    note: Text | None = None
    photos: dict[Name, PhotoFile] = Field(default_factory=dict)

    def photo_of(self, where: str) -> str:
        """The photo of a cited place: of exactly this one, else of the page it begins with; empty for none."""
        if where in self.photos:
            return self.photos[where]
        for page, file in self.photos.items():
            if where.startswith(page) and not where[len(page)].isalnum():
                return file
        return ""


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


class HeadGasket(Sourced):
    """One head gasket that can be had: how thick it is tightened, its mark, and what it is meant for."""

    thickness: StatedGap
    mark: Text | None = None
    for_piston_height: StatedGap | None = None
    for_cut: StatedGap | None = None


Poured = Literal[
    "bore", "chamber_volume", "crown_volume", "piston_height", "gasket_thickness", "squish_pad_recess"
]
"""Sizes of a cylinder that may be measured on this engine instead of being taken from the manual."""


class Cylinder(Sourced):
    """Bore, stroke and the volumes that make the compression ratio.

    `measured_as` names the characteristics that hold what was measured of this engine: such a reading comes before the
    figure of the manual. `gaskets` are the thicknesses that can be had, by name.
    """

    bore: StatedLength | None = None
    stroke: StatedLength | None = None
    rod_length: StatedLength | None = None
    pin_offset: StatedGap | None = None
    displacement: StatedVolume | None = None
    compression_ratio: StatedRatio | None = None
    most_ratio: StatedRatio | None = None
    chamber_volume: StatedVolume | None = None
    chamber_mouth_area: StatedArea | None = None
    crown_volume: StatedVolume | None = None
    piston_height: StatedGap | None = None
    gasket_bore: StatedLength | None = None
    gasket_thickness: StatedGap | None = None
    gaskets: dict[Name, HeadGasket] = Field(default_factory=dict)
    squish_pad_recess: StatedGap | None = None
    least_squish: StatedGap | None = None
    measured_as: dict[Poured, Key] = Field(default_factory=dict)


class Head(Sourced):
    """The cylinder head as a part that may be resurfaced.

    `measured_as` holds its height, `face` is its gasket face, `pits` holds the depth of pits and scars in it,
    `cam_tunnel` what shows whether the bearings of an overhead camshaft are in line. `straighten_above` is the
    distortion above which the head is straightened before it is cut. `finish` is the roughness that the gasket wants.
    """

    measured_as: Key | None = None
    face: Key | None = None
    pits: Key | None = None
    cam_tunnel: Key | None = None
    height: StatedLength | None = None
    least_height: StatedLength | None = None
    most_off: StatedGap | None = None
    taken_off_before: StatedGap | None = None
    straighten_above: StatedGap | None = None
    finish: StatedRoughness | None = None
    material: Text | None = None
    datum: Text | None = None
    stays: tuple[Text, ...] = ()
