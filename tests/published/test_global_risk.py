"""Risks over many parts (JCGM 106:2012, 9.5), published for rules of acceptance, from our probabilities of one part.

Parts vary about the middle of their limits, readings about the parts. A part outside that is accepted is the risk of
who uses it, a part inside that is refused the risk of who made it. Figures PRINTED in the tests of a published program
for uncertainty (after Deaver, and a draft of RP-19); the integrals are ours.
"""

import math
from statistics import NormalDist

import numpy as np
import pytest

from gudgeon.calc.metrology.verdict import guard_band, judge, probability_inside


def risks(*, limit: float, parts: float, u: float, accepted: float) -> tuple[float, float, float]:
    """Share accepted although outside, share refused although inside, share accepted."""
    nodes, weights = np.polynomial.legendre.leggauss(200)

    def over(low: float, high: float, *, take: bool) -> float:
        middle, half = (low + high) / 2, (high - low) / 2
        total = 0.0
        for node, weight in zip(nodes, weights, strict=True):
            part = middle + half * node
            chance = probability_inside(part, u=u, lower=-accepted, upper=accepted)
            density = NormalDist(0.0, parts).pdf(part)
            total += weight * half * density * (chance if take else 1 - chance)
        return total

    far = limit + 10 * parts
    wrongly_taken = 2 * over(limit, far, take=True)
    return wrongly_taken, over(-limit, limit, take=False), wrongly_taken + over(-limit, limit, take=True)


@pytest.mark.parametrize(
    ("limit", "parts", "u", "accepted", "taken", "refused"),
    [(8.0, 4.0, 1.0, 8.0, 0.008006, 0.014851), (2.0, 1.0, 0.5, 0.91 * 2.0, 0.008052, 0.066106)],
)
def test_parts_taken_and_refused_wrongly(
    limit: float, parts: float, u: float, accepted: float, taken: float, refused: float
) -> None:
    found = risks(limit=limit, parts=parts, u=u, accepted=accepted)
    assert found[:2] == pytest.approx((taken, refused), abs=5e-7)


# Share of parts inside, parts accepted although outside, and those of the accepted alone, both in %.
@pytest.mark.parametrize(
    ("inside", "taken", "of_accepted"),
    [
        (0.60, 4.83860326, 8.26008199),
        (0.70, 3.92234109, 5.72322042),
        (0.80, 2.85583037, 3.63227145),
        (0.90, 1.59995312, 1.7988043),
        (0.95, 0.87100925, 0.92389664),
        (0.99, 0.19991684, 0.20243866),
    ],
)
def test_parts_taken_wrongly_by_a_gauge_four_times_as_fine(
    inside: float, taken: float, of_accepted: float
) -> None:
    parts = 1 / NormalDist().inv_cdf((1 + inside) / 2)
    wrongly, _, accepted = risks(limit=1.0, parts=parts, u=parts / 4, accepted=1.0)
    assert 100 * wrongly == pytest.approx(taken, abs=1e-6)
    assert 100 * wrongly / accepted == pytest.approx(of_accepted, abs=1e-6)


@pytest.mark.parametrize(("middle", "outside"), [(10.0, 0.01242), (10.5, 0.10574)])
def test_the_share_of_parts_outside(middle: float, outside: float) -> None:
    assert 1 - probability_inside(middle, u=0.4, lower=9.0, upper=11.0) == pytest.approx(outside, abs=5e-6)


@pytest.mark.parametrize("risk", [0.01, 0.05, 0.2])
def test_the_guard_band_keeps_its_word(risk: float) -> None:
    """Whatever the parts are: of those just outside, no more than the risk is called inside. HAND and simulated."""
    u, upper = 0.01, 0.10
    chance = np.random.default_rng(106)
    readings = upper + u * chance.normal(size=20_000)
    called = np.mean([judge(float(one), u=u, upper=upper, risk=risk).verdict == "inside" for one in readings])
    assert called == pytest.approx(risk, abs=4 * math.sqrt(risk / 20_000))
    band = guard_band(u, upper=upper, risk=risk)
    assert band is not None
    # A part outside by d is taken with Φ(−(d + g)/u) in place of Φ(−d/u); their ratio is greatest at d = 0: 2 · risk.
    with_band, _, _ = risks(limit=1.0, parts=0.4, u=0.1, accepted=1.0 - 10 * band)
    assert with_band < risks(limit=1.0, parts=0.4, u=0.1, accepted=1.0)[0] * 2 * risk
