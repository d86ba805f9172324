"""The end gap of a piston ring: what heat leaves of it, and what share of the bore it is."""

import math
from dataclasses import dataclass

from gudgeon.calc.engine.fits_errors import GapNotInBore, TemperatureImpossible
from gudgeon.calc.errors import finite, not_negative, positive

LEAST_C, MOST_C = -50.0, 700.0
"""Temperatures of rings and bores, from a cold garage to far above what oil stands (order of size, by hand)."""


@dataclass(frozen=True, slots=True)
class Warmed:
    """One part that grows with heat: its temperature, and its linear expansion."""

    celsius: float
    per_kelvin: float


@dataclass(frozen=True, slots=True)
class HotGap:
    """What is left of a ring gap in the heat; below zero the ends would lie on each other."""

    gap_mm: float
    closed_by_mm: float
    bore_mm: float
    flags: tuple[str, ...] = ()


def gap_per_bore(gap_mm: float, *, bore_mm: float) -> float:
    """The end gap of a ring as a share of its bore, as rules of thumb give it.

    Equation:
        share = gap / bore

    Parameters:
        gap_mm: end gap of the ring in its bore [mm]
        bore_mm: bore at that height [mm]

    Returns:
        gap over bore [1]

    Valid for:
        any ring with a butt joint

    Source:
        HAND: a ratio.

    Example:
        >>> round(gap_per_bore(0.25, bore_mm=102.0), 5)
        0.00245

    Not covered:
        what share is right: that is the maker's figure, and differs with ring, fuel and boost.
    """
    _in_bore(gap_mm, bore_mm)
    return gap_mm / bore_mm


def hot_ring_gap(
    gap_mm: float, *, bore_mm: float, ring: Warmed, bore: Warmed, cold_celsius: float = 20.0
) -> HotGap:
    """The end gap of a ring when ring and bore are hot.

    Equation:
        hot gap = π · D · (1 + αb · (tb − t₀)) − (π · D − gap) · (1 + αr · (tr − t₀))

    Parameters:
        gap_mm: gap when cold, in this bore [mm]
        bore_mm: D, the bore when cold [mm]
        ring: tr and αr, temperature of the ring and its expansion [°C, 1/K]
        bore: tb and αb, temperature of the bore and its expansion [°C, 1/K]
        cold_celsius: t₀, at which gap and bore were measured [°C]

    Returns:
        hot gap, how much of the cold gap went, and the hot bore [mm]

    Valid for:
        one temperature all along the ring, and all around the bore at that height

    Source:
        HAND: the ring is as long as the circumference less the gap, and both grow.

    Example:
        >>> ring, wall = Warmed(200.0, 11e-6), Warmed(120.0, 11e-6)
        >>> round(hot_ring_gap(0.25, bore_mm=87.2, ring=ring, bore=wall).gap_mm, 6)
        0.009422

    Not covered:
        how hot they get: that is assumed; 10 K more of the ring take 0.03 mm of the gap in a bore of 87 mm.
    """
    around = _in_bore(gap_mm, bore_mm)
    cold = _warmth(cold_celsius, "Cold temperature")
    grown = 1 + bore.per_kelvin * (_warmth(bore.celsius, "Temperature of the bore") - cold)
    longer = 1 + ring.per_kelvin * (_warmth(ring.celsius, "Temperature of the ring") - cold)
    for what, one in (("ring", ring), ("bore", bore)):
        not_negative(one.per_kelvin, f"Expansion of the {what}", unit="1/K")
    left = around * grown - (around - gap_mm) * longer
    return HotGap(left, gap_mm - left, bore_mm * grown, _flags(left))


def _flags(left: float) -> tuple[str, ...]:
    if left > 0:
        return ()
    return (
        f"The gap closes: the ends would press on each other by {-left:.3f} mm, and the ring would seize in its bore. "
        "It needs more gap when cold.",
    )


def _in_bore(gap_mm: float, bore_mm: float) -> float:
    """The circumference, of which the gap is a part."""
    around = math.pi * positive(bore_mm, "Bore", unit="mm")
    if not_negative(gap_mm, "Ring gap", unit="mm") >= around:
        raise GapNotInBore(gap_mm, bore_mm, around)
    return around


def _warmth(celsius: float, what: str) -> float:
    if not LEAST_C <= finite(celsius, what) <= MOST_C:
        raise TemperatureImpossible(what, celsius, LEAST_C, MOST_C)
    return celsius
