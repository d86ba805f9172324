"""A task is named by its title wherever it is spoken of; the book keeps its key."""

from pathlib import Path

from gudgeon.bench.context import open_bench
from gudgeon.bench.entries import listed
from tests.unit.bench.benches import START, make_job

TITLE = "Put the battery on its charger"


def test_a_task_is_recorded_and_listed_by_its_title(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    assert garage.record("task-started", task=TITLE).said == f"task started: {TITLE}"
    assert garage.record("task-done", task="charge battery", minutes=20).said == f"task done: {TITLE}, 20 min"
    bench = open_bench(garage.book, now=START)
    try:
        lines, entries = listed(bench).lines, bench.store.entries("mine")
    finally:
        bench.store.close()
    assert [line.what for line in lines if line.kind.startswith("task")] == [TITLE, f"{TITLE}, 20 min"]
    assert {one.body["task"] for one in entries if one.kind.startswith("task")} == {"charge_battery"}
