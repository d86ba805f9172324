"""Which shim goes where, in the terminal."""

import textwrap
from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, clean, closing, heading, table, width

if TYPE_CHECKING:
    from gudgeon.bench.shims.model import ShimAnswer


def shims(chosen: Namespace) -> int:
    """Say which shim goes where; 1 while a valve is not brought inside, or cannot be answered for."""
    from gudgeon.bench.shims.shims import shims as ask

    answer = ask(bench_of(chosen))
    code = YES if answer.settled else NO
    if chosen.json:
        as_json(answer)
        return code
    heading(answer.heading)
    _say(answer.said)
    for remark in answer.measure_again:
        _say(remark, mark="! ")
    for one in answer.never:
        _say(f"{one.valve}: {one.words}: {one.nearest}, then {one.result}", mark="! ")
    print()
    _valves(answer)
    _work(answer)
    _shop(answer)
    _grounds(answer)
    closing(answer.heading)
    return code


def _valves(answer: "ShimAnswer") -> None:
    if answer.valves:
        table(
            ("valve", "found", "now", "shim in it", "exactly right", "fitted", "from", "results in", "verdict", "why"),
            [
                (
                    _valve(one.side, place=one.place), one.found, one.now, one.shim, one.exact,
                    one.fitted, one.comes_from, one.result, one.verdict, one.why,
                )
                for one in answer.valves
            ],
        )  # fmt: skip
    if answer.screws:
        table(
            ("valve", "found", "wanted", "now", "set it"),
            [
                (_valve(one.side, place=one.place), one.found, one.wanted, one.now, one.change)
                for one in answer.screws
            ],
        )


def _valve(side: str, *, place: str) -> str:
    return f"{side}, {place}" if place else side


def _work(answer: "ShimAnswer") -> None:
    if answer.work:
        print("\nWork in this order")
    for run in answer.work:
        print(f"\n{clean(run.title)}")
        for step in run.steps:
            _say(step.words, mark=f"{step.number:>3}. ")


def _shop(answer: "ShimAnswer") -> None:
    if answer.shopping:
        print("\nTo buy")
        table(
            ("size", "how many", "each", "together", "for"),
            [
                (one.size, str(one.count), one.each, one.together, "; ".join(one.goes_to))
                for one in answer.shopping
            ],
        )
        if answer.money:
            print(f"Together: {answer.money}")
    if answer.stock and answer.work:
        print("\nIn stock")
        table(
            ("size", "now", "afterwards"), [(one.size, str(one.now), str(one.after)) for one in answer.stock]
        )


def _grounds(answer: "ShimAnswer") -> None:
    if answer.aims:
        print("\nHow sure is it?")
        _say(answer.proof)
        for what, value in answer.aims:
            _say(f"{what}: {value}", mark="  - ")
    for title, texts in (
        ("Remarks", list(answer.remarks)),
        ("Missing", [f"{one.missing}: {one.therefore}" for one in answer.missing]),
        ("Taken", list(answer.taken)),
    ):
        if texts:
            print(f"\n{title}")
        for text in texts:
            _say(text, mark="  - ")
    if answer.sources:
        print(f"\nSource: {'; '.join(answer.sources)}")


def _say(text: str, *, mark: str = "") -> None:
    print(textwrap.fill(clean(text), width=width(), initial_indent=mark, subsequent_indent=" " * len(mark)))
