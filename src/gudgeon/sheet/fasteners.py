"""What a joint is made of, as far as its clamp depends on it: bolt, clamped parts, friction, gasket.

Nearly all of it is optional. The pull list needs none of it; what limits the clamp can only be worked out
from what is stated, and names what is not.
"""

import re
from typing import Annotated, Any, Literal, get_args

from pydantic import Field, PlainValidator, WithJsonSchema, model_validator

from gudgeon.quantity.written import Printed
from gudgeon.sheet.figures import Sourced
from gudgeon.written.fields import FigureOf, Gap, Length, Ratio, Section, Text, YesNo, read_figure, refuse

HeadKind = Literal[
    "hexagon", "flange hexagon", "hexagon socket", "six-lobe socket", "six-lobe", "twelve-point", "slotted", "cross",
    "stud nut",
]  # fmt: skip
HEAD_KINDS: tuple[HeadKind, ...] = get_args(HeadKind)
WITH_FLATS: tuple[HeadKind, ...] = ("hexagon", "flange hexagon", "stud nut")
"""Heads with six flats that a person sees pass: the turn may also be told in flats of 60°."""

FrictionClass = Literal["A", "B", "C", "D", "E"]
Modulus = Annotated[Printed, FigureOf("stress", "72 GPa")]
Strength = Annotated[Printed, FigureOf("stress", "940 MPa")]
BendingStiffness = Annotated[Printed, FigureOf("bending_stiffness", "1.3e11 N·mm²", "130 kN·m²")]
PlateRigidity = Annotated[Printed, FigureOf("plate_rigidity", "7.2e8 N·mm")]
BeamFoundation = Annotated[Printed, FigureOf("beam_foundation", "2000 N/mm²")]
PlateFoundation = Annotated[Printed, FigureOf("plate_foundation", "20 N/mm³")]


def _head(value: Any) -> str:
    """The kind of head, and what else is written of it: `hexagon 13 mm`, `six-lobe socket E12`."""
    text = " ".join(value.split()) if isinstance(value, str) else ""
    if head_kind(text) is None:
        raise refuse(
            f"`{value}` is no head known here. It begins with one of: {', '.join(HEAD_KINDS)}; "
            "its size may follow, like `hexagon 13 mm`."
        )
    return text


def head_kind(text: str) -> HeadKind | None:
    """The kind with which a description of a head begins; the longest one counts."""
    known = sorted(HEAD_KINDS, key=len, reverse=True)
    return next((kind for kind in known if re.match(rf"{kind}(?![\w-])", text)), None)


Head = Annotated[
    str, PlainValidator(_head), WithJsonSchema({"type": "string", "examples": [*HEAD_KINDS, "hexagon 13 mm"]})
]


class Segment(Section):
    """One length of a bolt's shank between head and thread end: its diameter, or that it is threaded."""

    length: Length
    diameter: Length | None = None
    threaded: YesNo = False

    @model_validator(mode="after")
    def _one_of_both(self) -> "Segment":
        if self.threaded == (self.diameter is not None):
            raise refuse("A segment states its diameter, or `threaded: yes`: exactly one of both.")
        return self


class Fastener(Section):
    """One family of bolts, studs or nuts.

    `hole_depth` is how deep its hole is below the face that the clamped part lies on; `least_below` is what must stay
    free below the end of the bolt.
    """

    name: Text | None = None
    thread: Text
    strength_class: Text | None = None
    yield_strength: Strength | None = Field(default=None, alias="yield")
    hardening: Ratio | None = None
    free_length: Length | None = None
    grip: Length | None = None
    segments: tuple[Segment, ...] = ()
    engagement: Length | None = None
    bearing_diameter: Length | None = None
    hole: Length | None = None
    head: Head | None = None
    into: Text | None = None
    hole_kind: Literal["blind", "wet", "through"] | None = None
    hole_depth: Length | None = None
    least_below: Gap | None = None
    washer: Text | None = None

    @property
    def has_flats(self) -> bool:
        """Whether its head shows six flats from outside."""
        return self.head is not None and head_kind(self.head) in WITH_FLATS


class Layer(Section):
    """One clamped part under the bolt head, with what it is made of and how thick it is there."""

    name: Text
    thickness: Length
    material: Text | None = None
    modulus: Modulus | None = None

    @model_validator(mode="after")
    def _stated_once(self) -> "Layer":
        if (self.material is None) == (self.modulus is None):
            raise refuse("A clamped part states its material or its modulus: exactly one of both.")
        return self


GasketKind = Literal["multi-layer steel", "composite", "copper", "elastomer on steel", "other"]


class Gasket(Sourced):
    """What lies between the parts; `creep` is the share of its thickness lost in the first minutes."""

    name: Text
    kind: GasketKind | None = None
    thickness: Length | None = None
    creep: Ratio | None = None


class Friction(Sourced):
    """Friction of the thread and under the head, each a value or a range."""

    thread: Ratio
    head: Ratio


class Beam(Section):
    """The clamped part as a beam along the bolts on an elastic foundation."""

    bending_stiffness: BendingStiffness
    foundation: BeamFoundation
    length: Length | None = None


class Plate(Section):
    """The clamped part as a plate on an elastic foundation."""

    rigidity: PlateRigidity
    foundation: PlateFoundation
    length: Length | None = None
    width: Length | None = None
    poisson: Ratio | None = None


def _row(value: Any) -> tuple[float, ...]:
    if not isinstance(value, list | tuple):
        raise refuse("A row of the matrix was expected, like [2.1, 0.6, 0.1].")
    return tuple(read_figure(str(one), "number").middle_in("1") for one in value)


class Matrix(Section):
    """How far the part gives at each bolt (row) for one unit of load at each bolt (column), as numbered."""

    unit: Literal["mm/N", "µm/kN", "µm/N", "in/lbf", "µin/lbf"]
    rows: tuple[Annotated[tuple[float, ...], PlainValidator(_row), WithJsonSchema({"type": "array"})], ...]

    @model_validator(mode="after")
    def _square(self) -> "Matrix":
        if not self.rows or any(len(row) != len(self.rows) for row in self.rows):
            raise refuse("The matrix needs as many numbers in each row as it has rows: one for each bolt.")
        for one in range(len(self.rows)):
            for other in range(one):
                here, there = self.rows[one][other], self.rows[other][one]
                if abs(here - there) > 1e-6 * max(abs(here), abs(there)):
                    raise refuse(
                        f"The matrix says {here:g} in row {one + 1}, column {other + 1}, and {there:g} the other way "
                        "round. What one bolt does to another is the same both ways: look at the figures again."
                    )
        return self

    @property
    def mm_per_n(self) -> tuple[tuple[float, ...], ...]:
        """The rows in mm/N."""
        from gudgeon.quantity.units import convert

        return tuple(
            tuple(convert(one, frm=self.unit, to="mm/N", kind="compliance") for one in row)
            for row in self.rows
        )


class Bedding(Sourced):
    """How the clamped part carries the load of one bolt to the others: exactly one of three ways."""

    beam: Beam | None = None
    plate: Plate | None = None
    matrix: Matrix | None = None

    @model_validator(mode="after")
    def _one_way(self) -> "Bedding":
        if sum(one is not None for one in (self.beam, self.plate, self.matrix)) != 1:
            raise refuse("A bedding is stated in exactly one way: beam, plate or matrix.")
        return self
