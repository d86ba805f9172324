"""The page to share in a real browser, from a folder and without a network: it opens, asks nothing, and breaks no rule."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from gudgeon.bench.context import open_bench
from gudgeon.bench.shared_page.answer import shared_page
from gudgeon.bench.shared_page.choices import choices_said
from gudgeon.web.shared_file import shared_html
from tests.browser.conftest import Arrive, fresh_demo
from tests.browser.test_axe import AXE, MORE, RUN, violations
from tests.unit.bench.benches import START, make_job
from tests.unit.bench.shared_page.told import photographed
from tools.chromium import DESKTOP, PHONE
from tools.served import Served


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A page of the invented job with all sorts of drawings, and one with a photo."""
    folder = tmp_path_factory.mktemp("given away")
    job = make_job(folder)
    job.read_code()
    job.tighten_all()
    photo = photographed(job, pin="heater hose")
    made: dict[str, Path] = {}
    for book, of, said in (
        (fresh_demo(folder), "cut", ""),
        (job.book, "joint:head", f"photos={photo}"),
    ):
        bench = open_bench(book, now=START + timedelta(days=300))
        page = shared_page(bench, of=of, choices=choices_said(said))
        file = folder / f"{len(made)}.html"
        file.write_bytes(shared_html(bench, page))
        made[f"{of} {said}".strip()] = file
        bench.store.close()
    return made


@dataclass
class Window:
    """A window without a network: what it asked for, and what it complained of."""

    page: Page
    asked: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)


@pytest.fixture(params=[("light", DESKTOP), ("dark", PHONE)], ids=["light desktop", "dark phone"])
def window(browser: Browser, request: pytest.FixtureRequest) -> Iterator[Window]:
    scheme, (width, height) = request.param
    context = browser.new_context(
        viewport={"width": width, "height": height}, offline=True, color_scheme=scheme
    )
    made = Window(context.new_page())
    made.page.on("request", lambda asked: made.asked.append(asked.url))
    made.page.on("console", lambda told: made.said.append(told.text))
    made.page.on("pageerror", lambda error: made.said.append(str(error)))
    yield made
    context.close()


def test_it_opens_from_a_folder(window: Window, files: dict[str, Path]) -> None:
    page = window.page
    for of, file in files.items():
        window.asked.clear()
        page.goto(file.as_uri())
        wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        assert wide <= 0, f"{of} is wider than the window"
        assert page.locator("h1").is_visible()
        assert [one for one in window.asked if not one.startswith("data:image/jpeg")] == [file.as_uri()]
        page.evaluate(AXE)
        assert page.evaluate(RUN, list(MORE)) == [], of
    assert window.said == []


def test_the_photo_is_seen(window: Window, files: dict[str, Path]) -> None:
    opened = window.page
    file = next(file for of, file in files.items() if "photos" in of)
    opened.goto(file.as_uri())
    image = opened.locator("svg.photo image")
    box = image.bounding_box()
    assert box is not None
    assert box["width"] > 300
    assert opened.evaluate(
        """async () => { const one = new Image(); one.src = document.querySelector('svg.photo image').getAttribute('href');
        await one.decode(); return [one.naturalWidth, one.naturalHeight] }"""
    ) == [1280, 935]


def test_it_is_printed_within_its_margins(browser: Browser, files: dict[str, Path], tmp_path: Path) -> None:
    page = browser.new_page()
    for of, file in files.items():
        page.goto(file.as_uri())
        page.emulate_media(media="print")
        assert (
            page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
            == "rgb(255, 255, 255)"
        )
        for size in ("A4", "Letter"):
            assert page.pdf(format=size).startswith(b"%PDF"), of
    page.close()


def test_the_page_on_which_it_is_chosen(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading, size=PHONE)
    visitor.go("/share?of=joint:head&names=yes&n380=yes")
    assert "\n".join(violations(visitor)) == ""
    with visitor.page.expect_download() as saved:
        visitor.page.get_by_role("link", name="Save this page").click()
    assert saved.value.suggested_filename == "shared-joint-head.html"
    text = Path(saved.value.path()).read_text(encoding="utf-8")
    assert "lowered onto both dowels" in text
