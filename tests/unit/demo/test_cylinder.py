"""Displacement, ratio, squish, head and piston of the invented engine, worked out again by hand.

HAND: every expected number below is derived in the comment above it from the printed figures.
"""

import math
from collections.abc import Callable

import pytest

from gudgeon.sheet.figures import Stated
from gudgeon.sheet.model import DataSheet

Figure = Callable[[str, str], float]


@pytest.fixture
def figure(sheet: DataSheet) -> Figure:
    def read(name: str, unit: str) -> float:
        stated = getattr(sheet.cylinder, name)
        assert isinstance(stated, Stated)
        return stated.value.middle_in(unit)

    return read


def clearance_cm3(figure: Figure) -> float:
    gasket = math.pi / 4 * figure("gasket_bore", "cm") ** 2 * figure("gasket_thickness", "cm")
    deck = math.pi / 4 * figure("bore", "cm") ** 2 * -figure("piston_height", "cm")
    return figure("chamber_volume", "cm³") + figure("crown_volume", "cm³") + gasket + deck


def swept_cm3(figure: Figure) -> float:
    return math.pi / 4 * figure("bore", "cm") ** 2 * figure("stroke", "cm")


def test_displacement(figure: Figure) -> None:
    # π/4 · 8.16² = 52.2962 cm²; · 8.56 = 447.655 cm³; · 4 = 1790.62 cm³, printed 1791; / 16.3871 = 109.27 in³
    assert swept_cm3(figure) == pytest.approx(447.655, abs=0.001)
    assert 4 * swept_cm3(figure) == pytest.approx(1790.62, abs=0.005)
    assert figure("displacement", "cm³") == round(4 * swept_cm3(figure))
    assert figure("displacement", "in³") == pytest.approx(1791 / 2.54**3, abs=0.05)


def test_compression_ratio(figure: Figure) -> None:
    # gasket π/4 · 8.26² · 0.09 = 4.8227 cm³; deck 52.2962 · 0.005 = 0.2615 cm³
    # 40.8 + 5.0 + 4.8227 + 0.2615 = 50.8842 cm³; 1 + 447.655 / 50.8842 = 9.7975, printed 9.8
    assert clearance_cm3(figure) == pytest.approx(50.8842, abs=0.0005)
    ratio = 1 + swept_cm3(figure) / clearance_cm3(figure)
    assert ratio == pytest.approx(9.7975, abs=0.0005)
    assert figure("compression_ratio", "1") == round(ratio, 1)


def test_ratio_after_the_cut(figure: Figure) -> None:
    # 50.9 cm² · 0.014 cm = 0.7126 cm³ off; 50.1716 cm³ left; 1 + 447.655 / 50.1716 = 9.9225
    left = clearance_cm3(figure) - figure("chamber_mouth_area", "cm²") * 0.014
    assert 1 + swept_cm3(figure) / left == pytest.approx(9.9225, abs=0.0001)


def test_mouth_of_the_chamber_lies_within_the_gasket(figure: Figure) -> None:
    # The squish pads lie above the face, so the mouth is nearly the whole bore (52.30 cm²), never more.
    bore = math.pi / 4 * figure("bore", "cm") ** 2
    assert 0.95 * bore < figure("chamber_mouth_area", "cm²") < bore
    assert figure("gasket_bore", "mm") == figure("bore", "mm") + 1.0


def test_squish(sheet: DataSheet, figure: Figure) -> None:
    # 0.90 gasket + 0.05 below the deck + 0.20 above the face = 1.15 mm; less 0.14 = 1.01 mm
    before = (
        figure("gasket_thickness", "mm") - figure("piston_height", "mm") + figure("squish_pad_recess", "mm")
    )
    assert before == pytest.approx(1.15)
    assert sheet.cylinder is not None
    assert sheet.cylinder.least_squish is not None
    least = sheet.cylinder.least_squish.value.low_in("mm")
    assert least is not None
    # With all that may come off, 0.30 mm, the pad is reached after 0.20: 0.95 mm stay, above the 0.90 printed.
    assert least == pytest.approx(0.90)
    assert before - 0.14 > before - figure("squish_pad_recess", "mm") >= least


def test_pistons_a_quarter_turn_down(figure: Figure, entries: list[dict[str, str]]) -> None:
    # 42.8 + 138 − √(138² − 42.8²) = 180.8 − 131.195 = 49.605 mm, and 0.05 below the deck: 49.66, said as 49.7
    throw, rod = figure("stroke", "mm") / 2, figure("rod_length", "mm")
    depth = throw + rod - math.sqrt(rod**2 - throw**2) - figure("piston_height", "mm")
    assert depth == pytest.approx(49.655, abs=0.001)
    said = next(one["value"] for one in entries if one.get("hold") == "pistons_halfway")
    assert f"{depth:.1f} mm" in said


def test_camshafts_stand_on_the_head(sheet: DataSheet, figure: Figure) -> None:
    # Deck over the crankshaft: 42.8 + 138 + 31.15 (pin to crown) + 0.05 = 212.00; + 0.90 + 132.60 = 345.50 mm,
    # where the caps are split: the camshafts lie in the valve cover face.
    deck = figure("stroke", "mm") / 2 + figure("rod_length", "mm") + 31.15 - figure("piston_height", "mm")
    assert sheet.head is not None
    assert sheet.head.height is not None
    assert sheet.drive is not None
    top = deck + figure("gasket_thickness", "mm") + sheet.head.height.value.middle_in("mm")
    for name in ("intake", "exhaust"):
        height = sheet.drive.wheels[name].y
        assert height is not None
        assert height.middle_in("mm") == pytest.approx(top, abs=0.001)


def test_head_limits_agree(sheet: DataSheet) -> None:
    head, height = sheet.head, sheet.characteristics["head_height"]
    assert head is not None
    assert head.measured_as == "head_height"
    assert head.height is not None
    assert head.least_height is not None
    assert head.most_off is not None
    new, wear = height.new_range, height.wear_limit
    assert new is not None
    assert wear is not None
    # 132.60 ± 0.05 = 132.55 to 132.65; 132.60 − 0.30 = 132.30
    assert head.height.value.low_in("mm") == new.value.low_in("mm") == pytest.approx(132.55)
    assert head.height.value.high_in("mm") == new.value.high_in("mm") == pytest.approx(132.65)
    least = head.least_height.value.low_in("mm")
    assert least == wear.value.low_in("mm") == pytest.approx(132.30)
    assert least == pytest.approx(head.height.value.middle_in("mm") - head.most_off.value.middle_in("mm"))
