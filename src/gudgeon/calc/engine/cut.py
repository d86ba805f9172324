"""What a cut from the head face does to the ratio and to the squish."""

from dataclasses import dataclass

from gudgeon.calc.engine.cylinder import clearance_of_ratio, ratio_of_volumes
from gudgeon.calc.errors import CutTooDeep, RatioNotRaised, finite, not_negative, positive
from gudgeon.calc.flags import unusual_ratio


@dataclass(frozen=True, slots=True)
class AfterCut:
    """The ratio after a cut, before it, and the volume that went."""

    new_ratio: float
    old_ratio: float
    volume_removed_cm3: float
    clearance_volume_cm3: float
    flags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Squish:
    """The gap between piston and squish pad, in mm.

    `most_mm` is the gap without any cut, `least_mm` the one that remains however much is cut.
    """

    after_mm: float
    most_mm: float
    least_mm: float
    flags: tuple[str, ...] = ()


def after_cut(cut_mm: float, *, swept_cm3: float, clearance_cm3: float, mouth_area_mm2: float) -> AfterCut:
    """The compression ratio after a cut from the head face.

    Equation:
        removed = mouth area · cut; new ratio = 1 + swept / (clearance − removed)

    Parameters:
        cut_mm: taken off the head face [mm]
        swept_cm3: swept volume of one cylinder [cm³]
        clearance_cm3: clearance volume before the cut [cm³]
        mouth_area_mm2: opening of the chamber in the head face, not the bore [mm²]

    Returns:
        ratio after and before [1], volume removed and left [cm³]

    Valid for:
        cuts over which the mouth keeps its area; steep walls keep it, shallow ones shrink it

    Source:
        HAND: dV = A · d.

    Example:
        >>> found = after_cut(0.5, swept_cm3=499.557, clearance_cm3=62.445, mouth_area_mm2=4800.0)
        >>> round(found.new_ratio, 3), round(found.volume_removed_cm3, 2)
        (9.32, 2.4)

    Not covered:
        valve recesses and a mouth that changes over the cut: pour the chamber again afterwards.
    """
    area = positive(mouth_area_mm2, "Mouth area", unit="mm²")
    removed = not_negative(cut_mm, "Cut", unit="mm") * area / 1000
    old = ratio_of_volumes(swept_cm3, clearance_cm3=clearance_cm3)
    left = clearance_cm3 - removed
    if left <= 0:
        raise CutTooDeep(cut_mm, clearance_cm3 * 1000 / mouth_area_mm2)
    new = ratio_of_volumes(swept_cm3, clearance_cm3=left)
    return AfterCut(new, old, removed, left, unusual_ratio(new))


def cut_for_ratio(ratio: float, *, swept_cm3: float, clearance_cm3: float, mouth_area_mm2: float) -> float:
    """The cut that brings the ratio to a given value.

    Equation:
        cut = (clearance − swept / (ratio − 1)) / mouth area

    Parameters:
        ratio: ratio wanted, or the most allowed [1]
        swept_cm3: swept volume of one cylinder [cm³]
        clearance_cm3: clearance volume before the cut [cm³]
        mouth_area_mm2: opening of the chamber in the head face [mm²]

    Returns:
        cut [mm]

    Valid for:
        ratios not below the present one

    Source:
        HAND: after_cut, solved for the cut.

    Example:
        >>> round(cut_for_ratio(9.32, swept_cm3=499.557, clearance_cm3=62.445, mouth_area_mm2=4800.0), 3)
        0.5

    Not covered:
        see after_cut.
    """
    positive(mouth_area_mm2, "Mouth area", unit="mm²")
    now = ratio_of_volumes(swept_cm3, clearance_cm3=clearance_cm3)
    wanted = clearance_of_ratio(swept_cm3, ratio=ratio)
    if wanted > clearance_cm3 * (1 + 1e-12):  # the present ratio itself needs no cut
        raise RatioNotRaised(ratio, now)
    return max(0.0, clearance_cm3 - wanted) * 1000 / mouth_area_mm2


def squish(gasket_mm: float, *, piston_below_deck_mm: float, pad_recess_mm: float, cut_mm: float) -> Squish:
    """The gap between piston and squish pad after a cut.

    Equation:
        gap = gasket + below deck + max(recess − cut, 0)

    Parameters:
        gasket_mm: gasket thickness, tightened [mm]
        piston_below_deck_mm: piston below the deck at top dead center; minus is proud [mm]
        pad_recess_mm: squish pad above the head face; 0 is flush with it [mm]
        cut_mm: taken off the head face [mm]

    Returns:
        gap after the cut, most (no cut) and least (pad flush) [mm]

    Valid for:
        pads parallel to the face; a pad flush with the face is cut along, so its gap stays

    Source:
        HAND: heights added from the deck.

    Example:
        >>> squish(1.2, piston_below_deck_mm=0.1, pad_recess_mm=0.0, cut_mm=0.3).after_mm
        1.3
        >>> round(squish(1.2, piston_below_deck_mm=0.1, pad_recess_mm=0.5, cut_mm=0.3).after_mm, 3)
        1.5

    Not covered:
        rod stretch, piston rock and bearing clearance, which close the gap at speed; a cut block.
    """
    not_negative(gasket_mm, "Gasket thickness", unit="mm")
    recess = not_negative(pad_recess_mm, "Recess of the squish pad", unit="mm")
    least = gasket_mm + finite(piston_below_deck_mm, "Piston below deck")
    after = least + max(recess - not_negative(cut_mm, "Cut", unit="mm"), 0.0)
    touches = f"The gap after the cut is {after:.3g} mm: the piston would touch the head."
    return Squish(after, least + recess, least, (touches,) if after <= 0 else ())
