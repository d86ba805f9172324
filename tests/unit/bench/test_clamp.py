"""What limits the clamp of a joint: from sheet and kit to an answer, each figure by hand."""

import math
import re
from datetime import date
from pathlib import Path

import pytest

from gudgeon.bench.clamp import Clamp, clamp
from gudgeon.bench.clamp_acts import AS_WRITTEN, Doings, WhatIf, doings
from gudgeon.bench.clamp_asked import SEED
from gudgeon.bench.clamp_model import Mechanics, Notes, mechanics
from gudgeon.calc.joint.scatter import CAUSES
from gudgeon.errors import InputError, RecordError
from gudgeon.kit.load import parse_kit
from gudgeon.kit.model import Kit
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.load import parse_sheet
from tests.unit.bench.benches import KIT, make_job
from tests.unit.sheet.sheets import SMALL

TODAY = date(2026, 3, 7)
FASTENER = """\
      thread: M10
      strength_class: "10.9"
      bearing_diameter: 15.0 mm
      hole: 11.0 mm
      into: cast iron block
      engagement: 20 mm
      head: hexagon
      segments: [{length: 60 mm, diameter: 10 mm}, {length: 20 mm, threaded: yes}]
"""
PARTS = "clamped: [{name: head, material: aluminum, thickness: 80 mm}]"
BOLTS = "{1: {x: 0 mm, y: 0 mm}, 2: {x: 90 mm, y: 0 mm}, 3: {x: 180 mm, y: 0 mm}, 4: {x: 270 mm, y: 0 mm}}"
TURN = ("torque: 40 N·m", "turn: 90°", "turn: 90°")


def sheet(
    *program: str,
    fastener: str = FASTENER,
    friction: str = "friction_class: B",
    more: str = PARTS,
    bolts: str = BOLTS,
) -> str:
    """The small engine with a head that states what its clamp depends on."""
    stages = "".join(f"      - {stage}\n" for stage in program)
    extra = "".join(f"    {line}\n" for line in (friction, *more.split("\n")) if line)
    order = "[1, 3, 2, 4]" if bolts != "2" else "[1, 2]"
    head = (
        f"  head:\n    name: Head bolts\n    role: cylinder head\n    fastener:\n{fastener}    bolts: {bolts}\n"
        f"    order: {order}\n    thread_state: engine oil on the threads\n    program:\n{stages}{extra}"
        "    source: manual p. 9\n"
    )
    return SMALL[: SMALL.index("  head:")] + head


def asked(folder: Path, text: str, *what_if: str, kit: str = KIT, trials: int = 3000) -> Clamp:
    job = make_job(folder, sheet=text, kit=kit)
    job.read_code()
    return clamp(job.bench(), "head", what_if=what_if, trials=trials)


def joint_of(text: str) -> Joint:
    return parse_sheet(text, file="sheet.yaml").sheet.joints["head"]


def kit_of(text: str = KIT) -> Kit:
    return parse_kit(text, file="kit.yaml").kit


def done(text: str, *, kit: str = KIT, what_if: WhatIf = AS_WRITTEN) -> Doings:
    found = doings(joint_of(text), kit_of(kit), Notes(), bolts_are="new", what_if=what_if, today=TODAY)
    assert found is not None
    return found


def built(text: str) -> Mechanics:
    found = mechanics(joint_of(text), Notes())
    assert found is not None
    return found


def lever_mm(mu: float) -> float:
    """d2/2 · tan(φ + ρ') + DKm/2 · µ of an M10, DKm = (15 + 11) / 2."""
    d2 = 10 - 0.649519 * 1.5
    angle = math.atan(1.5 / math.pi / d2) + math.atan(mu / math.cos(math.pi / 6))
    return d2 / 2 * math.tan(angle) + 13.0 / 2 * mu


def test_what_is_not_stated_is_named_with_what_cannot_be_said(tmp_path: Path) -> None:
    answer = asked(tmp_path, SMALL)
    assert answer.stages == ()
    assert answer.said == (
        "What clamp the bolts get cannot be said. Not stated: the friction of thread and head (`friction_class` or "
        "`friction`); the bearing diameter under the head and the hole; lengths and diameters of the bolt "
        "(`segments`); the clamped parts."
    )
    assert all(one.therefore for one in answer.missing)


