"""Fits that are chosen: shells by grade, and pistons with rods so that they weigh alike."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement

from gudgeon.calc.engine.fits_errors import CountsDiffer, NoGrades, RangeCrossed
from gudgeon.calc.errors import finite, not_negative, positive

SAME_MM = 1e-9


@dataclass(frozen=True, slots=True)
class ShellChoice:
    """The two halves for one place, by their number in the list, and the clearance they leave."""

    first: int
    second: int
    clearance_mm: float
    off_middle_mm: float


@dataclass(frozen=True, slots=True)
class Pairing:
    """For every piston its rod, what each pair weighs, and how far the pairs are apart."""

    rods: tuple[int, ...]
    sums_g: tuple[float, ...]
    spread_g: float


def shells_for(
    room_mm: float, *, thicknesses_mm: Sequence[float], wanted_mm: tuple[float, float], mixed: bool = False
) -> ShellChoice:
    """The two halves that bring the clearance of one place nearest to the middle of what is wanted.

    Equation:
        clearance = room − first half − second half; least |clearance − middle|

    Parameters:
        room_mm: bore without shells less journal [mm]
        thicknesses_mm: thickness of each grade in its middle [mm]
        wanted_mm: least and most clearance wanted [mm]
        mixed: whether halves of two grades may be put together

    Returns:
        numbers of both halves in the list, clearance and its distance from the middle [mm]

    Valid for:
        halves that share the clearance; where choices are equally near, the one with halves most alike

    Source:
        HAND: every choice is tried.

    Example:
        >>> found = shells_for(3.03, thicknesses_mm=[1.49, 1.50, 1.51], wanted_mm=(0.02, 0.05))
        >>> found.first, found.second, round(found.clearance_mm, 4)
        (1, 1, 0.03)

    Not covered:
        which half goes up: that is the maker's word where halves differ, as with an oil groove.
    """
    finite(room_mm, "Room for the shells")
    if not thicknesses_mm:
        raise NoGrades
    for one in thicknesses_mm:
        positive(one, "Thickness of a shell", unit="mm")
    if wanted_mm[0] > wanted_mm[1]:
        raise RangeCrossed("Clearance", *wanted_mm)
    middle = (wanted_mm[0] + wanted_mm[1]) / 2
    numbers = range(len(thicknesses_mm))
    pairs = list(combinations_with_replacement(numbers, 2)) if mixed else [(one, one) for one in numbers]

    def far(pair: tuple[int, int]) -> tuple[float, float]:
        first, second = (thicknesses_mm[one] for one in pair)
        return round(abs(room_mm - first - second - middle) / SAME_MM), abs(first - second)

    first, second = min(pairs, key=far)
    clearance = room_mm - thicknesses_mm[first] - thicknesses_mm[second]
    return ShellChoice(first, second, clearance, clearance - middle)


def pair_by_weight(pistons_g: Sequence[float], *, rods_g: Sequence[float]) -> Pairing:
    """The rods for the pistons so that the pairs weigh as much alike as can be.

    Equation:
        heaviest piston with lightest rod, and so on; spread = heaviest pair − lightest pair

    Parameters:
        pistons_g: mass of each piston with its pin and rings [g]
        rods_g: mass of each rod [g]

    Returns:
        number of the rod of each piston, mass of each pair and spread [g]

    Valid for:
        any masses, as many rods as pistons

    Source:
        HAND: let two pairs not be so ordered. To exchange their rods makes the heavier of the two pairs lighter or
        leaves it, and the lighter one heavier or leaves it; so this order has the least heaviest pair and the
        greatest lightest one, both at once.

    Example:
        >>> pair_by_weight([402.0, 400.0, 405.0], rods_g=[600.0, 604.0, 601.0])
        Pairing(rods=(2, 1, 0), sums_g=(1003.0, 1004.0, 1005.0), spread_g=2.0)

    Not covered:
        big and small end of a rod weighed apart: the big end turns, the small end goes up and down.
    """
    if len(pistons_g) != len(rods_g):
        raise CountsDiffer(len(pistons_g), len(rods_g))
    for one in (*pistons_g, *rods_g):
        positive(one, "Mass", unit="g")
    heavy_first = sorted(range(len(pistons_g)), key=lambda one: -pistons_g[one])
    light_first = sorted(range(len(rods_g)), key=lambda one: rods_g[one])
    rod_of = dict(zip(heavy_first, light_first, strict=True))
    rods = tuple(rod_of[one] for one in range(len(pistons_g)))
    sums = tuple(piston + rods_g[rod] for piston, rod in zip(pistons_g, rods, strict=True))
    return Pairing(rods, sums, max(sums, default=0.0) - min(sums, default=0.0))


def to_take_off(masses_g: Sequence[float], *, most_difference_g: float) -> tuple[float, ...]:
    """How much comes off each part so that none is more than so much heavier than the lightest.

    Equation:
        off = max(mass − lightest − most difference, 0)

    Parameters:
        masses_g: mass of each part, or of each pair [g]
        most_difference_g: how much any may be heavier than the lightest [g]

    Returns:
        what comes off each [g]; nothing comes off the lightest

    Valid for:
        parts from which material may come off at all

    Source:
        HAND: the lightest stays, as nothing can be put on.

    Example:
        >>> to_take_off([1003.0, 1004.0, 1009.0], most_difference_g=4.0)
        (0.0, 0.0, 2.0)

    Not covered:
        where it comes off: that is the maker's word.
    """
    allowed = not_negative(most_difference_g, "Most difference", unit="g")
    for one in masses_g:
        positive(one, "Mass", unit="g")
    lightest = min(masses_g, default=0.0)
    return tuple(max(0.0, math.fsum((one, -lightest, -allowed))) for one in masses_g)
