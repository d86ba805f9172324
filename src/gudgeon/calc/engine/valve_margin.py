"""How near valve and piston come after a head has come down, and what a later camshaft adds to it."""

import math
from dataclasses import dataclass

from gudgeon.calc.engine.cylinder import piston_position
from gudgeon.calc.engine.gear_errors import EventsAboveLift, NeverOpens, NotAValveAngle
from gudgeon.calc.errors import finite, not_negative, positive

REACH_DEG = 60.0
"""Valve and piston are nearest within this of top dead center: farther off the piston is centimeters away."""
_GOLDEN = (math.sqrt(5) - 1) / 2
_STEPS = 60


@dataclass(frozen=True, slots=True)
class ValveMotion:
    """A valve that opens and closes at crank angles counted from top dead center, after it plus [°, mm].

    `at_lift_mm` is the lift at which both angles are given; 0 where they are those of the seat.
    """

    opens_deg: float
    closes_deg: float
    lift_mm: float
    at_lift_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Nearest:
    """Where valve and piston are nearest, and how fast their gap shrinks there as the camshaft turns later.

    `nearer_mm_per_deg` is per degree of the crank; minus means that a later camshaft opens the gap.
    """

    crank_deg: float
    lift_mm: float
    nearer_mm_per_deg: float


def margin_after_cut(
    margin_mm: float, *, lowering_mm: float, valve_angle_deg: float, nearer_mm: float = 0.0
) -> float:
    """The gap between valve and piston, square to the face of the valve, after the head has come down.

    Equation:
        after = margin − lowering · cos(valve angle) − nearer

    Parameters:
        margin_mm: gap before, where valve and piston are nearest [mm]
        lowering_mm: how far the head comes down along the cylinder; minus is up, as by a thicker gasket [mm]
        valve_angle_deg: between valve stem and cylinder axis [°]
        nearer_mm: by how much a turned camshaft brings the valve nearer besides [mm]

    Returns:
        gap after [mm]; minus means that they meet

    Valid for:
        valve angles from 0° to below 90°; a piston crown or pocket parallel to the face of the valve

    Source:
        HAND: the way of the head along the cylinder, its part along the valve stem.

    Example:
        >>> round(margin_after_cut(1.9, lowering_mm=0.2, valve_angle_deg=20.0), 4)
        1.7121

    Not covered:
        seats cut deeper or valves ground, which let a valve back into the head; stretch and play at speed.
    """
    angle = finite(valve_angle_deg, "Valve angle")
    if not 0 <= angle < 90:
        raise NotAValveAngle(angle)
    along_stem = finite(lowering_mm, "Lowering of the head") * math.cos(math.radians(angle))
    return finite(margin_mm, "Valve-to-piston gap") - along_stem - finite(nearer_mm, "Nearer by the camshaft")


def plain_lift(crank_deg: float, *, motion: ValveMotion) -> float:
    """The lift of a valve by a plain curve: half a wave of a cosine from shut to open and back.

    Equation:
        lift = full lift / 2 · (1 − cos(2π · (φ − start) / length)); 0 outside. Start and length are those of the
        wave that has the lift of the events at both: length = (closes − opens) / (1 − a / π),
        start = opens − length · a / 2π, a = acos(1 − 2 · lift of the events / full lift)

    Parameters:
        crank_deg: crank angle from top dead center, φ [°]
        motion: when it opens and closes, its full lift, the lift at which the events are given [°, mm]

    Returns:
        lift [mm]

    Valid for:
        an estimate: a real lobe lifts somewhat less near its ends and more beside its nose

    Source:
        HAND: the plainest smooth curve with these three figures.

    Example:
        >>> round(plain_lift(0.0, motion=ValveMotion(-12.0, 228.0, 8.8)), 4)
        0.2154
        >>> round(plain_lift(-12.0, motion=ValveMotion(-12.0, 228.0, 8.8, at_lift_mm=0.25)), 4)
        0.25

    Not covered:
        ramps, clearance, the shape of a real lobe.
    """
    start, duration = _wave(motion)
    share = (finite(crank_deg, "Crank angle") - start) / duration
    return motion.lift_mm / 2 * (1 - math.cos(2 * math.pi * share)) if 0 < share < 1 else 0.0


def _wave(motion: ValveMotion) -> tuple[float, float]:
    """Where the plain curve leaves the seat, and how long it is [°]."""
    lift = not_negative(motion.lift_mm, "Valve lift", unit="mm")
    at = not_negative(motion.at_lift_mm, "Lift of the events", unit="mm")
    duration = finite(motion.closes_deg, "Valve closes") - finite(motion.opens_deg, "Valve opens")
    if duration <= 0:
        raise NeverOpens(motion.opens_deg, motion.closes_deg)
    if at == 0:
        return motion.opens_deg, duration
    if at >= lift:
        raise EventsAboveLift(at, lift)
    hidden = math.acos(1 - 2 * at / lift)
    length = duration / (1 - hidden / math.pi)
    return motion.opens_deg - length * hidden / (2 * math.pi), length


def nearest_to_piston(
    motion: ValveMotion, *, stroke_mm: float, rod_length_mm: float, valve_angle_deg: float
) -> Nearest:
    """Where valve and piston are nearest, and by how much a later camshaft brings them nearer.

    Equation:
        the least of drop(φ) · cos(valve angle) − lift(φ) over φ; there d gap / d late = d lift / dφ, since the least
        itself does not change with φ

    Parameters:
        motion: when the valve opens and closes, its full lift, the lift at which the events are given [°, mm]
        stroke_mm: travel of the piston [mm]
        rod_length_mm: rod, center to center [mm]
        valve_angle_deg: between valve stem and cylinder axis [°]

    Returns:
        crank angle of the nearest place [°], lift there [mm], how fast a later camshaft brings them nearer [mm/°]

    Valid for:
        an estimate with a plain lift curve (plain_lift); changes of a few degrees

    Source:
        HAND: least of the gap over the crank angle; its change by the theorem of the envelope.

    Example:
        >>> found = nearest_to_piston(ValveMotion(-226.0, 10.0, 8.6), stroke_mm=85.6, rod_length_mm=138.0,
        ...     valve_angle_deg=20.0)
        >>> round(found.crank_deg, 1), round(found.nearer_mm_per_deg, 4)
        (-2.3, 0.0368)

    Not covered:
        a lobe with another shape: measure the gap with clay where it is close.
    """
    along = math.cos(math.radians(valve_angle_deg))
    positive(along, "Cosine of the valve angle")

    def gap(crank_deg: float) -> float:
        place = piston_position(stroke_mm, rod_length_mm=rod_length_mm, crank_angle_deg=crank_deg)
        return place.drop_mm * along - plain_lift(crank_deg, motion=motion)

    low, high = -REACH_DEG, REACH_DEG
    for _ in range(_STEPS):
        first, second = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        low, high = (low, second) if gap(first) <= gap(second) else (first, high)
    at = (low + high) / 2
    start, duration = _wave(motion)
    share = (at - start) / duration
    rise = motion.lift_mm * math.pi / duration * math.sin(2 * math.pi * share) if 0 < share < 1 else 0.0
    return Nearest(at, plain_lift(at, motion=motion), -rise)
