"""The bench set on paper: measuring sheets, lists and counts, hold points, and the whole of it in one file."""

from argparse import Namespace

from gudgeon.cli.paper_files import path_for, size_of, told, write_file
from gudgeon.cli.questions import bench_of


def measuring(chosen: Namespace) -> int:
    """The measuring sheets of the job."""
    from gudgeon.bench.on_paper.measuring_sheets import measuring_sheets
    from gudgeon.paper.measuring import measuring_pdf

    bench = bench_of(chosen)
    answer = measuring_sheets(bench)
    path = path_for(chosen, answer.heading, "measuring-sheets")
    made = measuring_pdf(answer, size=size_of(chosen, bench))
    return told(chosen, answer.heading, write_file(chosen, path, made))


def lists(chosen: Namespace) -> int:
    """The four open lists and the counts."""
    from gudgeon.bench.on_paper.counts_sheet import lists_and_counts
    from gudgeon.paper.lists import lists_pdf

    bench = bench_of(chosen)
    answer = lists_and_counts(bench)
    path = path_for(chosen, answer.heading, "lists")
    made = lists_pdf(answer, size=size_of(chosen, bench))
    return told(chosen, answer.heading, write_file(chosen, path, made))


def holds(chosen: Namespace) -> int:
    """The hold points of the job."""
    from gudgeon.bench.on_paper.hold_points import hold_points
    from gudgeon.paper.holds import holds_pdf

    bench = bench_of(chosen)
    answer = hold_points(bench)
    path = path_for(chosen, answer.heading, "hold-points")
    made = holds_pdf(answer, size=size_of(chosen, bench))
    return told(chosen, answer.heading, write_file(chosen, path, made))


def whole(chosen: Namespace) -> int:
    """The whole set of the job."""
    from gudgeon.bench.on_paper.whole_set import whole_set
    from gudgeon.paper.whole_set import set_pdf

    bench = bench_of(chosen)
    answer = whole_set(bench)
    path = path_for(chosen, answer.heading, "bench-set")
    made = set_pdf(answer, size=size_of(chosen, bench))
    return told(chosen, answer.heading, write_file(chosen, path, made))
