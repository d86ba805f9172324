"""The clearance that the parts of a bearing leave, from one end of their ranges to the other."""

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.calc.engine.fits_errors import RangeCrossed, ShellsUnequal
from gudgeon.calc.errors import positive

Ends = tuple[float, float]
"""The least and the most of a size; of a single size both are the same."""


@dataclass(frozen=True, slots=True)
class Clearance:
    """The clearance of parts between its ends, and with every part in the middle of its range."""

    least_mm: float
    most_mm: float
    middle_mm: float
    flags: tuple[str, ...] = ()


def clearance_of_parts(bore_mm: Ends, *, shaft_mm: Ends, shells_mm: Sequence[Ends] = ()) -> Clearance:
    """The clearance between a hole and a shaft, with or without the two halves of a shell between them.

    Equation:
        least = bore least − upper half most − lower half most − shaft most; most: the other ends

    Parameters:
        bore_mm: least and most of the hole, of a bearing without its shells [mm]
        shaft_mm: least and most of journal, pin, piston or stem [mm]
        shells_mm: least and most thickness of each half in its middle; none where the shaft runs bare [mm]

    Returns:
        least, most and middle clearance on the diameter [mm]; below zero the parts are larger than the hole

    Valid for:
        parts at one temperature, the cap tightened as for work; halves measured in their middle

    Source:
        HAND: sizes subtracted; ranges added as in a chain of dimensions.

    Example:
        >>> found = clearance_of_parts((43.202, 43.218), shaft_mm=(43.170, 43.180))
        >>> round(found.least_mm, 3), round(found.most_mm, 3)
        (0.022, 0.048)
        >>> thick = clearance_of_parts((53.0, 53.0), shaft_mm=(50.0, 50.0), shells_mm=[(1.48, 1.48), (1.49, 1.49)])
        >>> round(thick.middle_mm, 3)
        0.03

    Not covered:
        crush of the shells, which a bore measured without them does not show: prove it with a strip, or measure the
        bore with the shells in.
    """
    if len(shells_mm) not in (0, 2):
        raise ShellsUnequal(len(shells_mm))
    bore, shaft = _checked(bore_mm, "Bore"), _checked(shaft_mm, "Shaft")
    halves = [_checked(one, "Shell") for one in shells_mm]
    least = bore[0] - shaft[1] - sum(high for _, high in halves)
    most = bore[1] - shaft[0] - sum(low for low, _ in halves)
    return Clearance(least, most, (least + most) / 2, _flags(least, most))


def _checked(ends: Ends, what: str) -> Ends:
    for end in ends:
        positive(end, what, unit="mm")
    if ends[0] > ends[1]:
        raise RangeCrossed(what, *ends)
    return ends


def _flags(least: float, most: float) -> tuple[str, ...]:
    if most <= 0:
        return (
            "The shaft is not smaller than its hole at any end of the ranges: an interference, or a slip.",
        )
    if least <= 0:
        return ("At the tight end of the ranges there is no clearance: the parts must be matched.",)
    return ()
