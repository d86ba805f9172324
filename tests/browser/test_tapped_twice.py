"""A tap or a press that bounces: what the page writes that comes of the first one is not written by the second.

Expected counts are HAND: ten openings of the invented job are plugged, and it stands before pull 26 of 50.
"""

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import Arrive
from tests.browser.test_hands_free import at_the_pull, pull, read_scale
from tests.browser.visitor import LONG_ENOUGH_MS
from tools.served import Served

TOO_SOON = "A second tap within a second and a half is not counted."


def spot(one: Locator) -> tuple[float, float]:
    """Where a finger hits it."""
    one.scroll_into_view_if_needed()
    box = one.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def out(page: Page) -> Locator:
    return page.get_by_role("button", name="Take the plug out")


def test_a_second_tap_takes_no_second_plug_out(arrive: Arrive, served: Served) -> None:
    """The list is shorter by then, and the button of the next opening stands where the first one stood."""
    visitor = arrive(served)
    page = visitor.page
    page.goto("/open")
    expect(out(page)).to_have_count(10)
    with visitor.at_once():
        at = spot(out(page).first)
        page.mouse.click(*at)
        page.wait_for_url("**recorded=**")
        expect(out(page)).to_have_count(9)
        page.mouse.click(*at)
        expect(page.get_by_text(TOO_SOON)).to_be_visible()
    page.wait_for_timeout(LONG_ENOUGH_MS)
    expect(out(page)).to_have_count(9)
    with visitor.at_once():  # later it counts, and so does a tap elsewhere at once
        page.mouse.click(*spot(out(page).first))
        expect(out(page)).to_have_count(8)
        left, top = spot(out(page).last)
        aside = 100 if top < 400 else -100
        page.evaluate("by => window.scrollBy(0, by)", -aside)
        page.mouse.click(left, top + aside)
        expect(out(page)).to_have_count(7)


@pytest.mark.parametrize("way", ["tap", "key"])
def test_what_leads_to_the_wrench_is_no_answer_there(arrive: Arrive, served: Served, way: str) -> None:
    visitor = at_the_pull(arrive, served)
    page = visitor.page
    read_scale(page)
    pull(visitor).locator(".main").click()  # the first one of the stage: the others need no scale
    expect(pull(visitor)).to_contain_text("Pull 27 of 50")
    page.wait_for_timeout(LONG_ENOUGH_MS)
    at = spot(pull(visitor).locator(".main"))
    page.goto("/set/head/whole")
    link = page.get_by_role("link", name="The next pull")
    with visitor.at_once():
        if way == "tap":
            # The button of the one page lies where the answer of the other will.
            left, top = spot(link)
            page.evaluate("by => window.scrollBy(0, by)", top - at[1])
            left, top = spot(link)
            page.mouse.click(left, top)
        else:
            link.focus()
            page.keyboard.press("Enter")
        page.wait_for_url("**/set/head#next")
        answer = pull(visitor).locator(".main")
        expect(answer).to_be_visible()
        if way == "tap":
            page.evaluate("by => window.scrollBy(0, by)", spot(answer)[1] - top)
            page.mouse.click(left, top)
        else:
            page.keyboard.press("Enter")
        expect(page.locator("#hands")).to_contain_text("not counted")
    expect(pull(visitor)).to_contain_text("Pull 27 of 50")
