"""Limits with shapes, and the faces they belong to: what reads, and what is refused with its place.

All figures are invented; which of them contradict each other follows from what each shape means (HAND).
"""

import pytest

from gudgeon.errors import InputError
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import BetweenCylinders, BetweenPlaces
from gudgeon.sheet.write import is_critical, is_figure, kind_of, parse_path, put_figure
from tests.unit.sheet.sheets import SMALL

HEAD, TAIL = SMALL.split("  journal:\n")
FACE = """\
faces:
  head:
    name: Head face
    bolts_of: head
    lines:
      left: {along: lengthwise, from: {x: 0 mm, y: 30 mm}, to: {x: 40 mm, y: 0 mm}}
      right: {along: lengthwise, length: 90 mm}
    points:
      a: {x: 0 mm, y: 0 mm}
      b: {x: 40 mm, y: 0 mm}
      c: {x: 0 mm, y: 30 mm}
    source: manual p. 4
"""
BORE = "places: {cylinder: [1, 2], height: [top, low]}"


def sheet(item: str, face: str = "") -> DataSheet:
    """The small sheet with one more characteristic `it`, whose lines are given."""
    lines = "".join(f"    {line}\n" for line in item.splitlines())
    start = f"  it:\n    name: It\n    part: head\n    source: manual p. 7\n{lines}  journal:\n"
    return parse_sheet(HEAD + start + TAIL + face, file="s.yaml").sheet


def refusal(item: str, face: str = "") -> str:
    with pytest.raises(InputError) as caught:
        sheet(item, face)
    return str(caught.value)


SHAPES = {
    "whole face": "limit: max 0.05 mm (0.002 in)",
    "per length": "limit: max 0.03 mm, over: 100 mm",
    "whole face and per length": "total: max 0.10 mm, limit: max 0.05 mm, over: 150 mm",
    "by direction": "lengthwise: max 0.05 mm, crosswise: max 0.03 mm, overall: max 0.10 mm",
    "per unit of span": "limit: max 0.00075 in, per: 1 in",
    "two faces together": "with: head_face, limit: max 0.10 mm",
    "difference between places": "limit: max 0.01 mm",
    "difference between cylinders": "percent_below_mean: 10 %",
    "sum with another part": "with: journal, limit: 30.00–30.10 mm",
    "replace always": "stands_for: required",
}


@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_reads(shape: str) -> None:
    (found,) = (
        sheet(f"method: straightedge lines\nlimits:\n  - {{shape: {shape}, {SHAPES[shape]}}}")
        .characteristics["it"]
        .limits
    )
    assert found.shape == shape
    assert set(found.limiting()) == {
        name for name in ("limit", "total", "lengthwise", "crosswise", "overall", "percent_below_mean")
        if f"{name}: " in SHAPES[shape]
    }  # fmt: skip


def test_matched_pairs_read_where_two_parts_make_a_clearance() -> None:
    found = sheet(
        "method: difference\nof: [head_face, journal]\n"
        "limits: [{shape: matched pairs, clearance: 0.03–0.05 mm}]"
    )
    assert found.characteristics["it"].limits[0].shape == "matched pairs"


def between(limit: str, quantity: str) -> BetweenCylinders:
    found = sheet(f"quantity: {quantity}\n{BORE}\nlimits: [{{shape: difference between cylinders, {limit}}}]")
    (one,) = found.characteristics["it"].limits
    assert isinstance(one, BetweenCylinders)
    return one


def test_a_difference_between_cylinders_is_read_as_what_is_measured() -> None:
    bar = between("limit: max 2 bar (29 psi)", "pressure_gauge").limit
    assert bar is not None
    assert bar.value.high_in("kPa") == 200
    gram = between("limit: {value: max 4 g, source: manual p. 9}", "mass").limit
    assert gram is not None
    assert gram.value.high_in("kg") == pytest.approx(0.004)
    assert gram.source is not None
    fahrenheit = between("limit: max 9 °F", "temperature").limit
    assert fahrenheit is not None
    assert fahrenheit.value.high_in("K") == pytest.approx(5)


def test_a_difference_between_places_may_be_of_any_kind() -> None:
    (one,) = (
        sheet(
            f"quantity: mass\n{BORE}\nlimits: [{{shape: difference between places, limit: max 3 g, within: cylinder}}]"
        )
        .characteristics["it"]
        .limits
    )
    assert isinstance(one, BetweenPlaces)
    assert one.limit.value.high_in("kg") == pytest.approx(0.003)


def test_a_difference_of_another_kind_is_refused_at_its_place() -> None:
    said = refusal(
        f"quantity: pressure_gauge\n{BORE}\nlimits:\n  - shape: difference between cylinders\n    limit: max 1 mm"
    )
    assert said.endswith(
        "s.yaml, line 34, column 16: limit: `mm` is a unit of length, not of gauge pressure. "
        "Write one of: kPa, psi, bar, kgf/cm²."
    )


