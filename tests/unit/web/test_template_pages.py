"""The template and the tracing from the pages, without a script: fields in pixels, taps that only fill the form."""

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pytest
from PIL import Image
from starlette.testclient import TestClient

from gudgeon.book.pictures import clean_picture
from tests.paired import paired
from tests.pinhole import SHEET, Camera
from tests.unit.bench.benches import Job
from tests.unit.book.photos import saved
from tests.unit.paper import cards
from tests.unit.paper.reading import words
from tests.unit.web.test_photo_pages import send

CAMERA = Camera(focal_px=1000, size=(600, 800))
HOLES = {"1": (40.0, 240.0), "2": (170.0, 240.0), "3": (150.0, 60.0), "4": (50.0, 50.0)}
TAKEN = saved(Image.new("L", CAMERA.size, 150), "PNG")
ADDRESS = f"/photos/{clean_picture(TAKEN).sha}/trace"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return cards.job(tmp_path)


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        assert send(client, "photo", ("face.png", TAKEN), caption="bare face")[0] == 303
        yield client


def fields(page: str) -> dict[str, str]:
    """The form as it is filled."""
    form = page[page.index("data-trace>") :]
    found = re.findall(r"<input [^>]*>", form)
    said = {}
    for one in found:
        name, value, kind = (re.search(rf' {what}="([^"]*)"', one) for what in ("name", "value", "type"))
        if name and kind and kind[1] in ("hidden", "text"):
            said[name[1]] = unescape(value[1]) if value else ""
    return said


def pointed() -> dict[str, str]:
    places = {f"corner.{letter}": SHEET[at] for at, letter in enumerate("ABCD")}
    places |= {f"place.{name}": spot for name, spot in HOLES.items()}
    return {name: "{:.2f},{:.2f}".format(*CAMERA.sees(spot)) for name, spot in places.items()}


def test_the_photo_leads_there_and_the_joint_is_asked_for(pages: TestClient) -> None:
    assert f'href="{ADDRESS}"' in pages.get(ADDRESS.replace("/trace", "/look")).text
    page = pages.get(ADDRESS).text
    assert '<option value="many">Test bolts</option>' in page
    assert 'name="place.4"' in pages.get(f"{ADDRESS}?joint=many").text


def test_a_tap_only_fills_the_form_and_goes_on(pages: TestClient, job: Job) -> None:
    said = fields(pages.get(f"{ADDRESS}?joint=many").text)
    before = job.bench().state.count
    page = pages.post(ADDRESS, data=said | {"at.x": "80", "at.y": "120", "tap": "corner.A"}).text
    # HAND: the middle of pixel 80 of 320 lies at 80.5 · 600 / 320 = 151 of the photo, 120.5 · 1.875 = 226.
    assert fields(page)["corner.A"] == "151,226"
    assert fields(page)["pointed"] == "2"  # HAND: 600 / 320 pixels of the photo to one of the picture
    assert 'value="corner.B" checked' in page
    assert '<g class="aim"><path d="M' in page
    assert job.bench().state.count == before


def test_places_are_traced_printed_and_shown_as_a_file(pages: TestClient) -> None:
    said = fields(pages.get(f"{ADDRESS}?joint=many").text)
    sent = said | pointed() | {"wide": "210", "high": "297", "pointed": "0.3"}
    answer = pages.post(ADDRESS, data=sent)
    assert answer.status_code == 200
    for x, y in HOLES.values():
        assert re.search(rf">{x:.1f} mm</td><td[^>]*>{y:.1f} mm</td>", answer.text)
    assert "  1: {x: 40.0 mm, y: 240.0 mm}  # ±" in unescape(answer.text)
    address = unescape(re.search(r'href="(/paper/template/many\.pdf\?[^"]+size=letter)"', answer.text)[1])  # type: ignore[index]
    pdf = pages.get(address)
    assert pdf.headers["content-disposition"] == 'attachment; filename="mine-template-many.pdf"'
    assert b"/PrintScaling/None" in pdf.content
    assert "Tracedfromaphoto:aholemaybeoffbyupto" in words(pdf.content)


