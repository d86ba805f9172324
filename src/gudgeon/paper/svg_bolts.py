"""The bolts of a joint as a drawing: where each stands, and how far it is, by shape and not by color."""

from collections.abc import Sequence
from itertools import combinations
from math import atan2, degrees, hypot

from gudgeon.bench.closed.model import BoltsPicture
from gudgeon.bench.pattern import Spot
from gudgeon.calc.template.tiling import Hole, Window
from gudgeon.paper.svg import CARD, INK, SOFT, WORDS, Drawing
from gudgeon.paper.template_labels import POINT_MM, Label, Wanted, labels, size_mm

WIDE, MARGIN, LEAST_HIGH = 360.0, 40.0, 70.0
LARGEST = 17.0
THICK, THIN, TWICE = 3.2, 1.2, 3.5
LEAST_LETTERS = 9.0
"""Smaller letters in a ring cannot be read on paper: the names stand beside dots then."""
UNIT_MM = 98.0 / WIDE
"""How large a unit of the drawing is on paper; names beside dots are laid out by that."""
DOT, NAME_PT, AROUND_MM = 3.4, 10.0, 9.0
MOST_BESIDE_MM = 32.0
NARROW = 0.82
"""Of the room that a name is given: the letters of a browser are wider than those of paper."""
STATES = {"done": "done", "open": "not done", "next": "the next one", "doubt": "in doubt"}


def bolts_svg(of: BoltsPicture) -> str:
    """Rings or dots at their places: full where done, empty where not, crossed where in doubt, double where next."""
    on = Drawing(of.name, words=bolts_words(of))
    top = on.paragraph((6, 20), of.name, size=17, bold=True, family=WORDS)
    if of.pattern.viewed_from:
        top = on.paragraph((6, top), f"Seen from {of.pattern.viewed_from}", fill=SOFT)
    spots = of.pattern.spots
    if _letters(spots, _radius(spots, _scale(spots, MARGIN))) < LEAST_LETTERS:
        high, unnamed = _dots(on, spots, top)
        key = _key(of, "dot") + ("; a name without room stands in the table" if unnamed else "")
    else:
        high, key = _rings(on, spots, top), _key(of, "ring")
    on.bottom = on.paragraph((6, top + high + 22), key, fill=SOFT) + 2
    return on.svg()


def _rings(on: Drawing, spots: Sequence[Spot], top: float) -> float:
    """Every name in its ring; how high it all is."""
    scale = _scale(spots, MARGIN)
    radius = _radius(spots, scale)
    across, up = _extent(spots)
    high = max(LEAST_HIGH, up * scale + 2 * LARGEST)
    size = _letters(spots, radius)
    for one, (x, y) in zip(spots, _from_left(spots, scale), strict=True):
        at = ((WIDE - across * scale) / 2 + x, top + (high - up * scale) / 2 + y)
        _mark(on, at, one, radius, fill=CARD)
        on.text((at[0], at[1] + 0.35 * size), one.bolt, size=size, anchor="middle", bold=True)
    return high


def _dots(on: Drawing, spots: Sequence[Spot], top: float) -> tuple[float, int]:
    """Many bolts, or long names: every name beside its dot; how high it all is, and how many found no room."""
    beside = max(size_mm(one.bolt, (), point=NAME_PT)[0] for one in spots) + AROUND_MM / 2
    margin = max(MARGIN, min(MOST_BESIDE_MM, beside) / UNIT_MM)
    scale, (_, up) = _scale(spots, margin), _extent(spots)
    high = up * scale + 2 * AROUND_MM / UNIT_MM
    spot = [(margin + x, AROUND_MM / UNIT_MM + y) for x, y in _from_left(spots, scale)]
    holes = [
        Hole(x * UNIT_MM, -y * UNIT_MM, (DOT + TWICE * (one.state == "next")) * UNIT_MM)
        for (x, y), one in zip(spot, spots, strict=True)
    ]
    named = _named(spots, holes, high * UNIT_MM)
    for (x, y), one in zip(spot, spots, strict=True):
        _mark(on, (x, top + y), one, DOT, fill=INK if one.state == "done" else CARD)
    found = [
        one for one, hole in zip(named, holes, strict=True) if not one.box.meets_round(hole, clear_mm=0.0)
    ]
    for label in found:
        ends = [(x / UNIT_MM, top - y / UNIT_MM) for x, y in label.line or ()]
        on.path([ends], closed=False, stroke=INK, stroke_width=0.8)
        middle = (label.box.left + label.box.right) / 2 / UNIT_MM, top - label.box.bottom / UNIT_MM
        size = NARROW * label.point * POINT_MM / UNIT_MM
        on.text(middle, label.name, size=size, anchor="middle", bold=True)
    return high, len(named) - len(found)


