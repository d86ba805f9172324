"""Single checks of the proof-reading; the expected figures are HAND, the reckoning stands beside them."""

from importlib import resources

import pytest

from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.sheet.load import parse_sheet

HEAD = """gudgeon: data sheet 1
engine: {name: E, codes: [E], code_is_read: on the pad, layout: inline, cylinders: 4, numbered_from: front}
sources: {manual: {title: Manual, edition: first}}
"""


def sheet(body: str) -> tuple[Finding, ...]:
    loaded = parse_sheet(HEAD + body, file="sheet.yaml")
    return proofread(loaded.sheet, written=loaded.written)


def cylinder(**figures: str) -> tuple[Finding, ...]:
    lines = "".join(f'  {name}: "{text}"\n' for name, text in figures.items())
    return sheet(f"cylinder:\n  source: manual p. 1\n{lines}")


def joint(*stages: str, thread: str = "M10x1.25", strength: str = "10.9", role: str = "cylinder head") -> str:
    program = ", ".join(f"{{{stage}}}" for stage in stages)
    return (
        f"joints:\n  head: {{name: Head bolts, role: {role}, source: manual p. 2, bolts: 2, order: [1, 2], "
        f'thread_state: oiled, fastener: {{thread: {thread}, strength_class: "{strength}"}}, program: [{program}]}}\n'
    )


@pytest.mark.parametrize(
    ("displacement", "grade", "says"),
    [
        # 4 × π/4 × 9.0² × 10.0 cm = 2544.7 cm³; with 3.14: 2543.4 cm³; one cylinder: 636.2 cm³
        ("2543.4 cm³", "note", "3.14 for π"),
        ("636.2 cm³", "error", "the volume of one cylinder"),
        ("2454 cm³", "error", "the digits 4 and 5 exchanged"),
        ("25.45 L", "error", "ten-fold"),
        ("2550 cm³", "note", "rounded to a round number"),
        # 5085 / 2544.7 = 1.998: nearly twice as much, and no power of ten in words
        ("5085 cm³", "error", "off by 100%, and"),
    ],
)
def test_displacement_from_bore_and_stroke(displacement: str, grade: str, says: str) -> None:
    (found,) = cylinder(bore="90.00 mm", stroke="100.00 mm", displacement=displacement)
    assert (found.grade, found.path, found.line) == (grade, "cylinder.displacement", 8)
    assert says in f"{found.why} {found.digit}"


def test_a_displacement_that_closes_raises_nothing() -> None:
    assert cylinder(bore="90.00 mm", stroke="100.00 mm", displacement="2545 cm³ (155.3 in³)") == ()


@pytest.mark.parametrize(
    ("ratio", "grade"), [("9.8:1", ""), ("9.9:1", "doubt"), ("8.8:1", "error"), ("98:1", "error")]
)
def test_compression_ratio_from_its_volumes(ratio: str, grade: str) -> None:
    """Swept 447.7 cm³; clearance 40.8 + 5.0 + 4.82 (gasket) + 0.26 (deck) = 50.9 cm³; 1 + 447.7 / 50.9 = 9.80."""
    found = cylinder(
        bore="81.60 mm", stroke="85.60 mm", chamber_volume="40.8 cm³", crown_volume="5.0 cm³",
        piston_height="-0.05 mm", gasket_bore="82.60 mm", gasket_thickness="0.90 mm", compression_ratio=ratio,
    )  # fmt: skip
    assert [one.grade for one in found] == ([grade] if grade else [])


def test_more_off_the_head_than_lies_between_its_heights() -> None:
    (found,) = sheet(
        "head: {source: manual p. 1, height: 132.60 mm, least_height: min 132.30 mm, most_off: 3.0 mm}"
    )
    assert found.grade == "error"
    assert found.digit.startswith("3.0 mm for 0.30 mm: a ten-fold slip")


def test_a_degree_sign_read_as_a_zero() -> None:
    (found,) = sheet(joint("torque: 30 N·m", "turn: 900°"))
    assert (found.grade, found.path, found.agrees) == ("error", "joints.head.program.2.turn", "90°")
    assert found.digit == "the last 0: a degree sign read as a zero makes 900 of 90°"
    assert sheet(joint("torque: 30 N·m", "turn: 210°")) == ()


@pytest.mark.parametrize(
    ("torque", "found"),
    # COMMON PRACTICE: 60 to 85 N·m for an M10 fine thread of class 10.9; the others are ten-fold slips of 85
    [("85 N·m", ()), ("60 N·m", ()), ("850 N·m", ("doubt",)), ("8.5 N·m", ("doubt",))],
)
def test_a_torque_against_thread_and_class(torque: str, found: tuple[str, ...]) -> None:
    assert tuple(one.grade for one in sheet(joint(f"torque: {torque}"))) == found


def test_a_torque_says_what_the_bolt_bears_and_in_which_way_it_slipped() -> None:
    (found,) = sheet(joint("torque: 850 N·m"))
    assert found.agrees.startswith("M10x1.25 10.9 reaches 90 % of its yield strength at ")
    assert found.digit == "perhaps a ten-fold slip, the point stands one place too far right"


