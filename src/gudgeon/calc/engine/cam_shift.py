"""How far wheels turn when wheels of the drive move: the belt between them and the crankshaft keeps its length."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.calc.engine.drive_errors import NotSameWheels, TooFewWheels
from gudgeon.calc.engine.drive_path import WheelAt, drive_path, span_between


@dataclass(frozen=True, slots=True)
class Turned:
    """How far a wheel falls back against the crankshaft, plus is later (retard), minus earlier (advance).

    `belt_mm` is that way along its pitch line, `wheel_deg` its angle.
    """

    wheel: str
    belt_mm: float
    wheel_deg: float


def turned(before: Sequence[WheelAt], *, after: Sequence[WheelAt], clockwise: bool) -> tuple[Turned, ...]:
    """How far each wheel of the tight side falls back when wheels have moved.

    Equation:
        Σ spans + Σ arcs between a tooth on the wheel and a tooth on the crankshaft stays as it was:
        lag = −(Σ ΔL + Σ ρ · Δθ of the span that leaves − Σ ρ · Δθ of the span that arrives), from the wheel to the
        crankshaft; angle = lag / ρ

    Parameters:
        before: the tight side in the order in which it runs: from a camshaft over all wheels between to the
            crankshaft, which is the last [mm]
        after: the same wheels where they are now [mm]
        clockwise: whether the loop runs clockwise, as it is seen

    Returns:
        for each wheel but the crankshaft its lag [mm] and angle of lag [°], in the order given

    Valid for:
        a tight side without a tensioner; moves that leave each wheel wrapped; no slack, no stretch

    Source:
        HAND: pitch length from tooth to tooth kept; proved against the whole length solved for the angle.

    Example:
        >>> crank, cam = WheelAt("crank", 0, 0, 30.319), WheelAt("cam", 0, 400, 60.638)
        >>> found = turned((cam, crank), after=(cam.moved(180.0, by_mm=0.508), crank), clockwise=True)
        >>> round(2 * found[0].wheel_deg, 4)
        0.9572

    Not covered:
        stretch of the belt under its new tension; wheels driven by a second belt, chain or gear.
    """
    _check_same(before, after)
    last = len(before) - 1
    shorter, heading_change = _changes(before, after, clockwise)
    found = []
    for first in range(last):
        lag = sum(shorter[first:])
        for at in range(first, last + 1):
            wheel = after[at]
            way = 1.0 if clockwise != wheel.back else -1.0  # plus turns clockwise, as headings count
            leaving = heading_change[at] if at < last else 0.0
            arriving = heading_change[at - 1] if at > first else 0.0
            lag -= way * wheel.per_radian_mm * (leaving - arriving)
        found.append(Turned(before[first].name, lag, math.degrees(lag / before[first].per_radian_mm)))
    return tuple(found)


def slack_made(before: Sequence[WheelAt], *, after: Sequence[WheelAt], clockwise: bool) -> float:
    """The belt that a tensioner must take up when wheels have moved.

    Equation:
        slack = length of the loop before − length of the loop after, with the tensioner where it was

    Parameters:
        before: all wheels in the order in which the belt runs [mm]
        after: the same wheels where they are now [mm]
        clockwise: whether the loop runs clockwise, as it is seen

    Returns:
        belt that becomes slack [mm]; minus where the tensioner must give

    Valid for:
        as drive_path

    Source:
        HAND: difference of two lengths.

    Example:
        >>> crank, cam = WheelAt("crank", 0, 0, 30.319), WheelAt("cam", 0, 400, 60.638)
        >>> round(slack_made((crank, cam), after=(crank, cam.moved(180.0, by_mm=0.508)), clockwise=True), 4)
        1.0131

    Not covered:
        how far the tensioner itself moves: that depends on how the belt bends over it.
    """
    _check_same(before, after)
    was, now = drive_path(before, clockwise=clockwise), drive_path(after, clockwise=clockwise)
    return was.length_mm - now.length_mm


def _check_same(before: Sequence[WheelAt], after: Sequence[WheelAt]) -> None:
    if len(before) != len(after):
        raise NotSameWheels(len(before), len(after))
    if len(before) < 2:
        raise TooFewWheels(len(before))


def _changes(
    before: Sequence[WheelAt], after: Sequence[WheelAt], clockwise: bool
) -> tuple[list[float], list[float]]:
    """By how much each span became shorter [mm], and by how much its heading turned clockwise [rad]."""
    shorter, turned_by = [], []
    for at in range(len(before) - 1):
        was = span_between(before[at], second=before[at + 1], clockwise=clockwise)
        now = span_between(after[at], second=after[at + 1], clockwise=clockwise)
        shorter.append(was.length_mm - now.length_mm)
        turn = (now.heading_deg - was.heading_deg + 180.0) % 360.0 - 180.0
        turned_by.append(math.radians(turn))
    return shorter, turned_by
