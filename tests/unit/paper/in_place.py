"""Whether the words of a print stand where they belong: on the part of the page that is printed, whole, clear of each
other, and not across a rule of their table.

The boxes of the words are those of `pdftotext -bbox-layout`; the rules are found in the page as `pdftoppm` draws it. Words
that a window on a picture hides count as cut off: a print that shows one picture through several windows fails here.
"""

import html
import re
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tests.unit.paper.reading import program

EDGE_MM = 10.0
"""What home printers leave white at the worst edge (common practice, no source)."""
POINT_MM = 25.4 / 72
DPI = 100
DARK = 228
"""Darker than the gray behind a cell, lighter than the finest rule as it is drawn at this resolution."""
NOTICEABLE = (1.2, 0.6)
"""So many points must words lie over each other, across and down, for the eye to see it."""
PAST = 3.0
"""So many points must a stroke go on beyond a word, on both sides, to be a rule and no part of a letter."""

SEEN = (0.7, 0.5)
"""So much of the width of a word must carry ink, and of the height of its small letters; the rest is room around."""

_PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', re.DOTALL)
_WORD = re.compile(
    r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>', re.DOTALL
)


@dataclass(frozen=True, slots=True)
class Box:
    """A word and its box [points from the left and the top]."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    @property
    def upright(self) -> bool:
        """Whether it is set along a line, not turned by a quarter."""
        return len(self.text) < 3 or self.right - self.left > 0.9 * (self.bottom - self.top)

    def core(self) -> "Box":
        """The part of the box that small letters fill: the rest is room for what rises and hangs."""
        high, wide = self.bottom - self.top, self.right - self.left
        if self.upright:
            return Box(self.text, self.left, self.top + 0.28 * high, self.right, self.bottom - 0.24 * high)
        return Box(self.text, self.left + 0.3 * wide, self.top, self.right - 0.3 * wide, self.bottom)


def misplaced(pdf: bytes) -> list[str]:
    """Every word that does not stand where it belongs, with its page and what is wrong; nothing where all is well."""
    found: list[str] = []
    drawn = _drawn(pdf)
    for number, (wide, high, words) in enumerate(_pages(pdf), start=1):
        ink = next(drawn)
        wrong = (
            *_off_the_page(words, wide, high), *_over_each_other(words), *_across_a_rule(words, ink), *_cut_off(words, ink),
        )  # fmt: skip
        found += [f"page {number}: {what}" for what in wrong]
    return found


def _pages(pdf: bytes) -> Iterator[tuple[float, float, list[Box]]]:
    done = subprocess.run(
        [program("pdftotext"), "-bbox-layout", "-enc", "UTF-8", "-", "-"],
        input=pdf,
        capture_output=True,
        check=True,
    )
    for wide, high, body in _PAGE.findall(done.stdout.decode("utf-8")):
        words = [
            Box(html.unescape(text), *(float(edge) for edge in edges)) for *edges, text in _WORD.findall(body)
        ]
        yield float(wide), float(high), [one for one in words if one.text.strip()]


def _drawn(pdf: bytes) -> Iterator[NDArray[np.bool_]]:
    """Where each page carries ink."""
    done = subprocess.run(
        [program("pdftoppm"), "-gray", "-r", str(DPI), "-"], input=pdf, capture_output=True, check=True
    )
    drawn, at = done.stdout, 0
    while at < len(drawn):
        kind, size, most, _ = drawn[at : at + 32].split(b"\n", 3)
        assert (kind, most) == (b"P5", b"255")
        wide, high = (int(figure) for figure in size.split())
        at += len(kind) + len(size) + len(most) + 3
        yield np.frombuffer(drawn, dtype=np.uint8, count=wide * high, offset=at).reshape(high, wide) < DARK
        at += wide * high


def _off_the_page(words: list[Box], wide: float, high: float) -> Iterator[str]:
    for one in words:
        core = one.core()
        edges = {
            "left": core.left, "top": core.top, "right": wide - core.right, "bottom": high - core.bottom,
        }  # fmt: skip
        side, room = min(edges.items(), key=lambda item: item[1])
        if room * POINT_MM < EDGE_MM - 0.05:
            yield f"“{one.text}” is {room * POINT_MM:.1f} mm from the {side} edge"


def _over_each_other(words: list[Box]) -> Iterator[str]:
    if len(words) < 2:
        return
    cores = [one.core() for one in words]
    edges = np.array([(one.left, one.top, one.right, one.bottom) for one in cores])
    across = np.minimum(edges[:, None, 2], edges[None, :, 2]) - np.maximum(
        edges[:, None, 0], edges[None, :, 0]
    )
    down = np.minimum(edges[:, None, 3], edges[None, :, 3]) - np.maximum(edges[:, None, 1], edges[None, :, 1])
    for first, second in np.argwhere((across > NOTICEABLE[0]) & (down > NOTICEABLE[1])):
        if first < second:
            yield f"“{words[first].text}” lies over “{words[second].text}”"


def _across_a_rule(words: list[Box], ink: NDArray[np.bool_]) -> Iterator[str]:
    """A stroke through the middle of a word that goes on beyond it on both sides."""
    scale = DPI / 72
    for one in words:
        if not one.upright:
            continue
        left, top, right, bottom = (edge * scale for edge in (one.left, one.top, one.right, one.bottom))
        core, past = one.core(), int(PAST * scale)
        columns = slice(int(left + scale), max(int(right - scale), 0))
        rows = slice(max(int(top) - past, 0), int(bottom) + past)
        if ink[rows, columns].size and ink[rows, columns].all(axis=0).any():
            yield f"a rule runs down through “{one.text}”"
        rows = slice(int(core.top * scale) + 1, int(core.bottom * scale))
        columns = slice(max(int(left) - past, 0), int(right) + past)
        if ink[rows, columns].size and ink[rows, columns].all(axis=1).any():
            yield f"a rule runs across “{one.text}”"


def _cut_off(words: list[Box], ink: NDArray[np.bool_]) -> Iterator[str]:
    """A word of which a part is not to be seen: what cut or covered it is no matter."""
    scale = DPI / 72
    for one in words:
        if not one.upright or not re.fullmatch(r"[^\W_]{4,}", one.text):
            continue
        core = one.core()
        seen = ink[
            int(one.top * scale) : int(one.bottom * scale) + 1,
            int(one.left * scale) : int(one.right * scale) + 1,
        ]
        middle = ink[
            int(core.top * scale) : int(core.bottom * scale) + 1,
            int(one.left * scale) : int(one.right * scale) + 1,
        ]
        across, down = np.flatnonzero(seen.any(axis=0)), np.flatnonzero(middle.any(axis=1))
        if (
            not len(across)
            or not len(down)
            or np.ptp(across) < SEEN[0] * seen.shape[1]
            or np.ptp(down) < SEEN[1] * middle.shape[0]
        ):
            yield f"“{one.text}” is cut off"
