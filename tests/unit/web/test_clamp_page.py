"""The page that says what limits the clamp, asked as a browser asks."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.clamp import CAUTION, clamp
from gudgeon.web.app import create_app
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_clamp import TURN, sheet
from tests.unit.bench.test_clamp_families import TURNS, two
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=sheet(*TURN))
    made.read_code()
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with TestClient(create_app(job.book), base_url="http://127.0.0.1") as client:
        yield client


def test_the_page_of_the_joint_leads_there(pages: TestClient) -> None:
    assert 'href="/set/head/clamp"' in pages.get("/set/head").text


def test_it_gives_the_answer_of_the_terminal(pages: TestClient, job: Job) -> None:
    page, answer = pages.get("/set/head/clamp").text, clamp(job.bench(), "head")
    assert answer.said in page
    assert CAUTION.replace("'", "&#39;") in page
    for stage in answer.stages:
        assert stage.clamp in page
        assert stage.band in page
    for bolt in answer.stages[-1].bolts:
        assert bolt.band in page
        assert bolt.stretch in page


def test_a_what_if_stands_below(pages: TestClient, job: Job) -> None:
    page = pages.get("/set/head/clamp", params={"if": "by-eye"}).text
    line = clamp(job.bench(), "head", what_if=("by-eye",)).what_ifs[0]
    assert line.compared in page
    assert '<option value="by-eye" selected>' in page


def test_a_what_if_that_cannot_be_asked_is_said_above_its_form(pages: TestClient) -> None:
    answer = pages.get("/set/head/clamp", params={"if": "wrench=none"})
    assert answer.status_code == 422
    assert "is no what-if of this joint" in answer.text
    assert "After each stage" in answer.text


def test_what_is_missing_is_named(tmp_path: Path) -> None:
    made = make_job(tmp_path, sheet=SMALL)
    made.read_code()
    with TestClient(create_app(made.book), base_url="http://127.0.0.1") as client:
        page = client.get("/set/head/clamp")
    assert page.status_code == 200
    assert "cannot be said. Not stated:" in page.text
    assert "Not stated, so not said" in page.text
    assert "After each stage" not in page.text


def test_an_unknown_joint_and_a_locked_sheet(tmp_path: Path, pages: TestClient) -> None:
    assert pages.get("/set/nothing/clamp").status_code == 404
    folder = tmp_path / "locked"
    folder.mkdir()
    made = make_job(folder, sheet=sheet(*TURN))
    with TestClient(create_app(made.book), base_url="http://127.0.0.1") as client:
        assert "kN" not in client.get("/set/head/clamp").text


def test_a_stage_left_out_begins_with_what_is_not_seen(pages: TestClient) -> None:
    page = pages.get("/set/head/clamp", params={"if": "skip=1"}).text
    below = page[page.index('id="what-if"') :]
    assert below.index("What the model does not see: a turn is counted") < below.index("Against the program")
    assert "begins to yield while it is being turned" in page


def test_two_families_have_rows_of_their_own(tmp_path: Path) -> None:
    made = make_job(tmp_path, sheet=two(*TURNS))
    made.read_code()
    with TestClient(create_app(made.book), base_url="http://127.0.0.1") as client:
        page = client.get("/set/head/clamp").text
    assert page.count('Stage 1 <span class="soft">long (M10)</span>') == 1
    assert page.count('Stage 1 <span class="soft">short (M8)</span>') == 1
    assert "0.0000" not in page
