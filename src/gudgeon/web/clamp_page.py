"""What limits the clamp of a joint, and what would change it."""

from starlette.responses import Response

from gudgeon.errors import InputError
from gudgeon.web.desk import Address, Asked, Desk


def what_limits(desk: Desk, asked: Asked) -> Response:
    """How far the clamp of a joint scatters and where that comes from; `?if=` asks what would change it."""
    from gudgeon.bench.clamp import clamp  # it takes numpy, which no other page needs

    with desk.bench() as bench:
        joint, what_if = asked.path["joint"], asked.query.get("if", "")
        error = None
        try:
            answer = clamp(bench, joint, what_if=(what_if,) if what_if else ())
        except InputError as refused:
            if not what_if:
                raise
            error, answer = refused, clamp(bench, joint)
        return desk.page(
            "clamp.html",
            bench=bench,
            asked=asked,
            status=200 if error is None else 422,
            answer=answer,
            what_if=what_if,
            error=error,
        )


ADDRESSES = (Address("/set/{joint}/clamp", what_limits),)
