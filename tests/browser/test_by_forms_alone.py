"""Without any script: every page is whole, and a small job is done by its forms alone.

Expected places are HAND: the invented job was stopped in stage 3 after bolt 3, so pull 26 of 50, bolt 4, is next
(docs/demo-engine.md tells the job).
"""

import re
from pathlib import Path

from playwright.sync_api import expect

from gudgeon.bench.context import open_bench
from tests.browser.conftest import Arrive
from tests.browser.visitor import Visitor
from tests.unit.book.photos import drawn, saved
from tools.chromium import PHONE
from tools.served import Served
from tools.walk import walk

DEAD = """() => [...document.querySelectorAll('button, input, select, textarea')].filter((one) =>
  one.checkVisibility() && (!one.form || (one.localName === 'button' && one.type !== 'submit') || one.disabled
    || (one.readOnly && one.type === 'text')))
  .map((one) => one.outerHTML.slice(0, 120))"""
"""What can be seen and does nothing without a script."""
MUTE = """() => [...document.querySelectorAll('form')].filter((one) =>
    ![...one.elements].some((field) => field.localName === 'button' && field.type === 'submit')
    && ![...one.querySelectorAll('select[required]')].some((field) => ![...field.options].some((offer) => offer.value)))
  .map((one) => one.action)"""
"""Forms that nothing sends; one with an empty list to choose from has nothing to send."""


def test_every_page_is_whole(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading, size=PHONE, scripts=False)
    found = []
    for address in walk(visitor.links, several=1):
        visitor.go(address)
        found += [f"{address}: {fault}" for fault in visitor.faults()]
        visitor.open_all()
        found += [f"{address}: does nothing: {one}" for one in visitor.page.evaluate(DEAD)]
        found += [f"{address}: nothing sends it: {one}" for one in visitor.page.evaluate(MUTE)]
    assert found == [], "\n".join(found)


def test_a_small_job(arrive: Arrive, served: Served, tmp_path: Path) -> None:
    visitor = arrive(served, size=PHONE, scripts=False)
    picture = tmp_path / "IMG_0301.JPG"
    picture.write_bytes(saved(drawn((400, 300)), "JPEG"))
    looks_and_pulls(visitor)
    reads_and_strikes(visitor)
    keeps_a_photo(visitor, picture)
    begins_a_task(visitor)
    closes_an_item(visitor)
    proves_a_hold(visitor, picture)
    done = [
        "looked",
        "pull",
        "reading",
        "strike",
        "photo",
        "task-started",
        "taken-out",
        "photo",
        "hold-proved",
    ]
    assert kinds(served)[-len(done) :] == done


def said(visitor: Visitor) -> str:
    """What the page says is in the book now."""
    words = visitor.page.get_by_role("status").filter(has_text="In the book:").first
    expect(words).to_be_visible()
    assert "\n".join(visitor.faults()) == ""
    return words.inner_text()


def looks_and_pulls(visitor: Visitor) -> None:
    """After the stop a look at the last pull, then the next one."""
    visitor.go("/")
    visitor.page.get_by_role("link", name="Back to where you stopped").click()
    visitor.look()
    pull = visitor.page.get_by_role("region", name="The next pull")
    expect(pull).to_contain_text("pull 26 of 50", ignore_case=True)
    visitor.fill("What does its scale show?", "25 N·m")
    pull.get_by_role("button", name=re.compile("clicked while turning", re.IGNORECASE)).click()
    expect(pull).to_contain_text("pull 27 of 50", ignore_case=True)
    assert "bolt 4" in said(visitor).lower()


def reads_and_strikes(visitor: Visitor) -> None:
    """A reading that was of another cylinder is struck, with the reason."""
    visitor.go("/good/top_ring_gap")
    visitor.choose("Where", "cylinder 1")
    visitor.fill("The thickest that enters", "0.30")
    visitor.fill("The thinnest that does not", "0.33")
    visitor.choose("Gauge", "feeler blades")
    visitor.press("Write it into the book")
    assert "cylinder 1, 0.30 mm enters" in said(visitor)
    visitor.page.get_by_role("link", name="That was wrong: strike it").click()
    visitor.fill("Why", "it was cylinder 2")
    visitor.press("Strike it")
    assert re.search(r"struck entry \d+: reading: End gap of the top ring, cylinder 1", said(visitor))


def keeps_a_photo(visitor: Visitor, picture: Path) -> None:
    """A photo from the folder of the phone."""
    visitor.go("/record/photo")
    visitor.page.get_by_role("main").get_by_label(re.compile(r"^\s*Photo")).set_input_files(picture)
    visitor.fill("What it shows, in a few words", "deck, cleaned")
    visitor.press("Write it into the book")
    assert "deck, cleaned" in said(visitor)


def begins_a_task(visitor: Visitor) -> None:
    """The first that may be begun."""
    visitor.go("/")
    visitor.page.get_by_role("main").get_by_role("link", name="Begin it").first.click()
    visitor.press("Begin it")
    said(visitor)


def closes_an_item(visitor: Visitor) -> None:
    """The first thing that was left in is taken out."""
    visitor.go("/open")
    place = visitor.page.locator("#left-in li").first
    name = place.locator("strong").inner_text()
    place.get_by_role("button").click()
    assert name.lower() in said(visitor).lower()
    expect(visitor.page.locator("#left-in li").filter(has_text=name)).to_have_count(0)


def proves_a_hold(visitor: Visitor, picture: Path) -> None:
    """By a photo."""
    visitor.go("/record/hold?hold=bolt_holes_dry&back=/start")
    visitor.page.get_by_role("main").get_by_label(re.compile(r"^\s*A photo that proves it")).set_input_files(
        picture
    )
    visitor.press("Write it into the book")
    assert "with photo" in said(visitor)


def kinds(server: Served) -> list[str]:
    """The kinds of all entries, in their order."""
    bench = open_bench(server.book)
    try:
        return [entry.kind for entry in bench.store.entries(bench.build)]
    finally:
        bench.store.close()
