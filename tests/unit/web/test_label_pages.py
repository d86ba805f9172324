"""Labels as a browser has them: a code is looked up, a slip is told, the print comes, a refusal keeps the form."""

import html
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.context import open_bench
from gudgeon.bench.labels.things import Label, labeled
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    made.record("taken-off", item="hose_top", group="hose", name="Top hose", place="H1", due_before="fire")
    made.record("plugged", item="port", name="Plug in port 1", where="intake side", due_before="crank")
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def label_of(job: Job, key: str) -> Label:
    bench = open_bench(job.book)
    try:
        return next(one for one in labeled(bench) if one.key == key)
    finally:
        bench.store.close()


def test_a_code_leads_to_its_thing_however_it_is_typed(job: Job, pages: TestClient) -> None:
    code = label_of(job, "hose_top").code
    for said in (code, code.lower(), f"{code[:3]}-{code[3:]}", f"GUDGEON {code}"):
        answer = pages.get("/label", params={"code": said}, follow_redirects=False)
        assert (answer.status_code, answer.headers["location"]) == (303, f"/label/{code}")
    shown = html.unescape(pages.get(f"/label/{code}").text)
    assert "<h1>Top hose</h1>" in shown and "place H1" in shown and "off since" in shown
    assert f"/record/refitted?item=hose_top&back=%2Flabel%2F{code}" in shown.replace("/label/", "%2Flabel%2F")
    job.record("refitted", item="hose_top", place="H1")
    after = pages.get(f"/label/{code}").text
    assert "back on since" in after and "/record/refitted" not in after


def test_plugs_and_joints_lead_where_they_are_closed(job: Job, pages: TestClient) -> None:
    assert "/record/opened?item=port" in html.unescape(pages.get(f"/label/{label_of(job, 'port').code}").text)
    shown = pages.get(f"/label/{label_of(job, 'head').code}").text
    assert 'class="button main" href="/set/head"' in shown


def test_a_slip_is_told_with_what_can_be_meant(job: Job, pages: TestClient) -> None:
    code = label_of(job, "hose_top").code
    slip = code[:5] + ("3" if code[5] != "3" else "4")
    answer = pages.get(f"/label/{slip}")
    shown = html.unescape(answer.text)
    assert answer.status_code == 404
    assert f"“{slip}” is no code of a label: its last sign does not fit the others" in shown
    assert f'<a class="button" href="/label/{code}">{code[:3]} {code[3:]}</a>' in shown
    assert f'value="{slip}"' in shown
    other = pages.get("/label/222223")
    assert other.status_code == 404 and "of another engine or another book" in other.text


def test_an_odd_code_is_no_fault_of_ours(pages: TestClient) -> None:
    for said in ("%3Cscript%3E", "a" * 3000, "%00", "☃", "..."):
        answer = pages.get(f"/label/{said}")
        assert answer.status_code == 404 and "<script>a" not in answer.text
    for said in ("-", "🔧"):
        answer = pages.get("/label", params={"code": f" {said} "})
        assert (answer.status_code, f"“{said}” is no code of a label" in answer.text) == (404, True)
    assert "is no code" not in pages.get("/label", params={"code": "  "}).text


def test_labels_are_printed(pages: TestClient) -> None:
    answer = pages.get("/paper/labels.pdf", params={"kind": "hose", "start": "2,1", "wire": "6 mm"})
    assert answer.status_code == 200 and answer.content.startswith(b"%PDF-")
    assert answer.headers["content-disposition"] == 'attachment; filename="mine-labels.pdf"'
    # As the form sends it, which has always one sheet chosen.
    own = {
        "rows": "4",
        "columns": "2",
        "label": "3 x 1.5 in",
        "size": "letter",
        "sheet": "a4-3x8-63.5x33.9mm",
    }
    assert b"/MediaBox[0 0 612 792]" in pages.get("/paper/labels.pdf", params=own).content


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (
            {"rows": "4", "columns": "9", "label": "40x30 mm"},
            "The labels do not fit: 9 columns of 40 mm take 360.00 mm, and the sheet is 210.00 mm wide. Take fewer "
            "columns, narrower labels, smaller gaps, or measure the sheet again.",
        ),
        (
            {"rows": "4", "columns": "9", "label": "10x30 mm"},
            "A label of 10 × 30 mm is too small: its code can be read from 15 × 8 mm on (common practice). Take larger "
            "labels.",
        ),
        (
            {"start": "9,1"},
            "Row 9, column 1 is not on this sheet: it has 8 rows and 3 columns, counted from 1 at the top left. Name the "
            "row and the column of the first label that is still there.",
        ),
        ({"wire": "thick"}, "“thick” cannot be read as"),
    ],
)
def test_what_is_refused_stands_above_the_form_which_is_kept(
    pages: TestClient, asked: dict[str, str], said: str
) -> None:
    answer = pages.get("/paper/labels.pdf", params=asked)
    shown = html.unescape(answer.text)
    assert answer.status_code == 422
    assert f"Nothing was printed.</strong> {said}" in shown or "thick" in shown
    assert all(f'value="{text}"' in shown for text in asked.values())


def test_every_code_can_be_written_by_hand(job: Job, pages: TestClient) -> None:
    shown = pages.get("/labels").text
    for key in ("hose_top", "port", "head"):
        code = label_of(job, key).code
        assert f'href="/label/{code}"' in shown and f"{code[:3]} {code[3:]}" in shown
    assert 'href="/labels"' in pages.get("/open").text and 'href="/label"' in pages.get("/open").text


def test_the_paper_of_the_kit_chooses_the_usual_sheet(pages: TestClient) -> None:
    assert 'value="a4-3x8-63.5x33.9mm" selected' in pages.get("/labels").text
    assert 'value="letter-3x10-2.625x1in" selected' in pages.get("/labels?size=letter").text
