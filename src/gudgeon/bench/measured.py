"""Readings of the book as intervals in base units, with the uncertainty of the gauge."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.budget import Component, signed, standard_uncertainty_of
from gudgeon.bench.context import Bench
from gudgeon.book.state import ReadingState
from gudgeon.calc.metrology.uncertainty import combined, from_permitted_error, from_resolution
from gudgeon.errors import GudgeonError
from gudgeon.kit.model import Gauge, Kit
from gudgeon.quantity.format import both, both_ends
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import parse_amount
from gudgeon.sheet.inspections import Characteristic, place_names
from gudgeon.sources.tables import permitted_error


@dataclass(frozen=True, slots=True)
class Measured:
    """What is known of one place: between low and high [base unit], each with what `components` make of it.

    A size is as it would be at 20 °C, where that can be told: `at_20` is then its text, and `text` what came off the
    gauge. `scatter` are standard deviation and number of repeats. Readings are added and subtracted with
    `bench.budget.signed`, which knows what they have in common.
    """

    place: str
    low: float
    high: float
    components: tuple[Component, ...]
    u_known: bool
    scatter: tuple[float, int] | None
    condition: str
    text: str
    at_20: str
    as_found: str
    instrument: str
    entry: str
    notes: tuple[str, ...] = ()

    @property
    def u(self) -> float:
        """The standard uncertainty of either end."""
        return standard_uncertainty_of(self.components)


@dataclass(frozen=True, slots=True)
class Odd:
    """A reading of the book that nothing can be made of; `number` is that of its entry."""

    place: str
    number: int
    why: str


CANNOT = (GudgeonError, ArithmeticError, ValueError)
"""What an entry that makes no sense by the sheet of today can raise."""


def measured(bench: Bench, key: str) -> dict[str, Measured]:
    """Every place of a characteristic that has a reading: as left where there is one, else as found.

    What nothing can be made of is left out, and told by `odd`: one entry never takes the others with it.
    """
    item = bench.sheet.characteristics[key]
    if item.computed:
        return _computed(bench, item)
    found: dict[str, Measured] = {}
    for place, (reading, before) in _latest(bench, key, item).items():
        try:
            text = reading_text(before, item.kind) if before is not None else ""
            found[place] = _one(reading, item, bench.kit, as_found=text)
        except CANNOT:
            continue
    return found


def odd(bench: Bench, key: str) -> dict[str, Odd]:
    """The readings of a characteristic that nothing can be made of, and why, by place."""
    item = bench.sheet.characteristics[key]
    latest = _latest(bench, key, item)
    found: dict[str, Odd] = {}
    for (name, place, _), reading in bench.state.readings.items():
        if name == key and (item.computed or place not in latest):
            why = "the sheet works it out" if item.computed else f"the sheet has no place “{place}” any more"
            found[place] = Odd(place, reading.order, why)
    for place, (reading, before) in latest.items():
        try:
            _one(reading, item, bench.kit, as_found=reading_text(before, item.kind) if before else "")
        except CANNOT as error:
            found[place] = Odd(place, reading.order, str(error))
    return found


def _latest(
    bench: Bench, key: str, item: Characteristic
) -> dict[str, tuple[ReadingState, ReadingState | None]]:
    """The reading that counts of each place, and the one as found where that is another."""
    found: dict[str, tuple[ReadingState, ReadingState | None]] = {}
    for place in () if item.computed else place_names(item):
        before = bench.state.readings.get((key, place, "as found"))
        after = bench.state.readings.get((key, place, "as left"))
        reading = after or before
        if reading is not None:
            found[place] = (reading, before if after is not None else None)
    return found


def _one(reading: ReadingState, item: Characteristic, kit: Kit, *, as_found: str) -> Measured:
    low, high = interval(reading, item.kind)
    if reading.value is None and reading.low is None and _may_be_below_zero(item):
        low = -math.inf
    size = low if math.isinf(high) else high
    u, known = standard_uncertainty(kit.gauges.get(reading.instrument), item.kind, size_mm=size)
    components = (Component("the gauge", u),) if known else ()
    return Measured(
        reading.place, low, high, components, known, None, reading.condition,
        reading_text(reading, item.kind), "", as_found, reading.instrument, reading.entry,
    )  # fmt: skip


def _may_be_below_zero(item: Characteristic) -> bool:
    base = BASE_UNIT[item.kind]
    figures = [one.value for one in (item.new_range, item.wear_limit, item.required) if one is not None]
    ends = [end for figure in figures for end in (figure.low_in(base), figure.high_in(base))]
    return any(end is not None and end < 0 for end in ends)


def middle(reading: ReadingState, kind: str) -> float | None:
    """The middle of a reading; nothing where an end of it is open, or nothing can be made of it."""
    if reading.value is None and (reading.low is None or reading.high is None):
        return None
    try:
        low, high = interval(reading, kind)
    except CANNOT:
        return None
    return (low + high) / 2 if math.isfinite(low + high) else None


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
        if math.isinf(low) and math.isinf(high):
            continue
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


def _ends_text(low: float, high: float) -> str:
    kind = "length_difference"
    if math.isinf(high):
        return f"over {both(low, kind=kind)}"
    if math.isinf(low) or math.isclose(low, high, abs_tol=1e-9):
        return f"{'under ' if math.isinf(low) else ''}{both(high, kind=kind)}"
    return both_ends(low, high=high, kind=kind)


def _derived(
    place: str, low: float, high: float, members: list[Measured], *, pair: tuple[Measured, Measured]
) -> Measured:
    """A value worked out from readings: the first of the pair less the second."""
    components = signed([(1.0, pair[0]), (-1.0, pair[1])])
    text = _ends_text(low, high)
    known = all(one.u_known for one in members)
    condition = "as left" if all(one.condition == "as left" for one in members) else "as found"
    return Measured(place, low, high, components, known, None, condition, text, "", "", "worked out", "")
