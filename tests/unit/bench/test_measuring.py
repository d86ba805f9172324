"""Lines that are typed, tables that are filled in, faces that are scanned: all of it or nothing, and once.

What is expected of figures is HAND: what stands in the lines of the test; texts are those that are owed for them.
"""

from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.face_file import take_face
from gudgeon.bench.measuring import items_of, sheet_of, typed, write_reading
from gudgeon.bench.measuring_errors import (
    ColumnsUnknown,
    IntervalUnreadable,
    NoFace,
    NothingFilled,
    NotMeasured,
    TableMissing,
    TableRefused,
    TooManyPoints,
    TravelTooFar,
)
from gudgeon.bench.measuring_table import Filled, Usual, blank_table, fill
from gudgeon.bench.record import Recorded
from gudgeon.bench.scans import scanned
from gudgeon.bench.sent_before import NOT_AGAIN, SENT_BEFORE
from gudgeon.errors import GudgeonError
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.bench.test_budget import GAUGES, SHEET


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(
        tmp_path, sheet=SHEET, kit=KIT[: KIT.index("gauges:")] + GAUGES + KIT[KIT.index("turning:") :]
    )
    made.read_code()
    return made


@pytest.mark.parametrize(
    ("line", "fields"),
    [
        ("81.65", {"value": "81.65"}),
        (" +81.65 mm ", {"value": "+81.65 mm"}),
        ("0.05/0.06", {"low": "0.05", "high": "0.06"}),
        ("0.05 / 0.06 mm", {"low": "0.05 mm", "high": "0.06 mm"}),
        ("0.05 mm/0.06 mm", {"low": "0.05 mm", "high": "0.06 mm"}),
        ("<0.05", {"high": "0.05"}),
        ("<= 0.05 mm", {"high": "0.05 mm"}),
        ("> 0.05 in", {"low": "0.05 in"}),
        ("≥0.05", {"low": "0.05"}),
        ("8.165 !", {"value": "8.165", "sure": True}),
        ("<0.05!", {"high": "0.05", "sure": True}),
    ],
)
def test_what_a_line_says(line: str, fields: dict[str, Any]) -> None:
    assert typed(line) == fields


@pytest.mark.parametrize("line", ["0.05/", "/0.06", "0.05/mm"])
def test_half_an_interval_is_refused(line: str) -> None:
    with pytest.raises(IntervalUnreadable) as refused:
        typed(line)
    assert str(refused.value) == (
        f"`{line}` cannot be read. Write a value with its unit, or what enters and what does not like `0.05/0.06 mm`, or "
        "one end like `<0.05 mm` (does not enter) or `>0.05 mm` (enters)."
    )


def test_a_part_has_all_that_is_read_of_it_with_a_gauge(job: Job) -> None:
    bench = job.bench()
    assert items_of(bench, "block") == ("bore", "pressure", "deck")  # out-of-round is worked out
    assert items_of(bench, "Block") == items_of(bench, "block")
    assert items_of(bench, "journal") == ("journal",)
    with pytest.raises(NotMeasured) as refused:
        items_of(bench, "clearance")
    assert str(refused.value) == (
        "Nothing of `clearance` is read with a gauge: Clearance is worked out from Cylinder bore and Piston."
    )


def test_a_bare_figure_is_in_the_unit_of_the_gauge_else_of_the_sheet(job: Job) -> None:
    bench = job.bench()
    of = sheet_of(bench, "bore", condition="as found", gauge="bore_gauge")
    assert (of.unit, of.gauge_name, of.limits) == ("mm", "bore gauge", ("new range 70.00–70.02 mm",))
    assert [one.words for one in of.places][:2] == ["cylinder 1, top, across", "cylinder 1, top, along"]
    assert sheet_of(bench, "pressure", condition="as found", gauge="micrometer").unit == "kPa"
    assert sheet_of(bench, "deck", condition="as found").limits == ("wear limit max 0.10 mm",)


# Tables

HEAD = "item,place,value,unit,gauge,condition,part_temperature,gauge_temperature,repeats,note\n"


def taken(job: Job, text: str, what: str = "block", **usual: Any) -> Filled:
    file = job.book.parent / "filled.csv"
    file.write_text(text, encoding="utf-8")
    bench = open_bench(job.book, now=job.now)
    try:
        return fill(bench, what, file=file, usual=Usual(**usual))
    finally:
        bench.store.close()


