"""Errors and edges of the air, cranking, leak-down, spread and coolant. Figures by hand in comments."""

import math
from itertools import pairwise

import pytest

from gudgeon.calc.calculator import run
from gudgeon.calc.engine.atmosphere import standard_air
from gudgeon.calc.engine.coolant import (
    freeze_point_c,
    freezing_table,
    mixing,
    share_after_cycles,
    share_for_freeze_point,
)
from gudgeon.calc.engine.cranking import cranking_pressure, dynamic_ratio, gauge_pressure_kpa
from gudgeon.calc.engine.leak_down import cylinder_behind_orifice_kpa, leak_down, orifice_flow
from gudgeon.calc.engine.spread import spread_of, within
from gudgeon.errors import InputError


@pytest.mark.parametrize(
    ("calculator", "inputs", "words"),
    [
        (
            "engine.atmosphere",
            {"altitude": "20000 m"},
            # Geometric: 6,356,766 · 11,000 / (6,356,766 − 11,000) = 11,019.07 m; so for −5,000: −4,996.07 m.
            "Altitude 20000 m is outside -4996 to 11019 m, the lowest layer of the standard atmosphere "
            "(U.S. Standard Atmosphere 1976, ISO 2533). Give the altitude above the sea, with its unit.",
        ),
        (
            "engine.cranking-pressure",
            {"ratio": "9", "intake_closing": "200°", "stroke": "86 mm", "rod_length": "143 mm"},
            "Intake closing 200° after bottom dead center cannot be: it is from 0 to less than 180, on the way up. "
            "Give the angle after bottom dead center as the manual prints it.",
        ),
        (
            "engine.cranking-pressure",
            {"ratio": "9", "exponent": "1.5"},
            "Exponent 1.5 cannot be: from 1 (all heat lost) to 1.4 (none lost, dry air; by hand, from the laws of "
            "gases). Give 1.20 to 1.30, or leave it out.",
        ),
        (
            "engine.cranking-pressure",
            {"ratio": "9", "exponent": "1.3", "exponent_high": "1.2"},
            "Exponents 1.3 to 1.2 run downward. Exchange them.",
        ),
        (
            "engine.cranking-pressure",
            {"ratio": "9", "intake_closing": "60°", "stroke": "86 mm"},
            "engine.cranking-pressure needs rod_length, which is not given. Add it, like rod_length='143 mm'.",
        ),
        (
            "engine.cranking-pressure",
            {"ratio": "0.9", "intake_closing": "60°", "stroke": "86 mm", "rod_length": "143 mm"},
            "Compression ratio 0.9 cannot be: it is above 1. Give (swept + clearance) / clearance volume.",
        ),
        (
            "engine.cranking-pressure",
            {"ratio": "9", "intake_closing": "60°", "stroke": "86 mm", "rod_length": "40 mm"},
            "Rod length 40 mm cannot be: it is more than half the stroke plus the pin offset (43 mm), or the crank does "
            "not turn over. Measure from center to center.",
        ),
        (
            "engine.compression-spread",
            {"readings": "11 bar", "limit": "75 %"},
            "1 reading cannot be compared: a spread takes at least two cylinders. Give them apart by semicolons, like "
            "`11.2 bar; 10.9 bar`.",
        ),
        (
            "engine.compression-spread",
            {"readings": "11,2 bar; 10,9 bar", "limit": "75 %"},
            "`11,2 bar; 10,9 bar` has a comma, which may part readings or stand for a decimal point. Part readings by "
            "semicolons and write decimals with a point, like `11.2 bar; 10.9 bar`.",
        ),
        (
            "engine.compression-spread",
            {"readings": "11; 10 bar", "limit": "175 %"},
            "Limit 175 % cannot be: it is 0 to 100 %. Give a part of the whole, like `50 %` or 0.5.",
        ),
        (
            "engine.leak-down",
            {"supply": "500 kPa", "cylinder": "600 kPa", "orifice": "1 mm"},
            "Cylinder pressure 600 kPa is above the supply of 500 kPa: behind the orifice there is never more. Exchange "
            "them, or set the regulator anew with the hose closed.",
        ),
        (
            "engine.leak-down",
            {"supply": "500 kPa", "cylinder": "0 kPa", "orifice": "1 mm"},
            "Cylinder pressure 0: the leak is larger than this tester can tell (0 at its gauge means any large hole). "
            "See whether both valves are closed and the piston is at the top; then look for the hole.",
        ),
        (
            "engine.coolant",
            {"fraction": "70 %"},
            "70 % glycol is outside 0 to 60 %, where ASHRAE ends: with more glycol than that the mix freezes at a milder "
            "cold again. Take no more than that.",
        ),
        (
            "engine.coolant",
            {"fraction": "50"},
            "5000 % glycol is outside 0 to 60 %, where ASHRAE ends: with more glycol than that the mix freezes at a "
            "milder cold again. Write a share with its sign or as a part of 1: `50 %` or 0.5.",
        ),
        (
            "engine.coolant",
            {"target": "40 %", "capacity": "5 L", "added": "90"},
            "Share added 9000 % cannot be: it is 0 to 100 %. Give a part of the whole, like `90 %` or 0.9.",
        ),
        (
            "engine.leak-down",
            {"supply": "5.5", "cylinder": "4.5", "orifice": "1 mm"},
            "supply: `5.5` has no unit, and 5.5 kPa is far from 100 to 1500 kPa (order of size, by hand). Write it with "
            "its unit, like `80 psi`.",
        ),
        (
            "engine.leak-down",
            {"supply": "5.5 bar", "cylinder": "4.5", "orifice": "1 mm"},
            "cylinder: `4.5` has no unit, and 4.5 kPa is far from 100 to 1500 kPa (order of size, by hand). Write it "
            "with its unit, like `75 psi`.",
        ),
        (
            "engine.coolant",
            {"guards_to": "-60 °C"},
            "-60 °C is colder than -52.02 °C, the end of ASHRAE at 60 % glycol. Ask for a temperature within it.",
        ),
        (
            "engine.coolant",
            {"guards_to": "5 °C"},
            "5 °C asks for no glycol: water alone freezes at 0 °C. Give the cold that it must stand.",
        ),
        (
            "engine.coolant",
            {"fraction": "50 %", "table": "Lange"},
            "There is no table `Lange` for ethylene glycol by volume. Take one of: ASHRAE.",
        ),
        (
            "engine.coolant",
            {"target": "50 %", "capacity": "8 L", "residual": "8 L", "present": "20 %", "added": "40 %"},
            "Target 50 % cannot be reached: what is in it, with 20 %, and what is poured in, with 40 %, give 40 % at "
            "most. Pour in something richer.",
        ),
        (
            "engine.coolant",
            {"target": "50 %", "capacity": "8 L", "residual": "9 L"},
            "What is in it, 9 L is more than the 8 L that the system holds. Check both figures and their units.",
        ),
        (
            "engine.coolant",
            {"drain": "9 L", "capacity": "8 L", "present": "20 %"},
            "Drained 9 L is more than the 8 L that the system holds. Check both figures and their units.",
        ),
        (
            "engine.coolant",
            {"fraction": "50 %", "target": "40 %"},
            "fraction and target are both given, and each decides alone. Give one of them.",
        ),
        (
            "engine.coolant",
            {},
            "engine.coolant needs fraction, target, guards_to or drain, which is not given. Add it, like "
            "fraction='50 %'.",
        ),
    ],
)  # fmt: skip
def test_what_is_refused_and_in_which_words(calculator: str, inputs: dict[str, str], words: str) -> None:
    with pytest.raises(InputError) as caught:
        run(calculator, inputs)
    assert str(caught.value) == words


