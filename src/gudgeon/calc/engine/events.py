"""When valves open and close: duration, centerline, overlap, lobe separation, and the camshaft advanced.

Degrees are those of the crankshaft as the trade writes them: an intake opens before top and closes after bottom dead
center, an exhaust opens before bottom and closes after top. A minus is the other side of that dead center.
"""

from dataclasses import dataclass
from typing import Literal

from gudgeon.calc.engine.events_errors import DurationImpossible, EventsContradict, TooFewEvents
from gudgeon.calc.errors import finite, not_negative, positive

Valve = Literal["intake", "exhaust"]
USUAL_DURATION = (150.0, 360.0)
SAME_DEG = 1e-6
"""Closer together than this is the same angle: what sums of decimals leave over."""


@dataclass(frozen=True, slots=True)
class ValveEvents:
    """When a valve opens and closes [crank °]; `centerline_deg` is halfway, from top dead center.

    It lies after top dead center for an intake, before it for an exhaust.
    """

    valve: Valve
    opens_deg: float
    closes_deg: float
    duration_deg: float
    centerline_deg: float
    flags: tuple[str, ...] = ()


def valve_events(
    valve: Valve,
    *,
    opens_deg: float | None = None,
    closes_deg: float | None = None,
    duration_deg: float | None = None,
    centerline_deg: float | None = None,
    slack_deg: float = 0.0,
    center_slack_deg: float = 0.0,
) -> ValveEvents:
    """The events of one valve from any two figures that determine them.

    Equation:
        duration = opens + 180 + closes; centerline = duration / 2 − event at top dead center

    Parameters:
        valve: intake, or exhaust [word]
        opens_deg: intake before top, exhaust before bottom dead center; minus is after it [crank °]
        closes_deg: intake after bottom, exhaust after top dead center; minus is before it [crank °]
        duration_deg: how long it is open [crank °]
        centerline_deg: full lift; intake after, exhaust before top dead center [crank °]
        slack_deg: by how much rounding alone may make opening, closing and duration differ [crank °]
        center_slack_deg: by how much it may make the centerline differ from halfway [crank °]

    Returns:
        opening, closing, duration and centerline [crank °]

    Valid for:
        durations of 150 to 360°; outside that it is flagged

    Source:
        HAND: the crank turns 180° from one dead center to the other; a symmetric lobe is highest halfway.

    Example:
        >>> found = valve_events("intake", opens_deg=12.0, closes_deg=40.0)
        >>> found.duration_deg, found.centerline_deg
        (232.0, 104.0)

    Not covered:
        lobes that are not symmetric: a centerline that is not halfway is flagged, and the events count.
    """
    given = {
        name: finite(value, f"{name.capitalize()} of the {valve} valve")
        for name, value in (
            ("opening", opens_deg),
            ("closing", closes_deg),
            ("duration", duration_deg),
            ("centerline", centerline_deg),
        )
        if value is not None
    }
    if len(given) < 2:
        raise TooFewEvents(valve, tuple(given))
    slack = not_negative(slack_deg, "Slack", unit="°") + SAME_DEG
    center_slack = not_negative(center_slack_deg, "Slack of the centerline", unit="°") + SAME_DEG
    opens, closes = _both(valve, given)
    duration = opens + 180 + closes
    stated = given.get("duration")
    all_three = {"opening", "closing", "duration"} <= given.keys()
    if all_three and stated is not None and abs(stated - duration) > slack:
        raise EventsContradict(valve, opens, closes, stated)
    if not 0 < duration < 720:
        raise DurationImpossible(valve, duration)
    middle = duration / 2 - (opens if valve == "intake" else closes)
    flags = (*_unusual(valve, duration), *_off_middle(valve, given, middle, (opens, closes), center_slack))
    return ValveEvents(valve, opens, closes, duration, middle, flags)


def _both(valve: Valve, given: dict[str, float]) -> tuple[float, float]:
    """Opening and closing, from the two figures that come first: events before durations."""
    top, bottom = ("opening", "closing") if valve == "intake" else ("closing", "opening")
    near, far = given.get(top), given.get(bottom)
    duration, center = given.get("duration"), given.get("centerline")
    if near is None:
        if far is None:
            near = _must(duration) / 2 - _must(center)
        elif duration is not None:
            near = duration - 180 - far
        else:
            near = far + 180 - 2 * _must(center)
    if far is None:
        far = (duration if duration is not None else 2 * (_must(center) + near)) - 180 - near
    return (near, far) if valve == "intake" else (far, near)


def _must(value: float | None) -> float:
    assert value is not None  # two figures are given, and the others are looked at first
    return value


def _unusual(valve: Valve, duration: float) -> tuple[str, ...]:
    low, high = USUAL_DURATION
    if low <= duration <= high:
        return ()
    return (
        f"A duration of {duration:g}° for the {valve} valve is outside the usual {low:g} to {high:g}° "
        "(common practice): check the events and their signs.",
    )


