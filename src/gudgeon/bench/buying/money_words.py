"""Amounts in words, and as whole coins for the sums."""

from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Decimal

from gudgeon.quantity.money import Money

USUAL_DECIMALS = 2
MOST_DECIMALS = 6


def decimals_of(amounts: Iterable[Decimal]) -> int:
    """So many digits behind the point make every amount whole; two at least."""
    needed = (max(0, -int(one.as_tuple().exponent)) for one in amounts)
    return min(MOST_DECIMALS, max((USUAL_DECIMALS, *needed)))


def coins(amount: Decimal, *, decimals: int) -> int:
    """An amount as whole coins."""
    return int((amount * 10**decimals).to_integral_value(rounding=ROUND_HALF_UP))


def coins_words(count: int, *, currency: str, decimals: int) -> str:
    """Coins as an amount: `1,038.50 EUR`."""
    return f"{Decimal(count) / 10**decimals:,.{decimals}f} {currency}"


def about(amount: float, currency: str) -> str:
    """An amount that was worked out from chances: to the whole from 100 up, else with two digits behind the point."""
    return f"{amount:,.0f} {currency}" if abs(amount) >= 100 else f"{amount:.2f} {currency}"


def money_words(one: Money) -> str:
    """An amount as it was asked, with two digits behind the point at least."""
    return f"{one.amount:,.{decimals_of((one.amount,))}f} {one.currency}"
