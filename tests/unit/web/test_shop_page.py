"""The shop order and the check of what came back, asked as a browser asks."""

import html
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.shop.order import shop_order
from tests.paired import paired
from tests.unit.bench.benches import Job
from tests.unit.bench.shop.heads import blades, head_job, heights


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = head_job(tmp_path)
    blades(made, "along", "0.10", "0.12")
    blades(made, "across", "0", "0.03")
    heights(made, *["100.000"] * 4)
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def shown(pages: TestClient, address: str) -> str:
    answer = pages.get(address)
    assert answer.status_code == 200
    return html.unescape(answer.text)


def test_the_page_of_the_cut_leads_there(pages: TestClient) -> None:
    page = shown(pages, "/cut")
    assert 'href="/cut/order"' in page
    assert 'href="/cut/back"' in page


def test_the_order_gives_the_answer_of_the_terminal(pages: TestClient, job: Job) -> None:
    page, answer = shown(pages, "/cut/order"), shop_order(job.bench())
    assert f"at most {answer.room.most} in all" in page
    for step in answer.work:
        assert step.what in page
    for told in answer.never:
        assert told.words in page
    for row in answer.finish.rows:
        assert row.asked in page
        assert row.source in page
    for figure in answer.send_back:
        assert figure.what in page
    assert [page.index(step.what) for step in answer.work] == sorted(
        page.index(step.what) for step in answer.work
    )


def test_the_form_is_filled_in_and_nothing_is_recorded_yet(pages: TestClient, job: Job) -> None:
    page, answer = shown(pages, "/cut/order"), shop_order(job.bench())
    link = next(one for one in page.split('"') if one.startswith("/record/shop-out?"))
    said = parse_qs(urlsplit(link).query)
    assert said == {
        "part": ["Cylinder head"], "ordered": [answer.ordered], "most_off": ["0.39 mm"], "back": ["/cut/order"],
    }  # fmt: skip
    form = shown(pages, link)
    assert answer.ordered in form
    assert 'value="0.39 mm"' in form
    assert job.bench().state.shop == {}


def test_what_came_back(pages: TestClient, job: Job) -> None:
    job.record("shop-out", part="Cylinder head", shop="mill", ordered="little", most_off="0.10 mm")
    job.record("shop-back", part="Cylinder head", found="all well")
    page = shown(pages, "/cut/back")
    assert "How much came off is not known" in page
    assert 'href="/good/head_height#record"' in page
    heights(job, *["99.860"] * 4, condition="as left")
    page = shown(pages, "/cut/back")
    assert "0.14 mm (0.0055 in) came off, 0.04 mm (0.0016 in) more than ordered." in page
    assert "all well" in page
    assert "state-cross" in page


def test_the_block_and_an_unknown_part(pages: TestClient) -> None:
    assert "What may come off the block is not worked out here" in shown(pages, "/cut/order?part=block")
    assert "Cylinder block" in shown(pages, "/cut/back?part=block")
    refused = pages.get("/cut/order?part=sump")
    assert refused.status_code == 404
    assert "`sump` is no part that is cut here. Known: head, block." in html.unescape(refused.text)


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_the_order_on_paper(pages: TestClient, size: str) -> None:
    answer = pages.get("/paper/shop-order.pdf", params={"size": size})
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"] == 'attachment; filename="mine-shop-order-head.pdf"'
    assert answer.content.startswith(b"%PDF-")


@pytest.mark.parametrize(("part", "asked"), [("head", {}), ("block", {"part": "block", "size": "letter"})])
def test_what_came_back_on_paper(pages: TestClient, part: str, asked: dict[str, str]) -> None:
    answer = pages.get("/paper/shop-back.pdf", params=asked)
    assert answer.headers["content-disposition"] == f'attachment; filename="mine-shop-back-{part}.pdf"'
    assert answer.content.startswith(b"%PDF-")
    page = shown(pages, f"/cut/back?part={part}")
    assert f'href="/paper/shop-back.pdf?part={part}&' in page
