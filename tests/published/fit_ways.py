"""Published figures of fits and cylinders that no calculator gives by itself, from the kernels."""

from collections.abc import Callable, Mapping

from gudgeon.calc.engine.cylinder import bore_area_mm2, clearance_of_ratio, piston_position, swept_volume_cm3
from gudgeon.calc.engine.fits import clearance_of_parts
from gudgeon.calc.engine.valve_depth import valve_depth
from gudgeon.sources.drill_shanks import INCH_MM, drill_shanks


def _half_shell(inputs: Mapping[str, str]) -> float:
    """What one half of an undersize pair changes of the clearance, in inches; the pair takes its undersize."""
    thicker = float(inputs["undersize_in"]) / 2
    found = [
        clearance_of_parts((3.0, 3.0), shaft_mm=(2.75, 2.75), shells_mm=[(0.124, 0.124), (lower, lower)])
        for lower in (0.124, 0.124 + thicker)
    ]
    return found[1].middle_mm - found[0].middle_mm


def _stroke_by_ratio(inputs: Mapping[str, str]) -> float:
    """The stroke in cm of a cylinder whose bore is a multiple of it, by halving."""
    wanted, multiple = float(inputs["swept_cm3"]), float(inputs["bore_over_stroke"])
    low, high = 1.0, 1000.0
    for _ in range(80):
        middle = (low + high) / 2
        small = swept_volume_cm3(multiple * middle, stroke_mm=middle) < wanted
        low, high = (middle, high) if small else (low, middle)
    return low / 10


def _volume_at_angle(inputs: Mapping[str, str]) -> float:
    """The volume above the piston of a cylinder with a bore as large as its stroke, in cm³."""
    given = {name: float(text) for name, text in inputs.items()}
    square = {"swept_cm3": inputs["swept_cm3"], "bore_over_stroke": "1"}
    stroke = 10 * _stroke_by_ratio(square)
    drop = piston_position(
        stroke, rod_length_mm=given["rod_length_mm"], crank_angle_deg=given["crank_angle_deg"]
    ).drop_mm
    return clearance_of_ratio(given["swept_cm3"], ratio=given["ratio"]) + bore_area_mm2(stroke) * drop / 1000


def _drill_shank(inputs: Mapping[str, str]) -> float:
    found = next(one for one in drill_shanks() if one.name == inputs["name"])
    return found.diameter_mm / (INCH_MM if inputs["unit"] == "in" else 1)


def _seat_cut(inputs: Mapping[str, str]) -> float:
    given = {name: float(text) for name, text in inputs.items()}
    return valve_depth(given["depth_mm"], cut_mm=given["cut_mm"], least_mm=given["least_mm"]).seat_cut_mm


FIT_WAYS: Mapping[str, Callable[[Mapping[str, str]], float]] = {
    "half_shell": _half_shell,
    "stroke_by_ratio": _stroke_by_ratio,
    "volume_at_angle": _volume_at_angle,
    "drill_shank": _drill_shank,
    "seat_cut": _seat_cut,
}
