"""What is paid, what came back, and what is still to be paid. Expected values are HAND: sums of what each test writes."""

from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.costs.model import Account
from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import SHEET, SHOP_KIT
from tests.unit.bench.costs.priced import account, line, paid, priced_job

OF_GASKET: dict[str, Any] = {"part": "head_gasket"}


@pytest.fixture
def shopping(tmp_path: Path) -> Job:
    """A job with parts to buy: at least cost nuts are 0.90 each, the gasket 36.50, shipping 4.50, all in the south."""
    return priced_job(tmp_path, sheet=SHEET, kit=SHOP_KIT)


def still_to_come(of: Account) -> str:
    return of.to_come.words if of.to_come is not None else "nothing"


def test_more_that_came_back_than_was_paid_is_a_gain_and_nothing_is_owed(tmp_path: Path) -> None:
    job = priced_job(tmp_path)
    paid(job, "Engine hoist", "200")
    paid(job, "Engine hoist", "250", way="got back")
    found = account(job)
    # HAND: 200 − 250 = −50, and nothing was ordered
    assert (line(job, "Engine hoist").counts, found.spent) == ("−50 EUR", "50 EUR got back")
    assert found.said == "50 EUR more came back than was spent, and nothing more is expected."
    assert still_to_come(found) == "nothing"
    assert line(job, "Engine hoist").note == (
        "nothing was expected under these words, so it comes on top; 50 EUR more came back than was paid for it: look "
        "whether both amounts are right"
    )


def test_more_back_than_was_paid_is_told_when_it_is_recorded(shopping: Job) -> None:
    paid(shopping, "gasket", "20", **OF_GASKET)
    paid(shopping, "gasket", "10", **OF_GASKET)
    back: dict[str, Any] = {"what": "the gasket", "currency": "EUR", "way": "got back", "part": "Head gasket"}
    assert shopping.record("money", amount="30", **back).remarks == ()
    told = shopping.record("money", amount="30", **back)
    # HAND: 30 + 30 = 60 back, 20 + 10 = 30 paid
    (said,) = told.remarks
    assert said.startswith("60 EUR came back in all for Head gasket, and 30 was paid for it.")
    assert shopping.record("money", what="core", amount="5", currency="EUR", way="got back").remarks == ()


def test_an_order_that_was_paid_and_refunded_is_not_owed_again(shopping: Job) -> None:
    shopping.record("part-ordered", part="head_gasket", supplier="north", amount="41.00", currency="EUR")
    paid(shopping, "gasket", "41", **OF_GASKET)
    paid(shopping, "gasket", "41", way="got back", **OF_GASKET)
    one = line(shopping, "Head gasket")
    # HAND: 41 ordered, all 41 of it paid; 41 − 41 = 0. It went back, so it is to be bought again, for 36.50.
    assert (one.counts, one.spent, one.note) == (
        "36.50 EUR", "0 EUR", "36.50 EUR is asked for what is still to be ordered",
    )  # fmt: skip
    closing = account(shopping, closing=True).closing
    assert closing is not None
    assert closing.said == ()


def test_what_came_back_of_a_deposit_leaves_the_rest_of_the_order_to_pay(shopping: Job) -> None:
    shopping.record("part-ordered", part="head_gasket", supplier="north", amount="41.00", currency="EUR")
    paid(shopping, "deposit", "10", **OF_GASKET)
    paid(shopping, "rebate", "4", way="got back", **OF_GASKET)
    one = line(shopping, "Head gasket")
    # HAND: 10 − 4 = 6 spent, 41 − 10 = 31 not paid, 37 in all
    assert (one.counts, one.spent) == ("37.00 EUR", "6 EUR")
    assert one.note == "31.00 EUR of the order is not paid yet"
    closing = account(shopping, closing=True).closing
    assert closing is not None
    assert closing.said == ("Agreed, and by the book not paid: Head gasket, 31.00 EUR.",)


def test_an_order_that_is_paid_in_another_currency_is_told(shopping: Job) -> None:
    shopping.record("part-ordered", part="head_gasket", supplier="north", amount="41.00", currency="EUR")
    paid(shopping, "Head gasket", "45", currency="USD")
    assert line(shopping, "Head gasket").counts == "41.00 EUR"
    assert line(shopping, "Head gasket", "USD").note == (
        "ordered in EUR and paid in USD, so it stands in both accounts: strike the order, and write it down once more with "
        "what it came to in USD"
    )
