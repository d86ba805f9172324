"""What a limit needs and the sheet does not state: named, with what cannot be done without it, and where it would stand.

Which part of a sheet each shape needs is HAND: it follows from what the shape compares.
"""

import pytest

from gudgeon.bench.gaps import gaps
from gudgeon.bench.gaps_measuring import measuring_gaps
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.model import DataSheet
from tests.unit.sheet.sheets import SMALL

HEAD, TAIL = SMALL.split("  journal:\n")
FACE = "faces:\n  head: {{name: Head face, source: manual p. 4, lines: {{{lines}}}, points: {{{points}}}}}\n"
STATED = "a: {along: lengthwise, length: 200 mm}"
OPEN = "a: {along: diagonal}"
LINES = "method: straightedge lines, face: head, "
CYLINDERS = "places: {cylinder: [1, 2]}, quantity: pressure_gauge, "


def sheet(item: str, *, lines: str = STATED, points: str = "") -> DataSheet:
    start = f"  it: {{name: It, part: head, source: manual p. 7, {item}}}\n  journal:\n"
    return parse_sheet(HEAD + start + TAIL + FACE.format(lines=lines, points=points), file="s.yaml").sheet


def found(item: str, *, lines: str = STATED, points: str = "") -> list[tuple[str, str, str]]:
    """The gaps of `it`, without where they are listed."""
    gaps_of = measuring_gaps(sheet(item, lines=lines, points=points))
    return [one[1:] for one in gaps_of if one[0] == "It"]


@pytest.mark.parametrize(
    ("item", "lines", "missing", "therefore", "path"),
    [
        (LINES + "limits: [{shape: per unit of span, limit: max 0.05 mm, per: 100 mm}]", OPEN,
         "no length of the line a", "its limit per unit of span cannot be worked out", "faces.head.lines.a.length"),
        ("method: gap, limits: [{shape: per unit of span, limit: max 0.05 mm, per: 100 mm}]", OPEN,
         "no span", "a limit per unit of span cannot be worked out", "characteristics.it.limits.1.span"),
        (LINES + "limits: [{shape: per length, limit: max 0.05 mm, over: 150 mm}]", OPEN,
         "no length of the line a", "cannot say whether it is longer than 150 mm", "faces.head.lines.a.length"),
        (LINES + "limits: [{shape: by direction, lengthwise: max 0.05 mm, overall: max 0.1 mm}]", OPEN,
         "no line that is said to run lengthwise", "the limit lengthwise cannot be judged",
         "characteristics.it.limits.1.lengthwise"),
        (LINES + "limits: [{shape: by direction, lengthwise: max 0.05 mm, crosswise: max 0.1 mm}]", STATED,
         "no line that is said to run crosswise", "the limit crosswise cannot be judged",
         "characteristics.it.limits.1.crosswise"),
        ("quantity: pressure_gauge, places: [left, right], "
         "limits: [{shape: difference between cylinders, limit: max 2 bar}]", STATED,
         "no places by cylinder", "cylinders cannot be compared", "characteristics.it.limits.1"),
        ("method: gap, limits: [{shape: difference between places, limit: max 0.05 mm}]", STATED,
         "no places", "nothing can be compared", "characteristics.it.limits.1"),
        ("limits: [{shape: whole face, limit: max 0.05 mm}]", STATED,
         "no method for whole face", "`whole face` cannot be judged: `size` reads no flatness",
         "characteristics.it.limits.1"),
        (LINES + "limits: [{shape: two faces together, with: journal, limit: max 0.05 mm}]", STATED,
         "no flatness of crank journal", "the two faces cannot be added", "characteristics.it.limits.1"),
        ("method: heights, face: head, wear_limit: max 0.05 mm", STATED,
         "no three points with their places", "flatness cannot be worked out", "characteristics.it.face"),
        ("places: {height: [top, middle, low]}, at_heights: {top: 10 mm, low: 90 mm}, wear_limit: max 90 mm", STATED,
         "no height of middle", "no taper per length from there", "characteristics.it.at_heights"),
    ],
)  # fmt: skip
def test_what_a_limit_needs_is_named(item: str, lines: str, missing: str, therefore: str, path: str) -> None:
    assert found(item, lines=lines) == [(missing, therefore, path)]


@pytest.mark.parametrize(
    "item",
    [
        LINES + "limits: [{shape: per unit of span, limit: max 0.05 mm, per: 100 mm}]",
        "method: gap, limits: [{shape: per unit of span, limit: max 0.05 mm, per: 100 mm, span: 300 mm}]",
        LINES
        + "limits: [{shape: whole face and per length, total: max 0.1 mm, limit: max 0.05 mm, over: 150 mm}]",
        LINES + "limits: [{shape: by direction, lengthwise: max 0.05 mm, overall: max 0.1 mm}]",
        LINES + "limits: [{shape: two faces together, with: head_face, limit: max 0.05 mm}]",
        CYLINDERS + "limits: [{shape: difference between cylinders, percent_of_highest: min 75 %}]",
        "limits: [{shape: replace always}]",
        "places: {height: [top, low]}, at_heights: {top: 10 mm, low: 90 mm}, wear_limit: max 90 mm",
    ],
)
def test_a_limit_that_has_what_it_needs_leaves_no_gap(item: str) -> None:
    assert found(item) == []


def test_heights_with_three_points_leave_no_gap() -> None:
    points = ", ".join(
        f"{name}: {{x: {x} mm, y: {y} mm}}" for name, x, y in (("a", 0, 0), ("b", 9, 0), ("c", 0, 9))
    )
    assert found("method: heights, face: head, wear_limit: max 0.05 mm", points=points) == []


def test_what_is_worked_out_has_the_cylinders_of_its_parts() -> None:
    text = SMALL.replace("    places: [A, B]\n", "    places: {cylinder: [1, 2], height: [top, low]}\n")
    shape = "limits: [{shape: difference between cylinders, limit: max 0.01 mm}]"
    item = f"  it: {{name: It, part: a, source: manual p. 7, method: taper, of: [journal], {shape}}}\n  journal:\n"
    whole = parse_sheet(text.replace("  journal:\n", item), file="s.yaml").sheet
    assert [one for one in measuring_gaps(whole) if one[0] == "It"] == []


@pytest.mark.parametrize(
    ("item", "missing"),
    [
        ("limits: [{shape: replace always}]", set()),
        ("method: gap, places: [a, b], limits: [{shape: difference between places, limit: max 0.05 mm}]", set()),
        ("limits: [{shape: difference between places, stands_for: new range, limit: max 0.05 mm}], places: [a, b]",
         {"no wear limit for it"}),
        ("grades: {a: 1–2 mm, b: 2.1–3 mm}", set()),
        ("places: [a, b]", {"no wear limit for it", "no new range either"}),
    ],
)  # fmt: skip
def test_a_limit_with_a_shape_is_a_limit(item: str, missing: set[str]) -> None:
    assert {gap.missing for gap in gaps(sheet(item)) if gap.where == "It"} == missing


def test_sizes_without_a_material_are_named_in_one_line() -> None:
    said = "a size read in a cold or a warm garage cannot be brought to 20 °C"
    plain = parse_sheet(SMALL, file="s.yaml").sheet
    assert [one[1:3] for one in measuring_gaps(plain)] == [("no material of crank journal", said)]
    told = SMALL.replace("    places: [A, B]\n", "    places: [A, B]\n    material: Gray iron\n")
    assert list(measuring_gaps(parse_sheet(told, file="s.yaml").sheet)) == []
