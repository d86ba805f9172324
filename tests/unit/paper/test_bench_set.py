"""The bench set on paper: nothing of its answers is lost, numbered through, complete for a blank book, locked without a figure."""

import re
from dataclasses import replace
from functools import lru_cache

import pytest

from gudgeon.bench.answer import NOTICE, plain
from gudgeon.paper.lists import BLANK, lists_data
from gudgeon.paper.measuring import measuring_data, measuring_pdf
from gudgeon.paper.whole_set import set_pdf
from gudgeon.paper.words import for_paper
from tests.unit.bench.on_paper.test_measuring_sheets import texts
from tests.unit.bench.on_paper.test_whole_set import FIGURE
from tests.unit.paper.reading import numbered, pages, squashed, words
from tests.unit.paper.sets import printed


@lru_cache(maxsize=8)
def all_words(which: str, size: str) -> str:
    return words(printed(which, size).pdf)


def on_paper(text: str) -> str:
    """A text as it is printed: a minus is no hyphen there."""
    return squashed(str(for_paper(text)))


def missing(which: str, size: str, part: str) -> list[str]:
    """The texts of one part of the answer that are not on paper."""
    made, said = printed(which, size), all_words(which, size)
    answer = {**plain(getattr(made.answer, part)), "heading": {}}
    # Keys and what only a page needs are not printed; a verdict, what is due and a place are put otherwise.
    unsaid = {"item", "instrument", "verdict", "due", "photo", "pin", "pull", "where", "write"}
    return [text for text in texts(_without(answer, unsaid)) if on_paper(_spoken(text)) not in said]


def _without(value: object, names: set[str]) -> object:
    if isinstance(value, dict):
        return {key: _without(inner, names) for key, inner in value.items() if key not in names}
    return [_without(inner, names) for inner in value] if isinstance(value, list) else value


def _spoken(text: str) -> str:
    return {
        "provisional": "Provisional",
        "left in": "Left in",
        "plugged": "Plugged",
        "left over": "Left over",
    }.get(text, text)


@pytest.mark.parametrize("part", ["measuring", "lists", "holds"])
@pytest.mark.parametrize("which", ["demo", "blank"])
def test_nothing_of_an_answer_is_lost(which: str, part: str) -> None:
    assert missing(which, "a4", part) == []


def test_a_hold_point_that_does_not_stand_says_what_to_write() -> None:
    made, said = printed("demo", "a4"), all_words("demo", "a4")
    points = [point for one in made.answer.holds.milestones for point in one.points]
    assert sum(point.stands for point in points) == 15
    for point in points:
        assert (squashed(f"value seen: {point.write}") in said) == (not point.stands), point.name


@pytest.mark.parametrize(("which", "size"), [("demo", "letter"), ("blank", "a4"), ("locked", "letter")])
def test_pages_are_numbered_through(which: str, size: str) -> None:
    pdf = printed(which, size).pdf
    count = len(pages(pdf))
    assert numbered(pdf) == [(number, count) for number in range(1, count + 1)]
    assert all(squashed(NOTICE) in squashed(page) for page in pages(pdf))


def test_the_first_page_says_on_which_page_each_part_begins() -> None:
    made = printed("demo", "a4")
    said = [squashed(page) for page in pages(made.pdf)]
    parts = {f"Card: {card.name}": card.name for card in made.answer.cards}
    parts |= {name: name for name in ("Measuring sheets", "Counts", "What is open", "Hold points")}
    for listed, title in parts.items():
        found = re.search(re.escape(squashed(listed)) + r"page(\d+)", said[0])
        assert found, listed
        assert said[int(found[1]) - 1].startswith(squashed(title)), listed


def test_a_blank_book_prints_every_limit_and_every_card() -> None:
    made, said = printed("blank", "a4"), all_words("blank", "a4")
    for one in made.answer.measuring.sheets:
        assert on_paper(one.name) in said
        for limit in one.limits:
            assert on_paper(limit.words) in said
    assert said.count("Everybolt,everystage") + said.count("Everynut,everystage") + said.count(
        "Everyplug,everystage"
    ) == len(made.answer.cards)
    data = measuring_data(made.answer.measuring)
    assert data["state"] == "Top end: 0 of 164 places read"


