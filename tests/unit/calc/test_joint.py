"""Threads read from their designations, and what preload refuses and flags."""

from dataclasses import replace

import pytest

from gudgeon.calc import errors
from gudgeon.calc.joint.preload import BoltJoint, assembly_preload, bearing_diameter, strength_class
from gudgeon.calc.joint.thread import read_thread, unified_thread
from gudgeon.errors import InputError

JOINT = BoltJoint(read_thread("M10"), 640.0, mu_thread=0.12, mu_head=0.12, bearing_diameter_mm=12.815)


@pytest.mark.parametrize(
    ("written", "designation", "nominal", "pitch"),
    [
        ("M12", "M12", 12.0, 1.75),
        ("M10x1.25", "M10×1.25", 10.0, 1.25),
        ("M10×1.25", "M10×1.25", 10.0, 1.25),
        ("M10 x 1.25", "M10×1.25", 10.0, 1.25),
        ("m10*1.25", "M10×1.25", 10.0, 1.25),
        ("M8x1.25", "M8", 8.0, 1.25),
        ("M8x1-6g", "M8×1", 8.0, 1.0),
        ("1/2-13 UNC", "1/2-13 UNC", 12.7, 25.4 / 13),
        ("1/2 UNC", "1/2-13 UNC", 12.7, 25.4 / 13),
        ("1/2-13", "1/2-13 UNC", 12.7, 25.4 / 13),
        ("0.5-13 UNC", "1/2-13 UNC", 12.7, 25.4 / 13),
        ("1/2 in-13 UNC-2A", "1/2-13 UNC", 12.7, 25.4 / 13),
        ("3/8-24 UNF", "3/8-24 UNF", 9.525, 25.4 / 24),
        ("#10-32 UNF", "#10-32 UNF", 4.826, 25.4 / 32),
        ("10-32 UNF", "#10-32 UNF", 4.826, 25.4 / 32),
    ],
)
def test_a_designation(written: str, designation: str, nominal: float, pitch: float) -> None:
    found = read_thread(written)
    assert found.designation == designation
    assert [found.nominal_mm, found.pitch_mm] == pytest.approx([nominal, pitch])
    assert found.flags == ()


@pytest.mark.parametrize(
    ("written", "flag"),
    [
        ("M10x1.1", "M10×1.1 is not in the series of ISO 261: measure diameter and pitch again."),
        ("M24", "M24 lies outside M4 to M20, for which the formulas were checked on tables."),
        ("5/16-22", "5/16-22 UN is in neither UNC nor UNF: measure diameter and pitch again."),
        ("1-8 UNC", "1-8 UNC lies outside #10 to 3/4 in, for which the formulas were checked on tables."),
    ],
)
def test_an_unusual_thread_is_a_flag_and_no_error(written: str, flag: str) -> None:
    assert read_thread(written).flags == (flag,)


@pytest.mark.parametrize(
    ("written", "cause", "text"),
    [
        ("M10x80", errors.PitchTooCoarse,
         "Pitch 80 mm cannot be on a diameter of 10 mm: it is at most a third. "
         "Write diameter and pitch; the length of the bolt is no part of it."),
        ("M30", errors.ThreadPitchNeeded,
         "`M30` has no pitch, and no series gives one. Write it too, like M30x1."),
        ("1/2-20 UNC", errors.SeriesContradicts,
         "`1/2-20 UNC` contradicts itself: UNC of that size has 13 threads per inch (ASME B1.1). "
         "Write the pitch that was measured, without the series."),
        ("half inch", errors.ThreadUnreadable,
         "`half inch` is no thread that can be read. "
         "Write it like M12, M10x1.25, 1/2-13 UNC, 3/8-24 UNF or #10-32 UNF."),
        ("1/0-13", errors.ThreadUnreadable,
         "`1/0-13` is no thread that can be read. "
         "Write it like M12, M10x1.25, 1/2-13 UNC, 3/8-24 UNF or #10-32 UNF."),
    ],
)  # fmt: skip
def test_what_is_no_thread(written: str, cause: type[InputError], text: str) -> None:
    with pytest.raises(cause) as caught:
        read_thread(written)
    assert str(caught.value) == text


