"""The page “What does the cut do?”, asked as a browser asks. Figures are derived in tests/unit/bench/cut."""

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.cut.consequences import consequences
from tests.paired import paired
from tests.unit.bench.benches import Job
from tests.unit.bench.stories import invented


@pytest.fixture
def of(tmp_path: Path) -> Job:
    return invented(tmp_path)


@pytest.fixture
def pages(of: Job) -> Iterator[TestClient]:
    with paired(of.book) as client:
        yield client


def test_it_gives_the_answer_of_the_terminal(pages: TestClient, of: Job) -> None:
    text = unescape(re.sub(r"</?a\b[^>]*>", "", pages.get("/cut", params={"off": "0.20 mm"}).text))
    text = text.replace("\N{NO-BREAK SPACE}", " ")
    answer = consequences(of.bench(), off="0.20 mm")
    (table,) = answer.tables
    for said in (
        answer.verdict, answer.basis, table.cut, table.gasket, *answer.most.other_gaskets,
        *(part for one in table.lines for part in (one.after, one.limit, one.verdict, one.source)),
        *(part for one in answer.most.limits for part in (one.surely, one.source)),
        *(one.text for one in answer.inputs),
    ):  # fmt: skip
        assert said in text


def test_another_cut_and_another_gasket_can_be_asked_about(pages: TestClient) -> None:
    text = pages.get("/cut", params={"off": "0.008 in", "gasket": "standard"}).text
    assert 'name="off" value="0.008 in"' in text
    assert '<option value="standard" selected>' in text
    assert 'src="/cut/picture.svg?off=0.008+in&amp;gasket=standard"' in text


def test_the_picture(pages: TestClient) -> None:
    answer = pages.get("/cut/picture.svg", params={"off": "0.20 mm"})
    assert answer.headers["content-type"] == "image/svg+xml"
    said = "".join(ElementTree.fromstring(answer.text).itertext())
    assert "asked about: 0.20 mm" in said


@pytest.mark.parametrize(
    ("off", "said"),
    [("0.2", "has no unit"), ("-0.1 mm", "Cut -0.1 mm cannot be"), ("thick", "`thick`")],
)
def test_what_cannot_be_read_is_refused_and_stays_in_the_form(pages: TestClient, off: str, said: str) -> None:
    answer = pages.get("/cut", params={"off": off})
    assert answer.status_code == 422
    assert said in unescape(answer.text)
    assert f'value="{off}"' in answer.text


def test_what_is_missing_is_named_in_words_that_lead_to_it(pages: TestClient, of: Job) -> None:
    text = unescape(pages.get("/cut", params={"off": "0.20 mm"}).text)
    missing = " ".join(consequences(of.bench(), off="0.20 mm").missing)
    assert "(head.face, line 56 of the data sheet, measure it: gudgeon record" in missing
    assert (
        'flatness of the head face as found (<a href="/sheet?open=head#head">Cylinder head: on the face</a>, line 56 of '
        'the data sheet, measure it: <a href="/good/head_flatness#record">Measure it</a>)'
    ) in text
    assert "head.face" not in text


def test_consequences_and_limits_stand_in_tables(pages: TestClient) -> None:
    text = pages.get("/cut", params={"off": "0.2 mm"}).text
    heads = [
        re.findall(r'<th scope="col">(.*?)</th>', one)
        for one in re.findall(r"<thead>.*?</thead>", text, re.DOTALL)
    ]
    assert ["What", "Before", "After", "Limit", "Verdict", "Source"] in heads
    assert ["What limits it", "Limit", "Surely", "Were every figure exact", "Source"] in heads
    assert re.search(r'<th scope="row">Squish</th><td class="figure" data-label="Before">[\d.]+', text)


def test_a_cut_that_no_head_has_room_for_is_refused(pages: TestClient) -> None:
    answer = pages.get("/cut", params={"off": "20 mm"})
    assert answer.status_code == 422
    assert "20.00 mm (0.7874 in) cannot come off: " in unescape(answer.text)


def test_what_the_sheet_does_not_state_can_be_written_where_it_is_a_figure(tmp_path: Path) -> None:
    job = invented(
        tmp_path,
        ("  measured_as: head_height\n", ""),
        ("      hole_depth: 36.0 mm\n", ""),
    )
    with paired(job.book) as client:
        text = unescape(client.get("/cut", params={"off": "0.1 mm"}).text)
        links = re.findall(r'href="(/sheet/figure\?path=[^"]*)"', text)
        assert set(links) == {"/sheet/figure?path=joints.head.fastener.hole_depth"}
        assert client.get(links[0]).status_code == 200
    assert "No characteristic for its height" in text
    assert "It is written in the file" in text
