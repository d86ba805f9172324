"""The shop order on paper: all of the answer, on pages of either size, nothing cut off, and room to write on."""

from dataclasses import replace
from pathlib import Path

import pytest

from gudgeon.bench.shop.found import PartKind
from gudgeon.bench.shop.order import ShopOrder, shop_order
from gudgeon.bench.shop.work import Telling
from gudgeon.paper.order import order_data, order_pdf
from tests.unit.bench.shop.heads import blades, head_job, heights
from tests.unit.paper.cards import NASTY
from tests.unit.paper.reading import least_white_mm, numbered, pages, squashed, words


@pytest.fixture
def order(tmp_path: Path) -> ShopOrder:
    job = head_job(tmp_path)
    blades(job, "along", "0.10", "0.12")
    heights(job, *["100.000"] * 4)
    return shop_order(job.bench())


def everything(order: ShopOrder) -> list[str]:
    """Every text of an order that a machinist needs."""
    texts = [
        order.part,
        order.code,
        order.material,
        order.room.most,
        order.room.least,
        order.datum,
        order.finish.asked,
    ]
    texts += [one.what for one in order.work] + [one.basis for one in order.work]
    texts += [
        text for one in (*order.flatness, *order.heights) for text in (one.place, one.reading, one.gauge)
    ]
    texts += [text for one in order.room.bounds for text in (one.what, one.most, one.source)]
    texts += [text for one in order.finish.rows for text in (one.gasket, one.asked, one.against, one.source)]
    texts += [*order.finish.disagree, order.finish.rule, *order.stays, *(one.words for one in order.never)]
    texts += [text for one in order.send_back for text in (one.what, one.how)]
    return [text for text in texts if text]


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_nothing_of_the_answer_is_lost(order: ShopOrder, tmp_path: Path, size: str) -> None:
    pdf = order_pdf(order, size=size)
    told = words(pdf)
    assert [text for text in everything(order) if squashed(text) not in told] == []
    count = len(pages(pdf))
    assert numbered(pdf) == [(number, count) for number in range(1, count + 1)]
    assert least_white_mm(pdf, tmp_path) >= 10.0


@pytest.mark.parametrize("part", ["head", "block"])
def test_a_job_with_nothing_read_still_prints(tmp_path: Path, part: PartKind) -> None:
    found = shop_order(head_job(tmp_path).bench(), part=part)
    told = words(order_pdf(found, size="letter"))
    assert "nothingbeforewehavetalked" in told
    assert [text for text in everything(found) if squashed(text) not in told] == []


def test_the_most_stands_on_the_first_page_with_a_number_to_call(order: ShopOrder) -> None:
    first = squashed(pages(order_pdf(order, size="a4"))[0])
    assert "atmost0.39mm(0.0154in)inall" in first
    assert "Askbeforetakingmore.Call" in first
    assert "Telephone" in first


def test_paper_needs_no_terminal(order: ShopOrder) -> None:
    assert "gudgeon" not in words(order_pdf(order, size="a4")).lower()


def test_what_was_read_stands_beside_each_blank(order: ShopOrder) -> None:
    height = next(one for one in order_data(order)["back"] if one["what"] == "Head height")
    assert height["places"][0] == ["timing end intake", "100.000 mm (3.9370 in)"]


def test_markup_is_only_shown(order: ShopOrder) -> None:
    nasty = replace(order, part=NASTY, never=(Telling(NASTY + "!", NASTY),), stays=(NASTY,), missing=(NASTY,))
    assert words(order_pdf(nasty, size="a4")).count(squashed(NASTY)) >= 5
