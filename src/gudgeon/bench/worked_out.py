"""Values that come from other readings: clearances, out-of-round, taper."""

import math
from collections.abc import Mapping, Sequence

from gudgeon.bench.budget import signed
from gudgeon.bench.measured import End, Measured, Span
from gudgeon.quantity.format import known_between
from gudgeon.sheet.inspections import Characteristic


def worked_out(item: Characteristic, parts: Sequence[Mapping[str, Measured]]) -> dict[str, Measured]:
    """What a characteristic comes to, from the readings of those that it is worked out of, in their order."""
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
        low = less(_least(outer), second=_most(inner))
        high = less(_most(outer), second=_least(inner))
        if math.isinf(low.value) and math.isinf(high.value):
            continue
        found[group] = _derived(group, low, high, [*outer, *inner], span=_span(outer, inner=inner))
    return found


def _span(outer: Sequence[Measured], *, inner: Sequence[Measured]) -> Span | None:
    """The inner ends of the least and of the greatest clearance; nothing where one reading of each is all there is."""
    if len(outer) == len(inner) == 1:
        return None
    narrow = min(outer, key=lambda one: one.high), max(inner, key=lambda one: one.low)
    wide = max(outer, key=lambda one: one.low), min(inner, key=lambda one: one.high)
    return Span(
        less(narrow[0].at_high, second=narrow[1].at_low), less(wide[0].at_low, second=wide[1].at_high),
        _where(narrow, of=(outer, inner)), _where(wide, of=(outer, inner)),
    )  # fmt: skip


def _where(pair: tuple[Measured, Measured], *, of: tuple[Sequence[Measured], Sequence[Measured]]) -> str:
    """Where in its cylinder the larger is read, and where the smaller, of which there is more than one reading."""
    larger, smaller = (one.place.partition(", ")[2].replace(", ", " ") or one.place for one in pair)
    outer, inner = of
    if len(inner) == 1:
        return larger
    if len(outer) == 1:
        return smaller
    return larger if larger == smaller else f"{larger} of the larger and {smaller} of the smaller"


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
        low, high = spread_of(members)
        found[name] = _derived(name, low, high, members)
    return found


def spread_of(members: Sequence[Measured]) -> tuple[End, End]:
    """What readings differ by, at least and at most: each end over all of them, since those of blades overlap."""
    floor, ceiling = max(members, key=lambda one: one.low), min(members, key=lambda one: one.high)
    low = less(floor.at_low, second=ceiling.at_high) if floor is not ceiling else End(0.0, ())
    most = max(members, key=lambda one: one.high)
    least = min((one for one in members if one is not most), key=lambda one: one.low)
    high = less(most.at_high, second=least.at_low)
    if low.value <= 0:
        # They may be all alike: that is certain, and what the gauge errs makes it no less so.
        low = End(0.0, high.components)
    return low, high


def less(first: End, *, second: End) -> End:
    """One end less another; what both have in common cancels."""
    return End(first.value - second.value, signed([(1.0, first), (-1.0, second)]))


def _least(readings: Sequence[Measured]) -> End:
    return min((one.at_low for one in readings), key=lambda end: end.value)


def _most(readings: Sequence[Measured]) -> End:
    return max((one.at_high for one in readings), key=lambda end: end.value)


def _derived(
    place: str, low: End, high: End, members: Sequence[Measured], *, span: Span | None = None
) -> Measured:
    """A value worked out from readings, each of its ends with what it is made of."""
    known = all(one.u_known for one in members)
    condition = "as left" if all(one.condition == "as left" for one in members) else "as found"
    notes = tuple(dict.fromkeys(note for one in members for note in one.notes))
    text = known_between(low.value, high=high.value, kind="length_difference")
    entries = tuple(dict.fromkeys(entry for one in members for entry in one.entries))
    return Measured(
        place, low.value, high.value, high.components, known, None, condition, text, "", "", "worked out", "", notes,
        low.components, entries, span,
    )  # fmt: skip
