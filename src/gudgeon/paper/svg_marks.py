"""How a verdict looks on a drawing, by shape and stroke first, the accent only repeats what they say; a scale bar."""

from gudgeon.calc.metrology.contour import Spot
from gudgeon.paper.svg import ACCENT, INK, PAPER, RULE, SIZE, WIDTH, Drawing
from gudgeon.quantity.format import both

STROKES: dict[str, dict[str, object]] = {
    "inside": {"stroke": INK, "stroke_width": 1.6},
    "outside": {"stroke": ACCENT, "stroke_width": 4.0},
    "in doubt": {"stroke": INK, "stroke_width": 2.4, "stroke_dasharray": "9 5"},
    "not measured": {
        "stroke": RULE,
        "stroke_width": 1.6,
        "stroke_dasharray": "1.5 5",
        "stroke_linecap": "round",
    },
    "no limit given": {"stroke": INK, "stroke_width": 1.2},
}
"""The line of each verdict; a word that is new here is drawn as a doubt."""


def stroke_of(verdict: str) -> dict[str, object]:
    """How a line of this verdict is drawn."""
    return {**STROKES.get(verdict, STROKES["in doubt"]), "fill": "none"}


def badge(on: Drawing, at: Spot, *, said: str, verdict: str, radius: float = 11.0) -> None:
    """A number in the shape of its verdict: disc inside, square outside, half disc in doubt, dotted ring not read."""
    x, y = at
    ink = INK
    if verdict == "inside":
        on.add("circle", cx=x, cy=y, r=radius, fill=INK)
        ink = PAPER
    elif verdict == "outside":
        on.add("rect", x=x - radius, y=y - radius, width=2 * radius, height=2 * radius, fill=ACCENT)
        ink = PAPER
    else:
        dots = {"stroke_dasharray": "2 3"} if verdict == "not measured" else {}
        on.add("circle", cx=x, cy=y, r=radius, fill=PAPER, stroke=INK, stroke_width=1.8, **dots)
        if verdict not in ("not measured", "no limit given"):
            half = f"M{x - radius:.2f} {y:.2f}A{radius} {radius} 0 0 0 {x + radius:.2f} {y:.2f}"
            on.add("path", d=half, fill="none", stroke=INK, stroke_width=4.5)
    on.text((x, y + 0.36 * SIZE), said, anchor="middle", bold=True, fill=ink)


def dot(on: Drawing, at: Spot, *, verdict: str, size: float = 4.5) -> None:
    """A reading as a small mark in the shape of its verdict."""
    x, y = at
    if verdict == "outside":
        on.path(
            [[(x - size, y - size), (x + size, y + size)], [(x - size, y + size), (x + size, y - size)]],
            closed=False, stroke=ACCENT, stroke_width=3, fill="none",
        )  # fmt: skip
    elif verdict == "inside":
        on.add("circle", cx=x, cy=y, r=size, fill=INK)
    else:
        on.add("circle", cx=x, cy=y, r=size, fill=PAPER, stroke=INK, stroke_width=2)
        if verdict == "in doubt":
            half = f"M{x:.2f} {y - size:.2f}A{size} {size} 0 0 0 {x:.2f} {y + size:.2f}Z"
            on.add("path", d=half, fill=INK)


def scale_bar(on: Drawing, scale: float, *, top: float) -> float:
    """A length to compare with: the longest round one that takes no more than a third of the width."""
    length = max(
        (one * 10**power for power in range(4) for one in (1, 2, 5) if one * 10**power * scale <= WIDTH / 3),
        default=1,
    )
    end = 6 + length * scale
    ticks = [[(6.0, top - 5), (6.0, top + 5)], [(6.0, top), (end, top)], [(end, top - 5), (end, top + 5)]]
    on.path(ticks, closed=False, stroke=INK, stroke_width=1.6, fill="none")
    on.text((end + 8, top + 4.5), both(float(length), kind="length"))
    return top + 26
