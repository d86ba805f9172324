"""What the standard on hand torque tools says of their error and their checks."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from gudgeon.sources.figures import Figure, Source
from gudgeon.sources.tables import read


@lru_cache(maxsize=1)
def _tools() -> tuple[dict[str, Any], dict[str, Source]]:
    return read("torque_tools")


@dataclass(frozen=True, slots=True)
class UsualRange:
    """A torque wrench as it is usually sold: ends of its scale and its step [N·m]."""

    from_nm: float
    to_nm: float
    step_nm: float
    source: Source


def permitted_deviation(kind: str, scale_max_nm: float, *, iso_class: str = "") -> Figure:
    """The permitted deviation of a torque wrench, as a share of its setting.

    Kinds: click, dial, electronic, beam; the end of the scale is in N·m. Type and class, like `II A`,
    go before the kind where they are known.
    """
    data, found = _tools()
    named, rows = (iso_class, data["by_class"]) if iso_class else (kind, data["deviation"])
    for row in rows:
        if named in row.get("classes", row.get("tools")) and scale_max_nm <= row.get("up_to_nm", math.inf):
            return Figure(row["share"], "1", found[row["source"]])
    raise KeyError(named)


def usual_ranges() -> tuple[UsualRange, ...]:
    """The ranges in which torque wrenches are usually sold, the smallest first."""
    data, found = _tools()
    return tuple(
        UsualRange(row["from_nm"], row["to_nm"], row["step_nm"], found[row["source"]])
        for row in data["usual_range"]
    )


def tool_figure(name: str) -> Figure:
    """One figure: least_share, recheck_months, recheck_cycles, overload_share, pulls_before_check."""
    data, found = _tools()
    row = data["figure"][name]
    return Figure(row["value"], row["unit"], found[row["source"]])