def test_the_air_below_the_sea_is_denser() -> None:
    # 400 m below it: T = 288.15 + 2.6 K (HAND), to the curvature of the earth
    air = standard_air(-400.0)
    assert air.temperature_k == pytest.approx(290.75, abs=1e-3)
    assert air.pressure_pa > 101_325


def test_a_pin_offset_moves_bottom_dead_center_too() -> None:
    # Closing at bottom dead center itself keeps the whole ratio, whatever the offset (HAND: by definition).
    for offset in (-10.0, 0.0, 1.0, 10.0):
        found = dynamic_ratio(9.0, closing_deg=0.0, stroke_mm=86.0, rod_length_mm=143.0, pin_offset_mm=offset)
        assert found == pytest.approx(9.0, abs=1e-12)


def test_a_leak_of_nothing_is_no_hole_on_any_tester() -> None:
    found = leak_down(550.0, cylinder_kpa=550.0, orifice_mm=1.0)
    assert (found.leak_share, found.equivalent_hole_mm) == (0.0, 0.0)
    assert cylinder_behind_orifice_kpa(550.0, hole_mm=0.0, orifice_mm=1.5) == 550.0


def test_below_the_critical_ratio_no_more_air_flows() -> None:
    # 0.5283 of the pressure before the hole, for γ = 1.4 (HAND: (2 / 2.4)^3.5)
    assert orifice_flow(100.0, behind_kpa=0.0) == orifice_flow(100.0, behind_kpa=52.8)
    assert orifice_flow(100.0, behind_kpa=53.0) < orifice_flow(100.0, behind_kpa=52.8)
    assert orifice_flow(100.0, behind_kpa=100.0) == orifice_flow(100.0, behind_kpa=120.0) == 0.0


