"""Holes that a bolt passes through with the usual play."""

from math import ceil

from gudgeon.sources.figures import Figure
from gudgeon.sources.tables import read


def clearance_hole(diameter_mm: float) -> Figure:
    """The hole for a thread or a shank of this diameter: medium series of ISO 273, else by common practice."""
    data, found = read("clearance_holes")
    sizes = dict(map(tuple, data["medium"]["sizes_mm"]))
    if diameter_mm in sizes:
        return Figure(sizes[diameter_mm], "mm", found[data["medium"]["source"]])
    more, step = data["others"]["more"], data["others"]["step_mm"]
    return Figure(
        ceil(round(diameter_mm * (1 + more) / step, 9)) * step, "mm", found[data["others"]["source"]]
    )
