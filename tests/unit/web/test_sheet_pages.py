"""The pages of the data sheet, asked as a browser asks: forms without scripts, refusals, photos, speed."""

import re
from collections.abc import Iterator
from datetime import UTC, datetime
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.begin import open_demo
from gudgeon.sheet.load import load_sheet
from gudgeon.web import templating
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.photos import JPEG, NO_PHOTOS
from tests.unit.bench.photos import kept as kept_of
from tests.unit.sheet.sheets import SMALL
from tests.unit.web.folded import Folds


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return make_job(tmp_path)


@pytest.fixture
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    begun = open_demo(tmp_path_factory.mktemp("demo"), now=datetime(2026, 3, 7, 10, 0, tzinfo=UTC))
    with paired(begun.book) as client:
        yield client


def hidden(page: str, name: str) -> str:
    """What a form carries unseen."""
    found = re.search(rf'<input type="hidden" name="{name}" value="([^"]*)">', page)
    assert found is not None, name
    return unescape(found[1])


def refusal(page: str) -> str:
    found = re.search(r'<p class="refusal" role="alert">(.*?)</p>', page, re.DOTALL)
    return unescape(found[1]) if found else ""


def send(
    pages: TestClient, path: str, photo: tuple[str, bytes] | None = None, **said: str
) -> tuple[int, str]:
    """Fill in the form of a figure as it is shown, and send it."""
    form = pages.get("/sheet/figure", params={"path": path}).text
    fields = {
        "path": path,
        "made_from": hidden(form, "made_from"),
        "source": "manual",
        "page": "p. 12",
        **said,
    }
    files = {"photo": photo or ("", b"")}
    answer = pages.post("/sheet/figure", data=fields, files=files, follow_redirects=False)
    if answer.status_code != 303:
        return answer.status_code, answer.text
    return 303, pages.get(answer.headers["location"]).text


def test_the_sheet_shows_every_figure_and_its_source_one_tap_away(pages: TestClient) -> None:
    page = pages.get("/sheet").text
    for printed in ("70.00 mm", "max 0.05 mm (0.002 in)", "24 N·m (17.7 lbf·ft)", "29.980–29.993 mm"):
        assert f'<span class="figure">{printed}</span>' in page
    assert page.count('href="/sheet/source/manual?page=p.+9"') == 6  # five figures and the joint
    assert "Not to work by yet" in page
    assert pages.get("/sheet/source/manual?page=p.%209").status_code == 200


def test_a_figure_is_written_from_its_form(pages: TestClient, tmp_path: Path) -> None:
    status, page = send(pages, "cylinder.rod_length", value="120.0 mm")
    assert status == 303
    assert "Connecting rod length = 120.0 mm (manual p. 12)" in page
    assert '<span class="figure">120.0 mm</span>' in page
    assert "rod_length: {value: 120.0 mm, source: manual p. 12}" in (tmp_path / "sheet.yaml").read_text(
        "utf-8"
    )


def test_a_refusal_stands_above_the_form_and_keeps_the_input(pages: TestClient, tmp_path: Path) -> None:
    status, page = send(pages, "cylinder.bore", value='71 "x', page="p. 77", note="a <b> note")
    assert status == 422
    assert refusal(page).startswith('`"x` is not a known unit of length. Known: mm, in')
    for kept in ('value="71 &#34;x"', 'value="p. 77"', 'value="a &lt;b&gt; note"'):
        assert kept in page
    assert (tmp_path / "sheet.yaml").read_text("utf-8") == SMALL


def test_a_critical_figure_is_asked_twice(pages: TestClient, tmp_path: Path) -> None:
    path = "joints.head.program.3.torque"
    assert 'name="again"' in pages.get("/sheet/figure", params={"path": path}).text
    status, page = send(pages, path, value="25 N·m", again="52 N·m")
    assert (status, refusal(page)) == (
        422,
        "`25 N·m` and `52 N·m` are not the same. Nothing was written: look at the page again.",
    )
    assert (tmp_path / "sheet.yaml").read_text("utf-8") == SMALL
    assert send(pages, path, value="25 N·m", again="25 N·m")[0] == 303


