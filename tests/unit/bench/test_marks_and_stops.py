"""Marks on the heads, joints left provisional by their program, programs for used bolts, and taking apart."""

from pathlib import Path

import pytest

from gudgeon.bench.acts import loosened_fields
from gudgeon.bench.always import always
from gudgeon.bench.context import open_bench
from gudgeon.bench.errors import NoLoosening, NotThisStage
from gudgeon.bench.marks import flats
from gudgeon.bench.now import now
from gudgeon.bench.open_lists import open_lists
from gudgeon.bench.pattern import pattern
from gudgeon.bench.pull_list import card, loosening_card
from gudgeon.bench.ready import ready
from gudgeon.bench.record import record
from gudgeon.paper.card import card_data
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

PROGRAM = SMALL[SMALL.index("    program:") : SMALL.index("    source: manual p. 9")]


def job_of(folder: Path, program: str, *, head: str = "", more: str = "") -> Job:
    text = SMALL.replace(PROGRAM, f"    program:\n{program}{more}")
    if head:
        text = text.replace("thread: M8x1.25,", f"thread: M8x1.25, head: {head},")
    made = make_job(folder, sheet=text)
    made.read_code()
    return made


def test_the_line_is_painted_between_the_last_torque_and_the_first_turn(tmp_path: Path) -> None:
    stages = "      - torque: 30 N·m\n      - loosen: fully\n      - torque: 10 N·m\n      - turn: 90°\n      - turn: 60°\n"
    answer = card(job_of(tmp_path, stages, more="    viewed_from: above\n").bench(), "head")
    (line,) = answer.datums
    assert (line.after_stage, line.before_stage) == (3, 4)
    assert line.words == (
        "After stage 3 and before stage 4 whoever turns them paints one line across each of the 4 heads and the "
        "casting beside it, at 12 o'clock: up in the drawing, seen from above. Every later turn is told from that line."
    )


def test_two_bolts_that_alone_are_turned_get_the_line_alone(tmp_path: Path) -> None:
    more = "    twelve_oclock: toward the flywheel\n    viewed_from: below\n"
    stages = "      - torque: 30 N·m\n      - turn: 90°\n        only: [2, 3]\n"
    (line,) = card(job_of(tmp_path, stages, more=more).bench(), "head").datums
    assert "across the heads of bolts 3, 2 and the casting" in line.words
    assert "toward the flywheel, seen from below" in line.words


def test_every_pull_leaves_its_mark(tmp_path: Path) -> None:
    stages = "      - torque: 30 N·m\n        repeat: 2\n      - turn: 90°\n      - verify: 25 N·m\n      - loosen: fully\n      - torque: 10 N·m\n"
    answer = card(job_of(tmp_path, stages).bench(), "head")
    assert [one.leaves for one in answer.pulls if one.bolt == "1"] == [
        "a dot on its head", "dot 2 on its head", "a stroke across its line", "a ring round its dots",
        "no dot and no line", "a dot on its head",
    ]  # fmt: skip


def test_every_pass_says_which_it_is_and_leaves_its_tick(tmp_path: Path) -> None:
    stages = "      - draw down: 180°\n        repeat: 4\n      - torque: 10 N·m\n"
    job = job_of(tmp_path, stages)
    answer = card(job.bench(), "head")
    rows = [one for one in answer.pulls if one.bolt == "1" and one.stage == 1]
    assert [one.action.rsplit(", ", 1)[1] for one in rows] == [
        f"pass {number} of 4" for number in (1, 2, 3, 4)
    ]
    assert [one.leaves for one in rows] == [
        "a chalk tick on its head", "chalk tick 2 on its head", "chalk tick 3 on its head", "chalk tick 4 on its head",
    ]  # fmt: skip
    assert len({(one.bolt, one.action) for one in answer.pulls}) == len(answer.pulls)
    grid = card_data(answer)["grids"][0]
    assert [head["pass"] for head in grid["heads"]] == [
        *(f"pass {number} of 4" for number in (1, 2, 3, 4)),
        "",
    ]
    assert [cell["state"] for cell in grid["cells"][0]] == ["open"] * 5
    assert card_data(answer)["stages"][0]["leaves"] == "a chalk tick on its head, and one more with each pass"
    for number in (1, 2):
        job.pull(1, "1", round=number)
    assert "Look whether it carries its 2 chalk ticks" in card(job.bench(), "head").look_first


