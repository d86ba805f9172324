"""Bores and journals as a drawing: along them, and across each height, with the differences drawn too large."""

from collections.abc import Sequence
from math import cos, dist, radians, sin

from gudgeon.bench.pictures.bore import Across, Bore, BorePicture, Section
from gudgeon.calc.metrology.contour import Spot
from gudgeon.paper.svg import ACCENT, INK, RULE, SIZE, SOFT, WIDTH, WORDS, Drawing
from gudgeon.paper.svg_marks import dot, stroke_of

_STRIP = 40.0
"""Where the nominal size stands in the strip along the bore."""

_CIRCLE, _RADIUS = 130.0, 36.0
_WORDS_AT = 186.0
_ASIDE, _STOP = 2.0, 5.0
_LINE = 1.35 * SIZE
_LINKS: tuple[dict[str, object], ...] = (
    {},
    {"stroke_dasharray": "5 3"},
    {"stroke_dasharray": "1.5 3"},
    {"stroke_dasharray": "8 3 2 3"},
)
"""Each direction has a stroke of its own."""


def bore_svg(of: BorePicture) -> str:
    """The drawing of all bores of a characteristic that have a reading."""
    on = Drawing(of.name, words=of.words)
    top = on.paragraph((6, 20), of.name, size=17, bold=True, family=WORDS)
    top = on.paragraph((6, top), of.limits, fill=SOFT)
    times = (
        f"Differences are drawn {of.exaggerated} times too large" if of.exaggerated > 1 else "Drawn to scale"
    )
    top = on.paragraph((6, top), f"{times}, around the {of.nominal}.")
    top = _legend(on, of, top + 4)
    for bore in of.bores:
        top = _bore(on, of, bore, top + 10)
    for text in of.not_drawn:
        top = on.paragraph((6, top + 6), f"Not drawn, since one end of it is open: {text}", fill=SOFT)
    on.bottom = top + 4
    return on.svg()


def _legend(on: Drawing, of: BorePicture, top: float) -> float:
    """What the lines are, then which stroke is which direction."""
    lines: list[tuple[str, dict[str, object]]] = [("nominal size", _NOMINAL)]
    lines += [(of.limits, _LIMIT)] if of.limits_mm else []
    lines += [(of.new, _NEW)] if of.new_mm is not None else []
    lines += [
        (way, {"stroke": INK, "stroke_width": 1.6, **_LINKS[place % len(_LINKS)]})
        for place, way in enumerate(of.directions)
    ]
    if any(
        one.high_mm is not None for bore in of.bores for section in bore.sections for one in section.across
    ):
        _bar(on, (8, top - 4), (38, top - 4), verdict="inside")
        top = on.paragraph((48, top), "known only from one end of the bar to the other")
    for said, stroke in lines:
        on.path([[(6, top - 4), (40, top - 4)]], closed=False, fill="none", **stroke)
        top = on.paragraph((48, top), said)
    said = f"At the left from end to end, beside it across each height: {of.angles}. Between heights nothing was read."
    if any(section.at_mm is not None for bore in of.bores for section in bore.sections):
        said += " At the left the heights are spaced as deep as they lie."
    return on.paragraph((6, top), said, fill=SOFT)


_NOMINAL: dict[str, object] = {"stroke": RULE, "stroke_width": 1.4}
_NEW: dict[str, object] = {"stroke": INK, "stroke_opacity": 0.22, "stroke_width": 8}
_LIMIT: dict[str, object] = {"stroke": ACCENT, "stroke_width": 1.6, "stroke_dasharray": "7 3"}


def _bore(on: Drawing, of: BorePicture, bore: Bore, top: float) -> float:
    on.path([[(6, top), (WIDTH - 6, top)]], closed=False, stroke=INK, stroke_width=1.4, fill="none")
    top += 20
    on.text((6, top), bore.name, size=15, bold=True)
    top += 10
    rows = [(section, _height(section)) for section in bore.sections]
    tall = sum(height for _, height in rows)
    if of.new_mm is not None:
        low, high = (_STRIP + _off(of, end) for end in of.new_mm)
        on.add("rect", x=low, y=top + 6, width=high - low, height=tall - 12, fill=INK, fill_opacity=0.22)
    _strip(on, of, rows, top)
    for size in (of.nominal_mm, *of.limits_mm):
        x = _STRIP + _off(of, size)
        stroke = _NOMINAL if size == of.nominal_mm else _LIMIT
        on.path([[(x, top + 6), (x, top + tall - 6)]], closed=False, fill="none", **stroke)
    for section, height in rows:
        _section(on, of, section, top=top, height=height)
        top += height
    return top


def _height(section: Section) -> float:
    lines = 1 + 2 * len(section.across) + bool(section.missing)
    return max(2 * _RADIUS + 34, lines * _LINE + 14)


