"""Files of points: what is read, and what is refused with its line and column."""

from pathlib import Path

import pytest

from gudgeon.errors import InputError
from gudgeon.quantity.errors import UnknownUnit
from gudgeon.written import points
from gudgeon.written import points_errors as refused
from gudgeon.written.points import parse_points, read_points

PLAIN = [(1.0, 2.0, 3.0), (4.5, 5.0, -6.0)]


@pytest.mark.parametrize(
    "text",
    [
        "1,2,3\n4.5,5,-6\n",
        "1, 2, 3\r\n4.5, 5, -6",
        "x,y,z\n1,2,3\n4.5,5,-6\n",
        "X mm,Y mm,Z mm\n1,2,3\n4.5,5,-6\n",
        "x [mm],y [mm],z [mm]\n1,2,3\n4.5,5,-6\n",
        "x (mm);y (mm);z (mm)\n1;2;3\n4.5;5;-6\n",
        "x_mm\ty_mm\tz_mm\n1\t2\t3\n4.5\t5\t-6\n",
        "# scanned\n\nx,y,z\n1,2,3\n\n# a remark\n4.5e0,5,-6\n",
        "1 2 3\n4.5   5 -6\n",
        "x mm y mm z mm\n1 2 3\n4.5 5 -6\n",
        "1;2;3\n4,5;5;-6\n",
        '"1,0","2,0","3,0"\n"4,5","5,0","-6,0"\n',
        "z,x,y\n3,1,2\n-6,4.5,5\n",
        "number,x,y,z\na,1,2,3\nb,4.5,5,-6\n",
        "\ufeffx,y,z\n1,2,3\n4.5,5,-6\n".encode().decode("utf-8-sig"),
    ],
)
def test_points_are_read_however_they_are_parted(text: str) -> None:
    found = parse_points(text, file="f.csv", unit_else="mm")
    assert list(found.rows()) == PLAIN
    assert (found.unit, len(found)) == ("mm", 2)


def test_inches_become_millimeters_and_the_unit_is_told() -> None:
    found = parse_points("x in,y in,z in\n1,2,0.003\n", file="f.csv", unit_else="mm")
    assert (list(found.rows()), found.unit) == ([(25.4, 50.8, 0.0762)], "in")
    assert list(parse_points("1,2,3\n", file="f.csv", unit_said="thou").rows()) == [(0.0254, 0.0508, 0.0762)]


def test_lines_and_columns_are_kept_and_the_caller_names_the_columns() -> None:
    found = parse_points(
        "# a\ngroup;x;y\nA;0,5;1\n\nB;1,5;2\n", file="f.csv", columns=("x", "y"), unit_else="mm"
    )
    assert list(found.column("x")) == [0.5, 1.5]
    assert list(found.lines) == [3, 5]
    assert found.left_out == ("group",)


REFUSED: list[tuple[str, type[InputError], str]] = [
    ("", refused.PointsFileEmpty, "f.csv, line 1: The file is empty. Write one line for each point, with x, y and z."),
    ("x,y,z\n\n", refused.NoPoints, "f.csv, line 3: There is a header and no point below it. Write one line for each point, with x, y and z."),
    ("1,2,3\n4,,6\n", refused.CellBlank, "f.csv, line 2, column 3: y is blank. Give the figure that was read, or leave the whole line out."),
    ("1,2,3\n4, five,6\n", refused.CellNotNumber,
     "f.csv, line 2, column 4: y is `five`, which is not a number. Write a plain number like 0.05; units stand in the header."),
    ("1,2,3\n4,1_0,6\n", refused.CellNotNumber,
     "f.csv, line 2, column 3: y is `1_0`, which is not a number. Write a plain number like 0.05; units stand in the header."),
    ("1,2,3\n4,5,0.1 mm\n", refused.CellNotNumber,
     "f.csv, line 2, column 5: z is `0.1 mm`, which is not a number. Write a plain number like 0.05; units stand in the header."),
    ("1,2,3\n4,5,NaN\n", refused.CellNotFinite,
     "f.csv, line 2, column 5: z is `NaN`, which is no reading. Give the figure that was read, or leave the whole line out."),
    ("1,2,3\n-inf,5,6\n", refused.CellNotFinite,
     "f.csv, line 2, column 1: x is `-inf`, which is no reading. Give the figure that was read, or leave the whole line out."),
    ("1,2,3\n4,5e7,6\n", refused.CellBeyondReason,
     "f.csv, line 2, column 3: y is `5e+07` mm, and at most 1,000,000 mm is taken. Check the figure and the unit."),
    ("1,2,3\n4,5\n", refused.CellsMiscounted, "f.csv, line 2: 2 cells where 3 are expected. Write x, y and z on each line, parted by commas."),
    ("1\n", refused.CellsMiscounted, "f.csv, line 1: 1 cell where 3 are expected. Write x, y and z on each line, parted by commas."),
    ("1,5,2,5,0,01\n", refused.CommaInsideNumbers,
     "f.csv, line 1: 6 cells where 3 are expected: is the comma a decimal sign here? It parts the cells too, so nobody can "
     "tell. Save the table with semicolons between the cells, or with decimal points."),
    ("1,234;2;3\n", refused.CommaUnclear,
     "f.csv, line 1, column 1: `1,234` can mean 1.234 or 1234, and no other figure of the file tells. Write decimals with a point."),
    ("1.5;2;3\n1;2,5;3\n", refused.DecimalSignsMixed,
     "f.csv, line 2, column 3: `2,5` has a decimal comma and `1.5` a decimal point: one of them means something else. "
     "Write all decimals with a point."),
    ("x mm,y mm,z in\n1,2,3\n", refused.PointsUnitsDiffer, "f.csv, line 1: The header says mm and in: all columns have one unit. Convert the others."),
    ("x,y,height\n1,2,3\n", refused.ColumnMissing,
     "f.csv, line 1: The header has no column `z`; it has `x`, `y`, `height`. Name it so, or leave the header out."),
    ("x,y,z,z\n1,2,3,4\n", refused.ColumnTwice, "f.csv, line 1: The header has two columns `z`. Keep one."),
    ("x furlong,y,z\n1,2,3\n", UnknownUnit,
     "f.csv, line 1: `furlong` is not a known unit of length. Known: mm, in, µm, thou, cm, m, ft, µin, nm."),
]  # fmt: skip


