"""Labels on their sheet: number, what it is of, where that goes, and its code as signs and as a picture."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from gudgeon.bench.labels.ask import NOTE_MM, Labels
from gudgeon.bench.labels.errors import spaced
from gudgeon.bench.labels.find import PREFIX
from gudgeon.bench.labels.sheets import COMMON
from gudgeon.bench.labels.things import Label
from gudgeon.calc.labels.arrange import (
    EDGE_MM,
    LEAST_LABEL_MM,
    LEAST_SQUARE_MM,
    Arrangement,
    Half,
    arranged,
    flag,
)
from gudgeon.calc.labels.errors import FlagTooShort
from gudgeon.calc.labels.sheet import Box, LabelPlace, LabelSheet, places
from gudgeon.paper.code_squares import QUIET, dark_runs, made
from gudgeon.paper.press import press
from gudgeon.paper.unscaled import unscaled
from gudgeon.paper.words import dated, page_words

KIND_WORDS = {
    "connector": "Connector", "hose": "Hose", "strap": "Strap", "bracket": "Bracket", "bolt": "Bolts", "cover": "Cover",
    "part": "Part", "plug": "Plug: take it out again", "joint": "Bolts of a joint",
}  # fmt: skip
SQUARES = 21
"""To a side of the smallest code, which holds the prefix and six signs and restores a quarter of itself.

