"""Causes of error together: distributions, signs, what is shared, degrees of freedom, and the refusals."""

import math
from collections.abc import Callable

import pytest

from gudgeon.calc.metrology import uncertainty_errors
from gudgeon.calc.metrology.propagation import Combined, Component, Distribution, combine, expanded
from gudgeon.calc.metrology.student import coverage_factor, one_sided_factor, tail
from gudgeon.errors import InputError


@pytest.mark.parametrize(
    ("distribution", "divisor"),
    [("normal", 1.0), ("rectangular", 3**0.5), ("triangular", 6**0.5), ("u-shaped", 2**0.5)],
)
def test_a_half_width_by_its_distribution(distribution: Distribution, divisor: float) -> None:
    # JCGM 100:2008, 4.3.7 (a²/3), 4.3.9 (a²/6); HAND: the mean square of a · sin φ is a²/2
    assert Component("a", 6.0, distribution).u == pytest.approx(6.0 / divisor)


def test_a_certificate_states_its_factor() -> None:
    assert Component("ring", 3.0, factor=2.0).u == 1.5


def test_a_gauge_zeroed_in_the_micrometer_cancels_its_error() -> None:
    # HAND: clearance = bore − piston; the micrometer's error is in both with the same sign and goes out
    micrometer = Component("micrometer", 0.005, "rectangular", tag="micrometer 75-100")
    at_bore = Component("bore gauge", 0.002, "rectangular")
    at_piston = Component("micrometer", 0.005, "rectangular", sensitivity=-1.0, tag="micrometer 75-100")
    found = combine([micrometer, at_bore, at_piston])
    assert found.u == pytest.approx(0.002 / math.sqrt(3))
    assert [name for name, _ in found.parts] == ["micrometer + micrometer", "bore gauge"]
    assert [part for _, part in found.parts] == pytest.approx([0.0, 0.002 / math.sqrt(3)])
    assert found.correlated
    # two gauges that have nothing in common: √(0.005² + 0.002² + 0.005²) / √3
    apart = combine([Component("a", 0.005, "rectangular"), at_bore, Component("b", 0.005, "rectangular")])
    assert apart.u == pytest.approx(math.sqrt(54e-6 / 3))


def test_what_is_shared_adds_up_in_a_sum() -> None:
    # HAND: a stack of three leaves cut from one sheet is off by three times one leaf
    leaves = [Component(f"leaf {place}", 2.0, tag="sheet") for place in (1, 2, 3)]
    assert combine(leaves).u == 6.0
    assert combine([Component(one.name, one.value) for one in leaves]).u == pytest.approx(2 * math.sqrt(3))


def test_a_correlation_between_two() -> None:
    # HAND: 3² + 4² ± 2 · 0.5 · 3 · 4 = 37 or 13
    pair = [Component("a", 3.0), Component("b", 4.0)]
    assert combine(pair, correlation={("a", "b"): 0.5}).u == pytest.approx(math.sqrt(37))
    assert combine(pair, correlation={("b", "a"): -0.5}).u == pytest.approx(math.sqrt(13))
    assert combine(pair, correlation={("a", "b"): 0.0}).u == pytest.approx(5.0)
    assert not combine(pair, correlation={("a", "b"): 0.0}).correlated
    assert combine([pair[0], Component("c", 3.0)], correlation={("a", "c"): -1.0}).u == pytest.approx(
        0.0, abs=1e-9
    )


def test_degrees_of_freedom_after_welch_and_satterthwaite() -> None:
    # HAND: u² = 2, ν = 2² / (1/4 + 1/9) = 11.08
    found = combine([Component("a", 1.0, dof=4), Component("b", 1.0, dof=9)])
    assert found.dof == pytest.approx(4 / (1 / 4 + 1 / 9))
    assert math.isinf(combine([Component("a", 1.0), Component("b", 2.0)]).dof)
    assert math.isinf(combine([Component("a", 0.0, dof=2)]).dof)


def test_what_is_correlated_counts_as_one_cause_with_the_fewest_degrees() -> None:
    pair = [Component("a", 1.0, dof=4), Component("b", 1.0, dof=9), Component("c", 3.0, dof=50)]
    found = combine(pair, correlation={("a", "b"): 0.5})
    # HAND: one cause of variance 1 + 1 + 2 · 0.5 = 3 with 4 degrees, another of 9 with 50
    assert found.dof == pytest.approx(12**2 / (3**2 / 4 + 9**2 / 50))
    assert [name for name, _ in found.parts] == ["a + b", "c"]


def test_a_chain_of_correlations_is_one_cause() -> None:
    three = [Component(name, 1.0, dof=5) for name in "abc"]
    found = combine(three, correlation={("a", "b"): 0.5, ("c", "b"): 0.5})
    assert [found.u, found.dof] == pytest.approx([math.sqrt(5), 5.0])


