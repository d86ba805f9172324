"""The incoming check: what came back against what was ordered, never worked out from the order."""

from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.shop.after import NOT_MADE
from gudgeon.bench.shop.back_lines import Check
from gudgeon.bench.shop.incoming import IncomingCheck, incoming
from gudgeon.cli.main import main
from tests.unit.bench.benches import Job
from tests.unit.bench.shop.heads import SHEET, blades, head_job, heights

ORDERED = "Least that cleans up, at most 0.10 mm."


def sent(folder: Path, *, most: str | None = "0.10 mm", sheet: str = SHEET) -> Job:
    job = head_job(folder, sheet=sheet)
    heights(job, *["100.000"] * 4)
    job.record("shop-out", part="Cylinder head", shop="mill", ordered=ORDERED, most_off=most)
    return job


def returned(job: Job, *left: str, found: str = "cut") -> IncomingCheck:
    job.record("shop-back", part="Cylinder head", found=found)
    if left:
        heights(job, *left, condition="as left")
    return incoming(job.bench())


def line(found: IncomingCheck, what: str) -> Check:
    return next(one for one in found.lines if one.what == what)


def test_more_than_ordered_is_said_and_worked_out(tmp_path: Path) -> None:
    # HAND: 100.000 − 99.860 = 0.14, 0.04 more than 0.10; over 25.4: 0.14 is 0.0055 in, 0.04 is 0.0016, 0.10 is 0.0039.
    # The chamber of 45 cm³ loses 5 000 mm² × 0.14 mm = 0.7: 44.3 + 5 of the gasket = 49.3; 1 + 450 / 49.3 = 10.13
    # (10 before). Squish 1.0 + (0.5 − 0.14) = 1.36.
    found = returned(sent(tmp_path), *["99.860"] * 4)
    assert found.plain[0] == "0.14 mm (0.0055 in) came off, 0.04 mm (0.0016 in) more than ordered."
    assert found.plain[1].startswith("Compression ratio: now 10.13")
    assert found.plain[2].startswith("Squish: now 1.36")
    off = line(found, "Taken off")
    assert (off.asked, off.verdict) == ("at most 0.10 mm (0.0039 in)", "more than ordered")
    assert off.follows == "0.04 mm (0.0016 in) more than ordered; all that follows is by what came off"
    assert (found.shop, found.ordered, found.said, found.standing) == ("mill", ORDERED, "cut", "")


def test_not_more_than_ordered(tmp_path: Path) -> None:
    found = returned(sent(tmp_path), *["99.920"] * 4)
    assert found.plain[0] == "0.08 mm (0.0031 in) came off, not more than ordered."
    assert line(found, "Taken off").verdict == "not more than ordered"
    assert line(found, "Taken off").follows == "0.02 mm (0.00079 in) less than the most"


def test_what_the_gauge_cannot_tell_is_in_doubt(tmp_path: Path) -> None:
    # HAND: one micrometer of ± 0.004. Half of its variance is the same along the scale and cancels; the other half is
    # 0.004 / √3 / √2 = 0.0016 at each of eight readings, the step 0.0003: of two means of four u = 0.0017 √(2/4) = 0.0012.
    # 0.101 − 0.10 = 0.001 is less than 1.645 u = 0.0019.
    found = returned(sent(tmp_path), *["99.899"] * 4)
    assert found.plain[0] == (
        "0.101 mm (0.0040 in) came off, 0.001 mm (0.000039 in) more than ordered, but the gauge may be off by as much."
    )
    assert line(found, "Taken off").verdict == "in doubt"


def test_without_heights_nothing_is_worked_out_from_the_order(tmp_path: Path) -> None:
    found = returned(sent(tmp_path))
    assert found.plain[0] == (
        "How much came off is not known: the heights before and after are not both in the book."
    )
    assert found.after.lines == ()
    assert found.after.missing == (NOT_MADE,)
    assert not any("10.1" in one for one in found.plain)
    assert [(one.what, one.command) for one in found.not_back] == [
        ("height as left", "gudgeon record reading head_height"),
        ("depth or volume of the chambers", ""),
        ("Camshaft oil clearance as left", "gudgeon record reading cam_clearance"),
        ("test for cracks", "gudgeon record hold head_tested …"),
        ("Flatness of the head as left", "gudgeon record reading flatness"),
        ("roughness Ra of the face", ""),
    ]


def test_a_corner_that_was_not_read_is_named(tmp_path: Path) -> None:
    found = returned(sent(tmp_path), "99.860", "99.860", "99.860")
    assert found.not_back[0].what == "height as left: flywheel end exhaust"
    assert len(found.places) == 3


