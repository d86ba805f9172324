"""What it will cost: a range from the start, the ceiling, what is spent."""

from starlette.responses import Response

from gudgeon.bench.costs.costs import costs
from gudgeon.web.desk import Address, Asked, Desk


def what_will_it_cost(desk: Desk, asked: Asked) -> Response:
    """The estimate as a range, line by line, the ceiling, what is spent; `?closing=yes` gives the closing account."""
    with desk.bench() as bench:
        answer = costs(bench, closing=asks_closing(asked))
        return desk.page("money.html", bench=bench, asked=asked, answer=answer)


def drawn(desk: Desk, asked: Asked) -> Response:
    """The range at each stop point, the ceiling and what is spent, as SVG; `?currency=` says of which account."""
    from gudgeon.bench.pictures.costs import costs_picture
    from gudgeon.paper.svg_costs import costs_svg

    with desk.bench() as bench:
        svg = costs_svg(costs_picture(costs(bench), currency=asked.query.get("currency", "")))
    return Response(svg, media_type="image/svg+xml", headers={"Content-Disposition": "inline"})


def asks_closing(asked: Asked) -> bool:
    """Whether the closing account is asked for before the engine is handed over."""
    return asked.query.get("closing") == "yes"


ADDRESSES = (
    Address("/money", what_will_it_cost),
    Address("/money.svg", drawn),
)
