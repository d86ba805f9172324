"""Out of reach: what is written waits on the device, goes into the book in order and once each, and is shown meanwhile.

Counts are HAND: as many entries as the test itself writes. The invented job stands before pull 26 of 50 of the head.
"""

import re
import time
from datetime import UTC, datetime
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect

from gudgeon.bench.context import open_bench
from gudgeon.book.address import data_folder
from gudgeon.book.entries import Entry
from gudgeon.web.devices import Devices
from tests.browser.conftest import Arrive, fresh_demo
from tests.browser.visitor import LONG_ENOUGH_MS, Visitor
from tools.chromium import DESKTOP
from tools.served import Served

ONE_BAR_PX = 140
"""Room for two lines of words and the word that opens the list. HAND: 2 x 25 px and 60 px, with their borders."""
SENT_WITHIN_MS = 15_000
"""What waits is tried every four seconds; three tries."""


def notes(server: Served) -> list[str]:
    """The notes of the book in the order in which they were written, those of these tests."""
    return [
        str(one.body["text"])
        for one in entries(server)
        if one.kind == "note" and "out of reach" in one.body["text"]
    ]


def entries(server: Served) -> tuple[Entry, ...]:
    """All entries of the book."""
    bench = open_bench(server.book)
    try:
        return bench.store.entries(bench.build)
    finally:
        bench.store.close()


def write(visitor: Visitor, text: str) -> None:
    """Write a note on the page that is open."""
    visitor.page.get_by_role("textbox").first.fill(text)
    visitor.press("Write it into the book")


def waits(page: Page) -> int:
    """How many entries wait on the device, as the page itself counts them."""
    return int(page.evaluate("() => gudgeon.queue.count()"))


def until_there_wait(page: Page, number: int) -> None:
    """Wait until so many entries wait; what is written comes into the queue a moment after the tap."""
    end = time.monotonic() + SENT_WITHIN_MS / 1000
    while (found := waits(page)) != number and time.monotonic() < end:
        page.wait_for_timeout(100)
    assert found == number


def until_all_is_sent(page: Page) -> None:
    """Wait until nothing waits any more."""
    until_there_wait(page, 0)


def bar(visitor: Visitor) -> str:
    """The words of the bar that says what waits."""
    return visitor.page.get_by_role("complementary", name="What waits on this device").inner_text()


