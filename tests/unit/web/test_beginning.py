"""The page that is asked before a task is begun: yes, or not yet with every reason, and the way past them by name."""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import open_bench
from gudgeon.book.state import State
from tests.paired import paired
from tests.unit.web.test_bench_pages import carried

NOW = datetime(2026, 3, 7, 10, 0, tzinfo=UTC)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return Path(str(open_demo(tmp_path / "demo", now=NOW).book))


@pytest.fixture
def demo(book: Path) -> Iterator[TestClient]:
    with paired(book) as client:
        yield client


def state(book: Path) -> State:
    bench = open_bench(book)
    bench.store.close()
    return bench.state


def test_what_may_be_begun_is_begun_with_one_button(demo: TestClient, book: Path) -> None:
    page = demo.get("/begin?task=charge_battery").text
    assert "May I begin it?" in page
    form = carried(page, "/begin")
    for _ in range(2):  # sent twice it counts once
        assert demo.post("/begin", data=form).status_code == 200
    assert state(book).tasks["charge_battery"].status == "running"


def test_what_has_to_wait_is_not_begun_but_says_why(demo: TestClient, book: Path) -> None:
    page = demo.get("/begin?task=two_turns").text
    assert "Not yet" in page
    assert "“Tighten the small bolts at the edge of the head, where it has them”" in page
    form = carried(page, "/begin")
    refused = demo.post("/begin", data=form)
    assert refused.status_code == 422
    assert "has to wait" in refused.text
    assert "two_turns" not in state(book).tasks


def test_an_override_wants_a_reason_and_a_name(demo: TestClient, book: Path) -> None:
    form = carried(demo.get("/begin?task=two_turns").text, "/begin")
    nameless = demo.post("/begin", data={**form, "override": "to find the noise"})
    assert nameless.status_code == 422
    assert "Nobody is named who answers for the override." in nameless.text
    assert (
        demo.post("/begin", data={**form, "override": "to find the noise", "by": "Robin"}).status_code == 200
    )
    assert state(book).tasks["two_turns"].status == "running"
    assert [(one.about, one.by, one.why) for one in state(book).overrides] == [
        ("task:two_turns", "Robin", "to find the noise")
    ]
    assert "begun all the same by Robin, because to find the noise" in demo.get("/start").text


def test_a_breach_stands_on_the_first_page_and_is_looked_into_from_the_list(
    demo: TestClient, book: Path
) -> None:
    form = carried(demo.get("/record/left-in").text, "/record/left-in")
    demo.post("/record/left-in", data={**form, "name": "crank stop", "where": "block", "due_before": "crank"})
    form = carried(demo.get("/record/turned").text, "/record/turned")
    said = demo.post("/record/turned", data={**form, "by": "hand", "seen": "a quarter, then hard"})
    assert "This was against a gate" in said.text
    assert "Against a gate, and not inspected." in demo.get("/").text
    number = state(book).breaches[0].order
    form = carried(demo.get(f"/record/inspected?entry={number}").text, "/record/inspected")
    done = {**form, "about_entry": str(number), "found": "stop straight, no mark", "by": "Robin"}
    assert demo.post("/record/inspected", data=done).status_code == 200
    assert not state(book).breaches[0].open
    assert "Against a gate" not in demo.get("/").text


def test_an_unknown_task_is_refused(demo: TestClient) -> None:
    assert demo.get("/begin?task=nothing_like_it").status_code in (404, 422)