def test_the_blank_table_filled_in_is_taken_over_whole(job: Job) -> None:
    text = blank_table(job.bench(), "block")
    assert text.startswith(HEAD + 'bore,"cylinder 1, top, across",,mm,')
    filled = text.replace('top, across",,mm,', 'top, across",70.01,mm,').replace(
        "deck,along,,", "deck,along,0.03/0.04,"
    )
    done = taken(job, filled, gauge="feelers")
    assert done.readings == 3
    readings = job.bench().state.readings
    assert readings["bore", "cylinder 1, top, across", "as found"].value == "70.01"
    assert readings["bore", "cylinder 2, top, across", "as found"].value == "70.01"
    assert readings["deck", "along", "as found"].low == "0.03"
    assert readings["deck", "along", "as found"].instrument == "feelers"


def test_a_table_of_a_spreadsheet_with_semicolons_and_all_columns(job: Job) -> None:
    done = taken(
        job,
        "Item;Value;Place;Part temperature;Gauge temperature;Condition;Repeats;Note\n"
        "bore;70.01 mm;1 top across;24 °C;same as part;as left;70.02 70.03;warm\n\n",
    )
    assert done.readings == 1
    found = job.bench().state.readings["bore", "cylinder 1, top, across", "as left"]
    assert (found.value, found.repeats) == ("70.0200", ("70.01", "70.02", "70.03"))
    assert (found.part_temperature, found.gauge_as_part) == ("24", True)


def test_the_same_file_sent_twice_counts_once(job: Job) -> None:
    text = HEAD + "bore,1 top across,70.01,mm,,,,,,\nbore,1 top along,70.02,mm,,,,,,\n"
    taken(job, text)
    count = job.bench().state.count
    again = taken(job, text)
    assert again.last.remarks == (SENT_BEFORE,)
    assert job.bench().state.count == count
    taken(job, text, condition="as left")  # another fact
    assert job.bench().state.count == count + 2


def test_every_wrong_cell_is_told_with_line_and_column_and_nothing_is_written(job: Job) -> None:
    text = HEAD + (
        "bore,1 top across,70.01,mm,,,,,,\n"
        "boar,1 top across,70.01,mm,,,,,,\n"
        "bore,9 top across,70.01,mm,laser,sometimes,240 °C,,,\n"
        "bore,1 top along,2.757,mm,,,,,,\n"
        "bore,1 bottom along,70.01,,,,,,,\n"
        "deck,along,0.04/0.03,mm,,,,,,\n"
        "piston,1,69.95,mm,,,,,,\n"
        "bore,1 bottom across,nan,mm,,,,,,\n"
    )
    count = job.bench().state.count
    with pytest.raises(TableRefused) as refused:
        taken(job, text)
    lines = str(refused.value).replace(str(job.book.parent) + "/", "").splitlines()
    assert [line.partition(": ")[0] for line in lines[:-1]] == [
        "filled.csv, line 3, column 1 (item)",
        "filled.csv, line 4, column 2 (place)",
        "filled.csv, line 4, column 5 (gauge)",
        "filled.csv, line 4, column 6 (condition)",
        "filled.csv, line 4, column 7 (part_temperature)",
        "filled.csv, line 5, column 3 (value)",
        "filled.csv, line 6, column 3 (value)",
        "filled.csv, line 7, column 3 (value)",
        "filled.csv, line 8, column 1 (item)",
        "filled.csv, line 9, column 3 (value)",
    ]
    assert "Was it read in inches?" in lines[5]
    assert lines[6].endswith("`70.01` has no unit. Write it with one of: mm, in, µm, thou (length).")
    assert "the blade that enters is thicker than the one that does not" in lines[7]
    assert lines[-1] == "10 cells are refused, so nothing of the table was recorded."
    assert job.bench().state.count == count


def test_a_place_that_stands_there_twice_is_refused(job: Job) -> None:
    with pytest.raises(TableRefused) as refused:
        taken(
            job,
            HEAD
            + "bore,1 top across,70.01,mm,,,,,,\nbore,1 across top,70.02,mm,,,,,,\nbore,1 top across,70.03,mm,,,,,,\n",
        )
    assert "line 3, column 2 (place)" in str(refused.value)  # the words stand in another order: no such place
    with pytest.raises(TableRefused) as refused:
        taken(job, HEAD + "bore,1 top across,70.01,mm,,,,,,\nbore,1 top across,70.02,mm,,,,,,\n")
    assert str(refused.value).endswith(
        "line 3, column 2 (place): this place stands in line 2 already; write repeats into `repeats`\n"
        "1 cell is refused, so nothing of the table was recorded."
    )


