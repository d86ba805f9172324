"""docs/validation.md says what the tests say."""

import re

from tests.published.cases import subjects
from tools.validation import PAGE, SECTIONS, page


def test_the_page_is_up_to_date() -> None:
    assert PAGE.read_text("utf-8") == page(), "run: python tools/validation.py"


def test_every_file_of_figures_is_on_the_page() -> None:
    assert {subject for subject, _, _ in SECTIONS} == set(subjects())


def test_the_page_names_no_web_host() -> None:
    assert re.findall(r"https?:|\bwww\.|\.(?:com|org|net|gov)\b", page()) == []
