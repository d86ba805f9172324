"""What is let in is named; words that are let in lose what was not."""

import pytest

from gudgeon.bench.shared_page.choices import Choices, NoSuchChoice, NotOneByOne, choices_said
from gudgeon.bench.shared_page.hiding import hiding
from gudgeon.book.entries import Entry


def entry(kind: str, **body: object) -> Entry:
    return Entry(
        "0" * 32, 1, kind, 1, body, "mine", "Ada Byron", "bench computer", "2026-03-07T10:00:00+01:00", "", "", "", "",
        "", "",
    )  # fmt: skip


BOOK = (
    entry("shop-out", part="head", shop="Miller & Sons", ordered="cut it", most_off=None),
    entry("identity-read", code="TW 44-Q", read_from="pad", matches=True, why_not=None),
    entry("turned", by="hand", seen="free"),
    entry("signed-off", by="owner", words="as it is", milestone="crank"),
)


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("ADA said: mark it by hand", "(name) said: mark it by hand"),
        ("Byrons is no Byron", "Byrons is no (name)"),
        ("brought back by Miller & Sons, the owner agreed", "brought back by (name), the owner agreed"),
        ("stamped TW 44-Q beside the pad", "stamped (number) beside the pad"),
        ("typed on the bench computer", "typed on the (device)"),
        ("at 10:30, 2026-03-07; again at 9 am on 3/7/2026", "at (hour), (date); again at (hour) on (date)"),
        ("44.50 EUR, then $12 and 30 dollars", "(price), then (price) and (price)"),
        ("25 N·m, 1:4 of a turn, 0.05 mm", "25 N·m, 1:4 of a turn, 0.05 mm"),
    ],
)
def test_words_lose_what_was_not_let_in(said: str, kept: str) -> None:
    assert hiding(BOOK, Choices()).words(said) == kept


def test_what_was_let_in_stays() -> None:
    said = "Ada, 10:30 on 2026-03-07, 44 EUR, TW 44-Q, bench computer"
    everything = Choices(names=True, dates=True, hours=True, prices=True, numbers=True, devices=True)
    assert hiding(BOOK, everything).words(said) == said


def test_choices_as_they_are_said() -> None:
    assert choices_said("") == Choices()
    assert choices_said("hours, notes=12,15 photos=3,names") == Choices(
        names=True, hours=True, notes=frozenset({12, 15}), photos=frozenset({3})
    )


@pytest.mark.parametrize("said", ["notes", "notes=all", "photos=", "notes=12,photos=x"])
def test_words_and_photos_go_in_one_by_one(said: str) -> None:
    with pytest.raises(NotOneByOne, match="go in one by one"):
        choices_said(said)


@pytest.mark.parametrize("said", ["everything", "names=yes", "12", "names,12"])
def test_a_word_that_lets_nothing_in(said: str) -> None:
    with pytest.raises(NoSuchChoice) as refused:
        choices_said(said)
    assert str(refused.value).startswith(
        f"“{said.split(',')[-1]}” is nothing that can be let into a shared page."
    )
