"""Gates at the bench: what is refused and in which words, what is kept all the same, who lets something pass."""

import re
from pathlib import Path
from typing import get_args

import pytest

from gudgeon.bench.acts import pull_fields
from gudgeon.bench.context import open_bench
from gudgeon.bench.errors import GateRefuses, TaskRefused, Unknown
from gudgeon.bench.passing import NothingToInspect
from gudgeon.bench.pull_list import card, loosening_card
from gudgeon.bench.ready import ready
from gudgeon.bench.record import Recorded, record
from gudgeon.bench.start import NobodyNamed, held_back, start
from gudgeon.book.gates import GATES, RULES
from gudgeon.sheet.gates import GateName
from tests.unit.bench.benches import PULL, Job, make_job
from tests.unit.sheet.sheets import SMALL

PULLEY = """\
  pulley:
    name: Crank pulley bolt
    role: crank pulley
    fastener: {thread: M12x1.25, strength_class: "10.9"}
    bolts: 1
    order: [1]
    thread_state: dry
    witness: yes
    loosening:
      - loosen: fully
    program:
      - hand-run
      - torque: 60 N·m
    source: manual p. 11
"""
OHC = SMALL.replace(", camshaft caps, overhead cam]", ", camshaft caps]") + PULLEY
"""An engine whose valves can meet its pistons while the head goes on."""
OVERRULED = (
    OHC
    + """\
gates:
  - gate: piston near the top
    because: flat valves above a dish, they never meet
    source: manual p. 12
"""
)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=OHC)
    made.read_code()
    return made


def ask(job: Job, task: str, **more: str) -> Recorded:
    bench = open_bench(job.book, now=job.now)
    try:
        return start(bench, task, **more)
    finally:
        bench.store.close()


def answer(job: Job, milestone: str = "crank") -> tuple[str, list[str]]:
    found = ready(job.bench(), milestone=milestone)
    return found.answer, [one.what for one in found.reasons if one.family == "against a gate"]


def test_sheet_and_book_name_the_same_gates() -> None:
    assert get_args(GateName) == GATES == tuple(RULES)


def test_the_page_names_every_gate() -> None:
    page = (Path(__file__).parents[3] / "docs/how-it-works/starting.md").read_text(encoding="utf-8")
    assert re.findall(r"^\| ([a-z ]+) \| .* \| .* \|$", page, flags=re.MULTILINE)[1:] == list(GATES)


def test_a_head_is_not_offered_before_somebody_has_looked_where_the_pistons_stand(job: Job) -> None:
    shown = card(job.bench(), "head")
    assert (shown.next_pull, [one.gate for one in shown.refused]) == (None, ["piston near the top"])
    assert {pull.state for pull in shown.pulls} == {""}
    with pytest.raises(GateRefuses) as refused:
        pull_fields(job.bench(), {**PULL, "outcome": "done"})
    assert str(refused.value) == (
        "Head nuts: not now. nobody has looked where the pistons stand since the engine was turned: none may be near "
        "the top.\n  Turn it until no piston is near the top, then: gudgeon record hold pistons_halfway VALUE.\n"
        "What was done all the same is recorded as it happened, by its stage and its place."
    )
    job.record("hold-proved", hold="pistons_halfway", value="33 mm below the deck")
    assert card(job.bench(), "head").next_pull == 1


def test_a_pull_against_a_gate_is_kept_and_told(job: Job) -> None:
    job.record("turned", by="hand", seen="to the mark, free")
    done = job.pull(1, "1")
    assert done.remarks[0] == (
        "This was against a gate: nobody has looked where the pistons stand since the engine was turned: none may be "
        "near the top. It is kept as it happened, and blocks until somebody has looked. Valves and piston crowns: a mark, a bent stem? Every valve "
        'closes tight. Then: gudgeon record inspected 4 --found … --by NAME --gate "piston near the top"'
    )
    assert answer(job, "handover") == ("no", ["Fit the head"])
    assert [one.why for one in card(job.bench(), "head").refused] == []
    job.record("inspected", entry="4", found="no mark on any crown", by="Ada")
    assert answer(job)[1] == []


