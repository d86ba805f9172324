"""How far cylinders differ: lowest to highest, as a difference or a share, or below the mean of all.

The same sums judge readings of the book, with their uncertainties, and the figures that a person gives.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.calc.engine.running_errors import ShareOutside, TooFewCylinders
from gudgeon.calc.errors import not_negative


@dataclass(frozen=True, slots=True)
class Spread:
    """Readings of cylinders compared; cylinders count from 1 in the order of the readings."""

    lowest: float
    highest: float
    mean: float
    lowest_cylinder: int
    highest_cylinder: int

    @property
    def difference(self) -> float:
        """Lowest to highest, in the unit of the readings."""
        return below_highest(self.lowest, highest=self.highest)

    @property
    def share(self) -> float:
        """The lowest as a share of the highest."""
        return share_of_highest(self.lowest, highest=self.highest)

    @property
    def below(self) -> float:
        """How far the lowest lies below the mean, as a share of the mean."""
        return below_mean(self.lowest, mean=self.mean)


def below_highest(reading: float, *, highest: float) -> float:
    """How far a cylinder lies below the highest.

    Equation:
        highest − reading

    Parameters:
        reading: of this cylinder [kPa]
        highest: the highest of all [kPa]

    Returns:
        difference [kPa]

    Valid for:
        readings of one kind, in one unit, read in one way

    Source:
        HAND: a difference.

    Example:
        >>> below_highest(1000.0, highest=1100.0)
        100.0

    Not covered:
        which of the two is wrong.
    """
    return highest - reading


def share_of_highest(reading: float, *, highest: float) -> float:
    """A cylinder as a share of the highest; where the highest is nothing, all are alike.

    Equation:
        reading / highest

    Parameters:
        reading: of this cylinder [kPa]
        highest: the highest of all [kPa]

    Returns:
        share [1]

    Valid for:
        readings of one kind, in one unit, read in one way

    Source:
        HAND: a share.

    Example:
        >>> share_of_highest(900.0, highest=1200.0)
        0.75

    Not covered:
        a highest reading that is too high, as with oil or carbon in that cylinder.
    """
    return reading / highest if highest > 0 else 1.0


def below_mean(reading: float, *, mean: float) -> float:
    """How far a cylinder lies below the mean of all, as a share of the mean; minus is above it.

    Equation:
        1 − reading / mean

    Parameters:
        reading: of this cylinder [kPa]
        mean: of all cylinders, this one among them [kPa]

    Returns:
        share [1]

    Valid for:
        readings of one kind, in one unit, read in one way

    Source:
        HAND: a share.

    Example:
        >>> round(below_mean(900.0, mean=1000.0), 3)
        0.1

    Not covered:
        one very low cylinder among few: it pulls the mean down with it.
    """
    return 1 - reading / mean if mean > 0 else 0.0


def spread_of(readings: Sequence[float]) -> Spread:
    """The lowest, the highest and the mean of cylinders.

    Equation:
        least, greatest and sum / count

    Parameters:
        readings: one for each cylinder, in their order [kPa]

    Returns:
        the readings compared [kPa]; its shares [1]

    Valid for:
        two cylinders and more, all read in one way

    Source:
        HAND: by definition.

    Example:
        >>> found = spread_of([1200.0, 1180.0, 900.0, 1190.0])
        >>> found.lowest_cylinder, found.share, found.difference
        (3, 0.75, 300.0)

    Not covered:
        uncertainty of the readings: the judging of the book has it.
    """
    if len(readings) < 2:
        raise TooFewCylinders(len(readings))
    values = [not_negative(one, "Reading", unit="kPa") for one in readings]
    lowest, highest = min(values), max(values)
    mean = math.fsum(values) / len(values)
    return Spread(lowest, highest, mean, values.index(lowest) + 1, values.index(highest) + 1)


def within(spread: Spread, *, rule: str, limit: float) -> bool:
    """Whether cylinders differ no more than a rule allows.

    Equation:
        absolute: difference ≤ limit; ratio to highest: share ≥ limit; percent below mean: below ≤ limit

    Parameters:
        spread: the readings compared
        rule: `absolute`, `ratio to highest` or `percent below mean`
        limit: of the rule [kPa, or a share of 1]

    Returns:
        whether they do

    Valid for:
        the three rules that manuals print

    Source:
        TM 5-3895-359-14&P (25 psi), TM 5-4210-230-14&P-1 p. 883 (75 % of the highest); percent below the mean is
        COMMON PRACTICE.

    Example:
        >>> within(spread_of([1200.0, 900.0]), rule="ratio to highest", limit=0.75)
        True

    Not covered:
        a least pressure for each cylinder: that is a limit of its own.
    """
    slack = 1e-9
    if rule == "absolute":
        return spread.difference <= not_negative(limit, "Limit", unit="kPa") * (1 + slack)
    if not 0 <= limit <= 1:
        raise ShareOutside("Limit", limit)
    if rule == "ratio to highest":
        return spread.share >= limit * (1 - slack)
    return spread.below <= limit * (1 + slack) + slack
