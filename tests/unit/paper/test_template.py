"""The card template, measured on the paper: true scale, sheets that register, nothing over anything."""

import re
import subprocess
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations, pairwise
from math import hypot
from pathlib import Path

import pytest

from gudgeon.bench.template.template import Template, TemplateHole, template
from gudgeon.calc.template.tiling import Hole, Laid
from gudgeon.paper.errors import SizeUnknown
from gudgeon.paper.template import EDGE_MM, HEAD_MM, MEASURE, laid_out, template_data, template_pdf
from tests.unit.paper import cards
from tests.unit.paper.measured_paper import Paper, rendered
from tests.unit.paper.reading import least_white_mm, numbered, pages, program, squashed

LEFT_MM, TOP_MM = 13.0, 16.0
"""The margins of every print: common.typ."""
NEAR_MM = 0.1
"""The user's own limit: check line and centers of holes at 600 dpi."""
SHEETS = {"a4": 2, "letter": 2}


def holes(*spots: tuple[float, float], diameter: float = 9.0) -> tuple[TemplateHole, ...]:
    return tuple(
        TemplateHole(str(at), x, y, diameter, "M8x1.25", "45 mm", "", "ISO 273:1979")
        for at, (x, y) in enumerate(spots, 1)
    )


@pytest.fixture(scope="module")
def answer(tmp_path_factory: pytest.TempPathFactory) -> Template:
    """A template out of a book, whose holes the tests replace."""
    bench = cards.job(tmp_path_factory.mktemp("job"), placed=True).bench()
    return template(bench, "many")


LARGE = holes(
    (5, 5), (140, 20), (285, 8), (30, 190), (151.5, 183.2), (280, 170.7), (12.3, 361), (155, 350), (290, 364)
)
"""So large that it takes two sheets by two on either paper; the middle ones stand where sheets overlap."""


def place_on(laid: Laid, sheet: int, x: float, y: float) -> tuple[float, float]:
    """Where to look for a place of the part on a printed sheet [mm]; what is found there is measured."""
    window = laid.windows[sheet]
    return (
        LEFT_MM + EDGE_MM + x - window.left_mm,
        TOP_MM + HEAD_MM + EDGE_MM + window.top_mm - y,
    )


def measured(
    paper: Paper, laid: Laid, sheet: int, of: Sequence[TemplateHole]
) -> dict[str, tuple[float, float]]:
    """Every hole that stands whole on a sheet: its middle as measured, right and up."""
    found = {}
    for one in of:
        x, y = place_on(laid, sheet, one.x_mm, one.y_mm)
        cx, cy, diameter = paper.ring(x, y, one.diameter_mm / 2)
        assert diameter == pytest.approx(one.diameter_mm, abs=NEAR_MM)
        found[one.name] = (cx, -cy)
    return found


def check_line(paper: Paper) -> float:
    """How long the line of 100 mm is."""
    ends = paper.strokes((LEFT_MM - 2, TOP_MM, LEFT_MM + 103, TOP_MM + 6.5), longer_mm=4.0)
    assert len(ends) == 2
    return ends[1] - ends[0]


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_true_scale_on_paper_and_sheets_that_register(answer: Template, tmp_path: Path, size: str) -> None:
    made = replace(answer, holes=LARGE, outline=())
    laid = laid_out(made, size=size)
    assert (laid.columns, laid.rows) == (2, 2)
    papers = rendered(template_pdf(made, size=size), tmp_path, first=2, last=5)
    assert len(papers) == 4
    whole: dict[str, list[int]] = {}
    zeros = []
    for sheet, paper in enumerate(papers):
        assert check_line(paper) == pytest.approx(100.0, abs=NEAR_MM)
        of = [one for one in LARGE if laid.windows[sheet].holds(_hole(one))]
        found = measured(paper, laid, sheet, of)
        for one, other in combinations(of, 2):
            here, there = found[one.name], found[other.name]
            assert there[0] - here[0] == pytest.approx(other.x_mm - one.x_mm, abs=NEAR_MM)
            assert there[1] - here[1] == pytest.approx(other.y_mm - one.y_mm, abs=NEAR_MM)
        for one in of:
            whole.setdefault(one.name, []).append(sheet)
        # The zero of the part as the holes of this sheet show it.
        zeros.append(
            tuple(
                sum(found[one.name][axis] - (one.x_mm, one.y_mm)[axis] for one in of) / len(of)
                for axis in (0, 1)
            )
        )
    assert set(whole) == {one.name for one in LARGE}, "each hole stands whole on a sheet"
    assert len(laid.marks) == 8
    for mark in laid.marks:
        seen = []
        for sheet in mark.pages:
            x, y = papers[sheet].cross(*place_on(laid, sheet, mark.x_mm, mark.y_mm), reach=2.0)
            seen.append((x - zeros[sheet][0], -y - zeros[sheet][1]))
        assert hypot(seen[0][0] - seen[1][0], seen[0][1] - seen[1][1]) <= NEAR_MM, mark.letter


