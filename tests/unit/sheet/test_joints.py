"""Joints in a sheet: every ordinary situation can be written so that it reads, and what is refused says where."""

import pytest

from gudgeon.bench.progress import progress
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.load import parse_sheet
from gudgeon.written.errors import FileRefused
from tests.unit.sheet.sheets import SMALL

PROGRAM = """\
    program:
      - hand-run
      - torque: 10 N·m
      - torque: 24 N·m (17.7 lbf·ft)
      - turn: 90°
    total_turn: 90°
"""
BOLTS = "    bolts: 4\n"
FASTENER = '    fastener: {thread: M8x1.25, strength_class: "8.8"}\n'


def joint(*changes: tuple[str, str]) -> Joint:
    text = SMALL
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return parse_sheet(text, file="s.yaml").sheet.joints["head"]


def refusal(*changes: tuple[str, str]) -> str:
    with pytest.raises(FileRefused) as caught:
        joint(*changes)
    return str(caught.value)


def worked(of: Joint, *, bolts_are: str = "") -> list[tuple[int, int, str]]:
    """Every step of a program: stage, pass and bolt."""
    return [(one.stage, one.round, one.bolt) for one in progress(of, None, bolts_are=bolts_are).steps]


# Ordinary situations


def test_two_equal_passes() -> None:
    of = joint((PROGRAM, "    program:\n      - torque: 24 N·m\n        repeat: 2\n"))
    assert worked(of) == [(1, turn, bolt) for turn in (1, 2) for bolt in "1324"]
    # The second pass moves nothing when the first one held, and that is right.
    assert [one.at_once_is_good for one in progress(of, None).steps] == [False] * 4 + [True] * 4


def test_the_two_middle_bolts_once_more() -> None:
    of = joint(
        (PROGRAM, "    program:\n      - torque: 24 N·m\n      - torque: 26 N·m\n        only: [2, 3]\n")
    )
    assert worked(of)[4:] == [(2, 1, "3"), (2, 1, "2")]


def test_loosened_twice_by_half_a_turn_and_begun_again_lower() -> None:
    again = "      - loosen: 180°\n      - loosen: 180°\n      - torque: 15 N·m\n      - turn: 90°\n"
    of = joint((PROGRAM, f"    program:\n      - torque: 35 N·m\n{again}    total_turn: 90°\n"))
    assert worked(of)[4:12] == [(stage, 1, bolt) for stage in (2, 3) for bolt in "4231"]
    last = progress(of, None).steps[-1]
    assert (last.turn_before, last.turn_after) == (0, 90)
    # 15 N·m after 35 N·m and loosening: a wrench that clicks at once has moved nothing.
    assert not any(one.at_once_is_good for one in progress(of, None).steps if one.stage == 4)


def test_left_provisional_and_finished_weeks_later() -> None:
    stages = (
        "      - torque: 10 N·m\n        provisional: until the timing is proved\n      - torque: 24 N·m\n"
    )
    of = joint((PROGRAM, f"    program:\n{stages}"))
    assert of.program[0].provisional == "until the timing is proved"


def test_families_interleave() -> None:
    long_short = "    families: {long: {thread: M10x1.25}, short: {thread: M8x1.25}}\n"
    bolts = "    bolts: {1: {family: long}, 2: {family: short}, 3: {family: long}, 4: {family: short}}\n"
    stages = "".join(
        f"      - torque: {torque}\n        family: {family}\n"
        for torque, family in (
            ("20 N·m", "long"),
            ("10 N·m", "short"),
            ("40 N·m", "long"),
            ("20 N·m", "short"),
        )
    )
    of = joint((FASTENER, long_short), (BOLTS, bolts), (PROGRAM, f"    program:\n{stages}"))
    assert worked(of) == [
        (stage, 1, bolt) for stage in (1, 2, 3, 4) for bolt in ("13" if stage % 2 else "24")
    ]


def test_more_turn_for_new_bolts_than_for_used_ones() -> None:
    stages = "".join(
        f"      - turn: {turn}\n        for_bolts: {are}\n" for turn, are in (("90°", "new"), ("75°", "used"))
    )
    of = joint((PROGRAM, f"    program:\n      - torque: 24 N·m\n{stages}"))
    assert {stage for stage, _, _ in worked(of)} == {1, 2}
    assert {stage for stage, _, _ in worked(of, bolts_are="used")} == {1, 3}


def test_every_kind_of_stage_in_one_program() -> None:
    stages = ["hand-run", "draw down: 180°", "torque: 8–10 N·m", "wait: 10 min", "turn: 85–95°", "loosen: fully",
              "torque: 20 N·m", "verify: 18 N·m", "stretch: 0.12 mm"]  # fmt: skip
    of = joint((PROGRAM, "    program:\n" + "".join(f"      - {one}\n" for one in stages)))
    assert [stage.kind for stage in of.program] == [one.partition(":")[0] for one in stages]


