"""Work beside the pages: it says how far it is, is stopped between two pieces, and leaves nothing half."""

import io
import re
import zipfile
from html import unescape
from pathlib import Path
from threading import Event

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.verifying import Verified, verified
from gudgeon.book.address import BookAddress
from gudgeon.book.tell import Tell
from gudgeon.errors import InputError
from gudgeon.web.work import KEPT_MOST, RUNNING_MOST, Result, TooMuchAtOnce, Works
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job

PATIENCE_S = 20.0


@pytest.fixture
def works(monkeypatch: pytest.MonkeyPatch) -> Works:
    monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", 0.01)
    return Works()


class Slow:
    """A work that goes on piece by piece when the test says so."""

    def __init__(self) -> None:
        self.said, self.go_on = Event(), Event()

    def __call__(self, folder: Path, tell: Tell) -> Result:
        (folder / "half").write_text("half")
        tell("looking at photo 10 of 40")
        self.said.set()
        self.go_on.wait(PATIENCE_S)
        tell("looking at photo 11 of 40")
        return Result("whole")


def test_a_work_says_how_far_it_is_and_then_what_came_out(works: Works) -> None:
    slow = Slow()
    work = works.start("Photos", kind="check", do=slow)
    assert slow.said.wait(PATIENCE_S)
    assert work.told() == {"state": "running", "words": "looking at photo 10 of 40", "fraction": 0.25}
    slow.go_on.set()
    assert work.ended.wait(PATIENCE_S)
    assert (work.state, work.result.answer, work.fraction) == ("done", "whole", None)


def test_a_work_that_is_stopped_leaves_nothing(works: Works) -> None:
    slow = Slow()
    work = works.start("Photos", kind="check", do=slow)
    assert slow.said.wait(PATIENCE_S)
    assert (work.folder / "half").exists()
    works.stop(work.id)
    slow.go_on.set()
    assert work.ended.wait(PATIENCE_S)
    assert (work.state, work.words) == ("stopped", "It was stopped. Nothing of it is left.")
    assert not work.folder.exists()
    assert work.result == Result()


def test_what_is_refused_is_said_and_a_fault_of_ours_is_not_shown(
    works: Works, capsys: pytest.CaptureFixture[str]
) -> None:
    def refused(folder: Path, tell: Tell) -> Result:
        raise InputError("The disk is full.")

    def failing(folder: Path, tell: Tell) -> Result:
        raise RuntimeError("inner words")

    one, other = (works.start("W", kind="check", do=do) for do in (refused, failing))
    for work in (one, other):
        assert work.ended.wait(PATIENCE_S)
    assert (one.state, one.error) == ("refused", "The disk is full.")
    assert (other.state, other.error) == (
        "failed",
        "Something of Gudgeon's own failed; the terminal says what.",
    )
    assert "inner words" in capsys.readouterr().err


def test_no_more_than_a_few_run_at_a_time(works: Works) -> None:
    slow = [Slow() for _ in range(RUNNING_MOST)]
    begun = [works.start(f"work {number}", kind="check", do=one) for number, one in enumerate(slow)]
    with pytest.raises(TooMuchAtOnce) as refused:
        works.start("one more", kind="check", do=Slow())
    assert str(refused.value) == (
        "2 works are running already (work 0, work 1), and no more run at a time. Nothing was begun. Wait until one is "
        "through, or stop it."
    )
    for one in slow:
        one.go_on.set()
    assert all(one.ended.wait(PATIENCE_S) for one in begun)


def test_few_that_have_ended_are_kept_and_with_the_others_their_files_are_gone(works: Works) -> None:
    begun = []
    for number in range(KEPT_MOST + 2):
        begun.append(works.start(f"work {number}", kind="check", do=lambda folder, tell: Result(file=folder)))
        assert begun[-1].ended.wait(PATIENCE_S)
    kept = [one for one in begun if works.of(one.id) is not None]
    assert kept == begun[-KEPT_MOST - 1 :]
    assert [one.folder.exists() for one in begun] == [one in kept for one in begun]


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return make_job(tmp_path)


def test_an_archive_is_made_and_fetched(job: Job) -> None:
    with paired(job.book) as pages:
        page = pages.post("/book/archive")
        assert "It is written, and was read back to its end" in page.text
        got = pages.get(f"{page.url.path}/file")
    assert got.headers["content-disposition"].startswith('attachment; filename="gudgeon-backup-')
    assert zipfile.ZipFile(io.BytesIO(got.content)).testzip() is None


@pytest.mark.parametrize(("size", "width"), [("a4", 595), ("letter", 612)])
def test_the_book_is_printed_and_fetched(job: Job, size: str, width: int) -> None:
    with paired(job.book) as pages:
        assert pages.get("/done").text.count('name="size"') == 2
        page = wait(pages, pages.post("/book/paper", data={"size": size, "photos": "no"}).url.path)
        assert "The book is not closed" in page
        got = pages.get(re.findall(r'href="(/under-way/[^"]+/file)"', page)[0])
    assert got.headers["content-disposition"] == 'attachment; filename="mine-book.pdf"'
    assert got.headers["content-type"] == "application/pdf"
    assert got.content.startswith(b"%PDF-")
    assert {int(wide) for wide in re.findall(rb"/MediaBox ?\[0 0 (\d+)", got.content)} == {width}


