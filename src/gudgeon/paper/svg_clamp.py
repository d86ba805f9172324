"""The clamp of each bolt as a drawing: a bar from end to end of its band on one scale of force, the middle marked."""

from gudgeon.bench.pictures.clamp import ClampBar, ClampPicture
from gudgeon.paper.svg import INK, RULE, SIZE, SOFT, WIDTH, WORDS, Drawing

_LEFT, _RIGHT = 44.0, WIDTH - 12
_LINE = 1.35 * SIZE


def clamp_svg(of: ClampPicture) -> str:
    """The drawing of the bands of all bolts of a joint."""
    on = Drawing(of.name, words=of.words)
    top = on.paragraph((6, 20), f"{of.name}: clamp", size=17, bold=True, family=WORDS)
    top = on.paragraph((6, top), of.stage, fill=SOFT)
    said = f"A bar holds 90 of 100 tightenings of one {of.called}; the line across it is the middle one."
    top = on.paragraph((6, top), said, fill=SOFT) + 6
    for one in of.bars:
        top = _bolt(on, of, one, top)
    on.text((_LEFT, top + 14), "0")
    on.text((_RIGHT, top + 14), of.most, anchor="end")
    top += 14 + _LINE + 4
    for text in (*of.least, of.of_yield):
        if text:
            top = on.paragraph((6, top), text[0].upper() + text[1:], fill=SOFT)
    on.bottom = top
    return on.svg()


def _at(of: ClampPicture, force_n: float) -> float:
    return _LEFT + (_RIGHT - _LEFT) * force_n / of.most_n


def _bolt(on: Drawing, of: ClampPicture, one: ClampBar, top: float) -> float:
    """One bolt: its number, its bar, and below it the same in words."""
    middle = top + 10
    on.text((6, middle + 5), one.bolt, bold=True, size=15)
    ticks = [
        [(_at(of, share * of.most_n), middle + end) for end in (-9, 9)] for share in (0, 0.25, 0.5, 0.75, 1)
    ]
    on.path(ticks, closed=False, fill="none", stroke=RULE, stroke_width=1)
    low, center, high = (_at(of, force) for force in (one.low_n, one.middle_n, one.high_n))
    on.add(
        "rect", x=low, y=middle - 7, width=max(high - low, 1), height=14, fill=INK, fill_opacity=0.25, stroke=INK,
        stroke_width=1.4,
    )  # fmt: skip
    on.path(
        [[(center, middle - 10), (center, middle + 10)]],
        closed=False,
        fill="none",
        stroke=INK,
        stroke_width=3,
    )
    said = ", ".join(filter(None, (one.clamp, f"{one.of_yield} of yield" if one.of_yield else "", one.where)))
    return on.paragraph((_LEFT, middle + 10 + SIZE), said) + 6
