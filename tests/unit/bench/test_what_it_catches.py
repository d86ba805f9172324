"""How something goes wrong before anything is tightened, and what stops it: each story is told by what was recorded.

Expectations are PRINTED in the list that the program was planned with, or COMMON PRACTICE of the trade.
"""

from datetime import timedelta
from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.good import inspect
from gudgeon.bench.holds import all_holds, standings
from gudgeon.bench.network import job as the_job
from gudgeon.bench.pull_list import card, loosening_card
from gudgeon.bench.ready import ready
from gudgeon.bench.reuse import reuse
from gudgeon.book.errors import BodyRefused
from gudgeon.sheet.load import parse_sheet
from gudgeon.written.errors import FileRefused
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.stories import change_sheet, held, invented, open_before
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return invented(tmp_path)


# What has to be proved before the next work hides it: the hold, the task in which it is proved, the task behind it,
# and what a person sees who proves it.
UNPROVED = {
    "the cause was never looked for": ("cause_found", "write_down_cause", "clean_deck", "burnt through at 2, pump wheel loose, pump renewed"),
    "a new gasket on the old cause": ("cause_found", "write_down_cause", "lay_gasket", "pump wheel loose, pump renewed"),
    "nobody wrote down how the timing stood": ("timing_as_found", "timing_cover_off", "belt_off", "all in line; 15, 67, 60 teeth"),
    "the head is let go while it is warm": ("cold_before_loosening", "measure_cold", "slacken_head_bolts", "17 °C"),
    "dirt lies in the bottom of a bolt hole": ("bolt_holes_dry", "clean_bolt_holes", "wipe_faces", "10 dry, least depth 36.4 mm"),
    "splinters lie in the manifold": ("manifolds_empty", "clean_manifolds", "intake_on", "every pipe seen through, nothing"),
    "a face is flat and the head is cracked": ("head_tested", "check_head", "wash_head", "pressed with 4 bar, tight"),
    "old parts were not compared": ("parts_compared", "compare_parts", "lay_gasket", "18 parts laid on the old ones"),
    "a gasket of another thickness": ("gasket_right", "lay_gasket", "lower_head", "two notches, TOP up"),
    "a galley plug is left out": ("galley_plugs_in", "dress_head", "wipe_faces", "3 out, 3 in"),
    "a tool is left in the bay": ("walk_round", "walk_round", "crank_for_oil", "both of us; 41 tools in the tray"),
}  # fmt: skip


@pytest.mark.parametrize(
    ("hold", "task", "behind", "value"),
    UNPROVED.values(),
    ids=[story.replace(" ", "-") for story in UNPROVED],
)
def test_what_was_not_proved_holds_back_the_work_that_hides_it(
    job: Job, hold: str, task: str, behind: str, value: str
) -> None:
    proof = all_holds()[hold]
    mine = {one.key: one for one in the_job().for_engine(job.bench().sheet)}
    for before in dict.fromkeys([*mine[behind].after, task]):
        said = job.record("task-done", task=before).remarks
        if before == task:
            assert any(one.startswith(f"Its proof is missing: {proof.name} (") for one in said)
    assert f"proof: {proof.name} (" in held(job, behind)
    assert proof.name in open_before(job, proof.before)
    with pytest.raises(BodyRefused, match="`ok` is a bare tick; write the value that was seen"):
        job.record("hold-proved", hold=hold, value="ok")
    for one in (*under_it(hold), hold):
        job.record("hold-proved", hold=one, value=value)
    assert f"proof: {proof.name} (" not in held(job, behind)
    assert proof.name not in open_before(job, proof.before)


def under_it(hold: str) -> list[str]:
    """The holds below one of this engine, the lowest first."""
    found: list[str] = []
    for other in all_holds()[hold].rests_on:
        if ":" not in other:
            found += [*under_it(other), other]
    return list(dict.fromkeys(found))


def test_a_figure_without_its_page_and_a_joint_without_its_thread_state_are_refused() -> None:
    for line, said in (
        ("    source: manual p. 9\n", "This joint has no source."),
        ("    thread_state: engine oil on the threads\n", "thread_state"),
    ):
        with pytest.raises(FileRefused) as refused:
            parse_sheet(SMALL.replace(line, ""), file="s.yaml")
        assert said in str(refused.value)


