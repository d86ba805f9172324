"""Takes the pictures of the README: the invented job, served as pages and photographed by Chromium.

Run: python3 do.py screenshots, or with `--all FOLDER` for a picture of every page
"""

import io
import os
import sys
import tempfile
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from gudgeon.web.security import COOKIE
from tools.all_pictures import take_all
from tools.chromium import DESKTOP, PHONE, NoChromium, running
from tools.fixed_hour import HOUR, stop_the_clock
from tools.served import Served

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

FOLDER = Path(__file__).parent.parent / "docs" / "pictures"
MOST_BYTES = 300_000
COLORS = 96  # enough for paper, ink and the smoothed edges of letters


@dataclass(frozen=True, slots=True)
class Picture:
    """One page at one size, and how many dots of the picture make one of the page."""

    name: str
    address: str
    size: tuple[int, int]
    density: int


PICTURES = (Picture("phone", "/", PHONE, 2), Picture("desktop", "/set/head", DESKTOP, 1))
"""Both show from the top that the engine is invented."""


def paired() -> str:
    """The secret of a phone that was let in the day before."""
    from gudgeon.book.address import data_folder
    from gudgeon.web.devices import Devices

    devices, before = Devices(data_folder() / "devices"), HOUR - timedelta(days=1)
    return devices.pair(devices.invite(now=before), name="phone at the engine", who="Sam", now=before)[1]


def look(page: "Page") -> None:
    """The last pull is looked at, so that the next one stands on the screen."""
    page.get_by_label("What do you see?").fill("one dot on its head")
    page.get_by_role("button", name="It is as recorded").click()
    page.get_by_role("region", name="The next pull").wait_for()


def take(browser: "Browser", *, picture: Picture, server: str, secret: str) -> bytes:
    """The picture as a PNG of few colors."""
    from PIL import Image

    width, height = picture.size
    context = browser.new_context(
        viewport={"width": width, "height": height},
        device_scale_factor=picture.density,
        locale="en-US",
        timezone_id="UTC",
        reduced_motion="reduce",
    )
    context.add_cookies([{"name": COOKIE, "value": secret, "url": server}])
    page = context.new_page()
    page.clock.set_fixed_time(HOUR)
    answer = page.goto(server + picture.address)
    if answer is None or not answer.ok:
        raise SystemExit(f"{picture.address} is not answered, so there is no picture of it.")
    if page.get_by_role("region", name="Look first").count():
        look(page)
        page.goto(server + picture.address)
    taken = Image.open(io.BytesIO(page.screenshot()))
    context.close()
    small = io.BytesIO()
    taken.convert("RGB").quantize(COLORS, dither=Image.Dither.NONE).save(small, "PNG", optimize=True)
    return small.getvalue()


def main(arguments: list[str]) -> int:
    """Take the pictures of the README, or of every page; 2 when something that is needed is missing."""
    if arguments:
        if len(arguments) != 2 or arguments[0] != "--all":
            sys.stderr.write("Either nothing is said, or `--all FOLDER`.\n")
            return 2
        return take_all(Path(arguments[1]))
    stop_the_clock()
    from gudgeon.bench.begin import open_demo

    still = {"TZ": "UTC", "GUDGEON_WHO": "Sam"}
    FOLDER.mkdir(parents=True, exist_ok=True)
    try:
        with tempfile.TemporaryDirectory() as name, running() as browser:
            os.environ["XDG_DATA_HOME"] = name  # nobody's own list of devices is touched
            open_demo(Path(name) / "demo", now=HOUR)
            book = Path(name) / "demo" / "book.gudgeon"
            secret = paired()
            with Served(book, program=("-m", "tools.fixed_hour"), environment=still) as server:
                for picture in PICTURES:
                    content = take(browser, picture=picture, server=server.address, secret=secret)
                    file = FOLDER / f"{picture.name}.png"
                    if len(content) > MOST_BYTES:
                        raise SystemExit(
                            f"{file.name} has {len(content)} bytes; at most {MOST_BYTES} are meant."
                        )
                    file.write_bytes(content)
                    sys.stdout.write(
                        f"docs/pictures/{file.name}: {picture.address}, {len(content) // 1000} kB\n"
                    )
    except NoChromium as missing:
        sys.stderr.write(f"{missing}\n")
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
