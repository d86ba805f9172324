"""The clamp that holds a head down against the gas."""

import math
from dataclasses import dataclass

from gudgeon.calc.errors import positive


@dataclass(frozen=True, slots=True)
class ClampNeeded:
    """Gas force on one cylinder, and the clamp for all cylinders together and for each bolt."""

    gas_force_n: float
    clamp_n: float
    clamp_per_bolt_n: float


def clamp_needed(
    bore_mm: float, *, peak_pressure_mpa: float, cylinders: int, bolts: int, factor: float
) -> ClampNeeded:
    """The clamp that a head needs against the pressure of the gas.

    Equation:
        F = π/4 · bore² · p; clamp = factor · F · cylinders; per bolt = clamp / bolts

    Parameters:
        bore_mm: diameter that the pressure acts on; the fire ring of the gasket where it is wider [mm]
        peak_pressure_mpa: highest pressure in the cylinder, above that of the air [MPa]
        cylinders: cylinders under the head [1]
        bolts: bolts that hold the head, all of them [1]
        factor: clamp against gas force [1]

    Returns:
        gas force of one cylinder, clamp of the whole head and of one bolt [N]

    Valid for:
        an even share of all bolts; a first estimate

    Source:
        HAND: pressure times area. A factor of 3 stands in a trade article on head gaskets.

    Example:
        >>> found = clamp_needed(101.6, peak_pressure_mpa=7.584, cylinders=1, bolts=4, factor=3.0)
        >>> round(found.gas_force_n, -1), round(found.clamp_per_bolt_n, -2)
        (61490.0, 46100.0)

    Not covered:
        the force that seats the gasket, uneven shares of the bolts, heat, bending of the head.
    """
    for count, what in ((cylinders, "Count of cylinders"), (bolts, "Count of bolts")):
        positive(count, what)
    gas = math.pi / 4 * positive(bore_mm, "Bore", unit="mm") ** 2
    gas *= positive(peak_pressure_mpa, "Peak pressure", unit="MPa")
    clamp = positive(factor, "Factor") * gas * cylinders
    return ClampNeeded(gas, clamp, clamp / bolts)