def _hole(one: TemplateHole) -> Hole:
    return Hole(one.x_mm, one.y_mm, one.diameter_mm / 2)


def test_on_a_lying_page_it_is_true_as_well(answer: Template, tmp_path: Path) -> None:
    made = replace(answer, holes=holes((0, 0), (231.4, 3.3), (120, 100), diameter=6.6), outline=())
    laid = laid_out(made, size="a4")
    assert (laid.lying, len(laid.windows)) == (True, 1)
    pdf = template_pdf(made, size="a4")
    (paper,) = rendered(pdf, tmp_path, first=2, last=2)
    found = measured(paper, laid, 0, made.holes)
    assert found["2"][0] - found["1"][0] == pytest.approx(231.4, abs=NEAR_MM)
    assert found["3"][1] - found["2"][1] == pytest.approx(96.7, abs=NEAR_MM)
    assert check_line(paper) == pytest.approx(100.0, abs=NEAR_MM)
    assert least_white_mm(pdf, tmp_path) >= 10 - 25.4 / 72
    assert numbered(pdf) == [(1, 2), (2, 2)]


def test_every_page_says_measure_this_first_and_which_sheet_it_is(answer: Template) -> None:
    made = replace(answer, holes=LARGE, outline=())
    read = pages(template_pdf(made, size="letter"))
    assert len(read) == 5
    assert all(squashed(MEASURE) in squashed(page) for page in read)
    assert [re.search(r"Sheet \d of 4: \w+, \w+", page)[0] for page in read[1:]] == [  # type: ignore[index]
        "Sheet 1 of 4: left, upper", "Sheet 2 of 4: right, upper",
        "Sheet 3 of 4: left, lower", "Sheet 4 of 4: right, lower",
    ]  # fmt: skip
    assert "Push a pin through the middle of a mark" in " ".join(read[0].split())
    assert "M8x1.25" in read[0]


def test_seen_from_the_other_side_left_and_right_are_exchanged(tmp_path: Path) -> None:
    bench = cards.job(tmp_path, placed=True).bench()
    straight = template_data(template(bench, "many"), size="a4")
    mirrored = template_data(template(bench, "many", mirrored=True), size="a4")
    wide = straight["sheets"][0]["width"]
    assert [one["at"] for one in mirrored["sheets"][0]["holes"]] == [
        [pytest.approx(wide - one["at"][0], abs=1e-3), one["at"][1]] for one in straight["sheets"][0]["holes"]
    ]
    assert (straight["sides"]["left"], mirrored["sides"]["right"]) == ("timing end", "timing end")
    assert mirrored["sides"]["left"] == ""
    assert straight["state"] == "Seen from: above, timing end at the left"
    assert mirrored["state"] == "Mirrored: seen from the side opposite to “above”, timing end at the right"


