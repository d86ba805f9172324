"""Tracked files name no place that only one machine has, and leave nothing for later unsaid."""

import re
from pathlib import Path

import pytest

from tests.house.code import ROOT, tracked_files

# Written in pieces, so that this file does not find itself.
LATER = re.compile(r"\b(TO" r"DO|FIX" r"ME|XX" r"X)\b")
MACHINE = re.compile(
    r"(?<![\w.-])/(work|root|opt|home)(?=/|\b(?![\w-]))|\.py" r"env\b|/tmp/(plan|probe)|shared/des" r"ign"
)
REGISTRIES = re.compile(
    r"pypi\." r"org|pythonho" r"sted|npm" r"js|debian\." r"org|crates\." r"io|conda\.", re.IGNORECASE
)
ADDRESS = re.compile(r"https?://([\w.-]+)")
STANDARD_NAMES = {
    "json-schema.org",
    "www.w3.org",
    "ns.adobe.com",  # a name in ISO 16684-1
    "localhost",
    "127.0.0.1",
}  # names in standards; this machine
NOWHERE = re.compile(r"[\w.-]+\.example|192\.168\.\d+\.\d+")
"""Names that lead nowhere: reserved for examples (RFC 2606), and addresses of local networks (RFC 1918)."""


def texts() -> list[tuple[Path, str]]:
    found = []
    for path in tracked_files():
        content = path.read_bytes()
        if b"\0" not in content:
            found.append((path, content.decode("utf-8")))
    return found


def hits(pattern: re.Pattern[str]) -> list[str]:
    return [
        f"{path.relative_to(ROOT)}:{number}: {match[0]}"
        for path, text in texts()
        for number, line in enumerate(text.splitlines(), start=1)
        for match in pattern.finditer(line)
    ]


def test_nothing_is_left_for_later_in_a_comment() -> None:
    assert hits(LATER) == []


def test_no_path_of_one_machine() -> None:
    assert hits(MACHINE) == []


def test_no_registry_and_no_web_host() -> None:
    """A source is named by title and edition; packages by name, version and hash."""
    assert hits(REGISTRIES) == []
    named = {hit: hit.split("//")[1] for hit in hits(ADDRESS)}
    led = [hit for hit, name in named.items() if name not in STANDARD_NAMES and not NOWHERE.fullmatch(name)]
    assert led == []


@pytest.mark.parametrize(
    ("pattern", "text"),
    [
        (LATER, "# TO" + "DO: later"),
        (MACHINE, "see /" + "work/main"),
        (MACHINE, "see /" + "root/x"),
        (REGISTRIES, "files.pythonho" + "sted.example"),
        (ADDRESS, "http" + "s://example.org"),
    ],
)
def test_such_a_word_is_found(pattern: re.Pattern[str], text: str) -> None:
    assert pattern.search(text)


def test_ordinary_words_are_left_alone() -> None:
    assert not MACHINE.search("torque/work per degree; wire/rope; the root / the crest")
