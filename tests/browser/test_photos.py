"""A photo from a phone's folder to the page that shows it, and a hold that it proves, in a real Chromium."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

from gudgeon.book.pictures import clean_picture
from tests.browser.conftest import Arrive
from tests.browser.visitor import Visitor
from tests.unit.book.photos import HEIC, drawn, exif, saved
from tools.chromium import PHONE
from tools.served import Served

TAKEN = saved(drawn((400, 300)), "JPEG", exif=exif(taken="2026:03:07 09:15:30", orientation=6))
"""Held upright: what the camera wrote is to be turned a quarter, so 300 wide and 400 high."""


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    file = tmp_path / "IMG_0231.JPG"
    file.write_bytes(TAKEN)
    return file


def choose_file(visitor: Visitor, label: str, file: Path) -> None:
    visitor.page.get_by_role("main").get_by_label(re.compile(rf"^\s*{re.escape(label)}")).set_input_files(
        file
    )


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without"])
def test_a_photo_is_sent_and_seen(arrive: Arrive, served: Served, picture: Path, scripts: bool) -> None:
    visitor = arrive(served, size=PHONE, scripts=scripts)
    visitor.go("/photos")
    visitor.page.get_by_role("main").get_by_role("link", name="Add a photo").click()
    choose_file(visitor, "Photo", picture)
    visitor.fill("What it shows, in a few words", "deck, cleaned, seen from the front")
    visitor.choose("What it is about", "Cylinder head bolts")
    visitor.press("Write it into the book")
    expect(visitor.page.get_by_role("status")).to_contain_text("deck, cleaned, seen from the front")
    assert visitor.page.url.startswith(f"{served.address}/photos?")
    shown = visitor.page.get_by_role("img", name="deck, cleaned, seen from the front")
    expect(shown).to_be_visible()
    kept = clean_picture(TAKEN)
    assert shown.get_attribute("src") == f"/photos/{kept.sha}"
    assert (shown.get_attribute("width"), shown.get_attribute("height")) == ("300", "400")
    if scripts:
        shown.scroll_into_view_if_needed()
        size = shown.evaluate("one => one.decode().then(() => [one.naturalWidth, one.naturalHeight])")
        assert size == [300, 400]
        assert "\n".join(visitor.faults()) == ""
    assert "Cylinder head bolts" in visitor.main()
    file = served.book.with_name(f"{served.book.name}.photos") / f"{kept.sha}.jpg"
    assert file.read_bytes() == kept.content
    file.unlink()
    visitor.go("/photos")
    assert "It is missing." in visitor.main()
    assert "A photo of the book is missing or altered" in visitor.main()


def test_a_hold_is_proved_by_a_photo_and_falls_with_it(arrive: Arrive, served: Served, picture: Path) -> None:
    visitor = arrive(served, size=PHONE)
    visitor.go("/record/hold?hold=bolt_holes_dry&back=/start")
    choose_file(visitor, "A photo that proves it", picture)
    visitor.press("Write it into the book")
    expect(visitor.page.get_by_role("status")).to_contain_text("with photo")
    (served.book.with_name(f"{served.book.name}.photos") / f"{clean_picture(TAKEN).sha}.jpg").write_bytes(
        b"other"
    )
    visitor.go("/start")
    assert "it was altered" in visitor.main()
    assert "\n".join(visitor.faults()) == ""


def test_a_refused_file_keeps_what_was_written(arrive: Arrive, served: Served, tmp_path: Path) -> None:
    heic = tmp_path / "IMG_0232.HEIC"
    heic.write_bytes(HEIC)
    visitor = arrive(served, size=PHONE)
    visitor.go("/record/photo")
    choose_file(visitor, "Photo", heic)
    visitor.fill("What it shows, in a few words", "the old gasket")
    visitor.press("Write it into the book")
    expect(visitor.page.get_by_role("alert")).to_contain_text("Let the phone save JPEG")
    assert visitor.typed("What it shows, in a few words") == "the old gasket"
    assert "The photo was not kept: choose it again." in visitor.main()
    assert "\n".join(visitor.faults()) == ""
