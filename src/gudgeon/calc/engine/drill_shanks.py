"""Which drill shank goes into a hole: a pin to hand for a timing mark, a gauge for a bore."""

from collections.abc import Mapping

from gudgeon.calc.engine.fits_errors import HoleTooLarge, HoleTooSmall
from gudgeon.calc.errors import positive
from gudgeon.sources.drill_shanks import DrillShank, Series, drill_shanks

SAME_MM = 1e-9


def shanks_below(hole_mm: float) -> Mapping[Series, DrillShank]:
    """The largest drill of each series that is not larger than a hole.

    Equation:
        largest d of the series with d ≤ hole

    Parameters:
        hole_mm: diameter of the hole [mm]

    Returns:
        one drill of each series, by series; a series without one that thin is left out, and one whose largest
        drill lies below others by far is still named [mm]

    Valid for:
        new drills with a plain shank as thick as their flutes, from 0.34 mm (number 80) to 1 in

    Source:
        drill_shanks.toml: number and letter drills as printed; ISO 235 for metric steps.

    Example:
        >>> found = shanks_below(6.0)
        >>> found["fraction"].name, round(found["fraction"].diameter_mm, 3)
        ('15/64 in', 5.953)

    Not covered:
        drills with a reduced shank; a shank scored by a chuck, which is thicker there: measure it.
    """
    hole = positive(hole_mm, "Hole", unit="mm")
    sizes = drill_shanks()
    if hole > sizes[-1].diameter_mm + SAME_MM:
        raise HoleTooLarge(hole, sizes[-1].diameter_mm)
    found = {one.series: one for one in sizes if one.diameter_mm <= hole + SAME_MM}
    if not found:
        raise HoleTooSmall(hole, sizes[0].diameter_mm, sizes[0].name)
    return found
