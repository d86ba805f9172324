"""What a job costs as a drawing: at each point a bar that holds eight of ten cases, the ceiling, what is spent."""

from gudgeon.bench.pictures.costs import CostBar, CostPicture
from gudgeon.paper.svg import ACCENT, INK, RULE, SIZE, SOFT, WIDTH, WORDS, Drawing, wide

_LEFT, _RIGHT = 10.0, WIDTH - 12
_LINE = 1.35 * SIZE
_HIGH = 14.0


def costs_svg(of: CostPicture, *, ground: bool = True) -> str:
    """The drawing of one account."""
    on = Drawing(of.title, words=of.words, ground=ground)
    top = on.paragraph((6, 20), of.title, size=17, bold=True, family=WORDS)
    top = on.paragraph(
        (6, top), "In eight of ten cases it ends within the bar; the line across it is the middle.", fill=SOFT
    )
    first = top
    top += _LINE if of.ceiling is not None else 4
    for one in of.bars:
        top = _bar(on, of, one, top)
    top = _spent(on, of, top)
    if of.ceiling is not None:
        _ceiling(on, of, first, top)
    on.path([[(_LEFT, top), (_RIGHT, top)]], closed=False, fill="none", stroke=INK, stroke_width=1)
    on.text((_LEFT, top + 15), "0")
    on.text((_RIGHT, top + 15), of.most_words, anchor="end")
    on.bottom = top + 15 + 8
    return on.svg()


def _at(of: CostPicture, amount: float) -> float:
    return _LEFT + (_RIGHT - _LEFT) * max(0.0, amount) / of.most


def _bar(on: Drawing, of: CostPicture, one: CostBar, top: float) -> float:
    """One point: its words, and below them its bar; today's is dark."""
    on.text(
        (_LEFT, top + SIZE), f"{one.name[0].upper()}{one.name[1:]}: {one.words}", bold=one.today, halo=True
    )
    middle = top + SIZE + 8 + _HIGH / 2
    ticks = [
        [(_at(of, share * of.most), middle + end) for end in (-10, 10)] for share in (0, 0.25, 0.5, 0.75, 1)
    ]
    on.path(ticks, closed=False, fill="none", stroke=RULE, stroke_width=1)
    low, center, high = (_at(of, amount) for amount in (one.low, one.middle, one.high))
    on.add(
        "rect", x=low, y=middle - _HIGH / 2, width=max(high - low, 2), height=_HIGH, fill=INK,
        fill_opacity=0.55 if one.today else 0.2, stroke=INK, stroke_width=1.4,
    )  # fmt: skip
    on.path(
        [[(center, middle - 11), (center, middle + 11)]],
        closed=False,
        fill="none",
        stroke=INK,
        stroke_width=3,
    )
    return middle + _HIGH / 2 + 10


def _spent(on: Drawing, of: CostPicture, top: float) -> float:
    """What is spent, as a full bar from nothing."""
    on.text((_LEFT, top + SIZE), f"{of.spent_words[0].upper()}{of.spent_words[1:]}", bold=True, halo=True)
    y = top + SIZE + 6
    if of.spent > 0:
        on.add("rect", x=_LEFT, y=y, width=_at(of, of.spent) - _LEFT, height=10, fill=INK)
    else:
        on.add("rect", x=_LEFT, y=y, width=1, height=10, fill=INK)
    return y + 10 + 8


def _ceiling(on: Drawing, of: CostPicture, top: float, bottom: float) -> None:
    """The ceiling as a line through all bars, its words above."""
    assert of.ceiling is not None
    x = _at(of, of.ceiling)
    on.path(
        [[(x, top + 2), (x, bottom)]],
        closed=False,
        fill="none",
        stroke=ACCENT,
        stroke_width=2.4,
        stroke_dasharray="7 4",
    )
    half = wide(of.ceiling_words) / 2
    center = min(max(x, _LEFT + half), _RIGHT - half)
    on.text((center, top - 3), of.ceiling_words, anchor="middle", bold=True, fill=ACCENT, halo=True)
