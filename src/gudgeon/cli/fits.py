"""What fits where, in the terminal: what was found, what is fitted, what results, and what to do."""

from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, clean, closing, heading, say, table

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
        say(f"{text}.", lead="! ")
    say(answer.basis)
    closing(answer.heading)
    return YES if good else NO


def _show(fit: "Fit") -> None:
    print(clean(fit.name).upper())
    say("; ".join(filter(None, (fit.wanted, fit.source))), lead="  ")
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
            say(f"{one.place}: {one.reason}", lead="  ! ")
    for text in fit.missing:
        say(text, lead="  · ")
    if fit.improved:
        say(f"{fit.improved}.", lead="  = ")
    for number, text in enumerate(fit.steps, start=1):
        say(text, lead=f"  {number}. ")
    for text in fit.notes:
        say(text, lead="  * ")
    for text in fit.cautions if fit.choices else ():
        say(text, lead="  ! ")
    print()


def _before(fit: "Fit", one: "Choice") -> str:
    """What it would be without the change; its figure only where it is not what was found."""
    figure = one.before if fit.kind in ("shells", "weights") else ""
    return ": ".join(filter(None, (one.verdict_before.upper(), figure)))
