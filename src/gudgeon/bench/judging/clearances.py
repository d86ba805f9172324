"""The clearance between what was read of a hole and of what goes into it, from its least to its most."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from gudgeon.bench.judging.decision import Terms, Value, spanned, total
from gudgeon.bench.measured import Measured
from gudgeon.sheet.inspections import Characteristic, place_names


@dataclass(frozen=True, slots=True)
class Between:
    """The clearance of one part in one place, and the readings that it is made of."""

    value: Value
    terms: Terms


def clearance_between(hole: Sequence[Measured], *, shaft: Sequence[Measured]) -> Between:
    """The least clearance is the smallest hole about the thickest shaft; the most is the other way round."""
    tight = ((1.0, min(hole, key=lambda one: one.low)), (-1.0, max(shaft, key=lambda one: one.high)))
    loose = ((1.0, max(hole, key=lambda one: one.high)), (-1.0, min(shaft, key=lambda one: one.low)))
    value = _from_to(total(tight), total(loose))
    if len(hole) > 1 or len(shaft) > 1:
        tight_at, loose_at = (_spot(pair[0][1]) for pair in (tight, loose))
        value = spanned(
            value, least=total(tight), greatest=total(loose), least_at=tight_at, greatest_at=loose_at
        )
    return Between(value, (*tight, *loose))


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


def by_part(readings: Mapping[str, Measured]) -> dict[str, list[Measured]]:
    """The readings of each part: `cylinder 1, top, across` is of cylinder 1."""
    found: dict[str, list[Measured]] = {}
    for place, one in readings.items():
        found.setdefault(part_of(place), []).append(one)
    return found


def part_of(place: str) -> str:
    """The part that a place is of."""
    return place.partition(", ")[0]


def parts_of(item: Characteristic) -> tuple[str, ...]:
    """The parts that a characteristic is read of, in the order of the sheet."""
    return tuple(dict.fromkeys(part_of(place) for place in place_names(item)))


def less(value: Value, *, least: float, most: float) -> Value:
    """What is left of a value when something between least and most is taken from it."""
    extremes = tuple(replace(one, value=less(one.value, least=least, most=most)) for one in value.extremes)
    low, high = value.low - most, value.high - least
    ends = value.u_ends or ((value.u, value.u) if low != high else None)
    return replace(value, low=low, high=high, u_ends=ends, extremes=extremes)
