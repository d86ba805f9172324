"""How the bolts of one joint see each other through the parts they clamp: bars and beams.

Each kernel gives the compliance matrix C of the parts at the bolts [mm/N]: C[i, j] is how far the face
under head i gives way, along the bolt, when bolt j pulls with one newton. C is symmetric (Maxwell), its
diagonal holds what the parts give under a bolt of their own. Plates: interaction_plate; passes over a
joint with such a matrix: interaction_passes.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from gudgeon.calc.errors import finite, positive
from gudgeon.calc.joint.interaction_errors import (
    BoltBesidePart,
    MatrixGivesEnergy,
    MatrixNotSquare,
    MatrixOneSided,
    NoBolts,
)

Floats = NDArray[np.float64]
EDGE_REACH = 3.0  # characteristic lengths from which an edge is no longer felt: exp(-3) is 5 %
RIGID = 1e-3  # characteristic lengths below which a part no longer bends: what is left is 1e-12 of the whole
ROUNDING = 1e-9  # what hand-written figures and sums may be off, as a share of the largest


@dataclass(frozen=True, slots=True)
class PartsCompliance:
    """What the clamped parts give at the bolts, and how far a load is felt in them."""

    matrix_mm_per_n: Floats
    characteristic_length_mm: float | None = None
    flags: tuple[str, ...] = ()

    def flagged_near_edges(
        self, axis: str, *, places_mm: Floats, length_mm: float | None
    ) -> "PartsCompliance":
        """The same, with a flag where bolts of an endless part stand so near its ends that they feel them."""
        if length_mm is None or self.characteristic_length_mm is None:
            return self
        least = EDGE_REACH * self.characteristic_length_mm
        near = np.flatnonzero(np.minimum(places_mm, length_mm - places_mm) < least) + 1
        if not len(near):
            return self
        bolts = ("Bolt " if len(near) == 1 else "Bolts ") + ", ".join(str(one) for one in near)
        told = (
            f"{bolts}: nearer to an end of the {axis} than {EDGE_REACH:g} characteristic lengths ({least:.0f} mm), "
            "where the endless form no longer holds."
        )
        return replace(self, flags=(*self.flags, told))


def given_matrix(rows_mm_per_n: Sequence[Sequence[float]]) -> PartsCompliance:
    """Compliance of the parts at the bolts from figures that are known, tried for sense.

    Equation:
        C = Cᵀ; Fᵀ · C · F ≥ 0 for any loads F

    Parameters:
        rows_mm_per_n: one row for each bolt, as measured or computed elsewhere [mm/N]

    Returns:
        compliance matrix [mm/N]

    Valid for:
        parts that answer in proportion to the load

    Source:
        HAND: Maxwell's reciprocity, and the energy stored in elastic parts.

    Example:
        >>> given_matrix([[2e-6, 5e-7], [5e-7, 2e-6]]).matrix_mm_per_n.shape
        (2, 2)

    Not covered:
        whether the figures are right.
    """
    count = len(rows_mm_per_n)
    if not count:
        raise NoBolts
    for number, row in enumerate(rows_mm_per_n, start=1):
        if len(row) != count:
            raise MatrixNotSquare(count, number, len(row))
        for value in row:
            finite(value, "Figure of the compliance matrix")
    matrix = np.array(rows_mm_per_n, dtype=np.float64)
    largest = float(np.abs(matrix).max())
    for i, j in np.argwhere(np.abs(matrix - matrix.T) > ROUNDING * largest):
        raise MatrixOneSided(int(i) + 1, int(j) + 1, matrix[i, j], matrix[j, i])
    matrix = (matrix + matrix.T) / 2
    least = float(np.linalg.eigvalsh(matrix)[0])
    if least < -ROUNDING * largest:
        raise MatrixGivesEnergy(least)
    return PartsCompliance(matrix)


def common_spring(bolts: int, *, stiffness_n_per_mm: float) -> PartsCompliance:
    """Bolts that all press one spring, through a part that cannot tilt or bend.

    Equation:
        C_ij = 1 / K

    Parameters:
        bolts: how many [1]
        stiffness_n_per_mm: the spring below the part, K [N/mm]

    Returns:
        compliance matrix [mm/N]

    Valid for:
        stiff parts on a soft gasket, held level

    Source:
        HAND: all heads go down together by ΣF / K. Meets EI-EQ4 with r = (1/K) / dS, dS the bolt's
        compliance.

    Example:
        >>> common_spring(2, stiffness_n_per_mm=500000.0).matrix_mm_per_n.tolist()
        [[2e-06, 2e-06], [2e-06, 2e-06]]

    Not covered:
        tilting (rigid_bar) and bending (free_beam, free_plate).
    """
    if bolts < 1:
        raise NoBolts
    stiffness = positive(stiffness_n_per_mm, "Stiffness", unit="N/mm")
    return PartsCompliance(np.full((bolts, bolts), 1 / stiffness))


def rigid_bar(places_mm: Sequence[float], *, stiffness_n_per_mm: float, length_mm: float) -> PartsCompliance:
    """Bolts in a bar that tilts but does not bend, on an even line of gasket.

    Equation:
        C_ij = 1 / K + 12 · s_i · s_j / (K · L²), with s from the middle of the bar

    Parameters:
        places_mm: bolts from one end of the bar [mm]
        stiffness_n_per_mm: the whole gasket under the bar, K [N/mm]
        length_mm: bar and gasket, L [mm]

    Returns:
        compliance matrix [mm/N]

    Valid for:
        short stiff parts: the limit of free_beam as the bar gets stiff

    Source:
        HAND: the bar sinks by ΣF / K and tilts by ΣF · s / (K · L² / 12). Meets EI-2BAR: a second
        bolt tightened by T changes the first by −C12 · T / (dS + C11).

    Example:
        >>> found = rigid_bar([30.0, 270.0], stiffness_n_per_mm=2e5, length_mm=300.0)
        >>> (found.matrix_mm_per_n * 1e6).round(3).tolist()
        [[14.6, -4.6], [-4.6, 14.6]]

    Not covered:
        a gasket that opens: it is taken to follow the bar upward too, from the clamp it has.
    """
    places = _along(places_mm, length_mm=length_mm)
    stiffness = positive(stiffness_n_per_mm, "Stiffness", unit="N/mm")
    tilt = places / length_mm - 0.5
    return PartsCompliance((1 + 12 * np.outer(tilt, tilt)) / stiffness)


def beam_influence(reach: float) -> float:
    """How a load on an endless beam is felt at a distance, against the place of the load itself.

    Equation:
        A(x) = exp(−x) · (cos x + sin x), x = distance / characteristic length

    Parameters:
        reach: distance over characteristic length (4 · EI / k)^(1/4), x [1]

    Returns:
        deflection against that under the load [1]

    Valid for:
        beams whose ends are not felt

    Source:
        Hetényi, Beams on Elastic Foundation, 1946 (MEMORY formula). Meets EI-HET.

    Example:
        >>> round(beam_influence(1.0), 5), round(beam_influence(4.0), 5)
        (0.50833, -0.02583)

    Not covered:
        ends: free_beam.
    """
    return float(_influence(np.array(abs(finite(reach, "Distance")))))


def endless_beam(
    places_mm: Sequence[float],
    *,
    bending_stiffness_n_mm2: float,
    foundation_n_per_mm2: float,
    length_mm: float | None = None,
) -> PartsCompliance:
    """Bolts in a row on a beam without ends, on a foundation that answers where it is pressed.

    Equation:
        C_ij = A(|s_i − s_j| / l) / (2 · k · l), l = (4 · EI / k)^(1/4), A as in beam_influence

    Parameters:
        places_mm: bolts along the beam, from its end where length_mm is given [mm]
        bending_stiffness_n_mm2: of the beam, EI [N·mm²]
        foundation_n_per_mm2: load per length that sinks it by 1 mm, k [N/mm²]
        length_mm: the real beam, only to flag bolts near its ends [mm]

    Returns:
        compliance matrix [mm/N]

    Valid for:
        bolts at least 3 characteristic lengths from both ends, else flagged

    Source:
        Hetényi, Beams on Elastic Foundation, 1946 (MEMORY formula). Meets EI-B5-soft and its second
        pass, whose five bolts are taken on an endless beam: with free ends they come out otherwise.

    Example:
        >>> found = endless_beam([0.0, 100.0], bending_stiffness_n_mm2=1.26e11, foundation_n_per_mm2=2000.0)
        >>> (found.matrix_mm_per_n * 1e6).round(3).tolist()
        [[1.984, 1.269], [1.269, 1.984]]

    Not covered:
        free ends (free_beam), shear in a deep beam, a gasket that opens.
    """
    places = _along(places_mm, length_mm=length_mm)
    reach = _beam_reach(bending_stiffness_n_mm2, foundation_n_per_mm2=foundation_n_per_mm2)
    apart = np.abs(places[:, None] - places[None, :]) / reach
    matrix = _influence(apart) / (2 * foundation_n_per_mm2 * reach)
    return PartsCompliance(matrix, reach).flagged_near_edges("beam", places_mm=places, length_mm=length_mm)


def free_beam(
    places_mm: Sequence[float],
    *,
    bending_stiffness_n_mm2: float,
    foundation_n_per_mm2: float,
    length_mm: float,
) -> PartsCompliance:
    """Bolts in a row on a beam with free ends, on a foundation that answers where it is pressed.

    Equation:
        EI · w'''' + k · w = p, with w'' = w''' = 0 at both ends, solved exactly; for a load at a, with
        b = L − a, seen at x ≤ a, all lengths over l = (4 · EI / k)^(1/4):
        w = P / (k · l · (sinh² L − sin² L)) · {2 · cosh x · cos x · (sinh L · cos a · cosh b − sin L ·
        cosh a · cos b) + (cosh x · sin x + sinh x · cos x) · [sinh L · (sin a · cosh b − cos a · sinh b) +
        sin L · (sinh a · cos b − cosh a · sin b)]}

    Parameters:
        places_mm: bolts from one end of the beam [mm]
        bending_stiffness_n_mm2: of the beam, EI [N·mm²]
        foundation_n_per_mm2: load per length that sinks it by 1 mm, k [N/mm²]
        length_mm: of the beam, L [mm]

    Returns:
        compliance matrix [mm/N]

    Valid for:
        slender beams of any length: rigid_bar is its limit for short ones, endless_beam for long ones

    Source:
        Hetényi, Beams on Elastic Foundation, 1946 (MEMORY formula); compared with finite elements.

    Example:
        >>> found = free_beam([50.0, 150.0], bending_stiffness_n_mm2=1.26e11, foundation_n_per_mm2=2000.0,
        ...     length_mm=200.0)
        >>> (found.matrix_mm_per_n * 1e6).round(3).tolist()
        [[4.411, 0.613], [0.613, 4.411]]

    Not covered:
        shear in a deep beam, a gasket that opens, a foundation that is itself a bending block.
    """
    places = _along(places_mm, length_mm=length_mm)
    reach = _beam_reach(bending_stiffness_n_mm2, foundation_n_per_mm2=foundation_n_per_mm2)
    if length_mm < RIGID * reach:
        bar = rigid_bar(places_mm, stiffness_n_per_mm=foundation_n_per_mm2 * length_mm, length_mm=length_mm)
        return replace(bar, characteristic_length_mm=reach)
    load, seen = np.meshgrid(places, places)
    shape = _free_influence(
        np.minimum(load, seen) / reach, load=np.maximum(load, seen) / reach, length=length_mm / reach
    )
    return PartsCompliance(shape / (foundation_n_per_mm2 * reach), reach)


def _influence(reach: Floats) -> Floats:
    return np.asarray(np.exp(-reach) * (np.cos(reach) + np.sin(reach)), np.float64)


def _free_influence(seen: Floats, *, load: Floats, length: float) -> Floats:
    """The braces of free_beam over sinh² − sin²; each growing factor carries exp(−argument), so none overflows."""

    def cosh(u: Floats) -> Floats:
        return (1 + np.exp(-2 * u)) / 2

    def sinh(u: Floats) -> Floats:
        return -np.expm1(-2 * u) / 2

    beyond, whole = length - load, np.asarray(length)
    near = np.exp(seen - load)  # of sinh L · cosh b · cosh x
    far = np.exp(seen + load - 2 * length)  # of sin L · cosh a · cosh x
    even = near * sinh(whole) * np.cos(load) * cosh(beyond) - far * np.sin(whole) * cosh(load) * np.cos(
        beyond
    )
    odd = near * sinh(whole) * (np.sin(load) * cosh(beyond) - np.cos(load) * sinh(beyond)) + far * np.sin(
        whole
    ) * (sinh(load) * np.cos(beyond) - cosh(load) * np.sin(beyond))
    level = 2 * cosh(seen) * np.cos(seen)
    slope = cosh(seen) * np.sin(seen) + sinh(seen) * np.cos(seen)
    below = sinh(whole) ** 2 - (np.sin(whole) * np.exp(-whole)) ** 2
    return np.asarray((level * even + slope * odd) / below, np.float64)


def _beam_reach(bending_stiffness_n_mm2: float, *, foundation_n_per_mm2: float) -> float:
    stiffness = positive(bending_stiffness_n_mm2, "Bending stiffness", unit="N·mm²")
    foundation = positive(foundation_n_per_mm2, "Foundation", unit="N/mm²")
    return math.sqrt(math.sqrt(4 * stiffness / foundation))


def _along(places_mm: Sequence[float], *, length_mm: float | None) -> Floats:
    """The bolts along a part; on it, where its length is known."""
    if not len(places_mm):
        raise NoBolts
    if length_mm is not None:
        positive(length_mm, "Length", unit="mm")
    for number, place in enumerate(places_mm, start=1):
        finite(place, "Place of a bolt")
        if length_mm is not None and not 0 <= place <= length_mm:
            raise BoltBesidePart(number, "length", place, length_mm)
    return np.array(places_mm, dtype=np.float64)
