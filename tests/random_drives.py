"""Drives at random: wheels inside a loop, rollers on its back, some of them carried by heads that move."""

import math
import random
from dataclasses import dataclass

from gudgeon.calc.engine.drive_path import WheelAt, drive_path
from gudgeon.errors import InputError


@dataclass(frozen=True, slots=True)
class RandomDrive:
    """A loop as it runs, the last camshaft's place, and how each wheel moves (x, y)."""

    wheels: tuple[WheelAt, ...]
    clockwise: bool
    moves: tuple[tuple[float, float], ...]

    @property
    def moved(self) -> tuple[WheelAt, ...]:
        """The wheels after they have moved."""
        pairs = zip(self.wheels, self.moves, strict=True)
        return tuple(
            WheelAt(one.name, one.x_mm + x, one.y_mm + y, one.radius_mm, one.back) for one, (x, y) in pairs
        )


def random_drive(chance: random.Random) -> RandomDrive | None:
    """A drive of 2 to 5 wheels inside and up to 3 on the back; None where it came out impossible."""
    count = chance.randint(2, 5)
    turns = sorted(chance.uniform(0, 360) for _ in range(count))
    inside = []
    for at, turn in enumerate(turns):
        away, radius = chance.uniform(60, 260), chance.uniform(15, 62)
        place = WheelAt(f"w{at}", 0.0, 0.0, radius).moved(turn, by_mm=away)
        inside.append(place)
    wheels: list[WheelAt] = []
    for first, second in zip(inside, [*inside[1:], inside[0]], strict=True):
        wheels.append(first)
        if chance.random() < 0.5:
            wheels.append(_roller(chance, first, second))
    clockwise = chance.random() < 0.5
    if not clockwise:
        wheels = [WheelAt(one.name, -one.x_mm, one.y_mm, one.radius_mm, one.back) for one in wheels]
    moves = [
        (chance.uniform(-1, 1), chance.uniform(-1, 1)) if chance.random() < 0.6 else (0.0, 0.0)
        for _ in wheels
    ]
    drive = RandomDrive(tuple(wheels), clockwise, tuple(moves))
    try:
        for state in (drive.wheels, drive.moved):
            path = drive_path(state, clockwise=clockwise)
            if min(one.wrap_deg for one in path.wraps) < 3.0:
                return None
    except InputError:
        return None
    return drive


def _roller(chance: random.Random, first: WheelAt, second: WheelAt) -> WheelAt:
    """A roller near the middle of a span, pressed into it from outside."""
    share = chance.uniform(0.3, 0.7)
    x = first.x_mm + share * (second.x_mm - first.x_mm)
    y = first.y_mm + share * (second.y_mm - first.y_mm)
    away, out = math.hypot(x, y) or 1.0, chance.uniform(0, 80)
    return WheelAt(
        f"{first.name}-{second.name}",
        x * (1 + out / away),
        y * (1 + out / away),
        chance.uniform(12, 35),
        back=True,
    )


def random_drives(count: int, *, seed: int) -> list[RandomDrive]:
    """So many possible drives."""
    chance, found = random.Random(seed), []
    for _ in range(400 * count):
        one = random_drive(chance)
        if one is not None:
            found.append(one)
        if len(found) == count:
            return found
    raise AssertionError(f"only {len(found)} of {count} drives were possible")
