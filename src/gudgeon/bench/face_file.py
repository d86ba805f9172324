"""A scanned face taken over from a file of points."""

import math
from dataclasses import dataclass
from decimal import Decimal
from hashlib import sha256
from pathlib import Path

from gudgeon.bench.bodies import characteristic
from gudgeon.bench.context import Bench, entry_of
from gudgeon.bench.face_extent import fits_face
from gudgeon.bench.measuring_errors import NoFace, TooManyPoints
from gudgeon.bench.record import Recorded, record
from gudgeon.bench.sent_before import sent_before
from gudgeon.book.tell import Tell, silent
from gudgeon.written.points import Points, Told, points_in, read_points

FACES = ("scanned face", "straightedge lines", "heights")
"""Methods of characteristics whose face may be scanned."""
DIGITS = 7
"""To this many decimals of a millimeter points of another unit are kept: beyond it a file holds no more."""


def take_face(
    bench: Bench,
    item: str,
    *,
    file: str | Path,
    unit: str | None,
    instrument: str,
    condition: str,
    note: str = "",
    sure: bool = False,
    tell: Tell = silent,
) -> Recorded:
    """Write the points of a file into the book; what is no face is refused before. The same file counts once."""
    _has_a_face(bench, item)
    path = Path(file).expanduser()
    said = Taken(item, path.name, instrument, condition, note, sure)
    points = read_points(path, unit_said=unit, told=_lines(tell))
    tell("looking whether they are of this face")
    return _taken(bench, said, points, content=path.read_bytes(), named=str(file))


def take_sent_face(
    bench: Bench, said: "Taken", *, content: bytes, unit: str | None, tell: Tell = silent
) -> Recorded:
    """The same for a file that was sent, and that lies nowhere here; where `tell` raises, nothing is written."""
    _has_a_face(bench, said.item)
    points = points_in(content, file=said.file, unit_said=unit, told=_lines(tell))
    tell("looking whether they are of this face")
    return _taken(bench, said, points, content=content, named=said.file)


def _lines(tell: Tell) -> Told:
    return lambda part, whole: tell(f"reading line {part:,} of {whole:,}")


@dataclass(frozen=True, slots=True)
class Taken:
    """What is said of a file of points: of what, what it is called, with which gauge, and when."""

    item: str
    file: str
    instrument: str
    condition: str
    note: str = ""
    sure: bool = False
    """They are this face although they reach further than its outline, or over little of it."""


def _has_a_face(bench: Bench, item: str) -> None:
    bench.unlock()
    of = characteristic(bench.sheet, item)
    if of.method not in FACES:
        raise NoFace(of.name, of.method, FACES)


def _taken(bench: Bench, said: Taken, points: Points, *, content: bytes, named: str) -> Recorded:
    from gudgeon.book.bodies_measuring import MOST_POINTS

    if len(points) > MOST_POINTS:
        raise TooManyPoints(named, len(points), MOST_POINTS, math.ceil(len(points) / MOST_POINTS))
    _is_a_face(points)
    if not said.sure:
        of = bench.sheet.characteristics[said.item]
        fits_face(of.name, bench.sheet.faces.get(of.face or ""), list(points.rows()))
    digest = sha256(content).hexdigest()
    fields = {
        "item": said.item,
        "unit": "mm",
        "points": [[_text(one, exact=points.unit == "mm") for one in row] for row in points.rows()],
        "instrument": said.instrument,
        "condition": said.condition,
        "file": said.file,
        "sha": digest,
        "note": said.note
        or (
            ""
            if points.unit == "mm"
            else f"the file is in {'inches' if points.unit == 'in' else points.unit}"
        ),
    }
    own = "\n".join((bench.build, said.item, said.condition, said.instrument, points.unit, digest))
    made = sha256(own.encode()).hexdigest()[:32]
    if entry_of(bench, made) is not None:
        remarks = sent_before(bench, bench.state, ids=[made])
        return Recorded(made, "face-scanned", f"the points of {said.file}", remarks)
    return record(bench, "face-scanned", fields, entry_id=made)


def _is_a_face(points: Points) -> None:
    """Refuses what has no plane: too few points, points in a line, also those of an upright wall."""
    from gudgeon.calc.metrology.flatness import flatness

    rows = list(points.rows())
    flatness(rows)
    flatness([(x, y, 0.0) for x, y, _ in rows])


def _text(mm: float, *, exact: bool) -> str:
    return format(Decimal(repr(mm if exact else round(mm, DIGITS))), "f")
