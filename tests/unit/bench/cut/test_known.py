"""Values put together by the law of propagation. HAND: derived in the comments."""

import math

import pytest

from gudgeon.bench.budget import Component
from gudgeon.bench.cut.known import Known, printed, rectangular, total, worked_out
from gudgeon.bench.cut.words import plus_minus, verdict
from gudgeon.quantity.errors import BoundOpen
from gudgeon.quantity.written import parse_printed


def known(value: float, u: float, tag: str) -> Known:
    return Known(value, (Component(tag, u, tag=tag),))


@pytest.mark.parametrize(
    ("text", "value", "half"),
    [
        ("0.90 mm", 0.90, 0.005),  # half of its last digit
        ("0.90 ± 0.02 mm", 0.90, 0.02),
        ("0.50–0.70 mm", 0.60, 0.10),
        ("0.9 +0.1/-0.3 mm", 0.9, 0.3),  # the farther side
    ],
)
def test_printed_figures_are_rectangular_over_what_is_printed(text: str, value: float, half: float) -> None:
    found = printed(parse_printed(text, kind="length_difference"), unit="mm", tag="gasket")
    assert found.value == pytest.approx(value)
    assert found.u == pytest.approx(half / math.sqrt(3))


def test_a_bound_is_no_value() -> None:
    with pytest.raises(BoundOpen):
        printed(parse_printed("max 0.90 mm", kind="length_difference"), unit="mm", tag="gasket")


def test_independent_causes_add_up_squared_and_shared_ones_cancel() -> None:
    one, other = known(3.0, 0.3, "a"), known(2.0, 0.4, "b")
    assert total([(1.0, one), (-1.0, other)]).u == pytest.approx(0.5)  # √(0.3² + 0.4²)
    assert total([(1.0, one), (-1.0, one)]).u == 0.0
    assert total([(1.0, one), (1.0, one)]).u == pytest.approx(0.6)


def test_a_law_of_several_values() -> None:
    # x · y at 3 and 2: √((2 · 0.3)² + (3 · 0.4)²) = √(0.36 + 1.44) = 1.3416.
    found = worked_out(lambda x, y: x * y, {"x": known(3.0, 0.3, "a"), "y": known(2.0, 0.4, "b")})
    assert found.value == pytest.approx(6.0)
    assert found.u == pytest.approx(1.341641, abs=1e-6)
    # The same reading twice is one cause: (2 + 3) · 0.3 with x in both would be 2 · 3 · 0.3 for a square.
    x = known(3.0, 0.3, "a")
    assert worked_out(lambda x, y: x * y, {"x": x, "y": x}).u == pytest.approx(1.8)


def test_over_a_bend_the_mean_slope_counts() -> None:
    # max(x, 0) at 0 over ± 0.2: (0.2 − 0) / 0.4 = 1/2.
    found = worked_out(lambda x: max(x, 0.0), {"x": known(0.0, 0.2, "a")})
    assert found.value == 0.0
    assert found.u == pytest.approx(0.1)


def test_what_nobody_states_stays_unsure() -> None:
    unsure = Known(1.0, (), certain=False)
    assert not total([(1.0, unsure), (1.0, known(1.0, 0.1, "a"))]).certain


def test_words_of_a_value() -> None:
    assert (
        plus_minus(known(0.14, 0.0125, "a"), kind="length_difference")
        == "0.14 ± 0.03 mm (0.0055 ± 0.0010 in)"
    )
    assert (
        plus_minus(known(1.005, 0.0083, "a"), kind="length_difference")
        == "1.005 ± 0.017 mm (0.0396 ± 0.0007 in)"
    )
    assert plus_minus(Known(0.2), kind="length_difference") == "0.20 mm (0.0079 in)"
    assert plus_minus(known(9.92, 0.02, "a"), kind="ratio") == "9.92 ± 0.04"
    assert plus_minus(rectangular(1.0, half_width=0.0, name="a", tag="a"), kind="ratio") == "1.00"


@pytest.mark.parametrize(
    ("value", "upper", "said"),
    [(1.2, False, "inside"), (1.1, False, "in doubt: measure it"), (0.9, False, "in doubt: measure it"),
     (0.7, False, "outside"), (0.8, True, "inside"), (0.9, True, "in doubt: measure it"), (1.3, True, "outside")],
)  # fmt: skip
def test_a_limit_is_kept_surely_only_with_all_of_the_uncertainty_inside(
    value: float, upper: bool, said: str
) -> None:
    # U = 0.2 on a limit of 1.0.
    assert verdict(known(value, 0.1, "a"), limit=1.0, upper=upper, measure="measure it") == said
