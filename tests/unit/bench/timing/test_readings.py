"""Dead and lobe centers from readings of the book: what they are, how sure, and what the sheet says of them."""

import math
from pathlib import Path

import pytest

from gudgeon.bench.timing.readings import Center
from gudgeon.calc.engine.tdc import depth_of_stop, stop_angles
from tests.unit.bench.timing.engines import asked, cut, job, read

Change = tuple[str, str]


def lines(
    folder: Path, readings: dict[str, tuple[str, str]], *changes: Change, with_cut: bool = False
) -> list[Center]:
    """The three lines, after readings by the characteristic: both of its places."""
    of = job(folder, *changes)
    places = {"crank_stops": ("turned forward", "turned back")}
    for item, values in readings.items():
        for place, value in zip(places.get(item, ("opening", "closing")), values, strict=True):
            read(of, item, place, value)
    if with_cut:
        cut(of)
    return list(asked(of).centers.lines)


def test_top_dead_center_lies_in_the_middle_over_the_zero_of_the_disk(tmp_path: Path) -> None:
    """HAND: 30° and 310° have their middle at 350°.

    Step 1° (± 0.5° rectangular, u = 0.289°) and error 0.5° (rectangular, u = 0.289°) for each reading; the error of the
    disk counts half as the same in both, half by itself: u² = 0.289²/2 + 0.289²/2 + (0.289² + 0.289²)/2 · 1/2.
    """
    top = lines(tmp_path, {"crank_stops": ("30", "310")})[0]
    assert top.found_deg == pytest.approx(350.0)
    step = error = 0.5 / math.sqrt(3)
    u = math.sqrt(step**2 / 2 + error**2 / 2 + error**2 / 2 / 2)
    assert top.expanded_u_deg == pytest.approx(2 * u, rel=1e-6)
    assert top.words == f"350.00° on the disk, ± {2 * u:.2f}°"
    assert top.notes == ("no pin offset is stated: the middle is taken as top dead center",)


def test_an_offset_pin_is_allowed_for(tmp_path: Path) -> None:
    """HAND: stroke 66 mm, rod 120 mm, offset 1 mm, stop 10 mm down; readings from the kernel's own angles, moved by 5°.

    The true dead center then lies at 5° + asin(1 / 153) = 5.3745°, and the middle is atan(1 / (√(153² − 1) − 10)) −
    asin(1 / 153) = 0.0262° after it.
    """
    stop = stop_angles(10.0, stroke_mm=66.0, rod_length_mm=120.0, pin_offset_mm=1.0)
    readings = tuple(f"{5 + angle:.6f}" for angle in (stop.after_deg, stop.before_deg + 360))
    geometry = (
        "  source: manual p. 3\n",
        "  source: manual p. 3\n  rod_length: 120.0 mm\n  pin_offset: 1.0 mm\n",
    )
    top = lines(tmp_path, {"crank_stops": (readings[0], readings[1])}, geometry)[0]
    assert top.found_deg == pytest.approx(5 + math.degrees(math.asin(1 / 153)), abs=1e-4)
    assert top.notes == (
        "the offset pin puts the middle of both readings 0.026° after the true one; allowed for",
    )


def test_the_depth_of_a_stop_follows_from_its_angles() -> None:
    for depth in (0.5, 10.0, 40.0, 65.0):
        half = stop_angles(depth, stroke_mm=66.0, rod_length_mm=120.0, pin_offset_mm=1.0).half_angle_deg
        found = depth_of_stop(half, stroke_mm=66.0, rod_length_mm=120.0, pin_offset_mm=1.0)
        assert found == pytest.approx(depth, abs=1e-9)


def test_a_lobe_counts_from_the_dead_center_that_was_read(tmp_path: Path) -> None:
    """HAND: intake (48 + 148) / 2 = 98° on the disk, dead center at 350°: 108° after it. Exhaust: (190 + 294) / 2 = 242°
    on the disk is 252° after, which is 108° before the next."""
    readings = {"crank_stops": ("30", "310"), "intake_lobe": ("48", "148"), "exhaust_lobe": ("190", "294")}
    _, intake, exhaust = lines(tmp_path, readings)
    assert intake.found_deg == pytest.approx(108.0)
    assert exhaust.found_deg == pytest.approx(108.0)
    assert intake.words == f"108.0° after top dead center, ± {intake.expanded_u_deg:.1f}°"
    assert exhaust.words == f"108.0° before top dead center, ± {exhaust.expanded_u_deg:.1f}°"
    assert (intake.limit, intake.verdict, intake.source) == ("105–111°", "inside", "manual p. 22")
    assert 0.5 < intake.expanded_u_deg < 1.5


@pytest.mark.parametrize(
    ("readings", "verdict"),
    [
        (("58", "158"), "inside"),
        (("54.5", "154.5"), "in doubt"),
        (("50", "150"), "outside"),
        (("65", "165"), "outside"),
    ],
)
def test_the_verdict_allows_for_what_the_disk_errs(
    tmp_path: Path, readings: tuple[str, str], verdict: str
) -> None:
    """HAND: middles of 108°, 104.5°, 100° and 115° against 105 to 111°; the disk errs by less than 1.5°."""
    intake = lines(tmp_path, {"intake_lobe": readings})[1]
    assert intake.verdict == verdict
    assert intake.notes[0] == "counted from the zero of the disk, since no top dead center was read"


def test_what_the_cut_explains_is_said_with_it(tmp_path: Path) -> None:
    """HAND: 0.2 mm make 0.377° of the crankshaft; (59 + 159) / 2 = 109°, 1° more than the middle of 105 to 111°."""
    intake = lines(tmp_path, {"intake_lobe": ("59", "159")}, with_cut=True)[1]
    assert intake.notes[1] == "1° more than the sheet states; of which the cut explains 0.4° more"


def test_what_is_not_read_is_named(tmp_path: Path) -> None:
    of = job(tmp_path)
    read(of, "crank_stops", "turned forward", "30")
    top, intake, _ = asked(of).centers.lines
    assert (top.verdict, top.found_deg) == ("not measured", None)
    assert top.missing == (
        "Crank at the piston stop: 1 of two readings in the book (gudgeon record reading crank_stops)"
    )
    assert intake.missing == (
        "Disk at 1 mm lift, intake: 0 of two readings in the book (gudgeon record reading intake_lobe)"
    )


def test_the_same_reading_twice_is_told_and_the_rest_is_answered(tmp_path: Path) -> None:
    top, intake, _ = lines(tmp_path, {"crank_stops": ("30", "30"), "intake_lobe": ("58", "158")})
    assert top.missing == (
        "Crank at the piston stop: Both readings are 30°: one is read turning one way, the other turning the other "
        "way, and the stop keeps them apart. Read the second one turning the other way."
    )
    assert intake.verdict == "inside"


def test_a_characteristic_that_holds_no_angle_is_an_error_of_the_sheet(tmp_path: Path) -> None:
    angle = "    name: Crank at the piston stop\n    part: crankshaft\n    quantity: angle\n"
    of = job(tmp_path, (angle, angle.replace("    quantity: angle\n", "")))
    answer = asked(of)
    error = next(one for one in answer.remarks if one.path == "drive.crank_stops")
    assert (error.grade, error.text) == (
        "error", "`crank_stops` holds no angles. Say so there: `quantity: angle`.",
    )  # fmt: skip
    assert "sheet.yaml, line " in error.place
