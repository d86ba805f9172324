"""The whole bench set in one file, its pages numbered through."""

from typing import Any

from gudgeon.bench.on_paper.whole_set import WholeSet
from gudgeon.paper.card import card_data
from gudgeon.paper.holds import holds_data
from gudgeon.paper.lists import lists_data
from gudgeon.paper.measuring import measuring_data
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, moment_words, page_words

LONGEST_S = 60.0
"""A set of a large engine has hundreds of pages."""


def set_pdf(answer: WholeSet, *, size: str) -> bytes:
    """The bench set of the job on paper."""
    return press("set.typ", set_data(answer), size=size, dated_as=dated(answer.heading), longest_s=LONGEST_S)


def set_data(answer: WholeSet) -> dict[str, Any]:
    """Everything that stands in the set, in the order in which it is bound."""
    return {
        "page": page_words(answer.heading, about="Bench set"),
        "state": f"{answer.job}: all that hangs and lies at the engine",
        "left_out": answer.locked,
        "codes": list(answer.codes),
        "code_is_read": answer.code_is_read,
        "as_read": [answer.code_as_read, answer.code_read_from, _day(answer.code_read_on)],
        "check": list(answer.check_with_engine),
        "cautions": list(answer.cautions),
        "cards": [card_data(card) for card in answer.cards],
        "measuring": measuring_data(answer.measuring),
        "lists": lists_data(answer.lists),
        "holds": holds_data(answer.holds),
        "not_in_job": list(answer.not_in_job),
    }


def _day(moment: str) -> str:
    """`November 25, 2026`: the hour of a proof that stands says nothing at the engine."""
    return moment_words(moment).rpartition(", ")[0] if moment else ""
