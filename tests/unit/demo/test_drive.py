"""The belt of the invented engine closes over its wheels, and its marks are whole teeth apart.

HAND: belt length from straight tangents and arcs on the pitch line. A wheel inside the belt turns
with it, one on its back against it; a smooth roller on the back lies 1.5 mm inside the pitch line.
"""

import math
from dataclasses import dataclass

import pytest

from gudgeon.sheet.drive import Drive, TeethBetween
from gudgeon.sheet.model import DataSheet


@dataclass(frozen=True)
class Round:
    """A wheel or roller: center and pitch radius in mm, +1 inside the belt and −1 on its back."""

    x: float
    y: float
    radius: float
    side: int


@dataclass(frozen=True)
class Loop:
    """Straight spans and wrap angles, each in running order, clockwise."""

    rounds: tuple[Round, ...]
    spans: tuple[float, ...]
    normals: tuple[float, ...]

    def wrap(self, index: int) -> float:
        return (self.rounds[index].side * (self.normals[index - 1] - self.normals[index])) % math.tau

    def arc(self, index: int) -> float:
        return self.rounds[index].radius * self.wrap(index)

    @property
    def length(self) -> float:
        return sum(self.spans) + sum(self.arc(index) for index in range(len(self.rounds)))


def loop(rounds: tuple[Round, ...]) -> Loop:
    """Tangents between neighbors: the normal n to the left of a span has D·n = s₁r₁ − s₂r₂."""
    spans, normals = [], []
    for one, other in zip(rounds, (*rounds[1:], rounds[0]), strict=True):
        along = math.atan2(other.y - one.y, other.x - one.x)
        apart = math.hypot(other.x - one.x, other.y - one.y)
        step = one.side * one.radius - other.side * other.radius
        spans.append(math.sqrt(apart**2 - step**2))
        normals.append(along + math.acos(step / apart))
    return Loop(rounds, tuple(spans), tuple(normals))


@pytest.fixture
def drive(sheet: DataSheet) -> Drive:
    assert sheet.drive is not None
    return sheet.drive


@pytest.fixture
def belt(drive: Drive) -> Loop:
    return loop(tuple(_round(drive, name) for name in drive.path))


def _pitch(drive: Drive) -> float:
    assert drive.pitch is not None
    return drive.pitch.value.middle_in("mm")


def _round(drive: Drive, name: str) -> Round:
    wheel = drive.wheels[name]
    assert wheel.x is not None
    assert wheel.y is not None
    if wheel.teeth is not None:
        radius = wheel.teeth * _pitch(drive) / math.tau
    else:
        assert wheel.diameter is not None
        assert drive.rise is not None
        radius = wheel.diameter.middle_in("mm") / 2 + drive.rise.value.middle_in("mm")
    return Round(wheel.x.middle_in("mm"), wheel.y.middle_in("mm"), radius, -1 if wheel.back else +1)


def test_belt_closes(drive: Drive, belt: Loop) -> None:
    # 142 · 8.00 = 1136.00 mm; the places of pump and tensioner were solved for it, to 0.01 mm. The closest of
    # all rounded places leaves less than 0.004 mm.
    assert drive.belt_teeth == 142
    assert _pitch(drive) == 8.0
    assert belt.length == pytest.approx(142 * 8.0, abs=0.004)


def test_places_are_counted_from_the_crankshaft(belt: Loop, drive: Drive) -> None:
    crank = belt.rounds[drive.path.index("crank")]
    assert (crank.x, crank.y) == (0.0, 0.0)


def test_parts_list_counts_the_same_teeth(sheet: DataSheet, drive: Drive) -> None:
    assert f"{drive.belt_teeth} teeth" in (sheet.parts["timing_belt"].compare or "")
    assert f"{drive.wheels['water_pump'].teeth} teeth" in (sheet.parts["water_pump"].compare or "")
    for name, hour in (("crank", 6), ("intake", 12), ("exhaust", 12)):
        assert f"at {hour} o'clock" in (drive.wheels[name].mark or "")
        at = drive.wheels[name].mark_at
        assert at is not None
        assert at.middle_in("°") == hour * 30 % 360


def test_camshafts_turn_at_half_speed(drive: Drive) -> None:
    for name in ("intake", "exhaust"):
        assert drive.wheels[name].teeth == 40
    assert drive.wheels["crank"].teeth == 20


def test_marks_are_whole_teeth_apart(drive: Drive, belt: Loop) -> None:
    # Marks: sprockets of the camshafts at 12 o'clock, crankshaft at 6 o'clock.
    crank, exhaust = drive.path.index("crank"), drive.path.index("exhaust")
    pump, idler = exhaust + 1, exhaust + 2
    top, bottom = math.pi / 2, -math.pi / 2
    over_the_top = belt.spans[drive.path.index("intake")]
    off_exhaust = belt.rounds[exhaust].radius * ((top - belt.normals[exhaust]) % math.tau)
    onto_crank = belt.rounds[crank].radius * ((belt.normals[idler] - bottom) % math.tau)
    tight = off_exhaust + sum(belt.spans[exhaust:]) + belt.arc(pump) + belt.arc(idler) + onto_crank
    teeth = [over_the_top / 8, tight / 8, (belt.length - over_the_top - tight) / 8]
    printed = [one.teeth for one in drive.teeth_between_marks if isinstance(one, TeethBetween)]
    assert printed == [15, 67, 60]
    assert teeth == pytest.approx(printed, abs=0.01)
    assert sum(printed) == drive.belt_teeth


def test_enough_teeth_in_mesh(drive: Drive, belt: Loop) -> None:
    # COMMON PRACTICE: a driven toothed wheel wants six teeth in mesh.
    for index, name in enumerate(drive.path):
        teeth = drive.wheels[name].teeth
        if teeth is not None:
            assert teeth * belt.wrap(index) / math.tau >= 6.0, name


def test_wheels_do_not_touch(belt: Loop) -> None:
    # 3 mm of belt on either: pitch circles stay 2 mm apart at least.
    for index, one in enumerate(belt.rounds):
        for other in belt.rounds[:index]:
            apart = math.hypot(one.x - other.x, one.y - other.y)
            assert apart > one.radius + other.radius + 2.0


def test_sprockets_without_a_key_are_the_floating_ones(drive: Drive) -> None:
    assert set(drive.keyless) == {name for name, wheel in drive.wheels.items() if not wheel.keyed}
    assert set(drive.keyless) == {"intake", "exhaust"}
    assert len(drive.locking_tools) == 2