@pytest.mark.parametrize(
    ("seen", "sides", "look"),
    [
        ("", {}, "Nothing says from which side this is seen"),
        ("above", {}, "Nothing says at which edge the timing end lies"),
        ("timing end", {}, ""),
        (
            "above, timing end at left; intake on the right side",
            {"left": "timing end", "right": "intake"},
            "",
        ),
    ],
)
def test_what_nobody_said_of_the_view_is_to_be_written_by_hand(
    answer: Template, seen: str, sides: dict[str, str], look: str
) -> None:
    made = template_data(replace(answer, viewed_from=seen), size="a4")
    assert {side: words for side, words in made["sides"].items() if words} == sides
    assert [one.startswith(look) for one in made["remarks"]] == ([True] if look else [])


def boxes(pdf: bytes, page: int) -> list[tuple[str, float, float, float, float]]:
    """Every word of a page with its rectangle [mm]: left, top, right, bottom."""
    done = subprocess.run(
        [program("pdftotext"), "-bbox", "-f", str(page), "-l", str(page), "-", "-"],
        input=pdf, capture_output=True, check=True,
    )  # fmt: skip
    found = re.findall(
        r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>',
        done.stdout.decode("utf-8"),
    )
    rectangles = []
    for *ends, word in found:
        left, top, right, bottom = (float(one) * 25.4 / 72 for one in ends)
        white = 0.22 * (bottom - top)  # above and below the letters: the box is as high as the line
        rectangles.append((word, left, top + white, right, bottom - white))
    return rectangles


def test_no_words_stand_over_words_or_holes(answer: Template) -> None:
    """A crowded cover: 30 screws 17 mm apart, two of them nearly touching, on one sheet."""
    spots = [(17.0 * column, 21.0 * row) for row in range(6) for column in range(5)]
    made = replace(answer, holes=holes(*spots, (78.5, 9.5), diameter=6.6), outline=())
    laid = laid_out(made, size="a4")
    assert len(laid.windows) == 1
    pdf = template_pdf(made, size="a4")
    words = boxes(pdf, len(numbered(pdf)))
    assert {one.name for one in made.holes} <= {word for word, *_ in words}
    for one, other in combinations(words, 2):
        over = min(one[3], other[3]) - max(one[1], other[1]), min(one[4], other[4]) - max(one[2], other[2])
        assert min(over) <= 0.05, (one, other)
    for word, left, top, right, bottom in words:
        for hole in made.holes:
            x, y = place_on(laid, 0, hole.x_mm, hole.y_mm)
            near = min(max(x, left), right), min(max(y, top), bottom)
            assert hypot(near[0] - x, near[1] - y) > hole.diameter_mm / 2, (word, hole.name)


def test_the_line_to_measure_stands_on_the_pages_of_a_long_list_too(answer: Template) -> None:
    spots = [(20.0 * column, 12.0 * row) for row in range(12) for column in range(8)]
    pdf = template_pdf(replace(answer, holes=holes(*spots, diameter=4.5), outline=()), size="letter")
    read = pages(pdf)
    assert len(read) == 4  # the first page, two of the list, one sheet
    assert all(page.count("Measure this first") == 1 for page in read)


def test_words_of_each_hole_stand_once(answer: Template) -> None:
    data = template_data(replace(answer, holes=LARGE, outline=()), size="a4")
    named = [label["name"] for sheet in data["sheets"] for label in sheet["labels"]]
    assert sorted(named) == sorted(one.name for one in LARGE)


def test_a_size_that_no_page_is_made_for_is_refused(answer: Template) -> None:
    with pytest.raises(SizeUnknown):
        template_pdf(answer, size="a3")


def test_a_long_name_leaves_room_for_the_other_columns(answer: Template) -> None:
    long = tuple(
        replace(one, name=f"{one.name} flywheel end exhaust side upper row " * 4, where="upper row")
        for one in holes((0, 0), (60, 30))
    )
    pdf = template_pdf(replace(answer, holes=long, outline=()), size="a4")
    found = {
        word: left
        for word, left, *_ in boxes(pdf, 1)
        if word in ("Number", "Hole", "Thread", "Length", "Where")
    }
    columns = sorted(found.values())
    assert len(columns) == 5
    assert all(right - left > 8 for left, right in pairwise(columns))
