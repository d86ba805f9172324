"""How the bolts of one joint see each other through a plate on an elastic foundation."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.polynomial import legendre
from numpy.typing import NDArray

from gudgeon.calc.errors import finite, positive
from gudgeon.calc.joint.interaction import RIGID, PartsCompliance
from gudgeon.calc.joint.interaction_errors import (
    BoltBesidePart,
    BoltOnEdge,
    NoBolts,
    PlateTooNarrow,
    PoissonImpossible,
)
from gudgeon.calc.joint.interaction_kelvin import PointLoad

Floats = NDArray[np.float64]
EDGE_SHARE = 0.005  # of the longer side: nearer to an edge, a bolt would stand on it
DEGREE = 24  # of the polynomials on a plate of few characteristic lengths; one more for each of them
LARGEST = 24.0  # characteristic lengths of a side up to which that was tried
EDGE_POINTS = 400  # of the Gauss quadrature along an edge


def plate_influence(reach: float) -> float:
    """How a load on an endless plate is felt at a distance, against the place of the load itself.

    Equation:
        A(x) = −(4/π) · kei(x), x = distance / characteristic length

    Parameters:
        reach: distance over characteristic length (D / k)^(1/4), x [1]

    Returns:
        deflection against that under the load [1]

    Valid for:
        plates whose edges are not felt

    Source:
        Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 1959, plate on elastic
        foundation (MEMORY formula); kei compared with scipy.

    Example:
        >>> round(plate_influence(0.0), 5), round(plate_influence(1.0), 5), round(plate_influence(5.0), 5)
        (1.0, 0.63025, -0.01424)

    Not covered:
        edges: free_plate.
    """
    return float(8 * PointLoad(0.0, 0.0).deflection(np.array(finite(reach, "Distance")), y=np.array(0.0)))


def endless_plate(
    places_mm: Sequence[tuple[float, float]],
    *,
    rigidity_n_mm: float,
    foundation_n_per_mm3: float,
    length_mm: float | None = None,
    width_mm: float | None = None,
) -> PartsCompliance:
    """Bolts in a plate without edges, on a foundation that answers where it is pressed.

    Equation:
        C_ij = A(r_ij / l) · l² / (8 · D), l = (D / k)^(1/4), A as in plate_influence

    Parameters:
        places_mm: bolts along and across the plate, from a corner where its sides are given [mm]
        rigidity_n_mm: bending rigidity, for a solid plate E · t³ / (12 · (1 − ν²)), D [N·mm]
        foundation_n_per_mm3: load per area that sinks it by 1 mm, k [N/mm³]
        length_mm: the real plate, only to flag bolts near its edges [mm]
        width_mm: the real plate, only to flag bolts near its edges [mm]

    Returns:
        compliance matrix [mm/N]

    Valid for:
        bolts at least 3 characteristic lengths from all edges, else flagged

    Source:
        Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 1959, plate on elastic
        foundation (MEMORY formula).

    Example:
        >>> found = endless_plate([(0.0, 0.0), (100.0, 0.0)], rigidity_n_mm=1e9, foundation_n_per_mm3=10.0)
        >>> (found.matrix_mm_per_n * 1e6).round(3).tolist()
        [[1.25, 0.788], [0.788, 1.25]]

    Not covered:
        free edges (free_plate), shear in a thick plate, a gasket that opens.
    """
    places = _on_plate(places_mm, sides_mm=(length_mm, width_mm))
    reach = _plate_reach(rigidity_n_mm, foundation_n_per_mm3=foundation_n_per_mm3)
    found = PartsCompliance(_endless(places / reach) * reach**2 / rigidity_n_mm, reach)
    for axis, column, side in (("length", 0, length_mm), ("width", 1, width_mm)):
        found = found.flagged_near_edges(axis, places_mm=places[:, column], length_mm=side)
    return found


def free_plate(
    places_mm: Sequence[tuple[float, float]],
    *,
    rigidity_n_mm: float,
    foundation_n_per_mm3: float,
    length_mm: float,
    width_mm: float,
    poisson: float = 0.3,
) -> PartsCompliance:
    """Bolts in a rectangular plate with free edges, on a foundation that answers where it is pressed.

    Equation:
        D · ∇⁴w + k · w = p; no moment, no shear and no corner force at the edges.
        w = endless plate + v; v, which takes from the edges what the endless plate feels there, is the
        sum of Legendre polynomials in both directions that makes the energy least (Ritz)

    Parameters:
        places_mm: bolts along and across the plate, from one of its corners [mm]
        rigidity_n_mm: bending rigidity, for a solid plate E · t³ / (12 · (1 − ν²)), D [N·mm]
        foundation_n_per_mm3: load per area that sinks it by 1 mm, k [N/mm³]
        length_mm: first side [mm]
        width_mm: second side [mm]
        poisson: Poisson's ratio of the plate, ν [1]

    Returns:
        compliance matrix [mm/N]

    Valid for:
        sides up to 24 characteristic lengths, else flagged; the shorter at least 2 % of the longer,
        and bolts no nearer to an edge than 0.5 % of the longer

    Source:
        HAND: Kirchhoff plate, principle of virtual work; compared with finite elements.

    Example:
        >>> found = free_plate([(50.0, 50.0), (250.0, 50.0)], rigidity_n_mm=1e9, foundation_n_per_mm3=10.0,
        ...     length_mm=400.0, width_mm=200.0)
        >>> (found.matrix_mm_per_n * 1e6).round(3).tolist()
        [[5.199, 0.93], [0.93, 3.149]]

    Not covered:
        shear in a thick plate, ribs and bores, other outlines, a gasket that opens.
    """
    if not 0 <= finite(poisson, "Poisson's ratio") <= 0.5:
        raise PoissonImpossible(poisson)
    places = _on_plate(places_mm, sides_mm=(length_mm, width_mm))
    _check_edges(places, sides_mm=(length_mm, width_mm))
    reach = _plate_reach(rigidity_n_mm, foundation_n_per_mm3=foundation_n_per_mm3)
    scaled, sides = places / reach, (length_mm / reach, width_mm / reach)
    stiff = max(sides) < RIGID
    shape = _rigid(scaled, sides=sides) if stiff else _free(scaled, sides=sides, poisson=poisson)
    return PartsCompliance(shape * reach**2 / rigidity_n_mm, reach, _flags(max(sides)))


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of the plate and its Legendre polynomials, scaled so that ∫P² = 1; in characteristic lengths."""

    length: float

    @property
    def degree(self) -> int:
        return DEGREE + math.ceil(min(self.length, LARGEST))

    def quadrature(self, points: int) -> tuple[Floats, Floats]:
        """Points and weights of Gauss along the side."""
        place, weight = legendre.leggauss(points)
        return (place + 1) * self.length / 2, weight * self.length / 2

    def shapes(self, points: Floats) -> tuple[Floats, Floats, Floats]:
        """The polynomials and their first two derivatives, by point and degree."""
        size = np.sqrt((2 * np.arange(self.degree + 1) + 1) / self.length)
        each = np.eye(self.degree + 1)
        none, one, two = (
            legendre.legval(2 * points / self.length - 1, legendre.legder(each, m) * (2 / self.length) ** m).T
            * size
            for m in range(3)
        )
        return none, one, two

    def energies(self) -> tuple[Floats, Floats, Floats]:
        """∫P''P'', ∫P''P and ∫P'P', exactly."""
        points, weight = self.quadrature(self.degree + 1)
        none, one, two = self.shapes(points)
        weighted = two.T * weight
        return weighted @ two, weighted @ none, (one.T * weight) @ one


