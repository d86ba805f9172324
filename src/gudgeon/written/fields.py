"""Kinds of value that a hand-written file may hold, each read from the text as written.

The reader keeps every scalar as text; these types say what the text means and refuse
the rest in words. They also carry what a JSON Schema needs, so that editors can help.
"""

import re
from datetime import date
from functools import lru_cache
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, PlainValidator, StringConstraints, WithJsonSchema
from pydantic_core import PydanticCustomError, core_schema

from gudgeon.errors import InputError
from gudgeon.quantity.written import Printed, parse_printed


class Section(BaseModel):
    """A mapping in a hand-written file: unknown keys are refused, nothing is changed after reading.

    Every scalar arrives as text and is read by one of the types below, never coerced; lists become tuples.
    """

    # Built when first used: most are only ever read as a part of another, which builds them with itself.
    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True, defer_build=True)


def written_parts(value: Any, *, needed: tuple[str, ...] = ()) -> Any:
    """A whole file without the parts whose lines are all still comments: they say nothing yet.

    The parts that are `needed` stay, so that they are asked for.
    """
    if not isinstance(value, dict):
        return value
    return {key: part for key, part in value.items() if part is not None or key in needed}


def refuse(message: str) -> PydanticCustomError:
    """A refusal in our own words, to be raised while a value is read."""
    return PydanticCustomError("refused", "{message}", {"message": message})


def _whole(value: Any) -> int:
    if isinstance(value, int):
        return value
    if isinstance(value, str) and re.fullmatch(r"-?\d{1,9}", value.strip()):
        return int(value)
    raise refuse(f"A whole number was expected, `{value}` was found.")


def _yes_no(value: Any) -> bool:
    if isinstance(value, bool):
        return value
    if isinstance(value, str) and value.strip().lower() in ("yes", "no", "true", "false"):
        return value.strip().lower() in ("yes", "true")
    raise refuse(f"Write yes or no; `{value}` was found.")


def _text(value: Any) -> str:
    if isinstance(value, str) and value.strip():
        return " ".join(value.split())
    found = "nothing" if value is None or value == "" else f"`{value}`"
    raise refuse(
        f"Text was expected, {found} was found. Write it, or take the line out: what is not stated is a gap."
    )


def _day(value: Any) -> date:
    if isinstance(value, date):
        return value
    try:
        return date.fromisoformat(str(value))
    except ValueError:
        raise refuse(f"A date like 2026-03-31 was expected, `{value}` was found.") from None


Whole = Annotated[int, BeforeValidator(_whole), WithJsonSchema({"type": "integer"})]
YesNo = Annotated[
    bool, PlainValidator(_yes_no), WithJsonSchema({"anyOf": [{"type": "boolean"}, {"enum": ["yes", "no"]}]})
]
Text = Annotated[str, PlainValidator(_text), WithJsonSchema({"type": ["string", "number"]})]
Day = Annotated[date, PlainValidator(_day), WithJsonSchema({"type": "string", "format": "date"})]
Key = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$", max_length=60)]
Name = Annotated[str, PlainValidator(_text), WithJsonSchema({"type": ["string", "integer"]})]


@lru_cache(maxsize=4096)
def _printed(text: str, kind: str) -> Printed:
    return parse_printed(text, kind=kind)


def read_figure(value: Any, kind: str) -> Printed:
    """A figure of a known kind, as written, or a refusal in words."""
    if isinstance(value, Printed):
        return value
    if not isinstance(value, str) or not value.strip():
        raise refuse(
            "A figure with its unit was expected, nothing was found. Take the line out: it is then a gap."
        )
    try:
        return _printed(value, kind)
    except InputError as error:
        raise refuse(error.message) from None


class FigureOf:
    """Marks a field as a figure of one kind: `Annotated[Printed, FigureOf("torque")]`."""

    def __init__(self, kind: str, *examples: str) -> None:
        self.kind = kind
        self.examples = list(examples)

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        return core_schema.no_info_plain_validator_function(lambda value: read_figure(value, self.kind))

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> dict[str, Any]:
        shown = {"type": ["string", "number"], "description": f"{self.kind.replace('_', ' ')}, with its unit"}
        return shown | ({"examples": self.examples} if self.examples else {})


Length = Annotated[Printed, FigureOf("length", "82.00 mm", "81.60–81.62 mm (3.2126–3.2134 in)")]
Gap = Annotated[Printed, FigureOf("length_difference", "0.05 mm (0.0020 in)", "max 0.05 mm")]
Torque = Annotated[Printed, FigureOf("torque", "40 N·m (29.5 lbf·ft)", "8–10 N·m")]
Angle = Annotated[Printed, FigureOf("angle", "90°", "90° ± 5°", "85–95°")]
Volume = Annotated[Printed, FigureOf("volume", "40.8 cm³", "4.2 L (4.4 US qt)")]
Area = Annotated[Printed, FigureOf("area", "50.9 cm²")]
Ratio = Annotated[Printed, FigureOf("ratio", "9.8:1", "9.8")]
Duration = Annotated[Printed, FigureOf("time", "30 min", "24 h")]
Pressure = Annotated[Printed, FigureOf("pressure_gauge", "1.1 bar", "16 psi")]
Temperature = Annotated[Printed, FigureOf("temperature", "20 °C")]
Warmth = Annotated[Printed, FigureOf("temperature_difference", "5 K")]
Speed = Annotated[Printed, FigureOf("speed", "850 r/min")]
Mass = Annotated[Printed, FigureOf("mass", "412 g")]
Voltage = Annotated[Printed, FigureOf("voltage", "12.4 V")]
Force = Annotated[Printed, FigureOf("force", "100 N")]
Roughness = Annotated[Printed, FigureOf("roughness", "max 1.6 µm")]
