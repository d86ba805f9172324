"""Ways in which a yes could come too early: each was possible once, or would be without what is tried here."""

from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.holds import standings
from gudgeon.bench.pull_list import card
from gudgeon.bench.ready import Readiness, ready
from gudgeon.bench.start import start
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_gates import OHC

STOPPED = """\
  sprocket:
    name: Sprocket bolt
    bolts: 1
    order: [1]
    fastener: {thread: M8x1.25, strength_class: "8.8"}
    thread_state: dry
    program:
      - {torque: 10 N·m, provisional: until the belt is on}
      - torque: 24 N·m
    source: manual p. 12
"""


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=OHC + STOPPED)
    made.read_code()
    return made


def asked(job: Job, milestone: str = "crank") -> Readiness:
    return ready(job.bench(), milestone=milestone)


def names(job: Job) -> list[str]:
    return [one.what for one in asked(job).reasons]


def pull_sprocket(job: Job) -> None:
    """The first stage of its one bolt."""
    job.record(
        "pull",
        joint="sprocket",
        stage=1,
        bolt="1",
        outcome="clicked while turning",
        tool="three",
        setting="10 N·m",
    )


def test_what_is_written_of_a_joint_left_half_way_does_not_put_it_off(job: Job) -> None:
    pull_sprocket(job)
    assert names(job).count("Sprocket bolt") == 1
    late = {"name": "sprocket, loose", "joint": "sprocket", "why": "it floats", "due_task": "at the end"}
    job.record("provisional-made", item="late", due_before="handover", **late)
    assert names(job).count("Sprocket bolt") == 1, (
        "due before the engine is turned, whatever else is written of it"
    )
    job.record("provisional-made", item="early", due_before="crank", **late)
    assert "Sprocket bolt" not in names(job)
    assert "sprocket, loose" in names(job)


@pytest.mark.parametrize(
    ("name", "holds", "said"),
    [("flywheel lock", "torque", {"holder": "fitted"}), ("cam bar", "timing", {"pins": "in"})],
)
def test_nobody_turns_it_with_the_starter_while_a_lock_is_in_that_is_due_later(
    job: Job, name: str, holds: str, said: dict[str, str]
) -> None:
    assert "Turn by starter" not in names(job)
    job.record("left-in", item="x", name=name, where="flywheel", due_before="handover", holds=holds)
    assert "Turn by starter" in names(job)
    job.record("taken-out", item="x")
    assert "Turn by starter" not in names(job)
    job.record("engine-state", seen="it is in", **said)
    reason = next(one for one in asked(job).reasons if one.what == "Turn by starter")
    assert (reason.why, reason.how, reason.about) == (
        "a pin, a lock or a holder is in: the engine would turn against it",
        "Take it out and record it.",
        "gate:pins in",
    )
    job.record("override", about="gate:pins in", by="Sam", why="the lock is a dummy")
    assert "Turn by starter" not in names(job)
    assert (
        "Turn by starter: a pin, a lock or a holder is in: the engine would turn against it; let pass by Sam, "
        "because the lock is a dummy"
    ) in asked(job).accepted


def test_one_of_several_that_are_off_can_be_let_pass_by_itself(job: Job) -> None:
    for number in ("1", "2", "3"):
        job.record(
            "taken-off", group="hose", item=f"hose {number}", name=f"hose number {number}", due_before="crank"
        )
    assert "3 hoses" in names(job)
    job.record("override", about="item:left over:hose 2", by="Sam", why="it is for the air conditioning")
    assert "2 hoses" in names(job)
    assert any(one.startswith("hose number 2: ") for one in asked(job).accepted)


def test_an_override_of_a_task_opens_no_gate_that_the_task_does_not_ask(job: Job) -> None:
    """A breach that nobody has looked into holds every act back; beginning one all the same opens no other gate."""
    job.record("left-in", item="stop", name="crank stop", where="block", due_before="crank")
    job.record("turned", by="hand", seen="against the stop")
    bench = open_bench(job.book, now=job.now)
    try:
        start(bench, "lower the head", override="only laid on", by="Ada")
    finally:
        bench.store.close()
    assert [one.about for one in job.bench().state.overrides] == [
        "task:lower_head",
        "gate:piston near the top",
    ]
    assert [one.passed_by for one in job.bench().state.breaches] == ["", "Ada: only laid on"]
    job.record("turned", by="hand", seen="against the stop again")
    assert [one.open for one in job.bench().state.breaches] == [True, False, True]


def test_the_right_engine_is_void_when_somebody_says_so_until_it_is_proved_anew(job: Job) -> None:
    name = "The sheet is for this engine"
    assert name not in names(job)
    job.record("hold-voided", hold="right_engine", why="the head is of another year")
    reason = next(one for one in asked(job).reasons if one.what == name)
    assert reason.why == "void: the head is of another year"
    job.record(
        "hold-proved", hold="right_engine", value="L1-A on the block, L1 on the head, both of this sheet"
    )
    assert name not in names(job)


TWINS = """\
  caps_{side}:
    name: Camshaft caps, {side}
    role: camshaft caps
    bolts: 1
    order: [1]
    fastener: {{thread: M6x1.0, strength_class: "8.8"}}
    thread_state: dry
    program:
      - torque: 24 N·m
    source: manual p. 13
"""


@pytest.fixture
def twin(tmp_path: Path) -> Job:
    """Two camshafts, each with caps of its own."""
    caps = "".join(TWINS.format(side=side) for side in ("intake", "exhaust"))
    made = make_job(tmp_path, sheet=OHC.replace(", camshaft caps]", "]") + caps)
    made.read_code()
    return made


