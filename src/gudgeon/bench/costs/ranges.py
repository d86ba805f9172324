"""Ranges: what is sure is summed exactly, what is uncertain is simulated; the seed is the first entry of the book."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from gudgeon.bench.costs.amounts import a_range, sure
from gudgeon.bench.costs.expected import Expected
from gudgeon.bench.costs.model import Range
from gudgeon.sources.costs import erring_together

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

TRIALS = 4_000
SEED_DIGITS = 8
HALF_A_CENT = 0.005
"""Amounts are drawn in binary fractions, in which 0.10 and 0.20 come to more than 0.30: less than this is no excess."""
UNLIKELY = 0.1
"""Above the ceiling in more than one case of ten: then the owner is asked first."""


@dataclass(frozen=True, slots=True)
class Total:
    """A sum of which a part is sure and the rest is simulated; no outcomes where all of it is sure."""

    fixed: Decimal
    drawn: "Floats | None"

    def range(self, currency: str) -> Range:
        """10, 50 and 90 percent, as they are told."""
        if self.drawn is None:
            return sure(self.fixed, currency)
        from gudgeon.calc.planning.estimate import percentiles

        return a_range(percentiles(self.drawn), currency, sure=self.fixed)

    def high(self) -> float:
        """The 90 percent as they are, not rounded."""
        if self.drawn is None:
            return float(self.fixed)
        from gudgeon.calc.planning.estimate import percentiles

        return float(self.fixed) + percentiles(self.drawn)[2]

    def within(self, limit: Decimal) -> float:
        """How likely it stays at or under a limit."""
        if self.drawn is None:
            return 1.0 if self.fixed <= limit else 0.0
        return float((self.drawn <= float(limit - self.fixed) + HALF_A_CENT).mean())


def total(fixed: Decimal, uncertain: Iterable[Expected], *, first: str) -> Total:
    """The sum of what is sure and of what is expected; what is expected at one amount for certain is sure as well."""
    drawn: list[Expected] = []
    for one in uncertain:
        if one.certain:
            fixed += one.likely
        else:
            drawn.append(one)
    return Total(fixed, _outcomes(drawn, first) if drawn else None)


def _outcomes(expected: Sequence[Expected], first: str) -> "Floats":
    import numpy as np

    from gudgeon.calc.planning.costs import UncertainCost, drawn_costs
    from gudgeon.calc.planning.estimate import ThreePoint

    costs = [
        UncertainCost(ThreePoint(float(one.low), float(one.likely), float(one.high)), float(one.chance))
        for one in expected
    ]
    return drawn_costs(
        costs, random=np.random.default_rng(seed_of(first)), trials=TRIALS, together=erring_together().value
    )


def seed_of(first: str) -> int:
    """The seed of a book, from the hash of its first entry: a range moves when a cost does, never by an entry more."""
    return int(first[:SEED_DIGITS] or "0", 16)


def behind(first: str) -> tuple[str, ...]:
    """How the ranges are made, in words."""
    together = erring_together()
    return (
        "A range leaves out one case of ten at each end: in one of ten it is less than the first amount, in one more "
        "than the second.",
        "Every estimate is drawn between what it is at best and at worst, around what it is as a rule (a beta "
        f"distribution with the classical mean), {TRIALS:,} times; seed {seed_of(first)}, from the first entry.",
        f"Estimates of one job err together: correlation {together.value:g} between any two ({together.source}). What "
        "comes by chance comes by itself.",
        "What is paid, ordered or priced counts as it was written down, to the cent.",
    )
