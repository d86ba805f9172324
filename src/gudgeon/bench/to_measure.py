"""Where a characteristic is measured next, with what, and how it is said: what a form has to ask."""

from dataclasses import dataclass, replace

from gudgeon.bench.bodies import BASE_UNIT, characteristic
from gudgeon.bench.context import Bench
from gudgeon.bench.judging.deciding import can_decide
from gudgeon.bench.measured import reading_text
from gudgeon.book.state import ReadingState
from gudgeon.kit.model import Gauge
from gudgeon.sheet.inspections import Characteristic, place_names, stretch_names


@dataclass(frozen=True, slots=True)
class Place:
    """One place, and what the book holds of it; who leaves an optional one out leaves nothing unread."""

    place: str
    as_found: str
    as_left: str
    optional: bool = False


@dataclass(frozen=True, slots=True)
class Instrument:
    """A gauge of the kit."""

    key: str
    name: str


@dataclass(frozen=True, slots=True)
class ToMeasure:
    """What is to be read of one characteristic, what is likely to be said about it, and which gauge can decide it."""

    item: str
    name: str
    part: str
    how: str
    computed_from: tuple[str, ...]
    places: tuple[Place, ...]
    next_place: str | None
    condition: str
    unit: str
    units: tuple[str, ...]
    signed: bool
    blades: bool
    gauges: tuple[Instrument, ...]
    gauge: str
    decides: str = ""


_UNITS = {
    "length": ("mm", "in"),
    "length_difference": ("mm", "in", "thou", "µm"),
    "pressure_gauge": ("kPa", "bar", "psi"),
    "angle": ("°",),
    "volume": ("cm³", "in³"),
}


def to_measure(bench: Bench, key: str) -> ToMeasure:
    """The places of a characteristic, the first of them without a reading, and the gauge that was used last."""
    bench.unlock()
    item = characteristic(bench.sheet, key)
    readings = {
        (place, condition): one
        for (name, place, condition), one in bench.state.readings.items()
        if name == key
    }
    latest = max(readings.values(), key=lambda one: one.time, default=None)
    condition = latest.condition if latest is not None else "as found"
    names = () if item.computed else place_names(item)
    open_places = [place for place in names if (place, condition) not in readings]
    return ToMeasure(
        item=key,
        name=item.name,
        part=item.part,
        how=item.how or "",
        computed_from=tuple(item.of) if item.computed else (),
        places=tuple(
            replace(_place(item, readings, place), optional=place not in names)
            for place in (*names, *stretch_names(item))
        ),
        next_place=open_places[0] if open_places else None,
        condition=condition,
        unit=latest.unit if latest is not None else BASE_UNIT[item.kind],
        units=_UNITS.get(item.kind, (BASE_UNIT[item.kind],)),
        signed=_may_be_below_zero(item),
        blades=item.method in ("gap", "straightedge lines"),
        gauges=tuple(Instrument(name, gauge.name) for name, gauge in bench.kit.gauges.items()),
        gauge=_gauge(bench, item, latest),
        decides=can_decide(bench, key).words,
    )


def _place(item: Characteristic, readings: dict[tuple[str, str], ReadingState], place: str) -> Place:
    found, left = (readings.get((place, condition)) for condition in ("as found", "as left"))
    return Place(
        place,
        reading_text(found, item.kind) if found is not None else "",
        reading_text(left, item.kind) if left is not None else "",
    )


def _may_be_below_zero(item: Characteristic) -> bool:
    ends = [
        one.value.low_in(BASE_UNIT[item.kind]) for one in (item.new_range, item.required) if one is not None
    ]
    return any(end is not None and end < 0 for end in ends)


def _gauge(bench: Bench, item: Characteristic, latest: ReadingState | None) -> str:
    """The gauge used last for it, else the only one whose range takes it; nothing is guessed beyond that."""
    if latest is not None and latest.instrument in bench.kit.gauges:
        return latest.instrument
    if item.kind != "length":
        return ""
    fitting = [key for key, gauge in bench.kit.gauges.items() if _takes(gauge, item)]
    return fitting[0] if len(fitting) == 1 else ""


def _takes(gauge: Gauge, item: Characteristic) -> bool:
    stated = item.wear_limit or item.new_range or item.required
    if gauge.range is None or gauge.reads != "length" or stated is None:
        return False
    low, high = gauge.range.low_in("mm"), gauge.range.high_in("mm")
    end = stated.value.high_in("mm") or stated.value.low_in("mm")
    return low is not None and high is not None and end is not None and low <= end <= high
