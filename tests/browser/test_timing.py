"""A mark that stands off is asked about on a page, and the proof leads to the form that records it and back."""

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.timing.answer import timing
from tests.browser.conftest import Arrive
from tools.served import Served


def test_a_seen_offset_is_answered_as_in_the_terminal(
    arrive: Arrive, reading: Served, size: tuple[int, int]
) -> None:
    visitor = arrive(reading, size=size)
    visitor.go("/")
    visitor.ask("Is it timed?")
    visitor.page.get_by_text("A mark stands off?").click()
    visitor.fill("Which wheel, and how far", "intake: half a tooth left")
    visitor.press("What does that mean?")
    bench = open_bench(reading.book)
    try:
        one = timing(bench, seen_off=("intake: half a tooth left",)).seen[0]
    finally:
        bench.store.close()
    assert one.words[1:] in visitor.main()
    assert one.advice in visitor.main()
    assert visitor.typed("Which wheel, and how far") == "intake: half a tooth left"
    assert visitor.faults() == []


@pytest.mark.parametrize("picture", ["drive", "events"])
def test_the_pictures_are_there(arrive: Arrive, reading: Served, picture: str) -> None:
    visitor = arrive(reading)
    visitor.go("/timing")
    drawn = visitor.page.locator(f'img[src="/timing/{picture}.svg"]')
    assert drawn.evaluate("one => one.complete && one.naturalWidth") == 360
    assert drawn.get_attribute("alt")


def test_the_proof_leads_to_its_form_and_back(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading)
    visitor.go("/timing")
    links = [link for link in visitor.links() if link.startswith("/record/")]
    assert any("hold=locking_tools_out" in link for link in links)
    for link in links:
        assert visitor.go(link) == 200, link
