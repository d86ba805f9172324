"""The page “Does it run right?”."""

from starlette.responses import Response

from gudgeon.bench.running.question import running
from gudgeon.errors import InputError
from gudgeon.web.desk import Address, Asked, Desk


def does_it_run_right(desk: Desk, asked: Asked) -> Response:
    """What is expected and what was measured; the coolant still in the system may be asked about."""
    left_in, glycol = (asked.query.get(name, "").strip() for name in ("left-in", "glycol"))
    with desk.bench() as bench:
        error: InputError | None = None
        try:
            answer = running(bench, left_in=left_in, glycol_in_it=glycol)
        except InputError as refused:
            error, answer = refused, running(bench)
        return desk.page(
            "running.html",
            bench=bench,
            asked=asked,
            status=422 if error is not None else 200,
            answer=answer,
            sources=bench.sheet.sources,
            error=error,
            left_in=left_in,
            glycol=glycol,
        )


ADDRESSES = (Address("/running", does_it_run_right),)