def test_what_the_sheet_overrules_is_offered(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=OVERRULED)
    job.read_code()
    assert card(job.bench(), "head").next_pull == 1
    job.record("turned", by="hand", seen="to the mark")
    job.pull(1, "1")
    assert answer(job)[1] == []


def test_a_bolt_that_turns_is_not_pulled_against_pins_but_against_a_holder(job: Job) -> None:
    job.record("left-in", item="stop", name="crank stop", where="block", due_before="crank")
    job.record("pull", joint="pulley", stage=1, bolt="1", outcome="done")
    assert [one.gate for one in card(job.bench(), "pulley").refused] == ["bolt against pins"]
    assert [one.gate for one in loosening_card(job.bench(), "pulley").refused] == ["bolt against pins"]
    job.record("left-in", item="lock", name="flywheel lock", where="starter opening", due_before="crank")
    assert card(job.bench(), "pulley").refused == ()
    assert loosening_card(job.bench(), "pulley").next_pull == 1


def test_after_an_act_against_a_gate_nothing_more_is_offered_that_a_gate_asks_for(job: Job) -> None:
    job.record("left-in", item="stop", name="crank stop", where="block", due_before="crank")
    job.record("turned", by="hand", seen="against the stop")
    job.record("taken-out", item="stop")
    job.record("pull", joint="pulley", stage=1, bolt="1", outcome="done")
    assert [one.why for one in card(job.bench(), "pulley").refused] == [
        "“turn by hand” was done against a gate and is not inspected: a pin, a lock or a holder is in: the engine "
        "would turn against it"
    ]


def test_who_answers_for_a_breach_lets_the_work_go_on_and_stays_in_sight(job: Job) -> None:
    job.record("hold-proved", hold="pistons_halfway", value="33 mm")
    job.record("left-in", item="stop", name="crank stop", where="block", due_before="crank")
    act = job.record("turned", by="hand", seen="against the stop")
    job.record("taken-out", item="stop")
    job.record("hold-proved", hold="pistons_halfway", value="33 mm")
    assert card(job.bench(), "head").next_pull is None
    job.record("override", about=f"breach:{act.entry}:pins in", by="Ada", why="a wooden stop, it gave way")
    assert card(job.bench(), "head").next_pull == 1
    found = ready(job.bench(), milestone="crank")
    assert [one for one in found.reasons if one.family == "against a gate"] == []
    assert found.accepted[0].endswith("let pass by Ada, because a wooden stop, it gave way")


def test_a_task_that_has_to_wait_is_refused_with_its_reasons(job: Job) -> None:
    with pytest.raises(TaskRefused) as refused:
        ask(job, "lower the head")
    said = str(refused.value)
    assert said.startswith("“Lower the head straight down onto its dowels” has to wait: ")
    assert "nobody has looked where the pistons stand" in said
    assert said.endswith(
        "Close that first. If somebody answers for beginning it all the same: gudgeon start TASK --override WHY --by "
        "NAME. If it was begun already: gudgeon record task-started."
    )
    assert job.bench().state.tasks == {}


def test_a_task_that_may_be_begun_is_begun(job: Job) -> None:
    assert held_back(job.bench(), "agree_scope") == ()
    done = ask(job, "agree_scope")
    assert done.said.startswith("task started: ")
    assert job.bench().state.tasks["agree_scope"].status == "running"


def test_an_override_names_who_answers_and_is_shown_for_ever(job: Job) -> None:
    with pytest.raises(NobodyNamed):
        ask(job, "lower the head", override="the head is only laid on to measure")
    ask(job, "lower the head", override="the head is only laid on to measure", by="Ada")
    state = job.bench().state
    assert state.tasks["lower_head"].status == "running"
    assert [(one.about, one.by) for one in state.overrides] == [
        ("task:lower_head", "Ada"),
        ("gate:piston near the top", "Ada"),
    ]
    assert [one.passed_by for one in state.breaches] == []
    assert any("begun all the same by Ada" in one for one in ready(job.bench(), milestone="crank").accepted)


def test_only_what_is_open_can_be_let_pass(job: Job) -> None:
    with pytest.raises(Unknown) as refused:
        job.record("override", about="hold:nothing", by="Ada", why="x")
    assert str(refused.value).startswith("`hold:nothing` is no open thing here. Known: ")