def test_the_demo_fills_in_what_the_book_has() -> None:
    said = all_words("demo", "a4")
    # PRINTED, in the entries of the invented job: 0.08 to 0.09 mm as found, nothing enters as left.
    assert squashed("0.08–0.09 mm (0.0031–0.0035 in) ± 0.013 mm (0.00051 in) OUTSIDE") in said
    assert squashed("under 0.03 mm (0.0012 in) ± 0.013 mm (0.00051 in) INSIDE") in said
    assert squashed("Belt cover bolts M6, short ones") in said
    assert squashed("proof: block 17 °C, engine stood for eight days") in said


def test_what_is_locked_is_printed_without_a_figure() -> None:
    made = printed("locked", "letter")
    said = words(made.pdf)
    own = [text for card in made.answer.cards for text in card.cautions]
    own += list(texts(plain(made.answer.holds))) + list(made.answer.cautions)
    own += [line.gauge for one in made.answer.measuring.sheets for line in one.lines]
    for text in sorted(filter(None, set(own)), key=len, reverse=True):
        said = said.replace(squashed(text), " ")
    assert re.findall(r"\d+(?:\.\d+)?(?:N·m|lbf·ft|°|mm)", said) == []
    # PRINTED, in the sheet of the invented job; the words of a sheet begin as they like, so nothing is joined to them.
    assert squashed("Where the code is read: off the pad on the block, exhaust side") in said
    assert said.count("Figuresareleftout") == 2 + len(made.answer.cards)
    assert FIGURE.search("25 N·m")


def test_a_list_has_blank_rows_however_long_it_is() -> None:
    for which in ("demo", "blank"):
        rows = {one["name"]: one["blank"] for one in lists_data(printed(which, "a4").answer.lists)["lists"]}
        assert min(rows.values()) >= BLANK
    assert rows["Left over"] > 20


def test_one_answer_gives_one_file() -> None:
    answer = printed("blank", "a4").answer.measuring
    assert measuring_pdf(answer, size="a4") == measuring_pdf(answer, size="a4")


def test_the_set_says_which_code_was_read() -> None:
    """PRINTED: what the entries of the invented job and of the blank book say."""
    first = squashed(pages(printed("blank", "a4").pdf)[0])
    assert "codeasreadTW18-D4wherepadon" in first
    assert "codeasreadwhereon" in squashed(pages(printed("locked", "letter").pdf)[0])


@pytest.mark.parametrize(("which", "size"), [("demo", "letter"), ("blank", "a4"), ("locked", "letter")])
def test_every_caution_stands_on_the_first_page(which: str, size: str) -> None:
    made = printed(which, size)
    first, second = (squashed(page) for page in pages(made.pdf)[:2])
    assert len(made.answer.cautions) > 8
    assert all(on_paper(one) in first for one in made.answer.cautions)
    assert made.answer.cards[0].name.replace(" ", "") in second.partition("page2of")[0]


def test_a_sheet_that_states_nothing_to_measure_has_no_measuring_sheet() -> None:
    answer = printed("blank", "a4").answer
    none = replace(
        answer, measuring=replace(answer.measuring, sheets=(), not_measured=()), cards=answer.cards[:1]
    )
    said = words(set_pdf(none, size="a4"))
    assert "Nomeasuringsheets:thedatasheetstatesnothingtomeasureinthisjob." in said
    assert "0of0" not in said
    alone = words(measuring_pdf(none.measuring, size="a4"))
    assert "thedatasheetstatesnothingtomeasureinthisjob." in alone
    assert "0of0" not in alone


def test_a_card_without_figures_has_a_line_for_the_thread() -> None:
    said = all_words("locked", "letter")
    cards = printed("locked", "letter").answer.cards
    for name in ("Thread", "Stateofthethread", f"Usingthe{cards[0].called}sagain"):
        assert said.count(f"{name}page") >= 1, name
    assert said.count("Stateofthethreadpage") == len(cards)