def test_no_threads_to_the_inch_are_none() -> None:
    with pytest.raises(errors.NotPositive):
        unified_thread(0.5, threads_per_inch=0.0)


def test_the_stress_ratio_is_the_utilisation_and_the_torque_its_two_parts() -> None:
    found = assembly_preload(replace(JOINT, utilisation=0.7))
    assert found.stress_ratio == pytest.approx(0.7)
    assert found.torque_nm == pytest.approx(found.thread_torque_nm + found.head_torque_nm)
    # HAND: von Mises, √(σ² + 3 τ²) = 0.7 · 640
    equivalent = (found.tensile_stress_mpa**2 + 3 * found.torsional_stress_mpa**2) ** 0.5
    assert equivalent == pytest.approx(448.0)


def test_the_bearing_diameter_is_the_mean_of_head_and_hole() -> None:
    assert bearing_diameter(16.0, hole_mm=9.0) == 12.5


@pytest.mark.parametrize(
    ("changed", "cause", "text"),
    [
        ({"mu_thread": 0.0}, errors.FrictionUnusual,
         "Thread friction 0 cannot be: friction lies above 0 and below 1. 0.08 to 0.20 is usual."),
        ({"mu_head": -0.1}, errors.FrictionUnusual,
         "Head friction -0.1 cannot be: friction lies above 0 and below 1. 0.08 to 0.20 is usual."),
        ({"utilisation": 1.2}, errors.UtilisationOutOfRange,
         "Utilisation 1.2 cannot be: it is above 0 and at most 1, a share of yield. "
         "0.9 is usual (VDI 2230)."),
        ({"bearing_diameter_mm": 9.0}, errors.BearingTooSmall,
         "Bearing diameter 9 mm cannot be: it is above the thread's 10 mm. "
         "Give the mean of head and hole diameter."),
        ({"yield_mpa": 0.0}, errors.NotPositive,
         "Yield strength 0 MPa cannot be: it is above 0. Check the figure and its sign."),
    ],
)  # fmt: skip
def test_what_no_bolt_has(changed: dict[str, float], cause: type[InputError], text: str) -> None:
    with pytest.raises(cause) as caught:
        assembly_preload(replace(JOINT, **changed))  # type: ignore[arg-type]
    assert str(caught.value) == text


def test_friction_outside_the_classes_is_a_flag() -> None:
    assert assembly_preload(replace(JOINT, mu_head=0.4)).flags == (
        "Head friction 0.4 lies outside 0.04 to 0.35, the classes A to D of VDI 2230.",
    )


def test_a_head_falls_through_no_hole() -> None:
    with pytest.raises(errors.HeadInsideHole) as caught:
        bearing_diameter(9.0, hole_mm=11.0)
    assert str(caught.value) == (
        "Head diameter 9 mm is not larger than the hole 11 mm. "
        "Give the bearing face of the head, measured outside."
    )


def test_strength_classes_change_with_the_diameter() -> None:
    assert strength_class("8.8", nominal_mm=16.0).yield_mpa == 640.0
    assert strength_class("8.8", nominal_mm=18.0).yield_mpa == 660.0
    assert strength_class("sae 5", nominal_mm=12.7).yield_mpa == 634.3
    with pytest.raises(errors.StrengthUnknown) as caught:
        strength_class("9.8", nominal_mm=18.0)
    assert str(caught.value) == (
        "`9.8` is no strength class known for this diameter. Give one of: 4.6, 4.8, 5.6, 5.8, 6.8, 8.8, "
        "10.9, 12.9, A2-50, A2-70, A2-80, A4-50, A4-70, A4-80, SAE 2, SAE 5, SAE 8; or yield_mpa."
    )