@pytest.mark.parametrize(
    ("written", "least", "most"),
    [("percent_of_highest: 75 %", 0.75, 0.75), ("percent_of_highest: min 75 %", 0.75, None),
     ("percent_below_mean: max 10 %", None, 0.10), ("percent_of_highest: max 25 %", None, 0.25),
     ("percent_of_highest: 0.75", 0.75, 0.75)],
)  # fmt: skip
def test_shares_read_with_and_without_a_side(written: str, least: float | None, most: float | None) -> None:
    one = between(written, "pressure_gauge")
    found = one.percent_of_highest or one.percent_below_mean
    assert found is not None
    assert (found.value.low_in("1"), found.value.high_in("1")) == (
        pytest.approx(least) if least else None,
        pytest.approx(most) if most else None,
    )


def limited(shape: str, figures: str) -> str:
    return f"method: straightedge lines\nlimits: [{{shape: {shape}, {figures}}}]"


@pytest.mark.parametrize(
    ("item", "said"),
    [
        (limited("whole face", "limit: 0.05 mm"),
         "`0.05 mm` does not say on which side it limits. Write `max …` or `min …`."),
        (limited("whole face", "limit: min 0.05 mm"),
         "`min 0.05 mm` limits downward, and `whole face` is a limit upward. Write `max …`."),
        (limited("per length", "limit: max 0.05 mm, over: 100–150 mm"),
         "`100–150 mm` is no single length above zero. Write it like `150 mm`."),
        (limited("per unit of span", "limit: max 0.05 mm, per: 0 mm"),
         "`0 mm` is no single length above zero. Write it like `150 mm`."),
        (limited("two faces together", "limit: max 0.05 mm, with: it"),
         "Two faces are added, and `it` is the one it stands in: name the other one."),
        (limited("sum with another part", "limit: max 0.05 mm, with: it"),
         "Two parts are added, and `it` is the one it stands in: name the other one."),
        (limited("two faces together", "limit: max 0.05 mm, with: head_fase"),
         "`head_fase` is not a known characteristic here. Did you mean `head_face`?"),
        (limited("by direction", "stands_for: required"),
         "`by direction` states at least one of lengthwise, crosswise and overall."),
        (limited("difference between cylinders", "percent_of_highest: 75 %, percent_below_mean: 10 %"),
         "`difference between cylinders` states one of limit, percent_of_highest and percent_below_mean; 2 were "
         "found."),
        (limited("difference between cylinders", "percent_below_mean: min 10 %"),
         "`min 10 %`: `percent_below_mean` is the most that it may be. Write `max …`."),
        (limited("difference between cylinders", "percent_of_highest: 75"),
         "`75` is 7500 %: a share lies above 0 % and up to 100 %. Write `75 %`."),
        (f"{BORE}\nlimits: [{{shape: difference between places, limit: max 1 mm, within: hight}}]",
         "`hight` is not a known division of the places here. Did you mean `height`?"),
        ("places: [a, b]\nlimits: [{shape: difference between places, limit: max 1 mm, within: a}]",
         "`a` is not a known division of the places here. Known here: none."),
        (limited("matched pairs", "clearance: 0.03–0.05 mm"),
         "`matched pairs` finds the part that fits each place: it belongs to a `method: difference` whose `of:` "
         "names the two parts, not to `straightedge lines`."),
        ("accept: as read",
         "`as read` leaves out the doubt of the reading: say in `accept_why:` why the maker's limit allows it, or "
         "take the line out."),
        ("limits: [{shape: hole face, limit: max 1 mm}]", "`hole face` is not a known shape here. Did you mean `whole face`?"),
        ("limits: [{limit: max 1 mm}]", "It does not say its shape: write `shape:` with it; a mapping was found."),
        ("limits: [whole face]", "It does not say its shape: write `shape:` with it; `whole face` was found."),
        (limited("difference between cylinders", "limit: [1 mm]"),
         "A figure with its unit was expected, a list was found."),
        ("method: difference\nof: [it, journal]", "`it` is worked out from itself. Name what is measured in `of:`."),
        ("instead: it", "A characteristic cannot be taken in its own place: name another one."),
        ("instead: jurnal", "`jurnal` is not a known characteristic here. Did you mean `journal`?"),
        ("face: haed", "`haed` is not a known face here. Did you mean `head`?"),
        ("material: gray_irn", "`gray_irn` is not a known material here. Did you mean `gray iron`?"),
        ("face: head\nmethod: straightedge lines\nplaces: [left, write]",
         "`write` is not a known line of the face here. Did you mean `right`?"),
        ("face: head\nmethod: heights\nplaces: [a, d]",
         "`d` is not a known point of the face here. Known here: a, b, c."),
        (f"face: head\nmethod: straightedge lines\n{BORE}",
         "On a face the places are its lines: write them as one list, or leave them out."),
        (f"{BORE}\nat_heights: {{topp: 10 mm}}",
         "`topp` is not a known place of this characteristic here. Did you mean `top`?"),
        (f"{BORE}\nat_heights: {{top: 10 mm, low: 1 cm}}",
         "`top` and `low` lie at one height (1 cm). Look again."),
        (f"{BORE}\nat_heights: {{top: 10–20 mm}}", "`10–20 mm` is no single height. Write it like `60 mm`."),
    ],
)  # fmt: skip
def test_contradictions_are_refused_with_their_place(item: str, said: str) -> None:
    found = refusal(item, FACE)
    assert said in found
    assert "s.yaml, line " in found


