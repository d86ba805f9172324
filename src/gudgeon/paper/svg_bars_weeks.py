"""The date of the first start as a drawing: a bar for each week, its count in words beside it."""

from gudgeon.bench.pictures.bars_weeks import WeekBar, WeeksPicture
from gudgeon.paper.svg import INK, SIZE, WIDTH, Drawing, wide
from gudgeon.paper.svg_bars import cut

_LEFT, _NAMES, _HIGH = 5.0, 128.0, 26.0


def weeks_svg(of: WeeksPicture) -> str:
    """The weeks below each other; the one in which half of them are reached has its words bold and is named."""
    on = Drawing(of.title, words=of.words, ground=False)
    top = 4.0
    room = WIDTH - _NAMES - 10 - wide("100 of 100, middle", size=SIZE)
    for one in of.bars:
        _week(on, one, room * one.percent / of.most if of.most else 0.0, top)
        top += _HIGH
    on.path([[(_NAMES, 2.0), (_NAMES, top)]], closed=False, stroke=INK, stroke_width=1.5, fill="none")
    on.bottom = top + 4
    return on.svg()


def _week(on: Drawing, one: WeekBar, length: float, top: float) -> None:
    on.text((_LEFT, top + 17), cut(one.name, _NAMES - _LEFT - 4), bold=one.middle)
    on.add("rect", x=_NAMES, y=top + 4, width=max(length, 1.0), height=_HIGH - 10, fill=INK)
    said = f"{one.said}, middle" if one.middle else one.said
    on.text((_NAMES + max(length, 1.0) + 5, top + 17), said, bold=one.middle)