Source: PRINTED, ISO/IEC 18004:2015, version 1: 21 modules, 16 letters and figures at level Q."""

CHECK_MM = 100.0
_PRINTER_WHITE_MM = 4.2
_KEPT_FREE_MM = _PRINTER_WHITE_MM - 0.5
"""From the edge of a sheet to what is laid out on a label there; the signs of a code keep the rest themselves."""


def labels_pdf(answer: Labels) -> bytes:
    """The sheets of labels, each page exactly as large as its sheet, with the wish that nothing scales it."""
    return unscaled(press("labels.typ", labels_data(answer), size="a4", dated_as=dated(answer.heading)))


def too_small_for_a_picture(answer: Labels) -> str:
    """What is said where the code stands on the labels as signs alone; nothing else."""
    if _has_pictures(answer):
        return ""
    what = f"flags round a wire of {answer.wire}" if answer.flag is not None else "labels"
    keeping = [one for one in COMMON if _keeps_pictures(answer, one.sheet)]
    own = [one for one in keeping if math.isclose(one.sheet.width_mm, answer.sheet.width_mm)]
    names = "; ".join(one.name for one in own or keeping)
    helps = f"With these sheets it is kept: {names}." if names else "None of the sheets known here keeps it."
    return (
        f"These {what} have no room for the code as a picture that a phone reads (that takes "
        f"{(SQUARES + 2 * QUIET) * LEAST_SQUARE_MM:.0f} mm to a side, common practice, no source). Its six signs stand "
        f"on them, to be typed. {helps}"
    )


def _has_pictures(answer: Labels) -> bool:
    return all(
        made_of.picture is not None for place in answer.places for _, made_of in _halves(answer, place)
    )


def _keeps_pictures(answer: Labels, sheet: LabelSheet) -> bool:
    """Whether each label of another sheet has its picture, folded round the same wire."""
    wide, high = sheet.label_width_mm, sheet.label_height_mm
    try:
        parted = (
            flag(width_mm=wide, height_mm=high, wire_mm=answer.wire_mm) if answer.flag is not None else None
        )
    except FlagTooShort:
        return False
    every = places(sheet, count=sheet.rows * sheet.columns)
    return _has_pictures(replace(answer, sheet=sheet, places=every, flag=parted))


def labels_data(answer: Labels) -> dict[str, Any]:
    """Everything that stands on the sheets, in mm from the upper left corner of each."""
    sheet = answer.sheet
    at_edge = None if answer.notes else _note_box(sheet)
    notes = {one.sheet: _on(one, _inset(_printable(sheet, one, _whole(sheet)))) for one in answer.notes}
    pages: list[dict[str, Any]] = [
        {
            "note": _mm(notes[number] if at_edge is None else at_edge.box),
            "turned": at_edge is not None and at_edge.turned,
            "labels": [],
        }
        for number in range(1, answer.sheets + 1)
    ]
    for label, place in zip(answer.labels, answer.places, strict=True):
        pages[place.sheet - 1]["labels"].append(_label(answer, label, place))
    line = _line_box(sheet)
    return {
        "page": page_words(answer.heading, about=_about(answer)),
        "width": sheet.width_mm,
        "height": sheet.height_mm,
        "outlines": answer.outlines,
        "line": _mm(line) if line is not None else None,
        "pages": pages,
    }


def _about(answer: Labels) -> str:
    return f"Labels, to fold round a wire of {answer.wire}" if answer.flag is not None else "Labels"


def _whole(sheet: LabelSheet) -> Box:
    return Box(0.0, 0.0, sheet.label_width_mm, sheet.label_height_mm)


def _halves(answer: Labels, place: LabelPlace) -> list[tuple[Half, Arrangement]]:
    """What a label is parted into, two halves where it folds, else the whole of it; and what stands where on each."""
    parted = answer.flag.halves if answer.flag is not None else (Half(_whole(answer.sheet), 0),)
    halves = [Half(_printable(answer.sheet, place, one.box), one.turn_deg) for one in parted]
    return [
        (one, arranged(width_mm=one.box.width_mm, height_mm=one.box.height_mm, squares=SQUARES + 2 * QUIET))
        for one in halves
    ]


def _printable(sheet: LabelSheet, place: LabelPlace, box: Box) -> Box:
    """What of a box on a label a printer reaches; the whole where too little would be left."""
    on = _on(place, box)
    left, top = max(on.left_mm, _KEPT_FREE_MM), max(on.top_mm, _KEPT_FREE_MM)
    wide = min(on.left_mm + on.width_mm, sheet.width_mm - _KEPT_FREE_MM) - left
    high = min(on.top_mm + on.height_mm, sheet.height_mm - _KEPT_FREE_MM) - top
    if wide < LEAST_LABEL_MM[0] or high < LEAST_LABEL_MM[1]:
        return box
    return Box(left - place.left_mm, top - place.top_mm, wide, high)


def _inset(box: Box) -> Box:
    return Box(
        box.left_mm + EDGE_MM, box.top_mm + EDGE_MM, box.width_mm - 2 * EDGE_MM, box.height_mm - 2 * EDGE_MM
    )


def _label(answer: Labels, label: Label, place: LabelPlace) -> dict[str, Any]:
    return {
        "box": _mm(_on(place, _whole(answer.sheet))),
        "number": label.number,
        "what": label.what,
        "where": _where(label),
        "small": _small(label),
        "signs": spaced(label.code),
        "picture": _picture(label.code),
        "folds": _mm(answer.flag.strip) if answer.flag is not None else None,
        "across": answer.flag is not None and answer.flag.along == "height",
        "halves": [
            {
                "box": _mm(half.box),
                "turn": half.turn_deg,
                "picture": _mm(made_of.picture) if made_of.picture is not None else None,
                "signs": _mm(made_of.signs),
                "words": _mm(made_of.words),
            }
            for half, made_of in _halves(answer, place)
        ],
    }


def _where(label: Label) -> str:
    if label.where.startswith("place "):
        return f"Goes to {label.where}"
    return f"{label.where[:1].upper()}{label.where[1:]}"


def _small(label: Label) -> str:
    """Its kind; and since when it is off, which stays true on paper. How far a joint is does not."""
    kind = KIND_WORDS[label.kind]
    word = "since" if label.family == "plugged" else "off since"
    since = label.since.replace(" ", "\u00a0")  # a day is not parted from its month
    return f"{kind}, {word} {since}" if since else kind


def _picture(code: str) -> str:
    """The picture of a code as a drawing whose sides are its squares, with the quiet zone."""
    squares = made(f"{PREFIX} {code}", restores="q")
    side = len(squares.matrix) + 2 * QUIET
    path = "".join(
        f"M{column + QUIET} {row + QUIET}h{run}v1h-{run}z" for column, row, run in dark_runs(squares)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {side} {side}" width="{side}" height="{side}">'
        f'<path d="{path}" fill="#000"/></svg>'
    )


@dataclass(frozen=True, slots=True)
class _Note:
    """Where the note stands in a margin; turned in one that is upright."""

    box: Box
    turned: bool


def _note_box(sheet: LabelSheet) -> _Note:
    """The margin that holds the note: below, else above, else at a side."""
    wide = sheet.width_mm - 2 * max(_PRINTER_WHITE_MM, min(sheet.left_mm, sheet.right_mm))
    left = (sheet.width_mm - wide) / 2
    if sheet.bottom_mm >= NOTE_MM:
        high = _high(sheet.bottom_mm)
        return _Note(
            Box(left, sheet.height_mm - sheet.bottom_mm + _gap(sheet.bottom_mm, high), wide, high), False
        )
    if sheet.top_mm >= NOTE_MM:
        high = _high(sheet.top_mm)
        return _Note(Box(left, sheet.top_mm - _gap(sheet.top_mm, high) - high, wide, high), False)
    margin = max(sheet.left_mm, sheet.right_mm)
    wide = _high(margin)
    from_left = sheet.left_mm - _gap(margin, wide) - wide
    if sheet.right_mm > sheet.left_mm:
        from_left = sheet.width_mm - sheet.right_mm + _gap(margin, wide)
    return _Note(Box(from_left, 10.0, wide, sheet.height_mm - 20.0), True)


def _high(margin: float) -> float:
    """How much of a margin the note takes: what printers leave white stays free where there is room."""
    return min(7.0, max(4.0, margin - _PRINTER_WHITE_MM - 0.8))


def _gap(margin: float, high: float) -> float:
    """Between the labels and the note."""
    return min(0.8, max(0.0, margin - high))


def _line_box(sheet: LabelSheet) -> Box | None:
    """Where a line of 100 mm stands to hold a rule against; in the margin without the note, else nowhere."""
    free = _PRINTER_WHITE_MM + 2
    if sheet.width_mm < CHECK_MM + 40 or min(sheet.top_mm, sheet.bottom_mm) < free:
        return None
    return Box((sheet.width_mm - CHECK_MM) / 2, sheet.top_mm - 2.2, CHECK_MM, 0.0)


def _on(place: LabelPlace, box: Box) -> Box:
    return Box(place.left_mm + box.left_mm, place.top_mm + box.top_mm, box.width_mm, box.height_mm)


def _mm(box: Box) -> list[float]:
    return list(_rounded(box))


def _rounded(box: Box) -> Iterator[float]:
    for value in (box.left_mm, box.top_mm, box.width_mm, box.height_mm):
        yield round(value, 4)
