"""What a reading at 20 °C with a gauge set in another one was made against: metal of the part, error of the master."""

from pathlib import Path

import pytest

from gudgeon.bench.changed import changes
from gudgeon.bench.context import open_bench
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.bench.test_budget import GAUGES, SHEET


@pytest.fixture
def job(tmp_path: Path) -> Job:
    kit = KIT[: KIT.index("gauges:")] + GAUGES + KIT[KIT.index("turning:") :]
    made = make_job(tmp_path, sheet=SHEET, kit=kit)
    made.read_code()
    made.record("reading", item="bore", place="1 top across", value="70.01 mm", instrument="bore_gauge")
    return made


def said(job: Job) -> list[tuple[str, str, str]]:
    bench = open_bench(job.book, now=job.now)
    try:
        return [(one.where, one.before, one.now) for one in changes(bench).figures]
    finally:
        bench.store.close()


def rewritten(job: Job, name: str, before: str, now: str) -> None:
    file = job.book.parent / name
    text = file.read_text(encoding="utf-8")
    assert text.count(before) == 1
    file.write_text(text.replace(before, now), encoding="utf-8")


def test_nothing_has_changed_as_long_as_nothing_has(job: Job) -> None:
    assert said(job) == []
    rewritten(job, "kit.yaml", "name: dial gauge, kind", "name: clock, kind")
    assert said(job) == []


def test_the_error_of_the_micrometer_that_zeroes_the_bore_gauge(job: Job) -> None:
    rewritten(job, "kit.yaml", "step: 0.01 mm, error: 0.004 mm}", "step: 0.01 mm, error: 0.010 mm}")
    assert said(job) == [("gauges.bore_gauge.error_of_what_sets_it", "0.004 mm", "0.010 mm")]


def test_the_metal_of_the_part(job: Job) -> None:
    rewritten(job, "sheet.yaml", "material: gray iron", "material: aluminum 356")
    assert said(job) == [("characteristics.bore.material", "gray iron", "aluminum 356")]
