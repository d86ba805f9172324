"""“When will it run?” on the invented engine: the date, what leads to it, what to do next, and why there is none."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import open_bench
from gudgeon.bench.network import tasks_of
from gudgeon.bench.planning.answer import Gap, PlanAnswer
from gudgeon.bench.planning.arrivals import arrivals
from gudgeon.bench.planning.question import known_answer, plan_answer
from gudgeon.bench.planning.words import days_words, hours_words, moment_words, span_words
from gudgeon.bench.ready import ready
from gudgeon.bench.standing import Network
from tests.unit.bench.benches import Job
from tests.unit.bench.planning.planned import HOURS, asked, opened, planned_job

SATURDAY = datetime(2026, 3, 14, 14, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def new(tmp_path_factory: pytest.TempPathFactory) -> PlanAnswer:
    """A job of which nothing but the engine code is known."""
    return asked(planned_job(tmp_path_factory.mktemp("new")))


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> PlanAnswer:
    """The invented job as it stands, simulated."""
    folder = tmp_path_factory.mktemp("demo")
    bench = open_bench(open_demo(folder, now=SATURDAY).book, now=SATURDAY)
    try:
        return plan_answer(bench, quick=True)
    finally:
        bench.store.close()


def works(answer: PlanAnswer) -> Iterator[tuple[datetime, datetime, str]]:
    """Every stretch of work, in order."""
    for slot in answer.slots:
        for one in slot.tasks:
            yield one.begins, one.ends, one.task


def test_a_new_job_is_dated_with_every_minute_in_a_slot(new: PlanAnswer) -> None:
    assert new.dated
    assert new.cannot == ()
    assert new.goal == "the first start"
    minutes: dict[str, int] = {}
    for begins, ends, task in works(new):
        minutes[task] = minutes.get(task, 0) + round((ends - begins) / timedelta(minutes=1))
    assert minutes == {one.task: one.minutes for one in new.bars if one.minutes}
    assert new.hands == hours_words(sum(minutes.values()))


def test_nobody_does_two_things_at_once_or_works_outside_his_hours(new: PlanAnswer) -> None:
    found = list(works(new))
    assert all(one[1] <= other[0] for one, other in pairwise(found))
    for begins, ends, _ in found:
        hours = {1: [(19, 21)], 3: [(19, 21)], 5: [(10, 13), (14, 17)], 6: [(10, 13)]}[begins.weekday()]
        day = begins.replace(hour=0, minute=0)
        assert any(
            day + timedelta(hours=first) <= begins and ends <= day + timedelta(hours=last)
            for first, last in hours
        )


def test_what_takes_two_is_done_on_saturdays_and_torque_before_it_is_late(new: PlanAnswer) -> None:
    two = [one for slot in new.slots for one in slot.tasks if one.two_people]
    assert len(two) >= 6
    assert {one.begins.weekday() for one in two} == {5}
    head = [one for slot in new.slots for one in slot.tasks if one.task == "tighten_head"]
    assert [one.minutes for one in head] == [45]
    assert not any(one.late for one in head)
    assert all((one.ends.hour, one.ends.minute) <= (20, 30) for one in head)


def test_the_first_start_is_the_end_of_its_task(new: PlanAnswer) -> None:
    (last,) = [one for one in works(new) if one[2] == "first_start"]
    assert new.first_start == last[1]
    assert new.first_start_words in new.said
    assert new.finish is not None and new.finish > last[1]


def test_the_chain_leads_without_a_gap_from_the_start_to_the_date(new: PlanAnswer) -> None:
    assert new.drives[0].begins == new.slots[0].begins
    assert new.drives[-1].ends == new.first_start
    assert all(one.ends == other.begins for one, other in pairwise(new.drives))
    whole = (new.drives[-1].ends - new.drives[0].begins) / timedelta(days=1)
    assert sum(one.days for one in new.shares) == pytest.approx(whole)
    assert sum(one.percent for one in new.shares) == pytest.approx(100)
    assert "shop" in {one.kind for one in new.drives}


def test_while_the_head_is_away_something_is_done(new: PlanAnswer) -> None:
    (away,) = [one for one in new.meanwhile if one.what.startswith("Head at the machine shop")]
    assert away.ends - away.begins == timedelta(days=3)  # PRINTED in the job: a day of tests, two of work
    assert away.minutes == sum(one.minutes for one in away.tasks) > 0
    assert "check_head" not in {one.task for one in away.tasks}


def test_what_to_find_out_first_is_what_can_wait_least_before_the_head_leaves(new: PlanAnswer) -> None:
    (first,) = new.first
    assert first.part == "head"
    assert first.days_earlier >= 0
    assert 0 < len(first.tasks) == len(first.slack) <= 8
    (leaves,) = [one for one in works(new) if one[2] == "head_to_shop"][-1:]
    assert first.leaves == leaves[1]
    assert all(one.planned for one in first.tasks)


def test_bars_hold_work_and_what_runs_or_is_away(new: PlanAnswer) -> None:
    bars = {one.task: one for one in new.bars}
    assert [span.kind for span in bars["let_it_cool"].spans] == ["work", "wait"]
    assert [span.kind for span in bars["shop_works"].spans] == ["shop"]
    assert [span.kind for span in bars["order_rest"].spans][-1] == "delivery"
    assert bars["read_code"].state == "done"
    assert bars["first_start"].drives
    assert sum(one.tasks for one in new.phases) == len(new.bars)
    assert [one.kind for one in new.marks] == ["today", "start planned"]


def test_the_same_book_says_the_same_within_a_quarter_of_an_hour_and_the_next_day_is_another(
    tmp_path: Path,
) -> None:
    job = planned_job(tmp_path)
    first = asked(job)
    job.now += timedelta(minutes=3)
    second = asked(job)
    same = [one for one in second.marks if one.kind != "today"]
    assert replace(second, heading=first.heading, marks=()) == replace(first, marks=())
    assert same == [one for one in first.marks if one.kind != "today"]
    assert second.heading.asked != first.heading.asked
    job.now += timedelta(days=1)
    assert asked(job).seed != first.seed


def test_what_was_worked_out_lately_is_known_until_the_book_says_more(tmp_path: Path) -> None:
    job = planned_job(tmp_path)
    asked(job)
    with opened(job) as bench:
        assert known_answer(bench, quick=True) is None  # without a distribution it is only half of it
    whole = asked(job, simulate=True)
    with opened(job) as bench:
        known = known_answer(bench, quick=True)
    assert known is not None
    assert known.distribution == whole.distribution
    job.record("note", text="something else")
    with opened(job) as bench:
        assert known_answer(bench, quick=True) is None


def test_the_date_is_a_distribution(demo: PlanAnswer) -> None:
    spread = demo.distribution
    assert spread is not None
    assert spread.trials == 2000
    assert spread.early is not None and spread.middle is not None and spread.late is not None
    assert spread.early <= spread.middle <= spread.late
    assert [one.up_to for one in spread.weeks] == sorted(one.up_to for one in spread.weeks)
    assert spread.weeks[-1].up_to == pytest.approx(100 - spread.beyond)
    assert sum(one.percent for one in spread.weeks) == pytest.approx(spread.weeks[-1].up_to)
    assert all(
        one.begins.weekday() == 0 and one.ends - one.begins == timedelta(days=6) for one in spread.weeks
    )
    assert demo.first_start is not None
    (planned,) = [one for one in spread.chances if one.why == "as planned"]
    assert planned.by == demo.first_start.date()
    assert [one.kind for one in demo.marks][-1] == "start likely"


def test_mishaps_come_as_often_as_their_chance(demo: PlanAnswer) -> None:
    """HAND: of 2,000 trials a share p is off by less than 5 · √(p (1 − p) / 2000), 5.6 % at most."""
    assert demo.distribution is not None
    for one in demo.distribution.setbacks:
        chance = one.percent / 100
        assert abs(one.came / 100 - chance) < 5 * (chance * (1 - chance) / 2000) ** 0.5 + 0.01


def test_the_invented_job_goes_on_where_the_phone_rang(demo: PlanAnswer) -> None:
    """HAND: of 50 pulls 25 are done: half of 45 min are 22.5, to the even number 22."""
    head = next(one for one in demo.running if one.task == "tighten_head")
    assert (head.left, head.words) == (22, "Cylinder head bolts: 25 of 50 pulls done; about 22 min left")
    assert demo.next_slot is not None
    assert demo.next_slot.begins == SATURDAY
    assert {"tighten_head", "fit_seals"} <= {one.task for one in demo.next_slot.tasks}
    assert "torque wrench" in demo.next_slot.needs
    assert any(one.kind == "timer" and one.about == "Rear cover sealant, cure" for one in demo.marks)
    assert not any(one.task == "head_to_shop" for one in demo.bars if one.state != "done")
    assert demo.first == ()


NO_HOURS = (
    (
        "hours:\n",
        Gap(
            "The kit says nothing of your hours.",
            "Write them into the kit, under hours: the week with its days, like Tuesday: 19:00-21:00, and under "
            "second_person the week of somebody who can help.",
        ),
    ),
    (
        "hours:\n  evenings: two a week\n  weekend: Saturday\n",
        Gap(
            "The kit says “two a week” and “Saturday” of your hours, and words cannot be planned with.",
            "Write them into the kit, under hours: the week with its days, like Tuesday: 19:00-21:00, and under "
            "second_person the week of somebody who can help.",
        ),
    ),
    (
        HOURS.split("  second_person")[0],
        Gap(
            "“Lock the flywheel and slacken the crank pulley bolt; timing pins never take that load” takes two people, "
            "and the kit says of nobody when they can help.",
            "Write into the kit, under hours and second_person, the week of somebody who can help.",
        ),
    ),
    (
        HOURS.replace("week: {Saturday: 10:00-17:00}", "week: {Monday: 10:00-17:00}"),
        Gap(
            "“Lock the flywheel and slacken the crank pulley bolt; timing pins never take that load” takes two people, "
            "and the second person is never there while you are.",
            "Find hours in which both of you are there; a single day can be planned otherwise.",
        ),
    ),
    (
        "hours:\n  week: {Tuesday: 19:00-19:30, Saturday: 10:00-10:30}\n  second_person: {week: {Saturday: 10:00-11:00}}\n",
        Gap(
            "“Run it cold and hot: noise, smoke, leaks, oil pressure on a gauge” is done in one go and takes 35 min; "
            "the longest hours of yours are 30 min.",
            "Keep one longer time free; a single day can be planned otherwise.",
        ),
    ),
    (
        "hours:\n  week: {Saturday: 10:00-11:00}\n  second_person: {week: {Saturday: 10:00-11:00}}\n"
        "  days_off: [2026-03-14 to 2027-03-01, 2027-03-02 to 2028-02-20]\n",
        None,
    ),
)


@pytest.mark.parametrize(("hours", "gap"), NO_HOURS, ids=range(len(NO_HOURS)))
def test_without_the_hours_that_it_takes_there_is_no_date_and_what_is_missing_is_said(
    tmp_path: Path, hours: str, gap: Gap | None
) -> None:
    found = asked(planned_job(tmp_path, hours=hours))
    assert (found.dated, found.first_start, found.slots) == (False, None, ())
    (one,) = found.cannot
    if gap is None:
        assert one.what.startswith("Your own hours do not suffice: they are ")
        assert one.what.endswith(" finds no place.")
        assert "within the 730 days that are planned ahead" in one.what
    else:
        assert one == gap
    assert found.said == f"There is no date for the first start: {one.what[0].lower()}{one.what[1:]}"
    assert found.next_tasks[0].title == "Hear what happened, and agree how far the job may go"
    assert found.hands.endswith("min")
    assert "of hands and" in found.longest


def test_a_late_promise_is_said_and_moves_the_plan(tmp_path: Path) -> None:
    job: Job = planned_job(tmp_path)
    job.record("shop-out", part="Cylinder head", shop="Shop", ordered="resurface it")
    job.record("promised", what="Cylinder head", of="shop", on="2026-03-10")
    before = asked(job)
    job.now = datetime(2026, 3, 20, 12, 0, tzinfo=UTC)
    after = asked(job)
    assert before.late == ()
    assert [one.what for one in after.late] == ["Cylinder head"]
    (check,) = [one for one in after.bars if one.task == "check_head"]
    assert check.spans[0].begins.date() >= date(2026, 3, 21)
    (mark,) = [one for one in after.marks if one.kind == "promise"]
    assert mark.late


def test_torque_that_only_late_hours_can_hold_is_said(tmp_path: Path) -> None:
    hours = (
        "hours:\n  week: {Saturday: 20:00-23:00, Sunday: 20:00-23:00}\n  second_person: {week: {Saturday: 20:00-23:00}}\n"
        "  late: 20:05\n"
    )
    found = asked(planned_job(tmp_path, hours=hours))
    assert found.dated
    (slot,) = [slot for slot in found.slots if any(one.task == "tighten_head" for one in slot.tasks)]
    assert slot.late.startswith("“")
    assert "Tighten the head bolts" in slot.late
    assert "after 20:05" in slot.late
    assert any("late hours" in one for one in found.remarks)


def test_a_job_that_is_done_has_nothing_left_to_plan(tmp_path: Path) -> None:
    job = planned_job(tmp_path)
    bench = job.bench()
    for task in tasks_of(bench.sheet, bench.state):
        if task.key != "read_code":
            job.record("task-done", task=task.key)
    found = asked(job)
    assert (found.dated, found.cannot, found.slots) == (False, (), ())
    assert found.said == "Every task of the job is done: nothing is left to plan."


def test_words_of_moments_and_lengths() -> None:
    """HAND."""
    noon = datetime(2026, 12, 31, 12, 0).astimezone()
    assert moment_words(noon, now=noon) == "Thu Dec 31, 12:00"
    assert moment_words(noon + timedelta(days=1), now=noon) == "Fri Jan 01, 2027, 12:00"
    assert span_words(noon, ends=noon + timedelta(hours=2), now=noon) == "Thu Dec 31, 12:00 to 14:00"
    assert [hours_words(one) for one in (45, 60, 125)] == ["45 min", "1 h", "2 h 5 min"]
    assert [days_words(one) for one in (0.01, 0.5, 1.9, 2.0, 3.25, 12.4)] == [
        "14 min", "12 h", "46 h", "2 days", "3.2 days", "12 days",
    ]  # fmt: skip


def test_what_is_left_out_is_named_with_why_and_its_part_is_given_to_no_other_task(tmp_path: Path) -> None:
    job = planned_job(tmp_path)
    job.record("task-dropped", task="auxiliary_drive_on", why="sold the belt")
    job.record("part-ordered", part="Auxiliary belt", supplier="Marl", expected="2026-03-12")
    job.record("task-done", task="compare_parts")
    title = "Left out of the job, and of the plan: “"
    with opened(job) as bench:
        answer = plan_answer(bench, simulate=False, quick=True)
        (aside,) = [one for one in ready(bench, milestone="crank").aside if "left out" in one]
        every = arrivals(Network(bench, tasks_of(bench.sheet, bench.state)), goal="first_start")
        (one,) = [one for one in every if one.ordered]
    (said,) = [one for one in answer.remarks if one.startswith(title)]
    assert said.endswith("” (sold the belt).")
    assert aside.startswith("tasks that are left out of this job: “")
    assert one.holds == ("first_start",)


def test_each_task_is_told_once_while_several_parts_are_on_their_way(tmp_path: Path) -> None:
    """HAND: three parts for three days are three waits from now on; the shorter ones lie within the longest."""
    job = planned_job(tmp_path)
    for part, on in (
        ("Head gasket", "2026-03-20"),
        ("Oil filter", "2026-03-16"),
        ("Thermostat", "2026-03-18"),
    ):
        job.record("part-ordered", part=part, supplier="Marl", expected=on)
    found = asked(job).meanwhile
    tasks = [task.task for one in found for task in one.tasks]
    assert len(tasks) == len(set(tasks))
    (first,) = [one for one in found if "on its way" in one.what and "Head gasket" in one.what]
    assert first.what.startswith("Head gasket on its way; ")
    assert "Oil filter on its way" in first.what and "Thermostat on its way" in first.what


def test_days_off_that_fill_all_that_is_looked_at_first_are_looked_beyond(tmp_path: Path) -> None:
    """PRINTED: 120 days are looked at first (planning.toml, `least_days`), else 730. HAND: off until July 31, 147 days."""
    job = planned_job(tmp_path, hours=HOURS + "  days_off: [2026-03-07 to 2026-07-31]\n")
    answer = asked(job)
    assert answer.dated
    assert answer.first_start is not None and answer.first_start.date().isoformat() > "2026-07-31"
