"""Minutes really taken against planned ones: a factor that leans on what was thought before."""

from pathlib import Path

import pytest

from gudgeon.bench.begin import begin
from gudgeon.bench.planning.taken import Known, leaning, paces, paces_of
from tests.unit.bench.benches import START
from tests.unit.bench.planning.planned import HOURS, kit, opened, planned_job


def test_one_task_moves_a_factor_little_and_many_move_it_far() -> None:
    """HAND: k = 4. One task of twice the minutes: 2^(1/5) = 1.1487. Twelve: 2^(12/16) = 1.6818. None: 1."""
    twice = Known("Clean", 60, 120)
    assert leaning([twice], on=1.0) == pytest.approx(1.1487, abs=5e-5)
    assert leaning([twice] * 12, on=1.0) == pytest.approx(1.6818, abs=5e-5)
    assert leaning([], on=1.3) == pytest.approx(1.3)


def test_twice_as_long_and_half_as_long_cancel() -> None:
    assert leaning([Known("Clean", 60, 120), Known("Clean", 60, 30)], on=1.0) == pytest.approx(1.0)


def test_a_slip_of_the_pen_counts_five_times_at_most() -> None:
    """HAND: 4500 min for 45 are taken as 5 times: 5^(1/5) = 1.3797."""
    assert leaning([Known("Clean", 45, 4500)], on=1.0) == pytest.approx(1.3797, abs=5e-5)
    assert leaning([Known("Clean", 450, 1)], on=1.0) == pytest.approx(1 / 1.3797, abs=5e-5)


def test_each_kind_leans_on_all_together() -> None:
    """HAND: a kind without any: four tasks of twice, 2^(4/8) = 1.4142. Clean: the other one thinks 2^(1/5), so
    2^((3 + 4/5)/7) = 2^0.54286 = 1.4569. Measure: the others think 2^(3/7), so 2^((1 + 12/7)/5) = 2^0.54286."""
    found = paces_of([Known("Clean", 60, 120)] * 3 + [Known("Measure", 30, 60)], pace=1.0)
    assert found.whole == pytest.approx(1.4142, abs=5e-5)
    assert found.of("Clean") == pytest.approx(1.4569, abs=5e-5)
    assert found.of("Measure") == pytest.approx(1.4569, abs=5e-5)
    assert found.of("Timing") == found.whole
    assert [(one.kind, one.tasks, one.planned, one.taken) for one in found.rows] == [
        ("Clean", 3, 180, 360), ("Measure", 1, 30, 60), ("All together", 4, 210, 420),
    ]  # fmt: skip
    assert (
        found.rows[1].words
        == "Measure: one task, planned 30 min, taken 60 min; planned with 1.46 times the minutes"
    )


def test_what_the_book_says_of_finished_tasks_counts_and_nothing_else(tmp_path: Path) -> None:
    """HAND: clean_deck is planned with 60 min: taken 90, 1.5^(1/5) = 1.0845."""
    job = planned_job(tmp_path)
    job.record("task-done", task="clean_deck", minutes=90)
    job.record("task-done", task="clean_crowns")
    job.record("task-started", task="clean_head")
    with opened(job) as bench:
        found = paces(bench)
    assert [(one.kind, one.tasks, one.planned, one.taken) for one in found.rows] == [("Clean", 1, 60, 90)]
    assert found.of("Clean") == pytest.approx(1.0845, abs=5e-5)
    assert found.whole == pytest.approx(1.0845, abs=5e-5)


def test_the_pace_of_the_kit_is_what_was_thought_before(tmp_path: Path) -> None:
    with opened(planned_job(tmp_path, hours=HOURS + "  pace: 1.3\n")) as bench:
        found = paces(bench)
    assert found.whole == pytest.approx(1.3)
    assert found.rows == ()


def test_other_builds_of_the_book_count_too(tmp_path: Path) -> None:
    job = planned_job(tmp_path)
    (tmp_path / "kit.yaml").write_text(kit(), encoding="utf-8")
    begin(job.book, build="second", sheet=tmp_path / "sheet.yaml", kit=tmp_path / "kit.yaml", at=START)
    from gudgeon.bench.context import open_bench
    from gudgeon.bench.record import record

    other = open_bench(job.book, build="second", now=job.now)
    record(other, "task-done", {"task": "strip_head", "minutes": 240})
    other.store.close()
    mine = open_bench(job.book, build="mine", now=job.now)
    found = paces(mine)
    mine.store.close()
    assert [(one.kind, one.planned, one.taken) for one in found.rows] == [("Take apart", 120, 240)]


def test_a_task_that_is_far_off_is_said_beside_its_factor() -> None:
    """HAND: 4500 min for 45 count as 225: 5^(1/5) = 1.38."""
    (row,) = paces_of([Known("Clean", 45, 4500)], pace=1.0).rows
    assert row.words == (
        "Clean: one task, planned 45 min, taken 4500 min; planned with 1.38 times the minutes; more than 5 times off, it "
        "counts as 5 times"
    )
    (row,) = paces_of([Known("Clean", 45, 4500), Known("Clean", 60, 60)], pace=1.0).rows
    assert row.words.endswith("; more than 5 times off, one of them counts as 5 times")
