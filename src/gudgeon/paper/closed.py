"""The closed book on paper: what was asked, found, done and accepted, the photos, and how to verify all of it."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import Any

from gudgeon.bench.closed.model import ClosedBook, Drawn, PhotoShown, Row, Section, Table
from gudgeon.book.printed_photo import FEW, QUALITY, PrintedPhoto, Sides, printed_photos, sides_of
from gudgeon.book.tell import Tell, silent
from gudgeon.paper.closed_drawings import DrawnOnce, drawn_once
from gudgeon.paper.column_widths import shares
from gudgeon.paper.errors import PhotosTooLarge
from gudgeon.paper.press import LARGEST, press
from gudgeon.paper.words import dated, page_words, without_commands, without_places

LONGEST_S = 120.0
"""How long the pages of a long book may take to be set."""
PHOTO_WIDE_MM, PHOTO_HIGH_MM = 150.0, 92.0
"""The most room that a photo takes: two stand on a page with their words."""
_MINUS = re.compile(r"(?<![\w.–-])-(?=\d)")
LONG = 600
"""A text of so many letters may be broken over two pages."""
ROOM_FOR_PHOTOS = LARGEST - 8_000_000
PYTHON = "3.8"
"""The oldest Python that the checker runs with."""


@dataclass(frozen=True, slots=True)
class Printing:
    """How a book is printed: its photos, or why there are none; and how far it is, told to whom."""

    photos: Mapping[str, PrintedPhoto]
    sides: Sides = FEW
    left_out: str = ""


def closed_pdf(
    book: ClosedBook, *, size: str, folder: Path, with_photos: bool = True, tell: Tell = silent
) -> bytes:
    """The whole book on paper; `folder` is where its photos lie. The same book gives the same bytes."""
    wanted = [one.sha for one in book.photos if not one.wrong] if with_photos else []
    photos = printed_photos(folder, list(dict.fromkeys(wanted)), tell=tell)
    weight = sum(len(one.content) for one in photos.values())
    if weight > ROOM_FOR_PHOTOS:
        raise PhotosTooLarge(len(photos), weight, most=ROOM_FOR_PHOTOS)
    left_out = (
        "" if with_photos or not book.photos else "They are left out of this print, as it was asked for."
    )
    printing = Printing(photos, sides_of(len(wanted)), left_out)
    drawings = drawn_once(one for section in book.sections for one in section.pictures)
    files = {f"{sha}.jpg": one.content for sha, one in photos.items()}
    files |= {name: svg.encode() for one in drawings for name, svg in one.files.items()}
    tell("setting the pages")
    data = closed_data(book, printing, {one.of: one for one in drawings})
    return press(
        "closed.typ", data, size=size, dated_as=dated(book.heading), files=files, longest_s=LONGEST_S
    )


def closed_data(book: ClosedBook, printing: Printing, drawings: Mapping[Drawn, DrawnOnce]) -> dict[str, Any]:
    """Everything that stands in the print, in the order in which it stands there."""
    title = "The closed book" if book.closed else "The book so far"
    return {
        "page": page_words(book.heading, about=title),
        "title": title,
        "lead": book.lead,
        "closed": book.closed,
        "open": [
            {"family": one.family, "things": [_for_print(thing) for thing in one.things]} for one in book.open
        ],
        "sections": [_section(one, drawings) for one in book.sections],
        "photos": [_photo(one, printing.photos.get(one.sha)) for one in book.photos],
        "photos_said": _photos_said(book, printing),
        "head": grouped(book.head),
        "build": ascii(book.heading.build),  # as the lines say it, whatever letters a terminal has
        "entries": book.entries,
        "checker": [{"in": len(line) - len(line.lstrip()), "text": line.strip()} for line in book.checker],
        "checker_lines": len(book.checker),
        "python": PYTHON,
    }


def grouped(head: str) -> str:
    """A head in groups of four, as it is read out and typed.

    Example:
        >>> grouped("53a05319b33d")
        '53a0 5319 b33d'
    """
    return " ".join(head[at : at + 4] for at in range(0, len(head), 4))


def _section(one: Section, drawings: Mapping[Drawn, DrawnOnce]) -> dict[str, Any]:
    return {
        "title": one.title,
        "said": [without_places(_for_print(text)) for text in one.said],
        "missing": [without_places(_for_print(text)) for text in one.missing],
        "tables": [_table(table) for table in one.tables],
        "drawings": [
            {"files": list(drawn.files), "alt": drawn.words, "wide": drawn.wide_mm}
            for drawn in (drawings[picture] for picture in one.pictures)
        ],
    }


def _table(one: Table) -> dict[str, Any]:
    numbered = any(row.entries for row in one.rows)
    rows = [_row(row, numbered=numbered) for row in one.rows]
    heads = ["No.", *one.heads] if numbered else list(one.heads)
    plain = [row["cells"] for row in rows if row["mark"] != "group"]
    return {
        "name": one.name,
        "note": without_places(_for_print(one.note)),
        "heads": heads,
        "shares": shares([heads, *plain]),
        "rows": rows,
    }


def _row(one: Row, *, numbered: bool) -> dict[str, Any]:
    cells = [_for_print(cell) for cell in one.cells]
    if one.mark == "group":
        return {"cells": cells, "mark": one.mark, "long": False}
    shown = [ranges(one.entries), *cells] if numbered else cells
    return {"cells": shown, "mark": one.mark, "long": any(len(cell) > LONG for cell in cells)}


def _for_print(text: str) -> str:
    """A text without what is typed in a terminal, a minus that no line is broken behind before its number."""
    return _MINUS.sub("−", without_commands(text))


def ranges(numbers: Sequence[int]) -> str:
    """Numbers of entries, those in a row as a span.

    Example:
        >>> ranges((3, 4, 5, 9))
        '3–5, 9'
    """
    runs = groupby(enumerate(sorted(numbers)), key=lambda one: one[1] - one[0])
    spans = [[number for _, number in run] for _, run in runs]
    return ", ".join(f"{one[0]}–{one[-1]}" if len(one) > 1 else str(one[0]) for one in spans)


def _photo(one: PhotoShown, printed: PrintedPhoto | None) -> dict[str, Any]:
    wide, high = _fitted(one.width, one.height)
    struck = f"STRUCK: {one.struck}" if one.struck else ""
    pins = [f"{pin.number} {pin.words}" for pin in one.pins]
    return {
        "number": one.number,
        "file": f"{one.sha}.jpg" if printed is not None else "",
        "wide": wide,
        "high": high,
        "caption": one.caption,
        "sha": one.sha,
        "said": "; ".join(one.said),
        "pins_said": "; ".join(pins),
        "pins": [
            {"number": pin.number, "x": wide * pin.x / 1000, "y": high * pin.y / 1000} for pin in one.pins
        ],
        "alt": ". ".join(filter(None, [one.caption, "; ".join(pins)])),
        "remark": "; ".join(filter(None, [one.wrong, struck])),
    }


def _fitted(wide: int, high: int) -> tuple[float, float]:
    """How large a photo stands on paper [mm]: as large as there is room, whatever its shape."""
    scale = min(PHOTO_WIDE_MM / wide, PHOTO_HIGH_MM / high)
    return round(max(2.0, wide * scale), 2), round(max(2.0, high * scale), 2)


def _photos_said(book: ClosedBook, printing: Printing) -> list[str]:
    return list(_said_of_photos(book, printing))


def _said_of_photos(book: ClosedBook, printing: Printing) -> Iterator[str]:
    yield from book.photos_missing
    if printing.left_out:
        yield printing.left_out
    elif book.photos:
        yield (
            f"Here they are scaled to at most {printing.sides.most} pixels at the longer side, JPEG at {QUALITY} of "
            "100. Each lies in the archive as it was taken, under the SHA-256 that stands beside it."
        )