@pytest.mark.parametrize(
    ("text", "error", "said"),
    [
        (HEAD + "bore,1 top across,,mm,,,,,,\n", NothingFilled, "filled.csv has no row with a value: fill in the column `value`. Nothing was recorded."),
        ("item,place,figure\nbore,1,2\n", ColumnsUnknown, "filled.csv, line 1: column not known: `figure`; column missing: `value`. The columns are: item, place, value, unit, gauge, condition, part_temperature, gauge_temperature, repeats, note. Nothing was recorded."),
        ("item,value,value\nbore,1,2\n", ColumnsUnknown, "filled.csv, line 1: a column stands there twice. The columns are: item, place, value, unit, gauge, condition, part_temperature, gauge_temperature, repeats, note. Nothing was recorded."),
    ],
)  # fmt: skip
def test_a_table_that_is_none(job: Job, text: str, error: type[GudgeonError], said: str) -> None:
    with pytest.raises(error) as refused:
        taken(job, text)
    assert str(refused.value).replace(str(job.book.parent) + "/", "") == said


def test_a_table_that_is_not_there(job: Job) -> None:
    with pytest.raises(TableMissing) as refused:
        fill(job.bench(), "block", file="/nowhere/filled.csv", usual=Usual())
    assert str(refused.value) == (
        "/nowhere/filled.csv cannot be read: No such file or directory. Save the table as CSV in UTF-8. Nothing was "
        "recorded."
    )


# Faces


def face(job: Job, text: str, item: str = "deck", unit: str | None = None) -> Recorded:
    file = job.book.parent / "deck.csv"
    file.write_text(text, encoding="utf-8")
    bench = open_bench(job.book, now=job.now)
    try:
        return take_face(bench, item, file=file, unit=unit, instrument="clock", condition="as found")
    finally:
        bench.store.close()


SQUARE = "x mm,y mm,z mm\n0,0,0.010\n100,0,0.02\n0,100,0\n100,100,0.015\n"


def test_a_face_is_kept_digit_by_digit_and_once(job: Job) -> None:
    done = face(job, SQUARE)
    assert done.said == "face scanned: Deck, 4 points of deck.csv, as found, dial gauge"
    (state,) = job.bench().state.scans.values()
    assert state.points[0] == ("0.0", "0.0", "0.01")
    scan = scanned(job.bench(), "deck")
    assert scan is not None
    assert scan.points[3] == (100.0, 100.0, 0.015)
    count = job.bench().state.count
    assert face(job, SQUARE).remarks == (SENT_BEFORE,)
    assert job.bench().state.count == count


def test_a_face_in_inches_is_kept_in_millimeters(job: Job) -> None:
    face(job, "x,y,z\n0,0,0.001\n4,0,0\n0,4,0\n4,4,0.0005\n", unit="in")
    scan = scanned(job.bench(), "deck")
    assert scan is not None
    assert scan.points[0] == (0.0, 0.0, 0.0254)  # HAND: 0.001 · 25.4
    assert scan.points[1] == (101.6, 0.0, 0.0)


@pytest.mark.parametrize(
    "text",
    ["x,y,z\n0,0,0\n1,0,0\n0,1,0\n", "x mm,y mm,z mm\n0,0,0\n1,1,0\n", "x mm,y mm,z mm\n0,0,0\n1,1,0\n2,2,0\n3,3,0.1\n",
     "x mm,y mm,z mm\n0,0,nan\n1,0,0\n0,1,0\n1,1,0\n", "x mm,y mm,z mm\n0,0,\n1,0,0\n0,1,0\n1,1,0\n", ""],
)  # fmt: skip
def test_what_is_no_face_is_refused_and_nothing_is_written(job: Job, text: str) -> None:
    """No unit, too few points, points in a line, no number, a blank, an empty file."""
    count = job.bench().state.count
    with pytest.raises(GudgeonError):
        face(job, text)
    assert job.bench().state.count == count