def test_a_face_cut_askew(tmp_path: Path) -> None:
    # HAND: 0.10 off at the timing end, 0.18 at the flywheel end: the heights differ by 0.08 (0.0031 in), far above U.
    # A chamber's mouth of 5 000 mm² × 0.08 mm = 0.40 cm³ (0.0244 in³).
    found = returned(sent(tmp_path), "99.900", "99.900", "99.820", "99.820")
    assert found.askew is not None
    assert found.askew.verdict == "askew"
    assert found.askew.words.startswith("the heights as left differ by 0.08 mm (0.0031 in) (± 0.0")
    assert (
        ": timing end intake high, flywheel end intake low; as found they differed by " in found.askew.words
    )
    assert found.askew.follows == (
        "the chamber nearest to flywheel end intake is smaller than the one farthest from it by up to 0.40 cm³ "
        "(0.024 in³): its cylinder compresses more",
        "the camshafts lean with the head: for their timing counts what came off at the end of the drive, not the mean",
        "ask the shop to set it up again from the face that the order names before anything is put on",
    )
    assert found.plain[1].startswith("The face was left askew: ")


def test_a_head_that_leaned_before_is_not_the_work_of_the_shop(tmp_path: Path) -> None:
    # HAND: 0.12 came off at every corner; the head was 0.06 lower at the flywheel end before and is after.
    job = head_job(tmp_path)
    heights(job, "100.000", "100.000", "99.940", "99.940")
    job.record("shop-out", part="Cylinder head", shop="mill", ordered=ORDERED, most_off="0.20 mm")
    found = returned(job, "99.880", "99.880", "99.820", "99.820")
    assert found.askew is not None
    assert (found.askew.verdict, found.askew.follows) == ("as before", ())
    assert "it leaned before and still does, the cut did not make it" in found.askew.words
    assert found.plain[1] == "The head leaned before and still does: the cut did not make it."


def test_a_lean_that_the_sheet_lets_a_head_have(tmp_path: Path) -> None:
    # HAND: 0.10 off at one end, 0.115 at the other: 0.015 is more than the gauge may be off between four readings
    # (u of one 0.0016, of four 0.0034, U 0.0067), and less than the ± 0.02 of the height of a new head.
    found = returned(sent(tmp_path), "99.900", "99.900", "99.885", "99.885")
    assert found.askew is not None
    assert (found.askew.verdict, found.askew.follows) == ("even", ())
    assert (
        "within the ± 0.02 mm (0.00079 in) that the sheet gives the height (manual p. 8)" in found.askew.words
    )


def test_without_heights_before_nobody_is_blamed(tmp_path: Path) -> None:
    # HAND: 99.900 less 99.820 is 0.08, more than the ± 0.02 of a new head; as found only one place was read.
    job = head_job(tmp_path)
    heights(job, "100.000")
    job.record("shop-out", part="Cylinder head", shop="mill", ordered=ORDERED, most_off="0.20 mm")
    found = returned(job, "99.900", "99.900", "99.820", "99.820")
    assert found.askew is not None
    assert found.askew.verdict == "leans"
    assert found.askew.follows[-1] == (
        "whether this cut made it lean is not known: two places were not both read before and after"
    )


def test_an_even_face_is_told_with_the_gauge(tmp_path: Path) -> None:
    found = returned(sent(tmp_path), "99.900", "99.902", "99.900", "99.901")
    assert found.askew is not None
    assert (found.askew.verdict, found.askew.follows) == ("even", ())


def test_too_thin(tmp_path: Path) -> None:
    # HAND: 99.55 is 0.05 below the least of 99.60 (0.05 / 25.4 = 0.0020 in).
    found = returned(sent(tmp_path), *["99.550"] * 4)
    least = line(found, "Least height")
    assert (least.asked, least.verdict) == ("at least 99.60 mm", "outside")
    assert least.follows == "0.05 mm (0.0020 in) too thin: do not fit it"


def test_flatness_as_left_alone_counts(tmp_path: Path) -> None:
    job = sent(tmp_path)
    blades(job, "along", "0", "0.03")
    blades(job, "across", "0", "0.03")
    found = returned(job, *["99.900"] * 4)
    assert "Flatness of the head as left" in [one.what for one in found.not_back]
    blades(job, "along", "0.08", "0.10", condition="as left")
    found = incoming(job.bench())
    flat = line(found, "Flatness of the head")
    assert (flat.verdict, flat.follows, flat.got) == (
        "outside",
        "at along",
        "0.08–0.10 mm (0.0031–0.0039 in) at along",
    )
    assert "Flatness of the head as left: across" in [one.what for one in found.not_back]


def test_roughness_against_the_figure_of_the_sheet(tmp_path: Path) -> None:
    sheet = SHEET.replace(
        "  head_height:\n",
        "  face_roughness:\n"
        "    name: Roughness of the face\n    part: Cylinder head\n    method: gap\n    quantity: roughness\n"
        "    source: manual p. 8\n"
        "  head_height:\n",
    )
    job = sent(tmp_path, sheet=sheet)
    job.record(
        "reading", item="face_roughness", place="", value="1.6 µm", instrument="rough", condition="as left"
    )
    found = returned(job, *["99.900"] * 4)
    rough = line(found, "Roughness of the face")
    assert (rough.asked, rough.source) == ("Ra max 0.8 µm", "manual p. 8")
    # HAND: 1.6 less 0.8 is 0.8, of an error of 0.05.
    assert (rough.verdict, rough.follows) == ("outside", "ask the maker of the gasket before it is fitted")


