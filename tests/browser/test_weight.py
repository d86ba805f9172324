"""How much of a page goes over the air to a phone that has nothing of it yet.

Measured as Chromium counts it: bytes of the answers as they were sent, heads included. Photos are left out, as each is
as large as it was taken; so are prints.
"""

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, CDPSession, Page

from tools.chromium import PHONE
from tools.served import Served
from tools.walk import links_of, walk

MOST_BYTES = 150_000
"""What the design grants a page at the bench: about a second on a weak cell connection of 1.2 Mbit/s."""


class Scales:
    """Everything that one page fetches, weighed."""

    def __init__(self, page: Page) -> None:
        self._names: dict[str, str] = {}
        self.weights: dict[str, int] = {}
        line: CDPSession = page.context.new_cdp_session(page)
        line.send("Network.enable")
        line.send("Network.setCacheDisabled", {"cacheDisabled": True})
        line.on("Network.responseReceived", self._named)
        line.on("Network.loadingFinished", self._weighed)

    def _named(self, said: dict[str, Any]) -> None:
        self._names[said["requestId"]] = said["response"]["url"]

    def _weighed(self, said: dict[str, Any]) -> None:
        name = self._names.get(said["requestId"], "")
        if name.startswith("http") and "/photos/" not in name and "/sheet/photo/" not in name:
            self.weights[name] = int(said["encodedDataLength"])

    def of(self, page: Page, address: str) -> int:
        """The bytes of one page with all that belongs to it."""
        self.weights.clear()
        page.goto(address, wait_until="networkidle")
        return sum(self.weights.values())


@pytest.fixture
def page(browser: Browser, reading: Served) -> Iterator[Page]:
    """A phone that keeps nothing."""
    context = browser.new_context(
        viewport={"width": PHONE[0], "height": PHONE[1]}, base_url=reading.address, service_workers="block"
    )
    one = context.new_page()
    one.goto(reading.invitation())
    yield one
    context.close()


def test_the_first_page_and_the_pull(page: Page) -> None:
    scales = Scales(page)
    for address in ("/", "/set/head", "/open", "/good", "/record"):
        weight = scales.of(page, address)
        assert len(scales.weights) >= 3, "the page, its style and its script"
        assert 5_000 < weight <= MOST_BYTES, f"{address}: {scales.weights}"


@pytest.mark.long
def test_every_page(page: Page, reading: Served) -> None:
    scales = Scales(page)
    heavy = {
        address: weight
        for address in walk(lambda: links_of(page, server=reading.address), several=2)
        if (weight := scales.of(page, address)) > MOST_BYTES
    }
    assert heavy == {}


def test_what_is_sent_is_packed_once(page: Page, reading: Served) -> None:
    """Text is packed; a print or a picture, which is packed already, is sent as it is."""
    ask = page.request
    for address in ("/", "/open"):
        assert ask.get(address).headers["content-encoding"] == "gzip"
        plain = ask.get(address, headers={"Accept-Encoding": "identity"})
        assert "content-encoding" not in plain.headers
    card = ask.get("/paper/card/head.pdf?size=a4")
    assert card.headers["content-type"] == "application/pdf"
    assert "content-encoding" not in card.headers
