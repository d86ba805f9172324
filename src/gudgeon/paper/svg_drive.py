"""The drive of the camshafts as a drawing to scale: wheels by number, belt, marks, counted teeth, running direction."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import cos, dist, inf, radians, sin

from gudgeon.bench.pictures.drive import Arrow, DrawnCount, DrawnWheel, DrivePicture
from gudgeon.calc.metrology.contour import Spot
from gudgeon.paper.svg import ACCENT, CARD, INK, PAPER, RULE, SIZE, SOFT, WIDTH, WORDS, Drawing, wide
from gudgeon.paper.svg_marks import scale_bar

_EDGE = 34.0
_TALLEST = 440.0
_BADGE = 11.0
_MARK = 9.0
_THIN, _THICK = 1.6, 4.0
Turned = Callable[[Spot], Spot]


def drive_svg(of: DrivePicture) -> str:
    """The drawing of a drive, with its key below."""
    on = Drawing(of.title, words=of.words)
    top = on.paragraph((6, 20), of.title, size=17, bold=True, family=WORDS)
    seen = f"Seen from the {of.viewed_from}. " if of.viewed_from else ""
    if seen or of.turns:
        top = on.paragraph((6, top), f"{seen}{of.turns}".strip(), fill=SOFT)
    if of.wheels:
        top = _drawn(on, of, top)
    else:
        top = on.paragraph((6, top + 4), "The sheet states no place of a wheel: nothing is drawn.")
    on.bottom = _key(on, of, top + 6) + 4
    return on.svg()


def _drawn(on: Drawing, of: DrivePicture, top: float) -> float:
    spots = [*of.belt]
    for one in of.wheels:
        spots += [(one.x_mm + x * one.radius_mm, one.y_mm + y * one.radius_mm) for x, y in ((1, 1), (-1, -1))]
    left, right = min(x for x, _ in spots), max(x for x, _ in spots)
    low, high = min(y for _, y in spots), max(y for _, y in spots)
    scale = min(
        (WIDTH - 2 * _EDGE) / (right - left) if right > left else inf,
        _TALLEST / (high - low) if high > low else inf,
    )
    shift, start = (WIDTH - (right - left) * scale) / 2, top + 18

    def turned(spot: Spot) -> Spot:
        return shift + (spot[0] - left) * scale, start + (high - spot[1]) * scale

    _wheels(on, of.wheels, turned, scale)
    _belt(on, of, turned)
    for wheel in of.wheels:
        _mark(on, wheel, turned, scale)
    for arrow in of.arrows:
        _arrow(on, arrow, turned)
    badges = _badges(on, of.wheels, turned)
    marks = [
        turned(_around(one, one.mark_at_deg, one.radius_mm))
        for one in of.wheels
        if one.mark_at_deg is not None
    ]
    _counts(on, of.counts, turned, [*badges, *marks, *(turned(one.at) for one in of.arrows)])
    return scale_bar(on, scale, top=start + (high - low) * scale + 30)


def _wheels(on: Drawing, wheels: Sequence[DrawnWheel], turned: Turned, scale: float) -> None:
    """A toothed wheel has a full edge, a smooth one a thin edge; the tensioner has a second ring."""
    for one in wheels:
        x, y = turned((one.x_mm, one.y_mm))
        radius = one.radius_mm * scale
        on.add(
            "circle",
            cx=x,
            cy=y,
            r=radius,
            fill=CARD,
            stroke=SOFT if one.toothed else RULE,
            stroke_width=1.4,
            stroke_dasharray="3 2" if one.toothed else "none",
        )
        if one.tensioner:
            on.add("circle", cx=x, cy=y, r=max(radius - 5, 2), fill="none", stroke=RULE, stroke_width=1.4)


def _belt(on: Drawing, of: DrivePicture, turned: Turned) -> None:
    style = {"fill": "none", "stroke": INK, "stroke_linejoin": "round", "stroke_linecap": "round"}
    if of.belt:
        on.path([[turned(one) for one in of.belt]], closed=False, stroke_width=_THIN, **style)
    if of.tight:
        on.path([[turned(one) for one in of.tight]], closed=False, stroke_width=_THICK, **style)


def _around(wheel: DrawnWheel, angle_deg: float, radius_mm: float) -> Spot:
    angle = radians(angle_deg)
    return wheel.x_mm + radius_mm * sin(angle), wheel.y_mm + radius_mm * cos(angle)


def _mark(on: Drawing, wheel: DrawnWheel, turned: Turned, scale: float) -> None:
    """A wedge inside the edge that points at where the mark stands, and a stroke across the belt there."""
    if wheel.mark_at_deg is None:
        return
    at, inner = wheel.mark_at_deg, wheel.radius_mm - (_MARK + 3) / scale
    half = 5 / scale
    base_x, base_y = _around(wheel, at, inner)
    aside = (cos(radians(at)) * half, -sin(radians(at)) * half)
    corners = [
        _around(wheel, at, wheel.radius_mm - 2 / scale),
        (base_x + aside[0], base_y + aside[1]),
        (base_x - aside[0], base_y - aside[1]),
    ]
    on.path([[turned(one) for one in corners]], closed=True, fill=ACCENT)
    ends = [_around(wheel, at, wheel.radius_mm + off / scale) for off in (-3, 8)]
    on.path([[turned(one) for one in ends]], closed=False, stroke=ACCENT, stroke_width=2.4, fill="none")


def _arrow(on: Drawing, arrow: Arrow, turned: Turned) -> None:
    x, y = turned(arrow.at)
    ahead = radians(arrow.heading_deg)
    along, aside = (sin(ahead), -cos(ahead)), (cos(ahead), sin(ahead))
    corners = [
        (x + 9 * along[0], y + 9 * along[1]),
        (x - 5 * along[0] + 6 * aside[0], y - 5 * along[1] + 6 * aside[1]),
        (x - 5 * along[0] - 6 * aside[0], y - 5 * along[1] - 6 * aside[1]),
    ]
    on.path([corners], closed=True, fill=INK, stroke=PAPER, stroke_width=1.2)


def _badges(on: Drawing, wheels: Sequence[DrawnWheel], turned: Turned) -> list[Spot]:
    found = []
    for one in wheels:
        x, y = turned((one.x_mm, one.y_mm))
        _badge(on, (x, y), one.number)
        found.append((x, y))
    return found


def _badge(on: Drawing, at: Spot, number: int) -> None:
    x, y = at
    on.add("circle", cx=x, cy=y, r=_BADGE, fill=PAPER, stroke=INK, stroke_width=1.6)
    on.text((x, y + 0.36 * SIZE), str(number), anchor="middle", bold=True)


def _counts(on: Drawing, counts: Sequence[DrawnCount], turned: Turned, taken: list[Spot]) -> None:
    """Each count stands at its stretch of belt, as far as can be from what is written there already."""
    for one in counts:
        line = [turned(spot) for spot in one.line]
        spots = [_at_share(line, share / 20) for share in range(6, 15)]
        half = wide(one.text, size=15) / 2 + 5
        spots = [(min(max(x, half + 2), WIDTH - half - 2), y) for x, y in spots]
        best = max(spots, key=lambda spot: min((dist(spot, other) for other in taken), default=0.0))
        taken.append(best)
        x, y = best
        on.add(
            "rect", x=x - half, y=y - 11, width=2 * half, height=22, fill=PAPER, stroke=INK, stroke_width=1
        )
        on.text((x, y + 5.4), one.text, size=15, anchor="middle", bold=True)


def _at_share(line: Sequence[Spot], share: float) -> Spot:
    """The spot so far along a line."""
    lengths = [dist(first, second) for first, second in pairwise(line)]
    left = sum(lengths) * share
    for ((x, y), (u, v)), length in zip(pairwise(line), lengths, strict=True):
        if left <= length and length > 0:
            return x + (u - x) * left / length, y + (v - y) * left / length
        left -= length
    return line[-1]


def _key(on: Drawing, of: DrivePicture, top: float) -> float:
    """What the lines are, then the wheels by their numbers, then the counts."""
    if of.tight_said:
        on.path([[(6, top - 4), (34, top - 4)]], closed=False, stroke=INK, stroke_width=_THICK, fill="none")
        top = on.paragraph((42, top), of.tight_said)
    if any(one.mark_at_deg is not None for one in of.wheels):
        on.path([[(20, top - 11), (15, top - 1), (25, top - 1)]], closed=True, fill=ACCENT)
        top = on.paragraph((42, top), "where a mark stands when the engine is timed")
    if of.counts:
        on.add("rect", x=8, y=top - 12, width=24, height=16, fill=PAPER, stroke=INK, stroke_width=1)
        top = on.paragraph((42, top), "counted from mark to mark, as it runs")
    for one in of.wheels:
        top += 8
        _badge(on, (9 + _BADGE, top + 2), one.number)
        below = on.paragraph((42, top), one.name, bold=True)
        top = max(on.paragraph((42, below), one.said, fill=SOFT), top + 2 * _BADGE)
    top += 8
    for count in of.counts:
        top = on.paragraph((6, top), count.said)
    for said in (of.tensioner, *of.not_drawn):
        if said:
            top = on.paragraph((6, top + 4), said)
    return top
