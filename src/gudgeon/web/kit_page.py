"""The kit, read only: it is written in its file."""

from starlette.responses import Response

from gudgeon.bench.kit_view import kit_answer
from gudgeon.web.desk import Address, Asked, Desk


def what_he_owns(desk: Desk, asked: Asked) -> Response:
    """The kit: wrenches, gauges, tools for turning, shims in stock, hours and rates."""
    with desk.bench() as bench:
        return desk.page("kit.html", bench=bench, asked=asked, answer=kit_answer(bench))


ADDRESSES = (Address("/kit", what_he_owns),)
