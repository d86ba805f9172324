"""Rings among the bores, pistons to bores, equal weights: sizes are invented, what is expected is worked by hand."""

import math
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.bench.fits.answer import Fit
from gudgeon.bench.fits.ask import fits
from gudgeon.bench.fits.weights import grams
from tests.unit.bench.fits.fitted import FITS, bores, engine, placed
from tests.unit.bench.judging.judged import Read


def one_fit(read: Read, what: str, *, sheet: str = FITS, unit: str = "mm") -> Fit:
    (found,) = fits(engine(read, sheet=sheet, unit=unit), what=what).fits
    return found


def told(found: Fit) -> list[tuple[str, str, str, str]]:
    return [(one.place, one.fitted, one.result, one.verdict) for one in found.choices]


BORES = bores("70.00", "70.04", "70.02")


def test_a_short_ring_goes_into_a_small_bore() -> None:
    # HAND: 0.20 in 70.00 is outside 0.25. In 70.04 it is 0.20 + π · 0.04 = 0.326; 0.45 comes to 0.324 in 70.00.
    found = one_fit({**BORES, **placed("top_gap", "cylinder", "0.20", "0.45", "0.33")}, "top_gap")
    assert told(found) == [
        ("cylinder 1", "the ring of cylinder 2", "0.324 mm (0.0128 in)", "inside"),
        ("cylinder 2", "the ring of cylinder 1", "0.326 mm (0.0128 in)", "inside"),
        ("cylinder 3", "its own ring", "0.330 mm (0.0130 in)", "inside"),
    ]
    assert [one.verdict_before for one in found.choices] == ["outside", "inside", "inside"]
    assert found.improved == "3 of 3 inside; with each ring left where it is 2"
    assert found.wanted == "new 0.25–0.40 mm, wear limit max 0.80 mm"
    assert found.steps == (
        "Lay every set down with a label of its cylinder before one is moved.",
        "Ring of cylinder 2 into cylinder 1",
        "Ring of cylinder 1 into cylinder 2",
        "Measure every gap again where the ring is now.",
    )
    assert found.cautions[1].startswith("A top ring stays a top ring and a second a second")


def test_the_uncertainty_of_a_moved_ring_counts_the_bores() -> None:
    # HAND: blades ± 0.01: u = 0.00577. Each bore is the mean of two readings of one micrometer, u of the difference
    # of two means between 0 and 0.002/√3 · √2, times π: together twice u is 0.0115 to 0.0126 mm, more than 0.0115.
    found = one_fit({**BORES, **placed("top_gap", "cylinder", "0.20", "0.45", "0.33")}, "top_gap")
    assert found.choices[2].uncertainty == "± 0.012 mm (0.00045 in)"
    assert found.choices[0].uncertainty == "± 0.013 mm (0.00050 in)"


def test_bores_that_differ_over_their_height_make_it_less_certain() -> None:
    # HAND: cylinder 2 is wider by 0.04 on top and 0.00 below: 0.02 on the mean; π · 0.04 / 2 / √3 = 0.0363 added to u.
    read = {**bores("70.00", "70.00", "70.00"), ("bore", "cylinder 2, top"): "70.04"}
    found = one_fit({**read, **placed("top_gap", "cylinder", "0.20", "0.45", "0.33")}, "top_gap")
    moved = next(one for one in found.choices if one.place == "cylinder 2")
    assert moved.fitted == "the ring of cylinder 1"
    u = math.hypot(0.0363, 0.00577)
    assert abs(float(moved.uncertainty.split()[1]) - 2 * u) < 0.002
    assert moved.result == "0.263 mm (0.0103 in)"  # 0.20 + π · 0.02 = 0.2628


def test_rings_stay_where_nothing_that_can_be_told_is_gained() -> None:
    # HAND: all inside, and all in bores alike: to exchange 0.32 and 0.33 changes nothing at all.
    read = {**bores("70.00", "70.00", "70.00"), **placed("top_gap", "cylinder", "0.32", "0.33", "0.34")}
    found = one_fit(read, "top_gap")
    assert [one.fitted for one in found.choices] == ["its own ring"] * 3
    assert (
        found.improved
        == "3 of 3 inside as they are; no exchange betters that by more than these gauges can tell"
    )
    assert found.steps == ()


