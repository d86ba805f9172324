"""`gudgeon money` on the invented job: terminal, page, picture and paper give one answer."""

import json
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.context import open_bench
from gudgeon.bench.costs.costs import costs
from gudgeon.bench.costs.model import Costs
from gudgeon.bench.pictures.costs import NoCostsToDraw, costs_picture
from gudgeon.cli.main import main
from gudgeon.paper.estimate import estimate_pdf
from gudgeon.paper.svg_costs import costs_svg
from tests.paired import paired
from tests.unit.bench.costs.priced import asked, ceiling, cost, paid, priced_job
from tests.unit.paper.cards import NASTY
from tests.unit.paper.reading import least_white_mm, numbered, pages, squashed, words


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    return folder / "book.gudgeon"


@pytest.fixture(scope="module")
def answer(book: Path) -> Costs:
    bench = open_bench(book)
    try:
        return costs(bench)
    finally:
        bench.store.close()


@pytest.fixture(scope="module")
def closed(book: Path) -> Costs:
    bench = open_bench(book)
    try:
        return costs(bench, closing=True)
    finally:
        bench.store.close()


@pytest.fixture
def client(book: Path) -> Iterator[TestClient]:
    with paired(book) as client:
        yield client


def everything(of: Costs) -> list[str]:
    """Every text of the answer that the owner needs."""
    texts = [one.what for one in of.missing] + [of.hours.left, of.hours.worth, of.job]
    for one in of.accounts:
        texts += [one.said, one.over, one.spent, one.today.words, *one.unapproved, *one.remarks]
        texts += [
            text for point in one.points for text in (*point.told, point.range.words if point.range else "")
        ]
        texts += [change.words for change in one.changes]
        texts += [text for said in one.approvals for text in (said.what, said.effect, said.when)]
        if one.ceiling is not None:
            texts += [one.ceiling.agreed, one.ceiling.limit]
        if one.closing is not None:
            texts += [
                text
                for line in one.closing.lines
                for text in (line.what, line.spent, line.difference, line.note)
            ]
            texts += [one.closing.expected, one.closing.spent, one.closing.difference, *one.closing.said]
        else:
            texts += [text for line in one.lines for text in (line.what, line.expected, line.counts)]
    return [text for text in texts if text]


def test_the_invented_job_has_an_account_within_its_ceiling(answer: Costs) -> None:
    (one,) = answer.accounts
    # HAND: 104.60 + 156.50 + 44.00 + 262.00 + 26.60 by the entries of the demo; 750 and 30 approved since
    assert (one.currency, one.spent, one.over) == ("EUR", "593.70 EUR", "")
    assert one.ceiling is not None
    assert (one.ceiling.agreed, one.ceiling.limit) == ("750 EUR", "780 EUR")
    assert [point.range is not None for point in one.points] == [True] * 4


def test_the_terminal_says_all_of_it(book: Path, closed: Costs, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["money", "--closing", "--book", str(book)]) == 0
    told = squashed(capsys.readouterr().out)
    for text in everything(closed):
        assert all(squashed(word) in told for word in text.split()), text
    assert "Ownhours,notmoney" in told


