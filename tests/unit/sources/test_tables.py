"""The reference figures: each has its source, and those seen in print are as printed."""

from itertools import pairwise

import pytest

from gudgeon.sources.figures import PROVENANCES, Figure, Source
from gudgeon.sources.tables import (
    expansion_coefficients,
    friction_classes,
    general_fit,
    instrument_figures,
    instruments,
    material_expansions,
    materials,
    metric_sizes,
    nut_factors,
    other_error,
    other_errors,
    permitted_error,
    permitted_errors,
    property_classes,
    tightening_ways,
    unified_sizes,
)
from gudgeon.sources.tools import permitted_deviation, tool_figure, usual_ranges


def every_source() -> list[Source]:
    threads = (metric_sizes(), unified_sizes())
    rows = (
        property_classes(),
        *threads,
        friction_classes(),
        permitted_errors(),
        other_errors(),
        material_expansions(),
        materials(),
        tightening_ways(),
    )
    tools = (tool_figure("least_share"), permitted_deviation("click", 40), permitted_deviation("beam", 40))
    single = (*nut_factors().values(), *instrument_figures().values())
    figures = (*expansion_coefficients().values(), *single, *tools)
    return [one.source for table in rows for one in table] + [one.source for one in figures]


def test_every_figure_has_a_source() -> None:
    for source in every_source():
        assert source.title
        assert source.provenance in PROVENANCES
        assert source.page


def test_a_source_reads_as_a_person_cites_it() -> None:
    assert str(Source("ISO 898-1", "2013", "table 3", "PRINTED")) == "ISO 898-1:2013, table 3"
    assert str(Source("Gauges", "", "", "MEMORY")) == "Gauges (memory)"
    assert Figure(1.0, "mm", Source("A", "", "", "HAND")).source.title == "A"


def test_strengths_rise_with_their_names_and_stay_below_the_tensile_strength() -> None:
    for one in property_classes():
        assert one.yield_mpa < one.tensile_mpa
        assert one.proof_mpa is None or one.proof_mpa < one.yield_mpa
        if one.name[0].isdigit():  # 8.8: 800 MPa, of which 0.8 is the nominal yield (ISO 898-1, clause 5)
            hundreds, tenths = (int(part) for part in one.name.split("."))
            assert 0 <= one.tensile_mpa - 100 * hundreds <= 40
            assert 0 <= one.yield_mpa - 10 * hundreds * tenths <= 40


def test_a_fine_pitch_is_finer_than_the_coarse_one() -> None:
    for size in metric_sizes():
        assert list(size.fine_mm) == sorted(size.fine_mm, reverse=True)
        assert all(pitch < size.coarse_mm for pitch in size.fine_mm)
    for unified in unified_sizes():
        assert unified.threads_per_inch["UNF"] > unified.threads_per_inch["UNC"]


# VDI 2230, table A5: seen for all five classes.
@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("A", 0.04, 0.10), ("B", 0.08, 0.16), ("C", 0.14, 0.24), ("D", 0.20, 0.35), ("E", 0.30, None)],
)
def test_friction_classes_as_printed(name: str, low: float, high: float | None) -> None:
    found = next(one for one in friction_classes() if one.name == name)
    assert (found.low, found.high) == (low, high)


def test_bands_of_the_ways_of_tightening_are_in_order() -> None:
    for one in tightening_ways():
        assert 0 < one.low <= one.high < 1, one.name
    assert len({one.name for one in tightening_ways()}) == len(tightening_ways())


# Shigley, table 8-8 (9th edition): from memory but for steel and cast iron; the general row lies among the others.
def test_constants_of_the_fitted_stiffness() -> None:
    fits = {one.name: one.fit for one in materials() if one.fit}
    assert fits["steel"] == (0.78715, 0.62873)
    assert fits["cast iron"] == (0.77871, 0.61616)
    for place in (0, 1):
        values = [fit[place] for fit in fits.values()]
        assert min(values) < general_fit()[place] < max(values)


