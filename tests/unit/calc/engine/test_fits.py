"""The calculators of fits: how ranges are written, what heat leaves of a gap, which drill goes in; full refusals."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc.calculator import CalculatorAnswer, run
from gudgeon.calc.engine.drill_shanks import shanks_below
from gudgeon.calc.engine.fits import clearance_of_parts
from gudgeon.calc.engine.ring_gap import Warmed, hot_ring_gap
from gudgeon.calc.engine.valve_depth import valve_depth
from gudgeon.calc.metrology.small_parts import ring_gap_in_bore
from gudgeon.errors import InputError
from gudgeon.sources.drill_shanks import drill_shanks


def clearance(**inputs: str) -> tuple[float, float, float]:
    found = run("engine.oil-clearance", inputs)
    least, most, middle = (found[f"clearance_{end}_mm"] for end in ("least", "most", "middle"))
    assert isinstance(least, float)
    assert isinstance(most, float)
    assert isinstance(middle, float)
    return least, most, middle


@pytest.mark.parametrize(
    ("bore", "journal"),
    [
        ("53.00–53.02 mm", "49.98–50.00 mm"),
        ("53.00-53.02", "49.98 to 50.00"),
        ("53.01 ± 0.01", "49.99 ± 0.01 mm"),
        ("53.01 +0.01/-0.01 mm", "49.99±.01"),
    ],
)
def test_a_range_is_written_as_a_manual_writes_it(bore: str, journal: str) -> None:
    # HAND: 53.00 − 2 · 1.49 − 50.00 = 0.02; 53.02 − 2 · 1.48 − 49.98 = 0.08.
    assert clearance(bore=bore, journal=journal, shell="1.48-1.49 mm") == pytest.approx((0.02, 0.08, 0.05))


def test_two_halves_that_differ() -> None:
    # HAND: 53 − 1.48 − 1.49 − 50 = 0.03.
    assert clearance(bore="53", journal="50", shell="1.48", other_shell="1.49") == pytest.approx((0.03,) * 3)


@given(st.floats(1.0, 2.0), st.floats(0.0, 0.05))
def test_half_of_an_undersize_pair_takes_half_of_it(thickness: float, undersize: float) -> None:
    """A pair 0.05 undersize has halves 0.025 thicker; one of them beside a standard half takes half of 0.05."""
    plain, thick = (thickness, thickness), (thickness + undersize / 2,) * 2
    found = [
        clearance_of_parts((53.0, 53.0), shaft_mm=(49.0, 49.0), shells_mm=halves).middle_mm
        for halves in ([plain, plain], [plain, thick], [thick, thick])
    ]
    assert found[0] - found[1] == pytest.approx(undersize / 2)
    assert found[0] - found[2] == pytest.approx(undersize)


def flags(found: CalculatorAnswer) -> tuple[str, ...]:
    return found.flags


def test_what_is_too_tight_is_said() -> None:
    parts = {"bore": "87.20-87.25", "journal": "87.165-87.215"}
    assert flags(run("engine.oil-clearance", parts)) == (
        "At the tight end of the ranges there is no clearance: the parts must be matched.",
    )
    assert flags(run("engine.oil-clearance", {"bore": "20", "journal": "20.01 mm"})) == (
        "The shaft is not smaller than its hole at any end of the ranges: an interference, or a slip.",
    )


GAP = {"cold_gap": "0.25 mm", "bore": "87.2 mm"}
HOT = {"ring_temperature": "200 °C", "bore_temperature": "120 °C"}


def test_the_expansion_comes_from_the_table_of_materials() -> None:
    # HAND: π · 87.2 = 273.9469; grown by 11.4e-6 · 100 K 0.312299; the ring, 273.6969, by 11.4e-6 · 180 K 0.561626;
    # 0.25 + 0.312299 − 0.561626 = 0.000673 mm.
    of_iron = {"ring_material": "gray iron", "bore_material": "gray iron"}
    found = run("engine.ring-gap", GAP | HOT | of_iron)
    assert found["hot_gap_mm"] == pytest.approx(0.000673, abs=1e-6)
    said = "gray iron, 11.4 µm/(m·K) (6.3 µin/(in·°F))"
    assert flags(found)[0].startswith(f"The ring is taken as {said}")
    assert flags(found)[1].startswith(f"The bore is taken as {said}")


def test_where_nobody_says_the_material_it_is_iron_or_steel() -> None:
    # HAND: π · 87.2 · (1 + 11e-6 · 100) − (π · 87.2 − 0.25) · (1 + 11e-6 · 180) = 0.009422; COMMON PRACTICE: 11e-6
    found = run("engine.ring-gap", GAP | HOT)
    assert found["hot_gap_mm"] == pytest.approx(0.009422, abs=1e-6)
    assert flags(found)[0].startswith("The ring is taken as iron or steel, 11 µm/(m·K)")


def test_one_expansion_may_stand_for_both() -> None:
    # HAND: π · 87.2 · (1 + 11e-6 · 100) − (π · 87.2 − 0.25) · (1 + 11e-6 · 180) = 0.009422
    given = {"cold_gap": "0.25", "bore": "87.2", "ring_temperature": "200", "bore_temperature": "120"}
    assert run("engine.ring-gap", {**given, "expansion": "11e-6"})["hot_gap_mm"] == pytest.approx(
        0.009422, abs=1e-6
    )


def test_a_clearance_of_mixed_units_is_flagged() -> None:
    # HAND: bore 1.624 in = 41.2496 mm, journal 1.5 in = 38.1 mm, halves of 0.06 mm: 3.0296 mm, 7.95 % of the journal
    found = run("engine.oil-clearance", {"bore": "1.624 in", "journal": "1.5 in", "shell": "0.06"})
    assert found.flags == (
        "The clearance is 7.95 % of the journal, and running fits have at most 2 % (by hand, from tables of engines): "
        "check the unit of every size.",
        "Without a unit, shell counts as mm, beside bore in `in`, journal in `in`: write the unit behind every size.",
    )
    assert found.inputs["shell"] == "0.06 mm (0.0024 in), no unit written: mm"
    assert (
        run("engine.oil-clearance", {"bore": "1.624 in", "journal": "1.5 in", "shell": "0.061 in"}).flags
        == ()
    )


def test_sizes_in_inches_without_their_unit_are_told_as_taken_in_mm() -> None:
    # HAND: 2.2403 mm less two halves of 0.0570 in = 1.4478 mm and a journal of 2.1251 mm: −2.7804 mm, 131 % of it.
    given = {"bore": "2.2400-2.2406", "journal": "2.1248-2.1254", "shell": "0.0570 in"}
    found = run("engine.oil-clearance", given)
    assert found["clearance_middle_mm"] == pytest.approx(-2.7804, abs=5e-5)
    assert found.inputs["bore"].startswith("2.2400–2.2406 mm (0.0")
    assert found.inputs["bore"].endswith("in), no unit written: mm")
    assert found.inputs["shell"] == "1.448 mm (0.0570 in)"
    assert found.flags == (
        "The shaft is not smaller than its hole at any end of the ranges: an interference, or a slip.",
        "The parts overlap by 131 % of the journal, and no press fit is that tight: check the unit of every size.",
        "Without a unit, bore and journal count as mm, beside shell in `in`: write the unit behind every size.",
    )
    assert flags(run("engine.oil-clearance", {"bore": "53.05", "journal": "53.00 mm"})) == ()


def test_a_gap_that_closes_is_said() -> None:
    found = run("engine.ring-gap", GAP | HOT | {"cold_gap": "0.20 mm", "expansion": "11.4e-6"})
    assert flags(found)[0] == (
        "The gap closes: the ends would press on each other by 0.049 mm, and the ring would seize in its bore. "
        "It needs more gap when cold."
    )


def test_without_temperatures_only_the_share_of_the_bore() -> None:
    found = run("engine.ring-gap", GAP)
    assert [one.name for one in found.results] == ["gap_per_bore"]
    assert flags(found) == ("No temperatures are given, so nothing is said of the gap when hot.",)


@given(st.floats(0.1, 1.0), st.floats(60.0, 110.0), st.floats(20.0, 300.0))
def test_a_bore_as_hot_as_the_ring_keeps_the_share(gap: float, bore: float, celsius: float) -> None:
    """Where both grow alike the gap grows as everything else."""
    both = Warmed(celsius, 11e-6)
    found = hot_ring_gap(gap, bore_mm=bore, ring=both, bore=both)
    assert found.gap_mm == pytest.approx(gap * (1 + 11e-6 * (celsius - 20)), rel=1e-9)


@given(st.floats(0.1, 1.0), st.floats(60.0, 110.0), st.floats(20.0, 300.0))
def test_a_cold_ring_in_a_warm_bore_is_a_ring_in_a_larger_bore(
    gap: float, bore: float, celsius: float
) -> None:
    """Two ways to one gap: the bore grows by its expansion, and the ring is moved into a bore of that size."""
    found = hot_ring_gap(gap, bore_mm=bore, ring=Warmed(20.0, 11e-6), bore=Warmed(celsius, 11e-6))
    other = ring_gap_in_bore(gap, bore_mm=bore, other_bore_mm=found.bore_mm)
    assert found.gap_mm == pytest.approx(other, abs=1e-9)


@given(st.integers(360, 25_399).map(lambda um: (um + 0.3) / 1000))
def test_no_drill_between_is_left_out(hole: float) -> None:
    """Against the whole table, one by one."""
    found = shanks_below(hole)
    for series in ("fraction", "number", "letter", "metric"):
        fitting = [
            one.diameter_mm for one in drill_shanks() if one.series == series and one.diameter_mm <= hole
        ]
        assert (found[series].diameter_mm if series in found else None) == max(fitting, default=None)


def test_a_hole_of_the_very_size_takes_it_and_says_so() -> None:
    found = run("engine.pin-for-hole", {"hole": "1/4 in"})
    assert (found["fraction"], found["letter"], found["metric"]) == ("1/4 in", "E", "6.3 mm")
    assert found["play_mm"] == 0
    assert flags(found) == (
        "It is as thick as the hole: it may not enter, then take the next below.",
        "A drill shank is an aid: measure it, take one without burrs, and never let a pin hold while something is "
        "tightened or turned.",
    )


def test_a_valve_that_is_deep_enough_needs_nothing() -> None:
    # HAND: 1.60 − 0.30 = 1.30, above 1.09.
    found = valve_depth(1.60, cut_mm=0.30, least_mm=1.09)
    assert found.after_mm == pytest.approx(1.30)
    assert found.seat_cut_mm == 0.0


REFUSED = [
    (
        "engine.oil-clearance", {"bore": "max 53 mm", "journal": "50"},
        "bore: `max 53 mm` has only one end, and least and most of the clearance need both. "
        "Write a size, a range like `43.20–43.22 mm` or a tolerance like `43.21 ± 0.01 mm`.",
    ),
    (
        "engine.oil-clearance", {"bore": "53", "journal": "50", "other_shell": "1.5"},
        "other_shell is given and shell is not. Give both halves, or shell alone for two equal ones.",
    ),
    (
        "engine.oil-clearance", {"bore": "0", "journal": "50"},
        "Bore 0 mm cannot be: it is above 0. Check the figure and its sign.",
    ),
    (
        "engine.ring-gap", {"cold_gap": "300", "bore": "86"},
        "Ring gap 300 mm cannot be in a bore of 86 mm: it is less than the circumference, 270.2 mm. "
        "Check the unit of both.",
    ),
    (
        "engine.ring-gap", {"cold_gap": "0.3", "bore": "86", "ring_temperature": "200"},
        "engine.ring-gap needs bore_temperature, which is not given. Add it, like bore_temperature='200 °C'.",
    ),
    (
        "engine.ring-gap", {"cold_gap": "0.3", "bore": "86", "ring_temperature": "2000", "bore_temperature": "90"},
        "Temperature of the ring 2000 °C cannot be: it lies from -50 to 700 °C (order of size, by hand). "
        "Write the unit with it, like `390 °F`.",
    ),
    (
        "engine.pin-for-hole", {"hole": "0.3 mm"},
        "Hole 0.3 mm is smaller than every drill of the table: the thinnest is #80, 0.343 mm. "
        "Take wire, and measure it.",
    ),
    (
        "engine.pin-for-hole", {"hole": "26"},
        "Hole 26 mm is larger than the table of drills goes (sizes up to 25.4 mm). Have a pin turned to the hole.",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("name", "inputs", "said"), REFUSED)
def test_refusals(name: str, inputs: dict[str, str], said: str) -> None:
    with pytest.raises(InputError) as refused:
        run(name, inputs)
    assert refused.value.message == said


def test_a_range_is_not_turned_around() -> None:
    with pytest.raises(InputError) as refused:
        clearance_of_parts((53.02, 53.00), shaft_mm=(50.0, 50.0))
    assert refused.value.message == (
        "Bore 53.02 to 53 mm cannot be: its least is above its most. Give the least first."
    )
    with pytest.raises(InputError) as other:
        clearance_of_parts((53.0, 53.0), shaft_mm=(50.0, 50.0), shells_mm=[(1.5, 1.5)])
    assert other.value.message == (
        "Thicknesses of shells given: 1. A bearing has two halves, or none where it runs bare. "
        "Give both, or one that counts for both."
    )
