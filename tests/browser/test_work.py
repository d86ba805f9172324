"""Long work from a page: seen while it runs, stopped, shown or fetched at its end; in a real Chromium."""

import re
import zipfile
from pathlib import Path

import pytest
from playwright.sync_api import FilePayload, expect

from gudgeon.bench.context import open_bench
from gudgeon.bench.photos import Sent, record_photo
from tests.browser.conftest import Arrive
from tests.browser.visitor import LONG_MS
from tests.unit.book.photos import drawn, saved
from tools.served import Served


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without"])
def test_an_archive_is_made_watched_and_fetched(
    arrive: Arrive, served: Served, tmp_path: Path, scripts: bool
) -> None:
    bench = open_bench(served.book)
    record_photo(bench, Sent("deck.jpg", saved(drawn((400, 300)), "JPEG")), caption="deck, cleaned")
    bench.store.close()
    visitor = arrive(served, scripts=scripts)
    visitor.go("/book")
    visitor.page.get_by_role("main").get_by_role("button", name="Make an archive").click()
    fetch = visitor.page.get_by_role("link", name="Fetch the archive")
    expect(fetch).to_be_visible(timeout=LONG_MS)  # by itself, with a script or without
    assert "1 photo." in visitor.main()
    if scripts:
        assert "\n".join(visitor.faults()) == ""
    with visitor.page.expect_download() as came:
        fetch.click()
    kept = tmp_path / came.value.suggested_filename
    came.value.save_as(kept)
    with zipfile.ZipFile(kept) as archive:
        assert archive.testzip() is None
        assert sum(name.startswith("photos/") for name in archive.namelist()) == 1


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without"])
def test_the_book_is_printed_from_what_was_done(
    arrive: Arrive, reading: Served, tmp_path: Path, scripts: bool
) -> None:
    visitor = arrive(reading, scripts=scripts)
    visitor.go("/done")
    visitor.page.get_by_role("main").get_by_role("button", name="The book on paper, Letter").click()
    fetch = visitor.page.get_by_role("link", name="Fetch the print")
    expect(fetch).to_be_visible(timeout=LONG_MS)
    assert "The book is not closed" in visitor.main()
    if scripts:
        assert "\n".join(visitor.faults()) == ""
    with visitor.page.expect_download() as came:
        fetch.click()
    assert came.value.suggested_filename == "demo-book.pdf"
    came.value.save_as(tmp_path / "book.pdf")
    assert (tmp_path / "book.pdf").read_bytes().startswith(b"%PDF-")


ON_ITS_WAY = re.compile(r"tightening at random: [\d,]+ of [\d,]+")


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without"])
def test_a_clamp_under_way_is_stopped_and_then_asked_again(
    arrive: Arrive, reading: Served, scripts: bool
) -> None:
    visitor = arrive(reading, scripts=scripts)
    page = visitor.page
    page.goto("/set/head/clamp?trials=50000")
    assert "/under-way/" in page.url
    expect(page.locator("#work .words")).to_have_text(ON_ITS_WAY)
    expect(page.get_by_role("progressbar")).to_be_visible()
    if scripts:
        assert "\n".join(visitor.faults()) == ""
    visitor.press("Stop")
    expect(page.get_by_text("It was stopped. Nothing of it is left.")).to_be_visible(timeout=30_000)
    if scripts:
        assert "\n".join(visitor.faults()) == ""
    page.get_by_role("link", name="Back: The joint").click()
    assert page.url.endswith("/set/head")
    # Fewer of them, and never stopped: by itself the page becomes the answer.
    visitor.go("/set/head/clamp?trials=25000" + ("" if scripts else "&if=by-eye"))
    assert "25,000 tightenings at random, seed 1." in visitor.main()
    assert page.url.endswith("/set/head/clamp?trials=25000&if=" + ("" if scripts else "by-eye"))


def large(lines: int) -> bytes:
    """A file of points, of which each says something long beside."""
    rows = (f"{x % 70 * 5},{x // 70 * 2},0.01,{'0' * 400}" for x in range(lines))
    return "\n".join(["x mm,y mm,z mm,note", *rows, ""]).encode()


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without"])
def test_a_large_file_of_points_is_taken_and_a_bad_line_of_it_is_shown_with_a_way_back(
    arrive: Arrive, served: Served, scripts: bool
) -> None:
    visitor = arrive(served, scripts=scripts)
    page = visitor.page
    bad, good = (
        FilePayload(name="deck.csv", mimeType="text/csv", buffer=content)
        for content in (large(15_000) + b"1,2,a,0\n", large(4_900))
    )
    for file in (bad, good):
        visitor.go("/good/deck_flatness?scan=again#points")
        page.get_by_label("The file of points").set_input_files(file)
        page.get_by_label("as found, before any work").last.check()
        page.get_by_role("button", name="Take the points into the book").click()
        if file is bad:
            expect(page.get_by_role("alert")).to_contain_text(
                "deck.csv, line 15002, column 5: z is `a`, which is not a number.", timeout=LONG_MS
            )
            back = page.get_by_role("link", name="Back: The form for the points")
            if back.is_visible():  # it took longer than a page should
                back.click()
                expect(page.get_by_label("The file of points")).to_be_visible()
    expect(page.get_by_text("In the book:")).to_be_visible(timeout=LONG_MS)
