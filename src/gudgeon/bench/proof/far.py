"""Places so far off that no engine reaches them: another unit, or zeros too many."""

from collections.abc import Iterator

from gudgeon.bench.proof.findings import Finding, finding
from gudgeon.quantity.written import Printed
from gudgeon.sheet.model import DataSheet

FARTHEST_MM = 2_000.0
"""COMMON PRACTICE, no source: no joint or face of a car's engine is longer."""


def check_far(sheet: DataSheet) -> Iterator[Finding]:
    """Every bolt and every corner of a face that stands farther than an engine is long from where places count."""
    for path, name, figure, source in _places(sheet):
        if abs(figure.middle_in("mm")) > FARTHEST_MM:
            yield finding(
                "place-far",
                grade="doubt",
                path=path,
                name=name,
                printed=figure.text,
                agrees=f"at most {FARTHEST_MM:,.0f} mm",
                why="No joint of an engine is as long as that (common practice, no source): another unit, or a zero "
                "too many.",
                source=source,
            )


def _places(sheet: DataSheet) -> Iterator[tuple[str, str, Printed, str]]:
    """The path, the name, the figure and the source of each."""
    for key, joint in sheet.joints.items():
        for name in joint.bolt_names:
            bolt = joint.bolt(name)
            for axis, figure in (("x", bolt.x), ("y", bolt.y)):
                if figure is not None:
                    path = f"joints.{key}.bolts.{name}.{axis}"
                    yield path, f"{joint.name}, {name}, {axis}", figure, str(joint.source or "")
    for key, face in sheet.faces.items():
        for number, corner in enumerate(face.outline, start=1):
            for axis, figure in (("x", corner.x), ("y", corner.y)):
                path = f"faces.{key}.outline.{number}.{axis}"
                yield path, f"{face.name}, corner {number}, {axis}", figure, str(face.source or "")
