"""What the standard on hand torque tools says of their error and their checks."""

import math
from functools import lru_cache
from typing import Any

from gudgeon.sources.figures import Figure, Source
from gudgeon.sources.tables import read


@lru_cache(maxsize=1)
def _tools() -> tuple[dict[str, Any], dict[str, Source]]:
    return read("torque_tools")


def permitted_deviation(kind: str, scale_max_nm: float) -> Figure:
    """The permitted deviation of a torque wrench, as a share of its setting.

    Kinds: click, dial, electronic, beam; the end of the scale is in N·m.
    """
    data, found = _tools()
    for row in data["deviation"]:
        if kind in row["tools"] and scale_max_nm <= row.get("up_to_nm", math.inf):
            return Figure(row["share"], "1", found[row["source"]])
    raise KeyError(kind)


def default_deviation(kind: str, scale_max_nm: float) -> float:
    """The permitted deviation as a bare share; see permitted_deviation for its source."""
    return permitted_deviation(kind, scale_max_nm).value


def tool_figure(name: str) -> Figure:
    """One figure: least_share, recheck_months, recheck_cycles, overload_share, pulls_before_check."""
    data, found = _tools()
    row = data["figure"][name]
    return Figure(row["value"], row["unit"], found[row["source"]])