def test_flats_only_where_the_head_shows_them(tmp_path: Path) -> None:
    stages = "      - torque: 10 N·m\n      - turn: 90°\n      - turn: 60°\n"
    for head, told in (
        ("hexagon 13 mm", ["1½ flats", "1 flat, 2½ flats since the line"]),
        ("six-lobe socket", ["", ""]),
    ):
        folder = tmp_path / head[:3]
        folder.mkdir()
        answer = card(job_of(folder, stages, head=head).bench(), "head")
        assert [one.flats for one in answer.pulls if one.bolt == "1" and one.stage > 1] == told


def test_flats_of_sixty_degrees() -> None:
    # HAND: 60° a flat: 30° ½, 180° 3, 75° 1.25
    assert [flats(one) for one in (30, 60, 90, 180, 75)] == [
        "½ flat",
        "1 flat",
        "1½ flats",
        "3 flats",
        "1.25 flats",
    ]


STOP = "      - torque: 10 N·m\n        provisional: until the timing is proved\n      - torque: 24 N·m\n"


def test_a_joint_is_left_provisional_by_its_program_and_finished_later(tmp_path: Path) -> None:
    job = job_of(tmp_path, STOP)
    for bolt in "132":
        job.pull(1, bolt, "clicked while turning")
    assert open_lists(job.bench()).lists[0].items == ()
    job.pull(1, "4", "clicked while turning")
    answer = card(job.bench(), "head")
    assert answer.state == "snug, 4 of 8 pulls done, provisional"
    assert answer.provisional == "Stop after stage 1: the joint stays provisional until the timing is proved."
    assert answer.next_words == "left provisional until the timing is proved; when that is done: stage 2"
    assert (answer.next_pull, answer.go_on_when) == (5, "the timing is proved")
    assert "next" not in {one.state for one in answer.pulls}
    assert "next" not in {one.state for one in pattern(job.bench(), "head").spots}
    data = card_data(answer)
    assert data["next"][0] == "Left provisional until the timing is proved; when that is done: stage 2"
    assert not any(cell["next"] for row in data["grids"][0]["cells"] for cell in row)
    (item,) = open_lists(job.bench()).lists[0].items
    assert (item.name, item.why, item.due, item.pull) == (
        "Head nuts", "left at stage 1 of 2, 10 N·m", "crank: until the timing is proved", "head",
    )  # fmt: skip
    assert always(job.bench()).counts["provisional"] == 1
    assert now(job.bench()).next_joint == ""
    (reason,) = [one for one in ready(job.bench(), milestone="crank").reasons if one.what == "Head nuts"]
    assert reason.family == "provisional"
    remark = job.pull(2, "1", "clicked while turning").remarks[0]
    assert remark == (
        "After stage 1 the joint was left provisional until the timing is proved, and this is the first pull after it. "
        "If it is not so that the timing is proved, go no further and strike this entry."
    )
    assert card(job.bench(), "head").next_words == ""
    for bolt in "324":
        assert job.pull(2, bolt, "clicked while turning").remarks == ()
    assert open_lists(job.bench()).lists[0].items == ()
    assert card(job.bench(), "head").state == "complete, not marked"


def test_a_joint_half_finished_after_its_stop_is_offered_again(tmp_path: Path) -> None:
    job = job_of(tmp_path, STOP)
    for bolt in "1324":
        job.pull(1, bolt, "clicked while turning")
    job.pull(2, "1", "clicked while turning")
    assert card(job.bench(), "head").provisional == ""
    assert now(job.bench()).next_joint == "head"
    assert always(job.bench()).counts["provisional"] == 1


