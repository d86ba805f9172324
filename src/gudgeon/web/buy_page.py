"""What to buy: the list, from whom, and what becomes of every part."""

from starlette.responses import Response

from gudgeon.bench.buying.ask import buy
from gudgeon.bench.buying.model import COMPARED, FITTED
from gudgeon.web.desk import Address, Asked, Desk

DONE = (COMPARED, FITTED)


def what_to_buy(desk: Desk, asked: Asked) -> Response:
    """What becomes of every part, the list, and from whom it costs least; `?delay=no` where nothing may be delayed."""
    with desk.bench() as bench:
        answer = buy(bench, no_delay=delays_nothing(asked))
        return desk.page(
            "buy.html",
            bench=bench,
            asked=asked,
            answer=answer,
            sources=bench.sheet.sources,
            open_lines=[one for one in answer.lines if one.state not in DONE],
            done_lines=[one for one in answer.lines if one.state in DONE],
        )


def delays_nothing(asked: Asked) -> bool:
    """Whether only what comes in time is bought."""
    return asked.query.get("delay") == "no"


ADDRESSES = (Address("/buy", what_to_buy),)
