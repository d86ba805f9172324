"""Clearances of printed ranges, ring gaps against their bores, drill shanks: technical manuals of the US Army, tables."""

import re

import pytest

from gudgeon.sources.drill_shanks import INCH_MM, drill_shanks
from tests.published.cases import Case, cases, check
from tests.reference import reference_rows

CASES = cases("engine_fits")
NOT_COVERED = {
    "R19": "the rate of a spring, which no calculator takes",
    "R20": "the ratio of a rocker, which no calculator takes",
    **dict.fromkeys(
        ("W29", "W31", "W33", "W34", "W36", "W38", "W39", "W40", "W41", "W44", "W46", "W47"),
        "tap drills: no pins",
    ),
}
# PRINTED: a public chart of tap and clearance drills, which is not the table that the sizes were taken from.
CHART = """
55 .0520 53 .0595 52 .0635 50 .0700 49 .0730 48 .0760 47 .0785 46 .0810 45 .0820 44 .0860 43 .0890 42 .0935 41 .0960
40 .0980 38 .1015 37 .1040 36 .1065 35 .1100 33 .1130 32 .1160 31 .1200 30 .1285 29 .1360 27 .1440 26 .1470 25 .1495
21 .1590 20 .1610 18 .1695 16 .1770 14 .1820 13 .1850 12 .1890 10 .1935 9 .1960 7 .2010 3 .2130 2 .2210 1 .2280
"""
# PRINTED: a second public table of letter drills, in millimeters.
LETTERS = """
A 5.944 B 6.045 C 6.147 D 6.248 E 6.350 F 6.528 G 6.629 H 6.756 I 6.909 J 7.036 K 7.137 L 7.366 M 7.493 N 7.671
O 8.026 P 8.204 Q 8.433 R 8.611 S 8.839 T 9.093 U 9.347 V 9.576 W 9.804 X 10.080 Y 10.260 Z 10.490
"""


@pytest.mark.parametrize("case", CASES, ids=[case.id for case in CASES])
def test_a_fit_as_printed(case: Case) -> None:
    check(case)


def test_every_row_of_fits_is_carried_over() -> None:
    carried = {case.id.rstrip("ab") for case in CASES}
    rows = [row["id"] for row in reference_rows("engine.csv") if re.match(r"[RW]\d", row["id"])]
    assert len(rows) > 35
    assert [row for row in rows if row not in carried and row not in NOT_COVERED] == []


def test_number_drills_agree_with_another_chart() -> None:
    found = {one.name: one.diameter_mm for one in drill_shanks() if one.series == "number"}
    words = CHART.split()
    assert len(found) == 80
    printed = {f"#{name}": float(size) * INCH_MM for name, size in zip(words[::2], words[1::2], strict=True)}
    assert len(printed) == 39
    assert {name: found[name] for name in printed} == pytest.approx(printed)


def test_letter_drills_agree_with_another_table() -> None:
    found = {one.name: one.diameter_mm for one in drill_shanks() if one.series == "letter"}
    words = LETTERS.split()
    printed = {name: float(size) for name, size in zip(words[::2], words[1::2], strict=True)}
    assert set(found) == set(printed)
    # The table gives X, Y and Z to a hundredth of a millimeter only.
    rough = {"X": 0.006, "Y": 0.006, "Z": 0.006}
    assert all(abs(found[name] - size) <= rough.get(name, 0.0006) for name, size in printed.items())


def test_drills_of_a_series_grow_from_one_to_the_next() -> None:
    numbers = [int(one.name[1:]) for one in drill_shanks() if one.series == "number"]
    letters = [one.name for one in drill_shanks() if one.series == "letter"]
    assert numbers == list(range(80, 0, -1))  # a higher number is a thinner drill (common practice)
    assert letters == [chr(code) for code in range(ord("A"), ord("Z") + 1)]
