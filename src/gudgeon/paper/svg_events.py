"""The wheel of the valve events as a drawing: one turn of the crankshaft, the arcs of both valves, the overlap."""

from math import cos, radians, sin

from gudgeon.bench.pictures.events import Arc, EventsPicture
from gudgeon.paper.svg import ACCENT, INK, RULE, SIZE, SOFT, WIDTH, WORDS, Drawing

_X, _DOWN = WIDTH / 2, 176.0
_BANDS = {"intake": (106.0, 126.0), "exhaust": (78.0, 98.0)}
_OUTSIDE, _INSIDE = 143.0, 60.0
"""Where the degrees stand: those of the intake around the wheel, those of the exhaust within."""

_STEP, _HATCH = 2.0, 6.0
_DASHED = "6 3"
_CLEAR = 7.0
"""By so much the name of a valve stands off its arc and what is dashed beside it."""

_MINUS = ("-", "−")

Spot = tuple[float, float]


def events_svg(of: EventsPicture) -> str:
    """The drawing of the events of both valves."""
    on = Drawing(of.title, words=of.words)
    top = on.paragraph((6, 20), of.title, size=17, bold=True, family=WORDS)
    top = on.paragraph(
        (6, top), "One turn of the crankshaft, clockwise. Words tell which valve an arc is of.", fill=SOFT
    )
    middle = top + _DOWN
    _cross(on, middle)
    if of.overlap_deg is not None:
        _overlap(on, of, middle)
    for one in of.arcs:
        _band(on, one, middle)
    for one in of.arcs:
        _ends(on, one, middle)
    on.bottom = _legend(on, of, middle + _DOWN + 8) + 4
    return on.svg()


def _at(middle: float, radius: float, angle_deg: float) -> Spot:
    """A place on the wheel; 0° is up, and it runs clockwise."""
    return _X + radius * sin(radians(angle_deg)), middle - radius * cos(radians(angle_deg))


def _line(middle: float, radius: float, start: float, end: float) -> list[Spot]:
    count = max(2, round(abs(end - start) / _STEP))
    return [_at(middle, radius, start + (end - start) * step / count) for step in range(count + 1)]


def _cross(on: Drawing, middle: float) -> None:
    """Both dead centers, and the way in which it turns."""
    ends = [[_at(middle, 150, angle), _at(middle, 150, angle + 180)] for angle in (0, 90)]
    on.path(ends, closed=False, fill="none", stroke=RULE, stroke_width=1)
    on.text((_X, middle - 158), "TDC", anchor="middle", bold=True)
    on.text((_X, middle + 168), "BDC", anchor="middle", bold=True)
    turn = _line(middle, 24, -60, 60)
    on.path([turn], closed=False, fill="none", stroke=INK, stroke_width=2)
    tip = _at(middle, 24, 72)
    on.path(
        [[_at(middle, 18, 56), tip, _at(middle, 31, 58)]],
        closed=False,
        fill="none",
        stroke=INK,
        stroke_width=2,
    )


def _band(on: Drawing, one: Arc, middle: float) -> None:
    """The arc of a valve: radial strokes for an intake, a line along it for an exhaust; dashed as after the cut."""
    inner, outer = _BANDS[one.valve]
    edge = _line(middle, outer, one.opens_deg, one.closes_deg)
    back = _line(middle, inner, one.closes_deg, one.opens_deg)
    on.path([[*edge, *back]], closed=True, fill=INK, fill_opacity=0.1, stroke=INK, stroke_width=1.6)
    if one.valve == "intake":
        count = int((one.closes_deg - one.opens_deg) / _HATCH)
        strokes = [
            [
                _at(middle, inner, one.opens_deg + _HATCH * step),
                _at(middle, outer, one.opens_deg + _HATCH * step),
            ]
            for step in range(1, count + 1)
        ]
        on.path(strokes, closed=False, fill="none", stroke=INK, stroke_width=0.8)
    else:
        along = [
            _line(middle, inner + share * (outer - inner), one.opens_deg, one.closes_deg)
            for share in (0.35, 0.65)
        ]
        on.path(along, closed=False, fill="none", stroke=INK, stroke_width=0.8)
    if one.late_deg is not None and one.late != "as before":
        start, end = one.opens_deg + one.late_deg, one.closes_deg + one.late_deg
        radius = outer + 4 if one.valve == "intake" else inner - 4
        on.path([_line(middle, radius, start, end)], closed=False, fill="none", stroke=ACCENT, stroke_width=1.8,
                stroke_dasharray=_DASHED)  # fmt: skip


def _ends(on: Drawing, one: Arc, middle: float) -> None:
    """The degrees at both ends, and the name of the valve on its arc."""
    radius = _OUTSIDE if one.valve == "intake" else _INSIDE
    inner, outer = _BANDS[one.valve]
    reach = (inner, _OUTSIDE - 12) if one.valve == "intake" else (_INSIDE + 9, outer)
    for angle, said in ((one.opens_deg, one.opens), (one.closes_deg, one.closes)):
        ends = [_at(middle, reach[0], angle), _at(middle, reach[1], angle)]
        on.path([ends], closed=False, fill="none", stroke=INK, stroke_width=1.6)
        aside = 7.0 if sin(radians(angle)) > 0 else -7.0
        x, y = _at(middle, radius, angle)
        on.text((x + aside, y + SIZE * 0.35), said, anchor="middle", bold=True, halo=True)
    # Beside its arc, clear of what is drawn: the intake outside above the cross, the exhaust inside and below it.
    x, down = (_X + outer + _CLEAR, -_CLEAR) if one.valve == "intake" else (_X - inner + _CLEAR, SIZE + 2)
    on.text((x, middle + down), one.valve, bold=True)


def _overlap(on: Drawing, of: EventsPicture, middle: float) -> None:
    assert of.overlap_deg is not None
    start, end = of.overlap_deg
    inner, outer = _BANDS["exhaust"][0] - 8, _BANDS["intake"][1] + 8
    sector = [*_line(middle, outer, start, end), *_line(middle, inner, end, start)]
    on.path([sector], closed=True, fill=ACCENT, fill_opacity=0.16, stroke=ACCENT, stroke_width=1)
    on.text((WIDTH - 8, middle - 158), of.overlap, anchor="end", fill=ACCENT, bold=True)
    knee = (WIDTH - 84, middle - 152)
    on.path([[knee, _at(middle, outer, end / 2)]], closed=False, fill="none", stroke=ACCENT, stroke_width=1)


def _legend(on: Drawing, of: EventsPicture, top: float) -> float:
    top += 6
    for one in of.arcs:
        hatch = "strokes across the arc" if one.valve == "intake" else "lines along the arc"
        sides = ("before TDC", "after BDC") if one.valve == "intake" else ("before BDC", "after TDC")
        said = f"{one.valve} ({hatch}): opens {one.opens} {sides[0]}, closes {one.closes} {sides[1]}, {one.duration}"
        top = on.paragraph((6, top), said)
        if one.late:
            dashed = "dashed, after the cut: " if one.late != "as before" else "after the cut: "
            top = on.paragraph(
                (20, top), f"{dashed}{one.late}", fill=ACCENT if one.late != "as before" else SOFT
            )
    shown = [angle for one in of.arcs for angle in (one.opens, one.closes)]
    minus = (
        "A minus is the other side of that dead center. "
        if any(one.startswith(_MINUS) for one in shown)
        else ""
    )
    notes = f"{minus}TDC is top, BDC bottom dead center."
    return on.paragraph((6, top), f"{notes}{' Events: ' + of.at_lift + '.' if of.at_lift else ''}", fill=SOFT)
