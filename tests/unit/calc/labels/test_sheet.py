"""Sheets by their measures: derived, placed, refused with the figures."""

import pytest

from gudgeon.calc.errors import Negative, NotPositive
from gudgeon.calc.labels.errors import NoLabels, SheetTooSmall, StartOutside
from gudgeon.calc.labels.sheet import LabelSheet, label_sheet, places

A4 = {"width_mm": 210.0, "height_mm": 297.0}


def sheet(**measures: float) -> LabelSheet:
    """Three by eight on A4, but for what is said."""
    usual = {**A4, "label_width_mm": 63.5, "label_height_mm": 33.9, "columns": 3, "rows": 8}
    return label_sheet(**{**usual, **measures})  # type: ignore[arg-type]


def test_what_is_not_given_follows() -> None:
    """HAND: 3 · 63.5 = 190.5; 210 − 190.5 = 19.5; 8 · 33.9 = 271.2; 297 − 271.2 = 25.8."""
    bare = sheet()
    assert (bare.left_mm, bare.gap_across_mm, round(bare.top_mm, 9)) == (9.75, 0.0, 12.9)
    gaps = sheet(gap_across_mm=2.5)
    assert (gaps.left_mm, gaps.right_mm) == (7.25, 7.25)
    margin = sheet(left_mm=7.0)
    assert (margin.gap_across_mm, margin.right_mm) == (2.75, 7.0)
    both = sheet(left_mm=5.0, gap_across_mm=2.0)
    assert (both.left_mm, both.right_mm) == (5.0, 10.5)
    assert sheet(columns=1, left_mm=4.0, gap_across_mm=3.0).gap_across_mm == 0.0


def test_a_sheet_that_is_too_small_is_refused_with_its_figures() -> None:
    with pytest.raises(SheetTooSmall) as refused:
        sheet(label_width_mm=70.0, left_mm=5.0, gap_across_mm=2.0)
    assert str(refused.value) == (
        "The labels do not fit: 3 columns of 70 mm, 2 gaps of 2 mm and a left margin of 5 mm take 219.00 mm, and the "
        "sheet is 210.00 mm wide. Take fewer columns, narrower labels, smaller gaps, or measure the sheet again."
    )
    with pytest.raises(SheetTooSmall) as refused:
        sheet(rows=9)
    assert str(refused.value) == (
        "The labels do not fit: 9 rows of 33.9 mm take 305.10 mm, and the sheet is 297.00 mm high. "
        "Take fewer rows, lower labels, smaller gaps, or measure the sheet again."
    )
    with pytest.raises(NoLabels) as none:
        sheet(columns=0)
    assert str(none.value) == (
        "0 columns × 8 rows is no sheet of labels: of each there are 1 to 50. Count the labels side by side, and those "
        "one below the other."
    )
    for measures, error in (
        ({"label_width_mm": 0.0}, NotPositive),
        ({"top_mm": -1.0}, Negative),
        ({"gap_down_mm": -1.0}, Negative),
    ):
        with pytest.raises(error):
            sheet(**measures)


def test_labels_stand_row_by_row_from_the_first_that_is_there() -> None:
    """HAND: from row 8, column 2 two are left on the first sheet; 2 + 24 + 1 = 27."""
    made = sheet(gap_across_mm=2.5)
    at = places(made, count=27, row=8, column=2)
    assert [(one.sheet, one.row, one.column) for one in at[:3]] == [(1, 8, 2), (1, 8, 3), (2, 1, 1)]
    assert (at[-1].sheet, at[-1].row, at[-1].column) == (3, 1, 1)
    assert (at[0].left_mm, round(at[0].top_mm, 6)) == (7.25 + 66.0, 12.9 + 7 * 33.9)
    assert len({(one.sheet, one.row, one.column) for one in at}) == 27
    assert places(made, count=0) == ()


@pytest.mark.parametrize(("row", "column"), [(9, 1), (1, 4), (0, 1)])
def test_a_start_beside_the_sheet_is_refused(row: int, column: int) -> None:
    with pytest.raises(StartOutside) as refused:
        places(sheet(), count=1, row=row, column=column)
    assert str(refused.value) == (
        f"Row {row}, column {column} is not on this sheet: it has 8 rows and 3 columns, counted from 1 at the top left. "
        "Name the row and the column of the first label that is still there."
    )
