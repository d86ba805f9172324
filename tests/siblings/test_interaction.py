"""Bars and beams that carry bolts: closed forms among themselves, and a finite-element library (OTHER TOOL)."""

import itertools
import math

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import nnls
from skfem import Basis, BilinearForm, ElementLineHermite, MeshLine, solve  # type: ignore[import-untyped]
from skfem.helpers import dd, ddot  # type: ignore[import-untyped]

from gudgeon.calc.joint.interaction import endless_beam, free_beam, rigid_bar
from gudgeon.calc.joint.interaction_passes import pass_over

Floats = NDArray[np.float64]
BENDING = {"bending_stiffness_n_mm2": 1.26e11, "foundation_n_per_mm2": 2000.0}  # felt over 126 mm
REACH = (4 * 1.26e11 / 2000.0) ** 0.25


def by_elements(places_mm: list[float], *, bending: float, foundation: float, length_mm: float) -> Floats:
    """The same compliances with 80 Hermite elements; nothing is held, so the ends are free."""
    nodes = np.linspace(0, length_mm, 81)
    basis = Basis(MeshLine(nodes), ElementLineHermite())
    form = BilinearForm(lambda u, v, _: bending * ddot(dd(u), dd(v)) + foundation * u * v)
    stiffness = form.assemble(basis)
    at_bolts = basis.nodal_dofs[0][np.rint(np.array(places_mm) * 80 / length_mm).astype(int)]
    found = []
    for bolt in at_bolts:
        load = np.zeros(basis.N)
        load[bolt] = 1.0
        found.append(solve(stiffness, load)[at_bolts])
    return np.array(found)


@pytest.mark.parametrize("length", [60.0, 250.0, 440.0, 1500.0])
@pytest.mark.parametrize("foundation", [200.0, 2000.0, 20000.0])
def test_a_beam_with_free_ends_agrees_with_finite_elements(length: float, foundation: float) -> None:
    """Asked for: 2 %. Found: better than 1e-4, which is what 80 elements leave."""
    places = [0.0, 0.05 * length, 0.3 * length, 0.5 * length, 0.9 * length, length]
    ours = free_beam(
        places, bending_stiffness_n_mm2=1.26e11, foundation_n_per_mm2=foundation, length_mm=length
    ).matrix_mm_per_n
    theirs = by_elements(places, bending=1.26e11, foundation=foundation, length_mm=length)
    assert np.abs(ours - theirs).max() < 1e-4 * ours.max()


def test_a_long_beam_is_endless() -> None:
    places = [20 * REACH, 20.5 * REACH, 22 * REACH]
    endless = endless_beam(places, **BENDING, length_mm=42 * REACH)
    assert endless.flags == ()
    free = free_beam(places, **BENDING, length_mm=42 * REACH).matrix_mm_per_n
    assert np.abs(free - endless.matrix_mm_per_n).max() < 1e-6 * free.max()


def test_from_three_characteristic_lengths_on_an_end_is_no_longer_felt() -> None:
    """The distance at which the flag stops: there the endless beam is right to 1 %, at one length it is not."""
    for distance, right in ((3.0, True), (1.0, False)):
        places = [distance * REACH]
        free = free_beam(places, **BENDING, length_mm=40 * REACH).matrix_mm_per_n[0, 0]
        endless = endless_beam(places, **BENDING).matrix_mm_per_n[0, 0]
        assert bool(abs(free / endless - 1) < 0.01) is right


def test_a_beam_at_its_end_gives_four_times_as_much_as_in_its_middle() -> None:
    """At the end of a half-endless beam 2 P / (k l), in an endless one P / (2 k l) (HAND, from cutting it)."""
    at_end = free_beam([0.0], **BENDING, length_mm=40 * REACH).matrix_mm_per_n[0, 0]
    assert at_end == pytest.approx(2 / (REACH * 2000.0), rel=1e-9)


@pytest.mark.parametrize("bending", [1e17, 1e19])
def test_a_stiff_beam_is_a_rigid_bar(bending: float) -> None:
    places = [0.0, 40.0, 150.0, 270.0]
    free = free_beam(places, bending_stiffness_n_mm2=bending, foundation_n_per_mm2=2e5 / 300, length_mm=300.0)
    bar = rigid_bar(places, stiffness_n_per_mm=2e5, length_mm=300.0)
    assert np.abs(free.matrix_mm_per_n - bar.matrix_mm_per_n).max() < 1e-6 * bar.matrix_mm_per_n.max()


