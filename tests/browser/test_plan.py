"""“When will it run?” in a real browser: nothing cut off at either size, without a script, on paper; the bars as drawn."""

import re
import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.browser.conftest import Arrive
from tests.browser.test_print import READER, faults_of
from tests.browser.visitor import Visitor
from tools.chromium import DESKTOP, PHONE
from tools.served import Served

SMALLEST_PX = 12.0
"""The smallest letters that are read on a phone held at arm's length. Source: COMMON PRACTICE."""
PATIENCE_MS = 90_000


def opened(visitor: Visitor) -> None:
    """The page with its range: what takes longer is waited for, as somebody who looks at it does."""
    visitor.go("/when")
    visitor.page.get_by_role("heading", name="In which week").wait_for(timeout=PATIENCE_MS)
    visitor.page.wait_for_load_state("networkidle")


def unfolded(visitor: Visitor) -> None:
    """Open every part of the page."""
    for one in visitor.page.locator("details.fold").all():
        one.evaluate("one => one.open = true")


def test_nothing_is_cut_off(arrive: Arrive, reading: Served, size: tuple[int, int]) -> None:
    visitor = arrive(reading, size=size)
    visitor.go("/")
    visitor.ask("When will it run?")
    opened(visitor)
    assert visitor.faults() == []
    unfolded(visitor)
    assert visitor.faults() == []
    assert re.search(r"First start (on|between)\b", visitor.main())


@pytest.mark.parametrize(
    ("shown", "drawn"),
    [(PHONE, "/when/bars.svg"), (DESKTOP, "/when/bars-wide.svg")],
    ids=["phone", "desktop"],
)
def test_the_bars_fit_the_screen_and_can_be_read(
    arrive: Arrive, reading: Served, shown: tuple[int, int], drawn: str
) -> None:
    visitor = arrive(reading, size=shown)
    opened(visitor)
    bars = visitor.page.locator(".days img")
    assert bars.evaluate("one => new URL(one.currentSrc).pathname") == drawn
    width, natural = bars.evaluate("one => [one.getBoundingClientRect().width, one.naturalWidth]")
    # The letters of the drawing are 13 units high.
    assert 13 * width / natural >= SMALLEST_PX
    assert visitor.page.evaluate("() => document.documentElement.scrollWidth") <= shown[0]
    assert "First start" in str(bars.get_attribute("alt"))


def test_the_words_in_the_bars_do_not_meet(arrive: Arrive, reading: Served) -> None:
    """The letters as the browser sets them, not as the drawing takes them to be."""
    visitor = arrive(reading, size=DESKTOP)
    opened(visitor)
    met = """() => {
        const boxes = [...document.querySelectorAll('text')].map((one) => [one.textContent, one.getBBox()]);
        const root = document.documentElement.viewBox.baseVal;
        const found = [];
        boxes.forEach(([said, box], index) => {
            if (box.x < -1 || box.x + box.width > root.width + 1) found.push(`beyond the edge: ${said}`);
            for (const [other, one] of boxes.slice(index + 1)) {
                const across = Math.min(box.x + box.width, one.x + one.width) - Math.max(box.x, one.x);
                const down = Math.min(box.y + box.height, one.y + one.height) - Math.max(box.y, one.y);
                if (across > 1 && down > 0.35 * box.height) found.push(`${said} / ${other}`);
            }
        });
        return [boxes.length, found];
    }"""
    for name in ("bars", "bars-wide", "weeks"):
        visitor.page.goto(f"/when/{name}.svg")
        number, found = visitor.page.evaluate(met)
        assert number > 1
        assert found == [], name


def test_without_a_script_the_same_is_said(arrive: Arrive, reading: Served, size: tuple[int, int]) -> None:
    visitor = arrive(reading, size=size, scripts=False)
    opened(visitor)
    assert visitor.faults() == []
    visitor.page.get_by_text("What drives the date").click()
    assert visitor.page.get_by_text("The chain that leads to the date").is_visible()


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_is_printed(arrive: Arrive, reading: Served, tmp_path: Path, paper: str) -> None:
    if shutil.which(READER) is None:
        pytest.skip("Poppler's pdftotext is not installed.")
    visitor = arrive(reading, size=DESKTOP)
    opened(visitor)
    assert faults_of(visitor, paper=paper, folder=tmp_path) == []
    visitor.page.emulate_media(media="print")
    box = visitor.page.locator(".days")
    assert box.evaluate("one => getComputedStyle(one).backgroundColor") == "rgb(255, 255, 255)"
    visitor.page.emulate_media(media="screen")


def test_the_calendar_is_fetched(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading)
    opened(visitor)
    with visitor.page.expect_download() as fetched:
        visitor.page.get_by_role("link", name="Calendar file").click()
    assert fetched.value.suggested_filename == "engine.ics"
    assert Path(fetched.value.path()).read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


def test_another_day_is_written_and_the_plan_asked_anew(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    opened(visitor)
    first = visitor.page.locator("#next .lead").inner_text()
    visitor.page.get_by_role("link", name="Another day than usual").click()
    found = re.search(r"\w{3} (\w{3} \d\d)(?:, (\d{4}))?,", first)
    assert found is not None
    year = found[2] or datetime.now(UTC).astimezone().year  # another one is named
    day = f"{datetime.strptime(f'{found[1]} {year} +0000', '%b %d %Y %z'):%Y-%m-%d}"
    visitor.fill("Day", day)
    visitor.press("Write it into the book")
    visitor.page.wait_for_url(re.compile(r"/(when|under-way)\b"))
    opened(visitor)
    assert visitor.page.locator("#next .lead").inner_text().split(",")[0] != first.split(",")[0]
