"""A form that names what is not on its list any more chooses nothing in its place, and says who closed it."""

import re
from collections.abc import Iterator
from datetime import datetime
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.context import open_bench
from gudgeon.bench.reason import when
from gudgeon.bench.recordable import RECORDABLES
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job

LISTS = (
    ("left-in", "taken-out"),
    ("plugged", "opened"),
    ("taken-off", "refitted"),
    ("provisional-made", "cleared"),
)
KINDS = {one.name: one.kind for one in RECORDABLES}


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def selected(page: str, field: str) -> list[str]:
    """The options that a form sends unless another is chosen: those that are selected, else the first one."""
    select = re.search(rf'<select[^>]* name="{field}"[^>]*>(.*?)</select>', page, re.DOTALL)
    assert select is not None, field
    marked = re.findall(r'<option value="([^"]*)" selected>', select[1])
    return marked or re.findall(r'<option value="([^"]*)"', select[1])[:1]


def noticed(page: str) -> str:
    found = re.search(r'<p class="notice" id="[^"]*-gone">(.*?)</p>', page, re.DOTALL)
    return " ".join(unescape(found[1]).split()) if found else ""


def put(job: Job, kind: str, item: str) -> None:
    more = {
        "left-in": {"where": "in the bore"},
        "plugged": {"where": "at the pump"},
        "taken-off": {"group": "bolt"},
        "provisional-made": {"why": "not yet", "due_task": "pulley"},
    }
    job.record(kind, item=item, name=f"the {item}", **{"due_before": "crank", **more[kind]})


@pytest.mark.parametrize(("opens", "name"), LISTS)
def test_a_closed_item_never_becomes_another_one(pages: TestClient, job: Job, opens: str, name: str) -> None:
    put(job, opens, "first")
    put(job, opens, "second")
    job.record(KINDS[name], item="second", **({"how": "by hand"} if name == "cleared" else {}))
    bench = open_bench(job.book)
    closing = bench.store.entries(bench.build)[-1]
    bench.store.close()
    page = pages.get(f"/record/{name}?item=second").text
    assert selected(page, "item") == [""]
    assert noticed(page) == (
        f"“the second” is not open any more: {closing.who} ({closing.device}) closed it on "
        f"{when(datetime.fromisoformat(closing.device_time))}, entry {closing.number}. Nothing is chosen in its place."
    )
    assert selected(pages.get(f"/record/{name}?item=first").text, "item") == ["first"]
    never = pages.get(f"/record/{name}?item=never").text
    assert selected(never, "item") == [""]
    assert noticed(never) == (
        "“never” is not open, and no entry of the book closed it under this name. Nothing is chosen in its place."
    )


def test_a_refused_tap_on_an_old_page_stands_on_nothing(pages: TestClient, job: Job) -> None:
    put(job, "plugged", "first")
    put(job, "plugged", "second")
    job.record("opened", item="second")
    answer = pages.post("/record/opened", data={"item": "second"})
    assert answer.status_code == 422
    assert selected(answer.text, "item") == [""]
    assert noticed(answer.text).startswith("“the second” is not open any more: ")
    assert list(job.bench().state.plugged) == ["first"]


def test_the_last_one_gone_leaves_nothing_to_send(pages: TestClient, job: Job) -> None:
    put(job, "left-in", "only")
    job.record("taken-out", item="only")
    page = pages.get("/record/taken-out?item=only").text
    assert noticed(page).startswith("“the only” is not open any more: ")
    assert "Nothing is left in now" in page
    assert "Write it into the book" not in page


@pytest.mark.parametrize(
    ("address", "field"),
    [
        ("/record/hold?hold=gone", "hold"),
        ("/record/timer-ended?timer=gone", "timer"),
        ("/record/accepted?what=gone", "what"),
        ("/record/marked?joint=gone", "joint"),
        ("/record/override?about=gone", "about"),
        ("/record/task-started?task=gone", "task"),
        ("/record/photo?about=gone", "about"),
        ("/record/left-in?due_before=gone", "due_before"),
    ],
)
def test_no_form_chooses_for_what_it_does_not_know(pages: TestClient, address: str, field: str) -> None:
    answer = pages.get(address)
    assert selected(answer.text, field) == [""]
    assert "gone”" in noticed(answer.text)


def test_what_is_too_long_says_the_limit_and_the_label(pages: TestClient) -> None:
    # What the book states of a text that is said, and of a name: 20,000 and 300 letters (HAND: one letter more).
    long = "x" * 20_001
    for address, fields, told in (
        (
            "/record/disturbed",
            {"joint": "head", "why": long},
            "“A joint slackened” cannot be taken so: “Why”: it has 20,001 letters; a book takes at most 20,000 of it. "
            "Shorten it. Nothing was recorded.",
        ),
        (
            "/record/left-in",
            {"name": "x" * 301, "where": "bore", "due_before": "crank"},
            "it has 301 letters; a book takes at most 300 of it. Shorten it",
        ),
    ):
        answer = pages.post(address, data=fields)
        assert answer.status_code == 422
        assert told in unescape(answer.text)


@pytest.mark.parametrize("address", ["/record/photo", "/record/hold"])
def test_a_photo_may_come_from_the_camera_and_from_the_gallery(pages: TestClient, address: str) -> None:
    (field,) = re.findall(r'<input type="file"[^>]*>', pages.get(address).text)
    assert 'accept="image/*"' in field
    assert "capture" not in field
