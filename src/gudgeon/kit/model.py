"""What he owns: torque tools, gauges, turning tools, stock, hours and rates."""

from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from gudgeon.kit.torque import Adapter, SpringScale, Wrench
from gudgeon.quantity.written import Printed
from gudgeon.written.fields import (
    Angle,
    Day,
    FigureOf,
    Gap,
    Key,
    Length,
    Section,
    Text,
    Whole,
    YesNo,
    written_parts,
)

GaugeKind = Literal[
    "feeler blades",
    "straightedge",
    "caliper",
    "outside micrometer",
    "inside micrometer",
    "depth micrometer",
    "bore gauge",
    "dial gauge",
    "plastic gauging strip",
    "compression gauge",
    "oil pressure gauge",
    "burette",
    "thermometer",
    "other",
]


AnyRange = Annotated[Printed, FigureOf("length")]


class Gauge(Section):
    """A measuring instrument: what it reaches, its step, and its permitted error."""

    name: Text
    kind: GaugeKind
    range: AnyRange | None = None
    step: Gap | None = None
    error: Gap | None = None
    blades: tuple[Gap, ...] = ()
    length: Length | None = None
    checked: Day | None = None
    note: Text | None = None


class Turning(Section):
    """A tool that turns a bolt by an angle, or loosens it."""

    name: Text
    kind: Literal["angle gauge", "paint marks", "bar", "ratchet"]
    step: Angle | None = None
    error: Angle | None = None
    length: Length | None = None


class Hours(Section):
    """When there is time for the engine."""

    evenings: Text | None = None
    weekend: Text | None = None


class Rates(Section):
    """What an hour is worth, for his own account."""

    own_hour: Text | None = None
    machine_shop_hour: Text | None = None


class Kit(Section):
    """What the person owns."""

    gudgeon: Literal["kit 1"]
    invented: YesNo = False
    units: Literal["metric", "inch"] = "metric"
    wrenches: dict[Key, Wrench] = Field(default_factory=dict)
    adapters: dict[Key, Adapter] = Field(default_factory=dict)
    spring_scales: dict[Key, SpringScale] = Field(default_factory=dict)
    gauges: dict[Key, Gauge] = Field(default_factory=dict)
    turning: dict[Key, Turning] = Field(default_factory=dict)
    shims_in_stock: dict[Text, Whole] = Field(default_factory=dict)
    hours: Hours | None = None
    rates: Rates | None = None

    @model_validator(mode="before")
    @classmethod
    def _nothing_yet(cls, value: Any) -> Any:
        return written_parts(value)
