"""How fast a later camshaft brings valve and piston nearer: an estimate from events and lift, by a plain curve."""

from functools import lru_cache

from gudgeon.bench.cut.given import CylinderGiven, ValvesGiven
from gudgeon.calc.engine.valve_margin import ValveMotion, nearest_to_piston
from gudgeon.errors import InputError


def nearer_per_degree(of: ValvesGiven, cylinder: CylinderGiven) -> float | None:
    """Millimeters nearer for each degree of the crankshaft that the camshaft is later; None where it is not known."""
    given = (of.opens, of.closes, of.lift, of.angle, cylinder.stroke, cylinder.rod_length)
    values = [one.value for one in given if one is not None]
    if len(values) < len(given):
        return None
    opens, closes, lift, angle, stroke, rod = values
    ends = (-opens, 180.0 + closes) if of.which == "intake" else (-180.0 - opens, closes)
    at_lift = of.at_lift.value if of.at_lift is not None else 0.0
    return _nearer(ValveMotion(*ends, lift, at_lift), stroke, rod, angle)


@lru_cache(maxsize=16)
def _nearer(motion: ValveMotion, stroke: float, rod: float, angle: float) -> float | None:
    try:
        found = nearest_to_piston(motion, stroke_mm=stroke, rod_length_mm=rod, valve_angle_deg=angle)
    except InputError:
        return None
    return found.nearer_mm_per_deg