def test_the_hole_of_an_orifice_that_drops_half_is_told_as_choked() -> None:
    flags = run("engine.leak-down", {"supply": "80 psi", "cylinder": "30 psi", "orifice": "0.040 in"}).flags
    assert flags == (
        "The air flows through the orifice at the speed of sound (pressures below 0.528 of each other): a larger leak "
        "shows on the gauge by less and less.",
    )


def test_a_limit_is_met_exactly() -> None:
    assert within(spread_of([1.1, 1.0]), rule="absolute", limit=0.1)
    assert within(spread_of([1000.0, 750.0]), rule="ratio to highest", limit=0.75)
    # mean 95, 10 % below it is 85.5
    assert within(spread_of([104.5, 85.5]), rule="percent below mean", limit=0.10)
    assert not within(spread_of([104.6, 85.4]), rule="percent below mean", limit=0.10)


def test_readings_are_told_as_they_were_understood() -> None:
    # HAND: 11.2 bar = 1120 kPa, and 1120 / 6.894757 = 162.4 psi; a unit written once counts for all.
    found = run("engine.compression-spread", {"readings": "11.2 bar; 10.9; 8.0", "limit": "75 %"})
    assert found.inputs["readings"] == "1120 kPa (162.4 psi); 1090 kPa (158.1 psi); 800 kPa (116.0 psi)"
    assert found.inputs["limit"] == "75 %"


def test_cylinders_that_are_all_dead_are_alike() -> None:
    found = spread_of([0.0, 0.0])
    assert (found.difference, found.share, found.below) == (0.0, 1.0, 0.0)


def test_a_low_exponent_is_flagged_as_a_leak() -> None:
    # 6 bar at ratio 8: ln(1 + 600/101.325) / ln 8 = 0.930 (HAND)
    answer = run("engine.cranking-pressure", {"ratio": "8", "measured": "6 bar"})
    assert answer["implied_exponent"] == pytest.approx(0.930, abs=5e-4)
    assert answer.flags == (
        "An exponent of 0.93 is below 1.1 (by hand): gas is lost, or the starter is slow, the throttle shut, the hose "
        "long.",
    )


def test_a_system_that_is_too_rich_is_thinned_with_water() -> None:
    # 8 L at 60 % to 45 %: 8 · (1 − 0.45 / 0.60) = 2 L out, 2 L of water in (HAND)
    found = mixing(8.0, residual_l=8.0, present=0.60, target=0.45)
    assert found.drain_l == pytest.approx(2.0)
    assert found.concentrate_l == pytest.approx(0.0, abs=1e-12)
    assert found.water_l == pytest.approx(2.0)


def test_what_is_right_is_left_alone() -> None:
    found = mixing(8.0, residual_l=8.0, present=0.50, target=0.50)
    assert (found.drain_l, found.concentrate_l, found.water_l) == (0.0, 0.0, 0.0)


def test_thin_premix_in_a_half_empty_system() -> None:
    # 8 L, 3 L of water in it, 60 % premix, target 40 %: glycol 3.2 = (5 + d) · 0.6, d = 1/3 L out; all premix (HAND)
    found = mixing(8.0, residual_l=3.0, present=0.0, target=0.40, added=0.60)
    assert found.drain_l == pytest.approx(1 / 3)
    assert found.concentrate_l == pytest.approx(16 / 3)
    assert found.water_l == pytest.approx(0.0, abs=1e-12)


def test_what_is_in_it_may_be_richer_than_what_is_poured_in() -> None:
    # 8 L, 5 L of 60 % in it, 30 % premix, target 45 %: 3.6 L of glycol, 3.0 are there, 0.6 / 0.3 = 2 L of premix,
    # and water for the last liter (HAND)
    found = mixing(8.0, residual_l=5.0, present=0.60, target=0.45, added=0.30)
    assert (found.drain_l, found.concentrate_l, found.water_l) == pytest.approx((0.0, 2.0, 1.0))
    # At most (5 · 0.6 + 3 · 0.3) / 8 = 48.75 %
    with pytest.raises(InputError) as refused:
        mixing(8.0, residual_l=5.0, present=0.60, target=0.49, added=0.30)
    assert str(refused.value) == (
        "Target 49 % cannot be reached: what is in it, with 60 %, and what is poured in, with 30 %, give 48.8 % at "
        "most. Pour in something richer."
    )


def test_the_ends_of_the_air_are_told_as_they_hold() -> None:
    # 11,000 m of geopotential altitude are 11,019.07 m: p of the tables there is 22,632.06 Pa (U.S. Standard
    # Atmosphere 1976, table I)
    assert standard_air(11_019.06).pressure_pa == pytest.approx(22_632.1, abs=0.2)
    assert standard_air(-4_996.0).temperature_k == pytest.approx(288.15 + 32.5, abs=0.01)
    with pytest.raises(InputError, match="outside -4996 to 11019 m"):
        standard_air(-5_000.0)


