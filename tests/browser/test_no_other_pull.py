"""What the screen at the wrench may never show: the pull of another book, or one that is done.

Expected places are HAND: the invented job stands before pull 26 of 50; the small job's head has 4 nuts, 16 pulls.
"""

from datetime import UTC, datetime, timedelta
from pathlib import Path

from playwright.sync_api import expect

from tests.browser.conftest import Arrive
from tests.browser.test_hands_free import at_the_pull, press, pull, read_scale
from tests.browser.visitor import LONG_ENOUGH_MS
from tests.unit.bench.benches import make_job
from tools.served import Served

KEPT_BEFORE = """
const asked = window.fetch;
window.fetch = async (address, ...more) => {
  const kept = localStorage.getItem("kept before");
  if (!kept || !String(address).includes("/plan")) return asked(address, ...more);
  if (kept === "none") throw new TypeError("out of reach");
  const headers = { "Content-Type": "application/json", "Gudgeon-Kept": localStorage.getItem("kept at") };
  return new Response(kept, { headers });
};
"""
"""What a browser kept for when the book is out of reach is outside of the page: here it is a plan from before."""


def test_the_pull_of_another_engine_is_never_shown(arrive: Arrive, served: Served, tmp_path: Path) -> None:
    """Another book is opened on the laptop while the phone lies at the engine with its page open."""
    visitor = at_the_pull(arrive, served)
    page = visitor.page
    read_scale(page)
    served.kill()
    other = make_job(tmp_path)
    other.read_code()
    with Served(other.book, port=served.port):
        press(page, "PageDown")
        expect(page.locator("#told")).to_contain_text("This form belongs to another book", timeout=20_000)
        page.wait_for_load_state("networkidle")
        expect(pull(visitor)).to_contain_text("of 50")
        expect(pull(visitor)).not_to_contain_text("of 16")
        expect(page.locator("#moved")).to_contain_text("The book that is open now is another one")
        assert other.bench().state.joints.get("head") is None


def test_a_plan_from_before_does_not_lead_back(arrive: Arrive, served: Served) -> None:
    """The page still came over the air, its plan did not: a bolt that another device has turned is not turned twice."""
    phone, other = at_the_pull(arrive, served), arrive(served)
    page = phone.page
    page.add_init_script(KEPT_BEFORE)
    before = page.evaluate("fetch('/set/head/plan').then((answer) => answer.text())")
    at = datetime.now(UTC) - timedelta(seconds=1)
    other.go("/set/head")
    other.fill("What does its scale show?", "25 N·m")
    pull(other).locator(".main").click()
    expect(pull(other)).to_contain_text("Pull 27 of 50")
    expect(other.page.locator("#told")).to_contain_text("In the book")  # the next pull is shown before that
    kept = {"kept before": before, "kept at": at.isoformat().replace("+00:00", "Z")}
    page.evaluate("(kept) => Object.entries(kept).forEach((one) => localStorage.setItem(...one))", kept)
    page.reload()
    page.wait_for_load_state("networkidle")
    expect(pull(phone)).to_contain_text("Pull 27 of 50")
    expect(pull(phone)).to_contain_text("Bolt 10")


def test_a_pull_that_waits_is_not_shown_again_where_the_plan_is_missing(
    arrive: Arrive, served: Served
) -> None:
    visitor = at_the_pull(arrive, served)
    page = visitor.page
    page.add_init_script(KEPT_BEFORE)
    page.route("**/record/**", lambda route: route.abort())
    read_scale(page)
    press(page, "PageDown")
    expect(pull(visitor)).to_contain_text("Pull 27 of 50")
    page.evaluate("localStorage.setItem('kept before', 'none')")
    page.reload()
    expect(page.get_by_role("region", name="The book is asked")).to_contain_text("Bolt 4")
    page.evaluate("localStorage.removeItem('kept before')")
    page.unroute("**/record/**")
    expect(pull(visitor)).to_contain_text("Pull 27 of 50", timeout=20_000)


def test_a_unit_that_the_book_does_not_take_is_not_gone_on_from(arrive: Arrive, served: Served) -> None:
    """`nm` is no torque: out of reach the screen waits for the book instead of going on without a reading."""
    visitor = at_the_pull(arrive, served)
    page = visitor.page
    page.route("**/record/**", lambda route: route.abort())
    page.keyboard.press("PageDown")
    page.keyboard.type("25 nm")
    page.keyboard.press("Enter")
    page.wait_for_timeout(LONG_ENOUGH_MS)
    press(page, "PageDown")
    expect(page.get_by_role("region", name="The book is asked")).to_be_visible()
    page.unroute("**/record/**")
    expect(page.locator("#told")).to_contain_text(
        "`nm` is not how a unit of torque is written", timeout=20_000
    )
    expect(pull(visitor)).to_contain_text("Pull 26 of 50")
