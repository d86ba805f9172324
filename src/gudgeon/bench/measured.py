"""Readings of the book as intervals in base units, with the uncertainty of the gauge."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.context import Bench
from gudgeon.book.state import ReadingState
from gudgeon.calc.metrology.uncertainty import combined, from_permitted_error, from_resolution
from gudgeon.kit.model import Gauge, Kit
from gudgeon.quantity.format import both, both_ends
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import parse_amount
from gudgeon.sheet.inspections import Characteristic, place_names
from gudgeon.sources.tables import permitted_error


@dataclass(frozen=True, slots=True)
class Measured:
    """What is known of one place: between low and high, each with standard uncertainty u."""

    place: str
    low: float
    high: float
    u: float
    u_known: bool
    condition: str
    text: str
    as_found: str
    instrument: str
    entry: str


def measured(bench: Bench, key: str) -> dict[str, Measured]:
    """Every place of a characteristic that has a reading: as left where there is one, else as found."""
    item = bench.sheet.characteristics[key]
    if item.computed:
        return _computed(bench, item)
    found: dict[str, Measured] = {}
    for place in place_names(item):
        before = bench.state.readings.get((key, place, "as found"))
        after = bench.state.readings.get((key, place, "as left"))
        reading = after or before
        if reading is not None:
            text = reading_text(before, item.kind) if before is not None and after is not None else ""
            found[place] = _one(reading, item, bench.kit, as_found=text)
    return found


def _one(reading: ReadingState, item: Characteristic, kit: Kit, *, as_found: str) -> Measured:
    low, high = interval(reading, item.kind)
    size = low if math.isinf(high) else high
    u, known = standard_uncertainty(kit.gauges.get(reading.instrument), item.kind, size_mm=size)
    return Measured(
        reading.place, low, high, u, known, reading.condition,
        reading_text(reading, item.kind), as_found, reading.instrument, reading.entry,
    )  # fmt: skip


def interval(reading: ReadingState, kind: str) -> tuple[float, float]:
    """Both ends of a reading in the base unit of its kind; a plain value is its own two ends."""
    base = BASE_UNIT[kind]
    if reading.value is not None:
        value = convert(float(reading.value), frm=reading.unit, to=base, kind=kind)
        return value, value
    low = convert(float(reading.low or "0"), frm=reading.unit, to=base, kind=kind)
    high = (
        math.inf
        if reading.high is None
        else convert(float(reading.high), frm=reading.unit, to=base, kind=kind)
    )
    return low, high


def reading_text(reading: ReadingState, kind: str) -> str:
    """A reading in both systems of units, as it came off the gauge."""
    base = BASE_UNIT[kind]

    def shown(number: str) -> str:
        amount = parse_amount(f"{number} {reading.unit}", kind=kind)
        return both(amount.to(base), kind=kind, decimals=amount.decimals if reading.unit == base else None)

    if reading.value is not None:
        return shown(reading.value)
    if reading.high is None:
        return f"over {shown(reading.low or '0')}"
    if reading.low is None or float(reading.low) == 0:
        return f"under {shown(reading.high)}"
    low, high = (parse_amount(f"{end} {reading.unit}", kind=kind) for end in (reading.low, reading.high))
    decimals = max(low.decimals, high.decimals) if reading.unit == base else None
    return both_ends(low.to(base), high=high.to(base), kind=kind, decimals=decimals)


def standard_uncertainty(gauge: Gauge | None, kind: str, *, size_mm: float) -> tuple[float, bool]:
    """Standard uncertainty of one reading: permitted error and step, both rectangular; and whether it is known.

    The permitted error is the one the kit states, else the one a published standard gives for the kind of gauge.
    """
    if gauge is None or kind not in ("length", "length_difference"):
        return 0.0, False
    base = BASE_UNIT[kind]
    error, source = half_width(gauge, size_mm=size_mm)
    if not source:
        return 0.0, False
    step = gauge.step.middle_in(base) if gauge.step is not None else 0.0
    return combined(from_permitted_error(error), from_resolution(step)), True


def half_width(gauge: Gauge, *, size_mm: float) -> tuple[float, str]:
    """How far a gauge may be off [mm], and who says so: the kit, or a published standard; nobody leaves it empty."""
    if gauge.error is not None:
        return abs(gauge.error.first.high_in("mm") or 0.0), "your kit"
    standard = permitted_error(gauge.kind, length_mm=size_mm)
    return (standard.value, str(standard.source)) if standard is not None else (0.0, "")


def _computed(bench: Bench, item: Characteristic) -> dict[str, Measured]:
    parts = [measured(bench, key) for key in item.of]
    if any(not part for part in parts):
        return {}
    if item.method == "difference":
        return _difference(parts[0], parts[1])
    return _spread(parts[0], along=item.method == "taper")


def _difference(larger: Mapping[str, Measured], smaller: Mapping[str, Measured]) -> dict[str, Measured]:
    """Clearance by cylinder or place: from the least of the larger less the greatest of the smaller, to the most."""
    found = {}
    for group in dict.fromkeys(place.split(", ")[0] for place in larger):
        outer = [one for place, one in larger.items() if place.split(", ")[0] == group]
        inner = [one for place, one in smaller.items() if place.split(", ")[0] == group]
        if not inner:
            continue
        low = min(one.low for one in outer) - max(one.high for one in inner)
        high = max(one.high for one in outer) - min(one.low for one in inner)
        found[group] = _derived(group, low, high, [*outer, *inner], pair=(outer[0], inner[0]))
    return found


def _spread(readings: Mapping[str, Measured], *, along: bool) -> dict[str, Measured]:
    """Out-of-round: greatest difference of the directions at one height. Taper: of the heights in one direction."""
    groups: dict[str, list[Measured]] = {}
    for place, one in readings.items():
        words = place.split(", ")
        if len(words) < 3:
            continue
        fixed = f"{words[0]}, {words[2]}" if along else f"{words[0]}, {words[1]}"
        groups.setdefault(fixed, []).append(one)
    found = {}
    for name, members in groups.items():
        if len(members) < 2:
            continue
        low = max(0.0, max(one.low for one in members) - min(one.high for one in members))
        high = max(one.high for one in members) - min(one.low for one in members)
        found[name] = _derived(name, low, high, members, pair=(members[0], members[1]))
    return found


def _derived(
    place: str, low: float, high: float, members: list[Measured], *, pair: tuple[Measured, Measured]
) -> Measured:
    """A value worked out from readings; their errors are taken as independent, which is on the safe side."""
    u = combined(pair[0].u, pair[1].u)
    same = math.isclose(low, high, abs_tol=1e-9)
    kind = "length_difference"
    text = both(high, kind=kind) if same else both_ends(low, high=high, kind=kind)
    known = all(one.u_known for one in members)
    condition = "as left" if all(one.condition == "as left" for one in members) else "as found"
    return Measured(place, low, high, u, known, condition, text, "", "worked out", "")
