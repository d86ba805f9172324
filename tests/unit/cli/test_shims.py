"""`gudgeon shims` on the invented job, as a person types it, on its page and on paper."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.shims.model import ShimAnswer
from gudgeon.bench.shims.shims import shims
from gudgeon.cli.main import main
from gudgeon.paper.shims import shims_pdf
from tests.paired import paired
from tests.unit.bench.shim_jobs import GOOD, SHEET, shim_job
from tests.unit.paper.reading import least_white_mm, numbered, pages, squashed, words


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    return folder / "book.gudgeon"


@pytest.fixture(scope="module")
def bench(book: Path) -> Bench:
    opened = open_bench(book)
    opened.store.close()
    return opened


@pytest.fixture(scope="module")
def answer(bench: Bench) -> ShimAnswer:
    return shims(bench)


@pytest.fixture
def client(book: Path) -> Iterator[TestClient]:
    with paired(book) as made:
        yield made


def test_the_invented_job(answer: ShimAnswer) -> None:
    """HAND: cylinder 2, timing side: 2.45 + 0.24 − 0.30 = 2.39; cylinder 3: 2.50 + 0.215 − 0.30 = 2.415 and
    2.40 + 0.265 − 0.30 = 2.365. In stock lie 2.30, 2.35, 2.35, 2.40, 2.45; nothing has to be bought."""
    moved = {
        f"{one.side} {one.place}": (one.exact, one.fitted, one.comes_from, one.result)
        for one in answer.valves
        if one.moved
    }
    assert set(moved) == {
        "exhaust cylinder 2, timing side", "exhaust cylinder 3, timing side", "exhaust cylinder 3, flywheel side",
    }  # fmt: skip
    assert [exact for exact, *_ in moved.values()] == [
        "2.390 mm (0.0941 in)", "2.415 mm (0.0951 in)", "2.365 mm (0.0931 in)",
    ]  # fmt: skip
    assert sorted(fitted for _, fitted, *_ in moved.values()) == [
        "2.35 mm (0.0925 in)", "2.40 mm (0.0945 in)", "2.40 mm (0.0945 in)",
    ]  # fmt: skip
    assert {one.verdict for one in answer.valves} == {"inside"}
    assert len(answer.valves) == 16
    assert (answer.shopping, answer.missing) == ((), ())
    # HAND, in hundredths: intake 1, 1.5, 1, 1, 1.5, 1, 1.5, 1; exhaust 1, 1.5, 1, 1, 1.5, 1.5, 1, 1.5 off the middle.
    assert dict(answer.aims)["off the middle of the range, all valves added up"] == "0.195 mm (0.0077 in)"
    assert answer.measure_again[0].startswith(
        "All clearances were read before the cylinder head came back from "
    )


def test_the_terminal_gives_all_of_it(
    book: Path, answer: ShimAnswer, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["shims", "--book", str(book)]) == 0
    said = squashed(capsys.readouterr().out)
    texts = [answer.said, answer.proof, *answer.remarks, *answer.measure_again, *answer.taken]
    texts += [step.words for run in answer.work for step in run.steps]
    texts += [run.title for run in answer.work]
    assert [text for text in texts if squashed(text) not in said] == []


def test_as_json(book: Path, answer: ShimAnswer, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert main(["shims", "--json", "--book", str(book)]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["valves"][10]["fitted_mm"] == pytest.approx(answer.valves[10].fitted_mm)
    assert [step["number"] for run in found["work"] for step in run["steps"]] == [1, 2, 3, 4, 5]


def test_one_that_is_not_settled_ends_with_1(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = shim_job(
        tmp_path, GOOD | {"intake rear": ("", "", "2.35"), "exhaust rear": ("0.19", "0.21", "2.45")}
    )
    assert main(["shims", "--book", str(job.book)]) == 1
    said = " ".join(capsys.readouterr().out.split())  # however wide the terminal is
    assert "intake: clearance (rear): nothing is said of it, and its shim stays where it is" in said
    assert "Together: 4.80 EUR" in said


def test_screws_in_the_terminal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheet = SHEET.replace("adjustment: shims", "adjustment: screw adjusters")
    job = shim_job(tmp_path, {"intake front": ("0.09", "0.11", "")}, sheet=sheet)
    assert main(["shims", "--book", str(job.book)]) == 1
    assert "more by 0.100 mm" in capsys.readouterr().out


def test_the_page_gives_the_answer_of_the_terminal(client: TestClient, answer: ShimAnswer) -> None:
    page = client.get("/timing/shims").text
    texts = [answer.said, answer.proof, *answer.remarks, *answer.measure_again]
    texts += [step.words for run in answer.work for step in run.steps]
    texts += [one.result for one in answer.valves]
    assert [text for text in texts if text not in page] == []
    assert page.count('<th scope="row">cylinder ') == 16


@pytest.mark.parametrize("address", ["/timing", "/good/exhaust_valve_clearance", "/good/intake_shim"])
def test_other_pages_lead_there(client: TestClient, address: str) -> None:
    assert 'href="/timing/shims"' in client.get(address).text


def test_a_page_of_something_else_does_not(client: TestClient) -> None:
    assert 'href="/timing/shims"' not in client.get("/good/camshaft_clearance").text


def test_hydraulic_lifters_lead_to_the_cut(tmp_path: Path) -> None:
    job = shim_job(tmp_path, {}, sheet=SHEET.replace("adjustment: shims", "adjustment: hydraulic lifters"))
    with paired(job.book) as made:
        assert 'href="/cut"' in made.get("/timing/shims").text.split("<main")[1]


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_nothing_is_lost_on_paper(answer: ShimAnswer, tmp_path: Path, size: str) -> None:
    pdf = shims_pdf(answer, size=size)
    said = words(pdf)
    texts = [answer.said, answer.proof, *answer.remarks, *answer.measure_again, *answer.taken]
    texts += [step.words for run in answer.work for step in run.steps]
    texts += [one.fitted for one in answer.valves]
    assert [text for text in texts if squashed(text) not in said] == []
    count = len(pages(pdf))
    assert numbered(pdf) == [(number, count) for number in range(1, count + 1)]
    assert least_white_mm(pdf, tmp_path) >= 10.0


def test_paper_of_screws_and_of_what_is_missing(tmp_path: Path) -> None:
    sheet = SHEET.replace("adjustment: shims", "adjustment: screw adjusters")
    found = shims(shim_job(tmp_path, {"intake front": ("0.09", "0.11", "")}, sheet=sheet).bench())
    said = words(shims_pdf(found, size="a4"))
    assert squashed("more by 0.100 mm (0.0039 in)") in said
    assert squashed("exhaust: clearance (all 2)") in said


def test_printing(book: Path, client: TestClient, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert main(["print", "shims", "--book", str(book), "--out", str(tmp_path)]) == 0
    assert capsys.readouterr().out.startswith(f"Written: {tmp_path / 'demo-shims.pdf'}")
    assert (tmp_path / "demo-shims.pdf").read_bytes().startswith(b"%PDF-")
    sent = client.get("/paper/shims.pdf", params={"size": "letter"})
    assert sent.headers["content-disposition"] == 'attachment; filename="demo-shims.pdf"'
