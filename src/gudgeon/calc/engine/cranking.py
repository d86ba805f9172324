"""What a compression gauge shows while the starter turns the engine, and what altitude does to it."""

import math
from dataclasses import dataclass

from gudgeon.calc.engine.cylinder import piston_position
from gudgeon.calc.engine.running_errors import ClosingOutside, ExponentOutside, ExponentsCrossed
from gudgeon.calc.errors import RatioImpossible, finite, not_negative, positive

EXPONENTS = (1.20, 1.30)
"""Cranked, the gas loses heat to cold walls: below 1.40. COMMON PRACTICE; sources in print give 1.20 to 1.35."""

DRY_AIR = 1.40


@dataclass(frozen=True, slots=True)
class Cranking:
    """The ratio that is left when the intake has closed, and the gauge pressures of a band of exponents, in kPa."""

    dynamic_ratio: float
    gauge_low_kpa: float
    gauge_high_kpa: float


def dynamic_ratio(
    ratio: float,
    *,
    closing_deg: float,
    stroke_mm: float,
    rod_length_mm: float,
    pin_offset_mm: float = 0.0,
) -> float:
    """The ratio by which the gas is compressed once the intake valve has closed.

    Equation:
        r = 1 + (ratio − 1) · s / stroke, with s from the place of the piston at closing to its top

    Parameters:
        ratio: compression ratio over the whole stroke [1]
        closing_deg: intake closing, crank angle after bottom dead center [°]
        stroke_mm: travel of the piston [mm]
        rod_length_mm: connecting rod, center to center [mm]
        pin_offset_mm: pin axis beside the crank axis; plus where the throw goes down [mm]

    Returns:
        ratio from intake closing [1]

    Valid for:
        closing on the way up; at a cranking speed nothing is rammed in after that

    Source:
        HAND: slider-crank of piston_position; ratio by its definition.

    Example:
        >>> round(dynamic_ratio(9.0, closing_deg=60.0, stroke_mm=86.0, rod_length_mm=143.0), 4)
        7.459

    Not covered:
        closing given at a lift: the last hundredths of lift leak at cranking speed and lower it further.
    """
    if finite(ratio, "Compression ratio") <= 1:
        raise RatioImpossible(ratio)
    if not 0 <= finite(closing_deg, "Intake closing") < 180:
        raise ClosingOutside(closing_deg)

    def place(angle: float) -> float:
        found = piston_position(
            stroke_mm, rod_length_mm=rod_length_mm, crank_angle_deg=angle, pin_offset_mm=pin_offset_mm
        )
        return found.drop_mm / found.stroke_mm

    place(0.0)  # refuses a crank that does not turn over
    # Bottom dead center is where rod and throw lie in one line; an offset moves it off 180°.
    bottom = 180.0 + math.degrees(math.asin(pin_offset_mm / (rod_length_mm - stroke_mm / 2)))
    return 1 + (ratio - 1) * place(bottom + closing_deg)


def gauge_pressure_kpa(ratio: float, *, exponent: float, ambient_kpa: float) -> float:
    """The pressure above the air around, after a compression.

    Equation:
        p = p0 · (ratio^n − 1)

    Parameters:
        ratio: ratio from intake closing [1]
        exponent: polytropic exponent, n [1]
        ambient_kpa: pressure of the air, absolute, p0 [kPa]

    Returns:
        gauge pressure [kPa]

    Valid for:
        exponents from 1 to 1.4; the cylinder filled to the pressure of the air, throttle open

    Source:
        HAND: polytropic change of a gas, less the air around.

    Example:
        >>> round(gauge_pressure_kpa(9.0, exponent=1.25, ambient_kpa=101.325) / 100, 3)
        14.782

    Not covered:
        leaks, a slow starter, a cold engine, the volume of hose and adapter: all of them lower it.
    """
    if finite(ratio, "Ratio from intake closing") < 1:
        raise RatioImpossible(ratio)
    if not 1 <= finite(exponent, "Exponent") <= DRY_AIR:
        raise ExponentOutside(exponent)
    return positive(ambient_kpa, "Pressure of the air", unit="kPa") * (math.pow(ratio, exponent) - 1)


def cranking_pressure(
    ratio: float, *, ambient_kpa: float, exponents: tuple[float, float] = EXPONENTS
) -> Cranking:
    """The band of gauge pressures of an engine in order.

    Equation:
        p0 · (r^n − 1), from the lower exponent to the upper

    Parameters:
        ratio: ratio from intake closing, r [1]
        ambient_kpa: pressure of the air, absolute, p0 [kPa]
        exponents: lower and upper exponent, n [1]

    Returns:
        the ratio [1] and both gauge pressures [kPa]

    Valid for:
        see gauge_pressure_kpa

    Source:
        HAND; the band of exponents is COMMON PRACTICE.

    Example:
        >>> found = cranking_pressure(7.459, ambient_kpa=101.325)
        >>> round(found.gauge_low_kpa), round(found.gauge_high_kpa)
        (1028, 1280)

    Not covered:
        which of two sound engines shows more: the band is as wide as gauges, starters and cams differ.
    """
    low, high = exponents
    if low > high:
        raise ExponentsCrossed(low, high)
    ends = [gauge_pressure_kpa(ratio, exponent=one, ambient_kpa=ambient_kpa) for one in exponents]
    return Cranking(ratio, ends[0], ends[1])


def implied_exponent(gauge_kpa: float, *, ratio: float, ambient_kpa: float) -> float:
    """The exponent that a measured pressure stands for.

    Equation:
        n = ln(1 + p / p0) / ln r

    Parameters:
        gauge_kpa: pressure that was read, p [kPa]
        ratio: ratio from intake closing, r [1]
        ambient_kpa: pressure of the air, absolute, p0 [kPa]

    Returns:
        exponent [1]

    Valid for:
        ratios above 1

    Source:
        HAND: gauge_pressure_kpa, solved.

    Example:
        >>> round(implied_exponent(1078.7315, ratio=8.0, ambient_kpa=101.325), 3)
        1.181

    Not covered:
        why it is low: below 1.1 it is a leak rather than lost heat.
    """
    if finite(ratio, "Ratio from intake closing") <= 1:
        raise RatioImpossible(ratio)
    ambient = positive(ambient_kpa, "Pressure of the air", unit="kPa")
    return math.log1p(not_negative(gauge_kpa, "Cranking pressure", unit="kPa") / ambient) / math.log(ratio)


def at_other_air_kpa(printed_kpa: float, *, here: float, there: float) -> float:
    """A printed cranking pressure as it is in other air.

    Equation:
        p · here / there, with the pressures of the air (pressure rule) or its densities (density rule)

    Parameters:
        printed_kpa: gauge pressure as printed [kPa]
        here: pressure or density of the air where it is wanted [both in one unit]
        there: the same of the air that it was printed for [both in one unit]

    Returns:
        gauge pressure here [kPa]

    Valid for:
        both rules; they differ by the temperatures of the two airs

    Source:
        HAND: p0 (r^n − 1) is proportional to p0. TM 5-3895-359-14&P prints least pressures over altitude that lie
        between the two rules, beside a column of densities.

    Example:
        >>> round(at_other_air_kpa(1000.0, here=84.3, there=101.325))
        832

    Not covered:
        a turbocharger, which does nothing at a cranking speed.
    """
    printed = not_negative(printed_kpa, "Printed pressure", unit="kPa")
    return printed * positive(here, "Air here", unit="") / positive(there, "Air there", unit="")