@pytest.mark.parametrize("length", [0.1, 1.0, 4.0, 20.0, 200.0, 2000.0])
@pytest.mark.parametrize("share", [0.0, 0.13, 0.5, 1.0])
def test_the_foundation_carries_the_load_where_it_stands(length: float, share: float) -> None:
    """∫ k w dx = P and ∫ k w x dx = P a, by Gauss on either side of the load; also where sinh overflows."""
    load = share * length
    points, weights = np.polynomial.legendre.leggauss(60)
    cuts = sorted({0.0, load, length, *(min(max(load + one, 0.0), length) for one in range(-20, 21, 2))})
    spans = list(itertools.pairwise(cuts))
    grid = np.concatenate([(points + 1) / 2 * (end - start) + start for start, end in spans])
    weight = np.concatenate([weights / 2 * (end - start) for start, end in spans])
    # EI = 1/4 and k = 1 make the characteristic length 1
    matrix = free_beam(
        [load, *grid.tolist()], bending_stiffness_n_mm2=0.25, foundation_n_per_mm2=1.0, length_mm=length
    ).matrix_mm_per_n
    assert weight @ matrix[0, 1:] == pytest.approx(1.0, rel=1e-7)
    assert (weight * (grid - load)) @ matrix[0, 1:] == pytest.approx(0.0, abs=1e-7 * length)


@pytest.mark.parametrize("length", [0.05, 3.0, 1e4])
def test_what_one_bolt_does_to_another_the_other_does_to_it(length: float) -> None:
    places = [0.0, 0.1 * length, 0.35 * length, 0.99 * length]
    matrix = free_beam(
        places, bending_stiffness_n_mm2=0.25, foundation_n_per_mm2=1.0, length_mm=length
    ).matrix_mm_per_n
    mirrored = free_beam(
        [length - place for place in places],
        bending_stiffness_n_mm2=0.25,
        foundation_n_per_mm2=1.0,
        length_mm=length,
    ).matrix_mm_per_n
    # The formula is written for a point left of the load: seen from the other end it must say the same.
    assert np.abs(matrix - mirrored).max() < 1e-9 * matrix.max()
    assert np.linalg.eigvalsh(matrix)[0] > -1e-12 * matrix.max()


@pytest.mark.parametrize("seed", range(6))
def test_slack_bolts_are_those_of_least_energy(seed: int) -> None:
    """Forces that only pull make ½ Fᵀ A F − xᵀ F least: scipy's nnls on the Cholesky factors (OTHER TOOL)."""
    chance = np.random.default_rng(seed)
    count = 8
    root = chance.normal(size=(count, count))
    parts = root @ root.T / count + np.full((count, count), 1.5)
    target = chance.uniform(0.5, 1.5, count)
    order = chance.permutation(count).tolist()
    found = pass_over(parts, bolt_mm_per_n=0.05, order=order, target_n=target.tolist(), passes=2)

    whole = parts + 0.05 * np.eye(count)
    preload, travel, pulled = np.zeros(count), np.zeros(count), np.zeros(count, np.bool_)
    slackened = 0
    for number in range(2):
        for bolt in order:
            pulled[bolt] = True
            rest = np.flatnonzero(pulled & (np.arange(count) != bolt))
            preload = np.zeros(count)
            preload[bolt] = target[bolt]
            if len(rest):
                lower = np.linalg.cholesky(whole[np.ix_(rest, rest)])
                wanted = travel[rest] - whole[rest, bolt] * target[bolt]
                preload[rest], _ = nnls(lower.T, np.linalg.solve(lower, wanted))
            travel[bolt] = whole[bolt] @ preload
            slackened += int((preload[rest] == 0).sum())
        assert found[number] == pytest.approx(preload, rel=1e-7, abs=1e-9)
    assert slackened > 0, "the case shows no slack bolt"


def test_passes_end_at_the_target() -> None:
    parts = free_beam([20.0, 120.0, 220.0, 320.0, 420.0], **BENDING, length_mm=440.0).matrix_mm_per_n
    found = pass_over(parts, bolt_mm_per_n=7e-6, order=[2, 1, 3, 0, 4], target_n=40000.0, passes=30)
    away = np.abs(found / 40000 - 1).max(axis=1)
    assert away[0] > 0.1
    assert (np.diff(away) <= 1e-12).all()
    assert away[-1] < 1e-9


def test_bolts_that_do_not_see_each_other_may_come_in_any_order() -> None:
    parts = np.diag([1e-6, 2e-6, 3e-6])
    for order in ([0, 1, 2], [2, 0, 1]):
        found = pass_over(parts, bolt_mm_per_n=5e-6, order=order, target_n=[1e4, 2e4, 3e4])
        assert found[0].tolist() == pytest.approx([1e4, 2e4, 3e4], rel=1e-12)


def test_a_wrench_that_clicks_at_once_leaves_what_is_there() -> None:
    """Neighbors behind the point where the beam rises (A < 0) gain preload; set to the target they lose it again."""
    parts = endless_beam([0.0, 2.8 * REACH], **BENDING).matrix_mm_per_n
    once = pass_over(parts, bolt_mm_per_n=7e-6, order=[0, 1], target_n=1.0)
    kept = pass_over(parts, bolt_mm_per_n=7e-6, order=[0, 1], target_n=1.0, passes=2, only_raise=True)
    set_again = pass_over(parts, bolt_mm_per_n=7e-6, order=[0, 1], target_n=1.0, passes=2)
    assert once[0, 0] > 1
    assert kept[1].tolist() == once[0].tolist()
    assert not math.isclose(set_again[1, 0], once[0, 0], rel_tol=1e-6)