def test_what_is_let_pass_is_no_reason_until_it_is_another_state(job: Job) -> None:
    job.record("override", about="walk round", by="Ada", why="alone today, walked twice")
    found = ready(job.bench(), milestone="crank")
    assert "Walk round before cranking" not in [one.what for one in found.reasons]
    assert found.accepted == (
        "Walk round before cranking: not proved yet; let pass by Ada, because alone today, walked twice",
    )
    job.record("hold-voided", hold="walk_round", why="the jack was moved")
    found = ready(job.bench(), milestone="crank")
    assert "Walk round before cranking" in [one.what for one in found.reasons]
    assert len(found.earlier) == 1


def test_only_an_act_against_a_gate_is_inspected(job: Job) -> None:
    job.record("note", text="cold")
    with pytest.raises(NothingToInspect) as refused:
        job.record("inspected", entry="3", found="nothing bent", by="Ada")
    assert str(refused.value) == (
        "Entry 3 is no act against a gate that waits for an inspection. Waiting: none."
    )


def test_a_second_look_is_asked_for_where_the_sheet_does(job: Job) -> None:
    job.record("pull", joint="pulley", stage=1, bolt="1", outcome="done")
    job.record(
        "pull",
        joint="pulley",
        stage=2,
        bolt="1",
        outcome="clicked while turning",
        tool="half",
        setting="60 N·m",
    )
    job.record("joint-marked", joint="pulley", how="paint")
    why = {one.what: one.why for one in ready(job.bench(), milestone="crank").reasons}
    assert why["Crank pulley bolt"] == (
        "complete and marked, and nobody has had the second look that the sheet asks for"
    )
    job.record("joint-witnessed", joint="pulley", by="Bo", seen="mark in line")
    assert card(job.bench(), "pulley").state == "complete, marked and witnessed"
    assert "Crank pulley bolt" not in {one.what for one in ready(job.bench(), milestone="crank").reasons}


@pytest.mark.parametrize(
    ("name", "holds"),
    [
        ("crank stop", "timing"), ("Camshaft bar", "timing"), ("locking tool, exhaust", "timing"),
        ("timing pin", "timing"), ("flywheel lock", "torque"), ("sprocket holder", "torque"),
        ("rag", "nothing"), ("jack with a wood block", "nothing"), ("tensioner pin", "nothing"),
    ],
)  # fmt: skip
def test_what_is_left_in_holds_by_its_name(job: Job, name: str, holds: str) -> None:
    job.record("left-in", item="x", name=name, where="there", due_before="crank")
    assert job.bench().state.left_in["x"].holds == holds


def test_sent_twice_an_act_is_the_same_act(job: Job) -> None:
    bench = open_bench(job.book, now=job.now)
    try:
        fields = {"joint": "head", "stage": 1, "bolt": "1", "outcome": "done"}
        first = record(bench, "pull", fields, entry_id="a" * 32)
        again = record(open_bench(job.book, now=job.now), "pull", fields, entry_id="a" * 32)
    finally:
        bench.store.close()
    assert again.entry == first.entry
    assert again.remarks == ("It was in the book already, and counts once.",)


def test_a_proof_given_before_its_work_is_said_at_once(job: Job) -> None:
    done = job.record("hold-proved", hold="walk_round", value="Ada, all tools back")
    assert any(
        text.startswith("It was proved although “Walk round it before cranking") for text in done.remarks
    )


def test_who_answers_for_the_hand_turns_answers_for_the_starter(job: Job) -> None:
    job.record("engine-state", belt="on", seen="belt on")
    job.record(
        "override", about="hold:timing_proved", by="Ada", why="turned four times, no gauge to write down"
    )
    assert job.record("turned", by="starter", seen="two seconds").remarks == ()


def test_a_sheet_without_a_joint_says_that_no_bolt_was_asked_about(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=SMALL.split("\njoints:")[0] + "\n")
    job.read_code()
    assert ready(job.bench(), milestone="crank").aside[0] == (
        "bolts: the data sheet names no bolted joint, so nothing asks whether one is tight"
    )