def test_what_is_written_out_of_reach_waits_and_is_sent_once_in_order(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go("/record/note")
    with visitor.out_of_reach():
        for number in range(3):
            write(visitor, f"out of reach {number}")
            expect(visitor.page.locator(".waits-here")).to_contain_text(
                f"Waits on this device, not in the book yet: A note: out of reach {number}."
            )
            visitor.page.wait_for_timeout(1100)
        until_there_wait(visitor.page, 3)
        assert notes(served) == []
        assert re.search(
            r"No answer from the book since \d\d:\d\d\. 3 entries wait on this device, not in the book yet\.",
            bar(visitor),
        )
        assert "\n".join(visitor.faults()) == ""
        back = datetime.now(UTC)
    until_all_is_sent(visitor.page)
    assert notes(served) == ["out of reach 0", "out of reach 1", "out of reach 2"]
    made = [datetime.fromisoformat(one.device_time) for one in entries(served)[-3:]]
    assert made == sorted(made)
    # They were written more than 2 s apart in all; a device says whole seconds, so 1 s may be missing.
    assert (made[-1] - made[0]).total_seconds() >= 1
    assert (back - made[0]).total_seconds() >= 2
    expect(visitor.page.get_by_role("complementary", name="What waits on this device")).to_be_hidden()


def test_a_reload_out_of_reach_shows_the_kept_page_and_what_waits(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go("/record/note")
    visitor.page.wait_for_function("() => navigator.serviceWorker.ready.then(() => true)")
    visitor.go("/record/note")
    with visitor.out_of_reach():
        write(visitor, "out of reach, before the reload")
        expect(visitor.page.locator(".waits-here")).to_be_visible()
        visitor.page.reload()
        expect(visitor.page.get_by_role("complementary", name="What waits on this device")).to_contain_text(
            re.compile(
                r"1 entry waits on this device, not in the book yet\. +This page is as it was at \d\d:\d\d\."
            )
        )
        write(visitor, "out of reach, after the reload")
        expect(visitor.page.locator(".waits-here")).to_contain_text("after the reload")
        until_there_wait(visitor.page, 2)  # the ids of a kept page are made anew
        visitor.page.goto("/photos?page=never-seen")
        expect(visitor.page.get_by_role("heading", level=1)).to_have_text("The book does not answer")
    until_all_is_sent(visitor.page)
    assert notes(served) == ["out of reach, before the reload", "out of reach, after the reload"]


def test_without_kept_pages_what_waits_is_kept_all_the_same(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served, keeps=False)
    visitor.go("/record/note")
    with visitor.out_of_reach():
        write(visitor, "out of reach, and the page was closed")
        expect(visitor.page.locator(".waits-here")).to_be_visible()
        visitor.page.close()
    again = visitor.again()
    again.goto("/open")
    until_all_is_sent(again)
    assert notes(served) == ["out of reach, and the page was closed"]


def test_the_server_is_killed_and_comes_back(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go("/record/note")
    served.kill()
    for number in range(4):
        write(visitor, f"out of reach {number}")
        expect(visitor.page.locator(".waits-here")).to_contain_text(f"out of reach {number}")
    with Served(served.book, port=served.port):
        until_all_is_sent(visitor.page)
    assert notes(served) == [f"out of reach {number}" for number in range(4)]


def test_the_answer_is_lost_on_the_way_and_the_entry_counts_once(arrive: Arrive, served: Served) -> None:
    """The book has it, but its answer never came: it is sent again under the same id."""
    visitor = arrive(served, keeps=False)
    visitor.go("/record/note")
    lost: list[int] = []

    def lose(route: Route) -> None:
        lost.append(route.fetch().status)
        route.abort()

    visitor.page.route("**/record/note", lose, times=1)
    write(visitor, "out of reach, its answer was lost")
    until_all_is_sent(visitor.page)
    assert lost == [200]
    assert notes(served) == ["out of reach, its answer was lost"]


def test_two_pages_of_one_browser_send_once_and_in_order(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go("/record/note")
    other = visitor.again()
    other.goto("/record/note")
    with visitor.out_of_reach():
        for number in range(6):
            page = (visitor.page, other)[number % 2]
            page.get_by_role("textbox").first.fill(f"out of reach {number}")
            page.get_by_role("button", name="Write it into the book").click()
            expect(page.locator(".waits-here")).to_contain_text(f"out of reach {number}")
    until_all_is_sent(visitor.page)
    until_all_is_sent(other)
    assert notes(served) == [f"out of reach {number}" for number in range(6)]


def test_a_refusal_stays_until_it_is_read(arrive: Arrive, served: Served) -> None:
    """Refused long after its form is gone: what it said and why stay; the next one goes on."""
    visitor = arrive(served)
    visitor.go("/record/taken-out")
    with visitor.out_of_reach():
        put(
            visitor.page,
            address="/record/taken-out",
            fields={"item": "no such thing"},
            words="Take out: no such thing",
        )
        put(
            visitor.page,
            address="/record/note",
            fields={"text": "out of reach, after a refusal"},
            words="A note",
        )
        until_there_wait(visitor.page, 2)
    until_all_is_sent(visitor.page)
    assert notes(served) == ["out of reach, after a refusal"]
    told = visitor.page.get_by_role("complementary", name="What waits on this device")
    expect(told).to_contain_text("The book refused 1 entry: not recorded.")
    expect(told).to_contain_text("no such thing")
    visitor.go("/open")
    expect(told).to_contain_text("Take out: no such thing")
    assert "\n".join(visitor.faults()) == ""
    expect(told.get_by_text("Refused, not in the book.")).to_be_hidden()
    box = told.bounding_box()
    assert box is not None and box["height"] <= ONE_BAR_PX, "the bar is no wall over the forms of a page"
    told.get_by_text("One by one").click()
    expect(told.get_by_role("button", name="Send it once more")).to_have_count(0)
    anew = told.get_by_role("link", name="Write it anew: Take out: no such thing")
    expect(anew).to_have_attribute("href", "/record/taken-out?item=no+such+thing")
    assert "\n".join(visitor.faults()) == ""
    told.get_by_role("button", name="I have read it: put it away").click()
    expect(told).to_be_hidden()
    visitor.go("/open")
    expect(told).to_be_hidden()


def test_a_refusal_stands_above_its_form_as_without_a_script(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go("/set/head")
    visitor.look()
    visitor.go("/record/pause")
    before = len(entries(served))
    visitor.page.evaluate(
        "() => { document.querySelector('form input[name=basis]').form.noValidate = true; }"
    )
    visitor.press("Write it into the book")
    expect(visitor.page.get_by_role("alert")).to_be_visible()
    assert len(entries(served)) == before
    assert int(visitor.page.evaluate("() => gudgeon.queue.waiting().then((all) => all.length)")) == 0


def test_a_device_that_was_taken_off_keeps_what_it_wrote(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go("/record/note")
    visitor.expects(403)
    devices = Devices(data_folder() / "devices")
    with visitor.out_of_reach():
        write(visitor, "out of reach, and taken off")
        expect(visitor.page.locator(".waits-here")).to_be_visible()
        newest = max(devices.all(), key=lambda one: one.paired)
        devices.remove(newest.key)
    told = visitor.page.get_by_role("complementary", name="What waits on this device")
    expect(told).to_contain_text(
        "This device is not paired any more. 1 entry waits on it, not in the book yet, and is kept. Pair this device "
        "again, and it is sent by itself: do not write it again.",
        timeout=SENT_WITHIN_MS,
    )
    expect(told).not_to_contain_text("do it again")
    expect(told.get_by_role("link", name="Pair it again")).to_have_attribute("href", re.compile("^/pair"))
    assert notes(served) == []
    visitor.page.goto(served.invitation())
    until_all_is_sent(visitor.page)
    assert notes(served) == ["out of reach, and taken off"]


def test_each_entry_that_waits_says_what_it_is_and_its_button_is_used_up(
    arrive: Arrive, served: Served
) -> None:
    """Lists of many buttons with one name: each says its piece, and one that waits is not pressed twice."""
    visitor = arrive(served)
    visitor.go("/open")
    visitor.page.wait_for_function("() => navigator.serviceWorker.ready.then(() => true)")
    visitor.go("/open")
    before = len(entries(served))
    buttons = visitor.page.get_by_role("button", name=re.compile("^Take the plug out"))
    names = [re.sub(r"\s+", " ", str(one.text_content())).strip() for one in buttons.all()[:2]]
    assert len(set(names)) == 2
    with visitor.out_of_reach():
        for number, name in enumerate(names):
            buttons.nth(number).click()
            expect(visitor.page.locator(".waits-here").nth(number)).to_contain_text(
                f"Waits on this device, not in the book yet: {name}. It is sent as soon as the book answers."
            )
            expect(buttons.nth(number)).to_be_disabled()
        until_there_wait(visitor.page, 2)
        listed = visitor.page.get_by_role("complementary", name="What waits on this device")
        listed.get_by_text("One by one").click()
        assert listed.locator(".waits-words").all_inner_texts() == names
        row = visitor.page.locator("li.reason").filter(has=visitor.page.locator(".waits-here")).first
        wide, note = row.bounding_box(), row.locator(".waits-here").bounding_box()
        assert wide is not None and note is not None
        assert note["width"] > 0.95 * wide["width"], "the message has the whole width of its row"
        assert "\n".join(visitor.faults()) == ""
        visitor.page.reload()
        expect(buttons.first).to_be_disabled()
        expect(buttons.nth(1)).to_be_disabled()
        expect(visitor.page.locator(".waits-here").first).to_contain_text(f"not in the book yet: {names[0]}.")
    until_all_is_sent(visitor.page)
    assert len(entries(served)) == before + 2
    expect(visitor.page.locator(".waits-here").first).to_contain_text("In the book:")
    expect(visitor.page.locator("#moved")).not_to_contain_text("recorded")


def test_the_same_words_are_not_written_twice_while_they_wait(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served)
    visitor.go("/record/note")
    with visitor.out_of_reach():
        write(visitor, "out of reach, once")
        expect(visitor.page.locator(".waits-here")).to_contain_text(
            "not in the book yet: A note: out of reach, once."
        )
        write(visitor, "out of reach, once")
        expect(visitor.page.locator(".waits-here")).to_contain_text(
            re.compile(
                r"It waits on this device already, written at \d\d:\d\d, and is not written twice: A note:"
            )
        )
        until_there_wait(visitor.page, 1)
    until_all_is_sent(visitor.page)
    assert notes(served) == ["out of reach, once"]


def test_another_book_is_not_written_into(arrive: Arrive, served: Served, tmp_path: Path) -> None:
    visitor = arrive(served)
    visitor.go("/record/note")
    served.kill()
    write(visitor, "out of reach, for the first book")
    expect(visitor.page.locator(".waits-here")).to_be_visible()
    with Served(fresh_demo(tmp_path / "other"), port=served.port) as other:
        told = visitor.page.get_by_role("complementary", name="What waits on this device")
        expect(told).to_contain_text("This form belongs to another book", timeout=SENT_WITHIN_MS)
        expect(told.get_by_role("button", name="Send it once more")).to_be_visible()
        assert notes(other) == []
    assert notes(served) == []


def test_what_another_device_did_meanwhile_is_told(arrive: Arrive, served: Served) -> None:
    phone, desk = arrive(served), arrive(served, size=DESKTOP)
    phone.go("/record/note")
    desk.go("/record/note")
    with phone.out_of_reach():
        write(phone, "out of reach, on the phone")
        expect(phone.page.locator(".waits-here")).to_be_visible()
        write(desk, "out of reach, at the desk")
        desk.settled()
        phone.page.evaluate(BACKDATE)
    told = phone.page.get_by_role("complementary", name="What waits on this device")
    expect(told).to_contain_text(
        re.compile(r"Look\. Meanwhile \S+ \(browser of .+\) recorded .*out of reach, at the desk"),
        timeout=SENT_WITHIN_MS,
    )
    told.get_by_role("button", name="I have read it").click()
    expect(told).to_be_hidden()


BACKDATE = """() => new Promise((resolve) => {
  indexedDB.open("gudgeon").onsuccess = ({ target }) => {
    const deal = target.result.transaction("waiting", "readwrite");
    const store = deal.objectStore("waiting");
    store.getAll().onsuccess = (asked) => asked.target.result.forEach((one) => store.put({ ...one, at: one.at - 60000 }));
    deal.oncomplete = () => { target.result.close(); resolve(true); };
  };
})"""
"""What waits was written a minute ago."""


def put(page: Page, *, address: str, fields: dict[str, str], words: str) -> None:
    """Put an entry into the queue as the script of a page does."""
    page.evaluate(
        """([address, fields, words]) => gudgeon.queue.put({ address, words, place: "", body: new URLSearchParams({
            ...fields, entry: gudgeon.newId(), basis: document.body.dataset.basis, chain: document.body.dataset.chain,
            seal: document.querySelector("input[name=seal]").value,
        }).toString() })""",
        [address, fields, words],
    )


def at_the_wrench(visitor: Visitor, *, keeps: bool) -> None:
    """The screen at the wrench stands at pull 26, and the browser has its plan."""
    visitor.go("/set/head")
    visitor.look()
    next_pull(visitor, 26)
    if keeps:
        visitor.page.wait_for_function("() => navigator.serviceWorker.ready.then(() => true)")
    with visitor.page.expect_response(re.compile(r"/set/head/plan\?")):
        visitor.go("/set/head")
    next_pull(visitor, 26)
    visitor.page.wait_for_timeout(1500)  # until the plan that has come is read too


def next_pull(visitor: Visitor, number: int) -> None:
    """The next pull on the screen."""
    shown = visitor.page.get_by_role("region", name="The next pull")
    expect(shown).to_contain_text(re.compile(rf"pull {number} of 50", re.IGNORECASE))


def pulled(visitor: Visitor, *, read: bool = False) -> None:
    """Tap the first answer of the pull that is shown; a second press within a second and a half is not counted."""
    if read:
        visitor.fill("What does its scale show?", "25 N·m")
    visitor.page.wait_for_timeout(LONG_ENOUGH_MS)
    visitor.page.get_by_role("region", name="The next pull").locator("button.main").click()


def pulls_after(server: Served, number: int) -> list[Entry]:
    """The pulls of the head that were recorded after so many entries."""
    return [one for one in entries(server)[number:] if one.kind == "pull"]


@pytest.mark.parametrize("keeps", [True, False], ids=["pages are kept", "no page is kept"])
def test_ten_pulls_out_of_reach_are_in_the_book_once_and_in_order(
    arrive: Arrive, served: Served, keeps: bool
) -> None:
    """Out of reach through a change of stage; where pages are kept, a reload in the middle resumes."""
    visitor = arrive(served, keeps=keeps)
    at_the_wrench(visitor, keeps=keeps)
    pulled(visitor, read=True)
    next_pull(visitor, 27)
    until_all_is_sent(visitor.page)
    before = len(entries(served))
    visitor.page.wait_for_timeout(1500)
    with visitor.out_of_reach():
        for number in range(27, 37):
            if number == 31:
                visitor.page.get_by_role("link", name="The line is painted on every bolt").click()
            next_pull(visitor, number)
            pulled(visitor)
            if number == 30 and keeps:
                expect(visitor.page.get_by_role("region", name="First paint the line")).to_be_visible()
                visitor.page.reload()
        until_there_wait(visitor.page, 10)
        expect(visitor.page.get_by_text("Waits on this phone: 10.")).to_be_visible()
        assert pulls_after(served, before) == []
    until_all_is_sent(visitor.page)
    done = pulls_after(served, before)
    assert len(done) == len({(one.body["stage"], one.body["round"], one.body["bolt"]) for one in done}) == 10
    made = [datetime.fromisoformat(one.device_time) for one in done]
    assert made == sorted(made)
    # Nine waits of 1.6 s lie between the first and the last; a device says whole seconds.
    assert (made[-1] - made[0]).total_seconds() >= 9 * 1.6 - 1
    bench = open_bench(served.book)
    doubtful = [one for one in bench.state.joints["head"].pulls.values() if one.doubtful]
    bench.store.close()
    assert doubtful == []


def test_a_refused_look_says_why_at_its_first_tap(arrive: Arrive, served: Served) -> None:
    """The page sends its form once more to show the reason; that is no second press."""
    visitor = arrive(served, keeps=False)
    visitor.go("/set/head")
    visitor.fill("What do you see?", "a dot " * 5000)
    visitor.press("It is as recorded")
    expect(visitor.page.get_by_role("alert")).to_be_visible()
    expect(visitor.page.locator("#hands")).to_be_hidden()
    assert int(visitor.page.evaluate("() => gudgeon.queue.waiting().then((all) => all.length)")) == 0


def test_a_stop_is_written_on_the_screen_itself_out_of_reach(arrive: Arrive, served: Served) -> None:
    """Where no other page can be reached, as on a plain network: the stop waits, and the book is asked before it goes on."""
    visitor = arrive(served, keeps=False)
    at_the_wrench(visitor, keeps=False)
    with visitor.out_of_reach():
        visitor.page.get_by_text("I have to stop here").click()
        visitor.fill("What is in your hand", "wrench, out of reach")
        assert "Cylinder head bolts" in visitor.typed("What comes next")
        visitor.press("Write the stop down")
        asked = visitor.page.get_by_role("region", name="The book is asked")
        expect(asked).to_contain_text("A stop: wrench, out of reach")
        until_there_wait(visitor.page, 1)
    until_all_is_sent(visitor.page)
    assert [one.body["hand"] for one in entries(served) if one.kind == "paused"][-1] == "wrench, out of reach"
    expect(visitor.page.get_by_role("region", name="Look first")).to_be_visible()
