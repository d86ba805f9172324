"""A leak-down test: what share is lost, through how large a hole, and what another tester would show."""

import math
from dataclasses import dataclass

from gudgeon.calc.engine.atmosphere import STANDARD_PRESSURE_PA
from gudgeon.calc.engine.running_errors import AllLost, SupplyBelowCylinder
from gudgeon.calc.errors import not_negative, positive

HEAT_RATIO = 1.4
"""Ratio of the specific heats of air."""

CRITICAL = (2 / (HEAT_RATIO + 1)) ** (HEAT_RATIO / (HEAT_RATIO - 1))
"""Share of the pressure before a hole below which the air flows at the speed of sound, 0.528: choked."""

_STANDARD_KPA = STANDARD_PRESSURE_PA / 1000


@dataclass(frozen=True, slots=True)
class LeakDown:
    """What a leak-down test says: share lost, and the hole that leaks as much as the cylinder, in mm."""

    leak_share: float
    equivalent_hole_mm: float
    orifice_choked: bool
    leak_choked: bool


def orifice_flow(before_kpa: float, *, behind_kpa: float) -> float:
    """The flow of air through a hole, for each unit of its area, up to a constant that all holes share.

    Equation:
        q = p1 · √(2γ/(γ−1) · (x^(2/γ) − x^((γ+1)/γ))), x = p2 / p1, but never less than the critical ratio

    Parameters:
        before_kpa: absolute pressure before the hole, p1 [kPa]
        behind_kpa: absolute pressure behind it, p2 [kPa]

    Returns:
        flow for a unit of area [kPa, to be multiplied by 1/√(R T) and the coefficient of discharge]

    Valid for:
        air, γ = 1.4, one temperature before all holes

    Source:
        HAND: isentropic flow of a perfect gas through a nozzle, as in any textbook of gas dynamics.

    Example:
        >>> round(orifice_flow(200.0, behind_kpa=100.0) / 200.0, 4)
        0.6847

    Not covered:
        long, rough passages, as along a ring: they pass less at small differences.
    """
    before = positive(before_kpa, "Pressure before the hole", unit="kPa")
    behind = not_negative(behind_kpa, "Pressure behind the hole", unit="kPa")
    if behind >= before:
        return 0.0
    share = max(behind / before, CRITICAL)
    inner = share ** (2 / HEAT_RATIO) - share ** ((HEAT_RATIO + 1) / HEAT_RATIO)
    return before * math.sqrt(2 * HEAT_RATIO / (HEAT_RATIO - 1) * inner)


def leak_down(
    supply_kpa: float, *, cylinder_kpa: float, orifice_mm: float, ambient_kpa: float = _STANDARD_KPA
) -> LeakDown:
    """What is lost in a leak-down test, and the round hole that loses as much.

    Equation:
        lost = 1 − cylinder / supply; d = orifice · √(q(supply → cylinder) / q(cylinder → outside))

    Parameters:
        supply_kpa: pressure before the orifice of the tester, gauge [kPa]
        cylinder_kpa: pressure behind it, in the cylinder, gauge [kPa]
        orifice_mm: diameter of the orifice of the tester [mm]
        ambient_kpa: pressure of the air around, absolute [kPa]

    Returns:
        share lost [1], equivalent hole [mm], whether either flow is choked

    Valid for:
        a steady reading; orifice and leak with one coefficient of discharge

    Source:
        HAND: the same mass flows through both holes. AC 43.13-1B, paragraph 8-14, describes the tester and its
        orifices.

    Example:
        >>> found = leak_down(551.58, cylinder_kpa=517.11, orifice_mm=1.016)
        >>> round(found.leak_share, 4), round(found.equivalent_hole_mm, 3)
        (0.0625, 0.709)

    Not covered:
        where it leaks: that is heard.
    """
    supply = positive(supply_kpa, "Supply pressure", unit="kPa")
    cylinder = not_negative(cylinder_kpa, "Cylinder pressure", unit="kPa")
    orifice = positive(orifice_mm, "Orifice", unit="mm")
    ambient = positive(ambient_kpa, "Pressure of the air", unit="kPa")
    if cylinder > supply:
        raise SupplyBelowCylinder(cylinder, supply)
    if cylinder == 0:
        raise AllLost
    into = orifice_flow(supply + ambient, behind_kpa=cylinder + ambient)
    out = orifice_flow(cylinder + ambient, behind_kpa=ambient)
    return LeakDown(
        1 - cylinder / supply,
        orifice * math.sqrt(into / out),
        (cylinder + ambient) / (supply + ambient) < CRITICAL,
        ambient / (cylinder + ambient) < CRITICAL,
    )


def cylinder_behind_orifice_kpa(
    supply_kpa: float, *, hole_mm: float, orifice_mm: float, ambient_kpa: float = _STANDARD_KPA
) -> float:
    """What a tester with another orifice shows for the same leak.

    Equation:
        orifice² · q(supply → p) = hole² · q(p → outside), solved for p by halving

    Parameters:
        supply_kpa: pressure before the orifice, gauge [kPa]
        hole_mm: equivalent hole of the leak [mm]
        orifice_mm: diameter of the orifice of that tester [mm]
        ambient_kpa: pressure of the air around, absolute [kPa]

    Returns:
        pressure in the cylinder, gauge [kPa]

    Valid for:
        see leak_down

    Source:
        HAND: leak_down, inverted; one side falls with p, the other rises, so that there is one answer.

    Example:
        >>> round(cylinder_behind_orifice_kpa(551.58, hole_mm=0.709, orifice_mm=1.524), 1)
        544.5

    Not covered:
        see leak_down.
    """
    supply = positive(supply_kpa, "Supply pressure", unit="kPa")
    hole, orifice = not_negative(hole_mm, "Hole", unit="mm"), positive(orifice_mm, "Orifice", unit="mm")
    ambient = positive(ambient_kpa, "Pressure of the air", unit="kPa")
    if hole == 0:
        return supply
    low, high = 0.0, supply
    while True:
        middle = (low + high) / 2
        if not low < middle < high:  # no number lies between them any more
            return middle
        into = orifice**2 * orifice_flow(supply + ambient, behind_kpa=middle + ambient)
        out = hole**2 * orifice_flow(middle + ambient, behind_kpa=ambient)
        low, high = (middle, high) if into > out else (low, middle)
