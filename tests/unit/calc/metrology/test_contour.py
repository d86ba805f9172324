"""Level lines of surfaces whose lines can be drawn by hand: planes, and a cone that stands on its base."""

import math

import pytest

from gudgeon.calc.metrology.contour import Contour, Corner, Spot, contour, usual_side
from gudgeon.calc.metrology.contour_errors import LevelsUnordered, NotASurface

PLANE: list[Corner] = [(x, y, x + 2 * y) for x in range(0, 60, 10) for y in range(0, 40, 10)]
"""Height x + 2y over 50 by 30 mm."""

SIDES = 12
CONE: list[Corner] = [
    (0.0, 0.0, 30.0),
    *((60 * math.cos(2 * math.pi * n / SIDES), 60 * math.sin(2 * math.pi * n / SIDES), 0.0) for n in range(SIDES)),
]  # fmt: skip
"""30 high in the middle, 0 on a ring of 60 mm: a pyramid of twelve sides."""


def area(piece: tuple[Spot, ...]) -> float:
    return (
        sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(piece, (*piece[1:], piece[0]), strict=True)) / 2
    )


def areas(found: Contour) -> list[float]:
    return [sum(map(area, band.pieces)) for band in found.bands]


def test_a_level_of_a_plane_is_the_straight_line_on_which_the_plane_has_that_height() -> None:
    # HAND: x + 2y = 35 leaves the face at (35, 0) and at (0, 17.5)
    (line,) = contour(PLANE, levels=[35]).lines
    (piece,) = line.pieces
    assert all(math.isclose(x + 2 * y, 35) for x, y in piece)
    ends = sorted((piece[0], piece[-1]))
    assert ends == [pytest.approx((0, 17.5)), pytest.approx((35, 0))]


def test_the_bands_of_a_plane_share_the_face_as_the_lines_cut_it() -> None:
    # HAND: below 20 a triangle of 20 by 10; above 90 one of 20 by 10 at the far corner (x + 2y = 110 there);
    # 50 by 30 in all
    assert areas(contour(PLANE, levels=[20, 90])) == pytest.approx([100, 1300, 100])


def test_a_level_of_a_pyramid_is_its_base_made_smaller() -> None:
    # HAND: at 10 of 30 two thirds of the height are left, so the corners lie at two thirds of 60 mm
    (line,) = contour(CONE, levels=[10]).lines
    (piece,) = line.pieces
    assert piece[0] == piece[-1], "it closes"
    assert len(piece) == SIDES + 1
    assert [math.hypot(*spot) for spot in piece] == pytest.approx([40] * (SIDES + 1))


def test_the_bands_of_a_pyramid_shrink_with_the_square_of_what_is_left() -> None:
    # HAND: a polygon of n sides has the area n r² sin(2π/n) / 2; above 10 it has r = 40, above 20 r = 20
    def polygon(radius: float) -> float:
        return SIDES * radius**2 * math.sin(2 * math.pi / SIDES) / 2

    expected = [polygon(60) - polygon(40), polygon(40) - polygon(20), polygon(20)]
    assert areas(contour(CONE, levels=[10, 20])) == pytest.approx(expected)


def test_two_hills_have_two_lines_of_one_level() -> None:
    two: list[Corner] = [*CONE, *((x + 200, y, z) for x, y, z in CONE)]
    (line,) = contour(two, levels=[15], longest_mm=70).lines
    assert [piece[0] == piece[-1] for piece in line.pieces] == [True, True]


def test_nothing_is_drawn_where_nothing_was_read() -> None:
    # HAND: 30 mm squares have a diagonal of 42.4 mm; between the two patches the sides are 100 mm and more
    patches: list[Corner] = [(x + far, y, 0) for far in (0, 130) for x in (0, 30) for y in (0, 30)]
    found = contour(patches, levels=[], longest_mm=50)
    assert areas(found) == pytest.approx([2 * 900])
    assert (found.triangles, found.left_out) == (4, 2)


def test_a_notch_is_left_out() -> None:
    grid: list[Corner] = [(x, y, 0) for x in range(0, 110, 10) for y in range(0, 60, 10)]
    # HAND: 100 by 50 less a notch of 20 by 10 at the edge, whose corners are points of the grid
    notch = [(0, 0), (40, 0), (40, 10), (60, 10), (60, 0), (100, 0), (100, 50), (0, 50)]
    assert areas(contour(grid, levels=[], outline=notch)) == pytest.approx([5000 - 200])


def test_a_height_that_is_a_level_exactly_is_drawn_once() -> None:
    step: list[Corner] = [(x, y, min(x, 20)) for x in range(0, 50, 10) for y in range(0, 30, 10)]
    # HAND: 20 by 20 below, and the flat half of 20 by 20 at the level itself belongs above it
    assert areas(contour(step, levels=[20])) == pytest.approx([400, 400])


def test_the_usual_side_of_a_grid_is_its_diagonal() -> None:
    # HAND: 10 by 10 mm
    assert usual_side(PLANE) == pytest.approx(math.sqrt(200))


def test_points_on_a_line_span_no_surface() -> None:
    for line in ([(0.0, 0.0, 1.0), (1.0, 1.0, 2.0)], [(float(n), 2.0 * n, 1.0) for n in range(9)]):
        with pytest.raises(NotASurface) as refused:
            contour(line, levels=[0])
        assert str(refused.value) == (
            f"{len(line)} points do not span a surface: three or more are needed that are not on one line. "
            "Read further points beside them."
        )


def test_levels_rise() -> None:
    with pytest.raises(LevelsUnordered) as refused:
        contour(PLANE, levels=[10, 10, 20])
    assert str(refused.value) == "Levels 10, 10, 20 do not rise. Give each once, the lowest first."
