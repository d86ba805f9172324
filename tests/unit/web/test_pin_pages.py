"""Pins from the pages without a script: a tap is a form that is sent, and only the button writes into the book."""

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.book.pictures import clean_picture
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.book.photos import drawn, saved
from tests.unit.web.test_photo_pages import carried, folder, send

TAKEN = saved(drawn((640, 480)), "JPEG")
SHA = clean_picture(TAKEN).sha
ADDRESS = f"/photos/{SHA}"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        assert send(client, "photo", ("a.jpg", TAKEN), caption="front of the block")[0] == 303
        yield client


def fields(page: str) -> dict[str, str]:
    """The form of the pins as it is filled."""
    found = re.findall(r'<input type="(?:hidden|text)"[^>]* name="([\w.]+)" value="([^"]*)"', page)
    return carried(page) | {name: unescape(value) for name, value in found if not name.endswith(".0")}


def test_a_tap_only_changes_the_form(pages: TestClient, job: Job) -> None:
    page = pages.get(f"{ADDRESS}/pins").text
    before = job.bench().state.count
    assert 'width="320" height="240" formnovalidate' in page
    page = pages.post(f"{ADDRESS}/pins", data=fields(page) | {"at.x": "80", "at.y": "120", "tap": "new"}).text
    # HAND: the middle of pixel 80 of 320 is (80 + 0.5) / 320 = 25.2 %, of pixel 120 of 240 it is 50.2 %.
    said = fields(page)
    assert (said["number.1"], said["across.1"], said["down.1"]) == ("1", "25.2", "50.2")
    assert '<circle class="pin-badge" cx="252.0" cy="376.5" r="42"/>' in page  # HAND: 502 · 480 / 640 = 376.5
    assert job.bench().state.count == before
    page = pages.post(f"{ADDRESS}/pins", data=said | {"at.x": "0", "at.y": "0", "tap": "1"}).text
    assert (fields(page)["across.1"], fields(page)["down.1"]) == ("0.2", "0.2")
    assert "number.2" not in fields(page)
    assert job.bench().state.count == before


def test_pins_are_written_shown_and_come_off(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(f"{ADDRESS}/pins").text)
    for x in ("32", "288"):
        said = fields(pages.post(f"{ADDRESS}/pins", data=said | {"at.x": x, "at.y": "24"}).text)
    refused = pages.post(f"{ADDRESS}/pins", data=said | {"text.1": "earth <strap>"})
    assert refused.status_code == 422
    assert "Pin 2 has no words" in refused.text
    assert fields(refused.text)["text.1"] == "earth <strap>"
    done = pages.post(
        f"{ADDRESS}/pins", data=said | {"text.1": "earth <strap>", "text.2": "plug"}, follow_redirects=False
    )
    assert done.headers["location"].startswith(f"{ADDRESS}/look?recorded=")
    look = pages.get(f"{ADDRESS}/look").text
    assert (
        'alt="front of the block. 2 pins: 1: earth &lt;strap&gt; (top, left); 2: plug (top, right)"' in look
    )
    assert 'href="#pin-2" aria-label="Pin 2: plug"' in look
    form = carried(look)
    one = {"one": "1", "group.1": "strap", "due_before": "fire"}
    assert pages.post(f"{ADDRESS}/off", data=form | one, follow_redirects=False).status_code == 303
    everything = {"all": "yes", "group.2": "connector", "due_before": "crank"}
    form = carried(pages.get(f"{ADDRESS}/look").text)
    assert pages.post(f"{ADDRESS}/off", data=form | everything, follow_redirects=False).status_code == 303
    off = job.bench().state.left_over
    assert {one.where: (one.name, one.group, one.due_before) for one in off.values()} == {
        "1": ("earth <strap>", "strap", "fire"),
        "2": ("plug", "connector", "crank"),
    }
    page = pages.get("/open").text
    assert f'href="{ADDRESS}/look#pin-1">See it in the photo, pin 1</a>' in page
    again = pages.post(f"{ADDRESS}/off", data=form | {"one": "1", "entry": "0" * 32})
    assert again.status_code == 422
    assert "front of the block" in again.text


