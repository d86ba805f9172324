"""Which of his gauges can read a characteristic, and how uncertain it would be with each."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.gauge_error import LENGTHS, difference_of, lacks_a_master, permitted, standard_uncertainty
from gudgeon.kit.model import Gauge, Kit
from gudgeon.quantity.format import both, first_system, units_shown, with_unit
from gudgeon.quantity.units import convert, unit
from gudgeon.quantity.written import Printed
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.model import DataSheet
from gudgeon.sources.tables import permitted_error

_BY_METHOD: dict[str, tuple[str, ...]] = {
    "straightedge lines": ("feeler blades",),
    "heights": ("dial gauge", "lever indicator", "height gauge"),
    "scanned face": ("dial gauge", "lever indicator", "height gauge", "other"),
    "run-out": ("dial gauge", "lever indicator"),
    "gap": ("feeler blades", "plastic gauging strip", "dial gauge", "lever indicator", "depth micrometer"),
}
_BY_KIND: dict[str, tuple[str, ...]] = {
    "pressure_gauge": ("compression gauge", "oil pressure gauge", "pressure tester"),
    "mass": ("scale",),
    "force": ("spring tester",),
    "volume": ("burette",),
    "temperature": ("thermometer",),
}
INSIDE = (
    "bore gauge",
    "inside micrometer",
    "telescoping gauge",
    "small-hole gauge",
    "digital caliper",
    "caliper",
)
OUTSIDE = ("outside micrometer", "digital caliper", "caliper", "height gauge")
DEPTH = ("depth micrometer", "digital caliper", "caliper", "dial gauge")
_INSIDE_ONLY = tuple(kind for kind in INSIDE if kind not in OUTSIDE)
_INSIDE_WORDS = ("bore", "guide", "hole", "housing", "tunnel", "inside", "inner", "big end", "small end")


def suited_kinds(sheet: DataSheet, key: str) -> tuple[str, ...]:
    """The kinds of gauge that can read a characteristic, the best first; those that the sheet names, if it does."""
    kinds = _kinds(sheet, key)
    named = named_kinds(sheet.characteristics[key], kinds)
    return named or kinds


def named_kinds(item: Characteristic, kinds: Sequence[str]) -> tuple[str, ...]:
    """Of these kinds those that the sheet's own words of how it is read name: `plastic gauging strip, dry`."""
    how = (item.how or "").lower()
    return tuple(kind for kind in kinds if kind in how)


def _kinds(sheet: DataSheet, key: str) -> tuple[str, ...]:
    item = sheet.characteristics[key]
    if item.method in _BY_METHOD and item.kind in LENGTHS:
        return _BY_METHOD[item.method]
    if item.kind not in LENGTHS:
        return _BY_KIND.get(item.kind, ("other",))
    side = _side(sheet, key, item)
    return {"inside": INSIDE, "outside": OUTSIDE, "depth": DEPTH}[side]


def _side(sheet: DataSheet, key: str, item: Characteristic) -> str:
    """Whether a size is inside or outside: by its clearance, by what it is said to be, else by name and key."""
    for other in sheet.characteristics.values():
        made_of = other.between or (other.of if other.method == "difference" else ())
        if len(made_of) == 2 and key in made_of:
            return "inside" if made_of[0] == key else "outside"
    if key in _bores(sheet) or any(kind in (item.how or "").lower() for kind in _INSIDE_ONLY):
        return "inside"
    name = f"{item.name} {key.replace('_', ' ')}".lower()
    if "depth" in name:
        return "depth"
    return "inside" if any(word in name for word in _INSIDE_WORDS) else "outside"


def _bores(sheet: DataSheet) -> set[str | None]:
    """What the sheet says to be a bore, whatever it is called."""
    measured = sheet.cylinder.measured_as.get("bore") if sheet.cylinder is not None else None
    if sheet.fits is None:
        return {measured}
    return {measured, sheet.fits.ring_bore, *(one.bore for one in sheet.fits.bearings.values())}


@dataclass(frozen=True, slots=True)
class Suited:
    """A gauge of his that reads a characteristic; without a known error its uncertainty is not known."""

    key: str
    gauge: Gauge
    u: float
    known: bool

    @property
    def name(self) -> str:
        """Its name in the kit."""
        return self.gauge.name


def suited(sheet: DataSheet, kit: Kit, *, key: str, size: float) -> Iterator[Suited]:
    """His gauges of a suitable kind that reach a size [base unit], the fittest kind first, then the least uncertain."""
    item, kinds = sheet.characteristics[key], suited_kinds(sheet, key)
    found = []
    for name, gauge in kit.gauges.items():
        if gauge.kind in kinds and reaches(gauge, item, size=size):
            u, known = standard_uncertainty(gauge, item.kind, size_mm=size)
            found.append(Suited(name, gauge, u, known and not lacks_a_master(gauge)))
    yield from sorted(found, key=lambda one: (not one.known, kinds.index(one.gauge.kind), one.u))


ITS_ERROR = "state its error in the kit"


