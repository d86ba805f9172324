"""How deep a valve sits below the head face after a cut, and how much deeper its seat must be cut."""

from dataclasses import dataclass

from gudgeon.calc.errors import finite, not_negative


@dataclass(frozen=True, slots=True)
class ValveDepth:
    """The depth of a valve below the face after a cut, and what its seat still needs."""

    after_mm: float
    seat_cut_mm: float


def valve_depth(depth_mm: float, *, cut_mm: float, least_mm: float) -> ValveDepth:
    """The depth of a valve below the head face after a cut, and the cut of its seat that brings it back.

    Equation:
        after = depth − cut; seat cut = max(least − after, 0)

    Parameters:
        depth_mm: valve head below the face before the cut; minus stands out [mm]
        cut_mm: taken off the head face [mm]
        least_mm: least depth that the maker asks for [mm]

    Returns:
        depth after the cut, and how much deeper the seat is cut along the stem [mm]

    Valid for:
        a face cut square to the stems; where they lean, depths along the stem

    Source:
        HAND: the face comes down by the cut, the valve stays.

    Example:
        >>> found = valve_depth(1.30, cut_mm=0.30, least_mm=1.09)
        >>> round(found.after_mm, 3), round(found.seat_cut_mm, 3)
        (1.0, 0.09)

    Not covered:
        what a deeper seat does to the stem above: the spring is longer and the lash smaller by the same amount.
    """
    after = finite(depth_mm, "Depth of the valve") - not_negative(cut_mm, "Cut", unit="mm")
    return ValveDepth(after, max(finite(least_mm, "Least depth") - after, 0.0))
