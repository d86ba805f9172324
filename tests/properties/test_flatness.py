"""Whatever the face: the least zone does not depend on how it was read, and its proof holds."""

from random import Random

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.calc.metrology.flatness import flatness
from gudgeon.calc.metrology.straightedge import gaps_on_face, straightedge_gap
from gudgeon.calc.metrology.straightness import straightness
from tests.faces import KINDS, Floats, face, turn

FACES = st.builds(
    lambda kind, count, seed: face(kind, count=count, seed=seed),
    st.sampled_from(KINDS),
    st.sampled_from([6, 12, 60, 400, 2500]),
    st.integers(0, 10**6),
)
FEW = settings(max_examples=40, deadline=None)
ANGLES = st.floats(-3, 3)


@FEW
@given(FACES, st.randoms(use_true_random=False))
def test_the_order_of_the_points_does_not_matter(points: Floats, shuffled: Random) -> None:
    order = list(range(len(points)))
    shuffled.shuffle(order)
    found, again = flatness(points), flatness(points[order])
    assert abs(found.minimum_zone_mm - again.minimum_zone_mm) < 1e-10
    assert abs(found.least_squares_mm - again.least_squares_mm) < 1e-9


@FEW
@given(FACES, st.tuples(ANGLES, ANGLES, ANGLES), st.tuples(*[st.floats(-1e3, 1e3)] * 3))
def test_a_face_that_is_turned_and_moved_stays_as_flat(
    points: Floats, angles: tuple[float, float, float], shift: tuple[float, float, float]
) -> None:
    found, moved = flatness(points), flatness(points @ turn(angles).T + np.array(shift))
    assert abs(found.minimum_zone_mm - moved.minimum_zone_mm) < 1e-10


@FEW
@given(FACES, st.floats(0.01, 100))
def test_a_face_that_is_larger_all_over_is_as_much_less_flat(points: Floats, scale: float) -> None:
    found, scaled = flatness(points), flatness(scale * points)
    assert abs(scaled.minimum_zone_mm - scale * found.minimum_zone_mm) < 1e-10 * max(1, scale)


@FEW
@given(FACES, st.lists(st.floats(0.01, 1), min_size=1, max_size=200))
def test_a_point_among_the_others_changes_nothing(points: Floats, weights: list[float]) -> None:
    """A mean of points lies in their hull, and so between the same planes."""
    share = np.resize(weights, len(points))
    inner = share @ points / share.sum()
    found, more = flatness(points), flatness(np.vstack([points, inner]))
    assert abs(found.minimum_zone_mm - more.minimum_zone_mm) < 1e-10


@FEW
@given(FACES)
def test_more_points_never_need_less_and_the_proof_holds(points: Floats) -> None:
    found = flatness(points)
    along = points @ np.array(found.normal)
    slack = 1e-10
    assert found.certificate_gap_mm < 1e-9
    assert abs(float(np.ptp(along)) - found.minimum_zone_mm) < slack
    assert found.minimum_zone_mm <= found.across_least_squares_mm + slack
    assert found.across_least_squares_mm <= found.least_squares_mm + slack
    assert np.all(along[list(found.upper)] > along.max() - slack)
    assert np.all(along[list(found.lower)] < along.min() + slack)
    held = [*found.upper, *found.lower]
    assert found.minimum_zone_mm < 1e-9 or len(held) >= 4
    # Those that hold the planes need as wide a zone by themselves, on their own planes.
    part = points[: max(4, len(points) // 2)]
    if np.linalg.matrix_rank(part - part.mean(axis=0), tol=0.5) == 2:
        assert flatness(part).minimum_zone_mm <= found.minimum_zone_mm + slack


@FEW
@given(st.lists(st.tuples(st.integers(0, 50), st.integers(-30, 30)), min_size=3, max_size=40))
def test_a_straightedge_bounds_the_straightness_of_its_line(read: list[tuple[int, int]]) -> None:
    profile = [[10.0 * place, 0.001 * height] for place, height in read]
    if len({place for place, _ in read}) < 2:
        return
    gap, zone = straightedge_gap(profile), straightness(profile).minimum_zone_mm
    # The gap is measured along the height and the zone square to its lines, which rise by less than 0.06 in 10.
    assert gap.gap_mm * np.cos(0.006) - 1e-12 <= zone <= gap.laid_mm + 1e-12


@FEW
@given(FACES.filter(lambda points: abs(float(points[0, 0])) < 1e3))
def test_no_line_shows_more_than_the_face(points: Floats) -> None:
    lines = {str(k): ((float(a[0]), float(a[1])), (float(b[0]), float(b[1]))) for k, (a, b) in enumerate(
        (points[[0, 1]], points[[1, 2]], points[[0, 3]])
    ) if float(np.hypot(*(a - b)[:2])) > 1}  # fmt: skip
    shown = gaps_on_face(points, lines_mm=lines, band_mm=0.001)
    zone = flatness(points).across_least_squares_mm
    # Points of the band lie up to a µm beside the line, where the face rises by less than 0.06 in 10 mm.
    assert all(one.gap_mm <= zone + 1e-5 for one in shown.values())
