"""Flatness: what it tells, what it refuses, and planes of least squares."""

import numpy as np
import pytest
from numpy.typing import ArrayLike

from gudgeon.calc.errors import NotPositive
from gudgeon.calc.metrology import form_errors
from gudgeon.calc.metrology.flatness import flatness
from gudgeon.calc.metrology.flatness_windows import worst_window, worst_window_between
from gudgeon.calc.metrology.plane import least_squares_plane
from gudgeon.errors import InputError
from tests.faces import face, turn

SQUARE: list[list[float]] = [[0.0, 0, 0], [100, 0, 0], [100, 100, 0], [0, 100, 0]]


def test_a_twisted_face_is_held_by_two_points_above_and_two_below() -> None:
    """HAND: corners z = ±0.05 in turn; the diagonals lie at +0.05 and −0.05, the middle plane is level."""
    found = flatness([[0, 0, 7.05], [450, 0, 6.95], [450, 180, 7.05], [0, 180, 6.95]])
    assert found.minimum_zone_mm == pytest.approx(0.1, abs=1e-14)
    assert found.plane == pytest.approx((0.0, 0.0, 7.0), abs=1e-12)
    assert (found.upper, found.lower) == ((0, 2), (1, 3))
    assert found.flags == ()


def test_a_dent_is_held_by_three_points_above_and_one_below() -> None:
    """HAND: three corners in a plane, a point inside them 0.03 lower along the normal."""
    found = flatness([[0, 0, 1.0], [300, 0, 1.0], [0, 300, 1.0], [90, 90, 0.97]])
    assert found.minimum_zone_mm == pytest.approx(0.03, abs=1e-14)
    assert found.plane == pytest.approx((0.0, 0.0, 0.985), abs=1e-12)
    assert (found.upper, found.lower) == ((0, 1, 2), (3,))


def test_the_middle_plane_is_told_in_the_coordinates_of_the_points() -> None:
    """HAND: z = 0.01 x − 0.02 y + 5 with points ±h off it along z, so ±h cos off it; the middle plane is that plane."""
    x, y = np.meshgrid([0.0, 100, 200], [0.0, 100, 200])
    off = 0.01 * np.where((x + y) / 100 % 2, -1, 1)
    points = np.column_stack([one.ravel() for one in (x, y, 0.01 * x - 0.02 * y + 5 + off)])
    found = flatness(points)
    assert found.plane == pytest.approx((0.01, -0.02, 5.0), abs=1e-12)
    assert found.minimum_zone_mm == pytest.approx(0.02 / np.sqrt(1 + 0.01**2 + 0.02**2), abs=1e-12)


def test_three_points_need_no_zone() -> None:
    found = flatness(SQUARE[:3])
    assert (found.minimum_zone_mm, found.least_squares_mm) == (0.0, 0.0)
    assert set(found.upper) | set(found.lower) == {0, 1, 2}


@pytest.mark.parametrize("kind", ["noisy twist", "rounded", "spiked"])
def test_a_face_far_off_the_origin_loses_nothing(kind: str) -> None:
    """Points at 10 m, on numbers that a float holds exactly, so that moving them changes no digit."""
    points = np.round(face(kind, count=400) * 2**20) / 2**20
    near, far = flatness(points), flatness(points + np.array([8192.0, -8192.0, 8192.0]))
    assert far.minimum_zone_mm == pytest.approx(near.minimum_zone_mm, abs=1e-14)
    assert far.least_squares_mm == pytest.approx(near.least_squares_mm, abs=1e-13)
    assert (far.upper, far.lower) == (near.upper, near.lower)


def test_a_face_that_stands_along_z_has_no_plane_over_x_and_y_and_says_so() -> None:
    found = flatness([[0.05, 0, 0], [-0.05, 450, 0], [0.05, 450, 180], [-0.05, 0, 180]])
    assert found.minimum_zone_mm == pytest.approx(0.1, abs=1e-14)
    assert found.plane is None
    assert found.normal == pytest.approx((1.0, 0.0, 0.0), abs=1e-12)
    assert found.flags == (
        "The face stands nearly along z: z = a x + b y + c cannot say its plane. The zone holds all the same.",
    )


