"""Whether points can be those of a face: how far they reach, against the outline that the sheet draws of it."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import dist

from gudgeon.bench.measuring_errors import FaceTooLarge, FaceTooSmall
from gudgeon.quantity.format import both
from gudgeon.sheet.faces import Face

LARGER, SMALLER = 1.1, 0.2
"""Of the longest way across the outline: no scan reaches further, and none of a whole face less far."""
_LEAST_OF_A_FACE = 0.5
_SLIPS = (
    (25.4, "25.4-fold too large: was it in mm, and not in inches?"),
    (1000.0, "A thousand-fold too large: was it in µm?"),
    (10.0, "Ten-fold too large: did a decimal point slip?"),
    (1 / 25.4, "25.4-fold too small: was it in inches?"),
    (1 / 1000, "A thousand-fold too small: was it in meters?"),
    (1 / 10, "A tenth of it: was it in cm, or did a decimal point slip?"),
)


def fits_face(name: str, face: Face | None, points: Sequence[Sequence[float]]) -> None:
    """Ask back when points [mm] reach further than the face, or over so little of it that the unit may be wrong."""
    across = _across(face) if face is not None else 0.0
    if not across or not points:
        return
    reach = max(max(column) - min(column) for column in list(zip(*points, strict=True))[:2])
    told = (
        both(reach, kind="length", decimals=1),
        both(across, kind="length", decimals=0),
        _slip(reach / across),
    )
    if reach > LARGER * across:
        raise FaceTooLarge(name, *told)
    if reach < SMALLER * across:
        raise FaceTooSmall(name, *told)


def _across(face: Face) -> float:
    """The longest way across what the sheet draws of a face; 0 where it draws nothing."""
    corners = [(one.x.middle_in("mm"), one.y.middle_in("mm")) for one in face.outline]
    if len(corners) < 3:
        return max(_lengths(face), default=0.0) if _drawn_whole(face) else 0.0
    return max(dist(one, other) for one, other in combinations(corners, 2))


def _drawn_whole(face: Face) -> bool:
    """Without an outline only a diagonal says how large a face is."""
    return any(line.along == "diagonal" for line in face.lines.values())


def _lengths(face: Face) -> Iterator[float]:
    for line in face.lines.values():
        length = line.length_mm()
        if length is not None:
            yield length


def _slip(times: float) -> str:
    """The slip that alone would make it fit."""
    found = [words for factor, words in _SLIPS if _LEAST_OF_A_FACE * factor <= times <= LARGER * factor]
    return found[0] if found else "Is the unit right, and is it this face?"
