"""Values that come from other readings: clearances, out-of-round, taper."""

import math
from collections.abc import Mapping, Sequence

from gudgeon.bench.budget import signed, standard_uncertainty_of
from gudgeon.bench.measured import Measured
from gudgeon.quantity.format import both, both_ends
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
        tight = min(outer, key=lambda one: one.low), max(inner, key=lambda one: one.high)
        loose = max(outer, key=lambda one: one.high), min(inner, key=lambda one: one.low)
        low, high = tight[0].low - tight[1].high, loose[0].high - loose[1].low
        if math.isinf(low) and math.isinf(high):
            continue
        found[group] = _derived(group, low, high, [*outer, *inner], pairs=(tight, loose))
    return found


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
        low = max(0.0, max(one.low for one in members) - min(one.high for one in members))
        least, most = min(members, key=lambda one: one.low), max(members, key=lambda one: one.high)
        pair = (most, least) if most is not least else (members[0], members[1])
        found[name] = _derived(name, low, most.high - least.low, members, pairs=(pair,))
    return found


def _ends_text(low: float, high: float) -> str:
    kind = "length_difference"
    if math.isinf(high):
        return f"over {both(low, kind=kind)}"
    if math.isinf(low) or math.isclose(low, high, abs_tol=1e-9):
        return f"{'under ' if math.isinf(low) else ''}{both(high, kind=kind)}"
    return both_ends(low, high=high, kind=kind)


Pair = tuple[Measured, Measured]


def _derived(
    place: str, low: float, high: float, members: Sequence[Measured], *, pairs: Sequence[Pair]
) -> Measured:
    """A value worked out from readings: the first of a pair less the second; of several pairs the least certain."""
    made = [signed([(1.0, first), (-1.0, second)]) for first, second in pairs]
    components = max(made, key=standard_uncertainty_of)
    known = all(one.u_known for one in members)
    condition = "as left" if all(one.condition == "as left" for one in members) else "as found"
    notes = tuple(dict.fromkeys(note for one in members for note in one.notes))
    text = _ends_text(low, high)
    return Measured(
        place, low, high, components, known, None, condition, text, "", "", "worked out", "", notes
    )
