"""From the book to works: what is done is out, what is in hand is partly left, what runs holds up what waits for it."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from gudgeon.bench.planning.lay import Job as Rest
from gudgeon.bench.planning.lay import aimed_at, job_left
from gudgeon.bench.planning.mishaps import setbacks
from tests.unit.bench.benches import Job
from tests.unit.bench.planning.planned import HOURS, opened, planned_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return planned_job(tmp_path)


def rest(job: Job) -> Rest:
    with opened(job) as bench:
        found = job_left(bench, days=120)
    assert found is not None
    return found


def test_a_new_job_has_every_task_that_is_not_done(job: Job) -> None:
    """HAND: the code was read, so its task is done and no other; the sheet gives the rear cover a cure of its own."""
    found = rest(job)
    tasks = set(found.network.tasks)
    assert {one.key for one in found.left.works} == tasks - {"read_code"} | {"cure: rear_cover"}
    assert (found.goal, found.aim) == ("first_start", "the first start")
    works = found.works
    assert works["agree_scope"].after == ()
    assert (works["measure_head"].minutes, works["tighten_head"].in_one_go) == (35, True)
    assert works["tighten_head"].not_late
    assert works["lower_head"].two_people
    assert (works["shop_works"].minutes, works["shop_works"].wait) == (0, 2880)


def test_a_cure_of_the_sheet_runs_by_itself_until_all_cures_are_looked_at(job: Job) -> None:
    """PRINTED in the invented sheet: the rear cover cures for 24 h; its carrier is fitted in the task of the seal."""
    works = rest(job).works
    cure = works["cure: rear_cover"]
    assert (cure.minutes, cure.wait, cure.after) == (0, 1440, ("fit_seals",))
    assert "cure: rear_cover" in works["check_cures"].after


def test_a_bead_that_was_laid_has_the_clock_of_the_book(job: Job) -> None:
    """HAND: laid at 10:02 and never closed: the wait has no end yet and holds up nothing by the clock."""
    job.record("sealant-laid", sealant="rear_cover", joint="rear_cover")
    assert "cure: rear_cover" not in rest(job).works


def test_minutes_of_his_own_are_taken_as_they_are_with_their_span(job: Job) -> None:
    job.record("task-done", task="clean_deck", minutes=120)
    job.record("task-minutes", task="clean_head", low=100, minutes=200, high=400)
    found = rest(job)
    assert found.works["clean_head"].minutes == 200
    assert found.left.spreads["clean_head"].minutes == (100, 200, 400)


def test_other_minutes_follow_what_was_really_taken(job: Job) -> None:
    """HAND: 120 min for 60: 2^(1/5) = 1.1487; 150 min of the head: 172; spread 0.7 to 1.8 times. Other kinds the same."""
    job.record("task-done", task="clean_deck", minutes=120)
    found = rest(job)
    assert found.works["clean_head"].minutes == 172
    assert found.left.spreads["clean_head"].minutes == pytest.approx((120.4, 172, 309.6))
    assert found.works["strip_head"].minutes == round(120 * 2**0.2)


def test_the_pace_of_the_kit_multiplies_all_minutes(tmp_path: Path) -> None:
    found = rest(planned_job(tmp_path, hours=HOURS + "  pace: 1.5\n"))
    assert found.works["clean_head"].minutes == 225


def test_a_task_in_hand_is_planned_whole_as_nobody_knows_how_much_is_left(job: Job) -> None:
    job.record("task-started", task="clean_head")
    found = rest(job)
    assert (found.works["clean_head"].minutes, found.works["clean_head"].begun) == (150, True)
    assert found.left.shares == {}


def test_of_a_joint_what_was_not_pulled_is_left(job: Job) -> None:
    """HAND: of 50 pulls of the head's program 5 are done: nine tenths of 45 min are 40.5, to the even number 40."""
    for bolt in ("5", "6", "8", "7", "3"):
        job.record(
            "pull",
            joint="head",
            stage=1,
            bolt=bolt,
            outcome="clicked while turning",
            tool="click_100",
            setting="35.0 N·m",
        )
    found = rest(job)
    assert found.left.shares["tighten_head"] == pytest.approx(0.9)
    assert found.works["tighten_head"].minutes == 40