def test_a_torque_alone_needs_no_springs(tmp_path: Path) -> None:
    """F = T / (d2/2 · tan(φ + ρ') + DKm/2 · µ) at the middle of class B; HAND."""
    fastener = "".join(line for line in FASTENER.splitlines(keepends=True) if "segments" not in line)
    answer = asked(tmp_path, sheet("torque: 40 N·m", fastener=fastener, more=""))
    wanted = 40_000 / lever_mm(math.sqrt(0.08 * 0.16))
    for bolt in answer.stages[0].bolts:
        assert bolt.clamp_n == pytest.approx(wanted, rel=0.015)
        assert bolt.low_n < wanted < bolt.high_n
    assert answer.stages[0].causes["angle"] == 0
    assert sum(answer.stages[0].causes.values()) == pytest.approx(1.0, abs=0.06)
    assert "what tightening one bolt takes from its neighbors cannot be said" in {
        m.therefore for m in answer.missing
    }


def test_a_turn_into_yield_spreads_far_less_than_a_torque(tmp_path: Path) -> None:
    answer = asked(tmp_path, sheet(*TURN, more=PARTS))
    torque, _, last = answer.stages
    assert torque.band_share > 0.17
    assert last.band_share < torque.band_share / 3
    assert all(bolt.yields is not None and bolt.yields > 0.95 for bolt in last.bolts)
    assert all(bolt.stretch_mm is not None and bolt.stretch_mm > 0.01 for bolt in last.bolts)
    assert re.match(r"(Most|The largest part) of the spread of ± \d+ % is friction that ", answer.said)
    assert answer.said.endswith(" of it.")


def test_an_elastic_turn_adds_what_springs_and_pitch_say(tmp_path: Path) -> None:
    """ΔF = 60° · P / 360° / (dS + dP), on top of the torque; HAND, springs from the kernels. Below yield."""
    text = sheet("torque: 20 N·m", "turn: 30°")
    model = built(text).model
    rate = 1 / (model.bolts[0].compliance_mm_per_n + model.parts_mm_per_n[0, 0])
    first, last = asked(tmp_path, text).stages
    for before, after in zip(first.bolts, last.bolts, strict=True):
        assert after.clamp_n - before.clamp_n == pytest.approx(30 * 1.5 / 360 * rate, rel=0.02)
        assert after.yields == 0.0


def test_a_gasket_that_settles_takes_its_share(tmp_path: Path) -> None:
    """ΔF = −lost / (dS + dP) with lost = creep · thickness; HAND."""
    text = sheet("torque: 30 N·m", more=f"{PARTS}\ngasket: {{name: paper, thickness: 0.50 mm, creep: 4 %}}")
    model = built(text).model
    rate = 1 / (model.bolts[0].compliance_mm_per_n + model.parts_mm_per_n[0, 0])
    before, after = asked(tmp_path, text).stages
    assert after.words == "minutes later, when the gasket has settled"
    for one, other in zip(before.bolts, after.bolts, strict=True):
        assert other.clamp_n - one.clamp_n == pytest.approx(-0.02 * rate, rel=1e-3)


def test_a_wait_after_a_torque_is_when_the_gasket_settles() -> None:
    gasket = f"{PARTS}\ngasket: {{name: paper, thickness: 0.50 mm, creep: 4 %}}"
    found = done(sheet("torque: 30 N·m", "wait: 10 min", "torque: 40 N·m", more=gasket))
    assert found.settles == 2
    assert [one.act.stage for one in found.acts if one.act.kind == "creep"] == [2, 2, 2, 2]
    assert [one.act.stage for one in found.acts] == sorted(one.act.stage for one in found.acts)


