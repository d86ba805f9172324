"""Limits of the invented engine against each other, and pairs of units against exact factors.

HAND: differences of the printed ranges. Factors: 25.4 mm to the inch; 0.45359237 kg and
9.80665 m/s² make the pound-force; 231 in³ make the US gallon. All exact by definition.
"""

import math
import re
from fractions import Fraction

import pytest

from gudgeon.quantity.written import Printed
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import place_names
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import Shape

INCH = Fraction(254, 10)
POUND_FORCE = Fraction(45359237, 10**8) * Fraction(980665, 10**5)
PER_METRIC = {
    ("mm", "in"): 1 / INCH,
    ("cm³", "in³"): 1000 / INCH**3,
    ("N·m", "lbf·ft"): 1000 / (POUND_FORCE * 12 * INCH),
    ("N·m", "lbf·in"): 1000 / (POUND_FORCE * INCH),
    ("L", "US qt"): 10**6 / (Fraction(231, 4) * INCH**3),
}
PAIR = re.compile(
    r"(?P<first>[\d.–± ]+?) ?(?P<metric>mm|cm³|N·m|L) \((?P<second>[\d.–]+) (?P<inch>in³|in|lbf·ft|lbf·in|US qt)\)"
)


def ends(text: str) -> list[Fraction]:
    if "±" in text:
        middle, half = (Fraction(part.strip()) for part in text.split("±"))
        return [middle - half, middle + half]
    return [Fraction(part.strip()) for part in text.split("–")]


def rounded(value: Fraction, like: str) -> str:
    decimals = len(like.partition(".")[2])
    scaled = math.floor(value * 10**decimals + Fraction(1, 2))
    return f"{scaled / 10**decimals:.{decimals}f}"


def test_pairs_of_units_round_correctly(sheet_text: str) -> None:
    found = list(PAIR.finditer(sheet_text))
    for pair in found:
        factor = PER_METRIC[pair["metric"], pair["inch"]]
        printed = pair["second"].split("–")
        both_ends = zip(ends(pair["first"]), printed, strict=True)
        assert [rounded(end * factor, like) for end, like in both_ends] == printed, pair[0]
    # every bracket that holds an inch unit was read above
    brackets = re.findall(r"\([\d.–]+ (?:in³|in|lbf·ft|lbf·in|US qt)\)", sheet_text)
    assert len(found) == len(brackets)
    assert len(found) > 60


def ends_mm(sheet: DataSheet, key: str, which: str) -> tuple[float | None, float | None]:
    stated = getattr(sheet.characteristics[key], which)
    value: Printed = stated.value
    return value.low_in("mm"), value.high_in("mm")


EXPECTED = {
    "head_flatness": ((None, 0.03), (None, 0.05)),
    "head_height": ((132.55, 132.65), (132.30, None)),
    "deck_flatness": ((None, 0.03), (None, 0.05)),
    "bore": ((81.60, 81.62), (None, 81.72)),
    "bore_out_of_round": ((None, 0.01), (None, 0.05)),
    "bore_taper": ((None, 0.01), (None, 0.10)),
    "piston_skirt": ((81.56, 81.58), (81.52, None)),
    "piston_clearance": ((0.02, 0.06), (None, 0.14)),
    "top_ring_gap": ((0.25, 0.40), (None, 0.80)),
    "second_ring_gap": ((0.40, 0.60), (None, 1.00)),
    "camshaft_journal": ((25.94, 25.96), (25.90, None)),
    "camshaft_clearance": ((0.04, 0.08), (None, 0.12)),
    "camshaft_end_play": ((0.08, 0.15), (None, 0.25)),
    "intake_valve_stem": ((5.465, 5.480), (5.440, None)),
    "exhaust_valve_stem": ((5.455, 5.470), (5.430, None)),
    "valve_spring": ((45.20, 46.00), (44.60, None)),
    "head_bolt_length": ((132.80, 133.20), (None, 134.00)),
}


