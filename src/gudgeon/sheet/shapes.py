"""Limits that one figure cannot hold: each shape a manual uses, and what it needs.

limits:
  - {shape: whole face and per length, total: max 0.10 mm, limit: max 0.05 mm, over: 150 mm}
  - {shape: by direction, lengthwise: max 0.05 mm, crosswise: max 0.03 mm, overall: max 0.10 mm}
  - {shape: per unit of span, limit: max 0.00075 in, per: 1 in}
  - {shape: two faces together, with: deck_flatness, limit: max 0.10 mm}
  - {shape: difference between cylinders, percent_below_mean: max 10 %}
"""

from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import BeforeValidator, Discriminator, Field, Tag, model_validator

from gudgeon.sheet.figures import Sourced, Stated, StatedGap, StatedLength, StatedRatio
from gudgeon.written.fields import Key, Name, refuse

StandsFor = Literal["new range", "wear limit", "required"]


@dataclass(frozen=True, slots=True)
class Unread:
    """A figure that is not of the kind of its characteristic, and why."""

    why: str


def _of_its_kind(value: Any) -> Any:
    if isinstance(value, Unread):
        raise refuse(value.why)
    return value


OfItsKind = Annotated[Stated, BeforeValidator(_of_its_kind)]
"""A figure of the kind that the characteristic reads; the characteristic reads it, for it knows the kind."""


class Shape(Sourced):
    """A limit with a shape; `stands_for` says what it limits, as the plain figures do."""

    shape: str
    stands_for: StandsFor = "wear limit"

    figures: ClassVar[tuple[str, ...]] = ("limit",)
    """The fields that hold its figures."""
    spans: ClassVar[tuple[str, ...]] = ("over", "per", "span")
    """Those of them, in any shape, that are lengths to limit by and limit nothing."""
    own_kind: ClassVar[bool] = False
    """Whether `limit` is a difference of what the characteristic reads, whatever that is."""
    of_flatness: ClassVar[bool] = False
    """Whether it limits how flat or straight something is."""

    def limiting(self) -> dict[str, Stated]:
        """Its figures that limit a reading, by the names of their fields."""
        found = {name: getattr(self, name) for name in self.figures if name not in self.spans}
        return {name: figure for name, figure in found.items() if figure is not None}


class WholeFace(Shape):
    """Flatness of the whole face: all its points between two parallel planes (ISO 1101)."""

    shape: Literal["whole face"]
    limit: StatedGap

    of_flatness = True


class PerLength(Shape):
    """Flatness over any stretch of a length."""

    shape: Literal["per length"]
    limit: StatedGap
    over: StatedLength

    figures = ("limit", "over")
    of_flatness = True


class WholeAndPerLength(Shape):
    """Flatness of the whole face, and over any stretch of a length."""

    shape: Literal["whole face and per length"]
    total: StatedGap
    limit: StatedGap
    over: StatedLength

    figures = ("total", "limit", "over")
    of_flatness = True


class ByDirection(Shape):
    """One limit for lines lengthwise, one crosswise, one for all."""

    shape: Literal["by direction"]
    lengthwise: StatedGap | None = None
    crosswise: StatedGap | None = None
    overall: StatedGap | None = None

    figures = ("lengthwise", "crosswise", "overall")
    of_flatness = True

    @model_validator(mode="after")
    def _one_at_least(self) -> Self:
        if not any((self.lengthwise, self.crosswise, self.overall)):
            raise refuse("`by direction` states at least one of lengthwise, crosswise and overall.")
        return self


class PerSpan(Shape):
    """A limit that grows with the span: of each line, or the span stated here."""

    shape: Literal["per unit of span"]
    limit: StatedGap
    per: StatedLength
    span: StatedLength | None = None

    figures = ("limit", "per", "span")


class TwoFaces(Shape):
    """The faces on both sides of one gasket, added."""

    shape: Literal["two faces together"]
    other: Key = Field(alias="with")
    limit: StatedGap

    of_flatness = True


class BetweenPlaces(Shape):
    """The greatest difference between its places; `within` names the division inside which they are compared."""

    shape: Literal["difference between places"]
    limit: OfItsKind
    within: Name | None = None

    own_kind = True


class BetweenCylinders(Shape):
    """How far cylinders may differ: by so much, as a share of the highest, or below the mean."""

    shape: Literal["difference between cylinders"]
    limit: OfItsKind | None = None
    percent_of_highest: StatedRatio | None = None
    percent_below_mean: StatedRatio | None = None

    figures = ("limit", "percent_of_highest", "percent_below_mean")
    own_kind = True

    @model_validator(mode="after")
    def _just_one(self) -> Self:
        said = [name for name in self.figures if getattr(self, name) is not None]
        if len(said) != 1:
            raise refuse(
                "`difference between cylinders` states one of limit, percent_of_highest and percent_below_mean; "
                f"{len(said)} were found."
            )
        return self


class SumWith(Shape):
    """This reading and that of another part, added."""

    shape: Literal["sum with another part"]
    other: Key = Field(alias="with")
    limit: StatedGap


class Matched(Shape):
    """Parts whose ranges alone cannot meet a clearance: each is given the place where it fits."""

    shape: Literal["matched pairs"]
    clearance: StatedGap

    figures = ("clearance",)


class ReplaceAlways(Shape):
    """No reading makes it good: a new one every time."""

    shape: Literal["replace always"]

    figures = ()


SHAPES: tuple[type[Shape], ...] = (
    WholeFace, PerLength, WholeAndPerLength, ByDirection, PerSpan, TwoFaces, BetweenPlaces, BetweenCylinders,
    SumWith, Matched, ReplaceAlways,
)  # fmt: skip


def _shape_of(value: Any) -> Any:
    return value.get("shape") if isinstance(value, dict) else getattr(value, "shape", None)


AnyShape = Annotated[
    Annotated[WholeFace, Tag("whole face")]
    | Annotated[PerLength, Tag("per length")]
    | Annotated[WholeAndPerLength, Tag("whole face and per length")]
    | Annotated[ByDirection, Tag("by direction")]
    | Annotated[PerSpan, Tag("per unit of span")]
    | Annotated[TwoFaces, Tag("two faces together")]
    | Annotated[BetweenPlaces, Tag("difference between places")]
    | Annotated[BetweenCylinders, Tag("difference between cylinders")]
    | Annotated[SumWith, Tag("sum with another part")]
    | Annotated[Matched, Tag("matched pairs")]
    | Annotated[ReplaceAlways, Tag("replace always")],
    Discriminator(_shape_of),
]
