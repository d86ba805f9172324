"""Two devices on one joint, and a server that dies: the second is told, and nothing acknowledged is lost."""

import re
from collections import Counter
from contextlib import suppress
from threading import Timer
from uuid import uuid4

from playwright.sync_api import Error, expect

from gudgeon.bench.context import open_bench
from gudgeon.bench.entries import EntryLine, listed
from tests.browser.conftest import Arrive
from tests.browser.visitor import LONG_MS, Visitor
from tools.chromium import DESKTOP
from tools.served import Served


def clicked(visitor: Visitor) -> None:
    """Read the scale, and tap what is said after a pull that clicked while the bolt turned."""
    visitor.fill("What does its scale show?", "25 N·m")
    visitor.page.get_by_role("button", name=re.compile("clicked while turning", re.IGNORECASE)).click()


def test_the_second_of_two_devices_is_told(arrive: Arrive, served: Served) -> None:
    phone, desk = arrive(served), arrive(served, size=DESKTOP)
    phone.go("/set/head")
    phone.look()
    for visitor in (phone, desk):
        visitor.go("/set/head")
        expect(visitor.page.get_by_role("region", name="The next pull")).to_contain_text("Pull 26 of 50")
    # The one at the desk cannot see what the phone writes, and answers for the same pull.
    with desk.out_of_reach():
        clicked(phone)
        expect(phone.page.get_by_role("region", name="The next pull")).to_contain_text("Pull 27 of 50")
        expect(phone.page.get_by_text("In the book:")).to_be_visible()
        clicked(desk)
    told = desk.page.get_by_role("main")
    expect(told).to_contain_text(re.compile(r"Meanwhile \S+ \(browser of .+\) recorded"), timeout=15_000)
    # Whatever is made of it, the pull of the first stands, and both are in the book.
    phone.go("/done")
    pulls = phone.page.get_by_role("main").get_by_text(
        re.compile(r"bolt 4\b.*stage 3|stage 3.*bolt 4\b", re.IGNORECASE)
    )
    assert pulls.count() >= 2


def test_a_form_sent_twice_counts_once(arrive: Arrive, served: Served) -> None:
    """The answer was lost on the way and the browser sends the same form again: the same id, one entry."""
    visitor = arrive(served)
    visitor.go("/set/head")
    visitor.look()
    form = hidden(visitor, form="What happened")
    before = len(entries(served))
    for _ in range(2):
        answer = visitor.page.request.post(
            "/record/pull", form={**form, "outcome": "clicked while turning", "setting": "25 N·m"}
        )
        assert answer.ok
    assert len(entries(served)) == before + 1


def test_nothing_acknowledged_is_lost_when_the_server_is_killed(arrive: Arrive, served: Served) -> None:
    """The power goes while notes are written one after the other: what was said to be in the book is there, once."""
    visitor = arrive(served)
    visitor.go("/record/note")
    form = hidden(visitor, form=None)
    cut = Timer(0.05, served.kill)  # not before some are in the book, however slow the machine is
    acknowledged: list[str] = []
    with suppress(Error):
        for number in range(100_000):
            note = f"note {number} before the cut"
            sent = {**form, "entry": uuid4().hex, "text": note}
            answer = visitor.page.request.post("/record/note", form=sent, max_redirects=0)
            assert answer.status == 303
            acknowledged.append(note)
            if number == 4:
                cut.start()
    cut.join()
    assert len(acknowledged) > 4, "the power went before anything was written"
    with Served(served.book, port=served.port):
        found = Counter(line.what for line in entries(served) if "before the cut" in line.what)
        assert [found[note] for note in acknowledged] == [1] * len(acknowledged)
        assert len(found) <= len(acknowledged) + 1, "at most the one whose answer was lost"
        visitor.page.goto("/done?verify=yes")  # at once, or on a page of its own where it takes long
        shown = visitor.page.get_by_role("main")
        expect(shown).to_contain_text("every chain is in order", timeout=LONG_MS)
        visitor.go("/done")
        assert acknowledged[-1] in visitor.main()


def hidden(visitor: Visitor, *, form: str | None) -> dict[str, str | float | bool]:
    """What a form carries unseen; of the form of that name, or of the only one in the answer."""
    main = visitor.page.get_by_role("main")
    place = main.get_by_role("form", name=form) if form else main
    found: dict[str, str | float | bool] = {
        str(field.get_attribute("name")): str(field.get_attribute("value"))
        for field in place.locator("input[type=hidden]").all()
    }
    assert {"entry", "basis"} <= found.keys()
    return found


def entries(server: Served) -> tuple[EntryLine, ...]:
    """All entries of the book as they are listed."""
    bench = open_bench(server.book, build=None)
    try:
        return listed(bench).lines
    finally:
        bench.store.close()
