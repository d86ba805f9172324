"""The choice of shims for all valves: against every choice there is, and what it says where nothing fits."""

import random
from dataclasses import replace

import pytest

from gudgeon.calc.engine.shim_choice import choose
from gudgeon.calc.engine.shim_errors import WorthTooLarge
from gudgeon.calc.engine.shim_proof import OptimumNotProved, Prices, check_prices
from gudgeon.calc.engine.shim_valves import AIMS, Shim, Supply, Valve
from tests.unit.calc.engine_shims import counted, every_choice, some_supply, some_valves

GOOD = Valve("intake 1", 2_400_000, 200_000, 200_000, 150_000, 250_000)
TIGHT = Valve("intake 2", 2_400_000, 100_000, 100_000, 150_000, 250_000)
LOOSE = Valve("intake 3", 2_300_000, 300_000, 300_000, 150_000, 250_000)


@pytest.mark.parametrize("seed", range(60))
def test_no_choice_of_all_is_better(seed: int) -> None:
    chance = random.Random(seed)
    valves = some_valves(chance, chance.randint(1, 4))
    supply = some_supply(chance, stock=chance.randint(0, 1), sizes=chance.randint(0, 3))
    found = choose(valves, supply=supply)
    best = min(counted(valves, given) for given in every_choice(valves, supply))
    assert counted(valves, [one.shim for one in found.fitted]) == best == found.total == found.prices.bound


@pytest.mark.long
@pytest.mark.parametrize("seed", range(40))
def test_no_choice_of_all_is_better_for_five(seed: int) -> None:
    chance = random.Random(1000 + seed)
    valves = some_valves(chance, 5)
    supply = some_supply(chance, stock=1, sizes=chance.randint(0, 2))
    found = choose(valves, supply=supply)
    assert found.total == min(counted(valves, given) for given in every_choice(valves, supply))


def test_the_places_serve_each_other_before_anything_is_bought() -> None:
    # HAND: 2.40 with 0.10 and 2.30 with 0.30: exchanged both have 0.20, the middle of 0.15 to 0.25.
    found = choose([TIGHT, LOOSE], supply=Supply(to_buy=((2_350_000, 480), (2_300_000, 480))))
    assert [(one.shim.origin, one.shim.at) for one in found.fitted] == [("place", 1), ("place", 0)]
    assert [one.low_nm for one in found.fitted] == [200_000, 200_000]
    assert (found.inside, found.bought, found.moved, found.from_the_middle_nm) == (2, 0, 2, 0.0)


def test_stock_comes_before_the_shop() -> None:
    found = choose([TIGHT], supply=Supply(((2_325_000, 1),), ((2_300_000, 480),)))
    assert (found.fitted[0].shim.origin, found.fitted[0].low_nm, found.bought) == ("stock", 175_000, 0)


def test_fewest_are_bought_before_they_are_cheap() -> None:
    # HAND: the one that lies in stock serves either; of the two to buy, 2.25 is the cheaper and does for both.
    supply = Supply(((2_300_000, 1),), ((2_300_000, 900), (2_275_000, 300), (2_325_000, 300)))
    found = choose([TIGHT, replace(TIGHT, name="intake 4")], supply=supply)
    assert (found.bought, found.money, found.inside) == (1, 300, 2)
    assert {one.shim.origin for one in found.fitted} == {"stock", "bought"}


def test_of_what_is_equal_the_thinner_is_bought() -> None:
    found = choose([TIGHT], supply=Supply((), ((2_325_000, 300), (2_275_000, 300))))
    assert found.fitted[0].shim.thickness_nm == 2_275_000


def test_what_is_good_and_in_the_middle_stays() -> None:
    twin = replace(GOOD, name="intake 4")
    found = choose([GOOD, twin], supply=Supply(((2_400_000, 5),), ((2_400_000, 1),)))
    assert (found.moved, found.bought) == (0, 0)


def test_a_blade_beyond_the_limit_is_in_doubt_and_bought_for() -> None:
    # HAND: 0.14 to 0.16 against 0.15 to 0.25 proves nothing; one of 2.35 makes it 0.19 to 0.21.
    valve = replace(GOOD, low_nm=140_000, high_nm=160_000)
    assert choose([valve], supply=Supply()).fitted[0].verdict == "in doubt"
    found = choose([valve], supply=Supply((), ((2_350_000, 480),)))
    assert (found.fitted[0].verdict, found.fitted[0].low_nm, found.bought) == ("inside", 190_000, 1)


def test_a_guard_keeps_off_the_limit() -> None:
    near = replace(GOOD, low_nm=152_000, high_nm=152_000, guard_kept_nm=2_000, guard_changed_nm=5_000)
    assert choose([near], supply=Supply()).fitted[0].verdict == "inside"
    found = choose([replace(near, guard_kept_nm=2_001)], supply=Supply())
    assert found.fitted[0].verdict == "in doubt"
    other = replace(near, shim_nm=2_500_000, low_nm=50_000, high_nm=50_000)
    found = choose([other], supply=Supply(((2_398_000, 1),)))
    assert (found.fitted[0].low_nm, found.fitted[0].verdict) == (152_000, "in doubt")


