"""Places traced from a photo by taps: corner by corner, hole by hole, with a closer look for the exact middle."""

from math import hypot
from pathlib import Path

import pytest
from PIL import Image, ImageDraw
from playwright.sync_api import expect

from tests.browser.conftest import Arrive
from tests.browser.test_axe import violations
from tests.pinhole import SHEET, Camera, Spot
from tests.unit.book.photos import saved
from tools.chromium import PHONE
from tools.served import Served

CAMERA = Camera(focal_px=2500, size=(1500, 2000))
HOLES = {"1": (40.0, 240.0), "2": (170.0, 240.0), "3": (180.0, 180.0)}


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    """A sheet of paper with three holes, as the camera sees it."""
    image = Image.new("RGB", CAMERA.size, (110, 115, 120))
    pen = ImageDraw.Draw(image)
    pen.polygon([CAMERA.sees(one) for one in SHEET], fill=(235, 235, 230))
    for spot in HOLES.values():
        x, y = CAMERA.sees(spot)
        pen.ellipse((x - 14, y - 14, x + 14, y + 14), fill=(30, 30, 30))
    file = tmp_path / "IMG_0232.JPG"
    file.write_bytes(saved(image, "JPEG", quality=90))
    return file


def said(text: str) -> Spot:
    x, y = text.split(",")
    return float(x), float(y)


def test_taps_go_from_corner_to_corner_and_a_closer_look_makes_them_fine(
    arrive: Arrive, served: Served, picture: Path
) -> None:
    visitor = arrive(served, size=PHONE)
    visitor.go("/record/photo?back=/photos")
    visitor.page.locator("input[type=file]").set_input_files(picture)
    visitor.fill("What it shows", "bare face of the rear cover, with a sheet of paper")
    visitor.page.get_by_role("main").locator("form button.main").last.click()
    visitor.page.locator("a[href$='/look']").first.click()
    visitor.page.get_by_role("link", name="Trace places from it").click()
    visitor.choose("Which joint the photo shows", "Rear cover bolts")
    visitor.press("Begin")
    page, photo = visitor.page, visitor.page.locator("[data-trace-picture]")
    points = {f"corner.{letter}": CAMERA.sees(SHEET[at]) for at, letter in enumerate("ABCD")}
    points |= {f"place.{name}": CAMERA.sees(spot) for name, spot in HOLES.items()}
    for name, (x, y) in points.items():
        expect(page.locator(f"input[name=tap][value='{name}']")).to_be_checked()
        photo.scroll_into_view_if_needed()
        box = photo.bounding_box()
        assert box is not None
        scale = box["width"] / CAMERA.size[0]
        photo.click(position={"x": min(x * scale, box["width"] - 1), "y": min(y * scale, box["height"] - 1)})
        field = page.locator(f"input[name='{name}'][type=text]")
        found = said(field.input_value())
        assert hypot(found[0] - x, found[1] - y) < 1.5 / scale, "as fine as a tap on the picture is"
        expect(page.locator("[data-trace-closer] canvas")).to_be_in_viewport()
        expect(page.locator("[data-trace-closer]")).to_contain_text("Now tap the same point here")
    assert float(page.locator("input[name=pointed]").input_value()) == pytest.approx(1 / scale, abs=0.06)
    # A closer look at the last one: its middle moves to where that is tapped.
    closer = page.locator("[data-trace-closer] canvas")
    expect(closer).to_be_visible()
    before = said(field.input_value())
    box = closer.bounding_box()
    assert box is not None
    closer.click(position={"x": box["width"] / 2 + 20, "y": box["height"] / 2})
    after = said(field.input_value())
    assert 0 < after[0] - before[0] < 20 / scale / 1.5, "finer than a tap on the picture"
    expect(closer).not_to_be_in_viewport(ratio=0.9)  # on to what comes next
    visitor.fill("Lower side, mm", "210")
    visitor.fill("Upright side, mm", "297")
    visitor.press("Trace")
    expect(page.get_by_role("alert")).to_contain_text("and point more exactly")  # taps alone are too coarse
    # Pointed again, closer: from one coarse tap to the next, until none is left.
    page.get_by_role("link", name="Point again, closer").click()
    for name in [name for name in points if name != "place.3"]:
        expect(page.locator("[data-trace-name]")).to_have_text(name.partition(".")[2])
        expect(closer).to_be_in_viewport()
        box = closer.bounding_box()
        assert box is not None
        closer.click(position={"x": box["width"] / 2, "y": box["height"] / 2})
    expect(page.get_by_label("Lower side, mm")).to_be_in_viewport()
    expect(page.locator("input[name=pointed]")).to_have_value("")
    expect(page.locator("input[name=coarse]")).to_have_value("")
    for name, spot in points.items():
        page.locator(f"input[name='{name}'][type=text]").fill("{:.1f},{:.1f}".format(*spot))
    page.locator("input[name=pointed]").fill("")
    expect(page.locator(".aims .aim")).to_have_count(7)
    visitor.fill("Lower side, mm", "210")
    visitor.fill("Upright side, mm", "297")
    visitor.press("Trace")
    expect(page.get_by_role("heading", name="Traced", exact=True)).to_be_visible()
    row = page.get_by_role("row", name="3", exact=False).last
    assert [abs(float(text.split()[0]) - true) < 1.5 for text, true in zip(
        row.get_by_role("cell").all_inner_texts()[:2], HOLES["3"], strict=True
    )] == [True, True]  # fmt: skip
    assert visitor.faults() == []
    assert violations(visitor) == []
