"""The path of a belt or chain over wheels in a plane: spans, wraps, whole length, teeth between marks.

x runs to the right, y upward, as the drive is seen; angles are those of a clock: 0° is up, 90° to the right.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from gudgeon.calc.engine.drive_errors import (
    BeltMissesWheel,
    BeltThroughWheel,
    MarkOffBelt,
    SpansCross,
    TooFewWheels,
    WheelNotOnPath,
    WheelsOverlap,
)
from gudgeon.calc.errors import finite, positive

_ROUND = 2 * math.pi
_TOUCH = 1e-9


@dataclass(frozen=True, slots=True)
class WheelAt:
    """A wheel with its center and the radius of the pitch line that lies on it [mm].

    `back` is a wheel that the back of the belt runs on: it turns the other way. `per_turn_mm` is the belt or chain that
    one turn carries; where it is not given, the pitch circle.
    """

    name: str
    x_mm: float
    y_mm: float
    radius_mm: float
    back: bool = False
    per_turn_mm: float | None = None

    @property
    def per_radian_mm(self) -> float:
        """Belt or chain carried by one radian of the wheel."""
        return self.radius_mm if self.per_turn_mm is None else self.per_turn_mm / _ROUND

    def moved(self, direction_deg: float, *, by_mm: float) -> "WheelAt":
        """The wheel moved in a direction of the clock."""
        angle = math.radians(direction_deg)
        x, y = self.x_mm + by_mm * math.sin(angle), self.y_mm + by_mm * math.cos(angle)
        return WheelAt(self.name, x, y, self.radius_mm, self.back, self.per_turn_mm)


@dataclass(frozen=True, slots=True)
class Span:
    """A straight stretch from one wheel to the next, with the points where it leaves and where it arrives [mm]."""

    leaves: str
    arrives: str
    start: tuple[float, float]
    end: tuple[float, float]
    length_mm: float
    heading_deg: float


@dataclass(frozen=True, slots=True)
class Wrap:
    """How a wheel is wrapped: from the angle where the belt arrives to where it leaves, as the belt runs.

    `clockwise` is the way in which this wheel turns. `length_mm` is belt or chain that lies on it.
    """

    wheel: str
    arrives_deg: float
    leaves_deg: float
    wrap_deg: float
    length_mm: float
    clockwise: bool


@dataclass(frozen=True, slots=True)
class DrivePath:
    """A whole loop; span and wrap of one place belong together: the span leaves that wheel."""

    wheels: tuple[WheelAt, ...]
    clockwise: bool
    spans: tuple[Span, ...]
    wraps: tuple[Wrap, ...]
    length_mm: float

    def at(self, name: str) -> int:
        """The place of a wheel in the path."""
        names = tuple(one.name for one in self.wheels)
        if name not in names:
            raise WheelNotOnPath(name, names)
        return names.index(name)


def span_between(first: WheelAt, *, second: WheelAt, clockwise: bool) -> Span:
    """The straight stretch of belt from one wheel to the next.

    Equation:
        length = √(d² − (ρ2 − ρ1)²); heading = direction of the centers − asin((ρ2 − ρ1) / d); ρ is the pitch
        radius, plus on a wheel that turns counterclockwise, minus on one that turns clockwise

    Parameters:
        first: the wheel that the belt leaves [mm]
        second: the wheel that it arrives at [mm]
        clockwise: whether the loop runs clockwise, as it is seen; wheels on its back turn the other way

    Returns:
        both tangent points [mm], length [mm], heading [°]

    Valid for:
        wheels in one plane that do not overlap

    Source:
        HAND: tangent of two circles.

    Example:
        >>> span_between(WheelAt("A", 0, 0, 30), second=WheelAt("B", 0, 150, 60, back=True), clockwise=True).length_mm
        120.0

    Not covered:
        sag, vibration, and a chain that rises and falls as its links run onto a sprocket.
    """
    rho_1, rho_2 = _signed(first, clockwise), _signed(second, clockwise)
    away = math.hypot(second.x_mm - first.x_mm, second.y_mm - first.y_mm)
    _apart(first, second)
    length = math.sqrt(max(0.0, away**2 - (rho_2 - rho_1) ** 2))
    heading = _heading(first, second, clockwise)
    left = (-math.sin(heading), math.cos(heading))
    start = (first.x_mm - rho_1 * left[0], first.y_mm - rho_1 * left[1])
    end = (second.x_mm - rho_2 * left[0], second.y_mm - rho_2 * left[1])
    return Span(first.name, second.name, start, end, length, _clock(heading))


def drive_path(wheels: Sequence[WheelAt], *, clockwise: bool) -> DrivePath:
    """The path of a belt or chain over wheels, in the order in which it runs.

    Equation:
        wrap = change of heading at a wheel, in the way it turns; length = Σ spans + Σ wraps · belt per radian

    Parameters:
        wheels: two or more, in the order in which the belt runs over them [mm]
        clockwise: whether the loop runs clockwise, as it is seen

    Returns:
        spans, wraps [°], whole length [mm]

    Valid for:
        one loop in one plane that neither crosses itself nor runs through a wheel

    Source:
        HAND: tangents and arcs of circles; the headings of a loop that does not cross itself add up to one turn.

    Example:
        >>> two = (WheelAt("A", 0, 0, 30), WheelAt("B", 0, 200, 30))
        >>> found = drive_path(two, clockwise=True)
        >>> round(found.length_mm, 3), found.wraps[0].wrap_deg
        (588.496, 180.0)

    Not covered:
        guide rails, slack, stretch under load, the thickness of a belt that only nearly touches a wheel.
    """
    _check_wheels(wheels)
    count = len(wheels)
    spans = tuple(
        span_between(wheels[at], second=wheels[(at + 1) % count], clockwise=clockwise) for at in range(count)
    )
    wraps = tuple(
        _wrap(wheels[at], spans[at - 1].heading_deg, spans[at].heading_deg, clockwise != wheels[at].back)
        for at in range(count)
    )
    _check_turning(wraps, clockwise)
    _check_crossing(wheels, spans)
    length = sum(one.length_mm for one in spans) + sum(one.length_mm for one in wraps)
    return DrivePath(tuple(wheels), clockwise, spans, wraps, length)


def length_between(path: DrivePath, *, start: tuple[str, float], end: tuple[str, float]) -> float:
    """The belt between two marks, along the path as it runs.

    Equation:
        length = arc from the mark to where the belt leaves + spans and wraps between + arc to the other mark

    Parameters:
        path: the drive [mm]
        start: a wheel, and the angle where its mark stands [°]
        end: the wheel that the belt comes to later, and the angle of its mark [°]

    Returns:
        length along the pitch line [mm]

    Valid for:
        marks that stand where the belt lies on their wheels

    Source:
        HAND: sum of spans and arcs.

    Example:
        >>> two = drive_path((WheelAt("A", 0, 0, 30), WheelAt("B", 0, 200, 30)), clockwise=True)
        >>> round(length_between(two, start=("A", 180.0), end=("B", 0.0)), 3)
        294.248

    Not covered:
        marks on the far side of a wheel: count teeth of the wheel there.
    """
    first, last = path.at(start[0]), path.at(end[0])
    before, after = _arc_to(path, first, start[1]), _arc_to(path, last, end[1])
    if first == last:
        return (after - before) % path.length_mm
    length = path.wraps[first].length_mm - before + path.spans[first].length_mm
    at = (first + 1) % len(path.wheels)
    while at != last:
        length += path.wraps[at].length_mm + path.spans[at].length_mm
        at = (at + 1) % len(path.wheels)
    return length + after


def _arc_to(path: DrivePath, place: int, mark_deg: float) -> float:
    """Belt from where it arrives at a wheel to the mark of the wheel."""
    wrap = path.wraps[place]
    turn = finite(mark_deg, "Mark angle") - wrap.arrives_deg
    turned = _angle(turn if wrap.clockwise else -turn)
    if turned > 360 - 1e-6:
        turned = 0.0
    if turned > wrap.wrap_deg + 1e-6:
        ends = (wrap.arrives_deg, wrap.leaves_deg) if wrap.clockwise else (wrap.leaves_deg, wrap.arrives_deg)
        raise MarkOffBelt(path.wheels[place].name, mark_deg, *ends)
    return math.radians(turned) * path.wheels[place].per_radian_mm


def _signed(wheel: WheelAt, clockwise: bool) -> float:
    return wheel.radius_mm if clockwise == wheel.back else -wheel.radius_mm


def _heading(first: WheelAt, second: WheelAt, clockwise: bool) -> float:
    """Heading of a span in radians from the x axis, counterclockwise."""
    x, y = second.x_mm - first.x_mm, second.y_mm - first.y_mm
    share = (_signed(second, clockwise) - _signed(first, clockwise)) / math.hypot(x, y)
    return math.atan2(y, x) - math.asin(max(-1.0, min(1.0, share)))


def _clock(heading: float) -> float:
    """Radians from the x axis as degrees of the clock."""
    return _angle(90.0 - math.degrees(heading))


def _angle(degrees: float) -> float:
    """Degrees from 0 to below 360; a remainder of rounding is 0."""
    found = degrees % 360.0
    return 0.0 if found >= 360.0 else found


def _wrap(wheel: WheelAt, arriving_deg: float, leaving_deg: float, clockwise: bool) -> Wrap:
    turn = leaving_deg - arriving_deg if clockwise else arriving_deg - leaving_deg
    wrap = _angle(turn)
    if wrap > 360.0 - 1e-7:  # the belt only touches it, but for rounding
        wrap = 0.0
    # A wheel that turns clockwise carries the belt on its left as it runs: the outside of the loop.
    side = -90.0 if clockwise else 90.0
    length = math.radians(wrap) * wheel.per_radian_mm
    return Wrap(wheel.name, _angle(arriving_deg + side), _angle(leaving_deg + side), wrap, length, clockwise)


def _apart(first: WheelAt, second: WheelAt) -> None:
    away = math.hypot(second.x_mm - first.x_mm, second.y_mm - first.y_mm)
    least = first.radius_mm + second.radius_mm
    if away < least * (1 - _TOUCH):
        raise WheelsOverlap(first.name, second.name, away, least)


def _check_wheels(wheels: Sequence[WheelAt]) -> None:
    if len(wheels) < 2:
        raise TooFewWheels(len(wheels))
    for one in wheels:
        positive(one.radius_mm, f"Pitch radius of {one.name}", unit="mm")
        finite(one.x_mm, f"Center of {one.name}")
        finite(one.y_mm, f"Center of {one.name}")
    for first, second in combinations(wheels, 2):
        _apart(first, second)


def _check_turning(wraps: Sequence[Wrap], clockwise: bool) -> None:
    """The headings of a loop add up to one turn, in the way in which it runs."""
    turned = sum(one.wrap_deg if one.clockwise == clockwise else -one.wrap_deg for one in wraps)
    if abs(turned - 360.0) > 1.0:
        worst = max(wraps, key=lambda one: one.wrap_deg)
        raise BeltMissesWheel(worst.wheel, worst.wrap_deg)


def _check_crossing(wheels: Sequence[WheelAt], spans: Sequence[Span]) -> None:
    for first, second in combinations(spans, 2):
        if _cross(first, second):
            raise SpansCross(_said(first), _said(second))
    for span in spans:
        for wheel in wheels:
            if wheel.name in (span.leaves, span.arrives):
                continue
            inside = wheel.radius_mm - _distance((wheel.x_mm, wheel.y_mm), span)
            if inside > 1e-6 * wheel.radius_mm:
                raise BeltThroughWheel(f"{span.leaves} to {span.arrives}", wheel.name, inside)


def _said(span: Span) -> str:
    return f"the span from {span.leaves} to {span.arrives}"


def _cross(first: Span, second: Span) -> bool:
    def side(span: Span, point: tuple[float, float]) -> float:
        (x, y), (u, v) = span.start, span.end
        return (u - x) * (point[1] - y) - (v - y) * (point[0] - x)

    apart = side(first, second.start) * side(first, second.end)
    other = side(second, first.start) * side(second, first.end)
    return apart < 0 and other < 0


def _distance(point: tuple[float, float], span: Span) -> float:
    """How near a span comes to a point."""
    (x, y), (u, v) = span.start, span.end
    square = (u - x) ** 2 + (v - y) ** 2
    share = ((point[0] - x) * (u - x) + (point[1] - y) * (v - y)) / square if square > 0 else 0.0
    share = max(0.0, min(1.0, share))
    return math.hypot(point[0] - x - share * (u - x), point[1] - y - share * (v - y))
