"""Camshafts after a cut against the whole length of belt between two teeth, solved for the angle by root finding.

Nothing is shared with the kernels but the wheels: tangents are found by halving, arcs are followed as the belt runs,
and the length between a tooth on the wheel and a tooth on the crankshaft is brought back to what it was (scipy).
"""

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.spatial import ConvexHull

from gudgeon.calc.engine.cam_shift import slack_made, turned
from gudgeon.calc.engine.drive_path import WheelAt, drive_path, length_between
from tests.random_drives import RandomDrive, random_drives

Vector = tuple[float, float]
DRIVES = random_drives(120, seed=7)


def sense(wheel: WheelAt, clockwise: bool) -> int:
    """+1 for a wheel that turns counterclockwise."""
    return -1 if clockwise != wheel.back else 1


def leaving_angle(first: WheelAt, second: WheelAt, clockwise: bool) -> float:
    """Where on the first wheel the belt leaves toward the second, by halving over every start of a root."""
    own, other = sense(first, clockwise), sense(second, clockwise)

    def off(angle: float) -> float:
        """How far the tangent in running direction passes from where it should pass the second center."""
        point = (
            first.x_mm + first.radius_mm * math.cos(angle),
            first.y_mm + first.radius_mm * math.sin(angle),
        )
        along = (-own * math.sin(angle), own * math.cos(angle))
        x, y = second.x_mm - point[0], second.y_mm - point[1]
        return along[0] * y - along[1] * x - other * second.radius_mm

    def ahead(angle: float) -> float:
        along = (-own * math.sin(angle), own * math.cos(angle))
        return along[0] * (second.x_mm - first.x_mm) + along[1] * (second.y_mm - first.y_mm)

    grid = np.linspace(0, 2 * math.pi, 181)
    roots = [brentq(off, low, high, xtol=1e-14) for low, high in pairwise(grid) if off(low) * off(high) <= 0]
    return next(root for root in roots if ahead(root) > 0)


def length_from_tooth(
    wheels: Sequence[WheelAt], clockwise: bool, *, first_tooth: float, last_tooth: float
) -> float:
    """Belt from a tooth on the first wheel to a tooth on the last: arcs and spans added as the belt runs.

    Teeth are angles from the x axis. Arcs of the first and last wheel are counted through zero, so that the length
    changes evenly with the tooth.
    """
    length, arrives = 0.0, first_tooth
    for at in range(len(wheels) - 1):
        first, second = wheels[at], wheels[at + 1]
        leaves, turn = leaving_angle(first, second, clockwise), sense(first, clockwise)
        arc = turn * (leaves - arrives)
        arc = (arc + math.pi) % (2 * math.pi) - math.pi if at == 0 else arc % (2 * math.pi)
        start = (
            first.x_mm + first.radius_mm * math.cos(leaves),
            first.y_mm + first.radius_mm * math.sin(leaves),
        )
        arrives = leaves if sense(second, clockwise) == turn else leaves + math.pi
        end = (
            second.x_mm + second.radius_mm * math.cos(arrives),
            second.y_mm + second.radius_mm * math.sin(arrives),
        )
        length += arc * first.radius_mm + math.dist(start, end)
    last = wheels[-1]
    arc = sense(last, clockwise) * (last_tooth - arrives)
    return length + ((arc + math.pi) % (2 * math.pi) - math.pi) * last.radius_mm


def solved_lag(before: Sequence[WheelAt], after: Sequence[WheelAt], clockwise: bool) -> float:
    """The angle in degrees by which the first wheel must turn back, so that the belt to the crankshaft fits again."""
    leaves = leaving_angle(before[0], before[1], clockwise)
    arrives = leaving_angle(before[-2], before[-1], clockwise)
    if sense(before[-1], clockwise) != sense(before[-2], clockwise):
        arrives += math.pi
    # teeth that lie on the belt: 0.4 rad before it leaves, 0.4 rad after it arrives
    tooth = leaves - 0.4 * sense(before[0], clockwise)
    crank_tooth = arrives + 0.4 * sense(before[-1], clockwise)
    was = length_from_tooth(before, clockwise, first_tooth=tooth, last_tooth=crank_tooth)

    def off(lag: float) -> float:
        now = tooth - lag * sense(before[0], clockwise)
        return length_from_tooth(after, clockwise, first_tooth=now, last_tooth=crank_tooth) - was

    return math.degrees(brentq(off, -0.35, 0.35, xtol=1e-15))


