"""Engines with pushrods, measured margins, other drives and heads that were cut before. HAND: see the comments."""

from pathlib import Path

import pytest

from gudgeon.bench.cut.consequences import consequences
from tests.unit.bench.benches import Job
from tests.unit.bench.cut.cylinders import line, middle, value
from tests.unit.bench.stories import invented

GEAR = "  adjustment: shims\n  camshaft: in the head\n"
HAS_NOT = "does_not_have: [hydraulic lifters, screw adjusters, timing chain,"


def pushrods(folder: Path, gear: str) -> Job:
    return invented(folder, (GEAR, gear), (HAS_NOT, "does_not_have: [timing chain,"))


def test_lifters_on_pushrods_are_pressed_in_by_the_cut(tmp_path: Path) -> None:
    gear = "  adjustment: hydraulic lifters\n  camshaft: in the block\n  lifter_preload: 0.50–1.00 mm\n"
    answer = consequences(pushrods(tmp_path, gear).bench(), off="0.10 mm")
    preload = line(answer, "Preload of the lifters")
    # The middle of the range, 0.75 mm, and 0.10 mm; anywhere in ± 0.25 mm: U = 2 · 0.25/√3 = 0.2887 mm.
    assert preload.value == pytest.approx(0.85)
    assert preload.expanded == pytest.approx(0.28868, abs=1e-4)
    assert preload.verdict == "in doubt: measure it, or take shorter pushrods"
    # 1.00 − 0.75 = 0.25 mm to its limit.
    assert middle(answer, "preload of the lifters") == pytest.approx(0.25, abs=1e-6)
    # The camshaft stays where it is.
    assert line(answer, "Timing, Intake camshaft sprocket").after == "as before"


def test_solid_pushrods_lose_clearance_by_the_rocker(tmp_path: Path) -> None:
    gear = "  adjustment: screw adjusters\n  camshaft: in the block\n  rocker_ratio: 1.50\n"
    answer = consequences(pushrods(tmp_path, gear).bench(), off="0.10 mm")
    lost = line(answer, "Valve clearance that goes")
    assert lost.value == pytest.approx(0.15)
    assert lost.verdict == "set every valve again"


def test_lifters_of_which_nobody_says_where_their_camshaft_sits(tmp_path: Path) -> None:
    job = pushrods(tmp_path, "  adjustment: hydraulic lifters\n")
    text = (job.book.parent / "sheet.yaml").read_text(encoding="utf-8").splitlines()
    number = text.index("valve_gear:") + 2  # its first field
    assert (
        f"preload of the lifters: missing: where the camshaft sits (valve_gear.camshaft, line {number} of the data "
        "sheet, not stated)"
    ) in consequences(job.bench(), off="0.10 mm").tables[0].missing


MARGIN = """\
  intake_margin:
    name: Intake valve to piston
    part: Valves
    method: gap
    places: {cylinder: [1, 2, 3, 4]}
    how: clay on the piston, cut across and measured
    new_range: 1.80–2.00 mm
    source: bulletin p. 4
"""


def test_a_margin_that_was_measured_comes_before_that_of_a_new_engine(tmp_path: Path) -> None:
    job = invented(
        tmp_path,
        ("    clearance: intake_valve_clearance\n", "    clearance: intake_valve_clearance\n    margin: intake_margin\n"),
        ("  intake_valve_clearance:\n    name", f"{MARGIN}  intake_valve_clearance:\n    name"),
    )  # fmt: skip
    for cylinder, gap in (("1", "1.70"), ("2", "1.60")):
        job.record(
            "reading",
            item="intake_margin",
            place=f"cylinder {cylinder}",
            value=f"{gap} mm",
            condition="as found",
        )
    # The least, 1.60 mm, less 0.10 · cos 20°.
    answer = consequences(job.bench(), off="0.10 mm")
    assert value(answer, "Intake valve to piston") == pytest.approx(1.60 - 0.1 * 0.939693, abs=1e-6)
    assert "stated nowhere" in line(answer, "Intake valve to piston").verdict  # read with no gauge of the kit


