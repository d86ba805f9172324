"""The proof that no other choice of shims is better: prices that bound every choice from below, checked exactly."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gudgeon.calc.engine.shim_valves import (
    AIMS,
    Shim,
    Supply,
    Valve,
    Worth,
    bought_shims,
    single_shims,
    worth,
)


class OptimumNotProved(RuntimeError):
    """A choice that its prices do not prove: a bug of ours."""


@dataclass(frozen=True, slots=True)
class Prices:
    """For every aim a price of each valve, and one of each shim of which there is one; a size to buy has none.

    No valve with any shim adds less than the price of both, and no shim has a price above 0; compared from the first
    aim on. So no choice comes to less than all prices together.
    """

    of_valves: tuple[Worth, ...]
    of_shims: tuple[Worth, ...]

    @property
    def bound(self) -> Worth:
        """What no choice comes below, for each aim, the first before all."""
        return tuple(sum(column) for column in zip(*self.of_valves, *self.of_shims, strict=True))


def check_prices(valves: Sequence[Valve], *, supply: Supply, given: Sequence[Shim], prices: Prices) -> Worth:
    """Check in whole numbers that no other choice is better, from the valves and shims alone.

    Equation:
        worth ≥ price of the valve + price of the shim, for every pair; Σ worth of the choice = Σ prices

    Parameters:
        valves: the valves [nm]
        supply: what can be had [nm, smallest coin]
        given: the shim that each valve gets
        prices: the prices found with it

    Returns:
        what the choice comes to, for each of AIMS [1, 1, 1, smallest coin, half nm, 1]

    Valid for:
        whole numbers of any size

    Source:
        HAND: weak duality of the assignment problem; it holds for numbers that are compared aim by aim as well, since
        what is not below 0 in that order stays so when it is added.

    Example:
        >>> one = Valve("intake 1", 2_400_000, 200_000, 200_000, 150_000, 250_000)
        >>> zero = (0,) * len(AIMS)
        >>> check_prices([one], supply=Supply(), given=[Shim(2_400_000, "place", 0)], prices=Prices((zero,), (zero,)))
        (0, 0, 0, 0, 0, 0)

    Not covered:
        whether clearances and thicknesses were read rightly.
    """
    for fault in _faults(valves, supply, given, prices):
        raise OptimumNotProved(fault)
    return tuple(
        sum(column)
        for column in zip(*(worth(one, at=at, shim=given[at]) for at, one in enumerate(valves)), strict=True)
    )


def _faults(valves: Sequence[Valve], supply: Supply, given: Sequence[Shim], prices: Prices) -> Iterator[str]:
    single, zero = single_shims(valves, supply=supply), (0,) * len(AIMS)
    listed = dict(zip(single, prices.of_shims, strict=True))
    used = [shim for shim in given if shim.origin != "bought"]
    if len(given) != len(valves) or len(set(used)) != len(used) or not set(used) <= set(single):
        yield "a shim is given twice, or none there is"
        return
    listed |= dict.fromkeys(bought_shims(supply), zero)
    for shim in given:
        if shim not in listed:
            yield "a size is bought that cannot be had"
            return
    for shim, price in listed.items():
        if price > zero or (shim not in used and price != zero):
            yield "the price of a shim is not that of one"
    for at, valve in enumerate(valves):
        for shim, price in listed.items():
            left = _less(worth(valve, at=at, shim=shim), prices.of_valves[at], price)
            if left < zero or (shim == given[at] and left != zero):
                yield f"{valve.name} with another shim is better by {left}"


def _less(whole: Worth, first: Worth, second: Worth) -> Worth:
    return tuple(all_of - one - other for all_of, one, other in zip(whole, first, second, strict=True))
