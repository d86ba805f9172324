"""Flatness per length: the worst flatness within any square window of one side."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from gudgeon.calc.errors import positive
from gudgeon.calc.metrology.cloud import THIN, Cloud, Floats, Indices
from gudgeon.calc.metrology.flatness import Flatness, flatness
from gudgeon.calc.metrology.form_errors import TooManyWindows, WindowTooSmall
from gudgeon.calc.metrology.plane import Plane

MOST_WINDOWS = 20_000
STEPS = 4  # where not every window can be tried, they are laid a quarter of their side apart
SLACK = 1e-12  # of the side: a point on the edge of the window is in it


@dataclass(frozen=True, slots=True)
class WorstWindow:
    """The window whose points need the widest zone: its lower left corner, its points, its flatness."""

    minimum_zone_mm: float
    corner_mm: tuple[float, float]
    points: tuple[int, ...]
    flatness: Flatness
    windows: int


def worst_window(points_mm: ArrayLike, *, side_mm: float) -> WorstWindow:
    """The widest least zone of the points in any square window of one side, laid along x and y.

    Equation:
        greatest of flatness over the windows from (x_i, y_j) to (x_i + L, y_j + L), x_i and y_j each the place of a
        point of the window

    Parameters:
        points_mm: one row x, y, z for each point of the face [mm]
        side_mm: side of the window, L [mm]

    Returns:
        least zone of the worst window [mm], its corner [mm], its points

    Valid for:
        at most 20,000 windows (a grid of 140 by 140; 200 scattered points): exact over all windows laid along x and y,
        since any such holds no more points than one whose left and lower edges touch a point

    Source:
        HAND: more points never need a narrower zone, so windows inside others need not be tried.

    Example:
        >>> points = [[x, y, 0.01 if (x, y) == (0, 0) else 0.0] for x in (0, 100, 200) for y in (0, 100, 200)]
        >>> found = worst_window(points, side_mm=100)
        >>> round(found.minimum_zone_mm, 9), found.corner_mm
        (0.005, (0.0, 0.0))

    Not covered:
        windows turned against x and y; places between the points.
    """
    side = positive(side_mm, "Side of the window", unit="mm")
    cloud = Cloud.of(points_mm, what="flatness")
    plane, _ = Plane.among(cloud)
    best: WorstWindow | None = None
    normal, tried = plane.axes[2], 0
    for corner, inside in _windows(cloud, side):
        tried += 1
        part = cloud.at(inside)
        if best is not None and float(np.ptp(part @ normal)) <= best.minimum_zone_mm:
            continue  # between the planes of the last window tried they already need no more
        if len(inside) < 3 or _in_a_line(part):
            continue
        found = flatness(cloud.values[inside])
        normal = np.array(found.normal)
        if best is None or found.minimum_zone_mm > best.minimum_zone_mm:
            best = WorstWindow(found.minimum_zone_mm, corner, tuple(inside.tolist()), found, 0)
    if best is None:
        raise WindowTooSmall(side)
    return WorstWindow(best.minimum_zone_mm, best.corner_mm, best.points, best.flatness, tried)


def worst_window_between(points_mm: ArrayLike, *, side_mm: float) -> tuple[float, float]:
    """What the worst window of so many points that not every one can be tried is at least and at most.

    Equation:
        least: greatest of flatness over squares of L at steps of L/4; most: the same over squares of 5/4 L

    Parameters:
        points_mm: one row x, y, z for each point of the face [mm]
        side_mm: side of the window, L [mm]

    Returns:
        the ends between which worst_window lies [mm]

    Valid for:
        any number of points; windows laid along x and y

    Source:
        HAND: squares tried are some of all squares, and every square of L lies in one of 5/4 L that begins at a step.

    Example:
        >>> points = [[x, y, 0.01 if (x, y) == (0, 0) else 0.0] for x in (0, 100, 200) for y in (0, 100, 200)]
        >>> [round(end, 9) for end in worst_window_between(points, side_mm=100)]
        [0.005, 0.005]

    Not covered:
        windows turned against x and y; which window it is.
    """
    side = positive(side_mm, "Side of the window", unit="mm")
    cloud = Cloud.of(points_mm, what="flatness")
    step = side / STEPS
    return _widest(cloud, side, step=step), _widest(cloud, side + step, step=step)


def _widest(cloud: Cloud, side: float, *, step: float) -> float:
    best, normal = 0.0, Plane.among(cloud)[0].axes[2]
    for inside in _stepped(cloud, side, step=step):
        part = cloud.at(inside)
        if len(inside) < 3 or float(np.ptp(part @ normal)) <= best or _in_a_line(part):
            continue
        found = flatness(cloud.values[inside])
        if found.minimum_zone_mm > best:
            best, normal = found.minimum_zone_mm, np.array(found.normal)
    return best


def _stepped(cloud: Cloud, side: float, *, step: float) -> Iterator[Indices]:
    """The points in squares that begin at steps, from the lowest x and y on."""
    places = cloud.values[:, :2] - cloud.values[:, :2].min(axis=0)
    reach, (across, up) = side * (1 + SLACK), places.max(axis=0).tolist()
    for left in np.arange(0.0, across + step, step):
        strip = np.flatnonzero((places[:, 0] >= left * (1 - SLACK)) & (places[:, 0] <= left + reach))
        for low in np.arange(0.0, up + step, step):
            height = places[strip, 1]
            yield strip[(height >= low * (1 - SLACK)) & (height <= low + reach)]


def _windows(cloud: Cloud, side: float) -> Iterator[tuple[tuple[float, float], Indices]]:
    """The windows whose left and lower edges touch a point; each set of points once."""
    places = cloud.values[:, :2]
    reach = side * (1 + SLACK)
    strips: list[tuple[float, Indices, Floats]] = []
    count = 0
    for left in np.unique(places[:, 0]).tolist():
        strip = np.flatnonzero((places[:, 0] >= left) & (places[:, 0] <= left + reach))
        lows = np.unique(places[strip, 1])
        count += len(lows)
        if count > MOST_WINDOWS:
            raise TooManyWindows(count, MOST_WINDOWS)
        strips.append((left, strip, lows))
    seen: set[bytes] = set()
    for left, strip, lows in strips:
        up = places[strip, 1]
        for low in lows.tolist():
            inside = strip[(up >= low) & (up <= low + reach)]
            if (known := inside.tobytes()) not in seen:
                seen.add(known)
                yield (left, low), inside


def _in_a_line(part: Floats) -> bool:
    spread = np.linalg.svd(part - part.mean(axis=0), compute_uv=False)
    return bool(spread[1] <= THIN * spread[0])
