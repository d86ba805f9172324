"""A gloved thumb on a phone: the next pull stands there without a swipe, and a table shows that it goes on."""

import re

import pytest
from playwright.sync_api import FloatRect, Locator, expect

from tests.browser.conftest import Arrive
from tests.browser.visitor import LONG_ENOUGH_MS, Visitor
from tools.chromium import PHONE
from tools.served import Served


def box_of(part: Locator) -> FloatRect:
    """Where a part stands on the screen."""
    box = part.bounding_box()
    assert box is not None
    return box


def in_sight(visitor: Visitor, *parts: Locator) -> None:
    """Each of these parts stands whole on what the screen shows, once the page has come."""
    visitor.page.wait_for_load_state("load")
    for part in parts:
        expect(part).to_be_in_viewport(ratio=0.99)


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_pull_after_pull_needs_no_swipe(
    arrive: Arrive, served: Served, size: tuple[int, int], scripts: bool
) -> None:
    """Ten pulls through stage 3 into a turn: bolt, figure and every answer are in view each time."""
    visitor = arrive(served, size=size, scripts=scripts)
    visitor.go("/set/head")
    visitor.look()
    pull = visitor.page.get_by_role("region", name="The next pull")
    for number in range(26, 34):
        if number == 31:
            visitor.page.get_by_role("link", name="The line is painted on every bolt").click()
        expect(pull).to_contain_text(re.compile(f"pull {number} of 50", re.IGNORECASE))
        if number > 26:
            said = visitor.page.locator("#told").get_by_role("status")
            in_sight(visitor, said)
            assert said.evaluate("it => it.offsetHeight") < 90  # at once: it leaves the screen by itself
            answers = pull.locator(".answers > button").all()
            assert len(answers) >= 1
            in_sight(visitor, pull.locator(".pull-where b"), pull.locator(".pull-figure"), *answers)
            expect(visitor.page.get_by_text("Look first.")).to_have_count(0)
        else:
            visitor.fill("What does its scale show?", "25 N·m")
        if scripts:
            visitor.page.wait_for_timeout(LONG_ENOUGH_MS)  # sooner it counts as the same press
        pull.locator(".answers > button").first.click()
    assert "\n".join(visitor.faults()) == ""


def test_every_stage_of_every_pull_is_in_sight(arrive: Arrive, reading: Served) -> None:
    """Five stages fit a phone; where a table is wider, it slides and its first column stays."""
    visitor = arrive(reading, size=PHONE)
    visitor.go("/set/head/whole")
    wide = visitor.page.get_by_role("region", name="Every pull, bolt by stage")
    assert wide.evaluate("it => it.scrollWidth <= it.clientWidth + 1")
    wide.evaluate("it => { it.firstElementChild.style.width = '900px'; it.scrollLeft = 300; }")
    first = wide.get_by_role("rowheader").first
    edge = wide.evaluate("it => it.getBoundingClientRect().left")
    assert box_of(first)["x"] == pytest.approx(edge, abs=1)


def test_the_verdict_stands_on_the_screen_after_a_reading(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served, size=PHONE)
    visitor.go("/good/top_ring_gap")
    visitor.choose("Where", "cylinder 2")
    visitor.fill("The thickest that enters", "0.90")
    visitor.fill("The thinnest that does not", "1.00")
    visitor.choose("Gauge", "feeler blades")
    visitor.press("Write it into the book")
    said = visitor.page.get_by_role("status")
    expect(said).to_contain_text(re.compile("outside", re.IGNORECASE))
    in_sight(visitor, said.locator(".judged"))
    assert "\n".join(visitor.faults()) == ""
