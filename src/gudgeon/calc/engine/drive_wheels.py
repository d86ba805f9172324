"""Wheels of a drive by themselves: pitch radii, two wheels and a belt, marks that come around, a seen offset."""

import math
from dataclasses import dataclass

from gudgeon.calc.engine.drive_errors import BeltTooShort
from gudgeon.calc.errors import finite, not_negative, positive

CAM_TURNS_PER_CRANK_TURN = 0.5
"""Of a four-stroke engine."""


@dataclass(frozen=True, slots=True)
class Offset:
    """How far a mark is off, on the wheel itself and as angles of the camshaft and of the crankshaft."""

    teeth: float
    wheel_deg: float
    cam_deg: float
    crank_deg: float


def belt_radius(pitch_mm: float, *, teeth: int) -> float:
    """The pitch radius of a wheel for a toothed belt.

    Equation:
        r = p · z / 2π

    Parameters:
        pitch_mm: from tooth to tooth of the belt, p [mm]
        teeth: of the wheel, z [1]

    Returns:
        pitch radius [mm]; it lies outside the teeth of the wheel, in the cords of the belt

    Valid for:
        toothed belts

    Source:
        ISO 5296 and ISO 13050 name the terms; HAND: z pitches go once around.

    Example:
        >>> round(belt_radius(9.525, teeth=20), 3)
        30.319

    Not covered:
        wear of belt and wheel.
    """
    return positive(pitch_mm, "Pitch", unit="mm") * positive(teeth, "Teeth") / (2 * math.pi)


def chain_radius(pitch_mm: float, *, teeth: int) -> float:
    """The pitch radius of a sprocket for a chain.

    Equation:
        r = p / (2 · sin(π / z))

    Parameters:
        pitch_mm: from pin to pin of the chain, p [mm]
        teeth: of the sprocket, z [1]

    Returns:
        radius of the circle on which the pins lie [mm]

    Valid for:
        roller and bush chains; sprockets of 6 teeth or more

    Source:
        ISO 606 (pitch circle of sprockets); HAND: corners of a regular polygon.

    Example:
        >>> round(chain_radius(9.525, teeth=21), 3)
        31.954

    Not covered:
        a worn chain, whose pins lie further apart; silent chains with another pitch line.
    """
    pitch = positive(pitch_mm, "Pitch", unit="mm")
    return pitch / (2 * math.sin(math.pi / positive(teeth, "Teeth")))


def smooth_radius(diameter_mm: float, *, rise_mm: float) -> float:
    """The radius of the pitch line on a smooth roller.

    Equation:
        r = d / 2 + rise

    Parameters:
        diameter_mm: of the roller [mm]
        rise_mm: from the roller to the pitch line of the belt [mm]

    Returns:
        radius of the pitch line [mm]

    Valid for:
        rollers on the back of the belt, and smooth ones on its teeth with the rise of that side

    Source:
        HAND: radius and distance added.

    Example:
        >>> smooth_radius(60.0, rise_mm=1.5)
        31.5

    Not covered:
        the belt's own thickness from its pitch line outward.
    """
    return positive(diameter_mm, "Diameter", unit="mm") / 2 + not_negative(rise_mm, "Rise", unit="mm")


def two_wheel_length(
    center_distance_mm: float,
    *,
    first_mm: float,
    second_mm: float,
    first_per_radian_mm: float | None = None,
    second_per_radian_mm: float | None = None,
) -> float:
    """The length of a belt or chain around two wheels.

    Equation:
        L = 2 · c · cos β + q1 · (π − 2 β) + q2 · (π + 2 β), sin β = (r2 − r1) / c; q = r for a belt

    Parameters:
        center_distance_mm: c [mm]
        first_mm: pitch radius r1 [mm]
        second_mm: pitch radius r2 [mm]
        first_per_radian_mm: q1, belt or chain that one radian carries; the radius where not given [mm]
        second_per_radian_mm: q2, as q1 [mm]

    Returns:
        length along the pitch line [mm]

    Valid for:
        wheels that do not overlap

    Source:
        HAND: two tangents and two arcs.

    Example:
        >>> small, large = belt_radius(5.0, teeth=20), belt_radius(5.0, teeth=40)
        >>> round(two_wheel_length(150.0, first_mm=small, second_mm=large), 4)
        451.6903

    Not covered:
        rollers and tensioners: see drive_path.
    """
    apart = positive(center_distance_mm, "Center distance", unit="mm")
    slope = math.asin(max(-1.0, min(1.0, (second_mm - first_mm) / apart)))
    first = first_mm if first_per_radian_mm is None else first_per_radian_mm
    second = second_mm if second_per_radian_mm is None else second_per_radian_mm
    straight = 2 * apart * math.cos(slope)
    return straight + first * (math.pi - 2 * slope) + second * (math.pi + 2 * slope)