def test_torque_tools() -> None:
    # ISO 6789: ± 6 % up to 10 N·m, ± 4 % above
    assert permitted_deviation("click", 10.0).value == 0.06
    assert permitted_deviation("click", 11.0).value == 0.04
    assert permitted_deviation("beam", 100.0).value == 0.06
    assert (tool_figure("recheck_months").value, tool_figure("recheck_cycles").value) == (12.0, 5000.0)
    assert tool_figure("overload_share").value == 1.25
    with pytest.raises(KeyError):
        permitted_deviation("hammer", 10.0)


def test_torque_tools_by_type_and_class() -> None:
    # ISO 6789:2003 (MEMORY): I A, I D and II D to G ± 6 %, the others as above
    assert permitted_deviation("click", 100.0, iso_class="II A").value == 0.04
    assert permitted_deviation("click", 10.0, iso_class="II A").value == 0.06
    assert permitted_deviation("click", 100.0, iso_class="II D").value == 0.06
    assert permitted_deviation("beam", 100.0, iso_class="I B").value == 0.04


def test_usual_torque_wrenches_leave_no_gap_between_them() -> None:
    # COMMON PRACTICE: each begins at a fifth of its end, or below; the next one begins before it ends
    ranges = usual_ranges()
    assert all(one.from_nm * 5 <= one.to_nm * (1 + 1e-9) for one in ranges)
    assert all(after.from_nm < before.to_nm for before, after in pairwise(ranges))
    assert {one.source.provenance for one in ranges} == {"COMMON PRACTICE"}


# DIN 863-1, DIN 862, TB 9-5210-207-24 table 10, JIS B 7503:2011, in µm.
@pytest.mark.parametrize(
    ("instrument", "length", "error"),
    [
        ("outside micrometer", 40.0, 4.0),
        ("outside micrometer", 60.0, 5.0),
        ("outside micrometer", 86.0, 5.0),
        ("outside micrometer", 140.0, 6.0),
        ("outside micrometer", 160.0, 7.0),
        ("outside micrometer", 190.0, 7.0),
        ("caliper", 250.0, 50.0),
        ("caliper", 350.0, 60.0),
        ("caliper", 450.0, 70.0),
        ("caliper, inside or depth", 250.0, 70.0),
        ("caliper, inside or depth", 450.0, 90.0),
        ("inside micrometer", 86.0, 7.0),
        ("inside micrometer", 200.0, 10.0),
        ("dial gauge", 0.5, 8.0),
        ("dial gauge", 2.0, 10.0),
        ("dial gauge", 4.0, 12.0),
        ("dial gauge", 8.0, 15.0),
        ("feeler blades", 0.254, 8.89),  # ± 0.00035 in of a leaf of 0.010 in
    ],
)
def test_permitted_errors_as_printed(instrument: str, length: float, error: float) -> None:
    found = permitted_error(instrument, length_mm=length)
    assert found is not None
    assert found.value * 1000 == pytest.approx(error)
    assert found.source.provenance == "PRINTED"


