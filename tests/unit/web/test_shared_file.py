"""The page to share, as a file and as the page on which it is chosen: alone, whole, the same each time, only what is told."""

import re
from collections.abc import Iterator
from datetime import timedelta
from html import unescape
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.shared_page.answer import shared_page
from gudgeon.bench.shared_page.choices import choices_said
from gudgeon.bench.shared_page.deeds import OWN
from gudgeon.bench.shared_page.errors import NotInIt, PhotoNotWhole
from gudgeon.bench.shared_page.scope import entries_in, scope_said, scopes
from gudgeon.book.address import photos_folder
from gudgeon.web import shared_file
from gudgeon.web.shared_file import SharedTooLarge, shared_html
from tests.paired import paired
from tests.unit.bench.benches import START, Job, make_job
from tests.unit.bench.shared_page.told import photographed

NOW = START + timedelta(days=200)
SHARED = ("everything", "joint:head", "reading:head_flatness", "reading:bore", "cut", "hold:timing_as_found")
EVENT = re.compile(r"\son[a-z]+\s*=", re.IGNORECASE)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shared") / "demo"
    open_demo(folder, now=NOW.astimezone())
    return folder / "book.gudgeon"


@pytest.fixture(scope="module")
def bench(demo: Path) -> Iterator[Bench]:
    opened = open_bench(demo, now=NOW)
    yield opened
    opened.store.close()


@pytest.fixture(scope="module")
def files(bench: Bench) -> dict[str, str]:
    return {of: made(bench, of) for of in SHARED}


def made(bench: Bench, of: str, said: str = "") -> str:
    return shared_html(bench, shared_page(bench, of=of, choices=choices_said(said))).decode()


class Tags(HTMLParser):
    """The names and attributes of all elements."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))


@pytest.mark.parametrize("of", SHARED)
def test_it_is_alone_and_does_nothing(files: dict[str, str], of: str) -> None:
    text, tags = files[of], Tags(files[of]).found
    assert not {"script", "iframe", "object", "embed", "form", "link", "base", "a"} & {tag for tag, _ in tags}
    assert not re.search(r"https?:|javascript:|@import|url\((?!#)", text)
    assert not any(EVENT.search(f" {name}=") for _, attributes in tags for name in attributes)
    assert not any("style" in attributes for _, attributes in tags)
    held = [value for _, attributes in tags for name, value in attributes.items() if name in ("src", "href")]
    assert all(value is not None and value.startswith("data:image/jpeg;base64,") for value in held)
    policy = next(attributes["content"] for tag, attributes in tags if attributes.get("http-equiv"))
    assert policy == "default-src 'none'; img-src data:; style-src 'unsafe-inline'"
    assert text.index("Content-Security-Policy") < text.index("<style>")


@pytest.mark.parametrize("of", SHARED)
def test_it_is_well_formed_and_no_name_in_it_stands_twice(files: dict[str, str], of: str) -> None:
    head, body = files[of].split("<!DOCTYPE html>")
    assert head.strip() == ""
    tree = ElementTree.fromstring(body)
    named = [one.attrib["id"] for one in tree.iter() if "id" in one.attrib]
    assert len(named) == len(set(named))
    wanted = {
        name
        for one in tree.iter()
        for key in ("aria-labelledby", "clip-path")
        for name in re.sub(r"url\(#(.*)\)", r"\1", one.attrib.get(key, "")).split()
    }
    assert wanted <= set(named)
    assert tree.attrib["lang"] == "en"


@pytest.mark.parametrize("of", SHARED)
def test_every_drawing_is_told_in_words(files: dict[str, str], of: str) -> None:
    tree = ElementTree.fromstring(files[of].split("<!DOCTYPE html>")[1])
    words = {
        one.attrib["id"]: one.text or "" for one in tree.iter() if one.tag in ("title", "desc") and one.attrib
    }
    for svg in tree.iter("svg"):
        said = svg.attrib.get("aria-label") or " ".join(
            words[one] for one in svg.attrib["aria-labelledby"].split()
        )
        assert len(said) > 5


def test_it_says_what_it_rests_on(bench: Bench, files: dict[str, str]) -> None:
    for of, text in files.items():
        told = unescape(text)
        assert bench.state.head in told
        assert "invented engine – not for any real one" in told
        assert "The maker's current manual, local rules and licensed practice overrule this." in told
        assert "Left out on purpose: names of people" in told
        entries = entries_in(bench, bench.store.entries(bench.build), scope_said(bench, of))
        assert re.search(
            rf"This page tells of \d+ of the {len(bench.store.entries(bench.build))} entries", told
        )
        assert len(entries) >= int(re.findall(r"tells of (\d+) of", told)[0]) > 0


def test_the_tightening_is_told_step_by_step(files: dict[str, str]) -> None:
    """Figures and page as the demo's data sheet states them (src/gudgeon/demo), 25 N·m = 18.4 lbf·ft (HAND: /1.35582)."""
    text = unescape(files["joint:head"])
    stages = [
        "torque to 35 N·m (25.8 lbf·ft)",
        "loosen fully, in reversed order",
        "torque to 25 N·m (18.4 lbf·ft)",
    ]
    assert [text.index(one) for one in stages] == sorted(text.index(one) for one in stages)
    for said in ("click torque wrench, 20–100 N·m, off by at most 4 %", "second edition (invented), p. 49", "clicked while turning", "entries 381 to 390"):  # fmt: skip
        assert said in text
    assert "25 of 50 pulls done" in text


