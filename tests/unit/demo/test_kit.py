"""The modest kit: what it reaches, and the gap at the smallest torques.

COMMON PRACTICE: a torque wrench is used from a fifth of its maximum upward, never below its first mark.
"""

import re

import pytest

from gudgeon.kit.model import Kit
from gudgeon.sheet.model import DataSheet


def usable(kit: Kit) -> dict[str, tuple[float, float]]:
    found = {}
    for key, wrench in kit.wrenches.items():
        low, high = wrench.range.low_in("N·m"), wrench.range.high_in("N·m")
        assert low is not None
        assert high is not None
        found[key] = max(low, high / 5), high
    return found


def test_three_wrenches_and_where_they_begin(kit: Kit) -> None:
    assert usable(kit) == {"click_100": (20.0, 100.0), "click_200": (40.0, 200.0), "beam_150": (30.0, 150.0)}
    assert [wrench.kind for wrench in kit.wrenches.values()] == ["click", "click", "beam"]
    assert [wrench.step.middle_in("N·m") for wrench in kit.wrenches.values()] == [0.5, 1.0, 5.0]
    assert [wrench.deviation for wrench in kit.wrenches.values()] == [0.04, 0.04, 0.04]


def test_what_else_is_known_of_them(kit: Kit) -> None:
    assert [wrench.iso_class for wrench in kit.wrenches.values()] == ["II A", "II A", "I A"]
    second = kit.wrenches["click_200"].second_scale
    assert second is not None
    low, high = second.range.low_in("N·m"), second.range.high_in("N·m")
    # 30 and 150 lbf·ft, 1.35582 N·m each, are the ends of the first scale, 40 and 200 N·m, to 2 %
    assert low == pytest.approx(40.67, abs=0.01)
    assert high == pytest.approx(203.37, abs=0.01)
    # the crow-foot lengthens the longest wrench by 45 of 520 mm: from 200 to 217.3 N·m at the bolt
    longest, foot = kit.wrenches["click_200"].length_mm, kit.adapters["crow_foot"].length_mm
    assert longest is not None
    assert 200 * (longest + foot) / longest == pytest.approx(217.3, abs=0.05)


def test_exactly_the_smallest_torques_are_out_of_reach(sheet: DataSheet, kit: Kit) -> None:
    spans = usable(kit).values()
    out = {
        key
        for key, joint in sheet.joints.items()
        for stage in joint.program
        if stage.torque is not None
        and not any(low <= stage.torque.middle_in("N·m") <= high for low, high in spans)
    }
    assert out == {"camshaft_caps", "rear_cover", "valve_cover"}


def test_one_micrometer_too_few(sheet: DataSheet, kit: Kit) -> None:
    reaches = [gauge.range for gauge in kit.gauges.values() if gauge.kind == "outside micrometer"]
    ends = [(reach.low_in("mm"), reach.high_in("mm")) for reach in reaches if reach is not None]
    assert ends == [(0.0, 25.0), (25.0, 50.0)]
    skirt = sheet.characteristics["piston_skirt"].new_range
    assert skirt is not None
    assert skirt.value.low_in("mm") == 81.56  # would take the one from 75 to 100 mm


def test_errors_of_the_gauges(kit: Kit) -> None:
    lengths = {key: gauge for key, gauge in kit.gauges.items() if gauge.reads == "length"}
    assert set(kit.gauges) - set(lengths) == {"thermometer"}
    errors = {key: gauge.error.high_in("mm") for key, gauge in lengths.items() if gauge.error is not None}
    assert errors == {
        "feelers": 0.005, "straightedge": 0.01, "caliper": 0.02, "micrometer_25": 0.004,
        "micrometer_50": 0.004, "dial_gauge": 0.012, "bore_gauge": 0.005, "plastic_strip": 0.01,
    }  # fmt: skip
    # a bore gauge set with a caliper is no better than the caliper: what that one errs comes along
    assert kit.gauges["bore_gauge"].zeroed_in == "caliper"


def test_blades_go_up(kit: Kit) -> None:
    blades = [blade.middle_in("mm") for blade in kit.gauges["feelers"].blades]
    assert blades == sorted(set(blades))
    assert (blades[0], blades[-1], len(blades)) == (0.03, 1.00, 27)


def test_names_say_the_ranges(kit: Kit) -> None:
    named = [(tool.name, tool.range) for tool in kit.wrenches.values()]
    named += [(tool.name, tool.range) for tool in kit.gauges.values() if tool.range is not None]
    told = [(re.search(r"\d+–\d+", name), reach) for name, reach in named]
    assert sum(said is not None for said, _ in told) == 6
    assert all(reach.text.startswith(f"{said[0]} ") for said, reach in told if said is not None)
    blades, reach = kit.gauges["feelers"].blades, kit.gauges["feelers"].range
    assert reach is not None
    assert (reach.low_in("mm"), reach.high_in("mm")) == (
        blades[0].middle_in("mm"),
        blades[-1].middle_in("mm"),
    )


def test_shims_in_stock_are_sizes_of_the_sheet(sheet: DataSheet, kit: Kit) -> None:
    assert kit.shims_in_stock
    for size in kit.shims_in_stock:
        steps = (float(size.removesuffix(" mm")) - 2.00) / 0.05
        assert abs(steps - round(steps)) < 1e-9
        assert 0 <= round(steps) <= 16


def test_kit_says_that_it_is_invented(kit: Kit) -> None:
    assert kit.invented


def test_suppliers_sell_parts_of_the_sheet_and_nothing_else(sheet: DataSheet, kit: Kit) -> None:
    assert all(set(one.sells) <= set(sheet.parts) for one in kit.suppliers.values())
    assert {one.currency for one in kit.suppliers.values()} == {"EUR"}
    assert all("invented" in one.name for one in kit.suppliers.values())


def test_what_is_renewed_in_any_case_can_be_bought_and_not_from_one_supplier(
    sheet: DataSheet, kit: Kit
) -> None:
    once = {key for key, part in sheet.parts.items() if part.one_time}
    sold = [set(one.sells) for one in kit.suppliers.values()]
    assert once <= set().union(*sold)
    assert not any(once <= one for one in sold)
