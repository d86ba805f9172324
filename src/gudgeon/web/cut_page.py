"""The page of “What does the cut do?”, and its picture."""

from urllib.parse import urlencode

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.case import case_of
from gudgeon.bench.cut.consequences import CutAnswer, consequences_of
from gudgeon.bench.errors import CannotWorkOut
from gudgeon.bench.gaps import Gap, gaps
from gudgeon.bench.gaps_cut import cut_gaps
from gudgeon.bench.pictures.cut import can_be_drawn, cut_picture
from gudgeon.errors import GudgeonError
from gudgeon.paper.svg_cut import cut_svg
from gudgeon.sheet.write import is_figure, parse_path
from gudgeon.web.desk import Address, Asked, Desk

_RESTS_ON = ("cylinder", "head", "valve_gear", "drive")
"""The parts of the sheet that a cut is worked out from."""


def what_the_cut_does(desk: Desk, asked: Asked) -> Response:
    """Answer “What does the cut do?”, for the cut that was made or for one asked about."""
    off, gasket = _said(asked)
    with desk.bench() as bench:
        answer: CutAnswer | None = None
        picture = ""
        error: GudgeonError | None = None
        lacking, status = list[Gap](), 200
        try:
            case = case_of(bench, off=off or None, gasket=gasket or None)
            answer = consequences_of(bench, case)
            picture = case.verdict if can_be_drawn(case) else ""
        except CannotWorkOut as refused:
            error = refused
        except GudgeonError as refused:
            error, status = refused, 422
        if answer is None or answer.missing or any(one.missing for one in answer.tables):
            lacking = _lacking(bench)
        head = bench.sheet.head
        cylinder = bench.sheet.cylinder
        query = urlencode({name: value for name, value in (("off", off), ("gasket", gasket)) if value})
        return desk.page(
            "cut.html",
            bench=bench,
            asked=asked,
            status=status,
            answer=answer,
            sources=bench.sheet.sources,
            picture=picture,
            drawn=f"/cut/picture.svg{'?' if query else ''}{query}",
            error=error,
            lacking=lacking,
            figures=[one.path for one in lacking if is_figure(parse_path(one.path))],
            nothing=isinstance(error, CannotWorkOut),
            measured_as=head.measured_as if head is not None else None,
            gaskets=[(name, name) for name in cylinder.gaskets] if cylinder is not None else [],
            off=off,
            gasket=gasket,
        )


def drawn(desk: Desk, asked: Asked) -> Response:
    """Everything over the cut, as SVG."""
    off, gasket = _said(asked)
    with desk.bench() as bench:
        svg = cut_svg(cut_picture(bench, off=off or None, gasket=gasket or None))
    return Response(svg, media_type="image/svg+xml", headers={"Content-Disposition": "inline"})


def _lacking(bench: Bench) -> list[Gap]:
    """What the sheet does not state of what a cut rests on."""
    own = {path for _, _, _, path in cut_gaps(bench.sheet)}
    return [one for one in gaps(bench.sheet) if one.path in own or one.path.split(".")[0] in _RESTS_ON]


def _said(asked: Asked) -> tuple[str, str]:
    return asked.query.get("off", "").strip(), asked.query.get("gasket", "").strip()


ADDRESSES = (
    Address("/cut", what_the_cut_does),
    Address("/cut/picture.svg", drawn),
)