def test_a_ring_that_fits_nowhere_says_what_to_do() -> None:
    read = {**bores("70.00", "70.00", "70.00"), **placed("top_gap", "cylinder", "0.10", "0.90", "0.55")}
    small, large, used = one_fit(read, "top_gap").choices
    assert (small.verdict, small.reason) == ("outside", "too small: file the ends")
    assert (large.verdict, large.reason) == ("outside", "too large: another ring")
    assert (used.verdict, used.reason) == ("inside", "larger than that of a new ring")


def test_without_bores_the_gaps_are_judged_as_they_are() -> None:
    found = one_fit(placed("top_gap", "cylinder", "0.20", "0.33", ""), "top_gap")
    assert told(found) == [
        ("cylinder 1", "its own ring", "0.200 mm (0.0079 in)", "outside"),
        ("cylinder 2", "its own ring", "0.330 mm (0.0130 in)", "inside"),
    ]
    assert found.missing == (
        "no reading: Gap of the top ring, cylinder 3",
        "no reading: Bore, cylinder 1; cylinder 2",
    )
    unnamed = one_fit(placed("top_gap", "cylinder", "0.20", "0.33", "0.3"), "top_gap",
                      sheet=FITS.replace("  ring_bore: bore\n", ""))  # fmt: skip
    assert unnamed.missing == (
        "fits.ring_bore names no characteristic, so no gap in another bore can be worked out",
    )


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.integers(15, 55), min_size=3, max_size=3),
    st.lists(st.integers(0, 6), min_size=3, max_size=3),
)
def test_no_exchange_of_rings_has_more_inside(gaps: list[int], sizes: list[int]) -> None:
    """Brute force over all exchanges; a gap counts as inside when it is so by more than the gauges may be off."""
    said = [f"{one / 100:.2f}" for one in gaps]
    at = [70 + one / 100 for one in sizes]
    read = {**bores(*(f"{one:.2f}" for one in at)), **placed("top_gap", "cylinder", *said)}
    found = one_fit(read, "top_gap")
    order = [
        int(one.fitted.rpartition(" ")[2]) - 1 if one.fitted.startswith("the ring of") else place
        for place, one in enumerate(found.choices)
    ]

    def outside(rings: tuple[int, ...], *, by: float) -> int:
        """How many gaps lie below the least of 0.25 by more than this; a ring keeps its length."""
        made = [gaps[ring] / 100 + math.pi * (at[place] - at[ring]) for place, ring in enumerate(rings)]
        return sum(one < 0.25 - by for one in made)

    assert sorted(order) == [0, 1, 2]
    # Proven outside is what lies 1.645 u below the limit: with u from 0.00577 to 0.0068 mm 0.0095 to 0.0112 mm.
    least = min(outside(one, by=0.0094) for one in permutations(range(3)))
    assert outside(tuple(order), by=0.0113) <= least


def test_pistons_go_where_is_it_good_puts_them() -> None:
    # HAND: as they are 70.00 − 69.975 = 0.025, 70.04 − 69.955 = 0.085 and 70.02 − 69.995 = 0.025: all outside.
    # 69.955 in 70.00, 69.995 in 70.04 and 69.975 in 70.02 have 0.045 each, the middle of 0.03 to 0.06.
    read = {**BORES, **placed("piston", "cylinder", "69.975", "69.955", "69.995")}
    found = one_fit(read, "clearance")
    assert told(found) == [
        ("cylinder 1", "Piston of cylinder 2", "0.045 mm (0.0018 in)", "inside"),
        ("cylinder 2", "Piston of cylinder 3", "0.045 mm (0.0018 in)", "inside"),
        ("cylinder 3", "Piston of cylinder 1", "0.045 mm (0.0018 in)", "inside"),
    ]
    assert [(one.before, one.verdict_before) for one in found.choices] == [
        ("0.025 mm (0.00098 in)", "outside"),
        ("0.085 mm (0.0033 in)", "outside"),
        ("0.025 mm (0.00098 in)", "outside"),
    ]
    assert found.choices[0].found == "clearance 0.025 mm (0.00098 in) with its own"
    assert found.improved == "3 of 3 inside; with each part where it is 0"
    assert found.steps[0] == "Mark every part with its place before one is moved."


def test_pistons_without_readings_are_named() -> None:
    found = one_fit({**BORES, **placed("piston", "cylinder", "69.975", "", "69.995")}, "clearance")
    assert found.choices == ()
    assert found.missing == ("no reading: Piston, cylinder 2",)


