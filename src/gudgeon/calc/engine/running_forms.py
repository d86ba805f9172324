"""The calculators of the air, of cranking, of a leak and of coolant: from inputs to kernels and back."""

import re
from collections.abc import Mapping

from gudgeon.calc.calculator import Found, Value, Worked
from gudgeon.calc.engine.atmosphere import air_density_kg_per_m3, standard_air
from gudgeon.calc.engine.cranking import (
    EXPONENTS,
    at_other_air_kpa,
    cranking_pressure,
    dynamic_ratio,
    implied_exponent,
)
from gudgeon.calc.engine.leak_down import CRITICAL, cylinder_behind_orifice_kpa, leak_down
from gudgeon.calc.engine.running_errors import CommaAmongReadings
from gudgeon.calc.engine.spread import spread_of, within
from gudgeon.calc.errors import finite
from gudgeon.calc.input_errors import InputRefused
from gudgeon.calc.reading import figure, maybe, needed, text
from gudgeon.errors import InputError
from gudgeon.quantity.format import both
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import parse_amount
from gudgeon.sources.first_run import leak_words, run_figure

CRANKING = "engine.cranking-pressure"
LEAST_OF_LEAK = 1.1
"""Below this exponent the gas was lost rather than cooled; by hand, from the lowest of the engines in print."""


def atmosphere(values: Mapping[str, Value]) -> Worked:
    """Works out engine.atmosphere."""
    air = standard_air(figure(values, "altitude"))
    pressure, celsius = maybe(values, "pressure"), maybe(values, "temperature")
    pa = air.pressure_pa if pressure is None else pressure
    kelvin = air.temperature_k if celsius is None else celsius + 273.15
    if pressure is None and celsius is None:
        flags: tuple[str, ...] = ()
    else:
        flags = ("Pressure or temperature is given, and stands instead of the standard air's.",)
    density = air_density_kg_per_m3(pa, temperature_k=kelvin)
    return Worked({"pressure_pa": pa, "temperature_k": kelvin, "density": density}, flags)


def cranking(values: Mapping[str, Value]) -> Worked:
    """Works out engine.cranking-pressure."""
    ambient = standard_air(figure(values, "altitude")).pressure_pa / 1000
    ratio = _ratio(values)
    found = cranking_pressure(ratio, ambient_kpa=ambient, exponents=_exponents(values))
    results: dict[str, Found] = {
        "dynamic_ratio": found.dynamic_ratio,
        "gauge_low_kpa": found.gauge_low_kpa,
        "gauge_high_kpa": found.gauge_high_kpa,
        "ambient_kpa": ambient,
    }
    flags: list[str] = []
    measured, minimum = maybe(values, "measured"), maybe(values, "minimum")
    if measured is not None:
        exponent = implied_exponent(measured, ratio=ratio, ambient_kpa=ambient)
        results["implied_exponent"] = exponent
        if exponent < LEAST_OF_LEAK:
            flags.append(
                f"An exponent of {exponent:.2f} is below {LEAST_OF_LEAK:g} (by hand): "
                "gas is lost, or the starter is slow, the throttle shut, the hose long."
            )
    if minimum is not None:
        results["minimum_here_kpa"] = _minimum_here(values, minimum)
    return Worked(results, tuple(flags))


def _ratio(values: Mapping[str, Value]) -> float:
    """The ratio from intake closing; without a closing the given one is taken as that."""
    ratio, closing = figure(values, "ratio"), maybe(values, "intake_closing")
    if closing is None:
        return ratio
    # The bore cancels in a ratio of volumes; whoever gives it is not refused.
    return dynamic_ratio(
        ratio,
        closing_deg=closing,
        stroke_mm=needed(values, "stroke", calculator=CRANKING, example="stroke='86 mm'"),
        rod_length_mm=needed(values, "rod_length", calculator=CRANKING, example="rod_length='143 mm'"),
        pin_offset_mm=figure(values, "pin_offset"),
    )


def _exponents(values: Mapping[str, Value]) -> tuple[float, float]:
    given, upper = maybe(values, "exponent"), maybe(values, "exponent_high")
    if given is None:
        return EXPONENTS if upper is None else (EXPONENTS[0], upper)
    return given, given if upper is None else upper


def _minimum_here(values: Mapping[str, Value], minimum: float) -> float:
    here = standard_air(figure(values, "altitude"))
    there = standard_air(figure(values, "minimum_altitude"))
    if text(values, "rule") == "pressure":
        return at_other_air_kpa(minimum, here=here.pressure_pa, there=there.pressure_pa)
    density, printed = maybe(values, "density"), maybe(values, "minimum_density")
    return at_other_air_kpa(
        minimum,
        here=here.density_kg_per_m3 if density is None else density,
        there=there.density_kg_per_m3 if printed is None else printed,
    )


