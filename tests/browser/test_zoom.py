"""Read at twice the size: the whole page twice as large, or its letters alone; nothing is lost either way.

Twice: PRINTED, Web Content Accessibility Guidelines 2.1, criteria 1.4.4 and 1.4.10. A screen that is zoomed to 200 %
lays a page out on half its width and half its height.
"""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from tests.browser.conftest import Arrive
from tests.browser.visitor import Visitor
from tools.chromium import DESKTOP, PHONE, flags, program
from tools.served import Served
from tools.walk import walk

LETTERS = "--blink-settings=defaultFontSize=32,defaultFixedFontSize=26"
"""What a reader sets who wants letters twice as large: the 16 and 13 dots of Chromium, doubled."""


def faults_of(visitor: Visitor, *, several: int) -> list[str]:
    """What is wrong with every page, with everything unfolded, as it is laid out."""
    found = []
    for address in walk(visitor.links, several=several):
        visitor.go(address)
        visitor.open_all()
        found += [f"{address}: {fault}" for fault in visitor.faults()]
    return found


def half(size: tuple[int, int]) -> tuple[int, int]:
    """What is left of a screen when everything on it is twice as large."""
    return size[0] // 2, size[1] // 2


def test_every_page_twice_as_large(arrive: Arrive, reading: Served, size: tuple[int, int]) -> None:
    found = faults_of(arrive(reading, size=half(size)), several=1)
    assert found == [], "\n".join(found)


@pytest.mark.long
@pytest.mark.parametrize("wide", [PHONE, DESKTOP], ids=["phone", "desktop"])
def test_many_pages_twice_as_large(arrive: Arrive, reading: Served, wide: tuple[int, int]) -> None:
    found = faults_of(arrive(reading, size=half(wide)), several=2)
    assert found == [], "\n".join(found)


@pytest.fixture(scope="module")
def large(browser: Browser) -> Iterator[Browser]:
    """A Chromium whose reader has set letters twice as large."""
    other = browser.browser_type.launch(executable_path=program(), args=[*flags(), LETTERS])
    yield other
    other.close()


def test_every_page_with_letters_twice_as_large(
    large: Browser, reading: Served, size: tuple[int, int]
) -> None:
    visitor = Visitor(large, server=reading, size=size, scripts=True)
    visitor.go("/")
    letters = "parseFloat(getComputedStyle(document.documentElement).fontSize)"
    assert visitor.page.evaluate(letters) == 36, "the pages follow what the reader has set"
    found = faults_of(visitor, several=1)
    assert [*found, *visitor.leave()] == [], "\n".join(found)
