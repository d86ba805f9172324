"""Where the bolts of a joint stand on the page: a sketch for orientation, never to scale."""

import re
from collections.abc import Sequence
from itertools import combinations
from math import hypot, inf
from typing import Any

from gudgeon.bench.pull_list import BoltPlace

WIDTH_MM, HEIGHT_MM = 100.0, 44.0
"""Room for the centers of the bolts; the words at the edges stand outside it."""

WIDEST_APART_MM = 24.0
"""Few bolts are drawn close together: a sketch that fills half a page says no more."""

SMALLEST_RING_MM, LARGEST_RING_MM = 2.0, 5.0
POINT_MM = 0.3528
_SIDE = re.compile(
    r"^(?:.*\bwith )?(?P<what>.+?) (?:at|on|to)(?: the)? (?P<side>left|right|top|bottom)(?: side)?$"
)


def sketch(places: Sequence[BoltPlace], *, viewed_from: str) -> dict[str, Any] | None:
    """The rings and where they stand [mm from the left and the top]; None where words serve better.

    None for a single bolt, where a bolt has no position, and where two stand so close that their rings
    would touch.
    """
    points = [(one.x_mm, one.y_mm) for one in places if one.x_mm is not None and one.y_mm is not None]
    if len(places) < 2 or len(points) < len(places):
        return None
    left, top = min(x for x, _ in points), max(y for _, y in points)
    wide, high = max(x for x, _ in points) - left, top - min(y for _, y in points)
    nearest = min(hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(points, 2))
    if not nearest:
        return None
    scale = min(
        WIDTH_MM / wide if wide else inf, HEIGHT_MM / high if high else inf, WIDEST_APART_MM / nearest
    )
    ring = min(LARGEST_RING_MM, 0.34 * nearest * scale)
    if ring < SMALLEST_RING_MM:
        return None
    spots = [
        {"bolt": one.bolt, "turn": turn, "x": round((x - left) * scale, 3), "y": round((top - y) * scale, 3)}
        for turn, (one, (x, y)) in enumerate(zip(places, points, strict=True), start=1)
    ]
    return {
        "spots": spots,
        "width": round(wide * scale, 3),
        "height": round(high * scale, 3),
        "ring": round(ring, 3),
        "point": _point(max(len(one.bolt) for one in places), ring),
        "edges": edges(viewed_from),
    }


def _point(longest: int, ring_mm: float) -> float:
    """The largest size of type [pt] in which the longest name stays inside its ring."""
    return round(min(11.0, 1.7 * ring_mm / (0.56 * longest * POINT_MM)), 2)


def edges(viewed_from: str) -> dict[str, str]:
    """What stands at which edge, out of words like `above, timing end at the left, intake side at the top`."""
    found = (_SIDE.match(part.strip()) for part in re.split(r"[,;]", viewed_from))
    return {one["side"]: one["what"] for one in found if one is not None}
