"""A size as it would be at 20 °C, and what the temperature leaves uncertain of it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.budget import Component
from gudgeon.bench.gauge_error import permitted
from gudgeon.book.state import ReadingState
from gudgeon.calc.metrology.temperature import Expansion, Temperature, size_at_20
from gudgeon.kit.model import Kit
from gudgeon.quantity.units import convert
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sources.tables import MaterialExpansion, material_expansions

GARAGE_C = Temperature(20.0, 10.0)
"""Where no temperature was noted: a garage between 10 and 30 °C (COMMON PRACTICE: no source states it)."""
NOT_NOTED = "temperature not noted: 10 to 30 °C is counted with (common practice, no source)"
NO_MATERIAL_NOTED = (
    "the sheet does not say what it is made of, so it is not corrected to 20 °C; what any metal of an engine could "
    "make of the temperature is counted"
)
NO_MATERIAL = (
    "temperature not noted, and the sheet does not say what it is made of: not corrected, nothing counted"
)
GAUGE_NOT_NOTED = (
    "temperature of the gauge not noted: 10 to 30 °C is counted with (common practice, no source)"
)
PART_NOT_NOTED = "temperature of the part not noted: 10 to 30 °C is counted with (common practice, no source)"
UNNAMED_K = 2.0
"""How far a thermometer may be off that is not in the kit (COMMON PRACTICE: no source states it)."""
GAUGE_STEEL = "gauge_steel"
"""What a scale is made of whose metal the kit does not name."""


@dataclass(frozen=True, slots=True)
class At20:
    """By what a reading is multiplied to be a size at 20 °C; with `corrected`, where it could be."""

    factor: float
    components: tuple[Component, ...]
    corrected: bool
    notes: tuple[str, ...]


AS_IT_IS = At20(1.0, (), False, ())


def at_20(kit: Kit, item: Characteristic, reading: ReadingState, *, length_mm: float) -> At20:
    """What the temperatures of a reading make of a length; of small gaps they make nothing that counts."""
    if item.kind != "length" or not math.isfinite(length_mm) or length_mm <= 0:
        return AS_IT_IS
    made_of = expansion_of(item.material or "")
    noted = _noted(kit, reading)
    if made_of is None:
        return _of_unknown_metal(noted, length_mm, item)
    part, own, notes = noted.part or GARAGE_C, noted.gauge, noted.notes
    found = size_at_20(
        length_mm,
        part=part,
        gauge=own,
        part_expansion=Expansion(made_of.value, made_of.error),
        gauge_expansion=metal_of_the_scale(kit, reading.instrument),
    )
    tags = _tags(kit, item, reading)
    components = tuple(
        Component(
            f"{one.name} of the reading",
            one.u,
            sensitivity=one.sensitivity,
            tag=tags.get(one.name, ""),
            cause="temperature",
        )
        for one in found.components
        if one.u * one.sensitivity
    )
    corrected = noted.part is not None
    return At20(found.length_mm / length_mm if corrected else 1.0, components, corrected, notes)


def expansion_of(material: str) -> MaterialExpansion | None:
    """The expansion of a material by its name, as it stands in the table of materials."""
    wanted = " ".join(material.replace("_", " ").lower().split())
    return next((one for one in material_expansions() if wanted and one.words == wanted), None)


def metal_of_the_scale(kit: Kit, key: str) -> Expansion:
    """Of what the scale is made that a reading goes back to: of a gauge that is set in another one, that one."""
    gauge, master = kit.gauges.get(key), kit.gauges.get(scale_of(kit, key))
    told = next((one.material for one in (master, gauge) if one is not None and one.material), None)
    found = expansion_of(told or GAUGE_STEEL) or gauge_steel()
    return Expansion(found.value, found.error)


def gauge_steel() -> MaterialExpansion:
    """The steel of gauges, as the table of materials has it."""
    found = expansion_of(GAUGE_STEEL)
    assert found is not None  # the table comes with the program
    return found


def most_per_k() -> float:
    """As much as any material of the table expands, its error counted [1/K]."""
    return max(one.value + one.error for one in material_expansions())


def scale_of(kit: Kit, key: str) -> str:
    """The gauge whose scale a reading goes back to: that in which it is set, where the kit has it, else itself."""
    gauge = kit.gauges.get(key)
    return gauge.zeroed_in if gauge is not None and gauge.zeroed_in in kit.gauges else key


@dataclass(frozen=True, slots=True)
class _Noted:
    """What was noted: without `part` nothing was, without `gauge` it is as warm as the part."""

    part: Temperature | None
    gauge: Temperature | None
    notes: tuple[str, ...]


def _noted(kit: Kit, reading: ReadingState) -> _Noted:
    error = thermometer_error(kit)
    part = _temperature(reading.part_temperature, reading, error)
    gauge = _temperature(reading.gauge_temperature, reading, error)
    if part is None and gauge is None:
        return _Noted(None, None, (NOT_NOTED,))
    if part is None:
        return _Noted(GARAGE_C, gauge, (PART_NOT_NOTED,))
    if gauge is None and not reading.gauge_as_part:
        return _Noted(part, GARAGE_C, (GAUGE_NOT_NOTED,))
    return _Noted(part, gauge, ())


def _temperature(said: str | None, reading: ReadingState, error: float) -> Temperature | None:
    if said is None:
        return None
    return Temperature(
        convert(float(said), frm=reading.temperature_unit or "°C", to="°C", kind="temperature"), error
    )


def thermometer_error(kit: Kit) -> float:
    """How far the temperatures may be off [K]: the best thermometer of the kit, else one that nobody named."""
    return min(_thermometers(kit), default=UNNAMED_K)


def _thermometers(kit: Kit) -> Iterator[float]:
    for gauge in kit.gauges.values():
        if gauge.kind == "thermometer":
            error, source = permitted(gauge, kind="temperature", value=20.0)
            if source:
                yield error / 2 * math.sqrt(3) if gauge.stated_as == "U (k = 2)" else error


def _tags(kit: Kit, item: Characteristic, reading: ReadingState) -> dict[str, str]:
    """What readings have in common: the metal of one part, and a temperature that was noted of it on one day.

    A gauge that is set in another one shares the metal of that one's scale with every reading of it.
    """
    said = (
        f"{reading.time[:10]} {reading.part_temperature} {reading.gauge_temperature} {reading.gauge_as_part}"
    )
    return {
        "part expansion": f"expansion of {item.part}",
        "gauge expansion": f"expansion of {scale_of(kit, reading.instrument) or 'a gauge'}",
        "temperature": f"temperature of {item.part}, {said}",
        "part temperature": f"temperature of {item.part}, {said}",
        "gauge temperature": f"temperature of {reading.instrument or 'a gauge'} at {item.part}, {said}",
    }


def _of_unknown_metal(noted: _Noted, length_mm: float, item: Characteristic) -> At20:
    """Not corrected; what was noted is counted as the most that any metal of an engine makes of it."""
    if noted.part is None:
        return At20(1.0, (), False, (NO_MATERIAL,))
    most, gauge = most_per_k(), gauge_steel().value
    per_length = most * _off_20(noted.part)
    if noted.gauge is None:
        per_length -= gauge * _off_20(noted.part)  # the gauge grows along with the part
    else:
        per_length += gauge * _off_20(noted.gauge)
    u = length_mm * per_length / math.sqrt(3)
    component = Component(
        "temperature, of an unknown metal", u, tag=f"metal of {item.part}", cause="temperature"
    )
    return At20(1.0, (component,), False, (*noted.notes, NO_MATERIAL_NOTED))


def _off_20(one: Temperature) -> float:
    """How far it may be from 20 °C, its own error counted."""
    return abs(one.celsius - 20.0) + one.error
