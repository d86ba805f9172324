"""Faces that must be flat: outline, what opens into them, lines for a straightedge, points for a dial gauge."""

from typing import Literal, Self

from pydantic import Field, model_validator

from gudgeon.sheet.figures import Sourced
from gudgeon.written.fields import Key, Length, Name, Section, Text, refuse

Along = Literal["lengthwise", "crosswise", "diagonal"]


class Point(Section):
    """A point of a face, from the same zero as the bolts of its joint, seen from the same side."""

    x: Length
    y: Length


class Opening(Point):
    """A round opening of the face: a combustion chamber, or the fire ring of the gasket around it."""

    name: Text | None = None
    diameter: Length

    @model_validator(mode="after")
    def _open(self) -> Self:
        if not self.diameter.middle_in("mm") > 0:
            raise refuse(f"`{self.diameter.text}` is no diameter of an opening.")
        return self


class Line(Section):
    """A line that a straightedge is laid on; its length is stated, or follows from its ends."""

    along: Along
    start: Point | None = Field(default=None, alias="from")
    end: Point | None = Field(default=None, alias="to")
    length: Length | None = None

    @model_validator(mode="after")
    def _both_ends(self) -> Self:
        if (self.start is None) != (self.end is None):
            raise refuse("A line has both ends or none: `from:` and `to:`.")
        if not (self.length_mm() or 0) > 0 and (self.length is not None or self.start is not None):
            raise refuse("A line has a length above zero: its ends are one point, or its `length:` is none.")
        return self

    def length_mm(self) -> float | None:
        """How long the line is, as stated or between its ends."""
        return self.length.middle_in("mm") if self.length is not None else self.between_ends_mm()

    def between_ends_mm(self) -> float | None:
        """How far its ends lie apart, where they are stated."""
        if self.start is None or self.end is None:
            return None
        across = self.end.x.middle_in("mm") - self.start.x.middle_in("mm")
        up = self.end.y.middle_in("mm") - self.start.y.middle_in("mm")
        return float((across**2 + up**2) ** 0.5)


class Face(Sourced):
    """A machined face. `bolts_of` names the joint whose bolts go through it.

    `lines` are those that a straightedge is laid on, `points` those whose heights over a plate are read.
    """

    name: Text
    viewed_from: Text | None = None
    outline: tuple[Point, ...] = ()
    openings: tuple[Opening, ...] = ()
    bolts_of: Key | None = None
    lines: dict[Name, Line] = Field(default_factory=dict)
    points: dict[Name, Point] = Field(default_factory=dict)
