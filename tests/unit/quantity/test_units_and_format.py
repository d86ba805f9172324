"""Conversion inside a kind, and figures for people."""

import math
from fractions import Fraction

import pytest

from gudgeon.quantity import errors
from gudgeon.quantity.format import both, number, with_unit
from gudgeon.quantity.kinds import KINDS, kind
from gudgeon.quantity.unit_table import ROWS
from gudgeon.quantity.units import convert, key, kinds_of, unit, units


def test_every_kind_has_its_base_unit_with_factor_one() -> None:
    for of in KINDS.values():
        base = unit(of.base, kind=of)
        assert (base.factor, base.offset) == (Fraction(1), Fraction(0)), of.name


def test_no_spelling_stands_for_two_units_of_one_family() -> None:
    seen: dict[tuple[str, str], str] = {}
    for family, symbol, _, _, _, _, aliases in ROWS:
        for spelling in {key(one) for one in (symbol, *aliases)}:
            assert seen.setdefault((family, spelling), symbol) == symbol


def test_every_unit_reads_its_own_symbol() -> None:
    for of in KINDS.values():
        for one in units(of):
            assert unit(one.symbol, kind=of) is one


@pytest.mark.parametrize(
    ("spelling", "symbol"),
    [("Nm", "N·m"), ("N.m", "N·m"), ("N m", "N·m"), ("N*m", "N·m"), ("N-m", "N·m"), ("N⋅m", "N·m"),
     ("ft-lb", "lbf·ft"), ("lb-ft", "lbf·ft"), ("lbf·ft", "lbf·ft"), ("ft·lbf", "lbf·ft"),
     ("in-lb", "lbf·in"), ("kgf·m", "kgf·m"), ("kgf-m", "kgf·m"), ("kgm", "kgf·m")],
)  # fmt: skip
def test_torque_is_spelled_in_many_ways(spelling: str, symbol: str) -> None:
    assert unit(spelling, kind="torque").symbol == symbol


@pytest.mark.parametrize(
    ("spelling", "of", "symbol"),
    [("cm3", "volume", "cm³"), ("cc", "volume", "cm³"), ("cu in", "volume", "in³"), ("in3", "volume", "in³"),
     ("thou", "length", "thou"), ("um", "length", "µm"), ("μm", "length", "µm"),
     ("kgf/cm2", "pressure_gauge", "kgf/cm²"),
     ("deg", "angle", "°"), ("º", "angle", "°"), ("rpm", "speed", "r/min"), ("sq in", "area", "in²")],
)  # fmt: skip
def test_other_spellings(spelling: str, of: str, symbol: str) -> None:
    assert unit(spelling, kind=of).symbol == symbol


# Exact by definition: inch 25.4 mm, pound 0.45359237 kg, g 9.80665 m/s² (NIST SP 811, 2008, B.8).
@pytest.mark.parametrize(
    ("value", "frm", "to", "of", "expected"),
    [
        (1.0, "in", "mm", "length", 25.4),
        (1.0, "lbf·ft", "N·m", "torque", 0.45359237 * 9.80665 * 0.3048),
        (1.0, "kgf·m", "N·m", "torque", 9.80665),
        (1.0, "US gal", "L", "volume", 3.785411784),
        (1.0, "imp gal", "L", "volume", 4.54609),
        (1.0, "psi", "kPa", "pressure_gauge", 0.45359237 * 9.80665 / 0.0254**2 / 1000),
        (1.0, "atm", "mmHg", "pressure_absolute", 760.0),
        (212.0, "°F", "°C", "temperature", 100.0),
        (-40.0, "°C", "°F", "temperature", -40.0),
        (0.0, "K", "°C", "temperature", -273.15),
        (1.0, "turn", "°", "angle", 360.0),
        (math.pi, "rad", "°", "angle", 180.0),
    ],
)
def test_factors_follow_their_definitions(value: float, frm: str, to: str, of: str, expected: float) -> None:
    # The conventional mmHg makes 760 only to about one part in ten million (ISO 80000-4:2019).
    tolerance = 2e-7 if to == "mmHg" else 1e-14
    assert convert(value, frm=frm, to=to, kind=of) == pytest.approx(expected, rel=tolerance)


def test_torque_never_becomes_energy_and_nan_is_refused() -> None:
    with pytest.raises(errors.UnitOfAnotherKind, match=r"^`J` is a unit of energy, not of torque\."):
        convert(1.0, frm="N·m", to="J", kind="torque")
    with pytest.raises(errors.FigureNotFinite):
        convert(math.nan, frm="mm", to="in", kind="length")


def test_a_spelling_tells_the_kinds_it_may_belong_to() -> None:
    assert [found.name for found in kinds_of("ft-lb")] == ["torque", "energy"]
    assert [found.name for found in kinds_of("psia")] == ["pressure_absolute"]


def test_kinds_read_as_words() -> None:
    assert kind("pressure_gauge").words == "gauge pressure"
    assert kind(kind("length_difference")).words == "length difference"


@pytest.mark.parametrize(
    ("value", "of", "shown"),
    [
        (0.05, "length_difference", "0.05 mm (0.0020 in)"),
        (40.0, "torque", "40 N·m (29.5 lbf·ft)"),
        (86.0, "length", "86 mm (3.386 in)"),
        (0.005, "length", "0.005 mm (0.00020 in)"),
        (-0.0, "length", "0 mm (0 in)"),
        (43.25, "volume", "43.25 cm³ (2.639 in³)"),
        (90.0, "angle", "90°"),
        (100.0, "temperature", "100 °C (212 °F)"),
        (9.25, "ratio", "9.25"),
        (3.2e-6, "compliance", "3.2 µm/kN (0.560 µin/lbf)"),
    ],
)
def test_both_systems_with_sensible_digits(value: float, of: str, shown: str) -> None:
    assert both(value, kind=of) == shown


def test_the_other_system_may_lead_and_decimals_may_be_given() -> None:
    assert both(0.05, kind="length", first="inch") == "0.0020 in (0.05 mm)"
    assert both(9.06197, kind="ratio", decimals=2) == "9.06"


def test_there_is_no_minus_zero_and_no_number_that_is_none() -> None:
    assert number(-0.0004, decimals=2) == "0.00"
    assert number(-0.4, decimals=0) == "0"
    assert number(-0.6, decimals=0) == "-1"
    assert with_unit(90.0, "°", decimals=0) == "90°"
    with pytest.raises(errors.FigureNotFinite):
        number(math.inf, decimals=1)
