"""Bodies: which build and engine, what was measured, what was photographed."""

from collections.abc import Sequence
from decimal import ROUND_HALF_EVEN, Decimal, localcontext
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from gudgeon.book.body import About, Body, Name, Number, Ordinal, PhotoSha, Remark, Said

MOST_REPEATS = 200
MOST_POINTS = 5000
"""More points of a face than that are thinned out before they go into the book."""


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


class Reading1(Body):
    """A value, or the interval of a go and a no-go, as readings were kept first; none is written any more."""

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
    def _value_or_interval(self) -> Self:
        if (self.value is None) == (self.low is None and self.high is None):
            raise ValueError("one value or an interval was expected")
        if self.low is not None and self.high is not None and Decimal(self.low) > Decimal(self.high):
            raise ValueError("the blade that enters is thicker than the one that does not")
        return self


class Reading(Reading1):
    """A value, or the interval of a go and a no-go, with its repeats, and how warm part and gauge were.

    Of repeats the value is the mean. `gauge_as_part` says that the gauge was as warm as the part.
    """

    repeats: list[Number] = Field(default_factory=list, max_length=MOST_REPEATS)
    part_temperature: Number | None = None
    gauge_temperature: Number | None = None
    temperature_unit: Literal["°C", "°F", "K"] | None = None
    gauge_as_part: bool = False

    @model_validator(mode="after")
    def _mean_of_repeats(self) -> Self:
        if not self.repeats:
            return self
        if self.value is None:
            raise ValueError("repeats belong to a value, not to an interval")
        if len(self.repeats) < 2:
            raise ValueError("one repeat is none: at least two were expected")
        mean = mean_of(self.repeats)
        if self.value != mean:
            raise ValueError(f"the value {self.value} is not the mean of its repeats, {mean}")
        return self

    @model_validator(mode="after")
    def _temperatures(self) -> Self:
        read = [one for one in (self.part_temperature, self.gauge_temperature) if one is not None]
        if bool(read) != (self.temperature_unit is not None):
            raise ValueError("a temperature and its unit belong together")
        if self.gauge_as_part and (self.part_temperature is None or self.gauge_temperature is not None):
            raise ValueError(
                "a gauge as warm as the part has the temperature of the part and none of its own"
            )
        return self


def mean_of(repeats: Sequence[str]) -> str:
    """The mean of decimals, rounded half to even two digits beyond the finest of them.

    Example:
        >>> mean_of(["81.65", "81.66", "81.65"])
        '81.6533'
    """
    with localcontext() as exact:
        exact.prec = 200
        numbers = [Decimal(one) for one in repeats]
        digits = max(max(0, -int(one.as_tuple().exponent)) for one in numbers)
        mean = sum(numbers, Decimal(0)) / len(numbers)
        return format(mean.quantize(Decimal(1).scaleb(-digits - 2), rounding=ROUND_HALF_EVEN), "f")


Position = Annotated[list[Number], Field(min_length=3, max_length=3)]


class FaceScanned(Body):
    """Points of a face, x, y and z in one unit, taken over from a file."""

    item: Name
    unit: Literal["mm", "in", "µm", "thou", "cm", "m"]
    points: list[Position] = Field(min_length=1, max_length=MOST_POINTS)
    instrument: Remark = ""
    condition: Literal["as found", "as left"]
    file: Name
    sha: PhotoSha
    shown: dict[str, str] = Field(default_factory=dict)
    note: Remark = ""


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
