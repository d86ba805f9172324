"""Flatness, in every form that manuals limit it.

The forms and their figures are COMMON PRACTICE (maker procedures limit a head face so); verdicts are HAND: a blade errs
by ± 0.005 mm, u = 0.005/√3 = 0.0029, so that a gap is proven where it keeps 1.645 u = 0.0048 mm from its limit.
"""

import pytest

from gudgeon.bench.errors import Unknown
from gudgeon.bench.good import Row
from gudgeon.bench.places import find_place
from gudgeon.bench.to_measure import to_measure
from gudgeon.calc.metrology.flatness_windows import worst_window_between
from tests.unit.bench.judging.judged import KIT, Read, Said, Scanned, bench_with, by_place, rows_of

FACES = """\
faces:
  head:
    name: Head face
    source: manual p. 4
    lines:
      long: {along: lengthwise, length: 450 mm}
      cross: {along: crosswise, length: 150 mm}
      corner: {along: diagonal, length: 470 mm}
"""
LONG, CROSS, CORNER = "long", "cross", "corner"
FACE = """\
  flat: {name: Head face, part: head, method: straightedge lines, face: head, source: manual p. 4, limits: [LIMIT]}
"""


def read_on(limit: str, more: str = "", **gaps: Said) -> dict[str, Row]:
    read: Read = {("flat", place): gap for place, gap in gaps.items()}
    return by_place(bench_with(FACE.replace("LIMIT", limit) + more, read, faces=FACES), "flat")


UNDER = (None, "0.04")  # the 0.04 blade does not enter: proven under 0.05, as 0.04 + 0.0048 < 0.05
OVER = ("0.06", "0.07")  # the 0.06 blade enters: proven over 0.05, as 0.06 − 0.0048 > 0.05
NEAR = ("0.04", "0.05")  # neither

WHOLE = "{shape: whole face, limit: max 0.05 mm}"


def test_lines_prove_a_whole_face_outside() -> None:
    (row,) = read_on(WHOLE, long=UNDER, cross=UNDER, corner=OVER).values()
    assert (row.place, row.verdict) == ("whole face", "outside")
    assert row.reason == (
        "outside the limit (whole face, at most 0.05 mm): the gap under the straightedge alone is more, corner"
    )
    assert row.criterion == row.wear_limit == "whole face, at most 0.05 mm"


def test_lines_never_prove_a_whole_face_inside() -> None:
    (row,) = read_on(WHOLE, long=UNDER, cross=UNDER, corner=UNDER).values()
    assert row.verdict == "in doubt"
    assert "a twisted face shows half of its twist" in row.reason
    assert row.ways_out[0] == (
        "heights of the face over a surface plate (plate glass serves, checked with the straightedge), with dial gauge"
    )
    assert any("machine shop" in way for way in row.ways_out)
    assert any("`wear_limit`" in way for way in row.ways_out)
    assert row.missing == "the points of the face, or their heights"


def test_nothing_read_of_a_whole_face() -> None:
    (row,) = read_on(WHOLE).values()
    assert (row.verdict, row.reason) == ("not measured", "no reading in the book")


# HAND: four corners of a plane twisted by ± 0.05 lie between planes 0.10 mm apart (the least-squares plane is z = 0,
# and no plane does better: two opposite corners are up, two are down).
TWIST = (("0", "0", "0.05"), ("450", "0", "-0.05"), ("450", "180", "0.05"), ("0", "180", "-0.05"))


