"""Is it timed: wheels, marks and teeth, a mark that was seen off, valve events, and the proof."""

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.errors import GudgeonError, InputError
from gudgeon.web.desk import Address, Asked, Desk


def is_it_timed(desk: Desk, asked: Asked) -> Response:
    """Answer “Is it timed?”; `?seen=` takes a mark that stands off, as a person writes it."""
    from gudgeon.bench.timing.answer import timing

    off = asked.query.get("seen", "").strip()
    with desk.bench() as bench:
        answer, status = None, 200
        error: GudgeonError | None = None
        try:
            answer = timing(bench, seen_off=(off,) if off else ())
        except InputError as refused:
            error, status, answer = refused, 422, timing(bench)
        except GudgeonError as refused:
            error, status = refused, 422
        drawn = _pictures_in_words(bench) if answer is not None else ("", "")
        return desk.page(
            "timing.html",
            bench=bench,
            asked=asked,
            status=status,
            answer=answer,
            sources=bench.sheet.sources,
            error=error,
            off=off,
            drive_words=drawn[0],
            events_words=drawn[1],
        )


def _pictures_in_words(bench: Bench) -> tuple[str, str]:
    """The drive and the events for somebody who does not see them; empty where there is nothing to draw."""
    from gudgeon.bench.pictures.drive import drive_picture
    from gudgeon.bench.pictures.events import events_picture
    from gudgeon.bench.timing.answer import events_of
    from gudgeon.bench.timing.drive import drive_model

    model, found = drive_model(bench), events_of(bench)
    return (
        drive_picture(model).words if model is not None else "",
        events_picture(found, engine=bench.sheet.engine.name).words if found.lines else "",
    )


def drive_drawn(desk: Desk, asked: Asked) -> Response:
    """The drive of the camshafts to scale, as SVG."""
    from gudgeon.bench.pictures.drive import drive_picture
    from gudgeon.bench.timing.drive import drive_model
    from gudgeon.bench.timing.errors import NoDrive
    from gudgeon.paper.svg_drive import drive_svg

    with desk.bench() as bench:
        bench.unlock()
        model = drive_model(bench)
        if model is None:
            raise NoDrive
        return _svg(drive_svg(drive_picture(model)))


def events_drawn(desk: Desk, asked: Asked) -> Response:
    """The wheel of the valve events, as SVG."""
    from gudgeon.bench.pictures.events import events_picture
    from gudgeon.bench.timing.answer import events_of
    from gudgeon.bench.timing.errors import NoEvents
    from gudgeon.paper.svg_events import events_svg

    with desk.bench() as bench:
        bench.unlock()
        found = events_of(bench)
        if not found.lines:
            raise NoEvents
        return _svg(events_svg(events_picture(found, engine=bench.sheet.engine.name)))


def _svg(drawn: str) -> Response:
    return Response(drawn, media_type="image/svg+xml", headers={"Content-Disposition": "inline"})


ADDRESSES = (
    Address("/timing", is_it_timed),
    Address("/timing/drive.svg", drive_drawn),
    Address("/timing/events.svg", events_drawn),
)
