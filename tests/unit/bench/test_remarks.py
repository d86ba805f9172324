"""What is said at once of an entry that the book speaks against: the fact is kept, never refused."""

from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.entries import listed
from gudgeon.bench.network import job as the_job
from gudgeon.bench.now import now
from gudgeon.bench.ready import ready
from gudgeon.bench.standing import Network
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.sheet.sheets import SMALL

BELT = SMALL.replace("[timing belt, timing chain,", "[timing chain,").replace(", overhead cam]", "]")
"""The small engine with a belt: it has a tensioner, and an overhead camshaft."""

MORE_JOINTS = """\
  tensioner:
    name: Belt tensioner nut
    role: belt tensioner
    fastener: {thread: M8x1.25}
    bolts: 1
    order: [1]
    thread_state: dry
    due_before: drive
    program: [{torque: 25 N·m}]
    source: manual p. 11
  mount:
    name: Engine mount at the timing end
    role: engine mount
    fastener: {thread: M10x1.5}
    bolts: 2
    order: [1, 2]
    thread_state: dry
    program: [{torque: 45 N·m}]
    source: manual p. 12
"""


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=BELT + MORE_JOINTS)
    made.read_code()
    return made


def half_of_the_head(job: Job) -> None:
    for stage in (1, 2):
        for bolt in ("1", "3", "2", "4"):
            job.pull(stage, bolt, "done")


def test_the_first_start_at_half_of_the_pulls_is_kept_told_and_proves_nothing(job: Job) -> None:
    half_of_the_head(job)
    before = now(job.bench())
    said = job.record("task-started", task="first_start")
    assert "begun although it has to wait for: “Tighten the head bolts" in said.remarks[0]
    assert "What comes before it is not taken as done by it" in said.remarks[1]
    after = now(job.bench())
    assert after.taken == before.taken, "a breach ticks nothing off"
    assert {one.task for one in after.ready} == {one.task for one in before.ready}
    (line,) = [one for one in after.running if one.task == "first_start"]
    assert line.why.startswith("begun although blocked: ")
    assert "Head nuts: 8 of 16 pulls done" in line.why


def test_a_later_task_finished_against_the_pulls_proves_nothing_either(job: Job) -> None:
    half_of_the_head(job)
    before = now(job.bench())
    said = job.record("task-done", task="valve_cover_on")
    assert any("recorded as finished although it has to wait for" in one for one in said.remarks)
    assert now(job.bench()).taken == before.taken


def test_a_joint_slackened_after_a_task_was_done_does_not_make_its_word_a_breach(job: Job) -> None:
    job.tighten_all()
    job.record("task-done", task="exhaust_on")
    taken = now(job.bench()).taken
    job.record("joint-disturbed", joint="head", why="the gasket weeps")
    bench = job.bench()
    assert Network(bench, the_job().for_engine(bench.sheet)).breaches == {}
    assert now(bench).taken == taken


def test_a_book_begun_in_the_middle_is_told_what_is_taken_as_done(job: Job) -> None:
    said = job.record("task-started", task="exhaust_on")
    assert said.remarks[-1].startswith(
        "What comes before it, and the book does not name, is taken as done now."
    )
    assert now(job.bench()).taken > 0


def test_what_may_be_begun_is_begun_without_a_word(job: Job) -> None:
    ready_now = now(job.bench()).ready[0].task
    assert job.record("task-started", task=ready_now).remarks == ()


def test_a_task_finished_without_its_pulls_and_its_proof_is_told_at_once(job: Job) -> None:
    half_of_the_head(job)
    remarks = job.record("task-done", task="tighten_head").remarks
    assert "Its joint is not finished: Head nuts, 8 of 16 pulls done." in remarks
    assert any(one.startswith("Its proof is missing: Every head bolt shows every stage") for one in remarks)


def test_a_pin_in_the_hand_that_is_still_in_the_engine(job: Job) -> None:
    job.record("left-in", item="pin", name="Tensioner pin", where="new tensioner", due_before="crank")
    said = job.record("hold-proved", hold="tensioner_pin_out", value="in the box, pointer mid-window")
    assert said.remarks[0].startswith("Look: the book says otherwise: “Tensioner pin” is still on the list")
    reasons = {one.what for one in ready(job.bench(), milestone="crank").reasons}
    assert {"Tensioner pin", "Tensioner pin in the hand"} <= reasons
    job.record("taken-out", item="pin")
    reasons = {one.what for one in ready(job.bench(), milestone="crank").reasons}
    assert not {"Tensioner pin", "Tensioner pin in the hand"} & reasons


