"""Measuring instruments: what each kind reads, what it reaches, its step, and how far it may be off."""

import re
from typing import Annotated, Any, Literal, get_args

from pydantic import (
    BeforeValidator,
    PlainValidator,
    ValidationInfo,
    WithJsonSchema,
    field_validator,
    model_validator,
)

from gudgeon.errors import InputError
from gudgeon.quantity.units import kinds_of
from gudgeon.quantity.written import Printed
from gudgeon.sources.materials import is_material, material_names
from gudgeon.written.check import unknown
from gudgeon.written.fields import Angle, Day, Gap, Key, Length, Section, Text, Whole, read_figure, refuse

GaugeKind = Literal[
    "feeler blades",
    "straightedge",
    "knife straightedge",
    "shop straightedge",
    "caliper",
    "digital caliper",
    "outside micrometer",
    "inside micrometer",
    "depth micrometer",
    "bore gauge",
    "telescoping gauge",
    "small-hole gauge",
    "dial gauge",
    "lever indicator",
    "height gauge",
    "surface plate",
    "V-blocks",
    "square",
    "plug gauge",
    "thread gauge",
    "plastic gauging strip",
    "spring tester",
    "scale",
    "compression gauge",
    "oil pressure gauge",
    "pressure tester",
    "burette",
    "thermometer",
    "other",
]

READS = {
    "compression gauge": "pressure_gauge",
    "oil pressure gauge": "pressure_gauge",
    "pressure tester": "pressure_gauge",
    "burette": "volume",
    "thermometer": "temperature",
    "scale": "mass",
    "spring tester": "force",
}
"""What the kinds read that read no length."""

_OF_OTHER = (
    "length", "pressure_gauge", "volume", "temperature", "mass", "force", "angle", "torque", "time", "speed", "voltage",
    "area", "ratio",
)  # fmt: skip
"""What a gauge of the kind `other` may read; the unit of its figures tells."""

STRIP_STEPS_MM = tuple(0.0127 * number for number in range(2, 15))
"""The printed widths of plastic gauging strip, half a thousandth of an inch apart (common practice)."""
STRIP_RANGE_MM = (0.025, 0.175)
"""What one strip reaches (common practice)."""
GOOD_FOR_MONTHS = 12
"""How long a check is good for where the kit does not say (common practice)."""

DIFFERENCE = {"length": "length_difference", "temperature": "temperature_difference"}
"""What a difference of two readings is, where it is another kind of quantity."""
_HERE = WithJsonSchema(
    {"type": ["string", "number"], "description": "a figure of what the gauge reads, with its unit"}
)


def _printed(value: Any) -> Any:
    return value if isinstance(value, Printed) else read_figure(value, "length")


Here = Annotated[Printed, PlainValidator(_printed), _HERE]


def _months(value: Any) -> int:
    if isinstance(value, int):
        return value
    found = re.fullmatch(r"(\d{1,3})\s*(month|year)s?", str(value).strip())
    if found is None or int(found[1]) == 0:
        raise refuse(f"A time like `12 months` or `2 years` was expected, `{value}` was found.")
    return int(found[1]) * (12 if found[2] == "year" else 1)


Months = Annotated[
    int, BeforeValidator(_months), WithJsonSchema({"type": "string", "examples": ["12 months", "2 years"]})
]


