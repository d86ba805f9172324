"""The page of a joint where the kit or the program makes it say more than what to set."""

import re
from datetime import UTC, datetime
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.pull_list import card
from gudgeon.web.app import create_app
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_adapter_said import BOTH
from tests.unit.bench.test_adapter_said import KIT as SHORT
from tests.unit.sheet.sheets import SMALL


def job_of(folder: Path, *, torque: str, kit: str = "", more: str = "") -> Job:
    """A joint whose second stage has this torque, and comes next."""
    text = SMALL.replace("torque: 10 N·m\n", f"torque: {torque}\n{more}")
    made = make_job(folder, sheet=text, **({"kit": kit} if kit else {}))
    made.read_code()
    made.now = datetime.now(UTC)  # the pages ask at this hour, and a long break asks for a look
    for bolt in "1324":
        made.pull(1, bolt)
    return made


def client(job: Job) -> TestClient:
    return TestClient(create_app(job.book), base_url="http://127.0.0.1")


def words(page: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())


def sent(page: str) -> dict[str, str]:
    """What the form of the next pull carries unseen."""
    form = re.search(r'<form class="outcomes".*?</form>', page, re.DOTALL)
    assert form is not None
    return dict(re.findall(r'type="hidden" name="([^"]+)" value="([^"]*)"', form[0]))


def test_the_big_card_names_the_adapter_with_the_setting(tmp_path: Path) -> None:
    with client(job_of(tmp_path, torque="30 N·m", kit=SHORT)) as pages:
        said = words(pages.get("/set/head").text)
    assert re.search(r"19\.0 lbf·ft with 15 mm crow-foot, straight out torque to 30 N·m", said)
    assert f"With {BOTH}" in said


@pytest.mark.parametrize(("with_what", "doubts"), [("a borrowed wrench", 0), ("", 1)])
def test_where_no_wrench_fits_it_asks_with_what(tmp_path: Path, with_what: str, doubts: int) -> None:
    made = job_of(tmp_path, torque="300 N·m")
    with client(made) as pages:
        page = pages.get("/set/head").text
        assert "What do you pull it with?" in page
        said = sent(page) | {"with_what": with_what, "outcome": "clicked while turning"}
        assert (
            pages.post("/record/pull", data=said, headers={"Origin": "http://127.0.0.1"}).status_code == 200
        )
    assert len(card(made.bench(), "head").doubts) == doubts


def test_after_a_stop_the_button_states_the_condition(tmp_path: Path) -> None:
    made = job_of(tmp_path, torque="24 N·m", more="        provisional: until the timing belt is on\n")
    for bolt in "1324":
        made.pull(2, bolt, "clicked while turning")
    with client(made) as pages:
        page = pages.get("/set/head").text
        assert "Left provisional until the timing belt is on; when that is done: stage 3." in words(page)
        assert 'class="outcomes"' not in page
        assert ">next<" not in page
        (address,) = re.findall(r'href="([^"#]*)#next">The timing belt is on: go on<', page)
        page = pages.get(unescape(address)).text
        said = sent(page) | {"setting": "24 N·m", "tool": "three", "outcome": "clicked at once"}
        page = pages.post("/record/pull", data=said, headers={"Origin": "http://127.0.0.1"}).text
    assert "left provisional until the timing belt is on, and this is the first pull after it" in words(page)
    assert "go on<" not in page
