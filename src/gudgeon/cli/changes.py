"""What has changed, in the terminal."""

import textwrap
from argparse import Namespace

from gudgeon.bench.changed import Changes
from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, clean, closing, heading, table, width


def changes(chosen: Namespace) -> int:
    """Answer “What has changed?”; 1 where something was made against a figure that is no longer so."""
    from gudgeon.bench.changed import changes as ask

    answer = ask(bench_of(chosen))
    if chosen.json:
        as_json(answer)
    else:
        _show(answer)
    return NO if answer.figures else YES


def _show(answer: Changes) -> None:
    heading(answer.heading)
    if not answer.figures:
        print("Nothing in the book was made against a figure that has changed since.")
    for one in answer.figures:
        line = f", line {one.line}" if one.line else ""
        print(clean(f"{one.what}: was {one.before}, now {one.now}"))
        print(clean(f"  {one.paper}, {one.where}{line}"))
        table(
            ("entry", "when", "who", "what used the old figure"),
            [(str(use.number), use.when, use.who, use.what) for use in one.used_by],
        )
        print()
    if answer.figures:
        print(textwrap.fill(answer.ways_out, width=width()))
    closing(answer.heading)
