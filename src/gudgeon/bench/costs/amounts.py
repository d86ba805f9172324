"""Amounts and ranges in words."""

from collections.abc import Iterable, Sequence
from decimal import Decimal
from itertools import accumulate

from gudgeon.bench.costs.expected import Expected
from gudgeon.bench.costs.model import Range

FIGURES = 3
"""A simulated amount from a thousand up is told to so many figures, a smaller one to the whole: more is chance."""
CENTS = 2
NO_COST = "nothing"


def exact(amount: Decimal, currency: str, *, places: int = 0) -> str:
    """An exact amount, with the digits that were written, and at least so many decimals.

    Example:
        >>> exact(Decimal("1240.50"), "EUR"), exact(Decimal(-15), "USD"), exact(Decimal(128), "EUR", places=2)
        ('1,240.50 EUR', '−15 USD', '128.00 EUR')
    """
    return f"{digits(amount, places=places)} {currency}"


def digits(amount: Decimal, *, places: int = 0) -> str:
    """An exact amount without its currency."""
    return f"{amount:,.{max(places, places_of([amount]))}f}".replace("-", "−")


def places_of(amounts: Iterable[Decimal | None]) -> int:
    """How many decimals a column of amounts has: those of the finest of them.

    Example:
        >>> places_of([Decimal("128"), Decimal("128.50")])
        2
    """
    return max((0, *(-int(one.as_tuple().exponent) for one in amounts if one is not None)))


def spent_words(amount: Decimal, currency: str, *, places: int = 0) -> str:
    """What was spent; where more came back, that it did.

    Example:
        >>> spent_words(Decimal(-10), "EUR")
        '10 EUR got back'
    """
    if amount < 0:
        return f"{exact(-amount, currency, places=places)} got back"
    return exact(amount, currency, places=places)


def sure(amount: Decimal, currency: str) -> Range:
    """A sum of which nothing is uncertain, to the cent."""
    return Range(float(amount), float(amount), float(amount), exact(amount, currency) if amount else NO_COST)


def a_range(points: Sequence[float], currency: str, *, sure: Decimal = Decimal(0)) -> Range:
    """A range from the 10, 50 and 90 percent of what is uncertain, and what is sure; only the first is rounded."""
    low, middle, high = accumulate((_rounded(one, sure) for one in points), max)
    found = Range(low, middle, high, "")
    first, _, last = told(found)
    if low == high:
        return Range(low, middle, high, f"{first} {currency}" if low else NO_COST)
    return Range(low, middle, high, f"{first} to {last} {currency}")


def _rounded(uncertain: float, sure: Decimal) -> float:
    """A simulated amount with what is sure, as it is told."""
    amount, size = float(sure) + uncertain, abs(uncertain)
    if not uncertain:
        return amount
    if size < 1000:
        return round(amount, 0 if size >= 10 else 1) + 0.0
    return float(round(amount, FIGURES - len(f"{size:.0f}"))) + 0.0


def told(of: Range) -> tuple[str, str, str]:
    """The three amounts of a range without their currency, all with the same decimals.

    Example:
        >>> told(Range(4.6, 7.0, 1230.0, ""))
        ('4.60', '7.00', '1,230.00')
    """
    amounts = [Decimal(repr(one)) for one in (of.low, of.middle, of.high)]
    whole = all(one == one.to_integral_value() for one in amounts)
    places = 0 if whole else max(CENTS, places_of(amounts))
    low, middle, high = (f"{one:,.{places}f}".replace("-", "−") for one in amounts)
    return low, middle, high


def three(one: Expected, *, places: int = 0) -> str:
    """What is expected, in words: `80 to 180 EUR, as a rule 100`; one amount where there is only one."""
    if one.low == one.high:
        return exact(one.likely, one.currency, places=places)
    return (
        f"{digits(one.low, places=places)} to {exact(one.high, one.currency, places=places)}, "
        f"as a rule {digits(one.likely, places=places)}"
    )


def percent(share: float) -> str:
    """A share as so many of a hundred; what was simulated is never told as none or all.

    Example:
        >>> percent(0.3), percent(0.9996), percent(1.0), percent(0.0001)
        ('30 %', 'more than 99 %', 'more than 99 %', 'less than 1 %')
    """
    if share < 0.01:
        return "less than 1 %"
    if share > 0.99:
        return "more than 99 %"
    return f"{100 * share:.0f} %"
