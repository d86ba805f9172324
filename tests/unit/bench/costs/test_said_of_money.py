"""What is refused of money, in whole texts; and hours of the shop. Expected amounts are HAND: hours times the rate."""

from pathlib import Path
from typing import Any

import pytest

from gudgeon.errors import InputError, RecordError
from tests.unit.bench.costs.priced import cost, line, priced_job

COST = {"what": "head", "low": "1", "likely": "2", "high": "3", "currency": "EUR"}
PAID = {"what": "head", "amount": "5", "currency": "EUR"}
TOLD = {"at": "start", "low": "1", "middle": "2", "high": "3", "currency": "EUR", "to": "Ada"}
RATES = "gudgeon: kit 1\nrates: {machine_shop_hour: 60.50 EUR}\n"


def order(low: str, likely: str, high: str) -> str:
    return (
        f"{low} at best, {likely} as a rule and {high} at worst cannot be: the first is at most the second, and that at "
        "most the third. Look which of them is wrong."
    )


def no_amount(what: str, said: str) -> str:
    return (
        f"`{said}` is no amount for “{what}”. Write a number that is not below 0, like `42.50`, without marks for "
        "thousands; the currency stands apart."
    )


def no_currency(said: str) -> str:
    return (
        f"`{said}` is no currency. A book takes its three letters by ISO 4217, like `USD` or `EUR`: write those, without the "
        "sign and apart from the amount."
    )


def not_nothing(said: str) -> str:
    return (
        f"`{said}` is no amount for “amount”: it is more than 0 in a book. Write how much it is; what came back is said as "
        "got back, not below 0."
    )


def no_chance(said: str) -> str:
    return f"`{said}` is no chance. Write a number above 0 and at most 1, like `0.3`, or in percent, like `30 %`."


@pytest.mark.parametrize(("kind", "fields", "said"), [
    ("cost-expected", COST | {"low": "2.01"}, order("2.01", "2", "3")),
    ("cost-expected", COST | {"high": "1.99"}, order("1", "2", "1.99")),
    ("cost-expected", COST | {"low": "-1"}, no_amount("at best", "-1")),
    ("cost-expected", COST | {"likely": "two"}, no_amount("as a rule", "two")),
    ("cost-expected", COST | {"high": "inf"}, no_amount("at worst", "inf")),
    ("cost-expected", COST | {"high": "3 EUR"}, no_amount("at worst", "3 EUR")),
    ("cost-expected", COST | {"chance": "0"}, no_chance("0")),
    ("cost-expected", COST | {"chance": "1.01"}, no_chance("1.01")),
    ("cost-expected", COST | {"chance": "130 %"}, no_chance("130 %")),
    ("estimate-told", TOLD | {"low": "4"},
     "A range from 4 to 3 with 2 in the middle cannot be: the first is at most the middle, and that at most the last. Look "
     "which of them is wrong."),
    ("money", PAID | {"currency": "€"}, no_currency("€")),
    ("money", PAID | {"currency": "EURO"}, no_currency("EURO")),
    ("cost-expected", COST | {"currency": "EURO"}, no_currency("EURO")),
    ("ceiling-agreed", {"amount": "5", "currency": "€", "by": "Ada"}, no_currency("€")),
    ("money", PAID | {"amount": "abc"}, no_amount("amount", "abc")),
    ("money", PAID | {"amount": "-5"}, no_amount("amount", "-5")),
    ("money", PAID | {"amount": "1,000"}, no_amount("amount", "1,000")),
    ("money", PAID | {"amount": "0"}, not_nothing("0")),
    ("ceiling-agreed", {"amount": "0.00", "currency": "EUR", "by": "Ada"}, not_nothing("0.00")),
    ("estimate-told", TOLD | {"middle": "nan"}, no_amount("as often more as less than", "nan")),
    ("ceiling-agreed", {"amount": "-5", "currency": "EUR", "by": "Ada"}, no_amount("amount", "-5")),
    ("approval", {"what": "seal", "answer": "yes", "by": "Ada", "amount": "much", "currency": "EUR"},
     no_amount("amount", "much")),
    ("cost-expected", COST | {"low": "1 h"},
     "`1 h` is said in hours, and a cost of the kind `other` has no rate. Only what the machine shop does (`shop`) may "
     "be said in hours. Write an amount, like `42.50`."),
    ("cost-expected", COST | {"low": "1 h", "of": "shop"},
     "`1 h` cannot be made an amount: what an hour of the machine shop costs stands in the kit (`rates: "
     "machine_shop_hour`), and the kit does not say it. Write it there, like `60 EUR`, or write an amount here."),
])  # fmt: skip
def test_what_cannot_be_is_refused(tmp_path: Path, kind: str, fields: dict[str, Any], said: str) -> None:
    job = priced_job(tmp_path)
    with pytest.raises(InputError) as refused:
        job.record(kind, **fields)
    assert str(refused.value) == said
    assert job.bench().state.agreed.costs == {}


@pytest.mark.parametrize(("kind", "fields", "why"), [
    ("approval", {"what": "seal", "answer": "yes", "by": "Ada", "amount": "5"},
     "an amount and its currency are said together"),
    ("approval", {"what": "seal", "answer": "perhaps", "by": "Ada"}, "answer"),
])  # fmt: skip
def test_what_no_book_keeps_is_refused(tmp_path: Path, kind: str, fields: dict[str, Any], why: str) -> None:
    job = priced_job(tmp_path)
    with pytest.raises((InputError, RecordError), match=why):
        job.record(kind, **fields)


def test_a_decimal_comma_is_taken(tmp_path: Path) -> None:
    job = priced_job(tmp_path)
    cost(job, "head", "10,50", "12", "13,25")
    one = line(job, "head")
    assert (one.low, one.likely, one.high) == ("10.50", "12", "13.25")


def test_hours_of_the_shop_are_reckoned_at_its_rate(tmp_path: Path) -> None:
    job = priced_job(tmp_path, kit=RATES)
    cost(job, "head", "1.5 h", "2 hours", "200", of="shop", basis="by telephone")
    one = line(job, "head")
    # HAND: 1.5 · 60.50 = 90.75; 2 · 60.50 = 121
    assert (one.low, one.likely, one.high) == ("90.75", "121", "200")
    assert one.basis == "by telephone, 1.5 – 2 h at 60.50 EUR an hour"


@pytest.mark.parametrize(("rates", "currency", "said"), [
    ("rates: {machine_shop_hour: 60.50 EUR}", "USD",
     "`1 h` at 60.50 EUR an hour, as the kit says, is no amount in USD: currencies are never converted. Write the "
     "currency of the kit, or an amount."),
    ("rates: {machine_shop_hour: 60 an hour}", "EUR",
     "`1 h` cannot be made an amount: what an hour of the machine shop costs stands in the kit (`rates: "
     "machine_shop_hour`), and the kit says `60 an hour`, which is no amount. Write it there, like `60 EUR`, or write "
     "an amount here."),
])  # fmt: skip
def test_a_rate_that_does_not_fit_is_refused(tmp_path: Path, rates: str, currency: str, said: str) -> None:
    job = priced_job(tmp_path, kit=f"gudgeon: kit 1\n{rates}\n")
    with pytest.raises(InputError) as refused:
        cost(job, "head", "1 h", of="shop", currency=currency)
    assert str(refused.value) == said
