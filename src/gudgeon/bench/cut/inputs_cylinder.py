"""One cylinder: what was measured of this engine comes before the figure of the manual."""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.given import CylinderGiven, GasketGiven, Given, State
from gudgeon.bench.cut.looked_for import LookedFor
from gudgeon.bench.cut.reading import by_cylinder, limit, mean_of, stated
from gudgeon.sheet.engine import Cylinder, HeadGasket, Poured

KINDS: dict[str, str] = {
    "bore": "length", "stroke": "length", "rod_length": "length", "chamber_volume": "volume",
    "chamber_mouth_area": "area", "crown_volume": "volume", "piston_height": "length_difference",
    "gasket_bore": "length", "gasket_thickness": "length_difference", "squish_pad_recess": "length_difference",
    "compression_ratio": "ratio",
}  # fmt: skip
"""What kind of quantity each figure of a cylinder is."""
OF_A_NEW_HEAD = ("chamber_volume", "squish_pad_recess")
"""Figures of the sheet that speak of a head from which nothing has come off."""
HIGHEST: dict[str, bool] = {
    "chamber_volume": False, "crown_volume": False, "piston_height": True, "gasket_thickness": False,
    "squish_pad_recess": False,
}  # fmt: skip
"""Of several cylinders the one counts that has the highest ratio and the least squish: is it the highest figure?"""


def cylinder(bench: Bench, wanted: LookedFor) -> CylinderGiven:
    """Everything of a cylinder that goes in."""
    sheet = bench.sheet.cylinder or Cylinder()

    def one(name: str) -> Given | None:
        return _one(bench, sheet, name, wanted)

    return CylinderGiven(
        bore=one("bore"),
        stroke=one("stroke"),
        rod_length=one("rod_length"),
        chamber_volume=one("chamber_volume"),
        mouth_area=one("chamber_mouth_area"),
        crown_volume=one("crown_volume"),
        piston_height=one("piston_height"),
        gasket_bore=one("gasket_bore"),
        gasket_thickness=one("gasket_thickness"),
        gaskets=tuple(_gaskets(bench, sheet, wanted)),
        squish_recess=one("squish_pad_recess"),
        least_squish=limit(
            bench, sheet.least_squish, name="least squish", path="cylinder.least_squish", kind="length_difference",
            source=sheet.cited(sheet.least_squish), upper=False,
        ),
        most_ratio=limit(
            bench, sheet.most_ratio, name="most ratio", path="cylinder.most_ratio", kind="ratio",
            source=sheet.cited(sheet.most_ratio), upper=True,
        ),
        stated_ratio=None if sheet.compression_ratio is None else one("compression_ratio"),
    )  # fmt: skip


def _one(bench: Bench, sheet: Cylinder, name: str, wanted: LookedFor) -> Given | None:
    """A figure of the cylinder: measured where the sheet names what holds it, else as printed."""
    words, kind = name.replace("_", " "), KINDS[name]
    for size, key in sheet.measured_as.items():
        if size == name and key in bench.sheet.characteristics:
            measured = _measured(bench, size, key, name=words, kind=kind)
            if measured is not None:
                return measured
    figure, state = getattr(sheet, name), _state(name)
    return wanted.take(
        stated(
            bench, figure, name=words, path=f"cylinder.{name}", kind=kind, source=sheet.cited(figure), state=state
        )
    )  # fmt: skip


def _state(name: str) -> State:
    return "new" if name in OF_A_NEW_HEAD else ""


def _measured(bench: Bench, size: Poured, key: str, *, name: str, kind: str) -> Given | None:
    if size == "bore":
        return mean_of(bench, key, name=name, kind=kind)
    return by_cylinder(bench, key, name=name, kind=kind, highest=HIGHEST[size])


def _gaskets(bench: Bench, sheet: Cylinder, wanted: LookedFor) -> Iterator[GasketGiven]:
    for name, gasket in sheet.gaskets.items():
        found = _gasket(bench, name, gasket, wanted)
        if found is not None:
            yield found


def _gasket(bench: Bench, name: str, gasket: HeadGasket, wanted: LookedFor) -> GasketGiven | None:
    path = f"cylinder.gaskets.{name}"
    sheet = bench.sheet.cylinder or Cylinder()
    source = gasket.cited(gasket.thickness) or sheet.source
    thickness = wanted.take(
        stated(
            bench, gasket.thickness, name=f"thickness of the gasket {name}", path=f"{path}.thickness",
            kind="length_difference", source=source,
        )
    )  # fmt: skip
    if thickness is None:
        return None
    cut, height = gasket.for_cut, gasket.for_piston_height
    return GasketGiven(
        name,
        gasket.mark or "",
        thickness,
        cut.value.low_in("mm") if cut is not None else None,
        cut.value.high_in("mm") if cut is not None else None,
        cut.value.text if cut is not None else "",
        height.value.low_in("mm") if height is not None else None,
        height.value.high_in("mm") if height is not None else None,
        height.value.text if height is not None else "",
        str(source or "the data sheet"),
    )
