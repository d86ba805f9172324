"""The book itself: its entries, struck ones legible, and its chain."""

from argparse import Namespace

from gudgeon.bench.entries import listed, verified
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, book_path, closing, heading, table


def show(chosen: Namespace) -> int:
    """The entries of a build."""
    answer = listed(bench_of(chosen), last=chosen.last)
    if chosen.json:
        return as_json(answer)
    heading(answer.heading)
    table(
        ("no.", "id", "when", "who", "kind", "what", "struck"),
        [
            (str(one.number), one.id[:8], one.when, one.who, one.kind, one.what, one.struck)
            for one in answer.lines
        ],
    )
    print(f"\nHead of the chain: {answer.head}")
    closing(answer.heading)
    return 0


def verify(chosen: Namespace) -> int:
    """Verify the chain; exit code 1 when something is wrong."""
    answer = verified(book_path(chosen.book))
    if chosen.json:
        as_json(answer)
    else:
        state = "in order" if not answer.problems else "NOT in order"
        print(f"{answer.entries} entries, {len(answer.heads)} build(s): {state}")
        for problem in answer.problems:
            print(f"! {problem}")
        for build, head in answer.heads.items():
            print(f"Head of the chain of {build}: {head}")
    return 1 if answer.problems else 0
