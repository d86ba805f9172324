"""A squish pad that would stand out of its face: no squish is worked out with it."""

from pathlib import Path

from gudgeon.bench.cut.consequences import consequences
from tests.unit.bench.benches import make_job
from tests.unit.bench.cut.cylinders import ROUND


def test_a_negative_recess_takes_the_squish_and_nothing_else(tmp_path: Path) -> None:
    text = ROUND.replace("squish_pad_recess: 0.2000 mm", "squish_pad_recess: -0.2000 mm")
    job = make_job(tmp_path, sheet=text)
    job.read_code()
    answer = consequences(job.bench(), off="0.1 mm")
    number = 1 + text.splitlines().index("  squish_pad_recess: -0.2000 mm")
    (table,) = answer.tables
    assert "Squish" not in [one.what for one in table.lines]
    assert (
        f"squish: squish pad recess -0.2000 mm is below 0 (line {number} of the data sheet)" in table.missing
    )
    assert "Compression ratio" in [one.what for one in table.lines]
    assert "squish" not in [one.what for one in answer.most.limits]
