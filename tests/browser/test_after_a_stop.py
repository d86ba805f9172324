"""The phone rang, the battery went: back to exactly where he stood, on any device, and first a look at the last pull.

Expected places are HAND: the invented job was stopped in stage 3 after bolt 3, which had its second dot there (stage 2 let
every bolt go and wiped the first one off, so one dot is left); bolt 4 is next, pull 26 of 50.
"""

import re

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Arrive
from tools.chromium import DESKTOP, PHONE
from tools.served import Served


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_back_to_the_same_card_and_first_a_look(arrive: Arrive, served: Served, scripts: bool) -> None:
    phone, desk = arrive(served, size=PHONE, scripts=scripts), arrive(served, size=DESKTOP, scripts=scripts)
    phone.go("/")
    words = phone.main()
    assert "You stopped" in words
    assert "In your hand" in words
    assert "the phone rang" in words
    phone.page.get_by_role("link", name="Back to where you stopped").click()
    expect(phone.page.get_by_role("heading", level=1)).to_contain_text("Cylinder head bolts")
    look = phone.page.get_by_role("region", name="Look first")
    expect(look).to_contain_text(re.compile("bolt 3", re.IGNORECASE))
    expect(look).to_contain_text("Look whether it carries its dot")
    pull = phone.page.get_by_role("region", name="The next pull")
    expect(pull).to_have_count(0)
    assert "\n".join(phone.faults()) == ""
    desk.go("/set/head")
    expect(desk.page.get_by_role("region", name="The next pull")).to_have_count(0)
    phone.look()
    expect(pull).to_contain_text("Pull 26 of 50")
    assert "\n".join(phone.faults()) == ""
    desk.go("/set/head")
    expect(desk.page.get_by_role("region", name="The next pull")).to_contain_text("Pull 26 of 50")
    # He stops at the desk, and finds the very same card on the phone.
    desk.page.get_by_text("I have to stop here").click()
    desk.fill("What is in your hand", "wrench at 25 N·m")
    desk.press("Write the stop down")
    expect(desk.page.get_by_text("In the book:")).to_be_visible()
    phone.go("/")
    back = phone.page.get_by_role("link", name="Back to where you stopped")
    assert back.get_attribute("href") == "/set/head#next"
    back.click()
    expect(phone.page.get_by_role("region", name="Look first")).to_be_visible()
