"""What is refused of a reading, and that nothing of it is written. Texts and limits: HAND, from the sheet of the test."""

from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.reading_body import parted, unit_in
from gudgeon.book.errors import BodyRefused
from gudgeon.errors import GudgeonError
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_budget import GAUGES, SHEET
from tests.unit.sheet.sheets import SMALL

SURE = "If it is what the gauge says, add --sure."


@pytest.fixture
def job(tmp_path: Path) -> Job:
    from tests.unit.bench.benches import KIT

    made = make_job(
        tmp_path, sheet=SHEET, kit=KIT[: KIT.index("gauges:")] + GAUGES + KIT[KIT.index("turning:") :]
    )
    made.read_code()
    return made


def refused(job: Job, **said: Any) -> str:
    with pytest.raises(GudgeonError) as caught:
        job.record("reading", **said)
    assert job.bench().state.readings == {}
    return str(caught.value)


PISTON = {"item": "piston", "place": "1", "instrument": "micrometer"}


@pytest.mark.parametrize(
    ("said", "message"),
    [
        ({"value": "69.95 mm", "repeats": ["2.754 mm"]},
         "2.754 mm is far from what the sheet says of it (69.94–69.96 mm). As mm it is 2.754 mm, as inches it would be "
         f"69.95 mm. Was it read in inches? {SURE}"),
        ({"value": "69.95 mm", "repeats": ["6.995 mm"]},
         f"6.995 mm is far from what the sheet says of it (69.94–69.96 mm). Is a digit missing? {SURE}"),
        ({"value": "69.95 mm", "repeats": ["2.754 in"]},
         "Of Piston figures in in and mm were given. Give all of them in one unit."),
        ({"value": "69.95", "repeats": ["69.96"]},
         "`69.95` has no unit. Write it with one of: mm, in, µm, thou (length)."),
        ({"value": "80 mm"}, "80 mm is far from the range of the micrometer (50–75 mm). Which gauge was it? " + SURE),
    ],
)  # fmt: skip
def test_repeats_are_looked_at_like_values(job: Job, said: dict[str, Any], message: str) -> None:
    text = (
        refused(job, **{**PISTON, "instrument": ""}, **said)
        if "80" not in said["value"]
        else refused(job, **PISTON, **said)
    )
    assert text == message


def test_repeats_ten_fold_apart_are_asked_back_where_the_sheet_lets_both_pass(job: Job) -> None:
    said = {"item": "end_float", "repeats": ["0.02 mm", "0.20 mm"], "instrument": "clock"}
    assert refused(job, **said) == (
        "Of End float 0.02 mm and 0.20 mm were read at one place: nine-fold apart or more. Is a digit or a unit wrong? "
        + SURE
    )
    job.record("reading", **said, sure=True)
    assert job.bench().state.readings["end_float", "", "as found"].value == "0.1100"


@pytest.mark.parametrize("value", ["nan mm", "inf mm", "", "  ", "69.95 N·m", "mm"])
def test_what_is_no_figure_is_refused_in_repeats_too(job: Job, value: str) -> None:
    refused(job, **PISTON, value=value)
    if value.strip():
        refused(job, **PISTON, value="69.95 mm", repeats=[value])


@pytest.mark.parametrize(
    ("said", "message"),
    [
        ({"part_temperature": "24"}, "`24` has no unit. Write it with one of: °C, °F, K (temperature)."),
        ({"part_temperature": "240 °C"},
         "The temperature of the part cannot be 240 °C: what is measured by hand is between -40 and 150 °C. Read it again."),
        ({"part_temperature": "-60 °F"},
         "The temperature of the part cannot be -60 °F: what is measured by hand is between -40 and 150 °C. Read it again."),
        ({"part_temperature": "75 °C"},
         "The temperature of the part was given as 75 °C. Read in °F it would be 24 °C. Was it read in °F? If the part is "
         "that warm or cold, add --sure."),
        ({"part_temperature": "24 °C", "gauge_temperature": "22 °F"},
         "The temperature of the gauge was given as 22 °F. Read in °C it would be 72 °F. Was it read in °C? If the gauge is "
         "that warm or cold, add --sure."),
        ({"part_temperature": "24 °C", "gauge_temperature": "70 °F"},
         "Of the temperatures figures in °C and °F were given. Give all of them in one unit."),
        ({"gauge_temperature": "same as part"},
         "The gauge is said to be as warm as the part, and how warm the part is was not said. Give it as well: "
         "--part-temp `24 °C`."),
        ({"part_temperature": "24 °C", "gauge_temperature": "20 °C", "gauge_as_part": True},
         "The gauge is said to be as warm as the part, and to be at 20 °C. Say one of both."),
    ],
)  # fmt: skip
def test_a_temperature_refused_and_why(job: Job, said: dict[str, Any], message: str) -> None:
    assert refused(job, **PISTON, value="69.95 mm", **said) == message


