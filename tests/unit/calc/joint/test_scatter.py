"""Spreads and their causes against closed forms. HAND, each derivation where it stands."""

import math
from itertools import pairwise

import numpy as np
import pytest

from gudgeon.calc.joint import program
from gudgeon.calc.joint.program import Act, BoltSpec, Draws, JointModel, tighten
from gudgeon.calc.joint.scatter import (
    CAUSES,
    Band,
    Cause,
    Chances,
    PullError,
    Scatter,
    chances,
    draws,
    variance_shares,
)
from gudgeon.calc.joint.thread import read_thread
from gudgeon.errors import InputError

TRIALS = 20_000
CERTAIN = Band(0.12, 0.12)
BOLT = BoltSpec(read_thread("M10"), 940.0, 13.0, 6e-6, hardening_n_per_mm=4000.0)


def some(bolts: int = 1, acts: int = 1, seed: int = 7, trials: int = TRIALS) -> Chances:
    return chances(np.random.default_rng(seed), trials=trials, bolts=bolts, acts=acts)


def preload(drawn: Chances, scatter: Scatter, acts: list[Act], bolts: int = 1) -> np.ndarray:
    model = JointModel((BOLT,) * bolts, np.diag([2e-6] * bolts))
    return tighten(model, acts=acts, draws=draws(drawn, scatter=scatter)).preload_n[:, -1]


def test_a_wrench_alone_spreads_the_clamp_as_an_even_spread_does() -> None:
    """F = T / l with T even in ± 4 %: standard deviation 4 % / √3, ends ± 4 %, nothing beyond."""
    scatter = Scatter((CERTAIN,), (CERTAIN,), (PullError(deviation=0.04),), shared=0.5)
    found = preload(some(), scatter, [Act(1, 0, "torque", 40.0)])[:, 0]
    middle = 40_000 / _lever(0.12)
    assert found.mean() == pytest.approx(middle, rel=2e-3)
    assert found.std() / found.mean() == pytest.approx(0.04 / math.sqrt(3), rel=0.02)
    assert found.max() / middle - 1 <= 0.04 + 1e-9
    shares = variance_shares(
        lambda c: preload(c, scatter, [Act(1, 0, "torque", 40.0)]), one=some(), other=some(seed=8)
    )
    assert shares.of_all()["wrench"] == pytest.approx(1.0, abs=0.03)
    assert sum(share for cause, share in shares.of_all().items() if cause != "wrench") == 0


def _lever(mu: float) -> float:
    """d2/2 · tan(φ + ρ') + DKm/2 · µ of an M10, DKm 13 mm."""
    pitch, d2 = 1.5, 10 - 0.649519 * 1.5
    lead, friction = math.atan(pitch / math.pi / d2), math.atan(mu / math.cos(math.pi / 6))
    return d2 / 2 * math.tan(lead + friction) + 13.0 / 2 * mu


def test_friction_has_the_band_it_was_given() -> None:
    """95 of 100 inside 0.08 to 0.16, the median √(0.08 · 0.16)."""
    scatter = Scatter((Band(0.08, 0.16),), (CERTAIN,), (PullError(),), shared=0.3)
    found = draws(some(), scatter=scatter).mu_thread[:, 0]
    assert np.median(found) == pytest.approx(math.sqrt(0.08 * 0.16), rel=0.005)
    assert np.mean((found > 0.08) & (found < 0.16)) == pytest.approx(0.95, abs=0.005)


@pytest.mark.parametrize("shared", [0.0, 0.385, 1.0])
def test_what_bolts_share_makes_them_alike(shared: float) -> None:
    """Of ln µ of two bolts the correlation is the shared part of the variance."""
    band = Band(0.08, 0.16)
    scatter = Scatter((band, band), (band, band), (PullError(),), shared=shared)
    found = np.log(draws(some(bolts=2), scatter=scatter).mu_thread)
    assert np.corrcoef(found.T)[0, 1] == pytest.approx(shared, abs=0.02)


