"""The relief of a face that was read point by point: bands and level lines over the plane among its points."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.calc.metrology.contour import Band, Corner, LevelLine, Spot, contour, usual_side
from gudgeon.quantity.format import both, in_order, number

MOST_POINTS = 2000
"""More would not be seen on a page of this size, and make it slow."""

MOST_LEVELS = 8
_GAP = 3.0
"""A triangle so many times longer than is usual spans a place where nothing was read."""


@dataclass(frozen=True, slots=True)
class Extreme:
    """The highest or the lowest point that was read."""

    x_mm: float
    y_mm: float
    height_mm: float
    text: str


@dataclass(frozen=True, slots=True)
class Relief:
    """Heights [µm] over a plane: bands, lines, and the two points that matter most."""

    plane: str
    step_um: float
    step: str
    bands: tuple[Band, ...]
    lines: tuple[LevelLine, ...]
    highest: Extreme
    lowest: Extreme
    points: int
    drawn: int
    left_out: int


def relief(
    points: Sequence[Corner],
    *,
    plane: tuple[float, float, float],
    plane_words: str,
    outline: Sequence[Spot] = (),
) -> Relief:
    """Points [mm] over a plane z = a x + b y + c, as bands and level lines in µm."""
    a, b, c = plane
    square = math.sqrt(1 + a * a + b * b)
    over = [(x, y, 1000 * (z - a * x - b * y - c) / square) for x, y, z in points]
    kept = thinned(over)
    low, high = min(over, key=_height), max(over, key=_height)
    step = level_step(high[2] - low[2])
    found = contour(
        kept,
        levels=levels(low[2], high=high[2], step=step),
        longest_mm=_GAP * usual_side(kept),
        outline=outline,
    )
    return Relief(
        plane_words, step, um_both(step), found.bands, found.lines, _extreme(high), _extreme(low),
        len(points), len(kept), found.left_out,
    )  # fmt: skip


def _height(point: Corner) -> float:
    return point[2]


def _extreme(point: Corner) -> Extreme:
    x, y, height = point
    return Extreme(x, y, height / 1000, um_both(height, signed=True))


def um_both(height_um: float, *, signed: bool = False) -> str:
    """A height in both systems: `+12 µm (+0.0005 in)`."""
    sign = "+" if signed and height_um > 0 else ""
    inch = both(height_um / 1000, kind="length_difference", first="metric").partition("(")[2].rstrip(")")
    metric = f"{sign}{number(height_um, decimals=0 if abs(height_um) >= 1 else 1)} µm"
    return in_order(metric, inch=f"{sign}{inch}")


def level_step(range_um: float) -> float:
    """A round step (1, 2 or 5 times a power of ten, at least 1 µm) with at most eight levels in a range."""
    step = 1.0
    while range_um / step > MOST_LEVELS:
        first = step / 10 ** math.floor(math.log10(step) + 1e-9)
        step *= 2.5 if round(first) == 2 else 2.0
    return step


def levels(low: float, *, high: float, step: float) -> list[float]:
    """The multiples of a step that lie between two heights."""
    first, last = math.floor(low / step) + 1, math.ceil(high / step) - 1
    return [count * step for count in range(first, last + 1)]


def thinned(points: Sequence[Corner]) -> list[Corner]:
    """At most about two thousand of the points: one of each square of a grid, and always the highest and the lowest.

    Each one kept was read: nothing is averaged.
    """
    if len(points) <= MOST_POINTS:
        return list(points)
    left, bottom = min(x for x, _, _ in points), min(y for _, y, _ in points)
    wide, tall = max(x for x, _, _ in points) - left, max(y for _, y, _ in points) - bottom
    side = math.sqrt(max(wide * tall, 1e-12) / MOST_POINTS)
    squares: dict[tuple[int, int], Corner] = {}
    for x, y, z in points:
        squares.setdefault((int((x - left) / side), int((y - bottom) / side)), (x, y, z))
    extremes = (min(points, key=_height), max(points, key=_height))
    return list(dict.fromkeys([*extremes, *squares.values()]))
