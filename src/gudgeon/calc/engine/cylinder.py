"""Displacement, clearance volume, compression ratio, and where the piston stands."""

import math
from dataclasses import dataclass

from gudgeon.calc.errors import ClearanceGone, RatioImpossible, RodTooShort, finite, not_negative, positive
from gudgeon.calc.flags import unusual_ratio


@dataclass(frozen=True, slots=True)
class CylinderGeometry:
    """What surrounds the gas at top dead center; lengths in mm, volumes in cm³.

    Crown: a dish adds (+), a dome takes away (−). Piston height: + is proud of the deck.
    """

    bore_mm: float
    stroke_mm: float
    chamber_volume_cm3: float
    gasket_bore_mm: float
    gasket_thickness_mm: float
    crown_volume_cm3: float = 0.0
    piston_height_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Compression:
    """A compression ratio and the volumes it comes from, in cm³."""

    ratio: float
    clearance_volume_cm3: float
    swept_volume_cm3: float
    gasket_volume_cm3: float
    deck_volume_cm3: float
    flags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PistonPosition:
    """Where the piston stands and how fast it moves, at one angle of the crank."""

    drop_mm: float
    speed_ratio: float
    top_center_deg: float
    stroke_mm: float


def bore_area_mm2(bore_mm: float) -> float:
    """The area of the bore.

    Equation:
        A = π/4 · bore²

    Parameters:
        bore_mm: cylinder diameter [mm]

    Returns:
        area [mm²]

    Valid for:
        round bores

    Source:
        HAND: area of a circle.

    Example:
        >>> round(bore_area_mm2(86.0), 2)
        5808.8

    Not covered:
        wear: give the diameter where it matters.
    """
    return math.pi / 4 * positive(bore_mm, "Bore", unit="mm") ** 2


def swept_volume_cm3(bore_mm: float, *, stroke_mm: float) -> float:
    """The volume that one piston sweeps.

    Equation:
        V = π/4 · bore² · stroke

    Parameters:
        bore_mm: cylinder diameter [mm]
        stroke_mm: travel of the piston [mm]

    Returns:
        swept volume of one cylinder [cm³]

    Valid for:
        a round bore, the full stroke

    Source:
        ISO 1204 and ISO 7967-1 name the terms; HAND: volume of a cylinder.

    Example:
        >>> round(swept_volume_cm3(86.0, stroke_mm=86.0), 2)
        499.56

    Not covered:
        the small lengthening of the stroke by a pin offset: see piston_position.
    """
    return bore_area_mm2(bore_mm) * positive(stroke_mm, "Stroke", unit="mm") / 1000


def clearance_volume_cm3(geometry: CylinderGeometry) -> float:
    """The volume above the piston at top dead center.

    Equation:
        V = chamber + π/4 · gasket bore² · gasket thickness + crown − π/4 · bore² · piston height

    Parameters:
        geometry: the parts around the gas [mm, cm³]; dish +, dome −, piston proud of the deck +

    Returns:
        clearance volume of one cylinder [cm³]

    Valid for:
        a flat deck and a gasket with a round opening

    Source:
        HAND: sum of the volumes.

    Example:
        >>> engine = CylinderGeometry(bore_mm=86.0, stroke_mm=86.0, chamber_volume_cm3=50.0,
        ...     gasket_bore_mm=87.0, gasket_thickness_mm=1.2, crown_volume_cm3=4.0, piston_height_mm=-0.2)
        >>> round(clearance_volume_cm3(engine), 3)
        62.295

    Not covered:
        the gap around the top land, spark plug cavities not in the burette reading.
    """
    total = sum(_volumes(geometry))
    if total <= 0:
        raise ClearanceGone(total)
    return total


def _volumes(geometry: CylinderGeometry) -> tuple[float, float, float, float]:
    """Chamber, gasket, crown and deck volume; the deck volume is minus where the piston is proud."""
    not_negative(geometry.chamber_volume_cm3, "Chamber volume", unit="cm³")
    not_negative(geometry.gasket_thickness_mm, "Gasket thickness", unit="mm")
    gasket_area = math.pi / 4 * positive(geometry.gasket_bore_mm, "Gasket bore", unit="mm") ** 2
    height = finite(geometry.piston_height_mm, "Piston height")
    return (
        geometry.chamber_volume_cm3,
        gasket_area * geometry.gasket_thickness_mm / 1000,
        finite(geometry.crown_volume_cm3, "Crown volume"),
        -bore_area_mm2(geometry.bore_mm) * height / 1000,
    )


