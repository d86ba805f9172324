"""Before measuring: which of his gauges can decide a limit, and what to do where none can.

A gauge can decide where a part in the middle of what is allowed to it would be proven inside: its guard band takes no
more than half of the way from new to the limit, or from one limit to the other.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.context import Bench
from gudgeon.bench.gauge_error import LENGTHS, STRAIGHTEDGE_MM, STRAIGHTEDGES, difference_of, half_width
from gudgeon.bench.judging.blades import Known, Stack, over, under
from gudgeon.bench.judging.criteria import Criterion, criteria
from gudgeon.bench.judging.decision import NORMAL, RISK
from gudgeon.bench.judging.faces import LOWER_BOUND
from gudgeon.bench.judging.gauges import (
    Suited,
    as_stated,
    off_words,
    parts_of,
    say_its_error,
    suited,
    to_borrow,
)
from gudgeon.bench.judging.ways import must_not_enter
from gudgeon.calc.metrology.uncertainty import from_permitted_error
from gudgeon.calc.metrology.verdict import guard_band
from gudgeon.quantity.format import both
from gudgeon.quantity.written import Printed
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.shapes import PerSpan

BLADES, STRIP = "feeler blades", "plastic gauging strip"
SHARES = ("graded", "replace always", "difference between cylinders")
"""Limits that no gauge is asked for by a width."""


@dataclass(frozen=True, slots=True)
class Deciding:
    """The gauge of his that decides best, by its key, or none; words that he can act on; whether it is enough."""

    best: str
    words: str
    enough: bool


NOTHING = Deciding("", "", True)
"""Where nothing limits it, anything is good enough."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """The tightest limit: its ends, how wide the way to it is [base unit], and the size that has to be read."""

    low: float | None
    high: float | None
    width: float
    size: float
    words: str
    start: float | None = None

    @property
    def way(self) -> str:
        """How far it is from new to the limit, or from one limit to the other, in words that a length follows."""
        if self.low is not None and self.high is not None:
            return "from one limit to the other it is only"
        return "from new to the limit it is only"

    @property
    def least(self) -> float:
        """How uncertain a gauge may at most be."""
        return self.width / 2 / NORMAL


def can_decide(bench: Bench, key: str) -> Deciding:
    """Which instrument of his can decide the limits of a characteristic, before anything is measured."""
    item = bench.sheet.characteristics[key]
    limits = [one for one in criteria(bench.sheet, key) if one.shape not in SHARES]
    found = [one for one in (_wanted(item, limit) for limit in limits) if one is not None]
    if not found:
        return NOTHING
    wanted = min(found, key=lambda one: one.width)
    if item.computed:
        return _worked_out(bench, item, wanted)
    if item.method == "straightedge lines":
        return _by_blades(bench, key, limits)
    return _by_gauge(bench, key, wanted)


def _wanted(item: Characteristic, limit: Criterion) -> Wanted | None:
    """What a limit asks of a gauge."""
    low, high = limit.low, limit.high
    if low is None and high is None:
        return None
    size = _size(item, low, high, shape=limit.shape)
    if low is not None and high is not None:
        return Wanted(low, high, high - low, size, limit.text)
    new = item.new_range if limit.shape == "plain" else None
    base = BASE_UNIT[item.kind]
    start = None
    if new is not None:
        start = new.value.high_in(base) if high is not None else new.value.low_in(base)
    end = high if high is not None else low
    assert end is not None  # one of the two is stated
    if start is None:
        # Nothing new to start from: a deviation starts at nothing; a size has no width to be judged by.
        start = 0.0 if item.kind == "length_difference" or limit.shape != "plain" else None
    width = abs(end - start) if start is not None else math.inf
    return Wanted(low, high, width or abs(end), size, limit.text, start)


def _size(item: Characteristic, low: float | None, high: float | None, *, shape: str) -> float:
    """The size that the gauge has to reach: that of the limit, or of the part where the limit is a difference."""
    if shape == "plain" or item.kind == "length_difference":
        return max(abs(one) for one in (low, high) if one is not None)
    stated = item.new_range or item.wear_limit or item.required
    if stated is None:
        return 0.0
    ends = [stated.value.low_in("mm"), stated.value.high_in("mm")]
    return max((abs(one) for one in ends if one is not None), default=0.0)


def _by_gauge(bench: Bench, key: str, wanted: Wanted) -> Deciding:
    found = list(suited(bench.sheet, bench.kit, key=key, size=wanted.size))
    known = [one for one in found if one.known]
    good = [one for one in known if _enough(one, wanted)]
    if good:
        one = good[0]
        strips = [
            f"; where a blade cannot get in: your {other.name}"
            for other in good
            if one.gauge.kind != STRIP == other.gauge.kind
        ]
        return Deciding(
            one.key, f"your {one.name} can decide it{_step_words(one, wanted)}{''.join(strips[:1])}", True
        )
    return Deciding(known[0].key if known else "", "; ".join(_cannot(bench, key, wanted, found)), False)


def _enough(one: Suited, wanted: Wanted) -> bool:
    band = guard_band(one.u, lower=wanted.low, upper=wanted.high, risk=RISK)
    return band is not None and band <= wanted.width / 2 and _has_blades(one, wanted)


def _step_words(one: Suited, wanted: Wanted) -> str:
    if one.gauge.kind != "feeler blades":
        return ""
    said = _blade_words(one, wanted)
    return f": {said}" if said else ""


def _blade_words(one: Suited, wanted: Wanted) -> str:
    found = _blades(one, wanted)
    return " and ".join(
        f"{stack.words.replace('a blade of', 'the blade of')} {must}" for stack, must in found if stack
    )


def _has_blades(one: Suited, wanted: Wanted) -> bool:
    return one.gauge.kind != BLADES or all(stack is not None for stack, _ in _blades(one, wanted))


def _blades(one: Suited, wanted: Wanted) -> list[tuple[Stack | None, str]]:
    """What must enter and what must not, and that no good part fails: blades between new and the limit."""
    band, ways = NORMAL * one.u, list[tuple[Stack | None, str]]()
    both_ends = wanted.low is not None and wanted.high is not None
    room = wanted.width if both_ends else math.inf
    if wanted.low is not None and wanted.low > 0:
        most = wanted.high if wanted.high is not None else wanted.start
        known = Known(0.0, math.inf if most is None else most, band, room)
        ways.append((over(one.gauge, wanted.low, known=known), "must enter"))
    if wanted.high is not None:
        least = wanted.low if wanted.low is not None else wanted.start
        known = Known(least or 0.0, math.inf, band, room)
        ways.append((under(one.gauge, wanted.high, known=known), "must not enter"))
    return ways


def _cannot(bench: Bench, key: str, wanted: Wanted, found: Sequence[Suited]) -> Iterator[str]:
    """Why none can, and what to borrow."""
    what, usual = to_borrow(bench.sheet, key, size=wanted.size, owned=bool(found))
    item = bench.sheet.characteristics[key]
    kind, stated = item.kind, _printed(item, wanted.words)
    if not found:
        size = both(wanted.size, kind=kind, decimals=2) if kind in LENGTHS else wanted.words
        yield f"none of your gauges reads this at all: {size}"
    elif not found[0].known:
        yield f"how far your {found[0].name} may be off is not known: {say_its_error(found[0].gauge)}"
        return
    else:
        one = found[0]
        if not _has_blades(one, wanted):
            yield f"no blade of your {one.name}, nor two together, lies between what a good part has and {wanted.words}"
            return
        off = off_words(one.gauge, kind=kind, size=wanted.size, stated=stated)
        room = _in_sight(wanted.width, kind, stated)
        yield f"none of your gauges reads this well enough: your {one.name} is {off}, and {wanted.way} {room}"
    off = f" (± {both(usual, kind='length_difference', decimals=3)})" if usual is not None else ""
    if usual is not None and usual / math.sqrt(3) > wanted.least:
        yield f"even {what}{off} would not decide it: have it measured at a machine shop"
        return
    most = "" if math.isinf(wanted.width) else (
        f", off by at most {_in_sight(wanted.least * math.sqrt(3), kind, stated)}"
    )  # fmt: skip
    yield f"borrow {what}{off or most}"


def _printed(item: Characteristic, words: str) -> Printed | None:
    """The limit as the sheet prints it, whose units are those of the gauge that reads it."""
    shaped = (getattr(shape, "limit", None) for shape in item.limits)
    stated = (item.new_range, item.wear_limit, item.required, *shaped)
    return next((one.value for one in stated if one is not None and one.value.text == words), None)


def _in_sight(value: float, kind: str, stated: Printed | None) -> str:
    """How much room there is, in the units of the limit; a length as fine as it is."""
    return (
        both(value, kind=difference_of(kind))
        if kind in LENGTHS
        else as_stated(value, kind=kind, stated=stated)
    )


def _by_blades(bench: Bench, key: str, limits: Sequence[Criterion]) -> Deciding:
    """Lines under a straightedge: the blade that must not enter, reckoned with the errors of blade and straightedge."""
    if any(one.shape == "whole face" for one in limits):
        return Deciding(
            "", f"{LOWER_BOUND}. Read heights over a surface plate, or have the face scanned", False
        )
    sets = [one for one in suited(bench.sheet, bench.kit, key=key, size=0.0) if one.known]
    if not sets:
        return Deciding(
            "", "your kit has no feeler blades with a known error: write them in, or borrow a set", False
        )
    asked = [(most, _where(limit)) for limit in limits if (most := _of_a_line(bench, key, limit))]
    blades = [(_thickest(bench, sets, most), most, where) for most, where in asked]
    lacking = next((most for blade, most, _ in blades if blade is None), None)
    if lacking is not None:
        one = sets[0]
        off = off_words(one.gauge, kind="length_difference", size=0.0)
        room = both(lacking, kind="length_difference")
        return Deciding(
            one.key, f"your {one.name} cannot decide this: no blade of it is thin enough for {room} with the errors of "
            f"blade and straightedge ({off}); have the face measured at a machine shop", False,
        )  # fmt: skip
    edges = any(one.kind in STRAIGHTEDGES for one in bench.kit.gauges.values())
    said = [(blade, where) for blade, _, where in blades if blade is not None]
    if not said:
        return NOTHING
    words = " and ".join(
        f"the {both(thick, kind='length_difference')} blade must not enter on {where}"
        for (thick, _), where in said
    )
    best = said[0][0][1]
    edge = " and straightedge" if edges else " (your kit has no straightedge)"
    return Deciding(best.key, f"with your {best.name}{edge}: {words}", True)


def _of_a_line(bench: Bench, key: str, limit: Criterion) -> float | None:
    """The most that a gap may be on one line: of two faces half of it each, of a span that of the shortest line."""
    if limit.high is None:
        return None
    if limit.shape == "two faces together":
        return limit.high / 2
    if not isinstance(limit.stated, PerSpan):
        return limit.high
    item = bench.sheet.characteristics[key]
    face = bench.sheet.faces.get(item.face or "")
    known = [line.length_mm() for line in face.lines.values()] if face is not None else []
    spans = [one for one in known if one is not None]
    if limit.stated.span is not None:
        spans = [limit.stated.span.value.middle_in("mm")]
    return limit.high * min(spans) / limit.stated.per.value.middle_in("mm") if spans else None


def _where(limit: Criterion) -> str:
    if limit.shape == "two faces together":
        return "any line of either face"
    if limit.along is not None:
        return f"any line {limit.along}"
    return "the shortest line" if limit.shape == "per unit of span" else "any line"


def _thickest(bench: Bench, sets: Sequence[Suited], most: float) -> tuple[float, Suited] | None:
    """The thickest blade of his that proves a gap under its limit when it does not enter."""
    found = []
    for one in sets:
        blade = must_not_enter(one.gauge, most - NORMAL * _with_straightedge(bench, one.u))
        if blade is not None:
            found.append((blade, one))
    return max(found, key=lambda one: one[0], default=None)


def _with_straightedge(bench: Bench, u: float) -> float:
    """A blade under a straightedge: both errors are in the gap; of several straightedges the worst, as in a reading."""
    edges = [one for one in bench.kit.gauges.values() if one.kind in STRAIGHTEDGES]
    found = [
        half_width(one, size_mm=one.length.middle_in("mm") if one.length is not None else STRAIGHTEDGE_MM)
        for one in edges
    ]
    return max((math.hypot(u, from_permitted_error(error)) for error, _ in found), default=u)


def _worked_out(bench: Bench, item: Characteristic, wanted: Wanted) -> Deciding:
    """What is worked out is as good as the gauges of what it is worked out from, together."""
    parts = parts_of(bench.sheet, bench.kit, item=item)
    if parts.lacking:
        return Deciding(
            "", f"none of your gauges reads {' and '.join(parts.lacking)} with a known error", False
        )
    best = next(one.key for _, one in parts.gauges if one is not None)
    band = guard_band(parts.u, lower=wanted.low, upper=wanted.high, risk=RISK)
    if band is not None and band <= wanted.width / 2:
        return Deciding(best, f"your {parts.words} can decide it", True)
    off, room = (both(one, kind="length_difference", decimals=3) for one in (2 * parts.u, wanted.width))
    return Deciding(
        best, f"your {parts.words} cannot decide this: together U is ± {off}, and {wanted.way} {room}", False
    )
