"""The calculators of fits: from inputs to kernels and back to results."""

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.calc.calculator import Found, Value, Worked
from gudgeon.calc.engine.drill_shanks import SAME_MM, shanks_below
from gudgeon.calc.engine.fits import Ends, clearance_of_parts
from gudgeon.calc.engine.fits_errors import HalfWithoutOther, RangeOpen
from gudgeon.calc.engine.ring_gap import Warmed, gap_per_bore, hot_ring_gap
from gudgeon.calc.input_errors import InputNeeded, InputRefused, NameUnknown
from gudgeon.calc.reading import figure, maybe, text
from gudgeon.errors import InputError
from gudgeon.quantity.errors import UnitMissing
from gudgeon.quantity.format import both, known_between
from gudgeon.quantity.written import Printed, parse_printed
from gudgeon.sources.drill_shanks import DrillShank
from gudgeon.sources.tables import material_expansions

RING_GAP = "engine.ring-gap"
MOST_OF_JOURNAL = 0.02
"""Valve stems have up to 1 % of their diameter (TM 5-3810-306-34), bearings and pistons a tenth of that."""
AID = (
    "A drill shank is an aid: measure it, take one without burrs, and never let a pin hold while something is "
    "tightened or turned."
)


def oil_clearance(values: Mapping[str, Value]) -> Worked:
    """Works out engine.oil-clearance."""
    sizes = {key: size for key in _SIZES if (size := _size(values, key)) is not None}
    upper, lower = sizes.get("shell"), sizes.get("other_shell")
    if upper is None and lower is not None:
        raise HalfWithoutOther
    halves = [] if upper is None else [upper.ends, upper.ends if lower is None else lower.ends]
    bore, journal = sizes["bore"].ends, sizes["journal"].ends
    found = clearance_of_parts(bore, shaft_mm=journal, shells_mm=halves)
    return Worked(
        {
            "clearance_least_mm": found.least_mm,
            "clearance_most_mm": found.most_mm,
            "clearance_middle_mm": found.middle_mm,
        },
        (*found.flags, *_cannot_run(found.middle_mm, (journal[0] + journal[1]) / 2), *_mixed(sizes)),
        understood={key: size.words for key, size in sizes.items()},
    )


_SIZES = ("bore", "journal", "shell", "other_shell")


@dataclass(frozen=True, slots=True)
class _Size:
    """A size as written: its ends [mm], the unit it counts in, and whether that was written."""

    ends: Ends
    unit: str
    bare: bool

    @property
    def words(self) -> str:
        """As it was understood, in both systems."""
        low, high = self.ends
        return known_between(low, high=high, kind="length", decimals=4 if low < high else None) + (
            NO_UNIT if self.bare else ""
        )


NO_UNIT = ", no unit written: mm"


def _cannot_run(middle_mm: float, journal_mm: float) -> tuple[str, ...]:
    """What no bearing has: a clearance far too wide, or parts that overlap."""
    share = middle_mm / journal_mm
    if share < -MOST_OF_JOURNAL:
        return (
            f"The parts overlap by {100 * -share:.3g} % of the journal, and no press fit is that tight: check the unit "
            "of every size.",
        )
    if share <= MOST_OF_JOURNAL:
        return ()
    return (
        f"The clearance is {100 * share:.3g} % of the journal, and running fits have at most "
        f"{100 * MOST_OF_JOURNAL:g} % (by hand, from tables of engines): check the unit of every size.",
    )


def _mixed(sizes: Mapping[str, _Size]) -> tuple[str, ...]:
    """Sizes without a unit beside others in another unit than the mm that they count in."""
    bare = [key for key, size in sizes.items() if size.bare]
    others = {key: size.unit for key, size in sizes.items() if not size.bare and size.unit != "mm"}
    if not bare or not others:
        return ()
    count = "counts" if len(bare) == 1 else "count"
    said = ", ".join(f"{key} in `{unit}`" for key, unit in others.items())
    return (
        f"Without a unit, {' and '.join(bare)} {count} as mm, beside {said}: write the unit behind every size.",
    )