def test_where_it_is_too_coarse_to_find_a_hole_pointing_again_is_the_main_action(pages: TestClient) -> None:
    said = fields(pages.get(f"{ADDRESS}?joint=many").text) | pointed() | {"wide": "210", "high": "297"}
    fine, coarse = (pages.post(ADDRESS, data=said | {"pointed": off}).text for off in ("0.3", "1"))
    assert "Trace again, closer" not in fine
    assert '<button class="main" type="submit">Trace</button>' in fine
    assert '<a class="button main" href="#again" data-trace-again>Trace again, closer</a>' in coarse
    assert "a bolt may not find its hole" in coarse
    assert '<button type="submit">Trace</button>' in coarse
    assert "Print the template" in coarse


def test_a_refusal_stands_above_the_form_which_stays_filled(pages: TestClient) -> None:
    said = fields(pages.get(f"{ADDRESS}?joint=many").text) | pointed()
    answer = pages.post(ADDRESS, data=said | {"wide": "210", "high": "297", "corner.C": "", "pointed": "0.3"})
    assert answer.status_code == 422
    assert "3 known points were given; a flat part seen at a slant takes at least" in answer.text
    assert fields(answer.text)["place.1"] == pointed()["place.1"]
    assert pages.post(ADDRESS, data=said | {"wide": "", "high": "297"}).status_code == 422
    assert pages.get("/photos/0123/trace?joint=many").status_code == 404
    assert pages.get("/photos/0123/trace").status_code == 404


def test_the_page_of_a_joint_offers_its_template_where_it_has_positions(
    pages: TestClient, tmp_path: Path
) -> None:
    assert 'href="/photos">trace them from a photo</a>' in pages.get("/set/many/whole").text
    (tmp_path / "placed").mkdir()
    with paired(cards.job(tmp_path / "placed", placed=True).book) as client:
        page = client.get("/set/many/whole").text
        assert 'href="/paper/template/many.pdf?size=a4"' in page
        straight, mirrored = (
            client.get(f"/paper/template/many.pdf?size=a4{more}") for more in ("", "&mirrored=yes")
        )
        assert "Mirrored:" not in words(straight.content)
        assert "Mirrored:seenfromthesideoppositeto" in words(mirrored.content)
    assert pages.get("/paper/template/many.pdf").status_code == 422


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("abc", "`abc` is no number of pixels. Write how far a tap may miss like 1.5, or leave it empty."),
        ("0", "Uncertainty of a picked point 0 px cannot be: it is above 0."),
        ("-3", "Uncertainty of a picked point -3 px cannot be: it is above 0."),
    ],
)
def test_what_a_tap_may_miss_is_taken_or_refused_in_words(pages: TestClient, said: str, told: str) -> None:
    form = fields(pages.get(f"{ADDRESS}?joint=many").text) | pointed() | {"wide": "210", "high": "297"}
    answer = pages.post(ADDRESS, data=form | {"pointed": said})
    assert answer.status_code == 422
    assert told in unescape(answer.text)


@pytest.mark.parametrize(
    ("off", "told"),
    [
        ("99", "`99` does not say how far off the positions may be"),
        ("-1", "`-1` does not say how far off the positions may be"),
        ("99 mm", "These positions may be off by up to 99 mm; above 3 mm no template is made of them"),
    ],
)
def test_a_template_is_refused_that_does_not_say_how_far_off_it_is(
    pages: TestClient, off: str, told: str
) -> None:
    answer = pages.get(
        "/paper/template/many.pdf", params={"places": "1:0,0;2:50,0", "size": "a4", "off": off}
    )
    assert answer.status_code == 422
    assert told in unescape(answer.text)
