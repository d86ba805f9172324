"""The cut on the invented engine, whose sheet has everything. HAND: derived in the comment from the printed figures."""

import math
from pathlib import Path

import pytest

from gudgeon.bench.cut.camshafts import camshafts
from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.cut.inputs import gather
from gudgeon.bench.cut.known import Known
from gudgeon.bench.cut.laws import Laws
from tests.unit.bench.benches import Job
from tests.unit.bench.cut.cylinders import line, middle, surely, value
from tests.unit.bench.stories import invented

ALONG_STEM = math.cos(math.radians(20))


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return invented(tmp_path)


def flatness(job: Job, *readings: tuple[str, str, str]) -> None:
    for place, low, high in readings:
        job.record(
            "reading", item="head_flatness", place=place, low=f"{low} mm", high=f"{high} mm", instrument="feelers",
        )  # fmt: skip


def test_every_limit_has_its_own_cut(job: Job) -> None:
    answer = consequences(job.bench(), off="0.14 mm")
    # Clearance 50.8842 cm³, 447.655 cm³ swept (tests of the demo): 447.655 / 9.3 = 48.1349 cm³ at 10.3;
    # (50.8842 − 48.1349) / 5.09 = 0.5401 mm.
    assert middle(answer, "compression ratio") == pytest.approx(0.5401, abs=2e-4)
    # Squish 0.90 + 0.05 = 0.95 mm stays when the pad is flush: never below 0.90.
    assert middle(answer, "squish") is None
    # (1.90 − 1.40) / cos 20° = 0.5321 mm: the intake camshaft turns later, which brings its valves no nearer.
    assert middle(answer, "intake valve to piston") == pytest.approx(0.5 / ALONG_STEM, abs=1e-6)
    # 36.0 − (133.00 − 101.90) − 2.0 = 2.9 mm.
    assert middle(answer, "free below the head bolts") == pytest.approx(2.9, abs=1e-6)
    assert middle(answer, "most off in all") == pytest.approx(0.30, abs=1e-6)
    assert answer.most.binds == "gasket"
    assert surely(answer, "gasket") == pytest.approx(0.15, abs=1e-6)
    # The hole is printed to 0.1 mm, bolt and grip to 0.01 mm: u = √(0.05² + 2 · 0.005²) / √3 = 0.02915.
    assert surely(answer, "free below the head bolts") == pytest.approx(2.9 - 2 * 0.02915, abs=2e-4)


def test_everything_that_a_cut_does(job: Job) -> None:
    answer = consequences(job.bench(), off="0.14 mm")
    # 5090 mm² · 0.14 mm = 0.7126 cm³; 1 + 447.655 / 50.1716 = 9.9225 (tests of the demo).
    assert value(answer, "Volume that goes from a chamber") == pytest.approx(0.7126, abs=1e-6)
    assert value(answer, "Compression ratio") == pytest.approx(9.9225, abs=2e-4)
    # 0.90 + 0.05 + 0.20 − 0.14 = 1.01 mm; 1.90 − 0.14 · 0.93969 = 1.7684; 36 − (133 − 101.9 + 0.14) = 4.76.
    assert value(answer, "Squish") == pytest.approx(1.01, abs=1e-9)
    assert value(answer, "Intake valve to piston") == pytest.approx(1.7684, abs=1e-4)
    assert value(answer, "Free below the head bolts") == pytest.approx(4.76, abs=1e-9)
    assert line(answer, "Head gasket to take").after == "standard (one notch), 0.90 mm (0.0354 in)"
    assert {one.what for one in answer.tables[0].lines} >= {
        "Timing, Intake camshaft sprocket", "Timing, Exhaust camshaft sprocket", "Taken off in all",
        "Belt for the tensioner to take up", "May still come off, surely",
    }  # fmt: skip


def test_a_later_camshaft_brings_the_exhaust_valves_nearer(job: Job) -> None:
    # The events are those at 0.25 of 8.6 mm: acos(1 − 0.5 / 8.6) = 0.3426, so the wave is 236 / (1 − 0.3426 / π) =
    # 264.9° long and ends at 10 + 264.9 · 0.3426 / 2π = 24.44°. Near top center the piston falls 28.04 mm · φ² (φ in
    # rad; 42.8/2 · (1 + 42.8/138)), along the stem · cos 20°: 0.008026 mm/°². At φ = −3.97° that is 0.0637 mm/°, and
    # the valve shuts by 8.6 π / 264.9 · sin(2π · 28.41 / 264.9) = 0.0637 mm/°: there they are nearest.
    answer = consequences(job.bench(), off="0.14 mm")
    late = value(answer, "Timing, Exhaust camshaft sprocket")
    straight = 2.20 - 0.14 * ALONG_STEM
    assert late > 0
    assert straight - value(answer, "Exhaust valve to piston") == pytest.approx(0.0637 * late, rel=0.01)


