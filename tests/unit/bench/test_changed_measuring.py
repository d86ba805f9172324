"""What a reading at 20 °C with a gauge set in another one was made against: metal of the part, error of the master."""

from pathlib import Path

import pytest

from gudgeon.bench.changed import changes, reasons
from gudgeon.bench.context import open_bench
from gudgeon.bench.face_file import take_face
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


def scanned(job: Job) -> None:
    file = job.book.parent / "deck.csv"
    file.write_text("x mm,y mm,z mm\n0,0,0.010\n100,0,0.02\n0,100,0\n100,100,0.015\n", encoding="utf-8")
    bench = open_bench(job.book, now=job.now)
    try:
        take_face(bench, "deck", file=file, unit=None, instrument="clock", condition="as found")
    finally:
        bench.store.close()


CLOCK = "  clock: {name: dial gauge, kind: dial gauge, range: 0–10 mm, step: 0.01 mm, error: 0.012 mm}\n"


def test_a_scan_is_told_when_its_gauge_has_changed_or_left_the_kit(job: Job) -> None:
    scanned(job)
    assert said(job) == []
    rewritten(job, "kit.yaml", CLOCK, CLOCK.replace("0.012", "0.020"))
    assert said(job) == [("gauges.clock.error", "0.012 mm", "0.020 mm")]
    rewritten(job, "kit.yaml", CLOCK.replace("0.012", "0.020"), "")
    assert said(job) == [("gauges.clock", "in the kit", "no longer in the kit")]
    bench = open_bench(job.book, now=job.now)
    try:
        (figure,) = changes(bench).figures
        (reason,) = reasons(bench)
    finally:
        bench.store.close()
    assert [use.what for use in figure.used_by] == [
        "face scanned: Deck, 4 points of deck.csv, as found, clock"
    ]
    assert reason.why == (
        "the scan of deck used the old figure: it was in the kit, the kit now says no longer in the kit"
    )
    assert reason.close_with == (
        "gudgeon measure deck --face FILE.csv, put the old figure back, or say who lets the old one serve: gudgeon changes"
    )


def test_a_limit_that_a_scan_was_judged_by(job: Job) -> None:
    scanned(job)
    rewritten(
        job,
        "sheet.yaml",
        "places: [along, across], wear_limit: max 0.10 mm",
        "places: [along, across], wear_limit: max 0.08 mm",
    )
    assert said(job) == [("characteristics.deck.wear_limit", "max 0.10 mm", "max 0.08 mm")]
