"""Bodies: which build and engine, what was measured, what was photographed."""

from decimal import Decimal
from typing import Literal

from pydantic import Field, model_validator

from gudgeon.book.body import About, Body, Name, Number, Ordinal, PhotoSha, Remark, Said


class BuildOpened(Body):
    """A build is begun."""

    name: Name
    engine: Name
    sheet_path: Said
    kit_path: Said


class IdentityRead(Body):
    """The code as read off the engine."""

    code: Name
    read_from: Said
    matches: bool
    why_not: Said | None = None


class Reading(Body):
    """A value, or the interval of a go and a no-go."""

    item: Name
    place: Remark
    value: Number | None = None
    low: Number | None = None
    high: Number | None = None
    unit: Name
    instrument: Remark = ""
    condition: Literal["as found", "as left"]
    shown: dict[str, str] = Field(default_factory=dict)
    note: Remark = ""

    @model_validator(mode="after")
    def _value_or_interval(self) -> "Reading":
        if (self.value is None) == (self.low is None and self.high is None):
            raise ValueError("one value or an interval was expected")
        if self.low is not None and self.high is not None and Decimal(self.low) > Decimal(self.high):
            raise ValueError("the blade that enters is thicker than the one that does not")
        return self


class OdometerRead(Body):
    """How far the car has gone, as its odometer shows it."""

    value: Number
    unit: Literal["km", "mi"]

    @model_validator(mode="after")
    def _never_below_nothing(self) -> "OdometerRead":
        if Decimal(self.value) < 0:
            raise ValueError("no odometer shows less than nothing")
        return self


class Pin(Body):
    """A numbered place on a photo, in thousandths of its width and height, and what is there."""

    number: Ordinal
    x: int = Field(ge=0, le=1000)
    y: int = Field(ge=0, le=1000)
    text: Name


class Photo(Body):
    """A photo kept beside the book by its hash; `taken` is the time that the camera wrote into it."""

    sha: PhotoSha
    type: Literal["jpeg", "png", "webp"]
    width: int = Field(ge=1, le=100_000)
    height: int = Field(ge=1, le=100_000)
    taken: Remark = ""
    caption: Name
    about: list[About] = Field(default_factory=list)
    pins: list[Pin] = Field(default_factory=list)
