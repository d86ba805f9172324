"""What a device asks while it keeps entries: where the book stands, who wrote meanwhile, and what may be tried again."""

import re
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.meanwhile import written_after
from gudgeon.bench.to_measure import to_measure
from gudgeon.book.address import BookAddress
from gudgeon.book.entries import Entry
from gudgeon.web import device_pages, pairing, paper_pages, work_pages
from gudgeon.web.app import create_app
from gudgeon.web.desk import Desk, chain_of
from gudgeon.web.devices import Devices
from gudgeon.web.offline import version
from gudgeon.web.security import Door
from gudgeon.web.templating import static
from tests.paired import NAME, WHO, paired
from tests.unit.bench.benches import Job, make_job

BY_SCRIPT = {"Accept": "application/json"}


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


def stranger(job: Job, tmp_path: Path, *, client: str = "192.168.1.20") -> TestClient:
    door = Door(Devices(tmp_path / "nobody"), lan=True)
    return TestClient(create_app(job.book, door=door), base_url="http://127.0.0.1", client=(client, 50000))


@contextmanager
def opened(book: Path) -> Iterator[Bench]:
    bench = open_bench(book)
    try:
        yield bench
    finally:
        bench.store.close()


def entries(book: Path) -> tuple[Entry, ...]:
    with opened(book) as bench:
        return bench.store.entries(bench.build)


def test_where_the_book_stands_and_the_seal_of_who_asks(job: Job, tmp_path: Path) -> None:
    with paired(job.book) as pages:
        told = pages.get("/standing").json()
        assert told == {"head": job.bench().state.head, "seal": pages.headers["Gudgeon-Seal"]}
        assert pages.get(f"/standing?since={told['head']}").json() == told
        assert pages.get("/standing").headers["cache-control"] == "no-store"
    with stranger(job, tmp_path) as other:
        assert other.get("/standing").status_code == 403
    with stranger(job, tmp_path, client="127.0.0.1") as here:
        assert here.get("/standing").json()["seal"] == ""


def test_what_was_written_since_is_told_with_its_hand_and_its_device(job: Job) -> None:
    before = job.bench().state.head
    with paired(job.book) as pages:
        for number in range(7):
            pages.post("/record/note", data={"text": f"note {number}"})
        told = pages.get(f"/standing?since={before}").json()
    assert (told["other"], told["many"]) == (False, 7)
    assert [one["words"] for one in told["since"]] == [f"note: note {number}" for number in range(2, 7)]
    assert {(one["who"], one["device"]) for one in told["since"]} == {(WHO, NAME)}
    assert told["since"][-1]["entry"] == entries(job.book)[-1].id


def test_a_head_of_another_book_is_told(job: Job) -> None:
    with paired(job.book) as pages:
        told = pages.get(f"/standing?since={'0' * 64}").json()
    assert told["other"] is True
    with opened(job.book) as bench:
        assert written_after(bench, "0" * 64, most=5) is None
        assert written_after(bench, bench.state.head, most=5) == (0, ())


