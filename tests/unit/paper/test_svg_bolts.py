"""The bolts of a joint as a drawing: every name can be read, however many there are and whatever they are called."""

import re
from itertools import combinations
from math import cos, hypot, sin, tau

import pytest

from gudgeon.bench.closed.model import BoltsPicture
from gudgeon.bench.pattern import Pattern, Spot
from gudgeon.paper.svg_bolts import bolts_svg

STATES = ("done", "done", "doubt", "done", "next")
"""Of the first bolts; the others are not done."""
WIDEST = 0.62
"""A bold letter or digit of a common sans serif, as a share of its size: HAND, from the widths that Arial Bold states."""
LONG = 38
WIDE, LEAST = 360.0, 8.9
"""How wide a drawing is, and the least size of letters: 8.9 of 360 units are 2.4 mm, 7 points, where it is 98 mm wide."""
CIRCLE = re.compile(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"')
NAME = re.compile(r'<text x="([\d.]+)" y="([\d.]+)" font-size="([\d.]+)"([^>]*)>([^<]+)</text>')
Box = tuple[float, float, float, float]


def spots(names: list[str], places: list[tuple[float, float]]) -> tuple[Spot, ...]:
    return tuple(
        Spot(name, x, y, STATES[at] if at < len(STATES) else "open")
        for at, (name, (x, y)) in enumerate(zip(names, places, strict=True))
    )


def head() -> tuple[Spot, ...]:
    """Four rows and a ring of four at the end, 38 in all, close together and far apart."""
    places = [(146.0 * row, float(y)) for row in range(7) for y in (114, 28, -28, -114)]
    places += [(146.0 * row + 73, 150.0) for row in range(6)]
    places += [(930.0 + 30 * cos(at * tau / 4), 30 * sin(at * tau / 4)) for at in range(4)]
    return spots([str(at + 1) for at in range(LONG)], places)


def flywheel() -> tuple[Spot, ...]:
    names = [f"Paßschraube-{at + 1}" for at in range(11)]
    return spots(names, [(53 * sin(at * tau / 11), 53 * cos(at * tau / 11)) for at in range(11)])


def caps() -> tuple[Spot, ...]:
    names = [f"{side}{cap}{end}" for side in "IE" for cap in range(1, 6) for end in "ab"]
    places = [(90.0 * cap, float(way * y)) for way in (1, -1) for cap in range(5) for y in (42, 78)]
    return spots(names, places)


def named(drawn: str, of: tuple[Spot, ...]) -> dict[str, tuple[Box, float]]:
    """Where each name stands, and how large its letters are."""
    wanted, found = {one.bolt for one in of}, {}
    for x, y, size, _, said in NAME.findall(drawn):
        if said in wanted:
            wide, high = WIDEST * float(size) * len(said), 0.72 * float(size)
            left = float(x) - wide / 2
            found[said] = ((left, float(y) - high, left + wide, float(y)), float(size))
    return found


def meets(box: Box, other: Box) -> bool:
    return box[0] < other[2] and other[0] < box[2] and box[1] < other[3] and other[1] < box[3]


def off_circles(box: Box, circles: list[tuple[float, float, float]]) -> bool:
    """Whether the words stand over the line of no ring and no dot: wholly inside, or wholly outside."""
    for x, y, radius in circles:
        near = hypot(x - min(max(x, box[0]), box[2]), y - min(max(y, box[1]), box[3]))
        far = max(hypot(x - a, y - b) for a in (box[0], box[2]) for b in (box[1], box[3]))
        if near < radius + 0.6 and far > radius - 0.6:
            return False
    return True


@pytest.mark.parametrize("of", [head(), flywheel(), caps()], ids=["head", "flywheel", "caps"])
def test_every_name_can_be_read(of: tuple[Spot, ...]) -> None:
    drawn = bolts_svg(BoltsPicture("Test bolts", Pattern("above", of)))
    found = named(drawn, of)
    assert set(found) == {one.bolt for one in of}
    circles = [(float(x), float(y), float(radius)) for x, y, radius in CIRCLE.findall(drawn)]
    assert [name for name, (box, _) in found.items() if not off_circles(box, circles)] == []
    assert [name for name, (box, _) in found.items() if box[0] < 0 or box[2] > WIDE] == []
    assert [pair for pair in combinations(found, 2) if meets(found[pair[0]][0], found[pair[1]][0])] == []
    assert min(size for _, size in found.values()) >= LEAST


def test_a_name_that_finds_no_room_is_left_out_and_the_drawing_says_so() -> None:
    of = spots([f"S{at}" for at in range(60)], [(34.0 * (at % 30), 200.0 * (at // 30)) for at in range(60)])
    drawn = bolts_svg(BoltsPicture("Oil pan bolts", Pattern("below", of)))
    assert 0 < len(named(drawn, of)) < 60
    assert "stands in the table" in re.sub(r"<[^>]+>", " ", drawn)
