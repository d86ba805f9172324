"""A whole job says yes, and one later fact takes that away; what the answer then names leads back to yes.

What a later fact shakes is that of the trade (COMMON PRACTICE, no source): a belt that is off times no valve, a camshaft
that was at the machine shop was out of the head, and a part that is to be renewed is not the one that was compared.
"""

from datetime import timedelta
from pathlib import Path

import pytest

from gudgeon.bench.context import entries_of, open_bench
from gudgeon.bench.ready import ready
from tests.unit.bench.benches import Job
from tests.unit.bench.job_player import AIR, BELT, CHAIN, begun, copied, play, pulled, why_not, write

TIMING = "Valve timing proved by hand over two turns"
SEEN = "seen at the front"


def played(folder: Path, *, sheet: str, job: str) -> Job:
    made = begun(folder, sheet=sheet, job=job)
    if job in ("", "with_bottom_end"):
        write(made, pulled("bracket"))
    play(made)
    assert why_not(made) == {}
    return made


@pytest.fixture(scope="module")
def belt_played(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return played(tmp_path_factory.mktemp("belt"), sheet=BELT, job="timing_belt")


@pytest.fixture
def belt(belt_played: Job, tmp_path: Path) -> Job:
    return copied(belt_played, tmp_path / "job")


@pytest.fixture(scope="module")
def top_played(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return played(tmp_path_factory.mktemp("top"), sheet=BELT, job="")


@pytest.fixture
def top(top_played: Job, tmp_path: Path) -> Job:
    return copied(top_played, tmp_path / "job")


@pytest.mark.parametrize(
    ("said", "back"), [({"holder": "fitted"}, {"holder": "off"}), ({"pins": "in"}, {"pins": "out"})]
)
def test_what_was_said_to_hold_the_engine_and_is_on_no_list_is_taken_back_in_words(
    tmp_path: Path, said: dict[str, str], back: dict[str, str]
) -> None:
    job = played(tmp_path, sheet=AIR, job="cover_reseal")
    job.record("engine-state", seen=SEEN, **said)
    (one,) = ready(job.bench(), milestone="crank").reasons
    ((name, value),) = back.items()
    assert one.close_with == f"Take it out and record it: gudgeon record engine --{name} {value} --seen …"
    assert one.how == "Take it out and record it."
    job.record("engine-state", seen=SEEN, **back)
    assert why_not(job) == {}


def test_a_pin_that_is_on_the_list_is_named(belt: Job) -> None:
    belt.record("left-in", item="p1", name="timing pin", where="block", due_before="crank")
    gate = next(one for one in ready(belt.bench(), milestone="crank").reasons if one.about == "gate:pins in")
    assert gate.close_with == "Take it out and record it: gudgeon record taken-out p1"


@pytest.mark.parametrize("said", [{"belt": "off"}, {"cams": "out"}, {"joint": "camshaft_caps"}])
def test_a_job_that_leaves_the_timing_alone_asks_for_it_once_somebody_opened_the_drive(
    tmp_path: Path, said: dict[str, str]
) -> None:
    job = played(tmp_path, sheet=CHAIN, job="cover_reseal")
    if "joint" in said:
        job.record("joint-disturbed", why="the cap was in the way", **said)
        job.record("hold-proved", hold="pistons_halfway", value="30 mm below the deck")
        write(job, pulled(said["joint"]))
        job.record("hold-proved", hold="followers_bled", value="40 min at 20 °C")
    else:
        job.record("engine-state", seen=SEEN, **said)
    (one,) = ready(job.bench(), milestone="crank").reasons
    assert one.about == "gate:starter before hand turns"
    assert one.close_with == ("Turn it two full turns by hand, then: gudgeon record hold timing_proved VALUE")
    job.record("hold-proved", hold="timing_proved", value="2 turns, every mark back")
    assert why_not(job) == {}
    job.record("turned", by="starter", seen="3 s, even")
    assert why_not(job) == {}, "and the starter was no act against a gate"


@pytest.mark.parametrize("joint", ["camshaft_caps", "cylinder_head"])
def test_the_timing_of_a_belt_is_proved_again_when_the_head_or_the_caps_were_let_go(
    belt: Job, joint: str
) -> None:
    belt.record("joint-disturbed", joint=joint, why="it leaked")
    assert "its joint was disturbed: it leaked" in why_not(belt)[TIMING]
    write(belt, pulled(joint))
    assert TIMING in why_not(belt)


@pytest.mark.parametrize("part", ["camshaft", "Camshafts", "crankshaft"])
def test_the_timing_is_proved_again_when_a_shaft_was_at_the_shop(belt: Job, part: str) -> None:
    belt.record("shop-out", part=part, shop="Mill", ordered="grind it")
    belt.record("shop-back", part=part, found="ground")
    assert f"{part} went to Mill since" in why_not(belt)[TIMING]
    belt.record("hold-proved", hold="timing_proved", value="2 turns, every mark back")
    assert TIMING not in why_not(belt)


def test_the_holes_are_dry_again_when_the_block_was_at_the_shop(top: Job) -> None:
    top.record("shop-out", part="block", shop="Mill", ordered="face the deck")
    top.record("shop-back", part="block", found="faced")
    found = why_not(top)
    assert "block went to Mill since" in found["Head bolt holes dry again, just before the gasket"]
    assert "Every head bolt shows every stage" in found


def test_a_head_that_left_by_a_clock_that_runs_behind_was_off_all_the_same(top: Job) -> None:
    known = top.now
    top.now = known - timedelta(days=30)
    top.record("shop-out", part="head", shop="Mill", ordered="weld a crack")
    top.record("shop-back", part="head", found="welded")
    top.now = known
    for hold in ("head_back_inside_limits", "head_tested", "galley_plugs_in", "valve_locks_seated"):
        top.record("hold-proved", hold=hold, value="seen, 4 of 4")
    ((what, why),) = why_not(top).items()
    assert what.startswith("Tighten the head bolts")
    assert why.startswith("after it head left for Mill")


def test_a_part_that_is_away_comes_before_the_proofs_that_it_holds_up(top: Job) -> None:
    top.record("shop-out", part="head", shop="Mill", ordered="weld a crack")
    first = ready(top.bench(), milestone="crank").reasons[0]
    assert (first.what, first.close_with) == ("head", "gudgeon record shop-back head --found …")


def test_a_part_that_is_to_be_renewed_is_none_that_was_compared(top: Job) -> None:
    top.record("part-disposition", part="water pump", decision="reuse", why="no play")
    assert why_not(top) == {}
    top.record("part-disposition", part="water pump", decision="renew", why="it drips")
    assert why_not(top)["New parts laid against the old ones"] == (
        "since then it was decided that water pump is renewed: fit the new one, and compare it before that"
    )
    top.record("hold-proved", hold="parts_compared", value="the new pump: flange, vanes, pulley")
    assert "New parts laid against the old ones" not in why_not(top)


def test_the_choice_of_a_larger_job_that_is_struck_makes_what_was_begun_of_it_no_less(tmp_path: Path) -> None:
    job = begun(tmp_path, sheet=AIR, job="with_bottom_end")
    write(job, pulled("bracket"))
    play(job)
    bench = open_bench(job.book, now=job.now)
    chosen = next(one.id for one in entries_of(bench) if one.kind == "job-chosen")
    bench.store.close()
    job.record("task-done", task="pistons_out")
    job.record("strike", entry=chosen, why="a slip")
    (one,) = ready(job.bench(), milestone="crank").reasons
    assert (one.what, one.close_with) == (
        "How far the job goes", "gudgeon record job with_bottom_end --why …"
    )  # fmt: skip
    job.record("job-chosen", job="with_bottom_end", why="it was none")
    ((_, why),) = why_not(job).items()
    assert why.startswith("after it “Mark rod and cap on one side"), (
        "which asks for what was taken out meanwhile"
    )
