"""Parts whose ranges alone cannot meet a clearance: which of them goes where, so that every pair has it."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from gudgeon.bench.judging.criteria import Criterion
from gudgeon.bench.judging.decision import NORMAL, Value, decide, spanned, total
from gudgeon.bench.judging.finding import Case, Finding, Judged, judge_by, lacks, named, shown_value
from gudgeon.bench.measured import Measured, measured
from gudgeon.calc.engine.assignment import most_inside, widest_least
from gudgeon.quantity.format import both_ends
from gudgeon.sheet.inspections import Characteristic, place_names

ROOM_MM = 1e3
"""More room than any pair has: what is open at both ends counts as this."""


@dataclass(frozen=True, slots=True)
class Pair:
    """One part in one place: the clearance it would have there, from its least to its most, and the margin."""

    hole: str
    shaft: str
    made: Judged
    margin: float
    verdict: str


def matched(case: Case) -> Iterator[Finding]:
    """The assignment in which the pair that is worst off has the most room; who breaks it where there is none."""
    made_of = _made_of(case.item)
    if made_of is None:
        yield lacks(case, "the sheet does not say which two parts make this clearance: name them in `of:`")
        return
    hole_item, shaft_item = (case.bench.sheet.characteristics[key] for key in made_of)
    said = _by_the_sheet(case, hole_item, shaft_item)
    holes, shafts = (_by_part(measured(case.bench, key)) for key in made_of)
    wanted = [
        f"{item.name}, {named(missing)}"
        for item, read in ((hole_item, holes), (shaft_item, shafts))
        if (missing := _unread(item, read))
    ]
    if wanted or len(shafts) < len(holes):
        text = (
            f"no reading: {' and '.join(wanted)}" if wanted else "fewer parts were read than there are places"
        )
        yield replace(lacks(case, text, place="all pairs"), notes=said)
        return
    pairs = [[_pair(case, hole, shaft, holes, shafts) for shaft in shafts] for hole in holes]
    yield from _told(case, shaft_item, pairs, said)


def _made_of(item: Characteristic) -> tuple[str, str] | None:
    if item.between is not None:
        return item.between
    return (item.of[0], item.of[1]) if len(item.of) == 2 else None


def _by_the_sheet(case: Case, hole: Characteristic, shaft: Characteristic) -> tuple[str, ...]:
    """Whether parts within their ranges can miss the clearance: then they must be matched."""
    if hole.new_range is None or shaft.new_range is None:
        return ()
    (hole_low, hole_high), (shaft_low, shaft_high) = (
        (one.low_in("mm"), one.high_in("mm"))
        for one in (hole.new_range.value.first, shaft.new_range.value.first)
    )
    if hole_low is None or hole_high is None or shaft_low is None or shaft_high is None:
        return ()
    least, most = hole_low - shaft_high, hole_high - shaft_low
    if _within(least, case.criterion) and _within(most, case.criterion):
        return ("by their ranges any two new parts have this clearance",)
    made = both_ends(least, high=most, kind="length_difference")
    return (f"the ranges of new parts alone give {made}: they must be matched",)


def _within(value: float, limit: Criterion) -> bool:
    low, high = limit.low, limit.high
    return (low is None or value >= low - 1e-9) and (high is None or value <= high + 1e-9)


def _by_part(readings: Mapping[str, Measured]) -> dict[str, list[Measured]]:
    found: dict[str, list[Measured]] = {}
    for place, one in readings.items():
        found.setdefault(place.partition(", ")[0], []).append(one)
    return found


def _unread(item: Characteristic, read: Mapping[str, list[Measured]]) -> list[str]:
    known = {one.place for members in read.values() for one in members}
    return [place or item.name for place in place_names(item) if place not in known]


def _pair(
    case: Case,
    hole: str,
    shaft: str,
    holes: Mapping[str, list[Measured]],
    shafts: Mapping[str, list[Measured]],
) -> Pair:
    inner, outer = shafts[shaft], holes[hole]
    tight = ((1.0, min(outer, key=lambda one: one.low)), (-1.0, max(inner, key=lambda one: one.high)))
    loose = ((1.0, max(outer, key=lambda one: one.high)), (-1.0, min(inner, key=lambda one: one.low)))
    value = _from_to(total(tight), total(loose))
    if len(outer) > 1 or len(inner) > 1:
        tight_at, loose_at = (_spot(pair[0][1]) for pair in (tight, loose))
        value = spanned(
            value, least=total(tight), greatest=total(loose), least_at=tight_at, greatest_at=loose_at
        )
    shown = f"{shown_value(value, 'length_difference')} with that of {shaft}"
    found = decide(value, low=case.criterion.low, high=case.criterion.high, as_read=case.as_read)
    made = Judged(hole, value, (*tight, *loose), shown)
    return Pair(hole, shaft, made, _margin(case, value), found.verdict)


def _spot(one: Measured) -> str:
    return one.place.partition(", ")[2].replace(", ", " ") or one.place


def _from_to(tight: Value, loose: Value) -> Value:
    """From the least of one clearance to the most of another, each with its own uncertainty."""
    wider = tight if tight.u >= loose.u else loose
    low, _ = tight.u_ends or (tight.u, tight.u)
    _, high = loose.u_ends or (loose.u, loose.u)
    ends = (low, high) if tight.low != loose.high else None
    known, dof = tight.known and loose.known, min(tight.dof, loose.dof)
    return replace(wider, low=tight.low, high=loose.high, known=known, dof=dof, u_ends=ends)


def _margin(case: Case, value: Value) -> float:
    """How far inside the pair is proven to lie."""
    low, high = case.criterion.low, case.criterion.high
    u_low, u_high = (0.0, 0.0) if case.as_read else value.u_ends or (value.u, value.u)
    above = math.inf if low is None else value.low - low - NORMAL * u_low
    below = math.inf if high is None else high - value.high - NORMAL * u_high
    return min(above, below)


def _told(
    case: Case, shaft: Characteristic, pairs: Sequence[Sequence[Pair]], said: tuple[str, ...]
) -> Iterator[Finding]:
    margins = [[one.margin for one in row] for row in pairs]
    notes = list(said)
    chosen = widest_least(margins, allowed=[[one.verdict == "inside" for one in row] for row in pairs])
    if chosen is None:
        chosen = _most_inside(pairs)
        if any(row[at].verdict == "outside" for row, at in zip(pairs, chosen, strict=True)):
            notes.append(f"no assignment gives every pair its clearance: {_breaks(shaft, pairs)}")
    elif _as_they_are(pairs):
        notes.append("as they are, every pair is inside too")
    for row, at in zip(pairs, chosen, strict=True):
        one = row[at]
        found = judge_by(case, one.made, low=case.criterion.low, high=case.criterion.high)
        words = f"{shaft.name} of {one.shaft} into {one.hole}: {found.reason}"
        yield replace(found, reason=words, notes=(*found.notes, *notes))
        notes = []


def _most_inside(pairs: Sequence[Sequence[Pair]]) -> tuple[int, ...]:
    """Where not every pair can be inside: as few outside as can be, then as many inside, then the most room."""
    rank = {"inside": 0, "in doubt": 1, "outside": len(pairs) + 1}
    ranks = [[rank[one.verdict] for one in row] for row in pairs]
    room = [[-max(-ROOM_MM, min(ROOM_MM, one.margin)) for one in row] for row in pairs]
    return most_inside(ranks, distances=room).parts


def _as_they_are(pairs: Sequence[Sequence[Pair]]) -> bool:
    own = [one for row in pairs for one in row if one.hole == one.shaft]
    return len(own) == len(pairs) and all(one.verdict == "inside" for one in own)


def _breaks(shaft: Characteristic, pairs: Sequence[Sequence[Pair]]) -> str:
    """A part that fits nowhere, a place that nothing fits; else places that too few parts are left for."""
    nothing = [row[0].hole for row in pairs if all(one.verdict == "outside" for one in row)]
    nowhere = [
        column[0].shaft
        for column in zip(*pairs, strict=True)
        if all(one.verdict == "outside" for one in column)
    ]
    said = [f"nothing fits {one}" for one in nothing]
    said += [f"{shaft.name} of {one} fits nowhere" for one in nowhere]
    return "; ".join(said) or _too_few(pairs)


def _too_few(pairs: Sequence[Sequence[Pair]]) -> str:
    """The fewest places that share fewer parts than they are; there are at most a dozen cylinders."""
    fits = {row[0].hole: {one.shaft for one in row if one.verdict != "outside"} for row in pairs}
    for chosen in sorted(product((False, True), repeat=len(fits)), key=sum):
        holes = [hole for hole, taken in zip(fits, chosen, strict=True) if taken]
        shared: set[str] = set().union(*(fits[hole] for hole in holes))
        if len(shared) < len(holes):
            return f"only that of {', '.join(sorted(shared))} fits {', '.join(holes)}"
    return "no part is at fault alone"