def test_bolts_of_a_face_are_those_of_a_joint() -> None:
    said = "`heads` is not a known joint here. Did you mean `head`?"
    assert said in refusal("method: gap", FACE.replace("bolts_of: head", "bolts_of: heads"))


def test_lines_of_a_face_are_the_places_of_what_is_read_on_it() -> None:
    found = sheet("face: head\nmethod: straightedge lines", FACE)
    assert found.characteristics["it"].places == ("left", "right")
    assert [line.length_mm() for line in found.faces["head"].lines.values()] == [50, 90]


def test_points_of_a_face_are_the_places_of_heights() -> None:
    assert sheet("face: head\nmethod: heights", FACE).characteristics["it"].places == ("a", "b", "c")
    assert sheet("face: head\nmethod: scanned face", FACE).characteristics["it"].places == ()


def test_replace_always_may_stand_beside_limits_of_readings() -> None:
    found = sheet("limits: [{shape: replace always}, {shape: whole face, limit: max 0.05 mm}]\nmethod: gap")
    assert [one.shape for one in found.characteristics["it"].limits] == ["replace always", "whole face"]


@pytest.mark.parametrize(
    ("tie", "takes"),
    [("the higher one takes it", "higher"), ("the lower grade", "lower"), ("Upper grade takes it", "higher"),
     ("smaller", "lower"), ("the thicker one takes it", ""), ("not the higher one", ""),
     ("higher or lower, as you like", "")],
)  # fmt: skip
def test_a_tie_counts_where_its_word_leaves_no_doubt(tie: str, takes: str) -> None:
    assert sheet(f"grades: {{a: 1–2 mm, b: 2–3 mm}}\ntie: {tie!r}").characteristics["it"].tie_takes == takes


LIMITED = f"""\
quantity: pressure_gauge
{BORE}
limits:
  # as the bulletin has it
  - {{shape: difference between cylinders, limit: max 2 bar}}
  - {{shape: per unit of span, limit: max 0.05 mm, per: 100 mm}}"""


def text_of(item: str) -> str:
    lines = "".join(f"    {line}\n" for line in item.splitlines())
    return f"{HEAD}  it:\n    name: It\n    part: head\n    source: manual p. 7\n{lines}  journal:\n{TAIL}"


def put(path: str, value: str, source: str = "manual p. 7") -> str:
    return put_figure(text_of(LIMITED), file="s.yaml", path=parse_path(path), value=value, source=source)


def test_a_figure_of_a_limit_is_written_in_its_place() -> None:
    after = put("characteristics.it.limits.1.limit", "max 1.5 bar")
    assert after == text_of(LIMITED).replace("max 2 bar", "max 1.5 bar")
    paged = put("characteristics.it.limits.2.per", "4 in", "manual p. 9")
    assert "per: {value: 4 in, source: manual p. 9}" in paged


def test_a_figure_of_another_kind_is_not_written() -> None:
    with pytest.raises(InputError) as caught:
        put("characteristics.it.limits.1.limit", "max 1.5 mm")
    assert "`mm` is a unit of length, not of gauge pressure." in str(caught.value)
    with pytest.raises(InputError) as caught:
        put("characteristics.it.limits.2.total", "max 1.5 mm")
    assert "`total` is not a known key here." in str(caught.value)


@pytest.mark.parametrize(
    ("path", "kind"),
    [("limits.1.limit", "pressure_gauge"), ("limits.2.limit", "length_difference"), ("limits.2.per", "length"),
     ("limits.1.percent_of_highest", "ratio"), ("wear_limit", "pressure_gauge"), ("at_heights.top", "length")],
)  # fmt: skip
def test_the_kind_of_a_figure_follows_from_its_limit(path: str, kind: str) -> None:
    assert kind_of(parse_path(f"characteristics.it.{path}"), sheet(LIMITED))[0] == kind


def test_what_limits_is_asked_twice_and_what_it_limits_by_is_not() -> None:
    assert is_critical(parse_path("characteristics.it.limits.2.limit"))
    assert not is_critical(parse_path("characteristics.it.limits.2.per"))
    assert not is_figure(parse_path("characteristics.it.limits.2.shape"))


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("length: 90 mm", "length: 0 mm",
         "A line has a length above zero: its ends are one point, or its `length:` is none."),
        ("to: {x: 40 mm, y: 0 mm}", "to: {x: 0 mm, y: 30 mm}",
         "A line has a length above zero: its ends are one point, or its `length:` is none."),
        (", to: {x: 40 mm, y: 0 mm}", "", "A line has both ends or none: `from:` and `to:`."),
        ("    points:", "    openings: [{x: 0 mm, y: 0 mm, diameter: -4 mm}]\n    points:",
         "`-4 mm` is no diameter of an opening."),
    ],
)  # fmt: skip
def test_faces_that_cannot_be_are_refused(before: str, after: str, said: str) -> None:
    assert FACE.count(before) == 1
    assert said in refusal("method: gap", FACE.replace(before, after))
