"""Several devices on one joint: each sees what the other wrote within two seconds, and nothing is reloaded under a hand.

The time is the one that the goal of the pages names. The invented job stands before pull 26 of 50 of the head (HAND).
"""

import re

from playwright.sync_api import expect

from tests.browser.conftest import Arrive
from tests.browser.visitor import LONG_ENOUGH_MS, Visitor
from tools.chromium import DESKTOP
from tools.served import Served

WITHIN_MS = 2000


def pull(visitor: Visitor, number: int, *, within: float = 10_000) -> None:
    """The next pull stands on the screen."""
    shown = visitor.page.get_by_role("region", name="The next pull")
    expect(shown).to_contain_text(re.compile(rf"pull {number} of 50", re.IGNORECASE), timeout=within)


def clicked(visitor: Visitor, *, read: bool = False) -> None:
    """Tap what is said after a pull that clicked while the bolt turned."""
    if read:
        visitor.fill("What does its scale show?", "25 N·m")
    visitor.page.get_by_role("button", name=re.compile("clicked while turning", re.IGNORECASE)).click()


def test_two_devices_see_each_others_pulls(arrive: Arrive, served: Served) -> None:
    phone, desk = arrive(served), arrive(served, size=DESKTOP)
    phone.go("/set/head")
    phone.look()
    desk.go("/set/head")
    pull(phone, 26)
    pull(desk, 26)
    clicked(phone, read=True)
    pull(phone, 27)
    expect(phone.page.get_by_text("In the book:")).to_be_visible()
    pull(desk, 27, within=WITHIN_MS)
    desk.page.wait_for_timeout(LONG_ENOUGH_MS)  # a second press within a second and a half is not counted
    clicked(desk)
    pull(desk, 28)
    expect(desk.page.get_by_text("In the book:")).to_be_visible()
    pull(phone, 28, within=WITHIN_MS)


def test_a_page_says_that_the_book_has_changed_and_loses_no_word(arrive: Arrive, served: Served) -> None:
    reader, writer = arrive(served, size=DESKTOP), arrive(served)
    reader.go("/record/note")
    note = reader.page.get_by_role("textbox").first
    note.fill("half a sentence")
    writer.go("/record/note")
    writer.fill("Note", "the dowel is back in")
    writer.press("Write it into the book")
    expect(writer.page.get_by_text("In the book:")).to_be_visible()
    moved = reader.page.locator("#moved")
    expect(moved).to_contain_text(
        re.compile(
            r"The book has changed since this page was made\. \S+ \(browser of .+\) recorded .*the dowel is back in"
        ),
        timeout=WITHIN_MS,
    )
    expect(note).to_have_value("half a sentence")
    assert "\n".join(reader.faults()) == ""
    moved.get_by_role("link", name="Show it as it is now").click()
    expect(moved).to_be_hidden()


def test_what_the_page_itself_wrote_is_no_news(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go("/good/part/Valves?condition=as+left&only=intake_valve_stem")
    cell = visitor.page.locator(".fill-group > .fill-rows input[data-cell]").first
    cell.fill("5.470")
    cell.press("Enter")
    expect(visitor.page.get_by_text("In the book.").first).to_be_visible()
    visitor.page.wait_for_timeout(2 * WITHIN_MS)
    expect(visitor.page.locator("#moved")).to_be_hidden()
