"""What a cut does as a drawing: one band for each consequence over one axis of cuts, with limits, least and most."""

import math

from gudgeon.bench.pictures.cut import Band, CutPicture
from gudgeon.paper.svg import ACCENT, INK, PAPER, RULE, SIZE, SOFT, WIDTH, WORDS, Drawing, wide
from gudgeon.quantity.format import number
from gudgeon.quantity.units import convert

_LEFT, _RIGHT = 14.0, WIDTH - 14.0
_HIGH = 54.0
"""How high a band is."""
_LINE = 1.35 * SIZE
_ROOM = 0.08
_STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0)
_INCH_STEPS = (0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05)
_MOST_TICKS = 6
_UPRIGHTS: dict[str, dict[str, object]] = {
    "least": {"stroke": INK, "stroke_width": 1.6, "stroke_dasharray": "7 4"},
    "most": {"stroke": ACCENT, "stroke_width": 3.4},
    "made": {"stroke": INK, "stroke_width": 1.6},
    "asked": {"stroke": INK, "stroke_width": 1.6, "stroke_dasharray": "1.5 3"},
}
_LIMIT: dict[str, object] = {"stroke": ACCENT, "stroke_width": 1.6, "stroke_dasharray": "5 3", "fill": "none"}
_CURVE: dict[str, object] = {"stroke": INK, "stroke_width": 2.2, "fill": "none"}


def cut_svg(of: CutPicture) -> str:
    """The drawing of everything that a cut does."""
    on = Drawing(of.name, words=of.words)
    top = on.paragraph((6, 20), of.name, size=17, bold=True, family=WORDS)
    top = on.paragraph((6, top), of.words, bold=True)
    top = on.paragraph((6, top), of.under, fill=SOFT)
    top = _legend(on, of, top + 4)
    top = _axis(on, of, top + 8)
    begun = top
    places = []
    for band in of.bands:
        top = _words(on, band, top + 20)
        places.append((band, top))
        top += _HIGH + _LINE + 2
    if of.gaskets:
        top = _gaskets(on, of, top + 20)
    for one in of.uprights:
        x = _x(of, one.cut_mm)
        for _, at in places:
            on.path([[(x, at), (x, at + _HIGH)]], closed=False, fill="none", **_UPRIGHTS[one.kind])
        on.path([[(x, begun - 6), (x, begun + 4)]], closed=False, fill="none", **_UPRIGHTS[one.kind])
    for band, at in places:
        _curve(on, of, band, at)
    on.bottom = top + 6
    return on.svg()


def _x(of: CutPicture, cut_mm: float) -> float:
    return _LEFT + (_RIGHT - _LEFT) * cut_mm / of.reach_mm


def _legend(on: Drawing, of: CutPicture, top: float) -> float:
    """Which stroke is which."""
    strokes = [(one.words, _UPRIGHTS[one.kind]) for one in of.uprights]
    strokes.append(("a limit; past it nothing is promised", _LIMIT))
    for said, stroke in strokes:
        on.path([[(6, top - 4), (40, top - 4)]], closed=False, **{"fill": "none", **stroke})
        top = on.paragraph((48, top), said)
    on.add("rect", x=6, y=top - 9, width=34, height=9, fill=RULE, fill_opacity=0.45)
    return on.paragraph((48, top), "what is uncertain of a figure, U (k = 2)")


def _axis(on: Drawing, of: CutPicture, top: float) -> float:
    """The cut in millimeters above the line and in inches below it."""
    on.text((6, top), "Taken off, mm", bold=True)
    line = top + 22
    on.path([[(_LEFT, line), (_RIGHT, line)]], closed=False, fill="none", stroke=INK, stroke_width=1.2)
    step = _step(of.reach_mm, _STEPS)
    for index in range(int(of.reach_mm / step + 1e-9) + 1):
        x = _x(of, index * step)
        on.path([[(x, line - 5), (x, line)]], closed=False, fill="none", stroke=INK, stroke_width=1.2)
        on.text((x, line - 8), _tick(index * step, step), anchor="middle" if index else "start")
    inches = convert(of.reach_mm, frm="mm", to="in", kind="length_difference")
    step = _step(inches, _INCH_STEPS)
    for index in range(int(inches / step + 1e-9) + 1):
        x = _x(of, convert(index * step, frm="in", to="mm", kind="length_difference"))
        on.path([[(x, line), (x, line + 5)]], closed=False, fill="none", stroke=INK, stroke_width=1.2)
        on.text((x, line + 18), _tick(index * step, step), anchor="middle" if index else "start")
    on.text((6, line + 34), "in", bold=True)
    return line + 36


