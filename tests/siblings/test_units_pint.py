"""Second opinion on every unit: pint, a general-purpose library of units (OTHER TOOL).

pint turns torque into energy without a word; here it only checks the factors.
"""

from functools import lru_cache
from typing import Any

import pytest

from gudgeon.quantity.kinds import KINDS
from gudgeon.quantity.units import convert, units

# Our symbols in pint's words; pressure units are absolute there, gauge or not.
WORDS = {
    "N·m": "N*m", "lbf·ft": "lbf*ft", "lbf·in": "lbf*inch", "kgf·m": "kgf*m", "kgf·cm": "kgf*cm",
    "cN·m": "cN*m", "daN·m": "daN*m", "kN·m": "kN*m", "ozf·in": "ozf*inch", "ft·lbf": "ft*lbf",
    "in": "inch", "thou": "thou", "µm": "micrometer", "µin": "microinch",
    "mm²": "mm**2", "cm²": "cm**2", "m²": "m**2", "in²": "inch**2",
    "cm³": "cm**3", "mm³": "mm**3", "m³": "m**3", "in³": "inch**3",
    "US qt": "quart", "US gal": "gallon", "US pt": "pint", "US fl oz": "fluid_ounce",
    "imp qt": "imperial_quart", "imp gal": "imperial_gallon", "imp pt": "imperial_pint",
    "imp fl oz": "imperial_fluid_ounce",
    "psig": "psi", "psia": "psi", "kgf/cm²": "kgf/cm**2", "inHg": "25.4*mmHg", "kgf/mm²": "kgf/mm**2",
    "ksi": "ksi", "kip": "kip", "Mlbf/in": "1e6*lbf/inch", "lbf/in": "lbf/inch", "µin/lbf": "microinch/lbf",
    "in/lbf": "inch/lbf", "µm/kN": "micrometer/kN", "µm/N": "micrometer/N",
    "°": "degree", "′": "arcminute", "°C": "degC", "°F": "degF", "K": "kelvin",
    "%": "percent", "1": "", "r/min": "revolution/minute", "r/s": "revolution/second",
    "d": "day", "h": "hour",
    "1/K": "1/kelvin", "1/°F": "1/delta_degF", "µin/(in·°F)": "1e-6/delta_degF", "µm/(m·K)": "1e-6/kelvin",
    "N·mm²": "N*mm**2", "N·m²": "N*m**2", "kN·m²": "kN*m**2", "lbf·in²": "lbf*inch**2", "N·mm": "N*mm",
    "N/mm²": "N/mm**2", "kN·mm": "kN*mm",
    "lbf·in²/in": "lbf*inch", "lbf/in/in": "lbf/inch**2", "N/mm³": "N/mm**3",
    "kN/mm³": "kN/mm**3", "MN/m³": "MN/m**3", "lbf/in³": "lbf/inch**3",
    "kg/m³": "kg/m**3", "g/cm³": "g/cm**3", "lb/ft³": "lb/ft**3", "lb/in³": "lb/inch**3",
}  # fmt: skip
PAIRS = [(of.name, one.symbol) for of in KINDS.values() for one in units(of)]


@lru_cache(maxsize=1)
def registry() -> Any:
    return pytest.importorskip("pint").UnitRegistry()


def by_pint(value: float, *, frm: str, to: str, kind: str) -> float:
    """The value that pint finds; differences of temperature are its delta units."""
    ureg = registry()
    names = [WORDS.get(symbol, symbol) for symbol in (frm, to)]
    if kind == "temperature_difference":
        names = [{"degF": "delta_degF", "degC": "delta_degC"}.get(name, name) for name in names]
    if kind == "temperature":
        return float(ureg.Quantity(value, names[0]).to(names[1]).magnitude)
    start, end = (ureg.parse_expression(name) if name else ureg.Quantity(1.0) for name in names)
    return float(value * (start / end).to("").magnitude)


@pytest.mark.parametrize(("kind", "symbol"), PAIRS, ids=[f"{kind} {symbol}" for kind, symbol in PAIRS])
@pytest.mark.parametrize("value", [1.0, -12.5, 1234.5678])
def test_pint_agrees_with_every_unit(kind: str, symbol: str, value: float) -> None:
    base = KINDS[kind].base
    ours = convert(value, frm=symbol, to=base, kind=kind)
    # pint's mmHg is the rounded 133.322387415 Pa of its tables
    tolerance = 1e-9 if "Hg" in symbol else 1e-12
    assert ours == pytest.approx(by_pint(value, frm=symbol, to=base, kind=kind), rel=tolerance, abs=1e-10)


def test_pint_turns_torque_into_energy_and_we_do_not() -> None:
    """Why kinds are kept apart here, and a library that knows dimensions alone is not enough."""
    from gudgeon.quantity.errors import UnitOfAnotherKind

    assert registry().Quantity(1.0, "N*m").to("J").magnitude == 1.0
    with pytest.raises(UnitOfAnotherKind):
        convert(1.0, frm="N·m", to="J", kind="torque")
