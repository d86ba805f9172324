"""Amounts of money as they are written: exact, each in its currency."""

import re
from dataclasses import dataclass
from decimal import Decimal

from gudgeon.errors import InputError, short

_NUMBER, _COIN = r"\d{1,15}(?:\.\d{1,6})?", r"[A-Za-z]{3}|[€$£¥]"
_MONEY = re.compile(
    rf"(?P<amount>{_NUMBER})\s*(?P<coin>{_COIN})|(?P<coin_first>{_COIN})\s*(?P<amount_last>{_NUMBER})",
    re.ASCII,
)
SYMBOLS = {"€": "EUR", "$": "USD", "£": "GBP", "¥": "JPY"}
"""The signs that stand for one currency here; any other is written with its three letters."""


class MoneyUnreadable(InputError):
    """A text that is no amount with a currency."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"`{short(text)}` is no amount of money. Write the amount with a point and the currency, like `38.50 EUR`."
        )


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in a currency, by its three letters (ISO 4217)."""

    amount: Decimal
    currency: str

    @property
    def words(self) -> str:
        """`4.80 EUR`."""
        return f"{self.amount:f} {self.currency}"


def money_in(text: str) -> Money | None:
    """An amount with its currency before or behind it; None where the text is something else.

    Example:
        >>> money_in("$38.50").words, money_in("20 an hour")
        ('38.50 USD', None)
    """
    found = _MONEY.fullmatch(text.strip())
    if found is None:
        return None
    amount, coin = found["amount"] or found["amount_last"], found["coin"] or found["coin_first"]
    return Money(Decimal(amount), SYMBOLS.get(coin, coin.upper()))


def parse_money(text: str) -> Money:
    """An amount with its currency; refuses anything else.

    Example:
        >>> parse_money("38.50 eur").words
        '38.50 EUR'
    """
    found = money_in(text)
    if found is None:
        raise MoneyUnreadable(text)
    return found
