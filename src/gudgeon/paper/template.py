"""The card template of a joint: every hole at its true place, split over sheets where it is larger than the paper."""

import re
from collections.abc import Mapping, Sequence
from textwrap import shorten
from typing import Any

from gudgeon.bench.template.template import Template, TemplateHole
from gudgeon.calc.template.tiling import CLEAR_MM, MARK_MM, Hole, Laid, Room, Window, lay
from gudgeon.paper.errors import SizeUnknown
from gudgeon.paper.pattern import edges
from gudgeon.paper.press import press
from gudgeon.paper.template_labels import Wanted, labels
from gudgeon.paper.unscaled import unscaled
from gudgeon.paper.words import dated, page_words

PAPER_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""ISO 216:2007; ANSI/ASME Y14.1-2005, size A."""
MARGINS_MM = (26.0, 41.0)
"""Left and right, and top and bottom, as every print has them: common.typ."""
HEAD_MM, EDGE_MM = 22.0, 5.0
"""For the line to measure and the words above the sheet, and for the words along each of its sides."""
OVERLAP_MM = 24.0
OVERVIEW_MM = (150.0, 62.0)
SEEN_LETTERS = 120
"""So much of what it is seen from has room beside the line to measure; the whole stands on the first page."""
ROUND_MM, LINE_MM = 2.0, 0.5
"""White around a hole, and around the outline, at the edge of all sheets."""
MEASURE = (
    "Measure this first: 100 mm between the marks. If it is not, the printer scaled the page: print again at 100 % "
    "(actual size)."
)
_OPPOSITE = {"left": "right", "right": "left", "top": "top", "bottom": "bottom"}


def template_pdf(answer: Template, *, size: str) -> bytes:
    """The template on paper, with the wish that no printer scales it."""
    if size not in PAPER_MM:
        raise SizeUnknown(size, known=PAPER_MM)
    made = press("template.typ", template_data(answer, size=size), size=size, dated_as=dated(answer.heading))
    return unscaled(made)


def laid_out(answer: Template, *, size: str) -> Laid:
    """The sheets that the template takes on this paper."""
    holes = [_round(one) for one in answer.holes]
    white = ROUND_MM - LINE_MM
    xs = [one.x_mm + way * (one.radius_mm + white) for one in holes for way in (-1, 1)]
    ys = [one.y_mm + way * (one.radius_mm + white) for one in holes for way in (-1, 1)]
    xs += [x for x, _ in answer.outline]
    ys += [y for _, y in answer.outline]
    largest = max(2 * one.radius_mm for one in holes) + 2 * CLEAR_MM
    return lay(
        room_of(size),
        low_mm=(min(xs) - LINE_MM, min(ys) - LINE_MM),
        high_mm=(max(xs) + LINE_MM, max(ys) + LINE_MM),
        holes=holes,
        overlap_mm=max(OVERLAP_MM, largest),
    )


def room_of(size: str) -> Room:
    """What a sheet of this paper has for the template."""
    wide, high = PAPER_MM[size]
    across, down = MARGINS_MM[0] + 2 * EDGE_MM, MARGINS_MM[1] + 2 * EDGE_MM + HEAD_MM
    return Room(upright=(wide - across, high - down), lying=(high - across, wide - down))


def template_data(answer: Template, *, size: str) -> dict[str, Any]:
    """Everything that stands on the sheets, in the order in which it stands there; places from the upper left [mm]."""
    laid = laid_out(answer, size=size)
    sides = _sides(answer)
    return {
        "page": page_words(answer.heading, about=f"{answer.name}: card template"),
        "name": answer.name,
        "state": _seen(answer, sides),
        "seen": shorten(_seen(answer, sides), SEEN_LETTERS, placeholder=" …"),
        "measure": MEASURE,
        "remarks": [*answer.remarks, *_unsaid(answer, sides)],
        "steps": _steps(answer, laid),
        "sides": {side: sides.get(side, "") for side in _OPPOSITE},
        "lying": laid.lying,
        "head": HEAD_MM,
        "edge": EDGE_MM,
        "arm": MARK_MM,
        "overview": _overview(answer, laid),
        "sheets": [_sheet(answer, laid, number) for number in range(len(laid.windows))],
        "list": [
            [one.name, f"{one.diameter_mm:g} mm", one.thread or "not stated", one.length or "not stated", one.where]
            for one in answer.holes
        ],
        "called": answer.called,
        "rules": list(dict.fromkeys(one.rule for one in answer.holes if one.rule)),
        "from": answer.said_from or "none stated",
    }  # fmt: skip


def _sides(answer: Template) -> dict[str, str]:
    """What stands at which side of the card as it is printed."""
    sides = edges(answer.viewed_from)
    return {_OPPOSITE[side]: what for side, what in sides.items()} if answer.mirrored else sides


def _unsaid(answer: Template, sides: Mapping[str, str]) -> list[str]:
    """What must be written on the card by hand, because nobody said how it lies."""
    if not answer.viewed_from:
        return [
            "Nothing says from which side this is seen, and laid on from the other side left and right are exchanged: "
            "hold it to the face, and write the timing end on it."
        ]
    if not sides and "timing" not in answer.viewed_from.casefold():
        return [
            "Nothing says at which edge the timing end lies: hold the card to the face, and write it on the edge."
        ]
    return []


def _seen(answer: Template, sides: Mapping[str, str]) -> str:
    if not answer.mirrored:
        return f"Seen from: {answer.viewed_from or 'not stated'}"
    parts = [part.strip() for part in re.split(r"[,;]", answer.viewed_from)]
    views = [part for part in parts if part and not edges(part)]
    placed = [f"{what} at the {side}" for side, what in sides.items()]
    return ", ".join(
        [f"Mirrored: seen from the side opposite to “{' '.join(views) or 'not stated'}”", *placed]
    )


def _round(one: TemplateHole) -> Hole:
    return Hole(one.x_mm, one.y_mm, one.diameter_mm / 2)


def sheet_words(laid: Laid, number: int) -> str:
    """Which sheet it is, and where it lies: `Sheet 2 of 4: right, upper`."""
    window, count = laid.windows[number], len(laid.windows)
    where = ", ".join(
        filter(
            None,
            (
                _along(window.column, of=laid.columns, names=("left", "middle", "right"), called="column"),
                _along(window.row, of=laid.rows, names=("upper", "middle", "lower"), called="row"),
            ),
        )
    )
    return f"Sheet {number + 1} of {count}: {where}" if count > 1 else "All of it on one sheet"


def _along(place: int, *, of: int, names: tuple[str, str, str], called: str) -> str:
    if of == 1:
        return ""
    if of == 2:
        return names[2 * place]
    return names[place] if of == 3 else f"{called} {place + 1} of {of}"


def _steps(answer: Template, laid: Laid) -> list[str]:
    joined = [
        "Cut every sheet along its dashed lines, so that no white margin covers the sheet below.",
        "Lay the sheets on each other in the order of their numbers. Push a pin through the middle of a mark and into "
        "the mark with the same letter on the sheet below; when both marks of two sheets agree, tape them.",
    ]  # fmt: skip
    return [
        "Measure the line of 100 mm on every sheet. Print at 100 % (actual size); the file asks for it, not every "
        "printer obeys.",
        *(joined if len(laid.windows) > 1 else []),
        "Glue it on stiff card, see that it lies the way it is seen here, and punch the holes.",
        f"Put each {answer.called} into its hole as it comes out, and nothing into the hole of another.",
    ]


def _overview(answer: Template, laid: Laid) -> dict[str, Any]:
    """All sheets drawn small, later ones over earlier ones; nothing is measured from it."""
    left, right = (min(one.left_mm for one in laid.windows), max(one.right_mm for one in laid.windows))
    bottom, top = (min(one.bottom_mm for one in laid.windows), max(one.top_mm for one in laid.windows))
    scale = min(OVERVIEW_MM[0] / (right - left), OVERVIEW_MM[1] / (top - bottom))

    def spot(x: float, y: float) -> list[float]:
        return [round((x - left) * scale, 3), round((top - y) * scale, 3)]

    return {
        "width": round((right - left) * scale, 3),
        "height": round((top - bottom) * scale, 3),
        "sheets": [
            {
                "at": spot(one.left_mm, one.top_mm),
                "width": round((one.right_mm - one.left_mm) * scale, 3),
                "height": round((one.top_mm - one.bottom_mm) * scale, 3),
                "name": str(number),
            }
            for number, one in enumerate(laid.windows, 1)
        ],
        "outline": [spot(*one) for one in answer.outline],
        "holes": [
            {
                "at": spot(one.x_mm, one.y_mm),
                "radius": max(0.5, round(one.diameter_mm / 2 * scale, 3)),
                "name": one.name,
            }
            for one in answer.holes
        ],
        "alt": f"{len(answer.holes)} holes on {len(laid.windows)} sheets, {laid.columns} across and {laid.rows} down.",
    }  # fmt: skip


def _sheet(answer: Template, laid: Laid, number: int) -> dict[str, Any]:
    window = laid.windows[number]
    holes = [one for one in answer.holes if window.touches(_round(one))]
    own = [one for one in holes if _owner(one, laid) == number]
    marks = [one for one in laid.marks if number in one.pages]
    placed = labels(
        [Wanted(one.name, tuple(filter(None, (one.thread, one.length))), _round(one)) for one in own],
        window=window,
        holes=[_round(one) for one in holes],
        marks=[(one.x_mm, one.y_mm) for one in marks],
        lines=[(one, answer.outline[at - 1]) for at, one in enumerate(answer.outline)],
        covered=[one for other, one in enumerate(laid.windows) if other > number and _lap(one, window)],
    )

    def spot(x: float, y: float) -> list[float]:
        return [round(x - window.left_mm, 4), round(window.top_mm - y, 4)]

    return {
        "words": sheet_words(laid, number),
        "width": round(window.right_mm - window.left_mm, 4),
        "height": round(window.top_mm - window.bottom_mm, 4),
        "cut": {"left": window.column > 0, "top": window.row > 0},
        "holes": [{"at": spot(one.x_mm, one.y_mm), "radius": one.diameter_mm / 2} for one in holes],
        "outline": [spot(*one) for one in answer.outline],
        "openings": [{"at": spot(x, y), "radius": d / 2} for x, y, d in answer.openings],
        "marks": [
            {"at": spot(one.x_mm, one.y_mm), "letter": one.letter,
             "with": str(one.pages[1 - one.pages.index(number)] + 1)}
            for one in marks
        ],
        "labels": [
            {
                "name": one.name, "lines": list(one.lines), "point": one.point,
                "at": spot(one.box.left, one.box.top),
                "width": round(one.box.right - one.box.left, 3), "height": round(one.box.top - one.box.bottom, 3),
                "line": [spot(*end) for end in one.line] if one.line else [],
            }
            for one in placed
        ],
        "alt": f"{sheet_words(laid, number)}. Holes of {answer.called}s {_names(own)} at their true places.",
    }  # fmt: skip


def _names(holes: Sequence[TemplateHole]) -> str:
    return ", ".join(one.name for one in holes) or "none"


def _owner(hole: TemplateHole, laid: Laid) -> int:
    """The sheet on which a hole has its words: the one that lies uppermost of those that hold it whole."""
    whole = [number for number, one in enumerate(laid.windows) if one.holds(_round(hole))]
    return whole[-1]


def _lap(one: Window, other: Window) -> bool:
    return (
        one.left_mm < other.right_mm
        and other.left_mm < one.right_mm
        and one.bottom_mm < other.top_mm
        and other.bottom_mm < one.top_mm
    )
