"""The air at an altitude: its pressure, temperature and density."""

import math
from dataclasses import dataclass

from gudgeon.calc.engine.running_errors import AltitudeOutside
from gudgeon.calc.errors import finite, positive

STANDARD_PRESSURE_PA = 101_325.0
STANDARD_TEMPERATURE_K = 288.15
LAPSE_K_PER_M = 0.0065
GRAVITY_M_PER_S2 = 9.80665
MOLAR_MASS_KG_PER_MOL = 0.028_964_4
GAS_CONSTANT_J_PER_MOL_K = 8.314_32
"""The gas constant as the standard atmosphere has it; the one of the SI since 2019 differs by 17 parts in a million."""
EARTH_RADIUS_M = 6_356_766.0
LOWEST_M, HIGHEST_M = -5_000.0, 11_000.0
"""The lowest layer: geopotential altitudes over which the temperature falls evenly."""


@dataclass(frozen=True, slots=True)
class Air:
    """The air somewhere: pressure in Pa, temperature in K, density in kg/m³."""

    pressure_pa: float
    temperature_k: float
    density_kg_per_m3: float


def air_density_kg_per_m3(pressure_pa: float, *, temperature_k: float) -> float:
    """The density of dry air.

    Equation:
        density = p · M / (R · T)

    Parameters:
        pressure_pa: absolute pressure [Pa]
        temperature_k: temperature [K]

    Returns:
        density [kg/m³]

    Valid for:
        air at pressures and temperatures of the weather

    Source:
        U.S. Standard Atmosphere 1976, equations 33 and 42, constants of its table 2; ISO 2533:1975.

    Example:
        >>> round(air_density_kg_per_m3(101325.0, temperature_k=288.15), 4)
        1.225

    Not covered:
        moisture: warm, wet air is up to 2 % lighter.
    """
    pressure = positive(pressure_pa, "Pressure", unit="Pa")
    kelvin = positive(temperature_k, "Temperature", unit="K")
    return pressure * MOLAR_MASS_KG_PER_MOL / (GAS_CONSTANT_J_PER_MOL_K * kelvin)


def standard_air(altitude_m: float) -> Air:
    """The standard air at an altitude above the sea.

    Equation:
        H = r · Z / (r + Z); T = T0 − L · H; p = p0 · (T / T0)^(g · M / (R · L))

    Parameters:
        altitude_m: geometric altitude above the sea, Z [m]

    Returns:
        pressure [Pa], temperature [K], density [kg/m³]

    Valid for:
        the lowest layer, −5,000 to 11,000 m of geopotential altitude

    Source:
        U.S. Standard Atmosphere 1976, equations 18, 23 and 33a, constants of its tables 2 to 4; the ICAO standard
        atmosphere (Doc 7488, ISO 2533:1975) is the same in this layer.

    Example:
        >>> air = standard_air(1000.0)
        >>> round(air.pressure_pa, 1), round(air.temperature_k, 3)
        (89876.3, 281.651)

    Not covered:
        the weather: a real day lies up to 5 % above or below in pressure, and further in temperature.
    """
    altitude = finite(altitude_m, "Altitude")
    height = (
        EARTH_RADIUS_M * altitude / (EARTH_RADIUS_M + altitude) if altitude > -EARTH_RADIUS_M else -math.inf
    )
    if not LOWEST_M <= height <= HIGHEST_M:
        ends = (EARTH_RADIUS_M * end / (EARTH_RADIUS_M - end) for end in (LOWEST_M, HIGHEST_M))
        raise AltitudeOutside(altitude, *ends)
    kelvin = STANDARD_TEMPERATURE_K - LAPSE_K_PER_M * height
    power = GRAVITY_M_PER_S2 * MOLAR_MASS_KG_PER_MOL / (GAS_CONSTANT_J_PER_MOL_K * LAPSE_K_PER_M)
    pressure = STANDARD_PRESSURE_PA * (kelvin / STANDARD_TEMPERATURE_K) ** power
    return Air(pressure, kelvin, air_density_kg_per_m3(pressure, temperature_k=kelvin))
