"""Chromium as the system has it, for the tests and the pictures: found, started, and kept off the network."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Browser

NAMES = ("chromium", "chromium-browser", "google-chrome")
VARIABLE = "GUDGEON_CHROMIUM"
PHONE = (390, 844)
DESKTOP = (1280, 800)
FLAGS = (
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


class NoChromium(Exception):
    """There is no Chromium to be found."""

    def __init__(self, named: str | None) -> None:
        found = f"{VARIABLE} names `{named}`, which is no program" if named else "No Chromium was found"
        super().__init__(
            f"{found}. Install Chromium (on Debian and Ubuntu: apt install chromium), "
            f"or set {VARIABLE} to the program."
        )


def program() -> str:
    """The Chromium to use: the one that GUDGEON_CHROMIUM names, else the first on the path."""
    named = os.environ.get(VARIABLE)
    for name in [named] if named else NAMES:
        found = shutil.which(name)
        if found:
            return found
    raise NoChromium(named)


def flags() -> list[str]:
    """How Chromium is started."""
    # It refuses to start as the administrator with its sandbox on; containers often run so.
    as_root = getattr(os, "geteuid", lambda: 1)() == 0
    return [*FLAGS, *(["--no-sandbox"] if as_root else [])]


@contextmanager
def running() -> Iterator["Browser"]:
    """A Chromium without a window, closed at the end of the block."""
    from playwright.sync_api import sync_playwright

    found = program()
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=found, headless=True, args=flags())
        try:
            yield browser
        finally:
            browser.close()