def test_what_was_found_stands_with_its_uncertainty_and_verdict(files: dict[str, str]) -> None:
    text = unescape(files["reading:head_flatness"])
    assert text.index("as found") < text.index("as left")
    for said in ("0.10–0.11 mm (0.0039–0.0043 in)", "± 0.014 mm", "at most 0.05 mm (0.0020 in)", "outside the wear limit", "manual (invented), second edition (invented), p. 51"):  # fmt: skip
        assert said in text


def test_one_operation_holds_nothing_of_another(bench: Bench, files: dict[str, str]) -> None:
    page = shared_page(bench, of="joint:head", choices=choices_said(""))
    numbers = {number for step in page.steps for number in step.numbers}
    others = [one for one in bench.store.entries(bench.build) if one.number in numbers]
    assert {one.kind for one in others} == {"pull"}
    assert {one.body["joint"] for one in others} == {"head"}
    assert "Water pump" not in files["joint:head"]
    assert "Cylinder bore" not in files["reading:head_flatness"]


def test_words_of_another_operation_are_refused(bench: Bench) -> None:
    with pytest.raises(NotInIt, match="Entry 406 is not part of it"):
        made(bench, "joint:head", "notes=406")
    with pytest.raises(NotInIt, match="Entry 380 is no photo that counts"):
        made(bench, "joint:head", "photos=380")
    assert "lowered onto both dowels" in made(bench, "joint:head", "notes=380")


def test_the_same_book_at_the_same_hour_gives_the_same_bytes(demo: Path, files: dict[str, str]) -> None:
    again = open_bench(demo, now=NOW)
    try:
        assert made(again, "cut") == files["cut"]
    finally:
        again.store.close()


def test_it_can_be_sent(files: dict[str, str]) -> None:
    assert max(len(text.encode()) for text in files.values()) < 500_000


def test_too_large_a_file_is_refused(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shared_file, "MOST_BYTES", 20_000)
    with pytest.raises(SharedTooLarge, match=r"The page would be 0\.\d MB with its 0 photos"):
        made(bench, "cut")


@pytest.fixture
def job(tmp_path: Path) -> Job:
    done = make_job(tmp_path)
    done.read_code()
    done.tighten_all()
    return done


def test_a_photo_with_its_pins(job: Job) -> None:
    number = photographed(job, caption="Plug <2> & hose", pin="heater hose")
    bench = open_bench(job.book, now=NOW)
    try:
        text = made(bench, "joint:head", f"photos={number}")
        tree = ElementTree.fromstring(text.split("<!DOCTYPE html>")[1])
        photo = next(one for one in tree.iter("svg") if one.attrib["class"] == "photo")
        assert "heater hose" in photo.attrib["aria-label"]
        assert photo.attrib["viewBox"] == "0 0 1280 935"  # HAND: 1900 · 1280 / 2600 = 935.4
        pin = next(photo.iter("circle"))
        assert (pin.attrib["cx"], pin.attrib["cy"]) == ("320.0", "374.0")  # HAND: 25 % of 1280, 40 % of 935
        assert "A photo was taken" in made(bench, "joint:head")
        sha = next(one.sha for one in bench.state.photos)
        for file in photos_folder(job.book).iterdir():
            file.unlink()
        lost = open_bench(job.book, now=NOW)
        with pytest.raises(PhotoNotWhole, match=f"The photo of entry {number} cannot be shown"):
            made(lost, "joint:head", f"photos={number}")
        lost.store.close()
        assert sha not in text
    finally:
        bench.store.close()