def test_a_sheet_that_changed_in_the_meantime_is_told_with_what_stands_there(
    pages: TestClient, tmp_path: Path
) -> None:
    shown = hidden(pages.get("/sheet/figure?path=cylinder.bore").text, "made_from")
    file = tmp_path / "sheet.yaml"
    file.write_text(SMALL.replace("70.00 mm", "70.50 mm"), encoding="utf-8")
    status, page = send(pages, "cylinder.bore", value="70.01 mm", made_from=shown)
    assert status == 422
    assert "has changed since it was shown here" in refusal(page)
    assert '<span class="figure">70.50 mm</span>' in page
    assert 'value="70.01 mm"' in page
    assert "70.50 mm" in file.read_text("utf-8")
    assert hidden(page, "made_from") != shown  # sent again, it is written: the person has seen both


def test_a_photo_comes_with_a_figure_and_is_shown(pages: TestClient, tmp_path: Path) -> None:
    assert send(pages, "cylinder.rod_length", ("page.jpeg", JPEG), value="120.0 mm")[0] == 303
    page = pages.get("/sheet/source/manual?page=p.%2012").text
    found = re.search(r'<img src="(/sheet/photo/[0-9a-f]{16}\.jpg)"', page)
    assert found is not None
    photo = pages.get(found[1])
    assert photo.content == kept_of(JPEG)
    assert photo.headers["content-type"] == "image/jpeg"
    assert photo.headers["x-content-type-options"] == "nosniff"
    assert pages.get("/sheet").text.count("has-photo") == 1
    for kept in (tmp_path / "photos").iterdir():
        kept.unlink()
    assert pages.get(found[1]).status_code == 404
    again = pages.get("/sheet/source/manual?page=p.%2012")
    assert again.status_code == 200
    assert "it is not in the folder beside the sheet" in again.text


@pytest.mark.parametrize("name", [name for name in NO_PHOTOS if NO_PHOTOS[name]])
def test_what_is_no_photo_is_refused(pages: TestClient, tmp_path: Path, name: str) -> None:
    status, page = send(pages, "cylinder.bore", (name, NO_PHOTOS[name]), value="70.01 mm")
    assert status == 422
    assert "JPEG, PNG or WebP of at most 30 MB" in refusal(page)
    assert "choose it again" in page
    assert (tmp_path / "sheet.yaml").read_text("utf-8") == SMALL


def test_a_photo_too_large_is_refused_and_one_beyond_reason_is_not_read(pages: TestClient) -> None:
    over = JPEG + bytes(30 * 1024 * 1024)
    assert "has 30.0 MB" in refusal(send(pages, "cylinder.bore", ("big.jpg", over), value="70.01 mm")[1])
    assert send(pages, "cylinder.bore", ("big.jpg", over + over), value="70.01 mm")[0] == 413


def test_a_photo_of_a_page_is_kept_by_itself(pages: TestClient, tmp_path: Path) -> None:
    form = pages.get("/sheet/source/manual?page=p.%209").text
    said = {"page": "p. 9", "made_from": hidden(form, "made_from")}
    none = pages.post("/sheet/source/manual", data=said, files={"photo": ("", b"")})
    assert none.status_code == 422
    kept = pages.post("/sheet/source/manual", data=said, files={"photo": ("p.jpg", JPEG)})
    assert "The photo of manual p. 9 is kept beside the sheet" in kept.text
    assert list(load_sheet(tmp_path / "sheet.yaml").sheet.sources["manual"].photos) == ["p. 9"]


@pytest.mark.parametrize(
    "name",
    [
        "sheet.yaml",
        "..%2Fsheet.yaml",
        "%2e%2e%2fsheet.yaml",
        "..%5Csheet.yaml",
        "%00",
        "0123456789abcdef.jpg",
    ],
)
def test_nothing_but_named_photos_is_served(pages: TestClient, name: str) -> None:
    answer = pages.get(f"/sheet/photo/{name}")
    assert answer.status_code == 404
    assert "gudgeon: data sheet 1" not in answer.text


def test_a_finding_is_settled_from_the_page(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=SMALL.replace("max 0.05 mm (0.002 in)", "max 0.05 mm (0.02 in)"))
    with paired(job.book) as pages:
        page = pages.get("/sheet").text
        assert '<span class="state state-cross">' in page
        assert '/sheet/figure?path=characteristics.head_face.wear_limit">Correct it' in page
        said = {
            "finding": hidden(page, "finding"),
            "made_from": hidden(page, "made_from"),
            "decision": "kept",
        }
        assert "reason is empty" in refusal(pages.post("/sheet/settle", data={**said, "why": " "}).text)
        after = pages.post("/sheet/settle", data={**said, "why": "printed so on both pages"}).text
        assert "printed so on both pages" in after
    assert load_sheet(tmp_path / "sheet.yaml").sheet.settled[0].why == "printed so on both pages"