def test_loosening_in_its_own_order_cold_and_in_passes() -> None:
    said = "    loosening:\n      - loosen: 90°\n        repeat: 2\n      - loosen: fully\n"
    of = joint((PROGRAM, f"{PROGRAM}{said}    loosening_order: [4, 1, 2, 3]\n    loosening_cold: yes\n"))
    assert of.loosening_cold
    assert of.stage_bolts(of.loosening[0], loosening=True) == ("4", "1", "2", "3")
    plain = joint((PROGRAM, f"{PROGRAM}{said}"))
    assert plain.stage_bolts(plain.loosening[0], loosening=True) == ("4", "2", "3", "1")


CLAMP = """\
    friction: {thread: 0.10–0.14, head: 0.08–0.12}
    gasket: {name: three layers of steel, thickness: 0.90 mm, creep: 5 %}
    dowels: two hollow ones
    clamped:
      - {name: cylinder head, material: aluminum, thickness: 98.0 mm}
      - {name: gasket, modulus: 2 GPa, thickness: 0.90 mm}
    bedding:
      beam: {bending_stiffness: 1.3e11 N·mm2, foundation: 2000 N/mm2, length: 440 mm}
"""
LONG = """\
    fastener:
      thread: M8x1.25
      yield: 940 MPa
      hardening: 2 %
      head: flange hexagon 13 mm
      segments:
        - {length: 40 mm, diameter: 7.2 mm}
        - {length: 62 mm, threaded: yes}
      engagement: 31 mm
"""


def test_what_the_clamp_depends_on() -> None:
    of = joint((FASTENER, LONG), (PROGRAM, PROGRAM + CLAMP))
    fastener, bedding = of.fastener, of.bedding
    assert fastener is not None
    assert fastener.has_flats
    assert fastener.yield_strength is not None
    assert fastener.yield_strength.middle_in("MPa") == 940
    assert [one.threaded for one in fastener.segments] == [False, True]
    assert of.gasket is not None
    assert of.gasket.creep is not None
    assert of.gasket.creep.middle_in("1") == 0.05
    assert of.clamped[1].modulus is not None
    assert of.clamped[1].modulus.middle_in("MPa") == 2000
    assert bedding is not None
    assert bedding.beam is not None
    assert bedding.beam.bending_stiffness.middle_in("N·mm²") == 1.3e11
    assert bedding.beam.foundation.middle_in("N/mm²") == 2000


def test_a_matrix_is_read_in_its_unit() -> None:
    rows = "[[2, 1, 0, 0], [1, 2, 1, 0], [0, 1, 2, 1], [0, 0, 1, 2]]"
    of = joint((PROGRAM, f"{PROGRAM}    bedding: {{matrix: {{unit: µm/kN, rows: {rows}}}}}\n"))
    assert of.bedding is not None
    assert of.bedding.matrix is not None
    # HAND: 1 µm/kN = 1e-3 mm / 1e3 N = 1e-6 mm/N
    assert of.bedding.matrix.mm_per_n[0] == pytest.approx((2e-6, 1e-6, 0, 0))


@pytest.mark.parametrize(
    ("head", "flats"),
    [("hexagon 17 mm", True), ("flange hexagon", True), ("stud nut", True), ("hexagon socket", False),
     ("six-lobe socket E12", False), ("twelve-point", False), ("slotted", False)],
)  # fmt: skip
def test_only_an_outer_hexagon_shows_flats(head: str, flats: bool) -> None:
    of = joint((FASTENER, f"    fastener: {{thread: M8x1.25, head: {head}}}\n"))
    assert of.fastener is not None
    assert of.fastener.has_flats is flats


# Refusals: the seven of any program, then what belongs to the clamp and to loosening


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("order: [1, 3, 2, 4]", "order: [1, 3, 2, 2]",
         "s.yaml, line 38, column 12: The order does not name each of the 4 bolts once (left out: 4; twice: 2)."),
        ("      - torque: 10 N·m\n", "      - torque: 10 N·m\n        only: [1, 7]\n",
         "s.yaml, line 43, column 19: `7` is not a known bolt here. Known here: 1, 2, 3, 4."),
        ("torque: 10 N·m", "torque: 10",
         "s.yaml, line 42, column 17: torque: `10` has no unit. Write it with one of: N·m, lbf·ft, lbf·in, kgf·m (torque)."),
        ("      - turn: 90°", "      - turn: 20 N·m",
         "s.yaml, line 44, column 15: turn: `N·m` is a unit of torque, not of angle. Write one of: °, turn, ′, rad."),
        ("total_turn: 90°", "total_turn: 180°",
         "s.yaml, line 45, column 17: The turns of bolt 1 add up to 90°, the stated total is 180°. "
         "A degree sign read as a zero makes 900 of 90°: look at the page again."),
        ("    thread_state: engine oil on the threads\n", "",
         "s.yaml, line 34, column 5: `thread_state` is missing here. Write it with its value."),
        ("source: manual p. 9", 'source: ""',
         "s.yaml, line 46, column 13: source: The source is empty. Write its key and the page, like `manual p. 41`."),
    ],
)  # fmt: skip
def test_a_program_that_cannot_be(old: str, new: str, message: str) -> None:
    assert refusal((old, new)) == message


