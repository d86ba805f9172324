"""A scanned face cut along the lines that the sheet names.

The limits and their shapes are COMMON PRACTICE; gaps and verdicts are HAND: the dial errs by ± 0.01 mm, u = 0.0058 of a
height, at most √2 of it of a gap, so that a gap is proven where it keeps 1.645 · 0.0082 = 0.0134 mm from its limit.
"""

from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType

import pytest

from gudgeon.bench.context import Bench
from gudgeon.bench.good import Row
from tests.unit.bench.judging.judged import Read, Said, Scanned, bench_with, by_place, rows_of

FACES = """\
faces:
  head:
    name: Head face
    source: manual p. 4
    OPENINGS
    lines:
      long: {along: lengthwise, from: {x: 0 mm, y: 0 mm}, to: {x: 400 mm, y: 0 mm}}
      cross: {along: crosswise, from: {x: 0 mm, y: 0 mm}, to: {x: 0 mm, y: 100 mm}}
      corner: {along: diagonal, length: 412 mm}
"""
FACE = """\
  flat: {name: Head face, part: head, method: straightedge lines, face: head, source: manual p. 4, LIMIT}
"""
Height = Callable[[int, int], float]


def hollow(deep: float) -> Height:
    """Along x a bow that is `deep` below its two ends, in the middle; level along y."""
    return lambda x, _: -deep * (1 - ((x - 200) / 200) ** 2)


def crown(high: float) -> Height:
    """The same the other way up: a straightedge rocks on it."""
    return lambda x, _: high * (1 - ((x - 200) / 200) ** 2)


def grid(height: Height, *, but: Callable[[int, int], bool] = lambda _x, _y: False) -> Scanned:
    """Points every 20 mm, without those that are left out."""
    places = [(x, y) for x in range(0, 401, 20) for y in range(0, 101, 20) if not but(x, y)]
    return Scanned("flat", tuple((str(x), str(y), f"{height(x, y):.5f}") for x, y in places))


def bench_of(limit: str, scan: Scanned, read: Read | None = None, *, openings: str = "") -> Bench:
    faces = FACES.replace("    OPENINGS\n", f"    openings: {openings}\n" if openings else "")
    return bench_with(FACE.replace("LIMIT", limit), read or {}, faces=faces, scan=scan)


def lines_of(limit: str, scan: Scanned, read: Read | None = None, *, openings: str = "") -> dict[str, Row]:
    return by_place(bench_of(limit, scan, read, openings=openings), "flat")


PLAIN = "wear_limit: max 0.05 mm"


@pytest.mark.parametrize(
    ("height", "verdict"),
    [(hollow(0.03), "inside"), (hollow(0.045), "in doubt"), (hollow(0.055), "in doubt"), (hollow(0.07), "outside")],
)  # fmt: skip
def test_the_largest_gap_of_each_named_line(height: Height, verdict: str) -> None:
    found = lines_of(PLAIN, grid(height))
    assert found["long"].verdict == verdict
    assert found["cross"].verdict == "inside"


def test_what_was_cut_is_said() -> None:
    row = lines_of(PLAIN, grid(hollow(0.03)))["long"]
    assert row.reading == "0.030 mm (0.0012 in), cut from the scan"
    assert "a straightedge on 21 points of the scan within 5.0 mm (0.197 in) of the line" in row.notes
    assert row.reason == "inside the wear limit"
    assert "from face.csv, as found" in row.notes
    doubt = lines_of(PLAIN, grid(hollow(0.05)))["long"]
    assert doubt.ways_out[0] == "lay the straightedge on it: gudgeon record reading flat"


@pytest.mark.parametrize(("high", "verdict"), [(0.03, "inside"), (0.05, "in doubt"), (0.08, "outside")])
def test_a_crown_on_which_the_straightedge_rocks_is_no_straight_line(high: float, verdict: str) -> None:
    """HAND: nothing lies between two points of a crown, and yet it gaps at the ends: held alike at both, by the height of
    the crown. Resting on the points at 200 and 220 mm it leaves the near end by high · (1 + 0.1)."""
    row = lines_of(PLAIN, grid(crown(high)))["long"]
    assert row.verdict == verdict
    if high == 0.08:
        assert row.reading.startswith("0.080–0.088 mm (0.0031–0.0035 in), cut from the scan")


DIRECTION = (
    "limits: [{shape: by direction, lengthwise: max 0.05 mm, crosswise: max 0.03 mm, overall: max 0.10 mm}]"
)


def test_each_direction_by_its_own_lines_and_all_of_them_by_the_zone() -> None:
    found = {
        (row.criterion, row.place): row.verdict
        for row in rows_of(bench_of(DIRECTION, grid(hollow(0.07))), "flat")
    }
    assert found == {
        ("lengthwise, at most 0.05 mm", "long"): "outside",
        ("crosswise, at most 0.03 mm", "cross"): "inside",
        # 0.07 + 0.0134 < 0.10, for all points.
        ("any line, at most 0.10 mm", "any line"): "inside",
    }  # fmt: skip


def test_where_the_zone_proves_no_line_inside_those_that_are_outside_are_named() -> None:
    rows = rows_of(bench_of(DIRECTION, grid(hollow(0.15))), "flat")
    found = {row.place: row.verdict for row in rows if row.criterion.startswith("any line")}
    assert found == {"any line": "in doubt", "long": "outside"}


SPAN = "limits: [{shape: per unit of span, limit: max 0.02 mm, per: 100 mm}]"