def test_a_count_from_the_page(pages: TestClient, job: Job) -> None:
    form = carried(pages.get(f"{ADDRESS}/look").text)
    counted = {"group": "bolt", "when": "off", "count": "17"}
    assert pages.post(f"{ADDRESS}/count", data=form | counted, follow_redirects=False).status_code == 303
    assert job.bench().state.tallies["bolt"].off == 17
    assert "bolts as they came off" in pages.get(f"{ADDRESS}/look").text
    refused = pages.post(f"{ADDRESS}/count", data=form | counted | {"count": "many", "entry": "1" * 32})
    assert refused.status_code == 422
    assert "`many` was counted in the photo" in unescape(refused.text)
    assert 'value="many"' in refused.text


def test_pins_of_the_form_of_a_photo_go_into_the_book_with_it(pages: TestClient, job: Job) -> None:
    pins = {
        "number.1": "1",
        "across.1": "10",
        "down.1": "20",
        "text.1": "strap",
        "away.2": "yes",
        "number.2": "2",
    }
    content = saved(drawn((80, 60)), "PNG")
    assert send(pages, "photo", ("b.png", content), caption="rear", **pins)[0] == 303
    assert job.bench().state.photos[-1].pins == ({"number": 1, "x": 100, "y": 200, "text": "strap"},)
    status, page = send(pages, "photo", ("c.png", content), caption="rear", **pins | {"text.1": ""})
    assert status == 422
    assert 'name="across.1" value="10"' in page


def test_numbers_of_other_photos_are_told(pages: TestClient) -> None:
    pins = {"number.7": "7", "across.7": "10", "down.7": "20", "text.7": "strap"}
    send(pages, "photo", ("b.png", saved(drawn((80, 60)), "PNG")), caption="rear", **pins)
    page = pages.get(f"{ADDRESS}/pins").text
    assert "Numbers up to 7 stand on other photos already" in page
    page = pages.get(f"{ADDRESS}/pins?first=8").text
    tapped = pages.post(f"{ADDRESS}/pins", data=fields(page) | {"at.x": "1", "at.y": "1"}).text
    assert fields(tapped)["number.1"] == "8"


@pytest.mark.parametrize("page", ["look", "pins"])
def test_no_photo_no_page(pages: TestClient, page: str) -> None:
    answer = pages.get(f"/photos/{'0' * 64}/{page}")
    assert answer.status_code == 404
    assert answer.headers["content-type"].startswith("text/html")


# Of a body without its end the library that reads forms leaves the half file to be thrown away with the request.
@pytest.mark.filterwarnings("ignore:.*SpooledTemporaryFile:pytest.PytestUnraisableExceptionWarning")
def test_an_upload_that_is_cut_off_writes_nothing(pages: TestClient, job: Job) -> None:
    form = carried(pages.get("/record/photo").text)
    edge = "edge"
    parts = "".join(
        f'--{edge}\r\nContent-Disposition: form-data; name="{name}"\r\n\r\n{value}\r\n'
        for name, value in {**form, "caption": "half of it"}.items()
    )
    head = f'--{edge}\r\nContent-Disposition: form-data; name="file"; filename="a.jpg"\r\n\r\n'
    before, kept = job.bench().state.count, sorted(folder(job).iterdir())
    content = parts.encode() + head.encode() + TAKEN[: len(TAKEN) // 2]
    answer = pages.post(
        "/record/photo", content=content, headers={"Content-Type": f"multipart/form-data; boundary={edge}"}
    )
    assert answer.status_code in (400, 422)
    assert job.bench().state.count == before
    assert sorted(folder(job).iterdir()) == kept
