"""A face as a picture: outline, openings, bolt holes, the lines of the straightedge with what was read on them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.good import Row, inspect
from gudgeon.bench.judging.criteria import stated_limits
from gudgeon.bench.measured import Measured, measured
from gudgeon.bench.pictures.places import counted, verdict_of
from gudgeon.bench.pictures.points import ELSEWHERE, beside, points_of, relief_of
from gudgeon.bench.pictures.relief import Relief
from gudgeon.calc.metrology.contour import Spot
from gudgeon.sheet.faces import Face, Point
from gudgeon.sheet.inspections import Characteristic, place_names


@dataclass(frozen=True, slots=True)
class Ring:
    """A round opening, or a bolt hole, whose size is not stated."""

    name: str
    x_mm: float
    y_mm: float
    diameter_mm: float | None


@dataclass(frozen=True, slots=True)
class DrawnLine:
    """A line that a straightedge was laid on, or would be, with what was read there."""

    number: int
    place: str
    start: Spot | None
    end: Spot | None
    reading: str
    verdict: str


@dataclass(frozen=True, slots=True)
class FacePicture:
    """The picture of one characteristic of a face; x to the right and y upward [mm]."""

    item: str
    name: str
    part: str
    face: str
    viewed_from: str
    limits: str
    outline: tuple[Spot, ...]
    openings: tuple[Ring, ...]
    bolts: tuple[Ring, ...]
    lines: tuple[DrawnLine, ...]
    relief: Relief | None
    note: str
    words: str


def face_picture(bench: Bench, key: str) -> FacePicture:
    """The face of a characteristic with every reading of it."""
    item = bench.sheet.characteristics[key]
    assert item.face is not None
    face = bench.sheet.faces[item.face]
    rows = [row for row in inspect(bench, only=key).rows if row.item == key]
    found = measured(bench, key)
    lines = tuple(
        _line(
            face,
            number,
            place,
            _text(rows, place, found),
            verdict=verdict_of(rows, place, read=place in found),
        )
        for number, place in enumerate(_lines_of(item, face), start=1)
    )
    points, outline = points_of(bench, key), tuple(_spot(one) for one in face.outline)
    elsewhere = beside(points, outline=outline)
    if elsewhere:
        outline = ()
    relief = relief_of(points, outline=outline)
    return FacePicture(
        item=key,
        name=item.name,
        part=item.part,
        face=face.name,
        viewed_from=face.viewed_from or "",
        limits="; ".join(
            f"{name.removesuffix(' range')} {said}" for name, said in stated_limits(bench.sheet, key).items()
        ),
        outline=outline,
        openings=tuple(
            Ring(one.name or "", *_spot(one), one.diameter.middle_in("mm"))
            for one in face.openings
            if not elsewhere
        ),
        bolts=_bolts(bench, face) if not elsewhere else (),
        lines=lines,
        relief=relief,
        note=ELSEWHERE if elsewhere else "",
        words=_words(item.name, face, lines, relief),
    )


def _lines_of(item: Characteristic, face: Face) -> list[str]:
    """The places of a characteristic that are lines of its face."""
    return [place for place in place_names(item) if place and place not in face.points]


def _text(rows: Sequence[Row], place: str, found: Mapping[str, Measured]) -> str:
    """What stands beside a line: its reading, or what was cut from a scan along it."""
    cut = next(
        (row.reading for row in rows if row.place == place and row.reading and place not in row.covers), ""
    )
    if cut:
        return cut
    return found[place].text if place in found else ""


def _line(face: Face, number: int, place: str, text: str, *, verdict: str) -> DrawnLine:
    where = face.lines.get(place)
    ends = (where.start, where.end) if where is not None else (None, None)
    start, end = (_spot(point) if point is not None else None for point in ends)
    return DrawnLine(number, place, start, end, text, verdict)


def _spot(point: Point) -> Spot:
    return point.x.middle_in("mm"), point.y.middle_in("mm")


def _bolts(bench: Bench, face: Face) -> tuple[Ring, ...]:
    joint = bench.sheet.joints.get(face.bolts_of or "")
    if joint is None:
        return ()
    bolts = [(name, joint.bolt(name)) for name in joint.bolt_names]
    return tuple(
        Ring(name, bolt.x.middle_in("mm"), bolt.y.middle_in("mm"), None)
        for name, bolt in bolts
        if bolt.x is not None and bolt.y is not None
    )


def _words(name: str, face: Face, lines: Sequence[DrawnLine], relief: Relief | None) -> str:
    """The picture for somebody who does not see it."""
    said = [f"{name}: {face.name}" + (f", seen from {face.viewed_from}" if face.viewed_from else "")]
    if lines:
        said.append(f"{len(lines)} lines: {counted(one.verdict for one in lines)}")
        said += [f"{one.number}, {one.place}: {one.reading or 'no reading'}, {one.verdict}" for one in lines]
    if relief is not None:
        said.append(f"Heights over {relief.plane}, from {relief.lowest.text} to {relief.highest.text}")
    return ". ".join(said) + "."
