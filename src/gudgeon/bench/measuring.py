"""A part measured place after place: what is to be read next, and what one typed line means.

Nothing here asks or prints: the terminal and the pages do that. A reading is in the book before the next one is asked.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.context import Bench, at_hour, clock
from gudgeon.bench.errors import Unknown
from gudgeon.bench.judging.criteria import stated_limits
from gudgeon.bench.judging.deciding import can_decide
from gudgeon.bench.made_against import shape_figures
from gudgeon.bench.measuring_errors import IntervalUnreadable, NotMeasured
from gudgeon.bench.record import Recorded, record
from gudgeon.bench.to_measure import to_measure
from gudgeon.kit.model import Kit
from gudgeon.sheet.inspections import Characteristic, place_names

NOT_READ = ("scanned face",)
"""Methods whose readings come from a file."""
KEEP = "!"
"""At the end of a line: keep it although it is far from what was expected."""
_BOTH = re.compile(r"(?P<low>[^/]*\d[^/]*)/(?P<high>[^/]*\d[^/]*)")


@dataclass(frozen=True, slots=True)
class Sheet:
    """One characteristic as it is measured: how, within what, with which gauge and unit, and what can be decided."""

    item: str
    name: str
    part: str
    how: str
    limits: tuple[str, ...]
    gauge: str
    gauge_name: str
    unit: str
    decides: str
    is_length: bool
    places: tuple["Spot", ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """One place that is to be read, and what the book holds of it in this condition."""

    item: str
    place: str
    words: str
    in_book: str


def items_of(bench: Bench, what: str) -> tuple[str, ...]:
    """The characteristics of a part, or the one of a key, that are read with a gauge."""
    known = bench.sheet.characteristics
    said = what.strip().lower()
    chosen = (
        [what]
        if what in known
        else [key for key, item in known.items() if said and said in item.part.lower()]
    )
    if not chosen:
        parts = dict.fromkeys(item.part for item in known.values())
        raise Unknown("part or characteristic", what, [*parts, *known])
    read = tuple(key for key in chosen if _is_read(known[key]))
    if not read:
        raise NotMeasured(what, [(known[key].name, _why_not_read(bench, known[key])) for key in chosen])
    return read


def _is_read(item: Characteristic) -> bool:
    return not item.computed and item.method not in NOT_READ


def _why_not_read(bench: Bench, item: Characteristic) -> str:
    if item.computed:
        names = [bench.sheet.characteristics[key].name for key in item.of]
        return f"worked out from {' and '.join(names)}"
    return "taken over from a file of points with --face"


def sheet_of(
    bench: Bench, key: str, *, condition: str, gauge: str = "", unit: str = "", rest: bool = False
) -> Sheet:
    """How a characteristic is measured now; with `rest` only the places that have no reading in this condition."""
    item, form = bench.sheet.characteristics[key], to_measure(bench, key)
    used = gauge or form.gauge
    known = bench.kit.gauges.get(used)
    of_book = {one.place: one.as_left if condition == "as left" else one.as_found for one in form.places}
    spots = tuple(
        Spot(key, place, place or item.name, of_book.get(place, ""))
        for place in place_names(item)
        if not (rest and of_book.get(place))
    )
    limits = tuple(f"{name} {said}" for name, said in stated_limits(bench.sheet, key).items())
    return Sheet(
        key, item.name, item.part, form.how,
        limits, used, known.name if known is not None else used,
        unit or unit_of(bench.kit, item, gauge=used), can_decide(bench, key).words, item.kind == "length", spots,
    )  # fmt: skip


def unit_of(kit: Kit, item: Characteristic, *, gauge: str) -> str:
    """The unit of a bare figure: the one that the gauge is graduated in, else the one that the sheet prints first."""
    known = kit.gauges.get(gauge)
    graduated = (known.step or known.range) if known is not None else None
    if graduated is not None:
        symbol = graduated.first.unit.symbol
        if known is not None and known.reads in (item.kind, item.kind.removesuffix("_difference")):
            return symbol
    stated = item.required or item.wear_limit or item.new_range
    if stated is not None:
        return stated.value.first.unit.symbol
    return next(
        (one.value.first.unit.symbol for _, one in shape_figures(item).values()), BASE_UNIT[item.kind]
    )


def typed(line: str) -> dict[str, Any]:
    """What one typed line says of a reading.

    Example:
        >>> typed("0.05/0.06 mm")
        {'low': '0.05 mm', 'high': '0.06 mm'}
        >>> typed("<0.05"), typed("81.65 mm !")
        ({'high': '0.05'}, {'value': '81.65 mm', 'sure': True})
    """
    said = line.strip()
    kept: dict[str, Any] = {}
    if said.endswith(KEEP):
        said, kept = said.removesuffix(KEEP).rstrip(), {"sure": True}
    if said[:1] in ("<", ">", "≤", "≥"):
        rest = said[1:].lstrip("= ").strip()
        return {"high" if said[0] in "<≤" else "low": rest, **kept}
    both = _BOTH.fullmatch(said)
    if both is not None:
        return {**_interval(both["low"].strip(), both["high"].strip()), **kept}
    if "/" in said:
        raise IntervalUnreadable(said)
    return {"value": said, **kept}


def _interval(low: str, high: str) -> dict[str, str]:
    """A unit that stands once is that of both ends."""
    from gudgeon.bench.reading_body import unit_in

    unit = unit_in(high)
    return {"low": f"{low} {unit}" if unit and not unit_in(low) else low, "high": high}


def reading_of(spot: Spot, line: str, *, more: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of the reading that a line makes of a place; several figures in it are repeats."""
    from gudgeon.bench.reading_body import parted

    fields = {"item": spot.item, "place": spot.place, **more, **typed(line)}
    parts = parted(str(fields.get("value", "")))
    if len(parts) > 1:
        fields = {**fields, "value": None, "repeats": parts}
    return fields


def write_reading(
    bench: Bench, fields: Mapping[str, Any], *, entry_id: str | None = None, basis: str | None = None
) -> tuple[Recorded, Bench]:
    """Write one reading, durable when this returns, and the bench as it is after it.

    `entry_id` and `basis` are those of `record`: a row that is sent twice counts once.
    """
    done = record(bench, "reading", fields, entry_id=entry_id, basis=basis)
    return done, at_hour(bench.book, store=bench.store, build=bench.build, now=clock().astimezone())


def gauges_offered(bench: Bench, key: str) -> Iterator[tuple[str, str]]:
    """The gauges that may read a characteristic: those that read its kind of quantity."""
    item = bench.sheet.characteristics[key]
    for name, gauge in bench.kit.gauges.items():
        if gauge.reads in (item.kind, item.kind.removesuffix("_difference")):
            yield name, gauge.name
