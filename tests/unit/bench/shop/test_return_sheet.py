"""What came back as a sheet: each figure as ordered and as read, what to do about it; blank before it is back."""

from pathlib import Path

from gudgeon.bench.reason import when
from gudgeon.bench.shop.return_sheet import ReturnRow, ReturnSheet, return_sheet
from tests.unit.bench.benches import Job
from tests.unit.bench.shop.heads import CORNERS, blades, head_job, heights


def sent(folder: Path) -> Job:
    job = head_job(folder)
    heights(job, *["100.000"] * 4)
    job.record(
        "shop-out",
        part="Cylinder head",
        shop="mill",
        ordered="The least, at most 0.10 mm.",
        most_off="0.10 mm",
    )
    return job


def row(sheet: ReturnSheet, what: str) -> ReturnRow:
    return next(one for one in sheet.rows if one.what.startswith(what))


def test_before_it_is_back_every_figure_waits_to_be_read(tmp_path: Path) -> None:
    sheet = return_sheet(sent(tmp_path).bench())
    assert (sheet.state, sheet.check.shop) == ("not back yet", "mill")
    assert {one.verdict for one in sheet.rows} == {"not measured"}
    assert row(sheet, "Taken off").ordered == "at most 0.10 mm (0.0039 in)"
    assert row(sheet, "Flatness of the head").ordered == "wear limit: max 0.05 mm (0.002 in) (manual p. 8)"
    assert row(sheet, "Flatness of the head").to_do == "read it before anything is fitted"
    assert row(sheet, "Roughness Ra").to_do == "have it from the shop in figures, on paper"
    height = sheet.figures[0]
    assert [(one.place, one.before, one.after) for one in height.places] == [
        (corner, "100.000 mm (3.9370 in)", "") for corner in CORNERS
    ]


def test_without_an_order_the_sheet_is_there_all_the_same(tmp_path: Path) -> None:
    sheet = return_sheet(head_job(tmp_path).bench())
    assert (sheet.state, sheet.out, sheet.promised) == ("not ordered", "", "")
    assert row(sheet, "Taken off").ordered == "no most was ordered"
    assert all(one.to_do for one in sheet.rows)


def test_what_is_missing_for_one_reason_is_told_once(tmp_path: Path) -> None:
    sheet = return_sheet(head_job(tmp_path).bench(), part="block")
    assert [one.what for one in sheet.rows] == [
        "Taken off",
        "Flatness of the block as left",
        "Roughness Ra of the face",
    ]
    assert row(sheet, "Taken off").to_do == "have it from the shop in figures, on paper"


def test_what_is_not_as_ordered_says_what_to_do(tmp_path: Path) -> None:
    # HAND: 100.000 − 99.500 = 0.50, above the 0.10 ordered, and 99.50 is under the least height of 99.60.
    # Over 25.4: 0.50 is 0.0197 in, 0.02 is 0.00079, 0.03 is 0.00118.
    job = sent(tmp_path)
    job.record("promised", of="shop", what="Cylinder head", on="2026-03-20")
    job.record("shop-back", part="Cylinder head", found="cut")
    came = when(job.now)
    heights(job, *["99.500"] * 4, condition="as left")
    blades(job, "along", "0.02", "0.03", condition="as left")
    sheet = return_sheet(job.bench())
    assert sheet.state == "back"
    assert (sheet.promised, sheet.back_on) == ("Fri Mar 20", came)
    assert row(sheet, "Taken off").verdict == "more than ordered"
    assert row(sheet, "Taken off").to_do.startswith("talk to the shop before it is fitted")
    assert row(sheet, "Least height").to_do.startswith("do not fit it like this")
    assert row(sheet, "Flatness of the head").to_do == "read it before anything is fitted"
    flat = sheet.figures[1]
    assert [(one.place, one.before, one.after) for one in flat.places] == [
        ("along", "", "0.02–0.03 mm (0.00079–0.00118 in)"),
        ("across", "", ""),
    ]
    blades(job, "across", "0.02", "0.03", condition="as left")
    assert row(return_sheet(job.bench()), "Flatness of the head").to_do == ""
    assert sheet.figures[0].places[0].off == "0.50 mm (0.0197 in)"


def test_what_somebody_let_be_says_so(tmp_path: Path) -> None:
    job = sent(tmp_path)
    job.record("shop-back", part="Cylinder head", found="cut")
    heights(job, *["99.860"] * 4, condition="as left")
    job.record("accepted", what="head", by="owner", why="0.14 mm off, 0.26 mm above the least")
    sheet = return_sheet(job.bench())
    assert row(sheet, "Taken off").to_do == "somebody let it be, by name: see above"
    assert sheet.check.accepted == ("head, by owner: 0.14 mm off, 0.26 mm above the least",)
