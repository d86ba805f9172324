"""Tracing from a photo: against a camera of its own, a property of projections, and what is no view of a flat part."""

import random
import re
from collections.abc import Sequence
from math import hypot, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc.errors import NotPositive
from gudgeon.calc.template.homography import Known, Tracing, trace
from gudgeon.calc.template.trace_errors import (
    BeyondTheHorizon,
    NotAFinitePoint,
    PointsCrossed,
    PointsInALine,
    TooFewKnown,
    TooManyKnown,
)
from tests.pinhole import SHEET, Camera, Spot

SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
STRAIGHT = ((0.0, 1000.0), (1000.0, 1000.0), (1000.0, 0.0), (0.0, 0.0))
"""The square straight from above, ten pixels to the millimeter."""


def known(photo: Sequence[Spot], true: Sequence[Spot]) -> list[Known]:
    return [Known(str(at), seen, meant) for at, (seen, meant) in enumerate(zip(photo, true, strict=True), 1)]


def traced(photo: Sequence[Spot], true: Sequence[Spot], *places: Spot, **said: float) -> Tracing:
    named = [(str(at), place) for at, place in enumerate(places, 1)]
    return trace(known(photo, true), places=named, **({"pick_px": 1.0} | said))


@given(
    tilt=st.floats(-35, 35), turn=st.floats(-180, 180), above=st.floats(400, 2000),
    x=st.floats(-20, 230), y=st.floats(-20, 320),
)  # fmt: skip
def test_a_camera_is_undone(tilt: float, turn: float, above: float, x: float, y: float) -> None:
    """HAND: the camera turns and projects, the tracing solves equations; they meet in the place on the sheet."""
    camera = Camera(above_mm=above, tilt_deg=tilt, turn_deg=turn)
    found = traced([camera.sees(one) for one in SHEET], SHEET, camera.sees((x, y))).places[0]
    assert hypot(found.x_mm - x, found.y_mm - y) < 1e-6


def test_more_points_than_four_are_balanced_and_their_worst_miss_is_told() -> None:
    camera = Camera()
    true = (*SHEET, (105.0, 0.0), (105.0, 297.0))
    seen = [camera.sees(one) for one in true]
    exact = traced(seen, true, camera.sees((60, 80)))
    assert exact.residual_mm < 1e-6
    assert exact.places[0].x_mm == pytest.approx(60, abs=1e-6)
    bent = traced(seen, (*true[:5], (107.0, 297.0)), camera.sees((60, 80)))
    assert 0.3 < bent.residual_mm < 2.0  # HAND: a miss of 2 mm is shared among the points
    assert traced(seen[:4], SHEET, seen[0]).residual_mm == 0.0


def test_the_cross_ratio_of_four_points_in_a_line_stays() -> None:
    """PRINTED: Hartley and Zisserman, 2nd edition 2004, 2.5: the cross ratio is kept by every projection.

    It is worked out in the photo and on the part by itself, with no map between.
    """
    camera = Camera(tilt_deg=31)
    line = [camera.sees((20 + 40 * step, 30 + 50 * step)) for step in (0.0, 1.0, 2.5, 4.0)]
    found = [(one.x_mm, one.y_mm) for one in traced([camera.sees(one) for one in SHEET], SHEET, *line).places]

    def ratio(points: Sequence[Spot]) -> float:
        a, b, c, d = points

        def apart(one: Spot, other: Spot) -> float:
            return hypot(one[0] - other[0], one[1] - other[1])

        return apart(a, c) * apart(b, d) / (apart(b, c) * apart(a, d))

    # HAND: places 0, 1, 2.5 and 4 give 2.5 · 3 / (1.5 · 4) = 1.25.
    assert ratio(line) == pytest.approx(1.25, abs=1e-9)
    assert ratio(found) == pytest.approx(1.25, abs=1e-9)


def test_straight_from_above_the_uncertainty_is_as_worked_out_by_hand() -> None:
    """HAND: ten pixels to the millimeter. The middle of the square is where its diagonals meet. An error of a corner
    across its own diagonal moves that by half along the other diagonal, one along it by nothing; so along each diagonal
    two corners give u² / 4 each, and with the error of the place itself it is 1.5 u² in every direction.
    """
    found = traced(STRAIGHT, SQUARE, (500.0, 500.0), pick_px=2.0).places[0]
    assert found.off_mm == pytest.approx(2.45 * 0.2 * sqrt(1.5), rel=1e-4)
    # HAND: the corners known to 0.3 mm give as much of theirs: u² = 0.3² / 2 more.
    more = traced(STRAIGHT, SQUARE, (500.0, 500.0), pick_px=2.0, known_off_mm=0.3).places[0]
    assert more.off_mm == pytest.approx(2.45 * sqrt(1.5 * 0.2**2 + 0.3**2 / 2), rel=1e-4)


