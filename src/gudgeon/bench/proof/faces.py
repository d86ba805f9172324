"""Faces: lines whose length contradicts their ends, and places that lie beside the face."""

from collections.abc import Iterator

from gudgeon.bench.proof.findings import Finding, finding
from gudgeon.sheet.faces import Face, Line, Point
from gudgeon.sheet.model import DataSheet

APART = 0.02
"""A stated length that differs from that between its ends by a larger share is looked at again."""


def check_faces(sheet: DataSheet) -> Iterator[Finding]:
    """Every face of the sheet."""
    for key, face in sheet.faces.items():
        for name, line in face.lines.items():
            yield from _length(key, face, name, line)
            yield from _direction(key, face, name, line)
        yield from _beside(sheet, key, face)


def _length(key: str, face: Face, name: str, line: Line) -> Iterator[Finding]:
    between = line.between_ends_mm()
    if line.length is None or between is None:
        return
    stated = line.length.middle_in("mm")
    if abs(stated - between) > APART * between:
        yield finding(
            "face-line",
            grade="doubt",
            path=f"faces.{key}.lines.{name}.length",
            name=f"{face.name}, line {name}",
            printed=f"{line.length.text}; {between:.1f} mm between its ends",
            why="The stated length is not the one between its ends.",
            source=str(face.source or ""),
        )


def _direction(key: str, face: Face, name: str, line: Line) -> Iterator[Finding]:
    """A face is longer lengthwise than across."""
    if line.start is None or line.end is None or len(face.outline) < 3 or line.along == "diagonal":
        return
    width, height = (
        _extent([one.x.middle_in("mm") for one in face.outline]),
        _extent([one.y.middle_in("mm") for one in face.outline]),
    )
    across = abs(line.end.x.middle_in("mm") - line.start.x.middle_in("mm"))
    up = abs(line.end.y.middle_in("mm") - line.start.y.middle_in("mm"))
    runs = "lengthwise" if (across > up) == (width > height) else "crosswise"
    if across != up and runs != line.along:
        yield finding(
            "face-line",
            grade="doubt",
            path=f"faces.{key}.lines.{name}.along",
            name=f"{face.name}, line {name}",
            printed=f"{line.along}; from {_at(line.start)} to {_at(line.end)}",
            agrees=runs,
            why=f"The face is longer the other way: the line runs {runs}.",
            source=str(face.source or ""),
        )


def _beside(sheet: DataSheet, key: str, face: Face) -> Iterator[Finding]:
    """Bolts, openings and ends of lines lie within the outline."""
    if len(face.outline) < 3:
        return
    left, right = _ends([one.x.middle_in("mm") for one in face.outline])
    low, high = _ends([one.y.middle_in("mm") for one in face.outline])
    for path, words, point in _places(sheet, key, face):
        x, y = point.x.middle_in("mm"), point.y.middle_in("mm")
        if not (left <= x <= right and low <= y <= high):
            yield finding(
                "face-place",
                grade="doubt",
                path=path,
                name=f"{face.name}, {words}",
                printed=_at(point),
                agrees=f"x {left:g} to {right:g} mm, y {low:g} to {high:g} mm",
                why="It lies beside the outline of the face: another zero, another side, or a sign that slipped.",
                source=str(face.source or ""),
            )


def _places(sheet: DataSheet, key: str, face: Face) -> Iterator[tuple[str, str, Point]]:
    for number, opening in enumerate(face.openings, start=1):
        yield f"faces.{key}.openings.{number}", f"opening {opening.name or number}", opening
    for name, point in face.points.items():
        yield f"faces.{key}.points.{name}", f"point {name}", point
    for name, line in face.lines.items():
        for field, end in (("from", line.start), ("to", line.end)):
            if end is not None:
                yield f"faces.{key}.lines.{name}.{field}", f"line {name}, {field}", end
    joint = sheet.joints.get(face.bolts_of or "")
    for name in joint.bolt_names if joint is not None else ():
        bolt = joint.bolt(name) if joint is not None else None
        if bolt is not None and bolt.x is not None and bolt.y is not None:
            yield f"joints.{face.bolts_of}.bolts.{name}", f"bolt {name}", Point(x=bolt.x, y=bolt.y)


def _ends(values: list[float]) -> tuple[float, float]:
    return min(values), max(values)


def _extent(values: list[float]) -> float:
    return max(values) - min(values)


def _at(point: Point) -> str:
    return f"x {point.x.text}, y {point.y.text}"
