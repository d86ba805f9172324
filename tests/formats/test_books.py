"""A book of every format that was released loads for ever: read, verified, added up, and exported as it was.

What is expected of the invented job is what docs/demo-engine.md tells of it, and of the other book what
tools/golden.py wrote into it: HAND, none of it read off an answer of the program.
"""

import hashlib
import json
import shutil
import sqlite3
import zipfile
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.copies import export, take_in
from gudgeon.bench.network import job_of
from gudgeon.bench.open_lists import open_lists
from gudgeon.bench.ready import ready
from gudgeon.book.fold import fold
from gudgeon.book.sqlite import open_book
from tools.golden import NEWEST, bodies

HERE = Path(__file__).parent
FORMATS = sorted(path.name for path in HERE.iterdir() if path.is_dir() and path.name.startswith("book-"))
BOOKS = ("invented-job", "every-kind")
NOW = datetime(2026, 6, 13, 14, 5, tzinfo=UTC)


@pytest.fixture(params=range(1, NEWEST + 1))
def form(request: pytest.FixtureRequest) -> int:
    """The number of a format."""
    number: int = request.param
    return number


@pytest.fixture
def folder(form: int, tmp_path: Path) -> Path:
    """Copies of the frozen files of one format."""
    shutil.copytree(HERE / f"book-{form}", tmp_path / "frozen")
    return tmp_path / "frozen"


def test_there_is_a_frozen_book_of_the_format_of_today() -> None:
    assert [f"book-{form}" for form in range(1, NEWEST + 1)] == FORMATS


@pytest.mark.parametrize("name", BOOKS)
def test_it_is_as_it_was_written(folder: Path, name: str) -> None:
    with open_book(folder / f"{name}.gudgeon", clock=lambda: NOW) as store:
        assert store.verify() == ()
        for build in store.builds():
            assert store.head(build) == store.entries(build)[-1].hash


@pytest.mark.parametrize("name", BOOKS)
def test_anybody_can_check_it_without_the_program(folder: Path, name: str, form: int) -> None:
    """SHA-256 over the text as it stands, each naming the one before (HAND: the rule of the chain)."""
    with sqlite3.connect(folder / f"{name}.gudgeon") as connection:
        rows = connection.execute("SELECT content, hash FROM entry ORDER BY place").fetchall()
    assert len(rows) >= len(list(bodies(form)))
    prev = ""
    for content, digest in rows:
        assert hashlib.sha256(content.encode("utf-8")).hexdigest() == digest
        assert json.loads(content)["prev"] == prev
        prev = digest


def test_every_kind_of_that_day_is_understood(folder: Path, form: int) -> None:
    with open_book(folder / "every-kind.gudgeon", clock=lambda: NOW) as store:
        (build,) = store.builds()
        entries = store.entries(build)
    state = fold(entries)
    assert "this program does not know this kind of entry; use a newer one" not in {
        why for _, why in state.doubtful
    }
    assert [one.kind for one in entries] == [kind for kind, _ in bodies(form)]
    assert state.notes == ()  # the only note is struck
    assert [(one.sha, one.caption) for one in state.photos] == [("0" * 64, "marks")]
    assert state.odometer == ("84120", "km")


def test_what_was_planned_that_day_is_planned_still(tmp_path: Path) -> None:
    """HAND: the bodies that stand in tools/golden.py."""
    shutil.copytree(HERE / "book-3", tmp_path / "frozen")
    with open_book(tmp_path / "frozen" / "every-kind.gudgeon", clock=lambda: NOW) as store:
        state = fold(store.entries(store.builds()[0]))
    plan = state.plan
    assert (plan.job, list(plan.added), list(plan.dropped)) == (
        "timing_belt",
        ["paint_it"],
        ["save_fault_codes"],
    )
    assert dict(plan.after) == {"charge_battery": ("rollers_off",)}
    assert plan.days[("second person", "2026-06-20")].hours == ("09:00-12:00", "13:00-24:00")
    assert plan.promises[("shop", "head")].latest == "2026-06-26"
    tasks = job_of(state).tasks
    assert (tasks["belt_on"].minutes, tasks["belt_on"].spread) == (20, (15, 40))
    assert tasks["rollers_on"].after == ("compare_parts", "paint_it")
    assert [(one.part, one.amount) for one in state.buying.orders] == [("belt", "84.50")]
    assert state.buying.lives["belt"].shape == "3.5"
    assert state.agreed.ceilings[0].amount == "1000"


def test_the_invented_job_stands_where_its_page_says(folder: Path) -> None:
    bench = open_bench(folder / "invented-job.gudgeon", now=NOW)
    try:
        counts = {one.name: len(one.items) for one in open_lists(bench).lists}
        assert (counts["provisional"], counts["left in"], counts["plugged"]) == (3, 3, 10)
        off = Counter(item.group for item in bench.state.left_over.values())
        assert (off["connector"], off["hose"], off["strap"]) == (22, 12, 2)
        head = bench.state.joints["head"]
        assert len(head.pulls) == 25
        assert bench.state.engine.cams == "out"
        assert ready(bench, milestone="crank").answer == "no"
    finally:
        bench.store.close()


@pytest.mark.parametrize("name", BOOKS)
def test_its_export_is_taken_in_and_given_out_again_as_it_was(
    folder: Path, tmp_path: Path, name: str
) -> None:
    new = tmp_path / "new.gudgeon"
    take_in(folder / f"{name}.zip", to=new)
    export(new, tmp_path / "again.zip")
    with zipfile.ZipFile(folder / f"{name}.zip") as before, zipfile.ZipFile(tmp_path / "again.zip") as after:
        kept = [one for one in before.namelist() if one.endswith(("entries.jsonl", ".yaml"))]
        assert kept
        assert {one: after.read(one) for one in kept} == {one: before.read(one) for one in kept}
