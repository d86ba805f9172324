"""Flatness against linear programs (HiGHS, OTHER TOOL) and against hulls that are tried through."""

import itertools

import numpy as np
import pytest
from scipy.optimize import linprog
from scipy.spatial import ConvexHull

from gudgeon.calc.metrology.flatness import Flatness, flatness
from tests.faces import KINDS, Floats, face, turn

SIZES = (4, 5, 9, 30, 200, 1000)


def on_least_squares(points: Floats) -> Floats:
    """Points turned to their plane of least squares, by the singular value decomposition."""
    off = points - points.mean(axis=0)
    return np.asarray(off @ np.linalg.svd(off, full_matrices=False)[2].T, np.float64)


def on_normal(points: Floats, normal: tuple[float, float, float]) -> Floats:
    """Points turned so that a direction becomes the third axis."""
    first = np.linalg.svd(np.array([normal]))[2][1:]
    return np.asarray((points - points.mean(axis=0)) @ np.vstack([first, normal]).T, np.float64)


def program(turned: Floats) -> float:
    """The zone along the third axis: least h with |z − a x − b y − c| ≤ h, all points, dual simplex, heights in µm.

    Places are scaled to about ±1: the program's own tolerance of 1e-7 is then 1e-10 mm. With places in mm it ends
    up to 6e-9 mm beside what its own slopes need, on heights with many ties.
    """
    height, ones = 1000 * turned[:, 2], np.ones((len(turned), 1))
    rows = np.hstack([turned[:, :2] / np.abs(turned[:, :2]).max(), ones])
    found = linprog(
        [0, 0, 0, 1],
        A_ub=np.block([[-rows, -ones], [rows, -ones]]),
        b_ub=np.concatenate([-height, height]),
        bounds=[(None, None)] * 3 + [(0, None)],
        method="highs-ds",
    )
    assert found.x is not None
    return 2 * float(found.x[3]) / 1000


def agrees(points: Floats) -> Flatness:
    found = flatness(points)
    assert found.across_least_squares_mm == pytest.approx(program(on_least_squares(points)), abs=1e-9)
    assert found.certificate_gap_mm < 1e-9
    along = points @ found.normal
    assert found.minimum_zone_mm == pytest.approx(float(np.ptp(along)), abs=1e-9)
    # In the frame of the planes found nothing is left to turn: the orthogonal zone.
    assert found.minimum_zone_mm == pytest.approx(program(on_normal(points, found.normal)), abs=1e-9)
    return found


@pytest.mark.parametrize(("kind", "count"), list(itertools.product(KINDS, SIZES)))
def test_the_zone_is_that_of_the_linear_program(kind: str, count: int) -> None:
    agrees(face(kind, count=count))


@pytest.mark.parametrize("kind", ["noisy", "rounded", "dome", "noisy twist", "spiked", "tilted"])
def test_the_zone_of_ten_thousand_points(kind: str) -> None:
    agrees(face(kind, count=10_000))


@pytest.mark.parametrize("seed", range(40))
def test_a_few_points_on_a_coarse_grid(seed: int) -> None:
    """Ties everywhere: heights and places take few values, points repeat."""
    random = np.random.default_rng(seed)
    places = random.integers(0, 4, (random.integers(6, 20), 2)) * 100.0
    points = np.column_stack([places, random.integers(0, 3, len(places)) * 0.01])
    if np.linalg.matrix_rank(places - places.mean(axis=0)) == 2:
        agrees(points)


def widest_proof(points: Floats, *, edges_too: bool) -> float:
    """The least width over directions square to a face of the hull, and to two of its edges where that is asked."""
    hull = ConvexHull(points)
    corners = points[hull.vertices]
    directions = [np.asarray(row[:3]) for row in hull.equations]
    if edges_too:
        pairs = {tuple(sorted(pair)) for face_ in hull.simplices for pair in itertools.combinations(face_, 2)}
        edges = [points[b] - points[a] for a, b in pairs]
        crossed = (np.cross(one, other) for one, other in itertools.combinations(edges, 2))
        directions += [one / np.linalg.norm(one) for one in crossed if np.linalg.norm(one) > 1e-9]
    return min(float(np.ptp(corners @ one)) for one in directions)


@pytest.mark.parametrize("seed", range(12))
def test_lumps_of_any_shape_by_every_direction_of_their_hull(seed: int) -> None:
    """As thick as they are wide: the narrowest way may lie anywhere, and is found all the same."""
    random = np.random.default_rng(seed)
    points = random.standard_normal((random.integers(4, 16), 3)) * (30, 20, 10)
    found = flatness(points)
    assert found.minimum_zone_mm == pytest.approx(widest_proof(points, edges_too=True), rel=1e-9)
    assert found.certificate_gap_mm < 1e-9


def test_a_hull_method_that_tries_faces_alone_doubles_a_pure_twist() -> None:
    """Two points above and two below hold the planes: no face of the hull lies in either. HAND: w against 2 w.

    The least zone of the corners z = ±w/2 is w, held by both diagonals. A face of their tetrahedron goes through
    three corners, a plane through which the fourth lies 2 w off (its height is the sum of both neighbors' less the
    opposite one's), to the cosine of that plane's slope.
    """
    corners = np.array([[0, 0, 0.05], [450, 0, -0.05], [450, 180, 0.05], [0, 180, -0.05]])
    ours = flatness(corners).minimum_zone_mm
    theirs = widest_proof(corners, edges_too=False)
    slope = np.hypot(0.1 / 450, 0.1 / 180)
    assert ours == pytest.approx(0.1, abs=1e-15)
    assert theirs == pytest.approx(0.2 / np.hypot(1, slope), abs=1e-12)
    assert theirs / ours == pytest.approx(2.0, abs=1e-6)


@pytest.mark.parametrize("slope", [0.0, 0.3, 1.0, np.pi / 2])
def test_a_face_that_stands_on_edge_has_the_same_zone(slope: float) -> None:
    points = face("noisy twist", count=200)
    turned = points @ turn((0.0, slope, 0.0)).T
    assert flatness(turned).minimum_zone_mm == pytest.approx(flatness(points).minimum_zone_mm, abs=1e-12)
