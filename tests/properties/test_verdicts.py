"""Verdicts, whatever the figures are: order, symmetry, and what a better gauge cannot undo."""

import math

from hypothesis import assume, given
from hypothesis import strategies as st

from gudgeon.calc.metrology.verdict import judge, judge_interval

ORDER = {"inside": 0, "in doubt": 1, "outside": 2}
VALUES = st.floats(-10, 10)
UNCERTAINTIES = st.one_of(st.just(0.0), st.floats(1e-6, 5))
RISKS = st.sampled_from([0.001, 0.05, 0.2, 0.45])
DOFS = st.one_of(st.just(math.inf), st.sampled_from([1.0, 2.0, 4.5, 30.0]))


@given(VALUES, VALUES, UNCERTAINTIES, VALUES, RISKS, DOFS)
def test_further_beyond_a_limit_is_never_better(
    first: float, second: float, u: float, upper: float, risk: float, dof: float
) -> None:
    near, far = sorted((first, second))
    verdicts = [judge(one, u=u, upper=upper, risk=risk, dof=dof) for one in (near, far)]
    assert ORDER[verdicts[0].verdict] <= ORDER[verdicts[1].verdict]
    assert verdicts[0].probability_inside >= verdicts[1].probability_inside


@given(VALUES, VALUES, UNCERTAINTIES, st.floats(0, 10), RISKS)
def test_further_from_the_middle_is_never_better(
    first: float, second: float, u: float, half: float, risk: float
) -> None:
    near, far = sorted((abs(first), abs(second)))
    verdicts = [judge(one, u=u, lower=-half, upper=half, risk=risk).verdict for one in (near, far)]
    assert ORDER[verdicts[0]] <= ORDER[verdicts[1]]


@given(VALUES, UNCERTAINTIES, VALUES, VALUES, RISKS, DOFS)
def test_the_mirror_has_the_same_verdict(
    value: float, u: float, first: float, second: float, risk: float, dof: float
) -> None:
    lower, upper = sorted((first, second))
    seen = judge(value, u=u, lower=lower, upper=upper, risk=risk, dof=dof)
    mirrored = judge(-value, u=u, lower=-upper, upper=-lower, risk=risk, dof=dof)
    assert seen.verdict == mirrored.verdict
    assert math.isclose(seen.probability_inside, mirrored.probability_inside, rel_tol=1e-9, abs_tol=1e-15)


@given(VALUES, UNCERTAINTIES, VALUES, VALUES, RISKS)
def test_an_interval_of_no_width_is_a_reading(
    value: float, u: float, first: float, second: float, risk: float
) -> None:
    lower, upper = sorted((first, second))
    assume(
        upper - lower > 4 * u
    )  # closer together, an interval asks for one limit where a reading may use both
    reading = judge(value, u=u, lower=lower, upper=upper, risk=risk).verdict
    assert judge_interval(value, high=value, u=(u, u), lower=lower, upper=upper, risk=risk).verdict in (
        reading,
        "in doubt",
    )
    one_limit = judge(value, u=u, upper=upper, risk=risk)
    point = judge_interval(value, high=value, u=u, upper=upper, risk=risk)
    assert (point.verdict, point.guard_band) == (one_limit.verdict, one_limit.guard_band)
    # small chances are summed from the other side: the last digit may differ
    assert math.isclose(point.probability_inside, one_limit.probability_inside, rel_tol=1e-12, abs_tol=1e-15)


@given(VALUES, VALUES, VALUES, st.tuples(UNCERTAINTIES, UNCERTAINTIES), RISKS)
def test_a_wider_interval_never_proves_the_opposite(
    first: float, second: float, upper: float, u: tuple[float, float], risk: float
) -> None:
    low, high = sorted((first, second))
    narrow = judge_interval(low, high=high, u=u, upper=upper, risk=risk).verdict
    wide = judge_interval(low - 1, high=high + 1, u=u, upper=upper, risk=risk).verdict
    assert wide in (narrow, "in doubt")


@given(VALUES, UNCERTAINTIES, VALUES, RISKS)
def test_inside_and_outside_change_places_with_the_limit(
    value: float, u: float, limit: float, risk: float
) -> None:
    assume(value != limit)  # on the limit itself is inside from either side
    below, above = judge(value, u=u, upper=limit, risk=risk), judge(value, u=u, lower=limit, risk=risk)
    assert math.isclose(below.probability_inside + above.probability_inside, 1.0, abs_tol=1e-12)
    assert {below.verdict, above.verdict} in ({"inside", "outside"}, {"in doubt"})


@given(VALUES, VALUES, RISKS)
def test_without_uncertainty_nothing_is_in_doubt(value: float, limit: float, risk: float) -> None:
    found = judge(value, u=0.0, upper=limit, risk=risk)
    assert found.verdict == ("inside" if value <= limit else "outside")
    assert found.guard_band == 0.0


@given(VALUES, UNCERTAINTIES, st.floats(1.0, 3.0), VALUES, RISKS)
def test_a_better_gauge_never_changes_sides(
    value: float, u: float, worse: float, upper: float, risk: float
) -> None:
    coarse = judge(value, u=u * worse, upper=upper, risk=risk).verdict
    assert coarse in (judge(value, u=u, upper=upper, risk=risk).verdict, "in doubt")
