"""Dead center and lobe center: the middle of two angles read on both sides, and what it misses."""

import math
from dataclasses import dataclass

from gudgeon.calc.engine.cylinder import piston_position
from gudgeon.calc.engine.events_errors import ReadingsOpposite, ReadingsSame, StopTooDeep
from gudgeon.calc.errors import finite, not_negative, positive

SAME_DEG = 1e-6


@dataclass(frozen=True, slots=True)
class Middle:
    """The middle of two angles, how far either lies from it, and the standard uncertainty of the middle [°]."""

    middle_deg: float
    half_angle_deg: float
    u_deg: float = 0.0


@dataclass(frozen=True, slots=True)
class StopAngles:
    """The crank at a stop, from where its throw points along the cylinder; running direction is plus [°].

    `error_deg` is the middle of both less the true top dead center.
    """

    before_deg: float
    after_deg: float
    top_center_deg: float
    error_deg: float

    @property
    def half_angle_deg(self) -> float:
        """Half of the way from one touch to the other over the top."""
        return (self.after_deg - self.before_deg) / 2


def middle_of(
    first_deg: float,
    *,
    second_deg: float,
    u_first_deg: float = 0.0,
    u_second_deg: float = 0.0,
    half_angle_deg: float | None = None,
) -> Middle:
    """The middle of two angles read on a wheel, on the shorter way between them unless they are known to be wide apart.

    Equation:
        middle = first + d / 2, with d = second − first brought between −180° and +180°; u² = (u₁² + u₂²) / 4

    Parameters:
        first_deg: one reading [°]
        second_deg: the other reading, turned the other way, or on the other flank [°]
        u_first_deg: standard uncertainty of the first [°]
        u_second_deg: standard uncertainty of the second [°]
        half_angle_deg: about how far both lie from the middle, where that is known; above 90° they lie over half a
            turn apart [°]

    Returns:
        middle, from 0° to below 360°; half of the way between; standard uncertainty of the middle [°]

    Valid for:
        readings less than half a turn apart on the side that is meant, where no half angle says otherwise

    Source:
        HAND: circular mean of two angles. The plain mean fails where the wheel passes 0°.

    Example:
        >>> middle_of(30.0, second_deg=310.0).middle_deg
        350.0
        >>> middle_of(60.0, second_deg=145.5).middle_deg
        102.75

    Not covered:
        readings of one touch that were taken apart: take their mean first. What both readings share, as of a pointer
        that is bent, moves the middle as it moves them.
    """
    first, second = finite(first_deg, "First reading"), finite(second_deg, "Second reading")
    apart = math.remainder(second - first, 360.0)
    if abs(apart) < SAME_DEG:
        raise ReadingsSame(first)
    if 180 - abs(apart) < SAME_DEG:
        raise ReadingsOpposite(first, second)
    u = math.hypot(
        not_negative(u_first_deg, "Uncertainty of the first reading", unit="°"),
        not_negative(u_second_deg, "Uncertainty of the second reading", unit="°"),
    )
    half = abs(apart) / 2
    if half_angle_deg is not None and abs(half_angle_deg - half) > abs(half_angle_deg - (180 - half)):
        return Middle(around(first + apart / 2 + 180), 180 - half, u / 2)
    return Middle(around(first + apart / 2), half, u / 2)


def around(angle_deg: float) -> float:
    """An angle as a wheel shows it.

    Equation:
        angle modulo 360°; what rounds to a full turn is 0°

    Parameters:
        angle_deg: any angle [°]

    Returns:
        from 0° to below 360° [°]

    Valid for:
        any finite angle

    Source:
        HAND: a full turn is 360°.

    Example:
        >>> around(-10.0), around(370.0)
        (350.0, 10.0)

    Not covered:
        wheels that are numbered to 180° both ways.
    """
    found = finite(angle_deg, "Angle") % 360.0
    return 0.0 if 360.0 - found < 1e-9 else found