def test_shares_of_a_lognormal_quantity() -> None:
    """With y = exp(a·z1 + b·z2), Var y ∝ e^(a²+b²) − 1.

    What goes when z1 is known is the mean over z2 of the variance over z1: E[e^(2 b z2)] · Var[e^(a z1)] =
    e^(2b²) · e^(a²) · (e^(a²) − 1); the whole is e^(a²+b²) · (e^(a²+b²) − 1).
    So S1 = e^(b²) · (e^(a²) − 1) / (e^(a²+b²) − 1), and both together are more than 1.
    """
    a, b = 0.5, 0.4
    shares = variance_shares(
        lambda c: np.exp(a * c.shared + b * c.head),
        one=some(trials=100_000),
        other=some(trials=100_000, seed=8),
    ).of_all()
    whole = math.expm1(a * a + b * b)
    assert shares["shared friction"] == pytest.approx(math.exp(b * b) * math.expm1(a * a) / whole, abs=0.02)
    assert shares["own friction"] == pytest.approx(math.exp(a * a) * math.expm1(b * b) / whole, abs=0.02)
    assert sum(shares.values()) > 1


def test_shares_of_a_torqued_bolt_as_its_derivatives_say() -> None:
    """One bolt, small spreads: the relative variance is Σ (∂ln F/∂ln x)² · σx².

    ln F = ln T − ln l(µt, µh); both frictions share z with weight √s and differ with √(1 − s).
    Sensitivities of l by differences of 1e-6: at, ah. Shared: (at + ah)² s σ²; own: (at² + ah²)(1 − s) σ²;
    wrench: 0.04² / 3; setting: 0.01² / 3.
    """
    band, shared = Band(0.115, 0.125), 0.4
    mu = band.middle
    thread = (_thread(mu * (1 + 1e-6)) - _thread(mu * (1 - 1e-6))) / 2e-6 / _lever(mu)
    head = 13.0 / 2 * mu / _lever(mu)
    parts: dict[Cause, float] = {
        "shared friction": (thread + head) ** 2 * shared * band.sigma**2,
        "own friction": (thread**2 + head**2) * (1 - shared) * band.sigma**2,
        "wrench": 0.04**2 / 3,
        "setting": 0.01**2 / 3,
        "angle": 0.0,
    }
    scatter = Scatter((band,), (band,), (PullError(deviation=0.04, setting=0.01),), shared=shared)
    acts = [Act(1, 0, "torque", 40.0)]
    found = variance_shares(lambda c: preload(c, scatter, acts), one=some(), other=some(seed=8))
    assert math.sqrt(found.variance[0]) / preload(some(), scatter, acts).mean() == pytest.approx(
        math.sqrt(sum(parts.values())), rel=0.02
    )
    for cause, part in parts.items():
        assert found.of_all()[cause] == pytest.approx(part / sum(parts.values()), abs=0.02)


def _thread(mu: float) -> float:
    return _lever(mu) - 13.0 / 2 * mu


def test_an_angle_read_from_a_mark_makes_good_what_went_before() -> None:
    """Two turns of ± 10° each by eye add up, u1 + u2; from one painted line the second ends at 180° ± 10°."""
    apart = (PullError(angle=0, angle_deg=10.0), PullError(angle=1, angle_deg=10.0))
    marked = (PullError(angle=0, angle_deg=10.0), PullError(angle=1, angle_deg=10.0, ends_from=0))
    ends = [
        draws(some(acts=2), scatter=Scatter((CERTAIN,), (CERTAIN,), pulls, shared=0.0)).angle_error_deg.sum(
            axis=1
        )
        for pulls in (apart, marked)
    ]
    assert ends[0].std() == pytest.approx(10 * math.sqrt(2 / 3), rel=0.02)
    assert ends[1].std() == pytest.approx(10 / math.sqrt(3), rel=0.02)
    assert np.abs(ends[1]).max() <= 10


def test_a_turn_far_beyond_yield_leaves_the_friction_of_the_thread_alone() -> None:
    """Beyond yield, without hardening, F = Rp / √(1/A² + 3 (M/F / W)²): torque, head and angle no longer count.

    Its ends at µ 0.08 and 0.16, by that formula; 95 of 100 preloads lie between them.
    """
    bolt = BoltSpec(read_thread("M10"), 940.0, 13.0, 6e-6)
    band = Band(0.08, 0.16)
    pulls = (PullError(deviation=0.04), PullError(angle=1, angle_deg=10.0))
    scatter = Scatter((band,), (band,), pulls, shared=0.4)
    acts = [Act(1, 0, "torque", 25.0), Act(2, 0, "turn", 270.0)]
    model = JointModel((bolt,), np.array([[2e-6]]))
    found = tighten(model, acts=acts, draws=draws(some(acts=2), scatter=scatter)).preload_n[:, -1, 0]
    area = read_thread("M10").stress_area_mm2
    modulus = math.pi * math.sqrt(4 * area / math.pi) ** 3 / 12
    ends = [940 / math.sqrt(1 / area**2 + 3 * (_thread(mu) / modulus) ** 2) for mu in (0.16, 0.08)]
    assert np.mean((found > ends[0]) & (found < ends[1])) == pytest.approx(0.95, abs=0.006)