def test_a_bolt_that_was_tightened_first_loses_to_its_neighbor(tmp_path: Path) -> None:
    """Two bolts, C12: tightened to F1, the first loses C12 · F2 / (dS + C11) as the second comes; HAND."""
    matrix = "bedding:\n  matrix: {unit: µm/kN, rows: [[4.0, 1.5], [1.5, 4.0]]}"
    text = sheet(
        "torque: 30 N·m",
        more=f"{PARTS}\n{matrix}",
        bolts="2",
        friction="friction: {thread: 0.12, head: 0.12}",
    )
    model = built(text).model
    assert model.parts_mm_per_n[0, 1] == pytest.approx(1.5e-6)
    first, second = asked(tmp_path, text).stages[0].bolts
    lost = 1.5e-6 * second.clamp_n / (model.bolts[0].compliance_mm_per_n + 4e-6)
    assert second.clamp_n == pytest.approx(30_000 / lever_mm(0.12), rel=0.01)
    assert first.clamp_n == pytest.approx(second.clamp_n - lost, rel=0.01)


def test_friction_of_one_figure_leaves_out_most_of_the_spread(tmp_path: Path) -> None:
    """What is left is the wrench, even in ± 4 %: 90 of 100 within 0.9 · 4 %; and half a mark in 80; HAND."""
    answer = asked(tmp_path, sheet("torque: 40 N·m", friction="friction: {thread: 0.12, head: 0.10}"))
    assert answer.missing[0].what == "how far the friction scatters: it is one figure, not a range"
    assert answer.stages[0].band_share == pytest.approx(0.9 * 0.04, rel=0.05)
    assert answer.said.startswith("Most of the spread of ± 4 % is the wrench itself (")
    assert "friction of thread 0.12, head 0.10; source: manual p. 9" in answer.taken


def test_what_neighbors_take_is_said_where_it_counts(tmp_path: Path) -> None:
    bedding = "bedding:\n  beam: {bending_stiffness: 1.3e11 N·mm², foundation: 5000 N/mm², length: 330 mm}"
    (one, _), (other, _) = folders(tmp_path, "")
    assert asked(one, sheet("torque: 40 N·m")).apart == ""
    assert re.fullmatch(
        r"Besides, the bolts do not end alike: half of the tightenings of bolt 3 end above [\d.]+ kN \(\d+ lbf\), half "
        r"of those of bolt 2 above [\d.]+ kN \(\d+ lbf\)\. Tightening one takes load from its neighbors, and from those "
        r"done first the most\.",
        asked(other, sheet("torque: 40 N·m", more=f"{PARTS}\n{bedding}")).apart,
    )


@pytest.mark.parametrize(
    "bedding",
    [
        "beam: {bending_stiffness: 1.3e11 N·mm², foundation: 20000 N/mm², length: 330 mm}",
        "beam: {bending_stiffness: 1.3e11 N·mm², foundation: 20000 N/mm²}",
        "plate: {rigidity: 7.2e8 N·mm, foundation: 20 N/mm³, length: 330 mm, width: 120 mm}",
    ],
)
def test_each_way_of_bedding_makes_the_bolts_see_each_other(bedding: str) -> None:
    found = built(sheet("torque: 40 N·m", more=f"{PARTS}\nbedding:\n  {bedding}"))
    alone = built(sheet("torque: 40 N·m"))
    assert found.see_each_other and not alone.see_each_other
    parts = found.model.parts_mm_per_n
    assert parts[0, 1] > abs(parts[0, 3])
    assert (parts.diagonal() > alone.model.parts_mm_per_n.diagonal()).all()


def test_acts_follow_the_program() -> None:
    found = done(
        sheet(
            "hand-run",
            "torque: 40 N·m\n        repeat: 2",
            "loosen: 180°",
            "torque: 60 N·m\n        only: [2, 3]",
            "verify: 60 N·m\n        order: reversed",
            "loosen: fully",
        )
    )
    by_stage = {
        stage: [(one.act.kind, one.act.bolt + 1) for one in found.acts if one.act.stage == stage]
        for stage in range(1, 7)
    }
    assert by_stage[1] == [("snug", 1), ("snug", 3), ("snug", 2), ("snug", 4)]
    assert by_stage[2] == [("torque", 1), ("torque", 3), ("torque", 2), ("torque", 4)] * 2
    assert by_stage[3] == [("loosen", 4), ("loosen", 2), ("loosen", 3), ("loosen", 1)]
    assert by_stage[4] == [("torque", 3), ("torque", 2)]
    assert by_stage[5] == [("verify", 4), ("verify", 2), ("verify", 3), ("verify", 1)]
    assert all(one.act.amount == math.inf for one in found.acts if one.act.stage == 6)


