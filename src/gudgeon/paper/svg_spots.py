"""The places of a characteristic as a drawing: rows of marks in the shape of their verdict, with reading and state."""

import math
import re
from collections.abc import Sequence

from gudgeon.bench.pictures.spots import Spot, SpotPicture, SpotRow
from gudgeon.paper.svg import ACCENT, INK, RULE, SIZE, SOFT, WIDTH, WORDS, Drawing, wrapped
from gudgeon.paper.svg_marks import badge

_ACROSS = 4
"""As many marks side by side as have room for a reading in both systems below each."""

_CELL = (WIDTH - 12) / _ACROSS
_LINE = 1.25 * SIZE
_NUMBER = re.compile(r"\d+")


def spots_svg(of: SpotPicture) -> str:
    """The drawing of every place, read or not."""
    on = Drawing(of.name, words=of.words)
    top = on.paragraph((6, 20), of.name, size=17, bold=True, family=WORDS)
    top = on.paragraph((6, top), of.limits, fill=SOFT)
    top = on.paragraph((6, top), "Each place by itself, not to scale.", fill=SOFT)
    narrow = len(of.rows) > 1 and all(len(row.spots) <= _ACROSS // 2 for row in of.rows)
    beside = 2 if narrow else 1
    for first in range(0, len(of.rows), beside):
        top = _band(on, of.rows[first : first + beside], top + 8, named=len(of.rows) > 1)
    on.bottom = top + 2
    return on.svg()


def _band(on: Drawing, rows: Sequence[SpotRow], top: float, *, named: bool) -> float:
    """One row of places, or two short ones side by side: bores and valves stand as they do in the engine."""
    if named:
        on.path([[(6, top), (WIDTH - 6, top)]], closed=False, stroke=INK, stroke_width=1.4, fill="none")
        top += 18
        for place, row in enumerate(rows):
            on.text((6 + place * _ACROSS // 2 * _CELL, top), row.name, size=15, bold=True)
        top += 8
    return max(
        _row(on, row, top, left=6 + place * _ACROSS // 2 * _CELL, beside=len(rows) > 1)
        for place, row in enumerate(rows)
    )


def _row(on: Drawing, row: SpotRow, top: float, *, left: float, beside: bool) -> float:
    lines = math.ceil(len(row.spots) / _ACROSS)
    most = _ACROSS // 2 if beside else math.ceil(len(row.spots) / lines)
    for first in range(0, len(row.spots), most):
        some = row.spots[first : first + most]
        middles = [left + _CELL * (place + 0.5) for place in range(len(some))]
        axis = [[(middles[0], top + 16), (middles[-1], top + 16)]]
        on.path(axis, closed=False, stroke=RULE, stroke_width=1.4, fill="none")
        ends = [
            _spot(on, one, first + place + 1, at=(x, top + 16))
            for place, (one, x) in enumerate(zip(some, middles, strict=True))
        ]
        top = max(ends) + 6
    return top


def _spot(on: Drawing, one: Spot, order: int, *, at: tuple[float, float]) -> float:
    """A mark with its words below it; the height below the last of them."""
    x, y = at
    numbers = _NUMBER.findall(one.label)
    badge(
        on,
        at,
        said=numbers[-1] if len(numbers) == 1 and len(numbers[0]) < 3 else str(order),
        verdict=one.verdict,
    )
    y += 12 + _LINE
    ink = ACCENT if one.verdict == "outside" else INK
    for said, bold, fill in ((one.label, False, SOFT), (one.reading, True, INK), (one.verdict, False, ink)):
        for line in wrapped(said, width=_CELL + 1) if said else ():
            on.text((x, y), line, anchor="middle", bold=bold, fill=fill)
            y += _LINE
    return y