def cap(job: Job, side: str) -> None:
    job.record(
        "pull", joint=f"caps_{side}", stage=1, bolt="1", outcome="clicked while turning", tool="three", setting="24 N·m"
    )  # fmt: skip


def test_a_proof_is_of_every_joint_that_plays_its_role_and_void_when_one_is_worked_on(twin: Job) -> None:
    def caps() -> tuple[bool, str]:
        bench = twin.bench()
        return next(
            (one.stands, one.why_not)
            for one in standings(bench.sheet, bench.state)
            if one.hold.id == "cam_caps_in_place"
        )

    for under in ("parts_compared", "bolt_holes_dry", "bolt_holes_dry_again", "gasket_right"):
        twin.record("hold-proved", hold=under, value="seen")
    twin.tighten_all()
    twin.record("hold-proved", hold="head_bolts_all_stages", value="4 marks")
    cap(twin, "intake")
    twin.record("hold-proved", hold="cam_caps_in_place", value="both turn by hand")
    assert caps() == (False, "its joint is not finished: Camshaft caps, exhaust")
    cap(twin, "exhaust")
    assert caps() == (False, "void: its joint was worked on since")
    twin.record("hold-proved", hold="cam_caps_in_place", value="both turn by hand")
    assert caps() == (True, "")
    twin.record("joint-disturbed", joint="caps_exhaust", why="a cap was turned round")
    cap(twin, "exhaust")
    assert caps() == (False, "void: its joint was disturbed: a cap was turned round")


def test_the_second_camshaft_goes_on_with_no_piston_near_the_top_either(twin: Job) -> None:
    twin.record("engine-state", crank="half-way", seen="35 mm below the deck")
    cap(twin, "intake")
    assert twin.bench().state.engine.cams == "in"
    assert card(twin.bench(), "caps_exhaust").next_pull == 1
    twin.record("engine-state", crank="near the top", seen="at the mark")
    assert [one.gate for one in card(twin.bench(), "caps_exhaust").refused] == ["piston near the top"]
    cap(twin, "exhaust")
    assert [(one.gate, one.act) for one in twin.bench().state.breaches] == [
        ("piston near the top", "fit camshafts")
    ]


FILL = "Fill oil to the mark, new filter on, drain plug at its torque"


def test_a_task_that_was_begun_and_is_not_done_stands_in_the_way(job: Job) -> None:
    """Nothing is proved of the oil that is filled in: only the word of the book says how far it is."""

    def said(milestone: str = "crank") -> list[tuple[str, str]]:
        return [(one.why, one.close_with) for one in asked(job, milestone).reasons if one.what == FILL]

    close = f'gudgeon record task-done "{FILL}"'
    assert said() == []
    job.record("task-started", task="fill oil to the mark")
    assert said() == [("begun Sat Mar 07, 10:02, and not said to be done", close)]
    job.record("task-paused", task="fill oil to the mark", why="2 L in, the shop is closed")
    assert said() == [("left standing: 2 L in, the shop is closed (Sat Mar 07, 10:03)", close)]
    job.record("override", about="fill oil to the mark", by="Sam", why="2 L are enough for that")
    assert any(
        one.endswith("let pass by Sam, because 2 L are enough for that") for one in asked(job).accepted
    )
    assert said() == []
    job.record("task-started", task="fill oil to the mark")
    assert said() == [("begun Sat Mar 07, 10:05, and not said to be done", close)], (
        "let pass as it was, no more"
    )
    job.record("task-done", task="fill oil to the mark")
    assert said() == []


def test_a_task_begun_stops_what_comes_after_it_and_no_milestone_stops_itself(job: Job) -> None:
    job.record("task-started", task="go through the four lists")
    job.record("task-started", task="crank it with no plugs")
    job.record("task-started", task="look it over the next cold morning")
    assert [one.family for one in asked(job).reasons if one.family == "in hand"] == ["in hand"]
    assert [one.due_before for one in asked(job).later if one.family == "in hand"] == ["handover"]


def test_the_timing_is_proved_again_when_the_sprockets_of_a_chain_were_let_go(tmp_path: Path) -> None:
    chain = OHC.replace("timing belt, timing chain,", "timing belt, timing gears,").replace(
        "joints:", "drive: {kind: timing chain, source: manual p. 30}\njoints:"
    )
    sheet = chain + STOPPED.replace("    bolts: 1", "    role: camshaft sprockets\n    bolts: 1")
    made = make_job(tmp_path, sheet=sheet)
    made.read_code()
    proof = "Valve timing proved by hand over two turns"

    def why() -> str:
        return next(
            one.why_not for one in standings(made.bench().sheet, made.bench().state) if one.hold.name == proof
        )

    under = ("parts_compared", "bolt_holes_dry", "bolt_holes_dry_again", "pistons_halfway", "gasket_right")
    for hold in under:
        made.record("hold-proved", hold=hold, value="seen, and dry")
    made.tighten_all()
    for hold in ("head_bolts_all_stages", "locking_tools_out", "timing_proved"):
        made.record("hold-proved", hold=hold, value="seen by Ada, 4 of 4")
    assert why() == ""
    pull_sprocket(made)
    assert why() == "", "a bolt that is drawn on turns no camshaft"
    made.record("joint-disturbed", joint="sprocket", why="the cam was turned a little")
    assert why() == "void: its joint was disturbed: the cam was turned a little"