def test_the_uncertainty_holds_what_picking_again_and_again_gives() -> None:
    """Trials: corners and place are picked 800 times with an error of 3 px; the spread is that of the law."""
    camera, spot = Camera(), (150.0, 220.0)
    seen = [camera.sees(one) for one in (*SHEET, spot)]
    chance = random.Random(7)
    tried = []
    for _ in range(800):
        off = [(x + chance.gauss(0, 3), y + chance.gauss(0, 3)) for x, y in seen]
        one = _solved_alone(off[:4], SHEET, off[4])
        tried.append(one)
    spread = np.linalg.eigvalsh(np.cov(np.array(tried).T))[-1] ** 0.5
    said = traced(seen[:4], SHEET, seen[4], pick_px=3.0).places[0].off_mm
    # So far off in any direction is one in twenty at most: HAND: three times √(0.05 · 0.95 / 800) = 0.023 more.
    farther = [one for one in tried if hypot(one[0] - spot[0], one[1] - spot[1]) > said]
    assert len(farther) / len(tried) <= 0.05 + 0.023
    assert said == pytest.approx(2.45 * spread, rel=0.08)  # HAND: 1 / √(2 · 800) = 2.5 %, three times that


def _solved_alone(photo: Sequence[Spot], true: Sequence[Spot], spot: Spot) -> Spot:
    """The eight equations as they stand, neither scaled nor balanced (OTHER TOOL: numpy.linalg.solve)."""
    rows, wanted = [], []
    for (u, v), (x, y) in zip(photo, true, strict=True):
        rows += [[u, v, 1, 0, 0, 0, -u * x, -v * x], [0, 0, 0, u, v, 1, -u * y, -v * y]]
        wanted += [x, y]
    h = np.linalg.solve(np.array(rows), np.array(wanted))
    w = h[6] * spot[0] + h[7] * spot[1] + 1
    return (
        float((h[0] * spot[0] + h[1] * spot[1] + h[2]) / w),
        float((h[3] * spot[0] + h[4] * spot[1] + h[5]) / w),
    )


@pytest.mark.parametrize(
    ("photo", "true", "error", "words"),
    [
        (STRAIGHT * 6, SQUARE * 6, TooManyKnown, "24 known points were given, and at most 20 are taken"),
        (STRAIGHT[:3], SQUARE[:3], TooFewKnown, "3 known points were given"),
        (
            ((0, 0), (500, 0), (1000, 0), (0, 900)), SQUARE, PointsInALine,
            "The known points lie nearly in a line in the photo: the leanest triangle of the best four is 0 of",
        ),
        (STRAIGHT, ((0, 0), (100, 0), (50, 0.4), (0, 100)), PointsInALine, "nearly in a line on the part"),
        (STRAIGHT, (SQUARE[0], *SQUARE[:3]), PointsInALine, "on the part"),
        (STRAIGHT, (SQUARE[1], SQUARE[0], *SQUARE[2:]), PointsCrossed, "two of them are exchanged"),
        (STRAIGHT, tuple((-x, y) for x, y in SQUARE), PointsCrossed, "left is taken for right"),
        (((float("nan"), 0), *STRAIGHT[1:]), SQUARE, NotAFinitePoint, "Known point 1 is no place"),
    ],
)  # fmt: skip
def test_what_is_no_view_of_a_flat_part_is_refused(
    photo: Sequence[Spot], true: Sequence[Spot], error: type[Exception], words: str
) -> None:
    with pytest.raises(error, match=re.escape(words)):
        traced(photo, true, (500.0, 500.0))


def test_beyond_the_horizon_nothing_is_traced() -> None:
    photo = ((100.0, 700.0), (900.0, 700.0), (700.0, 300.0), (300.0, 300.0))
    with pytest.raises(BeyondTheHorizon, match="Place 1 lies where the plane"):
        traced(photo, SQUARE, (500.0, -200.0))  # HAND: the sides meet at 100 px above the picture
    with pytest.raises(NotPositive):
        traced(photo, SQUARE, (500.0, 500.0), pick_px=0.0)
