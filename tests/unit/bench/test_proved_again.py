"""A finished engine of which something is undone: what was proved before is asked for again, and says why.

What is expected follows from one rule of the trade (COMMON PRACTICE, no source): a proof is void when what it is of was
touched, and so is everything that was proved after it on top of it.
"""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.context import entries_of, open_bench
from gudgeon.bench.doing import Known, of_entry, of_pull
from gudgeon.bench.holds import standings
from gudgeon.bench.proof_value import NoneThere
from gudgeon.bench.pull_list import card
from gudgeon.bench.ready import ready
from gudgeon.bench.record import Recorded
from gudgeon.book.errors import BodyRefused
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.job_player import able_to_be_cranked, copied, pulled, why_not, write
from tests.unit.bench.test_gates import OHC

HEAD = "cylinder_head"


@pytest.fixture(scope="module")
def done(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return able_to_be_cranked(tmp_path_factory.mktemp("done"))


@pytest.fixture
def job(done: Job, tmp_path: Path) -> Job:
    return copied(done, tmp_path / "job")


def prove(job: Job, *holds: str) -> None:
    for hold in holds:
        job.record("hold-proved", hold=hold, value="seen, as it has to be")


def to_the_shop(job: Job, part: str = "cylinder head", **back: Any) -> Recorded:
    said = job.record("shop-out", part=part, shop="Mill", ordered="plane 0.3 mm")
    job.record("shop-back", part=part, **{"found": "0.5 mm came off, a crack was welded", **back})
    return said


def test_the_engine_of_these_tests_may_be_cranked(job: Job) -> None:
    assert why_not(job) == {}


def test_a_head_that_was_at_the_shop_once_more_is_measured_and_tested_again(job: Job) -> None:
    said = to_the_shop(job)
    found = why_not(job)
    gone = "void: head went to Mill since"  # under the name by which it left the first time
    assert found["The head came back inside its limits"] == gone
    assert found["The head was tested for cracks"] == gone
    above = f"void: it rested on a hold that is void ({gone.removeprefix('void: ')})"
    assert found["Valve locks seated"].startswith(above)
    assert "“The head came back inside its limits”" in said.remarks[0]
    assert "head went to Mill since" in said.remarks[0]
    prove(job, "head_back_inside_limits", "head_tested", "galley_plugs_in", "valve_locks_seated")
    (left,) = why_not(job).values()
    assert left.startswith("after it head left for Mill"), "it was off, and nobody has tightened it since"


def test_another_part_at_the_shop_takes_no_proof_of_the_head(job: Job) -> None:
    assert to_the_shop(job, "radiator").remarks == ()
    assert why_not(job) == {}


def test_a_trip_that_was_struck_gives_no_proof_back(job: Job) -> None:
    job.record("shop-out", part="head", shop="Mill", ordered="plane 0.3 mm")
    number = job.bench().state.count
    job.record("strike", entry=_id(job, number), why="it was the other head")
    assert "The head came back inside its limits" in why_not(job)


def test_a_part_that_is_away_is_not_proved(job: Job) -> None:
    job.record("shop-out", part="head", shop="Mill", ordered="plane 0.3 mm")
    prove(job, "head_tested")
    assert job.bench().state.holds["head_tested"].why_void == "head is at Mill"
    job.record("shop-back", part="head", found="as ordered")
    prove(job, "head_tested")
    assert job.bench().state.holds["head_tested"].status == "proved"


def test_a_head_that_was_off_again_wants_gasket_and_holes_looked_at_again(job: Job) -> None:
    said = job.record("joint-disturbed", joint=HEAD, why="head lifted off again")
    write(job, pulled(HEAD))
    found = why_not(job)
    why = "void: its joint was disturbed: head lifted off again"
    assert found["Head bolt holes dry again, just before the gasket"] == why
    assert found["Head gasket, right grade and right way up"] == why
    assert "Head bolt holes dry, clean and deep enough" not in found
    assert any("“Head gasket, right grade and right way up”" in one for one in said.remarks)
    prove(job, "bolt_holes_dry_again", "gasket_right", "head_bolts_all_stages", "timing_proved")
    prove(job, "valve_clearances_in_range", "nothing_left_in_head")
    assert "Head gasket, right grade and right way up" not in why_not(job)


def test_pulling_a_bolt_leaves_what_is_under_the_joint_proved(job: Job) -> None:
    write(job, pulled(HEAD))
    assert job.bench().state.holds["gasket_right"].why_void == ""


def test_a_cover_that_was_opened_again_is_looked_under_again(job: Job) -> None:
    job.record("joint-disturbed", joint="valve_cover", why="a nut was missing")
    assert (
        why_not(job)["Nothing left under the valve cover"]
        == "void: its joint was disturbed: a nut was missing"
    )


def test_pistons_are_looked_at_again_for_a_head_that_goes_on_once_more(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=OHC)
    job.read_code()
    prove(job, "pistons_halfway")
    assert "No piston near the top" not in why_not(job)
    job.record("joint-disturbed", joint="head", why="head lifted off again")
    assert why_not(job)["No piston near the top"] == "void: its joint was disturbed: head lifted off again"


def test_a_finished_joint_that_was_left_loose_is_marked_and_proved_again(job: Job) -> None:
    said = job.record(
        "provisional-made", item="hb", name="Head bolts slackened half a turn", joint=HEAD, why="to move the gasket",
        due_task="walk round", due_before="crank",
    )  # fmt: skip
    assert "“Every head bolt shows every stage”" in said.remarks[0]
    job.record("provisional-cleared", item="hb", how="pulled up again")
    found = why_not(job)
    assert "mark" in found["The cylinder head"]
    why = "its joint was left loose: Head bolts slackened half a turn"
    assert found["Every head bolt shows every stage"] == f"void: {why}"
    job.record("joint-marked", joint=HEAD, how="paint")
    prove(job, "head_bolts_all_stages", "timing_proved", "valve_clearances_in_range", "nothing_left_in_head")
    assert "The cylinder head" not in why_not(job)
    assert "Every head bolt shows every stage" not in why_not(job)


@pytest.mark.parametrize(
    "said",
    [
        "0 bar", "0", "0.0 bar, 10 s", "−0.2 bar", "0 psi after 15 s", "0 kPa",
        "no pressure", "No oil pressure at all", "zero pressure on the gauge", "oil pressure: none",
    ],
)  # fmt: skip
def test_no_pressure_proves_no_pressure(job: Job, said: str) -> None:
    with pytest.raises(NoneThere) as refused:
        job.record("hold-proved", hold="oil_pressure_cranking", value=said)
    assert str(refused.value) == (
        f"Oil pressure seen while cranking: `{said}` is no pressure, and proves nothing. Stop, and find out why there is "
        "none. What you saw can be kept as a note: gudgeon record note TEXT. Nothing was recorded."
    )
    assert "Oil pressure seen while cranking" in why_not(job, "fire")


@pytest.mark.parametrize(
    "said",
    [
        "2.5 bar after 8 s",
        "0 bar at first, 1.8 bar after 12 s",
        "30 psi",
        "needle at the third mark",
        "0,8 bar",
        "no pressure lost while I looked",
        "no leak, pressure came at once",
    ],
)
def test_a_pressure_that_was_seen_proves_it(job: Job, said: str) -> None:
    job.record("hold-proved", hold="oil_pressure_cranking", value=said)
    assert "Oil pressure seen while cranking" not in why_not(job, "fire")


def test_a_no_proves_nothing_and_a_sentence_with_one_may(job: Job) -> None:
    job.record("hold-voided", hold="walk_round", why="tools were left")
    with pytest.raises(BodyRefused, match="`no` proves nothing"):
        job.record("hold-proved", hold="walk_round", value="no")
    assert "Walk round before cranking" in why_not(job)
    job.record("hold-proved", hold="walk_round", value="no tool left, 14 in the tray; Ada and I")
    assert "Walk round before cranking" not in why_not(job)


def test_a_task_of_his_own_that_is_due_is_asked_for_until_it_is_done(job: Job) -> None:
    job.record("task-added", title="Fit the belt guard", minutes=20, due_before="crank")
    (one,) = ready(job.bench(), milestone="crank").reasons
    assert (one.what, one.why, one.close_with) == (
        "Fit the belt guard", "not begun", 'gudgeon record task-done "Fit the belt guard"',
    )  # fmt: skip
    job.record("task-started", task="belt guard")
    assert why_not(job) == {"Fit the belt guard": "begun, and not said to be done"}
    job.record("task-paused", task="belt guard", why="no bolt that fits")
    assert why_not(job) == {"Fit the belt guard": "begun, and left standing"}
    job.record("task-done", task="belt guard")
    assert why_not(job) == {}


def test_a_quotation_mark_in_the_title_of_a_task_breaks_no_command(job: Job) -> None:
    job.record("task-added", title='Fit the "left" guard; again', minutes=20, due_before="crank")
    (one,) = ready(job.bench(), milestone="crank").reasons
    job.record("task-done", task=one.close_with.removeprefix("gudgeon record task-done "))
    assert why_not(job) == {}


def test_a_task_of_his_own_that_is_due_later_or_left_out_stops_nothing(job: Job) -> None:
    job.record("task-added", title="Polish the cover", minutes=20, due_before="handover")
    assert why_not(job) == {}
    assert [one.what for one in ready(job.bench(), milestone="crank").later if one.family == "your own"] == [
        "Polish the cover"
    ]
    assert "Polish the cover" in why_not(job, "handover")
    job.record("task-dropped", task="polish", why="nobody sees it")
    assert "Polish the cover" not in why_not(job, "handover")


def fits(job: Job, joint: str) -> set[str]:
    """The acts of the next first pull of a joint."""
    bench = job.bench()
    return set(of_pull(bench.sheet, Known.of(bench.state), joint=joint, stage=1).acts)


def test_the_gate_of_the_head_asks_each_time_that_it_goes_on(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=OHC)
    job.read_code()
    prove(job, "pistons_halfway")
    job.pull(1, "1")
    assert fits(job, "head") == set()
    job.record("joint-disturbed", joint="head", why="head lifted off again")
    job.record("engine-state", seen="piston 1 flush with the deck", crank="near the top")
    assert fits(job, "head") == {"fit the head"}
    shown = card(job.bench(), "head")
    assert (shown.next_pull, [one.gate for one in shown.refused]) == (None, ["piston near the top"])
    job.pull(1, "1")
    assert [(one.gate, one.open) for one in job.bench().state.breaches] == [("piston near the top", True)]


def test_it_asks_once_of_entries_that_are_written_together(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=OHC)
    known, pull = Known.of(job.bench().state), {"joint": "head", "stage": 1}
    for kind, acts in (
        ("pull", ("fit the head",)),
        ("pull", ()),
        ("joint-disturbed", ()),
        ("pull", ("fit the head",)),
    ):
        done = of_entry(job.bench().sheet, known, kind=kind, fields=pull)
        assert tuple((done or {"acts": ()})["acts"]) == acts
        known.note(job.bench().sheet, kind=kind, fields=pull)


def test_a_proof_from_before_the_book_watched_its_ground_counts_no_more_either(job: Job) -> None:
    """An older book did not keep what such a proof rests on: the days alone say it."""
    job.record("shop-out", part="head", shop="Mill", ordered="plane 0.3 mm")
    job.record("shop-back", part="head", found="as ordered")
    job.record("joint-disturbed", joint=HEAD, why="head lifted off again")
    found = _as_it_was_kept_before(job)
    assert found["head_tested"] == "head went to Mill since"
    assert found["gasket_right"] == "The cylinder head was opened again since"


def _as_it_was_kept_before(job: Job) -> dict[str, str]:
    bench = job.bench()
    holds = {
        key: replace(
            one,
            status="proved",
            why_void="",
            rests_on=tuple(it for it in one.rests_on if it[:5] in ("hold:", "state", "joint")),
        )
        for key, one in bench.state.holds.items()
    }
    state = replace(bench.state, holds=holds)
    return {one.hold.id: one.why_not for one in standings(bench.sheet, state)}


def _id(job: Job, number: int) -> str:
    bench = open_bench(job.book, now=job.now)
    try:
        return next(one.id for one in entries_of(bench) if one.number == number)
    finally:
        bench.store.close()
