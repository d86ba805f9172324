"""The bench set as PDF files: measuring sheets, lists and counts, hold points, and the whole of it."""

from starlette.responses import Response

from gudgeon.bench.on_paper.counts_sheet import lists_and_counts
from gudgeon.bench.on_paper.hold_points import hold_points
from gudgeon.bench.on_paper.measuring_sheets import measuring_sheets
from gudgeon.bench.on_paper.whole_set import whole_set
from gudgeon.paper.holds import holds_pdf
from gudgeon.paper.lists import lists_pdf
from gudgeon.paper.measuring import measuring_pdf
from gudgeon.paper.whole_set import set_pdf
from gudgeon.web.desk import Address, Asked, Desk
from gudgeon.web.paper_files import as_file, size_of


def measuring_on_paper(desk: Desk, asked: Asked) -> Response:
    """The measuring sheets of the job as a PDF, `?size=a4` or `letter`."""
    with desk.bench() as bench:
        answer, size = measuring_sheets(bench), size_of(asked, bench)
    return as_file(measuring_pdf(answer, size=size), answer.heading, "measuring-sheets")


def lists_on_paper(desk: Desk, asked: Asked) -> Response:
    """The four open lists and the counts as a PDF, `?size=a4` or `letter`."""
    with desk.bench() as bench:
        answer, size = lists_and_counts(bench), size_of(asked, bench)
    return as_file(lists_pdf(answer, size=size), answer.heading, "lists")


def holds_on_paper(desk: Desk, asked: Asked) -> Response:
    """The hold points of the job as a PDF, `?size=a4` or `letter`."""
    with desk.bench() as bench:
        answer, size = hold_points(bench), size_of(asked, bench)
    return as_file(holds_pdf(answer, size=size), answer.heading, "hold-points")


def set_on_paper(desk: Desk, asked: Asked) -> Response:
    """The whole bench set of the job as a PDF, `?size=a4` or `letter`."""
    with desk.bench() as bench:
        answer, size = whole_set(bench), size_of(asked, bench)
    return as_file(set_pdf(answer, size=size), answer.heading, "bench-set")


ADDRESSES = (
    Address("/paper/measuring.pdf", measuring_on_paper),
    Address("/paper/lists.pdf", lists_on_paper),
    Address("/paper/holds.pdf", holds_on_paper),
    Address("/paper/set.pdf", set_on_paper),
)