class Gauge(Section):
    """A measuring instrument: what it reaches, its step, and its permitted error.

    Range, step and error are of what its kind reads: pressure, volume, temperature, mass, force, else length. The
    error may be a share of the reading. `stated_as` says whether it is a permitted error, or the U of a certificate.
    """

    name: Text
    kind: GaugeKind
    range: Here | None = None
    step: Here | None = None
    error: Here | None = None
    stated_as: Literal["permitted error", "U (k = 2)"] = "permitted error"
    blades: tuple[Gap, ...] = ()
    steps: tuple[Gap, ...] = ()
    length: Length | None = None
    grade: Annotated[Whole, WithJsonSchema({"type": "integer", "enum": [0, 1, 2, 3]})] | None = None
    angle: Angle | None = None
    go: Length | None = None
    no_go: Length | None = None
    thread: Text | None = None
    material: Text | None = None
    zeroed_in: Key | None = None
    checked: Day | None = None
    good_for: Months | None = None
    note: Text | None = None

    @field_validator("range", "step", "error", mode="before")
    @classmethod
    def _of_what_it_reads(cls, value: Any, info: ValidationInfo) -> Any:
        kind = str(info.data.get("kind", "other"))
        if value is None or isinstance(value, Printed):
            return value
        if info.field_name == "error" and str(value).strip().endswith("%"):
            return read_figure(str(value).strip(), "ratio")
        reads = READS.get(kind, "length") if kind != "other" else _told_by_unit(str(value))
        return read_figure(value, reads if info.field_name == "range" else DIFFERENCE.get(reads, reads))

    @field_validator("material")
    @classmethod
    def _known_material(cls, value: str | None) -> str | None:
        if value is not None and not is_material(value):
            raise refuse(unknown("material", value=value, known=material_names()))
        return value

    @model_validator(mode="after")
    def _holds_together(self) -> "Gauge":
        for why in _contradictions(self):
            raise refuse(why)
        return self

    @property
    def reads(self) -> str:
        """The kind of quantity that it reads."""
        for figure in (self.range, self.step, self.error):
            if self.kind == "other" and figure is not None and (kind := _kind_of(figure)) != "ratio":
                return {difference: kind for kind, difference in DIFFERENCE.items()}.get(kind, kind)
        return READS.get(self.kind, "length")

    @property
    def error_share(self) -> float | None:
        """How far it may be off as a share of the reading, where the kit says it so."""
        if self.error is None or _kind_of(self.error) != "ratio":
            return None
        return abs(self.error.middle_in("1"))

    @property
    def standard(self) -> str:
        """The name under which a published permitted error of its kind is on file."""
        if self.kind == "surface plate" and self.grade is not None:
            return f"surface plate, grade {self.grade}"
        return {"knife straightedge": "straightedge", "telescoping gauge": "", "small-hole gauge": ""}.get(
            self.kind, self.kind
        )

    def error_at(self, reading: float, *, unit: str) -> float | None:
        """How far it may be off at a reading in a unit, in that unit, as the kit states it; None where it does not.

        A unit of another kind than the gauge reads is None too: it says nothing of such a reading.
        """
        if self.error is None:
            return None
        share = self.error_share
        try:
            return (
                share * abs(reading)
                if share is not None
                else abs(self.error.high_in(_symbol(unit, self)) or 0.0)
            )
        except InputError:
            return None

    @property
    def step_widths_mm(self) -> tuple[float, ...]:
        """The widths that a plastic gauging strip can tell apart: as the kit says, else as they are usually printed."""
        if self.kind != "plastic gauging strip":
            return ()
        return tuple(one.middle_in("mm") for one in self.steps) or STRIP_STEPS_MM


def _symbol(symbol: str, gauge: Gauge) -> str:
    """The unit of a difference: 1 °C of a thermometer is 1 K."""
    return {"°C": "K"}.get(symbol, symbol) if gauge.reads == "temperature" else symbol


def _kind_of(figure: Printed) -> str:
    end = figure.first.low or figure.first.high
    assert end is not None  # a span has at least one end
    return end.kind.name


def _told_by_unit(text: str) -> str:
    """What a gauge of the kind `other` reads, by the unit of a figure; a length where no unit tells."""
    found = re.search(r"[^\d\s.,±+–-][^\d]*$", text.strip().rstrip(")]"))
    kinds = {one.name for one in kinds_of(found[0].strip())} if found else set()
    return next((kind for kind in _OF_OTHER if kind in kinds), "length")


def _contradictions(gauge: Gauge) -> "list[str]":
    """What cannot be true of one gauge."""
    found = []
    reach = gauge.range.first if gauge.range is not None else None
    if reach is not None and (reach.low is None or reach.high is None or reach.single):
        found.append(f"`{reach.text}` is not what a gauge reaches. Write both ends, like `0–150 mm`.")
    elif reach is not None and gauge.range is not None and reach.high is not None:
        base = reach.high.unit.symbol
        widest = max(abs(gauge.range.low_in(base) or 0.0), abs(gauge.range.high_in(base) or 0.0))
        off = gauge.error_at(widest, unit=base)
        if off is not None and off > widest:
            assert gauge.error is not None  # it states one
            found.append(
                f"The error ({gauge.error.text}) is larger than the range ({gauge.range.text}). Look again."
            )
    if gauge.error_share is not None and not 0 < gauge.error_share < 1:
        assert gauge.error is not None  # it states one
        found.append(f"`{gauge.error.text}` is no share of a reading. Write it like `5 %`.")
    for name, rows in (("blades", gauge.blades), ("steps", gauge.steps)):
        sizes = [one.middle_in("mm") for one in rows]
        wrong = next((rows[at] for at in range(1, len(sizes)) if sizes[at] <= sizes[at - 1]), None)
        if wrong is not None:
            found.append(f"The {name} do not ascend: `{wrong.text}` is not more than the one before it.")
    if (
        gauge.go is not None
        and gauge.no_go is not None
        and gauge.go.middle_in("mm") >= gauge.no_go.middle_in("mm")
    ):
        found.append(
            f"The go end (`{gauge.go.text}`) of a plug gauge is smaller than the no-go (`{gauge.no_go.text}`)."
        )
    if gauge.grade is not None and gauge.grade not in (0, 1, 2, 3):
        found.append(f"Surface plates are of grade 0 to 3; `{gauge.grade}` was found.")
    return found


def kinds_of_gauge() -> tuple[str, ...]:
    """Every kind that a kit may name."""
    return get_args(GaugeKind)
