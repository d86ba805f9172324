"""Takes a picture of every page, at both sizes and on paper, and of the states in which a page says something else.

Run: python3 do.py screenshots --all FOLDER
"""

import html
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from tools.chromium import DESKTOP, PHONE, NoChromium, running
from tools.fixed_hour import HOUR, stop_the_clock
from tools.served import Served
from tools.walk import links_of, walk

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

SIZES = {"phone": PHONE, "desktop": DESKTOP}
ON_PAPER = ("/", "/set/head", "/good?whole=yes", "/open", "/sheet", "/kit")
PRINT_DOTS = 80  # to the inch: enough to see whether a line is cut off


def name_of(address: str) -> str:
    """The address as the name of a file."""
    return re.sub(r"[^A-Za-z0-9]+", "-", address.split("#")[0]).strip("-")[:80] or "now"


@dataclass(slots=True)
class Album:
    """The folder of pictures, and what is in it in the order it was taken."""

    folder: Path
    taken: list[tuple[str, str]] = field(default_factory=list)

    def take(self, page: "Page", *, name: str, words: str) -> None:
        """The whole page that is open, however long."""
        page.wait_for_load_state("load")
        page.screenshot(path=str(self.folder / f"{name}.png"), full_page=True)
        self.taken.append((f"{name}.png", words))
        sys.stdout.write(f"{name}.png: {words}\n")

    def print(self, page: "Page", *, name: str, words: str) -> None:
        """The page that is open as it comes out of a printer, a picture for each sheet of paper."""
        file = self.folder / f"{name}.pdf"
        page.pdf(path=str(file), format="A4")
        self.taken.append((file.name, words))
        if shutil.which("pdftoppm"):
            command = ["pdftoppm", "-r", str(PRINT_DOTS), "-png", str(file), str(self.folder / name)]
            subprocess.run(command, check=True)
            for sheet in sorted(self.folder.glob(f"{name}-*.png")):
                self.taken.append((sheet.name, words))

    def finish(self) -> None:
        """The list of all pictures, as a page beside them."""
        rows = "\n".join(
            f'<li><a href="{html.escape(file)}">{html.escape(file)}</a> {html.escape(words)}</li>'
            for file, words in self.taken
        )
        head = '<!doctype html>\n<html lang="en">\n<meta charset="utf-8">\n<title>Every page</title>'
        text = f"{head}\n<ul>\n{rows}\n</ul>\n</html>\n"
        (self.folder / "index.html").write_text(text, "utf-8")


def visit(browser: "Browser", *, server: Served, size: tuple[int, int], paired: bool = True) -> "Page":
    """A browser of that size in front of the pages, at the hour that never moves."""
    context: BrowserContext = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        base_url=server.address,
        locale="en-US",
        timezone_id="UTC",
        reduced_motion="reduce",
        service_workers="block",
    )
    page = context.new_page()
    page.clock.set_fixed_time(HOUR)
    if paired:
        page.goto(server.invitation())
    return page


def every_page(browser: "Browser", *, server: Served, album: Album) -> None:
    """One page of each sort at each size, and some of them on paper."""
    for name, size in SIZES.items():
        page = visit(browser, server=server, size=size)
        for address in walk(lambda page=page: links_of(page, server=server.address), several=1):  # type: ignore[misc]
            page.goto(address)
            if "/under-way/" in page.url:  # an answer that takes long is waited for
                page.wait_for_url(lambda url: "/under-way/" not in url, timeout=60_000)
            album.take(page, name=f"{name_of(address)}.{name}", words=address)
            if name == "desktop" and address in ON_PAPER:
                album.print(page, name=f"{name_of(address)}.paper", words=f"{address}, printed")
        page.context.close()


def press(page: "Page", words: str) -> None:
    """Tap the first button of these words."""
    page.get_by_role("main").get_by_role("button", name=re.compile(words, re.IGNORECASE)).first.click()


