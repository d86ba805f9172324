"""What a sheet lacks to prove an engine that runs; each by name, none filled."""

from collections.abc import Iterator

from gudgeon.bench.features import has
from gudgeon.sheet.after_start import AfterStart
from gudgeon.sheet.model import DataSheet

Found = Iterator[tuple[str, str, str, str]]
"""Where, what is missing, what cannot be done without it, and the path where it would stand."""

AFTER = "after start"


def running_gaps(sheet: DataSheet) -> Found:
    """Every gap of the proofs after the start."""
    after = sheet.after_start
    if after is None:
        yield AFTER, "not stated", "nothing of the running engine can be judged by the sheet", "after_start"
        return
    yield from _pressures(sheet, after)
    if not after.oil_pressure:
        yield (
            AFTER,
            "no least oil pressure",
            "what the gauge shows cannot be judged",
            "after_start.oil_pressure",
        )
    for index, one in enumerate(after.oil_pressure, start=1):
        if one.measured_as is None:
            yield (
                AFTER,
                f"no characteristic for the oil pressure at {one.at.value.text}",
                "what was read cannot be kept and judged",
                f"after_start.oil_pressure.{index}.measured_as",
            )
    if has(sheet, "liquid cooling"):
        yield from _coolant(after)


def _pressures(sheet: DataSheet, after: AfterStart) -> Found:
    if after.cranking_pressure is None:
        therefore = "pressures of the cylinders cannot be compared"
        yield AFTER, "no characteristic for cranking pressure", therefore, "after_start.cranking_pressure"
    else:
        yield from _band(sheet)
    if after.leak_down is not None and after.orifice is None:
        therefore = "no hole can be told from a leak-down test"
        yield AFTER, "no orifice of the leak-down tester", therefore, "after_start.orifice"


def _band(sheet: DataSheet) -> Found:
    """What the cranking pressure to be expected is worked out from."""
    therefore = "what a compression gauge should show cannot be worked out"
    cylinder, gear = sheet.cylinder, sheet.valve_gear
    if cylinder is None or cylinder.rod_length is None:
        yield "cylinder", "no rod length", therefore, "cylinder.rod_length"
    if gear is None or gear.intake is None or gear.intake.closes is None:
        yield "valve gear", "no intake closing", therefore, "valve_gear.intake.closes"


def _coolant(after: AfterStart) -> Found:
    coolant = after.coolant
    if coolant is None or coolant.glycol is None or coolant.guards_to is None:
        therefore = "how much concentrate it takes is not known"
        path = "after_start.coolant"
        yield AFTER, "no glycol, or no cold that the coolant must stand", therefore, path
