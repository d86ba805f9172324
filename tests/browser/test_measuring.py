"""A digital gauge that types its reading and Enter fills the table of a part; without a script a form does the same."""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Locator, Route, expect

from gudgeon.bench.context import open_bench
from tests.browser.conftest import Arrive, fresh_demo
from tests.browser.visitor import Visitor
from tools.chromium import PHONE
from tools.served import Served

BORES = "/good/part/Cylinder%20block?condition=as+left&only=bore"
DECK = "/good/part/Cylinder%20block?condition=as+left&only=deck_flatness"


SKIRTS = "/good/part/Pistons?condition=as+left&only=piston_skirt"
STEMS = "/good/part/Valves?condition=as+left&only=intake_valve_stem"


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """One invented job for all tests that write here: each writes readings of its own."""
    with Served(fresh_demo(tmp_path_factory.mktemp("measured"))) as server:
        yield server


def as_left(server: Served, item: str) -> dict[str, tuple[str | None, str | None, str | None]]:
    """What the book holds of it after the work, by place."""
    bench = open_bench(server.book)
    try:
        return {
            one.place: (one.value, one.low, one.high)
            for (key, _, condition), one in bench.state.readings.items()
            if (key, condition) == (item, "as left")
        }
    finally:
        bench.store.close()


def row(visitor: Visitor, place: str) -> Locator:
    return visitor.page.locator("li.fill-row", has=visitor.page.get_by_text(place, exact=True))


