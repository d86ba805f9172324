"""Texts of the terminal that name a place of the data sheet by its path: on a page its name, and a link to it."""

import re
from urllib.parse import urlencode

from gudgeon.bench.context import Bench
from gudgeon.bench.sheet_figures import SECTIONS
from gudgeon.bench.sheet_naming import in_words
from gudgeon.sheet.write import NoSuchFigure
from gudgeon.web.commands import Piece, pieces

_SECTION = "|".join(key for key, _ in SECTIONS)
_LINE = r"(?: \((?:[^()]*, )?line (?P<line>\d+)(?:, column \d+)?\))?"
_PLACE = re.compile(
    rf"(?<![\w/.-])`?(?P<path>(?:{_SECTION})(?:\.[a-z0-9_]+)+)`?{_LINE}"
    rf"|(?<=\()(?P<section>{_SECTION}): (?P<fields>[a-z_]+(?:: [a-z_]+)*)(?=\))"
)
_KEY = re.compile(r"`([^`]*)`|\b([a-z]+(?:_[a-z0-9]+)+)\b(?!\.[a-z])")


def sheet_pieces(bench: Bench, text: str, *, back: str = "", keys: bool = False) -> tuple[Piece, ...]:
    """A text with its places of the sheet named in words that lead to their form, and its commands as links.

    `keys` leaves the names between backticks as they are: in a refusal they may be what a person typed.
    """
    found: list[Piece] = []
    for piece in pieces(text, back=back):
        found += [piece] if piece.address else _placed(bench, piece.text)
    if not keys:
        found = [piece if piece.address else Piece(without_keys(piece.text)) for piece in found]
    return tuple(piece for piece in found if piece.text)


def _placed(bench: Bench, text: str) -> list[Piece]:
    found, start = [], 0
    for match in _PLACE.finditer(text):
        path = match["path"] or ".".join([match["section"], *match["fields"].split(": ")])
        link = place_link(bench, path)
        if link is None:
            continue
        found += [Piece(text[start : match.start()]), link]
        if match["line"]:
            found.append(Piece(f" (line {match['line']} of the data sheet)"))
        start = match.end()
    return [*found, Piece(text[start:])]


def place_link(bench: Bench, path: str) -> Piece | None:
    """The name of a place of the sheet, leading to its form, else to its part; nothing of what is no place."""
    try:
        place = in_words(bench, path)
    except NoSuchFigure:
        return None
    if place.figure:
        return Piece(place.words, f"/sheet/figure?{urlencode({'path': place.figure})}")
    part = place.part or "gaps"
    return Piece(place.words, f"/sheet?{urlencode({'open': part})}#{part}")


def without_keys(text: str) -> str:
    """A text whose names of fields are words: in quotation marks where the terminal quotes them."""

    def said(match: re.Match[str]) -> str:
        return f"“{match[1].replace('_', ' ')}”" if match[1] is not None else match[2].replace("_", " ")

    return _KEY.sub(said, text)