def _free(scaled: Floats, *, sides: tuple[float, float], poisson: float) -> Floats:
    """Compliances of the plate with free edges, all lengths in characteristic lengths."""
    along, across = (_Side(side) for side in sides)
    at_bolts = np.einsum("bm,bn->bmn", along.shapes(scaled[:, 0])[0], across.shapes(scaled[:, 1])[0])
    at_bolts = at_bolts.reshape(len(scaled), -1)
    loads = [PointLoad(float(x), float(y)) for x, y in scaled]
    felt = np.array([_felt_at_edges(one, along=along, across=across, poisson=poisson) for one in loads])
    correction = -at_bolts @ np.linalg.solve(_stiffness(along, across=across, poisson=poisson), felt.T)
    return np.asarray(_endless(scaled) + (correction + correction.T) / 2, np.float64)


def _rigid(scaled: Floats, *, sides: tuple[float, float]) -> Floats:
    """A plate that sinks and tilts but does not bend."""
    tilt = scaled / np.array(sides) - 0.5
    return np.asarray((1 + 12 * tilt @ tilt.T) / (sides[0] * sides[1]), np.float64)


def _stiffness(along: _Side, *, across: _Side, poisson: float) -> Floats:
    """Energy of every pair of polynomials: bending, Poisson's part, twist, foundation."""
    bent_x, mixed_x, sloped_x = along.energies()
    bent_y, mixed_y, sloped_y = across.energies()
    one_x, one_y = np.eye(len(bent_x)), np.eye(len(bent_y))
    bending = np.kron(bent_x, one_y) + np.kron(one_x, bent_y)
    sideways = np.kron(mixed_x, mixed_y.T) + np.kron(mixed_x.T, mixed_y)
    twisting = 2 * (1 - poisson) * np.kron(sloped_x, sloped_y)
    return np.asarray(bending + poisson * sideways + twisting + np.kron(one_x, one_y), np.float64)


