"""Rings among the bores: a ring has another gap in another bore, and each set is put where it fits best."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from gudgeon.bench.context import Bench
from gudgeon.bench.fits.answer import (
    DOUBT,
    INSIDE,
    NOT_MEASURED,
    OUTSIDE,
    Choice,
    Fit,
    Limits,
    compared,
    counted,
    gap_words,
    middle_of,
    off_by,
    verdict_of,
)
from gudgeon.bench.judging.clearances import part_of
from gudgeon.bench.judging.decision import Value, total, value_of
from gudgeon.bench.judging.finding import named
from gudgeon.bench.measured import Measured, measured
from gudgeon.calc.engine.assignment import most_inside
from gudgeon.quantity.written import Printed
from gudgeon.sheet.inspections import Characteristic, place_names

CAUTIONS = (
    "Only rings that have not run yet are moved: one that has run stays in the bore it ran in.",
    "A top ring stays a top ring and a second a second: only its bore changes, and its mark stays up.",
    "A gap that is too small is filed, square and a little at a time; one that is too large cannot be mended.",
)


@dataclass(frozen=True, slots=True)
class _Set:
    """The rings of one kind, their gaps by place, the bores by part, and what the gaps should be."""

    item: Characteristic
    gaps: Mapping[str, Measured]
    bores: Mapping[str, Mapping[str, Measured]]
    limits: Limits
    middle: float | None


def ring_fit(bench: Bench, key: str) -> Fit:
    """The rings of one kind among the bores: the gap of each as it is, and where it goes."""
    item = bench.sheet.characteristics[key]
    fits = bench.sheet.fits
    bore_key = fits.ring_bore if fits is not None else None
    limits, middle, wanted, source = _limits(item)
    bores = _bores(bench, bore_key)
    rings = _Set(item, measured(bench, key), bores, limits, middle)
    places = [place for place in place_names(item) if place in rings.gaps]
    missing = list(_missing(bench, rings, bore_key))
    known = [place for place in places if part_of(place) in bores]
    order, stays = _order(rings, known)
    choices = tuple(_choice(rings, place, known, order) for place in places)
    own = tuple(one for one in choices if one.verdict_before)
    told = "" if stays or not own else compared(own, without="with each ring left where it is")
    return Fit(
        key, "rings", item.name, wanted, source, choices, counted(choices), stays or told,
        tuple(_steps(known, order)), tuple(missing), (), CAUTIONS,
    )  # fmt: skip


def _limits(item: Characteristic) -> tuple[Limits, float | None, str, str]:
    """The least of a new ring, the most of a worn one where that is told; the middle is that of a new one."""
    worn = item.required or item.wear_limit
    figures = [one for one in (worn, item.new_range) if one is not None]
    low, high = (
        next((end for one in figures if (end := _end(one.value, side)) is not None), None) for side in (0, 1)
    )
    middle = None
    for one in reversed(figures):
        ends = (_end(one.value, 0), _end(one.value, 1))
        if ends[0] is not None and ends[1] is not None and middle is None:
            middle = (ends[0] + ends[1]) / 2
    named_as = ("required", worn) if item.required is not None else ("wear limit", worn)
    said = [
        f"{name} {one.value.text}" for name, one in (("new", item.new_range), named_as) if one is not None
    ]
    sources = dict.fromkeys(str(found) for one in figures if (found := item.cited(one)) is not None)
    return (low, high), middle, ", ".join(said) or "no limit is stated", "; ".join(sources)


def _end(printed: Printed, side: int) -> float | None:
    return printed.high_in("mm") if side else printed.low_in("mm")


def _bores(bench: Bench, key: str | None) -> dict[str, dict[str, Measured]]:
    """The readings of each bore, by where in it they were taken."""
    found: dict[str, dict[str, Measured]] = {}
    for place, one in measured(bench, key).items() if key is not None else ():
        found.setdefault(part_of(place), {})[place.partition(", ")[2]] = one
    return found


def _missing(bench: Bench, rings: _Set, bore_key: str | None) -> Iterator[str]:
    unread = [place for place in place_names(rings.item) if place not in rings.gaps]
    if unread:
        yield f"no reading: {rings.item.name}, {named(unread)}"
    if bore_key is None:
        yield "fits.ring_bore names no characteristic, so no gap in another bore can be worked out"
        return
    parts = [part_of(place) for place in rings.gaps if part_of(place) not in rings.bores]
    if parts:
        name = bench.sheet.characteristics[bore_key].name
        yield f"no reading: {name}, {named(list(dict.fromkeys(parts)))}"
    if rings.limits == (None, None):
        yield f"{rings.item.name}: the sheet states no limit"


def _gap(rings: _Set, ring: str, place: str) -> Value | None:
    """The gap of a ring in the bore of a place: its own as read, else what its length leaves there."""
    gap = rings.gaps[ring]
    here, there = part_of(ring), part_of(place)
    if here == there:
        return value_of(gap)
    common = [at for at in rings.bores[here] if at in rings.bores[there]]
    if not common:
        return None
    share = math.pi / len(common)
    own, other = rings.bores[here], rings.bores[there]
    value = total([(1.0, gap), *((share, other[at]) for at in common), *((-share, own[at]) for at in common)])
    apart = [math.pi * (other[at].low - own[at].low) for at in common]
    return _wider(value, (max(apart) - min(apart)) / 2 / math.sqrt(3))


def _wider(value: Value, u: float) -> Value:
    """At which height the gap was read is not on record: how the bores differ over their heights counts too."""
    low, high = (math.hypot(end, u) for end in value.u_ends or (value.u, value.u))
    ends = None if value.u_ends is None else (low, high)
    return replace(value, u=math.hypot(value.u, u), u_ends=ends)


RANKS = {INSIDE: 0, DOUBT: 1}
MOVED = 1e-6
"""Where nothing is gained a ring stays where it is."""


def _order(rings: _Set, places: Sequence[str]) -> tuple[dict[str, str], str]:
    """For every place the ring that goes there; and why they all stay, where nothing that can be told is gained."""
    stay = {place: place for place in places}
    table = [[_gap(rings, ring, place) for ring in places] for place in places]
    if rings.limits == (None, None) or len(places) < 2 or any(one is None for row in table for one in row):
        return stay, ""
    outside = len(places) + 1
    ranks = [[RANKS.get(verdict_of(one, rings.limits), outside) for one in row] for row in table]
    far = [
        [_far(rings, one) + (0.0 if at == own else MOVED) for at, one in enumerate(row)]
        for own, row in enumerate(table)
    ]
    given = most_inside(ranks, distances=far).parts
    chosen = {place: places[part] for place, part in zip(places, given, strict=True)}
    own_rank = sum(ranks[at][at] for at in range(len(places)))
    if sum(ranks[at][part] for at, part in enumerate(given)) < own_rank or chosen == stay:
        return chosen, _as_good(chosen == stay, ranks)
    gain = math.fsum(far[at][at] - far[at][part] for at, part in enumerate(given))
    doubt = 2 * math.sqrt(math.fsum(one.u**2 for at, part in enumerate(given) if (one := table[at][part])))
    return (stay, _as_good(True, ranks)) if gain <= doubt else (chosen, "")


def _as_good(stays: bool, ranks: Sequence[Sequence[int]]) -> str:
    if not stays:
        return ""
    good = sum(row[at] == 0 for at, row in enumerate(ranks))
    return f"{good} of {len(ranks)} inside as they are; no exchange betters that by more than these gauges can tell"


def _far(rings: _Set, value: Value | None) -> float:
    middle = middle_of(value) if value is not None else None
    return 0.0 if middle is None or rings.middle is None else abs(middle - rings.middle)


def _choice(rings: _Set, place: str, known: Sequence[str], order: Mapping[str, str]) -> Choice:
    ring = order.get(place, place)
    own = value_of(rings.gaps[place])
    value = (_gap(rings, ring, place) if place in known else own) or own
    verdict = verdict_of(value, rings.limits)
    found = f"gap {rings.gaps[place].text}"
    fitted = "its own ring" if ring == place else f"the ring of {ring}"
    before = verdict_of(own, rings.limits)
    reason = _reason(rings, value, verdict)
    if verdict == NOT_MEASURED:
        before = ""
    return Choice(
        place, found, fitted, gap_words(value), off_by(value), verdict, gap_words(own), before, reason
    )


def _reason(rings: _Set, value: Value, verdict: str) -> str:
    if verdict == DOUBT:
        return "the limit lies too near for these gauges"
    if verdict != OUTSIDE:
        new = rings.item.new_range
        high = None if new is None else _end(new.value, 1)
        return "larger than that of a new ring" if high is not None and value.low > high else ""
    low = rings.limits[0]
    small = low is not None and value.high < low
    return "too small: file the ends" if small else "too large: another ring"


def _steps(places: Sequence[str], order: Mapping[str, str]) -> Iterator[str]:
    """What goes where, in a list that can be ticked off."""
    if any(place != ring for place, ring in order.items()):
        yield "Lay every set down with a label of its cylinder before one is moved."
        for place in places:
            if order[place] != place:
                yield f"Ring of {order[place]} into {place}"
        yield "Measure every gap again where the ring is now."
