"""Photos from the pages: sent with a form, shown by their hash after a look at it, and nothing else served."""

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.book.pictures import clean_picture
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.book.photos import HEIC, JPEG, LATITUDE, PNG, WEBP, with_place

HOLD = "bolt_holes_dry"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def carried(page: str) -> dict[str, str]:
    """What a form carries unseen."""
    return {
        name: unescape(value)
        for name, value in re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', page)
    }


def send(pages: TestClient, name: str, file: tuple[str, bytes] | None, **said: str) -> tuple[int, str]:
    """Fill in a form as it is shown, and send it."""
    field = "file" if name == "photo" else "photo"
    fields = carried(pages.get(f"/record/{name}").text) | said
    files = {field: file or ("", b"")}
    answer = pages.post(f"/record/{name}", data=fields, files=files, follow_redirects=False)
    return answer.status_code, answer.text


def folder(job: Job) -> Path:
    return job.book.with_name("book.gudgeon.photos")


def test_the_forms_take_a_file_and_work_without_a_script(pages: TestClient) -> None:
    for name, field, must in (("photo", "file", " required"), ("hold", "photo", "")):
        page = pages.get(f"/record/{name}").text
        assert f'<form method="post" action="/record/{name}" enctype="multipart/form-data">' in page
        assert f'<input type="file" id="{field}" name="{field}" accept="image/*"{must}>' in page
    assert 'enctype="multipart/form-data"' not in pages.get("/record/note").text


@pytest.mark.parametrize(
    ("content", "kind"),
    [(with_place("JPEG"), "image/jpeg"), (PNG, "image/png"), (WEBP, "image/webp")],
    ids=["jpeg", "png", "webp"],
)
def test_a_photo_is_sent_listed_and_shown(pages: TestClient, job: Job, content: bytes, kind: str) -> None:
    status, _ = send(
        pages,
        "photo",
        ("IMG.JPG", content),
        caption="the <deck>, cleaned",
        about="joint:head",
        about_more="journal, ",
    )
    assert status == 303
    picture = clean_picture(content)
    page = pages.get("/photos").text
    assert "the &lt;deck&gt;, cleaned" in page
    assert "About: Head nuts; Crank journal" in page
    assert f'<img class="kept-photo" src="/photos/{picture.sha}"' in page
    shown = pages.get(f"/photos/{picture.sha}")
    assert shown.content == picture.content
    assert LATITUDE.encode() not in shown.content
    assert shown.headers["content-type"] == kind
    assert shown.headers["x-content-type-options"] == "nosniff"
    assert shown.headers["cache-control"] == "private, max-age=86400, immutable"
    assert '<a href="/photos"' in pages.get("/").text


def test_an_altered_photo_is_told_and_not_shown(pages: TestClient, job: Job) -> None:
    send(pages, "hold", ("a.jpg", JPEG), hold=HOLD)
    picture = clean_picture(JPEG)
    address = f"/photos/{picture.sha}"
    assert pages.get(address).status_code == 200
    (folder(job) / f"{picture.sha}.jpg").write_bytes(clean_picture(PNG).content)
    lost = pages.get(address)
    assert lost.status_code == 404
    assert lost.headers["content-type"].startswith("text/html")
    page = pages.get("/photos").text
    assert "It was altered." in page
    assert address not in page
    assert "1 of them is missing or altered." in page
    assert "A photo of the book is missing or altered" in pages.get("/").text
    start = unescape(pages.get("/start").text)
    assert "the photo that proves it is in doubt: it was altered" in start


def test_a_hold_is_proved_from_the_page(pages: TestClient, job: Job) -> None:
    assert send(pages, "hold", ("a.jpg", JPEG), hold=HOLD)[0] == 303
    assert job.bench().state.holds[HOLD].photo == clean_picture(JPEG).sha
    assert send(pages, "hold", None, hold=HOLD, value="dry, seen with a lamp")[0] == 303
    assert job.bench().state.holds[HOLD].photo == ""
    status, page = send(pages, "hold", None, hold=HOLD)
    assert status == 422
    assert "Nothing proves it yet: write the value that was seen, or add a photo of it" in unescape(page)