@pytest.mark.parametrize(
    ("added", "message"),
    [
        ("    friction: {thread: 0.12, head: 0.12}\n    friction_class: B\n",
         "Friction is stated twice, as a class and by its figures. Keep one of them."),
        ("    friction_class: F\n", "'A', 'B', 'C', 'D' or 'E'"),
        ("    bedding: {beam: {bending_stiffness: 1 N·m², foundation: 2 N/mm²}, matrix: {unit: mm/N, rows: [[1]]}}\n",
         "A bedding is stated in exactly one way: beam, plate or matrix."),
        ("    bedding: {matrix: {unit: mm/N, rows: [[1, 2], [3, 1]]}}\n",
         "The matrix says 3 in row 2, column 1, and 2 the other way round."),
        ("    bedding: {matrix: {unit: mm/N, rows: [[2, 1], [1, 2]]}}\n",
         "The matrix is for 2 bolts, the joint has 4."),
        ("    bedding: {matrix: {unit: mm/N, rows: [[2, 1]]}}\n",
         "The matrix needs as many numbers in each row as it has rows: one for each bolt."),
        ("    clamped: [{name: head, thickness: 98 mm}]\n",
         "A clamped part states its material or its modulus: exactly one of both."),
        ("    loosening_order: [1, 2, 3, 4]\n", "An order or a caution for loosening needs its stages"),
        ("    loosening: [{loosen: fully}]\n    loosening_order: [1, 2, 3]\n", "(left out: 4)."),
        ("    loosening: [{torque: 10 N·m}]\n", "A loosening program loosens or waits; `torque` was found."),
        ("    loosening: [{loosen: fully, provisional: until later}]\n",
         "A joint is left provisional before the stages that finish it; this stage has none after it."),
    ],
)  # fmt: skip
def test_a_joint_that_cannot_be(added: str, message: str) -> None:
    said = refusal((PROGRAM, PROGRAM + added))
    assert message in said
    assert said.startswith(("s.yaml, line 34", "s.yaml, line 46", "s.yaml, line 47"))


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ((("turn: 90°\n    total", "turn: 90°\n        provisional: yes\n    total"),), "until when the joint stays so"),
        ((("turn: 90°\n    total", "turn: 90°\n        provisional: until later\n    total"),), "none after it"),
        (((FASTENER, "    fastener: {thread: M8x1.25, head: hexgon}\n"),), "`hexgon` is no head known here."),
        (((FASTENER, "    fastener: {thread: M8x1.25, segments: [{length: 40 mm}]}\n"),), "exactly one of both"),
        (((FASTENER, "    fastener: {thread: M8x1.25, yield: 940 N·m}\n"),), "is a unit of torque, not of stress"),
    ],
)  # fmt: skip
def test_a_fastener_or_stage_that_cannot_be(changes: tuple[tuple[str, str], ...], message: str) -> None:
    assert message in refusal(*changes)


@pytest.mark.parametrize(
    "said", ["+5 N·m", "+5 N·m (+3.7 lbf·ft)", "5 N·m (+3.7 lbf·ft)", "-5 N·m", "−5 N·m"]
)
def test_a_torque_that_adds_to_the_one_before_is_refused(said: str) -> None:
    """The two middle bolts get 5 N·m more: that is no torque of 5 N·m."""
    program = f"    program:\n      - torque: 40 N·m\n      - torque: {said}\n        only: [2, 3]\n"
    text = refusal((PROGRAM, program))
    line = SMALL[: SMALL.index(PROGRAM)].count("\n") + 3
    assert f"s.yaml, line {line}, column 17: `{said}` has a sign: a stage takes the full torque" in text
    assert "like `torque: 45 N·m` with `only: [4, 5]`" in text


@pytest.mark.parametrize(("kind", "does"), [("turn", "turns"), ("loosen", "loosens"), ("draw down", "turns")])
@pytest.mark.parametrize("said", ["+90°", "-90°"])
def test_an_angle_with_a_sign_is_refused(kind: str, does: str, said: str) -> None:
    program = f"    program:\n      - torque: 40 N·m\n      - {kind}: {said}\n"
    assert f"`{said}` has a sign: a stage {does} on from where the bolt stands" in refusal((PROGRAM, program))


def test_deviations_behind_a_figure_are_no_sign() -> None:
    of = joint((PROGRAM, "    program:\n      - torque: 40 +5/-3 N·m\n      - turn: 90° ± 5°\n"))
    assert [one.kind for one in of.program] == ["torque", "turn"]


@pytest.mark.parametrize(
    "change",
    [
        (PROGRAM, "    program:\n      - torque: 40 N·m\n        family: long\n"),
        (BOLTS, "    bolts: {1: {family: long}, 2: {}, 3: {}, 4: {}}\n"),
    ],
)
def test_a_family_where_the_joint_has_none_says_where_families_are_written(change: tuple[str, str]) -> None:
    text = refusal(change)
    assert "`long` is no family of this joint, which has none. Write `families:` in the joint, like " in text
    assert "`families: {long: {thread: M10x1.25}}`, and at each bolt its `family`." in text