def test_a_gauge_of_another_kind_of_quantity_has_its_range_too(job: Job) -> None:
    assert refused(job, item="pressure", place="1", value="2500 kPa", instrument="compression") == (
        f"2500 kPa is far from the range of the compression gauge (0–2000 kPa). Which gauge was it? {SURE}"
    )


@pytest.mark.parametrize(
    ("value", "hint"),
    # HAND: 2.754 in are 69.95 mm, and 699.5 is ten-fold 69.95.
    [("2.754 mm", "As mm it is 2.754 mm, as inches it would be 69.95 mm. Was it read in inches?"),
     ("6.995 mm", "Is a digit missing?"), ("699.5 mm", "Is a digit too many?"), ("110 mm", "Which gauge was it?")],
)  # fmt: skip
def test_what_the_gauge_cannot_have_read_is_first_the_slip_that_fits(job: Job, value: str, hint: str) -> None:
    assert refused(job, **PISTON, value=value) == (
        f"{value} is far from the range of the micrometer (50–75 mm). {hint} {SURE}"
    )


def test_repeats_belong_to_no_interval(job: Job) -> None:
    with pytest.raises(BodyRefused) as caught:
        job.record("reading", item="deck", place="along", low="0.03 mm", high="0.04 mm", repeats=["0.03 mm"])
    assert (
        str(caught.value)
        == "This reading is not complete: one value or an interval was expected. Nothing was recorded."
    )


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("81.65 81.66 81.65 mm", ["81.65", "81.66", "81.65 mm"]),
        ("81.65mm;81.66mm", ["81.65mm", "81.66mm"]),
        ("81.65 mm 81.66 mm", ["81.65 mm", "81.66 mm"]),
        ("70 lbf ft", ["70 lbf ft"]),
        ("mm", ["mm"]),
        ("  ", []),
    ],
)
def test_several_figures_in_one_text(text: str, parts: list[str]) -> None:
    assert parted(text) == parts


@pytest.mark.parametrize(
    ("text", "unit"), [("81.65 mm", "mm"), ("81.65", ""), ("-0.02", ""), ("24 °C", "°C"), ("1.5in", "in")]
)
def test_the_unit_behind_a_figure(text: str, unit: str) -> None:
    assert unit_in(text) == unit


def test_a_mean_is_kept_with_what_was_read(job: Job) -> None:
    job.record(
        "reading", **PISTON, value="69.95 mm", repeats=["69.96 69.95"], part_temperature="75.2 °F",
        gauge_temperature="same as part",
    )  # fmt: skip
    found = job.bench().state.readings["piston", "cylinder 1", "as found"]
    assert (found.value, found.repeats, found.unit) == ("69.9533", ("69.95", "69.96", "69.95"), "mm")
    assert (found.part_temperature, found.temperature_unit, found.gauge_as_part) == ("75.2", "°F", True)


SIGNED = """\
  lash: {name: Camshaft clearance, part: valve gear, method: gap, wear_limit: max 0.10 mm, source: manual p. 7}
  bare: {name: Bare bore, part: block, source: manual p. 7}
  crown: {name: Piston crown, part: piston, method: gap, required: -0.10–0.20 mm, source: manual p. 7}
  rise: {name: Piston rise, part: piston, method: heights, wear_limit: max 0.20 mm, source: manual p. 7}
  advance: {name: Valve opens, part: valve gear, quantity: angle, wear_limit: max 20°, source: manual p. 7}
joints:
"""


@pytest.fixture
def signed(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=SMALL.replace("joints:\n", SIGNED))
    made.read_code()
    return made


@pytest.mark.parametrize(
    "said",
    [
        {"item": "lash", "value": "-0.05 mm"},
        {"item": "lash", "value": "-0.002 in"},
        {"item": "lash", "low": "-0.20 mm", "high": "-0.15 mm"},
        {"item": "lash", "value": "0.05 mm", "repeats": ["-0.05 mm"]},
        {"item": "journal", "place": "A", "value": "-29.985 mm"},
        {"item": "bare", "value": "-81.65 mm"},
    ],
)
def test_a_size_or_a_gap_below_zero_is_asked_back(signed: Job, said: dict[str, Any]) -> None:
    """HAND: nothing is smaller than nothing; a sign slipped in, and below the most it would be judged inside."""
    text = refused(signed, **said)
    assert text.startswith("-")
    assert " is below 0, and a " in text
    assert text.endswith(f"Is the sign right? {SURE}")


@pytest.mark.parametrize(
    "said",
    [
        {"item": "crown", "value": "-0.05 mm"},
        {"item": "rise", "value": "-0.05 mm"},
        {"item": "advance", "value": "-5°"},
        {"item": "lash", "value": "0 mm"},
        {"item": "lash", "value": "-0.05 mm", "sure": True},
    ],
)
def test_what_may_stand_below_zero_is_kept(signed: Job, said: dict[str, Any]) -> None:
    """HAND: the sheet prints a figure below 0, or it is read against a zero of its own, or somebody is sure."""
    signed.record("reading", **said)
    assert len(signed.bench().state.readings) == 1