def test_which_figures_can_be_written_and_what_is_added_in_an_editor(pages: TestClient) -> None:
    page = pages.get("/sheet/figure").text
    assert 'href="/sheet/figure?path=cylinder.rod_length"' in page
    assert "added in the file" in page
    unknown = pages.get("/sheet/figure?path=cylinder.boar")
    assert unknown.status_code == 404
    assert refusal(unknown.text).startswith("`cylinder.boar` leads to no figure of this sheet")


def test_the_kit_is_shown_as_its_file_says_it(demo: TestClient) -> None:
    page = demo.get("/kit").text
    for text in ("click wrench 20–100", "30–150 N·m", "± 0.004 mm (your kit)", "2024-05-30", "2.35 mm"):
        assert text in page  # 30 N·m is a fifth of the 150 N·m at the end of the beam wrench


def test_no_page_of_the_sheet_leads_nowhere(demo: TestClient) -> None:
    links: set[str] = set()
    for address in ("/sheet", "/sheet/figure", "/sheet/source/manual", "/kit"):
        links |= {unescape(link) for link in re.findall(r'href="(/sheet[^"#]*)', demo.get(address).text)}
    assert len(links) > 100
    assert [link for link in sorted(links) if demo.get(link).status_code != 200] == []


def lands(pages: TestClient, address: str) -> list[str]:
    """The closed parts that hide what an address with an anchor leads to."""
    asked, _, anchor = unescape(address).partition("#")
    return Folds(pages.get(asked).text).behind[anchor]


def test_the_sheet_is_folded_and_its_summaries_tell(demo: TestClient) -> None:
    page = demo.get("/sheet").text
    folds = re.findall(
        r'<details class="fold" id="([^"]+)"( open)?><summary>(.*?)</summary>', page, re.DOTALL
    )
    assert [name for name, _, _ in folds][:3] == ["found", "gaps", "engine"]
    assert all(re.search(r'<span class="fold-said">\s*\S', summary) for _, _, summary in folds)
    assert [name for name, shown, _ in folds if shown] == []  # nothing is found in this sheet


def test_what_proof_reading_found_stands_open(pages: TestClient, tmp_path: Path) -> None:
    file = tmp_path / "sheet.yaml"
    file.write_text(file.read_text("utf-8").replace("24 N·m (17.7 lbf·ft)", "24 N·m (71.7 lbf·ft)"), "utf-8")
    shown = Folds(pages.get("/sheet").text).behind
    assert shown["found"] == shown["joints"] == shown["joints.head"] == []
    assert shown["gaps"] == ["gaps"]
    assert shown["cylinder"] == ["cylinder"]


@pytest.mark.parametrize(
    "address",
    [
        "/good/head_flatness",
        "/sheet/source/manual",
        "/sheet/photo/none.jpg",
        "/sheet/figure?path=cylinder.bore",
        "/record",
    ],
)
def test_a_link_into_the_sheet_lands_on_what_is_seen(demo: TestClient, address: str) -> None:
    page = demo.get(address).text
    for one in re.findall(r'href="(/sheet(?:\?[^"#]*)?#[^"]+)"', page):
        assert lands(demo, one) == [], one


def test_no_template_leads_into_a_part_that_stays_closed() -> None:
    """A link with an anchor on the sheet says which part is to be open."""
    templates = Path(templating.__file__).parent / "templates"
    found = [
        (file.name, one)
        for file in sorted(templates.glob("*.html"))
        for one in re.findall(r'href="(/sheet[^"]*#[^"]*)"', file.read_text("utf-8"))
    ]
    assert len(found) >= 3
    assert [one for one in found if "open" not in one[1]] == []


def test_every_part_of_the_sheet_can_be_led_to(demo: TestClient) -> None:
    inside = [name for name, closed in Folds(demo.get("/sheet").text).behind.items() if closed]
    assert len(inside) > 40
    last_of_each = {part.split(".")[0]: part for part in inside}
    assert {"found", "gaps", "characteristics", "joints", "cautions", "sources"} <= set(last_of_each)
    for part in last_of_each.values():
        assert lands(demo, f"/sheet?open={part}#{part}") == [], part


def test_a_figure_that_was_written_is_seen_where_it_stands(pages: TestClient) -> None:
    status, page = send(pages, "cylinder.rod_length", value="120.0 mm")
    assert status == 303
    assert 'href="#cylinder"' in page
    assert Folds(page).behind["cylinder"] == []
