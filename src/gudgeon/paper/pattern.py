"""Where the bolts of a joint stand on the page: a sketch for orientation, never to scale."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations, product
from math import atan2, cos, degrees, hypot, inf, sin
from typing import Any

from gudgeon.bench.pull_list import BoltPlace
from gudgeon.calc.template.tiling import Hole, Window
from gudgeon.paper.template_labels import POINT_MM, Box, Wanted, labels

BESIDE_MM, ACROSS_MM = (100.0, 44.0), (136.0, 104.0)
"""Room for the centers of the bolts, across and down, beside the facts of the joint or over the width of the page;
the words at the edges stand outside it."""
AROUND_MM = 16.0
"""Room around dots, for the names beside them."""

WIDEST_APART_MM = 24.0
"""Few bolts are drawn close together: a sketch that fills half a page says no more."""

SMALLEST_RING_MM, LARGEST_RING_MM, DOT_MM = 2.0, 5.0, 0.7
DIGIT_MM = (1.5, 1.9)
"""How wide a digit of the place in the order is at a ring, and how high."""
CLEAR_MM = 0.3
NAME_PT, LEAST_PT = 9.0, 6.0
"""How large names are beside dots, and in rings at least."""
_SIDE = re.compile(
    r"^(?:.*\bwith )?(?P<what>.+?) (?:at|on|to)(?: the)? (?P<side>left|right|top|bottom)(?: side)?$"
)


@dataclass(frozen=True, slots=True)
class _Bolt:
    """A bolt, its place in the order or nothing where that is free, and where it stands [to the right, down]."""

    name: str
    turn: str
    x: float
    y: float


def sketch(
    places: Sequence[BoltPlace], *, viewed_from: str, free_order: bool = False
) -> dict[str, Any] | None:
    """The bolts where they stand [mm from the left and the top]: names in rings, else beside dots.

    `across` tells that it needs the width of the page. None for a single bolt, where a bolt has no position, and where
    two stand too close for either.
    """
    points = [(one.x_mm, one.y_mm) for one in places if one.x_mm is not None and one.y_mm is not None]
    if len(places) < 2 or len(points) < len(places):
        return None
    left, top = min(x for x, _ in points), max(y for _, y in points)
    bolts = [
        _Bolt(one.bolt, "" if free_order else str(turn), x - left, top - y)
        for turn, (one, (x, y)) in enumerate(zip(places, points, strict=True), start=1)
    ]
    nearest = min(hypot(a.x - b.x, a.y - b.y) for a, b in combinations(bolts, 2))
    if not nearest:
        return None
    drawn = (
        _rings(bolts, BESIDE_MM, nearest=nearest)
        or _rings(bolts, ACROSS_MM, nearest=nearest)
        or _dots(bolts, nearest=nearest)
    )
    return drawn and drawn | {"edges": edges(viewed_from)}


def _rings(bolts: Sequence[_Bolt], room: tuple[float, float], *, nearest: float) -> dict[str, Any] | None:
    """Names in rings, the place in the order at a corner; None where they would be too small, or it has no room."""
    scale = min(_scale(bolts, room), WIDEST_APART_MM / nearest)
    ring = min(LARGEST_RING_MM, 0.34 * nearest * scale)
    point = _point(max(len(one.name) for one in bolts), ring)
    if ring < SMALLEST_RING_MM or point < LEAST_PT:
        return None
    spots = [replace(one, x=one.x * scale, y=one.y * scale) for one in bolts]
    turns = _turns(spots, ring=ring)
    if turns is None:
        return None
    return {
        "form": "rings",
        "across": room == ACROSS_MM,
        "spots": [
            {"bolt": one.name, "turn": one.turn, "x": round(one.x, 3), "y": round(one.y, 3), "turn_at": at}
            for one, at in zip(spots, turns, strict=True)
        ],
        "width": round(max(one.x for one in spots), 3),
        "height": round(max(one.y for one in spots), 3),
        "ring": round(ring, 3),
        "point": point,
    }


def _turns(bolts: Sequence[_Bolt], *, ring: float) -> list[list[float]] | None:
    """Where beside each ring its place in the order stands: at the same corner of all, else away from the middle.

    None where either way one would stand over something else, or nearer to another ring.
    """
    sizes = [(DIGIT_MM[0] * len(one.turn), DIGIT_MM[1]) for one in bolts]
    away = 0.72 * ring + CLEAR_MM
    ways = [
        [(x if x > 0 else x - wide, y) for wide, _ in sizes]
        for x, y in product((away, -away), (-ring - 2, ring + 2 - DIGIT_MM[1]))
    ]
    middle = max(one.x for one in bolts) / 2, max(one.y for one in bolts) / 2
    outward = []
    for one, (wide, high) in zip(bolts, sizes, strict=True):
        way = atan2(one.y - middle[1], one.x - middle[0])
        far = ring + CLEAR_MM + abs(cos(way)) * wide / 2 + abs(sin(way)) * high / 2
        outward.append((far * cos(way) - wide / 2, far * sin(way) - high / 2))
    for offsets in (*ways, outward):
        boxes = [
            Box(one.x + x, one.y + y, one.x + x + wide, one.y + y + high)
            for one, (x, y), (wide, high) in zip(bolts, offsets, sizes, strict=True)
        ]
        if _free(boxes, bolts, ring=ring, clear_mm=CLEAR_MM if offsets is not outward else 2 * CLEAR_MM):
            return [[round(x, 3), round(y, 3)] for x, y in offsets]
    return None


def _free(boxes: Sequence[Box], bolts: Sequence[_Bolt], *, ring: float, clear_mm: float) -> bool:
    return not any(one.meets(other, clear_mm=clear_mm) for one, other in combinations(boxes, 2)) and not any(
        box.meets_round(Hole(one.x, one.y, ring), clear_mm=clear_mm)
        for number, box in enumerate(boxes)
        for other, one in enumerate(bolts)
        if other != number
    )


def _dots(bolts: Sequence[_Bolt], *, nearest: float) -> dict[str, Any] | None:
    """Names beside dots, away from the middle, the place in the order below; None where they find no room."""
    scale = _scale(bolts, ACROSS_MM)
    if nearest * scale < 3 * DOT_MM:
        return None
    # Labels count upward.
    holes = [Hole(one.x * scale, -one.y * scale, DOT_MM) for one in bolts]
    middle = sum(one.x_mm for one in holes) / len(holes), sum(one.y_mm for one in holes) / len(holes)
    placed = labels(
        [
            Wanted(
                one.name,
                (one.turn,) if one.turn else (),
                hole,
                degrees(atan2(hole.y_mm - middle[1], hole.x_mm - middle[0])),
            )
            for one, hole in zip(bolts, holes, strict=True)
        ],
        window=Window(0, 0, -AROUND_MM, -ACROSS_MM[1] - AROUND_MM, ACROSS_MM[0] + AROUND_MM, AROUND_MM),
        holes=holes,
        marks=(),
        covered=(),
        lines=(),
        point=NAME_PT,
    )
    if any(bool(label.lines) != bool(one.turn) for label, one in zip(placed, bolts, strict=True)) or any(
        label.box.meets_round(hole) for label in placed for hole in holes
    ):
        return None
    drawn = [label.box for label in placed] + [Box(one.x_mm, one.y_mm, one.x_mm, one.y_mm) for one in holes]
    left, right = min(one.left for one in drawn) - DOT_MM, max(one.right for one in drawn) + DOT_MM
    bottom, top = min(one.bottom for one in drawn) - DOT_MM, max(one.top for one in drawn) + DOT_MM

    def spot(x: float, y: float) -> list[float]:
        return [round(x - left, 3), round(top - y, 3)]

    return {
        "form": "dots",
        "across": True,
        "dot": DOT_MM,
        "spots": [spot(one.x_mm, one.y_mm) for one in holes],
        "labels": [
            {
                "name": one.name, "lines": list(one.lines), "point": one.point, "at": spot(one.box.left, one.box.top),
                "width": round(one.box.right - one.box.left, 3), "height": round(one.box.top - one.box.bottom, 3),
                "line": [spot(*end) for end in one.line] if one.line else [],
            }
            for one in placed
        ],
        "width": round(right - left, 3),
        "height": round(top - bottom, 3),
    }  # fmt: skip


def _scale(bolts: Sequence[_Bolt], room: tuple[float, float]) -> float:
    wide, high = max(one.x for one in bolts), max(one.y for one in bolts)
    return min(room[0] / wide if wide else inf, room[1] / high if high else inf)


def _point(longest: int, ring_mm: float) -> float:
    """The largest size of type [pt] in which the longest name stays inside its ring."""
    return round(min(11.0, 1.7 * ring_mm / (0.56 * longest * POINT_MM)), 2)


def edges(viewed_from: str) -> dict[str, str]:
    """What stands at which edge, out of words like `above, timing end at the left, intake side at the top`."""
    found = (_SIDE.match(part.strip()) for part in re.split(r"[,;]", viewed_from))
    return {one["side"]: one["what"] for one in found if one is not None}