def _named(spots: Sequence[Spot], holes: Sequence[Hole], high_mm: float) -> list[Label]:
    """The names where they find room, away from the middle of all."""
    middle = sum(one.x_mm for one in holes) / len(holes), sum(one.y_mm for one in holes) / len(holes)
    wanted = [
        Wanted(one.bolt, (), hole, degrees(atan2(hole.y_mm - middle[1], hole.x_mm - middle[0])))
        for one, hole in zip(spots, holes, strict=True)
    ]
    window = Window(0, 0, 0.0, -high_mm, WIDE * UNIT_MM, 0.0)
    return labels(wanted, window=window, holes=holes, marks=(), covered=(), lines=(), point=NAME_PT)


def _extent(spots: Sequence[Spot]) -> tuple[float, float]:
    across, up = [one.x_mm for one in spots], [one.y_mm for one in spots]
    return max(across) - min(across), max(up) - min(up)


def _scale(spots: Sequence[Spot], margin: float) -> float:
    return (WIDE - 2 * margin) / max(*_extent(spots), 1.0)


def _from_left(spots: Sequence[Spot], scale: float) -> list[tuple[float, float]]:
    """Where each bolt stands, from the left one to the right and from the top one down [units]."""
    left, high = min(one.x_mm for one in spots), max(one.y_mm for one in spots)
    return [((one.x_mm - left) * scale, (high - one.y_mm) * scale) for one in spots]


def bolts_words(of: BoltsPicture) -> str:
    """The drawing for somebody who does not see it."""
    by_state = {
        state: [one.bolt for one in of.pattern.spots if one.state == state]
        for state in dict.fromkeys(one.state for one in of.pattern.spots)
    }
    said = "; ".join(f"{STATES[state]}: {', '.join(bolts)}" for state, bolts in by_state.items())
    return f"{of.name}, {len(of.pattern.spots)} {of.pattern.called}s by their places; {said}."


def _key(of: BoltsPicture, shape: str) -> str:
    meaning = {
        "done": f"full {shape}: done",
        "open": f"{'thin' if shape == 'ring' else 'empty'} {shape}: not done in this stage",
        "next": "double ring: the next one",
        "doubt": "crossed: in doubt",
    }
    return "; ".join(
        meaning[state] for state in meaning if any(one.state == state for one in of.pattern.spots)
    )


def _radius(spots: Sequence[Spot], scale: float) -> float:
    """As large as reads well, and never so large that two rings touch."""
    apart = min(hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm) for a, b in combinations(spots, 2))
    return max(3.0, min(LARGEST, 0.45 * apart * scale))


def _letters(spots: Sequence[Spot], radius: float) -> float:
    """How large letters are so that the longest name stands clear of its ring, where that is drawn thick."""
    clear = 1.7 * (radius - THICK / 2)
    return min(15.0, clear / max(size_mm(one.bolt, (), point=1.0)[0] / POINT_MM / NARROW for one in spots))


def _mark(on: Drawing, at: tuple[float, float], one: Spot, radius: float, *, fill: str) -> None:
    x, y = at
    thick = THICK if one.state == "done" and fill == CARD else THIN
    on.add("circle", cx=x, cy=y, r=radius, fill=fill, stroke=INK, stroke_width=thick)
    if one.state == "next":
        on.add("circle", cx=x, cy=y, r=radius + TWICE, fill="none", stroke=INK, stroke_width=THIN)
    if one.state == "doubt":
        slant = 0.7 * radius
        on.path(
            [[(x - slant, y - slant), (x + slant, y + slant)]], closed=False, stroke=INK, stroke_width=THIN
        )
