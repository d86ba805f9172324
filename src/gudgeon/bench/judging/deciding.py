"""Before measuring: which of his gauges can decide a limit, and what to do where none can.

A gauge can decide where a part in the middle of what is allowed to it would be proven inside: its guard band takes no
more than half of the way from new to the limit, or from one limit to the other.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.context import Bench
from gudgeon.bench.judging.criteria import Criterion, criteria
from gudgeon.bench.judging.decision import NORMAL, RISK
from gudgeon.bench.judging.faces import LOWER_BOUND
from gudgeon.bench.judging.gauges import Suited, off_words, suited, to_borrow
from gudgeon.bench.judging.ways import must_enter, must_not_enter
from gudgeon.bench.measured import standard_uncertainty
from gudgeon.calc.metrology.verdict import guard_band
from gudgeon.quantity.format import both
from gudgeon.sheet.inspections import Characteristic

STEPS = ("feeler blades", "plastic gauging strip")
LENGTHS = ("length", "length_difference")


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

    @property
    def least(self) -> float:
        """How uncertain a gauge may at most be."""
        return self.width / 2 / NORMAL


def can_decide(bench: Bench, key: str) -> Deciding:
    """Which instrument of his can decide the limits of a characteristic, before anything is measured."""
    item = bench.sheet.characteristics[key]
    limits = [one for one in criteria(bench.sheet, key) if one.shape not in ("graded", "replace always")]
    found = [one for one in (_wanted(item, limit) for limit in limits) if one is not None]
    if not found or item.kind not in LENGTHS:
        return NOTHING
    wanted = min(found, key=lambda one: one.width)
    if item.computed:
        return _worked_out(bench, item, wanted)
    if item.method == "straightedge lines":
        return _by_blades(bench, key, wanted, limits)
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
    return Wanted(low, high, width or abs(end), size, limit.text)


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
        return Deciding(one.key, f"your {one.name} can decide it{_step_words(one, wanted)}", True)
    return Deciding(known[0].key if known else "", "; ".join(_cannot(bench, key, wanted, found)), False)


def _enough(one: Suited, wanted: Wanted) -> bool:
    band = guard_band(one.u, lower=wanted.low, upper=wanted.high, risk=RISK)
    return band is not None and band <= wanted.width / 2


def _step_words(one: Suited, wanted: Wanted) -> str:
    if one.gauge.kind != "feeler blades":
        return ""
    said = _blade_words(one, wanted)
    return f": {said}" if said else ""


def _blade_words(one: Suited, wanted: Wanted) -> str:
    ways = []
    if wanted.low is not None and wanted.low > 0:
        blade = must_enter(one.gauge, wanted.low + NORMAL * one.u)
        ways.append(f"the {both(blade, kind='length_difference')} blade must enter" if blade else "")
    if wanted.high is not None:
        blade = must_not_enter(one.gauge, wanted.high - NORMAL * one.u)
        ways.append(f"the {both(blade, kind='length_difference')} blade must not enter" if blade else "")
    return " and ".join(filter(None, ways))


def _cannot(bench: Bench, key: str, wanted: Wanted, found: Sequence[Suited]) -> Iterator[str]:
    """Why none can, and what to borrow."""
    what, usual = to_borrow(bench.sheet, key, size=wanted.size)
    if not found:
        yield f"none of your gauges reaches {both(wanted.size, kind='length', decimals=2)}"
    elif not found[0].known:
        yield f"how far your {found[0].name} may be off is not known: state its error in the kit"
        return
    else:
        one = found[0]
        off = off_words(one.gauge, size=wanted.size)
        room = both(wanted.width, kind="length_difference")
        yield f"your {one.name} cannot decide this: it is {off}, and from end to end it is only {room}"
    off = f" (± {both(usual, kind='length_difference', decimals=3)})" if usual is not None else ""
    if usual is not None and usual / math.sqrt(3) > wanted.least:
        yield f"even {what}{off} would not decide it: have it measured at a machine shop"
        return
    most = "" if math.isinf(wanted.width) else (
        f", off by at most {both(wanted.least * math.sqrt(3), kind='length_difference', decimals=3)}"
    )  # fmt: skip
    yield f"borrow {what}{off or most}"


def _by_blades(bench: Bench, key: str, wanted: Wanted, limits: Sequence[Criterion]) -> Deciding:
    """Lines under a straightedge: the blade that must not enter, reckoned with the errors of blade and straightedge."""
    sets = [one for one in suited(bench.sheet, bench.kit, key=key, size=0.0) if one.known]
    straightedge = [one for one in bench.kit.gauges.values() if one.kind == "straightedge"]
    if any(one.shape == "whole face" for one in limits):
        return Deciding(
            "", f"{LOWER_BOUND}. Read heights over a surface plate, or have the face scanned", False
        )
    if not sets:
        return Deciding(
            "", "your kit has no feeler blades with a known error: write them in, or borrow a set", False
        )
    best: tuple[float, Suited] | None = None
    for one in sets:
        u = _with_straightedge(bench, one.u)
        blade = must_not_enter(one.gauge, (wanted.high or 0.0) - NORMAL * u)
        if blade is not None and (best is None or blade > best[0]):
            best = blade, one
    if best is None:
        one = sets[0]
        error = off_words(one.gauge, size=0.0)
        most = both(wanted.high or 0.0, kind="length_difference")
        return Deciding(
            one.key, f"your {one.name} cannot decide this: no blade of it is thin enough for {most} with the errors of "
            f"blade and straightedge ({error}); have the face measured at a machine shop", False,
        )  # fmt: skip
    blade, one = best
    edge = " and straightedge" if straightedge else " (your kit has no straightedge)"
    shown = both(blade, kind="length_difference")
    return Deciding(
        one.key, f"with your {one.name}{edge}: the {shown} blade must not enter on any line", True
    )


def _with_straightedge(bench: Bench, u: float) -> float:
    """A blade under a straightedge: both errors are in the gap."""
    edges = [one for one in bench.kit.gauges.values() if one.kind == "straightedge"]
    found = [standard_uncertainty(one, "length_difference", size_mm=_length(one.length)) for one in edges]
    return min((math.hypot(u, edge) for edge, known in found if known), default=u)


def _length(stated: object) -> float:
    middle = getattr(stated, "middle_in", None)
    return float(middle("mm")) if middle is not None else 0.0


def _worked_out(bench: Bench, item: Characteristic, wanted: Wanted) -> Deciding:
    """What is worked out is as good as the gauges of what it is worked out from, together."""
    parts: list[tuple[str, Suited | None]] = []
    for key in item.of:
        of = bench.sheet.characteristics[key]
        stated = of.wear_limit or of.new_range or of.required
        ends = [stated.value.low_in("mm"), stated.value.high_in("mm")] if stated is not None else []
        size = max((one for one in ends if one is not None), default=0.0)
        best = next((one for one in suited(bench.sheet, bench.kit, key=key, size=size) if one.known), None)
        parts.append((of.name, best))
    lacking = [name for name, best in parts if best is None]
    if lacking:
        return Deciding("", f"none of your gauges reads {' and '.join(lacking)} with a known error", False)
    owned = [(name, best) for name, best in parts if best is not None]
    twice = owned * 2 if len(owned) == 1 else owned  # a difference of two readings of one gauge
    u = math.hypot(*(best.u for _, best in twice))
    names = " and ".join(f"{best.name} ({name})" for name, best in owned)
    band = guard_band(u, lower=wanted.low, upper=wanted.high, risk=RISK)
    if band is not None and band <= wanted.width / 2:
        return Deciding(owned[0][1].key, f"your {names} can decide it", True)
    off, room = (both(one, kind="length_difference", decimals=3) for one in (2 * u, wanted.width))
    return Deciding(
        owned[0][1].key, f"your {names} cannot decide this: together U is ± {off}, and the way to the limit is {room}",
        False,
    )  # fmt: skip
