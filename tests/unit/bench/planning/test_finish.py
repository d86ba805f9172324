"""The date as a distribution: what it is the date of, which rows are told, and what lies beyond the plan."""

from datetime import timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from gudgeon.bench.network import tasks_of
from gudgeon.bench.planning import finish
from gudgeon.bench.planning.finish import distribution
from gudgeon.bench.planning.lay import laid
from gudgeon.bench.planning.question import plan_answer
from tests.unit.bench.benches import Job
from tests.unit.bench.planning.planned import opened, planned_job

WAITS = ("short_run", "hand_over")
"""PRINTED in the job: a cold morning of 12 hours after the one, the first distance of 336 hours after the other."""


def done_but(job: Job, *, left: str) -> None:
    """Everything is done that comes before a task."""
    bench = job.bench()
    for task in tasks_of(bench.sheet, bench.state):
        if task.key == left:
            return
        if task.key != "read_code":
            job.record("task-done", task=task.key)


@pytest.mark.parametrize("goal", WAITS)
def test_the_date_is_when_the_hands_of_what_is_aimed_at_are_done(tmp_path: Path, goal: str) -> None:
    """HAND: hours of a single day come and go; what runs by itself afterwards does not move the day that is asked for."""
    job = planned_job(tmp_path)
    done_but(job, left=goal)
    with opened(job) as bench:
        found = plan_answer(bench, quick=True)
        again = distribution(laid(bench, quick=True)[1], trials=200)  # type: ignore[arg-type]
    (bar,) = [one for one in found.bars if one.task == goal]
    work = [one for one in bar.spans if one.kind == "work"]
    assert found.first_start == work[-1].ends
    assert found.finish is not None and found.finish > work[-1].ends
    assert found.drives[-1].ends == found.first_start
    assert again.early is not None and (again.early - work[-1].ends).days < 2


def test_of_rows_that_say_the_same_one_is_told(tmp_path: Path) -> None:
    with opened(planned_job(tmp_path)) as bench:
        found = distribution(laid(bench, quick=True)[1], trials=200)  # type: ignore[arg-type]
    ends = [f"{one.percent:.0f}" for one in found.chances if one.why != "as planned"]
    assert len(ends) == len(set(ends))
    assert sum(one.why == "as planned" for one in found.chances) == 1
    assert all(one.percent <= other.percent for one, other in pairwise(found.chances))


def test_a_chance_without_news_after_the_planned_day_is_left_out(tmp_path: Path) -> None:
    """HAND: nine of ten runs on the planned Saturday and one a week later: Sunday says nothing that Saturday did not,
    and by the Sunday after that all are there, which is not told as a chance."""
    with opened(planned_job(tmp_path)) as bench:
        plan = laid(bench, quick=True)[1]
    assert plan is not None
    saturday = plan.at(plan.date).date()
    days = [saturday] * 9 + [saturday + timedelta(days=7)]
    told = [(one.by, one.percent, one.why) for one in finish._chances(plan, days, 10)]
    assert told == [(saturday, 90.0, "as planned")]
