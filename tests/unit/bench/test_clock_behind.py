"""A clock that runs behind ends no wait; what was written out of reach and sent later counts from its own hour.

HAND: ends are the later of both hours plus the minutes of the wait.
"""

from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.reason import when
from gudgeon.bench.record import Recorded, record
from gudgeon.bench.timers import Waiting, waits
from tests.unit.bench.benches import Job, make_job

WAIT: dict[str, Any] = {
    "timer": "cure",
    "name": "Sealant",
    "minutes": 1440,
    "task": "fill oil",
    "wait": "cure",
}
BEHIND = timedelta(days=30)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


def written(job: Job, kind: str, *, at: datetime, basis: str | None = None, **fields: Any) -> Recorded:
    """An entry by a device that shows an hour, which had seen the book as it is, or as it was."""
    bench = open_bench(job.book, now=at)
    try:
        return record(bench, kind, fields, basis=basis)
    finally:
        bench.store.close()


def there(job: Job, key: str = "cure") -> Waiting:
    return next(one for one in waits(job.bench()) if one.key == key)


def test_a_wait_that_a_clock_behind_began_counts_from_what_the_book_knew(job: Job) -> None:
    known = job.now
    said = written(job, "timer-started", at=job.now - BEHIND, **WAIT)
    found = there(job)
    assert (found.mark, found.ends) == ("running", known + timedelta(minutes=1440))
    assert "its device showed an earlier hour than the book knew" in found.words
    assert len(said.remarks) == 1
    assert said.remarks[0].startswith(f"The clock of this device showed {when(known - BEHIND)}, and")
    assert "set the clock" in said.remarks[0]
    job.now = known + timedelta(minutes=1441)
    assert there(job).mark == "over"


def test_so_does_the_second_one_of_the_same_clock(job: Job) -> None:
    known = job.now
    written(job, "timer-started", at=job.now - BEHIND, **WAIT)
    written(
        job,
        "timer-started",
        at=job.now - BEHIND + timedelta(minutes=1),
        **WAIT | {"timer": "b", "wait": "battery"},
    )
    assert there(job, "b").ends == known + timedelta(minutes=1440)


def test_what_was_written_out_of_reach_counts_from_its_own_hour(job: Job) -> None:
    """It had seen the head of its day, not what came into the book before it was sent."""
    head, began = job.bench().state.head, job.now + timedelta(hours=1)
    job.now += timedelta(hours=30)
    job.record("note", text="another device, a day later")
    written(job, "timer-started", at=began, basis=head, **WAIT)
    found = there(job)
    assert (found.mark, found.ends) == ("over", began + timedelta(minutes=1440))


def test_two_that_waited_one_behind_the_other_count_from_their_own_hours(job: Job) -> None:
    began = job.now + timedelta(hours=1)
    job.now += timedelta(hours=30)
    written(job, "note", at=began, text="first")
    written(job, "timer-started", at=began + timedelta(minutes=1), **WAIT)
    assert there(job).ends == began + timedelta(minutes=1441)


def test_a_few_minutes_between_two_clocks_are_not_worth_a_word(job: Job) -> None:
    known = job.now
    said = written(job, "timer-started", at=job.now - timedelta(minutes=9), **WAIT)
    assert said.remarks == ()
    assert there(job).ends == known + timedelta(minutes=1440)


def test_an_hour_before_the_last_entry_is_said_of_anything(job: Job) -> None:
    (said,) = written(job, "note", at=job.now - BEHIND, text="bent dowel").remarks
    assert said.startswith(f"The clock of this device shows {when(job.now - BEHIND)}, and")
    assert written(job, "note", at=job.now, text="bent dowel, seen again").remarks == ()


def test_a_wrong_hour_that_was_struck_holds_up_no_wait(job: Job) -> None:
    ahead = written(job, "note", at=job.now + BEHIND, text="the clock was a month ahead")
    job.record("strike", entry=ahead.entry, why="wrong hour")
    job.record("timer-started", **WAIT)
    assert there(job).ends == job.now + timedelta(minutes=1440)
