"""The valves as the book and the sheet know them: clearance, the shim it was measured with, what is wanted."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from gudgeon.bench.budget import signed, standard_uncertainty_of
from gudgeon.bench.context import Bench
from gudgeon.bench.judging.decision import NORMAL
from gudgeon.bench.measured import Measured, Odd, measured, odd
from gudgeon.bench.sheet_place import place_of
from gudgeon.bench.shims.errors import ShimPlacesDiffer, WantedCannotBe
from gudgeon.bench.shims.model import NotSaid
from gudgeon.calc.engine.lash import NM
from gudgeon.calc.engine.shim_valves import Valve
from gudgeon.quantity.written import Printed
from gudgeon.sheet.drive import ValveGear
from gudgeon.sheet.drive import Valves as Side
from gudgeon.sheet.inspections import Characteristic, place_names

SIDES = ("intake", "exhaust")
NOT_ANSWERED = "nothing is said of it, and its shim stays where it is"


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the sheet wants of a clearance: its ends [mm], its words, its source; taken, where only a value stands."""

    low_mm: float
    high_mm: float
    text: str
    source: str
    taken: str = ""


@dataclass(frozen=True, slots=True)
class ValveRead:
    """One valve with its readings, and the same as the kernel takes it; `unsure` says whose gauge nobody knows."""

    side: str
    place: str
    wanted: Wanted
    clearance: Measured
    shim: Measured | None
    valve: Valve
    unsure: str = ""

    @property
    def name(self) -> str:
        """`exhaust, cylinder 2, timing side`."""
        return self.valve.name


@dataclass(frozen=True, slots=True)
class Read:
    """The valves that can be answered for, and what lacks of the others."""

    valves: tuple[ValveRead, ...]
    missing: tuple[NotSaid, ...]
    parts: tuple[str, ...]


def valve_name(side: str, *, place: str) -> str:
    """How a valve is called wherever both sides are listed together."""
    return f"{side}, {place}" if place else side


def read(bench: Bench, gear: ValveGear, *, step_nm: int, shims: bool) -> Read:
    """Every valve of both sides; `shims` of an engine that has them."""
    found: list[ValveRead] = []
    missing: list[NotSaid] = []
    parts: list[str] = []
    for side in SIDES:
        stated: Side | None = getattr(gear, side)
        if stated is None or stated.clearance is None or (shims and stated.shim is None):
            field = side if stated is None else "clearance" if stated.clearance is None else "shim"
            where = f"`valve_gear.{side}`" if stated is None else f"`valve_gear.{side}.{field}`"
            missing.append(NotSaid(f"{where} in the sheet", f"the {side} valves are not answered for"))
            continue
        item = bench.sheet.characteristics[stated.clearance]
        parts.append(item.part)
        wanted = _wanted(bench, stated.clearance, item, step_nm=step_nm)
        if wanted is None:
            missing.append(
                NotSaid(
                    f"the required clearance of `{stated.clearance}`, with both ends",
                    f"the {side} valves are not answered for",
                )
            )
            continue
        own, lacking = _side(bench, side, stated, wanted, shims=shims)
        found += own
        missing += lacking
    return Read(_guarded(found), tuple(missing), tuple(parts))


def _wanted(bench: Bench, key: str, item: Characteristic, *, step_nm: int) -> Wanted | None:
    """What is required as assembled, else what a new one has."""
    name = "required" if item.required is not None else "new_range"
    stated = item.required if item.required is not None else item.new_range
    if stated is None:
        return None
    value: Printed = stated.value
    low, high = value.low_in("mm"), value.high_in("mm")
    if low is None or high is None:
        return None
    if low < 0:
        place = place_of(bench.papers.written, ("characteristics", key, name))
        raise WantedCannotBe(item.name, value.text, place=place)
    source = str(item.cited(stated) or "")
    if low < high:
        return Wanted(low, high, value.text, source)
    if step_nm == 0:
        return None
    half = step_nm / NM / 2
    taken = (
        f"{item.name}: one value is required, so inside is what lies within half a step of the shims of it"
    )
    return Wanted(max(0.0, low - half), high + half, value.text, source, taken)


def _side(
    bench: Bench, side: str, stated: Side, wanted: Wanted, *, shims: bool
) -> tuple[list[ValveRead], list[NotSaid]]:
    """The valves of one side in the order of the sheet; those that lack a reading by what they lack."""
    assert stated.clearance is not None
    item = bench.sheet.characteristics[stated.clearance]
    places = place_names(item)
    gaps, strange = measured(bench, stated.clearance), odd(bench, stated.clearance)
    thick: dict[str, Measured] = {}
    if shims and stated.shim is not None:
        _same_places(bench, side, stated.clearance, stated.shim, places)
        thick = measured(bench, stated.shim)
        strange = {**odd(bench, stated.shim), **strange}
    found, lacking = [], dict[str, list[str]]()
    for place in places:
        gap, shim = gaps.get(place), thick.get(place)
        why = _lacks(bench, stated, place, gap, shim, strange, shims=shims)
        if why or gap is None:
            lacking.setdefault(why, []).append(place)
        else:
            found.append(_valve(side, place, wanted, gap, shim, as_read=item.accept == "as read"))
    return found, [_not_said(side, why, at, of=len(places)) for why, at in lacking.items()]


