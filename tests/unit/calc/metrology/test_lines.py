"""Straightness of a line, and gaps under a straightedge; every figure by hand (HAND)."""

import math

import numpy as np
import pytest
from numpy.typing import ArrayLike

from gudgeon.calc.metrology import form_errors
from gudgeon.calc.metrology.flatness import flatness
from gudgeon.calc.metrology.straightedge import gaps_on_face, sliding_gap, straightedge_gap
from gudgeon.calc.metrology.straightness import from_angles, paired, straightness
from gudgeon.errors import InputError

TWIST = [
    [225 * (1 + u), 90 * (1 + v), 0.05 * u * v] for u in np.linspace(-1, 1, 9) for v in np.linspace(-1, 1, 9)
]
LINES = {
    "front edge": ((0.0, 0.0), (450.0, 0.0)),
    "rear edge": ((0.0, 180.0), (450.0, 180.0)),
    "left edge": ((0.0, 0.0), (0.0, 180.0)),
    "right edge": ((450.0, 0.0), (450.0, 180.0)),
    "rising diagonal": ((0.0, 0.0), (450.0, 180.0)),
    "falling diagonal": ((0.0, 180.0), (450.0, 0.0)),
}


def test_a_hollow_line() -> None:
    """Heights z = −0.04 (1 − t²): the edge rests on both ends, the gap in the middle is the whole sag."""
    hollow = [[100 * t, -0.04 * (1 - t * t)] for t in np.linspace(-1, 1, 21)]
    found = straightedge_gap(hollow)
    assert found.gap_mm == pytest.approx(0.04, abs=1e-15)
    assert (found.at_mm, found.rests_on_mm) == (0.0, (-100.0, 100.0))
    assert (found.laid_mm, found.laid_at_mm) == (found.gap_mm, 0.0)
    assert straightness(hollow).minimum_zone_mm == pytest.approx(0.04, abs=1e-12)


def test_a_crowned_line_rocks() -> None:
    """Heights z = 0.04 (1 − t²): between two high points nothing opens; resting on the crown it opens at an end.

    The two points beside the middle are at t = 0 and 0.1: the line through them falls by 0.0004 in 0.1, and at
    t = −1 stands at 0.04 + 0.004, above the end at 0.
    """
    crowned = [[100 * t, 0.04 * (1 - t * t)] for t in np.linspace(-1, 1, 21)]
    found = straightedge_gap(crowned)
    assert found.gap_mm == 0.0
    assert found.laid_mm == pytest.approx(0.044, abs=1e-12)
    assert found.laid_at_mm == -100.0
    assert found.gap_mm <= straightness(crowned).minimum_zone_mm <= found.laid_mm


def test_a_dip_between_two_high_points() -> None:
    """Between 0.02 at 50 and 0.00 at 250 the edge stands at 0.012 over 130; the dip there is at −0.03."""
    found = straightedge_gap([[0, -0.05], [50, 0.02], [130, -0.03], [250, 0.0], [300, -0.04]])
    assert found.gap_mm == pytest.approx(0.042, abs=1e-15)
    assert (found.at_mm, found.rests_on_mm) == (130.0, (50.0, 250.0))


def test_a_short_straightedge_sees_less_of_a_long_bow() -> None:
    """Heights z = c s²: over a length L the sag is c (L/2)², wherever it lies."""
    bow = [[s, 1e-6 * (s - 250) ** 2] for s in range(0, 501, 10)]
    for length in (100, 200, 500):
        assert sliding_gap(bow, length_mm=length).gap_mm == pytest.approx(1e-6 * (length / 2) ** 2, abs=1e-15)
    assert sliding_gap(bow, length_mm=900).gap_mm == straightedge_gap(bow).gap_mm


def test_lines_of_a_twisted_face_show_half_of_its_flatness() -> None:
    """Heights z = w/2 · u v. Edges are straight; along u = v it is w/2 · t², a hollow of w/2; along u = −v a crown that shows nothing."""
    gaps = gaps_on_face(TWIST, lines_mm=LINES, band_mm=1.0)
    shown = {name: gap.gap_mm for name, gap in gaps.items()}
    whole = flatness(TWIST).minimum_zone_mm
    assert whole == pytest.approx(0.1, abs=1e-12)
    assert shown["rising diagonal"] == pytest.approx(0.05, abs=1e-12)
    assert max(gap for name, gap in shown.items() if name != "rising diagonal") == pytest.approx(
        0.0, abs=1e-12
    )
    assert max(shown.values()) / whole == pytest.approx(0.5, abs=1e-9)


