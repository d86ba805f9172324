"""The page of what the program catches is held against the list it was planned with, and against the tests it names."""

import ast
import csv
import re
from dataclasses import dataclass
from functools import cache

import pytest

from tests.house.code import ROOT
from tests.reference import FOLDER

PAGE = (ROOT / "docs" / "what-it-catches.md").read_text(encoding="utf-8")
LIST = FOLDER.parent / "trade" / "failure_modes.csv"
BY_THE_BOOK = {"record", "count", "timer", "compute"}
"""How the list says that a book can catch something; what wants eyes alone is not on the page."""
NONE = "–"


@dataclass(frozen=True)
class Line:
    """One line of the page."""

    number: str
    what: str
    far: str
    by: str
    proved: str

    @property
    def tests(self) -> tuple[str, ...]:
        return tuple(re.findall(r"`([^`]+)`", self.proved))


LINES = tuple(
    Line(*(cell.strip() for cell in row.strip("|").split("|")))
    for row in PAGE.splitlines()
    if re.match(r"\| F\d", row)
)


@cache
def names_in(path: str) -> frozenset[str]:
    """The tests that a file has."""
    tree = ast.parse((ROOT / path).read_text(encoding="utf-8"))
    return frozenset(one.name for one in tree.body if isinstance(one, ast.FunctionDef))


def test_every_line_says_how_far_and_by_what() -> None:
    assert len(LINES) > 80
    assert {line.far for line in LINES} == {"caught", "partly", "not"}
    assert [line.number for line in LINES if not (line.what and line.by)] == []
    assert [
        line.number
        for line in LINES
        if (line.far == "partly") != ("Not: " in line.by or " Not yet: " in line.by)
    ] == []


@pytest.mark.parametrize("line", LINES, ids=[line.number for line in LINES])
def test_what_is_said_to_be_caught_names_a_test_that_there_is(line: Line) -> None:
    if line.far == "not":
        assert line.proved == NONE
        return
    assert line.tests, "caught, and by no test"
    for name in line.tests:
        path, _, function = name.partition("::")
        assert re.fullmatch(r"test_\w+", function), name
        assert function in names_in(path), name


def test_each_number_stands_once_and_in_its_order() -> None:
    numbers = [line.number for line in LINES]
    assert numbers == sorted(set(numbers))


def test_the_page_counts_its_lines_right() -> None:
    far = [line.far for line in LINES]
    words = " ".join(PAGE.split())
    assert f"the {len(LINES)} of them that a book can do something about" in words
    assert f"{far.count('caught')} are caught, {far.count('partly')} partly, {far.count('not')} not." in words


def test_every_way_that_a_book_can_catch_has_its_line() -> None:
    if not LIST.is_file():
        pytest.skip("The list of what goes wrong is not beside the checkout.")
    with LIST.open(encoding="utf-8", newline="") as file:
        wanted = {row["id"] for row in csv.DictReader(file) if row["caught_by"] in BY_THE_BOOK}
    assert {line.number for line in LINES} == wanted


def test_the_words_of_the_page_are_our_own() -> None:
    """No line repeats six words in a row of the list."""
    if not LIST.is_file():
        pytest.skip("The list of what goes wrong is not beside the checkout.")
    with LIST.open(encoding="utf-8", newline="") as file:
        theirs = {
            run
            for row in csv.DictReader(file)
            for text in (row["what_goes_wrong"], row["how_caught"])
            for run in runs(text)
        }
    assert [line.number for line in LINES if runs(f"{line.what} {line.by}") & theirs] == []


def runs(text: str) -> set[tuple[str, ...]]:
    words = re.findall(r"\w+", text.lower())
    return {tuple(words[start : start + 6]) for start in range(len(words) - 5)}