# MEMORY: DIN 863-1 gives 4 µm + L/50, rounded down, L where the range begins; the printed rows fit it as well.
@pytest.mark.parametrize("end", [25, 50, 75, 100, 125, 150, 175, 200, 225, 250, 275, 300])
def test_micrometers_follow_one_rule(end: int) -> None:
    found = permitted_error("outside micrometer", length_mm=end)
    assert found is not None
    assert found.value * 1000 == pytest.approx(4 + (end - 25) // 50)


# DIN 874-2, knife straightedges: 2 + L/250 µm rounds to 2 2 3 3 3 4 4 4 5 5 6 6 over its lengths to 1000 mm.
@pytest.mark.parametrize(("length", "error"), [(75, 2), (200, 3), (500, 4), (1000, 6)])
def test_straightedges_as_printed(length: float, error: float) -> None:
    found = permitted_error("straightedge", length_mm=length)
    assert found is not None
    assert round(found.value * 1000) == error


def test_the_straightedge_of_a_shop_as_printed() -> None:
    # 0.0002 in per foot: 24 in, 0.0004 in
    found = permitted_error("shop straightedge", length_mm=609.6)
    assert found is not None
    assert found.value / 25.4 == pytest.approx(0.0004, rel=1e-6)


# DIN 876: 4 + L/250, 10 + L/100, 20 + L/50, 40 + L/25 µm.
@pytest.mark.parametrize(("grade", "fixed", "per"), [(0, 4, 250), (1, 10, 100), (2, 20, 50), (3, 40, 25)])
def test_surface_plates_as_printed(grade: int, fixed: float, per: float) -> None:
    found = permitted_error(f"surface plate, grade {grade}", length_mm=500.0)
    assert found is not None
    assert found.value * 1000 == pytest.approx(fixed + 500 / per)


def test_what_was_not_seen_in_print_says_so() -> None:
    unseen = {
        "bore gauge": "MEMORY",
        "depth micrometer": "MEMORY",
        "plastic gauging strip": "COMMON PRACTICE",
    }
    for instrument, provenance in unseen.items():
        found = permitted_error(instrument, length_mm=0.1)
        assert found is not None
        assert found.source.provenance == provenance
    thick = permitted_error("feeler blades", length_mm=0.5)
    assert thick is not None
    assert (thick.value, thick.source.provenance) == (0.01, "COMMON PRACTICE")


# COMMON PRACTICE: compression gauge ± 5 %, oil pressure gauge ± 3 %, thermometer ± 1 °C.
@pytest.mark.parametrize(
    ("instrument", "kind", "reading", "error", "unit"),
    [
        ("compression gauge", "pressure_gauge", 1200.0, 60.0, "kPa"),
        ("oil pressure gauge", "pressure_gauge", 300.0, 9.0, "kPa"),
        ("thermometer", "temperature", -5.0, 1.0, "K"),
    ],
)
def test_gauges_that_measure_no_length(
    instrument: str, kind: str, reading: float, error: float, unit: str
) -> None:
    found = other_error(instrument, kind=kind, reading=reading)
    assert found is not None
    assert found.value == pytest.approx(error)
    assert (found.unit, found.source.provenance) == (unit, "COMMON PRACTICE")
    assert other_error(instrument, kind="length", reading=reading) is None


def test_single_figures_of_dial_gauges() -> None:
    # JIS B 7503:2011: repeatability 3, retrace 3, a tenth of a turn 5 µm; TB 9-5210-210-24: a fifth of a graduation
    found = {name: figure.value for name, figure in instrument_figures().items()}
    assert found == {
        "dial_gauge_repeatability": 0.003,
        "dial_gauge_retrace": 0.003,
        "dial_gauge_tenth_of_a_turn": 0.005,
        "dial_gauge_repeatability_in_graduations": 0.2,
    }


# Printed: gray iron 11.4 ± 0.5, aluminum 356 21.5 ± 0.5 (Callister), mild steel 11.7 ± 0.5 µm/(m·K).
@pytest.mark.parametrize(
    ("name", "value"), [("gray iron", 11.4), ("aluminum 356", 21.5), ("mild steel", 11.7)]
)
def test_expansions_as_printed(name: str, value: float) -> None:
    (found,) = [one for one in material_expansions() if one.words == name]
    assert [found.value * 1e6, found.error * 1e6] == pytest.approx([value, 0.5])
    assert found.source.provenance == "PRINTED"


def test_every_material_is_on_file_with_and_without_its_error() -> None:
    assert {one.name: one.value for one in material_expansions()} == {
        name: figure.value for name, figure in expansion_coefficients().items()
    }
    assert all(0 < one.error <= 1e-6 for one in material_expansions())


def test_what_no_standard_on_file_covers_has_no_error() -> None:
    assert permitted_error("thermometer", length_mm=1.0) is None
    assert permitted_error("caliper", length_mm=2000.0) is None
    assert other_error("burette", kind="volume", reading=1.0) is None
    assert {"feeler blades", "thermometer"} <= set(instruments())