def test_only_points_within_the_band_count() -> None:
    points: list[list[float]] = [
        [0, 0, 0],
        [200, 0, 0],
        [100, 3, -0.02],
        [100, 97, -0.02],
        [0, 100, 0],
        [200, 100, 0],
    ]
    line = {"edge": ((0.0, 0.0), (200.0, 0.0))}
    assert gaps_on_face(points, lines_mm=line, band_mm=2)["edge"].gap_mm == pytest.approx(0.0, abs=1e-15)
    assert gaps_on_face(points, lines_mm=line, band_mm=4)["edge"].gap_mm == pytest.approx(0.02, rel=1e-6)


def test_straightness_of_a_tilted_line_is_measured_square_to_it() -> None:
    """A triangle of base 2 and height 0.1, turned by 30°: its least height."""
    turned = [
        [s * math.cos(0.5) - z * math.sin(0.5), s * math.sin(0.5) + z * math.cos(0.5)]
        for s, z in ((-1, 0), (0, 0.1), (1, 0))
    ]
    found = straightness(turned)
    assert found.minimum_zone_mm == pytest.approx(0.1, abs=1e-14)
    assert found.least_squares_mm == pytest.approx(0.1, abs=1e-14)
    assert (found.highest_mm, found.lowest_mm) == pytest.approx((0.1 / math.cos(0.5), 0.0), abs=1e-14)


def test_a_step_shows_least_squares_wider_than_the_least_zone() -> None:
    """Heights 0, 0, 0, 1 at 0 … 3. The least zone is held by the points at 2 below, 0 and 3 above: 2/3 · cos(slope 1/3).

    Least squares: mean 0.75/3 … axis at 2θ = atan2(2·Σxy, Σxx − Σyy) with Σxy 1.5, Σxx 5, Σyy 0.75.
    """
    found = straightness([[0, 0], [1, 0], [2, 0], [3, 1]])
    assert found.minimum_zone_mm == pytest.approx(2 / 3 * math.cos(math.atan(1 / 3)), abs=1e-14)
    angle = math.atan2(3.0, 4.25) / 2
    off = [z * math.cos(angle) - s * math.sin(angle) for s, z in ((0, 0), (1, 0), (2, 0), (3, 1))]
    assert found.least_squares_mm == pytest.approx(max(off) - min(off), abs=1e-14)
    assert found.least_squares_mm > found.minimum_zone_mm
    assert found.end_points_mm == pytest.approx(2 / 3, abs=1e-15)


REFUSED: list[tuple[ArrayLike, type[InputError], str]] = [
    ([1.0, 2.0], form_errors.PointsMisshapen, "Figures in the shape (2,) are no points. Give one row for each point, each with x, y in mm."),
    ([[0, 0]], form_errors.TooFewPoints, "1 point is too few: straightness needs at least 2 (fewer leave it open). Measure more points."),
    ([[0.0, 0.0], [1.0, math.nan]], form_errors.PointNotFinite,
     "Point 2 has its height = nan, which is not a finite number. Give the number that was read, or leave the point out."),
    ([[3, 0], [3, 1]], form_errors.PlacesRepeat,
     "All readings stand at 3 mm: a line needs two places at least. Give the place of each reading."),
]  # fmt: skip


@pytest.mark.parametrize(("profile", "error", "text"), REFUSED, ids=[one.__name__ for _, one, _ in REFUSED])
def test_a_profile_that_is_none_is_refused(profile: ArrayLike, error: type[InputError], text: str) -> None:
    with pytest.raises(error) as caught:
        straightness(profile)
    assert str(caught.value) == text


def test_lines_that_cannot_be_judged_are_refused() -> None:
    with pytest.raises(form_errors.LineWithoutLength) as point:
        gaps_on_face(TWIST, lines_mm={"edge": ((0.0, 0.0), (0.0, 0.0))}, band_mm=1)
    assert str(point.value) == "Line edge begins where it ends. Give two ends that lie apart."
    with pytest.raises(form_errors.NoPointOnLine) as none:
        gaps_on_face(TWIST, lines_mm={"edge": ((0.0, -50.0), (450.0, -50.0))}, band_mm=5)
    assert str(none.value) == (
        "Line edge: 0 points lie within 5 mm of it, and a straightedge needs 2 to rest on. Widen the band, or measure along the line."
    )
    with pytest.raises(form_errors.ReadingsUnpaired) as unpaired:
        paired([0.0, 1.0], heights_mm=[0.0])
    assert str(unpaired.value) == "2 places and 1 readings do not pair. Give one reading for each place."


def test_a_carriage_that_tilts_rises() -> None:
    """One second of arc on 100 mm: 100 · π / 648000 mm."""
    assert from_angles([5.0, 6.0], base_mm=100)[2] == pytest.approx(100 * math.pi / 648_000, rel=1e-9)