def center_distance(
    length_mm: float,
    *,
    first_mm: float,
    second_mm: float,
    first_per_radian_mm: float | None = None,
    second_per_radian_mm: float | None = None,
) -> float:
    """The distance of two wheels that a belt or chain just goes around.

    Equation:
        two_wheel_length(c) = L, solved for c; its slope is 2 · cos β

    Parameters:
        length_mm: of the belt along its pitch line, L [mm]
        first_mm: pitch radius r1 [mm]
        second_mm: pitch radius r2 [mm]
        first_per_radian_mm: as in two_wheel_length [mm]
        second_per_radian_mm: as in two_wheel_length [mm]

    Returns:
        distance from center to center [mm]

    Valid for:
        belts that go around both wheels where these touch, or longer ones

    Source:
        HAND: the length rises with the distance, so one distance fits; found by halving.

    Example:
        >>> small, large = belt_radius(9.525, teeth=20), belt_radius(9.525, teeth=40)
        >>> round(center_distance(114 * 9.525, first_mm=small, second_mm=large), 4)
        398.8972

    Not covered:
        the tension that the belt is to have.
    """

    def of(apart: float) -> float:
        return two_wheel_length(
            apart,
            first_mm=first_mm,
            second_mm=second_mm,
            first_per_radian_mm=first_per_radian_mm,
            second_per_radian_mm=second_per_radian_mm,
        )

    low = positive(first_mm, "Pitch radius", unit="mm") + positive(second_mm, "Pitch radius", unit="mm")
    if positive(length_mm, "Belt length", unit="mm") < of(low) * (1 - 1e-12):
        raise BeltTooShort(length_mm, of(low))
    high = low + length_mm
    while high - low > 1e-13 * high:
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if of(middle) < length_mm else (low, middle)
    return (low + high) / 2


def marks_realign(belt_teeth: int, *, crank_teeth: int, with_cam: bool = False) -> int:
    """After how many turns of the crankshaft printed marks of belt and crankshaft line up again.

    Equation:
        turns = lcm(N, z) / z; with the camshaft's mark the next even number that is a multiple of it

    Parameters:
        belt_teeth: teeth of the belt, or links of the chain, N [1]
        crank_teeth: teeth of the crankshaft's wheel, z [1]
        with_cam: whether the camshaft's marks must stand right too, which they do every second turn

    Returns:
        turns of the crankshaft [1]

    Valid for:
        four-stroke engines

    Source:
        HAND: least common multiple.

    Example:
        >>> marks_realign(111, crank_teeth=18), marks_realign(111, crank_teeth=18, with_cam=True)
        (37, 74)

    Not covered:
        belts whose marks repeat within the belt.
    """
    positive(belt_teeth, "Belt teeth")
    positive(crank_teeth, "Crank teeth")
    turns = math.lcm(belt_teeth, crank_teeth) // crank_teeth
    return math.lcm(turns, 2) if with_cam else turns


def seen_offset(teeth: float, *, wheel_teeth: int, of_crank: bool = False) -> Offset:
    """An offset seen at a wheel, as angles.

    Equation:
        wheel angle = 360° · offset / z; crank angle = 2 · cam angle

    Parameters:
        teeth: how far the mark is off, in teeth; its sign is kept [1]
        wheel_teeth: teeth of that wheel, z [1]
        of_crank: whether it is the crankshaft's wheel; else a camshaft's

    Returns:
        teeth [1], angle of the wheel, of the camshaft and of the crankshaft [°]

    Valid for:
        four-stroke engines, wheels that turn as their shaft does

    Source:
        HAND: one turn has z teeth; a camshaft turns half as fast as the crankshaft.

    Example:
        >>> found = seen_offset(0.5, wheel_teeth=40)
        >>> found.cam_deg, found.crank_deg
        (4.5, 9.0)

    Not covered:
        the offset that is only the error of looking at a mark from aside.
    """
    wheel = 360.0 * finite(teeth, "Offset") / positive(wheel_teeth, "Teeth")
    cam = wheel * CAM_TURNS_PER_CRANK_TURN if of_crank else wheel
    return Offset(teeth, wheel, cam, cam / CAM_TURNS_PER_CRANK_TURN)