def compression_ratio(geometry: CylinderGeometry) -> Compression:
    """The compression ratio from the parts around the gas.

    Equation:
        ratio = (swept + clearance) / clearance

    Parameters:
        geometry: the parts around the gas [mm, cm³]

    Returns:
        the ratio [1] and its volumes [cm³]

    Valid for:
        ratios of 5 to 25; outside that it is flagged

    Source:
        Ganesan, Internal Combustion Engines, worked example 1.1 (definition of the ratio).

    Example:
        >>> engine = CylinderGeometry(bore_mm=86.0, stroke_mm=86.0, chamber_volume_cm3=50.0,
        ...     gasket_bore_mm=87.0, gasket_thickness_mm=1.2, crown_volume_cm3=4.0, piston_height_mm=-0.2)
        >>> round(compression_ratio(engine).ratio, 2)
        9.02

    Not covered:
        what the engine compresses with its valves still open: that needs the intake closing.
    """
    swept = swept_volume_cm3(geometry.bore_mm, stroke_mm=geometry.stroke_mm)
    clearance = clearance_volume_cm3(geometry)
    _, gasket, _, deck = _volumes(geometry)
    ratio = ratio_of_volumes(swept, clearance_cm3=clearance)
    flags = list(unusual_ratio(ratio))
    if geometry.gasket_bore_mm < geometry.bore_mm:
        flags.append(
            f"The gasket bore ({geometry.gasket_bore_mm:g} mm) is smaller than the cylinder bore "
            f"({geometry.bore_mm:g} mm): the gasket would stand in the gas."
        )
    return Compression(ratio, clearance, swept, gasket, deck, tuple(flags))


def ratio_of_volumes(swept_cm3: float, *, clearance_cm3: float) -> float:
    """The compression ratio from two volumes.

    Equation:
        ratio = (swept + clearance) / clearance

    Parameters:
        swept_cm3: swept volume [cm³]
        clearance_cm3: clearance volume, of as many cylinders as the swept volume [cm³]

    Returns:
        compression ratio [1]

    Valid for:
        any volumes above zero

    Source:
        Ganesan, Internal Combustion Engines, worked example 1.1.

    Example:
        >>> round(ratio_of_volumes(245.0, clearance_cm3=27.2), 2)
        10.01

    Not covered:
        see compression_ratio.
    """
    swept = positive(swept_cm3, "Swept volume", unit="cm³")
    return swept / positive(clearance_cm3, "Clearance volume", unit="cm³") + 1


def clearance_of_ratio(swept_cm3: float, *, ratio: float) -> float:
    """The clearance volume that belongs to a ratio.

    Equation:
        clearance = swept / (ratio − 1)

    Parameters:
        swept_cm3: swept volume [cm³]
        ratio: compression ratio [1]

    Returns:
        clearance volume [cm³]

    Valid for:
        ratios above 1

    Source:
        HAND: the definition of the ratio, solved.

    Example:
        >>> round(clearance_of_ratio(499.56, ratio=9.0), 3)
        62.445

    Not covered:
        how the volume is shared between chamber, gasket and piston.
    """
    if finite(ratio, "Compression ratio") <= 1:
        raise RatioImpossible(ratio)
    return positive(swept_cm3, "Swept volume", unit="cm³") / (ratio - 1)


def piston_position(
    stroke_mm: float, *, rod_length_mm: float, crank_angle_deg: float, pin_offset_mm: float = 0.0
) -> PistonPosition:
    """Where the piston stands below its highest place, and how fast it goes.

    Equation:
        drop = √((l + r)² − e²) − r · cos φ − √(l² − (r · sin φ − e)²), with r half the crank circle;
        speed ratio = (d drop / dφ) · π / stroke

    Parameters:
        stroke_mm: twice the crank throw, 2 r [mm]
        rod_length_mm: rod, center to center, l [mm]
        crank_angle_deg: crank, φ, from where its throw points along the cylinder [°]
        pin_offset_mm: pin axis from the crank axis, e; plus toward the side the throw goes down on [mm]

    Returns:
        drop from the highest place [mm]; speed against the mean piston speed [1], plus downward;
        angle of the highest place [°]; true stroke, which an offset lengthens a little [mm]

    Valid for:
        a rod longer than throw and offset together

    Source:
        HAND: slider-crank, from the triangle of throw, rod and cylinder axis.

    Example:
        >>> place = piston_position(86.0, rod_length_mm=143.0, crank_angle_deg=90.0)
        >>> round(place.drop_mm, 4), round(place.speed_ratio, 4)
        (49.6182, 1.5708)

    Not covered:
        clearances and stretch: dial readings near the top differ by hundredths.
    """
    throw = positive(stroke_mm, "Stroke", unit="mm") / 2
    rod, offset = positive(rod_length_mm, "Rod length", unit="mm"), finite(pin_offset_mm, "Pin offset")
    if rod <= throw + abs(offset):
        raise RodTooShort(rod, throw + abs(offset))
    angle = math.radians(finite(crank_angle_deg, "Crank angle"))
    top, bottom = math.sqrt((rod + throw) ** 2 - offset**2), math.sqrt((rod - throw) ** 2 - offset**2)
    side = throw * math.sin(angle) - offset
    along = math.sqrt(rod**2 - side**2)
    drop = max(0.0, top - throw * math.cos(angle) - along)
    slope = throw * math.sin(angle) + side * throw * math.cos(angle) / along
    true_stroke = 4 * rod * throw / (top + bottom)  # top − bottom, without losing its digits
    top_center = math.degrees(math.asin(offset / (rod + throw)))
    return PistonPosition(drop, slope * math.pi / true_stroke, top_center, true_stroke)
