"""Bores and journals by planes and directions: what decides, what is missing, what shape it is."""

import math
from dataclasses import replace

import pytest

from gudgeon.calc.errors import Negative, NotFinite, NotPositive
from gudgeon.calc.metrology import round_errors
from gudgeon.calc.metrology.diameters import (
    Diameters,
    conicity,
    cylindricity_estimate,
    out_of_round,
    roundness_estimate,
    shape,
    taper,
)
from gudgeon.errors import InputError

# Three heights, two directions, as service manuals ask for: across the crank, and along it.
BORE = Diameters(
    ("top", "middle", "low"),
    ("across", "along"),
    ((88.030, 88.012), (88.021, 88.010), (88.004, 88.002)),
    heights_mm=(10.0, 60.0, 110.0),
)


def along(*values: float | None) -> Diameters:
    """One direction, planes from 1 on."""
    return Diameters(
        tuple(f"{n}" for n in range(1, len(values) + 1)), ("x",), tuple((one,) for one in values)
    )


def test_out_of_round_is_the_largest_difference_at_one_height() -> None:
    # COMMON PRACTICE: max over heights of |D_A − D_B|; HAND: 0.018, 0.011, 0.002
    found = out_of_round(BORE)
    assert found.value_mm == pytest.approx(0.018)
    assert (str(found.larger), str(found.smaller)) == ("top, across", "top, along")
    assert found.missing == ()
    assert roundness_estimate(BORE).value_mm == pytest.approx(0.009)


def test_taper_is_the_largest_difference_in_one_direction() -> None:
    # COMMON PRACTICE: max over directions of D_max − D_min along the bore; HAND: 0.026, 0.010
    found = taper(BORE)
    assert found.value_mm == pytest.approx(0.026)
    assert (str(found.larger), str(found.smaller)) == ("top, across", "low, across")


def test_cylindricity_is_half_of_the_largest_difference_of_all() -> None:
    # HAND: (88.030 − 88.002) / 2
    found = cylindricity_estimate(BORE)
    assert found.value_mm == pytest.approx(0.014)
    assert (str(found.larger), str(found.smaller)) == ("top, across", "low, along")


def test_conicity_goes_over_the_length_between_the_planes() -> None:
    # HAND: (88.030 − 88.004) / 100
    found = conicity(BORE)
    assert found.per_length == pytest.approx(0.00026)
    assert (str(found.first), str(found.last), found.length_mm) == ("top, across", "low, across", 100.0)
    upside_down = replace(BORE, rows_mm=BORE.rows_mm[::-1], heights_mm=(110.0, 60.0, 10.0))
    assert conicity(upside_down).per_length == pytest.approx(-0.00026)


def test_a_missing_reading_is_named_and_never_filled() -> None:
    gappy = Diameters(BORE.planes, BORE.directions, ((None, 88.012), (88.021, 88.010), (88.004, None)))
    # HAND: only the middle has both directions; across is left with middle and low, along with top and middle
    found = out_of_round(gappy)
    assert found.value_mm == pytest.approx(0.011)
    assert [str(one) for one in found.missing] == ["top, across", "low, along"]
    assert taper(gappy).value_mm == pytest.approx(0.017)


def test_equal_readings_name_two_places_all_the_same() -> None:
    found = out_of_round(Diameters(("top",), ("across", "along"), ((88.0, 88.0),)))
    assert found.value_mm == 0.0
    assert found.larger != found.smaller


SHAPES = [
    ("bore", (88.000, 88.040, 88.000), "barrel", "Barrel: wider at 2, x than at both ends.", ("1", "2", "3")),
    ("journal", (52.000, 52.010, 52.000), "barrel", "Barrel: thicker at 2, x than at both ends.", ("1", "2", "3")),
    ("bore", (88.030, 88.000, 88.020), "hour-glass", "Hour-glass: narrower at 2, x than at both ends.",
     ("1", "2", "3")),
    ("journal", (52.010, 52.000, 52.020), "hour-glass", "Hour-glass: thinner at 2, x than at both ends.",
     ("1", "2", "3")),
    ("bore", (88.000, 88.030, 88.030), "ridge", "Ridge: 1, x differs from all beyond it.", ("1", "2")),
    ("bore", (88.030, 88.030, 88.060), "bell mouth", "Bell mouth: 3, x differs from all beyond it.", ("3", "2")),
    ("journal", (52.020, 52.000, 52.000), "collar", "Collar: 1, x differs from all beyond it.", ("1", "2")),
    ("journal", (51.980, 52.000, 52.000), "worn end", "Worn end: 1, x differs from all beyond it.", ("1", "2")),
    ("bore", (88.030, 88.020, 88.010), "taper", "Taper: largest at 1, x, smallest at 3, x.", ("1", "3")),
    ("bore", (88.010, 88.030), "taper", "Taper: largest at 2, x, smallest at 1, x.", ("2", "1")),
    ("bore", (88.000, 88.050, 88.030, 88.010), "barrel",
     "Barrel: wider at 2, x than at both ends. If 1 lies beyond the travel of the rings, it is a ridge.",
     ("1", "2", "4")),
]  # fmt: skip


