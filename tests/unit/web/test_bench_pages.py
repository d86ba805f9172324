"""The pages of the bench, asked as a browser asks: where a form leads back to, what it begins with, what is refused."""

import re
from collections.abc import Iterator
from datetime import UTC, datetime
from html import unescape
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.begin import open_demo
from gudgeon.web.wording import CLOSINGS, adds, shortened
from tests.paired import paired
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.sheet.sheets import SMALL

BARE = SMALL.split("\ncharacteristics:")[0].split("\ncylinder:")[0]


def opened(folder: Path) -> TestClient:
    begun = open_demo(folder, now=datetime(2026, 3, 7, 10, 0, tzinfo=UTC))
    return paired(begun.book)


@pytest.fixture(scope="module")
def reading(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """The invented job, for tests that write nothing."""
    with opened(tmp_path_factory.mktemp("demo") / "demo") as client:
        yield client


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[TestClient]:
    """The invented job, fresh for a test that writes."""
    with opened(tmp_path / "demo") as client:
        yield client


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


def links(page: str, under: str) -> list[str]:
    return [unescape(one) for one in re.findall(rf'href="({re.escape(under)}[^"]*)"', page)]


def carried(page: str, action: str) -> dict[str, str]:
    """What the first form that is sent there carries unseen, but for the seal, which a paired client has in a header."""
    form = re.search(rf'<form[^>]* action="{re.escape(action)}[^"]*"[^>]*>(.*?)</form>', page, re.DOTALL)
    assert form is not None, action
    found = re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', form[1])
    return {name: unescape(value) for name, value in found if name != "seal"}


def said(page: str) -> str:
    """The words of the confirmation."""
    found = re.search(r'<div class="said[^"]*" role="status">(.*?)</div>', page, re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", found[1])).split()) if found else ""


def chosen(page: str, field: str) -> str:
    """What is chosen in a select; empty where nothing is."""
    select = re.search(rf'<select[^>]* name="{field}"[^>]*>(.*?)</select>', page, re.DOTALL)
    assert select is not None, field
    found = re.search(r'<option value="([^"]*)" selected>', select[1])
    return found[1] if found else ""


def ticked(page: str) -> list[str]:
    return re.findall(r'<input type="radio" name="condition" value="([^"]+)" checked', page)


def read(pages: TestClient, item: str, **fields: str) -> str:
    """Record a reading from its form; the page that follows."""
    form = carried(pages.get(f"/good/{item}").text, "/record/reading")
    answer = pages.post("/record/reading", data={**form, "condition": "as found", **fields})
    assert answer.status_code == 200, answer.text
    return answer.text


# Where a form leads back to


@pytest.mark.parametrize("address", ["/start?for=fire", "/open", "/", "/good/bore", "/done?page=2"])
def test_every_link_to_a_form_knows_where_it_was_tapped(reading: TestClient, address: str) -> None:
    page = reading.get(address).text
    forms = [*links(page, "/record/"), *links(page, "/strike/")]
    assert forms != []
    backs = {parse_qs(urlsplit(one).query).get("back", [""])[0].split("#")[0] for one in forms}
    assert backs == {address}


def test_a_proof_begun_from_the_reasons_leads_back_to_them_even_after_a_refusal(demo: TestClient) -> None:
    link = links(demo.get("/start?for=fire").text, "/record/hold?")[0]
    form = carried(demo.get(link).text, "/record/hold")
    hold = parse_qs(urlsplit(link).query)["hold"][0]
    refused = demo.post("/record/hold", data={**form, "hold": hold, "value": " "})
    assert refused.status_code == 422
    again = carried(refused.text, "/record/hold")
    assert again["back"] == "/start?for=fire"
    done = demo.post("/record/hold", data={**again, "hold": hold, "value": "seen"}, follow_redirects=False)
    where = urlsplit(done.headers["location"])
    assert (where.path, parse_qs(where.query)["for"]) == ("/start", ["fire"])


def test_a_strike_leads_back_too(demo: TestClient) -> None:
    link = links(demo.get("/done?page=2").text, "/strike/")[0]
    form = carried(demo.get(link).text, "/strike/")
    done = demo.post(urlsplit(link).path, data={**form, "why": "slip"}, follow_redirects=False)
    assert done.headers["location"].startswith("/done?page=2&recorded=")


@pytest.mark.parametrize("back", ["file:///example", "//example/", "javascript:alert(1)", "/\\example"])
def test_no_form_leads_back_to_a_strange_place(reading: TestClient, back: str) -> None:
    page = reading.get("/record/note", params={"back": back}).text
    assert carried(page, "/record/note")["back"] == "/record"
    assert "example" not in page
    assert "alert" not in page


def test_what_was_put_back_is_said_at_its_list(demo: TestClient) -> None:
    link = links(demo.get("/open").text, "/record/refitted?")[0]
    form = carried(demo.get(link).text, "/record/refitted")
    item = parse_qs(urlsplit(link).query)["item"][0]
    page = demo.post("/record/refitted", data={**form, "item": item}).text
    assert said(page[page.index('id="left-over"') :]) != ""
    assert said(page[: page.index('id="left-over"')]) == ""


# After a pull


def look(demo: TestClient, *, as_recorded: str = "yes") -> str:
    """Look at the last pull, and write it down; what the page then says."""
    form = carried(demo.get("/set/head").text, "/record/looked")
    said = {**form, "seen": "two dots on bolt 3", "as_recorded": as_recorded}
    return demo.post("/record/looked", data=said).text


def test_after_a_pull_the_page_opens_at_the_next_one(demo: TestClient) -> None:
    assert "Look first." in demo.get("/set/head").text
    first = look(demo)
    form = carried(first, "/record/pull")
    done = demo.post(
        "/record/pull",
        data={**form, "outcome": "clicked while turning", "setting": "25 N·m"},
        follow_redirects=False,
    )
    assert urlsplit(done.headers["location"]).fragment == "next"
    page = demo.get(done.headers["location"]).text
    assert said(page).startswith("In the book: Bolt 4, stage 3: clicked while turning.")
    assert page.index('id="next"') < page.index('role="status">') < page.index("Pull 27 of 50")
    assert "Look first." not in page
    assert "Look first." in demo.get("/set/head").text


def test_after_a_stop_he_looks_first(demo: TestClient) -> None:
    """The invented job was stopped: no pull is offered before the look, and one that is sent all the same is kept."""
    page = demo.get("/set/head").text
    assert "Look first." in page
    assert 'aria-label="The next pull"' not in page
    after = look(demo)
    assert "Pull 26 of 50" in after
    form = carried(demo.get("/record/pause?back=/set/head%23next").text, "/record/pause")
    page = demo.post("/record/pause", data={**form, "hand": "the wrench", "next_action": "bolt 4"}).text
    assert "Look first." in page
    assert 'aria-label="The next pull"' not in page
    now = demo.get("/").text
    assert 'href="/set/head#next">Back to where you stopped<' in now
    assert "You stopped" in now


def test_what_is_not_as_recorded_is_in_doubt(demo: TestClient) -> None:
    page = look(demo, as_recorded="no")
    assert "In doubt, so no next pull is offered." in page
    assert "looked at after a stop, it is not as recorded: two dots on bolt 3" in page


def test_a_look_that_says_nothing_is_refused_where_it_was_made(demo: TestClient) -> None:
    form = carried(demo.get("/set/head").text, "/record/looked")
    page = demo.post("/record/looked", data={**form, "seen": "ok", "as_recorded": "yes"})
    assert page.status_code == 422
    assert "`ok` is a bare tick; write the value that was seen" in page.text
    assert 'aria-label="Look first"' in page.text


# Tasks


def test_a_task_left_standing_can_be_taken_up_again(demo: TestClient) -> None:
    begin = next(one for one in links(demo.get("/").text, "/begin?"))
    task = parse_qs(urlsplit(begin).query)["task"][0]

    def act(name: str, **more: str) -> str:
        form = carried(demo.get(f"/record/{name}?task={task}&back=/").text, f"/record/{name}")
        return demo.post(f"/record/{name}", data={**form, "task": task, **more}).text

    def offered(page: str) -> list[str]:
        return [
            words
            for one, words in re.findall(r'<a class="button" href="([^"]+)">([^<]+)</a>', page)
            if f"task={task}&" in unescape(one)
        ]

    form = carried(demo.get(begin).text, "/begin")
    assert offered(demo.post("/begin", data=form).text) == ["It is finished", "It is left standing"]
    assert offered(act("task-paused", why="no light")) == ["Take it up again", "It is finished"]
    assert offered(act("task-started")) == ["It is finished", "It is left standing"]


# An engine whose sheet says nothing yet


@pytest.fixture
def bare(tmp_path: Path) -> Iterator[TestClient]:
    made = make_job(tmp_path, sheet=BARE)
    made.read_code()
    with paired(made.book) as client:
        yield client


def test_pages_without_figures_say_what_the_sheet_lacks(bare: TestClient) -> None:
    joints, good, cut = (bare.get(one).text for one in ("/set", "/good", "/cut"))
    assert "no bolted joint" in joints
    assert "nothing that is measured" in good
    assert "ISO 14253" not in good
    for page in (joints, good):
        assert "sheet.yaml" in page
        assert 'href="/sheet?open=gaps#gaps"' in page
    assert "Nothing was recorded" not in cut
    assert "does not state what it rests on" in cut
    assert "/sheet/figure?path=cylinder.bore" in cut
    assert bare.get("/sheet/figure?path=cylinder.bore").status_code == 200
    assert bare.get("/cut").status_code == 200


# Words


def test_what_is_needed_is_not_said_to_stay_empty(reading: TestClient) -> None:
    page = reading.get("/set/head/whole").text
    assert re.search(r"What is doubtful about it\?? <span[^>]*>\(needed when it is doubtful\)", page)
    assert not re.search(r"doubtful about it\?? <span[^>]*>\(may stay empty\)", page)


def test_a_refusal_says_once_that_nothing_was_recorded(demo: TestClient) -> None:
    form = carried(demo.get("/record/note").text, "/record/note")
    assert demo.post("/record/note", data={**form, "text": " "}).text.count("Nothing was recorded") == 1
    form = carried(demo.get("/set/head/whole").text, "/record/pull")
    page = demo.post("/record/pull", data={**form, "outcome": "doubtful", "why": " "}).text
    assert page.count("Nothing was recorded") == 1


def test_no_button_reads_as_a_state(reading: TestClient) -> None:
    assert [one.words for one in CLOSINGS.values()] == [
        "Make it final", "Take it out", "Take the plug out", "Put it back",
    ]  # fmt: skip
    for address in ("/open", "/start?for=handover"):
        page = reading.get(address).text
        buttons = re.findall(r'<(?:a class="button"|button)[^>]*>([^<]+)', page)
        assert "Put it back" in buttons or "Put them back" in buttons
        assert {"Made final", "Taken out", "Opened", "Back on", "It is back"} & set(buttons) == set()


def test_a_long_note_is_cut_short_where_it_is_confirmed(demo: TestClient) -> None:
    note = "oil " * 1250
    form = carried(demo.get("/record/note").text, "/record/note")
    page = demo.post("/record/note", data={**form, "text": note}).text
    assert "…" in said(page)
    assert len(said(page)) < 300
    assert note.strip() in demo.get("/done").text
    assert (shortened("a" * 200), shortened("a" * 201)) == ("a" * 200, "a" * 200 + "…")


@pytest.mark.parametrize(
    ("title", "text", "expected"),
    [
        ("An opening closed", "an opening closed", False),
        ("A task finished", "a task of the job is finished", False),
        ("Something left loose", "something left loose on purpose", True),
        ("A reading", "a measured value, with its unit", True),
    ],
)
def test_a_line_that_repeats_its_title_is_left_out(title: str, text: str, expected: bool) -> None:
    assert adds(title, text=text) is expected


def test_the_list_of_forms_repeats_nothing(reading: TestClient) -> None:
    page = reading.get("/record").text
    rows = re.findall(r'row-name">([^<]+)</span>(?:<span class="row-limits soft">([^<]+)</span>)?', page)
    assert len(rows) > 20
    assert [title for title, text in rows if text.lower() == title.lower()] == []


# Readings


def test_the_verdict_is_in_the_confirmation(pages: TestClient) -> None:
    page = read(pages, "head_face", place="across", low="0.08", high="0.09", unit="mm", instrument="feelers")
    assert "Outside" in said(page)
    assert page.index('id="record"') < page.index('role="status"')


INCHES = (
    "  inches: {name: inch micrometer, kind: outside micrometer, range: 1–2 in, step: 0.0001 in}\nturning:\n"
)


@pytest.mark.parametrize(("gauge", "expected"), [("micrometer", "mm"), ("inches", "in"), ("", "mm")])
def test_the_unit_follows_the_gauge_and_else_the_sheet(tmp_path: Path, gauge: str, expected: str) -> None:
    """1.1807 in is 29.99 mm: an entry in inches on a gauge in millimeters is an exception, on one in inches the rule."""
    made = make_job(tmp_path, kit=KIT.replace("turning:\n", INCHES))
    made.read_code()
    with paired(made.book) as pages:
        assert chosen(pages.get("/good/journal").text, "unit") == "mm"
        page = read(pages, "journal", place="A", value="1.1807", unit="in", instrument=gauge)
        assert chosen(page, "unit") == expected
        assert ("as this gauge reads; the sheet prints mm" in page) is (expected == "in")


def test_a_reading_without_a_gauge_names_the_field_and_no_flag(pages: TestClient) -> None:
    page = said(read(pages, "head_face", place="across", low="0.03", high="0.04", unit="mm"))
    assert "name the gauge with “Gauge”" in page
    assert "--gauge" not in page


def test_the_gauge_is_the_one_used_last_and_never_guessed(pages: TestClient) -> None:
    assert chosen(pages.get("/good/journal").text, "instrument") == ""
    page = read(pages, "journal", place="A", value="29.985", unit="mm", instrument="micrometer")
    assert chosen(page, "instrument") == "micrometer"


def test_after_the_shop_nobody_says_for_him_when_it_was_measured(job: Job, pages: TestClient) -> None:
    assert ticked(pages.get("/good/head_face").text) == ["as found"]
    job.record("shop-out", part="Cylinder head", shop="the shop", ordered="face", most_off=None)
    assert ticked(pages.get("/good/head_face").text) == ["as found"]
    job.record("shop-back", part="Cylinder head", found="0.05 mm off")
    assert ticked(pages.get("/good/head_face").text) == []
    assert ticked(pages.get("/good/journal").text) == ["as found"]
    form = carried(pages.get("/good/head_face").text, "/record/reading")
    refused = pages.post("/record/reading", data={**form, "place": "along", "low": "0.03", "unit": "mm"})
    assert (refused.status_code, "“When” is empty" in refused.text) == (422, True)


def test_a_reading_as_left_is_kept_as_left(job: Job, pages: TestClient) -> None:
    page = read(pages, "journal", place="A", value="29.985", unit="mm", condition="as left")
    assert [key for key in job.bench().state.readings if key[0] == "journal"] == [("journal", "A", "as left")]
    assert ticked(page) == []


def test_places_without_a_reading_are_counted_alike_above_and_below(pages: TestClient) -> None:
    """Two places of the head face, two of the journal: four are not measured; one reading leaves three."""
    assert "4 not measured" in pages.get("/good").text
    assert "2 not measured" in pages.get("/good/journal").text
    page = read(pages, "journal", place="A", value="29.985", unit="mm", instrument="micrometer")
    assert "1 not measured" in page
    assert "3 not measured" in pages.get("/good").text


# The data sheet


def test_the_page_of_a_figure_never_stated_is_not_guessed(reading: TestClient) -> None:
    page = reading.get("/sheet/figure?path=cylinder.rod_length").text
    assert "Nothing is stated yet" not in page
    assert re.search(r'name="page" value="p\. [0-9]+"', page)
    gap = next(
        one
        for one in links(reading.get("/sheet/figure").text, "/sheet/figure?path=")
        if "Nothing is stated yet" in reading.get(one).text and 'name="page"' in reading.get(one).text
    )
    assert 'name="page" value=""' in reading.get(gap).text


# Two books


def test_every_form_says_which_book_it_is_of(reading: TestClient) -> None:
    for address in (
        "/set/head",
        "/set/head/whole",
        "/good/bore",
        "/open",
        "/record/note",
        "/sheet",
        "/sheet/figure?path=cylinder.bore",
    ):
        page = reading.get(address).text
        forms = re.findall(r'<form[^>]* method="post".*?</form>', page, re.DOTALL)
        assert [form for form in forms if 'name="chain"' not in form] == []
        assert forms != [] or address == "/sheet"


def test_a_form_of_another_book_is_refused(tmp_path: Path) -> None:
    """The same engine laid out anew has the same names and figures, and is another book all the same."""
    with opened(tmp_path / "one") as one, opened(tmp_path / "two") as two:
        note = carried(one.get("/record/note").text, "/record/note")
        figure = carried(one.get("/sheet/figure?path=cylinder.bore").text, "/sheet/figure")
        before = two.get("/done").text.count("<tr id=")
        refused = two.post("/record/note", data={**note, "text": "oil from the one engine"})
        assert refused.status_code == 422
        assert "belongs to another book" in refused.text
        assert refused.text.count("Nothing was") == 1
        said = {**figure, "value": "82.0 mm", "source": "manual", "page": "p. 1"}
        assert "belongs to another book" in two.post("/sheet/figure", data=said).text
        assert two.get("/done").text.count("<tr id=") == before
        assert "oil from the one engine" not in two.get("/done").text
        assert one.post("/record/note", data={**note, "text": "oil"}).status_code == 200


# The scale is read, and taking apart


def test_the_scale_is_asked_for_once_and_kept_for_the_stage(demo: TestClient) -> None:
    first = look(demo)
    assert "What does its scale show?" in first
    form = carried(first, "/record/pull")
    refused = demo.post("/record/pull", data={**form, "outcome": "clicked while turning"})
    assert refused.status_code == 422
    assert "has to be read for stage 3: there was a pause since. The list asks for 25.0 N·m." in refused.text
    page = demo.post(
        "/record/pull", data={**form, "outcome": "clicked while turning", "setting": "25 N·m"}
    ).text
    assert "read off its scale: <strong>25 N·m</strong>" in page
    after = demo.post(
        "/record/pull", data={**carried(page, "/record/pull"), "outcome": "clicked while turning"}
    )
    assert after.status_code == 200
    assert "Pull 28 of 50" in after.text


def test_a_doubt_is_chosen_from_reasons(demo: TestClient) -> None:
    form = carried(look(demo), "/record/pull")
    page = demo.post("/record/pull", data={**form, "outcome": "doubtful", "doubt": "noise", "why": ""}).text
    assert "it made a noise" in page
    assert "the sheet orders: slacken every bolt, record that, and begin again with stage 1" in page


def test_a_joint_is_taken_apart_on_a_page_of_its_own(demo: TestClient) -> None:
    assert "/set/head/loosening" in demo.get("/set/head").text
    page = demo.get("/set/head/loosening").text
    assert "Loosen it with the engine cold" in page
    form = carried(page, "/record/loosened")
    after = demo.post("/record/loosened", data={**form, "outcome": "done"}).text
    # What is to be said of a pull stands by itself before the next one.
    assert "Pull 2 of 20" not in after
    (on,) = [one for one in links(after, "/set/head/loosening?") if "seen=yes" in one]
    assert "Pull 2 of 20" in demo.get(on).text
    without = demo.get("/set/belt_tensioner/loosening")
    assert without.status_code == 422
    assert "The sheet states no loosening program for Belt tensioner nut" in without.text


def test_a_form_takes_repeats_and_how_warm_it_was(job: Job, pages: TestClient) -> None:
    read(
        pages, "journal", place="A", value="29.985", repeats="29.986 29.984", unit="mm", part_temperature="24 °C",
        gauge_temperature="same as part",
    )  # fmt: skip
    found = job.bench().state.readings["journal", "A", "as found"]
    assert (found.value, found.repeats) == ("29.98500", ("29.985", "29.986", "29.984"))
    assert (found.part_temperature, found.temperature_unit, found.gauge_as_part) == ("24", "°C", True)


def test_the_mark_of_a_joint_is_said_as_it_was_seen(pages: TestClient, job: Job) -> None:
    job.tighten_all()
    page = pages.get("/record/marked?joint=head").text
    assert re.search(r'<input[^>]* id="how" name="how" value=""[^>]* required>', page)
    refused = pages.post("/record/marked", data={"joint": "head", "how": ""})
    assert refused.status_code == 422
    assert "“How it is marked” is empty: fill it in." in refused.text
    assert job.bench().state.joints["head"].marked is False
    pages.post("/record/marked", data={"joint": "head", "how": "two dots on every bolt"})
    assert job.bench().state.joints["head"].marked is True


def test_the_code_of_the_engine_is_a_link_from_the_first_page_on(tmp_path: Path) -> None:
    with paired(make_job(tmp_path).book) as own:
        first = own.get("/").text
        assert "gudgeon record" not in first
        (link,) = links(first.partition("</h1>")[2].partition("<h2>Done")[0], "/record/identity")[:1]
        assert own.get(link).status_code == 200
        own.post("/record/identity", data={"code": "X 99'", "read_from": "pad", "entry": "a" * 32})
        after = own.get(f"/?recorded={'a' * 32}").text
        assert "Figures stay locked until you say why this sheet serves: " in said(after)
        assert "--why" not in after
        assert "REASON" not in after
        kept = {parse_qs(urlsplit(one).query)["code"][0] for one in links(after, "/record/identity?")}
        assert kept == {"X 99'"}
