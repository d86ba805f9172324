"""The page “Is it timed?”, asked as a browser asks."""

from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.paired import paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.timing.engines import BELT, asked, cut, job
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def of(tmp_path: Path) -> Job:
    made = job(tmp_path)
    cut(made)
    return made


@pytest.fixture
def pages(of: Job) -> Iterator[TestClient]:
    with paired(of.book) as client:
        yield client


def page(pages: TestClient, **query: str) -> str:
    return unescape(pages.get("/timing", params=query).text)


def test_every_page_leads_there_after_the_cut(pages: TestClient) -> None:
    text = pages.get("/").text
    assert text.index('href="/cut"') < text.index('href="/timing"') < text.index('href="/start"')


def test_it_gives_the_answer_of_the_terminal(pages: TestClient, of: Job) -> None:
    text, answer = page(pages), asked(of)
    for said in (answer.runs, answer.realign, answer.cut, *answer.shifts, *answer.rules, *answer.missing):
        assert said in text
    for line in answer.events.lines:
        assert line.opens in text
        assert line.closes in text
    for one in answer.proof.parts:
        assert one.what in text
    for caution in answer.cautions:
        assert caution in text


def test_a_mark_seen_off(pages: TestClient, of: Job) -> None:
    text = page(pages, seen="cam: half a tooth left")
    answer = asked(of, "cam: half a tooth left").seen[0]
    assert answer.words[1:] in text
    assert answer.advice in text
    assert f"Late: {answer.why_timing}." in text
    assert 'value="cam: half a tooth left"' in text


def test_what_cannot_be_read_is_said_and_the_rest_is_there(pages: TestClient) -> None:
    found = pages.get("/timing", params={"seen": "cam: <b>far</b>"})
    assert found.status_code == 422
    assert "cannot be read as a mark that is off" in found.text
    assert "<b>far</b>" not in found.text
    assert "The proof" in found.text


def test_the_proof_leads_to_its_forms(pages: TestClient) -> None:
    text = page(pages)
    for address in (
        "/record/turned?",
        "/record/hold?hold=timing_proved",
        "/record/hold?hold=locking_tools_out",
    ):
        assert address in text


def test_the_pictures(pages: TestClient) -> None:
    for name, title in (("drive", "The timing belt"), ("events", "Valve events, Little one")):
        found = pages.get(f"/timing/{name}.svg")
        assert found.headers["content-type"] == "image/svg+xml"
        assert f'<title id="drawing-title">{title}</title>' in found.text
        assert f'src="/timing/{name}.svg"' in page(pages)


def test_before_the_code_is_read_no_figure_is_shown(tmp_path: Path) -> None:
    made = make_job(tmp_path, sheet=BELT)
    with paired(made.book) as client:
        found = client.get("/timing")
        assert found.status_code == 422
        assert "Figures are locked" in found.text
        assert "240°" not in found.text
        for name in ("drive", "events"):
            assert client.get(f"/timing/{name}.svg").status_code == 422


def test_without_a_drive_the_proof_is_still_there(tmp_path: Path) -> None:
    made = make_job(tmp_path, sheet=SMALL)
    made.read_code()
    with paired(made.book) as client:
        text = client.get("/timing").text
        assert "Two full turns of the crankshaft by hand" in text
        assert "the data sheet states none, so wheels, marks and teeth are not told" in text
        assert client.get("/timing/drive.svg").status_code == 422
        assert client.get("/timing/events.svg").status_code == 422
