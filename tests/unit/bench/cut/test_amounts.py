"""Amounts in both systems: what is not nothing is never printed as nothing."""

import pytest

from gudgeon.bench.cut.words import mm


@pytest.mark.parametrize(
    ("value", "said"),
    [
        # HAND: 1 in = 25.4 mm; 0.00254 / 25.4 = 0.00010, 0.0006 / 25.4 = 0.000024
        (0.00254, "0.003 mm (0.00010 in)"),
        (0.0006, "0.001 mm (0.000024 in)"),
        (0.14, "0.14 mm (0.0055 in)"),
        (0.0, "0.00 mm (0 in)"),
        (0.0004, "0.00 mm (0 in)"),
    ],
)
def test_a_small_amount_is_not_printed_as_nothing(value: float, said: str) -> None:
    assert mm(value) == said
