"""The book itself: its entries, struck ones legible, and its chain."""

from argparse import Namespace
from pathlib import Path

from gudgeon.bench.entries import listed
from gudgeon.bench.verifying import Verified, verified, verified_archive
from gudgeon.cli.progress import progress
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, book_path, clean, closing, heading, table


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
    """Verify the book, or an export by itself; exit code 1 when something is wrong."""
    with progress() as tell:
        if chosen.archive:
            file = Path(chosen.archive).expanduser()
            answer = verified_archive(file, against=chosen.against, build=chosen.build, tell=tell)
        else:
            answer = verified(book_path(chosen.book), against=chosen.against, build=chosen.build, tell=tell)
    if chosen.json:
        as_json(answer)
    else:
        _say(answer)
    return 1 if answer.problems or (answer.against is not None and not answer.against.found) else 0


def _say(answer: Verified) -> None:
    state = "in order" if not answer.problems else "NOT in order"
    print(f"{answer.entries} entries, {len(answer.heads)} build(s): {state}")
    for problem in answer.problems:
        print(f"! {clean(problem)}")
    for note in answer.notes:
        print(f"- {clean(note)}")
    for build, head in answer.heads.items():
        print(f"Head of the chain of {clean(build)}: {head}")
    against = answer.against
    if against is None:
        print(
            "Whether entries at the end are missing no chain can show: compare a printed head with --against HEAD."
        )
    elif against.found:
        print(
            f"The head {against.head} is entry {against.number} of {clean(against.build)}; "
            f"{against.after} came after it, so none of those up to it is missing."
        )
    else:
        print(
            f"! The head {against.head} is in no chain here: entries that stood in the book when it was "
            "noted have been cut off or changed, or it is the head of another book. Look for a copy that has it."
        )
