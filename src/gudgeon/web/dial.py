"""Where the paint mark stands and where it must go: a clock face; and the digits of a figure as a drawing."""

import math
from dataclasses import dataclass

MIDDLE, OUTER, HAND = 50.0, 44.0, 34.0
_FULL = 359.9
_DIGIT, _HEIGHT, _WIDEST = 72.0, 128.0, 262.0
_NARROW = {
    ".": 30.0,
    ",": 30.0,
    "°": 46.0,
    "–": 48.0,
    "-": 36.0,
    " ": 24.0,
    "/": 38.0,
    "½": 74.0,
    "¼": 74.0,
    "¾": 74.0,
}


@dataclass(frozen=True, slots=True)
class Dial:
    """The mark now and after the pull, as points of a drawing 100 wide and high; `arc` is the way between them."""

    now: tuple[float, float]
    then: tuple[float, float]
    arc: str
    head: str
    words: str


def dial(turned: tuple[float, float], *, words: str) -> Dial:
    """The clock face of a turn; angles [°] count to the right from 12 o'clock."""
    before, after = turned
    swept = min(after - before, _FULL)
    start, end = _at(before, OUTER), _at(before + swept, OUTER)
    arc = f"M{start[0]} {start[1]}A{OUTER:g} {OUTER:g} 0 {int(swept > 180)} 1 {end[0]} {end[1]}"
    tip, out, back = end, _at(after - 14, OUTER + 6), _at(after - 14, OUTER - 6)
    head = f"M{tip[0]} {tip[1]}L{out[0]} {out[1]}L{back[0]} {back[1]}z"
    return Dial(_at(before, HAND), _at(after, HAND), arc, head, words)


def _at(angle_deg: float, radius: float) -> tuple[float, float]:
    turn = math.radians(angle_deg % 360)
    return round(MIDDLE + radius * math.sin(turn), 1), round(MIDDLE - radius * math.cos(turn), 1)


@dataclass(frozen=True, slots=True)
class Digits:
    """A number as one line of a drawing: as wide as it may be, whatever letters the device has."""

    text: str
    width: float
    height: float
    base: float


def digits(text: str) -> Digits:
    """The room of a number; one that would be too wide is pressed together, never made lower."""
    wide = sum(_NARROW.get(one, _DIGIT) for one in text)
    below = 28.0 if "," in text else 0.0
    return Digits(text, min(wide, _WIDEST), _HEIGHT + below, _HEIGHT - 5)