USED = "      - torque: 10 N·m\n      - turn: 90°\n        for_bolts: new\n      - turn: 60°\n        for_bolts: used\n"


def test_the_pulls_in_the_book_say_whether_the_bolts_are_new(tmp_path: Path) -> None:
    job = job_of(tmp_path, USED)
    assert card(job.bench(), "head").bolts_are == "new"
    assert card(job.bench(), "head", bolts_are="used").pulls[-1].turned_after == "60°"
    for bolt in "1324":
        job.pull(1, bolt, "clicked while turning")
    job.pull(3, "1", "angle reached")
    answer = card(job.bench(), "head")
    assert (answer.bolts_are, answer.doubts, answer.next_pull) == ("used", (), 6)


LOOSENING = "    loosening:\n      - loosen: 90°\n      - loosen: fully\n    loosening_cold: yes\n"


def loosen(job: Job, **said: object) -> None:
    blank = dict.fromkeys(("bolt", "stage", "round", "tool"))
    bench = open_bench(job.book, now=job.now)
    try:
        fields = loosened_fields(bench, {**blank, "joint": "head", "outcome": "done", "why": "", **said})
        record(bench, "bolt-loosened", fields)
    finally:
        bench.store.close()


def test_taken_apart_by_its_own_list(tmp_path: Path) -> None:
    job = job_of(tmp_path, "      - torque: 10 N·m\n", more=LOOSENING)
    answer = loosening_card(job.bench(), "head")
    assert answer.cautions[0].startswith("Loosen it with the engine cold")
    assert [(one.stage, one.bolt) for one in answer.pulls] == [
        (stage, bolt) for stage in (1, 2) for bolt in "4231"
    ]
    assert answer.pulls[0].tool == "breaker bar"
    loosen(job)
    loosen(job)
    answer = loosening_card(job.bench(), "head")
    assert (answer.state, answer.next_pull) == ("to be loosened: 2 of 8 steps done, cold only", 3)
    for _ in range(6):
        loosen(job)
    assert loosening_card(job.bench(), "head").state == "loosened, cold only"


def test_loosening_ends_what_was_tightened_and_voids_what_rests_on_it(tmp_path: Path) -> None:
    job = job_of(tmp_path, "      - torque: 10 N·m\n", more=LOOSENING)
    for bolt in "1324":
        job.pull(1, bolt, "clicked while turning")
    job.record("joint-marked", joint="head", how="paint")
    loosen(job)
    assert card(job.bench(), "head").state == "being taken apart, 1 of 8 steps done"
    entry = job.bench().state.joints["head"].loosened[(1, 1, "4")].entry
    job.record("strike", entry=entry, why="another engine")
    # The pulls come back, the mark does not.
    assert card(job.bench(), "head").state == "complete, not marked"


def test_tightening_begins_after_the_teardown(tmp_path: Path) -> None:
    job = job_of(tmp_path, "      - torque: 10 N·m\n", more=LOOSENING)
    loosen(job)
    job.pull(1, "1", "clicked while turning")
    assert loosening_card(job.bench(), "head").state == "to be loosened: 0 of 8 steps done, cold only"


def test_a_joint_without_a_loosening_program_says_so(tmp_path: Path) -> None:
    job = job_of(tmp_path, "      - torque: 10 N·m\n")
    with pytest.raises(NoLoosening) as caught:
        loosening_card(job.bench(), "head")
    assert str(caught.value) == (
        "The sheet states no loosening program for Head nuts. If the manual gives one, write it: "
        "`loosening:` with lines like `- loosen: 90°`."
    )
    with pytest.raises(NotThisStage):
        job.record("bolt-loosened", joint="head", stage=1, bolt="1", outcome="done")