def test_a_size_that_no_paper_has_is_refused(job: Job) -> None:
    with paired(job.book) as pages:
        page = wait(pages, pages.post("/book/paper", data={"size": "b5"}).url.path)
    assert "`b5` is no size of paper here. Known: a4, letter." in unescape(page)


def wait(pages: TestClient, address: str) -> str:
    """The page of a work when it is through."""
    work = pages.app.state.works.of(address.removeprefix("/under-way/"))  # type: ignore[attr-defined]
    assert work.ended.wait(PATIENCE_S)
    return pages.get(address).text


def test_the_book_is_checked(job: Job) -> None:
    with paired(job.book) as pages:
        page = pages.post("/book/check").text
    assert "every chain is in order" in page
    assert job.bench().state.head in page


def test_a_work_that_is_not_known_is_refused(job: Job) -> None:
    with paired(job.book) as pages:
        for address in ("/under-way/0123", "/under-way/0123/file"):
            assert pages.get(address).status_code == 404


def test_a_work_of_an_earlier_server_says_what_became_of_it(job: Job) -> None:
    with paired(job.book) as pages:
        page = pages.get("/under-way/dab6b78cf1d6467e").text
    assert "the server was started anew since, or later works took its place" in page
    assert "Begin it again from the page it belongs to." in page


def test_a_stranger_begins_no_work(job: Job) -> None:
    with paired(job.book) as pages:
        pages.cookies.clear()
        assert pages.post("/book/archive").status_code == 403


def running(pages: TestClient, slow: Slow) -> str:
    """The address of a work that is under way."""
    work = pages.app.state.works.start("The check of the book", kind="check", do=slow)  # type: ignore[attr-defined]
    assert slow.said.wait(PATIENCE_S)
    return f"/under-way/{work.id}"


def test_the_page_of_a_work_looks_again_by_itself_and_stops_it(
    job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", 0.01)
    slow = Slow()
    with paired(job.book) as pages:
        address = running(pages, slow)
        page = pages.get(address).text
        assert '<noscript><meta http-equiv="refresh" content="2"></noscript>' in page
        assert '<progress max="1" value="0.25"' in page
        told = pages.get(address, headers={"Accept": "application/json"}).json()
        assert told == {"state": "running", "words": "looking at photo 10 of 40", "fraction": 0.25}
        assert 'id="work"' in pages.post(f"{address}/stop").text  # it has not heard of it yet
        slow.go_on.set()
        work = pages.app.state.works.of(address.removeprefix("/under-way/"))  # type: ignore[attr-defined]
        assert work.ended.wait(PATIENCE_S)
        assert "It was stopped. Nothing of it is left." in pages.get(address).text


def test_work_that_does_the_same_is_joined_and_not_begun_again(works: Works) -> None:
    slow, other = Slow(), Slow()
    work = works.start("The check", kind="check", do=slow, same="check")
    assert slow.said.wait(PATIENCE_S)
    assert works.start("The check", kind="check", do=other, same="check") is work
    works.stop(work.id)
    anew = works.start("The check", kind="check", do=other, same="check")
    assert anew is not work, "what is being stopped is no answer"
    for one in (slow, other):
        one.go_on.set()
    assert work.ended.wait(PATIENCE_S) and anew.ended.wait(PATIENCE_S)
    assert (work.state, anew.state) == ("stopped", "done")
    assert (
        works.start("The check", kind="check", do=lambda _folder, _tell: Result("new"), same="check")
        is not anew
    )


def test_an_archive_outlives_works_of_another_kind(works: Works) -> None:
    archive = works.start("An archive", kind="archive", do=lambda folder, tell: Result(file=folder))
    assert archive.ended.wait(PATIENCE_S)
    for number in range(KEPT_MOST + 2):
        assert works.start(f"{number}", kind="clamp", do=lambda _, tell: Result()).ended.wait(PATIENCE_S)
    assert works.of(archive.id) is archive
    assert archive.folder.exists()


def test_the_list_checks_the_book_here_or_leads_to_the_check_that_is_under_way(
    job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on = Event()
    with paired(job.book) as pages:
        monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", PATIENCE_S)
        at_once = pages.get("/done?verify=yes")
        assert at_once.url.path == "/done"
        assert "every chain is in order" in at_once.text
        monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", 0.01)

        def slow(book: BookAddress, *, tell: Tell) -> Verified:
            assert go_on.wait(PATIENCE_S)
            return verified(book, tell=tell)

        monkeypatch.setattr("gudgeon.web.work_pages.verified", slow)
        page = pages.get("/done?verify=yes")
        assert page.url.path.startswith("/under-way/")
        assert "The check of the book" in page.text
        assert pages.get("/done?verify=yes").url.path == page.url.path
        assert pages.post("/book/check").url.path == page.url.path
        go_on.set()
        work = pages.app.state.works.of(page.url.path.removeprefix("/under-way/"))  # type: ignore[attr-defined]
        assert work.ended.wait(PATIENCE_S)
        assert "every chain is in order" in pages.get(page.url.path).text


def test_a_check_that_fails_is_not_taken_for_an_answer(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(book: BookAddress, *, tell: Tell) -> Verified:
        raise InputError("The disk cannot be read.")

    monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", PATIENCE_S)
    monkeypatch.setattr("gudgeon.web.work_pages.verified", refused)
    with paired(job.book) as pages:
        page = pages.get("/done?verify=yes")
    assert page.status_code == 422
    assert "The disk cannot be read." in page.text