def spread(values: Mapping[str, Value]) -> Worked:
    """Works out engine.compression-spread."""
    readings = _readings(text(values, "readings"))
    found = spread_of(readings)
    rule, limit = text(values, "rule"), _limit(values)
    results: dict[str, Found] = {
        "verdict": "inside" if within(found, rule=rule, limit=limit) else "outside",
        "spread": found.difference,
        "lowest_to_highest": found.share,
        "below_mean": found.below,
        "lowest_cylinder": str(found.lowest_cylinder),
        "highest_cylinder": str(found.highest_cylinder),
    }
    shown = {
        "lowest_to_highest": f"{100 * found.share:.1f} %",
        "below_mean": f"{100 * found.below:.1f} %",
    }
    understood = {
        "readings": "; ".join(both(one, kind="pressure_gauge") for one in readings),
        "limit": both(limit, kind="pressure_gauge") if rule == "absolute" else f"{100 * limit:g} %",
    }
    return Worked(results, shown=shown, understood=understood)


def _readings(given: str) -> list[float]:
    """Pressures that stand apart by semicolons, or commas and spaces, in kPa; a unit written once counts for all."""
    parts = [one.strip() for one in re.split(r";|,\s", given) if one.strip()]
    if any("," in one for one in parts):
        raise CommaAmongReadings(given)
    try:
        unit = next((word for one in reversed(parts) if (word := one.lstrip("-+.0123456789 "))), None)
        return [parse_amount(one, kind="pressure_gauge", default_unit=unit).to("kPa") for one in parts]
    except InputError as error:
        raise InputRefused("readings", error) from None


def _limit(values: Mapping[str, Value]) -> float:
    given = text(values, "limit")
    absolute = text(values, "rule") == "absolute"
    try:
        amount = parse_amount(given, kind="pressure_gauge" if absolute else "ratio")
        return finite(amount.to("kPa" if absolute else "1"), "Limit")
    except InputError as error:
        raise InputRefused("limit", error) from None


def leak(values: Mapping[str, Value]) -> Worked:
    """Works out engine.leak-down."""
    ambient = standard_air(figure(values, "altitude")).pressure_pa / 1000
    supply = figure(values, "supply")
    found = leak_down(
        supply,
        cylinder_kpa=figure(values, "cylinder"),
        orifice_mm=figure(values, "orifice"),
        ambient_kpa=ambient,
    )
    results: dict[str, Found] = {
        "leak_percent": 100 * found.leak_share,
        "equivalent_hole_mm": found.equivalent_hole_mm,
    }
    shown = {"leak_percent": f"{100 * found.leak_share:.2f} %"}
    other = maybe(values, "other_orifice")
    if other is not None:
        behind = cylinder_behind_orifice_kpa(
            supply, hole_mm=found.equivalent_hole_mm, orifice_mm=other, ambient_kpa=ambient
        )
        percent = 100 * (1 - behind / supply)
        results |= {"other_cylinder_kpa": behind, "other_leak_percent": percent}
        shown["other_leak_percent"] = f"{percent:.2f} %"
    results["verdict"] = _called(
        found.leak_share,
        supply,
        hole_mm=found.equivalent_hole_mm,
        orifice_mm=figure(values, "orifice"),
        ambient_kpa=ambient,
    )
    flags = (
        f"The air flows through the orifice at the speed of sound (pressures below {CRITICAL:.3f} of each other): "
        "a larger leak shows on the gauge by less and less.",
    )
    return Worked(results, flags if found.orifice_choked else (), shown=shown)


DRILL_MM = 0.02
"""Drills are told apart by some hundredths of a millimeter."""


def _called(lost: float, supply_kpa: float, *, hole_mm: float, orifice_mm: float, ambient_kpa: float) -> str:
    """What the trade calls a leak: its bands are for the orifice of the smaller bores."""
    usual = run_figure("orifice_mm").value
    through = f"{usual:g} mm ({convert(usual, frm='mm', to='in', kind='length'):.3f} in)"
    if abs(orifice_mm - usual) > DRILL_MM:
        behind = cylinder_behind_orifice_kpa(
            supply_kpa, hole_mm=hole_mm, orifice_mm=usual, ambient_kpa=ambient_kpa
        )
        lost = 1 - behind / supply_kpa
    band = next(one for one in leak_words() if lost < one.below)
    return f"{band.words}: {100 * lost:.1f} % lost through an orifice of {through} ({band.source.provenance.lower()})"
