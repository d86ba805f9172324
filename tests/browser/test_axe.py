"""Every page, with everything unfolded, by the rules of an open program for accessible pages: no fault at all."""

from importlib.resources import files

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Arrive
from tests.browser.visitor import Visitor
from tools.chromium import PHONE
from tools.served import Served
from tools.walk import walk

AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8")
MORE = (
    "target-size",
    "color-contrast-enhanced",
    "css-orientation-lock",
    "table-fake-caption",
    "td-has-header",
)
"""Rules that are off by themselves. The others, with those called best practice, are all on; none is turned off."""
RUN = """more => axe.run(document, { rules: Object.fromEntries(more.map((name) => [name, { enabled: true }])) }).then(
  (said) => said.violations.map((rule) => [rule.id, rule.nodes.map((node) => node.html.slice(0, 120))]))"""


def violations(visitor: Visitor) -> list[str]:
    """Each rule that the page breaks, and where."""
    visitor.page.wait_for_load_state("load")
    visitor.open_all()
    # Through the debugging protocol: the policy of the pages takes no script but their own.
    visitor.page.evaluate(AXE)
    found: list[tuple[str, list[str]]] = visitor.page.evaluate(RUN, list(MORE))
    place = visitor.page.url.partition("://")[2].partition("/")[2]
    return [f"/{place}: {rule}: {where}" for rule, nodes in found for where in nodes]


def test_every_page(arrive: Arrive, reading: Served, size: tuple[int, int]) -> None:
    visitor = arrive(reading, size=size)
    found, number = [], 0
    for address in walk(visitor.links, several=1):
        visitor.go(address)
        found += violations(visitor)
        number += 1
    assert found == [], "\n".join(found)
    assert number > 60, "the walk ended early"


@pytest.mark.long
def test_many_pages_of_each_sort(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading, size=PHONE)
    found = []
    for address in walk(visitor.links, several=3):
        visitor.go(address)
        found += violations(visitor)
    assert found == [], "\n".join(found)


def test_to_look_at_only(arrive: Arrive, reading: Served, size: tuple[int, int]) -> None:
    """A browser that is not paired is told so, and what it may do."""
    visitor = arrive(reading, size=size, pair=False)
    for address in ("/", "/set/head", "/good/top_ring_gap", "/pair", "/nothing-here"):
        visitor.go(address)
        assert "\n".join(violations(visitor)) == ""


def test_what_a_page_says_after_it_was_written_to(arrive: Arrive, served: Served) -> None:
    """Look first; what was recorded; a reading that is refused, one that is judged; a pull in doubt; striking it."""
    visitor = arrive(served, size=PHONE)
    visitor.go("/set/head")
    assert "\n".join(violations(visitor)) == ""
    visitor.look()
    pull = visitor.page.get_by_role("region", name="The next pull")
    expect(pull).to_be_visible()
    assert "\n".join(violations(visitor)) == ""
    visitor.fill("What does its scale show?", "25 N·m")
    visitor.press("It clicked while turning")
    expect(visitor.page.get_by_role("status").filter(has_text="In the book:").first).to_be_visible()
    assert "\n".join(violations(visitor)) == ""
    far_off(visitor)
    in_doubt(visitor)


def far_off(visitor: Visitor) -> None:
    """A reading of a tenth is asked back; a reading beyond the wear limit is judged."""
    visitor.go("/good/top_ring_gap")
    visitor.choose("Where", "cylinder 1")
    visitor.fill("The thickest that enters", "30")
    visitor.fill("The thinnest that does not", "33")
    visitor.choose("Gauge", "feeler blades")
    visitor.press("Write it into the book")
    expect(visitor.page.get_by_role("alert")).to_contain_text("Nothing was recorded.")
    assert "\n".join(violations(visitor)) == ""
    visitor.fill("The thickest that enters", "0.90")
    visitor.fill("The thinnest that does not", "1.00")
    visitor.press("Write it into the book")
    expect(visitor.page.get_by_role("status").filter(has_text="Outside the wear limit").first).to_be_visible()
    assert "\n".join(violations(visitor)) == ""


def in_doubt(visitor: Visitor) -> None:
    """A pull that its writer is not sure of: no next one is offered; then it is struck."""
    visitor.go("/set/head")
    visitor.page.get_by_text("I am not sure of it").click()
    visitor.page.get_by_label("It turned softly").check()
    visitor.press("Write it down as doubtful")
    expect(visitor.page.get_by_text("In doubt, so no next pull is offered.")).to_be_visible()
    assert "\n".join(violations(visitor)) == ""
    visitor.page.get_by_role("main").get_by_role("link", name="Strike it").first.click()
    assert "\n".join(violations(visitor)) == ""
