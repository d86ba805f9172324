"""The bench set on paper: measuring sheets, lists and counts, hold points, and the whole of it in one file."""

from argparse import Namespace
from functools import partial

from gudgeon.cli.paper_files import printed, size_of
from gudgeon.cli.questions import bench_of


def measuring(chosen: Namespace) -> int:
    """The measuring sheets of the job."""
    from gudgeon.bench.on_paper.measuring_sheets import measuring_sheets
    from gudgeon.paper.measuring import measuring_pdf

    bench = bench_of(chosen)
    answer = measuring_sheets(bench)
    make = partial(measuring_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, "measuring-sheets", make=make)


def lists(chosen: Namespace) -> int:
    """The four open lists and the counts."""
    from gudgeon.bench.on_paper.counts_sheet import lists_and_counts
    from gudgeon.paper.lists import lists_pdf

    bench = bench_of(chosen)
    answer = lists_and_counts(bench)
    make = partial(lists_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, "lists", make=make)


def holds(chosen: Namespace) -> int:
    """The hold points of the job."""
    from gudgeon.bench.on_paper.hold_points import hold_points
    from gudgeon.paper.holds import holds_pdf

    bench = bench_of(chosen)
    answer = hold_points(bench)
    make = partial(holds_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, "hold-points", make=make)


def whole(chosen: Namespace) -> int:
    """The whole set of the job."""
    from gudgeon.bench.on_paper.whole_set import whole_set
    from gudgeon.paper.whole_set import set_pdf

    bench = bench_of(chosen)
    answer = whole_set(bench)
    make = partial(set_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, "bench-set", make=make)
