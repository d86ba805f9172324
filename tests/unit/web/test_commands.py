"""Commands in the words of an answer lead to the pages that do the same; the addresses are those of the pages' own lists."""

import pytest

from gudgeon.web.commands import Piece, command_link, pieces


@pytest.mark.parametrize(
    ("command", "words", "address"),
    [
        ("gudgeon cut --off '0.2 mm'", "What does the cut do?", "/cut"),
        ("gudgeon cut --order", "Shop order", "/cut/order"),
        ("gudgeon cut --order block", "Shop order", "/cut/order?part=block"),
        ("gudgeon cut --back", "Is what came back what was ordered?", "/cut/back"),
        ("gudgeon cut --back block", "Is what came back what was ordered?", "/cut/back?part=block"),
        ("gudgeon print shims", "Print the shims", "/paper/shims.pdf"),
        ("gudgeon print shop-order", "Print the shop order", "/paper/shop-order.pdf"),
        ("gudgeon print shop-order --part block", "Print the shop order", "/paper/shop-order.pdf?part=block"),
        ("gudgeon print shop-back", "Print what came back", "/paper/shop-back.pdf"),
        ("gudgeon fits", "What fits where?", "/fits"),
        ("gudgeon plan", "When will it run?", "/when"),
        ("gudgeon running", "Does it run right?", "/running"),
        ("gudgeon calc engine.compression-ratio", "Work it out", "/sums/engine.compression-ratio"),
    ],
)
def test_a_command_is_a_link_to_its_page(command: str, words: str, address: str) -> None:
    assert command_link(command) == Piece(words, address)


@pytest.mark.parametrize("command", ["gudgeon print card head", "gudgeon print", "gudgeon demo"])
def test_a_command_without_a_page_of_its_own_stays_words(command: str) -> None:
    assert pieces(f"Then: {command}") == (Piece(f"Then: {command}"),)


def test_a_command_within_a_sentence_becomes_the_link_in_it() -> None:
    assert pieces("Take `gudgeon cut --order` with you") == (
        Piece("Take "),
        Piece("Shop order", "/cut/order"),
        Piece(" with you"),
    )
