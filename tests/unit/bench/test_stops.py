"""After a stop: what was in hand, the screen to go on with, and the look at the last pull before the next one.

Expected places are HAND: the program of the small sheet is run in, 10 N·m, 24 N·m, 90°, in the order 1, 3, 2, 4; a mark
painted at 12 o'clock stands at 3 o'clock after 90° to the right.
"""

from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.bench.acts import pull_fields
from gudgeon.bench.context import open_bench
from gudgeon.bench.now import Now, now
from gudgeon.bench.pull_list import card
from gudgeon.bench.record import Recorded, record
from gudgeon.bench.stops import LONG, NothingToLookAt
from tests.unit.bench.benches import PULL, Job, make_job
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def job(tmp_path: Path) -> Job:
    job = make_job(tmp_path)
    job.read_code()
    for stage, outcome in ((1, "done"), (2, "clicked while turning"), (3, "clicked while turning")):
        for bolt in ("1", "3", "2", "4"):
            job.pull(stage, bolt, outcome)
    job.pull(4, "1", "angle reached")
    return job


def stop(job: Job, **more: str) -> Recorded:
    return job.record("paused", hand="bar on bolt 3", next_action="bolt 3 by 90°", **more)


def look(job: Job, **more: object) -> Recorded:
    return job.record("looked", **{"seen": "stroke at 3 o'clock", "as_recorded": "yes", **more})


WORDS = (
    "Last recorded: bolt 1, stage 4 of 4, angle reached. Look whether its mark stands at 3 o'clock; do not pull it "
    "again. If you cannot see it, record it as doubtful."
)


def test_before_a_stop_the_next_pull_is_offered(job: Job) -> None:
    shown = card(job.bench(), "head")
    assert shown.look is None
    assert [one.bolt for one in shown.pulls if one.state == "next"] == ["3"]


def test_after_a_stop_no_pull_is_the_next_before_the_last_was_looked_at(job: Job) -> None:
    stop(job)
    shown = card(job.bench(), "head")
    assert shown.look is not None
    assert (shown.look.bolt, shown.look.number, shown.look.words) == ("bolt 1", 15, WORDS)
    assert shown.look.why.startswith("you stopped on Sat Mar 07, ")
    assert [one.bolt for one in shown.pulls if "next" in one.state.lower()] == []
    answer = now(job.bench())
    assert answer.look == shown.look
    assert answer.next[0].startswith("Head nuts: first look at bolt 1, because you stopped on ")
    assert answer.next[1] == "Then: gudgeon record looked 15 --seen 'WHAT YOU SAW' --as-recorded yes"
    look(job)
    after = card(job.bench(), "head")
    assert after.look is None
    assert [one.bolt for one in after.pulls if one.state == "next"] == ["3"]
    assert now(job.bench()).stop is None


def test_now_says_what_was_in_the_hand_and_leads_back(job: Job) -> None:
    stop(job)
    answer = now(job.bench())
    assert answer.stop is not None
    assert (answer.stop.hand, answer.stop.next_action) == ("bar on bolt 3", "bolt 3 by 90°")
    assert (answer.stop.screen, answer.stop.command, answer.stop.joint) == (
        "gudgeon tighten head", "gudgeon tighten head", "head",
    )  # fmt: skip


def test_a_stop_on_a_page_keeps_its_address_and_the_terminal_leads_to_the_same_card(job: Job) -> None:
    stop(job, screen="/set/head#next")
    answer = now(job.bench())
    assert answer.stop is not None
    assert (answer.stop.screen, answer.stop.command) == ("/set/head#next", "gudgeon tighten head")


def test_what_is_not_as_recorded_puts_the_joint_in_doubt(job: Job) -> None:
    stop(job)
    look(job, seen="no stroke at all", as_recorded="no")
    shown = card(job.bench(), "head")
    assert shown.look is None
    assert shown.next_pull is None
    assert shown.doubts == (
        "bolt 1, stage 4: looked at after a stop, it is not as recorded: no stroke at all",
    )


def test_a_pull_recorded_all_the_same_is_kept_with_a_remark(job: Job) -> None:
    stop(job)
    done = job.pull(4, "3", "angle reached")
    assert done.remarks[0].startswith("The last pull was not looked at before this one, and you stopped on ")
    assert done.remarks[0].endswith(
        f"It is kept as it happened. {WORDS} Had it been turned already, it is turned twice now."
    )
    assert card(job.bench(), "head").look is None