@pytest.mark.parametrize(
    ("limit", "verdict"),
    # The dial errs by ± 0.01: u = 0.00577 of a point, at most √2 of it of the zone, 1.645 · 0.00816 = 0.0134 mm.
    [
        ("0.12", "inside"),
        ("0.11", "in doubt"),
        ("0.10", "in doubt"),
        ("0.09", "in doubt"),
        ("0.08", "outside"),
    ],
)
def test_a_scanned_face_is_proven_both_ways(limit: str, verdict: str) -> None:
    face = FACE.replace("straightedge lines", "scanned face").replace("LIMIT", WHOLE.replace("0.05", limit))
    bench = bench_with(face, {}, faces=FACES, scan=Scanned("flat", (*TWIST, ("225", "90", "0"))))
    (row,) = rows_of(bench, "flat")
    assert (row.place, row.verdict) == ("whole face", verdict)
    assert row.reading == "0.1 mm (0.0039 in), minimum zone of 5 points"
    assert row.uncertainty == "± 0.016 mm (0.00064 in)"


def test_heights_over_a_plate_make_the_zone_when_all_are_read() -> None:
    faces = FACES.replace("    lines:", "    points:").replace(
        "long: {along: lengthwise, length: 450 mm}", "a: {x: 0 mm, y: 0 mm}"
    )
    faces = faces.replace("cross: {along: crosswise, length: 150 mm}", "b: {x: 450 mm, y: 0 mm}")
    faces = faces.replace(
        "corner: {along: diagonal, length: 470 mm}",
        "c: {x: 450 mm, y: 180 mm}\n      d: {x: 0 mm, y: 180 mm}",
    )
    face = FACE.replace("straightedge lines", "heights").replace("limits: [LIMIT]", "wear_limit: max 0.15 mm")
    read: Read = {("flat", "a"): "0.05", ("flat", "b"): "-0.05", ("flat", "c"): "0.05"}
    (row,) = rows_of(bench_with(face, read, faces=faces, gauge="dial"), "flat")
    assert (row.verdict, row.reason) == ("not measured", "no reading: d")
    (row,) = rows_of(bench_with(face, {**read, ("flat", "d"): "-0.05"}, faces=faces, gauge="dial"), "flat")
    assert (row.place, row.verdict, row.reason) == ("whole face", "inside", "inside the wear limit")


PER = "{shape: per length, limit: max 0.05 mm, over: 150 mm}"


def test_over_any_stretch_a_straight_enough_line_is_straight_in_every_stretch() -> None:
    found = read_on(PER, long=UNDER, cross=UNDER, corner=UNDER)
    assert {row.verdict for row in found.values()} == {"inside"}
    assert found[LONG].criterion == "over any 150 mm, at most 0.05 mm"


def test_over_any_stretch_a_long_line_proves_no_outside_and_a_short_one_does() -> None:
    found = read_on(PER, long=OVER, cross=OVER, corner=UNDER)
    assert found[CROSS].verdict == "outside"
    assert found[LONG].verdict == "in doubt"
    assert found[LONG].reason == (
        "the line is 450 mm (17.717 in) long: its gap says nothing of 150 mm of it unless it is inside"
    )
    assert found[LONG].missing == "the gap under a straightedge no longer than 150 mm, moved along this line"


def test_over_any_stretch_of_a_line_whose_length_nobody_stated() -> None:
    """COMMON PRACTICE: 0.076 mm over any 152 mm and 0.152 mm in total."""
    face = (
        "  flat: {name: Head face, part: head, method: straightedge lines, places: [long, 'long, any 6 in'], "
        "source: manual p. 4, limits: [{shape: per length, limit: max 0.076 mm, over: 152 mm}]}\n"
    )
    row = by_place(bench_with(face, {("flat", "long"): ("0.10", "0.15")}), "flat")[LONG]
    assert (row.verdict, row.reason.partition(":")[0]) == (
        "in doubt",
        "the length of this line is not in the sheet",
    )
    # The stretch of 6 in that was read decides, and the whole line no longer matters.
    read: Read = {("flat", "long"): ("0.10", "0.15"), ("flat", "long, any 6 in"): ("0.10", "0.15")}
    (row,) = rows_of(bench_with(face, read), "flat")
    assert (row.place, row.verdict) == ("long, any 6 in", "outside")


