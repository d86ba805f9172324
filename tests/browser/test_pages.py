"""Every page at both sizes: nothing cut off, faint, too small, unnamed, or fetched from outside."""

import re

import pytest

from gudgeon.bench.answer import NOTICE, RULES
from tests.browser.conftest import Arrive
from tests.browser.visitor import Visitor
from tools.chromium import DESKTOP, PHONE
from tools.served import Served
from tools.walk import PATTERNS, pattern_of, walk

FLAG = re.compile(r"(?<!\S)--[a-z][a-z-]+")
AT_THE_TERMINAL = ("/devices", "/pair")
"""Pages that say what to type where the server runs: a page cannot open it to the network, and must not."""
CODE = re.compile(r"\bT\d{3}\b")


def faults_of(visitor: Visitor, address: str) -> list[str]:
    """What is wrong with one page of the invented job."""
    status = visitor.go(address)
    found = visitor.faults() if status == 200 else [f"answered with {status}"]
    words = visitor.text()
    if NOTICE.casefold() not in words.casefold():
        found.append("it does not say that the job is invented")
    if RULES not in words:
        found.append("it does not say that the maker's manual rules")
    found += [f"the code of a task on the page: {code}" for code in CODE.findall(visitor.main())]
    if not address.startswith(AT_THE_TERMINAL):
        found += [f"an option of the terminal on the page: {flag}" for flag in FLAG.findall(visitor.main())]
    found += [f"leads outside: {link}" for link in visitor.outside()]
    return [f"{address}: {fault}" for fault in found]


def test_every_page(arrive: Arrive, reading: Served, size: tuple[int, int]) -> None:
    visitor = arrive(reading, size=size)
    found: list[str] = []
    visited = set()
    for address in walk(visitor.links, several=2):
        found += faults_of(visitor, address)
        visited.add(pattern_of(address))
    assert found == [], "\n".join(found)
    assert PATTERNS.keys() - visited == set(), "no link leads there"


@pytest.mark.long
def test_many_pages_of_each_sort_on_a_phone(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading, size=PHONE)
    assert [
        fault for address in walk(visitor.links, several=6) for fault in faults_of(visitor, address)
    ] == []


@pytest.mark.parametrize("address", ["/nothing-here", "/set/no-such-joint", "/good/no-such-item"])
def test_a_page_that_is_not_there_says_so(arrive: Arrive, reading: Served, address: str) -> None:
    visitor = arrive(reading)
    assert visitor.go(address) == 404
    assert "\n".join(visitor.faults()) == ""
    assert visitor.page.get_by_role("main").get_by_role("link").count() >= 1, "no way on"


def test_titles_tell_the_pages_apart(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading, size=DESKTOP)
    visitor.go("/")
    titles = {}
    links = visitor.page.get_by_role("navigation", name="Questions", exact=True).get_by_role("link")
    for address in [link.get_attribute("href") for link in links.all()]:
        visitor.go(str(address))
        titles[address] = visitor.page.title()
    assert len(titles) >= 8
    assert len(set(titles.values())) == len(titles)


@pytest.mark.parametrize("wrong", [
    ("p { color: #777 }", "contrast"),
    ("h1 { width: 2000px }", "it rolls sideways"),
    ("p { width: 20px; overflow: hidden; white-space: nowrap }", "cut off at the side"),
    ("a.button, button { min-height: 20px; padding: 0 }", "lower than 60 px"),
    ("details > summary { min-height: 20px }", "lower than 60 px"),
    ("p { opacity: .8 }", "faded"),
    ("p { margin-top: -1.6rem }", "other words lie over it"),
    ("p { font-size: 11px }", "small letters"),
], ids=lambda wrong: wrong[1])  # fmt: skip
def test_such_a_fault_is_found(arrive: Arrive, reading: Served, wrong: tuple[str, str]) -> None:
    """The checks can fail: a page made worse is told from one that is well."""
    visitor = arrive(reading)
    visitor.go("/set/head/whole")
    assert "\n".join(visitor.faults()) == ""
    visitor.restyle(wrong[0])
    assert [fault for fault in visitor.faults() if fault.startswith(wrong[1])] != []