def test_no_order_in_the_book(tmp_path: Path) -> None:
    job = head_job(tmp_path)
    heights(job, *["100.000"] * 4)
    heights(job, *["99.860"] * 4, condition="as left")
    found = incoming(job.bench())
    assert found.standing == (
        'No order for it is in the book to hold it against: gudgeon record shop-out "Cylinder head"'
    )
    assert found.plain[0] == "0.14 mm (0.0055 in) came off; no most was ordered."
    assert line(found, "Taken off").verdict == "no limit given"


def test_still_away(tmp_path: Path) -> None:
    assert incoming(sent(tmp_path).bench()).standing == (
        'By the book it is still at mill. When it is back: gudgeon record shop-back "Cylinder head" --found …'
    )


def test_figures_of_an_earlier_visit_are_told(tmp_path: Path) -> None:
    job = sent(tmp_path)
    assert returned(job, *["99.920"] * 4).standing == ""
    job.record("shop-out", part="Cylinder head", shop="mill", ordered="once more", most_off="0.02 mm")
    job.record("shop-back", part="Cylinder head", found="done")
    assert incoming(job.bench()).standing == (
        "4 readings as left are older than this order: of an earlier visit to a shop, unless the order was written down "
        "late. Read again what is of an earlier visit; what came off is counted from the heights as found."
    )


def test_an_order_without_a_most(tmp_path: Path) -> None:
    found = returned(sent(tmp_path, most=None), *["99.900"] * 4)
    assert line(found, "Taken off").asked == "no most was ordered"


def test_a_block_is_checked_by_its_flatness(tmp_path: Path) -> None:
    job = head_job(tmp_path)
    job.record("shop-out", part="Cylinder block", shop="mill", ordered="deck it", most_off=None)
    job.record("shop-back", part="Cylinder block", found="done")
    blades(job, "along", "0", "0.03", condition="as left", item="deck_flatness")
    found = incoming(job.bench(), part="block")
    assert (found.part, found.shop) == ("Cylinder block", "mill")
    assert line(found, "Flatness of the block").verdict == "inside"
    assert line(found, "Taken off").follows == (
        "the sheet holds no height of the block, so what came off is not known by a reading"
    )
    assert len(found.after.missing) == 1
    assert found.after.missing[0].startswith("What may come off the block is not worked out here. ")


def test_the_demo_says_what_was_taken(tmp_path: Path) -> None:
    # The invented job: ordered at most 0.10 mm; the heights fell by 0.14 at all four corners (132.58 − 132.44 and so on).
    assert main(["demo", "--folder", str(tmp_path / "job")]) == 0
    bench = open_bench(tmp_path / "job" / "book.gudgeon")
    bench.store.close()
    found = incoming(bench)
    assert found.plain[0] == "0.14 mm (0.0055 in) came off, 0.04 mm (0.0016 in) more than ordered."
    assert found.askew is not None
    assert found.askew.verdict == "even"
    assert line(found, "Least height").follows == "0.13 mm (0.0051 in) above the least"
    assert [one.what for one in found.not_back] == [
        "depth or volume of the chambers",
        "roughness Ra of the face",
    ]
    assert found.accepted == (
        "Cylinder head with 0.14 mm off instead of 0.10 mm, by owner: 0.13 mm above the least height; ratio about "
        "9.9, squish still about 1.0 mm",
    )


def test_the_cut_stands_against_the_order_of_the_head_in_both_answers(tmp_path: Path) -> None:
    # HAND: 100.000 − 99.899 = 0.101, 0.001 more than 0.10, and u = 0.0012 as above: neither answer is sure of it.
    job = head_job(tmp_path)
    job.record("shop-out", part="Cylinder block", shop="mill", ordered="deck it", most_off="0.02 mm")
    heights(job, *["100.000"] * 4)
    job.record("shop-out", part="Cylinder head", shop="mill", ordered=ORDERED, most_off="0.10 mm")
    found = returned(job, *["99.899"] * 4)
    (one, *_) = consequences(job.bench()).tables[0].lines
    assert (one.what, one.limit) == ("Taken off", "ordered: at most 0.10 mm")
    assert one.verdict.startswith(
        "in doubt: 0.001 mm (0.000039 in) more than ordered, within the error of the gauge"
    )
    assert line(found, "Taken off").got.startswith("0.101 mm (0.0040 in), ± 0.002 mm")
    assert one.value == pytest.approx(0.101)
    assert one.expanded == pytest.approx(0.0024, abs=1e-4)
