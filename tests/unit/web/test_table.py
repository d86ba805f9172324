"""The table of a part: each filled row is recorded by itself, what is refused stays, and sent twice counts once."""

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

from gudgeon.web.table import MOST_FIELDS
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_pictures import FACED

TABLE = "/good/part/crankshaft"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=FACED)
    made.read_code()
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def fields(page: str) -> dict[str, str]:
    """What the form of a table sends as it stands."""
    form = re.search(r'<form class="fill".*?</form>', page, re.DOTALL)
    assert form is not None
    found = {}
    for tag in re.findall(r"<input[^>]*>", form[0]):
        name, value = (re.search(rf'{one}="([^"]*)"', tag) for one in ("name", "value"))
        if name is not None and 'type="checkbox"' not in tag:
            found[name[1]] = unescape(value[1]) if value is not None else ""
    for name, inner in re.findall(r'<select[^>]* name="([^"]+)"[^>]*>(.*?)</select>', form[0], re.DOTALL):
        chosen = re.search(r'value="([^"]*)" selected', inner)
        found[name] = unescape(chosen[1]) if chosen is not None else ""
    return found


def readings(job: Job) -> dict[tuple[str, str, str], str | None]:
    return {key: one.value for key, one in job.bench().state.readings.items()}


def seen(page: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())


def test_without_a_script_every_filled_row_is_recorded(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(TABLE).text) | {
        "instrument.journal": "micrometer",
        "value.1": "29.985",
        "value.2": "29.99",
    }
    answer = pages.post(TABLE, data=said)
    assert answer.status_code == 200
    assert readings(job) == {("journal", "A", "as found"): "29.985", ("journal", "B", "as found"): "29.99"}
    assert "2 readings, crankshaft" in seen(answer.text)
    assert "Every place has a reading" in answer.text


def test_a_refused_row_stays_filled_with_its_reason_and_the_others_are_in_the_book(
    pages: TestClient, job: Job
) -> None:
    said = fields(pages.get(TABLE).text) | {"value.1": "2.9985", "value.2": "29.99"}
    answer = pages.post(TABLE, data=said)
    assert answer.status_code == 422
    assert readings(job) == {("journal", "B", "as found"): "29.99"}
    words = seen(answer.text)
    assert "1 row was not recorded; the reason stands in it. 1 is in the book." in words
    assert "2.9985 mm is far from what the sheet says of it (29.980–29.993 mm)" in words
    again = fields(answer.text)
    assert (again["value.1"], again["value.2"]) == ("2.9985", "")
    assert again["entry.1"] == said["entry.1"], "under the id it had"


def test_what_the_gauge_says_is_kept_when_it_is_said_so(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(TABLE).text) | {"value.1": "2.9985", "sure.1": "yes"}
    assert pages.post(TABLE, data=said).status_code == 200
    assert readings(job) == {("journal", "A", "as found"): "2.9985"}


def test_a_table_that_is_sent_twice_counts_once(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(TABLE).text) | {"value.1": "29.985", "value.2": "29.99"}
    pages.post(TABLE, data=said)
    before = job.bench().state.head
    again = pages.post(TABLE, data=said)
    assert again.status_code == 200
    assert len(readings(job)) == 2
    assert job.bench().state.head == before, "nothing was added to the chain"


def test_an_empty_table_records_nothing(pages: TestClient, job: Job) -> None:
    answer = pages.post(TABLE, data=fields(pages.get(TABLE).text))
    assert (answer.status_code, readings(job)) == (200, {})


def test_blades_have_two_fields_and_are_stored_as_an_interval(pages: TestClient, job: Job) -> None:
    address = "/good/part/cylinder%20head"
    said = fields(pages.get(address).text) | {
        "low.1": "0.08",
        "high.1": "0.09",
        "instrument.head_face": "feelers",
    }
    pages.post(address, data=said)
    (one,) = job.bench().state.readings.values()
    assert (one.value, one.low, one.high, one.instrument) == (None, "0.08", "0.09", "feelers")


