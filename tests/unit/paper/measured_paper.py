"""A print measured as with a ruler: rendered at 600 dpi, places of rings and strokes in mm from the upper left corner."""

import subprocess
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from tests.unit.paper.reading import program

DPI = 600
MM = DPI / 25.4
_DARK = 128


@dataclass(frozen=True)
class Paper:
    """One rendered page: how dark each point is, from 0 for white to 255 for black."""

    ink: NDArray[np.uint8]

    def part(self, x: float, y: float, reach: float) -> tuple[NDArray[np.uint8], float, float]:
        """What stands around a place, and where that piece begins [mm]."""
        left, top = round((x - reach) * MM), round((y - reach) * MM)
        size = round(2 * reach * MM)
        piece = self.ink[top : top + size, left : left + size]
        return piece, left / MM, top / MM

    def ring(self, x: float, y: float, radius: float) -> tuple[float, float, float]:
        """Middle and diameter of a ring near a place: half way between its sides, beside the cross in its middle."""
        piece, left, top = self.part(x, y, radius + 0.6)
        middle = piece.shape[0] / 2
        rows = [round(middle + way * 0.7 * radius * MM) for way in (-1, 1)]
        across = [_ends(piece[row]) for row in rows]
        down = [_ends(piece[:, row]) for row in rows]
        xs = [(first + last) / 2 for first, last in across]
        ys = [(first + last) / 2 for first, last in down]
        # Of a chord and how far it stands from the middle, the diameter; to the middle of the stroke.
        cx, cy = sum(xs) / 2, sum(ys) / 2
        widths = [
            2 * np.hypot((last - first) / 2, row + 0.5 - cy)
            for row, (first, last) in zip(rows, across, strict=True)
        ]
        return left + cx / MM, top + cy / MM, float(np.mean(widths)) / MM

    def cross(self, x: float, y: float, reach: float) -> tuple[float, float]:
        """The middle of a cross whose arms reach farther than this, by where the ink lies."""
        piece, left, top = self.part(x, y, reach)
        dark = piece > _DARK
        columns, rows = dark.sum(axis=0), dark.sum(axis=1)
        most = 0.8 * piece.shape[0]
        return left + _middle(columns > most) / MM, top + _middle(rows > most) / MM

    def strokes(self, box: tuple[float, float, float, float], *, longer_mm: float) -> list[float]:
        """Where upright strokes stand from the left [mm] within left, top, right, bottom: those longer than this."""
        left, top, right, bottom = (round(one * MM) for one in box)
        tall = (self.ink[top:bottom, left:right] > _DARK).sum(axis=0) > longer_mm * MM
        edges = np.flatnonzero(np.diff(np.concatenate([[0], tall.astype(int), [0]])))
        return [(left + (first + last) / 2) / MM for first, last in edges.reshape(-1, 2)]


def _ends(line: NDArray[np.uint8]) -> tuple[float, float]:
    """The middles of the first and of the last stroke of a line."""
    dark = np.flatnonzero(line > _DARK)
    breaks = np.flatnonzero(np.diff(dark) > 1)
    assert len(breaks), "two strokes"
    return (dark[0] + dark[breaks[0]] + 1) / 2, (dark[breaks[-1] + 1] + dark[-1] + 1) / 2


def _middle(full: NDArray[np.bool_]) -> float:
    at = np.flatnonzero(full)
    assert len(at), "a stroke"
    return float(at.mean()) + 0.5


def rendered(pdf: bytes, folder: Path, *, first: int, last: int) -> list[Paper]:
    """Some pages of a print, counted from one."""
    file = folder / "measured.pdf"
    file.write_bytes(pdf)
    subprocess.run(
        [program("pdftoppm"), "-gray", "-r", str(DPI), "-f", str(first), "-l", str(last), str(file),
         str(folder / "measured")],
        check=True, capture_output=True,
    )  # fmt: skip
    pages = []
    for picture in sorted(folder.glob("measured*.pgm")):
        head, _, pixels = picture.read_bytes().partition(b"\n255\n")
        wide, high = (int(figure) for figure in head.split()[1:3])
        pages.append(Paper(255 - np.frombuffer(pixels, dtype=np.uint8).reshape(high, wide)))
        picture.unlink()
    return pages