def test_columns_that_were_exchanged_are_suspected() -> None:
    points = np.random.default_rng(1).uniform(0, 100, (12, 3))
    found = flatness(points)
    assert len(found.flags) == 1
    assert found.flags[0].endswith("% as thick as they are wide: is that a face, are its columns x, y, z?")


def test_heights_over_a_plate_are_points_too_and_the_plate_adds_to_them() -> None:
    """HAND: a flat face over a plate that is dished by 0.004 in its middle reads 0.004 out of flat (3-1)."""
    dished = [*SQUARE[:3], [60.0, 40, -0.004]]
    assert flatness(dished).minimum_zone_mm == pytest.approx(0.004, abs=1e-15)


@pytest.mark.parametrize(
    ("points", "error", "text"),
    [
        (
            [[0, 0], [1, 1], [2, 0]],
            form_errors.PointsMisshapen,
            "Figures in the shape (3, 2) are no points. Give one row for each point, each with x, y, z in mm.",
        ),
        (
            SQUARE[:2],
            form_errors.TooFewPoints,
            "2 points are too few: flatness needs at least 3 (fewer leave it open). Measure more points.",
        ),
        (
            SQUARE[:1],
            form_errors.TooFewPoints,
            "1 point is too few: flatness needs at least 3 (fewer leave it open). Measure more points.",
        ),
        (
            [*SQUARE, [50, float("nan"), 0]],
            form_errors.PointNotFinite,
            "Point 5 has y = nan, which is not a finite number. Give the number that was read, or leave the point out.",
        ),
        (
            [*SQUARE, [50, 50, float("inf")]],
            form_errors.PointNotFinite,
            "Point 5 has z = inf, which is not a finite number. Give the number that was read, or leave the point out.",
        ),
        (
            [*SQUARE, [50, 1e200, 0]],
            form_errors.PointTooFar,
            "Point 5 has y = 1e+200 mm, and at most 1e+09 mm is taken (no face is larger). Check its figures and their unit.",
        ),
        (
            [[5, 5, 5]] * 4,
            form_errors.PointsInOnePlace,
            "All 4 points lie in one place: they show neither a line nor a face. Spread them over what is judged, and "
            "check their columns.",
        ),
        (
            [[0, 0, 0], [100, 50, 1], [200, 100, 2], [300, 150, 3]],
            form_errors.PointsInALine,
            "All 4 points lie in a line: over 433 mm they spread less than a millionth of that "
            "sideways, which is no face. Add points beside the line, or judge its straightness.",
        ),
    ],
    ids=lambda one: one.__name__ if isinstance(one, type) else "",
)
def test_points_that_show_no_face_are_refused(points: ArrayLike, error: type[InputError], text: str) -> None:
    with pytest.raises(error) as caught:
        flatness(points)
    assert str(caught.value) == text


def test_a_bad_point_among_many_is_found() -> None:
    points = face("noisy", count=10_000)
    points[7654, 2] = np.nan
    with pytest.raises(form_errors.PointNotFinite, match=r"^Point 7655 has z = nan"):
        flatness(points)


def test_the_input_is_left_as_it_was() -> None:
    points = face("noisy", count=5000)
    kept = points.copy()
    flatness(points)
    assert np.array_equal(points, kept)


def test_a_plane_of_least_squares_by_hand() -> None:
    """HAND: heights ±d that alternate round a square leave the level plane; d is read off both sides."""
    plane = least_squares_plane([[0, 0, 0.01], [100, 0, -0.01], [100, 100, 0.01], [0, 100, -0.01]])
    assert plane.center_mm == pytest.approx([50, 50, 0])
    assert (plane.lowest_mm, plane.highest_mm) == pytest.approx((-0.01, 0.01), abs=1e-13)
    assert plane.coefficients == pytest.approx((0, 0, 0), abs=1e-13)


