"""What stands where on one label, and how a flag is parted: nothing overlaps, whatever the label measures."""

import math
from dataclasses import dataclass
from typing import Literal

from gudgeon.calc.errors import not_negative, positive
from gudgeon.calc.labels.errors import FlagTooShort, LabelTooSmall
from gudgeon.calc.labels.sheet import Box

LEAST_LABEL_MM = (15.0, 8.0)
LEAST_HALF_MM = 15.0
LEAST_SQUARE_MM, MOST_SQUARE_MM = 0.4, 0.7
"""Below, a phone may not part two squares of a code; above, it is only larger. COMMON PRACTICE, no source."""
ALLOWANCE_MM = 2.0
"""Besides the way round the wire: paper has a thickness, and hands are not exact. COMMON PRACTICE, no source."""

EDGE_MM = 1.5
"""Between words and the edge of their label, at least."""
_SIGN_MM = 4.0
_UPRIGHT = 1.2
_SHARE = 0.45


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Boxes on one label: the code as a picture (None where it would be too fine), as signs, and the words."""

    picture: Box | None
    square_mm: float
    signs: Box
    words: Box


@dataclass(frozen=True, slots=True)
class Half:
    """One half of a flag: where it stands on the label, and by how much what is on it is turned."""

    box: Box
    turn_deg: Literal[0, 180]


@dataclass(frozen=True, slots=True)
class Flag:
    """A label that folds round a wire: two halves, the strip between them, and the side along which it is parted."""

    halves: tuple[Half, Half]
    strip: Box
    along: Literal["width", "height"]


def arranged(*, width_mm: float, height_mm: float, squares: int) -> Arrangement:
    """What stands where on a label: the picture of the code as large as is of use, its signs with it, the words beside.

    Equation:
        square = side / squares, from 0.4 to 0.7 mm; side ≤ 0.45 · width, and ≤ height with room for the signs where
        that leaves 0.4 mm, else without it. On a label not wider than 1.2 · its height the words stand above

    Parameters:
        width_mm: width of the label [mm]
        height_mm: height of the label [mm]
        squares: of the picture to a side, with the quiet zone [1]

    Returns:
        boxes that lie within the label and apart from each other [mm]

    Valid for:
        labels from 15 × 8 mm on

    Source:
        COMMON PRACTICE, no source: squares of 0.4 mm or more are read by the camera of a phone

    Example:
        >>> made = arranged(width_mm=63.5, height_mm=33.9, squares=29)
        >>> round(made.square_mm, 2), round(made.words.width_mm, 1)
        (0.7, 41.2)

    Not covered:
        how large the letters are
    """
    if width_mm < LEAST_LABEL_MM[0] or height_mm < LEAST_LABEL_MM[1]:
        raise LabelTooSmall(width_mm, height_mm, least=LEAST_LABEL_MM)
    if width_mm < _UPRIGHT * height_mm:
        return _above(width_mm, height_mm=height_mm, squares=squares)
    most = MOST_SQUARE_MM * squares
    under = min(height_mm - _SIGN_MM - EDGE_MM, _SHARE * width_mm, most)
    if under >= LEAST_SQUARE_MM * squares:
        top = (height_mm - under - _SIGN_MM) / 2
        words = Box(under + 0.5, EDGE_MM, width_mm - under - 0.5 - EDGE_MM, height_mm - 2 * EDGE_MM)
        return Arrangement(
            Box(0.0, top, under, under), under / squares, Box(0.0, top + under, under, _SIGN_MM), words
        )
    side = min(height_mm, _SHARE * width_mm, most)
    side = side if side >= LEAST_SQUARE_MM * squares else 0.0
    left = side or EDGE_MM
    high = min(_SIGN_MM, 0.32 * (height_mm - 2 * EDGE_MM))
    wide = width_mm - left - EDGE_MM
    picture = Box(0.0, (height_mm - side) / 2, side, side) if side else None
    signs = Box(left, height_mm - EDGE_MM - high, wide, high)
    return Arrangement(
        picture, side / squares, signs, Box(left, EDGE_MM, wide, height_mm - 2 * EDGE_MM - high)
    )


def _above(width_mm: float, *, height_mm: float, squares: int) -> Arrangement:
    side = min(width_mm, 0.52 * height_mm - _SIGN_MM, MOST_SQUARE_MM * squares)
    side = side if side >= LEAST_SQUARE_MM * squares else 0.0
    signs = Box(EDGE_MM, height_mm - EDGE_MM - _SIGN_MM, width_mm - 2 * EDGE_MM, _SIGN_MM)
    over = signs.top_mm - side
    picture = Box((width_mm - side) / 2, over, side, side) if side else None
    return Arrangement(
        picture, side / squares, signs, Box(EDGE_MM, EDGE_MM, width_mm - 2 * EDGE_MM, over - EDGE_MM)
    )


def flag(*, width_mm: float, height_mm: float, wire_mm: float, allowance_mm: float = ALLOWANCE_MM) -> Flag:
    """A label that is parted along its longer side into two halves and the strip that goes round a wire.

    Equation:
        strip = π · wire + allowance; half = (longer side − strip) / 2. Parted along the width, both halves are upright:
        the fold runs up and down, and so does the way round it to the back. Parted along the height, the upper half
        hangs head down once it is folded, so it is printed head down

    Parameters:
        width_mm: width of the label [mm]
        height_mm: height of the label [mm]
        wire_mm: diameter of the wire with its cover [mm]
        allowance_mm: besides the way round [mm]

    Returns:
        halves, each with its turn, and the strip [mm]

    Valid for:
        halves of 15 mm or more

    Source:
        HAND: the circumference of a circle

    Example:
        >>> made = flag(width_mm=99.1, height_mm=38.1, wire_mm=6)
        >>> round(made.strip.width_mm, 2), round(made.halves[1].box.left_mm, 2), made.along
        (20.85, 59.97, 'width')

    Not covered:
        a bundle that is not round
    """
    positive(width_mm, "Width of the label", unit="mm")
    positive(height_mm, "Height of the label", unit="mm")
    positive(wire_mm, "Diameter of the wire", unit="mm")
    strip = math.pi * wire_mm + not_negative(allowance_mm, "Allowance", unit="mm")
    long = max(width_mm, height_mm)
    half = (long - strip) / 2
    if half < LEAST_HALF_MM:
        raise FlagTooShort(
            length_mm=long, wire_mm=wire_mm, strip_mm=strip, half_mm=half, least_mm=LEAST_HALF_MM
        )
    if width_mm >= height_mm:
        return Flag(
            (Half(Box(0.0, 0.0, half, height_mm), 0), Half(Box(half + strip, 0.0, half, height_mm), 0)),
            Box(half, 0.0, strip, height_mm),
            "width",
        )
    return Flag(
        (Half(Box(0.0, 0.0, width_mm, half), 180), Half(Box(0.0, half + strip, width_mm, half), 0)),
        Box(0.0, half, width_mm, strip),
        "height",
    )
