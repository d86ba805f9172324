"""No message carries a whole file: what is refused is cut to 60 characters, and of many columns the first are named."""

import pytest

from gudgeon.errors import GudgeonError
from gudgeon.written.points import parse_points


@pytest.mark.parametrize(
    "text",
    [
        "x mm,y mm,z mm\n0,0," + "0" * 500_000 + "x\n", "0" * 500_000, "0" * 500_000 + "x", "\x00" * 500_000,
        ",".join(f"c{number}" for number in range(100_000)),
        "x mm,y mm,z " + "m" * 500_000 + "\n1,2,3\n", "x mm,y mm,z mm\n0,0," + "9" * 300_000 + "\n",
    ],
)  # fmt: skip
def test_whatever_stands_in_a_file_its_refusal_stays_short(text: str) -> None:
    with pytest.raises(GudgeonError) as refused:
        parse_points(text, file="deck.csv", unit_said="mm")
    assert len(str(refused.value)) < 700


def test_a_long_cell_is_cut_and_a_short_one_is_not() -> None:
    with pytest.raises(GudgeonError) as refused:
        parse_points("x mm,y mm,z mm\n0,0," + "ab" * 40 + "\n", file="deck.csv")
    # HAND: 59 characters of the cell, and a mark that something was cut.
    assert str(refused.value) == (
        f"deck.csv, line 2, column 5: z is `{'ab' * 29}a…`, which is not a number. Write a plain number like 0.05; units "
        "stand in the header."
    )
