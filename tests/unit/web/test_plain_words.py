"""No page speaks the language of the files: no path of the sheet, no key of a field, in what is read on it."""

import re
from collections.abc import Iterator
from html import unescape

import pytest

from tests.unit.web.every_page import every_page

MAIN = re.compile(r"<main\b.*?</main>", re.DOTALL)
UNREAD = re.compile(r"<(script|style)\b.*?</\1>|<[^>]+>", re.DOTALL)
FILE_WORD = re.compile(r"(?<![\w/])(?:[a-z]\w+(?:\.[a-z0-9_]\w*)+|[a-z0-9]+(?:_[a-z0-9]+)+)")
"""`drive.crank_stops` or `crank_stops`: words joined by full stops or by underscores."""
ALLOWED = {
    # The files of the person are called what they are called in the folder.
    "sheet.yaml": r"/sheet\b.*|/",
    "kit.yaml": r"/kit",
    # The form by the name in the file asks for exactly such a path, and shows how it looks.
    "cylinder.bore": r"/sheet/figure",
    "joints.head.program.2.torque": r"/sheet/figure",
}
"""What may stand on which pages all the same."""


def file_words(page: str) -> Iterator[str]:
    """The words of a page's main part that are of the files."""
    main = MAIN.search(page)
    assert main is not None
    yield from FILE_WORD.findall(unescape(UNREAD.sub(" ", main[0])))


def allowed(word: str, address: str) -> bool:
    """Whether a word of the files may stand on this page; the form of a figure names the figure that it writes."""
    if word in ALLOWED and re.fullmatch(ALLOWED[word], address):
        return True
    return address == f"/sheet/figure?path={word}"


def test_no_page_says_a_path_or_a_key() -> None:
    said = {
        (address, word)
        for address, page in every_page().items()
        for word in file_words(page)
        if not allowed(word, address)
    }
    assert said == set()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("drive.crank_stops (line 3)", ["drive.crank_stops"]),
        ("as (crank_stops)", ["crank_stops"]),
        ("<a href='/x/y_z'>Change</a> of <code>after_start.wet</code>", ["after_start.wet"]),
        ("manual p. 41, 0.20 mm, e.g. this. And that", []),
    ],
)
def test_a_path_and_a_key_are_found(text: str, words: list[str]) -> None:
    assert list(file_words(f"<main id='x_y'>{text}</main>")) == words


@pytest.mark.parametrize("word", [*ALLOWED])
def test_what_is_allowed_is_needed(word: str) -> None:
    """An exception that nothing needs any more is struck."""
    assert any(word in page for address, page in every_page().items() if re.fullmatch(ALLOWED[word], address))