def masses(pistons: tuple[str, ...], rods: tuple[str, ...]) -> Read:
    return {**placed("piston_mass", "cylinder", *pistons), **placed("rod_mass", "cylinder", *rods)}


def test_the_heaviest_piston_takes_the_lightest_rod() -> None:
    # HAND: 405 + 600, 402 + 601, 400 + 609 = 1005, 1003, 1009; the lightest 1003; 1009 − 1003 − 3 = 3 g come off.
    # As they are: 405 + 609, 402 + 600, 400 + 601 = 1014, 1002, 1001: 13 g apart.
    found = one_fit(masses(("405", "402", "400"), ("609", "600", "601")), "weights", unit="g")
    assert told(found) == [
        ("cylinder 1", "rod of cylinder 2", "1005.0 g (35.45 oz)", "inside"),
        ("cylinder 2", "rod of cylinder 3", "1003.0 g (35.38 oz)", "inside"),
        ("cylinder 3", "rod of cylinder 1", "1009.0 g (35.59 oz)", "outside"),
    ]
    assert found.choices[2].reason == "3.0 g (0.11 oz) too heavy: that much comes off"
    assert found.choices[0].found == "piston 405.0 g (14.29 oz), rod 609.0 g (21.48 oz)"
    assert found.improved == (
        "6.0 g (0.21 oz) between the heaviest and the lightest; with each rod where it is 13.0 g (0.46 oz)"
    )
    assert found.steps == (
        "Rod of cylinder 2 to the piston of cylinder 1",
        "Rod of cylinder 3 to the piston of cylinder 2",
        "Rod of cylinder 1 to the piston of cylinder 3",
    )
    assert found.wanted == "they differ by max 3 g"


def test_rods_stay_where_no_pairing_is_more_even() -> None:
    # HAND: 400 + 602, 401 + 601, 402 + 600 = 1002 g each.
    found = one_fit(masses(("400", "401", "402"), ("602", "601", "600")), "weights", unit="g")
    assert [one.fitted for one in found.choices] == ["its own rod"] * 3
    assert found.improved == (
        "0.0 g (0.00 oz) between the heaviest and the lightest; no other pairing is more even"
    )


def test_a_difference_too_near_to_the_limit_is_in_doubt() -> None:
    # HAND: 3.1 g apart against 3 g; the scale errs by ± 0.2 g, so 0.1 g cannot be told.
    found = one_fit(masses(("400", "400", "400"), ("600", "600", "603.1")), "weights", unit="g")
    assert found.choices[2].verdict == "in doubt"
    assert found.choices[2].reason == "0.1 g (0.00 oz) too heavy: that much comes off"


def test_pistons_alone_are_compared_with_the_lightest() -> None:
    alone = FITS.replace(", rods: rod_mass", "")
    found = one_fit(placed("piston_mass", "cylinder", "400", "402", "406"), "weights", sheet=alone, unit="g")
    assert told(found) == [
        ("cylinder 1", "as it is", "400.0 g (14.11 oz)", "inside"),
        ("cylinder 2", "as it is", "402.0 g (14.18 oz)", "inside"),
        ("cylinder 3", "as it is", "406.0 g (14.32 oz)", "outside"),
    ]
    assert found.improved == "6.0 g (0.21 oz) between the heaviest and the lightest"


def test_weights_that_are_lacking_are_named() -> None:
    found = one_fit(masses(("400", "", "402"), ("602", "601", "")), "weights", unit="g")
    assert found.missing == (
        "no reading: Piston weighed, cylinder 2",
        "no reading: Rod weighed, cylinder 3",
    )


def test_without_a_limit_nothing_comes_off() -> None:
    free = FITS.replace(", most_difference: max 3 g", "")
    found = one_fit(masses(("400", "401", "409"), ("600", "600", "600")), "weights", sheet=free, unit="g")
    assert {one.verdict for one in found.choices} == {"not measured"}
    assert found.missing == (
        "fits.weights states no most_difference, so nothing is said of what has to come off",
    )


@pytest.mark.parametrize(("mass", "said"), [(28.349523125, "28.3 g (1.00 oz)"), (-0.01, "0.0 g (0.00 oz)")])
def test_grams_and_ounces(mass: float, said: str) -> None:
    # An ounce is 28.349523125 g (Weights and Measures Act 1985).
    assert grams(mass) == said
