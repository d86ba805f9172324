"""The cut: ratio and squish, least and most. Every expected number is worked out by hand in the comment."""

from pathlib import Path

import pytest

from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.errors import CannotWorkOut
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

# A cylinder of round numbers: bore area 10 000 mm² (bore 112.838 mm), stroke 90 mm: 900 cm³ swept.
# Chamber 80 cm³, gasket 1.0 mm on the same bore: 10 cm³, flat crown, piston flush: clearance 90 cm³, ratio 11.
ROUND = SMALL.replace(
    "  bore: 70.00 mm\n  stroke: {value: 66.0 mm, source: manual p. 2}\n",
    """\
  bore: 112.8379 mm
  stroke: 90.0000 mm
  chamber_volume: 80.0000 cm³
  chamber_mouth_area: 90.0000 cm²
  crown_volume: 0.0000 cm³
  piston_height: 0.0000 mm
  gasket_bore: 112.8379 mm
  gasket_thickness: 1.0000 mm
  squish_pad_recess: 0.2000 mm
  least_squish: min 0.90 mm
""",
).replace(
    "characteristics:\n",
    """\
head:
  measured_as: head_height
  height: 100.00 mm ± 0.05 mm
  least_height: min 99.70 mm
  source: manual p. 8
characteristics:
  head_height:
    name: Head height
    part: cylinder head
    places: [left, right]
    wear_limit: min 99.70 mm
    source: manual p. 8
""",
)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=ROUND)
    made.read_code()
    return made


def test_a_cut_that_is_asked_about(job: Job) -> None:
    # 0.5 mm over 9 000 mm² takes 4.5 cm³: 1 + 900 / 85.5 = 11.5263. Squish 1.0 + max(0.2 − 0.5, 0) = 1.0.
    answer = consequences(job.bench(), off="0.5000 mm")
    assert answer.ratio_before.middle == pytest.approx(11.0, abs=2e-4)
    assert answer.ratio_after.middle == pytest.approx(11.5263, abs=2e-4)
    assert answer.squish_before is not None
    assert answer.squish_after is not None
    assert answer.squish_before.middle == pytest.approx(1.2, abs=1e-9)
    assert answer.squish_after.middle == pytest.approx(1.0, abs=1e-9)
    assert answer.ratio_after.least < answer.ratio_after.middle < answer.ratio_after.most


def test_least_and_most_follow_the_printed_tolerance(tmp_path: Path) -> None:
    # Chamber 80 ± 2 cm³, cut 0: 1 + 900/92 = 10.783 and 1 + 900/88 = 11.227 (the other figures are exact to 1e-4).
    job = make_job(tmp_path, sheet=ROUND.replace("80.0000 cm³", "80.0 ± 2.0 cm³"))
    job.read_code()
    before = consequences(job.bench(), off="0.0000 mm").ratio_before
    assert before.least == pytest.approx(10.783, abs=2e-3)
    assert before.most == pytest.approx(11.227, abs=2e-3)


def test_the_cut_that_was_made(job: Job) -> None:
    for place, height in (("left", "100.00"), ("right", "100.02")):
        job.record("reading", item="head_height", place=place, value=f"{height} mm", instrument="caliper")
    with pytest.raises(CannotWorkOut) as caught:
        consequences(job.bench())
    assert str(caught.value) == (
        "The cut that was made cannot be worked out. Missing: Head height as left, or ask about a cut with --off."
    )
    for place, height in (("left", "99.86"), ("right", "99.86")):
        job.record(
            "reading",
            item="head_height",
            place=place,
            value=f"{height} mm",
            instrument="caliper",
            condition="as left",
        )
    answer = consequences(job.bench())
    # Mean 100.01 − 99.86 = 0.15 mm; 1.35 cm³ gone: 1 + 900 / 88.65 = 11.1523
    assert answer.ratio_after.middle == pytest.approx(11.1523, abs=2e-4)
    left = next(line for line in answer.lines if line.what.startswith("Head height"))
    assert left.verdict == "0.16 mm (0.0063 in) may still come off"


def test_what_is_missing_is_named(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.read_code()
    with pytest.raises(CannotWorkOut) as caught:
        consequences(job.bench(), off="0.1 mm")
    assert str(caught.value).startswith(
        "The ratio after a cut cannot be worked out. Missing: chamber volume, "
    )


def test_more_than_ordered_is_said(job: Job) -> None:
    job.record(
        "shop-out", part="head", shop="the shop", ordered="the least that cleans up", most_off="0.10 mm"
    )
    for condition, height in (("as found", "100.00"), ("as left", "99.80")):
        for place in ("left", "right"):
            job.record(
                "reading",
                item="head_height",
                place=place,
                value=f"{height} mm",
                instrument="caliper",
                condition=condition,
            )
    line = consequences(job.bench()).lines[0]
    # 0.20 − 0.10 = 0.10 mm more; the caliper is off by at most 2·sqrt(2)·0.0176 = 0.05 mm, so it is sure.
    assert line.verdict == "0.10 mm (0.0039 in) more than ordered; all below follows what was taken"
    assert line.limit == "ordered: at most 0.10 mm"
