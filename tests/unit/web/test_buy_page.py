"""The shopping page, asked as a browser asks: the answer of the terminal, and forms that are filled in."""

import html
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from starlette.testclient import TestClient

from tests.paired import paired
from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import asked, buying_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = buying_job(tmp_path)
    made.record("part-ordered", part="head_gasket", supplier="south", expected="2026-03-12")
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def shown(pages: TestClient, address: str) -> str:
    answer = pages.get(address)
    assert answer.status_code == 200
    return html.unescape(answer.text)


def links(page: str, start: str) -> list[dict[str, str]]:
    """What the links that begin so say in their question part."""
    found = [part.split('"')[0] for part in page.split('href="')[1:] if part.startswith(start)]
    return [{name: said[0] for name, said in parse_qs(urlsplit(one).query).items()} for one in found]


def test_the_page_gives_the_answer_of_the_terminal(pages: TestClient, job: Job) -> None:
    page, answer = shown(pages, "/buy"), asked(job)
    for one in answer.lines:
        assert one.name in page
        assert one.before in page
    for order in answer.purchases[0].orders:
        assert order.supplier in page
        assert order.total in page
    for part in answer.parts:
        assert part.name in page
    for supply in answer.supplies:
        assert supply.name in page
    for tool in answer.tools:
        assert tool.name.lower() in page.lower()
    assert answer.purchases[0].proof in page


def test_the_navigation_asks_it(pages: TestClient) -> None:
    assert '<a href="/buy">What do I buy?</a>' in shown(pages, "/good")


def test_without_delay_is_another_page(pages: TestClient) -> None:
    page = shown(pages, "/buy?delay=no")
    assert '<a href="/buy?delay=no#from-whom" aria-current="page">Without delay</a>' in page
    assert "/paper/buy.pdf?delay=no&size=a4" in page


def test_each_line_leads_to_its_form_filled_in(pages: TestClient) -> None:
    page = shown(pages, "/buy")
    assert links(page, "/record/ordered") == [
        {"part": "Exhaust nuts", "supplier": "Südhof Engines", "quantity": "4", "back": "/buy"}
    ]
    form = shown(pages, "/record/ordered?part=Exhaust+nuts&supplier=S%C3%BCdhof+Engines&quantity=4&back=/buy")
    for said in ("Exhaust nuts", "Südhof Engines", "4"):
        assert f'value="{said}"' in form


def test_what_came_is_recorded_and_then_compared(pages: TestClient, job: Job) -> None:
    assert {"part": "Head gasket", "back": "/buy"} in links(shown(pages, "/buy"), "/record/received")
    job.record("part-received", part="Head gasket", compared=False)
    (said,) = [one for one in links(shown(pages, "/buy"), "/record/received") if one["part"] == "Head gasket"]
    assert said == {"part": "Head gasket", "compared": "yes", "back": "/buy"}
    form = shown(pages, "/record/received?part=Head+gasket&compared=yes&back=/buy")
    assert 'name="compared" value="yes" checked' in form


def test_a_negative_price_is_refused_in_words(pages: TestClient) -> None:
    said = {"part": "Head gasket", "supplier": "north", "price": "-3", "currency": "EUR"}
    answer = pages.post("/record/price", data=said)
    assert answer.status_code == 422
    assert "`-3` is no amount for “price”. Write a number that is not below 0, like `42.50`" in html.unescape(
        answer.text
    )


def test_the_list_can_be_printed(pages: TestClient) -> None:
    answer = pages.get("/paper/buy.pdf?size=letter")
    assert answer.status_code == 200
    assert answer.content.startswith(b"%PDF-")
    assert answer.headers["content-disposition"] == 'attachment; filename="mine-shopping-list.pdf"'
