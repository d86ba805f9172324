"""What of the sheet belongs to the job: the characteristics that one of its tasks measures, the joints it tightens."""

from pathlib import Path

import pytest

from gudgeon.bench.network import JOBS, job
from gudgeon.bench.on_paper.of_the_job import joints_of_job, measured_by, measuring_rules, to_be_measured
from gudgeon.sheet.inspections import Characteristic
from tests.unit.bench.benches import make_job
from tests.unit.bench.stories import invented, open_before

OF_THE_BOTTOM_END = (
    "Piston skirt", "Piston-to-bore clearance", "End gap of the top ring", "End gap of the second ring",
)  # fmt: skip


def test_every_task_of_a_rule_is_a_task_of_a_job() -> None:
    known = {key for name in JOBS for key in job(name).tasks}
    assert {key for rule in measuring_rules() for key in rule.tasks} <= known


@pytest.mark.parametrize(
    ("name", "part", "task"),
    [
        ("Cylinder bore", "Block", "measure_bores"),
        ("Oil pump gear side clearance", "Oil pump", "measure_oil_pump"),
        ("Main bearing oil clearance", "Crankshaft", "lay_main_shells"),
        ("Camshaft bearing bore", "Cylinder head", "measure_camshafts"),
        ("Free length", "Valve springs", "measure_seats"),
        ("Run-out", "Crankshaft", "measure_crank"),
        ("Exhaust valve guide, inside", "Cylinder head", "measure_valves"),
        ("Free length", "Connecting rod bolts", "sort_fasteners"),
    ],
)
def test_a_characteristic_is_known_by_its_name_else_by_its_part(name: str, part: str, task: str) -> None:
    assert task in measured_by(Characteristic(name=name, part=part))


def test_the_job_says_what_is_measured(tmp_path: Path) -> None:
    made = invented(tmp_path)
    assert to_be_measured(made.bench())[1] == OF_THE_BOTTOM_END
    made.record("job-chosen", job="with_bottom_end")
    assert to_be_measured(made.bench())[1] == ()


@pytest.mark.parametrize(("name", "own"), [("timing_belt", {"cranking_pressure"}), ("cover_reseal", set())])
def test_a_part_of_a_job_measures_little(tmp_path: Path, name: str, own: set[str]) -> None:
    made = invented(tmp_path)
    made.record("job-chosen", job=name)
    assert set(to_be_measured(made.bench())[0]) == own


def test_what_was_read_belongs_to_any_job(tmp_path: Path) -> None:
    made = invented(tmp_path)
    made.record("job-chosen", job="cover_reseal")
    made.record("reading", item="top_ring_gap", place="1", value="0.31 mm", instrument="feelers")
    assert set(to_be_measured(made.bench())[0]) == {"top_ring_gap"}


def test_what_no_rule_knows_belongs_to_a_whole_job(tmp_path: Path) -> None:
    from tests.unit.sheet.sheets import SMALL

    made = make_job(
        tmp_path,
        sheet=SMALL.replace("name: Crank journal", "name: Depth").replace("part: crankshaft", "part: thing"),
    )
    assert "journal" in to_be_measured(made.bench())[0]


def test_the_joints_that_a_job_leaves_alone_are_named(tmp_path: Path) -> None:
    made = invented(tmp_path)
    assert joints_of_job(made.bench())[1] == ()
    made.record("job-chosen", job="timing_belt")
    own, others = joints_of_job(made.bench())
    assert "Cylinder head bolts" in others
    assert "head" not in own
    assert "pulley" in " ".join(own)


def test_a_joint_without_a_role_belongs_to_the_part_of_a_job_that_fits_what_it_is_called_after(
    tmp_path: Path,
) -> None:
    made = invented(tmp_path)
    made.record("job-chosen", job="timing_belt")
    own, others = joints_of_job(made.bench())
    assert made.bench().sheet.joints["idler"].role is None
    assert "idler" in own
    assert "Idler bolt" not in others
    assert any("Idler bolt" in what for what in open_before(made))
    made.record("job-chosen", job="cover_reseal")
    assert "Idler bolt" in joints_of_job(made.bench())[1]
