"""A template larger than the paper: pages at true scale that overlap, and marks by which one is laid on the other."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, dist, hypot

from gudgeon.calc.errors import positive
from gudgeon.calc.template.tiling_errors import HoleOverPage, HoleTooLarge, NothingToLay, TooManyPages

MOST_PAGES = 24
MARK_MM = 4.0
"""How far the arms of a register mark reach from its middle."""
CLEAR_MM = 1.5
"""Least white between a hole and the edge of a page, or a register mark."""
_SHIFTS = 12
_STEPS = 24


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole: its middle to the right and up, and its radius [mm]."""

    x_mm: float
    y_mm: float
    radius_mm: float


@dataclass(frozen=True, slots=True)
class Room:
    """What one page has for the template, upright and lying [mm]."""

    upright: tuple[float, float]
    lying: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Window:
    """What one page shows: its column from the left and its row from the top, both from 0, and its edges [mm]."""

    column: int
    row: int
    left_mm: float
    bottom_mm: float
    right_mm: float
    top_mm: float

    def holds(self, hole: Hole, *, clear_mm: float = 0.0) -> bool:
        """Whether the whole hole stands on this page, and so much white around it."""
        reach = hole.radius_mm + clear_mm
        return (
            self.left_mm + reach <= hole.x_mm <= self.right_mm - reach
            and self.bottom_mm + reach <= hole.y_mm <= self.top_mm - reach
        )

    def touches(self, hole: Hole) -> bool:
        """Whether any of the hole stands on this page."""
        x = min(max(hole.x_mm, self.left_mm), self.right_mm)
        y = min(max(hole.y_mm, self.bottom_mm), self.top_mm)
        return hypot(hole.x_mm - x, hole.y_mm - y) < hole.radius_mm


@dataclass(frozen=True, slots=True)
class Mark:
    """A register mark: its letter, its place [mm], and the two pages (by number from 0) that it joins."""

    letter: str
    x_mm: float
    y_mm: float
    pages: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Laid:
    """Pages from the top left in rows, all of one size; a later one is laid over an earlier one."""

    lying: bool
    columns: int
    rows: int
    windows: tuple[Window, ...]
    marks: tuple[Mark, ...]
    cut_holes: int


def lay(
    room: Room, *, low_mm: tuple[float, float], high_mm: tuple[float, float], holes: Sequence[Hole],
    overlap_mm: float,
) -> Laid:  # fmt: skip
    """As few pages as hold a template at true scale, upright or lying, with marks that join each to its neighbors.

    Equation:
        pages along a side n = ⌈(span − overlap) / (room − overlap)⌉, one at least; what is left over is shared between
        the overlaps and the edges so that as few holes as can be are cut by the edge of a page

    Parameters:
        room: what a page has for the template, upright and lying [mm]
        low_mm: the lower left corner of all that is drawn [mm]
        high_mm: its upper right corner [mm]
        holes: holes that are to be punched [mm]
        overlap_mm: how far neighbors show the same, at least [mm]

    Returns:
        the pages with what each shows, and two marks for each pair of neighbors, at one true place on both [mm]

    Valid for:
        up to 24 pages; holes that are smaller than the overlap, each of which then stands whole on a page

    Source:
        HAND: of n pages of a length r that overlap by o the sum is n r − (n − 1) o, and it must reach the span.

    Example:
        >>> a4 = Room(upright=(184, 230), lying=(271, 140))
        >>> laid = lay(a4, low_mm=(0, 0), high_mm=(300, 400), holes=[Hole(150, 200, 5)], overlap_mm=25)
        >>> laid.columns, laid.rows, laid.lying, len(laid.marks)
        (2, 2, False, 8)

    Not covered:
        pages turned at other angles, or of several sizes in one template.
    """
    span = (high_mm[0] - low_mm[0], high_mm[1] - low_mm[1])
    if not (span[0] > 0 and span[1] > 0):
        raise NothingToLay
    largest = max((2 * (one.radius_mm + CLEAR_MM) for one in holes), default=0.0)
    if largest > positive(overlap_mm, "Overlap", unit="mm"):
        raise HoleTooLarge(largest - 2 * CLEAR_MM, overlap_mm)
    page = min(*room.upright, *room.lying)
    if 2 * overlap_mm > page:
        raise HoleOverPage(largest - 2 * CLEAR_MM, page / 2 - 2 * CLEAR_MM)
    counts = {
        lying: tuple(_count(one, of, overlap_mm) for one, of in zip(span, size, strict=True))
        for lying, size in ((False, room.upright), (True, room.lying))
    }
    lying = counts[True][0] * counts[True][1] < counts[False][0] * counts[False][1]
    columns, rows = counts[lying]
    if columns * rows > MOST_PAGES:
        raise TooManyPages(columns * rows, MOST_PAGES)
    size = room.lying if lying else room.upright
    across, up = (
        _starts(
            (low_mm[axis], high_mm[axis]), room=size[axis], count=count, overlap=overlap_mm,
            spots=[((one.x_mm, one.y_mm)[axis], one.radius_mm + CLEAR_MM) for one in holes],
        )
        for axis, count in ((0, columns), (1, rows))
    )  # fmt: skip
    windows = tuple(
        Window(column, row, left, bottom, left + size[0], bottom + size[1])
        for row, bottom in enumerate(reversed(up))
        for column, left in enumerate(across)
    )
    cut = sum(any(one.touches(hole) and not one.holds(hole) for one in windows) for hole in holes)
    return Laid(lying, columns, rows, windows, tuple(_marks(windows, holes)), cut)