def test_a_valve_that_nothing_brings_inside_is_named_with_the_nearest() -> None:
    far = replace(TIGHT, low_nm=0, high_nm=0)
    found = choose([GOOD, far], supply=Supply(((2_350_000, 1),), ((2_300_000, 480), (2_275_000, 480))))
    assert [(one.at, one.shim.thickness_nm, one.low_nm, one.verdict) for one in found.never] == [
        (1, 2_275_000, 125_000, "outside")
    ]
    # HAND: outside it stays, so nothing is bought for it; what lies in stock comes nearer than its own.
    assert [one.shim.origin for one in found.fitted] == ["place", "stock"]
    assert (found.inside, found.bought, found.fitted[1].low_nm) == (1, 0, 50_000)


def test_no_valve_takes_the_shim_that_another_needs_more() -> None:
    # HAND: the 2.30 in stock serves both; only one of them finds help elsewhere, by the 2.35 of the series.
    half = Valve("intake 5", 2_400_000, 140_000, 140_000, 150_000, 250_000)
    found = choose([half, TIGHT], supply=Supply(((2_310_000, 1),), ((2_350_000, 480),)))
    assert [one.shim.origin for one in found.fitted] == ["bought", "stock"]


def test_nothing_at_all() -> None:
    found = choose([], supply=Supply(((2_300_000, 1),)))
    assert (found.fitted, found.total) == ((), (0, 0, 0, 0, 0, 0))


def test_neither_stock_nor_series() -> None:
    found = choose([TIGHT], supply=Supply())
    assert (found.fitted[0].shim, found.inside) == (Shim(2_400_000, "place", 0), 0)


def test_more_in_stock_than_valves() -> None:
    pair = [TIGHT, replace(TIGHT, name="intake 4")]
    found = choose(pair, supply=Supply(((2_300_000, 1000),)))
    assert (found.inside, {(one.shim.at, one.shim.number) for one in found.fitted}) == (2, {(0, 0), (0, 1)})


def test_what_cannot_be_exact_is_refused() -> None:
    with pytest.raises(WorthTooLarge) as refused:
        choose([GOOD], supply=Supply((), ((2_350_000, 10**12 + 1),)))
    assert str(refused.value) == (
        "A price of 1,000,000,000,001 is more than the 1,000,000,000,000 up to which the best choice is worked out "
        "exactly. Check prices, sizes and their units."
    )
    with pytest.raises(WorthTooLarge, match=r"^A distance from the middle of 1,999,995,200,000 is more than"):
        choose([GOOD], supply=Supply(((10**12, 1),)))


ZERO = (0,) * len(AIMS)


def _prices_of(given: list[Shim], supply: Supply) -> Prices:
    return choose([TIGHT, LOOSE], supply=supply).prices


def test_the_check_refuses_what_is_not_the_best() -> None:
    kept = [Shim(2_400_000, "place", 0), Shim(2_300_000, "place", 1)]
    swapped = [kept[1], kept[0]]
    prices = _prices_of(swapped, Supply())
    assert check_prices([TIGHT, LOOSE], supply=Supply(), given=swapped, prices=prices) == prices.bound
    with pytest.raises(OptimumNotProved):
        check_prices([TIGHT, LOOSE], supply=Supply(), given=kept, prices=prices)


def test_the_check_refuses_prices_that_ask_too_much() -> None:
    swapped = [Shim(2_300_000, "place", 1), Shim(2_400_000, "place", 0)]
    prices = _prices_of(swapped, Supply())
    dear = Prices(
        (tuple(one + (at == 3) for at, one in enumerate(prices.of_valves[0])), *prices.of_valves[1:]),
        prices.of_shims,
    )
    with pytest.raises(OptimumNotProved):
        check_prices([TIGHT, LOOSE], supply=Supply(), given=swapped, prices=dear)
    above = Prices(prices.of_valves, ((0, 0, 0, 1, 0, 0), *prices.of_shims[1:]))
    with pytest.raises(OptimumNotProved, match=r"^the price of a shim is not that of one$"):
        check_prices([TIGHT, LOOSE], supply=Supply(), given=swapped, prices=above)


@pytest.mark.parametrize(
    ("given", "why"),
    [
        ([Shim(2_300_000, "place", 1)] * 2, "a shim is given twice, or none there is"),
        ([Shim(2_300_000, "place", 1), Shim(2_350_000, "stock", 0)], "a shim is given twice, or none there is"),
        ([Shim(2_350_000, "bought", 0), Shim(2_300_000, "place", 1)], "a size is bought that cannot be had"),
    ],
)  # fmt: skip
def test_the_check_refuses_shims_that_are_not_there(given: list[Shim], why: str) -> None:
    with pytest.raises(OptimumNotProved) as refused:
        check_prices([TIGHT, LOOSE], supply=Supply(), given=given, prices=Prices((ZERO, ZERO), (ZERO, ZERO)))
    assert str(refused.value) == why
