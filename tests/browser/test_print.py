"""A page on paper, in the two sizes that printers hold: its words within the margins, nothing to tap, and what it is of.

Where words stand on the paper is read by a program of its own (pdftotext of Poppler), not by the browser that printed.
"""

import re
import shutil
import subprocess
from dataclasses import dataclass
from html import unescape
from pathlib import Path

import pytest

from gudgeon.bench.answer import NOTICE, RULES
from tests.browser.conftest import Arrive
from tests.browser.visitor import Visitor
from tools.chromium import DESKTOP
from tools.served import Served
from tools.walk import walk

POINTS = {"A4": (595.3, 841.9), "Letter": (612.0, 792.0)}
"""Width and height of a sheet at 72 to the inch. Source: HAND, from 210 by 297 mm and 8.5 by 11 in."""
MARGIN = 10 / 25.4 * 72 - 2
"""At the sides the pages ask for 10 mm; a letter may reach 2 points into it."""
READER = "pdftotext"
TO_TAP = ("button", "a.button", "nav", ".menu summary", "input:not([type=hidden])", "select", "textarea")


@dataclass(frozen=True, slots=True)
class Word:
    """A word on a sheet of paper, and how far its box reaches."""

    sheet: int
    text: str
    left: float
    right: float


def printed(visitor: Visitor, *, paper: str, folder: Path) -> list[Word]:
    """Every word of the page that is open, as it stands on paper."""
    file = folder / "page.pdf"
    visitor.page.pdf(path=str(file), format=paper, prefer_css_page_size=False)
    said = subprocess.run(
        [READER, "-bbox", str(file), "-"], check=True, capture_output=True, encoding="utf-8"
    )
    words = []
    for sheet, part in enumerate(said.stdout.split("<page ")[1:], start=1):
        width = float(re.findall(r'width="([\d.]+)"', part)[0])
        assert width == pytest.approx(POINTS[paper][0], abs=1)
        for left, right, text in re.findall(
            r'<word xMin="([\d.-]+)".*?xMax="([\d.-]+)".*?>(.*?)</word>', part
        ):
            words.append(Word(sheet, unescape(text), float(left), float(right)))
    return words


def plain(text: str) -> str:
    """Words with one space between them, without what is set in capitals."""
    return " ".join(text.split()).casefold()


def beyond(words: list[Word], *, width: float) -> list[str]:
    """The words that reach beyond the margin."""
    return [
        f"beyond the margin of sheet {one.sheet}: {one.text}"
        for one in words
        if one.left < MARGIN or one.right > width - MARGIN
    ]


def faults_of(visitor: Visitor, *, paper: str, folder: Path) -> list[str]:
    """What is wrong with the print of the page that is open."""
    words = printed(visitor, paper=paper, folder=folder)
    width = POINTS[paper][0]
    found = beyond(words, width=width)
    text = plain(" ".join(word.text for word in words))
    title = visitor.page.get_by_role("heading", level=1).inner_text()
    musts = (NOTICE, RULES, "build: demo", title)
    found += [f"it does not say: {must}" for must in musts if plain(must) not in text]
    visitor.page.emulate_media(media="print")
    found += [
        f"something to tap on paper: {tap}"
        for tap in TO_TAP
        if any(one.is_visible() for one in visitor.page.locator(tap).all())
    ]
    visitor.page.emulate_media(media="screen")
    return found


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("address", ["/", "/set/head", "/good?whole=yes", "/sheet", "/open", "/kit"])
def test_a_page_on_paper(arrive: Arrive, reading: Served, tmp_path: Path, paper: str, address: str) -> None:
    if shutil.which(READER) is None:
        pytest.skip("Poppler's pdftotext is not installed.")
    visitor = arrive(reading, size=DESKTOP)
    visitor.go(address)
    assert faults_of(visitor, paper=paper, folder=tmp_path) == []


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no script"])
def test_what_is_closed_is_printed(arrive: Arrive, reading: Served, tmp_path: Path, scripts: bool) -> None:
    if shutil.which(READER) is None:
        pytest.skip("Poppler's pdftotext is not installed.")
    visitor = arrive(reading, size=DESKTOP, scripts=scripts)
    visitor.go("/sheet")
    assert not visitor.page.get_by_text("132.30 mm (5.2087 in)").first.is_visible()
    text = plain(" ".join(one.text for one in printed(visitor, paper="A4", folder=tmp_path)))
    assert "132.30 mm (5.2087 in)" in text


@pytest.mark.parametrize("address", ["/sheet", "/cut"])
def test_what_is_closed_is_opened_for_the_printer_and_closed_again(
    arrive: Arrive, reading: Served, address: str
) -> None:
    visitor = arrive(reading, size=DESKTOP)
    visitor.go(address)
    page = visitor.page
    closed = (
        "() => [...document.querySelectorAll('details.fold, details.part')].filter((one) => !one.open).length"
    )
    menu = "() => document.querySelector('details.menu').open"
    before = page.evaluate(closed)
    assert before >= 3
    page.evaluate("() => window.dispatchEvent(new Event('beforeprint'))")
    assert (page.evaluate(closed), page.evaluate(menu)) == (0, False)
    page.evaluate("() => window.dispatchEvent(new Event('afterprint'))")
    assert page.evaluate(closed) == before


@pytest.mark.long
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_page_on_paper(arrive: Arrive, reading: Served, tmp_path: Path, paper: str) -> None:
    if shutil.which(READER) is None:
        pytest.skip("Poppler's pdftotext is not installed.")
    visitor = arrive(reading, size=DESKTOP)
    found = []
    for address in walk(visitor.links, several=1):
        visitor.go(address)
        found += [f"{address}: {fault}" for fault in faults_of(visitor, paper=paper, folder=tmp_path)]
    assert found == [], "\n".join(found)


def test_such_a_fault_is_found(arrive: Arrive, reading: Served, tmp_path: Path) -> None:
    """The checks can fail: for a word beyond the edge of a sheet, and for a button that is printed."""
    assert beyond([Word(1, "edge", 500.0, 590.0)], width=POINTS["A4"][0]) == [
        "beyond the margin of sheet 1: edge"
    ]
    if shutil.which(READER) is None:
        pytest.skip("Poppler's pdftotext is not installed.")
    visitor = arrive(reading, size=DESKTOP)
    visitor.go("/")
    visitor.restyle(".buttons, .button { display: flex !important; }")
    assert "something to tap on paper: a.button" in faults_of(visitor, paper="A4", folder=tmp_path)