def test_a_figure_of_another_engine_is_not_shown(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.record("identity-read", code="L1-B", read_from="pad")
    assert "L1-B" in open_before(job)["Engine code"]
    locked = job.bench().locked
    assert locked is not None
    with pytest.raises(type(locked)) as refused:
        card(job.bench(), "head")
    assert str(refused.value) == str(locked)


def test_the_thread_state_stands_on_the_card(job: Job) -> None:
    assert card(job.bench(), "head").thread_state == (
        "engine oil on the threads and under the heads, drained 30 minutes"
    )
    assert card(job.bench(), "water_pump").thread_state == "dry"


def test_a_needless_job_is_not_begun_before_the_engine_was_tested(job: Job) -> None:
    said = held(job, "choose_depth")
    for test in (
        "test the coolant for combustion gas",
        "Let air into the weak cylinders",
        "Cut the old oil filter open",
    ):
        assert test in said
    for task in ("test_coolant", "find_the_leak", "look_at_old_oil"):
        job.record("task-done", task=task)
    job.now += timedelta(hours=1)
    assert held(job, "choose_depth") == ""


def test_a_dry_exhaust_nut_has_to_wait_for_the_oil_on_it(job: Job) -> None:
    for task in ("soak_exhaust", "measure_cold"):
        job.record("task-done", task=task)
    assert "penetrating oil at work, until" in held(job, "exhaust_off")
    job.now += timedelta(hours=13)
    assert "penetrating oil" not in held(job, "exhaust_off")


def test_a_part_still_warm_from_the_washer_is_not_measured(job: Job) -> None:
    for task in ("clean_head", "even_out"):
        job.record("task-done", task=task)
    assert "parts and gauges coming to one temperature, until" in held(job, "measure_head")
    job.now += timedelta(hours=5)
    assert held(job, "measure_head") == ""


def test_oil_creeps_on_the_face_from_bolts_that_were_not_drained(job: Job) -> None:
    job.record(
        "timer-started", timer="drain", minutes=30, name="Oil draining off", task="run_bolts_in", wait="drain"
    )
    assert "Oil draining off, until" in held(job, "run_bolts_in")
    assert "Oil draining off" in open_before(job)
    job.now += timedelta(minutes=31)
    assert "Oil draining off" not in held(job, "run_bolts_in")


def test_caps_that_are_mixed_are_looked_for_on_the_finished_joint(job: Job) -> None:
    name = all_holds()["cam_caps_in_place"].name
    said = job.record("task-done", task="camshafts_in").remarks
    assert any(one.startswith(f"Its proof is missing: {name} (") for one in said)
    for hold in (*under_it("cam_caps_in_place"), "cam_caps_in_place"):
        job.record(
            "hold-proved", hold=hold, value="numbers and arrows as in the photo, both turn by two fingers"
        )
    # No bolt of the head or of a cap is pulled in the book: a word is no pull.
    assert open_before(job)[name] == "it rests on “Every head bolt shows every stage”, which does not stand"
    assert open_before(job)["Camshaft cap bolts"] == "not started"


def loosen(job: Job, joint: str, stage: int, bolt: str, round: int = 1) -> tuple[str, ...]:
    return job.record(
        "bolt-loosened", joint=joint, stage=stage, round=round, bolt=bolt, outcome="done"
    ).remarks


def test_one_hidden_bolt_is_still_in_and_the_head_is_not_loose(job: Job) -> None:
    order = [one.bolt for one in loosening_card(job.bench(), "head").pulls]
    for stage, bolts in ((1, order[:10]), (2, order[10:-1])):
        for bolt in bolts:
            said = loosen(job, "head", stage, bolt)
    assert said[-1] == "19 of 20 steps of loosening are done. The joint is not tight."
    (left,) = [one for one in loosening_card(job.bench(), "head").pulls if "NEXT" in one.state.upper()]
    assert (left.stage, left.bolt) == (2, order[-1])
    assert "being taken apart, 19 of 20 steps done" in open_before(job)["Cylinder head bolts"]


def test_a_cap_is_let_go_at_one_place_against_the_springs(job: Job) -> None:
    first, second = (one.bolt for one in loosening_card(job.bench(), "camshaft_caps").pulls[:2])
    loosen(job, "camshaft_caps", 1, first)
    said = loosen(job, "camshaft_caps", 2, first)
    assert said[0] == (
        f"This was not the next step of loosening: bolt {second}, stage 1 was. It is kept as it happened. "
        "Go back to it before anything else."
    )


def test_a_wheel_without_a_key_does_not_go_with_its_bolt(tmp_path: Path) -> None:
    job = invented(
        tmp_path,
        ("crank: {name: Crankshaft sprocket, teeth: 20,", "crank: {name: Crankshaft sprocket, keyed: no, teeth: 20,"),
        ("  - \"Lock the flywheel, never the camshafts: the locking tools bend and the timing slips.\"\n",
         "  - Lock the flywheel.\n    loosening: [{loosen: fully}]\n"),
    )  # fmt: skip
    assert [one.gate for one in loosening_card(job.bench(), "crank_pulley").refused] == [
        "keyless without a holder"
    ]
    assert "holder" in held(job, "slacken_pulley_bolt")
    said = loosen(job, "crank_pulley", 1, "bolt")
    assert said[0].startswith("This was against a gate: the wheel behind this bolt has no key")
    assert "Loosen a keyless pulley" in open_before(job)


@pytest.mark.parametrize(
    ("group", "names"),
    [
        ("part", ("exhaust valve of cylinder 1", "exhaust valve of cylinder 2")),
        ("part", ("bucket I1", "bucket I2")),
        ("bolt", ("cover bolt, 25 mm", "cover bolt, 40 mm")),
        ("connector", ("camshaft sensor", "crankshaft sensor")),
        ("connector", ("lead of cylinder 1", "lead of cylinder 2")),
    ],
    ids=["valves-mixed", "buckets-mixed", "too-long-a-bolt", "plugs-alike-crossed", "leads-swapped"],
)
def test_numbered_things_that_are_exchanged_are_said_and_stay_in_doubt(
    job: Job, group: str, names: tuple[str, str]
) -> None:
    for number, name in enumerate(names, start=1):
        job.record(
            "taken-off", item=f"it{number}", group=group, name=name, place=str(number), due_before="crank"
        )
    asked = job.record("refitted", item="it1")
    assert asked.remarks == ("Its place number is 1: look at it.",)
    done = job.record("refitted", item="it2", place="1")
    assert done.remarks == (f"{names[1]} came from place 2, now it is at 1: are two of them crossed?",)
    found = [one.why for one in ready(job.bench(), milestone="crank").reasons if one.family == "in doubt"]
    assert found == [f"{names[1]} came from place 2, went to 1"]


def test_a_face_read_lengthwise_alone_is_not_called_flat(job: Job) -> None:
    for side in ("intake", "exhaust"):
        job.record(
            "reading", item="head_flatness", place=f"lengthwise, {side} side", low="0 mm", high="0.03 mm",
            instrument="feelers",
        )  # fmt: skip
    rows = {one.place: one.verdict for one in inspect(job.bench(), only="head_flatness").rows}
    assert rows["4 more places"] == "not measured"
    said = next(one for one in ready(job.bench(), milestone="crank").aside if "not measured" in one)
    assert "Head face flatness" in said


def heights(job: Job, condition: str, value: str) -> None:
    for place in ("timing end intake", "timing end exhaust", "flywheel end intake", "flywheel end exhaust"):
        job.record(
            "reading", item="head_height", place=place, value=value, instrument="caliper", condition=condition
        )


def test_a_head_cut_below_its_least_height_stops_everything(job: Job) -> None:
    heights(job, "as found", "132.40 mm")
    (table,) = consequences(job.bench(), off="0.20 mm").tables
    lines = {one.what: one.verdict for one in table.lines}
    # HAND: 132.40 − 0.20 against 132.30
    assert lines["Head height, least place"].startswith("outside: too thin by 0.10 mm")
    heights(job, "as left", "132.20 mm")
    assert [what for what in open_before(job) if what.startswith("Head height")] == [
        f"Head height, {corner}"
        for corner in (
            "timing end intake",
            "timing end exhaust",
            "flywheel end intake",
            "flywheel end exhaust",
        )
    ]


def ratio(job: Job) -> float:
    lines = {one.what: one.value for one in consequences(job.bench(), off="0.10 mm").tables[0].lines}
    found = lines["Compression ratio"]
    assert found is not None
    return found


def test_a_thicker_gasket_voids_what_was_compared_and_lowers_the_ratio(job: Job) -> None:
    before = ratio(job)
    for hold in (*under_it("gasket_right"), "gasket_right"):
        job.record("hold-proved", hold=hold, value="0.90 mm stamped, TOP up")
    assert next(
        one.stands for one in standings(job.bench().sheet, job.bench().state) if one.hold.id == "gasket_right"
    )
    change_sheet(
        job, "gasket_thickness: {value: 0.90 mm (0.0354 in)", "gasket_thickness: {value: 1.50 mm (0.0591 in)"
    )
    assert (
        "0.90 mm (0.0354 in), now 1.50 mm (0.0591 in)"
        in open_before(job)["Head gasket, right grade and right way up"]
    )
    assert ratio(job) < before - 0.3


def test_a_face_too_rough_for_its_gasket_stops_everything(tmp_path: Path) -> None:
    face = """\
characteristics:
  finish:
    name: Finish of the head face
    part: Cylinder head
    quantity: roughness
    wear_limit: max 1.6 µm
    source: manual p. 51
"""
    job = invented(tmp_path, ("characteristics:\n", face))
    job.record("reading", item="finish", value="3.2 µm", condition="as left")
    assert "3.2" in open_before(job)["Finish of the head face"]


def test_a_worn_bolt_is_neither_kept_nor_a_good_one_thrown_away(job: Job) -> None:
    for bolt, length in (("5", "134.06 mm"), ("9", "133.66 mm")):
        job.record(
            "reading", item="head_bolt_length", place=f"bolt {bolt}", value=length, instrument="caliper"
        )
    bench = open_bench(job.book, now=job.now)
    verdicts = {one.bolt: one.verdict for one in reuse(bench, "head").bolts}
    bench.store.close()
    assert (verdicts["5"], verdicts["9"], verdicts["1"]) == ("renew", "use again", "not judged")
    assert "Head bolt free length, bolt 5" in open_before(job)
    job.record("part-disposition", part="Head bolts", decision="renew", why="two are too long")
    assert "Head bolt free length, bolt 5" not in open_before(job)
