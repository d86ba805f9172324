"""The card template of a joint, and the page on which its places are traced from a photo."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.bench.photo_look import photo_look
from gudgeon.bench.pin_errors import NoSuchPhoto
from gudgeon.bench.template.errors import PointedUnreadable, TracedTooCoarsely
from gudgeon.bench.template.positions import USEFUL_MM, as_address, as_file, pair, said_positions
from gudgeon.bench.template.template import template
from gudgeon.errors import GudgeonError
from gudgeon.paper.template import template_pdf
from gudgeon.sheet.joints import Joint
from gudgeon.web.desk import Address, Asked, Desk
from gudgeon.web.paper_files import as_file as handed_over
from gudgeon.web.paper_files import size_of
from gudgeon.web.pin_rows import TAP_WIDTH
from gudgeon.web.whole import whole

if TYPE_CHECKING:
    from gudgeon.bench.photo_look import PhotoLook
    from gudgeon.bench.template.tracing import TraceAnswer

CORNERS = (("A", "lower left"), ("B", "lower right"), ("C", "upper right"), ("D", "upper left"))
FORM = "640,480"
MOST_FIELDS = 1000
_PIXELS = re.compile(r"-?\d{1,5}([.,]\d{1,5})?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Aim:
    """One point to be pointed at in the photo: a corner of the rectangle, or a hole by the number of its fastener."""

    key: str
    mark: str
    words: str
    said: str
    across: float | None
    down: float | None
    """Where it is drawn, in thousandths of the width; nothing where it was not pointed at yet."""


def template_on_paper(desk: Desk, asked: Asked) -> Response:
    """The card template of a joint as a PDF, `?size=a4` or `letter`, `mirrored=yes`; `places=` for the sheet's."""
    said = asked.query.get("places", "")
    seen, off = asked.query.get("seen", ""), asked.query.get("off", "")
    positions = said_positions(said, viewed_from=seen, off_by=off) if said else None
    mirrored = asked.query.get("mirrored") == "yes"
    with desk.bench() as bench:
        answer = template(bench, asked.path["joint"], mirrored=mirrored, positions=positions)
        size = size_of(asked, bench)
    name = f"template-{answer.joint}" + ("-mirrored" if mirrored else "")
    return handed_over(template_pdf(answer, size=size), answer.heading, name)


def trace_form(desk: Desk, asked: Asked) -> Response:
    """Where a photo is pointed at, to trace the places of a joint: corners of a rectangle, then every hole."""
    with desk.bench() as bench:
        return _page(desk, asked, bench, asked.query)


def trace_said(desk: Desk, asked: Asked) -> Response:
    """Places in mm from what was pointed at; a tap without a script only fills the form. Nothing is written."""
    form = dict(asked.form)
    with desk.bench() as bench:
        if "at.x" in form:
            return _page(desk, asked, bench, _tapped(bench, asked.path["sha"], form))
        try:
            answer = _traced(bench, asked.path["sha"], form)
        except NoSuchPhoto:
            return desk.page("photo_lost.html", bench=bench, asked=asked, status=404)
        except GudgeonError as error:
            return _page(desk, asked, bench, form, error=error)
        return _page(desk, asked, bench, form, traced=answer)


def _page(
    desk: Desk, asked: Asked, bench: Bench, said: Mapping[str, str], *,
    error: GudgeonError | None = None, traced: "TraceAnswer | None" = None,
) -> Response:  # fmt: skip
    try:
        photo = photo_look(bench, asked.path["sha"])
    except NoSuchPhoto:
        return desk.page("photo_lost.html", bench=bench, asked=asked, status=404)
    key = said.get("joint", "")
    joint = bench.sheet.joints.get(key)
    aims = list(_aims(joint, photo, said)) if joint is not None else []
    chosen = said.get("tap", "")
    return desk.page(
        "trace.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        answer=photo,
        joints=[(name, one.name) for name, one in bench.sheet.joints.items()],
        joint=joint,
        key=key,
        aims=aims,
        tap=chosen if chosen in [one.key for one in aims] else next((a.key for a in aims if not a.said), ""),
        said=said,
        width=TAP_WIDTH,
        height=round(TAP_WIDTH * photo.photo.height / photo.photo.width),
        traced=traced,
        file=as_file(traced) if traced is not None else "",
        print_at=_print_at(traced) if traced is not None else "",
        error=error,
        again=_too_coarse(said, traced, error),
    )


