"""The calculator of a bead of sealant: from inputs to the kernels and back to results."""

from collections.abc import Mapping

from gudgeon.calc.calculator import Found, Value, Worked
from gudgeon.calc.planning.supplies import bead_cm3, bead_from_tube_mm, closed_path_mm
from gudgeon.calc.planning.supplies_errors import LengthOrPoints, PointUnreadable
from gudgeon.calc.reading import figure, maybe, text
from gudgeon.sources.supplies import supply_figure


def sealant_bead(values: Mapping[str, Value]) -> Worked:
    """Works out planning.sealant-bead."""
    length, points = maybe(values, "length"), values["points"]
    if (length is None) == (points is None):
        raise LengthOrPoints
    way = length if length is not None else closed_path_mm(_points(text(values, "points")))
    width, given = figure(values, "width"), maybe(values, "reserve")
    reserve = supply_figure("bead_reserve").value if given is None else given
    results: dict[str, Found] = {
        "length_mm": way,
        "volume_cm3": bead_cm3(way, diameter_mm=width, reserve=reserve),
    }
    flags = []
    tube = maybe(values, "tube")
    if tube is not None:
        results["from_tube_mm"] = bead_from_tube_mm(tube, diameter_mm=width, reserve=reserve)
    if length is None:
        flags.append("The way goes through the points; a bead inside the holes is shorter.")
    return Worked(results, tuple(flags))


def _points(written: str) -> list[tuple[float, float]]:
    found = []
    for one in written.split(";"):
        try:
            x, y = (float(part) for part in one.split())
        except ValueError:
            raise PointUnreadable(one.strip()) from None
        found.append((x, y))
    return found