def test_the_next_pull_said_without_its_place_is_kept_too(job: Job) -> None:
    """A fact is never refused, whoever has not looked."""
    stop(job)
    bench = open_bench(job.book, now=job.now)
    try:
        done = record(bench, "pull", pull_fields(bench, {**PULL, "outcome": "angle-reached"}))
    finally:
        bench.store.close()
    assert "bolt 3, stage 4 of 4" in done.said
    assert done.remarks[0].startswith("The last pull was not looked at")


@pytest.mark.parametrize(("hours", "due"), [(11.9, False), (12.1, True), (500, True)])
def test_a_long_break_is_a_stop_that_nobody_wrote_down(job: Job, hours: float, due: bool) -> None:
    job.now += timedelta(hours=hours)
    shown = card(job.bench(), "head")
    assert (shown.look is not None) == due
    if shown.look is not None:
        assert shown.look.why.startswith("the last pull is of Sat Mar 07, ")
        assert shown.look.why.endswith(", more than 12 hours ago")
        look(job)
        assert card(job.bench(), "head").look is None
        job.now += LONG + timedelta(minutes=1)
        assert card(job.bench(), "head").look is not None, "and after the next night again"


def test_who_looks_reads_the_scale_again(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.read_code()
    for bolt in ("1", "3", "2", "4"):
        job.pull(1, bolt)
    job.pull(2, "1", "clicked while turning", tool="beam", setting="10 N·m")
    stop(job)
    look(job, seen="one dot on bolt 1")
    scale = card(job.bench(), "head").scale
    assert scale is not None
    assert (scale.setting, scale.why) == ("", "there was a pause since")


def test_two_devices_look_and_both_looks_are_in_the_book(job: Job) -> None:
    stop(job)
    bench = open_bench(job.book, now=job.now)
    seen = bench.state.head
    bench.store.close()
    look(job)
    bench = open_bench(job.book, now=job.now)
    try:
        record(bench, "looked", {"entry": "15", "seen": "stroke at 3", "as_recorded": "yes"}, basis=seen)
    finally:
        bench.store.close()
    assert card(job.bench(), "head").look is None
    assert card(job.bench(), "head").doubts == ()


def test_a_look_at_something_else_does_not_end_the_stop(job: Job) -> None:
    stop(job)
    look(job, entry="2", seen="the code on the pad")
    assert card(job.bench(), "head").look is not None


def test_a_look_at_an_older_pull_is_kept_and_asks_for_the_last_one_still(job: Job) -> None:
    stop(job)
    done = look(job, entry="14", seen="a dot there")  # nut 4, stage 3: the pull before the last one
    assert done.said == "looked: entry 14, as it was recorded, a dot there"
    (remark,) = done.remarks
    assert remark.startswith("The last pull, entry 15, is still to be looked at, because you stopped on ")
    assert remark.endswith(f": no next pull is offered before. {WORDS}")
    answer = now(job.bench())
    assert answer.stop is not None
    assert answer.look is not None
    assert answer.look.number == 15
    assert card(job.bench(), "head").look is not None
    assert look(job, entry="15").remarks == ()
    assert (now(job.bench()).stop, card(job.bench(), "head").look) == (None, None)


def test_a_pull_that_was_struck_is_not_the_last_one(job: Job) -> None:
    job.record("strike", entry=job.pull(4, "3", "angle reached").entry, why="not done")
    stop(job)
    look(job, entry="16", seen="no stroke on bolt 3")
    assert card(job.bench(), "head").look is not None
    look(job, entry="15")
    assert card(job.bench(), "head").look is None


def test_the_look_without_an_entry_is_at_the_joint_of_the_stop(tmp_path: Path) -> None:
    joints = SMALL.partition("joints:\n")[2]
    job = make_job(
        tmp_path, sheet=SMALL + joints.replace("  head:", "  cover:").replace("Head nuts", "Cover")
    )
    job.read_code()
    job.pull(1, "1")
    job.now += LONG + timedelta(hours=1)
    pull = job.record("pull", joint="cover", stage=1, bolt="1", outcome="done")
    stop(job)
    done = look(job, seen="it touches")
    assert done.said.startswith("looked: entry 4, ")
    looked = job.bench().state.joints["cover"].looked
    assert looked is not None
    assert looked.entry == pull.entry
    assert job.bench().state.joints["head"].looked is None


MARK = (
    "Head nuts: all 16 pulls are in the book, and it is not marked. Pull nothing again; look at every bolt. Then: "
    "gudgeon record marked head --how MARKS"
)


@pytest.fixture
def pulled(job: Job) -> Job:
    for bolt in ("3", "2", "4"):
        job.pull(4, bolt, "angle reached")
    return job


def test_what_is_next_of_a_joint_that_is_pulled_is_its_mark(pulled: Job) -> None:
    answer = now(pulled.bench())
    assert (answer.next, answer.next_joint, answer.look) == ((MARK,), "head", None)
    pulled.record("joint-marked", joint="head", how="strokes")
    assert now(pulled.bench()).next_joint == ""


def test_a_stop_before_the_mark_leads_back_to_the_joint_and_asks_for_the_look(pulled: Job) -> None:
    """Nobody remembers whether the last nut was turned: a nut that is turned twice is spoiled."""
    stop(pulled)
    words = WORDS.replace("bolt 1,", "bolt 4,")
    answer = now(pulled.bench())
    assert answer.stop is not None
    assert (answer.stop.command, answer.stop.joint) == ("gudgeon tighten head", "head")
    assert answer.next[0].startswith("Head nuts: first look at bolt 4, because you stopped on ")
    assert answer.next[1:] == (
        "Then: gudgeon record looked 18 --seen 'WHAT YOU SAW' --as-recorded yes", MARK,
    )  # fmt: skip
    assert answer.look_first == words
    shown = card(pulled.bench(), "head")
    assert shown.look is not None
    assert (shown.look.number, shown.look_first) == (18, words)
    look(pulled)
    assert card(pulled.bench(), "head").look is None
    assert (now(pulled.bench()).stop, now(pulled.bench()).next) == (None, (MARK,))


def test_a_pull_made_again_after_that_stop_is_told_what_it_may_have_done(pulled: Job) -> None:
    stop(pulled)
    done = pulled.pull(4, "4", "angle reached")
    assert done.remarks[0].startswith("The last pull was not looked at before this one, and you stopped on ")


def answered(job: Job) -> Now:
    """The answer with the book open, as the last entry before a stop is read from it."""
    bench = open_bench(job.book, now=job.now)
    try:
        return now(bench)
    finally:
        bench.store.close()


def test_a_stop_elsewhere_does_not_lead_back_to_a_joint_that_only_lacks_its_mark(pulled: Job) -> None:
    pulled.record("task-started", task="fill_oil")
    stop(pulled)
    answer = answered(pulled)
    assert answer.stop is not None
    assert (answer.stop.command, answer.stop.joint, answer.look) == ("gudgeon now", "", None)


def test_with_nothing_to_look_at_the_entry_has_to_be_named(job: Job) -> None:
    with pytest.raises(NothingToLookAt) as refused:
        look(job)
    assert str(refused.value) == (
        "No pull waits to be looked at, so say which entry was looked at: its number, as in gudgeon book show."
    )


def test_a_stop_at_no_joint_asks_softly_for_the_last_entry(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.read_code()
    job.record("taken-off", group="hose", item="h1", name="Top hose", place="H1", due_before="fire")
    job.record("paused", hand="pliers", next_action="bottom hose")
    answer = answered(job)
    assert answer.stop is not None
    assert answer.stop.command == "gudgeon now"
    assert answer.look is None
    assert answer.look_first == (
        "Last in the book before you stopped: taken off: hose, Top hose, H1. Look whether it is so; if you like, write "
        "it down: gudgeon record looked 3 --seen TEXT --as-recorded yes"
    )


def test_a_joint_that_stands_complete_is_not_asked_about(job: Job) -> None:
    for bolt in ("3", "2", "4"):
        job.pull(4, bolt, "angle reached")
    job.now += timedelta(days=30)
    assert card(job.bench(), "head").look is None


@settings(max_examples=15)
@given(st.lists(st.sampled_from(["stop", "look", "pull", "night"]), max_size=5))
def test_no_pull_is_offered_between_a_stop_and_a_look(
    tmp_path_factory: pytest.TempPathFactory, acts: list[str]
) -> None:
    """Whatever comes after one another: whoever was away is asked to look, and only a look or a pull answers it."""
    job = make_job(tmp_path_factory.mktemp("stops"))
    job.read_code()
    job.pull(1, "1")
    away = False
    for act in acts:
        if act == "stop":
            stop(job)
            away = True
        elif act == "night":
            job.now += LONG + timedelta(hours=1)
            away = True
        elif act == "look" and away:
            look(job, seen="it touches")
            away = False
        elif act == "pull":
            job.pull(1, "1")
            away = False
        shown = card(job.bench(), "head")
        assert (shown.look is not None) == away
        assert any("next" in one.state.lower() for one in shown.pulls) == (not away)
