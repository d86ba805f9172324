"""Which shim goes where."""

from starlette.responses import Response

from gudgeon.bench.shims.shims import shims
from gudgeon.web.desk import Address, Asked, Desk


def which_shim(desk: Desk, asked: Asked) -> Response:
    """The shims of all valves, with the moves and what to buy."""
    with desk.bench() as bench:
        return desk.page("shims.html", bench=bench, asked=asked, answer=shims(bench))


ADDRESSES = (Address("/timing/shims", which_shim),)