def _count(span: float, room: float, overlap: float) -> int:
    return max(1, ceil(round((span - overlap) / (room - overlap), 9)))


def _starts(
    ends: tuple[float, float],
    *,
    room: float,
    count: int,
    overlap: float,
    spots: Sequence[tuple[float, float]],
) -> list[float]:
    """Where the pages along one side begin: what is left over is shared so that few edges run through a hole."""
    low, high = ends
    spare = count * room - (count - 1) * overlap - (high - low)
    best: tuple[tuple[float, float, float], list[float]] | None = None
    for before in range(_SHIFTS + 1):
        for between in range(_SHIFTS + 1 - before if count > 1 else 1):
            lapped = between / _SHIFTS * spare / max(count - 1, 1)
            step = room - overlap - lapped
            starts = [low - before / _SHIFTS * spare + number * step for number in range(count)]
            inner = [*starts[1:], *(one + room for one in starts[:-1])]
            cut = sum(any(abs(edge - spot) < reach for edge in inner) for spot, reach in spots)
            middle = abs((starts[0] + starts[-1] + room) - (low + high))
            order = (float(cut), round(middle, 6), lapped)
            if best is None or order < best[0]:
                best = (order, starts)
    assert best is not None
    return best[1]


def _marks(windows: Sequence[Window], holes: Sequence[Hole]) -> Iterator[Mark]:
    """Two marks for each pair of neighbors, near the ends of what both show, never under a hole or another mark."""
    placed: list[tuple[float, float]] = []
    for first, one in enumerate(windows):
        for second in range(first + 1, len(windows)):
            other = windows[second]
            if abs(one.column - other.column) + abs(one.row - other.row) != 1:
                continue
            others = [third for third in windows if third is not one and third is not other]
            for x, y in _two_spots((one, other), others, holes, placed):
                placed.append((x, y))
                yield Mark(_letter(len(placed)), x, y, (first, second))


def _two_spots(
    pair: tuple[Window, Window],
    others: Sequence[Window],
    holes: Sequence[Hole],
    placed: Sequence[tuple[float, float]],
) -> list[tuple[float, float]]:
    """The two free places that lie farthest apart; what a third page would cover is left out where it can be."""
    one, other = pair
    low = (max(one.left_mm, other.left_mm), max(one.bottom_mm, other.bottom_mm))
    high = (min(one.right_mm, other.right_mm), min(one.top_mm, other.top_mm))
    reach = MARK_MM + CLEAR_MM
    grids = [
        [start + share / _STEPS * (end - start) for share in range(_STEPS + 1)]
        for start, end in ((low[0] + reach, high[0] - reach), (low[1] + reach, high[1] - reach))
    ]
    middle = [(start + end) / 2 for start, end in zip(low, high, strict=True)]
    along = 1 if one.column != other.column else 0

    def value(spot: tuple[float, float]) -> float:
        return abs(spot[along] - middle[along]) - 0.5 * abs(spot[1 - along] - middle[1 - along])

    def free(spot: tuple[float, float]) -> bool:
        return all(dist(spot, (hole.x_mm, hole.y_mm)) > hole.radius_mm + reach for hole in holes) and all(
            dist(spot, mark) > 4 * MARK_MM for mark in placed
        )

    def clear(spot: tuple[float, float]) -> bool:
        return not any(third.touches(Hole(*spot, reach)) for third in others)

    best = sorted(((x, y) for x in grids[0] for y in grids[1]), key=value, reverse=True)
    found = []
    for upper in (False, True):
        end = [spot for spot in best if (spot[along] > middle[along]) == upper]
        spot = next(filter(lambda one: clear(one) and free(one), end), None) or next(filter(free, end), None)
        found += [spot] if spot is not None else []
    return found


def _letter(number: int) -> str:
    """A to Z, then AA, AB and on."""
    first, last = divmod(number - 1, 26)
    return (chr(64 + first) if first else "") + chr(65 + last)