def test_something_made_final_whose_joint_was_never_pulled(job: Job) -> None:
    job.record(
        "provisional-made", item="nut", name="Belt tensioner nut", joint="tensioner", why="to let it turn",
        due_task="belt", due_before="crank",
    )  # fmt: skip
    said = job.record("provisional-cleared", item="nut", how="tight")
    assert said.remarks[0].startswith(
        "Look: it was made final, and of its joint, Belt tensioner nut, 0 of 1 pulls"
    )
    why = {one.what: one.why for one in ready(job.bench(), milestone="crank").reasons}
    assert why["Belt tensioner nut"] == "said to be final, but of its joint 0 of 1 pulls are in the book"
    job.record("pull", joint="tensioner", stage=1, bolt="1", outcome="clicked while turning")
    assert "Belt tensioner nut" not in {one.what for one in ready(job.bench(), milestone="crank").reasons}


def test_the_support_of_the_engine_taken_out_before_its_mount_is_fast(job: Job) -> None:
    where = "under the oil pan, in place of the mount"
    job.record("left-in", item="jack", name="Jack with a wood block", where=where, due_before="crank")
    job.record("left-in", item="rag", name="Rag", where="engine mount", due_before="crank")
    said = job.record("taken-out", item="jack")
    assert said.remarks[0].startswith(
        "Look: of Engine mount at the timing end, 0 of 2 pulls are in the book."
    )
    assert "never on a jack alone" in said.remarks[0]
    assert job.record("taken-out", item="rag").remarks == ()


def test_one_pull_that_stands_twice_is_first_a_question_of_the_entry(job: Job) -> None:
    job.tighten_all()
    said = job.pull(4, "4", "angle reached")
    advice = said.remarks[-1]
    assert advice.index("strike it") < advice.index("ask the manual before going on")
    job.record("strike", entry=said.entry, why="written twice")
    assert "Head nuts" not in {
        one.what for one in ready(job.bench(), milestone="crank").reasons if "doubt" in one.why
    }


def test_a_reading_is_answered_with_its_verdict(job: Job) -> None:
    said = job.record("reading", item="head_face", place="along", high="0.04 mm", instrument="feelers")
    assert said.remarks == ("Inside the wear limit.",)
    said = job.record(
        "reading", item="head_face", place="across", low="0.08 mm", high="0.10 mm", instrument="feelers"
    )
    assert said.remarks == ("Outside the wear limit.",)
    said = job.record(
        "reading", item="head_face", place="across", low="0.05 mm", high="0.06 mm", instrument="feelers"
    )
    assert said.remarks[0].startswith("In doubt: ")


def test_a_blade_that_the_set_does_not_have_is_asked_after(tmp_path: Path) -> None:
    # HAND: of 0.03, 0.05 and 0.10 two together make 0.08, 0.13 and 0.15; 0.04 is none of them.
    kit = KIT.replace("kind: feeler blades,", "kind: feeler blades, blades: [0.03 mm, 0.05 mm, 0.10 mm],")
    job = make_job(tmp_path, kit=kit)
    job.read_code()
    said = job.record("reading", item="head_face", place="along", high="0.04 mm", instrument="feelers")
    assert said.remarks[0] == (
        "No blade of your feeler blades is 0.04 mm thick, nor are two together: look again which one it was, and "
        "write the one that enters and the next that does not."
    )
    said = job.record(
        "reading", item="head_face", place="across", low="0.08 mm", high="0.10 mm", instrument="feelers"
    )
    assert said.remarks == ("Outside the wear limit.",)


def test_what_was_written_is_said_with_the_names_of_things(job: Job) -> None:
    said = job.record("reading", item="head_face", place="along", high="0.04 mm", instrument="feelers").said
    assert said == "reading: Head face, flatness, along, 0.04 mm does not enter, as found, feeler blades"
    said = job.pull(2, "1", "clicked while turning", tool="three", setting="24 N·m").said
    assert said.startswith(
        "pull: Head nuts, bolt 1, stage 2 of 4, torque 10 N·m, clicked while turning, three-eighths"
    )
    said = job.record("hold-proved", hold="figures_checked", value="pp. 4 to 9").said
    assert said == "hold proved: Every tightening figure has been compared with the page, pp. 4 to 9"
    job.record("left-in", item="pin_2", name="Tensioner pin", where="new tensioner", due_before="crank")
    gone = job.record("taken-out", item="pin_2")
    assert gone.said == "taken out: Tensioner pin"
    assert job.record("joint-disturbed", joint="head", why="leak").said == "joint disturbed: Head nuts, leak"
    struck = job.record("strike", entry=gone.entry, why="it is in still").said
    assert struck.endswith(": taken out: Tensioner pin")
    bench = open_bench(job.book, now=job.now)
    try:
        lines = [one.what for one in listed(bench).lines]
    finally:
        bench.store.close()
    assert "Tensioner pin" in lines
    assert not any("pin_2" in one or "head_face" in one for one in lines)
