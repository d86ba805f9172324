"""Answers as PDF files: made for the moment, handed over to be saved or printed, kept nowhere."""

from starlette.responses import Response

from gudgeon.bench.buying.ask import buy
from gudgeon.bench.costs.costs import costs
from gudgeon.bench.pull_list import card, loosening_card
from gudgeon.bench.ready import ready
from gudgeon.bench.shims.shims import shims
from gudgeon.bench.shop.order import shop_order
from gudgeon.bench.shop.return_sheet import return_sheet
from gudgeon.paper.card import card_pdf
from gudgeon.paper.estimate import estimate_pdf
from gudgeon.paper.order import order_pdf
from gudgeon.paper.shims import shims_pdf
from gudgeon.paper.shop_back import shop_back_pdf
from gudgeon.paper.shopping import shopping_pdf
from gudgeon.paper.why_not import why_not_pdf
from gudgeon.web.buy_page import delays_nothing
from gudgeon.web.costs_page import asks_closing
from gudgeon.web.desk import Address, Asked, Desk
from gudgeon.web.paper_files import as_file, size_of
from gudgeon.web.questions import milestone_of
from gudgeon.web.shop_page import part_of


def card_on_paper(desk: Desk, asked: Asked) -> Response:
    """The card of one joint as a PDF, `?size=a4` or `letter`; `program=loosening` for the teardown."""
    with desk.bench() as bench:
        program = loosening_card if asked.query.get("program") == "loosening" else card
        answer = program(bench, asked.path["joint"])
        size = size_of(asked, bench)
    made = card_pdf(answer, size=size)
    return as_file(
        made, answer.heading, f"card-{answer.joint}" + ("-loosening" if answer.program == "loosening" else "")
    )


def why_not_on_paper(desk: Desk, asked: Asked) -> Response:
    """Everything that is open before a milestone as a PDF, `?for=crank` and `size=a4` or `letter`."""
    with desk.bench() as bench:
        answer = ready(bench, milestone=milestone_of(asked))
        size = size_of(asked, bench)
    made = why_not_pdf(answer, size=size)
    return as_file(made, answer.heading, f"why-not-{answer.milestone}")


def shims_on_paper(desk: Desk, asked: Asked) -> Response:
    """Which shim goes where as a PDF, `?size=a4` or `letter`."""
    with desk.bench() as bench:
        answer = shims(bench)
        size = size_of(asked, bench)
    return as_file(shims_pdf(answer, size=size), answer.heading, "shims")


def shopping_on_paper(desk: Desk, asked: Asked) -> Response:
    """The shopping list as a PDF, `?delay=no` where nothing may be delayed, `size=a4` or `letter`."""
    with desk.bench() as bench:
        answer = buy(bench, no_delay=delays_nothing(asked))
        size = size_of(asked, bench)
    made = shopping_pdf(answer, size=size)
    return as_file(made, answer.heading, "shopping-list")


def order_on_paper(desk: Desk, asked: Asked) -> Response:
    """The shop order as a PDF, `?part=head` or `block`, `size=a4` or `letter`."""
    with desk.bench() as bench:
        answer = shop_order(bench, part=part_of(asked))
        size = size_of(asked, bench)
    made = order_pdf(answer, size=size)
    return as_file(made, answer.heading, f"shop-order-{answer.kind}")


def back_on_paper(desk: Desk, asked: Asked) -> Response:
    """What came back from the shop as a PDF, `?part=head` or `block`, `size=a4` or `letter`."""
    with desk.bench() as bench:
        answer = return_sheet(bench, part=part_of(asked))
        size = size_of(asked, bench)
    made = shop_back_pdf(answer, size=size)
    return as_file(made, answer.heading, f"shop-back-{answer.check.kind}")


def estimate_on_paper(desk: Desk, asked: Asked) -> Response:
    """The estimate for the owner as a PDF, `?closing=yes` for the closing account, `size=a4` or `letter`."""
    with desk.bench() as bench:
        answer = costs(bench, closing=asks_closing(asked))
        size = size_of(asked, bench)
    made = estimate_pdf(answer, size=size)
    return as_file(made, answer.heading, "closing-account" if answer.closed else "estimate")


ADDRESSES = (
    Address("/paper/card/{joint}.pdf", card_on_paper),
    Address("/paper/why-not.pdf", why_not_on_paper),
    Address("/paper/shop-order.pdf", order_on_paper),
    Address("/paper/shop-back.pdf", back_on_paper),
    Address("/paper/shims.pdf", shims_on_paper),
    Address("/paper/buy.pdf", shopping_on_paper),
    Address("/paper/estimate.pdf", estimate_on_paper),
)
