"""Shells by grade: sizes are invented, what is expected is worked by hand.

The micrometer errs by ± 0.002 mm, rectangular, and reads both sizes: u lies between 0.00115 and 0.00163 mm.
"""

import pytest

from gudgeon.bench.fits.answer import Fit
from gudgeon.bench.fits.ask import fits
from gudgeon.bench.fits.errors import (
    BearingUnknown,
    MarksMiscounted,
    MarksUnreadable,
    MarkUnknown,
    NothingOfThatName,
)
from gudgeon.errors import InputError
from tests.unit.bench.fits.fitted import CHARACTERISTICS, FITS, engine, placed

BORES = placed("main_bore", "bearing", "53.036", "53.022", "53.060")
JOURNALS = placed("main_journal", "journal", "50.000", "50.001", "49.999")


def main(
    *, codes: tuple[str, ...] = (), shells: tuple[str, ...] = (), sheet: str = FITS, **read: object
) -> Fit:
    given = {**BORES, **JOURNALS} if not read else read["read"]
    (found,) = fits(engine(given, sheet=sheet), what="main", codes=codes, shells=shells).fits  # type: ignore[arg-type]
    return found


def test_every_place_gets_the_grade_nearest_to_the_middle() -> None:
    # HAND: the middle is 0.035. 3.036 − 2 · 1.500 = 0.036; 3.021 − 2 · 1.490 = 0.041; 3.061 − 2 · 1.510 = 0.041.
    found = main()
    assert [(one.place, one.fitted, one.result, one.verdict) for one in found.choices] == [
        ("bearing 1", "grade 2 (blue)", "0.036 mm (0.0014 in)", "inside"),
        ("bearing 2", "grade 1 (red)", "0.041 mm (0.0016 in)", "inside"),
        ("bearing 3", "grade 3 (yellow)", "0.041 mm (0.0016 in)", "inside"),
    ]
    assert found.choices[0].found == "bore 53.036 mm (2.0880 in), journal 50.000 mm (1.9685 in)"
    assert found.counts == {"inside": 3}
    assert found.steps == (
        "Shells to have: 2 halves of grade 1 (red), 2 halves of grade 2 (blue), 2 halves of grade 3 (yellow)",
    )
    assert found.improved == ""  # nothing is known of what was in it
    assert found.wanted == "clearance 0.020–0.050 mm"
    assert found.source == "manual p. 60"
    assert found.cautions[1].startswith("Never file, scrape or shim a shell or a cap")


def test_the_uncertainty_is_that_of_both_readings() -> None:
    # HAND: u of one reading 0.002/√3 = 0.001155; half of its variance is shared along the scale and cancels, so
    # u² of the difference = 2 · 0.5 · 0.001155² and twice u is 0.0023 mm.
    assert main().choices[0].uncertainty == "± 0.002 mm (0.000091 in)"


def test_the_codes_of_the_maker_are_compared() -> None:
    # HAND: bearing 1 with grade 1 has 3.036 − 2.980 = 0.056 mm, outside; the other two codes agree.
    found = main(codes=("main: A1 a-1 B2",))
    first = found.choices[0]
    assert (first.before, first.verdict_before) == ("grade 1 (red): 0.056 mm (0.0022 in)", "outside")
    assert first.reason == "the maker's code asks for grade 1 (red): measure again before you order"
    assert [one.reason for one in found.choices[1:]] == ["", ""]
    assert found.improved == "3 of 3 inside; with the shells of the maker's codes 2"


def test_shells_that_are_in_it_are_what_is_bettered() -> None:
    # HAND: red, blue, blue: 0.056 outside; 3.021 − 3 = 0.021, within 1.645 u of 0.020; 3.061 − 3 = 0.061 outside.
    found = main(shells=("Main bearings: red blue 2",), codes=("main: A1, A 1, B 2",))
    assert [one.verdict_before for one in found.choices] == ["outside", "in doubt", "outside"]
    assert found.improved == "3 of 3 inside; with the shells that are in it 0"


def test_codes_serve_where_nothing_was_measured() -> None:
    found = main(codes=("main: A1 - B2",), read=placed("main_bore", "bearing", "53.036", "", ""))
    assert [(one.fitted, one.verdict) for one in found.choices] == [
        ("grade 1 (red), by its code alone", "not measured"),
        ("", "not measured"),
        ("grade 3 (yellow), by its code alone", "not measured"),
    ]
    assert found.choices[0].reason == "not measured: Main journal, journal 1"
    assert found.choices[1].reason == "not measured: Main bore, bearing 2; Main journal, journal 2"
    assert found.missing == ("no reading: 5 places",)
    assert found.steps == ()


def test_one_place_without_a_reading_leaves_the_others_answered() -> None:
    read = {**BORES, **placed("main_journal", "journal", "50.000", "", "49.999")}
    found = main(read=read)
    assert [one.verdict for one in found.choices] == ["inside", "not measured", "inside"]
    assert found.missing == ("no reading: Main journal, journal 2",)


def test_what_no_grade_mends_is_said() -> None:
    # HAND: 53.100 − 50.000 − 2 · 1.510 = 0.080; 53.000 − 50.001 − 2 · 1.490 = 0.019; 53.200 gives 0.181 mm.
    read = {**JOURNALS, **placed("main_bore", "bearing", "53.100", "52.990", "53.200")}
    first, second, third = main(read=read).choices
    assert first.verdict == "outside"
    assert first.reason == ("too wide with the thickest that comes near: another undersize, or the shop")
    assert second.reason == (
        "too tight with the thinnest that comes near: measure again, or the shop; "
        "inside what a worn bearing may have (max 0.080 mm)"
    )
    assert third.reason == (
        "too wide with the thickest that comes near: another undersize, or the shop; "
        "outside what a worn bearing may have (max 0.080 mm)"
    )


