"""How entries are told in lists and remarks: what was struck, what a look answered, with which device, and how much of it."""

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.paired import NAME, paired
from tests.unit.bench.benches import Job, make_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def row(page: str, number: int) -> str:
    found = re.search(rf'<tr id="entry-{number}".*?</tr>', page, re.DOTALL)
    assert found is not None
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", found[0])).split())


def test_a_strike_says_what_it_struck(pages: TestClient, job: Job) -> None:
    done = job.record("note", text="the wrong nut")
    job.record("strike", entry=done.entry, why="another engine")
    number = job.bench().state.count
    page = pages.get("/done").text
    assert f"Strike : entry {number - 1} (note: the wrong nut), another engine" in row(page, number)


@pytest.mark.parametrize(
    ("answer", "told"), [("yes", "as it was recorded"), ("no", "NOT as it was recorded")]
)
def test_a_look_says_what_was_answered(pages: TestClient, job: Job, answer: str, told: str) -> None:
    job.pull(1, "1")
    pulled = job.bench().state.count
    job.record("looked", entry=str(pulled), seen="the stroke stands at 3", as_recorded=answer)
    assert f"Looked : entry {pulled}, {told}, the stroke stands at 3" in row(
        pages.get("/done").text, pulled + 1
    )


def test_the_device_of_an_entry_is_shown(pages: TestClient, job: Job) -> None:
    pages.post("/record/note", data={"text": "by phone"})
    assert f"Robin ({NAME})" in row(pages.get("/done").text, job.bench().state.count)


def test_a_long_text_is_shortened_with_a_way_to_all_of_it(pages: TestClient, job: Job) -> None:
    basis, long = job.bench().state.head, "long " * 100
    job.record("note", text=long)
    number = job.bench().state.count
    told = row(pages.get("/done").text, number)
    assert f"{long[:200].rstrip()}… All of entry {number} {long.strip()}" in told
    answer = pages.post(
        "/record/note", data={"text": "short", "basis": basis}, headers={"Accept": "application/json"}
    ).json()
    (meanwhile,) = (one for one in answer["remarks"] if one.startswith("Meanwhile "))
    # 200 letters of it, `note: ` among them.
    assert (
        f"recorded note: {long[:194].rstrip()}… (whole: entry {number} of “What was done?”). Look"
        in meanwhile
    )


def test_a_browser_that_was_just_paired_is_told_under_which_name(pages: TestClient) -> None:
    page = unescape(pages.get("/").text)
    assert (
        f"This browser is now paired</strong> as “{NAME}”: what it writes carries that name, and the hand of Robin."
        in page
    )
