"""Sums in a browser, at both sizes: found by word, filled in, worked out, and legible."""

import pytest

from tests.browser.conftest import Arrive
from tools.served import Served

ADDRESSES = (
    "/sums",
    "/sums?find=torque",
    "/sums/joint.assembly-preload",
    "/sums/metrology.flatness",
    "/sums/metrology.expanded-uncertainty",
    "/sums/joint.wrench-adapter?torque=95&wrench_length=400&adapter_length=50",
)


def test_the_pages_are_legible(reading: Served, arrive: Arrive, size: tuple[int, int]) -> None:
    visitor = arrive(reading, size=size)
    for address in ADDRESSES:
        visitor.go(address)
        assert visitor.faults() == [], address


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_sum_is_found_filled_in_and_worked_out(reading: Served, arrive: Arrive, scripts: bool) -> None:
    """PRINTED: TM 9-2350-261-20-1, page 2-29: T · L / (L + E) = 95 · 400 / 450 = 84.4 N·m."""
    visitor = arrive(reading, scripts=scripts)
    visitor.go("/sums")
    visitor.fill("Find a sum", "wrench adapter")
    visitor.press("Find")
    visitor.page.get_by_role("link", name="What to set on a torque wrench").click()
    for label, figure in (("Torque", "95"), ("Wrench length", "400"), ("Adapter length", "50")):
        visitor.fill(label, figure)
    visitor.press("Work it out")
    assert "84.4 N·m (62.3 lbf·ft)" in visitor.main()
    assert "torque=95" in visitor.page.url, "the address can be kept"


def test_what_is_folded_is_printed(reading: Served, arrive: Arrive) -> None:
    visitor = arrive(reading)
    visitor.go("/cut")
    table = visitor.page.locator("#does table")
    assert not table.is_visible()
    visitor.page.emulate_media(media="print")
    assert table.is_visible()