def _felt_at_edges(load: PointLoad, *, along: _Side, across: _Side, poisson: float) -> Floats:
    """Work that the edge loads of the endless plate do on each polynomial (integration by parts)."""
    by_length = _across_ends(load, normal=along, edge=across, poisson=poisson)
    by_width = _across_ends(load.turned(), normal=across, edge=along, poisson=poisson)
    ends_x, ends_y = np.array([0.0, along.length]), np.array([0.0, across.length])
    outward = np.array([-1.0, 1.0])
    twist = load.twist(*np.broadcast_arrays(ends_x[:, None]), y=ends_y[None, :])
    corner = twist * np.outer(outward, outward)
    corners = along.shapes(ends_x)[0].T @ corner @ across.shapes(ends_y)[0]
    return np.asarray(by_length + by_width.T + 2 * (1 - poisson) * corners, np.float64).ravel()


def _across_ends(load: PointLoad, *, normal: _Side, edge: _Side, poisson: float) -> Floats:
    """The part of the two edges at the ends of one side, by degree along the side and along the edge."""
    points, weight = edge.quadrature(EDGE_POINTS)
    shapes = edge.shapes(points)[0]
    ends = np.array([0.0, normal.length])
    none, one, _ = normal.shapes(ends)
    work = np.zeros((none.shape[1], shapes.shape[1]))
    for number, outward in enumerate((-1.0, 1.0)):
        curvature, shear = load.on_edge(float(ends[number]), y=points, poisson=poisson)
        work += outward * np.outer(one[number], (curvature * weight) @ shapes)
        work -= outward * np.outer(none[number], (shear * weight) @ shapes)
    return work


def _endless(places: Floats) -> Floats:
    """Deflection of the endless plate at each bolt under a load of one at each other."""
    x, y = places.T
    apart = PointLoad(0.0, 0.0).deflection(x[:, None] - x[None, :], y=y[:, None] - y[None, :])
    return np.asarray(apart, np.float64)


def _plate_reach(rigidity_n_mm: float, *, foundation_n_per_mm3: float) -> float:
    rigidity = positive(rigidity_n_mm, "Rigidity", unit="N·mm")
    return math.sqrt(math.sqrt(rigidity / positive(foundation_n_per_mm3, "Foundation", unit="N/mm³")))


def _on_plate(
    places_mm: Sequence[tuple[float, float]], *, sides_mm: tuple[float | None, float | None]
) -> Floats:
    """The bolts by place; on the plate, where its sides are known."""
    if not len(places_mm):
        raise NoBolts
    for axis, column, side in zip(("length", "width"), (0, 1), sides_mm, strict=True):
        if side is not None:
            positive(side, axis.capitalize(), unit="mm")
        for number, place in enumerate(places_mm, start=1):
            finite(place[column], "Place of a bolt")
            if side is not None and not 0 <= place[column] <= side:
                raise BoltBesidePart(number, axis, place[column], side)
    return np.array(places_mm, dtype=np.float64)


def _check_edges(places_mm: Floats, *, sides_mm: tuple[float, float]) -> None:
    least = EDGE_SHARE * max(sides_mm)
    if min(sides_mm) < 4 * least:
        raise PlateTooNarrow(min(sides_mm), 4 * least)
    for axis, column, side in zip(("length", "width"), (0, 1), sides_mm, strict=True):
        for number, place in enumerate(places_mm[:, column].tolist(), start=1):
            if not least <= place <= side - least:
                raise BoltOnEdge(number, axis, place, least, side - least)


def _flags(longest: float) -> tuple[str, ...]:
    if longest <= LARGEST:
        return ()
    return (
        f"The plate is {longest:.0f} characteristic lengths long; near its edges the figures are tried up to "
        f"{LARGEST:.0f}.",
    )
