"""What is measured and judged: new range, wear limit, and what is required as assembled."""

import re
from itertools import product
from typing import Annotated, Any, Literal, get_args

from pydantic import Discriminator, Field, Tag, ValidationError, ValidationInfo, field_validator

from gudgeon.sheet.faces import Face, Line, Point
from gudgeon.sheet.figures import (
    Sourced,
    Stated,
    StatedAngle,
    StatedArea,
    StatedForce,
    StatedGap,
    StatedLength,
    StatedMass,
    StatedPressure,
    StatedRatio,
    StatedRoughness,
    StatedSpeed,
    StatedTemperature,
    StatedTime,
    StatedTorque,
    StatedVoltage,
    StatedVolume,
    StatedWarmth,
)
from gudgeon.sheet.shapes import SHAPES, AnyShape, PerLength, Unread, WholeAndPerLength
from gudgeon.written.fields import Key, Length, Name, Section, Text, refuse

Method = Literal[
    "size", "gap", "straightedge lines", "heights", "scanned face", "run-out", "difference", "out-of-round", "taper",
]  # fmt: skip
Kind = Literal[
    "length", "length_difference", "pressure_gauge", "angle", "volume", "area", "torque", "force", "mass",
    "temperature", "speed", "time", "voltage", "roughness", "ratio",
]  # fmt: skip
Milestone = Literal["crank", "fire", "drive", "handover"]

COMPUTED = ("difference", "out-of-round", "taper")
"""Methods whose value comes from the readings of other characteristics, named in `of`."""

_STATED: dict[str, type[Stated]] = {
    "length": StatedLength,
    "length_difference": StatedGap,
    "pressure_gauge": StatedPressure,
    "angle": StatedAngle,
    "volume": StatedVolume,
    "area": StatedArea,
    "torque": StatedTorque,
    "force": StatedForce,
    "mass": StatedMass,
    "temperature": StatedTemperature,
    "speed": StatedSpeed,
    "time": StatedTime,
    "voltage": StatedVoltage,
    "roughness": StatedRoughness,
    "ratio": StatedRatio,
}
_DIFFERENCE: dict[str, type[Stated]] = _STATED | {"length": StatedGap, "temperature": StatedWarmth}

_OWN_KIND = {get_args(one.model_fields["shape"].annotation)[0] for one in SHAPES if one.own_kind}
_HIGHER = {"higher", "upper", "larger", "greater"}
_LOWER = {"lower", "smaller", "lesser"}

Places = Annotated[
    Annotated[tuple[Name, ...], Tag("listed")] | Annotated[dict[Name, tuple[Name, ...]], Tag("crossed")],
    Discriminator(lambda value: "crossed" if isinstance(value, dict) else "listed"),
]


class Characteristic(Sourced):
    """One thing that is measured, where, and what limits it.

    `new_range` is what a new part has; `wear_limit` is where a part is used up; `required`
    is what must be so as assembled (a setting). They are three different things. `grades` are
    named ranges to choose from (gasket thicknesses, size classes); `tie` says which of two
    takes a value on their common boundary. `between` names the bore and the shaft whose sizes
    make this clearance. `limits` holds what one figure cannot say. `face` names the face that its lines lie on,
    `material` what the part is made of, for its size at 20 °C. `accept` is `as read` where the maker's limit is
    meant for a reading taken in the maker's way, as `accept_why` says. `instead` names another characteristic that
    the maker takes for this one, at less cost. `at_heights` says how deep each named height lies, so that a taper
    becomes a taper per length.
    """

    name: Text
    part: Text
    method: Method = "size"
    quantity: Kind | None = None
    places: Places = ()
    of: tuple[Key, ...] = ()
    how: Text | None = None
    new_range: Stated | None = None
    wear_limit: Stated | None = None
    required: Stated | None = None
    grades: dict[Name, Stated] = Field(default_factory=dict)
    tie: Text | None = None
    between: tuple[Key, Key] | None = None
    limits: tuple[AnyShape, ...] = ()
    face: Key | None = None
    material: Text | None = None
    accept: Literal["with guard band", "as read"] = "with guard band"
    accept_why: Text | None = None
    instead: Key | None = None
    at_heights: dict[Name, Length] = Field(default_factory=dict)

    @property
    def kind(self) -> str:
        """The kind of quantity that is read here."""
        return self.quantity or ("length" if self.method == "size" else "length_difference")

    @property
    def computed(self) -> bool:
        """Whether the value comes from the readings of other characteristics."""
        return self.method in COMPUTED

    @property
    def tie_takes(self) -> Literal["higher", "lower", ""]:
        """Which of two grades takes a value on their boundary, where `tie` says it in a word that leaves no doubt."""
        words = set(re.findall(r"[a-z]+", (self.tie or "").lower()))
        higher, lower = bool(words & _HIGHER), bool(words & _LOWER)
        if higher == lower or "not" in words:
            return ""
        return "higher" if higher else "lower"

    @field_validator("new_range", "wear_limit", "required", mode="before")
    @classmethod
    def _of_its_kind(cls, value: Any, info: ValidationInfo) -> Any:
        return _stated(value, info)

    @field_validator("grades", mode="before")
    @classmethod
    def _each_of_its_kind(cls, value: Any, info: ValidationInfo) -> Any:
        if not isinstance(value, dict):
            return value
        return {name: _stated(one, info) for name, one in value.items()}

    @field_validator("limits", mode="before")
    @classmethod
    def _differences_of_its_kind(cls, value: Any, info: ValidationInfo) -> Any:
        if not isinstance(value, list | tuple):
            return value
        return tuple(_difference(one, info) for one in value)