@pytest.fixture
def pages(demo: Path) -> Iterator[TestClient]:
    with paired(demo) as client:
        yield client


def saved(pages: TestClient, text: str) -> str:
    link = re.search(r'<a class="button main" href="([^"]+)"', text)
    assert link is not None
    answer = pages.get(unescape(link[1]))
    assert answer.headers["content-type"] == "text/html; charset=utf-8"
    assert answer.headers["content-disposition"].startswith('attachment; filename="shared-')
    return answer.text


def test_the_page_tells_first_what_is_saved_then(pages: TestClient) -> None:
    text = pages.get("/share", params={"of": "hold:head_tested", "n312": "yes", "tools": "yes"}).text
    assert "Once you have given it away" in text
    for told in ("names of people, customers, shops and suppliers", "by your choice: 1 text of your own"):
        assert told in text
    file = unescape(saved(pages, text))
    assert "4 bar of warm water" in file
    assert re.findall(r"\d\d:\d\d", file) == []


def test_what_is_not_offered_stays_out(pages: TestClient) -> None:
    """Ticked for another operation, then another was chosen: left out, and said so."""
    text = pages.get("/share", params={"of": "joint:head", "n312": "yes", "p312": "yes"}).text
    assert "by your choice" not in text
    assert "4 bar of warm water" not in saved(pages, text)


@pytest.mark.parametrize("said", ["names=no", "prices=no", "hours=", "n312=no", "p20=0", "dates=YES"])
def test_only_a_yes_lets_something_in(pages: TestClient, said: str) -> None:
    for address in ("/paper/shared.html", "/share"):
        answer = pages.get(f"{address}?of=hold:head_tested&tools=yes&{said}")
        assert answer.status_code == 422
        assert answer.headers["content-type"].startswith("text/html")
        assert "content-disposition" not in answer.headers
        text = unescape(answer.text)
        assert f"{said} says neither that it goes in nor that it stays out" in text
        assert "Save this page" not in text


@pytest.mark.parametrize("said", ["n312", "n999999999", "p999999999", "p1"])
def test_a_number_that_is_no_part_of_it_is_refused_in_the_file(pages: TestClient, said: str) -> None:
    """As the terminal does: the words of entry 312 are part of a proof of the head, not of its tightening."""
    answer = pages.get(f"/paper/shared.html?of=joint:head&{said}=yes")
    assert answer.status_code == 422
    assert f"Entry {said[1:]} is " in answer.text


def test_what_the_book_does_not_hold_is_refused_on_the_page(pages: TestClient) -> None:
    answer = pages.get("/share", params={"of": "joint:nowhere"})
    assert answer.status_code == 422
    assert "is no operation that the book holds something of" in answer.text
    assert pages.get("/paper/shared.html", params={"of": "joint:nowhere"}).status_code == 404


def test_everything_that_can_be_shared_makes_a_page(pages: TestClient, bench: Bench) -> None:
    for scope in scopes(bench):
        if scope.family in ("hold", "joint"):
            assert pages.get("/paper/shared.html", params={"of": scope.said}).status_code == 200, scope


def test_pages_lead_there(pages: TestClient) -> None:
    assert 'href="/share"' in pages.get("/done").text
    assert 'href="/share?of=joint:head"' in pages.get("/set/head/whole").text
    assert "A page to share" not in pages.get("/set/crank_pulley/whole").text  # nothing was done to it yet


def test_no_words_of_the_invented_job_are_in_it(bench: Bench, files: dict[str, str]) -> None:
    """Every text that was written freely, but for words of the data sheet: parts are called there as here."""
    text, sheet = unescape(files["everything"]), bench.papers.sheet_text
    written = {
        one.body[field]
        for one in bench.store.entries(bench.build)
        for field in OWN.get(one.kind, ())
        if isinstance(one.body.get(field), str) and len(one.body[field]) > 3
    }
    assert len(written) > 150
    assert {said for said in written if said in text and said not in sheet} == set()
    names = {one.name for family in (bench.kit.wrenches, bench.kit.gauges) for one in family.values()}
    plain = {one.kind for one in bench.kit.gauges.values()}
    assert {name for name in names - plain if name in text} == set()
