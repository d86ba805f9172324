"""Small parts by simple means: ring gaps, plastic gauging strip, a rocked valve, a leaning spring."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from gudgeon.calc.errors import not_negative, positive
from gudgeon.calc.metrology.round_errors import GapImpossible, MarksMissing, MarksUnordered


@dataclass(frozen=True, slots=True)
class ClearanceSteps:
    """A clearance between two steps of a scale; None where that end is open."""

    low_mm: float | None
    high_mm: float | None


def ring_gap_in_bore(gap_mm: float, *, bore_mm: float, other_bore_mm: float) -> float:
    """The gap that a ring has in another bore.

    Equation:
        gap' = gap + π · (bore' − bore)

    Parameters:
        gap_mm: gap in the first bore [mm]
        bore_mm: the first bore, where the gap was measured [mm]
        other_bore_mm: the other bore [mm]

    Returns:
        gap in the other bore [mm]

    Valid for:
        a ring square to the bore that touches it all around

    Source:
        HAND: the ring keeps its length, π · bore − gap.

    Example:
        >>> round(ring_gap_in_bore(0.30, bore_mm=86.0, other_bore_mm=86.05), 4)
        0.4571

    Not covered:
        heat: a running ring is hotter than its bore, which is what the gap is for.
    """
    positive(gap_mm, "Ring gap", unit="mm")
    positive(bore_mm, "Bore", unit="mm")
    positive(other_bore_mm, "Other bore", unit="mm")
    if gap_mm >= math.pi * bore_mm:
        raise GapImpossible(gap_mm, bore_mm)
    found = gap_mm + math.pi * (other_bore_mm - bore_mm)
    if not 0 < found < math.pi * other_bore_mm:
        raise GapImpossible(found, other_bore_mm)
    return found


def bore_change_from_gaps(gap_mm: float, *, other_gap_mm: float) -> float:
    """How much wider a bore is where the same ring has another gap: taper without a bore gauge.

    Equation:
        Δ bore = (gap' − gap) / π

    Parameters:
        gap_mm: gap at one height, such as low in the bore where no ring ran [mm]
        other_gap_mm: gap of the same ring at the other height [mm]

    Returns:
        bore at the other height less bore at the first [mm]

    Valid for:
        one ring pushed square with a piston at both heights; the mean diameter, for an oval bore

    Source:
        HAND: the ring keeps its length.

    Example:
        >>> round(bore_change_from_gaps(0.35, other_gap_mm=0.50), 4)
        0.0477

    Not covered:
        out-of-round: a ring that does not touch all around shows too little.
    """
    first = not_negative(gap_mm, "Ring gap", unit="mm")
    return (not_negative(other_gap_mm, "Other ring gap", unit="mm") - first) / math.pi


def strip_clearance(width_mm: float, *, marks_mm: Sequence[tuple[float, float]]) -> ClearanceSteps:
    """The clearance that a flattened plastic strip shows: between the two marks of its scale beside it.

    Equation:
        the clearance of the next wider mark ≤ clearance ≤ that of the next narrower mark

    Parameters:
        width_mm: of the flattened strip at its widest [mm]
        marks_mm: width and clearance of each mark of the scale [mm]

    Returns:
        least and greatest clearance [mm]; an end is open beyond the last mark

    Valid for:
        the strip lengthwise on the journal, cap tightened and not turned

    Source:
        HAND: the strip keeps its volume, so a wider strip is a thinner one; a scale has steps and nothing between.

    Example:
        >>> strip_clearance(2.0, marks_mm=[(1.5, 0.076), (2.2, 0.051), (4.3, 0.025)])
        ClearanceSteps(low_mm=0.051, high_mm=0.076)

    Not covered:
        taper of the journal: measure both ends of the strip, each by itself.
    """
    positive(width_mm, "Width of the strip", unit="mm")
    if not marks_mm:
        raise MarksMissing
    ordered = sorted(
        (positive(width, "Width of a mark", unit="mm"), positive(clearance, "Clearance of a mark", unit="mm"))
        for width, clearance in marks_mm
    )
    for (narrow, much), (wide, little) in pairwise(ordered):
        if narrow == wide or little >= much:
            raise MarksUnordered
    wider = [clearance for width, clearance in ordered if width >= width_mm]
    narrower = [clearance for width, clearance in ordered if width <= width_mm]
    return ClearanceSteps(max(wider, default=None), min(narrower, default=None))


def guide_clearance(rock_mm: float, *, guide_length_mm: float, height_mm: float) -> float:
    """The clearance of a valve stem in its guide, from how far the valve rocks under a dial.

    Equation:
        clearance = rock / (1 + 2 · h / L)

    Parameters:
        rock_mm: what the dial shows from one side to the other [mm]
        guide_length_mm: length of the guide, L [mm]
        height_mm: from the end of the guide to the dial, h [mm]

    Returns:
        clearance of stem and guide, as a difference of diameters [mm]

    Valid for:
        a straight stem that fills the length of the guide, rocked until it rests at both its ends

    Source:
        HAND: the stem tilts by clearance / L each way about the middle of the guide, so at a distance of
        L/2 + h it moves 2 · (L/2 + h) · clearance / L.

    Example:
        >>> round(guide_clearance(0.20, guide_length_mm=40.0, height_mm=10.0), 4)
        0.1333

    Not covered:
        a guide worn like a trumpet: it rocks more than its middle is worn.
    """
    not_negative(rock_mm, "Rock of the valve", unit="mm")
    positive(guide_length_mm, "Length of the guide", unit="mm")
    not_negative(height_mm, "Height over the guide", unit="mm")
    return rock_mm / (1 + 2 * height_mm / guide_length_mm)


def spring_lean(lean_mm: float, *, length_mm: float) -> float:
    """The angle by which a spring that stands on its end leans over.

    Equation:
        angle = atan(lean / length)

    Parameters:
        lean_mm: gap between its top and a square that touches its foot [mm]
        length_mm: free length of the spring [mm]

    Returns:
        angle from square [°]

    Valid for:
        the spring turned to where the gap is largest

    Source:
        HAND: right triangle. A common limit is 2°, about 1.6 mm on 45 mm (COMMON PRACTICE).

    Example:
        >>> round(spring_lean(1.6, length_mm=45.0), 2)
        2.04

    Not covered:
        ends that are not ground flat.
    """
    not_negative(lean_mm, "Lean", unit="mm")
    return math.degrees(math.atan2(lean_mm, positive(length_mm, "Free length", unit="mm")))
