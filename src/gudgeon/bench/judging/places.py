"""What places differ by, and what a reading and that of another part make together."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from gudgeon.bench.judging.decision import added, between
from gudgeon.bench.judging.finding import Case, Finding, Judged, judge_by, lacks, named, shown_value
from gudgeon.bench.measured import Measured, measured
from gudgeon.bench.worked_out import spread_of
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.shapes import BetweenPlaces, SumWith


def between_places(case: Case) -> Iterator[Finding]:
    """The greatest difference of the places of each group; outside as soon as two of them prove it."""
    shape = case.criterion.stated
    assert isinstance(shape, BetweenPlaces)
    for group, places in groups(case.item, case.places, within=shape.within).items():
        read = [case.readings[place] for place in places if place in case.readings]
        missing = [place for place in places if place not in case.readings]
        found = _spread(case, group, read) if len(read) > 1 else None
        if found is not None and (not missing or found.verdict == "outside"):
            yield found
        else:
            wanted = f"no reading: {named(missing)}" if missing else "one place alone differs from nothing"
            yield lacks(case, wanted, place=group, covers=[one.place for one in read])


def _spread(case: Case, group: str, read: list[Measured]) -> Finding:
    most, least = max(read, key=lambda one: one.high), min(read, key=lambda one: one.low)
    if most is least:
        least = min((one for one in read if one is not most), key=lambda one: one.low)
    terms = ((1.0, most), (-1.0, least))
    low, high = spread_of(read)
    value = between(low, high=high, known=all(one.u_known for one in read))
    shown = (
        f"{shown_value(value, case.item.kind)}: {most.text} at {most.place}, {least.text} at {least.place}"
    )
    found = judge_by(
        case, Judged(group, value, terms, shown), low=case.criterion.low, high=case.criterion.high
    )
    return replace(found, covers=tuple(one.place for one in read), readings=tuple(read))


def groups(
    item: Characteristic, places: tuple[str, ...], *, within: str | None
) -> dict[str, tuple[str, ...]]:
    """Places that are compared with each other, by the name of what they lie in; without a division all of them."""
    found: dict[str, list[str]] = {}
    for place in places:
        found.setdefault(_group(item, place, within), []).append(place)
    return {name: tuple(members) for name, members in found.items()}


def _group(item: Characteristic, place: str, within: str | None) -> str:
    if within is None:
        return "all places"
    words = place.split(", ")
    if isinstance(item.places, dict) and within in item.places:
        at = list(item.places).index(within)
        word = words[at] if at < len(words) else place
        return word if at == 0 else f"{within} {word}"
    return next((word for word in words if word.lower().startswith(within.lower())), words[0])


def sum_with(case: Case) -> Iterator[Finding]:
    """This reading and that of the other part at the same place, added."""
    shape = case.criterion.stated
    assert isinstance(shape, SumWith)
    other = case.bench.sheet.characteristics[shape.other]
    theirs = measured(case.bench, shape.other)
    for place in case.places or ("",):
        own, other_part = case.readings.get(place), _same_place(theirs, place)
        if own is not None and other_part is not None:
            terms = ((1.0, own), (1.0, other_part))
            value = added([own, other_part])
            shown = f"{shown_value(value, case.item.kind)}: {own.text} and {other_part.text}"
            yield judge_by(
                case,
                Judged(place, value, terms, shown, own),
                low=case.criterion.low,
                high=case.criterion.high,
            )
            continue
        wanted = [case.item.name] if own is None else []
        wanted += [other.name] if other_part is None else []
        yield lacks(case, f"no reading: {' and '.join(wanted)}", place=place, covers=[place] if own else ())


def _same_place(readings: Mapping[str, Measured], place: str) -> Measured | None:
    """The other part at the same place; where it is read at one place only, there."""
    if place in readings:
        return readings[place]
    return next(iter(readings.values())) if len(readings) == 1 and "" in readings else None
