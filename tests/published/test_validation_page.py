"""docs/validation.md says what the tests say."""

import re
from decimal import Decimal

from tests.published.cases import subjects
from tools.validation import PAGE, SECTIONS, page

OURS, MISS, ALLOWED = 3, 4, 5
"""Columns of a table of figures."""


def compared(text: str) -> tuple[list[str], list[tuple[Decimal, Decimal, Decimal]]]:
    """The page without what its figures came out as, and those apart: ours, its difference, and what is allowed.

    The last digits of a least-squares sum are not the same on every processor.
    """
    lines, figures = [], []
    for line in text.splitlines():
        cells = line.split(" | ")
        if len(cells) == 8 and re.fullmatch(r"[-\d.]+(?: ¹)?", cells[ALLOWED]):
            ours, miss, allowed = (Decimal(cells[at].split(" ")[0]) for at in (OURS, MISS, ALLOWED))
            figures.append((ours, miss, allowed))
            cells[OURS] = cells[MISS] = ""
        lines.append(" | ".join(cells))
    return lines, figures


def test_the_page_is_up_to_date() -> None:
    said, found = compared(PAGE.read_text("utf-8")), compared(page())
    assert said[0] == found[0], "run: python tools/validation.py"
    assert len(found[1]) > 500
    moved = [
        (one, other)
        for one, other in zip(said[1], found[1], strict=True)
        if max(abs(one[0] - other[0]), abs(one[1] - other[1])) > one[2] / 100
    ]
    assert moved == [], "run: python tools/validation.py"


def test_every_file_of_figures_is_on_the_page() -> None:
    assert {subject for subject, _, _ in SECTIONS} == set(subjects())


def test_the_page_names_no_web_host() -> None:
    assert re.findall(r"https?:|\bwww\.|\.(?:com|org|net|gov)\b", page()) == []