def test_the_book_is_looked_through_only_where_it_has_changed(
    job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page asks every moment; how long an answer takes is measured in benchmarks/load.py."""
    looked: list[BookAddress] = []

    def looking(desk: Desk) -> AbstractContextManager[Bench]:
        looked.append(desk.book)
        return really(desk)

    really = Desk.bench
    monkeypatch.setattr(Desk, "bench", looking)
    with paired(job.book) as pages:
        looked.clear()
        head = pages.get("/standing").json()["head"]
        assert pages.get(f"/standing?since={head}").json()["head"] == head
        assert looked == []
        job.record("note", text="cold")
        assert pages.get(f"/standing?since={head}").json()["many"] == 1
        assert looked == [job.book]


def test_a_book_that_is_gone_may_come_back(job: Job) -> None:
    """What is wrong with the book and not with the entry: the same entry is tried again."""
    with paired(job.book) as pages:
        job.book.rename(job.book.with_name("elsewhere.gudgeon"))
        assert pages.get("/standing").status_code == 503
        answer = pages.post("/record/note", data={"text": "oil"}, headers=BY_SCRIPT)
    assert answer.status_code == 503
    assert answer.json() == {
        "recorded": False,
        "said": (
            f"There is no book at {job.book}. Begin one with `gudgeon begin NAME --sheet FILE --kit FILE`, or look at "
            "the invented job with `gudgeon demo`."
        ),
        "stale": False,
        "elsewhere": False,
    }


def test_a_seal_that_is_old_is_told_apart_from_a_refusal(job: Job) -> None:
    with paired(job.book) as pages:
        del pages.headers["Gudgeon-Seal"]
        old = pages.post("/record/note", data={"text": "oil", "seal": "0" * 32}, headers=BY_SCRIPT)
        assert (old.status_code, old.json()["stale"], old.json()["elsewhere"]) == (422, True, False)
        seal = pages.get("/standing").json()["seal"]
        strange = {"text": "oil", "seal": seal, "chain": "demo 0123456789abcdef"}
        other = pages.post("/record/note", data=strange, headers=BY_SCRIPT)
        assert (other.status_code, other.json()["stale"], other.json()["elsewhere"]) == (422, False, True)
        assert other.json()["said"].startswith(
            "This form belongs to another book than the one that is open here now"
        )
        with opened(job.book) as bench:
            own = {**strange, "chain": chain_of(bench)}
        assert pages.post("/record/note", data=own, headers=BY_SCRIPT).json()["recorded"] is True


def test_a_device_that_was_taken_off_is_told_so(job: Job, tmp_path: Path) -> None:
    devices = Devices(tmp_path / "devices")
    with paired(job.book, devices=devices) as pages:
        devices.remove(NAME)
        answer = pages.post("/record/note", data={"text": "oil"}, headers=BY_SCRIPT)
    assert answer.status_code == 403
    assert answer.json()["said"] == (
        "This device is not paired, so nothing was written. Pair it with a code, then do it again."
    )


ROW = {
    "item.1": "intake_valve_stem", "place.1": "cylinder 1, front", "value.1": "5.470", "condition": "as left",
    "instrument.intake_valve_stem": "micrometer", "unit.intake_valve_stem": "mm",
}  # fmt: skip


def test_every_entry_that_waited_is_of_the_hour_at_which_it_was_made(tmp_path: Path) -> None:
    open_demo(tmp_path / "demo", now=datetime.now(UTC).astimezone())
    book = tmp_path / "demo" / "book.gudgeon"
    with opened(book) as bench:
        item = to_measure(bench, "intake_valve_stem")
    row = {
        **ROW,
        "place.1": item.places[0].place,
        "instrument.intake_valve_stem": item.gauge or item.gauges[0].key,
    }
    sent = {
        f"/strike/{entries(book)[-1].id}": {"why": "it was another engine"},
        "/record/note": {"text": "oil"},
        "/begin": {"task": "charge_battery"},
        "/good/row": row,
    }
    with paired(book) as pages:
        for address, form in sent.items():
            answer = pages.post(address, data={**form, "ago": "3600"}, headers=BY_SCRIPT).json()
            assert answer["recorded"] is True, answer
            entry = entries(book)[-1]
            assert (answer["entry"], answer["basis"]) == (entry.id, entry.hash)
            waited = datetime.fromisoformat(entry.server_time) - datetime.fromisoformat(entry.device_time)
            assert timedelta(seconds=3598) < waited < timedelta(seconds=3660)


def test_another_device_is_named_and_the_same_one_is_not(job: Job) -> None:
    basis = job.bench().state.head
    job.record("note", text="by the terminal")
    with paired(job.book) as pages:
        told = pages.post("/record/note", data={"text": "a", "basis": basis}, headers=BY_SCRIPT).json()
        again = pages.post("/record/note", data={"text": "b", "basis": basis}, headers=BY_SCRIPT).json()
    terminal = next(one for one in entries(job.book) if one.body.get("text") == "by the terminal")
    by_terminal = f"Meanwhile {terminal.who} ({terminal.device}) recorded note: by the terminal. Look whether both are true."
    assert told["remarks"] == [by_terminal]
    assert again["remarks"] == [by_terminal, f"Meanwhile {WHO} recorded note: a. Look whether both are true."]


def test_the_keeper_of_pages_is_a_script_of_ours_for_every_page(job: Job, tmp_path: Path) -> None:
    with stranger(job, tmp_path) as pages:
        answer = pages.get("/sw.js")
        page = pages.get("/out-of-reach")
    assert answer.status_code == 200
    assert answer.headers["content-type"].startswith("text/javascript")
    assert answer.headers["cache-control"] == "no-cache"
    assert "worker-src 'self'" in answer.headers["content-security-policy"]
    assert answer.text.startswith(f'const VERSION = "{version()}";\nconst NEEDED = ["{static("style.css")}"')
    assert page.status_code == 200
    assert "The book does not answer" in page.text
    assert job.bench().sheet.engine.name not in page.text, "a stranger sees nothing of the book on it"


def test_what_is_for_one_moment_or_one_device_is_never_kept(job: Job, tmp_path: Path) -> None:
    """How far a work is and the file it made, codes and devices, papers: a copy of them would be wrong or in the way."""
    with stranger(job, tmp_path) as pages:
        said = re.search(r"const NEVER = /(.*)/;", pages.get("/sw.js").text)
    assert said is not None
    never = re.compile(said[1].replace(r"\/", "/"))
    at_work = [one.path for one in work_pages.ADDRESSES if one.methods == ("GET",) and one.path != "/book"]
    assert at_work
    passing = [
        *at_work,
        *(one.path for one in (*device_pages.ADDRESSES, *pairing.ADDRESSES, *paper_pages.ADDRESSES)),
    ]
    assert [one for one in (*passing, "/standing", "/api/now") if not never.match(one)] == []
    assert not any(
        never.match(one) for one in ("/", "/set/head", "/set/head/plan", "/good", "/worked", "/papers")
    )


def test_every_page_brings_what_lets_it_wait(job: Job) -> None:
    with paired(job.book) as pages:
        page = pages.get("/record/note").text
    for name in ("queue.js", "waiting.js", "live.js"):
        assert static(name) in page
    assert f'data-basis="{job.bench().state.head}"' in page
    assert 'data-paired="yes"' in page
    assert '<aside class="waits" id="waits" aria-label="What waits on this device" hidden>' in page
