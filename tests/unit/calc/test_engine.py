"""Cylinder and cut: signs, flags, and what no engine can have."""

from dataclasses import replace

import pytest

from gudgeon.calc import errors
from gudgeon.calc.engine.cut import after_cut, cut_for_ratio, squish
from gudgeon.calc.engine.cylinder import (
    CylinderGeometry,
    bore_area_mm2,
    clearance_of_ratio,
    clearance_volume_cm3,
    compression_ratio,
    piston_position,
    swept_volume_cm3,
)

ENGINE = CylinderGeometry(
    bore_mm=86.0,
    stroke_mm=86.0,
    chamber_volume_cm3=50.0,
    gasket_bore_mm=87.0,
    gasket_thickness_mm=1.2,
    crown_volume_cm3=4.0,
    piston_height_mm=-0.2,
)


def test_a_dish_and_a_piston_below_the_deck_add_to_the_clearance() -> None:
    base = clearance_volume_cm3(ENGINE)
    assert clearance_volume_cm3(replace(ENGINE, crown_volume_cm3=5.0)) == pytest.approx(base + 1.0)
    proud = clearance_volume_cm3(replace(ENGINE, piston_height_mm=0.3))
    assert proud == pytest.approx(base - bore_area_mm2(86.0) * 0.5 / 1000)


def test_a_gasket_smaller_than_the_bore_is_flagged() -> None:
    assert compression_ratio(ENGINE).flags == ()
    assert compression_ratio(replace(ENGINE, gasket_bore_mm=85.0)).flags == (
        "The gasket bore (85 mm) is smaller than the cylinder bore (86 mm): "
        "the gasket would stand in the gas.",
    )


def test_an_unusual_ratio_is_a_flag_and_no_error() -> None:
    found = compression_ratio(replace(ENGINE, chamber_volume_cm3=5.0))
    assert found.ratio > 25
    assert found.flags == (
        f"A ratio of {found.ratio:.3g} is outside the usual 5 to 25 (common practice): check the volumes.",
    )


def test_volumes_that_leave_nothing_are_refused() -> None:
    with pytest.raises(errors.ClearanceGone) as caught:
        clearance_volume_cm3(replace(ENGINE, crown_volume_cm3=-70.0))
    assert str(caught.value) == (
        "Clearance volume -11.7 cm³ cannot be: it is above 0. "
        "Check the signs: a dish adds to it, a dome and a piston proud of the deck take from it."
    )


@pytest.mark.parametrize(("bore", "stroke", "text"), [
    (86.0, -1.0, "Stroke -1 mm cannot be: it is above 0. Check the figure and its sign."),
    (0.0, 86.0, "Bore 0 mm cannot be: it is above 0. Check the figure and its sign."),
])  # fmt: skip
def test_no_bore_or_stroke_below_zero(bore: float, stroke: float, text: str) -> None:
    with pytest.raises(errors.NotPositive) as caught:
        swept_volume_cm3(bore, stroke_mm=stroke)
    assert str(caught.value) == text


def test_a_rod_that_is_too_short_is_refused() -> None:
    with pytest.raises(errors.RodTooShort) as caught:
        piston_position(86.0, rod_length_mm=43.5, crank_angle_deg=10.0, pin_offset_mm=-1.0)
    assert str(caught.value) == (
        "Rod length 43.5 mm cannot be: it is more than half the stroke plus the pin offset (44 mm), "
        "or the crank does not turn over. Measure from center to center."
    )


def test_the_piston_stands_highest_at_its_top_center_and_lowest_half_a_turn_on() -> None:
    top = piston_position(86.0, rod_length_mm=143.0, crank_angle_deg=0.0, pin_offset_mm=1.0).top_center_deg
    there = piston_position(86.0, rod_length_mm=143.0, crank_angle_deg=top, pin_offset_mm=1.0)
    assert there.drop_mm == pytest.approx(0.0, abs=1e-9)
    assert there.speed_ratio == pytest.approx(0.0, abs=1e-9)
    below = piston_position(86.0, rod_length_mm=143.0, crank_angle_deg=180.0)
    assert below.drop_mm == pytest.approx(86.0)


def test_the_speed_is_down_after_the_top_and_up_before_it() -> None:
    after, before = (
        piston_position(86.0, rod_length_mm=143.0, crank_angle_deg=angle).speed_ratio for angle in (60, -60)
    )
    assert after > 0
    assert before == pytest.approx(-after)


def test_a_ratio_of_one_is_none() -> None:
    with pytest.raises(errors.RatioImpossible) as caught:
        clearance_of_ratio(500.0, ratio=1.0)
    assert str(caught.value) == (
        "Compression ratio 1 cannot be: it is above 1. Give (swept + clearance) / clearance volume."
    )


def test_the_cut_takes_mouth_area_times_depth() -> None:
    found = after_cut(0.2, swept_cm3=500.0, clearance_cm3=60.0, mouth_area_mm2=5000.0)
    assert found.volume_removed_cm3 == pytest.approx(1.0)
    assert found.clearance_volume_cm3 == pytest.approx(59.0)
    assert [found.old_ratio, found.new_ratio] == pytest.approx([1 + 500 / 60, 1 + 500 / 59])


def test_a_cut_to_a_ratio_and_back() -> None:
    cut = cut_for_ratio(10.0, swept_cm3=500.0, clearance_cm3=60.0, mouth_area_mm2=5000.0)
    found = after_cut(cut, swept_cm3=500.0, clearance_cm3=60.0, mouth_area_mm2=5000.0)
    assert found.new_ratio == pytest.approx(10.0, rel=1e-12)


def test_a_cut_that_is_too_deep_or_lowers_the_ratio_is_refused() -> None:
    with pytest.raises(errors.CutTooDeep) as deep:
        after_cut(20.0, swept_cm3=500.0, clearance_cm3=60.0, mouth_area_mm2=5000.0)
    assert str(deep.value) == (
        "Cut 20 mm cannot be: at 12 mm no clearance volume is left. Check cut and mouth area."
    )
    with pytest.raises(errors.RatioNotRaised) as low:
        cut_for_ratio(8.0, swept_cm3=500.0, clearance_cm3=60.0, mouth_area_mm2=5000.0)
    assert str(low.value) == (
        "Ratio 8 is below the present 9.333; a cut only raises it. Take a thicker gasket."
    )
    with pytest.raises(errors.Negative) as minus:
        after_cut(-0.1, swept_cm3=500.0, clearance_cm3=60.0, mouth_area_mm2=5000.0)
    assert str(minus.value) == "Cut -0.1 mm cannot be: it is 0 or more. Check the figure and its sign."


@pytest.mark.parametrize(
    ("recess", "cut", "after"),
    [(0.0, 0.3, 1.3), (0.5, 0.3, 1.5), (0.5, 0.5, 1.3), (0.5, 0.8, 1.3)],
)
def test_the_squish_falls_until_the_pad_is_reached(recess: float, cut: float, after: float) -> None:
    found = squish(1.2, piston_below_deck_mm=0.1, pad_recess_mm=recess, cut_mm=cut)
    assert found.after_mm == pytest.approx(after)
    assert [found.least_mm, found.most_mm] == pytest.approx([1.3, 1.3 + recess])


def test_a_piston_that_would_touch_is_flagged() -> None:
    found = squish(0.5, piston_below_deck_mm=-0.6, pad_recess_mm=0.0, cut_mm=0.1)
    assert found.flags == ("The gap after the cut is -0.1 mm: the piston would touch the head.",)
