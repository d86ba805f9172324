"""Splitting a template: counts worked by hand, and what must be so wherever the holes stand."""

import re
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc.template.tiling import CLEAR_MM, MARK_MM, Hole, Room, lay
from gudgeon.calc.template.tiling_errors import HoleOverPage, HoleTooLarge, NothingToLay, TooManyPages

A4 = Room(upright=(174, 224), lying=(261, 137))


@pytest.mark.parametrize(
    ("span", "columns", "rows", "lying"),
    [
        ((170, 220), 1, 1, False),
        ((250, 130), 1, 1, True),
        ((408, 132), 2, 1, True),  # HAND: 2 · 261 − 24 = 498; upright 3 · 174 − 2 · 24 = 474
        ((324, 424), 2, 2, False),  # HAND: 2 · 174 − 24 = 324, 2 · 224 − 24 = 424: to the millimeter
        ((325, 424), 3, 2, False),  # HAND: lying 2 · ⌈(424 − 24) / 113⌉ = 8
    ],
)
def test_as_few_pages_as_hold_it(span: tuple[float, float], columns: int, rows: int, lying: bool) -> None:
    laid = lay(A4, low_mm=(-5, 10), high_mm=(span[0] - 5, span[1] + 10), holes=[], overlap_mm=24)
    assert (laid.columns, laid.rows, laid.lying) == (columns, rows, lying)
    assert len(laid.windows) == columns * rows


spots = st.tuples(st.floats(0, 420), st.floats(0, 460))


@given(st.lists(st.tuples(spots, st.floats(1.5, 10)), min_size=1, max_size=14))
def test_every_hole_stands_whole_on_a_page_and_marks_lie_beside_the_holes(
    drawn: list[tuple[tuple[float, float], float]],
) -> None:
    holes = [Hole(x, y, radius) for (x, y), radius in drawn]
    low = tuple(min((one.x_mm, one.y_mm)[axis] - one.radius_mm for one in holes) - 2 for axis in (0, 1))
    high = tuple(max((one.x_mm, one.y_mm)[axis] + one.radius_mm for one in holes) + 2 for axis in (0, 1))
    laid = lay(A4, low_mm=(low[0], low[1]), high_mm=(high[0], high[1]), holes=holes, overlap_mm=24)
    assert all(any(page.holds(hole) for page in laid.windows) for hole in holes)
    assert min(one.left_mm for one in laid.windows) <= low[0] + 1e-9
    assert max(one.top_mm for one in laid.windows) >= high[1] - 1e-9
    for first, second in zip(laid.windows, laid.windows[1:], strict=False):
        if first.row == second.row:
            assert first.right_mm - second.left_mm >= 24 - 1e-9
            assert (first.top_mm, first.bottom_mm) == (second.top_mm, second.bottom_mm)
    for mark in laid.marks:
        for page in (laid.windows[at] for at in mark.pages):
            assert page.holds(Hole(mark.x_mm, mark.y_mm, MARK_MM)), "a mark lies whole on both"
        assert all(
            hypot(mark.x_mm - hole.x_mm, mark.y_mm - hole.y_mm) > hole.radius_mm + MARK_MM + CLEAR_MM
            for hole in holes
        )


def test_neighbors_share_two_marks_far_apart_that_no_third_page_covers() -> None:
    laid = lay(A4, low_mm=(0, 0), high_mm=(300, 400), holes=[Hole(150, 200, 6)], overlap_mm=24)
    pairs = {mark.pages for mark in laid.marks}
    assert pairs == {(0, 1), (0, 2), (1, 3), (2, 3)}
    assert [mark.letter for mark in laid.marks] == list("ABCDEFGH")
    for pair in pairs:
        one, other = (mark for mark in laid.marks if mark.pages == pair)
        assert hypot(one.x_mm - other.x_mm, one.y_mm - other.y_mm) > 80
        thirds = [page for at, page in enumerate(laid.windows) if at not in pair]
        for mark in (one, other):
            assert not any(page.touches(Hole(mark.x_mm, mark.y_mm, MARK_MM)) for page in thirds)


def test_what_is_left_over_is_shared_so_that_no_edge_cuts_a_hole() -> None:
    """HAND: 300 mm on two pages of 174 leave 24 mm to share; a hole at the edge of an even share is kept whole."""
    for spot in range(120, 181, 3):
        laid = lay(A4, low_mm=(0, 0), high_mm=(300, 100), holes=[Hole(spot, 50, 5)], overlap_mm=24)
        assert laid.cut_holes == 0, spot


@pytest.mark.parametrize(
    ("high", "hole", "error", "words"),
    [
        ((0.0, 10.0), 3.0, NothingToLay, "The template has no extent"),
        (
            (100.0, 100.0),
            11.0,
            HoleTooLarge,
            "A hole of 22.0 mm is too large for pages that overlap by 24.0 mm",
        ),
        ((3000.0, 3000.0), 3.0, TooManyPages, "pages; at most 24 are set, as every joint adds its error."),
    ],
)
def test_what_cannot_be_split_is_refused(
    high: tuple[float, float], hole: float, error: type[Exception], words: str
) -> None:
    with pytest.raises(error, match=re.escape(words)):
        lay(A4, low_mm=(0, 0), high_mm=high, holes=[Hole(1, 1, hole)], overlap_mm=24)


def test_a_hole_that_no_page_holds_whole_is_refused() -> None:
    """HAND: of the least side of 137 mm two pages show the same over half at most; 1.5 mm stay white on both sides."""
    with pytest.raises(
        HoleOverPage, match=re.escape("A hole of 279.4 mm is too large for a page: up to 65.5 mm")
    ):
        lay(A4, low_mm=(-140, -140), high_mm=(440, 140), holes=[Hole(0, 0, 139.7)], overlap_mm=283)
    most = Hole(50, 50, 65.5 / 2)
    whole = lay(A4, low_mm=(0, 0), high_mm=(300, 100), holes=[most], overlap_mm=68.5)
    assert any(one.holds(most) for one in whole.windows)