def stated_of(kind: str) -> type[Stated]:
    """The stated figure of a kind of quantity."""
    return _STATED[kind]


def difference_of(kind: str) -> type[Stated]:
    """The stated figure of a difference of two readings of a kind."""
    return _DIFFERENCE[kind]


def _kind(info: ValidationInfo) -> str:
    method = info.data.get("method", "size")
    return str(info.data.get("quantity") or ("length" if method == "size" else "length_difference"))


def _stated(value: Any, info: ValidationInfo) -> Stated:
    """A figure of the kind that the characteristic reads."""
    try:
        return _STATED[_kind(info)].model_validate(value)
    except ValidationError as error:
        raise refuse(_why(error)) from None


def _difference(shape: Any, info: ValidationInfo) -> Any:
    """A limit with a shape, its difference read as one of the kind of the characteristic."""
    if not isinstance(shape, dict) or shape.get("limit") is None or shape.get("shape") not in _OWN_KIND:
        return shape
    try:
        return {**shape, "limit": _DIFFERENCE[_kind(info)].model_validate(shape["limit"])}
    except ValidationError as error:
        return {**shape, "limit": Unread(_why(error))}


def _why(error: ValidationError) -> str:
    first = error.errors(include_url=False)[0]
    message = first.get("ctx", {}).get("message")
    if not first["loc"]:
        return str(message or "A figure with its unit was expected, a list was found.")
    return str(message or f"{'.'.join(map(str, first['loc']))}: {first['msg']}.")


def read_on(item: Characteristic, *, face: Face) -> dict[str, Line] | dict[str, Point]:
    """What of a face a characteristic is read on: its lines by a straightedge, its points by their heights."""
    if item.method == "straightedge lines":
        return face.lines
    return face.points if item.method == "heights" else {}


def place_names(item: Characteristic) -> tuple[str, ...]:
    """Every place where the characteristic is read, in words: `cylinder 1, top, across`."""
    if not isinstance(item.places, dict):
        return tuple(item.places) or ("",)
    first = next(iter(item.places))
    return tuple(
        ", ".join([f"{first} {combination[0]}", *combination[1:]])
        for combination in product(*item.places.values())
    )


def stretch_names(item: Characteristic) -> tuple[str, ...]:
    """Places that may be read besides: each line under a straightedge no longer than a limit per length says.

    They are named as the whole line, and the stretch: `diagonal 1, any 150 mm`.
    """
    if item.method != "straightedge lines":
        return ()
    over = dict.fromkeys(
        shape.over.value.text for shape in item.limits if isinstance(shape, PerLength | WholeAndPerLength)
    )
    names = place_names(item)
    lines = [one for one in names if not any(one.startswith(f"{other},") for other in names if other)]
    found = [f"{line}, any {text}" if line else f"any {text}" for line in lines for text in over]
    return tuple(one for one in found if one not in names)


class Fluid(Sourced):
    """Oil, coolant, fuel: which, and how much."""

    name: Text
    specification: Text | None = None
    capacity: StatedVolume | None = None


class Caution(Section):
    """A warning of the manual or of common practice, and the work it belongs to."""

    text: Text
    at: tuple[Text, ...] = Field(default=())
    basis: Text