@pytest.mark.parametrize("wide", [180.0, 1.0, 0.01])
def test_a_plane_of_least_squares_by_singular_values(wide: float) -> None:
    """OTHER TOOL: numpy's singular value decomposition of the centered points, down to a hundredth of a mm wide."""
    points = face("noisy", count=3500) * (1, wide / 180, 0.01 * wide / 180)
    points = points @ turn((0.3, 0.2, 0.1)).T + (1e4, 0, -1e4)
    off = points - points.mean(axis=0)
    heights = off @ np.linalg.svd(off, full_matrices=False)[2][2]
    assert least_squares_plane(points).deviation_mm == pytest.approx(float(np.ptp(heights)), abs=1e-11)


def test_the_worst_window_is_where_the_step_is() -> None:
    """HAND: a grid of 50 mm, level but for one corner 0.02 high: in the corner's square of four it shows half of that.

    Square to the middle plane of that square, which rises by 0.01 over 50 mm both ways.
    """
    points = [
        [x, y, 0.02 if (x, y) == (200, 100) else 0.0] for x in range(0, 201, 50) for y in range(0, 101, 50)
    ]
    found = worst_window(points, side_mm=50)
    assert found.minimum_zone_mm == pytest.approx(0.01 / np.sqrt(1 + 2 * 0.0002**2), abs=1e-14)
    assert found.corner_mm == (150.0, 50.0)
    assert {tuple(points[k][:2]) for k in found.points} == {(150, 50), (200, 50), (150, 100), (200, 100)}


def test_a_window_as_large_as_the_face_is_the_face() -> None:
    points = face("noisy", count=60)
    assert worst_window(points, side_mm=500).minimum_zone_mm == pytest.approx(
        flatness(points).minimum_zone_mm, abs=1e-13
    )


def test_the_worst_window_by_trying_them_all() -> None:
    points = face("noisy", count=40, seed=3)
    worst = 0.0
    for left in points[:, 0]:
        for low in points[:, 1]:
            near = (points[:, :2] >= (left, low)).all(axis=1) & (
                points[:, :2] <= (left + 150, low + 150)
            ).all(axis=1)
            if near.sum() > 3:
                worst = max(worst, flatness(points[near]).minimum_zone_mm)
    assert worst_window(points, side_mm=150).minimum_zone_mm == pytest.approx(worst, abs=1e-13)


def test_windows_that_cannot_be_tried() -> None:
    with pytest.raises(form_errors.WindowTooSmall) as small:
        worst_window(SQUARE, side_mm=10)
    assert str(small.value) == (
        "A window of 10 mm nowhere holds three points that are not in a line. Take a larger length, or measure closer together."
    )
    with pytest.raises(form_errors.TooManyWindows) as many:
        worst_window(face("noisy", count=2000), side_mm=300)
    assert str(many.value).endswith(
        " places of the window would have to be tried, and at most 20,000 are. Give fewer points: a grid as coarse as the "
        "fault that is looked for."
    )
    with pytest.raises(NotPositive, match=r"^Side of the window 0 mm cannot be"):
        worst_window(SQUARE, side_mm=0)


def test_stepped_windows_hold_the_worst_of_all_between_their_ends() -> None:
    """HAND: squares tried at steps are some of all squares; every square lies in a larger one that begins at a step."""
    for seed in range(8):
        points = np.random.default_rng(seed).uniform((0, 0, 0), (300, 120, 0.05), (60, 3))
        low, high = worst_window_between(points, side_mm=70.0)
        exact = worst_window(points, side_mm=70.0).minimum_zone_mm
        # The same square, found on two ways, differs in its last digits.
        assert low - 1e-15 <= exact <= high + 1e-15
