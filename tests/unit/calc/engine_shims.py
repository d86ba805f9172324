"""Random valves with stock and sizes, and what a choice is worth, counted without the program."""

import random
from collections.abc import Iterator, Sequence

from gudgeon.calc.engine.shim_valves import Shim, Supply, Valve

Counted = tuple[int, int, int, int, int, int]


def some_valves(chance: random.Random, count: int) -> list[Valve]:
    """Valves as they come in for work: some good, some tight, some loose, read by dial or by blades."""
    found = []
    for at in range(count):
        low = chance.randrange(60, 360, 10) * 1000
        blades, kept = chance.choice((0, 0, 20_000, 50_000)), chance.choice((0, 5_000))
        shim = chance.randrange(2200, 2600, 25) * 1000
        least = chance.choice((150_000, 250_000))
        found.append(Valve(f"valve {at}", shim, low, low + blades, least, least + 100_000, kept, 2 * kept))
    return found


def some_supply(chance: random.Random, *, stock: int, sizes: int) -> Supply:
    """Some shims in stock, several of one size among them, and an even series at differing prices."""
    shelf = tuple(
        (chance.randrange(2150, 2650, 25) * 1000, chance.choice((1, 1, 2, 3))) for _ in range(stock)
    )
    first = chance.randrange(2000, 2400, 50) * 1000
    return Supply(
        shelf, tuple((first + 50_000 * step, chance.choice((480, 480, 600))) for step in range(sizes))
    )


def counted(valves: Sequence[Valve], given: Sequence[Shim]) -> Counted:
    """Every aim counted for a choice, from the definitions; distances are twice what they are, in nm."""
    outside = doubtful = bought = money = off = moved = 0
    for at, (valve, shim) in enumerate(zip(valves, given, strict=True)):
        stays = (shim.origin, shim.at) == ("place", at)
        guard = valve.guard_kept_nm if stays else valve.guard_changed_nm
        low = valve.low_nm + valve.shim_nm - shim.thickness_nm
        high = valve.high_nm + valve.shim_nm - shim.thickness_nm
        proven = valve.wanted_low_nm + guard <= low and high <= valve.wanted_high_nm - guard
        beyond = high < valve.wanted_low_nm - guard or low > valve.wanted_high_nm + guard
        doubtful += not proven
        outside += beyond
        bought += shim.origin == "bought"
        money += shim.price
        off += abs((low + high) - (valve.wanted_low_nm + valve.wanted_high_nm))
        moved += not stays
    return doubtful, outside, bought, money, off, moved


def every_choice(valves: Sequence[Valve], supply: Supply) -> Iterator[list[Shim]]:
    """Each way to give every valve a shim: one of a place or of stock at most once, one that is bought ever again."""
    placed = [Shim(valve.shim_nm, "place", at) for at, valve in enumerate(valves)]
    stock = [
        Shim(size, "stock", row, number)
        for row, (size, count) in enumerate(supply.stock)
        for number in range(count)
    ]
    bought = [Shim(size, "bought", row, 0, price) for row, (size, price) in enumerate(supply.to_buy)]

    def given(at: int, used: frozenset[Shim]) -> Iterator[list[Shim]]:
        if at == len(valves):
            yield []
            return
        for shim in (*placed, *stock, *bought):
            if shim not in used:
                taken = used if shim.origin == "bought" else used | {shim}
                for rest in given(at + 1, taken):
                    yield [shim, *rest]

    return given(0, frozenset())
