"""A large file of points, read beside the pages: seen on its way, stopped, taken once, refused with a way back."""

import re
import threading
from collections.abc import Iterator
from contextlib import closing
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.context import open_store
from gudgeon.web import scan_page
from gudgeon.written import points
from tests.paired import NAME, WHO, paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_pictures import FACED

PATIENCE_S = 30.0
PAD = "0" * 1000
"""A column that is left out; it makes a file of few points large."""
GRID = [f"{x},{y},{0.02 if x == 45 else 0}" for x in range(0, 91, 3) for y in range(0, 91, 3)]
LARGE = "x mm,y mm,z mm,note\n" + "".join(f"{one},{PAD}\n" for one in GRID * 2)
MANY = "x mm,y mm,z mm\n" + "".join(f"{one}\n" for one in GRID * 100)


class Held:
    """Holds the reading back after its first piece."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.there, self.go_on = threading.Event(), threading.Event()
        monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", 0.01)
        monkeypatch.setattr(points, "PIECE", 500)
        plain = points._Reading._tell
        held = self

        def told(reading: points._Reading, lines: int) -> None:
            plain(reading, lines)
            held.there.set()
            assert held.go_on.wait(PATIENCE_S)

        monkeypatch.setattr(points._Reading, "_tell", told)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=FACED)
    made.read_code()
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def sent(pages: TestClient, content: str, **more: str) -> Any:
    """Send a file as the page of the head face does."""
    chain = re.search(r'name="chain" value="([^"]+)"', pages.get("/good/head_face").text)
    assert chain is not None
    fields = {"chain": unescape(chain[1]), "condition": "as found", "unit": "", "instrument": "", **more}
    files = {"points": ("head.csv", content, "text/csv")}
    return pages.post("/good/head_face/points", data=fields, files=files)


def through(pages: TestClient, answer: Any) -> str:
    """Wait for the work of a page to end."""
    work = pages.app.state.works.of(answer.url.path.removeprefix("/under-way/"))  # type: ignore[attr-defined]
    assert work.ended.wait(PATIENCE_S)
    return str(work.state)


def test_it_is_seen_on_its_way_and_written_at_the_end_by_the_device_that_asked(
    pages: TestClient, job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert len(LARGE) > scan_page.LARGE_BYTES
    held, head = Held(monkeypatch), job.bench().state.head
    page = sent(pages, LARGE)
    assert "The points of head.csv" in page.text
    assert held.there.wait(PATIENCE_S)
    # HAND: a header, 2 · 31 · 31 points, and nothing behind the last end of a line: 1924 lines.
    assert "reading line 501 of 1,924" in pages.get(page.url.path).text
    assert job.bench().state.head == head, "nothing is written before the end"
    held.go_on.set()
    assert through(pages, page) == "done"
    shown = pages.get(page.url.path)
    assert shown.url.path == "/good/head_face"
    assert "In the book:" in shown.text
    (scan,) = job.bench().state.scans.values()
    assert (len(scan.points), scan.file) == (1922, "head.csv")
    with closing(open_store(job.book)) as store:
        entry = store.entries(job.bench().build)[-1]
    assert (entry.kind, entry.who, entry.device) == ("face-scanned", WHO, NAME)


def test_sent_twice_it_counts_once(pages: TestClient, job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", PATIENCE_S)
    assert "In the book:" in sent(pages, LARGE).text
    head = job.bench().state.head
    assert "counts once" in sent(pages, LARGE).text
    assert job.bench().state.head == head


def test_stopped_it_has_written_nothing(pages: TestClient, job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    held, head = Held(monkeypatch), job.bench().state.head
    page = sent(pages, LARGE)
    assert held.there.wait(PATIENCE_S)
    pages.post(f"{page.url.path}/stop")
    held.go_on.set()
    assert through(pages, page) == "stopped"
    stopped = pages.get(page.url.path).text
    assert "It was stopped. Nothing of it is left." in stopped
    assert job.bench().state.head == head
    back = re.search(r'class="button" href="([^"]+)">Back: The form for the points<', stopped)
    assert back is not None
    assert '<details class="scan" id="points" open>' in pages.get(unescape(back[1])).text


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (
            MANY + "1,2,a\n",
            "head.csv, line 96102, column 5: z is `a`, which is not a number. "
            "Write a plain number like 0.05; units stand in the header.",
        ),
        (
            MANY,
            "head.csv has 96,100 points; the book keeps at most 5,000 of one face. Thin them out: keep one line in 20, "
            "or the middle of each square of a grid.",
        ),
    ],
    ids=["a line", "too many"],
)
@pytest.mark.parametrize("patience", [0.0, PATIENCE_S], ids=["under way", "at once"])
def test_what_is_refused_is_said_with_its_place_and_a_way_back(
    pages: TestClient, job: Job, monkeypatch: pytest.MonkeyPatch, content: str, said: str, patience: float
) -> None:
    monkeypatch.setattr("gudgeon.web.work.AT_ONCE_S", patience)
    head = job.bench().state.head
    page = sent(pages, content)
    if page.url.path.startswith("/under-way/"):
        assert through(pages, page) == "refused"
        page = pages.get(page.url.path)
        assert "Back: The form for the points</a>" in page.text
    else:
        assert page.status_code == 422
        assert '<details class="scan" id="points" open>' in page.text
    assert said in unescape(page.text)
    assert job.bench().state.head == head
