"""What a kit says of measuring instruments, and what it cannot say.

Expected values are HAND: figures of the kit converted by the definition of their units, unless a case says more.
"""

from datetime import date

import pytest

from gudgeon.errors import InputError
from gudgeon.kit.gauges import READS, Gauge, kinds_of_gauge
from gudgeon.kit.load import parse_kit


def gauge(lines: str, *, more: str = "") -> Gauge:
    text = f"gudgeon: kit 1\ngauges:\n  one: {{name: one, {lines}}}\n{more}"
    return parse_kit(text, file="kit.yaml").kit.gauges["one"]


def refusal(lines: str, *, more: str = "") -> str:
    with pytest.raises(InputError) as caught:
        gauge(lines, more=more)
    return str(caught.value)


@pytest.mark.parametrize(
    ("lines", "reads", "unit", "high", "error"),
    [
        (
            "kind: compression gauge, range: 0–20 bar, step: 0.2 bar, error: 1 bar",
            "pressure_gauge",
            "kPa",
            2000,
            100,
        ),
        ("kind: burette, range: 0–100 mL, step: 0.5 mL, error: 0.5 mL", "volume", "cm³", 100, 0.5),
        ("kind: thermometer, range: -20 to 110 °C, step: 1 °C, error: 2 °C", "temperature", "°C", 110, 2),
        ("kind: scale, range: 0–5 kg, step: 1 g, error: 2 g", "mass", "kg", 5, 0.002),
        ("kind: spring tester, range: 0–500 N, step: 5 N, error: 10 N", "force", "N", 500, 10),
        ("kind: caliper, range: 0–6 in, step: 0.001 in, error: 0.001 in", "length", "mm", 152.4, 0.0254),
        ("kind: other, range: 0–20 bar, error: 1 bar", "pressure_gauge", "kPa", 2000, 100),
        ("kind: other, range: 0–20 mm (0–0.787 in), error: 0.1 mm", "length", "mm", 20, 0.1),
        ("kind: other, range: 0–360°, error: 1°", "angle", "°", 360, 1),
    ],
)
def test_figures_are_of_what_the_kind_reads(
    lines: str, reads: str, unit: str, high: float, error: float
) -> None:
    found = gauge(lines)
    assert found.reads == reads
    assert found.range is not None
    assert found.range.high_in(unit) == pytest.approx(high)
    assert found.error_at(1.0, unit=unit) == pytest.approx(error)


def test_a_thermometer_in_fahrenheit_is_off_by_a_difference() -> None:
    """9 °F of a difference are 5 K; as a temperature 9 °F would be -12.8 °C."""
    found = gauge("kind: thermometer, range: 0–220 °F, step: 1 °F, error: 9 °F")
    assert found.error_at(40.0, unit="°C") == pytest.approx(5)
    assert found.error_at(40.0, unit="K") == pytest.approx(5)


def test_an_error_may_be_a_share_of_the_reading() -> None:
    found = gauge("kind: compression gauge, range: 0–20 bar, error: 5 %")
    assert found.error_share == 0.05
    assert found.error_at(12.0, unit="bar") == pytest.approx(0.6)
    assert found.error_at(1200.0, unit="kPa") == pytest.approx(60)


def test_an_error_of_another_kind_says_nothing() -> None:
    assert gauge("kind: caliper, error: 0.02 mm").error_at(5.0, unit="kPa") is None
    assert gauge("kind: caliper").error_at(5.0, unit="mm") is None


def test_the_old_way_of_writing_a_gauge_reads_as_it_did() -> None:
    found = gauge("kind: feeler blades, range: 0.03–1.00 mm, blades: [0.03 mm, 0.04 mm], error: 0.005 mm")
    assert (found.stated_as, found.zeroed_in, found.material) == ("permitted error", None, None)
    assert found.error_at(0.05, unit="mm") == 0.005
    assert found.error_share is None


def test_a_certificate_and_what_a_gauge_is_zeroed_in() -> None:
    found = gauge(
        "kind: bore gauge, range: 50–160 mm, error: 0.004 mm, stated_as: U (k = 2), zeroed_in: mike, "
        "material: gauge steel, checked: 2026-02-14, good_for: 2 years",
        more="  mike: {name: mike, kind: outside micrometer, range: 75–100 mm}\n",
    )
    assert (found.stated_as, found.zeroed_in, found.good_for) == ("U (k = 2)", "mike", 24)
    assert found.checked == date(2026, 2, 14)


