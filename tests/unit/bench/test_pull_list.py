"""The pull list: expanded from the sheet, resumed from the book."""

from pathlib import Path

import pytest

from gudgeon.bench.errors import AngleRefused, NotThisStage, OutcomeRefused, Unknown
from gudgeon.bench.holds import standings
from gudgeon.bench.marks import clock
from gudgeon.bench.now import now
from gudgeon.bench.pull_list import card, loosening_card
from gudgeon.errors import InputError
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
    assert answer.pulls[4].state == "clicked at once: not done, NEXT"


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
        "This was not the next pull: bolt 1, stage 2 was. It is kept as it happened.",
        "The joint is in doubt: bolt 2: stage 3 is recorded, stage 2 is not. "
        "The sheet gives no rule for a bolt in doubt: ask the manual before going on.",
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
    assert answer.pulls[12].state == "stopped at 40°: not done, NEXT"


def test_slackening_starts_the_joint_again(job: Job) -> None:
    job.tighten_all()
    job.record("joint-marked", joint="head", how="paint line")
    assert card(job.bench(), "head").state == "complete and marked"
    job.record("joint-disturbed", joint="head", why="gasket mark forgotten")
    answer = card(job.bench(), "head")
    assert answer.state == "disturbed (gasket mark forgotten), to begin again"
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
    # What the head hides was said to be open again, so it is looked at again as well.
    for hold in ("bolt_holes_dry_again", "gasket_right", "head_bolts_all_stages"):
        job.record("hold-proved", hold=hold, value="4 of 4 marks")
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


def test_an_outcome_that_the_stage_cannot_have_is_refused(job: Job) -> None:
    for stage, outcome in ((1, "clicked while turning"), (3, "angle reached"), (4, "clicked while turning")):
        with pytest.raises(OutcomeRefused):
            job.pull(stage, "1", outcome)
    with pytest.raises(OutcomeRefused) as caught:
        job.pull(4, "1", "done")
    assert str(caught.value) == (
        "`done` cannot be the outcome of a stage of the kind `turn`. It can be: angle reached, stopped at, doubtful."
    )


@pytest.mark.parametrize("angle", ["-20", "91", "400"])
def test_an_angle_that_the_stage_cannot_have_is_refused(job: Job, angle: str) -> None:
    with pytest.raises(AngleRefused):
        job.pull(4, "1", "stopped at", angle_deg=angle)


def test_a_wrench_set_to_another_figure_leaves_a_doubt(job: Job) -> None:
    for bolt in "1324":
        job.pull(1, bolt)
    job.pull(2, "1", "clicked while turning", tool="three", setting="10.0 N·m")
    assert card(job.bench(), "head").doubts == ()
    done = job.pull(2, "3", "clicked while turning", tool="three", setting="35 N·m")
    assert card(job.bench(), "head").doubts == (
        "bolt 3, stage 2: the wrench was set to 35 N·m, the stage asks for 10 N·m",
    )
    assert done.remarks[0].startswith("The joint is in doubt: bolt 3, stage 2: the wrench was set to 35 N·m")
    with pytest.raises(InputError):
        job.pull(2, "2", "clicked while turning", tool="three", setting="35 mm")
    with pytest.raises(Unknown):
        job.pull(2, "2", "clicked while turning", tool="gauge")


def test_a_figure_that_changed_after_a_pull_leaves_a_doubt_and_shows_what_was_done(job: Job) -> None:
    for bolt in "1324":
        job.pull(1, bolt)
    job.pull(2, "1", "clicked while turning", tool="three", setting="10.0 N·m")
    sheet = job.book.parent / "sheet.yaml"
    written = sheet.read_text(encoding="utf-8")
    sheet.write_text(written.replace("torque: 10 N·m", "torque: 10.0 N·m"), encoding="utf-8")
    assert card(job.bench(), "head").doubts == ()
    sheet.write_text(written.replace("torque: 10 N·m", "torque: 16 N·m"), encoding="utf-8")
    answer = card(job.bench(), "head")
    assert answer.doubts[0] == "bolt 1, stage 2: it was done to 10 N·m, the sheet now says 16 N·m"
    assert answer.pulls[4].action == "torque to 10 N·m"
    assert answer.pulls[5].action == "torque to 16 N·m"


def test_the_mark_as_a_clock_hand() -> None:
    assert [clock(angle) for angle in (0, 90, 180, 270, 360, 45, 150)] == [
        "12 o'clock", "3 o'clock", "6 o'clock", "9 o'clock", "12 o'clock", "1:30 o'clock", "5 o'clock",
    ]  # fmt: skip


def test_the_first_bolt_let_go_says_what_it_undoes(tmp_path: Path) -> None:
    """One entry typed by mistake takes the tightening away: said at once, and in every answer until it is whole."""
    loosening = "    loosening_cold: yes\n    loosening:\n      - loosen: 90°\n      - loosen: fully\n"
    job = make_job(tmp_path, sheet=SMALL.replace("    program:\n", f"{loosening}    program:\n", 1))
    job.read_code()
    job.tighten_all()
    done = job.record("bolt-loosened", joint="head", stage=1, bolt="4", outcome="done")
    assert done.remarks == (
        "This begins to take the joint apart: its 16 pulls no longer count. If that was not meant, strike this entry, "
        "and they count again.",
        "Only with the engine cold, says the sheet: is it?",
        "1 of 8 steps of loosening are done. The joint is not tight.",
    )
    bench = job.bench()
    assert card(bench, "head").state == "being taken apart, 1 of 8 steps done"
    assert now(bench).next[0].endswith("being taken apart, 1 of 8 steps done. Not tight")
    job.record("strike", entry=done.entry, why="typed by mistake")
    assert card(job.bench(), "head").state == "complete, not marked"


def test_half_a_turn_back_is_done_before_the_bolt_is_loose(tmp_path: Path) -> None:
    loosening = "    loosening:\n      - loosen: 180°\n      - loosen: fully\n"
    job = make_job(tmp_path, sheet=SMALL.replace("    program:\n", f"{loosening}    program:\n", 1))
    job.read_code()
    pulls = loosening_card(job.bench(), "head").pulls
    assert (pulls[0].done_when, pulls[-1].done_when) == ("it has turned back so far", "it is loose")
