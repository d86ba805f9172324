"""Sums: every calculator as a page, made from its registration. They need no book; with one, its units come first."""

from collections.abc import Mapping
from contextlib import ExitStack
from typing import Any

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.calc.behind import SUBJECTS, behind, subject_of
from gudgeon.calc.calculator import Calculator, CalculatorAnswer, calculator, names, run_sent
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk
from gudgeon.web.sum_fields import field_of, given_in, in_words, name_in_words

MOST_POINTS = 8_000
"""So many letters of points go into one address; a longer scan is taken over from its file."""


def all_sums(desk: Desk, asked: Asked) -> Response:
    """All sums by subject, or those in which the words sought are found."""
    return _page(
        desk, asked, "sums.html", status=200, unknown="", **_listed(asked.query.get("find", "").strip())
    )


def _listed(sought: str) -> dict[str, Any]:
    found = {
        subject: [one for one in map(calculator, listed) if is_about(one, sought)]
        for subject, listed in SUBJECTS.items()
    }
    return {
        "sought": sought,
        "subjects": {subject: sums for subject, sums in found.items() if sums},
        "count": sum(len(sums) for sums in found.values()),
        "all_of_them": len(names()),
    }


def is_about(one: Calculator, sought: str) -> bool:
    """Whether every word sought stands in what a calculator says of itself, its inputs and its results."""
    texts = [one.name, subject_of(one.name), one.title]
    texts += [f"{name_in_words(of.name)} {of.text}" for of in one.parameters]
    texts += [of.text for of in one.results]
    said = " ".join(texts).casefold()
    return all(word in said for word in sought.casefold().split())


def one_sum(desk: Desk, asked: Asked) -> Response:
    """One sum: its form, and with its inputs in the address what it comes to."""
    if asked.path["name"] not in names():
        return _page(desk, asked, "sums.html", status=404, unknown=asked.path["name"], **_listed(""))
    one = calculator(asked.path["name"])
    said = {name: value.strip() for name, value in asked.query.items()}
    given = given_in(one, said)
    with ExitStack() as opened:
        bench = _bench(desk, opened)
        answer: CalculatorAnswer | None = None
        error = ""
        if given:
            try:
                answer = run_sent(one.name, given)
            except GudgeonError as refused:
                error = in_words(str(refused), of=one)
        return _shown(
            desk,
            asked,
            bench,
            "sum.html",
            status=422 if error else 200,
            of=one,
            subject=subject_of(one.name),
            fields=[field_of(parameter, said) for parameter in one.parameters],
            pairs_of=_pairs_of,
            answer=answer,
            understood=_understood(one, answer),
            error=error,
            behind=behind(one.name),
            most_points=MOST_POINTS,
        )


def _pairs_of(choices: tuple[str, ...]) -> list[tuple[str, str]]:
    """The choices of an input: what is sent, and its words, which are the same."""
    return [(one, one) for one in choices]


def _understood(one: Calculator, answer: CalculatorAnswer | None) -> list[tuple[str, str]]:
    """The inputs as they were understood, under their names in words."""
    inputs: Mapping[str, str] = answer.inputs if answer is not None else {}
    return [(name_in_words(of.name), inputs[of.name]) for of in one.parameters if of.name in inputs]


def _page(desk: Desk, asked: Asked, template: str, *, status: int, **said: Any) -> Response:
    with ExitStack() as opened:
        return _shown(desk, asked, _bench(desk, opened), template, status=status, **said)


def _bench(desk: Desk, opened: ExitStack) -> Bench | None:
    """The bench where there is one that can be opened: it says which units come first."""
    try:
        return opened.enter_context(desk.bench())
    except GudgeonError:
        return None


def _shown(
    desk: Desk, asked: Asked, bench: Bench | None, template: str, *, status: int, **said: Any
) -> Response:
    if bench is None:
        return desk.bare(template, asked=asked, status=status, **said)
    return desk.page(template, bench=bench, asked=asked, status=status, **said)


ADDRESSES = (
    Address("/sums", all_sums),
    Address("/sums/{name}", one_sum),
)