def fill(page: "Page", label: str, text: str) -> None:
    """Type into the first field of that name."""
    page.get_by_role("main").get_by_label(re.compile(rf"^\s*{re.escape(label)}")).first.fill(text)


def look_first(page: "Page") -> None:
    """He comes back to a joint: before the next pull a look at the last one."""
    page.goto("/set/head")


def the_next_pull(page: "Page") -> None:
    """The look is in the book, and the next pull is shown."""
    fill(page, "What do you see?", "two dots on its head")
    press(page, "It is as recorded")


def a_refusal(page: "Page") -> None:
    """A pull without the scale that was read."""
    press(page, "clicked while turning")


def a_pull_in_the_book(page: "Page") -> None:
    """The same with the scale, and what is said about it."""
    fill(page, "What does its scale show?", "25 N·m")
    press(page, "clicked while turning")


def a_pull_in_doubt(page: "Page") -> None:
    """Its writer is not sure of it, so no next one is offered."""
    page.get_by_text("I am not sure of it").click()
    page.get_by_label("It turned softly").check()
    press(page, "Write it down as doubtful")


def a_reading_refused(page: "Page") -> None:
    """A reading a hundred times too large."""
    page.goto("/good/top_ring_gap")
    page.get_by_label(re.compile(r"^\s*Where")).first.select_option(index=1)
    page.get_by_label(re.compile(r"^\s*Gauge")).first.select_option(index=1)
    fill(page, "The thickest that enters", "30")
    fill(page, "The thinnest that does not", "33")
    press(page, "Write it into the book")


def a_reading_judged(page: "Page") -> None:
    """One beyond the wear limit."""
    fill(page, "The thickest that enters", "0.90")
    fill(page, "The thinnest that does not", "1.00")
    press(page, "Write it into the book")


STATES: tuple[Callable[["Page"], None], ...] = (
    look_first,
    the_next_pull,
    a_refusal,
    a_pull_in_the_book,
    a_pull_in_doubt,
    a_reading_refused,
    a_reading_judged,
)
"""One after the other, each from where the one before it left the page."""
STRANGER = ("/", "/set/head", "/good/top_ring_gap", "/pair", "/nothing-here", "/set/no-such-joint")


def every_state(browser: "Browser", *, server: Served, size: str, album: Album) -> None:
    """What a page says when something was written, refused or is in doubt; and to a browser that may only look."""
    page = visit(browser, server=server, size=SIZES[size])
    for number, state in enumerate(STATES, start=1):
        state(page)
        words = (state.__doc__ or "").strip()
        album.take(page, name=f"state-{number}-{state.__name__.replace('_', '-')}.{size}", words=words)
    page.context.close()
    stranger = visit(browser, server=server, size=SIZES[size], paired=False)
    for address in STRANGER:
        stranger.goto(address)
        album.take(stranger, name=f"stranger-{name_of(address)}.{size}", words=f"{address}, not paired")
    stranger.context.close()


def take_all(folder: Path) -> int:
    """Fill the folder; 2 when there is no Chromium."""
    stop_the_clock()
    from gudgeon.bench.begin import open_demo

    folder.mkdir(parents=True, exist_ok=True)
    album = Album(folder)
    still = {"TZ": "UTC", "GUDGEON_WHO": "Sam"}
    try:
        with running() as browser:
            for number, size in enumerate(("", *SIZES)):
                with tempfile.TemporaryDirectory() as name:
                    demo = Path(name) / f"demo-{number}"
                    open_demo(demo, now=HOUR)
                    with Served(
                        demo / "book.gudgeon", program=("-m", "tools.fixed_hour"), environment=still
                    ) as server:
                        if size:
                            every_state(browser, server=server, size=size, album=album)
                        else:
                            every_page(browser, server=server, album=album)
    except NoChromium as missing:
        sys.stderr.write(f"{missing}\n")
        return 2
    finally:
        album.finish()
    sys.stdout.write(f"{len(album.taken)} pictures in {folder}; index.html lists them.\n")
    return 0
