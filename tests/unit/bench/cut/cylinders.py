"""A cylinder of round numbers, and what stands in an answer about a cut.

Bore area 10 000 mm² (bore 112.838 mm), stroke 90 mm: 900 cm³ swept. Chamber 80 cm³, gasket 1.0 mm on the same bore:
10 cm³, flat crown, piston flush: clearance 90 cm³, ratio 11.
"""

from gudgeon.bench.cut.consequences import CutAnswer
from gudgeon.bench.cut.table import Line
from tests.unit.bench.benches import Job
from tests.unit.sheet.sheets import SMALL

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


def heights(job: Job, condition: str, left: str, right: str) -> None:
    """The height of the head at both places."""
    for place, height in (("left", left), ("right", right)):
        job.record(
            "reading", item="head_height", place=place, value=f"{height} mm", instrument="caliper", condition=condition
        )  # fmt: skip


def line(answer: CutAnswer, what: str, *, table: int = 0) -> Line:
    """One consequence of a table."""
    (found,) = [one for one in answer.tables[table].lines if one.what == what]
    return found


def value(answer: CutAnswer, what: str, *, table: int = 0) -> float:
    """The middle of one consequence."""
    found = line(answer, what, table=table).value
    assert found is not None
    return found


def surely(answer: CutAnswer, what: str) -> float | None:
    """The cut up to which a limit is surely kept."""
    (found,) = [one for one in answer.most.limits if one.what == what]
    return found.surely_mm


def middle(answer: CutAnswer, what: str) -> float | None:
    """The cut at which a limit is met by the middle of all figures."""
    (found,) = [one for one in answer.most.limits if one.what == what]
    return found.middle_mm