def test_a_second_pass_whose_wrench_clicks_at_once_moves_nothing(tmp_path: Path) -> None:
    """Without neighbors a second pass at the same torque finds every bolt there, above its starting torque."""
    once, again = (
        asked(folder, sheet(f"torque: 40 N·m{more}")).stages[0]
        for folder, more in folders(tmp_path, "\n        repeat: 2")
    )
    assert once.still == 0.0
    assert again.still == pytest.approx(0.5)
    for one, other in zip(again.bolts, once.bolts, strict=True):  # other chances, as there are more pulls
        assert one.clamp_n == pytest.approx(other.clamp_n, rel=0.02)


def folders(at: Path, *more: str) -> list[tuple[Path, str]]:
    found = []
    for number, text in enumerate(("", *more)):
        folder = at / str(number)
        folder.mkdir()
        found.append((folder, text))
    return found


def test_one_setting_serves_a_stage_and_one_deviation_the_wrench() -> None:
    found = done(sheet("torque: 40 N·m", "torque: 60 N·m"))
    first, second = ([one.error for one in found.acts if one.act.stage == stage] for stage in (1, 2))
    assert len({one.set_once for one in first}) == len({one.set_once for one in second}) == 1
    assert first[0].set_once != second[0].set_once
    assert len({one.wrench for one in first + second}) == 1
    assert first[0].deviation == 0.04
    assert first[0].setting == pytest.approx(0.25 / 40)


def test_a_beam_is_read_at_every_pull() -> None:
    only_beam = "gudgeon: kit 1\nwrenches:\n" + KIT.splitlines()[4] + "\n"
    found = done(sheet("torque: 40 N·m"), kit=only_beam)
    assert len({one.error.set_once for one in found.acts}) == len(found.acts)
    assert {one.error.deviation for one in found.acts} == {0.06}


def test_paint_marks_make_good_what_a_gauge_adds_up() -> None:
    marks = KIT.replace(
        "gauge: {name: angle gauge, kind: angle gauge, error: 3°}", "pen: {name: pen, kind: paint marks}"
    )
    turns = [one for one in done(sheet(*TURN), kit=marks).acts if one.act.kind == "turn"]
    first, second = turns[:4], turns[4:]
    assert [one.error.ends_from for one in first] == [None] * 4
    assert [one.error.ends_from for one in second] == [one.error.angle for one in first]
    assert {one.error.angle_deg for one in turns} == {10.0}
    assert {one.error.ends_from for one in done(sheet(*TURN)).acts} == {None}
    by_eye = done(sheet(*TURN), kit=marks, what_if=WhatIf(by_eye=True))
    assert {one.error.angle_deg for one in by_eye.acts if one.act.kind == "turn"} == {15.0}
    assert {one.error.ends_from for one in by_eye.acts} == {None}


def test_a_torque_that_no_wrench_measures_is_named(tmp_path: Path) -> None:
    answer = asked(tmp_path, sheet("torque: 12 N·m", "turn: 60°"), kit="gudgeon: kit 1\n")
    named = {one.what: one.therefore for one in answer.missing}
    assert named["a wrench of yours for stage 1 (12 N·m)"].startswith(
        "how far that torque may be off: one of ± 4 %"
    )
    assert answer.stages


def test_another_lubricant_is_as_if_the_sheet_had_stated_it(tmp_path: Path) -> None:
    (one, _), (other, _) = folders(tmp_path, "")
    asked_what = asked(one, sheet(*TURN), "friction=A").what_ifs[0]
    stated = asked(other, sheet(*TURN, friction="friction_class: A")).stages[-1]
    assert (asked_what.clamp, asked_what.band_share) == (stated.clamp, stated.band_share)


