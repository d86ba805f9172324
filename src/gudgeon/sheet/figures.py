"""A figure with its source, and how a source is cited."""

import re
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema, field_validator, model_validator

from gudgeon.quantity.written import Printed
from gudgeon.written.fields import (
    Angle,
    Area,
    Duration,
    FigureOf,
    Force,
    Gap,
    Length,
    Mass,
    Pressure,
    Ratio,
    Roughness,
    Section,
    Speed,
    Temperature,
    Text,
    Torque,
    Voltage,
    Volume,
    Warmth,
    read_figure,
    refuse,
)

_CITED = re.compile(r"^(?P<key>[a-z][a-z0-9_]*)\s+(?P<where>\S.*)$")


@dataclass(frozen=True, slots=True)
class Cited:
    """A citation: the key of a source of this sheet, and where in it."""

    key: str
    where: str

    def __str__(self) -> str:
        return f"{self.key} {self.where}"


def _cited(value: Any) -> Cited:
    if isinstance(value, Cited):
        return value
    if value is None or not str(value).strip():
        raise refuse("The source is empty. Write its key and the page, like `manual p. 41`.")
    found = _CITED.match(str(value).strip())
    if found is None:
        raise refuse(
            f"`{value}` names no page. Write the key of a source and where in it, like `manual p. 41`."
        )
    return Cited(found["key"], found["where"].strip())


Source = Annotated[
    Cited,
    PlainValidator(_cited),
    WithJsonSchema(
        {"type": "string", "description": "key of a source, and the page", "examples": ["manual p. 41"]}
    ),
]


def _printed(value: Any) -> Printed:
    if isinstance(value, Printed):
        return value
    raise refuse("A figure with its unit was expected.")


class Again(Section):
    """The same figure as another page prints it."""

    value: Annotated[Printed, PlainValidator(_printed), WithJsonSchema({"type": ["string", "number"]})]
    source: Source
    note: Text | None = None


class Stated(Section):
    """One figure of the sheet. Written alone, it takes the source of what it stands in.

    `also` holds the same figure as other pages print it: proof-reading tells where they differ.
    """

    value: Printed
    source: Source | None = None
    note: Text | None = None
    also: tuple[Again, ...] = ()

    @classmethod
    def __get_pydantic_json_schema__(cls, core: Any, handler: Any) -> dict[str, Any]:
        """An editor is told that the figure may stand alone."""
        return {"anyOf": [{"type": ["string", "number"]}, handler(core)]}

    @model_validator(mode="before")
    @classmethod
    def _alone(cls, value: Any) -> Any:
        return {"value": value} if isinstance(value, str | int | float) else value

    @field_validator("also", mode="before")
    @classmethod
    def _same_kind(cls, value: Any) -> Any:
        """What another page prints is read as the same kind of quantity."""
        kind = next(mark.kind for mark in cls.model_fields["value"].metadata if isinstance(mark, FigureOf))
        if not isinstance(value, list | tuple):
            return value
        return tuple(
            one | {"value": read_figure(one.get("value"), kind)} if isinstance(one, dict) else one
            for one in value
        )


class StatedLength(Stated):
    """A size."""

    value: Length


class StatedGap(Stated):
    """A clearance, an amount taken off, a deviation."""

    value: Gap


class StatedTorque(Stated):
    """A tightening torque."""

    value: Torque


class StatedAngle(Stated):
    """An angle."""

    value: Angle


class StatedVolume(Stated):
    """A volume or capacity."""

    value: Volume


class StatedArea(Stated):
    """An area."""

    value: Area


class StatedRatio(Stated):
    """A ratio."""

    value: Ratio


class StatedTime(Stated):
    """A time to wait or to keep within."""

    value: Duration


class StatedPressure(Stated):
    """A gauge pressure."""

    value: Pressure


class StatedForce(Stated):
    """A force, as of a spring at a length."""

    value: Force


class StatedMass(Stated):
    """A mass."""

    value: Mass


class StatedTemperature(Stated):
    """A temperature."""

    value: Temperature


class StatedWarmth(Stated):
    """A difference of two temperatures."""

    value: Warmth


class StatedSpeed(Stated):
    """A speed of turning."""

    value: Speed


class StatedVoltage(Stated):
    """A voltage."""

    value: Voltage


class StatedRoughness(Stated):
    """A roughness of a surface."""

    value: Roughness


class Sourced(Section):
    """A part of the sheet that may state one source for all its figures."""

    source: Source | None = None

    def cited(self, figure: Stated | None) -> Cited | None:
        """The source of a figure in this part: its own, else the part's."""
        return (figure.source if figure is not None else None) or self.source
