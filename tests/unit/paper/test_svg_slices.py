"""A tall drawing in pieces: cut where nothing is drawn, and whole where that cannot be."""

import re

from gudgeon.bench.closed.model import BoltsPicture
from gudgeon.bench.pattern import Pattern, Spot
from gudgeon.paper.svg import Drawing
from gudgeon.paper.svg_bolts import bolts_svg, bolts_words
from gudgeon.paper.svg_slices import size_of, slices


def tall(*, through: bool = False) -> str:
    """Four rings below one another, 200 apart, with or without a line through all of them."""
    on = Drawing("tall", words="four rings")
    for number in range(4):
        on.add("circle", cx=100, cy=100 + 200 * number, r=60, fill="none", stroke="black")
        on.text((10, 30 + 200 * number), f"ring {number}")
    if through:
        on.path([[(100, 10), (100, 780)]], closed=False, stroke="black")
    on.bottom = 800
    return on.svg()


def test_it_is_cut_between_two_rings() -> None:
    """HAND: the second ring ends at 360, the words of the third begin at 430 less their height of 13."""
    first, second = slices(tall(), most_high=400)
    assert (size_of(first), size_of(second)) == ((360.0, 388.5), (360.0, 411.5))
    assert first.startswith(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 360 388.5" width="360" height="388.5"'
    )
    assert 'viewBox="0 388.5 360 411.5" width="360" height="411.5"' in second
    for piece, own in ((first, "01"), (second, "23")):  # what stands in the other one is not hidden in it
        assert [f"ring {number}" in piece for number in range(4)] == [
            str(number) in own for number in range(4)
        ]
        assert "<title" in piece and "<desc" in piece


def test_what_reaches_through_it_keeps_it_whole() -> None:
    drawn = tall(through=True)
    assert slices(drawn, most_high=400) == (drawn,)


def test_what_is_low_enough_stays_whole() -> None:
    drawn = tall()
    assert slices(drawn, most_high=800) == (drawn,)


def test_bolts_say_by_shape_and_in_words_how_far_they_are() -> None:
    spots = (
        Spot("1", 0, 0, "done"),
        Spot("2", 80, 0, "open"),
        Spot("3", 0, 60, "doubt"),
        Spot("4", 80, 60, "next"),
    )
    of = BoltsPicture("Test bolts", Pattern("above", spots))
    drawn = bolts_svg(of)
    assert drawn.count("<circle") == 5  # HAND: one each, and a second one around the next
    assert drawn.count("<path") == 1
    assert bolts_words(of) == (
        "Test bolts, 4 bolts by their places; done: 1; not done: 2; in doubt: 3; the next one: 4."
    )
    for words in ("full ring: done", "thin ring: not done in this stage", "double ring", "crossed: in doubt"):
        assert words in " ".join(re.findall(r">([^<]+)</text>", drawn))