def _same_places(bench: Bench, side: str, clearance: str, shim: str, places: Sequence[str]) -> None:
    there = place_names(bench.sheet.characteristics[shim])
    lacking = tuple(one for one in places if one not in there)
    if lacking:
        place = place_of(bench.papers.written, ("valve_gear", side, "shim"))
        raise ShimPlacesDiffer(clearance, shim, lacking, place=place)


def _lacks(
    bench: Bench,
    stated: Side,
    place: str,
    gap: Measured | None,
    shim: Measured | None,
    strange: dict[str, Odd],
    *,
    shims: bool,
) -> str:
    """What a valve lacks to be answered for; nothing where it has all."""
    if place in strange and (gap is None or (shims and shim is None)):
        return f"a reading that can be used (entry {strange[place].number}: {strange[place].why})"
    if gap is None:
        return "clearance"
    if math.isinf(gap.high):
        return "clearance to its upper end: a blade that does not enter"
    if gap.low <= 0:
        return (
            "clearance: no blade enters, so the valve may be held open and what lacks is unknown; fit a thinner shim "
            "and measure with that"
        )
    if not shims:
        return ""
    if shim is None:
        return "thickness of the shim in it, by micrometer"
    if not math.isfinite(shim.low) or not math.isfinite(shim.high) or shim.low <= 0:
        return "thickness of the shim in it: it has one end only"
    if _changed_since(bench, stated, place, gap):
        return "clearance with the shim that is in it now: the one read was measured with another"
    return ""


def _changed_since(bench: Bench, stated: Side, place: str, gap: Measured) -> bool:
    """Whether another shim was put in after the clearance was read as found."""
    readings = bench.state.readings
    before = readings.get((stated.shim or "", place, "as found"))
    after = readings.get((stated.shim or "", place, "as left"))
    if gap.condition == "as left" or before is None or after is None:
        return False
    return (before.value, before.unit) != (after.value, after.unit)


def _not_said(side: str, why: str, places: Sequence[str], *, of: int) -> NotSaid:
    named = f"all {of}" if len(places) == of and of > 1 else "; ".join(places)
    whose = (
        "nothing is said of them, and their shims stay where they are" if len(places) > 1 else NOT_ANSWERED
    )
    return NotSaid(f"{side}: {why} ({named})" if named else f"{side}: {why}", whose)


def _valve(
    side: str, place: str, wanted: Wanted, gap: Measured, shim: Measured | None, *, as_read: bool
) -> ValveRead:
    """A valve without the guard of another shim, which depends on all of them."""
    kept = 0.0 if as_read else NORMAL * max(gap.at_low.u, gap.at_high.u)
    unknown = [
        what
        for what, one in (("clearance", gap), ("shim", shim))
        if one is not None and not one.u_known and not as_read
    ]
    thickness = (shim.low + shim.high) / 2 if shim is not None else 1.0
    half = (shim.high - shim.low) / 2 if shim is not None else 0.0
    made = Valve(
        valve_name(side, place=place), round(thickness * NM), round(gap.low * NM), round(gap.high * NM),
        round(wanted.low_mm * NM), round(wanted.high_mm * NM), round(kept * NM), round((kept + half) * NM),
    )  # fmt: skip
    unsure = (
        f"nobody states how far the gauge of the {' and of the '.join(unknown)} may be off" if unknown else ""
    )
    return ValveRead(side, place, wanted, gap, shim, made, unsure)


def _guarded(valves: Sequence[ValveRead]) -> tuple[ValveRead, ...]:
    """With another shim two thicknesses come in; what one micrometer errs in both of them cancels in part."""
    thick = _least_sure([one.shim for one in valves if one.shim is not None])
    return tuple(replace(one, valve=_with_guard(one, thick)) for one in valves)


def _least_sure(shims: Sequence[Measured]) -> list[Measured]:
    """Of each gauge the two least sure readings: each shim is held against one of them that is another."""
    by_gauge: dict[str, list[Measured]] = {}
    for one in shims:
        by_gauge.setdefault(one.instrument, []).append(one)
    ordered = (sorted(ones, key=lambda one: -one.u) for ones in by_gauge.values())
    return [one for ones in ordered for one in ones[:2]]


def _with_guard(one: ValveRead, others: Sequence[Measured]) -> Valve:
    valve, shim = one.valve, one.shim
    if shim is None or valve.guard_kept_nm == 0:
        return valve
    apart = max((_apart(shim, other) for other in others if other is not shim), default=shim.u)
    gap = valve.guard_kept_nm / NM / NORMAL
    half = valve.guard_changed_nm - valve.guard_kept_nm
    return replace(valve, guard_changed_nm=half + round(NORMAL * math.hypot(gap, apart) * NM))


def _apart(shim: Measured, other: Measured) -> float:
    return standard_uncertainty_of(signed([(1.0, shim), (-1.0, other)]))


def as_found_still(valves: Sequence[ValveRead]) -> Iterator[ValveRead]:
    """The valves whose clearance was read before any work."""
    return (one for one in valves if one.clearance.condition == "as found")