@pytest.mark.parametrize(
    ("file", "said"),
    [
        (None, "No photo was chosen."),
        (("empty.jpg", b""), "`empty.jpg` is empty"),
        (("text.jpg", b"I am a text"), "`text.jpg` is not taken"),
        (("IMG.HEIC", HEIC), "Let the phone save JPEG"),
        (("cut.jpg", JPEG[:-40]), "`cut.jpg` cannot be decoded to its end"),
        (("big.jpg", JPEG + bytes(30 * 1024 * 1024)), "`big.jpg` has 30.0 MB"),
    ],
    ids=["none", "empty", "text", "heic", "cut", "big"],
)
def test_what_is_refused_keeps_the_form_and_writes_nothing(
    pages: TestClient, job: Job, file: tuple[str, bytes] | None, said: str
) -> None:
    before = job.bench().state.count
    status, page = send(pages, "photo", file, caption="the deck as it is")
    assert status == 422
    assert said in unescape(page)
    assert 'value="the deck as it is"' in page
    assert ("choose it again" in page) == (file is not None)
    assert job.bench().state.count == before
    assert not folder(job).exists()


def test_a_form_beyond_reason_is_not_read(pages: TestClient, job: Job) -> None:
    assert send(pages, "photo", ("big.jpg", bytes(41 * 1024 * 1024)), caption="x")[0] == 413
    assert not folder(job).exists()


def test_a_form_of_another_site_or_another_book_keeps_no_photo(pages: TestClient, job: Job) -> None:
    fields = carried(pages.get("/record/photo").text) | {"caption": "x"}
    files = {"file": ("a.jpg", JPEG)}
    strange = pages.post("/record/photo", data=fields, files=files, headers={"Origin": "null"})
    assert strange.status_code == 403
    other = pages.post("/record/photo", data=fields | {"chain": "mine 0000000000000000"}, files=files)
    assert other.status_code == 422
    assert not folder(job).exists()


def test_a_form_sent_twice_counts_once(pages: TestClient, job: Job) -> None:
    fields = carried(pages.get("/record/photo").text) | {"caption": "x"}
    for _ in range(2):
        assert pages.post("/record/photo", data=fields, files={"file": ("a.jpg", JPEG)}).status_code == 200
    assert len(job.bench().state.photos) == 1


@pytest.mark.parametrize(
    "name",
    [
        "book.gudgeon",
        "..%2Fbook.gudgeon",
        "%2e%2e%2fsheet.yaml",
        "..%5Cbook.gudgeon",
        "%00",
        "0" * 64,
        "notes.txt",
    ],
)
def test_nothing_but_photos_of_the_book_is_served(pages: TestClient, job: Job, name: str) -> None:
    send(pages, "photo", ("a.jpg", JPEG), caption="x")
    (folder(job) / "notes.txt").write_text("gudgeon: data sheet 1")
    (folder(job) / f"{'0' * 64}.jpg").write_bytes(clean_picture(PNG).content)
    answer = pages.get(f"/photos/{name}")
    assert answer.status_code == 404
    assert "gudgeon: data sheet 1" not in answer.text
    assert answer.headers["content-type"].startswith("text/html")


def test_a_link_out_of_the_folder_shows_nothing(pages: TestClient, job: Job, tmp_path: Path) -> None:
    send(pages, "photo", ("a.jpg", JPEG), caption="x")
    file = folder(job) / f"{clean_picture(JPEG).sha}.jpg"
    file.unlink()
    file.symlink_to(tmp_path / "sheet.yaml")
    assert pages.get(f"/photos/{clean_picture(JPEG).sha}").status_code == 404