def test_whole_face_and_over_any_stretch() -> None:
    """COMMON PRACTICE: 0.10 mm in total and 0.05 mm over any 150 mm."""
    limit = "{shape: whole face and per length, total: max 0.10 mm, limit: max 0.05 mm, over: 150 mm}"
    bench = bench_with(
        FACE.replace("LIMIT", limit), {("flat", one): UNDER for one in (LONG, CROSS, CORNER)}, faces=FACES
    )
    found = [(row.criterion, row.place, row.verdict) for row in rows_of(bench, "flat")]
    assert found == [
        ("whole face, at most 0.10 mm", "whole face", "in doubt"),
        ("over any 150 mm, at most 0.05 mm", LONG, "inside"),
        ("over any 150 mm, at most 0.05 mm", CROSS, "inside"),
        ("over any 150 mm, at most 0.05 mm", CORNER, "inside"),
    ]


RIDGE = tuple((x, y, -0.001 * abs(x - 300)) for x in range(0, 451, 25) for y in range(0, 151, 25))
"""Along x the face rises to a ridge at 300 mm and falls again, 0.001 mm for each mm; it is level along y."""


def test_a_scan_is_judged_window_by_window() -> None:
    """HAND: a square of 150 mm about the ridge reaches 75 mm to either side: its points lie within 0.075 mm, from the
    ridge to the line through both ends, and no closer planes hold them. The points are 25 mm apart: a square of
    150 + 2 · 25 mm reaches 100 mm to either side, so that between the points it is at most 0.1 mm."""
    points = tuple((str(x), str(y), f"{z:.4f}") for x, y, z in RIDGE)
    face = FACE.replace("straightedge lines", "scanned face").replace("LIMIT", PER)
    (row,) = rows_of(bench_with(face, {}, faces=FACES, scan=Scanned("flat", points)), "flat")
    assert (row.place, row.verdict) == ("any 150 mm", "outside")
    assert row.reading == "0.075–0.100 mm (0.0030–0.0039 in), the worst 150 mm of 133 points"


def test_of_very_many_points_the_worst_window_lies_between_two_ends() -> None:
    """HAND: the ends of a square of 187.5 mm lie from 100 mm before the ridge to 75 mm behind it: the line through them
    passes 0.1 − 0.025 · 100/175 = 0.0857 mm below the ridge. The least is that of the squares of 150 mm: 0.075 mm."""
    low, high = worst_window_between(RIDGE, side_mm=150.0)
    assert low == pytest.approx(0.075, abs=1e-6)
    assert high == pytest.approx(0.1 - 0.025 * 100 / 175, abs=1e-6)


DIRECTION = "{shape: by direction, lengthwise: max 0.05 mm, crosswise: max 0.03 mm, overall: max 0.10 mm}"


def test_each_line_by_its_own_direction() -> None:
    """COMMON PRACTICE: lengthwise 0.050, crosswise 0.030, overall 0.10 mm."""
    bench = bench_with(
        FACE.replace("LIMIT", DIRECTION),
        {("flat", LONG): UNDER, ("flat", CROSS): UNDER, ("flat", CORNER): ("0.08", "0.10")},
        faces=FACES,
    )
    found = {(row.criterion, row.place): row.verdict for row in rows_of(bench, "flat")}
    assert found == {
        ("lengthwise, at most 0.05 mm", LONG): "inside",
        # Under 0.04 says nothing of 0.03.
        ("crosswise, at most 0.03 mm", CROSS): "in doubt",
        ("any line, at most 0.10 mm", LONG): "inside",
        ("any line, at most 0.10 mm", CROSS): "inside",
        # 0.10 + 0.0048 is beyond 0.10, and 0.08 is not.
        ("any line, at most 0.10 mm", CORNER): "in doubt",
    }


def test_a_line_that_nobody_read_and_one_whose_direction_nobody_stated() -> None:
    face = (
        "  flat: {name: Head face, part: head, method: straightedge lines, places: [lengthwise, somewhere], "
        "source: manual p. 4, limits: [{shape: by direction, lengthwise: max 0.05 mm}]}\n"
    )
    found = {row.place: row for row in rows_of(bench_with(face, {("flat", "somewhere"): UNDER}), "flat")}
    assert found["lengthwise"].reason == "no reading in the book"
    assert (
        found["somewhere"].reason == "the sheet does not say whether this line runs lengthwise or crosswise"
    )


