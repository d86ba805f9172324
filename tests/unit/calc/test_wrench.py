"""Where a torque wrench may be used, what to set, how wrong it may be."""

import pytest

from gudgeon.calc import errors
from gudgeon.calc.joint.wrench import (
    ScaleSetting,
    adapter_setting,
    mark_in_range,
    permitted_deviation,
    scale_setting,
    spring_scale_error,
    spring_scale_force,
    total_error,
    usable_range,
)


def test_a_fifth_of_the_scale_or_its_start_whichever_is_larger() -> None:
    assert usable_range(10.0, scale_max=110.0) == (22.0, 110.0)
    assert usable_range(40.0, scale_max=200.0) == (40.0, 200.0)


def test_the_deviation_is_of_the_setting_and_never_below_that_of_a_fifth() -> None:
    assert permitted_deviation(100.0, scale_max=200.0, relative=0.04) == 4.0
    assert permitted_deviation(20.0, scale_max=200.0, relative=0.04) == pytest.approx(1.6)


@pytest.mark.parametrize(
    ("target", "step", "start", "setting", "error"),
    [
        (67.8, 5.0, 0.0, 70.0, 2.2),
        (40.0, 5.0, 0.0, 40.0, 0.0),
        (42.5, 5.0, 0.0, 40.0, -2.5),  # midway: the lower mark
        (42.6, 5.0, 0.0, 45.0, 2.4),
        (0.3, 0.1, 0.0, 0.3, 0.0),  # 0.3 / 0.1 is not 3 in floats
        (31.0, 4.0, 10.0, 30.0, -1.0),  # marks at 10, 14, 18 …
    ],
)
def test_the_nearest_mark(target: float, step: float, start: float, setting: float, error: float) -> None:
    assert scale_setting(target, step=step, start=start) == ScaleSetting(setting, error)


def test_a_mark_whose_deviation_stays_inside_a_range() -> None:
    assert mark_in_range(78.0, high=93.0, step=5.0, relative=0.04) == ScaleSetting(85.0, -0.5)
    # 8 to 10 leaves 8.33 to 9.61 at 4 %: no multiple of 5 lies there
    assert mark_in_range(8.0, high=10.0, step=5.0, relative=0.04) is None
    # the middle, 8.5, is no mark; 8.4 and 8.6 are, the nearer of the two even ones first
    assert mark_in_range(8.0, high=9.0, step=0.2, relative=0.04) == ScaleSetting(8.4, -0.1)


def test_the_total_error_is_deviation_and_half_a_step() -> None:
    assert total_error(95.0, scale_max=200.0, relative=0.04, step=5.0) == pytest.approx(3.8 + 2.5)


def test_an_outward_adapter_lowers_the_setting_and_a_folded_one_raises_it() -> None:
    settings = [
        adapter_setting(95.0, wrench_length_mm=400.0, adapter_length_mm=50.0, adapter_angle_deg=angle)
        for angle in (0.0, 45.0, 90.0, 135.0, 180.0)
    ]
    assert settings == sorted(settings)
    assert settings[0] == pytest.approx(95.0 * 400 / 450)
    assert settings[2] == pytest.approx(95.0)


def test_a_spring_scale_at_an_arm() -> None:
    assert spring_scale_force(9.0, arm_mm=300.0) == pytest.approx(30.0)


def test_what_no_wrench_can_be() -> None:
    with pytest.raises(errors.ScaleUpsideDown) as caught:
        usable_range(200.0, scale_max=40.0)
    assert str(caught.value) == (
        "Scale 200–40 cannot be: it ends above its start. Read both ends off the wrench."
    )
    with pytest.raises(errors.StepNotUsable) as step:
        scale_setting(2.0, step=5.0)
    assert str(step.value) == ("Target 2 lies below half a scale step (5). Use a wrench with a finer scale.")
    with pytest.raises(errors.AdapterTurnsBack) as adapter:
        adapter_setting(95.0, wrench_length_mm=100.0, adapter_length_mm=120.0, adapter_angle_deg=180.0)
    assert str(adapter.value) == (
        "Adapter 120 mm at 180° leaves no lever on a wrench of 100 mm. "
        "Measure both from center to center, and the angle from straight out (0°)."
    )
    with pytest.raises(errors.NotPositive) as torque:
        adapter_setting(-95.0, wrench_length_mm=400.0, adapter_length_mm=50.0)
    assert str(torque.value) == "Torque -95 N·m cannot be: it is above 0. Check the figure and its sign."
    with pytest.raises(errors.NotFinite) as nan:
        spring_scale_force(float("nan"), arm_mm=300.0)
    assert str(nan.value) == "Torque nan is not a finite number. Give the number that was read."


def test_a_mark_kept_between_two_ends() -> None:
    # 20 is nearest to 22, but only marks from 22 on may be taken
    assert scale_setting(22.0, step=5.0, least=22.0, most=110.0) == ScaleSetting(25.0, 3.0)
    # 8 to 10 N·m, marks 5, 7, 9, 11: 9 ± 4 % is 8.64 to 9.36
    assert mark_in_range(8.0, high=10.0, step=2.0, relative=0.04, start=5.0) == ScaleSetting(9.0, 0.0)
    # the middle, 19, is not to be taken: the next mark that is, 20, stays inside 15 to 23
    assert mark_in_range(15.0, high=23.0, step=1.0, relative=0.04, least=20.0) == ScaleSetting(20.0, 1.0)
    # a figure aimed at that is not halfway: 60 of 56 to 70
    assert mark_in_range(56.0, high=70.0, step=1.0, relative=0.04, middle=60.0) == ScaleSetting(60.0, 0.0)


def test_the_error_of_a_spring_scale_and_its_arm() -> None:
    # 40 N at 250 mm; 43 N at 254 mm pull 10.922 N·m
    found = spring_scale_error(10.0, arm_mm=250.0, force_error_n=3.0, arm_error_mm=4.0)
    assert found == pytest.approx(0.922)
