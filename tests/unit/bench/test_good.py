"""Verdicts in words. Limits and uncertainties chosen so that the answer can be worked out by hand."""

from pathlib import Path

import pytest

from gudgeon.bench.errors import FarFromRange, Unknown
from gudgeon.bench.good import Row, inspect
from gudgeon.errors import InputError
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

SHEET = SMALL.replace(
    "joints:\n",
    """\
  bore:
    name: Cylinder bore
    part: block
    places: {cylinder: [1, 2], height: [top, bottom], direction: [across, along]}
    new_range: 70.00–70.02 mm
    wear_limit: max 70.10 mm
    source: manual p. 6
  oval:
    name: Bore out of round
    part: block
    method: out-of-round
    of: [bore]
    wear_limit: max 0.20 mm
    source: manual p. 6
  valve_clearance:
    name: Valve clearance
    part: valve gear
    method: gap
    required: 0.15–0.25 mm
    source: manual p. 7
joints:
""",
)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=SHEET)
    made.read_code()
    return made


def rows(job: Job, item: str) -> dict[str, Row]:
    return {row.place: row for row in inspect(job.bench(), only=item).rows}


def test_not_measured_and_no_limit(job: Job) -> None:
    assert rows(job, "head_face")["along; across"].verdict == "not measured"
    job.record("reading", item="journal", place="A", value="29.985 mm", instrument="micrometer")
    row = rows(job, "journal")["A"]
    # HAND: new is 29.980–29.993; a = 0.004, step 0.01: u = √(0.004²/3 + 0.01²/12) = 0.0037. The ends lie 1.35 u and
    # 2.16 u away: 8.9 % and 1.5 % may lie beyond them, more than 5 % together.
    assert (row.verdict, row.reason) == ("no limit given", "in doubt whether it is within the new range")
    job.record("reading", item="journal", place="B", value="29.970 mm", instrument="micrometer")
    assert rows(job, "journal")["B"].reason == "outside the new range: worn or changed"


def test_inside_outside_in_doubt_with_the_error_of_the_gauge(job: Job) -> None:
    # Caliper: a = 0.03 mm, step 0.01 mm -> u = sqrt(0.03²/3 + 0.01²/12) = 0.01756 mm; 1.645 u = 0.0289 mm.
    for place, value in (
        ("1 top across", "70.06"),
        ("1 top along", "70.08"),
        ("1 bottom across", "70.14"),
        ("1 bottom along", "70.12"),
    ):
        job.record("reading", item="bore", place=place, value=f"{value} mm", instrument="caliper")
    found = rows(job, "bore")
    assert found["cylinder 1, top, across"].verdict == "inside"
    assert found["cylinder 1, top, along"].verdict == "in doubt"
    assert found["cylinder 1, bottom, across"].verdict == "outside"
    assert found["cylinder 1, bottom, along"].verdict == "in doubt"
    assert found["cylinder 1, top, across"].uncertainty == "± 0.035 mm (0.0014 in)"
    # 0.02 mm from the limit; the chance is Phi(0.02/0.01756) = 87 %. Wanted: a = 0.02/1.645·sqrt(3) = 0.0211 mm.
    doubt = found["cylinder 1, top, along"]
    assert doubt.reason == "the chance of being inside is 87 %: the gauge cannot tell"
    assert doubt.way_out.startswith(
        "none of your gauges decides it: borrow a bore gauge that reaches 70 mm (2.759 in) that is off by at most 0.021"
    )
    assert found["4 more places"].verdict == "not measured"


def test_worked_out_from_other_readings(job: Job) -> None:
    job.record(
        "reading", item="bore", place="1 top across", value="70.06 mm", instrument="micrometer", sure=True
    )
    job.record(
        "reading", item="bore", place="1 top along", value="70.03 mm", instrument="micrometer", sure=True
    )
    row = rows(job, "oval")["cylinder 1, top"]
    assert row.reading == "0.03 mm (0.0012 in)"
    assert row.verdict == "inside"


def test_blades_give_an_interval(job: Job) -> None:
    # u = 0.005/sqrt(3) = 0.00289; 1.645 u = 0.0047: 0.04 stays inside, 0.05 may not.
    job.record("reading", item="head_face", place="along", high="0.04 mm", instrument="feelers")
    job.record(
        "reading", item="head_face", place="across", low="0.05 mm", high="0.06 mm", instrument="feelers"
    )
    found = rows(job, "head_face")
    assert (found["along"].reading, found["along"].verdict) == ("under 0.04 mm (0.0016 in)", "inside")
    assert found["across"].verdict == "in doubt"
    # the 0.05 blade entered: none that is thinner can be kept out any more
    assert found["across"].way_out == (
        "it is on the limit, and no blade proves it inside; accept it with a reason, or renew"
    )
    job.record(
        "reading", item="head_face", place="across", low="0.06 mm", high="0.07 mm", instrument="feelers"
    )
    assert rows(job, "head_face")["across"].verdict == "outside"


def test_as_left_is_judged_and_as_found_stands_beside_it(job: Job) -> None:
    job.record(
        "reading", item="head_face", place="along", low="0.08 mm", high="0.09 mm", instrument="feelers"
    )
    job.record(
        "reading", item="head_face", place="along", high="0.03 mm", instrument="feelers", condition="as left"
    )
    row = rows(job, "head_face")["along"]
    assert (row.verdict, row.as_found) == ("inside", "0.08–0.09 mm (0.0031–0.0035 in)")


