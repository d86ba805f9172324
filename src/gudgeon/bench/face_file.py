"""A scanned face taken over from a file of points."""

import math
from decimal import Decimal
from hashlib import sha256
from pathlib import Path

from gudgeon.bench.bodies import characteristic
from gudgeon.bench.context import Bench
from gudgeon.bench.measuring_errors import NoFace, TooManyPoints
from gudgeon.bench.record import SENT_BEFORE, Recorded, record
from gudgeon.written.points import Points, read_points

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
) -> Recorded:
    """Write the points of a file into the book; what is no face is refused before. The same file counts once."""
    bench.unlock()
    of = characteristic(bench.sheet, item)
    if of.method not in FACES:
        raise NoFace(of.name, of.method, FACES)
    path = Path(file).expanduser()
    points = read_points(path, unit_said=unit)
    from gudgeon.book.bodies_measuring import MOST_POINTS

    if len(points) > MOST_POINTS:
        raise TooManyPoints(str(file), len(points), MOST_POINTS, math.ceil(len(points) / MOST_POINTS))
    _is_a_face(points)
    content = path.read_bytes()
    digest = sha256(content).hexdigest()
    fields = {
        "item": item,
        "unit": "mm",
        "points": [[_text(one, exact=points.unit == "mm") for one in row] for row in points.rows()],
        "instrument": instrument,
        "condition": condition,
        "file": path.name,
        "sha": digest,
        "note": note or ("" if points.unit == "mm" else f"the file is in {points.unit}"),
    }
    said = "\n".join((bench.build, item, condition, instrument, points.unit, digest))
    made = sha256(said.encode()).hexdigest()[:32]
    if any(one.id == made for one in bench.store.entries(bench.build)):
        return Recorded(made, "face-scanned", f"the points of {path.name}", (SENT_BEFORE,))
    return record(bench, "face-scanned", fields, entry_id=made)


def _is_a_face(points: Points) -> None:
    """Refuses what has no plane: too few points, points in a line, also those of an upright wall."""
    from gudgeon.calc.metrology.flatness import flatness

    rows = list(points.rows())
    flatness(rows)
    flatness([(x, y, 0.0) for x, y, _ in rows])


def _text(mm: float, *, exact: bool) -> str:
    return format(Decimal(repr(mm if exact else round(mm, DIGITS))), "f")