def test_limits_are_the_ones_written_down_twice(sheet: DataSheet) -> None:
    for key, (new, wear) in EXPECTED.items():
        for which, wanted in (("new_range", new), ("wear_limit", wear)):
            assert ends_mm(sheet, key, which) == pytest.approx(wanted), key
    others = set(sheet.characteristics) - set(EXPECTED)
    required = {
        "piston_height", "intake_valve_clearance", "exhaust_valve_clearance", "intake_shim", "exhaust_shim",
    }  # fmt: skip
    shaped = {"intake_face_flatness", "exhaust_face_flatness", "valve_stem_seal", "cranking_pressure"}
    assert others == required | shaped | {"camshaft_journal_taper"}
    assert all(sheet.characteristics[key].required is not None for key in required)


def test_wear_limit_lies_beyond_the_new_range(sheet: DataSheet) -> None:
    for key in EXPECTED:
        (low, high), (least, most) = ends_mm(sheet, key, "new_range"), ends_mm(sheet, key, "wear_limit")
        assert (least is None) != (most is None)
        if least is not None:
            assert low is not None
            assert least < low, key
        if most is not None:
            assert high is not None
            assert most > high, key


def test_piston_clearance_is_bore_less_skirt(sheet: DataSheet) -> None:
    bore, skirt = ends_mm(sheet, "bore", "new_range"), ends_mm(sheet, "piston_skirt", "new_range")
    assert None not in (*bore, *skirt)
    least, most = bore[0] - skirt[1], bore[1] - skirt[0]  # type: ignore[operator]
    assert ends_mm(sheet, "piston_clearance", "new_range") == pytest.approx((least, most))
    # the largest bore allowed with the largest new piston: 81.72 − 81.58 = 0.14
    worst = ends_mm(sheet, "bore", "wear_limit")[1] - skirt[1]  # type: ignore[operator]
    assert ends_mm(sheet, "piston_clearance", "wear_limit")[1] == pytest.approx(worst)


def test_bore_of_the_cylinder_is_the_least_new_bore(sheet: DataSheet) -> None:
    assert sheet.cylinder is not None
    assert sheet.cylinder.bore is not None
    assert sheet.cylinder.bore.value.middle_in("mm") == ends_mm(sheet, "bore", "new_range")[0]


def test_camshaft_clearance_is_cap_bore_less_journal(sheet: DataSheet) -> None:
    said = re.search(r"([\d.]+)–([\d.]+) mm", sheet.characteristics["camshaft_clearance"].how or "")
    assert said is not None
    low, high = ends_mm(sheet, "camshaft_journal", "new_range")
    assert low is not None
    assert high is not None
    wanted = float(said[1]) - high, float(said[2]) - low
    assert ends_mm(sheet, "camshaft_clearance", "new_range") == pytest.approx(wanted)


def test_required_figures(sheet: DataSheet) -> None:
    assert ends_mm(sheet, "piston_height", "required") == pytest.approx((-0.10, 0.0))
    assert ends_mm(sheet, "intake_valve_clearance", "required") == pytest.approx((0.15, 0.25))
    assert ends_mm(sheet, "exhaust_valve_clearance", "required") == pytest.approx((0.25, 0.35))
    assert sheet.cylinder is not None
    assert sheet.cylinder.piston_height is not None
    # the middle of what is required
    assert sheet.cylinder.piston_height.value.middle_in("mm") == pytest.approx(-0.05)


def test_shims_come_in_seventeen_sizes(sheet: DataSheet) -> None:
    gear = sheet.valve_gear
    assert gear is not None
    assert gear.shim_thickness is not None
    assert gear.shim_step is not None
    low, high = gear.shim_thickness.value.low_in("mm"), gear.shim_thickness.value.high_in("mm")
    assert low is not None
    assert high is not None
    # (2.80 − 2.00) / 0.05 + 1 = 17; a step moves a clearance by half of its range, so one size always fits
    assert (high - low) / gear.shim_step.value.middle_in("mm") + 1 == pytest.approx(17)
    assert gear.intake_valves == gear.exhaust_valves == 8


