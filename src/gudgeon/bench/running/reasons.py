"""What the pressures of the cylinders say together, and what is done next."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from gudgeon.bench.context import Bench
from gudgeon.bench.measured import Measured
from gudgeon.bench.running.answers import Advice
from gudgeon.bench.running.with_oil import WithOil
from gudgeon.sources.first_run import run_figure

TIMING = "gudgeon timing, then the valve clearances"
LEAK = "leak-down test on it, and listen where the air comes out"


@dataclass(frozen=True, slots=True)
class Seen:
    """One cylinder: its readings, its share of the highest, the words beside it, whether it is low, or as new."""

    place: str
    dry: Measured
    wet: WithOil | None
    share: float
    against: str
    verdict: str
    why: str
    low: bool
    as_new: bool

    @property
    def below(self) -> bool:
        """Whether it is below what is expected, and below what the sheet prints for a new engine too."""
        return self.against.startswith("below") and not self.as_new

    @property
    def rise(self) -> float | None:
        """By which share oil raises the pressure; nothing where the wet reading tells of another state."""
        before = (self.dry.low + self.dry.high) / 2
        if self.wet is None or self.wet.stale or before <= 0:
            return None
        share = (self.wet.reading.low + self.wet.reading.high) / 2 / before - 1
        return share if math.isfinite(share) else None


def advice(
    bench: Bench, seen: Sequence[Seen], *, places: Sequence[str], wet_known: bool, alike: str
) -> tuple[Advice, ...]:
    """What the readings say together, the gravest first; `places` are all cylinders in their order.

    `alike` is the worst verdict of the rules between cylinders: only when it is inside they are low alike.
    """
    low, below = [one for one in seen if one.low], [one for one in seen if one.below]
    if len(seen) > 1 and len(low or below) == len(seen):
        return tuple(_all_low(bench, seen, places, wet_known=wet_known, alike=alike))
    return tuple(_advice(bench, seen, places, wet_known))


def _advice(bench: Bench, seen: Sequence[Seen], places: Sequence[str], wet_known: bool) -> Iterator[Advice]:
    low = [one for one in seen if one.low]
    below = [one for one in seen if one.below]
    if not seen:
        return
    yield from _gaskets(bench, low, places)
    for one in low:
        yield _one_low(one, wet_known)
    weak = [one.place for one in below if one not in low]
    if weak:
        yield Advice(
            f"{listed(weak)}: no reason to take anything apart, but below what a sound engine gives",
            "read again: engine warm, throttle wide open, the starter at its speed until the gauge rises no more",
        )
    above = [one.place for one in seen if one.against.startswith("above")]
    if above:
        yield Advice(
            f"{listed(above)}: above what is expected – carbon or oil in the chamber, a head cut more than the "
            "book knows, or a gauge that reads high",
            "look in with a lamp, and try another gauge",
        )
    if not low and not below and not above:
        yield Advice(
            "no cylinder stands out", "go on to the leak-down test only if something else asks for it"
        )


def _gaskets(bench: Bench, low: Sequence[Seen], places: Sequence[str]) -> Iterator[Advice]:
    """Low cylinders side by side."""
    side_by_side = "beside each other" if _one_row(bench) else "if they are beside each other on one bank"
    for first, other in _neighbors(bench, low, places):
        yield Advice(
            f"{first.place} and {other.place}, {side_by_side}, are both low: the head gasket between "
            "them is the first suspect (common practice)",
            f"leak-down test on {first.place}, and listen at the plug hole of {other.place}",
        )


def listed(places: Sequence[str]) -> str:
    """Places as they stand in a sentence."""
    return " and ".join(filter(None, [", ".join(places[:-1]), places[-1]]))


def _all_low(
    bench: Bench, seen: Sequence[Seen], places: Sequence[str], *, wet_known: bool, alike: str
) -> Iterator[Advice]:
    """All alike: the test, the timing or the air before the parts; else the lowest cylinder first."""
    speed = bench.sheet.after_start.cranking_speed if bench.sheet.after_start is not None else None
    least = run_figure("cranking_speed")
    turned = speed.value.text if speed is not None else f"{least.value:g} r/min"
    again = "throttle wide open, battery full, read again"
    if alike == "inside":
        yield Advice(
            "all cylinders are low alike: the test or the valve timing before rings and valves – throttle shut, "
            f"starter below {turned}, a long hose, camshafts some teeth late (common practice)",
            f"{again}; then {TIMING}",
        )
        return
    lowest = min(seen, key=lambda one: one.dry.low + one.dry.high)
    how = "and not alike" if alike == "outside" else "and that they are alike is not proved"
    yield Advice(
        f"all cylinders are low, {how}: {lowest.place} is the lowest, at {lowest.dry.text}, {100 * lowest.share:.0f} % "
        "of the highest",
        f"{again}; then {lowest.place} before the others",
    )
    far = run_figure("low_share").value
    yield from _gaskets(bench, [one for one in seen if one.share < far], places)
    yield _one_low(lowest, wet_known)


def _neighbors(bench: Bench, low: Sequence[Seen], places: Sequence[str]) -> Iterator[tuple[Seen, Seen]]:
    """Low cylinders side by side; of two banks every pair, since their numbers do not tell which stand together."""
    for first, other in combinations(low, 2):
        if not _one_row(bench) or places.index(other.place) - places.index(first.place) == 1:
            yield first, other


def _one_row(bench: Bench) -> bool:
    return bench.sheet.engine.layout in ("inline", "single")


def _one_low(one: Seen, wet_known: bool) -> Advice:
    """One low cylinder: with oil in it rings tell themselves from valves."""
    rings, nothing = run_figure("wet_rise_rings").value, run_figure("wet_rise_nothing").value
    rise = one.rise
    basis = f"({run_figure('wet_rise_rings').source.provenance.lower()})"
    if rise is None:
        oil = run_figure("wet_oil_cm3")
        how = f"pour in {oil.value:g} cm³ of engine oil, turn it over, read again"
        say = "" if wet_known else ", after naming its characteristic in `after_start.wet`"
        since = " since" if one.wet is not None else ""
        return Advice(
            f"{one.place} is low, and was not read with oil in it{since}", f"{how}{say}; then a {LEAK}"
        )
    told = f"{one.place} is low, and oil raises it by {100 * rise:.0f} %"
    if rise >= rings:
        return Advice(f"{told}: rings, bore or piston {basis}", f"{LEAK}: at the oil filler it confirms it")
    if rise <= nothing:
        return Advice(
            f"{told}: not the rings, but a valve or the gasket {basis}",
            f"valve clearance there, then a {LEAK}",
        )
    return Advice(f"{told}: that settles nothing {basis}", LEAK)
