"""Uncertainties, repeats and sizes at 20 °C, whatever the figures are: bounds, order, and the way back."""

import math

from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc.metrology.propagation import Component, combine
from gudgeon.calc.metrology.repeats import mean_of, repeats_for_verdict
from gudgeon.calc.metrology.temperature import Expansion, Temperature, size_at_20
from gudgeon.calc.metrology.verdict import judge

SIZES = st.floats(1e-6, 1e3)


@given(st.lists(st.tuples(SIZES, st.floats(-3, 3)), min_size=1, max_size=6))
def test_the_order_of_the_components_does_not_count(rows: list[tuple[float, float]]) -> None:
    parts = [
        Component(str(i), size, sensitivity=c, tag="t" if i % 2 else "") for i, (size, c) in enumerate(rows)
    ]
    assert math.isclose(combine(parts).u, combine(parts[::-1]).u, rel_tol=1e-9, abs_tol=1e-9)


@given(st.lists(SIZES, min_size=2, max_size=6), st.floats(-1, 1))
def test_a_correlation_lies_between_cancelling_and_adding(sizes: list[float], r: float) -> None:
    parts = [Component(str(i), size) for i, size in enumerate(sizes)]
    found = combine(parts, correlation={("0", "1"): r}).u
    rest = math.hypot(*sizes[2:])
    slack = 1e-6 * sum(sizes)
    assert (
        math.hypot(sizes[0] - sizes[1], rest) - slack
        <= found
        <= math.hypot(sizes[0] + sizes[1], rest) + slack
    )


@given(st.lists(st.tuples(SIZES, st.floats(1, 1e4)), min_size=1, max_size=6))
def test_effective_degrees_lie_between_the_fewest_and_the_sum(rows: list[tuple[float, float]]) -> None:
    found = combine([Component(str(i), size, dof=dof) for i, (size, dof) in enumerate(rows)])
    assert min(dof for _, dof in rows) * (1 - 1e-9) <= found.dof <= sum(dof for _, dof in rows) * (1 + 1e-9)


@given(st.lists(st.floats(-1e3, 1e3), min_size=2, max_size=10), st.floats(-1e3, 1e3))
def test_a_shift_of_all_readings_shifts_their_mean_alone(readings: list[float], shift: float) -> None:
    first, second = mean_of(readings), mean_of([one + shift for one in readings])
    assert math.isclose(second.mean, first.mean + shift, abs_tol=1e-9)
    assert math.isclose(second.scatter, first.scatter, abs_tol=1e-9)


@given(st.floats(0.001, 1), st.floats(0, 1), st.floats(0.001, 1))
def test_promised_repeats_decide(distance: float, u_fixed: float, scatter: float) -> None:
    count = repeats_for_verdict(-distance, u_fixed=u_fixed, scatter=scatter, upper=0.0)
    if count is None:
        own = scatter / math.sqrt(1000)
        u = math.hypot(u_fixed, own)
        assert judge(-distance, u=u, upper=0.0, dof=999 * (u / own) ** 4).verdict == "in doubt"
    else:
        own = scatter / math.sqrt(count)
        u = math.hypot(u_fixed, own)
        assert judge(-distance, u=u, upper=0.0, dof=(count - 1) * (u / own) ** 4).verdict == "inside"


@given(st.floats(1, 500), st.floats(-40, 200), st.floats(-40, 200), st.floats(0, 3e-5), st.floats(0, 3e-5))
def test_a_size_measured_warm_comes_back(
    size: float, part: float, gauge: float, alpha: float, beta: float
) -> None:
    """Grown by its own expansion and read on a scale that has grown too, it is the size again."""
    read = size * (1 + alpha * (part - 20)) / (1 + beta * (gauge - 20))
    found = size_at_20(
        read,
        part=Temperature(part),
        gauge=Temperature(gauge),
        part_expansion=Expansion(alpha),
        gauge_expansion=Expansion(beta),
    )
    assert math.isclose(found.length_mm, size, rel_tol=1e-12)
    assert math.isclose(found.first_order_mm, size, rel_tol=1e-4)
