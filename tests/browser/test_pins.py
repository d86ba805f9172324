"""Pins on a photo by taps: before it is sent, later, with scripts and without, and where they then are drawn."""

from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from gudgeon.bench.context import open_bench
from tests.browser.conftest import Arrive
from tests.browser.visitor import Visitor
from tests.unit.book.photos import drawn, exif, saved
from tools.chromium import PHONE
from tools.served import Served

TAKEN = saved(drawn((1200, 900)), "JPEG", exif=exif(orientation=6))
"""Held upright: 900 wide and 1200 high once the turn that the camera wrote is made."""
NEAR = 0.01
"""How far a mark may lie off the tap, as a share of the picture (HAND: a pin is kept to a thousandth)."""


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    file = tmp_path / "IMG_0231.JPG"
    file.write_bytes(TAKEN)
    return file


def tap(picture: Locator, across: float, down: float) -> None:
    """Tap the picture at shares of its width and height."""
    picture.scroll_into_view_if_needed()
    box = picture.bounding_box()
    assert box is not None
    picture.click(position={"x": across * box["width"], "y": down * box["height"]})


def marks(visitor: Visitor) -> list[tuple[str, float, float]]:
    """Every mark as it is seen: its number, and where its middle lies as a share of the picture."""
    found: list[list[float | str]] = visitor.page.evaluate(
        """() => {
          const picture = document.querySelector(".pinned img, .pinned canvas, .pinned input");
          const of = picture.getBoundingClientRect();
          return [...document.querySelectorAll(".pin-marks .pin")].map((pin) => {
            const box = pin.querySelector("circle").getBoundingClientRect();
            return [pin.querySelector("text").textContent,
              (box.left + box.width / 2 - of.left) / of.width, (box.top + box.height / 2 - of.top) / of.height];
          });
        }"""
    )
    return [(str(number), float(x), float(y)) for number, x, y in found]


def near(found: list[tuple[str, float, float]], wanted: list[tuple[str, float, float]]) -> None:
    assert [number for number, _, _ in found] == [number for number, _, _ in wanted]
    for (number, x, y), (_, across, down) in zip(found, wanted, strict=True):
        assert abs(x - across) < NEAR, (number, x, across)
        assert abs(y - down) < NEAR, (number, y, down)


def pins_in_the_book(served: Served) -> list[tuple[int, str]]:
    bench = open_bench(served.book)
    try:
        pins = bench.state.photos[-1].pins if bench.state.photos else ()
        return [(int(str(one["number"])), str(one["text"])) for one in pins]
    finally:
        bench.store.close()


def test_pins_are_tapped_before_the_photo_is_sent(
    arrive: Arrive, served: Served, picture: Path, size: tuple[int, int]
) -> None:
    visitor = arrive(served, size=size)
    visitor.go("/record/photo?back=/photos")
    visitor.page.locator("input[type=file]").set_input_files(picture)
    canvas = visitor.page.locator("canvas")
    expect(canvas).to_be_visible()
    assert canvas.evaluate("one => [one.width, one.height]") == [900, 1200], "it is shown as it was held"
    tap(canvas, 0.2, 0.3)
    tap(canvas, 0.75, 0.9)
    wanted = [("1", 0.2, 0.3), ("2", 0.75, 0.9)]
    near(marks(visitor), wanted)
    visitor.page.locator("[name='text.1']").fill("ground strap, goes to 3 on the block")
    visitor.fill("What it shows, in a few words", "front of the block")
    # A pin without words would be refused, and the page come back without the photo: it is not sent.
    visitor.press("Write it into the book")
    expect(visitor.page.locator("[name='text.2']")).to_be_focused()
    near(marks(visitor), wanted)
    visitor.page.locator("[name='text.2']").fill("plug of the knock sensor")
    assert pins_in_the_book(served) == []
    visitor.press("Write it into the book")
    visitor.page.wait_for_url("**/photos?**")
    assert pins_in_the_book(served) == [
        (1, "ground strap, goes to 3 on the block"),
        (2, "plug of the knock sensor"),
    ]
    visitor.page.get_by_role("link", name="Its pins, what came off").click()
    near(marks(visitor), wanted)
    link = visitor.page.get_by_role("link", name="Pin 2: plug of the knock sensor")
    box = link.bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= 60
    link.click()
    assert visitor.page.url.endswith("#pin-2")
    visitor.page.get_by_role("button", name="All 2 came off").click()
    visitor.page.wait_for_url("**#came-off")
    visitor.go("/open")
    visitor.page.get_by_role("link", name="See it in the photo, pin 1").click()
    expect(visitor.page.locator("#pin-1")).to_contain_text("came off, not back yet")


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without"])
def test_pins_are_set_moved_and_taken_away_later(
    arrive: Arrive, served: Served, picture: Path, scripts: bool
) -> None:
    visitor = arrive(served, size=PHONE, scripts=scripts)
    visitor.go("/record/photo?back=/photos")
    visitor.page.locator("input[type=file]").set_input_files(picture)
    visitor.fill("What it shows, in a few words", "front of the block")
    visitor.press("Write it into the book")
    visitor.page.get_by_role("link", name="Set pins").click()
    taps = visitor.page.locator("[data-pins-picture]")
    rows = visitor.page.locator("li.pin-row")
    for count, (across, down) in enumerate(((0.1, 0.1), (0.5, 0.5), (0.9, 0.2)), 1):
        tap(taps, across, down)
        expect(rows).to_have_count(count)
    near(marks(visitor), [("1", 0.1, 0.1), ("2", 0.5, 0.5), ("3", 0.9, 0.2)])
    rows.nth(0).get_by_label("The next tap moves it").check()
    tap(taps, 0.3, 0.8)
    expect(rows.nth(0).get_by_label("The next tap moves it")).not_to_be_checked()
    rows.nth(1).get_by_label("Take it away").check()
    rows.nth(0).get_by_label("What is here").fill("hose to the heater")
    rows.nth(2).get_by_label("What is here").fill("bracket")
    visitor.press("Write the pins into the book")
    visitor.page.wait_for_url("**/look?**")
    near(marks(visitor), [("1", 0.3, 0.8), ("3", 0.9, 0.2)])
    assert pins_in_the_book(served) == [(1, "hose to the heater"), (3, "bracket")]
