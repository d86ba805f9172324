"""Amounts of money as they are written. Expected values are HAND: the text itself, read by a person."""

from decimal import Decimal

import pytest

from gudgeon.quantity.money import Money, MoneyUnreadable, money_in, parse_money


@pytest.mark.parametrize(("text", "amount", "currency"), [
    ("38.50 EUR", "38.50", "EUR"),
    ("38.5eur", "38.5", "EUR"),
    ("$ 7", "7", "USD"),
    ("£0.05", "0.05", "GBP"),
    ("1200 ¥", "1200", "JPY"),
    ("  CHF 12.00 ", "12.00", "CHF"),
])  # fmt: skip
def test_an_amount_keeps_its_digits_and_its_currency(text: str, amount: str, currency: str) -> None:
    found = parse_money(text)
    assert found == Money(Decimal(amount), currency)
    assert found.words == f"{amount} {currency}"


@pytest.mark.parametrize("text", [
    "", "38.50", "EUR", "-3 EUR", "3,50 EUR", "1 000 EUR", "1e3 EUR", "3 EURO", "3 EUR USD", "EUR 3 EUR", "٣ EUR",
    "20 an hour", ".5 EUR", "5. EUR", "nan EUR",
])  # fmt: skip
def test_anything_else_is_no_money(text: str) -> None:
    assert money_in(text) is None
    with pytest.raises(MoneyUnreadable) as refused:
        parse_money(text)
    assert str(refused.value) == (
        f"`{text}` is no amount of money. Write the amount with a point and the currency, like `38.50 EUR`."
    )
