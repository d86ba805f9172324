"""Each job that is shipped, from its first task to its last in a real book: what it asks for, and what it leaves alone."""

from pathlib import Path

import pytest

from gudgeon.bench.holds import IDENTITY, holds_of
from gudgeon.bench.network import JOBS, job, tasks_of
from gudgeon.bench.now import now
from gudgeon.bench.ready import Readiness, ready
from gudgeon.bench.reason import MILESTONES
from gudgeon.sheet.load import parse_sheet
from tests.unit.bench.job_player import AIR, BELT, CHAIN, begun, network, play, pulled, without_proof, write

BOTTOM_END = ("main caps", "rod caps", "flywheel", "oil pan")

long = pytest.mark.long
PLAYED = [
    pytest.param("with_bottom_end", BELT, id="bottom end"),
    pytest.param("timing_belt", BELT, id="belt"),
    pytest.param("cover_reseal", AIR, id="cover, air"),
    pytest.param("", BELT, id="top end", marks=long),
    pytest.param("with_bottom_end", AIR, id="bottom end, air", marks=long),
    pytest.param("with_bottom_end", CHAIN, id="bottom end, chain", marks=long),
    pytest.param("cover_reseal", CHAIN, id="cover, chain", marks=long),
]


def reasons(answer: Readiness) -> set[str]:
    return {one.what for one in answer.reasons}


@pytest.mark.parametrize(("name", "sheet"), PLAYED)
def test_a_job_comes_to_its_end_and_then_every_milestone_is_answered_yes(
    tmp_path: Path, name: str, sheet: str
) -> None:
    made = begun(tmp_path, sheet=sheet, job=name)
    whole = name in ("", "with_bottom_end")
    first = reasons(ready(made.bench(), milestone="handover"))
    assert ("The bracket" in first) == whole, "a joint that plays no role belongs to whole jobs"
    if whole:
        write(made, pulled("bracket"))
    play(made)
    bench = made.bench()
    found = network(bench)
    assert {key: one.why for key in found.order if (one := found.stand(key)).where != "done"} == {}
    assert not any(found.taken(key) for key in found.order), "nothing had to be guessed"
    assert {one: ready(bench, milestone=one).answer for one in MILESTONES} == dict.fromkeys(MILESTONES, "yes")
    asked = [one for one in holds_of(bench.sheet, name or "top_end") if one.id != IDENTITY]
    assert len(asked) >= 8
    for hold in asked:
        missing = ready(without_proof(bench, hold.id), milestone=hold.before)
        assert missing.answer == "no", hold.id
        assert hold.name in reasons(missing)


def test_a_belt_job_asks_for_no_head_and_no_cover_and_says_which_joints_it_leaves_alone(
    tmp_path: Path,
) -> None:
    made = begun(tmp_path, sheet=BELT, job="timing belt only")
    answer = ready(made.bench(), milestone="handover")
    # HAND: of the nineteen roles, the belt job tightens these seven.
    own = {"camshaft sprockets", "belt tensioner", "crank pulley", "water pump", "timing cover", "engine mount",
           "spark plugs"}  # fmt: skip
    assert {one.what for one in answer.reasons if one.about.startswith("joint:")} == {
        f"The {one}" for one in own
    }
    assert "Every head bolt shows every stage" not in reasons(answer)
    assert "Nothing left under the valve cover" not in reasons(answer)
    assert "Valve timing proved by hand over two turns" in reasons(answer)
    (left,) = [one for one in answer.aside if one.startswith("joints that are no part of this job")]
    assert left == (
        "joints that are no part of this job, and were never loosened by the book: The cylinder head, The camshaft caps, "
        "The valve cover, The intake manifold, The exhaust manifold, The thermostat housing, The seal carrier, "
        "The oil drain plug, The oil pan, The flywheel, The rod caps, The main caps, The bracket"
    )


@pytest.mark.parametrize("kind", ["joint-disturbed", "pull", "provisional-made"])
def test_a_joint_that_the_book_speaks_of_is_asked_for_whatever_the_job(tmp_path: Path, kind: str) -> None:
    made = begun(tmp_path, sheet=BELT, job="timing_belt")
    made.read_code()
    assert "The exhaust manifold" not in reasons(ready(made.bench(), milestone="handover"))
    said: dict[str, dict[str, object]] = {
        "joint-disturbed": {"joint": "exhaust_manifold", "why": "in the way"},
        "pull": {"joint": "exhaust_manifold", "stage": 1, "bolt": "1", "outcome": "doubtful", "tool": "half",
                 "setting": "60 N·m", "why": "it creaked"},
        "provisional-made": {"item": "x", "name": "manifold, loose", "joint": "exhaust_manifold", "why": "in the way",
                             "due_task": "later", "due_before": "crank"},
    }  # fmt: skip
    made.record(kind, **said[kind])
    assert "The exhaust manifold" in reasons(ready(made.bench(), milestone="handover"))