def test_what_was_read_after_the_work_has_a_table_of_its_own(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(f"{TABLE}?condition=as+left").text) | {"value.1": "29.985"}
    pages.post(f"{TABLE}?condition=as+left", data=said)
    assert list(readings(job)) == [("journal", "A", "as left")]


def test_once_work_is_in_the_book_the_table_asks_which_it_is(pages: TestClient, job: Job) -> None:
    before = fields(pages.get(TABLE).text)
    assert (before["condition"], before["supposed"]) == ("as found", "yes")
    job.record("reading", item="journal", place="A", value="29.98 mm", condition="as left")
    page = pages.get(TABLE).text
    assert '<form class="fill"' not in page
    assert (
        "As found or as left? Work on it is in the book: say which it is, then the rows are shown."
        in seen(page)
    )
    assert {f"{TABLE}?condition=as+found#rows", f"{TABLE}?condition=as+left#rows"} <= set(
        re.findall(r'href="([^"]*)"', page)
    )
    since = (
        "Since this page was made, work on this part came into the book; whether this was read as found or as left was "
        "never said. Open the table anew, say which it is, then write it again."
    )
    own = before | {"value.2": "29.985"}
    row = pages.post("/good/row", data={k: v for k, v in own.items() if not k.endswith(".1")}).json()
    assert (row["recorded"], row["said"], row["keepable"]) == (False, since, False)
    whole = pages.post(TABLE, data=own)
    assert whole.status_code == 422
    assert since in seen(whole.text)
    assert "29.985" in seen(whole.text)
    assert list(readings(job)) == [("journal", "A", "as left")]
    chosen = fields(pages.get(f"{TABLE}?condition=as+found").text)
    assert "supposed" not in chosen
    pages.post(f"{TABLE}?condition=as+found", data=chosen | {"value.2": "29.985"})
    assert ("journal", "B", "as found") in readings(job)


def test_only_a_likely_slip_may_be_kept_although(pages: TestClient, job: Job) -> None:
    said = {name: value for name, value in fields(pages.get(TABLE).text).items() if not name.endswith(".1")}
    for value, keepable in (("299.85", True), ("abc", False), ("3 kg", False)):
        answer = pages.post("/good/row", data=said | {"value.2": value}).json()
        assert (answer["recorded"], answer["keepable"]) == (False, keepable), value
        table = pages.post(TABLE, data=said | {"value.2": value}).text.partition('<template id="row-sure">')[
            0
        ]
        assert ("keep it although" in table) is keepable, value
        single = pages.post(
            "/record/reading",
            data={"item": "journal", "place": "B", "value": value, "unit": "mm", "condition": "as found"},
        )
        assert ("keep it although" in single.text) is keepable, value
    assert readings(job) == {}


def test_blades_the_wrong_way_round_cannot_be_kept(pages: TestClient) -> None:
    address = "/good/part/cylinder%20head"
    said = fields(pages.get(address).text) | {
        "low.1": "0.09",
        "high.1": "0.08",
        "instrument.head_face": "feelers",
    }
    page = pages.post(address, data=said)
    assert page.status_code == 422
    assert "keep it although" not in page.text.partition('<template id="row-sure">')[0]


def test_a_row_is_answered_with_the_counts_of_its_part(pages: TestClient, job: Job) -> None:
    page = pages.get(TABLE).text
    top = re.search(r'<p class="lead" data-counts>(.*?)</p>', page, re.DOTALL)
    assert top is not None
    said = {name: value for name, value in fields(page).items() if not name.endswith(".1")}
    answer = pages.post("/good/row", data=said | {"value.2": "29.985"}).json()
    after = re.search(r'<p class="lead" data-counts>(.*?)</p>', pages.get(TABLE).text, re.DOTALL)
    assert after is not None
    assert " ".join(one["words"] for one in answer["counts"]) == seen(after[1])
    assert seen(after[1]) != seen(top[1])


