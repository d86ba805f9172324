"""The page that says what limits the clamp, asked as a browser asks: at once, and where it takes long."""

import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.clamp import CAUTION, clamp
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_clamp import TURN, sheet
from tests.unit.bench.test_clamp_families import TURNS, two
from tests.unit.sheet.sheets import SMALL

PATIENCE_S = 60.0


@pytest.fixture(autouse=True)
def patient(monkeypatch: pytest.MonkeyPatch) -> None:
    """However busy this machine is, the answer is waited for."""
    monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", PATIENCE_S)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=sheet(*TURN))
    made.read_code()
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def test_the_page_of_the_joint_leads_there(pages: TestClient) -> None:
    assert 'href="/set/head/whole' in pages.get("/set/head").text
    assert 'href="/set/head/clamp"' in pages.get("/set/head/whole").text


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
    with paired(made.book) as client:
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
    with paired(made.book) as client:
        assert "kN" not in client.get("/set/head/clamp").text


def test_a_stage_left_out_begins_with_what_is_not_seen(pages: TestClient) -> None:
    page = pages.get("/set/head/clamp", params={"if": "skip=1"}).text
    below = page[page.index('id="what-if"') :]
    assert below.index("What the model does not see: a turn is counted") < below.index("Against the program")
    assert "begins to yield while it is being turned" in page


def test_two_families_have_rows_of_their_own(tmp_path: Path) -> None:
    made = make_job(tmp_path, sheet=two(*TURNS))
    made.read_code()
    with paired(made.book) as client:
        page = client.get("/set/head/clamp").text
    assert page.count('Stage 1 <span class="soft">long (M10)</span>') == 1
    assert page.count('Stage 1 <span class="soft">short (M8)</span>') == 1
    assert "0.0000" not in page


class Held:
    """Holds a work back where it first says how far it is, and counts how often the question was worked out."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.go_on, self.there, self.times = threading.Event(), threading.Event(), 0
        monkeypatch.setattr("gudgeon.bench.clamp.clamp", self)
        monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", 0.01)

    def __call__(self, bench: Any, key: str, **said: Any) -> Any:
        self.times += 1
        tell = said.pop("tell")

        def told(words: str) -> None:
            tell(words)
            if not words.startswith("tightening"):
                return
            self.there.set()
            assert self.go_on.wait(PATIENCE_S)

        return clamp(bench, key, **said, tell=told)


def through(pages: TestClient, address: str) -> str:
    """Wait for the work of an address to end."""
    key = address.rpartition("/")[2]
    work = pages.app.state.works.of(key)  # type: ignore[attr-defined]
    assert work.ended.wait(PATIENCE_S)
    return str(work.state)


def test_more_tightenings_are_asked_for_and_their_number_is_said(pages: TestClient, job: Job) -> None:
    usual = pages.get("/set/head/clamp").text
    assert "10,000 tightenings at random, seed 1." in usual
    assert '<option value="10000" selected>10,000, as usual</option>' in usual
    more = pages.get("/set/head/clamp", params={"trials": "25000"}).text
    assert "25,000 tightenings at random, seed 1." in more
    answer = clamp(job.bench(), "head", trials=25_000)
    for bolt in answer.stages[-1].bolts:
        assert bolt.band in more
    assert '<option value="25000" selected>' in more
    assert 'src="/set/head/clamp.svg?trials=25000&amp;if="' in more


@pytest.mark.parametrize("trials", ["", "0", "10001", "9" * 400, "many", "-1"])
def test_a_number_that_is_not_offered_is_the_usual_one(pages: TestClient, trials: str) -> None:
    page = pages.get("/set/head/clamp", params={"trials": trials})
    assert page.status_code == 200
    assert "10,000 tightenings at random" in page.text


def test_what_takes_long_is_seen_on_its_way_and_then_shown(
    pages: TestClient, monkeypatch: pytest.MonkeyPatch, job: Job
) -> None:
    held = Held(monkeypatch)
    asked = {"trials": "25000", "if": "by-eye"}
    page = pages.get("/set/head/clamp", params=asked)
    assert page.url.path.startswith("/under-way/")
    assert "What limits the clamp: 25,000 tightenings" in page.text
    assert '<a href="/set/head">The joint</a>' in page.text
    assert held.there.wait(PATIENCE_S)
    # HAND: two programs, each 25,000 and 1500 for each of five causes.
    assert "of 65,000" in pages.get(page.url.path).text
    again = pages.get("/set/head/clamp", params=asked)
    assert again.url.path == page.url.path, "asked twice, it is worked out once"
    held.go_on.set()
    assert through(pages, page.url.path) == "done"
    shown = pages.get(page.url.path)
    assert (shown.url.path, dict(shown.url.params)) == ("/set/head/clamp", asked)
    assert clamp(job.bench(), "head", what_if=("by-eye",), trials=25_000).what_ifs[0].compared in shown.text
    assert pages.get("/set/head/clamp", params=asked).url.path == "/set/head/clamp"
    assert held.times == 1


def test_the_answer_stays_until_something_it_stands_on_changes(
    pages: TestClient, monkeypatch: pytest.MonkeyPatch, job: Job
) -> None:
    held = Held(monkeypatch)
    held.go_on.set()
    monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", PATIENCE_S)
    first = pages.get("/set/head/clamp").text
    job.record("note", text="nothing to do with the head")
    assert pages.get("/set/head/clamp").text.count("kN") == first.count("kN")
    assert held.times == 1
    file = job.book.with_name("sheet.yaml")
    file.write_text(file.read_text("utf-8").replace("torque: 40 N·m", "torque: 45 N·m"), encoding="utf-8")
    changed = pages.get("/set/head/clamp").text
    assert held.times == 2
    assert clamp(job.bench(), "head").said in changed


def test_a_clamp_that_is_stopped_leads_back_to_its_joint_and_can_be_asked_again(
    pages: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    held = Held(monkeypatch)
    page = pages.get("/set/head/clamp", params={"trials": "50000"})
    assert held.there.wait(PATIENCE_S)
    assert "It is being stopped." in pages.post(f"{page.url.path}/stop").text
    held.go_on.set()
    assert through(pages, page.url.path) == "stopped"
    stopped = pages.get(page.url.path).text
    assert "It was stopped. Nothing of it is left." in stopped
    assert 'href="/set/head">Back: The joint</a>' in stopped
    monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", PATIENCE_S)
    assert "50,000 tightenings at random" in pages.get("/set/head/clamp", params={"trials": "50000"}).text
    assert held.times == 2
