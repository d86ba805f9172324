"""What fits where, in the terminal: what was found, what is fitted, what results, and what to do."""

import textwrap
from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, clean, closing, heading, table, width

if TYPE_CHECKING:
    from gudgeon.bench.fits.answer import Choice, Fit


def fits(chosen: Namespace) -> int:
    """Answer “What fits where?”; 1 while something is not inside, or not measured."""
    from gudgeon.bench.fits.answer import INSIDE
    from gudgeon.bench.fits.ask import fits as ask

    answer = ask(bench_of(chosen), what=chosen.what, codes=chosen.codes, shells=chosen.shells)
    lacking = answer.missing or any(one.missing for one in answer.fits)
    good = not lacking and all(place.verdict == INSIDE for one in answer.fits for place in one.choices)
    if chosen.json:
        as_json(answer)
        return YES if good else NO
    heading(answer.heading)
    for one in answer.fits:
        _show(one)
    for text in answer.missing:
        _say(f"{text}.", "! ")
    print(textwrap.fill(answer.basis, width=width()))
    closing(answer.heading)
    return YES if good else NO


def _show(fit: "Fit") -> None:
    print(clean(fit.name).upper())
    _say("; ".join(filter(None, (fit.wanted, fit.source))), "  ")
    if fit.choices:
        table(
            ("place", "found", "fit", "results in", "±", "verdict", "without the change"),
            [
                (one.place, one.found, one.fitted, one.result, one.uncertainty.removeprefix("± "),
                 one.verdict.upper(), _before(fit, one))
                for one in fit.choices
            ],
        )  # fmt: skip
    for one in fit.choices:
        if one.reason:
            _say(f"{one.place}: {one.reason}", "  ! ")
    for text in fit.missing:
        _say(text, "  · ")
    if fit.improved:
        _say(f"{fit.improved}.", "  = ")
    for number, text in enumerate(fit.steps, start=1):
        _say(text, f"  {number}. ")
    for text in fit.notes:
        _say(text, "  * ")
    for text in fit.cautions if fit.choices else ():
        _say(text, "  ! ")
    print()


def _before(fit: "Fit", one: "Choice") -> str:
    """What it would be without the change; its figure only where it is not what was found."""
    figure = one.before if fit.kind in ("shells", "weights") else ""
    return ": ".join(filter(None, (one.verdict_before.upper(), figure)))


def _say(text: str, lead: str) -> None:
    rest = " " * max(4, len(lead))
    print(textwrap.fill(clean(text), width=width(), initial_indent=lead, subsequent_indent=rest))
