"""Columns of a table: no word broken that need not be, and room where it saves lines."""

import pytest

from gudgeon.paper.column_widths import ACROSS, LONGEST_WORD, shares


def lines(rows: list[list[str]], widths: list[float]) -> float:
    """HAND: how many lines the rows take, as if every letter were as wide as another."""
    return sum(
        max(max(1.0, len(cell) / width) for cell, width in zip(row, widths, strict=True)) for row in rows
    )


def test_a_long_text_beside_short_ones_gets_the_room() -> None:
    rows = [["No.", "What", "Who"], *([str(number), "word " * 40, "Robin"] for number in range(20))]
    number, what, who = shares(rows)
    assert what > ACROSS - 20
    assert (number, who) == (5.0, 7.0)


def test_an_empty_column_gets_no_more_than_its_head() -> None:
    found = shares([["Place", "As left", "Why"], ["cylinder 1", "", "x " * 60]])
    assert found[1] == 9.0


def test_an_hour_with_its_day_is_one_word() -> None:
    assert shares([["When", "What"], ["2026-11-29 10:41", "x " * 300]])[0] >= len("2026-11-29 10:41")


def test_a_figure_with_its_unit_is_one_word() -> None:
    assert shares([["Sum", "What"], ["104.60 EUR", "x " * 300]])[0] >= len("104.60 EUR")


@pytest.mark.parametrize("columns", [1, 3, 8])
def test_words_without_end_leave_room_for_the_others(columns: int) -> None:
    found = shares([["head"] * columns, ["x" * 500] + ["y" * 500] * (columns - 1)])
    assert all(one >= LONGEST_WORD for one in found)


def test_no_even_division_takes_fewer_lines() -> None:
    rows = [
        ["A", "B", "C"],
        ["a few words here", "word " * 30, "word " * 12],
        ["one", "word " * 25, "word " * 3],
    ]
    assert lines(rows, shares(rows)) <= lines(rows, [ACROSS / 3] * 3)