def test_json_is_the_answer(book: Path, answer: Costs, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["money", "--json", "--book", str(book)]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["accounts"][0]["today"]["words"] == answer.accounts[0].today.words
    assert found["accounts"][0]["closing"] is None


def test_it_ends_with_1_above_the_ceiling_and_with_0_without_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = priced_job(tmp_path)
    assert main(["money", "--book", str(job.book)]) == 0
    assert "nothing was written down: gudgeon record cost" in capsys.readouterr().out
    cost(job, "head", "100")
    assert main(["money", "--book", str(job.book)]) == 0
    ceiling(job, "90")
    assert main(["money", "--book", str(job.book)]) == 1
    assert main(["money", "--json", "--book", str(job.book)]) == 1
    assert "  ! Ask before you go on: it ends 10 EUR above the 90 EUR" in capsys.readouterr().out


def test_what_is_typed_is_what_counts(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = priced_job(tmp_path)
    at = ["--book", str(job.book)]
    low = ["--low", "80", "--likely", "100", "--high", "180", "--currency", "eur"]
    assert main(["record", "cost", "head", *low, "--of", "shop", "--known-after", "strip", *at]) == 0
    assert main(["record", "ceiling", "150", "EUR", "--by", "Ada", *at]) == 0
    assert (
        main(
            ["record", "approval", "studs", "yes", "--by", "Ada", "--amount", "12", "--currency", "EUR", *at]
        )
        == 0
    )
    assert main(["record", "estimate", "strip", "--low", "90", "--middle", "110", "--high", "150", "--currency",
                 "EUR", "--to", "Ada", *at]) == 0  # fmt: skip
    capsys.readouterr()
    assert main(["money", *at]) == 0
    told = capsys.readouterr().out
    assert "(162 EUR with what was approved since)" in told
    assert "80 to 180 EUR, as a rule 100" in " ".join(told.split())


def test_the_picture_is_written_once(book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "costs.svg"
    assert main(["money", "--picture", str(file), "--book", str(book)]) == 0
    assert file.read_text(encoding="utf-8").startswith("<svg")
    assert main(["money", "--picture", str(file), "--book", str(book)]) == 2
    assert "exists already and is left as it is" in capsys.readouterr().err


def test_the_drawing_has_every_bar_and_the_ceiling_in_its_place(tmp_path: Path) -> None:
    """HAND: the scale ends at 200, the next step above 180; 10 to 348 units wide: 150 EUR lies at 10 + 338 · 0.75."""
    job = priced_job(tmp_path)
    cost(job, "head", "100")
    cost(job, "crack", "80", chance="0.3", due="diagnosis")
    paid(job, "head", "100")
    ceiling(job, "150")
    drawn = costs_picture(asked(job))
    assert [one.name for one in drawn.bars] == ["at the start", "after finding out", "today"]
    assert (drawn.most, drawn.ceiling, drawn.spent) == (200, 150, 100)
    svg = costs_svg(drawn)
    root = ElementTree.fromstring(svg)
    said = [one.text for one in root.iter("{http://www.w3.org/2000/svg}text")]
    assert {"ceiling 150 EUR", "Spent 100 EUR", "200 EUR"} <= set(said)
    assert "M263.5 " in svg
    widths = [one.get("width") for one in root.iter("{http://www.w3.org/2000/svg}rect")]
    assert widths.count("135.2") == 2, "80 of 200 EUR, twice: after finding out and today"


def test_no_picture_of_nothing(tmp_path: Path) -> None:
    job = priced_job(tmp_path)
    with pytest.raises(NoCostsToDraw) as refused:
        costs_picture(asked(job))
    assert str(refused.value) == (
        "No picture of costs can be drawn. Nothing was written down that costs money: begin with what something will "
        "cost."
    )
    cost(job, "head", "1")
    with pytest.raises(NoCostsToDraw) as refused:
        costs_picture(asked(job), currency="USD")
    assert str(refused.value) == "No picture of costs in `USD` can be drawn. There is an account in: EUR."


def test_the_page_says_what_the_terminal_says(client: TestClient, closed: Costs) -> None:
    page = client.get("/money?closing=yes")
    assert page.status_code == 200
    told = squashed(unescape(page.text))
    for text in everything(closed):
        assert squashed(text.capitalize() if text == closed.job else text) in told or all(
            squashed(word) in told for word in text.split()
        ), text
    assert "/record/cost?" in page.text
    assert 'href="/money"' in client.get("/buy").text


def test_the_picture_on_the_page(client: TestClient) -> None:
    found = client.get("/money.svg?currency=EUR")
    assert (found.status_code, found.headers["content-type"]) == (200, "image/svg+xml")
    assert "ceiling 780 EUR" in found.text
    assert client.get("/money.svg?currency=CHF").status_code == 422


def test_a_warning_stands_on_the_page(tmp_path: Path) -> None:
    job = priced_job(tmp_path)
    ceiling(job, "90")
    cost(job, "head", "100")
    with paired(job.book) as client:
        page = unescape(client.get("/money").text)
    assert (
        "<strong>Ask first.</strong> Ask before you go on: it ends 10 EUR above the 90 EUR that Ada agreed to."
        in page
    )
    assert "head: new, 100 EUR" in page


def test_a_page_without_any_cost_leads_to_the_form(tmp_path: Path) -> None:
    with paired(priced_job(tmp_path).book) as client:
        page = client.get("/money")
    assert "Nothing is written down that costs money." in page.text
    assert "/paper/estimate.pdf" not in page.text


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("closing", [False, True])
def test_the_estimate_on_paper(
    answer: Costs, closed: Costs, tmp_path: Path, size: str, *, closing: bool
) -> None:
    of = closed if closing else answer
    pdf = estimate_pdf(of, size=size)
    told = words(pdf)
    assert [text for text in everything(of) if squashed(text).casefold() not in told.casefold()] == []
    assert squashed("invented engine – not for any real one") in told
    assert of.heading.head[:12] in told
    assert "Theowner" in told
    # Sentences begin large, and a semicolon stands between the two amounts.
    assert squashed("More than 99 % of the cases stay within it.") in told
    assert closing or squashed("Spent so far 593.70 EUR; still to come") in told
    count = len(pages(pdf))
    assert numbered(pdf) == [(number, count) for number in range(1, count + 1)]
    assert least_white_mm(pdf, tmp_path) >= 10.0


@pytest.mark.parametrize("said", [False, True], ids=["nothing expected", "one cost expected"])
def test_an_estimate_can_be_signed_however_little_is_in_it(tmp_path: Path, *, said: bool) -> None:
    job = priced_job(tmp_path)
    if said:
        cost(job, "head", "180", "230", "330")
    last = pages(estimate_pdf(asked(job), size="a4"))[-1]
    assert squashed("How sure is it?") in squashed(last)  # no page of lines to sign alone
    assert squashed("The owner") in squashed(last)


def test_what_is_not_in_it_is_a_list(tmp_path: Path) -> None:
    said = "".join(pages(estimate_pdf(asked(priced_job(tmp_path)), size="letter")))
    assert "– Thermometer\n" in said
    assert "Thermometer;" not in said


def test_what_others_wrote_is_only_shown(tmp_path: Path) -> None:
    job = priced_job(tmp_path)
    cost(job, NASTY, "10", "20", "30", basis=NASTY)
    ceiling(job, "5", by=NASTY)
    told = words(estimate_pdf(asked(job), size="a4"))
    assert "ASKFIRST" in told
    assert costs_svg(costs_picture(asked(job))).count("<script") == 0


def test_print_writes_a_file(book: Path, tmp_path: Path) -> None:
    out = ["--out", str(tmp_path), "--book", str(book)]
    assert main(["print", "estimate", *out]) == 0
    assert main(["print", "estimate", "--closing", "--size", "letter", *out]) == 0
    assert sorted(one.name for one in tmp_path.iterdir()) == ["demo-closing-account.pdf", "demo-estimate.pdf"]


def test_the_paper_from_the_page(client: TestClient) -> None:
    found = client.get("/paper/estimate.pdf?closing=yes&size=letter")
    assert found.headers["content-type"] == "application/pdf"
    assert "closing-account.pdf" in found.headers["content-disposition"]
