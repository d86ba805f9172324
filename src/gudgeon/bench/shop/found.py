"""What was read of a part, place by place, as it goes to the shop with its gauge and its uncertainty."""

from dataclasses import dataclass
from typing import Literal

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.criteria import Criterion, difference_kind, stated_limits
from gudgeon.bench.judging.finding import Case, plus_minus, shown_value
from gudgeon.bench.judging.scans import Surface, surface
from gudgeon.bench.measured import Measured, measured
from gudgeon.sheet.inspections import place_names

PartKind = Literal["head", "block"]
PARTS: tuple[PartKind, ...] = ("head", "block")
FLAT = ("straightedge lines", "heights", "scanned face")
NOT_READ = "not read"


@dataclass(frozen=True, slots=True)
class FoundLine:
    """One place: what was read there, with which gauge, how far it may be off, and in which state of the part."""

    place: str
    reading: str
    gauge: str
    uncertainty: str
    condition: str


def face_key(bench: Bench, *, part: PartKind) -> str | None:
    """The characteristic that holds how flat the gasket face of the head is, or that of the block under it."""
    flat = {key: item for key, item in bench.sheet.characteristics.items() if item.method in FLAT}
    head = bench.sheet.head
    of_head = head.face if head is not None else None
    if part == "head":
        if of_head is not None:
            return next((key for key, item in flat.items() if item.face == of_head), None)
        height = bench.sheet.characteristics.get(head.measured_as or "") if head is not None else None
        return next(
            (key for key, item in flat.items() if height is not None and item.part == height.part), None
        )
    joints = {key for key, joint in bench.sheet.joints.items() if joint.role == "cylinder head"}
    faces = {key for key, face in bench.sheet.faces.items() if face.bolts_of in joints and key != of_head}
    own = part_of_head(bench)
    return next((key for key, item in flat.items() if item.face in faces and item.part != own), None)


def part_of_head(bench: Bench) -> str:
    """What the sheet calls the head, by the characteristic of its height or its face."""
    head = bench.sheet.head
    key = head.measured_as if head is not None else None
    item = bench.sheet.characteristics.get(key or "") or bench.sheet.characteristics.get(
        face_key(bench, part="head") or ""
    )
    return item.part if item is not None else ""


def face_scan(bench: Bench, key: str) -> Surface | None:
    """The points of a face where it was read point by point."""
    item = bench.sheet.characteristics[key]
    case = Case(bench, key, item, Criterion("plain", "", "wear limit", None, None, ""), measured(bench, key))
    return surface(case)


def flatness_found(bench: Bench, key: str) -> tuple[FoundLine, ...]:
    """The face as it was read last: each line, or the whole of it where it was read point by point."""
    scan = face_scan(bench, key)
    if scan is None:
        return readings_found(bench, key)
    zone = scan.zone()
    gauge = bench.kit.gauges.get(scan.gauge)
    shown = f"{shown_value(zone, 'length_difference')}, minimum zone of {len(scan.points)} points"
    spread = plus_minus(zone.u, kind="length_difference") if zone.known else "not known"
    return (FoundLine("whole face", shown, gauge.name if gauge else scan.gauge, spread, scan.condition),)


def readings_found(bench: Bench, key: str) -> tuple[FoundLine, ...]:
    """Every place of a characteristic, those that were not read among them."""
    item, readings = bench.sheet.characteristics[key], measured(bench, key)
    places = [*place_names(item), *(one for one in readings if one not in place_names(item))]
    return tuple(_line(bench, place, readings.get(place), kind=item.kind) for place in places)


def _line(bench: Bench, place: str, one: Measured | None, *, kind: str) -> FoundLine:
    if one is None:
        return FoundLine(place, NOT_READ, "", "", "")
    gauge = bench.kit.gauges.get(one.instrument)
    spread = plus_minus(one.u, kind=difference_kind(kind)) if one.u_known else "not known"
    return FoundLine(place, one.text, gauge.name if gauge else one.instrument, spread, one.condition)


def limit_words(bench: Bench, key: str) -> str:
    """What limits a characteristic, in words, with its source."""
    item = bench.sheet.characteristics[key]
    said = "; ".join(f"{stands_for}: {text}" for stands_for, text in stated_limits(bench.sheet, key).items())
    cited = item.cited(item.required or item.wear_limit or item.new_range)
    return f"{said} ({cited})" if said and cited is not None else said
