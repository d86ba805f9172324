"""Which bolts may be used again, in the terminal."""

from argparse import Namespace

from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, closing, heading, table


def reuse(chosen: Namespace) -> int:
    """Say of every bolt whether it may be used again; 1 while one may not, or is not judged."""
    from gudgeon.bench.reuse import AGAIN, told
    from gudgeon.bench.reuse import reuse as ask

    answer = ask(bench_of(chosen), chosen.joint)
    clear = all(one.verdict == AGAIN for one in answer.bolts)
    code = YES if clear else NO
    if chosen.json:
        as_json(answer)
        return code
    heading(answer.heading)
    print(f"{answer.name}: {answer.said}\n")
    for rule in answer.rules:
        print(f"  - {rule}")
    print()
    table([answer.called, "place", "rule", "read", "verdict", "why"], list(told(answer)))
    if answer.source:
        print(f"\nSource: {answer.source}")
    closing(answer.heading)
    return code
