"""What was closed or struck before is not closed or struck again; the same entry sent twice counts once."""

from pathlib import Path

import pytest

from gudgeon.bench.context import entries_of, open_bench
from gudgeon.bench.errors import NotOpen, StruckBefore
from gudgeon.bench.ready import ready
from gudgeon.bench.record import record
from tests.unit.bench.benches import Job, make_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


def written(job: Job) -> int:
    bench = open_bench(job.book, now=job.now)
    try:
        return len(entries_of(bench))
    finally:
        bench.store.close()


def test_a_part_that_is_back_does_not_come_back_again(job: Job) -> None:
    job.record("shop-out", part="Cylinder head", shop="Mill Lane", ordered="to be cut")
    job.record("shop-out", part="Block", shop="Mill Lane", ordered="to be bored")
    job.record("shop-back", part="Cylinder head", found="cut")
    before = written(job)
    with pytest.raises(NotOpen) as refused:
        job.record("shop-back", part="Cylinder head", found="cut")
    assert str(refused.value) == "`Cylinder head` is not on the list of what is at the shop. On it: Block."
    assert written(job) == before
    assert not [one for one in ready(job.bench(), milestone="crank").reasons if one.family == "in doubt"]
    job.record("shop-out", part="Cylinder head", shop="Mill Lane", ordered="once more")
    job.record("shop-back", part="Cylinder head", found="cut again")


def test_an_entry_is_struck_once_and_the_second_strike_is_told_of_the_first(job: Job) -> None:
    note = job.record("note", text="a slip").entry
    job.record("strike", entry=note, why="wrong engine")
    struck, before = job.bench().state.struck[note], written(job)
    with pytest.raises(StruckBefore) as refused:
        job.record("strike", entry=note, why="again")
    assert str(refused.value) == (
        f"Entry 3 was struck before, by {struck.who}: wrong engine. It does not count any more; nothing was written."
    )
    assert written(job) == before
    assert job.bench().state.struck[note] == struck


def test_the_same_strike_sent_twice_is_one_strike(job: Job) -> None:
    note = job.record("note", text="a slip").entry
    sent = "ab" * 16
    for _ in range(2):
        bench = open_bench(job.book, now=job.now)
        try:
            assert record(bench, "strike", {"entry": note, "why": "wrong"}, entry_id=sent).entry == sent
            assert sum(one.kind == "strike" for one in entries_of(bench)) == 1
        finally:
            bench.store.close()