def _step(reach: float, steps: tuple[float, ...]) -> float:
    return next((one for one in steps if reach / one <= _MOST_TICKS), steps[-1])


def _tick(value: float, step: float) -> str:
    return number(value, decimals=max(0, math.ceil(-math.log10(step) - 1e-9)))


def _words(on: Drawing, band: Band, top: float) -> float:
    """The name of a band, its limit and where it is met; where the curve begins."""
    name = f"{band.name}: this binds" if band.binds else band.name
    on.text((6, top), name, bold=True, fill=ACCENT if band.binds else INK)
    said = "; ".join(part for part in (band.limit_words, band.crossed_words) if part)
    return on.paragraph((6, top + _LINE), said, fill=SOFT) - _LINE + 8


def _curve(on: Drawing, of: CutPicture, band: Band, top: float) -> None:
    """The band of what is uncertain, the curve, its limit, and a mark where the limit is surely kept no more."""
    low, high = _range(band)

    def y(value: float) -> float:
        return top + _HIGH * (1 - (value - low) / (high - low))

    upper = [(_x(of, cut), y(value + spread)) for cut, value, spread in band.points]
    lower = [(_x(of, cut), y(value - spread)) for cut, value, spread in band.points]
    on.path([[*upper, *reversed(lower)]], closed=True, fill=RULE, fill_opacity=0.45)
    on.path(
        [[(_LEFT, top + _HIGH), (_RIGHT, top + _HIGH)]],
        closed=False,
        fill="none",
        stroke=RULE,
        stroke_width=1,
    )
    if band.limit is not None:
        on.path([[(_LEFT, y(band.limit)), (_RIGHT, y(band.limit))]], closed=False, **_LIMIT)
    on.path([[(_x(of, cut), y(value)) for cut, value, _ in band.points]], closed=False, **_CURVE)
    if band.crossed_mm is not None and band.limit is not None and band.crossed_mm <= of.reach_mm:
        x, at = _x(of, band.crossed_mm), y(band.limit)
        corners = [(x - 5, at), (x, at - 5), (x + 5, at), (x, at + 5)]
        on.path([corners], closed=True, fill=PAPER, stroke=ACCENT, stroke_width=2)
    # Below the band: above a curve that comes down they would lie on it.
    on.text((_LEFT, top + _HIGH + SIZE + 1), band.ends[0])
    on.text((_RIGHT, top + _HIGH + SIZE + 1), band.ends[1], anchor="end")


def _range(band: Band) -> tuple[float, float]:
    """From where to where a band is drawn: its curve with what is uncertain, and its limit."""
    values = [value + sign * spread for _, value, spread in band.points for sign in (1, -1)]
    if band.limit is not None:
        values.append(band.limit)
    low, high = min(values), max(values)
    room = max(_ROOM * (high - low), 1e-6)
    return low - room, high + room


def _gaskets(on: Drawing, of: CutPicture, top: float) -> float:
    """Which gasket is meant for which cut."""
    name, fill = ("Head gasket: this binds", ACCENT) if of.gasket_binds else ("Head gasket", INK)
    on.text((6, top), name, bold=True, fill=fill)
    for one in of.gaskets:
        top = on.paragraph((6, top + _LINE), one.words, fill=SOFT) - _LINE
        left, right = _x(of, one.low_mm), _x(of, one.high_mm)
        on.add("rect", x=left, y=top + 5, width=max(2.0, right - left), height=17, fill=INK)
        if right - left > wide(one.name) + 8:
            on.text(((left + right) / 2, top + 18), one.name, anchor="middle", fill=PAPER)
        top += 24
    return top + 6