def test_bolts_that_are_longer_than_new_reach_deeper(tmp_path: Path) -> None:
    job = invented(tmp_path)
    for bolt, length in (("1", "133.40"), ("2", "133.10")):
        job.record(
            "reading",
            item="head_bolt_length",
            place=f"bolt {bolt}",
            value=f"{length} mm",
            instrument="caliper",
        )
    # 36.0 − (133.40 − 101.90 + 0.10) = 4.40 mm: the longest counts, at 20 °C.
    assert value(consequences(job.bench(), off="0.10 mm"), "Free below the head bolts") == pytest.approx(
        4.40, abs=0.01
    )
    job.record("part-disposition", part="Head bolts", decision="renew", why="two are long")
    # New ones are as long as the sheet says: 36.0 − (133.00 − 101.90 + 0.10) = 4.80 mm.
    assert value(consequences(job.bench(), off="0.10 mm"), "Free below the head bolts") == pytest.approx(4.80)


def test_a_hole_too_shallow_for_its_bolt_is_said_with_its_line(tmp_path: Path) -> None:
    job = invented(tmp_path, ("      hole_depth: 36.0 mm\n", "      hole_depth: 31.0 mm\n"))
    text = (job.book.parent / "sheet.yaml").read_text(encoding="utf-8").splitlines()
    number = text.index("      hole_depth: 31.0 mm") + 1
    answer = consequences(job.bench(), off="0.10 mm")
    assert answer.contradictions == (
        f"joints.head.fastener.hole_depth, line {number} of the data sheet: Head bolt with flange, 12 mm six-lobe "
        "socket: the hole is 31.0 mm deep and the bolt reaches 31.1 mm (1.224 in) into it: it would stand on the bottom "
        "before anything was cut",
    )
    (bolt,) = [one for one in answer.most.limits if one.what == "free below the head bolts"]
    assert (bolt.surely, bolt.note, bolt.binds) == ("0.00 mm (0 in)", "passed before anything is cut", True)


def test_without_a_drive_the_rest_is_answered(tmp_path: Path) -> None:
    job = invented(tmp_path, ("  path: [crank, tensioner, intake, exhaust, water_pump, idler]\n", ""))
    answer = consequences(job.bench(), off="0.10 mm")
    assert line(answer, "Compression ratio").value is not None
    missing = answer.tables[0].missing
    assert any(one.startswith("cam timing: ") for one in missing)
    assert (
        "exhaust valve to piston: what the turned camshaft adds is not counted: its drive or its events are missing"
    ) in missing


def test_events_without_their_lift_are_said_to_be_taken_at_the_seat(tmp_path: Path) -> None:
    job = invented(
        tmp_path,
        ("    at_lift: {value: 0.25 mm, note: over the valve clearance}\n    lift: 8.80", "    lift: 8.80"),
    )
    said = (
        "valve to piston: what the turned camshaft adds is estimated with opening and closing at the seat: too little "
        "where the manual gives them at a lift, which `at_lift` would say"
    )
    missing = consequences(job.bench(), off="0.10 mm").tables[0].missing
    assert f"intake {said}" in missing
    assert f"exhaust {said}" not in missing


def test_pits_count_below_the_deepest_place(tmp_path: Path) -> None:
    job = invented(
        tmp_path,
        ("  face: head\n  cam_tunnel", "  face: head\n  pits: pits\n  cam_tunnel"),
        ("  deck_flatness:\n    name", "  pits:\n    name: Pits in the head face\n    part: Cylinder head\n    method: gap\n"
         "    places: [fire ring 2, fire ring 3]\n    new_range: max 0.02 mm\n    source: bulletin p. 3\n  deck_flatness:\n    name"),
    )  # fmt: skip
    job.record(
        "reading", item="head_flatness", place="across, timing end", low="0.03 mm", high="0.04 mm", instrument="feelers"
    )  # fmt: skip
    job.record("reading", item="pits", place="fire ring 3", value="0.04 mm", instrument="dial_gauge")
    least = consequences(job.bench()).least
    assert least is not None
    # 0.035 and 0.04 mm.
    assert least.middle_mm == pytest.approx(0.075, abs=1e-9)
    assert "fire ring 3" in least.source
