"""Every page of the invented job, found as a person finds it: by the links, from the first page on."""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from gudgeon.web.app import ADDRESSES

if TYPE_CHECKING:
    from playwright.sync_api import Page

NO_PAGE = (
    "/paper/", "/sheet/photo/", "/photos/", "/standing", "/pair", "/certificate", "/under-way/", "/out-of-reach",
    "/sw.js",
)  # fmt: skip
"""Addresses that answer with a print, a picture, a word for a script, a stranger, or while something is under way or
out of reach; tests of their own look there."""
PATTERNS = {
    one.path: re.compile("[^/]+".join(re.escape(part) for part in re.split(r"\{[^}]+\}", one.path)))
    for one in ADDRESSES
    if "GET" in one.methods
    and not one.path.startswith(NO_PAGE)
    and not one.path.endswith((".svg", ".ics", "/plan"))
}
WHOLE = ("/record/{name}", "/set/{joint}")
"""Pages that differ so much from one another that each is looked at."""
LINKS = "() => [...document.querySelectorAll('a[href]')].map(link => link.href.split('#')[0])"


def pattern_of(address: str) -> str:
    """Which address of the program answers there; empty when it is no page."""
    path = address.split("?")[0]
    return next((name for name, pattern in PATTERNS.items() if pattern.fullmatch(path)), "")


def walk(links: Callable[[], list[str]], *, several: int) -> Iterator[str]:
    """Follow the links from the first page: of pages alike, the first few; each page asked for once.

    Whoever takes an address has to open it before the next, so that `links` reads the page that is open.
    """
    waiting, known, seen = ["/"], {"/"}, Counter[str]()
    while waiting:
        address = waiting.pop(0)
        name = pattern_of(address)
        alike = address.split("?")[0] if name in WHOLE else name
        if not name or seen[alike] >= several:
            continue
        seen[alike] += 1
        yield address
        fresh = [link for link in links() if link not in known]
        known.update(fresh)
        waiting += fresh


def links_of(page: "Page", *, server: str) -> list[str]:
    """Where the links of the page that is open lead on that server, without what follows a #."""
    found: list[str] = page.evaluate(LINKS)
    return sorted({address.removeprefix(server) or "/" for address in found if address.startswith(server)})
