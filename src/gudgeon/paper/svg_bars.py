"""The plan over real days as drawings: week below week for a phone, all weeks side by side for a wide screen.

What is told apart by its fill is told apart in black and white too: hands that are planned are filled, done ones are
outlines, waits are hatched, weekends are dotted. Both lie on the ground of their page.
"""

import math
from collections.abc import Iterable, Sequence

from gudgeon.bench.pictures.bars import BarRow, BarsPicture, DayBar, DrawnMark, Stretch, WeekOfBars
from gudgeon.paper.svg import ACCENT, INK, RULE, SIZE, SOFT, WORDS, Drawing, wide

_LEFT, _DAY = 5.0, 50.0
_LINE, _BAR = 17.0, 13.0
_NAMES, _WIDE = 214.0, 900.0
_MOST = 34.0
_TALL = 22.0
_HATCH = 7.0
LEGEND = ("filled: hands, planned", "outlined: done", "hatched: a wait", "dotted: weekend")


def bars_svg(of: BarsPicture) -> str:
    """The weeks below each other, as wide as a phone; a bar is as long as its day is."""
    on = Drawing(of.title, words=of.words, ground=False)
    top = _legend(on, of, "long", y=16.0)
    for week in of.weeks:
        top = _week(on, week, of.longest, top + 6)
    on.bottom = (on.paragraph((_LEFT, top + SIZE), of.beyond) if of.beyond else top) + 4
    return on.svg()


def _legend(on: Drawing, of: BarsPicture, how: str, *, y: float) -> float:
    """What the fills mean, and how much a bar is at most; the height below it."""
    x = _LEFT
    for index, said in enumerate(LEGEND):
        width = 26 + wide(said) + 14
        if x > _LEFT and x + width > on.width:
            x, y = _LEFT, y + 20
        box = (x, y - 11, 20.0, 12.0)
        (_filled, _outlined, _hatched, _dotted)[index](on, box)
        on.text((x + 26, y), said)
        x += width
    if of.longest:
        return on.paragraph(
            (_LEFT, y + 20), f"As {how} as a bar can be: {of.longest_words} of hands in a day."
        )
    return y + 20


def _week(on: Drawing, week: WeekOfBars, longest: int, top: float) -> float:
    """One week: its days, its marks, and each phase or wait that is in it."""
    end = _LEFT + 7 * _DAY
    on.path([[(_LEFT, top), (end, top)]], closed=False, stroke=INK, stroke_width=2.5, fill="none")
    on.text((_LEFT, top + 18), week.title, size=16, bold=True, family=WORDS)
    on.text((end, top + 18), week.said, anchor="end")
    heads = top + 38
    for day, said in enumerate(week.days):
        on.text((_LEFT + _DAY * (day + 0.5), heads), said, anchor="middle", fill=SOFT)
    below = heads + 6 + (_LINE if week.marks else 0)
    bottom = below + sum(_height(row) for row in week.rows) + 4
    for day in (5, 6):
        _dotted(on, (_LEFT + _DAY * day, heads + 6, _DAY, bottom - heads - 6))
    lines = [[(_LEFT + _DAY * day, heads + 6), (_LEFT + _DAY * day, bottom)] for day in range(8)]
    on.path(lines, closed=False, stroke=RULE, stroke_width=0.8, fill="none")
    _marks_of_week(on, week.marks, heads + 6 + 13, (below, bottom))
    top = below
    for row in week.rows:
        top = _row_of_week(on, row, longest, top)
    top = bottom
    for mark in _told(week.marks):
        _sign(on, mark, (_LEFT + 7, top + 12))
        top = on.paragraph((_LEFT + 20, top + 16), mark.words, bold=mark.late) - SIZE + 2
    return top + 6


def _height(row: BarRow) -> float:
    """How much room a row of a week takes: a line of words and a line of bars, for each wait again."""
    return (_LINE + _BAR + 4) * (len(row.stretches) or 1) + (_LINE if row.stretches and row.said else 0)