def say_its_error(gauge: Gauge) -> str:
    """What makes known how far a gauge may be off."""
    return f"{ITS_ERROR}, or what it is zeroed in" if lacks_a_master(gauge) else ITS_ERROR


def reaches(gauge: Gauge, item: Characteristic, *, size: float) -> bool:
    """Whether a size lies within its range; a gap is read by anything, a length only where the range is stated."""
    if item.kind not in LENGTHS:
        return True
    if gauge.range is None:
        return item.kind == "length_difference"
    low, high = gauge.range.low_in("mm") or 0.0, gauge.range.high_in("mm")
    if item.kind == "length_difference" and gauge.kind != "plastic gauging strip":
        return high is None or size <= high
    return low <= size <= (math.inf if high is None else high)


def off_words(gauge: Gauge, *, kind: str, size: float, stated: Printed | None = None) -> str:
    """How far a gauge may be off, in the unit of what is stated, and who says so."""
    error, source = permitted(gauge, kind=kind, value=size)
    return f"off by up to {as_stated(error, kind=kind, stated=stated)} ({source})" if source else ""


def as_stated(value: float, *, kind: str, stated: Printed | None) -> str:
    """A difference [base unit] in the units in which a limit is stated, to two digits; a length in mm and in.

    `stated` is the limit as printed, in one unit or two; without it the usual units of the kind are taken.
    """
    difference = difference_of(kind)
    if kind in LENGTHS:
        return both(value, kind=difference, decimals=3)
    if stated is None or difference != kind:
        return both(value, kind=difference)
    units = [one.unit for one in stated.spans]
    if len({one.system for one in units}) == 1:
        other = (unit(symbol, kind=kind) for symbol in units_shown(kind))
        units += [one for one in other if one.system != units[0].system]
    shown = []
    for one in sorted(units, key=lambda one: one.system != first_system()):
        number = convert(value, frm=BASE_UNIT[kind], to=one.symbol, kind=kind)
        shown.append(with_unit(number, one.symbol, decimals=_two_digits(number)))
    first, *rest = shown
    return f"{first} ({'; '.join(rest)})" if rest else first


def _two_digits(number: float) -> int:
    """Decimals that show two digits of a number."""
    return max(0, 1 - math.floor(math.log10(abs(number)))) if number else 0


@dataclass(frozen=True, slots=True)
class Parts:
    """What something is worked out from, each with the best gauge of his that reads it, and u of both together."""

    gauges: tuple[tuple[str, Suited | None], ...]
    u: float

    @property
    def lacking(self) -> tuple[str, ...]:
        """What none of his gauges reads with a known error."""
        return tuple(name for name, best in self.gauges if best is None)

    @property
    def words(self) -> str:
        """His gauges, each with what it reads."""
        return " and ".join(f"{best.name} ({name})" for name, best in self.gauges if best is not None)


def parts_of(sheet: DataSheet, kit: Kit, *, item: Characteristic) -> Parts:
    """The best gauges for what a characteristic is worked out from.

    Of one gauge that reads both, half of its variance cancels: their difference is as uncertain as one reading.
    """
    found: list[tuple[str, Suited | None]] = []
    for key in item.of:
        of = sheet.characteristics[key]
        stated = of.wear_limit or of.new_range or of.required
        ends = [stated.value.low_in("mm"), stated.value.high_in("mm")] if stated is not None else []
        size = max((one for one in ends if one is not None), default=0.0)
        known = [one for one in suited(sheet, kit, key=key, size=size) if one.known]
        found.append((of.name, min(known, key=lambda one: one.u, default=None)))
    return Parts(tuple(found), math.hypot(*(best.u for _, best in found if best is not None)))


_COMMON_SPAN_MM = 25.0
"""Outside micrometers are sold in steps of 25 mm."""


def to_borrow(sheet: DataSheet, key: str, *, size: float, owned: bool = True) -> tuple[str, float | None]:
    """What is worth borrowing for a size, and how far such a gauge is usually off [mm], where a standard says it.

    Where one of the kind is `owned`, only a better one helps.
    """
    item, kinds = sheet.characteristics[key], suited_kinds(sheet, key)
    if item.kind not in LENGTHS:
        kind = kinds[0] if kinds[0] != "other" else "gauge"
        return f"{'a better' if owned else 'an' if kind[0] in 'aeiou' else 'a'} {kind}", None
    kind = next((one for one in kinds if one not in ("feeler blades", "plastic gauging strip")), kinds[0])
    standard = permitted_error(kind, length_mm=size)
    usual = standard.value if standard is not None else None
    article = "an" if kind[0] in "aeiou" else "a"
    if kind == "outside micrometer":
        low = math.floor(size / _COMMON_SPAN_MM) * _COMMON_SPAN_MM
        return f"an outside micrometer {low:g}–{low + _COMMON_SPAN_MM:g} mm", usual
    if item.kind == "length":
        return f"{article} {kind} that reaches {both(size, kind='length', decimals=0)}", usual
    return f"{article} {kind}", usual