@pytest.mark.parametrize(("text", "error", "told"), REFUSED, ids=[one.__name__ for _, one, _ in REFUSED])
def test_what_cannot_be_read_is_refused_with_its_place(text: str, error: type[InputError], told: str) -> None:
    with pytest.raises(error) as caught:
        parse_points(text, file="f.csv", unit_else="mm")
    assert str(caught.value) == told


def test_no_unit_is_guessed() -> None:
    with pytest.raises(refused.PointsUnitMissing) as caught:
        parse_points("1,2,3\n", file="f.csv")
    assert str(caught.value) == (
        "f.csv, line 1: No unit is said for these points, and none is guessed. "
        "Begin the file with a header like `x mm,y mm,z mm`."
    )


def test_a_unit_that_the_header_contradicts_is_refused() -> None:
    with pytest.raises(refused.PointsUnitContradicts) as caught:
        parse_points("x mm,y mm,z mm\n1,2,3\n", file="f.csv", unit_said="in")
    assert str(caught.value) == (
        "f.csv, line 1: The header says mm, but in is given as the unit. Give no unit, or mend the header."
    )


def test_files_that_are_not_there_no_text_or_too_large(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    missing, workbook, large = (tmp_path / name for name in ("missing.csv", "workbook.csv", "large.csv"))
    workbook.write_bytes(b"1,2,3\n4,\xff\xfe,6\n")
    large.write_text("1,2,3\n" * 10, encoding="utf-8")
    monkeypatch.setattr(refused, "MOST_BYTES", 50)
    for path, error, told in (
        (
            missing,
            refused.PointsFileMissing,
            f"{missing}: there is no such file. Check its name, and the folder it is sought from.",
        ),
        (
            workbook,
            refused.PointsNotUtf8,
            f"{workbook}, line 2: This is not text in UTF-8. Save the table as CSV in UTF-8, not as a workbook.",
        ),
        (
            large,
            refused.PointsFileTooLarge,
            f"{large}: 60 bytes is more than the 50 bytes a file of points may have (about two million points). Leave out every second point.",
        ),
    ):
        with pytest.raises(error) as caught:
            read_points(path)
        assert str(caught.value) == told


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(
        refused.PointsFileUnreadable, match=r"cannot be read \(.+\)\. Give a file that you may read\.$"
    ):
        read_points(tmp_path)


def test_a_byte_order_mark_is_no_part_of_the_header(tmp_path: Path) -> None:
    file = tmp_path / "face.csv"
    file.write_text("x mm,y mm,z mm\n1,2,3\n4.5,5,-6\n", encoding="utf-8-sig")
    assert list(read_points(file).rows()) == PLAIN


def test_a_large_file_is_read_as_a_small_one() -> None:
    """Both ways of reading, at once and line by line (a remark with a figure in words), give the same."""
    lines = [f"{k},{k / 7:.6f},{-k / 3:.6f}" for k in range(20_000)]
    whole = parse_points("\n".join(lines), file="f.csv", unit_else="mm")
    careful = parse_points(
        "id,x,y,z\n" + "\n".join(f"p{line},".rstrip(",").replace("p", "p,", 1) for line in lines),
        file="f.csv",
        unit_else="mm",
    )
    assert whole.flat == careful.flat
    assert list(whole.lines) == list(range(1, 20_001))


@pytest.mark.parametrize(
    "text",
    [
        "x,y,z\n" + "1,2,3\n4.5,5,-6\n" * 7,
        "x;y;z\n" + "1;2;3\n\n# a remark\n4,5;5;-6\n" * 7,
        '"x","y","z"\n' + '"1","2","3"\n"4.5","5","-6"\n' * 7,
    ],
    ids=["plain", "decimal commas", "quoted"],
)
def test_who_is_told_how_far_it_is_reads_the_same(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    at_once = parse_points(text, file="f.csv", unit_else="mm")
    monkeypatch.setattr(points, "PIECE", 3)
    told: list[tuple[int, int]] = []
    in_pieces = parse_points(
        text, file="f.csv", unit_else="mm", told=lambda part, whole: told.append((part, whole))
    )
    assert in_pieces == at_once
    assert list(in_pieces.rows()) == PLAIN * 7
    assert len(told) > 2
    assert {whole for _, whole in told} == {text.count("\n") + 1}
    assert all(0 <= part <= whole for part, whole in told)


def test_a_line_far_down_is_refused_with_its_place_in_pieces_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(points, "PIECE", 3)
    with pytest.raises(refused.CellNotNumber) as caught:
        parse_points("x,y,z\n" + "1,2,3\n" * 11 + "1,b,3\n", file="f.csv", unit_else="mm")
    assert (caught.value.place.line, caught.value.place.column) == (13, 3)  # type: ignore[union-attr]


def test_who_is_told_may_end_the_reading() -> None:
    class Enough(Exception):
        pass

    def told(part: int, whole: int) -> None:
        raise Enough

    with pytest.raises(Enough):
        parse_points("x,y,z\n1,2,3\n", file="f.csv", unit_else="mm", told=told)
