"""The points of a face with their heights: those of a scan, or those that were read over a plate."""

from collections.abc import Sequence

from gudgeon.bench.context import Bench
from gudgeon.bench.measured import measured
from gudgeon.bench.pictures.relief import Relief, relief
from gudgeon.bench.scans import scanned
from gudgeon.calc.metrology.contour import Corner, Spot
from gudgeon.errors import GudgeonError

PLANE = "the middle between the two closest parallel planes that hold every point"
ELSEWHERE = (
    "Most of the points lie beside the outline that the sheet states: they are counted from another zero, so outline, "
    "openings and bolts are not drawn."
)
_NEAR_MM = 5.0
_MOST_BESIDE = 0.2


def points_of(bench: Bench, key: str) -> tuple[Corner, ...]:
    """Every point of a face that has a height [mm]; none where it was not read point by point."""
    scan = scanned(bench, key)
    if scan is not None:
        return scan.points
    item = bench.sheet.characteristics[key]
    face = bench.sheet.faces.get(item.face or "")
    if face is None:
        return ()
    return tuple(
        (face.points[place].x.middle_in("mm"), face.points[place].y.middle_in("mm"), one.low)
        for place, one in measured(bench, key).items()
        if place in face.points and one.low == one.high
    )


def relief_of(points: Sequence[Corner], *, outline: Sequence[Spot]) -> Relief | None:
    """Points as a relief over the planes that their flatness is told from; nothing where they span no face."""
    from gudgeon.calc.metrology.flatness import flatness

    if len(points) < 4:  # through three there is always a plane
        return None
    try:
        plane = flatness(points).plane
        return relief(points, plane=plane, plane_words=PLANE, outline=outline) if plane is not None else None
    except GudgeonError:
        return None


def beside(points: Sequence[Corner], *, outline: Sequence[Spot]) -> bool:
    """Whether so many points lie beside an outline that they must be counted from another zero."""
    if len(outline) < 3:
        return False
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    out = sum(
        not (min(xs) - _NEAR_MM <= x <= max(xs) + _NEAR_MM and min(ys) - _NEAR_MM <= y <= max(ys) + _NEAR_MM)
        for x, y, _ in points
    )
    return out > _MOST_BESIDE * len(points)
