"""Shells by grade: for each place of a bearing the halves that bring its clearance nearest to the middle."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.fits.answer import (
    DOUBT,
    INSIDE,
    NOT_MEASURED,
    Choice,
    Fit,
    Limits,
    compared,
    counted,
    gap_words,
    middle_of,
    numbered,
    off_by,
    verdict_of,
)
from gudgeon.bench.fits.marks import grades_of_codes, grades_of_shells
from gudgeon.bench.judging.clearances import by_part, clearance_between, less, part_of, parts_of
from gudgeon.bench.judging.decision import Value
from gudgeon.bench.judging.finding import named
from gudgeon.bench.measured import Measured, measured
from gudgeon.bench.sheet_place import place_of
from gudgeon.calc.engine.selective import shells_for
from gudgeon.quantity.format import known_between
from gudgeon.quantity.written import Printed
from gudgeon.sheet.fits import Bearing
from gudgeon.sheet.inspections import place_names

CAUTIONS = (
    "Bores are measured without shells, their caps on and tightened as for work; all parts at one temperature.",
    "Never file, scrape or shim a shell or a cap; caps stay on their own saddles, the right way around.",
    "Prove each clearance with a plastic strip before the last tightening; the crank is not turned on the strip.",
)


Halves = tuple[str, str]
"""The grades of both halves of one place."""


@dataclass(frozen=True, slots=True)
class Said:
    """What was read off the engine: the maker's codes, and the marks on the shells that are in it now."""

    codes: Sequence[str] | None = None
    shells: Sequence[str] | None = None


@dataclass(frozen=True, slots=True)
class _Place:
    """One place: its readings, which of them are lacking, and the grades that codes and old shells tell."""

    name: str
    bore: Sequence[Measured]
    journal: Sequence[Measured]
    lacking: tuple[str, ...]
    by_code: str | None
    fitted_now: str | None


def shell_fit(bench: Bench, key: str, said: Said) -> Fit:
    """The shells of one bearing: what was found, what is fitted, what results."""
    bearing = bench.sheet.fits.bearings[key] if bench.sheet.fits is not None else None
    assert bearing is not None  # it was named by the sheet
    missing = list(_contradictions(bench, key, bearing))
    places = () if missing else _places(bench, key, bearing, said)
    halves = [_halves_for(bearing, one) for one in places]
    choices = tuple(_choice(bearing, one, fitted) for one, fitted in zip(places, halves, strict=True))
    lacking = [text for one in places for text in one.lacking]
    missing += [f"no reading: {named(lacking, more=False)}"] if lacking else []
    return Fit(
        key, "shells", bearing.name, f"clearance {bearing.clearance.value.text}",
        str(bearing.cited(bearing.clearance) or ""), choices, counted(choices),
        compared(choices, without=_without(said)), tuple(_to_have(bearing, halves)), tuple(missing),
        tuple(_notes(bearing)), CAUTIONS,
    )  # fmt: skip


def chosen_halves(bench: Bench, key: str) -> tuple[Halves | None, ...]:
    """The grades of both halves, for each place of a bearing in its order; nothing where it was not measured."""
    bearing = bench.sheet.fits.bearings[key] if bench.sheet.fits is not None else None
    assert bearing is not None  # it was named by the sheet
    if any(_contradictions(bench, key, bearing)):
        return ()
    return tuple(_halves_for(bearing, one) for one in _places(bench, key, bearing, Said()))


def _without(said: Said) -> str:
    return (
        "with the shells that are in it"
        if said.shells is not None
        else "with the shells of the maker's codes"
    )


def _contradictions(bench: Bench, key: str, bearing: Bearing) -> Iterator[str]:
    """What in the sheet leaves nothing to choose by, with the line where it stands."""
    for name in ("bore", "journal"):
        if getattr(bearing, name) is None:
            yield f"{_where(bench, key)}: `{name}` names no characteristic, so nothing that was measured is found"
    if bearing.bore is not None and bearing.journal is not None:
        bores, journals = (
            len(parts_of(bench.sheet.characteristics[one])) for one in (bearing.bore, bearing.journal)
        )
        if bores != journals:
            where = _where(bench, key, "journal")
            yield (
                f"{where}: `{bearing.bore}` has {bores} places and `{bearing.journal}` {journals}; they are taken in "
                "their order, so both have as many"
            )
    if not bearing.grades:
        yield f"{_where(bench, key, 'grades')}: no grade of a shell is stated, so none can be chosen"
    if bearing.clearance.value.high_in("mm") is None:
        yield f"{_where(bench, key, 'clearance')}: the clearance has no upper end, so no grade is nearest to it"


def _where(bench: Bench, key: str, field: str = "") -> str:
    path = ("fits", "bearings", key, *((field,) if field else ()))
    name = ".".join(path)
    place = place_of(bench.papers.written, path)
    return name if place is None else f"{name} ({place})"


def _places(bench: Bench, key: str, bearing: Bearing, said: Said) -> tuple[_Place, ...]:
    assert bearing.bore is not None  # asked before
    assert bearing.journal is not None
    items = [bench.sheet.characteristics[one] for one in (bearing.bore, bearing.journal)]
    bore, journal = (measured(bench, one) for one in (bearing.bore, bearing.journal))
    names, others = (parts_of(one) for one in items)
    count = len(names)
    codes = [None] * count if said.codes is None else grades_of_codes(key, bearing, said.codes, places=count)
    now = [None] * count if said.shells is None else grades_of_shells(key, bearing, said.shells, places=count)
    found = []
    for at, (name, other) in enumerate(zip(names, others, strict=True)):
        lacking = tuple(
            f"{item.name}, {place}" if place else item.name
            for item, part, read in ((items[0], name, bore), (items[1], other, journal))
            for place in place_names(item)
            if part_of(place) == part and place not in read
        )
        own, its = by_part(bore).get(name, []), by_part(journal).get(other, [])
        found.append(_Place(name or bearing.name, own, its, lacking, codes[at], now[at]))
    return tuple(found)


