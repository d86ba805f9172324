"""What is said at once of a reading that is judged together with others. Verdicts are HAND, as in the other tests."""

from pathlib import Path

import pytest

from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.sheet.sheets import SMALL

SHAPES = """\
  whole:
    name: Deck
    part: block
    method: straightedge lines
    places: [one, two]
    limits: [{shape: whole face, limit: max 0.05 mm}]
    source: manual p. 6
  compression:
    name: Compression
    part: engine
    quantity: pressure_gauge
    places: {cylinder: [1, 2]}
    limits: [{shape: difference between cylinders, percent_of_highest: min 75 %}]
    source: manual p. 6
joints:
"""
TESTER = (
    "  tester: {name: compression tester, kind: compression gauge, range: 0–2000 kPa, error: 3 %}\nturning:\n"
)
REASON = "Outside the limit (whole face, at most 0.05 mm): the gap under the straightedge alone is more, two."


@pytest.fixture
def job(tmp_path: Path) -> Job:
    sheet, kit = SMALL.replace("joints:\n", SHAPES), KIT.replace("turning:\n", TESTER)
    made = make_job(tmp_path, sheet=sheet, kit=kit)
    made.read_code()
    return made


def test_what_lines_can_never_prove_is_not_said_of_every_line(job: Job) -> None:
    said = job.record("reading", item="whole", place="one", high="0.04 mm", instrument="feelers")
    assert not any("whole face" in remark for remark in said.remarks)
    said = job.record(
        "reading", item="whole", place="two", low="0.08 mm", high="0.10 mm", instrument="feelers"
    )
    assert REASON in said.remarks


def test_a_cylinder_is_answered_when_the_others_are_read(job: Job) -> None:
    said = job.record("reading", item="compression", place="1", value="1000 kPa", instrument="tester")
    assert not any("inside" in remark.lower() for remark in said.remarks)
    said = job.record("reading", item="compression", place="2", value="500 kPa", instrument="tester")
    assert "Cylinder 2: outside the limit (every cylinder at least 75 % of the highest)." in said.remarks


def test_a_scanned_face_is_answered_with_its_verdict(job: Job) -> None:
    """HAND: four corners twisted by ± 0.05 mm need a zone of 0.10 mm; nothing about its gauge has to be known for that."""
    points = [["0", "0", "0.05"], ["450", "0", "-0.05"], ["450", "180", "0.05"], ["0", "180", "-0.05"]]
    said = job.record(
        "face-scanned",
        item="whole",
        unit="mm",
        points=points,
        condition="as found",
        file="deck.csv",
        sha="0" * 64,
    )
    assert "Outside the limit (whole face, at most 0.05 mm)." in said.remarks


def reads(job: Job, place: str, value: str, condition: str) -> tuple[str, ...]:
    said = job.record(
        "reading", item="compression", place=f"cylinder {place}", value=f"{value} kPa", instrument="tester",
        condition=condition, sure=True,
    )  # fmt: skip
    return said.remarks


def test_the_limit_between_cylinders_is_said_once_with_a_verdict_for_each(job: Job) -> None:
    # 500 of 1000 kPa is 50 %, under 75 %: cylinder 1, the highest, is inside and cylinder 2 is not
    reads(job, "2", "500", "as found")
    remarks = reads(job, "1", "1000", "as left")
    assert remarks == (
        "Every cylinder at least 75 % of the highest: cylinder 1 inside; cylinder 2 outside.",
        "Read as found only, before the work, and compared with this one as left: cylinder 2. Read it again: gudgeon "
        "record reading compression --as-left",
    )
    assert reads(job, "2", "990", "as left") == (
        "Cylinder 2: inside the limit (every cylinder at least 75 % of the highest).",
    )


PLAIN = """\
  oiled:
    name: Compression with oil
    part: engine
    quantity: pressure_gauge
    places: {cylinder: [1, 2]}
    source: manual p. 6
joints:
"""


def test_what_the_sheet_limits_nowhere_is_kept_without_a_word(tmp_path: Path) -> None:
    made = make_job(tmp_path, sheet=SMALL.replace("joints:\n", PLAIN), kit=KIT.replace("turning:\n", TESTER))
    made.read_code()
    said = made.record("reading", item="oiled", place="1", value="1000 kPa", instrument="tester")
    assert said.remarks == ()