def test_what_ifs_run_on_the_same_chances(tmp_path: Path) -> None:
    """The wrench that is chosen anyway changes nothing at all; by eye the band is wider, elastic turns double it."""
    text = sheet("torque: 30 N·m", "turn: 30°", "turn: 10°")
    answer = asked(tmp_path, text, "wrench=three", "by-eye", "skip=3")
    same, by_eye, short = answer.what_ifs
    assert same.compared == "the same clamp, the same spread"
    assert same.band_share == answer.stages[-1].band_share
    assert by_eye.band_share > answer.stages[-1].band_share
    assert short.clamp == answer.stages[1].clamp
    assert short.band_share == answer.stages[1].band_share
    assert "less clamp" in short.compared


def test_the_seed_decides(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=sheet(*TURN))
    job.read_code()
    one, again, other = (clamp(job.bench(), "head", trials=400, seed=seed) for seed in (SEED, SEED, SEED + 1))
    assert one.stages == again.stages
    assert one.stages != other.stages
    assert set(one.stages[-1].causes) == set(CAUSES)


@pytest.mark.parametrize(
    ("what_if", "message"),
    [
        (
            "friction=E",
            r"`friction=E` is no what-if of this joint\. Ask one of: friction=A, friction=C, .*by-eye.*\.",
        ),
        ("skip=9", r"`skip=9` is no what-if of this joint\. .*"),
        (
            "wrench=half",
            r"The half-inch click wrench does not reach stage 1 \(30 N·m\) in the usable part of its scale\. "
            r"Ask for a wrench that does all torques of the program\.",
        ),
    ],
)
def test_what_cannot_be_asked_is_refused(tmp_path: Path, what_if: str, message: str) -> None:
    with pytest.raises(InputError) as refused:
        asked(tmp_path, sheet("torque: 30 N·m", "turn: 30°"), what_if)
    assert re.fullmatch(message, str(refused.value))


def test_a_what_if_may_answer_where_the_sheet_states_no_friction(tmp_path: Path) -> None:
    answer = asked(tmp_path, sheet("torque: 30 N·m", friction=""), "friction=B")
    assert answer.stages == ()
    assert answer.what_ifs[0].clamp
    assert answer.what_ifs[0].compared == ""


def test_a_stage_by_stretch_is_not_simulated(tmp_path: Path) -> None:
    answer = asked(tmp_path, sheet("torque: 30 N·m", "stretch: 0.15 mm"))
    assert answer.stages == ()
    assert answer.missing[-1].what == "a model for stage 2, which is measured by stretch"


def test_figures_stay_locked_until_the_code_is_read(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=sheet(*TURN))
    with pytest.raises(
        RecordError, match=r"^Figures are locked: the engine code has not been read off the engine\."
    ):
        clamp(job.bench(), "head")


def test_it_is_told_how_many_tightenings_are_done_and_that_changes_nothing(tmp_path: Path) -> None:
    """HAND: two programs, each 3000 tightenings and, for five causes, 1500 more: 2 · (3000 + 5 · 1500) = 21000."""
    job = make_job(tmp_path, sheet=sheet(*TURN))
    job.read_code()
    bench, said = job.bench(), list[str]()
    told = clamp(bench, "head", what_if=("by-eye",), trials=3000, tell=said.append)
    assert told == clamp(bench, "head", what_if=("by-eye",), trials=3000)
    assert said.pop(0) == "drawing what chance decides"
    found = [re.fullmatch(r"tightening at random: ([\d,]+) of 21,000", one) for one in said]
    counts = [int(one[1].replace(",", "")) for one in found if one is not None]
    assert len(counts) == len(said)
    assert counts == sorted(counts)
    assert 0 < counts[0] < 3000 < counts[-1] <= 21_000


def test_it_ends_where_whoever_is_told_wants_it(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=sheet(*TURN))
    job.read_code()
    said: list[str] = []

    def tell(words: str) -> None:
        said.append(words)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        clamp(job.bench(), "head", trials=3000, tell=tell)
    assert len(said) == 1


def test_a_what_if_that_cannot_be_asked_is_refused_before_the_work(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=sheet(*TURN))
    job.read_code()
    said: list[str] = []
    with pytest.raises(InputError):
        clamp(job.bench(), "head", what_if=("wrench=none",), trials=3000, tell=said.append)
    assert said == []
