"""The drive as a picture: to scale, legible on a phone, with words for who does not see it."""

from dataclasses import replace
from itertools import pairwise
from math import dist, hypot
from xml.etree import ElementTree

import pytest

from gudgeon.bench.pictures.drive import drive_picture
from gudgeon.paper.svg import SIZE, WIDTH
from gudgeon.paper.svg_drive import drive_svg
from tests.unit.bench.timing.test_drive import CHAIN, GEARS, VEE, WITHOUT_TENSIONER, model

SVG = "{http://www.w3.org/2000/svg}"
DRIVES = {
    "demo": lambda: model(),
    "vee": lambda: model(drive=VEE),
    "chain": lambda: model(drive=CHAIN),
    "gears": lambda: model(drive=GEARS),
    "no tensioner": lambda: model(WITHOUT_TENSIONER),
}


def length(line: tuple[tuple[float, float], ...]) -> float:
    return sum(dist(first, second) for first, second in pairwise(line))


def test_the_lines_are_as_long_as_the_belt() -> None:
    """HAND: 142 teeth of 8 mm; chords 4° apart are shorter than their arcs by (0.0349)² / 6 = 2e-4 at most."""
    found = drive_picture(model())
    assert length(found.belt) == pytest.approx(142 * 8, rel=3e-4)
    assert found.belt[0] == found.belt[-1]
    assert [one.text for one in found.counts] == ["15 teeth", "67 teeth", "60 teeth"]
    assert [length(one.line) / 8 for one in found.counts] == pytest.approx([15, 67, 60], rel=3e-4)
    last = found.tight[-1]
    assert hypot(*last) == pytest.approx(
        8 * 20 / (2 * 3.14159265), rel=1e-6
    )  # on the crankshaft's pitch circle
    assert len(found.arrows) == 5  # the span from water pump to idler is short


def test_the_tight_side_is_drawn_even_where_the_tensioner_has_no_place() -> None:
    whole, part = drive_picture(model()), drive_picture(model(WITHOUT_TENSIONER))
    assert part.tight == whole.tight
    assert part.belt == ()
    assert part.not_drawn == (
        "Tensioner roller is not drawn: no place (x and y)",
        "The belt is not drawn: its path or a place is not known.",
    )


def test_words_tell_the_whole_picture() -> None:
    said = drive_picture(model()).words
    for part in (
        "The timing belt, seen from the timing end. It runs clockwise over Crankshaft sprocket, Tensioner roller,",
        "Mark of Crankshaft sprocket at 180° of the clock, 0° is up.",
        "Exhaust camshaft sprocket to Crankshaft sprocket, down the tight side: 67 teeth.",
        "The belt is pulled tight from Exhaust camshaft sprocket to Crankshaft sprocket.",
    ):
        assert part in said
    assert drive_picture(model(drive=GEARS)).words.endswith(
        "Gears are not drawn: they mesh, and no path leads over them."
    )


def test_a_count_that_the_path_does_not_make_tells_both() -> None:
    found = drive_picture(model(("teeth: 67,", "teeth: 68,")))
    assert found.counts[1].said == (
        "Exhaust camshaft sprocket to Crankshaft sprocket, down the tight side: 68 teeth; along the path 67.0"
    )


@pytest.mark.parametrize("name", DRIVES)
def test_letters_are_legible_on_a_phone_and_stay_on_the_drawing(name: str) -> None:
    drawn = ElementTree.fromstring(drive_svg(drive_picture(DRIVES[name]())))
    height = float(drawn.attrib["height"])
    texts = drawn.findall(f".//{SVG}text")
    assert len(texts) > 3
    for one in texts:
        assert float(one.attrib["font-size"]) >= SIZE
        assert 0 < float(one.attrib["x"]) < WIDTH
        assert 0 < float(one.attrib["y"]) < height
    for one in drawn.findall(f".//{SVG}circle"):
        x, radius = float(one.attrib["cx"]), float(one.attrib["r"])
        assert radius <= x <= WIDTH - radius


def test_the_drawing_keeps_the_proportions_of_the_drive() -> None:
    """HAND: the camshafts are 120 mm apart, and 345.5 mm above the crankshaft; 40 teeth make twice the circle of 20."""
    drawn = ElementTree.fromstring(drive_svg(drive_picture(model())))
    rings = [
        (float(one.attrib["cx"]), float(one.attrib["cy"]), float(one.attrib["r"]))
        for one in drawn.findall(f".//{SVG}circle")
        if one.attrib.get("stroke-dasharray") == "3 2"
    ]
    crank, intake, exhaust, _ = rings
    scale = (exhaust[0] - intake[0]) / 120
    assert (crank[1] - intake[1]) / scale == pytest.approx(345.5, abs=0.1)
    assert intake[2] / crank[2] == pytest.approx(2, abs=0.01)
    assert crank[2] / scale == pytest.approx(25.46, abs=0.05)


def test_boxes_of_counts_lie_apart_from_each_other_and_from_the_numbers() -> None:
    drawn = ElementTree.fromstring(drive_svg(drive_picture(model())))
    boxes = [
        (float(one.attrib["x"]) + float(one.attrib["width"]) / 2, float(one.attrib["y"]) + 11)
        for one in drawn.findall(f".//{SVG}rect")
        if one.attrib.get("height") == "22"
    ]
    badges = [
        (float(one.attrib["cx"]), float(one.attrib["cy"]))
        for one in drawn.findall(f".//{SVG}circle")
        if one.attrib["r"] == "11"
    ]
    assert len(boxes) == 3
    for place, box in enumerate(boxes):
        assert all(dist(box, other) > 26 for other in (*boxes[:place], *badges))


def test_a_name_is_text_and_never_markup() -> None:
    found = drive_picture(model())
    wheels = tuple(replace(one, name="<b>&", said="\x01") for one in found.wheels)
    drawn = drive_svg(replace(found, wheels=wheels))
    assert "&lt;b&gt;&amp;" in drawn
    assert "\x01" not in drawn
