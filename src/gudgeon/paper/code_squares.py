"""A text as the squares of a QR code (ISO/IEC 18004), for paper, for a page and for a terminal."""

from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from segno import QRCode

QUIET = 4
"""Blank squares around the code. Source: PRINTED, ISO/IEC 18004:2015, quiet zone of four modules."""


def made(text: str, *, restores: Literal["m", "q"] = "m") -> "QRCode":
    """The code: `m` restores about 15 % of it, a screen with oily thumbs on it; `q` 25 %, a label at the bench."""
    import segno

    return segno.make(text, error=restores, micro=False, boost_error=restores == "m")


def dark_runs(code: "QRCode") -> list[tuple[int, int, int]]:
    """The dark squares, run by run: column and row where it begins, without the quiet zone, and its length."""
    found = []
    for row, squares in enumerate(code.matrix):
        begun = None
        for column, dark in enumerate([*squares, 0]):
            if dark and begun is None:
                begun = column
            elif not dark and begun is not None:
                found.append((begun, row, column - begun))
                begun = None
    return found
