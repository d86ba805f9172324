"""A real Chromium in front of a real server; without one these tests skip, except where it is required."""

import os
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from gudgeon.bench.begin import open_demo
from tests.browser.visitor import Visitor
from tools.chromium import DESKTOP, PHONE, NoChromium, running
from tools.served import Served

REQUIRED = "GUDGEON_REQUIRE_BROWSER"


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Chromium, for one file of tests: while it runs, nothing else in this process may run an event loop."""
    try:
        with running() as started:
            yield started
    except NoChromium as missing:
        if os.environ.get(REQUIRED):
            pytest.fail(str(missing))
        pytest.skip(str(missing))


@pytest.fixture(scope="module")
def reading(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The invented job, served to tests that write nothing."""
    with Served(fresh_demo(tmp_path_factory.mktemp("served"))) as server:
        yield server


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    """The invented job, fresh for one test that writes."""
    with Served(fresh_demo(tmp_path)) as server:
        yield server


def fresh_demo(folder: Path) -> Path:
    """The book of a fresh copy of the invented job."""
    open_demo(folder / "demo", now=datetime.now(UTC).astimezone())
    return folder / "demo" / "book.gudgeon"


@pytest.fixture(params=[PHONE, DESKTOP], ids=["phone", "desktop"])
def size(request: pytest.FixtureRequest) -> tuple[int, int]:
    """The two sizes at which the pages must serve."""
    return request.param  # type: ignore[no-any-return]


Arrive = Callable[..., Visitor]


@pytest.fixture
def arrive(browser: Browser) -> Iterator[Arrive]:
    """Let somebody in; at the end nobody may have seen an error or been sent outside."""
    visitors: list[Visitor] = []

    def one(
        server: Served,
        *,
        size: tuple[int, int] = PHONE,
        scripts: bool = True,
        pair: bool = True,
        keeps: bool = True,
    ) -> Visitor:
        visitors.append(Visitor(browser, server=server, size=size, scripts=scripts, pair=pair, keeps=keeps))
        return visitors[-1]

    yield one
    troubles = [trouble for visitor in visitors for trouble in visitor.leave()]
    assert troubles == []