def _off_middle(
    valve: Valve, given: dict[str, float], middle: float, events: tuple[float, float], slack: float
) -> tuple[str, ...]:
    stated = given.get("centerline")
    if stated is None or abs(stated - middle) <= slack:
        return ()
    opens, closes = events
    return (
        f"The {valve} centerline given, {stated:g}°, is not halfway between opening {opens:g}° and closing "
        f"{closes:g}°, which is {middle:g}°: the lobe is not symmetric, or one of the figures is wrong.",
    )


def overlap_deg(intake: ValveEvents, *, exhaust: ValveEvents) -> float:
    """How long intake and exhaust valve are open together.

    Equation:
        overlap = intake opens before top + exhaust closes after top

    Parameters:
        intake: events of the intake [crank °]
        exhaust: events of the exhaust [crank °]

    Returns:
        overlap; a minus is a pause in which both are closed [crank °]

    Valid for:
        events at one and the same lift

    Source:
        HAND: both lie about top dead center, and are added over it.

    Example:
        >>> intake = valve_events("intake", opens_deg=20.0, closes_deg=60.0)
        >>> overlap_deg(intake, exhaust=valve_events("exhaust", opens_deg=60.0, closes_deg=20.0))
        40.0

    Not covered:
        how far the valves are open meanwhile.
    """
    return intake.opens_deg + exhaust.closes_deg


def lobe_separation_deg(intake: ValveEvents, *, exhaust: ValveEvents) -> float:
    """The angle between the lobes of intake and exhaust, at the camshaft.

    Equation:
        separation = (intake centerline + exhaust centerline) / 2

    Parameters:
        intake: events of the intake [crank °]
        exhaust: events of the exhaust [crank °]

    Returns:
        lobe separation [cam °]

    Valid for:
        a camshaft that turns half as fast as the crankshaft

    Source:
        HAND: the centerlines lie on both sides of top dead center; half a crank degree is a cam degree.

    Example:
        >>> intake = valve_events("intake", opens_deg=20.0, closes_deg=60.0)
        >>> lobe_separation_deg(intake, exhaust=valve_events("exhaust", opens_deg=60.0, closes_deg=20.0))
        110.0

    Not covered:
        camshafts that are set apart from each other while the engine runs.
    """
    return (intake.centerline_deg + exhaust.centerline_deg) / 2


def separation_of_equal_lobes_deg(duration_deg: float, *, overlap_deg: float) -> float:
    """The lobe separation of two lobes of one duration, from their overlap.

    Equation:
        separation = (duration − overlap) / 2

    Parameters:
        duration_deg: of either valve; of two durations their mean [crank °]
        overlap_deg: minus where both are closed about top dead center [crank °]

    Returns:
        lobe separation [cam °]

    Valid for:
        overlaps below the duration

    Source:
        HAND: overlap = duration − 2 · separation, from the events of both lobes.

    Example:
        >>> separation_of_equal_lobes_deg(264.0, overlap_deg=45.0)
        109.5

    Not covered:
        where the pair stands against the crankshaft: that takes one centerline.
    """
    return (positive(duration_deg, "Duration", unit="°") - finite(overlap_deg, "Overlap")) / 2


def advanced(events: ValveEvents, *, by_deg: float) -> ValveEvents:
    """The events after the camshaft was set to come earlier.

    Equation:
        opens' = opens + advance; closes' = closes − advance

    Parameters:
        events: events of one valve before [crank °]
        by_deg: earlier; a minus retards: it comes later [crank °]

    Returns:
        events after [crank °]

    Valid for:
        any advance; the duration stays

    Source:
        HAND: what lies before a dead center grows, what lies after it shrinks.

    Example:
        >>> later = advanced(valve_events("intake", opens_deg=20.0, closes_deg=60.0), by_deg=-5.0)
        >>> later.opens_deg, later.closes_deg
        (15.0, 65.0)

    Not covered:
        degrees of the camshaft: they count twice at the crankshaft.
    """
    by = finite(by_deg, "Advance")
    earlier = -by if events.valve == "intake" else by
    return ValveEvents(
        events.valve,
        events.opens_deg + by,
        events.closes_deg - by,
        events.duration_deg,
        events.centerline_deg + earlier,
        events.flags,
    )


def rocker_ratio(valve_lift_mm: float, *, lash_mm: float, cam_lift_mm: float) -> float:
    """What a rocker arm makes of the lift of the cam.

    Equation:
        ratio = (valve lift + lash) / cam lift

    Parameters:
        valve_lift_mm: lift of the valve, the lash already taken up [mm]
        lash_mm: clearance that is taken up before the valve moves, at the valve [mm]
        cam_lift_mm: lift of the lobe [mm]

    Returns:
        rocker ratio [1]

    Valid for:
        the ratio at full lift; at part lift it differs a little

    Source:
        TM 5-6115-400-35 (lifts and lash of an engine); ratio by hand.

    Example:
        >>> round(rocker_ratio(13.299, lash_mm=0.508, cam_lift_mm=9.144), 2)
        1.51

    Not covered:
        bending of the rocker and of the pushrod.
    """
    lifted = positive(valve_lift_mm, "Valve lift", unit="mm") + not_negative(lash_mm, "Lash", unit="mm")
    return lifted / positive(cam_lift_mm, "Cam lift", unit="mm")
