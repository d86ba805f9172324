"""What the chosen job does not come to is not bought; what has to be there before its day. All names invented."""

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from gudgeon.bench.buying.ask import planned_days, within
from gudgeon.bench.buying.lines import Work
from gudgeon.bench.context import open_bench
from gudgeon.bench.network import tasks_of
from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import SHEET, asked, buying_job
from tests.unit.bench.planning.planned import planned_job

SEALS = "  stem_seals: {name: Valve stem seals, one_time: yes, source: manual p. 30}\n"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = buying_job(tmp_path, sheet=SHEET + SEALS)
    made.record("job-chosen", job="cover_reseal")
    return made


def test_parts_of_other_work_are_left_out_and_told(job: Job) -> None:
    answer = asked(job)
    # HAND: covers alone need neither the head gasket, the exhaust nuts nor stem seals; one_time first.
    assert [one.name for one in answer.lines] == []
    assert answer.remarks == (
        "6 parts are left out, as the work on them is not in the job “Valve cover reseal”: Head gasket, Exhaust nuts, "
        "Valve stem seals, Piston rings, Fan belt, cylinder head. What you decide to renew all the same is on the list",
    )
    assert {one.name for one in answer.parts} >= {"Head gasket", "Exhaust nuts", "Piston rings"}
    assert not [one for one in answer.may_come if one.startswith("Piston rings")]


def test_what_is_decided_ordered_or_due_stays(job: Job) -> None:
    job.record("part-disposition", part="stem_seals", decision="renew", why="while I am there")
    job.record("part-ordered", part="head_gasket", supplier="south")
    job.record("part-age", part="belt", months=70, basis="date on it")
    answer = asked(job)
    assert {one.name for one in answer.lines} == {"Valve stem seals", "Head gasket"}
    assert [one for one in answer.may_come if one.startswith("Fan belt")]
    assert answer.remarks[0].startswith("3 parts are left out")


def test_the_whole_job_leaves_nothing_out(tmp_path: Path) -> None:
    answer = asked(buying_job(tmp_path, sheet=SHEET + SEALS))
    assert {one.name for one in answer.lines} == {"Head gasket", "Exhaust nuts", "Valve stem seals"}
    assert answer.remarks == ()


def test_the_day_of_a_task_is_the_one_on_which_hands_begin_it(tmp_path: Path) -> None:
    """What is ordered for a task is on its way from today on: that is not the day of the task."""
    job = planned_job(tmp_path)
    job.record("part-ordered", part="head_gasket", supplier="south", expected="2026-05-20")
    bench = open_bench(job.book, now=job.now)
    try:
        days = planned_days(bench, plan_now=True)
    finally:
        bench.store.close()
    # HAND: the gasket comes on May 20, and nobody lays it before that.
    assert days["lay_gasket"] >= date(2026, 5, 20)


@pytest.mark.parametrize(("day", "days"), [(20, 3), (18, 1), (17, 0), (16, 0)])
def test_a_part_is_there_the_day_before(tmp_path: Path, day: int, days: int) -> None:
    job = buying_job(tmp_path)
    # HAND: of the 16th, a part for the 20th is there on the 19th, in 3 days.
    bench = open_bench(job.book, now=datetime(2026, 3, 16, 12, tzinfo=UTC))
    try:
        assert within(bench, "Head gasket", Work({}, frozenset(), {})) is None
        tasks = {one.key: one for one in tasks_of(bench.sheet, bench.state)}
        work = Work(tasks, frozenset(), {"lay_gasket": date(2026, 3, day)})
        assert within(bench, "Head gasket", work) == days
    finally:
        bench.store.close()
