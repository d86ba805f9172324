"""What holds for every page of the invented job: one main action at most, a title of its own, states with a shape."""

import re
from collections.abc import Mapping
from urllib.parse import urlsplit

import pytest

from tests.unit.web.every_page import every_page

MAIN = re.compile(r'<(?:a|button)\b[^>]*\bclass="(?:[^"]* )?main(?: [^"]*)?"')
TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)
STATE = re.compile(r'<span class="state state-[a-z]+">(.*?)</span></span>', re.DOTALL)


@pytest.fixture(scope="module")
def seen() -> Mapping[str, str]:
    return every_page()


def test_the_questions_are_all_among_them(seen: Mapping[str, str]) -> None:
    wanted = {
        "/",
        "/good",
        "/fits",
        "/set",
        "/cut",
        "/timing",
        "/timing/shims",
        "/start",
        "/running",
        "/open",
    }
    assert wanted | {"/done", "/record", "/photos", "/sums", "/sheet", "/kit"} <= set(seen)
    assert len(seen) > 40


def test_a_page_has_one_main_action_at_most(seen: Mapping[str, str]) -> None:
    many = {address: len(MAIN.findall(text)) for address, text in seen.items()}
    assert {address: count for address, count in many.items() if count > 1} == {}


def test_a_page_has_a_title_of_its_own(seen: Mapping[str, str]) -> None:
    titles: dict[str, set[str]] = {}
    for address, text in seen.items():
        title = TITLE.search(text)
        assert title is not None, address
        assert title[1].split("·")[0].strip(), address
        titles.setdefault(title[1], set()).add(urlsplit(address).path)
    assert {title: paths for title, paths in titles.items() if len(paths) > 1} == {}


def test_a_state_is_told_in_words_and_by_its_shape(seen: Mapping[str, str]) -> None:
    told = [found for text in seen.values() for found in STATE.findall(text)]
    assert len(told) > 100
    for one in told:
        shape, _, words = one.partition("</svg>")
        assert "<svg" in shape
        assert re.sub(r"<[^>]+>", "", words).strip()


@pytest.mark.parametrize("address", ["/cut", "/timing", "/timing/shims", "/running"])
def test_a_long_page_is_folded_and_its_summaries_tell(seen: Mapping[str, str], address: str) -> None:
    folds = re.findall(
        r'<details class="fold" id="([^"]+)"[^>]*><summary>(.*?)</summary>', seen[address], re.DOTALL
    )
    assert len(folds) >= 3
    assert len({name for name, _ in folds}) == len(folds)
    for _, summary in folds:
        assert re.search(r"<h2>[^<]+</h2>", summary)


@pytest.mark.parametrize(
    "address", ["/cut", "/timing", "/timing/shims", "/running", "/fits", "/good?whole=yes"]
)
def test_the_source_of_a_figure_is_a_tap_away(seen: Mapping[str, str], address: str) -> None:
    text = seen[address]
    linked = len(re.findall(r'<a class="(?:cited|source)" href="/sheet/source/', text))
    plain = re.sub(r"<a\b.*?</a>", "", text, flags=re.DOTALL)
    left = re.findall(r"\b(?:manual|bulletin) pp?\.\s\w+", re.sub(r'="[^"]*"', "", plain))
    assert linked > 0
    assert left == [], "a citation that leads nowhere"


@pytest.mark.parametrize("address", ["/cut", "/timing", "/running", "/sheet", "/good?whole=yes"])
def test_a_citation_is_not_broken_before_its_page(seen: Mapping[str, str], address: str) -> None:
    cited = re.findall(r'<a class="(?:cited|source)"[^>]*>\s*([^<]*?)\s*<', seen[address])
    assert len(cited) > 0
    assert [one for one in cited if re.search(r"\bpp?\. \d", one)] == []
    assert any(re.search(r"\bp\.\N{NO-BREAK SPACE}\d", one) for one in cited)
