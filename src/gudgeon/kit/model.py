"""What he owns: torque tools, gauges, turning tools, stock, hours and rates; and from whom he buys."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, model_validator

from gudgeon.kit.gauges import Gauge as Gauge
from gudgeon.kit.hours import Hours as Hours
from gudgeon.kit.rates import Rates as Rates
from gudgeon.kit.suppliers import Supplier as Supplier
from gudgeon.kit.torque import Adapter, SpringScale, Wrench
from gudgeon.written.fields import (
    Angle,
    Key,
    Length,
    Section,
    Text,
    Whole,
    YesNo,
    written_parts,
)


def _size(value: Any) -> Any:
    return value.strip().lower() if isinstance(value, str) else value


Paper = Annotated[Literal["a4", "letter"], BeforeValidator(_size)]
"""A size of paper, in any case: it is written A4 and Letter on the packet."""


class Turning(Section):
    """A tool that turns a bolt by an angle, or loosens it."""

    name: Text
    kind: Literal["angle gauge", "paint marks", "bar", "ratchet"]
    step: Angle | None = None
    error: Angle | None = None
    length: Length | None = None


class Kit(Section):
    """What the person owns.

    `other_tools` names what else is there for the job, such as a spring compressor. `altitude` is how high above the
    sea he works. `shims_in_stock` counts shims by thickness; `shim_price` is what a shim costs, `shim_prices` what
    those of one thickness cost where they differ, each with its currency. `paper` is the size in his printer.
    """

    gudgeon: Literal["kit 1"]
    invented: YesNo = False
    units: Literal["metric", "inch"] = "metric"
    paper: Paper | None = None
    wrenches: dict[Key, Wrench] = Field(default_factory=dict)
    adapters: dict[Key, Adapter] = Field(default_factory=dict)
    spring_scales: dict[Key, SpringScale] = Field(default_factory=dict)
    gauges: dict[Key, Gauge] = Field(default_factory=dict)
    turning: dict[Key, Turning] = Field(default_factory=dict)
    other_tools: tuple[Text, ...] = ()
    altitude: Length | None = None
    shims_in_stock: dict[Text, Whole] = Field(default_factory=dict)
    shim_price: Text | None = None
    shim_prices: dict[Text, Text] = Field(default_factory=dict)
    suppliers: dict[Key, Supplier] = Field(default_factory=dict)
    hours: Hours | None = None
    rates: Rates | None = None

    @model_validator(mode="before")
    @classmethod
    def _nothing_yet(cls, value: Any) -> Any:
        return written_parts(value)