def _size(values: Mapping[str, Value], key: str) -> _Size | None:
    """A size, a range or a tolerance as printed; what has no unit is in mm."""
    if values[key] is None:
        return None
    written = text(values, key)
    try:
        printed, bare = _printed(written)
    except InputError as error:
        raise InputRefused(key, error) from None
    least, most = printed.low_in("mm"), printed.high_in("mm")
    if least is None or most is None:
        raise RangeOpen(key, written)
    return _Size((least, most), printed.first.unit.symbol, bare)


def _printed(written: str) -> tuple[Printed, bool]:
    """The size, and whether it has no unit."""
    try:
        return parse_printed(written, kind="length"), False
    except UnitMissing:
        return parse_printed(f"{written} mm", kind="length"), True


def ring_gap(values: Mapping[str, Value]) -> Worked:
    """Works out engine.ring-gap."""
    gap, bore = figure(values, "cold_gap"), figure(values, "bore")
    found: dict[str, Found] = {"gap_per_bore": gap_per_bore(gap, bore_mm=bore)}
    ring_at, bore_at = maybe(values, "ring_temperature"), maybe(values, "bore_temperature")
    if ring_at is None and bore_at is None:
        return Worked(found, ("No temperatures are given, so nothing is said of the gap when hot.",))
    if ring_at is None or bore_at is None:
        missing = "ring_temperature" if ring_at is None else "bore_temperature"
        raise InputNeeded(missing, RING_GAP, f"{missing}='200 °C'")
    flags: list[str] = []
    hot = hot_ring_gap(
        gap,
        bore_mm=bore,
        ring=Warmed(ring_at, _expansion(values, "ring", flags)),
        bore=Warmed(bore_at, _expansion(values, "bore", flags)),
        cold_celsius=figure(values, "cold_temperature"),
    )
    found |= {"hot_gap_mm": hot.gap_mm, "closed_by_mm": hot.closed_by_mm, "hot_bore_mm": hot.bore_mm}
    return Worked(found, (*hot.flags, *flags))


def _expansion(values: Mapping[str, Value], part: str, flags: list[str]) -> float:
    """The expansion given, of this part or of both, else that of the material."""
    own = maybe(values, f"{part}_expansion")
    if own is None:
        own = maybe(values, "expansion")
    if own is not None:
        return own
    said, known = text(values, f"{part}_material"), material_expansions()
    row = next((one for one in known if one.words == said.lower().replace("_", " ")), None)
    if row is None:
        raise NameUnknown(f"{part}_material", said, [one.words for one in known])
    flags.append(f"The {part} is taken as {row.words}, {both(row.value, kind='expansion')} ({row.source}).")
    return row.value


def pin(values: Mapping[str, Value]) -> Worked:
    """Works out engine.pin-for-hole."""
    hole = figure(values, "hole")
    found = shanks_below(hole)
    worked: dict[str, Found] = {}
    shown: dict[str, str] = {}
    for series, one in found.items():
        worked |= {series: one.name, f"{series}_mm": one.diameter_mm}
        shown |= {series: _shown(one)}
    inch = [one for series, one in found.items() if series != "metric"]
    for name, among in (("inch_series", inch), ("nearest", list(found.values()))):
        if among:
            best = max(among, key=lambda one: one.diameter_mm)
            worked |= {name: best.name, f"{name}_mm": best.diameter_mm}
            shown |= {name: _shown(best)}
            play = hole - best.diameter_mm
    worked["play_mm"] = play
    tight = (
        ("It is as thick as the hole: it may not enter, then take the next below.",) if play < SAME_MM else ()
    )
    return Worked(worked, (*tight, AID), shown)


def _shown(one: DrillShank) -> str:
    size = both(one.diameter_mm, kind="length")
    return size if one.series == "metric" else f"{one.name}, {size}"
