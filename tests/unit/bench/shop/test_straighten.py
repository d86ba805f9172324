"""Whether a head is straightened before it is cut."""

from pathlib import Path

import pytest

from gudgeon.bench.shop.straighten import straighten
from tests.unit.bench.shop.heads import SHEET, blades, head_job

USUAL = "0.076 mm (0.0030 in)"  # PRINTED: .003 in, in the article on repairing heads; 0.003 × 25.4 = 0.0762


def test_a_bent_head_is_straightened_first(tmp_path: Path) -> None:
    job = head_job(tmp_path)
    blades(job, "along", "0.10", "0.12")
    blades(job, "across", "0", "0.03")
    found = straighten(job.bench())
    assert found.due == "straighten first"
    assert found.why == (
        f"The face is off by 0.10–0.12 mm (0.0039–0.0047 in) (along), more than {USUAL}. Cutting makes the face flat "
        "and leaves the bearings of the camshafts bent as they are: the camshafts bind, or wear their bearings in the "
        "middle."
    )
    assert found.source == (
        "Cylinder head repair, article of a machine shop; overhead camshaft, warped by .003 in or more"
    )
    assert found.missing == ()


@pytest.mark.parametrize(
    ("low", "high", "due"),
    [
        ("0.03", "0.04", "not by its flatness"),
        ("0.07", "0.08", "in doubt"),
        ("0.09", "0.10", "straighten first"),
    ],
)
def test_the_limit_is_judged_with_the_gauge(tmp_path: Path, low: str, high: str, due: str) -> None:
    # HAND: blades of 0.005 mm error and an edge of 0.004 mm: u = √(0.005² + 0.004²)/√3 = 0.0037; 1.645 u = 0.006.
    # 0.09 − 0.006 lies above 0.076, 0.04 + 0.006 below it, 0.07 to 0.08 spans it.
    job = head_job(tmp_path)
    blades(job, "along", low, high)
    blades(job, "across", "0", "0.03")
    assert straighten(job.bench()).due == due


def test_the_figure_of_the_sheet_goes_before_that_of_the_trade(tmp_path: Path) -> None:
    sheet = SHEET.replace(
        "  material: aluminum", "  straighten_above: 0.15 mm (0.006 in)\n  material: aluminum"
    )
    job = head_job(tmp_path, sheet=sheet)
    blades(job, "along", "0.10", "0.12")
    blades(job, "across", "0", "0.03")
    found = straighten(job.bench())
    assert (found.due, found.limit, found.source) == (
        "not by its flatness",
        "0.15 mm (0.006 in)",
        "manual p. 8",
    )
    assert found.why == (
        "The face is off by 0.10–0.12 mm (0.0039–0.0047 in) (along), not more than 0.15 mm (0.006 in). Where a camshaft "
        "binds, straighten it all the same."
    )


def test_a_camshaft_in_the_block_needs_none(tmp_path: Path) -> None:
    job = head_job(tmp_path, sheet=SHEET.replace("camshaft: in the head", "camshaft: in the block"))
    blades(job, "along", "0.20", "0.25")
    found = straighten(job.bench())
    assert (found.due, found.why) == (
        "not for this head", "The camshaft runs in the block: no cam tunnel in the head can be bent.",
    )  # fmt: skip
    assert found.tunnel == ()


def test_an_iron_head_is_not_straightened(tmp_path: Path) -> None:
    job = head_job(tmp_path, sheet=SHEET.replace("material: aluminum", "material: gray cast iron"))
    blades(job, "along", "0.20", "0.25")
    found = straighten(job.bench())
    assert found.due == "not for this head"
    assert found.why == (
        "The head is of iron: it breaks rather than bends back, so it is not straightened. Where its cam tunnel is bent, "
        "ask the shop about boring the bearings in line, or find another head."
    )
    assert found.source == "common practice"


def test_what_is_not_known_is_named(tmp_path: Path) -> None:
    sheet = SHEET.replace("  material: aluminum\n", "").replace(", camshaft: in the head", "")
    found = straighten(head_job(tmp_path, sheet=sheet).bench())
    assert found.due == "not worked out"
    assert found.why == f"It is straightened first where the face is off by more than {USUAL}."
    assert found.missing == (
        "where the camshafts run (valve_gear: camshaft): the head is taken to carry them",
        "what the head is made of (head: material): one of iron is not straightened, one of aluminum is",
        "flatness not read: along, across",
    )


def test_one_line_that_is_flat_proves_nothing_of_the_other(tmp_path: Path) -> None:
    job = head_job(tmp_path)
    blades(job, "along", "0.03", "0.04")
    found = straighten(job.bench())
    assert found.due == "not worked out"
    assert found.why == (
        f"The face is off by 0.03–0.04 mm (0.0012–0.0016 in) (along), not more than {USUAL}, but not all lines are read. "
        "It is straightened first where one is more."
    )
    assert found.missing == ("flatness not read: across",)


def test_what_the_cam_tunnel_says(tmp_path: Path) -> None:
    job = head_job(tmp_path)
    for place, value in (("journal 1", "0.05"), ("journal 2", "0.15"), ("journal 3", "0.05")):
        job.record("reading", item="cam_clearance", place=place, value=f"{value} mm", instrument="strip")
    assert straighten(job.bench()).tunnel == (
        "Camshaft oil clearance, as found: 2 inside, 1 outside.",
        "Outside: journal 2.",
        "Caps on at their torque, valves out: each camshaft has to turn by hand, all the way round.",
    )


def test_a_tunnel_that_nobody_read(tmp_path: Path) -> None:
    assert straighten(head_job(tmp_path).bench()).tunnel[0] == (
        "Camshaft oil clearance: not read (gudgeon record reading cam_clearance)."
    )