@pytest.mark.parametrize(("deep", "verdict"), [(0.06, "inside"), (0.075, "in doubt"), (0.10, "outside")])
def test_a_limit_that_grows_with_each_line(deep: float, verdict: str) -> None:
    """HAND: 0.02 mm for each 100 mm is 0.08 mm over the line of 400 mm, and 0.02 mm over that of 100 mm."""
    found = lines_of(SPAN, grid(hollow(deep)))
    assert found["long"].verdict == verdict
    assert found["cross"].verdict == "inside"
    assert "at most 0.02 mm (0.00079 in) over 100 mm (3.937 in)" in found["cross"].reason


def test_a_line_whose_ends_nobody_stated_is_not_cut() -> None:
    row = lines_of(PLAIN, grid(hollow(0.07)))["corner"]
    assert (row.verdict, row.reason) == (
        "not measured",
        "the ends of this line are not in the sheet (`from:` and `to:` of the line), so it is not cut from the scan",
    )
    # Between planes as close as 0.03 mm no line has a larger gap, wherever it runs.
    assert lines_of(PLAIN, grid(hollow(0.03)))["corner"].verdict == "inside"


def test_too_few_points_near_a_line_are_told() -> None:
    """A hole of 140 mm is more than a quarter of 400 mm; two points are no straightedge."""
    holed = grid(hollow(0.03), but=lambda x, y: y == 0 and 100 < x < 240)
    row = lines_of(PLAIN, holed)["long"]
    assert (row.verdict, row.reason) == (
        "not measured",
        "too few points lie near this line: 15 points of the scan within 5.0 mm (0.197 in) of the line, none over 140 mm "
        "(5.512 in) of it",
    )
    assert row.way_out == "lay the straightedge on it: gudgeon record reading flat"
    bare = grid(hollow(0.03), but=lambda x, y: y == 0 and 0 < x < 400)
    assert lines_of(PLAIN, bare)["long"].reason == (
        "too few points lie near this line: 2 points of the scan within 5.0 mm (0.197 in) of the line"
    )
    short = grid(hollow(0.03), but=lambda x, y: y == 0 and x > 340)
    assert "none over 60 mm (2.362 in) of it" in lines_of(PLAIN, short)["long"].reason


def test_few_points_that_show_too_large_a_gap_already_prove_it() -> None:
    holed = grid(hollow(0.2), but=lambda x, y: y == 0 and 100 < x < 240)
    assert lines_of(PLAIN, holed)["long"].verdict == "outside"


def test_where_an_opening_lies_under_a_line_no_points_are_missed() -> None:
    holed = grid(hollow(0.03), but=lambda x, y: y == 0 and 100 < x < 240)
    opening = "[{x: 170 mm, y: 0 mm, diameter: 100 mm}]"
    assert lines_of(PLAIN, holed, openings=opening)["long"].verdict == "inside"


@pytest.mark.parametrize(("gap", "verdict"), [((None, "0.04"), "inside"), (("0.06", "0.07"), "outside")])
def test_a_blade_on_the_line_itself_goes_before_the_points(gap: Said, verdict: str) -> None:
    found = lines_of(PLAIN, grid(hollow(0.05)), {("flat", "long"): gap})
    assert (found["long"].verdict, found["cross"].verdict) == (verdict, "inside")


def test_a_scan_from_another_zero_is_not_cut() -> None:
    faces = FACES.replace("    OPENINGS\n", (
        "    outline: [{x: 0 mm, y: 0 mm}, {x: 400 mm, y: 0 mm}, {x: 400 mm, y: 100 mm}, {x: 0 mm, y: 100 mm}]\n"
    ))  # fmt: skip
    here = grid(hollow(0.07))
    away = replace(here, points=tuple((str(int(x) + 200), y, z) for x, y, z in here.points))
    cut, not_cut = (
        by_place(bench_with(FACE.replace("LIMIT", PLAIN), {}, faces=faces, scan=scan), "flat")["long"]
        for scan in (here, away)
    )
    assert cut.verdict == "outside"
    assert (not_cut.verdict, not_cut.reason) == (
        "not measured",
        "most points of the scan lie beside the outline of the face: they are counted from another zero than its lines, "
        "so no line is cut from it",
    )


def as_left(bench: Bench, *, readings: bool) -> Bench:
    """The same bench, with either its readings or its scan taken after the work."""
    state = bench.state
    if readings:
        of = {
            (item, place, "as left"): replace(one, condition="as left")
            for (item, place, _), one in state.readings.items()
        }
        return replace(bench, state=replace(state, readings=MappingProxyType(of)))
    scans = {(item, "as left"): replace(one, condition="as left") for (item, _), one in state.scans.items()}
    return replace(bench, state=replace(state, scans=MappingProxyType(scans)))


def test_what_was_measured_after_the_work_goes_before_what_was_found() -> None:
    bench = bench_of(PLAIN, grid(hollow(0.02)), {("flat", "long"): ("0.10", "0.15")})
    assert by_place(as_left(bench, readings=False), "flat")["long"].verdict == "inside"
    # A face of which there are readings as left is no longer the one that was scanned as found.
    left = by_place(as_left(bench, readings=True), "flat")
    assert (left["long"].verdict, left["cross; corner"].verdict) == ("outside", "not measured")


def test_a_blade_that_enters_is_not_talked_away_by_a_scan() -> None:
    whole = "limits: [{shape: whole face, limit: max 0.05 mm}]"
    rows = rows_of(bench_of(whole, grid(hollow(0.02)), {("flat", "long"): ("0.10", "0.15")}), "flat")
    assert {row.verdict for row in rows} == {"inside", "outside"}
