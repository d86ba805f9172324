"""Which shim goes where, in the terminal."""

import re
from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, clean, closing, heading, say, table
from gudgeon.quantity.format import first_system

if TYPE_CHECKING:
    from gudgeon.bench.shims.model import ShimAnswer

_OTHER = re.compile(r"(?<=mm) \([^()]* in\)|(?<=in) \([^()]* mm\)")


def shims(chosen: Namespace) -> int:
    """Say which shim goes where; 1 while a valve is not brought inside, or cannot be answered for."""
    from gudgeon.bench.shims.shims import shims as ask

    answer = ask(bench_of(chosen))
    code = YES if answer.settled else NO
    if chosen.json:
        as_json(answer)
        return code
    heading(answer.heading)
    say(answer.said)
    for remark in answer.measure_again:
        say(remark, lead="! ")
    for one in answer.never:
        say(f"{one.valve}: {one.words}: {one.nearest}, then {one.result}. {one.hint}".rstrip(), lead="! ")
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
                    _valve(one.side, place=one.place), _first(one.found), one.now, _first(one.shim),
                    _first(one.exact), _first(one.fitted), one.comes_from, _first(one.result), one.verdict, one.why,
                )
                for one in answer.valves
            ],
        )  # fmt: skip
        if first_system() == "inch":
            say(
                "The table is in inches (0.0039 in is 0.10 mm); the steps, the page and the paper say mm too."
            )
        else:
            say(
                "The table is in mm (0.10 mm is 0.0039 in); the steps, the page and the paper say inches too."
            )
    if answer.screws:
        table(
            ("valve", "found", "wanted", "now", "set it"),
            [
                (_valve(one.side, place=one.place), one.found, one.wanted, one.now, one.change)
                for one in answer.screws
            ],
        )


def _first(text: str) -> str:
    """A figure of a table in the person's system alone: the other would take the width of a column of its own."""
    return _OTHER.sub("", text)


def _valve(side: str, *, place: str) -> str:
    return f"{side}, {place}" if place else side


def _work(answer: "ShimAnswer") -> None:
    if answer.work:
        print("\nWork in this order")
    for run in answer.work:
        print(f"\n{clean(run.title)}")
        for step in run.steps:
            say(step.words, lead=f"{step.number:>3}. ")


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
        say(answer.proof)
        for what, value in answer.aims:
            say(f"{what}: {value}", lead="  - ")
    for title, texts in (
        ("Remarks", list(answer.remarks)),
        ("Not known", [f"{one.missing}: {one.therefore}" for one in answer.missing]),
        ("Taken", list(answer.taken)),
    ):
        if texts:
            print(f"\n{title}")
        for text in texts:
            say(text, lead="  - ")
    if answer.sources:
        print(f"\nSource: {'; '.join(answer.sources)}")
