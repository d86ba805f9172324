"""Is it timed: wheels, marks and teeth, a mark that was seen off, valve events, and the proof."""

from starlette.responses import Response

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
            if not off:
                raise
            error, status, answer = refused, 422, timing(bench)
        except GudgeonError as refused:
            error, status = refused, 422
        return desk.page(
            "timing.html", bench=bench, asked=asked, status=status, answer=answer, error=error, off=off,
            drawn_events=_events_words(answer),
        )  # fmt: skip


def _events_words(answer: object) -> str:
    from gudgeon.bench.pictures.events import events_picture
    from gudgeon.bench.timing.answer import TimingAnswer

    if not isinstance(answer, TimingAnswer) or not answer.events.lines:
        return ""
    return events_picture(answer.events, engine=answer.heading.engine).words


def events_drawn(desk: Desk, asked: Asked) -> Response:
    """The wheel of the valve events, as SVG."""
    from gudgeon.bench.pictures.events import events_picture
    from gudgeon.bench.timing.answer import timing
    from gudgeon.paper.svg_events import events_svg

    with desk.bench() as bench:
        answer = timing(bench)
        svg = events_svg(events_picture(answer.events, engine=answer.heading.engine))
    return Response(svg, media_type="image/svg+xml", headers={"Content-Disposition": "inline"})


ADDRESSES = (
    Address("/timing", is_it_timed),
    Address("/timing/events.svg", events_drawn),
)