def test_an_oval_bore_is_judged_at_both_its_ends() -> None:
    # HAND: 53.020 and 53.060 about 50.000: with 1.500 twice 0.020 to 0.060; the middle 0.040 is nearest to 0.035.
    both = CHARACTERISTICS.replace("{bearing: [1, 2, 3]}", "{bearing: [1, 2, 3], direction: [up, across]}")
    read = {("main_bore", "bearing 1, up"): "53.020", ("main_bore", "bearing 1, across"): "53.060"} | JOURNALS
    (found,) = fits(engine(read, characteristics=both), what="main").fits
    first = found.choices[0]
    assert first.result == "0.020–0.060 mm (0.00079–0.00236 in)"
    assert first.verdict == "outside"  # 0.060 is proven to be more than 0.050
    assert first.found == "bore 53.020–53.060 mm (2.0874–2.0890 in), journal 50.000 mm (1.9685 in)"


def test_two_grades_share_a_place_where_the_maker_lets_them() -> None:
    # HAND: 3.046 less 1.500 + 1.510 = 0.036, nearest to 0.035; alike they would leave 0.046 or 0.026.
    mixed = FITS.replace("      codes:", "      mixed_halves: yes\n      codes:")
    read = {**JOURNALS, **placed("main_bore", "bearing", "53.046", "53.036", "53.036")}
    found = main(sheet=mixed, read=read)
    assert found.choices[0].fitted == "grade 2 (blue) and grade 3 (yellow), a half of each"
    assert found.choices[0].result == "0.036 mm (0.0014 in)"
    assert found.notes == (
        "the maker lets two grades share a place; which half goes up is the manual's word",
    )
    assert found.steps == ("Shells to have: 5 halves of grade 2 (blue), 1 half of grade 3 (yellow)",)


def test_a_thickness_between_two_ends_widens_what_results() -> None:
    # HAND: 3.036 less twice 1.498 to 1.502 is 0.032 to 0.040 mm.
    wide = FITS.replace("thickness: 1.500 mm", "thickness: 1.498–1.502 mm")
    first = main(sheet=wide).choices[0]
    assert first.result == "0.032–0.040 mm (0.0013–0.0016 in)"
    assert first.verdict == "inside"


# HAND: 17 lines stand before `fits:`, which is line 18; so `name` is line 22, `journal` 24 and `clearance` 25.
LEFT_OPEN = [
    ("      bore: main_bore\n", "", "fits.bearings.main (sheet.yaml, line 22, column 7): "
     "`bore` names no characteristic, so nothing that was measured is found"),
    ("0.020–0.050 mm", "min 0.020 mm", "fits.bearings.main.clearance (sheet.yaml, line 25, column 18): "
     "the clearance has no upper end, so no grade is nearest to it"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), LEFT_OPEN)
def test_what_the_sheet_leaves_open_is_named_with_its_line(old: str, new: str, said: str) -> None:
    found = main(sheet=FITS.replace(old, new))
    assert found.choices == ()
    assert found.missing == (said,)


def test_bores_and_journals_that_are_not_as_many_are_a_contradiction() -> None:
    fewer = CHARACTERISTICS.replace("{journal: [1, 2, 3]}", "{journal: [1, 2]}")
    (found,) = fits(engine({}, characteristics=fewer), what="main").fits
    assert found.missing == (
        "fits.bearings.main.journal (sheet.yaml, line 24, column 16): `main_bore` has 3 places and `main_journal` 2; "
        "they are taken in their order, so both have as many",
    )


REFUSED = [
    ("A1 B2 A1", MarksUnreadable,
     "`A1 B2 A1` does not say which bearing is meant. Write its key, a colon and a mark for each place, like "
     "`main: A1 B2 A1`. The sheet has: main."),
    ("rod: A1 B2 A1", BearingUnknown,
     "`rod` is no bearing of the sheet's `fits`. It has: main. Write one of these keys."),
    ("main: A1 B2", MarksMiscounted,
     "main: 2 marks are given, and the sheet has 3 places of it. "
     "Give one for each place, in the order of the sheet; `-` where one cannot be read."),
    ("main: A1 C2 B1", MarkUnknown,
     "main: `C2` is no mark of the sheet. It has: A 1, A 2, B 1, B 2. "
     "Read it again with light and a cloth; `-` where it cannot be read."),
]  # fmt: skip


@pytest.mark.parametrize(("text", "kind", "said"), REFUSED)
def test_codes_that_cannot_be_are_refused(text: str, kind: type[InputError], said: str) -> None:
    with pytest.raises(kind) as refused:
        main(codes=(text,))
    assert refused.value.message == said


def test_marks_of_shells_are_those_of_the_grades() -> None:
    with pytest.raises(MarkUnknown) as refused:
        main(shells=("main: red green blue",))
    assert refused.value.message == (
        "main: `green` is no mark of the sheet. It has: 1 (red), 2 (blue), 3 (yellow). "
        "Read it again with light and a cloth; `-` where it cannot be read."
    )


def test_a_fit_that_is_not_there_is_refused() -> None:
    with pytest.raises(NothingOfThatName) as refused:
        fits(engine({}), what="camshaft")
    assert refused.value.message == (
        "`camshaft` is no fit of the sheet. It has: main, clearance, top_gap, weights. Write one of these."
    )


def test_a_sheet_without_fits_says_what_to_write() -> None:
    plain = "  bore: {name: Bore, part: block, source: manual p. 61}\n"
    found = fits(engine({}, sheet="", characteristics=plain))
    assert found.fits == ()
    assert found.missing == (
        "The sheet states no fits that are chosen: write `fits:` with bearings, ring_gaps or weights, or a limit "
        "`shape: matched pairs`",
    )
