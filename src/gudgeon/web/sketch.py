"""A joint's bolts as a drawing of a few circles: where the next one stands among the others."""

from dataclasses import dataclass, replace

from gudgeon.bench.pattern import Pattern

WIDTH, MARGIN = 360.0, 30.0
LEAST_HEIGHT = 90.0
_RADIUS = 17.0


@dataclass(frozen=True, slots=True)
class Circle:
    """One bolt on the drawing, in its own units."""

    bolt: str
    x: float
    y: float
    state: str


@dataclass(frozen=True, slots=True)
class Sketch:
    """A drawing to be put on a page; nothing is measured from it."""

    width: float
    height: float
    radius: float
    circles: tuple[Circle, ...]
    viewed_from: str
    words: str


def sketch(of: Pattern) -> Sketch | None:
    """Scale the pattern to the width of a small drawing, y upward as the sheet has it."""
    if len(of.spots) < 2:
        return None
    left, right = min(one.x_mm for one in of.spots), max(one.x_mm for one in of.spots)
    bottom, top = min(one.y_mm for one in of.spots), max(one.y_mm for one in of.spots)
    scale = (WIDTH - 2 * MARGIN) / max(right - left, top - bottom, 1.0)
    height = max(LEAST_HEIGHT, (top - bottom) * scale + 2 * MARGIN)
    middle = (left + right) / 2, (bottom + top) / 2
    circles = tuple(
        Circle(
            one.bolt,
            round(WIDTH / 2 + (one.x_mm - middle[0]) * scale, 1),
            round(height / 2 - (one.y_mm - middle[1]) * scale, 1),
            one.state,
        )
        for one in of.spots
    )
    return Sketch(WIDTH, round(height, 1), _radius(circles), circles, of.viewed_from, _words(of))


def again(drawn: Sketch, of: Pattern) -> Sketch:
    """The same drawing with other bolts done: the places stay."""
    states = {one.bolt: one.state for one in of.spots}
    circles = tuple(Circle(one.bolt, one.x, one.y, states[one.bolt]) for one in drawn.circles)
    return replace(drawn, circles=circles, words=_words(of))


def _words(of: Pattern) -> str:
    following = next((one.bolt for one in of.spots if one.state == "next"), "")
    doubtful = ", ".join(one.bolt for one in of.spots if one.state == "doubt")
    return (
        f"{len(of.spots)} {of.called}s"
        + (f", the next one is {following}" if following else "")
        + (f", in doubt: {doubtful}" if doubtful else "")
    )


def _radius(circles: tuple[Circle, ...]) -> float:
    """As large as reads well, and never so large that two circles touch."""
    nearest = min(
        (
            ((one.x - other.x) ** 2 + (one.y - other.y) ** 2) ** 0.5
            for index, one in enumerate(circles)
            for other in circles[:index]
        ),
        default=4 * _RADIUS,
    )
    return round(min(_RADIUS, nearest * 0.45), 1)
