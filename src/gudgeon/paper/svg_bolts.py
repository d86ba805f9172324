"""The bolts of a joint as a drawing: where each stands, and how far it is, by shape and not by color."""

from itertools import combinations
from math import hypot

from gudgeon.bench.closed.model import BoltsPicture
from gudgeon.bench.pattern import Spot
from gudgeon.paper.svg import CARD, INK, SOFT, WORDS, Drawing

WIDE, MARGIN, LEAST_HIGH = 360.0, 40.0, 70.0
LARGEST = 17.0
STATES = {"done": "done", "open": "not done", "next": "the next one", "doubt": "in doubt"}


def bolts_svg(of: BoltsPicture) -> str:
    """Rings at their places: filled where done, empty where not, crossed where in doubt, double where next."""
    on = Drawing(of.name, words=bolts_words(of))
    top = on.paragraph((6, 20), of.name, size=17, bold=True, family=WORDS)
    if of.pattern.viewed_from:
        top = on.paragraph((6, top), f"Seen from {of.pattern.viewed_from}", fill=SOFT)
    spots = of.pattern.spots
    left, low = min(one.x_mm for one in spots), min(one.y_mm for one in spots)
    across, up = max(one.x_mm for one in spots) - left, max(one.y_mm for one in spots) - low
    scale = (WIDE - 2 * MARGIN) / max(across, up, 1.0)
    high = max(LEAST_HIGH, up * scale + 2 * LARGEST)
    middle = top + high / 2
    radius = _radius(spots, scale)
    for one in spots:
        x = WIDE / 2 + (one.x_mm - left - across / 2) * scale
        y = middle - (one.y_mm - low - up / 2) * scale
        _ring(on, (x, y), one, radius)
    on.bottom = on.paragraph((6, top + high + 22), _key(of), fill=SOFT) + 2
    return on.svg()


def bolts_words(of: BoltsPicture) -> str:
    """The drawing for somebody who does not see it."""
    by_state = {
        state: [one.bolt for one in of.pattern.spots if one.state == state]
        for state in dict.fromkeys(one.state for one in of.pattern.spots)
    }
    said = "; ".join(f"{STATES[state]}: {', '.join(bolts)}" for state, bolts in by_state.items())
    return f"{of.name}, {len(of.pattern.spots)} {of.pattern.called}s by their places; {said}."


def _key(of: BoltsPicture) -> str:
    meaning = {
        "done": "full ring: done",
        "open": "thin ring: not done in this stage",
        "next": "double ring: the next one",
        "doubt": "crossed: in doubt",
    }
    return "; ".join(
        meaning[state] for state in meaning if any(one.state == state for one in of.pattern.spots)
    )


def _radius(spots: tuple[Spot, ...], scale: float) -> float:
    """As large as reads well, and never so large that two rings touch."""
    apart = min(hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm) for a, b in combinations(spots, 2))
    return max(3.0, min(LARGEST, 0.45 * apart * scale))


def _ring(on: Drawing, at: tuple[float, float], one: Spot, radius: float) -> None:
    x, y = at
    thick = 3.2 if one.state == "done" else 1.2
    on.add("circle", cx=x, cy=y, r=radius, fill=CARD, stroke=INK, stroke_width=thick)
    if one.state == "next":
        on.add("circle", cx=x, cy=y, r=radius + 3.5, fill="none", stroke=INK, stroke_width=1.2)
    if one.state == "doubt":
        slant = 0.7 * radius
        on.path(
            [[(x - slant, y - slant), (x + slant, y + slant)]], closed=False, stroke=INK, stroke_width=1.2
        )
    size = min(15.0, 1.7 * radius / max(1, len(one.bolt)) + 4)
    on.text((x, y + 0.35 * size), one.bolt, size=size, anchor="middle", bold=True)