def test_a_wait_of_the_job_holds_up_what_comes_after(job: Job) -> None:
    """HAND: done on Saturday at 10:03, the engine cools for 480 min until 18:03; the plan starts at 10:15."""
    job.record("task-done", task="secure_it")
    job.record("task-done", task="let_it_cool")
    found = rest(job)
    assert found.clock.start == datetime(2026, 3, 7, 10, 15, tzinfo=UTC)
    assert found.works["measure_cold"].not_before == 468
    assert found.left.held["measure_cold"] == "the engine cooling down"


def test_a_wait_of_the_book_holds_up_its_task_and_the_look_at_all_of_them(job: Job) -> None:
    """HAND: 600 min from 10:02 on end at 20:02, 587 min after the start of the plan."""
    job.record("timer-started", timer="drain", name="Oil draining", minutes=600, task="run_bolts_in")
    works = rest(job).works
    assert works["run_bolts_in"].not_before == works["check_cures"].not_before == 587


def test_what_is_at_the_shop_waits_for_nothing_but_the_shop(job: Job) -> None:
    """HAND: planned for March 17 at 17:00, ten days, 6 h and 45 min after the start of the plan: 14,805 min."""
    job.record("shop-out", part="Cylinder head", shop="Shop", ordered="resurface it")
    job.record("promised", what="Cylinder head", of="shop", on="2026-03-17")
    found = rest(job)
    works = found.works
    assert [works[key].wait for key in ("shop_tests", "shop_works")] == [0, 0]
    assert works["shop_works"].not_before == 14_805
    assert found.left.spreads["shop_works"].not_before == (14_805.0, 14_805.0, 14_805.0 + 3 * 1440)
    assert "head_to_shop" not in works


def test_what_is_ordered_part_by_part_says_more_than_a_guess_of_all(job: Job) -> None:
    job.record("task-done", task="order_sure_parts")
    assert rest(job).works["compare_parts"].not_before == 2880 - 13
    job.record("part-ordered", part="Head gasket", supplier="Parts by mail", expected="2026-03-08")
    assert rest(job).works["compare_parts"].not_before == 24 * 60 + 6 * 60 + 45


def test_a_task_of_his_own_is_planned_and_one_that_was_dropped_is_not(job: Job) -> None:
    job.record(
        "task-added",
        title="Paint the valve cover",
        after=["strip_head"],
        before=["valve_cover_on"],
        minutes=55,
    )
    job.record("task-dropped", task="flush_radiator", why="a new one goes in")
    works = rest(job).works
    assert (works["paint_the_valve_cover"].minutes, works["paint_the_valve_cover"].after) == (
        55,
        ("strip_head",),
    )
    assert "flush_radiator" not in works


def test_after_the_first_start_the_next_milestone_is_aimed_at(job: Job) -> None:
    with opened(job) as bench:
        network = rest(job).network
        network.own["first_start"] = replace(network.own["first_start"], status="done")
        found = aimed_at(network)
    assert bench.build == "mine"
    assert found is not None
    assert found.key == "short_run"


def test_what_is_behind_can_show_nothing_any_more(job: Job) -> None:
    """PRINTED in setbacks.toml: a stud of the exhaust shows as the exhaust comes off, with a chance of a quarter."""
    before = {one.key: one for one in setbacks(rest(job))}
    stud = before["broken_stud 0"]
    assert (stud.after, stud.before, stud.chance, stud.minutes) == (
        ("exhaust_off",),
        ("exhaust_on",),
        0.25,
        120,
    )
    assert before["interrupted"].before == ("first_start",)
    job.record("task-done", task="exhaust_off")
    after = {one.key for one in setbacks(rest(job))}
    assert set(before) - after == {"broken_stud 0"}


def test_of_several_tasks_that_may_show_it_each_has_its_share(job: Job) -> None:
    """HAND: a head beyond use, 0.12 over three tasks: 0.04 each."""
    found = [one for one in setbacks(rest(job)) if one.key.startswith("head_beyond_use")]
    assert [one.after for one in found] == [("measure_head",), ("look_for_cracks",), ("shop_tests",)]
    assert [one.chance for one in found] == pytest.approx([0.04] * 3)