def test_one_row_is_answered_with_what_became_of_it(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(TABLE).text) | {"instrument.journal": "micrometer"}
    own = {name: value for name, value in said.items() if not name.endswith((".1",))}
    first = pages.post("/good/row", data=own | {"value.2": "29.985"}).json()
    assert (first["recorded"], first["verdict"], first["shape"]) == (True, "no limit given", "empty")
    assert first["basis"] == job.bench().state.head
    again = pages.post("/good/row", data=own | {"value.2": "29.985"}).json()
    assert (again["recorded"], again["entry"]) == (True, first["entry"])
    refused = pages.post("/good/row", data=own | {"value.2": "abc", "entry.2": "f" * 32}).json()
    assert refused["recorded"] is False
    assert "abc" in refused["said"]
    assert readings(job) == {("journal", "B", "as found"): "29.985"}


def test_a_row_of_another_book_is_refused(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(TABLE).text) | {"chain": "another 0123", "value.1": "29.985"}
    assert pages.post("/good/row", data=said).status_code == 422
    assert readings(job) == {}


def test_how_warm_the_part_was_is_asked_once_and_kept_with_every_row(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(TABLE).text) | {
        "part_temperature": "5 °C",
        "gauge_temperature": "same as part",
        "value.1": "29.985",
        "value.2": "29.99",
    }
    pages.post(TABLE, data=said)
    found = list(job.bench().state.readings.values())
    assert [(one.part_temperature, one.temperature_unit, one.gauge_as_part) for one in found] == [
        ("5", "°C", True)
    ] * 2


def test_of_a_gauge_of_which_nothing_is_said_nothing_is_known(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(TABLE).text) | {"part_temperature": "5 °C", "value.1": "29.985"}
    pages.post(TABLE, data=said)
    (found,) = job.bench().state.readings.values()
    assert (found.part_temperature, found.gauge_temperature, found.gauge_as_part) == ("5", None, False)


def test_more_rows_than_a_usual_form_has_fields_are_taken(tmp_path: Path) -> None:
    many = ", ".join(f"J{number}" for number in range(1, 121))
    big = make_job(tmp_path, sheet=FACED.replace("places: [A, B]", f"places: [{many}]"))
    big.read_code()
    with paired(big.book) as client:
        said = fields(client.get(TABLE).text)
        assert 400 < len(said) < MOST_FIELDS
        assert client.post(TABLE, data=said | {"value.120": "29.985"}).status_code == 200
    assert list(readings(big)) == [("journal", "J120", "as found")]


@pytest.mark.parametrize(
    "address", ["/good/part/no-such-part", "/good/none/places.svg", "/good/none/picture.svg"]
)
def test_what_is_not_there_is_said(pages: TestClient, address: str) -> None:
    assert pages.get(address).status_code in (404, 422)


def test_the_picture_stands_on_its_page_with_its_words(pages: TestClient, job: Job) -> None:
    job.record(
        "reading", item="head_face", place="along", low="0.08 mm", high="0.09 mm", instrument="feelers"
    )
    page = pages.get("/good/head_face").text
    assert '<img src="/good/head_face/picture.svg" alt="Head face, flatness: Head, lower face' in page
    drawn = pages.get("/good/head_face/picture.svg")
    assert drawn.headers["content-type"].startswith("image/svg+xml")
    assert ElementTree.fromstring(drawn.text).tag.endswith("svg")


