"""Tools by which a torque is set: torque wrenches with their scales, adapters, spring scales."""

from typing import Annotated, Any, Literal

from pydantic import Field, PlainValidator, WithJsonSchema, model_validator

from gudgeon.quantity.written import Printed
from gudgeon.written.fields import Angle, Day, Force, Length, Section, Text, Torque, Whole, refuse

WrenchKind = Literal["click", "beam", "dial", "electronic"]
Direction = Literal["clockwise", "counterclockwise", "both"]
Classes = Literal["A", "B", "C", "D", "E", "F", "G"]

_TYPE_OF = {"click": "II", "beam": "I", "dial": "I"}
_SAME_END = 1.25  # two scales of one wrench end together; beyond this factor one of them was copied wrongly


def _percent(value: object) -> float:
    text = str(value).replace("±", "").strip()
    if text.endswith("%"):
        try:
            share = float(text[:-1]) / 100
        except ValueError:
            share = -1.0
        if 0 < share < 0.5:
            return share
    raise refuse(f"A share like `4 %` was expected, `{value}` was found.")


Percent = Annotated[float, PlainValidator(_percent), WithJsonSchema({"type": "string", "examples": ["4 %"]})]


def _single(figure: Printed, *, of: str, example: str) -> None:
    if not figure.first.single:
        raise refuse(f"`{figure.text}` is not one {of}. Write it like `{example}`.")


class Scale(Section):
    """One scale of a torque wrench: its ends, the distance of two marks, and where the marks begin."""

    range: Torque
    step: Torque
    first_mark: Torque | None = None

    @model_validator(mode="after")
    def _marks(self) -> Any:
        span = self.range.first
        if span.low is None or span.high is None or span.single:
            raise refuse(f"`{span.text}` is not the range of a scale. Write `20–100 N·m`.")
        _single(self.step, of="step", example=f"1 {self.unit}")
        if not 0 < self.step.middle_in(self.unit) < self.high - self.low:
            raise refuse("The step of the scale must be above zero, and less than the scale.")
        for figure in (self.step, self.first_mark):
            if figure is not None and figure.first.unit.symbol != self.unit:
                raise refuse(f"`{figure.text}` is not in the unit of the scale. Write it in {self.unit}.")
        return self

    @property
    def unit(self) -> str:
        """The unit of the scale."""
        return self.range.first.unit.symbol

    @property
    def low(self) -> float:
        """Where the scale begins [its unit]."""
        low = self.range.low_in(self.unit)
        assert low is not None  # refused when it was read
        return low

    @property
    def high(self) -> float:
        """Where the scale ends [its unit]."""
        high = self.range.high_in(self.unit)
        assert high is not None  # refused when it was read
        return high

    @property
    def decimals(self) -> int:
        """Digits after the point that show every mark."""
        figures = [figure.first.low for figure in (self.step, self.first_mark) if figure is not None]
        return max(amount.decimals for amount in figures if amount is not None)


class Wrench(Scale):
    """A torque wrench: its scale or two, and how far its maker or a standard lets it be off."""

    name: Text
    kind: WrenchKind
    second_scale: Scale | None = None
    iso_type: Literal["I", "II"] | None = Field(default=None, alias="type")
    iso_letter: Classes | None = Field(default=None, alias="class")
    deviation: Percent | None = None
    direction: Direction | None = None
    checked: Day | None = None
    clicks_since: Annotated[Whole, Field(ge=0)] | None = None
    overloaded: Day | None = None
    length: Length | None = None
    note: Text | None = None

    @model_validator(mode="after")
    def _as_the_standard_sorts(self) -> "Wrench":
        of_kind = _TYPE_OF.get(self.kind)
        if self.iso_type and of_kind and self.iso_type != of_kind:
            does = "is set beforehand" if of_kind == "II" else "shows the torque"
            raise refuse(f"A {self.kind} wrench {does}: it is of type {of_kind}, not {self.iso_type}.")
        if self.iso_letter and not (self.iso_type or of_kind):
            raise refuse("Write the type too, I (shows the torque) or II (is set beforehand).")
        if self.iso_class.startswith("I ") and self.iso_letter in ("F", "G"):
            raise refuse(f"Type I has the classes A to E; `{self.iso_letter}` was found.")
        return self

    @model_validator(mode="after")
    def _two_scales_of_one_wrench(self) -> "Wrench":
        if self.length is not None:
            _single(self.length, of="length", example="380 mm")
        if self.second_scale is not None:
            ends = [scale.range.high_in("N·m") or 0.0 for scale in self.scales]
            if max(ends) > _SAME_END * min(ends):
                raise refuse(
                    f"The two scales do not end together: `{self.range.text}` and `{self.second_scale.range.text}`. "
                    "Look at the wrench again."
                )
        return self

    @property
    def scales(self) -> tuple[Scale, ...]:
        """Its scales, the first one first."""
        return (self,) if self.second_scale is None else (self, self.second_scale)

    @property
    def iso_class(self) -> str:
        """Type and class as the standard names them, like `II A`; empty where the kit does not say."""
        return f"{self.iso_type or _TYPE_OF[self.kind]} {self.iso_letter}" if self.iso_letter else ""

    @property
    def length_mm(self) -> float | None:
        """From the center of the grip to the center of the drive [mm]."""
        return self.length.in_unit("mm") if self.length is not None else None


class Adapter(Section):
    """A crow-foot, a ring end or another extension that carries the drive sideways, off the wrench's head."""

    name: Text
    length: Length
    angle: Angle | None = None
    note: Text | None = None

    @model_validator(mode="after")
    def _one_shape(self) -> "Adapter":
        _single(self.length, of="length", example="50 mm")
        if self.length_mm <= 0:
            raise refuse("The length of an adapter must be above zero.")
        if self.angle is not None:
            _single(self.angle, of="angle", example="90°")
        return self

    @property
    def length_mm(self) -> float:
        """From the center of the drive to the center of the bolt [mm]."""
        return self.length.in_unit("mm")

    @property
    def angle_deg(self) -> float:
        """Against the wrench: 0 straight out, 90 square, 180 folded back [°]."""
        return self.angle.in_unit("°") if self.angle is not None else 0.0


class SpringScale(Section):
    """A spring scale to pull on a lever with."""

    name: Text
    range: Force
    step: Force | None = None
    error: Force | None = None
    note: Text | None = None

    @model_validator(mode="after")
    def _closed(self) -> "SpringScale":
        span = self.range.first
        if span.low is None or span.high is None or span.single:
            raise refuse(f"`{span.text}` is not the range of a spring scale. Write `0–100 N`.")
        return self