def _row_of_week(on: Drawing, row: BarRow, longest: int, top: float) -> float:
    """A phase: its words, below them a bar on each of its days; of waits each its own words and stretch."""
    if row.bars:
        _words_at(on, f"{row.name}: {row.said}", _LEFT + _DAY * row.bars[0].day + 3, top + SIZE)
        for bar in row.bars:
            width = max((_DAY - 4) * bar.minutes / longest, 5.0)
            _hands(on, bar, (_LEFT + _DAY * bar.day + 2, top + _LINE, width, _BAR))
        return top + _height(row)
    for one in row.stretches:
        _words_at(on, cut(one.words, 7 * _DAY - 6), _LEFT + _DAY * one.first + 3, top + SIZE)
        _hatched(on, _box(one, _LEFT, _DAY, top + _LINE))
        top += _LINE + _BAR + 4
    if row.said:
        on.text((_LEFT + 3, top + SIZE), f"{row.name}: {row.said}", halo=True)
        top += _LINE
    return top


def _words_at(on: Drawing, said: str, x: float, y: float) -> None:
    """Words above the first of their bars, or as far left of that as they need room."""
    on.text((max(min(x, _LEFT + 7 * _DAY - wide(said)), _LEFT + 3), y), said, halo=True)


def _box(one: Stretch, left: float, day: float, top: float) -> tuple[float, float, float, float]:
    return (left + day * one.first, top, max(day * (one.last - one.first), 3.0), _BAR)


def _marks_of_week(on: Drawing, marks: Sequence[DrawnMark], y: float, lines: tuple[float, float]) -> None:
    """Today and the other marks in a line of their own, above their days; what falls on one day stands side by side."""
    taken: dict[int, int] = {}
    for one in sorted(marks, key=lambda one: one.kind != "today"):
        day = int(one.at)
        x = _LEFT + _DAY * day + 11 + 13 * taken.get(day, 0)
        taken[day] = taken.get(day, 0) + 1
        if one.kind == "today":
            at = _LEFT + _DAY * one.at
            on.path(
                [[(at, y + 4), (at, lines[1])]], closed=False, stroke=ACCENT, stroke_width=2.5, fill="none"
            )
            on.text(
                (_LEFT + _DAY * (day + 0.5), y), "today", anchor="middle", bold=True, fill=ACCENT, halo=True
            )
            taken[day] += 3
        elif taken[day] <= 3:
            _sign(on, one, (x, y - 5))


def _told(marks: Iterable[DrawnMark]) -> list[DrawnMark]:
    """The marks that need words of their own: today says what it is."""
    return [one for one in marks if one.kind != "today"]


def bars_wide_svg(of: BarsPicture) -> str:
    """All weeks side by side: a row for each phase and kind of wait; a bar is as high as its day is long.

    However many weeks there are, they fit the width: nothing of the picture lies outside of the page.
    """
    day = min((_WIDE - _NAMES - 8) / of.days, _MOST)
    on = Drawing(of.title, words=of.words, width=_NAMES + day * of.days + 8, ground=False)
    top = _legend(on, of, "high", y=16.0) + 4
    heads = top + 3 * _LINE
    rows = [(row, lanes(row, day=day, end=on.width - 4)) for row in of.rows]
    bottom = heads + sum(_tall(row, len(found)) for row, found in rows) + 4
    _grid(on, of, day, (heads, bottom))
    _lines_of_marks(on, of.marks, day, (top, heads, bottom))
    at = heads
    for row, found in rows:
        _row(on, row, found, of.longest, day, at)
        at += _tall(row, len(found))
        on.path([[(0.0, at), (on.width, at)]], closed=False, stroke=RULE, stroke_width=0.8, fill="none")
    below = bottom
    for mark in _told(of.marks):
        _sign(on, mark, (_LEFT + 7, below + 12))
        below = on.paragraph((_LEFT + 20, below + 16), mark.words, bold=mark.late) - SIZE + 3
    on.bottom = (on.paragraph((_LEFT, below + 18), of.beyond) if of.beyond else below) + 6
    return on.svg()