def test_what_has_no_drawing_of_its_own_has_its_places_drawn(pages: TestClient, job: Job) -> None:
    job.record("reading", item="journal", place="B", value="29.985 mm", instrument="micrometer")
    assert (
        '<img src="/good/journal/picture.svg" alt="Crank journal (1 not measured,'
        in pages.get("/good/journal").text
    )
    assert 'data-drawing="/good/journal/places.svg"' in pages.get(TABLE).text
    assert 'data-drawing="/good/head_face/picture.svg"' in pages.get("/good/part/cylinder%20head").text
    for address in ("/good/journal/picture.svg", "/good/journal/places.svg"):
        drawn = ElementTree.fromstring(pages.get(address).text)
        words = [one.text for one in drawn.iter("{http://www.w3.org/2000/svg}text")]
        # HAND: 29.985 / 25.4 = 1.18051 in, told to the fourth digit as the reading has three of a millimeter.
        said = ["1", "A", "not measured", "2", "B", "29.985 mm", "(1.1805 in)", "no limit", "given"]
        assert words[-9:] == said


def test_a_decimal_comma_is_read_in_both_forms(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(TABLE).text) | {"value.1": "29,985", "value.2": " +29,99 mm\t"}
    assert pages.post(TABLE, data=said).status_code == 200
    one = {
        "item": "journal", "place": "A", "value": "29,984", "unit": "mm", "condition": "as left",
        "instrument": "micrometer",
    }  # fmt: skip
    assert pages.post("/record/reading", data=one).status_code == 200
    assert readings(job) == {
        ("journal", "A", "as found"): "29.985",
        ("journal", "B", "as found"): "29.99",
        ("journal", "A", "as left"): "29.984",
    }


def test_the_inspection_sheet_says_reading_limit_and_source(pages: TestClient, job: Job) -> None:
    job.record(
        "reading", item="head_face", place="along", low="0.08 mm", high="0.09 mm", instrument="feelers"
    )
    page = pages.get("/good?whole=yes&part=cylinder%20head").text
    words = seen(page)
    assert "0.08–0.09 mm" in words
    assert "outside" in words
    assert 'href="/sheet/source/manual?page=p.+4"' in page
    assert "Crank journal" not in words, "only the part that was asked for"
    assert "Crank journal" in seen(pages.get("/good?whole=yes").text)


def sent(pages: TestClient, content: str, *, name: str = "head.csv", **more: str) -> str:
    """Send a file of points as the page of the head face does; what the page then says."""
    page = pages.get("/good/head_face").text
    chain = re.search(r'name="chain" value="([^"]+)"', page)
    assert chain is not None
    fields = {"chain": unescape(chain[1]), "condition": "as found", "unit": "", "instrument": "", **more}
    answer = pages.post("/good/head_face/points", data=fields, files={"points": (name, content, "text/csv")})
    return seen(answer.text)


GRID = "x mm,y mm,z mm\n" + "".join(
    f"{x},{y},{0.02 if x == 45 else 0}\n" for x in range(0, 91, 15) for y in range(0, 91, 15)
)


def test_a_scanned_face_is_taken_over_from_a_file_once(pages: TestClient, job: Job) -> None:
    said = sent(pages, GRID, name="C:\\scans\\head.csv")
    assert "In the book:" in said
    (scan,) = job.bench().state.scans.values()
    assert (len(scan.points), scan.file, scan.condition) == (49, "head.csv", "as found")
    assert 'alt="Head face, flatness: Head, lower face' in pages.get("/good/head_face").text
    head = job.bench().state.head
    assert "counts once" in sent(pages, GRID)
    assert job.bench().state.head == head


@pytest.mark.parametrize(
    ("content", "more", "reason"),
    [
        (GRID.replace("0,15,0\n", "0,15,\n", 1), {}, "head.csv, line 3, column 6: z is blank."),
        ("x mm,y mm,z mm\n0,0,0\n1,1,0\n2,2,0\n3,3,0\n", {}, "in a line"),
        (GRID, {"condition": ""}, "“When” is empty: fill it in."),
    ],
)
def test_a_file_that_is_no_face_is_refused_above_its_form(
    pages: TestClient, job: Job, content: str, more: dict[str, str], reason: str
) -> None:
    said = sent(pages, content, **more)
    assert "Nothing was recorded." in said
    assert reason in said
    assert job.bench().state.scans == {}