SPAN = "{shape: per unit of span, limit: max 0.00075 in, per: 1 in}"


@pytest.mark.parametrize(
    ("place", "gap", "verdict"),
    # HAND: 0.00075 · 450 = 0.3375 mm; 0.00075 · 150 = 0.1125 mm. Three blades together err by √3 times as much as one:
    # 0.33 is 0.20, 0.10 and 0.03, and 0.33 + 0.0082 is more than 0.3375.
    [
        (LONG, ("0.20", "0.32"), "inside"), (LONG, ("0.20", "0.33"), "in doubt"), (LONG, ("0.35", None), "outside"),
        (CROSS, ("0.08", "0.10"), "inside"), (CROSS, ("0.12", "0.15"), "outside"),
    ],
)  # fmt: skip
def test_a_limit_that_grows_with_the_span(place: str, gap: Said, verdict: str) -> None:
    """COMMON PRACTICE: three quarters of a thousandth of an inch for each inch of span."""
    row = by_place(bench_with(FACE.replace("LIMIT", SPAN), {("flat", place): gap}, faces=FACES), "flat")[
        place
    ]
    assert row.verdict == verdict
    most = {LONG: "0.338 mm (0.0133 in)", CROSS: "0.113 mm (0.0044 in)"}[place]
    assert f"at most {most}" in row.reason or verdict == "in doubt"


def test_a_span_that_nobody_stated_is_named() -> None:
    face = FACE.replace("LIMIT", SPAN)
    faces = FACES.replace(", length: 470 mm", "")
    found = by_place(bench_with(face, {("flat", CORNER): UNDER}, faces=faces), "flat")
    assert found[CORNER].reason == "the length of this line is not in the sheet"
    stated = FACE.replace("LIMIT", SPAN.replace("}", ", span: 4 in}"))
    # HAND: 0.00075 in · 4 = 0.003 in = 0.0762 mm.
    row = by_place(bench_with(stated, {("flat", CORNER): UNDER}, faces=faces), "flat")[CORNER]
    assert row.verdict == "inside"
    assert "at most 0.0762 mm (0.0030 in)" in row.reason


TOGETHER = "{shape: two faces together, with: deck, limit: max 0.10 mm}"
DECK = """\
  deck: {name: Deck, part: block, method: straightedge lines, places: [one, two], wear_limit: max 0.1 mm, source: manual p. 4}
"""


@pytest.mark.parametrize(
    ("head", "deck", "verdict"),
    # Both blades err, u = 0.0041 mm and 1.645 u = 0.0067 mm: the sum of what does not enter is proven up to 0.0933 mm.
    # Both were read with the same set, but with other blades: nothing is said to cancel.
    [
        ((None, "0.04"), (None, "0.05"), "inside"), ((None, "0.05"), (None, "0.05"), "in doubt"),
        (("0.06", "0.07"), ("0.05", "0.06"), "outside"), (("0.05", "0.06"), ("0.04", "0.05"), "in doubt"),
    ],
)  # fmt: skip
def test_two_faces_are_added(head: Said, deck: Said, verdict: str) -> None:
    read: Read = {("flat", place): head for place in (LONG, CROSS, CORNER)}
    read |= {("deck", "one"): deck, ("deck", "two"): (None, "0.02")}
    row = by_place(bench_with(FACE.replace("LIMIT", TOGETHER) + DECK, read, faces=FACES), "flat")[
        "both faces"
    ]
    assert row.verdict == verdict
    assert row.criterion == "the two faces together, with Deck (block), at most 0.10 mm"