def stop_angles(
    depth_mm: float, *, stroke_mm: float, rod_length_mm: float, pin_offset_mm: float = 0.0
) -> StopAngles:
    """Where the crank stands when the piston is so far below its highest place, both ways, and what the middle misses.

    Equation:
        h = √((l + r)² − e²) − depth; D² = e² + h²; φ = atan(e / h) ± acos((r² + D² − l²) / (2 r D));
        error = atan(e / h) − asin(e / (l + r))

    Parameters:
        depth_mm: piston at the stop, or at both equal dial readings, below its highest place [mm]
        stroke_mm: twice the crank throw, 2 r [mm]
        rod_length_mm: rod, center to center, l [mm]
        pin_offset_mm: pin axis from the crank axis, e; plus toward the side the throw goes down on [mm]

    Returns:
        crank angles before and after, the true top dead center, and the middle less the true one [°]

    Valid for:
        depths above 0 and below the stroke

    Source:
        HAND: the slider-crank of piston_position solved for the angle: the pin of the crank lies on a circle of r about
        the crank and of l about the piston pin.

    Example:
        >>> found = stop_angles(10.0, stroke_mm=86.0, rod_length_mm=143.0, pin_offset_mm=1.0)
        >>> round(found.error_deg, 4), round(found.top_center_deg, 4)
        (0.0175, 0.308)

    Not covered:
        slack in bearings and pin, which moves both touches outward, and rock of the piston.
    """
    top = piston_position(
        stroke_mm, rod_length_mm=rod_length_mm, crank_angle_deg=0.0, pin_offset_mm=pin_offset_mm
    )
    if not 0 < finite(depth_mm, "Depth of the stop") < top.stroke_mm:
        raise StopTooDeep(depth_mm, top.stroke_mm)
    throw, rod = positive(stroke_mm, "Stroke", unit="mm") / 2, rod_length_mm
    height = math.sqrt((rod + throw) ** 2 - pin_offset_mm**2) - depth_mm
    away = math.hypot(pin_offset_mm, height)
    middle = math.degrees(math.atan2(pin_offset_mm, height))
    cosine = (throw**2 + away**2 - rod**2) / (2 * throw * away)
    half = math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
    return StopAngles(middle - half, middle + half, top.top_center_deg, middle - top.top_center_deg)


def depth_of_stop(
    half_angle_deg: float, *, stroke_mm: float, rod_length_mm: float, pin_offset_mm: float = 0.0
) -> float:
    """How deep a stop stands, from how far apart both readings lie.

    Equation:
        D = r · cos β + √(l² − r² · sin² β); depth = √((l + r)² − e²) − √(D² − e²)

    Parameters:
        half_angle_deg: half of the way from one touch to the other over the top, β [°]
        stroke_mm: twice the crank throw, 2 r [mm]
        rod_length_mm: rod, center to center, l [mm]
        pin_offset_mm: pin axis from the crank axis, e [mm]

    Returns:
        depth of the piston at the stop below its highest place [mm]

    Valid for:
        half angles above 0° and below 180°

    Source:
        HAND: stop_angles, solved for the depth.

    Example:
        >>> found = stop_angles(10.0, stroke_mm=86.0, rod_length_mm=143.0, pin_offset_mm=1.0)
        >>> half = found.half_angle_deg
        >>> round(depth_of_stop(half, stroke_mm=86.0, rod_length_mm=143.0, pin_offset_mm=1.0), 6)
        10.0

    Not covered:
        slack in bearings and pin, which makes the stop look deeper.
    """
    top = piston_position(
        stroke_mm, rod_length_mm=rod_length_mm, crank_angle_deg=0.0, pin_offset_mm=pin_offset_mm
    )
    throw, half = stroke_mm / 2, math.radians(finite(half_angle_deg, "Half angle"))
    away = throw * math.cos(half) + math.sqrt(rod_length_mm**2 - (throw * math.sin(half)) ** 2)
    highest = math.sqrt((rod_length_mm + throw) ** 2 - pin_offset_mm**2)
    depth = highest - math.sqrt(max(0.0, away**2 - pin_offset_mm**2))
    if not 0 < depth < top.stroke_mm:
        raise StopTooDeep(depth, top.stroke_mm)
    return depth
