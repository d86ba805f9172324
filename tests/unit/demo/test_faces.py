"""Faces of the invented engine against its bolts, its bores and its gasket. HAND: plane geometry of the places."""

import math

import pytest

from gudgeon.sheet.faces import Face, Line, Point
from gudgeon.sheet.model import DataSheet

SPACING = 91.0  # mm from bore to bore; the head bolts stand between them


def at(point: Point | None) -> tuple[float, float]:
    assert point is not None
    return point.x.middle_in("mm"), point.y.middle_in("mm")


def box(face: Face) -> tuple[float, float, float, float]:
    xs, ys = zip(*(at(one) for one in face.outline), strict=True)
    return min(xs), max(xs), min(ys), max(ys)


def from_line(line: Line, point: tuple[float, float]) -> float:
    """How far a point lies from a straight line between two ends."""
    (ax, ay), (bx, by) = at(line.start), at(line.end)
    along = max(
        0.0,
        min(
            1.0,
            ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2),
        ),
    )
    return math.hypot(point[0] - ax - along * (bx - ax), point[1] - ay - along * (by - ay))


@pytest.mark.parametrize("key", ["head", "deck"])
def test_gasket_faces_hold_their_bolts_and_fire_rings(sheet: DataSheet, key: str) -> None:
    face, bolts = sheet.faces[key], sheet.joints["head"]
    assert face.bolts_of == "head"
    left, right, low, high = box(face)
    assert sheet.cylinder is not None
    assert sheet.cylinder.gasket_bore is not None
    ring = sheet.cylinder.gasket_bore.value.middle_in("mm") / 2
    assert [at(one)[0] for one in face.openings] == [SPACING / 2 + SPACING * number for number in range(4)]
    assert {one.diameter.middle_in("mm") for one in face.openings} == {2 * ring}
    for name in bolts.bolt_names:
        bolt = bolts.bolt(name)
        assert bolt.x is not None
        assert bolt.y is not None
        x, y = bolt.x.middle_in("mm"), bolt.y.middle_in("mm")
        assert left + 5.5 < x < right - 5.5
        assert low + 5.5 < y < high - 5.5
        assert min(math.hypot(x - at(one)[0], y - at(one)[1]) for one in face.openings) > ring + 5.5
    assert left < min(at(one)[0] for one in face.openings) - ring
    assert max(at(one)[0] for one in face.openings) + ring < right


@pytest.mark.parametrize("key", ["head", "deck"])
def test_lines_along_the_edges_run_clear_of_bolts_and_rings(sheet: DataSheet, key: str) -> None:
    face, bolts = sheet.faces[key], sheet.joints["head"]
    edges = {name: line for name, line in face.lines.items() if line.along != "diagonal"}
    assert len(edges) == 4
    for name, line in edges.items():
        for bolt in map(bolts.bolt, bolts.bolt_names):
            assert bolt.x is not None
            assert bolt.y is not None
            assert from_line(line, (bolt.x.middle_in("mm"), bolt.y.middle_in("mm"))) > 5.5, name
        for one in face.openings:
            assert from_line(line, at(one)) > one.diameter.middle_in("mm") / 2, name


@pytest.mark.parametrize("key", ["head", "deck"])
def test_lines_are_what_their_names_say(sheet: DataSheet, key: str) -> None:
    """Timing end at the left, intake side at the top; 396² + 114² is 412.08²."""
    lines = sheet.faces[key].lines
    assert tuple(lines) == sheet.characteristics[f"{key}_flatness"].places
    for name, line in lines.items():
        along = {"lengthwise": "lengthwise", "across": "crosswise", "diagonal": "diagonal"}[
            name.partition(",")[0]
        ]
        assert line.along == along
        if along == "lengthwise":
            assert (at(line.start)[1] > 0) == ("intake" in name)
        elif along == "crosswise":
            assert (at(line.start)[0] < 0) == ("timing" in name)
        else:
            assert at(line.start)[0] < 0
            assert (at(line.start)[1] > 0) == ("timing intake" in name)
    lengths = [line.length_mm() for line in lines.values()]
    assert lengths == pytest.approx([396, 396, 412.08, 412.08, 114, 114], abs=0.01)


@pytest.mark.parametrize("key", ["intake", "exhaust"])
def test_manifold_faces_hold_four_ports(sheet: DataSheet, key: str) -> None:
    face = sheet.faces[key]
    left, right, low, high = box(face)
    assert len(face.openings) == 4
    for port in face.openings:
        x, y = at(port)
        half = port.diameter.middle_in("mm") / 2
        assert left < x - half
        assert x + half < right
        assert low < y - half
        assert y + half < high
        assert all(from_line(line, (x, y)) > half for line in face.lines.values())
    assert [line.length_mm() for line in face.lines.values()] == [376, 376]
    assert sheet.characteristics[f"{key}_face_flatness"].places == ("upper edge", "lower edge")