def _tall(row: BarRow, lanes: int) -> float:
    return _TALL + 8 if row.bars else max(lanes, 1) * (_LINE + 3) + 6


def _grid(on: Drawing, of: BarsPicture, day: float, heights: tuple[float, float]) -> None:
    """A line for each week with the day of its Monday, and dotted weekends."""
    top, bottom = heights
    longest = max((wide(said) for said in of.mondays), default=0.0)
    every = max(1, math.ceil((longest + 8) / (7 * day)))
    for week, said in enumerate(of.mondays):
        x = _NAMES + 7 * week * day
        _dotted(on, (x + 5 * day, top, 2 * day, bottom - top))
        on.path([[(x, top - _LINE), (x, bottom)]], closed=False, stroke=RULE, stroke_width=1, fill="none")
        if week % every == 0:
            inside = x + 3 + wide(said) <= on.width
            on.text(
                (x + 3 if inside else on.width, top - 4), said, anchor="start" if inside else "end", fill=SOFT
            )
    on.path([[(0.0, top), (on.width, top)]], closed=False, stroke=INK, stroke_width=2, fill="none")


def _lines_of_marks(
    on: Drawing, marks: Iterable[DrawnMark], day: float, heights: tuple[float, float, float]
) -> None:
    """Today's line with its word left of it, that of the first start with its own above; the others as signs."""
    top, heads, bottom = heights
    for one in marks:
        x = _NAMES + day * one.at
        if one.kind == "today":
            _down(on, x, ((top + _LINE + 3, heads - _LINE), (heads, bottom)), ACCENT)
            on.text((x - 4, top + 2 * _LINE - 4), "today", anchor="end", bold=True, fill=ACCENT)
        elif one.kind == "start planned":
            _down(on, x, ((top + 2, heads - _LINE), (heads, bottom)), INK)
            said = "first start, as planned"
            fits = x + 5 + wide(said) < on.width
            on.text((x + 5 if fits else x - 5, top + 13), said, anchor="start" if fits else "end", bold=True)
        else:
            _sign(on, one, (x, heads - _LINE - 6))


def _down(on: Drawing, x: float, parts: Sequence[tuple[float, float]], ink: str) -> None:
    """A line down the drawing, which leaves out where the weeks are named."""
    lines = [[(x, first), (x, last)] for first, last in parts]
    on.path(lines, closed=False, stroke=ink, stroke_width=2.5, fill="none")


Lane = list[tuple[Stretch, str, float, str]]


def lanes(row: BarRow, *, day: float, end: float) -> list[Lane]:
    """The stretches of a row in lines, so that neither bars nor words meet: stretch, words, where they stand, anchor.

    Words stand right of their stretch, left of it where there is no room before the `end`.
    """
    found: list[Lane] = []
    filled: list[list[tuple[float, float]]] = []
    for one in row.stretches:
        first, _, width, _ = _box(one, _NAMES, day, 0)
        said = cut(one.words, max(end - first - width - 5, first - _NAMES - 5))
        right = first + width + 5 + wide(said) <= end
        reach = (first, first + width + 5 + wide(said)) if right else (first - 5 - wide(said), first + width)
        placed = (one, said, first + width + 5 if right else first - 5, "start" if right else "end")
        at = next((at for at, some in enumerate(filled) if not _meets(reach, some)), len(found))
        if at == len(found):
            found.append([])
            filled.append([])
        found[at].append(placed)
        filled[at].append(reach)
    return found


def _meets(reach: tuple[float, float], others: Iterable[tuple[float, float]]) -> bool:
    return any(reach[0] < last + 6 and first < reach[1] + 6 for first, last in others)