def _off(of: BorePicture, size_mm: float) -> float:
    """How far a diameter lies off the nominal line of the strip."""
    return 2 * _RADIUS * of.exaggerated * (size_mm - of.nominal_mm) / of.nominal_mm


def _spread(rows: Sequence[tuple[Section, float]], top: float) -> list[tuple[float, float]]:
    """Where each height lies in the strip, and beside it: as deep as it is where that is known, else row by row."""
    middles = []
    for _, height in rows:
        middles.append(top + height / 2)
        top += height
    deep = [section.at_mm for section, _ in rows]
    known = [one for one in deep if one is not None]
    if len(known) < len(deep) or len(known) < 2 or known[0] == known[-1]:
        return [(middle, middle) for middle in middles]
    share = (middles[-1] - middles[0]) / (known[-1] - known[0])
    return [
        (middles[0] + share * (one - known[0]), middle) for one, middle in zip(known, middles, strict=True)
    ]


def _strip(on: Drawing, of: BorePicture, rows: Sequence[tuple[Section, float]], top: float) -> None:
    """Each direction from one end of the bore to the other."""
    places = _spread(rows, top)
    for y, middle in places:
        if abs(y - middle) > _ASIDE:
            ends = [(_STRIP + 2 * _RADIUS * 0.3 + 8, y), (_CIRCLE - 1.3 * _RADIUS - 4, middle)]
            on.path([ends], closed=False, fill="none", stroke=RULE, stroke_width=1)
    for place, way in enumerate(of.directions):
        spots: list[tuple[Spot, Spot, Across]] = []
        for (section, _), (y, _) in zip(rows, places, strict=True):
            found = next((one for one in section.across if one.direction == way), None)
            if found is not None:
                near, far = (_STRIP + _off(of, end) for end in found.ends_mm)
                spots.append(((near, y), (far, y), found))
        link = _LINKS[place % len(_LINKS)]
        middles = [((low[0] + high[0]) / 2, low[1]) for low, high, _ in spots]
        on.path([middles], closed=False, fill="none", stroke=INK, stroke_width=1.6, **link)
        for low, high, one in spots:
            _mark(on, low, high, verdict=one.verdict)


def _mark(on: Drawing, low: Spot, high: Spot, *, verdict: str) -> None:
    """A dot where one value was read, a bar where only its two ends are known."""
    if low == high:
        dot(on, low, verdict=verdict, size=4)
    else:
        _bar(on, low, high, verdict=verdict)


def _bar(on: Drawing, low: Spot, high: Spot, *, verdict: str) -> None:
    """From one end to the other, with a stop at each."""
    size = max(dist(low, high), 1e-9)
    aside = (-(high[1] - low[1]) / size * _STOP, (high[0] - low[0]) / size * _STOP)
    stops = [[(x - aside[0], y - aside[1]), (x + aside[0], y + aside[1])] for x, y in (low, high)]
    ink = ACCENT if verdict == "outside" else INK
    on.path([[low, high]], closed=False, **(stroke_of(verdict) | {"stroke_width": 3.2}))
    on.path(stops, closed=False, fill="none", stroke=ink, stroke_width=2)


def _section(on: Drawing, of: BorePicture, section: Section, *, top: float, height: float) -> None:
    middle = top + height / 2
    on.add("circle", cx=_CIRCLE, cy=middle, r=_RADIUS, fill="none", **_NOMINAL)
    for size in of.limits_mm:
        on.add("circle", cx=_CIRCLE, cy=middle, r=_RADIUS + _off(of, size) / 2, fill="none", **_LIMIT)
    for one in section.across:
        angle = radians(one.angle_deg)
        reaches = [_RADIUS + _off(of, end) / 2 for end in one.ends_mm]
        link = _LINKS[of.directions.index(one.direction) % len(_LINKS)]
        sides = [
            [(_CIRCLE + sign * reach * cos(angle), middle - sign * reach * sin(angle)) for reach in reaches]
            for sign in (-1, 1)
        ]
        through = [near for near, _ in sides]
        on.path([through], closed=False, fill="none", stroke=INK, stroke_width=1.6, **link)
        for near, far in sides:
            _mark(on, near, far, verdict=one.verdict)
    below = top + 18
    on.text((_WORDS_AT, below), section.height + (f", at {section.at}" if section.at else ""), bold=True)
    for one in section.across:
        below = on.paragraph((_WORDS_AT, below + _LINE), f"{one.direction}: {one.verdict}",
            fill=ACCENT if one.verdict == "outside" else INK,
        ) - _LINE  # fmt: skip
        below = on.paragraph((_WORDS_AT, below + _LINE), one.text) - _LINE
    if section.missing:
        on.paragraph((_WORDS_AT, below + _LINE), f"not read: {', '.join(section.missing)}", fill=SOFT)
