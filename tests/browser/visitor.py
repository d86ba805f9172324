"""Somebody with a browser: what he sees, what he taps, and whatever went wrong meanwhile."""

import re
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Locator, Page, Request, Response

from tools.served import Served

LOOK = Path(__file__).with_name("look.js").read_text("utf-8")
CONTRAST = 7.0
"""Ratio of text to its background. Source: PRINTED, Web Content Accessibility Guidelines 2.1, criterion 1.4.6."""
THUMB_PX = 60
"""What a gloved thumb hits: the height that the design asks for at the bench."""
FINGER_PX = 44
"""Away from the bench. Source: PRINTED, Web Content Accessibility Guidelines 2.1, criterion 2.5.5."""
AT_A_DESK = ("/sheet", "/kit")
"""Pages on which a manual is copied out, with clean hands."""


class Visitor:
    """One browser of its own, with its own memory, on the pages of one server."""

    def __init__(self, browser: Browser, *, server: Served, size: tuple[int, int], scripts: bool) -> None:
        self._server, self._width = server, size[0]
        self._context = browser.new_context(
            viewport={"width": size[0], "height": size[1]},
            base_url=server.address,
            java_script_enabled=scripts,
            locale="en-US",
            accept_downloads=True,
        )
        self._context.set_default_timeout(10_000)
        self._troubles: list[str] = []
        self._context.on("request", self._requested)
        self._context.on("response", self._answered)
        self.page: Page = self._context.new_page()
        self.page.on("console", lambda said: self._said(said.type, said.text))
        self.page.on("pageerror", lambda error: self._said("error", str(error)))

    def _requested(self, request: Request) -> None:
        address = urlsplit(request.url)
        if address.scheme not in ("http", "data") or (
            address.scheme == "http" and address.hostname != "127.0.0.1"
        ):
            self._troubles.append(f"asked for {request.url}")

    def _answered(self, answer: Response) -> None:
        # A page that refuses is an answer; a style or a picture that is not there is a fault.
        if answer.status >= 500 or (answer.status >= 400 and answer.request.resource_type != "document"):
            self._troubles.append(f"{answer.url} was answered with {answer.status}")

    def _said(self, kind: str, text: str) -> None:
        if kind in ("error", "warning") and not text.startswith("Failed to load resource"):
            self._troubles.append(f"{self.page.url}: {kind}: {text}")

    def go(self, address: str) -> int:
        """Open an address; what the server answered as a number."""
        answer = self.page.goto(address)
        return answer.status if answer else 0

    def text(self) -> str:
        """All words of the page that can be seen."""
        return self.page.locator("body").inner_text()

    def main(self) -> str:
        """The words of the answer itself."""
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
        """Tap the first button of that name in the answer."""
        self.page.get_by_role("main").get_by_role("button", name=name).first.click()

    def look(self) -> None:
        """After a stop: look at the last pull, and write down that it is as recorded."""
        self.fill("What do you see?", "two dots on its head")
        self.press("It is as recorded")

    def _field(self, label: str) -> Locator:
        return self.page.get_by_role("main").get_by_label(re.compile(rf"^\s*{re.escape(label)}")).first

    def faults(self) -> list[str]:
        """What is wrong with the page as it is laid out at this size."""
        self.page.wait_for_load_state("load")
        thumb = FINGER_PX if urlsplit(self.page.url).path.startswith(AT_A_DESK) else THUMB_PX
        found: list[str] = self.page.evaluate(
            LOOK, {"most": self._width, "contrast": CONTRAST, "thumb": thumb}
        )
        return found

    def links(self) -> list[str]:
        """Where the links of the page lead, without what follows a #."""
        found: list[str] = self.page.evaluate(
            "() => [...document.querySelectorAll('a[href]')].map(link => link.href.split('#')[0])"
        )
        own = self._server.address
        return sorted({address.removeprefix(own) or "/" for address in found if address.startswith(own)})

    def outside(self) -> list[str]:
        """Links that lead away from this machine."""
        found: list[str] = self.page.evaluate(
            "() => [...document.querySelectorAll('[href], [src], [action]')]"
            ".map(one => one.href || one.src || one.action)"
        )
        return [address for address in found if not str(address).startswith(self._server.address)]

    def leave(self) -> list[str]:
        """Close the browser; every trouble there was."""
        self._context.close()
        return self._troubles