def _halves_for(bearing: Bearing, place: _Place) -> Halves | None:
    """The halves nearest to the middle; nothing where the place was not measured."""
    if place.lacking:
        return None
    middle = middle_of(clearance_between(place.bore, shaft=place.journal).value)
    if middle is None:
        return None
    names = tuple(bearing.grades)
    low, high = _limits(bearing)
    assert high is not None  # asked before
    chosen = shells_for(
        middle,
        thicknesses_mm=[sum(_ends(bearing.grades[name].thickness.value)) / 2 for name in names],
        wanted_mm=(low or 0.0, high),
        mixed=bool(bearing.mixed_halves),
    )
    return names[chosen.first], names[chosen.second]


def _limits(bearing: Bearing) -> Limits:
    return bearing.clearance.value.low_in("mm"), bearing.clearance.value.high_in("mm")


def _choice(bearing: Bearing, place: _Place, halves: Halves | None) -> Choice:
    if halves is None:
        by_code = f"{_grade(bearing, place.by_code)}, by its code alone" if place.by_code is not None else ""
        why = f"not measured: {named(place.lacking)}" if place.lacking else "a reading is open at one end"
        return Choice(place.name, _found(place), by_code, "", "", NOT_MEASURED, reason=why)
    room, limits = clearance_between(place.bore, shaft=place.journal).value, _limits(bearing)
    value = _with(bearing, room, halves)
    before = place.fitted_now or place.by_code
    was = None if before is None else _with(bearing, room, (before, before))
    return Choice(
        place.name, _found(place), _halves(bearing, halves), gap_words(value), off_by(value),
        verdict_of(value, limits),
        "" if was is None else f"{_grade(bearing, before)}: {gap_words(was)}",
        "" if was is None else verdict_of(was, limits),
        _reason(bearing, place, halves, value),
    )  # fmt: skip


def _with(bearing: Bearing, room: Value, halves: Halves) -> Value:
    """The clearance that two halves leave."""
    ends = [_ends(bearing.grades[name].thickness.value) for name in halves]
    return less(room, least=sum(low for low, _ in ends), most=sum(high for _, high in ends))


def _ends(printed: Printed) -> tuple[float, float]:
    low, high = printed.low_in("mm"), printed.high_in("mm")
    either = low if low is not None else high
    assert either is not None  # a figure has at least one end
    return (either if low is None else low, either if high is None else high)


def _found(place: _Place) -> str:
    return ", ".join(
        f"{name} {_span(read)}" for name, read in (("bore", place.bore), ("journal", place.journal)) if read
    )


def _span(read: Sequence[Measured]) -> str:
    low, high = min(one.low for one in read), max(one.high for one in read)
    return known_between(low, high=high, kind="length", decimals=3)


def _grade(bearing: Bearing, name: str | None) -> str:
    if name is None:
        return ""
    mark = bearing.grades[name].mark
    return f"grade {name} ({mark})" if mark and mark.lower() != name.lower() else f"grade {name}"


def _halves(bearing: Bearing, halves: Halves) -> str:
    first, second = (_grade(bearing, one) for one in halves)
    return first if first == second else f"{first} and {second}, a half of each"


def _reason(bearing: Bearing, place: _Place, halves: Halves, value: Value) -> str:
    limits = _limits(bearing)
    said = []
    verdict = verdict_of(value, limits)
    if verdict not in (INSIDE, DOUBT):
        wide = limits[1] is not None and (middle_of(value) or 0.0) > limits[1]
        said.append(
            "too wide with the thickest that comes near: another undersize, or the shop"
            if wide
            else "too tight with the thinnest that comes near: measure again, or the shop"
        )
    if verdict != INSIDE and bearing.worn_clearance is not None:
        worn = bearing.worn_clearance.value
        by_wear = verdict_of(value, (worn.low_in("mm"), worn.high_in("mm")))
        said.append(f"{by_wear} what a worn bearing may have ({worn.text})" if by_wear != DOUBT else "")
    if verdict == DOUBT:
        said.append("the limit lies too near for these gauges, or the bore is not round enough to tell")
    if place.by_code is not None and set(halves) != {place.by_code}:
        said.append(
            f"the maker's code asks for {_grade(bearing, place.by_code)}: measure again before you order"
        )
    return "; ".join(filter(None, said))


def _to_have(bearing: Bearing, halves: Sequence[Halves | None]) -> Iterator[str]:
    """How many halves of each grade he needs, when something was chosen."""
    count = Counter(name for pair in halves if pair is not None for name in pair)
    if count:
        said = (numbered(count[name], f"half of {_grade(bearing, name)}", many=f"halves of {_grade(bearing, name)}")
                for name in bearing.grades if count[name])  # fmt: skip
        yield f"Shells to have: {', '.join(said)}"


def _notes(bearing: Bearing) -> Iterator[str]:
    if bearing.mixed_halves:
        yield "the maker lets two grades share a place; which half goes up is the manual's word"
    if bearing.note:
        yield bearing.note