def test_two_faces_of_which_one_is_not_read() -> None:
    bench = bench_with(FACE.replace("LIMIT", TOGETHER) + DECK, {("flat", LONG): UNDER}, faces=FACES)
    row = by_place(bench, "flat")["both faces"]
    assert (row.verdict, row.reason) == (
        "not measured",
        "no reading: Head face (head), cross; corner and Deck (block), one; two",
    )


def test_two_faces_are_outside_as_soon_as_the_worst_lines_read_prove_it() -> None:
    read: Read = {("flat", LONG): OVER, ("deck", "one"): ("0.06", "0.07")}
    row = by_place(bench_with(FACE.replace("LIMIT", TOGETHER) + DECK, read, faces=FACES), "flat")[
        "both faces"
    ]
    assert row.verdict == "outside"


def test_the_error_of_the_straightedge_counts_in_a_gap() -> None:
    """HAND: √(0.005² + 0.01²)/√3 = 0.0065, 1.645 u = 0.0106: 0.04 is no longer proven under 0.05, 0.03 is."""
    kit = KIT + "  edge: {name: straightedge, kind: straightedge, length: 500 mm, error: 0.01 mm}\n"
    face = FACE.replace("limits: [LIMIT]", "wear_limit: max 0.05 mm")
    read: Read = {("flat", LONG): UNDER, ("flat", CROSS): (None, "0.03"), ("flat", CORNER): OVER}
    found = by_place(bench_with(face, read, faces=FACES, kit=kit), "flat")
    assert {place: row.verdict for place, row in found.items()} == {
        LONG: "in doubt", CROSS: "inside", CORNER: "in doubt",
    }  # fmt: skip
    assert found[LONG].way_out == "a blade of 0.03 mm (0.0012 in) must not enter"


@pytest.mark.parametrize("said", ["long, any 150 mm", "long any 150 mm", "long 150 mm"])
def test_the_stretch_that_the_way_out_names_is_taken_and_decides(said: str) -> None:
    """The way out says what to name: what it names is a place, and nothing asks for it where it is not wanted."""
    characteristic = bench_with(FACE.replace("LIMIT", PER), {}, faces=FACES).sheet.characteristics["flat"]
    assert find_place(characteristic, said) == "long, any 150 mm"
    assert find_place(characteristic, "long") == LONG
    found = read_on(PER, long=OVER, cross=UNDER, corner=UNDER)
    assert "name the place after it: “long, any 150 mm”" in found[LONG].ways_out[0]
    found = read_on(PER, "", long=OVER, cross=UNDER, corner=UNDER, **{"long, any 150 mm": UNDER})
    assert [(row.place, row.verdict) for row in found.values()] == [
        ("long, any 150 mm", "inside"), (CROSS, "inside"), (CORNER, "inside"),
    ]  # fmt: skip


def test_a_stretch_is_a_place_only_where_a_limit_speaks_of_it_and_is_never_the_next_one() -> None:
    bench = bench_with(FACE.replace("LIMIT", WHOLE), {}, faces=FACES)
    with pytest.raises(Unknown):
        find_place(bench.sheet.characteristics["flat"], "long, any 150 mm")
    read: Read = {("flat", one): UNDER for one in (LONG, CROSS, CORNER)}
    form = to_measure(bench_with(FACE.replace("LIMIT", PER), read, faces=FACES), "flat")
    assert form.next_place is None
    assert [one.place for one in form.places if one.optional] == [
        "long, any 150 mm", "cross, any 150 mm", "corner, any 150 mm",
    ]  # fmt: skip


def test_a_face_without_named_lines_has_its_stretch_too() -> None:
    face = (
        "  flat: {name: Head face, part: head, method: straightedge lines, source: manual p. 4, "
        "limits: [{shape: per length, limit: max 0.05 mm, over: 150 mm}]}\n"
    )
    read: Read = {("flat", ""): OVER, ("flat", "any 150 mm"): UNDER}
    assert [(row.place, row.verdict) for row in rows_of(bench_with(face, read), "flat")] == [
        ("any 150 mm", "inside")
    ]
