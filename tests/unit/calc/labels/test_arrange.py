"""What stands on a label never overlaps, and what folds round a wire reads the right way up."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc.labels.arrange import LEAST_SQUARE_MM, MOST_SQUARE_MM, arranged, flag
from gudgeon.calc.labels.errors import FlagTooShort, LabelTooSmall
from gudgeon.calc.labels.sheet import Box

SQUARES = 29
TINY = 1e-9


def apart(one: Box, other: Box) -> bool:
    return (
        one.left_mm + one.width_mm <= other.left_mm + TINY
        or other.left_mm + other.width_mm <= one.left_mm + TINY
        or one.top_mm + one.height_mm <= other.top_mm + TINY
        or other.top_mm + other.height_mm <= one.top_mm + TINY
    )


def within(one: Box, wide: float, high: float) -> bool:
    return (
        one.left_mm >= -TINY
        and one.top_mm >= -TINY
        and one.left_mm + one.width_mm <= wide + TINY
        and one.top_mm + one.height_mm <= high + TINY
    )


@given(st.floats(15, 210), st.floats(8, 297))
def test_boxes_stay_on_the_label_and_apart(wide: float, high: float) -> None:
    made = arranged(width_mm=wide, height_mm=high, squares=SQUARES)
    boxes = [made.signs, made.words, *([made.picture] if made.picture else [])]
    assert all(within(one, wide, high) and one.width_mm > 5 and one.height_mm > 1 for one in boxes)
    assert all(apart(one, other) for number, one in enumerate(boxes) for other in boxes[:number])
    if made.picture is not None:
        assert LEAST_SQUARE_MM - TINY <= made.square_mm <= MOST_SQUARE_MM + TINY
        assert made.picture.width_mm == made.picture.height_mm == pytest.approx(SQUARES * made.square_mm)


@pytest.mark.parametrize(
    ("wide", "high", "square"),
    # HAND: 29 squares of 0.4 mm are 11.6 mm; of 0.7 mm 20.3 mm
    [
        (63.5, 33.9, 0.7),
        (44.45, 12.7, 12.7 / 29),
        (60.0, 11.5, 0.0),
        (25.0, 40.0, (0.52 * 40 - 4) / 29),
        (16.0, 20.0, 0.0),
    ],
)
def test_the_picture_is_as_large_as_is_of_use(wide: float, high: float, square: float) -> None:
    made = arranged(width_mm=wide, height_mm=high, squares=SQUARES)
    assert made.square_mm == pytest.approx(square)
    assert (made.picture is None) == (square == 0.0)


def test_a_label_that_holds_no_code_is_refused() -> None:
    with pytest.raises(LabelTooSmall) as refused:
        arranged(width_mm=14.9, height_mm=30, squares=SQUARES)
    assert str(refused.value) == (
        "A label of 14.9 × 30 mm is too small: its code can be read from 15 × 8 mm on (common practice). "
        "Take larger labels."
    )


@pytest.mark.parametrize(("wide", "high"), [(99.1, 38.1), (38.1, 99.1)])
def test_both_halves_read_the_right_way_up_once_they_are_folded(wide: float, high: float) -> None:
    """HAND: what is folded back about an upright line turns about that line, and whoever walks round it to read it turns
    the same way: up stays up. What is folded back about a level line stands on its head for him."""
    made = flag(width_mm=wide, height_mm=high, wire_mm=6.0)
    first, second = made.halves
    by_folding = 0 if made.along == "width" else 180
    assert made.along == ("width" if wide > high else "height")
    assert (second.turn_deg, (first.turn_deg + by_folding) % 360) == (0, 0)
    assert (first.box.width_mm, first.box.height_mm) == (second.box.width_mm, second.box.height_mm)
    strip = made.strip.width_mm if made.along == "width" else made.strip.height_mm
    assert strip == pytest.approx(math.pi * 6.0 + 2.0)
    boxes = [first.box, made.strip, second.box]
    assert all(within(one, wide, high) for one in boxes)
    assert sum(one.width_mm * one.height_mm for one in boxes) == pytest.approx(wide * high)
    assert all(apart(one, other) for number, one in enumerate(boxes) for other in boxes[:number])


def test_a_flag_that_is_too_short_is_refused() -> None:
    """HAND: π · 14 + 2 = 45.98; (63.5 − 45.98) / 2 = 8.76."""
    with pytest.raises(FlagTooShort) as refused:
        flag(width_mm=63.5, height_mm=33.9, wire_mm=14.0)
    assert str(refused.value) == (
        "A flag of 63.5 mm is too short for a wire of 14 mm: 46.0 mm go round it, and that leaves 8.8 mm for each half; "
        "a half is 15 mm or more, or nobody reads it (common practice). Take longer labels."
    )
    with pytest.raises(FlagTooShort, match="that leaves nothing for the halves"):
        flag(width_mm=30, height_mm=20, wire_mm=14.0)