def test_the_same_seed_gives_the_same_chances_and_a_what_if_changes_the_size_alone() -> None:
    one, again = some(), some()
    assert np.array_equal(one.thread, again.thread)
    narrow, wide = (
        np.log(draws(one, scatter=Scatter((band,), (band,), (PullError(),), shared=0.5)).mu_thread[:, 0])
        for band in (Band(0.10, 0.12), Band(0.08, 0.16))
    )
    order = np.argsort(narrow)
    assert all(left <= right for left, right in pairwise(wide[order]))


def test_a_cause_that_has_no_hand_in_it_gets_nothing() -> None:
    found = variance_shares(lambda c: np.zeros_like(c.shared), one=some(), other=some(seed=8))
    assert found.of_all() == dict.fromkeys(CAUSES, 0.0)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (
            lambda: Band(0.2, 0.1),
            "A friction from 0.2 to 0.1 was given. Its ends lie above 0 and below 1, the lower one first.",
        ),
        (
            lambda: draws(some(), scatter=Scatter((CERTAIN,), (CERTAIN,), (PullError(),), shared=1.5)),
            "The part of the friction that all bolts share was 1.5. It is between 0 and 1.",
        ),
        (lambda: some(trials=3), "3 trials were asked for. At least 20 are needed for a band."),
    ],
)
def test_refused(make: object, message: str) -> None:
    with pytest.raises(InputError) as refused:
        make()  # type: ignore[operator]
    assert str(refused.value) == message


PARTIAL = [Act(stage, bolt, "torque", 30.0 + stage) for stage in (1, 2) for bolt in range(3)]
"""A second stage that moves some heads and not others."""


def three(trials: int) -> tuple[JointModel, Draws]:
    """Three bolts that see each other, and chances of all kinds."""
    far = np.abs(np.subtract.outer(np.arange(3), np.arange(3)))
    scatter = Scatter(
        (Band(0.08, 0.16),) * 3, (Band(0.08, 0.16),) * 3,
        tuple(PullError(deviation=0.04, setting=0.01, set_once=at, wrench=at % 2) for at in range(6)),
        shared=0.5, breakaway=1.2,
    )  # fmt: skip
    drawn = some(bolts=3, acts=6, trials=trials)
    return JointModel((BOLT,) * 3, 2e-6 * np.exp(-far / 2)), draws(drawn, scatter=scatter)


def results(found: program.Tightened) -> list[np.ndarray]:
    names = ("preload_n", "permanent_stretch_mm", "yield_share", "travel_mm", "slipped", "moved", "reached")
    return [getattr(found, name) for name in names]


@pytest.mark.parametrize("trials", [20, program.BLOCK, 2 * program.BLOCK + 77])
def test_who_is_told_how_far_it_is_changes_nothing_to_the_bit(trials: int) -> None:
    model, drawn = three(trials)
    parts: list[float] = []
    told = tighten(model, acts=PARTIAL, draws=drawn, told=parts.append)
    plain = tighten(model, acts=PARTIAL, draws=drawn)
    assert all(np.array_equal(a, b) for a, b in zip(results(told), results(plain), strict=True))
    assert 0 < plain.moved.mean() < 1
    assert len(parts) == 6 * -(-trials // program.BLOCK)
    assert parts == sorted(parts) and parts[0] > 0
    assert parts[-1] == pytest.approx(1.0, rel=1e-12)


def test_pieces_of_another_size_give_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """HAND: no trial knows of another; what is left is how a product of matrices rounds, far below a newton."""
    model, drawn = three(3000)
    at_once = tighten(model, acts=PARTIAL, draws=drawn)
    monkeypatch.setattr(program, "BLOCK", 700)
    in_pieces = tighten(model, acts=PARTIAL, draws=drawn)
    for a, b in zip(results(at_once), results(in_pieces), strict=True):
        np.testing.assert_allclose(a, b, rtol=1e-12, atol=1e-9)


def test_who_is_told_may_end_it() -> None:
    class Enough(Exception):
        pass

    def told(part: float) -> None:
        if part > 0.4:
            raise Enough

    model, drawn = three(200)
    with pytest.raises(Enough):
        tighten(model, acts=PARTIAL, draws=drawn, told=told)
