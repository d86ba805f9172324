"""Drives at random: mirrored, turned, scaled, run backward, and moved by little."""

import math
from collections.abc import Sequence

import pytest

from gudgeon.calc.engine.cam_shift import slack_made, turned
from gudgeon.calc.engine.drive_path import WheelAt, drive_path, length_between
from tests.random_drives import random_drives

DRIVES = random_drives(80, seed=11)


def changed(
    wheels: Sequence[WheelAt], *, scale: float = 1.0, mirror: bool = False, turn: float = 0.0
) -> list[WheelAt]:
    """Wheels seen from the other side, larger, or turned."""
    cos, sin = math.cos(turn), math.sin(turn)
    found = []
    for one in wheels:
        x, y = one.x_mm * scale * (-1 if mirror else 1), one.y_mm * scale
        place = (cos * x - sin * y, sin * x + cos * y)
        found.append(WheelAt(one.name, *place, one.radius_mm * scale, one.back))
    return found


def lags(before: Sequence[WheelAt], after: Sequence[WheelAt], clockwise: bool) -> list[float]:
    return [one.wheel_deg for one in turned(before, after=after, clockwise=clockwise)]


def test_seen_from_the_other_side_nothing_changes() -> None:
    for one in DRIVES:
        seen, other = (
            drive_path(one.wheels, clockwise=one.clockwise),
            drive_path(changed(one.wheels, mirror=True), clockwise=not one.clockwise),
        )
        assert other.length_mm == pytest.approx(seen.length_mm)
        assert [w.wrap_deg for w in other.wraps] == pytest.approx([w.wrap_deg for w in seen.wraps], abs=1e-7)
        mirrored = lags(changed(one.wheels, mirror=True), changed(one.moved, mirror=True), not one.clockwise)
        assert mirrored == pytest.approx(lags(one.wheels, one.moved, one.clockwise), abs=1e-9)


def test_turned_and_scaled_the_angles_stay() -> None:
    for one in DRIVES:
        own = lags(one.wheels, one.moved, one.clockwise)
        other = [changed(state, scale=2.5, turn=1.0) for state in (one.wheels, one.moved)]
        assert lags(other[0], other[1], one.clockwise) == pytest.approx(own, abs=1e-9)
        length = drive_path(one.wheels, clockwise=one.clockwise).length_mm
        assert drive_path(other[0], clockwise=one.clockwise).length_mm == pytest.approx(2.5 * length)


def test_run_backward_the_loop_is_as_long_and_the_other_side_is_tight() -> None:
    """Backward what was lag of the tight side becomes lag of the slack side: both add up to the slack made."""
    tried = 0
    for one in DRIVES:
        back, moved = list(reversed(one.wheels)), list(reversed(one.moved))
        loop = drive_path(one.wheels, clockwise=one.clockwise)
        assert drive_path(back, clockwise=not one.clockwise).length_mm == pytest.approx(loop.length_mm)
        slack = slack_made(one.wheels, after=one.moved, clockwise=one.clockwise)
        assert slack_made(back, after=moved, clockwise=not one.clockwise) == pytest.approx(slack, abs=1e-9)
        # from the first wheel to the last as it runs; from the first to the last the other way around
        way = turned(one.wheels, after=one.moved, clockwise=one.clockwise)[0].belt_mm
        around = turned(
            [one.wheels[0], one.wheels[-1]], after=[one.moved[0], one.moved[-1]], clockwise=not one.clockwise
        )[0].belt_mm
        assert way + around == pytest.approx(slack, abs=1e-9)
        tried += abs(way - around) > 0.01
    assert tried > 40


def test_the_headings_add_up_to_one_turn_and_the_parts_to_the_whole() -> None:
    for one in DRIVES:
        path = drive_path(one.wheels, clockwise=one.clockwise)
        once = sum(wrap.wrap_deg * (1 if wrap.clockwise == one.clockwise else -1) for wrap in path.wraps)
        assert once == pytest.approx(360)
        for span in path.spans:
            assert math.dist(span.start, span.end) == pytest.approx(span.length_mm)
        names = [wheel.name for wheel in path.wheels]
        marks = [(wrap.wheel, wrap.arrives_deg) for wrap in path.wraps]
        pieces = [
            length_between(path, start=marks[at], end=marks[(at + 1) % len(names)])
            for at in range(len(names))
        ]
        assert sum(pieces) == pytest.approx(path.length_mm)


def test_nothing_moved_nothing_turned_and_there_and_back_cancel() -> None:
    for one in DRIVES:
        assert lags(one.wheels, one.wheels, one.clockwise) == pytest.approx(
            [0.0] * (len(one.wheels) - 1), abs=1e-12
        )
        there, again = lags(one.wheels, one.moved, one.clockwise), lags(one.moved, one.wheels, one.clockwise)
        assert [a + b for a, b in zip(there, again, strict=True)] == pytest.approx(
            [0.0] * len(there), abs=1e-9
        )


@pytest.mark.parametrize("seed", range(5))
def test_a_little_lowering_turns_a_camshaft_by_its_share_along_the_last_span(seed: int) -> None:
    """HAND: to first order only the span that leaves the moved wheel counts: lag = move · cos(lean) / radius."""
    for one in random_drives(8, seed=100 + seed):
        cam, path = one.wheels[0], drive_path(one.wheels, clockwise=one.clockwise)
        small = 1e-4
        moved = (cam.moved(30.0, by_mm=small), *one.wheels[1:])
        along = small * math.cos(math.radians(path.spans[0].heading_deg - 30.0))
        found = turned(one.wheels, after=moved, clockwise=one.clockwise)[0]
        assert found.belt_mm == pytest.approx(along, abs=small**2)
        assert found.wheel_deg == pytest.approx(math.degrees(found.belt_mm / cam.radius_mm))
