"""A face of the data sheet read for people: its lines with their lengths, its points and openings, in words."""

from collections.abc import Iterator

from gudgeon.sheet.faces import Face, Point

FACE_FACTS = ("outline", "openings", "lines", "points")
"""Fields of a face that are drawn; on the page they stand in words."""


def face_facts(face: Face, name: str) -> Iterator[tuple[str, str]]:
    """What one field of a face says."""
    if name == "outline" and face.outline:
        yield "Outline", f"{len(face.outline)} points"
    elif name == "openings":
        for number, one in enumerate(face.openings, start=1):
            yield f"Opening, {one.name or number}", f"{one.diameter.text} across, at {_at(one)}"
    elif name == "points":
        for called, point in face.points.items():
            yield f"Point {called}", _at(point)
    elif name == "lines":
        for called, line in face.lines.items():
            length = line.length_mm()
            ends = f", from {_at(line.start)} to {_at(line.end)}" if line.start and line.end else ""
            long = f", {length:.0f} mm long" if length is not None else ", no length stated"
            yield f"Line {called}", f"{line.along}{ends}{long}"


def _at(point: Point) -> str:
    return f"x {point.x.text}, y {point.y.text}"