def test_a_cut_past_the_standard_gasket_is_answered_with_the_one_that_is_meant_for_it(job: Job) -> None:
    answer = consequences(job.bench(), off="0.20 mm")
    (table,) = answer.tables
    assert table.gasket == "repair (three notches), 1.10 mm (0.0433 in)"
    # 0.20 mm thicker: 5358.6 mm² · 0.20 = 1.0717 cm³ more, 1.018 less by the cut: 50.9379; 1 + 447.655 / 50.9379.
    assert value(answer, "Compression ratio") == pytest.approx(1 + 447.655 / 50.9379, abs=2e-4)
    # The head stands where it stood: the valves keep their margin, the camshafts their timing.
    assert value(answer, "Intake valve to piston") == pytest.approx(1.90, abs=1e-9)
    assert line(answer, "Timing, Intake camshaft sprocket").after == "as before"
    named = consequences(job.bench(), off="0.20 mm", gasket="standard")
    assert value(named, "Intake valve to piston") == pytest.approx(1.90 - 0.2 * ALONG_STEM, abs=1e-9)
    assert line(named, "May still come off, surely").verdict == (
        "outside: 0.05 mm (0.0020 in) more than may surely come off"
    )


def test_the_least_that_cleans_up_is_the_worst_line(job: Job) -> None:
    flatness(job, ("lengthwise, intake side", "0.05", "0.06"), ("lengthwise, exhaust side", "0.10", "0.11"))
    answer = consequences(job.bench())
    least = answer.least
    assert least is not None
    # Between 0.10 and 0.11 mm: 0.105 mm.
    assert least.middle_mm == pytest.approx(0.105, abs=1e-9)
    assert least.surely_mm > 0.11
    assert answer.verdict.startswith(
        "Possible: 0.13 mm (0.0051 in) surely cleans up, 0.15 mm (0.0059 in) may"
    )
    assert [one.cut_from for one in answer.tables] == [
        "the least that surely cleans up", "the most that may surely come off",
    ]  # fmt: skip


def test_no_cut_is_possible_and_what_else_can_be_done(job: Job) -> None:
    flatness(job, ("lengthwise, exhaust side", "0.17", "0.18"))
    answer = consequences(job.bench())
    assert answer.verdict == (
        "Not possible: 0.20 mm (0.0079 in) is needed to be sure that it cleans up, only 0.15 mm (0.0059 in) may come "
        "off; the gasket binds."
    )
    assert answer.ways_out == (
        "take the gasket repair (three notches), 1.10 mm (0.0433 in): at most 0.30 mm (0.0118 in) may then come off",
        "have the head straightened first where its cam tunnel is bent too: less then cleans up",
        "another head",
    )


def test_a_deviation_of_which_only_the_least_is_known_is_said_so(job: Job) -> None:
    job.record(
        "reading", item="head_flatness", place="lengthwise, exhaust side", low="0.10 mm", instrument="feelers"
    )
    least = consequences(job.bench()).least
    assert least is not None
    assert least.text.startswith("at least 0.10")


def laws(job: Job, gasket: int = 0) -> Laws:
    inputs = gather(job.bench())
    return Laws(inputs, camshafts(job.bench()), inputs.cylinder.gaskets[gasket])


def known(found: object) -> Known:
    assert isinstance(found, Known)
    return found


@pytest.mark.parametrize("gasket", [0, 1])
def test_what_more_cut_does(job: Job, gasket: int) -> None:
    of = laws(job, gasket)
    cuts = [Known(step * 0.02) for step in range(40)]
    ratios = [known(of.ratio(cut)).value for cut in cuts]
    assert ratios == sorted(ratios)
    assert ratios[0] < ratios[-1]
    for rows in (
        [known(of.squish(cut)).value for cut in cuts],
        *([known(of.margin(valves, cut)).value for cut in cuts] for valves in of.inputs.valves),
        [known(of.free_below(of.inputs.bolts[0], cut)).value for cut in cuts],
    ):
        assert rows == sorted(rows, reverse=True)
        assert rows[0] > rows[-1]
    thickness, height = of.thickness, of.inputs.cylinder.piston_height
    assert thickness is not None
    assert height is not None
    # However much is cut, the gap over a flush pad stays.
    assert known(of.squish(Known(3.0))).value == pytest.approx(thickness.value - height.value, abs=1e-9)


def test_at_its_cut_each_limit_is_just_kept(job: Job) -> None:
    from gudgeon.bench.cut.limits import most

    of = laws(job)
    bounds = {one.what: one for one in most(of).bounds}
    margin, ratio = of.inputs.valves[1], bounds["compression ratio"]
    limit = margin.least_margin
    assert limit is not None
    assert ratio.middle_mm is not None
    assert ratio.surely_mm is not None
    assert known(of.ratio(Known(ratio.middle_mm))).value == pytest.approx(10.3, abs=1e-6)
    assert known(of.ratio(Known(ratio.surely_mm))).most == pytest.approx(10.3, abs=1e-6)
    exhaust = bounds["exhaust valve to piston"]
    assert exhaust.middle_mm is not None
    assert exhaust.surely_mm is not None
    assert known(of.margin(margin, Known(exhaust.middle_mm))).value == pytest.approx(limit.value, abs=1e-6)
    assert known(of.margin(margin, Known(exhaust.surely_mm))).least == pytest.approx(limit.value, abs=1e-6)
    assert all(
        one.surely_mm is None or one.middle_mm is None or one.surely_mm <= one.middle_mm
        for one in bounds.values()
    )