def test_strip_tells_its_printed_widths_apart() -> None:
    """COMMON PRACTICE: widths of one strip stand half a thousandth of an inch apart, from 0.001 to 0.007 in."""
    usual = gauge("kind: plastic gauging strip").step_widths_mm
    assert usual[0] == pytest.approx(0.0254)
    assert usual[-1] == pytest.approx(0.1778)
    assert len(usual) == 13
    assert gauge("kind: plastic gauging strip, steps: [0.05 mm, 0.08 mm]").step_widths_mm == (0.05, 0.08)
    assert gauge("kind: caliper").step_widths_mm == ()


def test_plates_and_edges_are_looked_up_by_their_grade() -> None:
    assert gauge("kind: surface plate, grade: 1").standard == "surface plate, grade 1"
    assert gauge("kind: surface plate").standard == "surface plate"
    assert gauge("kind: knife straightedge, length: 300 mm").standard == "straightedge"
    assert gauge("kind: telescoping gauge").standard == ""
    assert gauge("kind: caliper").standard == "caliper"


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ("kind: caliper, range: 0–20 bar",
         "`bar` is a unit of gauge pressure, not of length. Write one of: mm, in, µm, thou."),
        ("kind: compression gauge, step: 1 mm",
         "`mm` is a unit of length, not of gauge pressure. Write one of: kPa, psi, bar, kgf/cm²."),
        ("kind: caliper, range: 150 mm",
         "`150 mm` is not what a gauge reaches. Write both ends, like `0–150 mm`."),
        ("kind: caliper, range: 0–150 mm, error: 200 mm",
         "The error (200 mm) is larger than the range (0–150 mm). Look again."),
        ("kind: compression gauge, error: 120 %", "`120 %` is no share of a reading. Write it like `5 %`."),
        ("kind: feeler blades, blades: [0.05 mm, 0.10 mm, 0.08 mm]",
         "The blades do not ascend: `0.08 mm` is not more than the one before it."),
        ("kind: feeler blades, blades: [0.05 mm, 0.05 mm]",
         "The blades do not ascend: `0.05 mm` is not more than the one before it."),
        ("kind: plastic gauging strip, steps: [0.05 mm, 0.04 mm]",
         "The steps do not ascend: `0.04 mm` is not more than the one before it."),
        ("kind: plug gauge, go: 20.02 mm, no_go: 20.00 mm",
         "The go end (`20.02 mm`) of a plug gauge is smaller than the no-go (`20.00 mm`)."),
        ("kind: surface plate, grade: 4", "Surface plates are of grade 0 to 3; `4` was found."),
        ("kind: caliper, material: granit",
         "`granit` is not a known material here."),
        ("kind: bore gauge, zeroed_in: mike", "`mike` is not a known gauge here. Known here: one."),
        ("kind: bore gauge, zeroed_in: one",
         "`one` is zeroed in itself. Name the gauge, or the ring, that it is set with."),
        ("kind: caliper, good_for: long", "A time like `12 months` or `2 years` was expected, `long` was found."),
    ],
)  # fmt: skip
def test_what_no_gauge_can_be_is_refused(lines: str, said: str) -> None:
    found = refusal(lines)
    assert said in found
    assert "kit.yaml, line 3, column " in found


def test_two_gauges_that_zero_each_other_are_refused() -> None:
    said = refusal(
        "kind: bore gauge, zeroed_in: two", more="  two: {name: two, kind: caliper, zeroed_in: one}\n"
    )
    assert "`one` is zeroed in itself." in said
    assert "`two` is zeroed in itself." in said


def test_a_gauge_is_zeroed_in_one_that_reads_the_same() -> None:
    said = refusal("kind: bore gauge, zeroed_in: two", more="  two: {name: two, kind: scale}\n")
    assert "The two reads mass, the one length: it cannot be zeroed in it." in said


def test_kinds_that_read_something_else_are_kinds() -> None:
    assert set(READS) < set(kinds_of_gauge())