def test_expanded_by_a_factor_says_what_it_covers() -> None:
    found = expanded(Combined(1.0, math.inf, (), False))
    assert (found.value, found.factor) == (2.0, 2.0)
    assert found.probability == pytest.approx(0.9545, abs=5e-5)  # MEMORY: ± 2 σ
    few = expanded(Combined(1.0, 2.9, (), False))
    assert few.probability == pytest.approx(
        1 - 0.1835, abs=5e-5
    )  # HAND: 2 degrees, P = 1/√(1 + 2/t²) = 0.8165


def test_expanded_by_a_probability_takes_whole_degrees_below() -> None:
    # JCGM 100:2008, G.6.4 and table G.2: 4.99 degrees count as 4, t = 2.78
    assert expanded(Combined(1.0, 4.99, (), False), probability=0.95).factor == pytest.approx(2.78, abs=0.005)
    assert expanded(Combined(1.0, 0.9999999999 * 3, (), False), probability=0.95).factor == pytest.approx(
        3.18, abs=0.005
    )


def test_two_degrees_of_freedom_have_a_closed_form() -> None:
    # HAND: P(T > t) = (1 − t / √(t² + 2)) / 2 for two degrees of freedom
    for t in (-3.0, 0.0, 0.5, 2.92, 100.0):
        assert tail(t, dof=2) == pytest.approx((1 - t / math.sqrt(t**2 + 2)) / 2, rel=1e-9, abs=1e-12)


def test_small_risks_keep_their_digits() -> None:
    for risk in (1e-3, 1e-9, 1e-15):
        assert tail(one_sided_factor(risk)) == pytest.approx(risk, rel=1e-9)
        assert tail(one_sided_factor(risk, dof=3), dof=3) == pytest.approx(risk, rel=1e-9)
    assert one_sided_factor(1e-15) == pytest.approx(7.9413, abs=5e-5)  # MEMORY: normal tables


@pytest.mark.parametrize(
    ("cause", "message"),
    [
        (lambda: combine([]), "No component is given, so there is nothing to add up. "
         "Write at least one, like `scale: 3 µm rectangular; repeats: 1.2 µm dof=9`."),
        (lambda: Component("a", -1.0), "Component a: -1 cannot be: it is 0 or more. Check the figure and its sign."),
        (lambda: Component("a", math.nan), "Component a: nan is not a finite number. Give the number that was read."),
        (lambda: Component("a", 1.0, sensitivity=math.inf),
         "Sensitivity of a inf is not a finite number. Give the number that was read."),
        (lambda: Component("a", 1.0, factor=0.0), "Factor of a 0 cannot be: it is above 0. Check the figure and its sign."),
        (lambda: Component("a", 1.0, dof=0.5),
         "Degrees of freedom 0.5 cannot be: there is at least 1, readings less one (JCGM 100:2008, 4.2.6). "
         "Take more readings, or leave it out where the figure is well known."),
        (lambda: Component("a", 1.0, "round"),  # type: ignore[arg-type]
         "`round` is no distribution known here. Write one of: normal, rectangular, triangular, u-shaped."),
        (lambda: combine([Component("a", 1e200, sensitivity=1e200)]),
         "Component a, with its sensitivity: inf is not a finite number. Give the number that was read."),
        (lambda: coverage_factor(1.0), "Probability 1 cannot be used: it lies above 0 and below 1 "
         "(JCGM 100:2008, annex G). 0.95 is usual."),
        (lambda: combine([Component("a", 1.0)], correlation={("a", "b"): 0.5}),
         "Correlation: there is no component `b`. Write a name or a number of: a."),
        (lambda: combine([Component("a", 1.0), Component("a", 2.0)], correlation={("a", "a"): 0.5}),
         "Component `a` stands twice where two different ones are meant. Give each its own name."),
        (lambda: combine([Component("a", 1.0), Component("b", 2.0)], correlation={("a", "b"): 1.5}),
         "Correlation 1.5 of a and b cannot be: it lies from -1 to 1 (JCGM 100:2008, 5.2.2). "
         "1 is the same error twice, 0 nothing in common."),
        (lambda: combine([Component("a", 1.0, tag="t"), Component("b", 2.0, tag="t")], correlation={("a", "b"): 0.5}),
         "The correlation of a and b is given twice; a common tag counts as 1. Give it once."),
        (lambda: combine([Component(one, 1.0) for one in "abc"],
                         correlation={("a", "b"): 0.9, ("b", "c"): 0.9, ("a", "c"): -0.9}),
         "These correlations cannot hold together: the variance of some sum would be below 0 "
         "(JCGM 100:2008, 5.2.2). Check their signs: what is like two others is not unlike between them."),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(cause: Callable[[], object], message: str) -> None:
    with pytest.raises(InputError) as refused:
        cause()
    assert str(refused.value) == message


def test_correlations_at_their_very_ends_hold_together() -> None:
    three = [Component(one, 1.0) for one in "abc"]
    same = {("a", "b"): 1.0, ("b", "c"): 1.0, ("a", "c"): 1.0}
    assert combine(three, correlation=same).u == pytest.approx(3.0)
    with pytest.raises(uncertainty_errors.CorrelationsContradict):
        combine(three, correlation={**same, ("a", "c"): 0.9})
