"""The places of any characteristic in rows, each with its reading and its state: for what has no drawing of its own."""

import re
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.good import inspect
from gudgeon.bench.judging.rows import Row
from gudgeon.bench.measured import measured_and_odd
from gudgeon.bench.pictures.places import counted, gravest, verdict_of
from gudgeon.sheet.inspections import place_names

_NUMBERED = re.compile(r"(.*\D)\s*(\d+)")


@dataclass(frozen=True, slots=True)
class Spot:
    """One place: what it is called in its row, what was read there, and how that is judged."""

    place: str
    label: str
    reading: str
    verdict: str


@dataclass(frozen=True, slots=True)
class SpotRow:
    """Places that belong together, in the order of the sheet: the heights of one bore, the intake valves."""

    name: str
    spots: tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class SpotPicture:
    """Every place of a characteristic; nothing on it is to scale."""

    item: str
    name: str
    part: str
    limits: str
    rows: tuple[SpotRow, ...]
    words: str


def spot_picture(bench: Bench, key: str) -> SpotPicture:
    """The places of a characteristic with what the book holds of each."""
    item = bench.sheet.characteristics[key]
    rows = [row for row in inspect(bench, only=key).rows if row.item == key]
    read, odd = measured_and_odd(bench, key, known={})
    names = [] if item.computed else list(place_names(item))
    names += [place for place in (*read, *odd) if place not in names]
    if item.computed:
        names += [row.place for row in rows if row.place not in names and not row.covers]
        names += [place for row in rows for place in row.covers if place not in names]
    named: dict[str, list[Spot]] = {}
    for place in names or [""]:
        found = gravest(rows, place)
        reading = found.reading if found is not None and _own(found, place) else ""
        if not reading and place in read:
            reading = read[place].text
        verdict = verdict_of(rows, place, read=place in read)
        group, label = _called(place, several=len(names) > 1)
        named.setdefault(group, []).append(Spot(place, label or item.name, reading, verdict))
    made = tuple(SpotRow(name, tuple(spots)) for name, spots in named.items())
    limits = next((row.criterion for row in rows if row.criterion), "no limit given")
    said = [
        f"{one.place or item.name}: {one.reading or 'no reading'}, {one.verdict}"
        for row in made
        for one in row.spots
    ]
    verdicts = counted(one.verdict for row in made for one in row.spots)
    return SpotPicture(
        key, item.name, item.part, limits, made, f"{item.name} ({verdicts}). {'; '.join(said)}."
    )


def _own(row: Row, place: str) -> bool:
    """Whether the reading of a row is of this place, and not of several together."""
    return row.place == place


def _called(place: str, *, several: bool) -> tuple[str, str]:
    """The row in which a place stands, and what it is called there.

    Example:
        >>> _called("cylinder 1, top, across", several=True), _called("intake 2", several=True)
        (('cylinder 1', 'top, across'), ('intake', 'intake 2'))
    """
    first, mark, rest = place.partition(", ")
    if mark:
        return first, rest
    found = _NUMBERED.fullmatch(place)
    return (found[1].strip() if found is not None and several else ""), place
