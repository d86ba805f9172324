"""Valves, shims and what a choice among them is worth: exact whole numbers, so that no rounding decides."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from gudgeon.calc.engine.shim_errors import WorthTooLarge

Origin = Literal["place", "stock", "bought"]
Verdict = Literal["inside", "in doubt", "outside"]

AIMS = ("not inside", "outside", "bought", "money", "from the middle", "moved")
"""What is made least, the first before all: every later aim decides only among what the earlier ones leave equal."""

MOST_WORTH = 10**12
"""So large may a price or a distance be; sums over the valves then stay below 2^53, up to which floats are exact."""


@dataclass(frozen=True, slots=True)
class Valve:
    """One valve: the shim in it, the clearance with that, what is wanted; all in nm.

    The clearance lies between `low_nm` and `high_nm`. By a guard it must lie inside to count as inside: `guard_kept_nm`
    where its own shim stays, `guard_changed_nm` where another comes, whose thickness is uncertain too.
    """

    name: str
    shim_nm: int
    low_nm: int
    high_nm: int
    wanted_low_nm: int
    wanted_high_nm: int
    guard_kept_nm: int = 0
    guard_changed_nm: int = 0

    def after(self, shim_nm: int) -> tuple[int, int]:
        """The clearance with a shim, as far as it is known."""
        thinner = self.shim_nm - shim_nm
        return self.low_nm + thinner, self.high_nm + thinner

    def verdict(self, shim_nm: int, *, kept: bool) -> Verdict:
        """What the clearance with a shim is, as far as the readings prove it."""
        low, high = self.after(shim_nm)
        guard = self.guard_kept_nm if kept else self.guard_changed_nm
        if low >= self.wanted_low_nm + guard and high <= self.wanted_high_nm - guard:
            return "inside"
        if high < self.wanted_low_nm - guard or low > self.wanted_high_nm + guard:
            return "outside"
        return "in doubt"

    def off_middle(self, shim_nm: int) -> int:
        """Twice how far the middle of the clearance lies from the middle of what is wanted, so that it is whole."""
        low, high = self.after(shim_nm)
        return abs(low + high - self.wanted_low_nm - self.wanted_high_nm)


@dataclass(frozen=True, slots=True)
class Shim:
    """A shim that can go somewhere: of which thickness, from where; `at` is the place or the row of stock or list.

    `number` tells equal ones in stock apart; `price` is in the smallest coin.
    """

    thickness_nm: int
    origin: Origin
    at: int
    number: int = 0
    price: int = 0


@dataclass(frozen=True, slots=True)
class Supply:
    """What can be had: `stock` as thickness and count; `to_buy` as thickness and price, each any number of times."""

    stock: tuple[tuple[int, int], ...] = ()
    to_buy: tuple[tuple[int, int], ...] = ()


Worth = tuple[int, ...]
"""What one valve with one shim adds to each of the aims, in their order."""


def worth(valve: Valve, *, at: int, shim: Shim) -> Worth:
    """What a valve with a shim adds to each aim.

    Equation:
        not inside, outside, bought: 0 or 1; money: its price; from the middle: 2 · |A + T − N − V|; moved: 0 or 1

    Parameters:
        valve: the valve
        at: which of the valves it is [1]
        shim: the shim that it gets

    Returns:
        one number for each of AIMS [1, 1, 1, smallest coin, half nm, 1]

    Valid for:
        whole numbers of any size

    Source:
        HAND: counting.

    Example:
        >>> tight = Valve("exhaust 1", 2_450_000, 230_000, 250_000, 250_000, 350_000)
        >>> worth(tight, at=0, shim=Shim(2_400_000, "stock", 3))
        (0, 0, 0, 0, 20000, 1)

    Not covered:
        how sure a thickness is: see the guards of the valve.
    """
    kept = shim.origin == "place" and shim.at == at
    verdict = valve.verdict(shim.thickness_nm, kept=kept)
    return (
        int(verdict != "inside"),
        int(verdict == "outside"),
        int(shim.origin == "bought"),
        shim.price,
        valve.off_middle(shim.thickness_nm),
        int(not kept),
    )


def single_shims(valves: Sequence[Valve], *, supply: Supply) -> tuple[Shim, ...]:
    """Every shim of which there is one: those in the places, and those in stock one by one.

    Equation:
        of a size in stock as many as there are, and never more than one more than there are valves

    Parameters:
        valves: the valves with the shims in them
        supply: what else can be had

    Returns:
        the shims, those in the places first

    Valid for:
        any counts

    Source:
        HAND: one shim more than all valves could take is never wanted.

    Example:
        >>> one = Valve("intake 1", 2_400_000, 200_000, 200_000, 150_000, 250_000)
        >>> [(shim.origin, shim.number) for shim in single_shims([one], supply=Supply(stock=((2_350_000, 9),)))]
        [('place', 0), ('stock', 0), ('stock', 1)]

    Not covered:
        sizes to buy, which can be had any number of times.
    """
    placed = [Shim(valve.shim_nm, "place", at) for at, valve in enumerate(valves)]
    stock = [
        Shim(size, "stock", row, number)
        for row, (size, count) in enumerate(supply.stock)
        for number in range(min(count, len(valves) + 1))
    ]
    return (*placed, *stock)


def bought_shims(supply: Supply) -> tuple[Shim, ...]:
    """Every size that can be bought.

    Equation:
        one shim for each size

    Parameters:
        supply: what can be had

    Returns:
        the shims

    Valid for:
        sizes that can be had any number of times

    Source:
        HAND: listing.

    Example:
        >>> bought_shims(Supply(to_buy=((2_350_000, 480),)))[0].price
        480

    Not covered:
        sizes of which the dealer has few.
    """
    return tuple(Shim(size, "bought", row, 0, price) for row, (size, price) in enumerate(supply.to_buy))


def refuse_too_large(valves: Sequence[Valve], *, supply: Supply) -> None:
    """Refuse what could not be worked out exactly.

    Equation:
        every price and twice every distance is at most 10^12

    Parameters:
        valves: the valves
        supply: what can be had

    Returns:
        nothing

    Valid for:
        up to a thousand valves: their sum stays below 2^53

    Source:
        HAND: whole numbers below 2^53 are exact as floats (IEEE 754, 64 bits).

    Example:
        >>> refuse_too_large([], supply=Supply())

    Not covered:
        sense: a shim of a meter is not refused.
    """
    for _, price in supply.to_buy:
        if not 0 <= price <= MOST_WORTH:
            raise WorthTooLarge("A price", price, MOST_WORTH)
    sizes = [size for size, _ in (*supply.stock, *supply.to_buy)] + [one.shim_nm for one in valves]
    for valve in valves:
        most = max((valve.off_middle(size) for size in sizes), default=0)
        if most > MOST_WORTH:
            raise WorthTooLarge("A distance from the middle", most, MOST_WORTH)
