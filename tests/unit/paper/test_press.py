"""The press: what it does when something is wrong with it, and that one answer always gives one file."""

import sys
import time
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from gudgeon.bench.pull_list import JointCard
from gudgeon.bench.pull_list import card as ask_card
from gudgeon.errors import InputError
from gudgeon.paper import press as press_module
from gudgeon.paper.card import card_pdf
from gudgeon.paper.errors import PressFailed, PressMissing, PressTooSlow, PrintTooLarge, SizeUnknown
from gudgeon.paper.press import press
from gudgeon.paper.words import for_paper, moment_words
from tests.unit.paper.cards import card_of, job
from tests.unit.paper.reading import alternatives, fonts, keeps, squashed, words

NOON = "2026-03-07T12:00:00+01:00"


@pytest.fixture(scope="module")
def card(tmp_path_factory: pytest.TempPathFactory) -> JointCard:
    return card_of(tmp_path_factory.mktemp("job"))


def stand_in(folder: Path, monkeypatch: pytest.MonkeyPatch, code: str) -> None:
    """A library `typst` of the user's machine that does something else than set pages."""
    (folder / "typst.py").write_text(code, encoding="utf-8")
    monkeypatch.setenv("PYTHONPATH", str(folder))


def test_one_answer_gives_one_file(card: JointCard) -> None:
    assert card_pdf(card, size="a4") == card_pdf(card, size="a4")
    assert card_pdf(card, size="a4") != card_pdf(card, size="letter")


def test_only_the_fonts_of_the_library_are_used(card: JointCard, tmp_path: Path) -> None:
    assert fonts(card_pdf(card, size="a4"), tmp_path) == {"LibertinusSerif", "DejaVuSansMono"}


def test_the_library_is_missing(card: JointCard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(tmp_path, monkeypatch, "raise ImportError('not here')\n")
    with pytest.raises(PressMissing) as refused:
        card_pdf(card, size="a4")
    assert str(refused.value) == (
        f"Nothing was printed: the Python package `typst`, which sets the pages, cannot be loaded by {sys.executable}.\n"
        f"Install it with `{sys.executable} -m pip install typst`, then print again. The book is untouched."
    )


def test_the_press_hangs(card: JointCard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(tmp_path, monkeypatch, "import time\ntime.sleep(60)\n")
    start = time.monotonic()
    with pytest.raises(PressTooSlow) as refused:
        press("card.typ", {}, size="a4", dated_as=NOON, longest_s=0.5)
    assert time.monotonic() - start < 10
    assert str(refused.value) == (
        "Nothing was printed: the pages were not set within 0.5 s, the limit of this program.\n"
        "Try again when the machine has less to do, or print one joint at a time."
    )


@pytest.mark.parametrize(
    ("code", "said"),
    [
        ("import os\nos._exit(9)\n", "it ended with code 9 and said nothing"),
        ("raise RuntimeError('out of ink')\n", "RuntimeError: out of ink"),
        (
            "TypstError = ValueError\ndef compile(*_, **__): raise ValueError('no such page')\n",
            "no such page",
        ),
        ("def compile(*_, **__): return b'not a PDF'\n", "it ended with code 0 and said nothing"),
    ],
)
def test_the_press_fails(
    card: JointCard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: str, said: str
) -> None:
    stand_in(tmp_path, monkeypatch, code)
    with pytest.raises(PressFailed) as refused:
        card_pdf(card, size="a4")
    assert str(refused.value) == (
        f"Nothing was printed: setting the pages failed ({said}).\nThe book is untouched, and the same answer stands "
        "in the terminal. This is a fault of the program: report it with this message."
    )
    assert isinstance(refused.value, InputError)


def test_data_that_a_template_does_not_know_fails_in_words() -> None:
    with pytest.raises(PressFailed, match=r"dictionary does not contain key \"cards\""):
        press("card.typ", {}, size="a4", dated_as=NOON)


def test_a_file_beside_the_person_is_no_library(
    card: JointCard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "typst.py").write_text("raise ImportError\n", encoding="utf-8")
    (tmp_path / "json.py").write_text("raise ImportError\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert card_pdf(card, size="a4").startswith(b"%PDF-")


def test_a_print_has_a_largest_size(card: JointCard, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(press_module, "LARGEST", 1000)
    with pytest.raises(PrintTooLarge, match=r"the limit of this program is 0 MB. Print one joint at a time"):
        card_pdf(card, size="a4")


def test_paper_of_an_unknown_size(card: JointCard) -> None:
    with pytest.raises(SizeUnknown) as refused:
        card_pdf(card, size="a5")
    assert str(refused.value) == "`a5` is no size of paper here. Known: a4, letter."


def test_every_mark_of_the_trade_is_in_the_fonts(tmp_path: Path) -> None:
    """A mark that a font lacks is left out of the words of the file."""
    marks = "° · ² ³ – − ± µ → × ÷ ′ ″ ≤ ≥ ½ ¼ ¾ ⌀ Ω … “ ” ’ ö é ß Ж"
    assert "".join(marks.split()) in words(card_pdf(card_of(tmp_path, where=marks), size="a4"))


def test_texts_are_made_fit_for_paper() -> None:
    assert for_paper({"a": ["one\ntwo\t three", "x\u202ey\x07z"], "n": 3, "none": None}) == {
        "a": ["one two three", "x·y·z"],
        "n": 3,
        "none": None,
    }
    assert for_paper("-0.06 mm (-0.0024 in), -0.10 to 0.00 mm, -30 °C, 5-25 N·m, ART-0-1, 2026-03-07") == (
        "−0.06 mm (−0.0024 in), −0.10 to 0.00 mm, −30 °C, 5-25 N·m, ART-0-1, 2026-03-07"
    )


def test_an_hour_is_read_the_same_everywhere() -> None:
    assert moment_words(NOON) == "March 7, 2026, 12:00 (UTC+01:00)"
    assert moment_words("2026-11-25T07:29:45-03:30") == "November 25, 2026, 07:29 (UTC-03:30)"


def test_a_print_keeps_and_says_what_its_drawings_show(tmp_path: Path) -> None:
    made = card_pdf(card_of(tmp_path, placed=True), size="a4")
    assert keeps(made)
    told = alternatives(made)
    assert any(text.startswith("Bolts as they stand, by their place in the order: 1: ") for text in told)
    assert any(text.startswith("Clock of the paint mark, 0° → 90°") for text in told)


def test_a_letter_that_no_font_holds_is_printed_all_the_same(tmp_path: Path) -> None:
    made = card_pdf(card_of(tmp_path, name="Bolts 螺栓"), size="a4")
    assert made.startswith(b"%PDF-")
    assert not keeps(made)


def test_the_same_book_gives_the_same_bytes_at_another_hour(tmp_path: Path) -> None:
    """Only an entry makes another print: the foot and the file carry the hour of the last one."""
    begun = job(tmp_path)
    bench = begun.bench()
    later = replace(bench, now=bench.now + timedelta(hours=3, seconds=7))
    before = card_pdf(ask_card(bench, "many"), size="a4")
    assert card_pdf(ask_card(later, "many"), size="a4") == before
    assert squashed(f"Book as of {moment_words(bench.state.last_time)}") in words(before)
    begun.record("note", text="one more entry")
    assert card_pdf(ask_card(begun.bench(), "many"), size="a4") != before