def test_shares_by_mass_are_mixed_by_volume() -> None:
    # Row F15 with its 1000 gal as 10 L: 2.776 L
    answer = run("engine.coolant", {"basis": "mass", "target": "30 %", "capacity": "10 L"})
    assert answer["concentrate_l"] == pytest.approx(2.776, abs=1e-3)


def test_other_sources_are_named_where_they_differ() -> None:
    # Lange's Handbook, 15th edition, table 5.13: −33.3 °C at 50 % propylene glycol
    flags = run("engine.coolant", {"glycol": "propylene", "fraction": "50 %"}).flags
    assert flags[-1] == (
        "Another source has -33.3 °C: Lange's Handbook of Chemistry:15th, table 5.13, p. 5.85, pure glycol by volume; "
        "the minus signs are lost in the copy that was seen."
    )


@pytest.mark.parametrize("glycol", ["ethylene", "propylene"])
@pytest.mark.parametrize("basis", ["volume", "mass"])
def test_freezing_points_fall_all_the_way(glycol: str, basis: str) -> None:
    table = freezing_table(glycol, basis=basis)
    points = [freeze_point_c(share / 200, table=table) for share in range(121)]
    assert points[0] == 0.0
    assert all(after < before for before, after in pairwise(points))
    for share in (0.01, 0.123, 0.5, 0.6):
        frozen = freeze_point_c(share, table=table)
        assert share_for_freeze_point(frozen, table=table) == pytest.approx(share, abs=1e-9)


def test_many_cycles_end_at_what_is_filled_up_with() -> None:
    assert share_after_cycles(7.0, drained_l=3.0, present=0.1, added=0.5, cycles=60) == pytest.approx(0.5)
    assert share_after_cycles(7.0, drained_l=3.0, present=0.1, added=0.5, cycles=0) == pytest.approx(0.1)


def test_no_heat_and_all_heat_bound_the_band() -> None:
    # n = 1: p0 (r − 1); n = 1.4: p0 (r^1.4 − 1)
    assert gauge_pressure_kpa(8.0, exponent=1.0, ambient_kpa=100.0) == pytest.approx(700.0)
    assert gauge_pressure_kpa(8.0, exponent=1.4, ambient_kpa=100.0) == pytest.approx(100 * (8**1.4 - 1))
    band = cranking_pressure(8.0, ambient_kpa=100.0)
    assert 700.0 < band.gauge_low_kpa < band.gauge_high_kpa < 100 * (8**1.4 - 1)
    assert math.isfinite(band.gauge_high_kpa)


def test_coolant_is_understood_in_liters_and_percent() -> None:
    # HAND: 5 L = 5 / 0.946353 = 5.28 US qt
    inputs = run(
        "engine.coolant", {"target": "0.4", "added": "1", "capacity": "5 L", "residual": "2000 cm³"}
    ).inputs
    assert (inputs["target"], inputs["added"]) == ("40 %", "100 %")
    assert (inputs["capacity"], inputs["residual"]) == ("5.00 L (5.28 US qt)", "2.00 L (2.11 US qt)")
    assert inputs["present"] == "0 % (default)"


@pytest.mark.parametrize(
    ("orifice", "cylinder", "words"),
    [
        # COMMON PRACTICE: to 10 % good, to 20 % worn, over 30 % to be repaired; rows L03 and L08 (HAND): 75 of 80 psi is
        # 6.25 % lost; 72.24 of 80 psi through 0.060 in is 37.5 % through 0.040 in
        ("0.040 in", "75 psi", "good: 6.2 % lost through an orifice of 1.016 mm (0.040 in) (common practice)"),
        ("0.040 in", "68 psi", "worn: 15.0 % lost through an orifice of 1.016 mm (0.040 in) (common practice)"),
        (
            "0.060 in", "72.24 psi",
            "to be repaired: 37.5 % lost through an orifice of 1.016 mm (0.040 in) (common practice)",
        ),
    ],
)  # fmt: skip
def test_a_leak_has_a_plain_word(orifice: str, cylinder: str, words: str) -> None:
    found = run("engine.leak-down", {"supply": "80 psi", "cylinder": cylinder, "orifice": orifice})
    assert found["verdict"] == words


def test_an_altitude_may_be_in_kilometers_and_is_asked_for_in_what_altitudes_are() -> None:
    # U.S. Standard Atmosphere 1976, 2000 m: 79 501 Pa
    assert run("engine.atmosphere", {"altitude": "2 km"})["pressure_pa"] == pytest.approx(79501, abs=1)
    with pytest.raises(InputError) as caught:
        run("engine.atmosphere", {"altitude": "900 kg"})
    assert str(caught.value) == (
        "altitude: `kg` is a unit of mass, not of altitude. Write one of: m, ft, km, mi."
    )