def test_too_many_points_are_refused_with_how_to_thin_them_out(job: Job) -> None:
    rows = "".join(f"{number},{number % 7},0.01\n" for number in range(12_000))
    with pytest.raises(TooManyPoints) as refused:
        face(job, f"x mm,y mm,z mm\n{rows}")
    assert str(refused.value) == (
        f"{job.book.parent}/deck.csv has 12,000 points; the book keeps at most 5,000 of one face. Thin them out: keep "
        "one line in 3, or the middle of each square of a grid. `gudgeon calc metrology.flatness` takes all of them. "
        "Nothing was recorded."
    )


def test_heights_further_apart_than_the_gauge_reaches_are_refused(job: Job) -> None:
    with pytest.raises(TravelTooFar) as refused:
        face(job, "x,y,z\n0,0,0.1\n4,0,0.6\n0,4,0\n4,4,0.1\n", unit="in")
    assert str(refused.value) == (
        "From the lowest to the highest the points of Deck differ by 15.24 mm, which is more than dial gauge (0–10 mm) "
        "reaches. Is the unit right, or was it another gauge? Nothing was recorded."
    )


def test_points_of_a_bore_are_refused(job: Job) -> None:
    with pytest.raises(NoFace) as refused:
        face(job, SQUARE, item="bore")
    assert str(refused.value) == (
        "Cylinder bore is read by the method `size`: points of a face say nothing of it. Methods that take them: scanned "
        "face, straightedge lines, heights. Nothing was recorded."
    )


def test_a_reading_that_is_written_twice_under_one_id_counts_once(job: Job) -> None:
    fields = {"item": "piston", "place": "cylinder 1", "value": "69.95 mm", "condition": "as found"}
    bench = open_bench(job.book)
    seen = bench.state.head
    first, after = write_reading(bench, fields, entry_id="a" * 32, basis=seen)
    again, _ = write_reading(after, fields, entry_id="a" * 32, basis=seen)
    bench.store.close()
    assert (first.entry, again.entry, again.remarks) == ("a" * 32, "a" * 32, (SENT_BEFORE,))
    (one,) = job.bench().state.readings.values()
    assert one.entry == "a" * 32
    assert after.state.readings["piston", "cylinder 1", "as found"].entry == one.entry


def number_of(job: Job, entry: str) -> int:
    bench = open_bench(job.book, now=job.now)
    try:
        return next(one.number for one in bench.store.entries(bench.build) if one.id == entry)
    finally:
        bench.store.close()


def test_a_face_sent_again_after_a_later_one_says_that_it_no_longer_counts(job: Job) -> None:
    """A, B, A: what counts is B, and who sends A again must not go away thinking that it is A."""
    first = face(job, SQUARE)
    other = face(job, SQUARE.replace("0.010", "0.09"))
    early, late = number_of(job, first.entry), number_of(job, other.entry)
    assert face(job, SQUARE).remarks == (
        NOT_AGAIN,
        f"It no longer counts (entry {early}): entry {late}, from deck.csv, was recorded later and counts now. Strike "
        f"it if it is wrong: gudgeon strike {late} --why …",
    )
    job.record("strike", entry=other.entry, why="another face")
    assert face(job, SQUARE).remarks == (SENT_BEFORE,)
    (state,) = job.bench().state.scans.values()
    assert state.entry == first.entry


def test_a_table_sent_again_after_a_later_one_names_the_reading_that_counts(job: Job) -> None:
    text = HEAD + "bore,1 top across,70.01,mm,,,,,,\nbore,1 top along,70.02,mm,,,,,,\n"
    taken(job, text)
    last = taken(job, HEAD + "bore,1 top across,70.03,mm,,,,,,\n").last
    late = number_of(job, last.entry)
    again = taken(job, text).last.remarks
    assert again[0] == NOT_AGAIN
    assert len(again) == 2
    assert again[1].startswith(f"It no longer counts (entry {late - 2}): entry {late} (")
    assert again[1].endswith(
        f") was recorded later and counts now. Strike it if it is wrong: gudgeon strike {late} --why …"
    )


def test_what_was_struck_and_is_sent_again_says_so(job: Job) -> None:
    done = face(job, SQUARE)
    number = number_of(job, done.entry)
    job.record("strike", entry=done.entry, why="not that face")
    assert face(job, SQUARE).remarks == (
        NOT_AGAIN,
        f"Entry {number} was struck by entry {number + 1} and does not count. If it is right after all, record it "
        "anew; of a file, add a note or a line that begins with #.",
    )