def test_a_small_torque_that_is_followed_by_a_turn_is_no_doubt() -> None:
    assert sheet(joint("torque: 8.5 N·m", "turn: 90°")) == ()


@pytest.mark.parametrize(("thread", "strength"), [("3/8 BSF", "10.9"), ("M10x1.25", "S")])
def test_nothing_is_said_of_a_bolt_that_is_not_known(thread: str, strength: str) -> None:
    assert sheet(joint("torque: 850 N·m", thread=thread, strength=strength)) == ()


def also(one: str, other: str) -> tuple[Finding, ...]:
    return sheet(
        "characteristics:\n  it: {name: It, part: Part, method: gap, source: manual p. 1, "
        f"new_range: {{value: {one}, also: [{{value: {other}, source: manual p. 9}}]}}}}\n"
    )


def test_two_pages_that_differ() -> None:
    (found,) = also("max 0.10 mm", "max 0.01 mm")
    assert (found.grade, found.path) == ("error", "characteristics.it.new_range.also.1")
    assert found.printed == "max 0.10 mm (manual p. 1); max 0.01 mm (manual p. 9)"
    assert "ten-fold" in found.digit


def test_two_pages_of_which_one_is_rounded_agree() -> None:
    assert also("0.100-0.330 mm", "0.1-0.3 mm") == ()


def test_one_thing_at_two_places_of_the_sheet() -> None:
    body = (
        "cylinder: {source: manual p. 1, bore: 81.60 mm}\n"
        "characteristics:\n  bore: {name: Cylinder bore, part: Block, source: manual p. 5, new_range: %s}\n"
    )
    (found,) = sheet(body % "86.10–86.12 mm")
    assert (found.check, found.grade, found.path) == ("two-places", "error", "characteristics.bore.new_range")
    assert sheet(body % "81.60–81.62 mm") == ()


def fit(stated: str) -> tuple[Finding, ...]:
    """Bore 26.00–26.02, shaft 25.94–25.96: least 26.00 − 25.96 = 0.04, most 26.02 − 25.94 = 0.08."""
    return sheet(
        "characteristics:\n"
        "  hole: {name: Cap bore, part: P, source: manual p. 1, new_range: 26.00–26.02 mm}\n"
        "  journal: {name: Journal, part: P, source: manual p. 1, new_range: 25.94–25.96 mm}\n"
        f"  it: {{name: It, part: P, source: manual p. 1, method: gap, between: [hole, journal], new_range: {stated}}}\n"
    )


@pytest.mark.parametrize(
    ("stated", "grade"),
    [
        ("0.04–0.08 mm", ""),
        ("0.055–0.065 mm", "note"),
        ("0.04–0.06 mm", "doubt"),
        ("0.04–0.18 mm", "error"),
        ("0.4–0.8 mm", "error"),
    ],
)
def test_a_clearance_against_its_two_sizes(stated: str, grade: str) -> None:
    assert [one.grade for one in fit(stated)] == ([grade] if grade else [])


@pytest.mark.parametrize(
    ("x", "far"), [("110 mm", False), ("1999 mm", False), ("110000 mm", True), ("-3 m", True)]
)
def test_a_bolt_farther_off_than_an_engine_is_long(x: str, far: bool) -> None:
    body = joint("torque: 40 N·m").replace("bolts: 2,", "bolts: {1: {x: 0 mm, y: 0 mm}, 2: {x: X, y: 0 mm}},")
    found = [one for one in sheet(body.replace("X", x)) if one.check == "place-far"]
    assert [(one.grade, one.path, one.printed) for one in found] == (
        [("doubt", "joints.head.bolts.2.x", x)] if far else []
    )


def test_findings_stand_errors_first_and_in_the_order_of_the_file() -> None:
    found = sheet(
        "characteristics:\n"
        "  a: {name: A, part: P, method: gap, source: manual p. 1, new_range: 0.1–0.5 mm, wear_limit: max 9 mm}\n"
        "  b: {name: B, part: P, method: gap, source: manual p. 1, new_range: 0.10 mm (0.04 in)}\n"
        "  c: {name: C, part: P, source: manual p. 1, grades: {one: 0.8–0.9 mm, two: 0.9–1.0 mm}}\n"
        "  d: {name: D, part: P, method: gap, source: manual p. 1, new_range: 0.20 mm (0.08 in)}\n"
    )
    assert [(one.grade, one.path.split(".")[1]) for one in found] == [
        ("error", "b"),
        ("error", "d"),
        ("doubt", "c"),
    ]


def test_the_invented_sheet_has_one_doubt_that_is_settled_and_nothing_else() -> None:
    text = resources.files("gudgeon.demo").joinpath("sheet.yaml").read_text(encoding="utf-8")
    loaded = parse_sheet(text, file="sheet.yaml")
    (found,) = proofread(loaded.sheet, written=loaded.written)
    assert (found.grade, found.check, found.counts) == ("doubt", "two-pages", False)