def test_a_top_end_leaves_the_bottom_end_alone_until_the_book_speaks_of_it(tmp_path: Path) -> None:
    made = begun(tmp_path, sheet=BELT, job="")
    joints = {
        one.what
        for one in ready(made.bench(), milestone="handover").reasons
        if one.about.startswith("joint:")
    }
    assert not joints & {f"The {one}" for one in BOTTOM_END}
    assert "The bracket" in joints
    made.record("joint-disturbed", joint="flywheel", why="the seal behind it leaks")
    assert "The flywheel" in reasons(ready(made.bench(), milestone="handover"))


def test_deeper_damage_makes_the_job_larger_and_says_what_is_asked_for_and_voids_nothing(
    tmp_path: Path,
) -> None:
    made = begun(tmp_path, sheet=BELT, job="timing_belt")
    play(made, until="first_start")
    proved = {key for key, one in made.bench().state.holds.items() if one.status == "proved"}
    assert {"timing_proved", "parts_compared", "walk_round"} <= proved
    done = made.record("job-chosen", job="Top end and bottom end", why="a rod knocks")
    # HAND: tasks and holds of the two jobs on this engine, told apart by their keys.
    sheet = made.bench().sheet
    small, large = (
        {one.key for one in job(one).for_engine(sheet)} for one in ("timing_belt", "with_bottom_end")
    )
    holds = {one: {hold.id for hold in holds_of(sheet, one)} for one in ("timing_belt", "with_bottom_end")}
    more, fewer = len(large - small), len(small - large)
    asked = len(holds["with_bottom_end"] - holds["timing_belt"])
    assert done.remarks[0].startswith(f"Asked for in addition: {more} tasks and {asked} proofs: “")
    assert done.remarks[0].endswith(f"”; and {asked - 4} more.")
    assert done.remarks[1:] == (f"Not asked for any more: {fewer} tasks.",)
    bench = made.bench()
    assert {key for key, one in bench.state.holds.items() if one.status == "proved"} == proved
    found = reasons(ready(bench, milestone="crank"))
    assert {"Every head bolt shows every stage", "Crank turns by hand after each main cap"} <= found
    assert "New parts laid against the old ones" not in found, "what is proved stays proved"
    assert "Every rod bolt complete and marked, and it turns freely" in found


def test_a_proof_is_older_than_one_that_only_the_larger_job_asks_for_under_it(tmp_path: Path) -> None:
    name = "Valve timing proved by hand over two turns"
    made = begun(tmp_path, sheet=BELT, job="timing_belt")
    play(made, until="pulley_on")
    assert name not in reasons(ready(made.bench(), milestone="crank"))
    made.record("job-chosen", job="top_end")

    def why() -> str:
        return next(
            (one.why for one in ready(made.bench(), milestone="crank").reasons if one.what == name), ""
        )

    assert why() == "it rests on “Every head bolt shows every stage”, which does not stand"
    for hold in ("bolt_holes_dry", "bolt_holes_dry_again", "gasket_right"):
        made.record("hold-proved", hold=hold, value="seen")
    for joint, hold in (("cylinder_head", "head_bolts_all_stages"), ("camshaft_caps", "cam_caps_in_place")):
        made.record("engine-state", crank="half-way", pins="out", seen="35 mm below the deck")
        write(made, pulled(joint))
        made.record("hold-proved", hold=hold, value="seen")
    assert name in reasons(ready(made.bench(), milestone="crank")), (
        "the camshafts went in after the two turns"
    )


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("sheet", [BELT, CHAIN, AIR], ids=["belt", "chain", "air"])
def test_what_may_be_begun_first_is_to_read_the_code_and_every_task_has_its_words(
    tmp_path: Path, name: str, sheet: str
) -> None:
    if name == "timing_belt" and sheet is not BELT:
        pytest.skip("The belt job is refused for these engines: a test of its own.")
    made = begun(tmp_path, sheet=sheet, job=name)
    answer = now(made.bench())
    assert answer.ready[0].title.startswith("Read the engine code")
    tasks = tasks_of(made.bench().sheet, made.bench().state)
    assert len({one.title for one in tasks}) == len(tasks)
    assert {one.key for one in tasks} == {
        one.key for one in job(name).for_engine(parse_sheet(sheet, file="s").sheet)
    }
