"""The pull list: expanded from the sheet, resumed from the book."""

from pathlib import Path

import pytest

from gudgeon.bench.errors import NotThisStage, Unknown
from gudgeon.bench.holds import standings
from gudgeon.bench.pull_list import card, clock
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


def test_expands_every_stage_in_order(job: Job) -> None:
    answer = card(job.bench(), "head")
    assert [(pull.stage, pull.bolt) for pull in answer.pulls] == [
        (stage, bolt) for stage in (1, 2, 3, 4) for bolt in "1324"
    ]
    assert answer.next_pull == 1
    assert answer.pulls[-1].turned_after == "90°"
    assert answer.pulls[-1].mark == "from 12 o'clock to 3 o'clock"


def test_resumes_after_an_interruption_and_asks_to_look(job: Job) -> None:
    for bolt in "1324":
        job.pull(1, bolt)
    job.pull(2, "1", "clicked while turning")
    answer = card(job.bench(), "head")
    assert answer.next_pull == 6
    assert answer.state == "stage 2 of 4, 5 of 16 pulls done"
    assert answer.look_first == (
        "Last recorded: bolt 1, stage 2 of 4, clicked while turning. Look whether it carries its dot; "
        "do not pull it again. If you cannot see it, record it as doubtful."
    )


def test_a_wrench_that_clicks_at_once_has_moved_nothing(job: Job) -> None:
    for bolt in "1324":
        job.pull(1, bolt)
    job.pull(2, "1", "clicked at once")
    answer = card(job.bench(), "head")
    assert answer.next_pull == 5
    assert answer.pulls[4].state == "clicked at once: not done"


def test_a_second_equal_pass_may_click_at_once(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=SMALL.replace("      - torque: 10 N·m\n", "      - torque: 24 N·m\n"))
    job.read_code()
    for stage, outcome in ((1, "done"), (2, "clicked while turning"), (3, "clicked at once")):
        for bolt in "1324":
            job.pull(stage, bolt, outcome)
    assert card(job.bench(), "head").next_pull == 13


def test_a_pull_out_of_order_is_kept_and_leaves_the_joint_in_doubt(job: Job) -> None:
    for bolt in "1324":
        job.pull(1, bolt)
    done = job.pull(3, "2", "clicked while turning")
    assert done.remarks == (
        "This was not the next pull: bolt 1, stage 2 was. It is kept as it happened; the joint is in doubt "
        "until that pull is recorded or this one is struck.",
    )
    assert card(job.bench(), "head").doubts == ("bolt 2: stage 3 is recorded, stage 2 is not",)
    job.record("strike", entry=done.entry, why="wrong bolt named")
    answer = card(job.bench(), "head")
    assert answer.doubts == ()
    assert answer.next_pull == 5


def test_a_doubtful_pull_stops_the_joint(job: Job) -> None:
    job.pull(1, "1", "doubtful", why="creaked")
    answer = card(job.bench(), "head")
    assert answer.state == "in doubt"
    assert answer.doubts == ("bolt 1, stage 1: creaked",)


def test_an_angle_stopped_midway_is_not_done(job: Job) -> None:
    for stage, outcome in ((1, "done"), (2, "clicked while turning"), (3, "clicked while turning")):
        for bolt in "1324":
            job.pull(stage, bolt, outcome)
    job.pull(4, "1", "stopped at", angle_deg="40")
    answer = card(job.bench(), "head")
    assert answer.next_pull == 13
    assert answer.pulls[12].state == "stopped at 40°: not done"


def test_slackening_starts_the_joint_again(job: Job) -> None:
    job.tighten_all()
    job.record("joint-marked", joint="head", how="paint line")
    assert card(job.bench(), "head").state == "complete and marked"
    job.record("joint-disturbed", joint="head", why="gasket mark forgotten")
    answer = card(job.bench(), "head")
    assert answer.state == "not started"
    assert answer.next_pull == 1


def test_disturbing_the_joint_voids_its_hold_and_what_rests_on_it(job: Job) -> None:
    for hold in ("bolt_holes_dry", "parts_compared", "bolt_holes_dry_again", "gasket_right"):
        job.record("hold-proved", hold=hold, value="4 of 4 seen")
    job.tighten_all()
    job.record("hold-proved", hold="head_bolts_all_stages", value="4 of 4 marks")
    job.record("hold-proved", hold="timing_proved", value="2 turns, marks back")

    def stands(hold: str) -> str:
        bench = job.bench()
        return next(
            one.why_not or "stands" for one in standings(bench.sheet, bench.state) if one.hold.id == hold
        )

    assert stands("timing_proved") == "stands"
    disturbed = job.record("joint-disturbed", joint="head", why="slackened")
    assert stands("head_bolts_all_stages") == "void: its joint was disturbed: slackened"
    assert (
        stands("timing_proved")
        == "void: it rested on a hold that is void (its joint was disturbed: slackened)"
    )
    # Striking the disturbance brings the pulls back, and no hold.
    job.record("strike", entry=disturbed.entry, why="another engine")
    assert card(job.bench(), "head").state.startswith("complete")
    assert stands("head_bolts_all_stages").startswith("void")
    assert stands("timing_proved").startswith("void")
    job.record("hold-proved", hold="head_bolts_all_stages", value="4 of 4 marks")
    assert stands("head_bolts_all_stages") == "stands"
    assert stands("timing_proved").startswith("void")


@pytest.mark.parametrize(
    ("stage", "bolt", "message"),
    [
        (9, "1", "Stage 9 is not in the program of Head nuts. It has stages 1 to 4."),
        (2, "7", "Bolt 7 in stage 2 is not in the program of Head nuts. That stage has bolts 1, 3, 2, 4."),
    ],
)
def test_a_pull_that_the_program_does_not_hold(job: Job, stage: int, bolt: str, message: str) -> None:
    with pytest.raises(NotThisStage) as caught:
        job.pull(stage, bolt)
    assert str(caught.value) == message


def test_unknown_joint(job: Job) -> None:
    with pytest.raises(Unknown) as caught:
        card(job.bench(), "heed")
    assert str(caught.value) == "`heed` is no joint here. Known: head."


def test_the_mark_as_a_clock_hand() -> None:
    assert [clock(angle) for angle in (0, 90, 180, 270, 360, 45, 150)] == [
        "12 o'clock", "3 o'clock", "6 o'clock", "9 o'clock", "12 o'clock", "1:30 o'clock", "5 o'clock",
    ]  # fmt: skip
