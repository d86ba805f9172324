"""Forms of faces and lines: adversarial faces (HAND), a printed autocollimator record, closed forms (HAND)."""

import csv
import itertools
import math
from collections.abc import Mapping

import numpy as np
import pytest

from gudgeon.calc.metrology.exchange import Exchange
from gudgeon.calc.metrology.flatness import flatness
from gudgeon.calc.metrology.straightness import from_angles, paired, straightness
from tests.faces import face, turn
from tests.published.cases import Case, cases, check
from tests.reference import reference_file

# Exact zones of the four sets, by hand: half the corners' height of a twist from each diagonal; the height of a regular
# tetrahedron across two of its edges, 1/√2; the bow from its ends to its bottom.
SETS = {
    "twisted_deck_4pt": (0.1, 1e-15),
    "regular_tetrahedron_edge1": (math.sqrt(0.5), 1e-12),
    "bilinear_twist_7x5": (0.1, 1e-15),
    "cylindrical_bow_10x7": (0.08 * (1 - (1 / 9) ** 2), 1e-11),  # its heights are printed to 12 places
}


@pytest.mark.parametrize("case", cases("face_forms"), ids=[case.id for case in cases("face_forms")])
def test_a_form_as_published(case: Case) -> None:
    check(case)


def adversarial() -> Mapping[str, tuple[list[list[float]], float]]:
    sets: dict[str, tuple[list[list[float]], float]] = {}
    with reference_file("data/adversarial_flatness.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            points, _ = sets.setdefault(row["set"], ([], float(row["exact_min_zone"])))
            points.append([float(row[axis]) for axis in "xyz"])
    return sets


@pytest.mark.parametrize(("name", "exact", "allowed"), [(name, *what) for name, what in SETS.items()])
def test_an_adversarial_face_at_its_exact_zone(name: str, exact: float, allowed: float) -> None:
    points, printed = adversarial()[name]
    found = flatness(points)
    assert found.minimum_zone_mm == pytest.approx(exact, abs=allowed)
    assert found.minimum_zone_mm == pytest.approx(printed, abs=1e-11)
    assert found.certificate_gap_mm < 1e-12


def test_every_adversarial_face_is_tried() -> None:
    assert set(adversarial()) == set(SETS)


@pytest.mark.parametrize(("tilt", "expected"), [(0.01, 5.0e-5), (0.1, 5.0e-3)])
def test_the_zone_along_z_of_a_tilted_face_is_larger(tilt: float, expected: float) -> None:
    """FLAT-TILT: √(1 + t²) as large as square to the planes (HAND), 5 % allowed."""
    points = face("noisy twist", count=100)
    tilted = points @ turn((math.atan(tilt), 0.0, 0.0)).T
    centered = tilted - tilted.mean(axis=0)
    along_z = Exchange(centered).solve().least
    assert along_z / flatness(tilted).minimum_zone_mm - 1 == pytest.approx(expected, rel=0.05)


def test_a_linear_chebyshev_fit() -> None:
    """CHEB-LIN: y = a eᵗ + b e⁻ᵗ + c, five points (MEMORY of a library's example; figures confirmed by a linear program)."""
    t = np.array([0.0, 0.2, 0.4, 0.6, 0.8])
    y = np.array([4.501, 4.360, 4.333, 4.418, 4.625])
    points = np.column_stack([np.exp(t), np.exp(-t), y])
    held = Exchange(points - points.mean(axis=0)).solve()
    a, b = held.slope
    rest = y - a * np.exp(t) - b * np.exp(-t)
    assert (a, b, (rest.max() + rest.min()) / 2) == pytest.approx((1.004860, 2.014934, 1.482240), abs=5e-7)
    assert held.least / 2 == pytest.approx(0.00103404, abs=5e-9)


def test_the_bow_of_a_parabola() -> None:
    """STR-BOW: z = x² on 21 places from −1 to 1 lies between z = 0 and z = 1 (HAND)."""
    places = [k / 10 - 1 for k in range(21)]
    found = straightness([[place, place**2] for place in places])
    assert found.minimum_zone_mm == pytest.approx(1.0, abs=1e-12)


def test_a_line_stepped_with_an_autocollimator() -> None:
    """Rises, heights and deviations from the line through the ends, each as printed (PRINTED), in µm.

    The record rises 0.5 µm a second of arc: feet of 0.5 µm / tan 1″ = 103.13 mm.
    """
    with reference_file("data/straightness_autocollimator.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    base = 0.0005 / math.tan(math.radians(1 / 3600))
    heights = from_angles([float(row["mean_reading_arcsec_above_2min"]) for row in rows[1:]], base_mm=base)
    assert [1000 * b - 1000 * a for a, b in itertools.pairwise(heights)] == pytest.approx(
        [float(row["rise_um"]) for row in rows[1:]], abs=1e-6
    )
    assert [1000 * one for one in heights] == pytest.approx(
        [float(row["cumulative_um"]) for row in rows], abs=1e-6
    )
    found = straightness(paired([base * k for k in range(len(rows))], heights_mm=heights))
    printed = [float(row["deviation_endpoint_um"]) for row in rows]
    assert 1000 * found.highest_mm == pytest.approx(max(printed), abs=1e-6)
    assert 1000 * found.lowest_mm == pytest.approx(min(printed), abs=1e-6)
    assert 1000 * found.end_points_mm == pytest.approx(3.0, abs=1e-6)
