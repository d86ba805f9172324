"""The shopping list on paper: all of the answer, on pages of either size, nothing cut off."""

from dataclasses import replace
from pathlib import Path

import pytest

from gudgeon.bench.buying.model import BuyAnswer
from gudgeon.paper.shopping import shopping_pdf
from tests.unit.bench.buying.purchases import asked, buying_job
from tests.unit.paper.cards import NASTY
from tests.unit.paper.reading import least_white_mm, numbered, pages, squashed, words


@pytest.fixture
def answer(tmp_path: Path) -> BuyAnswer:
    job = buying_job(tmp_path)
    job.record("part-disposition", part="rings", decision="renew", why="worn")
    job.record("part-ordered", part="head_gasket", supplier="south", expected="2026-03-12")
    job.record("part-disposition", part="belt", decision="renew", why="worn")
    job.record("part-received", part="belt", compared=False)
    return asked(job)


def everything(answer: BuyAnswer) -> list[str]:
    """Every text that somebody at the counter needs."""
    texts = [text for one in answer.lines for text in (one.name, one.before, one.compare)]
    for one in answer.purchases:
        texts += [one.total, one.proof, *one.alone]
        for order in one.orders:
            texts += [
                order.supplier,
                order.goods,
                order.shipping,
                order.total,
                *(line.cost for line in order.lines),
            ]
    texts += [
        text for one in answer.lines for order in one.orders for text in (order.supplier, order.expected)
    ]
    texts += [text for one in answer.supplies for text in (one.name, one.amount, one.for_what)]
    texts += [text for one in answer.tools for text in (one.name, one.why, one.before)]
    return [text for text in texts if text]


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_nothing_of_the_answer_is_lost(answer: BuyAnswer, tmp_path: Path, size: str) -> None:
    assert {one.state for one in answer.lines} == {"to order", "ordered", "received"}
    pdf = shopping_pdf(answer, size=size)
    told = words(pdf)
    assert [text for text in everything(answer) if squashed(text) not in told] == []
    assert squashed("Piston rings") in told.split(squashed("no supplier of the kit sells it"))[1]
    count = len(pages(pdf))
    assert numbered(pdf) == [(number, count) for number in range(1, count + 1)]
    assert least_white_mm(pdf, tmp_path) >= 10.0


def test_no_command_of_a_terminal_is_printed(tmp_path: Path) -> None:
    answer = asked(buying_job(tmp_path))
    assert any("gudgeon record age" in text for text in answer.may_come)
    told = words(shopping_pdf(answer, size="a4"))
    assert "Fanbelt:renewedafter60000kmor60months:itsdistanceanditsagenotinthebook" in told
    assert "gudgeon" not in told


def test_texts_of_the_sheet_are_data(answer: BuyAnswer) -> None:
    changed = replace(answer, lines=tuple(replace(one, name=NASTY) for one in answer.lines))
    assert shopping_pdf(changed, size="a4").startswith(b"%PDF-")