def _too_coarse(said: Mapping[str, str], traced: "TraceAnswer | None", error: GudgeonError | None) -> bool:
    """Whether pointing again, closer, is the next thing to do: a bolt would not find its hole."""
    if traced is not None:
        return traced.worst_mm > USEFUL_MM
    return isinstance(error, TracedTooCoarsely) and bool(said.get("coarse"))


def _aims(joint: Joint, photo: "PhotoLook", said: Mapping[str, str]) -> Iterator[Aim]:
    scale = 1000 / photo.photo.width

    def aim(name: str, mark: str, words: str) -> Aim:
        text = said.get(name, "").strip()
        try:
            x, y = pair(text, of=text, form=FORM)
        except GudgeonError:
            return Aim(name, mark, words, text, None, None)
        return Aim(name, mark, words, text, round(x * scale, 1), round(y * scale, 1))

    for letter, corner in CORNERS:
        yield aim(f"corner.{letter}", letter, f"Corner {letter}, {corner}")
    for name in joint.bolt_names:
        where = joint.bolt(name).where
        yield aim(
            f"place.{name}", name, f"{joint.called.capitalize()} {name}" + (f", {where}" if where else "")
        )


def _tapped(bench: Bench, sha: str, form: dict[str, str]) -> dict[str, str]:
    """The form after a tap on the small picture, which is as coarse as that picture is."""
    from gudgeon.bench.template.tracing import photo_in_book

    target = form.get("tap", "")
    if not target.startswith(("corner.", "place.")):
        return form
    photo = photo_in_book(bench, sha)
    fine = photo.width / TAP_WIDTH
    x, y = ((whole(form.get(name, "")) or 0) + 0.5 for name in ("at.x", "at.y"))
    filled = {
        **form,
        target: f"{min(x * fine, photo.width):.0f},{min(y * fine, photo.height):.0f}",
        "tap": "",
    }
    if fine > 1:
        filled["pointed"] = f"{fine:.0f}"
    return filled


def _traced(bench: Bench, sha: str, form: Mapping[str, str]) -> "TraceAnswer":
    from gudgeon.bench.template.tracing import TraceSaid, photo_in_book, traced
    from gudgeon.calc.template.homography import Known
    from gudgeon.quantity.written import parse_amount

    wide, high = (
        parse_amount(form.get(name, ""), kind="length", default_unit="mm").to("mm")
        for name in ("wide", "high")
    )
    true = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    known = [
        Known(letter, pair(form[f"corner.{letter}"], of=form[f"corner.{letter}"], form=FORM), spot)
        for (letter, _), spot in zip(CORNERS, true, strict=True)
        if form.get(f"corner.{letter}", "").strip()
    ]
    places = {
        name.removeprefix("place."): pair(text, of=text, form=FORM)
        for name, text in form.items()
        if name.startswith("place.") and text.strip()
    }
    pick = _pixels(form.get("pointed", "").strip())
    said = TraceSaid(form.get("joint", ""), known, places, form.get("viewed_from", "").strip(), pick)
    return traced(bench, photo_in_book(bench, sha), said)


def _pixels(said: str) -> float | None:
    """How far a tap may miss; nothing where nothing is said."""
    if not said:
        return None
    if not _PIXELS.fullmatch(said):
        raise PointedUnreadable(said)
    return float(said.replace(",", "."))


def _print_at(answer: "TraceAnswer") -> str:
    """The address of the template of traced places, to which the size is added."""
    places = {one.name: (one.x_mm, one.y_mm) for one in answer.places}
    said = {"places": as_address(places), "off": f"{answer.worst_mm:.1f} mm", "seen": answer.viewed_from}
    return f"/paper/template/{answer.joint}.pdf?{urlencode({k: v for k, v in said.items() if v})}&"


ADDRESSES = (
    Address("/paper/template/{joint}.pdf", template_on_paper),
    Address("/photos/{sha}/trace", trace_form),
    Address("/photos/{sha}/trace", trace_said, methods=("POST",), most_fields=MOST_FIELDS),
)
