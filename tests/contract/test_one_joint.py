"""Two people at one joint at the same moment: both facts stand, in order, and the later one is told and is in doubt."""

from collections.abc import Callable
from pathlib import Path
from threading import Barrier, Thread

import pytest

from gudgeon.bench.begin import begin
from gudgeon.bench.context import open_bench
from gudgeon.bench.record import Recorded, record
from gudgeon.book.address import BookAddress, book_address
from tests.contract.stores import Shelf
from tests.unit.bench.benches import KIT, START
from tests.unit.sheet.sheets import SMALL

ROUNDS = 6


@pytest.fixture
def book(shelf: Shelf, tmp_path: Path) -> BookAddress:
    """A small engine whose code has been read."""
    (tmp_path / "sheet.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "kit.yaml").write_text(KIT, encoding="utf-8")
    address = book_address(shelf.address)
    begin(address, build="van", sheet=tmp_path / "sheet.yaml", kit=tmp_path / "kit.yaml", at=START)
    written(address, "identity-read", {"code": "L1-A", "read_from": "pad"})
    return address


def written(
    book: BookAddress, kind: str, fields: dict[str, object], wait: Callable[[], object] = bool
) -> Recorded:
    """Look at the book, wait, then record."""
    bench = open_bench(book, build="van", now=START)
    try:
        wait()
        return record(bench, kind, fields)
    finally:
        bench.store.close()


def at_once(book: BookAddress, bolt: str) -> list[Recorded]:
    """Two people who both look, and only then both record the same pull, each in a program of his own."""
    both, said = Barrier(2, timeout=60), list[Recorded]()
    fields: dict[str, object] = {
        "joint": "head", "stage": 1, "round": 1, "bolt": bolt, "outcome": "done", "tool": "three", "setting": "20 N·m"
    }  # fmt: skip

    def one() -> None:
        said.append(written(book, "pull", fields, both.wait))

    people = [Thread(target=one) for _ in range(2)]
    for person in people:
        person.start()
    for person in people:
        person.join(60)
    return said


def test_both_pulls_stand_in_order_and_one_of_the_two_is_told(book: BookAddress) -> None:
    bolts = ("1", "3", "2", "4")
    for at in range(ROUNDS):
        said = at_once(book, bolts[at % 4])
        assert len(said) == 2
        told = [any(remark.startswith("Meanwhile ") for remark in one.remarks) for one in said]
        assert sorted(told) == [False, True]
        bench = open_bench(book, build="van", now=START)
        with bench.store as store:
            entries = store.entries("van")
            assert store.verify() == ()
        first, second = entries[-2:]
        assert {first.id, second.id} == {one.entry for one in said}
        assert second.id == said[told.index(True)].entry
        assert (first.basis, second.basis) == (first.prev, first.prev)
        assert len(entries) == 2 + 2 * (at + 1)
        assert [entry.number for entry in entries] == list(range(1, len(entries) + 1))
        latest = bench.state.joints["head"].pulls[1, 1, bolts[at % 4]]
        assert (latest.entry, latest.doubtful) == (second.id, True)