def _row(on: Drawing, row: BarRow, found: Sequence[Lane], longest: int, day: float, top: float) -> None:
    if row.bars:
        on.text((_LEFT, top + 20), cut(row.name, _NAMES - 18 - wide(row.said)), bold=True)
        on.text((_NAMES - 8, top + 20), row.said, anchor="end", fill=SOFT)
        for bar in row.bars:
            height = max(_TALL * bar.minutes / longest, 4.0)
            width = max(day - 2, 0.7 * day)
            _hands(
                on, bar, (_NAMES + day * (bar.day + 0.5) - width / 2, top + 4 + _TALL - height, width, height)
            )
        return
    on.text((_LEFT, top + 17), row.name, bold=True)
    for at, lane in enumerate(found):
        y = top + 5 + at * (_LINE + 3)
        for one, said, x, anchor in lane:
            _hatched(on, _box(one, _NAMES, day, y))
            on.text((x, y + 11), said, anchor=anchor, halo=True)


def cut(said: str, width: float) -> str:
    """Words that end where the room ends; the page says them in full."""
    most = max(int(width / wide("a")), 3)
    return said if len(said) <= most else f"{said[: most - 1].rstrip()}…"


Box = tuple[float, float, float, float]


def _hands(on: Drawing, bar: DayBar, box: Box) -> None:
    (_outlined if bar.done else _filled)(on, box)


def _filled(on: Drawing, box: Box) -> None:
    x, y, width, height = box
    on.add("rect", x=x, y=y, width=width, height=height, fill=INK)


def _outlined(on: Drawing, box: Box) -> None:
    x, y, width, height = box
    on.add(
        "rect", x=x + 0.75, y=y + 0.75, width=max(width - 1.5, 1.0), height=max(height - 1.5, 1.0), fill="none",
        stroke=INK, stroke_width=1.5,
    )  # fmt: skip


def _hatched(on: Drawing, box: Box) -> None:
    """Slanting lines within a border; each is cut at the ends of the box."""
    x, y, width, height = box
    slants = []
    at = -height + _HATCH / 2
    while at < width:
        low, high = max(at, 0.0), min(at + height, width)
        slants.append([(x + low, y + height - (low - at)), (x + high, y + height - (high - at))])
        at += _HATCH
    on.path(slants, closed=False, stroke=INK, stroke_width=1.3, fill="none")
    on.add("rect", x=x, y=y, width=width, height=height, fill="none", stroke=INK, stroke_width=1.2)


def _dotted(on: Drawing, box: Box) -> None:
    x, y, width, height = box
    rows = [
        [(x + 3, y + 3 + 6 * row), (x + width - 1, y + 3 + 6 * row)] for row in range(max(int(height / 6), 1))
    ]
    on.path(
        rows, closed=False, stroke=RULE, stroke_width=1.5, stroke_linecap="round", stroke_dasharray="0.1 5.9",
        fill="none",
    )  # fmt: skip


def _sign(on: Drawing, one: DrawnMark, at: tuple[float, float]) -> None:
    """A mark by its shape: a flag for a promise, a diamond for a start, a disc for the rest; late ones in a ring."""
    x, y = at
    if one.kind in ("promise", "delivery"):
        on.path([[(x - 4, y + 6), (x - 4, y - 6), (x + 6, y - 2), (x - 4, y + 2)]], closed=False, fill=INK, stroke=INK,
                stroke_width=1.4)  # fmt: skip
    elif one.kind.startswith("start"):
        fill = INK if one.kind == "start planned" else "none"
        on.path(
            [[(x, y - 6), (x + 6, y), (x, y + 6), (x - 6, y)]],
            closed=True,
            fill=fill,
            stroke=INK,
            stroke_width=1.6,
        )
    else:
        on.add("circle", cx=x, cy=y, r=4, fill=INK)
    if one.late:
        on.add("circle", cx=x, cy=y, r=8, fill="none", stroke=ACCENT, stroke_width=2)
