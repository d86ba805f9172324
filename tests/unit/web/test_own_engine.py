"""The pages of an engine that is not the invented one: a blank sheet as it is printed, its examples taken as they are."""

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.sheet.blank import blank_sheet
from tests.paired import paired
from tests.unit.bench.benches import make_job
from tests.unit.sheet.test_blank import filled, uncommented
from tests.unit.web.test_plain_words import MAIN, UNREAD

PAGES = (
    "/",
    "/good",
    "/fits",
    "/set",
    "/cut",
    "/cut/order",
    "/timing",
    "/buy",
    "/money",
    "/start",
    "/running",
    "/sheet",
)
OF_THE_TERMINAL = re.compile(
    r"(?<![\w-])--[a-z][\w-]*|\bgudgeon (?:record|strike|judge|tighten|print|calc)\b"
)
"""What is typed in a terminal and nowhere else."""


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    folder: Path = tmp_path_factory.mktemp("own")
    text = blank_sheet(layout="inline", cylinders=2, drive="chain", valves="screws", cooling="air")
    made = make_job(folder, sheet=uncommented(filled(text)))
    made.record("identity-read", code="A1", read_from="pad")
    with paired(made.book) as client:
        yield client


@pytest.mark.parametrize("address", PAGES)
def test_a_page_of_an_own_engine_is_whole_and_speaks_no_terminal(pages: TestClient, address: str) -> None:
    answer = pages.get(address)
    assert answer.status_code == 200
    names = Counter(re.findall(r'\sid="([^"]+)"', answer.text))
    assert [name for name, count in names.items() if count > 1] == []
    (main,) = MAIN.findall(answer.text)
    assert OF_THE_TERMINAL.findall(UNREAD.sub(" ", main)) == []


def test_the_proof_that_comes_next_can_be_given_from_the_first_page(pages: TestClient) -> None:
    (main,) = MAIN.findall(pages.get("/").text)
    after = main.partition("<h2>Next</h2>")[2].partition("<h2>")[0]
    assert "Every tightening figure has been compared with the page" in after
    assert (
        '<a class="button main" href="/record/hold?hold=figures_checked&amp;back=%2F">Prove it</a>' in after
    )


def test_an_engine_cooled_by_air_is_told_nothing_of_coolant(pages: TestClient) -> None:
    (main,) = MAIN.findall(pages.get("/running").text)
    cautions = re.findall(r"<strong>Caution\.</strong> ([^<]*)", main)
    assert any("carbon monoxide" in one for one in cautions)
    assert [one for one in cautions if "coolant" in one] == []
