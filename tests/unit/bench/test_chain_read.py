"""A chain is read once for each head, and goes on from there; another chain at the same place is read anew."""

from pathlib import Path

import pytest

from gudgeon.bench import chain_read
from gudgeon.bench.context import entries_of, entry_of, open_bench, state_after
from gudgeon.bench.errors import NotOpen
from gudgeon.bench.record import record
from gudgeon.book.fold import fold
from gudgeon.book.sqlite import SqliteStore
from tests.unit.bench.benches import Job, make_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    chain_read.forget()
    return make_job(tmp_path)


def test_after_an_entry_only_that_entry_is_read(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    bench = open_bench(job.book)
    asked: list[int] = []
    read = SqliteStore.entries_after

    def counted(store: SqliteStore, build: str, number: int) -> object:
        asked.append(number)
        return read(store, build, number)

    monkeypatch.setattr(SqliteStore, "entries_after", counted)
    before = bench.state.count
    record(bench, "note", {"text": "oil in the plug well"})
    assert asked == [before]
    assert state_after(bench) == fold(bench.store.entries(bench.build))
    bench.store.close()


def test_a_strike_is_folded_anew_and_says_what_a_fold_of_all_says(job: Job) -> None:
    bench = open_bench(job.book)
    note = record(bench, "note", {"text": "oil in the plug well"}).entry
    before = state_after(bench)
    record(bench, "strike", {"entry": note, "why": "it was coolant"})
    after = state_after(bench)
    assert after == fold(bench.store.entries(bench.build))
    assert (before.notes[-1:], after.notes[-1:]) == (("oil in the plug well",), before.notes[-2:-1])
    assert note in after.struck
    bench.store.close()


def test_another_book_at_the_same_place_is_read_as_what_it_is(tmp_path: Path) -> None:
    """A chain is known by its hashes: a copy that went another way is another one, whatever its build is called."""
    chain_read.forget()
    one = make_job(tmp_path)
    bench = open_bench(one.book)
    bench.store.close()
    copy = one.book.read_bytes()
    bench = open_bench(one.book)
    record(bench, "note", {"text": "the first way"})
    bench.store.close()
    one.book.write_bytes(copy)
    bench = open_bench(one.book)
    for text in ("the other way", "and on"):
        record(bench, "note", {"text": text})
    assert state_after(bench).notes[-2:] == ("the other way", "and on")
    assert entries_of(bench) == bench.store.entries(bench.build)
    bench.store.close()


def test_an_entry_is_found_by_its_id(job: Job) -> None:
    bench = open_bench(job.book)
    done = record(bench, "note", {"text": "oil in the plug well"})
    found = entry_of(bench, done.entry)
    assert found is not None
    assert found.body == {"text": "oil in the plug well"}
    assert entry_of(bench, "0" * 32) is None
    bench.store.close()


def test_where_a_copy_was_put_back_what_came_after_it_is_not_in_the_book(job: Job) -> None:
    """A phone sends once more what it had sent after the copy was made: it is looked at like any other entry."""
    before = job.book.read_bytes()
    rag = {"item": "rag", "name": "rag", "where": "port 1", "due_before": "crank"}
    ids = [job.record("left-in", **rag).entry, job.record("taken-out", item="rag").entry]
    job.book.write_bytes(before)
    bench = open_bench(job.book)
    assert [entry_of(bench, one) for one in ids] == [None, None]
    with pytest.raises(NotOpen) as refused:
        record(bench, "taken-out", {"item": "rag"}, entry_id=ids[1])
    assert str(refused.value) == "`rag` is not on the list of what is left in. On it: none."
    assert bench.store.entries(bench.build) == entries_of(bench)
    bench.store.close()


def test_what_is_kept_is_bounded(tmp_path: Path) -> None:
    chain_read.forget()
    for number in range(chain_read.CHAINS_MOST + 2):
        (tmp_path / str(number)).mkdir()
        made = make_job(tmp_path / str(number))
        bench = open_bench(made.book)
        for text in range(chain_read.HEADS_MOST // 4):
            record(bench, "note", {"text": str(text)})
        bench.store.close()
    assert len(chain_read._GOING) == chain_read.CHAINS_MOST
    assert len(chain_read._READ) <= chain_read.HEADS_MOST
    assert {one.chain for one in chain_read._READ.values()} <= set(chain_read._GOING)
