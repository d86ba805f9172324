"""One odd entry never takes a page down: its own row says so, everything else is answered."""

import uuid
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.good import Row, inspect
from gudgeon.bench.now import now
from gudgeon.bench.ready import ready
from gudgeon.bench.to_measure import to_measure
from gudgeon.book.entries import Draft
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_good import SHEET


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=SHEET)
    made.read_code()
    return made


def rows(job: Job, item: str) -> dict[str, Row]:
    return {row.place: row for row in inspect(job.bench(), only=item).rows}


def every_page(job: Job) -> None:
    """The answers that read every entry."""
    inspect(job.bench())
    now(job.bench())
    ready(job.bench(), milestone="handover")


def write_past_the_checks(job: Job, **body: Any) -> None:
    """An entry as another program, or an older one, may have written it."""
    bench = open_bench(job.book, now=job.now)
    fields = {"place": "", "value": None, "low": None, "high": None, "unit": "mm", "condition": "as found"}
    try:
        bench.store.append(
            Draft(
                uuid.uuid4().hex, "reading", {**fields, **body}, "mine", "other", "other",
                job.now.isoformat(timespec="seconds"), bench.state.head,
            )
        )  # fmt: skip
    finally:
        bench.store.close()


def test_the_thickest_blade_that_enters_proves_one_side_only(job: Job) -> None:
    # HAND: u = 0.005/sqrt(3) = 0.00289, 1.645 u = 0.0047. Required 0.15 to 0.25 mm:
    # 0.30 − 0.0047 > 0.25 is outside, 0.20 says nothing of the upper end.
    job.record("reading", item="valve_clearance", low="0.30 mm", instrument="feelers")
    row = rows(job, "valve_clearance")[""]
    assert (row.reading, row.verdict) == ("over 0.30 mm (0.0118 in)", "outside")
    job.record("reading", item="valve_clearance", low="0.20 mm", instrument="feelers")
    row = rows(job, "valve_clearance")[""]
    assert row.verdict == "in doubt"
    assert row.reason == "only what enters was read: how much more would enter is not known"
    assert row.way_out == "a blade of 0.24 mm (0.0094 in) must not enter"
    every_page(job)


def test_the_thinnest_blade_that_does_not_enter_proves_the_other(job: Job) -> None:
    job.record("reading", item="valve_clearance", high="0.10 mm", instrument="feelers")
    assert rows(job, "valve_clearance")[""].verdict == "outside"
    job.record("reading", item="valve_clearance", high="0.20 mm", instrument="feelers")
    row = rows(job, "valve_clearance")[""]
    assert (row.verdict, row.way_out) == ("in doubt", "a blade of 0.16 mm (0.0063 in) must enter")


def test_what_is_worked_out_from_an_open_end_is_open_too(job: Job) -> None:
    job.record(
        "reading", item="bore", place="1 top across", low="70.03 mm", instrument="micrometer", sure=True
    )
    job.record(
        "reading", item="bore", place="1 top along", value="70.03 mm", instrument="micrometer", sure=True
    )
    assert rows(job, "oval")["cylinder 1, top"].verdict == "in doubt"
    every_page(job)


@pytest.mark.parametrize(
    ("body", "why"),
    [
        ({"value": "0.20", "unit": "kPa"}, "`kPa` is a unit of gauge pressure, not of length difference"),
        ({"value": "0.20", "unit": "furlong"}, "`furlong` is not a known unit"),
    ],
)
def test_a_reading_that_cannot_be_judged_says_so_in_its_row(job: Job, body: dict[str, Any], why: str) -> None:
    write_past_the_checks(job, item="valve_clearance", **body)
    job.record("reading", item="head_face", place="along", high="0.04 mm", instrument="feelers")
    row = rows(job, "valve_clearance")[""]
    assert row.verdict == "in doubt"
    assert row.reason.startswith("entry 3 cannot be judged: ")
    assert why in row.reason
    assert row.way_out == "look at it, then: gudgeon strike 3 --why …"
    assert rows(job, "head_face")["along"].verdict == "inside", "the rest is answered"
    every_page(job)


def test_a_reading_at_a_place_that_the_sheet_no_longer_has_is_not_lost(job: Job) -> None:
    job.record("reading", item="journal", place="B", value="29.970 mm", instrument="micrometer")
    sheet = job.book.parent / "sheet.yaml"
    sheet.write_text(sheet.read_text(encoding="utf-8").replace("[A, B]", "[A, C]"), encoding="utf-8")
    row = rows(job, "journal")["B"]
    assert row.reason == "entry 3 cannot be judged: the sheet has no place “B” any more"
    every_page(job)


def test_a_reading_of_what_the_sheet_no_longer_has_leaves_the_pages_standing(job: Job) -> None:
    write_past_the_checks(job, item="gone", value="1")
    every_page(job)


@pytest.mark.parametrize("value", ["-0.20 mm", "1e11 mm", "0 mm"])
def test_odd_values_that_are_kept_are_judged(job: Job, value: str) -> None:
    job.record("reading", item="valve_clearance", value=value, instrument="feelers", sure=True)
    assert rows(job, "valve_clearance")[""].verdict == "outside"
    every_page(job)


def test_a_characteristic_of_any_quantity_can_be_asked_for(tmp_path: Path) -> None:
    plate = """\
  plate_speed:
    name: Cranking speed
    part: starter
    quantity: speed
    wear_limit: min 200 r/min
    source: manual p. 8
joints:
"""
    made = make_job(tmp_path, sheet=SHEET.replace("joints:\n", plate))
    made.read_code()
    assert to_measure(made.bench(), "plate_speed").units == ("r/min",)
