"""The drawings of the closed book: each as a file of its own, with its words for those who do not see it."""

from collections.abc import Iterable
from dataclasses import dataclass

from gudgeon.bench.closed.model import BoltsPicture, Drawn
from gudgeon.bench.pictures.cut import CutPicture
from gudgeon.bench.pictures.drive import DrivePicture
from gudgeon.bench.pictures.events import EventsPicture
from gudgeon.paper.svg import CARD, PAPER
from gudgeon.paper.svg_bolts import bolts_svg, bolts_words
from gudgeon.paper.svg_cut import cut_svg
from gudgeon.paper.svg_drive import drive_svg
from gudgeon.paper.svg_events import events_svg
from gudgeon.paper.svg_picture import picture_svg
from gudgeon.paper.svg_slices import size_of, slices

WIDE_MM, HIGH_MM = 98.0, 150.0
BESIDE_MM, TALL_MM = 86.0, 215.0
"""A drawing that would be higher than a page is cut in two, and the pieces stand beside each other."""
_ON_PAPER = "#ffffff"


@dataclass(frozen=True, slots=True)
class DrawnOnce:
    """One drawing: its files from the left to the right, its name and words, how wide each is printed [mm]."""

    of: Drawn
    files: dict[str, str]
    name: str
    words: str
    wide_mm: float


def drawn_once(pictures: Iterable[Drawn]) -> tuple[DrawnOnce, ...]:
    """Every picture drawn, the same one once."""
    return tuple(_drawn(one, number) for number, one in enumerate(dict.fromkeys(pictures), start=1))


def _drawn(one: Drawn, number: int) -> DrawnOnce:
    svg = _svg(one).replace(PAPER, _ON_PAPER).replace(CARD, _ON_PAPER)
    wide, high = size_of(svg)
    pieces: tuple[str, ...] = (svg,)
    if high * WIDE_MM / wide > HIGH_MM:
        pieces = slices(svg, most_high=high / 2)
    most = WIDE_MM if len(pieces) == 1 else BESIDE_MM
    tallest = max(size_of(piece)[1] for piece in pieces)
    files = {f"drawing-{number}-{at}.svg": piece for at, piece in enumerate(pieces, start=1)}
    return DrawnOnce(one, files, _name(one), _words(one), round(min(most, TALL_MM * wide / tallest), 1))


def _svg(one: Drawn) -> str:
    if isinstance(one, BoltsPicture):
        return bolts_svg(one)
    if isinstance(one, CutPicture):
        return cut_svg(one)
    if isinstance(one, DrivePicture):
        return drive_svg(one)
    return events_svg(one) if isinstance(one, EventsPicture) else picture_svg(one)


def _name(one: Drawn) -> str:
    if isinstance(one, CutPicture):
        return "What the cut does"
    return one.title if isinstance(one, DrivePicture | EventsPicture) else one.name


def _words(one: Drawn) -> str:
    return bolts_words(one) if isinstance(one, BoltsPicture) else one.words