@pytest.mark.parametrize("number", range(0, len(DRIVES), 3))
def test_every_wheel_falls_back_as_the_whole_length_wants_it(number: int) -> None:
    drive = DRIVES[number]
    before, after = drive.wheels, drive.moved
    found = turned(before, after=after, clockwise=drive.clockwise)
    assert len(found) == len(before) - 1
    for at, one in enumerate(found):
        wanted = solved_lag(before[at:], after[at:], drive.clockwise)
        assert one.wheel_deg == pytest.approx(wanted, abs=1e-8), (at, drive)


def test_the_random_drives_have_rollers_on_the_back_and_both_directions() -> None:
    assert sum(any(wheel.back for wheel in drive.wheels) for drive in DRIVES) > 30
    assert {drive.clockwise for drive in DRIVES} == {True, False}
    assert {len(drive.wheels) for drive in DRIVES} >= {2, 3, 4, 5}


def test_the_sibling_finds_the_figures_derived_beforehand() -> None:
    """HAND (script of its own): 60° vee, both heads lowered by 0.5 mm: 0.470662° and 0.943103°."""
    crank = WheelAt("crank", 0, 0, 9.525 * 20 / (2 * math.pi))
    first, second = (
        WheelAt(name, 0, 0, 9.525 * 40 / (2 * math.pi)).moved(angle, by_mm=350)
        for name, angle in (("A", 30), ("B", -30))
    )
    low = (second.moved(150, by_mm=0.5), first.moved(210, by_mm=0.5), crank)
    assert solved_lag((first, crank), low[1:], True) == pytest.approx(0.470662, abs=5e-7)
    assert solved_lag((second, first, crank), low, True) == pytest.approx(0.943103, abs=5e-7)


def hull_length(drive: RandomDrive, points: int) -> float:
    """The length of a band around round disks that only touches from outside: the edge of their convex hull."""
    angles = np.linspace(0, 2 * math.pi, points, endpoint=False)
    spots = [
        (one.x_mm + one.radius_mm * math.cos(angle), one.y_mm + one.radius_mm * math.sin(angle))
        for one in drive.wheels
        for angle in angles
    ]
    return float(ConvexHull(np.array(spots)).area)  # in a plane its area is the length of the edge


def test_a_loop_without_rollers_is_as_long_as_the_edge_of_the_hull() -> None:
    """OTHER TOOL: convex hull (scipy) of 4,000 points of each circle; a polygon of n corners lacks (π / n)² / 6."""
    tried = 0
    for drive in DRIVES:
        if any(one.back for one in drive.wheels):
            continue
        path = drive_path(drive.wheels, clockwise=drive.clockwise)
        if sum(one.wrap_deg for one in path.wraps) > 360 + 1e-6:
            continue
        tried += 1
        assert path.length_mm == pytest.approx(hull_length(drive, 4000), rel=2e-6)
    assert tried >= 8


def test_slack_is_the_lag_of_a_whole_turn_of_the_loop() -> None:
    """What the wheel after the crankshaft lags around the whole loop is the belt that has become slack."""
    tried = 0
    for drive in DRIVES:
        before, after = drive.wheels, drive.moved
        loop = (before[-1], *before), (after[-1], *after)
        if before[-1].back or any(drive.moves[-1]):
            continue
        tried += 1
        lag = turned(loop[0], after=loop[1], clockwise=drive.clockwise)[0].belt_mm
        assert slack_made(before, after=after, clockwise=drive.clockwise) == pytest.approx(lag, abs=1e-9)
    assert tried > 20


def test_belt_between_marks_is_what_the_sibling_counts() -> None:
    for drive in DRIVES[:30]:
        path = drive_path(drive.wheels, clockwise=drive.clockwise)
        first, last = path.wraps[0], path.wraps[-1]
        middle = [
            (one.arrives_deg + (0.5 if one.clockwise else -0.5) * min(one.wrap_deg, 90)) % 360
            for one in (first, last)
        ]
        found = length_between(path, start=(first.wheel, middle[0]), end=(last.wheel, middle[1]))
        teeth = [math.radians(90 - angle) for angle in middle]
        arc_before = math.radians(first.wrap_deg - 0.5 * min(first.wrap_deg, 90))
        if arc_before > math.pi or last.wrap_deg > 180:
            continue
        wanted = length_from_tooth(drive.wheels, drive.clockwise, first_tooth=teeth[0], last_tooth=teeth[1])
        assert found == pytest.approx(wanted, abs=1e-6)
