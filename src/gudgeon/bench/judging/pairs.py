"""Parts whose ranges alone cannot meet a clearance: which of them goes where, so that every pair has it."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from gudgeon.bench.judging.clearances import by_part, clearance_between
from gudgeon.bench.judging.criteria import Criterion
from gudgeon.bench.judging.decision import NORMAL, Value, decide
from gudgeon.bench.judging.finding import Case, Finding, Judged, judge_by, lacks, named, shown_value
from gudgeon.bench.measured import Measured, measured
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


@dataclass(frozen=True, slots=True)
class Matching:
    """Every part in every place, which is given which place, and what the sheet says of their ranges.

    `all_inside` says whether every pair that was chosen is proven to be inside.
    """

    shaft: Characteristic
    pairs: Sequence[Sequence[Pair]]
    chosen: tuple[int, ...]
    all_inside: bool
    said: tuple[str, ...]

    def taken(self) -> Iterator[Pair]:
        """The pair of each place."""
        return (row[at] for row, at in zip(self.pairs, self.chosen, strict=True))

    def as_they_are(self) -> tuple[Pair, ...]:
        """Every part in the place of its own name; nothing where parts and places have other names."""
        own = tuple(one for row in self.pairs for one in row if one.hole == one.shaft)
        return own if len(own) == len(self.pairs) else ()


def matched(case: Case) -> Iterator[Finding]:
    """The assignment in which the pair that is worst off has the most room; who breaks it where there is none."""
    found = matching(case)
    if isinstance(found, Finding):
        yield found
    else:
        yield from _told(case, found)


def matching(case: Case) -> Matching | Finding:
    """Which part is given which place, or what is lacking to say so."""
    made_of = _made_of(case.item)
    if made_of is None:
        return lacks(case, "the sheet does not say which two parts make this clearance: name them in `of:`")
    hole_item, shaft_item = (case.bench.sheet.characteristics[key] for key in made_of)
    said = _by_the_sheet(case, hole_item, shaft_item)
    holes, shafts = (by_part(measured(case.bench, key)) for key in made_of)
    wanted = [
        f"{item.name}, {named(missing)}"
        for item, read in ((hole_item, holes), (shaft_item, shafts))
        if (missing := _unread(item, read))
    ]
    if wanted or len(shafts) < len(holes):
        text = (
            f"no reading: {' and '.join(wanted)}" if wanted else "fewer parts were read than there are places"
        )
        return replace(lacks(case, text, place="all pairs"), notes=said)
    pairs = [[_pair(case, hole, shaft, holes, shafts) for shaft in shafts] for hole in holes]
    from gudgeon.calc.engine.assignment import widest_least

    margins = [[one.margin for one in row] for row in pairs]
    chosen = widest_least(margins, allowed=[[one.verdict == "inside" for one in row] for row in pairs])
    if chosen is None:
        return Matching(shaft_item, pairs, _most_inside(pairs), False, said)
    return Matching(shaft_item, pairs, chosen, True, said)


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
    between = clearance_between(holes[hole], shaft=shafts[shaft])
    value = between.value
    shown = f"{shown_value(value, 'length_difference')} with that of {shaft}"
    found = decide(value, low=case.criterion.low, high=case.criterion.high, as_read=case.as_read)
    made = Judged(hole, value, between.terms, shown)
    return Pair(hole, shaft, made, _margin(case, value), found.verdict)


def _margin(case: Case, value: Value) -> float:
    """How far inside the pair is proven to lie."""
    low, high = case.criterion.low, case.criterion.high
    u_low, u_high = (0.0, 0.0) if case.as_read else value.u_ends or (value.u, value.u)
    above = math.inf if low is None else value.low - low - NORMAL * u_low
    below = math.inf if high is None else high - value.high - NORMAL * u_high
    return min(above, below)


def _told(case: Case, found: Matching) -> Iterator[Finding]:
    notes = [*found.said, *breaks(found)]
    own = found.as_they_are()
    if found.all_inside and own and all(one.verdict == "inside" for one in own):
        notes.append("as they are, every pair is inside too")
    for one in found.taken():
        judged = judge_by(case, one.made, low=case.criterion.low, high=case.criterion.high)
        words = f"{found.shaft.name} of {one.shaft} into {one.hole}: {judged.reason}"
        yield replace(judged, reason=words, notes=(*judged.notes, *notes))
        notes = []


def breaks(found: Matching) -> tuple[str, ...]:
    """Why no assignment gives every pair its clearance, where one of those chosen is outside."""
    if all(one.verdict != "outside" for one in found.taken()):
        return ()
    return (f"no assignment gives every pair its clearance: {_breaks(found.shaft, found.pairs)}",)


def _most_inside(pairs: Sequence[Sequence[Pair]]) -> tuple[int, ...]:
    """Where not every pair can be inside: as few outside as can be, then as many inside, then the most room."""
    from gudgeon.calc.engine.assignment import most_inside

    rank = {"inside": 0, "in doubt": 1, "outside": len(pairs) + 1}
    ranks = [[rank[one.verdict] for one in row] for row in pairs]
    room = [[-max(-ROOM_MM, min(ROOM_MM, one.margin)) for one in row] for row in pairs]
    return most_inside(ranks, distances=room).parts


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
