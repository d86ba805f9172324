"""From what a person says of a reading to its body: what is measured, where, with what, how warm, how often.

Nothing is changed on the way: a mean is worked out of repeats, and what was read stays beside it.
"""

import re
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Any

from gudgeon.bench.bodies import characteristic
from gudgeon.bench.errors import Unknown
from gudgeon.bench.made_against import reading_shown
from gudgeon.bench.measuring_errors import JudgedByPoints, TravelTooFar, UnitsDiffer
from gudgeon.bench.places import find_place
from gudgeon.bench.plausible import plausible, reached, repeats_agree
from gudgeon.bench.warmth import warmth
from gudgeon.kit.gauges import Gauge
from gudgeon.kit.model import Kit
from gudgeon.quantity.written import Amount, parse_amount
from gudgeon.sheet.inspections import Characteristic, place_names
from gudgeon.sheet.model import DataSheet


def reading(
    sheet: DataSheet,
    kit: Kit,
    *,
    item: str,
    place: str = "",
    value: str | None = None,
    low: str | None = None,
    high: str | None = None,
    unit: str = "",
    instrument: str = "",
    condition: str = "as found",
    note: str = "",
    sure: bool = False,
    repeats: Sequence[str] = (),
    part_temperature: str | None = None,
    gauge_temperature: str | None = None,
    gauge_as_part: bool = False,
) -> dict[str, Any]:
    """A reading: one value, or the interval of a blade that enters and one that does not.

    A value that stands beside repeats is the first of them; what is kept as the value is their mean.
    """
    of = characteristic(sheet, item)
    if of.method == "scanned face":
        raise JudgedByPoints(item, of.name)
    if repeats and value is None and place and place_names(of) == ("",):
        place, value = "", place
    where = find_place(of, place)
    gauge = gauge_of(kit, instrument)
    repeated = _repeats(value, repeats, of, unit)
    said = {
        name: parse_amount(text, kind=of.kind, default_unit=unit or None)
        for name, text in (("value", None if repeated else value), ("low", low), ("high", high))
        if text is not None
    }
    used = _one_unit(of, (*said.values(), *repeated))
    if not sure:
        for amount in (*said.values(), *repeated):
            plausible(amount, of, gauge)
        repeats_agree(of.name, repeated)
    numbers = {name: str(said[name].number) if name in said else None for name in ("value", "low", "high")}
    return {
        "item": item,
        "place": where,
        **numbers,
        "unit": used,
        "instrument": instrument,
        "condition": condition,
        "shown": reading_shown(sheet, kit, item=item, gauge=gauge),
        "note": note,
        **_mean(repeated),
        **warmth(part_temperature, gauge=gauge_temperature, as_part=gauge_as_part, sure=sure),
    }


def gauge_of(kit: Kit, key: str) -> Gauge | None:
    """A gauge of the kit by its key; nothing where none was named."""
    if not key:
        return None
    if key not in kit.gauges:
        raise Unknown("gauge of the kit", key, kit.gauges)
    return kit.gauges[key]


def _repeats(value: str | None, repeats: Sequence[str], of: Characteristic, unit: str) -> tuple[Amount, ...]:
    """Every reading of one place, the value the first of them; a bare one has the unit of any other."""
    said = [part for text in repeats for part in parted(text)]
    if not said:
        return ()
    said = [*([value] if value is not None else []), *said]
    stated = next((found for one in said if (found := unit_in(one))), unit)
    return tuple(parse_amount(one, kind=of.kind, default_unit=stated or None) for one in said)


def parted(text: str) -> list[str]:
    """Several figures in one text, like `81.65 81.66 81.65 mm`, one by one; a unit belongs to the figure before it.

    Example:
        >>> parted("81.65 81.66 mm"), parted("81.65 mm")
        (['81.65', '81.66 mm'], ['81.65 mm'])
    """
    found = re.findall(r"[^\s;]*\d[^\s;]*(?:[ \t]+(?![^\s;]*\d)[^\s;]+)*", text)
    return found or ([text] if text.strip() else [])


def unit_in(text: str) -> str:
    """The unit that stands behind a figure; empty where it is bare."""
    found = re.search(r"[^\d.,\s+\-−–][^\d]*$", text.strip())
    return found[0].strip() if found else ""


def _one_unit(of: Characteristic, amounts: Iterable[Amount]) -> str:
    units = sorted({amount.unit.symbol for amount in amounts})
    if len(units) > 1:
        raise UnitsDiffer(of.name, units)
    return units[0]


def _mean(repeated: Sequence[Amount]) -> dict[str, Any]:
    if not repeated:
        return {}
    if len(repeated) == 1:
        return {"value": str(repeated[0].number)}
    from gudgeon.book.bodies_measuring import mean_of

    numbers = [format(one.number, "f") for one in repeated]
    return {"value": mean_of(numbers), "repeats": numbers}


def face(
    sheet: DataSheet,
    kit: Kit,
    *,
    item: str,
    unit: str,
    points: Sequence[Sequence[str]],
    file: str,
    sha: str,
    instrument: str = "",
    condition: str = "as found",
    note: str = "",
) -> dict[str, Any]:
    """The points of a face, as they stand in a file."""
    of, gauge = characteristic(sheet, item), gauge_of(kit, instrument)
    _within_travel(of, gauge, points, unit)
    return {
        "item": item,
        "unit": unit,
        "points": [list(point) for point in points],
        "instrument": instrument,
        "condition": condition,
        "file": file,
        "sha": sha,
        "shown": reading_shown(sheet, kit, item=item, gauge=gauge),
        "note": note,
    }


def _within_travel(
    of: Characteristic, gauge: Gauge | None, points: Sequence[Sequence[str]], unit: str
) -> None:
    """From the lowest to the highest point a gauge travels, and no further than it reaches."""
    heights = [Decimal(point[2]) for point in points if len(point) == 3]
    if gauge is not None and heights:
        travel = parse_amount(f"{max(heights) - min(heights):f} {unit}", kind="length_difference")
        if gauge.range is not None and not reached(travel.to("mm"), of, gauge):
            raise TravelTooFar(of.name, str(travel), f"{gauge.name} ({gauge.range.text})")
