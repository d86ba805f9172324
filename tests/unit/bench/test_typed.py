"""What a gauge or a phone types: a decimal comma is read where it can mean nothing else."""

import pytest

from gudgeon.bench.typed import with_a_point


@pytest.mark.parametrize(
    ("said", "kind", "unit", "read"),
    [
        ("81,66", "length", "mm", "81.66"),
        ("81,660", "length", "mm", "81.660"),
        ("3,2150 in", "length", "mm", "3.2150 in"),
        (",05", "length_difference", "mm", ".05"),
        ("-0,012mm", "length_difference", "mm", "-0.012mm"),
        ("–0,012", "length_difference", "mm", "-0.012"),
        ("\t81.66\r\n", "length", "mm", "81.66"),
        ("1,250", "length_difference", "µm", "1,250"),  # 1.25 µm or 1250 µm: nobody knows
        ("1,250", "pressure_gauge", "kPa", "1,250"),
        ("12,5", "pressure_gauge", "bar", "12.5"),
        ("0,250", "volume", "cm³", "0.250"),
        ("1.234,5", "length", "mm", "1.234,5"),
        ("1,234,567", "length", "mm", "1,234,567"),
        ("", "length", "mm", ""),
        ("none", "length", "mm", "none"),
    ],
)
def test_a_comma_is_the_decimal_one_where_it_can_be_nothing_else(
    said: str, kind: str, unit: str, read: str
) -> None:
    assert with_a_point(said, kind=kind, unit=unit) == read