@pytest.mark.parametrize(("part", "values", "name", "words", "planes"), SHAPES)
def test_the_words_of_the_trade_for_a_worn_shape(
    part: str, values: tuple[float, ...], name: str, words: str, planes: tuple[str, ...]
) -> None:
    # COMMON PRACTICE: what each word means; the readings are made up so that one of them fits
    (found,) = shape(along(*values), part=part, same_mm=0.005)  # type: ignore[arg-type]
    assert (found.name, found.words) == (name, words)
    assert tuple(one.plane for one in found.decided_by) == planes


def test_differences_that_count_as_none_make_no_shape() -> None:
    assert shape(along(88.000, 88.005, 88.001), part="bore", same_mm=0.005) == ()
    assert shape(along(88.000, None, None), part="bore", same_mm=0.005) == ()


def test_each_direction_has_a_shape_of_its_own() -> None:
    both = Diameters(("1", "2", "3"), ("a", "b"), ((88.0, 88.03), (88.04, 88.0), (88.0, 88.03)))
    assert [one.name for one in shape(both, part="bore", same_mm=0.005)] == ["barrel", "hour-glass"]


REFUSED = [
    (lambda: out_of_round(along(88.0, 88.1)), round_errors.NothingToCompare,
     "Out-of-round cannot be said: it takes two directions at one height. Take more readings."),
    (lambda: taper(Diameters(("top", "low"), ("a", "b"), ((88.0, None), (None, 88.0)))), round_errors.NothingToCompare,
     "Taper cannot be said: it takes two heights in one direction. Take the missing ones: top, b; low, a."),
    (lambda: cylindricity_estimate(along(88.0, None)), round_errors.NothingToCompare,
     "Cylindricity cannot be said: it takes two readings. Take the missing ones: 2, x."),
    (lambda: conicity(replace(BORE, rows_mm=((88.0, 88.0), (None, None), (None, None)))),
     round_errors.NothingToCompare,
     "Conicity cannot be said: it takes two heights in one direction. "
     "Take the missing ones: middle, across; middle, along; low, across; low, along."),
    (lambda: conicity(along(88.0, 88.1)), round_errors.HeightsMissing,
     "Conicity cannot be said: it is a difference over a length, and the planes have no heights. "
     "Give the height of each plane."),
    (lambda: replace(BORE, heights_mm=(1.0, 2.0)), round_errors.HeightsUnpaired,
     "2 heights do not go with 3 planes. Give one height for each plane."),
    (lambda: replace(BORE, heights_mm=(10.0, 60.0, 60.0)), round_errors.HeightsUnordered,
     "The heights of the planes do not run one way: `low` does not come after `middle`. "
     "Write the planes in their order along the axis, each with a height of its own."),
    (lambda: replace(BORE, directions=("across", "across")), round_errors.PlaceTwice,
     "Direction `across` stands twice. Give each direction a name of its own."),
    (lambda: replace(BORE, planes=("top", "low", "top")), round_errors.PlaceTwice,
     "Plane `top` stands twice. Give each plane a name of its own."),
    (lambda: replace(BORE, planes=("top", "low")), round_errors.RowsDiffer,
     "The table of diameters does not have one row for each of 2 planes and one value for each of 2 directions. "
     "Write a missing value as missing."),
    (lambda: along(88.0, 0.0), NotPositive,
     "Diameter (2, x) 0 mm cannot be: it is above 0. Check the figure and its sign."),
    (lambda: along(88.0, math.nan), NotFinite,
     "Diameter (2, x) nan is not a finite number. Give the number that was read."),
    (lambda: shape(BORE, part="bore", same_mm=-0.001), Negative,
     "What counts as the same -0.001 mm cannot be: it is 0 or more. Check the figure and its sign."),
]  # fmt: skip


@pytest.mark.parametrize(("work", "error", "words"), REFUSED)
def test_refused(work: object, error: type[InputError], words: str) -> None:
    assert callable(work)
    with pytest.raises(error) as refusal:
        work()
    assert str(refusal.value) == words