def test_a_required_range(job: Job) -> None:
    job.record("reading", item="valve_clearance", value="0.20 mm", instrument="feelers")
    assert rows(job, "valve_clearance")[""].verdict == "inside"
    job.record("reading", item="valve_clearance", value="0.30 mm", instrument="feelers")
    assert rows(job, "valve_clearance")[""].verdict == "outside"


def test_inches_are_read_and_shown_beside_millimeters(job: Job) -> None:
    job.record("reading", item="bore", place="1 top across", value="2.756 in", instrument="caliper")
    assert rows(job, "bore")["cylinder 1, top, across"].reading == "70.002 mm (2.7560 in)"


@pytest.mark.parametrize(
    ("item", "place", "value", "message"),
    [
        ("bore", "1 top across", "2.757 mm", "2.757 mm is far from what the sheet says of it (70.00–70.02 mm). As mm it is 2.757 mm, as inches it would be 70.03 mm. Was it read in inches? If it is what the gauge says, add --sure."),
        ("bore", "1 top across", "7.003 mm", "7.003 mm is far from what the sheet says of it (70.00–70.02 mm). Is a digit missing? If it is what the gauge says, add --sure."),
        ("bore", "1 top across", "700.3 mm", "700.3 mm is far from what the sheet says of it (70.00–70.02 mm). Is a digit too many? If it is what the gauge says, add --sure."),
        ("journal", "A", "60.0 mm", "60.0 mm is far from the range of the micrometer 25–50 (25–50 mm). Which gauge was it? If it is what the gauge says, add --sure."),
    ],
)  # fmt: skip
def test_a_slip_is_asked_back(job: Job, item: str, place: str, value: str, message: str) -> None:
    gauge = "micrometer" if item == "journal" else ""
    with pytest.raises(FarFromRange) as caught:
        job.record("reading", item=item, place=place, value=value, instrument=gauge)
    assert str(caught.value) == message
    assert job.bench().state.readings == {}


@pytest.mark.parametrize("value", ["70.03", "70.03 N·m", "nan mm", "", "70,03 mm", "-"])
def test_bad_values_are_refused_and_nothing_is_written(job: Job, value: str) -> None:
    with pytest.raises(InputError):
        job.record("reading", item="bore", place="1 top across", value=value)
    assert job.bench().state.readings == {}


def test_an_ambiguous_place_is_told(job: Job) -> None:
    with pytest.raises(Unknown) as caught:
        job.record("reading", item="bore", place="1 top", value="70.03 mm")
    assert str(caught.value) == (
        "`1 top` is no place of “Cylinder bore” here. Known: “cylinder 1, top, across”, “cylinder 1, top, along”."
    )


def test_a_gauge_whose_error_is_not_known_proves_no_inside(job: Job) -> None:
    job.record("reading", item="bore", place="1 top across", value="70.01 mm")
    row = rows(job, "bore")["cylinder 1, top, across"]
    assert (row.verdict, row.way_out) == ("in doubt", "name the gauge with --gauge")
    job.record("reading", item="bore", place="1 top across", value="70.20 mm")
    assert rows(job, "bore")["cylinder 1, top, across"].verdict == "outside"


RING = """\
  ring_gap:
    name: End gap of the top ring
    part: piston rings
    method: gap
    new_range: 0.25–0.40 mm (0.0098–0.0157 in)
    wear_limit: max 0.80 mm (0.0315 in)
    source: manual p. 8
joints:
"""


@pytest.fixture
def rings(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=SHEET.replace("joints:\n", RING))
    made.read_code()
    return made


@pytest.mark.parametrize(
    ("value", "hint"),
    [
        ("0.33 in", "As inches it is 8.382 mm, as mm it would be 0.33 mm. Was it read in millimeters?"),
        ("0.013 mm", "As mm it is 0.013 mm, as inches it would be 0.3302 mm. Was it read in inches?"),
        ("32 mm", "Is the unit right?"),
        ("0.02 mm", "As mm it is 0.02 mm, as inches it would be 0.508 mm. Was it read in inches?"),
    ],
)
def test_an_inch_taken_for_a_millimeter_is_asked_back_for_a_gap_too(
    rings: Job, value: str, hint: str
) -> None:
    with pytest.raises(FarFromRange) as caught:
        rings.record("reading", item="ring_gap", value=value)
    assert f"(0.25–0.40 mm (0.0098–0.0157 in)). {hint}" in str(caught.value)


@pytest.mark.parametrize("value", ["0.90 mm", "1.60 mm", "0.10 mm", "0.035 in"])
def test_an_honest_worn_gap_is_not_asked_back(rings: Job, value: str) -> None:
    rings.record("reading", item="ring_gap", value=value)
    assert len(rings.bench().state.readings) == 1


@pytest.mark.parametrize("value", ["0 mm", "0.001 mm", "0.30 mm"])
def test_a_single_limit_takes_anything_up_to_ten_times_it(job: Job, value: str) -> None:
    """A head warped by six times its limit is sad and honest."""
    job.record("reading", item="head_face", place="along", value=value)
    assert len(job.bench().state.readings) == 1


def test_a_size_of_nothing_is_asked_back(job: Job) -> None:
    with pytest.raises(FarFromRange):
        job.record("reading", item="bore", place="1 top across", value="0 mm")
