"""Where the words of each hole stand on a template: beside it, over nothing else, with a line where it is far."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, hypot, radians, sin

from gudgeon.calc.template.tiling import MARK_MM, Hole, Window

Spot = tuple[float, float]
POINT_MM = 0.3528
NUMBER_PT, WORDS_PT, LEAST_PT = 16.0, 8.0, 9.0
WIDE, PLAIN = 0.95, 0.54
"""How wide a letter is at most, of the size of type."""
WIDE_LETTERS = frozenset("MWmw@%&—…GOQDHNU")
NEAR_MM = 1.2
FAR_MM = (NEAR_MM, 3.0, 6.0, 10.0, 15.0, 21.0, 28.0)
LINE_FROM_MM = 5.0
CLEAR_MM = 0.8
DIRECTIONS = (0, 180, 90, 270, 45, 315, 135, 225, 20, 160, 340, 200, 70, 110, 250, 290)


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the part [mm], upward."""

    left: float
    bottom: float
    right: float
    top: float

    def meets(self, other: "Box", *, clear_mm: float = CLEAR_MM) -> bool:
        """Whether the two come nearer than they should."""
        return (
            self.left < other.right + clear_mm
            and other.left < self.right + clear_mm
            and self.bottom < other.top + clear_mm
            and other.bottom < self.top + clear_mm
        )

    def meets_round(self, hole: Hole, *, clear_mm: float = CLEAR_MM) -> bool:
        """Whether it comes nearer to a hole than it should."""
        x = min(max(hole.x_mm, self.left), self.right)
        y = min(max(hole.y_mm, self.bottom), self.top)
        return hypot(hole.x_mm - x, hole.y_mm - y) < hole.radius_mm + clear_mm

    def meets_line(self, line: tuple[Spot, Spot]) -> bool:
        """Whether a line from one place to another comes nearer than it should."""
        start, end = line
        first, last = 0.0, 1.0
        for low, high, a, b in (
            (self.left - CLEAR_MM, self.right + CLEAR_MM, start[0], end[0]),
            (self.bottom - CLEAR_MM, self.top + CLEAR_MM, start[1], end[1]),
        ):
            if a == b:
                if not low < a < high:
                    return False
                continue
            ends = sorted(((low - a) / (b - a), (high - a) / (b - a)))
            first, last = max(first, ends[0]), min(last, ends[1])
        return first < last


@dataclass(frozen=True, slots=True)
class Label:
    """The words of one hole: number and lines, the rectangle they stand in, and the ends of a line to the hole."""

    name: str
    lines: tuple[str, ...]
    box: Box
    point: float
    line: tuple[tuple[float, float], tuple[float, float]] | None


@dataclass(frozen=True, slots=True)
class Wanted:
    """A hole that is to be labeled, if it can be toward a side [degrees from the right, to the left round]."""

    name: str
    lines: tuple[str, ...]
    hole: Hole
    toward: float | None = None


def labels(
    wanted: Sequence[Wanted], *, window: Window, holes: Sequence[Hole], marks: Sequence[Spot],
    covered: Sequence[Window], lines: Sequence[tuple[Spot, Spot]], point: float = NUMBER_PT,
) -> list[Label]:  # fmt: skip
    """A label for each hole on one page, off all lines; `covered` are pages that are laid over parts of it."""
    reach = MARK_MM + 4.0  # the letter stands beside the mark
    taken = [Box(x - MARK_MM, y - MARK_MM, x + reach, y + MARK_MM) for x, y in marks]
    taken += [Box(one.left_mm, one.bottom_mm, one.right_mm, one.top_mm) for one in covered]
    drawn = list(lines)
    placed = []
    for one in wanted:
        label = _placed(one, window=window, holes=holes, taken=taken, lines=drawn, point=point)
        taken.append(label.box)
        drawn += [label.line] if label.line is not None else []
        placed.append(label)
    return placed


def size_mm(name: str, lines: Sequence[str], *, point: float = NUMBER_PT) -> tuple[float, float]:
    """How wide and how high the words of a hole are."""
    wide = max(_ems(name) * point, *(_ems(line) * WORDS_PT for line in lines), 0.0) * POINT_MM
    return wide, (0.8 * point + 1.15 * WORDS_PT * len(lines)) * POINT_MM


def _ems(text: str) -> float:
    return sum(WIDE if letter in WIDE_LETTERS or ord(letter) > 0x2FF else PLAIN for letter in text)


def _placed(
    one: Wanted,
    *,
    window: Window,
    holes: Sequence[Hole],
    taken: Sequence[Box],
    lines: Sequence[tuple[Spot, Spot]],
    point: float,
) -> Label:
    """The nearest free place; where there is none for all words, one for the number alone."""
    for words, size in ((one.lines, point), ((), point), ((), LEAST_PT)):
        for box, line in _tries(one, size_mm(one.name, words, point=size)):
            inside = (
                window.left_mm < box.left
                and box.right < window.right_mm
                and window.bottom_mm < box.bottom
                and box.top < window.top_mm
            )
            free = inside and not any(box.meets(other) for other in taken)
            free = free and not any(box.meets_round(other) for other in holes)
            free = free and not any(box.meets_line(other) for other in lines)
            if free and (line is None or _reaches(line, one.hole, holes=holes, taken=taken)):
                return Label(one.name, words, box, size, line)
    wide, high = size_mm(one.name, (), point=LEAST_PT)
    x, y = one.hole.x_mm, one.hole.y_mm
    return Label(one.name, (), Box(x + 0.5, y + 0.5, x + 0.5 + wide, y + 0.5 + high), LEAST_PT, None)


def _reaches(line: tuple[Spot, Spot], own: Hole, *, holes: Sequence[Hole], taken: Sequence[Box]) -> bool:
    """Whether a line to a hole runs over no other words and no other hole."""
    around = (
        Box(
            one.x_mm - one.radius_mm,
            one.y_mm - one.radius_mm,
            one.x_mm + one.radius_mm,
            one.y_mm + one.radius_mm,
        )
        for one in holes
        if one != own
    )
    return not any(one.meets_line(line) for one in (*taken, *around))


def _tries(
    one: Wanted, size: tuple[float, float]
) -> Iterator[tuple[Box, tuple[tuple[float, float], tuple[float, float]] | None]]:
    hole, (wide, high) = one.hole, size
    ways: Sequence[float] = DIRECTIONS
    if one.toward is not None:
        toward = one.toward
        ways = sorted(DIRECTIONS, key=lambda way: abs((way - toward + 180) % 360 - 180))
    for far in FAR_MM:
        for degrees in ways:
            across, up = cos(radians(degrees)), sin(radians(degrees))
            away = hole.radius_mm + far
            x = hole.x_mm + across * (away + wide / 2)
            y = hole.y_mm + up * (away + high / 2)
            line = None
            if far >= LINE_FROM_MM:
                start = hole.radius_mm + 0.4
                line = (
                    (hole.x_mm + across * start, hole.y_mm + up * start),
                    (hole.x_mm + across * (away - 0.6), hole.y_mm + up * (away - 0.6)),
                )
            yield Box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2), line
