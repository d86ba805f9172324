"""The calculators of the engine: from inputs to kernels and back to results."""

from collections.abc import Mapping

from gudgeon.calc.calculator import Value, Worked
from gudgeon.calc.engine.cut import after_cut
from gudgeon.calc.engine.cylinder import (
    CylinderGeometry,
    bore_area_mm2,
    clearance_of_ratio,
    compression_ratio,
    piston_position,
    swept_volume_cm3,
)
from gudgeon.calc.input_errors import GivenBoth, InputNeeded
from gudgeon.calc.reading import count, figure, maybe, needed

CUT = "engine.cut"
USUAL_MOUTH = (0.2, 1.3)
"""Mouth of a chamber over the bore area: less squish pads, or a little more than the bore."""
MOUTH_ASSUMED = (
    "No mouth area is given: the bore area was taken, which overstates the rise where the chamber is smaller."
)


def displacement(values: Mapping[str, Value]) -> Worked:
    """Works out engine.displacement."""
    swept = swept_volume_cm3(figure(values, "bore"), stroke_mm=figure(values, "stroke"))
    return Worked({"displacement_cm3": swept * count(values, "cylinders"), "swept_per_cylinder_cm3": swept})


def ratio(values: Mapping[str, Value]) -> Worked:
    """Works out engine.compression-ratio."""
    bore, opening = figure(values, "bore"), maybe(values, "gasket_bore")
    found = compression_ratio(
        CylinderGeometry(
            bore_mm=bore,
            stroke_mm=figure(values, "stroke"),
            chamber_volume_cm3=figure(values, "chamber_volume"),
            gasket_bore_mm=bore if opening is None else opening,
            gasket_thickness_mm=figure(values, "gasket_thickness"),
            crown_volume_cm3=figure(values, "crown_volume"),
            piston_height_mm=figure(values, "piston_height"),
        )
    )
    assumed = ("No gasket bore is given: the cylinder bore was taken, which is less than most gaskets have.",)
    return Worked(
        {
            "ratio": found.ratio,
            "clearance_volume_cm3": found.clearance_volume_cm3,
            "swept_per_cylinder_cm3": found.swept_volume_cm3,
            "gasket_volume_cm3": found.gasket_volume_cm3,
            "deck_volume_cm3": found.deck_volume_cm3,
        },
        found.flags if opening is not None else (*found.flags, *assumed),
    )


def cut(values: Mapping[str, Value]) -> Worked:
    """Works out engine.cut."""
    swept = _swept(values)
    area, flags = _mouth(values)
    found = after_cut(
        figure(values, "cut"), swept_cm3=swept, clearance_cm3=_clearance(values, swept), mouth_area_mm2=area
    )
    return Worked(
        {
            "new_ratio": found.new_ratio,
            "volume_removed_cm3": found.volume_removed_cm3,
            "old_ratio": found.old_ratio,
            "clearance_volume_cm3": found.clearance_volume_cm3,
        },
        (*found.flags, *flags),
    )


def _swept(values: Mapping[str, Value]) -> float:
    given = maybe(values, "swept_volume")
    if given is not None:
        if values["stroke"] is not None:
            raise GivenBoth("swept_volume", "stroke")
        return given
    if values["bore"] is None and values["stroke"] is None:
        raise InputNeeded("bore and stroke, or swept_volume", CUT, "bore='86 mm' stroke='86 mm'")
    bore = needed(values, "bore", calculator=CUT, example="bore='86 mm'")
    stroke = needed(values, "stroke", calculator=CUT, example="stroke='86 mm'")
    return swept_volume_cm3(bore, stroke_mm=stroke)


def _clearance(values: Mapping[str, Value], swept: float) -> float:
    before, volume = maybe(values, "ratio"), maybe(values, "clearance_volume")
    if before is not None and volume is not None:
        raise GivenBoth("ratio", "clearance_volume")
    if volume is not None:
        return volume
    if before is None:
        raise InputNeeded("ratio or clearance_volume", CUT, "ratio=9.0")
    return clearance_of_ratio(swept, ratio=before)


def _mouth(values: Mapping[str, Value]) -> tuple[float, tuple[str, ...]]:
    given, bore = maybe(values, "mouth_area"), maybe(values, "bore")
    if given is not None:
        share = given / bore_area_mm2(bore) if bore is not None else 1.0
        return given, () if USUAL_MOUTH[0] <= share <= USUAL_MOUTH[1] else (_unusual_mouth(given, share),)
    if bore is None:
        raise InputNeeded("mouth_area, or bore", CUT, "mouth_area='48 cm²'")
    return bore_area_mm2(bore), (MOUTH_ASSUMED,)


def _unusual_mouth(area_mm2: float, share: float) -> str:
    return (
        f"The mouth area, {area_mm2:g} mm², is {share:.3g} of the bore area, and {USUAL_MOUTH[0]:g} to "
        f"{USUAL_MOUTH[1]:g} of it are usual (by hand, from chambers with squish pads): check its unit."
    )


def position(values: Mapping[str, Value]) -> Worked:
    """Works out engine.piston-position."""
    found = piston_position(
        figure(values, "stroke"),
        rod_length_mm=figure(values, "rod_length"),
        crank_angle_deg=figure(values, "crank_angle"),
        pin_offset_mm=figure(values, "pin_offset"),
    )
    return Worked(
        {
            "drop_mm": found.drop_mm,
            "speed_ratio": found.speed_ratio,
            "top_center_deg": found.top_center_deg,
            "stroke_mm": found.stroke_mm,
        }
    )
