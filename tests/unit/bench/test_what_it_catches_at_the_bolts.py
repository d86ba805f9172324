"""How something goes wrong at the bolts, and what stops it.

Expectations are PRINTED in the list that the program was planned with, or COMMON PRACTICE of the trade.
"""

from pathlib import Path

import pytest

from gudgeon.bench.pull_list import card
from gudgeon.bench.ready import ready
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.stories import invented, open_before
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return invented(tmp_path)


def with_program(folder: Path, program: str, more: str = "") -> Job:
    """The small engine with another program of its head nuts."""
    head, rest = SMALL.split("    program:\n")
    job = make_job(folder, sheet=f"{head}    program:\n{program}    source: manual p. 9\n{more}")
    job.read_code()
    assert rest
    return job


def all_four(
    job: Job, stage: int, outcome: str = "clicked while turning", order: str = "1324", **more: str
) -> None:
    for bolt in order:
        job.pull(stage, bolt, outcome, **more)


def doubts(job: Job, joint: str = "head") -> str:
    return "; ".join(card(job.bench(), joint).doubts)


def test_a_wrench_set_in_another_unit_is_in_doubt(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.read_code()
    all_four(job, 1, "done")
    all_four(job, 2, tool="three", setting="10 N·m")
    said = job.pull(3, "1", "clicked while turning", tool="three", setting="24 lbf·ft").remarks
    assert any(one.startswith("The joint is in doubt: ") and "24 lbf·ft" in one for one in said)
    assert "24 lbf·ft" in doubts(job)
    assert card(job.bench(), "head").next_pull is None


def test_a_bolt_out_of_its_order_is_said_at_once(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.read_code()
    shown = card(job.bench(), "head")
    assert [one.bolt for one in shown.pulls if one.number == shown.next_pull] == ["1"]
    said = job.pull(1, "2", "done").remarks
    assert said == ("This was not the next pull: bolt 1, stage 1 was. It is kept as it happened.",)


def test_the_loosening_in_between_is_left_out(tmp_path: Path) -> None:
    job = with_program(tmp_path, "      - torque: 20 N·m\n      - loosen: fully\n      - torque: 24 N·m\n")
    all_four(job, 1, tool="half", setting="20 N·m")
    assert next(one.stage for one in card(job.bench(), "head").pulls if one.state == "next") == 2
    said = job.pull(3, "1", "clicked while turning", tool="half", setting="24 N·m").remarks
    assert said[0].startswith("This was not the next pull: ")
    assert "stage 2 was" in said[0]
    assert card(job.bench(), "head").next_pull is None
    assert "Head nuts" in open_before(job)


def test_the_turn_after_the_torque_is_left_out(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.read_code()
    all_four(job, 1, "done")
    all_four(job, 2, tool="three", setting="10 N·m", why="no wrench of mine goes lower")
    all_four(job, 3, tool="three", setting="24 N·m")
    said = job.record("joint-marked", joint="head", how="paint").remarks
    assert said == ("The joint is not finished: 12 of 16 pulls are done. The mark does not count yet.",)
    assert "12 of 16 pulls done" in open_before(job)["Head nuts"]


def test_two_families_are_not_pulled_alike(tmp_path: Path) -> None:
    families = SMALL.replace(
        'fastener: {thread: M8x1.25, strength_class: "8.8"}\n    bolts: 4\n',
        "families: {long: {thread: M10x1.25}, short: {thread: M8x1.25}}\n    bolts:\n      1: {family: long}\n"
        "      2: {family: short}\n      3: {family: long}\n      4: {family: short}\n",
    )
    head, _ = families.split("    program:\n")
    program = "".join(
        f"      - {{torque: {torque} N·m, family: {family}}}\n"
        for torque, family in ((20, "long"), (10, "short"), (40, "long"), (20, "short"))
    )
    job = make_job(tmp_path, sheet=f"{head}    program:\n{program}    source: manual p. 9\n")
    job.read_code()
    pulls = [(one.stage, one.bolt) for one in card(job.bench(), "head").pulls]
    assert pulls == [(1, "1"), (1, "3"), (2, "2"), (2, "4"), (3, "1"), (3, "3"), (4, "2"), (4, "4")]
    for bolt in "13":
        job.pull(1, bolt, "clicked while turning", tool="half", setting="20 N·m")
    job.pull(2, "2", "clicked while turning", tool="half", setting="20 N·m")
    assert "20 N·m" in doubts(job)
    assert "10 N·m" in doubts(job)


def test_used_bolts_have_their_own_list_and_the_two_are_not_mixed(tmp_path: Path) -> None:
    program = (
        "      - torque: 24 N·m\n      - {turn: 90°, for_bolts: new}\n      - {turn: 75°, for_bolts: used}\n"
    )
    job = with_program(tmp_path, program)
    all_four(job, 1, tool="half", setting="24 N·m")
    new, used = (card(job.bench(), "head", bolts_are=one) for one in ("new", "used"))
    assert ({one.stage for one in new.pulls}, {one.stage for one in used.pulls}) == ({1, 2}, {1, 3})
    job.pull(3, "1", "angle reached")
    assert card(job.bench(), "head").bolts_are == "used"
    job.pull(2, "3", "angle reached")
    assert doubts(job) == "bolt 1, stage 3: it is recorded as of used bolts, and a later pull as of new ones"
    assert card(job.bench(), "head").next_pull is None
    assert "as of used bolts" in open_before(job)["Head nuts"]


def test_a_bolt_that_reaches_water_says_so_on_its_card(tmp_path: Path) -> None:
    job = make_job(
        tmp_path, sheet=SMALL.replace('strength_class: "8.8"}', 'strength_class: "8.8", hole_kind: wet}')
    )
    job.read_code()
    assert dict(card(job.bench(), "head").made_of)["Holes"] == "wet"


def other(name: str, role: str, more: str = "") -> str:
    return f"""\
  other:
    name: {name}
    role: {role}
    fastener: {{thread: M10x1}}
    bolts: 4
    order: [1, 3, 2, 4]
    thread_state: thread lock
    {more}program:
      - torque: 30 N·m
      - torque: 60 N·m
    source: manual p. 20
"""


def test_a_flywheel_hidden_by_the_clutch_is_looked_at_twice(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=SMALL + other("Flywheel bolts", "flywheel", "witness: yes\n    "))
    job.read_code()
    for bolt in "1324":
        job.record(
            "pull",
            joint="other",
            stage=1,
            bolt=bolt,
            outcome="clicked while turning",
            tool="half",
            setting="30 N·m",
        )
    assert "4 of 8 pulls done" in open_before(job)["Flywheel bolts"]
    for bolt in "1324":
        job.record(
            "pull",
            joint="other",
            stage=2,
            bolt=bolt,
            outcome="clicked while turning",
            tool="half",
            setting="60 N·m",
        )
    job.record("joint-marked", joint="other", how="paint")
    assert "second look" in open_before(job)["Flywheel bolts"]
    job.record("joint-witnessed", joint="other", by="Bo", seen="4 of 4 marks in line")
    assert "Flywheel bolts" not in open_before(job)


def test_a_tensioner_nut_with_too_much_is_in_doubt_and_blocks(job: Job) -> None:
    job.record(
        "pull", joint="belt_tensioner", stage=1, bolt="nut", outcome="clicked while turning", tool="click_100",
        setting="43 N·m",
    )  # fmt: skip
    assert "43 N·m" in doubts(job, "belt_tensioner")
    assert "43 N·m" in open_before(job)["Belt tensioner nut"]


def test_a_crank_bolt_left_by_hand_blocks_and_its_proof_counts_for_nothing(job: Job) -> None:
    job.record(
        "provisional-made", item="nose", name="Old crank bolt, by hand", joint="crank_pulley", why="to turn it",
        due_task="pulley_final", due_before="crank",
    )  # fmt: skip
    job.record("hold-proved", hold="crank_pulley_final", value="90 N·m and 90° seen, stroke of paint")
    said = job.record("provisional-cleared", item="nose", how="tight").remarks
    assert said[0].startswith(
        "Look: it was made final, and of its joint, Crank pulley bolt, 0 of 2 pulls are in the book"
    )
    assert open_before(job)["Crank pulley bolt"] == "not started"
    assert (
        open_before(job)["Crank pulley bolt final and marked"]
        == "its joint is not finished: Crank pulley bolt"
    )


def test_sprockets_left_to_float_are_found_before_the_starter(job: Job) -> None:
    job.record(
        "provisional-made", item="float", name="Sprocket bolts, nipped", joint="camshaft_sprockets",
        why="they float until the belt is tensioned", due_task="sprockets_final", due_before="crank",
    )  # fmt: skip
    found = open_before(job)
    assert found["Sprocket bolts, nipped"].startswith("they float until the belt is tensioned")
    assert "Camshaft sprocket bolts at their final torque" in found
    assert "Sprocket bolts, nipped" in found


def test_caps_drawn_down_at_one_place_are_said_at_once(job: Job) -> None:
    names = [one.bolt for one in card(job.bench(), "camshaft_caps").pulls[:20]]
    job.record("hold-proved", hold="pistons_halfway", value="49.7 mm below the deck")
    for bolt in names:
        job.record("pull", joint="camshaft_caps", stage=1, bolt=bolt, outcome="done")
    job.record("pull", joint="camshaft_caps", stage=2, bolt=names[0], outcome="done")
    said = job.record(
        "pull", joint="camshaft_caps", stage=3, bolt=names[0], outcome="clicked while turning"
    ).remarks
    assert any(one.startswith("This was not the next pull: ") and "stage 2 was" in one for one in said)
    shown = card(job.bench(), "camshaft_caps")
    offered = next(one for one in shown.pulls if one.number == shown.next_pull)
    assert (offered.stage, offered.bolt) == (2, names[1])


def test_a_mount_kept_loose_for_the_weight_is_not_offered_before(tmp_path: Path) -> None:
    settle = other("Mount bolts", "engine mount").replace(
        "- torque: 30 N·m", "- {torque: 30 N·m, provisional: until the weight is on it}"
    )
    job = make_job(tmp_path, sheet=SMALL + settle)
    job.read_code()
    for bolt in "1324":
        job.record(
            "pull",
            joint="other",
            stage=1,
            bolt=bolt,
            outcome="clicked while turning",
            tool="half",
            setting="30 N·m",
        )
    shown = card(job.bench(), "other")
    assert shown.go_on_when == "the weight is on it"
    assert [
        one.family for one in ready(job.bench(), milestone="crank").reasons if one.what == "Mount bolts"
    ] == ["provisional"]
    said = job.record(
        "pull",
        joint="other",
        stage=2,
        bolt="1",
        outcome="clicked while turning",
        tool="half",
        setting="60 N·m",
    ).remarks
    assert any("the weight is on it" in one for one in said)