def test_a_gauge_that_types_fills_one_row_after_the_other(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go(BORES)
    cells = visitor.page.locator("input[data-cell]")
    cells.first.focus()
    for value in ("81.66", "8.164", "81.65"):  # the second one is a slip of a digit
        visitor.page.keyboard.type(value)
        visitor.page.keyboard.press("Enter")
    expect(cells.nth(3)).to_be_focused()
    expect(row(visitor, "cylinder 1, top, across").get_by_role("status")).to_contain_text(
        "In the book. INSIDE"
    )
    expect(row(visitor, "cylinder 1, top, along").get_by_role("status")).to_contain_text(
        "8.164 mm is far from"
    )
    expect(row(visitor, "cylinder 1, middle, across").get_by_role("status")).to_contain_text("In the book.")
    assert visitor.typed("cylinder 1, top, along") == "8.164", "what was refused stays"
    assert "\n".join(visitor.faults()) == ""
    cells.nth(1).fill("81.64")
    cells.nth(1).press("Enter")
    expect(row(visitor, "cylinder 1, top, along").get_by_role("status")).to_contain_text("In the book.")
    assert as_left(served, "bore") == {
        "cylinder 1, top, across": ("81.66", None, None),
        "cylinder 1, top, along": ("81.64", None, None),
        "cylinder 1, middle, across": ("81.65", None, None),
    }


def test_what_gets_no_answer_is_not_called_recorded_and_counts_once(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go(SKIRTS)

    def written_but_the_answer_is_lost(route: Route) -> None:
        route.fetch()
        route.abort()

    visitor.page.route("**/good/row", written_but_the_answer_is_lost, times=1)
    first = visitor.page.locator("input[data-cell]").first
    said = row(visitor, "cylinder 1").get_by_role("status")
    first.fill("81.57")
    first.press("Enter")
    expect(said).to_contain_text("Waits on this device, not in the book yet.")
    number = len(as_left(served, "piston_skirt"))
    expect(said).to_contain_text("In the book.")
    assert (number, len(as_left(served, "piston_skirt"))) == (1, 1)


def test_a_gauge_that_ends_with_tab_and_types_a_comma_writes_the_row_and_the_drawing_shows_it(
    arrive: Arrive, served: Served
) -> None:
    visitor = arrive(served)
    visitor.go("/good/part/Valves?condition=as+left&only=exhaust_valve_stem")
    drawing = visitor.page.locator("img[data-drawing]")
    drawing.scroll_into_view_if_needed()
    expect(drawing).to_have_js_property("complete", True)
    before = drawing.get_attribute("src")
    cells = visitor.page.locator("input[data-cell]")
    cells.first.focus()
    visitor.page.keyboard.type("5,455")
    visitor.page.keyboard.press("Tab")
    expect(cells.nth(1)).to_be_focused()
    expect(row(visitor, "cylinder 1, timing side").get_by_role("status")).to_contain_text("In the book.")
    assert as_left(served, "exhaust_valve_stem") == {"cylinder 1, timing side": ("5.455", None, None)}
    expect(drawing).not_to_have_attribute("src", before or "")
    drawn = visitor.page.request.get(f"{served.address}{drawing.get_attribute('src')}").text()
    assert "5.455 mm" in drawn
    visitor.page.keyboard.press("Tab")
    assert len(as_left(served, "exhaust_valve_stem")) == 1, "Tab out of an empty field writes nothing"


def test_a_field_that_may_be_below_zero_has_a_key_for_its_sign(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading, size=PHONE)
    visitor.go("/good/piston_height")
    value = visitor.page.get_by_label("The value")
    sign = visitor.page.get_by_role("button", name="Change the sign")
    expect(value).to_have_attribute("inputmode", "decimal")
    value.fill("0.04")
    sign.click()
    assert value.input_value() == "-0.04"
    sign.click()
    assert value.input_value() == "0.04"
    assert "\n".join(visitor.faults()) == ""


def test_two_blades_take_two_fields_and_one_row(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go(DECK)
    cells = visitor.page.locator("input[data-cell]")
    cells.first.fill("0.03")
    cells.first.press("Enter")
    expect(cells.nth(1)).to_be_focused()
    assert as_left(served, "deck_flatness") == {}, "half a row is no row"
    visitor.page.keyboard.type("0.04")
    visitor.page.keyboard.press("Enter")
    expect(cells.nth(2)).to_be_focused()
    expect(row(visitor, "lengthwise, intake side").get_by_role("status")).to_contain_text("In the book.")
    assert as_left(served, "deck_flatness") == {"lengthwise, intake side": (None, "0.03", "0.04")}


def test_without_a_script_enter_writes_and_the_next_row_waits(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served, scripts=False)
    visitor.go(STEMS)
    for value in ("5.470", "5.465"):
        cell = visitor.page.locator(".fill-group > .fill-rows input[data-cell]").first
        cell.fill(value)
        cell.press("Enter")
        expect(visitor.page.get_by_role("status").first).to_contain_text("In the book:")
    assert list(as_left(served, "intake_valve_stem").values()) == [
        ("5.470", None, None),
        ("5.465", None, None),
    ]
    assert "\n".join(visitor.faults()) == ""


@pytest.mark.parametrize("address", [BORES, DECK, "/good/head_flatness", "/good/bore", "/good?whole=yes"])
def test_nothing_is_cut_off_at_the_width_of_a_phone(arrive: Arrive, reading: Served, address: str) -> None:
    visitor = arrive(reading, size=PHONE)
    visitor.go(address)
    assert "\n".join(visitor.faults()) == ""


def test_the_picture_comes_and_is_as_wide_as_the_page_lets_it(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading, size=PHONE)
    visitor.go("/good/head_flatness")
    drawn = visitor.page.locator(".drawn img")
    drawn.scroll_into_view_if_needed()
    expect(drawn).to_have_js_property("complete", True)
    assert drawn.evaluate("one => one.naturalWidth") > 0
    assert re.search(r"lines: \d+ ", drawn.get_attribute("alt") or "")
    assert drawn.evaluate("one => one.getBoundingClientRect().width / 360 * 13") >= 12, "its smallest letters"


def test_the_printed_sheet_holds_the_rows_and_nothing_to_tap(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading, size=(794, 1123))  # A4 at 96 dots an inch
    visitor.go("/good?whole=yes&part=Cylinder%20block")
    visitor.page.emulate_media(media="print")
    expect(visitor.page.get_by_text("cylinder 3, top, across").first).to_be_visible()
    for part in (
        visitor.page.get_by_role("button"),
        visitor.page.locator(".button"),
        visitor.page.locator("nav"),
    ):
        assert [one for one in part.all() if one.is_visible()] == []
    assert visitor.page.evaluate(
        "document.documentElement.scrollWidth <= document.documentElement.clientWidth"
    )
