"""Somebody with a browser: what he sees, what he taps, and whatever went wrong meanwhile."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Locator, Page, Request, Response, expect

from tools.served import Served
from tools.walk import links_of

LOOK = Path(__file__).with_name("look.js").read_text("utf-8")
CONTRAST = 7.0
"""Ratio of text to its background. Source: PRINTED, Web Content Accessibility Guidelines 2.1, criterion 1.4.6."""
THUMB_PX = 60
"""What a gloved thumb hits: the height that the design asks for at the bench."""
FINGER_PX = 44
"""Away from the bench. Source: PRINTED, Web Content Accessibility Guidelines 2.1, criterion 2.5.5."""
UNDER_WAY, LONG_MS = "/under-way/", 180_000
"""Where work is seen on its way, and how long a test waits for it."""
PATIENCE_MS = 20_000
"""How long anything else may take before a test gives it up: a ceiling for a busy machine. What has to be there within
a time says so itself.
"""
LONG_ENOUGH_MS = 1600
"""After this another tap is one more. A page leaves out what comes within a second and a half."""
STANDING_CLOCK = """(() => {
    const really = Date.now.bind(Date);
    Date.now = () => Number(sessionStorage.getItem("at once")) || really();
})()"""
AT_A_DESK = ("/sheet", "/kit", "/sums", "/devices", "/pair")
"""Pages on which a manual is copied out, with clean hands."""

expect.set_options(timeout=PATIENCE_MS)


class Visitor:
    """One browser of its own, with its own memory, on the pages of one server."""

    def __init__(
        self,
        browser: Browser,
        *,
        server: Served,
        size: tuple[int, int],
        scripts: bool,
        pair: bool = True,
        keeps: bool = True,
    ) -> None:
        self._server = server
        self._context = browser.new_context(
            viewport={"width": size[0], "height": size[1]},
            base_url=server.address,
            java_script_enabled=scripts,
            locale="en-US",
            accept_downloads=True,
            service_workers="allow" if keeps else "block",
        )
        self._scripts, self._refusals = scripts, {422}
        self._context.set_default_timeout(PATIENCE_MS)
        self._troubles: list[str] = []
        self._context.on("request", self._requested)
        self._context.on("response", self._answered)
        self.page: Page = self._context.new_page()
        self.page.on("console", lambda said: self._said(said.type, said.text))
        self.page.on("pageerror", lambda error: self._said("error", str(error)))
        if pair:
            self.page.goto(server.invitation())

    def _requested(self, request: Request) -> None:
        address = urlsplit(request.url)
        if address.scheme not in ("http", "data") or (
            address.scheme == "http" and address.hostname != "127.0.0.1"
        ):
            self._troubles.append(f"asked for {request.url}")

    def _answered(self, answer: Response) -> None:
        # A page that refuses is an answer, and so is an entry that is refused; what is not there is a fault.
        sent = answer.request.method == "POST" and answer.status in self._refusals
        refused = (
            sent
            or answer.request.resource_type == "document"
            or answer.request.service_worker is not None  # which asks for the page in its stead
            or answer.status in self._refusals - {422}
        )
        if answer.status >= 500 or (answer.status >= 400 and not refused):
            self._troubles.append(f"{answer.url} was answered with {answer.status}")

    def _said(self, kind: str, text: str) -> None:
        told = ("Failed to load resource", "Service Worker registration blocked by Playwright")
        if kind in ("error", "warning") and not text.startswith(told):
            self._troubles.append(f"{self.page.url}: {kind}: {text}")

    def expects(self, status: int) -> None:
        """This one is going to be refused so, and it is no fault: a device that was taken off the list."""
        self._refusals.add(status)

    @contextmanager
    def out_of_reach(self) -> Iterator[None]:
        """While the block lasts nothing of this browser reaches the book."""
        self._context.set_offline(True)
        try:
            yield
        finally:
            self._context.set_offline(False)

    def settled(self) -> None:
        """Wait until no form is on its way any more."""
        if self._scripts:
            self.page.wait_for_function("() => !document.querySelector('form[data-sent]')")

    def go(self, address: str) -> int:
        """Open an address, and wait for an answer that takes long; what the server answered as a number."""
        answer = self.page.goto(address)
        if UNDER_WAY in self.page.url and UNDER_WAY not in address:
            self.page.wait_for_url(lambda url: UNDER_WAY not in url, timeout=LONG_MS)
        if UNDER_WAY not in address:  # a part of the page may be worked out still; then the page comes anew
            self.page.locator("#work").wait_for(state="detached", timeout=LONG_MS)
        return answer.status if answer else 0

    def text(self) -> str:
        """All words of the page that can be seen."""
        self.settled()
        return self.page.locator("body").inner_text()

    def main(self) -> str:
        """The words of the answer itself."""
        self.settled()
        return self.page.get_by_role("main").inner_text()

    def ask(self, question: str) -> None:
        """Go to one of the questions as a person does: on a phone they are behind one word."""
        menu = self.page.get_by_text("All questions")
        if menu.is_visible():
            menu.click()
        self.page.get_by_role("navigation").get_by_role("link", name=question).first.click()

    def fill(self, label: str, text: str) -> None:
        """Type into the first field of that name."""
        self._field(label).fill(text)

    def choose(self, label: str, words: str) -> None:
        """Choose what begins with these words: what follows them may be what the book already says."""
        field = self._field(label)
        offered = [option.inner_text().strip() for option in field.get_by_role("option").all()]
        field.select_option(label=next(one for one in offered if one.startswith(words)))

    def typed(self, label: str) -> str:
        """What stands in a field."""
        return self._field(label).input_value()

    def press(self, name: str) -> None:
        """Tap the first button of that name in the answer, and wait until what it sends has arrived."""
        self.page.get_by_role("main").get_by_role("button", name=name).first.click()
        self.settled()

    def look(self) -> None:
        """After a stop: look at the last pull, and write down that it is as recorded."""
        self.fill("What do you see?", "two dots on its head")
        self.press("It is as recorded")
        self.page.get_by_role("region", name="Look first").wait_for(state="hidden")
        if self._scripts:
            self.page.wait_for_timeout(LONG_ENOUGH_MS)

    @contextmanager
    def at_once(self) -> Iterator[None]:
        """What is tapped in the block comes within a moment, however slow the machine is: its pages read one hour."""
        self.page.add_init_script(STANDING_CLOCK)
        self.page.evaluate(STANDING_CLOCK)
        self.page.evaluate("sessionStorage.setItem('at once', Date.now())")
        yield
        self.page.evaluate("sessionStorage.removeItem('at once')")

    def _field(self, label: str) -> Locator:
        return self.page.get_by_role("main").get_by_label(re.compile(rf"^\s*{re.escape(label)}")).first

    def _width(self) -> int:
        size = self.page.viewport_size
        assert size is not None
        return size["width"]

    def faults(self) -> list[str]:
        """What is wrong with the page as it is laid out at this size."""
        self.settled()
        self.page.wait_for_load_state("load")
        thumb = FINGER_PX if urlsplit(self.page.url).path.startswith(AT_A_DESK) else THUMB_PX
        found: list[str] = self.page.evaluate(
            LOOK, {"most": self._width(), "contrast": CONTRAST, "thumb": thumb, "finger": FINGER_PX}
        )
        return found

    def links(self) -> list[str]:
        """Where the links of the page lead, without what follows a #."""
        return links_of(self.page, server=self._server.address)

    def outside(self) -> list[str]:
        """Links that lead away from this machine."""
        found: list[str] = self.page.evaluate(
            "() => [...document.querySelectorAll('[href], [src], [action]')]"
            ".map(one => one.href || one.src || one.action)"
        )
        return [address for address in found if not str(address).startswith(self._server.address)]

    def open_all(self) -> None:
        """Open everything that is folded away."""
        self.page.evaluate("() => document.querySelectorAll('details').forEach(one => { one.open = true; })")

    def restyle(self, rules: str) -> None:
        """Put rules of style over those of the page, past its policy."""
        self.page.evaluate(
            "rules => { const sheet = new CSSStyleSheet(); sheet.replaceSync(rules);"
            " document.adoptedStyleSheets = [sheet]; }",
            rules,
        )

    def leave(self) -> list[str]:
        """Close the browser; every trouble there was."""
        self._context.close()
        return self._troubles

    def again(self) -> Page:
        """Another page of the same browser."""
        page = self._context.new_page()
        page.on("pageerror", lambda error: self._troubles.append(f"{page.url}: {error}"))
        return page
