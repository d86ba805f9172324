"""Which grade a reading chooses. Grades as gaskets have them: COMMON PRACTICE (bands 0.05 mm apart); verdicts HAND.

The dial errs by ± 0.01 mm: u = 0.00577, 1.645 u = 0.0095 mm.
"""

import pytest

from gudgeon.bench.good import Row
from tests.unit.bench.judging.judged import Read, bench_with, by_place

GASKET = """\
  height:
    name: Piston height
    part: gasket
    method: gap
    places: {cylinder: [1, 2]}
    source: manual p. 3
    grades: {one notch: 0.50–0.60 mm, two notches: 0.60–0.70 mm, three notches: 0.72–0.80 mm}
TIE"""


def grade(value: str, tie: str = "") -> Row:
    read: Read = {("height", "cylinder 1"): value, ("height", "cylinder 2"): "0.55"}
    text = GASKET.replace("TIE", f"    tie: {tie}\n" if tie else "")
    return by_place(bench_with(text, read, gauge="dial"), "height")["cylinder 1"]


@pytest.mark.parametrize(
    ("value", "verdict", "reason"),
    [
        ("0.55", "inside", "grade one notch"),
        ("0.65", "inside", "grade two notches"),
        ("0.595", "in doubt", "between grades one notch and two notches: measure more finely"),
        ("0.60", "in doubt", "between grades one notch and two notches: measure more finely"),
        # 0.01 from either: 4.2 % each, more than 5 % together.
        ("0.71", "in doubt", "between grades two notches and three notches: measure more finely"),
        ("0.40", "outside", "no grade takes it: it lies beyond one notch"),
        ("0.495", "in doubt", "grade one notch, or none: the gauge cannot tell"),
    ],
)
def test_a_grade_is_chosen_or_the_grades_that_it_may_be(value: str, verdict: str, reason: str) -> None:
    row = grade(value)
    assert (row.verdict, row.reason) == (verdict, reason)
    assert bool(row.ways_out) == (verdict == "in doubt")


def test_between_two_grades_that_lie_farther_apart_no_grade_takes_it() -> None:
    """HAND: 0.02 from either is 3.5 u: 0.03 % each."""
    apart = GASKET.replace("0.72–0.80", "0.74–0.80").replace("TIE", "")
    read: Read = {("height", "cylinder 1"): "0.72", ("height", "cylinder 2"): "0.55"}
    row = by_place(bench_with(apart, read, gauge="dial"), "height")["cylinder 1"]
    assert (row.verdict, row.reason) == (
        "outside", "no grade takes it: it lies between two notches and three notches",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("tie", "taken"), [("the higher one", "two notches"), ("the lower one", "one notch")]
)
def test_on_a_boundary_the_rule_of_the_sheet_decides(tie: str, taken: str) -> None:
    row = grade("0.60", tie)
    assert row.verdict == "inside"
    assert row.reason == f"grade {taken}: on the boundary of one notch and two notches; the sheet says: {tie}"
    assert "by the error of the gauge it may be any of one notch, two notches" in row.notes


def test_a_rule_that_names_neither_is_shown_and_not_guessed() -> None:
    row = grade("0.60", "as the dealer says")
    assert row.verdict == "in doubt"
    assert row.reason.endswith("the sheet says: as the dealer says, which names neither")


def test_the_highest_of_all_chooses_where_one_part_serves_them_all() -> None:
    row = grade("0.65")
    assert "the highest of all: where one part serves all places, it chooses" in row.notes


def test_two_points_of_each_piston_have_their_mean_told() -> None:
    """COMMON PRACTICE: the mean of two points of each piston, and the highest piston selects. HAND: 0.61, 0.55."""
    text = GASKET.replace("TIE", "").replace("[1, 2]}", "[1, 2], point: [a, b]}")
    read: Read = {
        ("height", "cylinder 1, a"): "0.63", ("height", "cylinder 1, b"): "0.59",
        ("height", "cylinder 2, a"): "0.55", ("height", "cylinder 2, b"): "0.55",
    }  # fmt: skip
    found = by_place(bench_with(text, read, gauge="dial"), "height")
    notes = found["cylinder 1, a"].notes
    assert "highest mean: cylinder 1, 0.61 mm (0.0240 in), grade two notches as read" in notes


def test_what_is_not_read_has_no_grade() -> None:
    text = GASKET.replace("TIE", "")
    found = by_place(bench_with(text, {("height", "cylinder 2"): "0.55"}, gauge="dial"), "height")
    assert (found["cylinder 1"].verdict, found["cylinder 1"].reason) == (
        "not measured",
        "no reading in the book",
    )


def test_of_grades_narrower_than_the_gauge_is_uncertain_all_near_ones_are_named() -> None:
    """HAND: grades 0.001 wide, u = 0.00577: each has a chance of 7 % at most, yet all within 0.0095 of 0.5005 may be it."""
    narrow = GASKET.replace(
        "{one notch: 0.50–0.60 mm, two notches: 0.60–0.70 mm, three notches: 0.72–0.80 mm}",
        "{A: 0.484–0.485 mm, B: 0.4915–0.4925 mm, C: 0.500–0.501 mm, D: 0.508–0.509 mm, E: 0.511–0.512 mm}",
    ).replace("TIE", "")
    read: Read = {("height", "cylinder 1"): "0.5005", ("height", "cylinder 2"): "0.5005"}
    row = by_place(bench_with(narrow, read, gauge="dial"), "height")["cylinder 1"]
    assert (row.verdict, row.reason) == ("in doubt", "between grades B, C and D: measure more finely")