def test_limits_with_shapes_are_the_ones_written_down_twice(sheet: DataSheet) -> None:
    found = {
        (key, shape.shape, shape.stands_for): {
            name: one.value.text.partition(" (")[0] for name, one in figures(shape)
        }
        for key, item in sheet.characteristics.items()
        for shape in item.limits
    }
    assert found == {
        ("head_flatness", "per length", "new range"): {"limit": "max 0.02 mm", "over": "100 mm"},
        ("deck_flatness", "by direction", "new range"): {
            "lengthwise": "max 0.03 mm", "crosswise": "max 0.02 mm", "overall": "max 0.03 mm",
        },
        ("intake_face_flatness", "whole face and per length", "wear limit"): {
            "total": "max 0.10 mm", "limit": "max 0.05 mm", "over": "150 mm",
        },
        ("exhaust_face_flatness", "whole face and per length", "wear limit"): {
            "total": "max 0.15 mm", "limit": "max 0.08 mm", "over": "150 mm",
        },
        ("piston_clearance", "matched pairs", "new range"): {"clearance": "0.03–0.05 mm"},
        ("valve_stem_seal", "replace always", "wear limit"): {},
        ("cranking_pressure", "difference between cylinders", "wear limit"): {"percent_of_highest": "min 75 %"},
    }  # fmt: skip


def figures(shape: Shape) -> list[tuple[str, Stated]]:
    return [(name, getattr(shape, name)) for name in shape.figures if getattr(shape, name) is not None]


def test_pressures_in_both_units(sheet: DataSheet) -> None:
    """A bar is 100 kPa, a psi 6.894757 kPa: 12.0 and 14.0 bar are 174.0 and 203.1 psi, 9.5 bar are 137.8."""
    item = sheet.characteristics["cranking_pressure"]
    assert item.new_range is not None
    assert item.wear_limit is not None
    assert item.new_range.value.text == "12.0–14.0 bar (174–203 psi)"
    assert item.wear_limit.value.text == "min 9.5 bar (138 psi)"


def test_places_count_up(sheet: DataSheet) -> None:
    wanted = {
        "bore": 24, "piston_height": 8, "piston_skirt": 4, "valve_spring": 16, "intake_valve_clearance": 8,
        "exhaust_valve_clearance": 8, "intake_valve_stem": 8, "exhaust_valve_stem": 8, "camshaft_journal": 10,
        "camshaft_clearance": 10, "head_flatness": 6, "deck_flatness": 6, "head_height": 4, "head_bolt_length": 10,
    }  # fmt: skip
    assert {key: len(place_names(sheet.characteristics[key])) for key in wanted} == wanted


def test_the_gap_left_on_purpose(sheet: DataSheet) -> None:
    taper = sheet.characteristics["camshaft_journal_taper"]
    assert taper.new_range is not None
    assert taper.new_range.value.high_in("mm") == 0.01
    assert taper.wear_limit is None
    assert taper.required is None
    assert sheet.sealants["cap_corners"].cure is None


def test_sheet_says_that_it_is_invented(sheet: DataSheet) -> None:
    assert sheet.invented
    assert "invented" in sheet.engine.name
    assert all("invented" in book.title and "invented" in book.edition for book in sheet.sources.values())


def test_firing_order_and_fluids(sheet: DataSheet) -> None:
    assert sheet.engine.firing_order == (1, 3, 4, 2)
    capacity = {key: fluid.capacity for key, fluid in sheet.fluids.items()}
    assert capacity["engine_oil"] is not None
    assert capacity["coolant"] is not None
    assert capacity["engine_oil"].value.middle_in("L") == pytest.approx(4.2)
    assert capacity["coolant"].value.middle_in("L") == pytest.approx(6.4)
    rear = sheet.sealants["rear_cover"]
    assert rear.open_time is not None
    assert rear.cure is not None
    assert rear.open_time.value.middle_in("min") == 10
    assert rear.cure.value.middle_in("h") == 24


def test_every_plain_limit_is_printed_in_both_systems(sheet: DataSheet) -> None:
    """What is read is told in both; a limit in one alone would stand beside it without its like."""
    limits = [
        one.value
        for item in sheet.characteristics.values()
        for one in (item.new_range, item.wear_limit, item.required)
        if one is not None
    ]
    assert len(limits) > 40
    alone = [one.text for one in limits if {span.unit.system for span in one.spans} != {"metric", "inch"}]
    assert alone == []
    for one in limits:
        ends = zip((one.first.low, one.first.high), (one.spans[1].low, one.spans[1].high), strict=True)
        assert all((first is None) == (second is None) for first, second in ends)
