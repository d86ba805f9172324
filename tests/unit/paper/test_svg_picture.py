"""Pictures as SVG: well-formed, with words for who does not see them, legible on a phone, and true to the answer."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from gudgeon.bench.pictures.bore import Across, Bore, BorePicture, Section
from gudgeon.bench.pictures.face import DrawnLine, FacePicture, Ring
from gudgeon.bench.pictures.of import Picture
from gudgeon.bench.pictures.relief import relief
from gudgeon.bench.pictures.spots import Spot, SpotPicture, SpotRow
from gudgeon.calc.metrology.contour import Corner
from gudgeon.paper.svg import ACCENT, SIZE, WIDTH, wrapped
from gudgeon.paper.svg_picture import picture_svg

SVG = "{http://www.w3.org/2000/svg}"
FACE = FacePicture(
    item="head_face",
    name="Head face <flat & true>",
    part="cylinder head",
    face="Head, lower face",
    viewed_from="below, pad at the left",
    limits="wear limit max 0.05 mm (0.0020 in)",
    outline=((0.0, 0.0), (300.0, 0.0), (300.0, 120.0), (0.0, 120.0)),
    openings=(Ring("chamber", 150.0, 60.0, 80.0),),
    bolts=(Ring("1", 20.0, 100.0, None), Ring("2", 280.0, 100.0, None)),
    lines=(
        DrawnLine(1, "along", (10.0, 10.0), (290.0, 10.0), "0.08–0.09 mm", "outside"),
        DrawnLine(2, "across", (10.0, 10.0), (10.0, 110.0), "under 0.03 mm", "inside"),
        DrawnLine(3, "diagonal", (10.0, 10.0), (290.0, 110.0), "0.04–0.05 mm", "in doubt"),
        DrawnLine(4, "other diagonal", None, None, "", "not measured"),
    ),
    relief=None,
    note="",
    words="what the picture says",
)
GRID: list[Corner] = [(x, y, 0.00001 * x * x / 100) for x in range(0, 310, 10) for y in range(0, 130, 10)]
RELIEF = replace(
    FACE, lines=(), relief=relief(GRID, plane=(0.0, 0.0, 0.004), plane_words="a plane", outline=FACE.outline)
)
BORE = BorePicture(
    item="bore", name="Bore", part="block", nominal_mm=80.0, nominal="middle of the new range, 80 mm",
    new_mm=(79.99, 80.01), new="new range 79.99–80.01 mm", limits_mm=(80.12,), limits="wear limit max 80.12 mm",
    exaggerated=200, directions=("across", "along"), angles="across from left to right, along up and down",
    bores=(
        Bore("cylinder 1", (
            Section("top", (
                Across("across", 0.0, 80.06, "80.06 mm", "inside"), Across("along", 90.0, 80.13, "80.13 mm", "outside"),
            ), ()),
            Section("bottom", (Across("across", 0.0, 80.0, "80.00 mm", "in doubt"),), ("along",)),
        )),
    ),
    not_drawn=(), words="a bore in words",
)  # fmt: skip
DEEP = replace(BORE, bores=(
    Bore("cylinder 1", (
        Section("top", (Across("across", 0.0, 80.06, "80.06 mm", "inside"),), ("along",), 10.0, "10 mm"),
        Section("middle", (Across("across", 0.0, 80.05, "80.05–80.09 mm", "in doubt", 80.09),), ("along",), 20.0, "20 mm"),
        Section("bottom", (Across("across", 0.0, 80.02, "80.02 mm", "inside"),), ("along",), 110.0, "110 mm"),
    )),
))  # fmt: skip
"""Heights that are not evenly deep, and a reading that is known between two ends."""
STATES = ("outside", "in doubt", "inside", "not measured", "no limit given", "inside")
SPOTS = SpotPicture(
    "stem", "Valve stem", "Valves", "at least 5.44 mm (0.2142 in)",
    (
        SpotRow("intake", tuple(Spot(f"intake {at}", f"intake {at}", "5.47 mm (0.2154 in)", one)
            for at, one in enumerate(STATES, 1))),
        SpotRow("exhaust", (Spot("exhaust 1", "exhaust 1", "", "not measured"),)),
    ),
    "what the places say",
)  # fmt: skip
SHORT = replace(SPOTS, rows=tuple(SpotRow(f"cylinder {at}", SPOTS.rows[0].spots[:2]) for at in range(1, 5)))
"""Four cylinders with two places each: two of them stand side by side."""
PICTURES: dict[str, Picture] = {
    "lines": FACE, "relief": RELIEF, "bore": BORE, "deep": DEEP, "spots": SPOTS, "short": SHORT,
}  # fmt: skip


def elements(picture: Picture, name: str) -> list[ElementTree.Element]:
    return ElementTree.fromstring(picture_svg(picture)).findall(f".//{SVG}{name}")


def said(picture: Picture) -> str:
    return " ".join(one.text or "" for one in elements(picture, "text"))


@pytest.mark.parametrize("name", PICTURES)
def test_it_brings_its_words_and_runs_nothing(name: str) -> None:
    text = picture_svg(PICTURES[name])
    root = ElementTree.fromstring(text)
    assert root.get("role") == "img"
    assert [root[0].tag, root[1].tag] == [f"{SVG}title", f"{SVG}desc"]
    assert root[1].text == PICTURES[name].words
    assert re.search(r"<style|<script|style=|href|\son\w+=", text) is None


@pytest.mark.parametrize("name", PICTURES)
def test_letters_are_legible_on_a_phone_and_stay_on_the_drawing(name: str) -> None:
    # What the pages ask of letters: 12 px on a phone that is 360 px wide; a drawing is 360 units wide
    root = ElementTree.fromstring(picture_svg(PICTURES[name]))
    assert root.get("viewBox", "").split()[2] == f"{WIDTH:.0f}"
    height = float(root.get("height", "0"))
    for one in root.findall(f".//{SVG}text"):
        assert float(one.get("font-size", "0")) >= 12, one.text
        assert 0 <= float(one.get("x", "-1")) <= WIDTH, one.text
        assert 0 < float(one.get("y", "-1")) <= height, one.text


def test_a_name_is_text_and_never_markup() -> None:
    assert "Head face <flat & true>" in said(FACE)
    odd = replace(FACE, name="bell \x07 & <script>alert(1)</script>")
    assert elements(odd, "script") == []
    assert "bell  & <script>alert(1)</script>" in said(odd)


def test_each_verdict_has_a_stroke_and_a_mark_of_its_own_and_stands_in_words() -> None:
    on_face = [one for one in elements(FACE, "path") if one.get("fill") == "none"]
    strokes = {
        (one.get("stroke-width"), one.get("stroke-dasharray"))
        for one in on_face
        if re.fullmatch(r"M[\d. ]+L[\d. ]+", one.get("d", ""))
    }
    assert len(strokes) == 3, "three lines that are drawn, three strokes that differ without their color"
    words = said(FACE)
    for line in ("0.08–0.09 mm: outside", "under 0.03 mm: inside", "0.04–0.05 mm: in doubt", "not measured"):
        assert line in words
    assert "not drawn: the sheet does not state its ends" in words


def test_places_on_the_drawing_keep_their_proportions() -> None:
    # HAND: both bolts lie 260 mm apart on a face 300 mm wide, at one height; the chamber of 80 mm has a radius of 40
    outline = next(one.get("d", "") for one in elements(FACE, "path") if one.get("d", "").endswith("Z"))
    corners = [float(number) for number in re.findall(r"[\d.]+", outline)]
    scale = (max(corners[::2]) - min(corners[::2])) / 300
    circles = elements(FACE, "circle")
    bolts = [one for one in circles if one.get("r") == "3.5"]
    assert float(bolts[1].get("cx", "0")) - float(bolts[0].get("cx", "0")) == pytest.approx(
        260 * scale, abs=0.02
    )
    assert bolts[0].get("cy") == bolts[1].get("cy")
    chamber = next(one for one in circles if one.get("r") not in ("3.5", "11"))
    assert float(chamber.get("r", "0")) == pytest.approx(40 * scale, abs=0.02)
    # HAND: y is upward: the chamber in the middle lies below the bolts on the page
    assert float(chamber.get("cy", "0")) > float(bolts[0].get("cy", "0"))


def test_a_relief_has_a_band_for_each_step_and_numbers_on_its_lines() -> None:
    assert RELIEF.relief is not None
    bands = [one for one in elements(RELIEF, "path") if one.get("fill-opacity") is not None]
    assert len(bands) == len(RELIEF.relief.bands)
    shades = [float(one.get("fill-opacity", "0")) for one in bands]
    assert shades == sorted(shades), "the higher, the more ink"
    words = said(RELIEF)
    # HAND: from −4 to 9 − 4 = 5 µm: steps of 2 µm, lines at −2, 0, 2 and 4
    assert [line.height for line in RELIEF.relief.lines] == [-2, 0, 2, 4]
    assert {"-2", "0", "+2", "+4"} <= set(words.split())
    assert "highest: +5 µm" in words
    assert "lowest: -4 µm" in words


def test_a_bore_is_drawn_off_its_nominal_circle_by_the_stated_times() -> None:
    nominal = next(one for one in elements(BORE, "circle") if one.get("fill") == "none")
    limit = next(one for one in elements(BORE, "circle") if one.get("stroke-dasharray"))
    # HAND: the limit is 0.12 of 80 mm larger, 0.15 %; drawn 200 times that, 30 %
    assert float(limit.get("r", "0")) == pytest.approx(1.3 * float(nominal.get("r", "0")), abs=0.01)
    words = said(BORE)
    assert "Differences are drawn 200 times too large" in words
    assert "along: outside" in words
    assert "not read: along" in words


def numbers(one: ElementTree.Element) -> list[float]:
    return [float(number) for number in re.findall(r"-?[\d.]+", one.get("d", ""))]


def test_heights_lie_as_deep_in_the_strip_as_the_sheet_says() -> None:
    """HAND: 10, 20 and 110 mm: the second lies a tenth of the way from the first to the third."""
    link = next(one for one in elements(DEEP, "path") if len(numbers(one)) == 6 and one.get("fill") == "none")
    first, second, third = numbers(link)[1::2]
    assert second - first == pytest.approx((third - first) / 10, abs=0.02)
    assert "middle, at 20 mm" in said(DEEP)


def test_a_reading_known_between_two_ends_is_a_bar_as_long_as_what_is_not_known() -> None:
    """HAND: 0.04 mm of 80, drawn 200 times too large, in a strip where the nominal size is 72 wide: 7.2."""
    bars = [numbers(one) for one in elements(DEEP, "path") if one.get("stroke-width") == "3.2"]
    level = [abs(x2 - x1) for x1, y1, x2, y2 in bars if y1 == y2]
    # The first is the one of the legend, then that of the strip; across the section each end moves half as far.
    assert level[1:] == [
        pytest.approx(7.2, abs=0.02),
        pytest.approx(3.6, abs=0.02),
        pytest.approx(3.6, abs=0.02),
    ]
    assert "known only from one end of the bar to the other" in said(DEEP)
    assert "known only" not in said(BORE)


def test_a_face_that_the_sheet_does_not_place_is_told_in_words() -> None:
    bare = replace(FACE, outline=(), openings=(), bolts=(), lines=(FACE.lines[3],))
    assert "The sheet states no place on this face" in said(bare)


def test_long_words_are_broken_within_the_drawing() -> None:
    lines = wrapped("a place with a name that is longer than any drawing is wide, " * 3, width=200)
    assert len(lines) > 3
    assert all(len(line) * 0.56 * SIZE <= 200 for line in lines)


def test_every_place_has_its_reading_its_word_and_a_mark_of_its_own_shape() -> None:
    words = said(SPOTS)
    for at, state in enumerate(STATES, 1):
        assert f"intake {at} 5.47 mm (0.2154 in) {state}" in words
    badges = [one for one in elements(SPOTS, "rect") if one.get("fill") == ACCENT]
    assert len(badges) == 1, "one square: what is outside"
    rings = [one for one in elements(SPOTS, "circle") if one.get("stroke-dasharray") == "2 3"]
    assert len(rings) == 2, "a dotted ring for each that was not read"


def test_short_rows_stand_two_by_two_as_in_the_engine() -> None:
    titles = {
        one.text: (float(one.get("x", "0")), float(one.get("y", "0")))
        for one in elements(SHORT, "text") if (one.text or "").startswith("cylinder")
    }  # fmt: skip
    assert titles["cylinder 1"][1] == titles["cylinder 2"][1] < titles["cylinder 3"][1]
    assert titles["cylinder 1"][0] < titles["cylinder 2"][0]
    assert float(elements(SHORT, "rect")[0].get("height", "0")) < 400
