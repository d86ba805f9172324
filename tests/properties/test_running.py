"""Whatever the figures: what rises with what, and inverses that bring back what went in."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.calc.engine.atmosphere import standard_air
from gudgeon.calc.engine.coolant import (
    freeze_point_c,
    freezing_table,
    mass_share,
    mixing,
    share_after_cycles,
    share_for_freeze_point,
    volume_share,
)
from gudgeon.calc.engine.cranking import dynamic_ratio, gauge_pressure_kpa, implied_exponent
from gudgeon.calc.engine.leak_down import cylinder_behind_orifice_kpa, leak_down
from gudgeon.calc.engine.spread import spread_of

shares = st.floats(0.0, 1.0)
altitudes = st.floats(-400.0, 10_000.0)
exponents = st.floats(1.0, 1.4)
ratios = st.floats(2.0, 25.0)


@given(altitudes, st.floats(1.0, 500.0))
def test_higher_is_thinner_and_colder(altitude: float, more: float) -> None:
    low, high = standard_air(altitude), standard_air(altitude + more)
    assert high.pressure_pa < low.pressure_pa
    assert high.temperature_k < low.temperature_k
    assert high.density_kg_per_m3 < low.density_kg_per_m3


@given(ratios, st.floats(0.0, 120.0), st.floats(60.0, 120.0), st.floats(1.3, 3.0))
def test_a_later_closing_leaves_less(ratio: float, closing: float, stroke: float, rods: float) -> None:
    sizes = {"stroke_mm": stroke, "rod_length_mm": stroke * rods / 2 + stroke / 2}
    early = dynamic_ratio(ratio, closing_deg=closing, **sizes)
    late = dynamic_ratio(ratio, closing_deg=closing + 5.0, **sizes)
    assert 1.0 < late < early <= ratio * (1 + 1e-12)


@given(ratios, exponents, st.floats(50.0, 110.0))
def test_the_exponent_comes_back_from_the_pressure(ratio: float, exponent: float, ambient: float) -> None:
    pressure = gauge_pressure_kpa(ratio, exponent=exponent, ambient_kpa=ambient)
    assert implied_exponent(pressure, ratio=ratio, ambient_kpa=ambient) == pytest.approx(exponent, rel=1e-9)
    assert gauge_pressure_kpa(ratio * 1.01, exponent=exponent, ambient_kpa=ambient) > pressure


@settings(max_examples=50)
@given(st.floats(200.0, 1000.0), st.floats(0.02, 0.999), st.floats(0.5, 2.0), st.floats(60.0, 105.0))
def test_a_hole_shows_on_its_own_tester_what_it_was_worked_out_from(
    supply: float, share: float, orifice: float, ambient: float
) -> None:
    cylinder = supply * share
    found = leak_down(supply, cylinder_kpa=cylinder, orifice_mm=orifice, ambient_kpa=ambient)
    again = cylinder_behind_orifice_kpa(
        supply, hole_mm=found.equivalent_hole_mm, orifice_mm=orifice, ambient_kpa=ambient
    )
    assert again == pytest.approx(cylinder, rel=1e-6)
    wider = cylinder_behind_orifice_kpa(
        supply, hole_mm=found.equivalent_hole_mm, orifice_mm=orifice * 1.2, ambient_kpa=ambient
    )
    assert wider > cylinder


@given(st.floats(200.0, 1000.0), st.floats(0.05, 0.95), st.floats(0.5, 2.0))
def test_less_in_the_cylinder_is_a_larger_hole(supply: float, share: float, orifice: float) -> None:
    tight = leak_down(supply, cylinder_kpa=supply * share, orifice_mm=orifice)
    leaky = leak_down(supply, cylinder_kpa=supply * share * 0.98, orifice_mm=orifice)
    assert leaky.equivalent_hole_mm > tight.equivalent_hole_mm
    assert leaky.leak_share > tight.leak_share


@settings(max_examples=50)
@given(st.floats(0.0, 0.6), st.sampled_from(["ethylene", "propylene"]), st.sampled_from(["volume", "mass"]))
def test_the_share_comes_back_from_its_freezing_point(share: float, glycol: str, basis: str) -> None:
    table = freezing_table(glycol, basis=basis)
    frozen = freeze_point_c(share, table=table)
    assert frozen <= 0.0
    if frozen < -1e-6:
        assert share_for_freeze_point(frozen, table=table) == pytest.approx(share, abs=1e-7)


@given(shares, st.floats(0.9, 1.3))
def test_by_mass_and_by_volume_undo_each_other(share: float, gravity: float) -> None:
    assert volume_share(mass_share(share, gravity=gravity), gravity=gravity) == pytest.approx(
        share, abs=1e-12
    )


@given(st.floats(1.0, 30.0), shares, shares, shares)
def test_a_mix_holds_what_was_wanted_and_fills_the_system(
    capacity: float, part: float, present: float, target: float
) -> None:
    residual = capacity * part
    found = mixing(capacity, residual_l=residual, present=present, target=target)
    left = residual - found.drain_l
    poured = found.concentrate_l + found.water_l
    assert min(found.drain_l, found.concentrate_l, found.water_l, left) >= -1e-9
    assert left + poured == pytest.approx(capacity)
    assert left * present + found.concentrate_l == pytest.approx(capacity * target, abs=1e-6 * capacity)


@given(st.floats(1.0, 30.0), shares, shares, shares, st.integers(0, 12))
def test_a_share_after_cycles_lies_between_both(
    capacity: float, part: float, present: float, added: float, cycles: int
) -> None:
    after = share_after_cycles(
        capacity, drained_l=capacity * part, present=present, added=added, cycles=cycles
    )
    low, high = sorted((present, added))
    assert low - 1e-12 <= after <= high + 1e-12


@given(st.lists(st.floats(1.0, 2000.0), min_size=2, max_size=12), st.floats(0.1, 10.0))
def test_a_spread_knows_no_unit_and_no_order(readings: list[float], unit: float) -> None:
    found = spread_of(readings)
    other = spread_of([unit * one for one in reversed(readings)])
    assert other.share == pytest.approx(found.share)
    assert other.below == pytest.approx(found.below)
    assert 0.0 < found.share <= 1.0
    assert readings[found.lowest_cylinder - 1] == found.lowest == min(readings)
