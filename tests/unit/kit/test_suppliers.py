"""Suppliers of a kit: how their amounts, times and packs are read, and what of them is refused, with its line."""

from decimal import Decimal

import pytest

from gudgeon.kit.load import parse_kit
from gudgeon.kit.suppliers import Supplier
from gudgeon.quantity.money import Money
from gudgeon.written.errors import FileRefused

HEAD = "gudgeon: kit 1\nsuppliers:\n  north:\n"


def supplier(lines: str) -> Supplier:
    return parse_kit(HEAD + lines, file="kit.yaml").kit.suppliers["north"]


def refused(lines: str) -> str:
    with pytest.raises(FileRefused) as caught:
        parse_kit(HEAD + lines, file="kit.yaml")
    return str(caught.value)


def test_everything_is_read_exactly() -> None:
    one = supplier(
        "    name: North Parts\n    shipping: 6.90 EUR\n    free_from: €150\n    least_order: 20 eur\n    lead: 2-4 days\n"
        "    sells:\n      head_gasket: 38.50 EUR\n"
        "      nuts: {price: 12.40 EUR, pack: 10, article: copper, lead: 1 week, also: [1.30 EUR]}\n"
    )
    assert (one.shipping, one.free_from, one.least_order) == (
        Money(Decimal("6.90"), "EUR"),
        Money(Decimal(150), "EUR"),
        Money(Decimal(20), "EUR"),
    )
    assert one.lead is not None
    assert (one.lead.least_days, one.lead.most_days, one.lead.text) == (2, 4, "2-4 days")
    gasket, nuts = one.sells["head_gasket"], one.sells["nuts"]
    assert (gasket.price.words, gasket.pack, gasket.articles) == ("38.50 EUR", 1, (gasket,))
    assert nuts.lead is not None
    assert (nuts.pack, nuts.article, nuts.lead.most_days) == (10, "copper", 7)
    assert [other.price.words for other in nuts.articles] == ["12.40 EUR", "1.30 EUR"]


@pytest.mark.parametrize(
    ("written", "days"),
    [
        ("same day", (0, 0)),
        ("1 day", (1, 1)),
        ("2–4 days", (2, 4)),
        ("2 to 3 weeks", (14, 21)),
        ("0-1 days", (0, 1)),
    ],
)
def test_how_long_it_takes(written: str, days: tuple[int, int]) -> None:
    lead = supplier(f"    name: N\n    shipping: 0 EUR\n    lead: {written}\n").lead
    assert lead is not None
    assert (lead.least_days, lead.most_days) == days


BASE = "    name: N\n    shipping: 5 EUR\n"


@pytest.mark.parametrize(
    ("lines", "message"),
    [
        (
            "    name: N\n    shipping: -5 EUR\n",
            "line 5, column 15: shipping: `-5 EUR` is below 0. Write what is asked, like `38.50 EUR`.",
        ),
        (
            "    name: N\n    shipping: 5,90 EUR\n",
            "line 5, column 15: shipping: `5,90 EUR` is no amount of money. Write the amount with a point and the "
            "currency, like `38.50 EUR`.",
        ),
        ("    name: N\n", "line 4, column 5: `shipping` is missing here. Write it with its value."),
        (
            BASE + "    sells: {gasket: 38.50}\n",
            "line 6, column 21: gasket: `38.50` is no amount of money. Write the amount with a point and the currency, "
            "like `38.50 EUR`.",
        ),
        (
            BASE + "    sells: {gasket: 0 EUR}\n",
            "line 6, column 21: gasket: `0 EUR` is no price. Write more than 0, or take the line out where none is known.",
        ),
        (
            BASE + "    sells: {nuts: {price: 2 EUR, also: [0.00 EUR]}}\n",
            "line 6, column 41: also: `0.00 EUR` is no price. Write more than 0, or take the line out where none is known.",
        ),
        (
            BASE + "    sells: {gasket: {price: -1 EUR}}\n",
            "line 6, column 29: price: `-1 EUR` is below 0. Write what is asked, like `38.50 EUR`.",
        ),
        (
            BASE + "    sells: {gasket: {price: 1 EUR, pack: 0}}\n",
            "line 6, column 42: pack: `0` is no pack. Write how many pieces are in one, 1 or more.",
        ),
        (
            BASE + "    sells: {gasket: {price: 1 EUR, packs: 2}}\n",
            "line 6, column 36: `packs` is not a known key here. Did you mean `pack`?",
        ),
        (
            BASE + "    sells: {gasket: 1 USD}\n",
            "line 6, column 21: gasket: 1 USD stands beside a shipping in EUR, and the two cannot be added. Write all "
            "amounts of a supplier in one currency.",
        ),
        (
            BASE + "    free_from: 90 GBP\n",
            "line 6, column 16: free_from: 90 GBP stands beside a shipping in EUR, and the two cannot be added. Write all "
            "amounts of a supplier in one currency.",
        ),
        (
            "    name: N\n    shipping: 0 EUR\n    free_from: 90 EUR\n",
            "line 6, column 16: free_from: shipping from N is free anyway (0 EUR). Write what it costs below that value, "
            "or take the line out.",
        ),
        (
            BASE + "    lead: soon\n",
            "line 6, column 11: lead: `soon` is no time until it comes. Write it like `3 days`, `2-4 days`, `1 week` or "
            "`same day`.",
        ),
        (
            BASE + "    lead: 4-2 days\n",
            "line 6, column 11: lead: `4-2 days` ends before it begins. Write the shorter time first, like `2-4 days`.",
        ),
        (
            BASE + "    lead: -2 days\n",
            "line 6, column 11: lead: `-2 days` is no time until it comes. Write it like `3 days`, `2-4 days`, `1 week` "
            "or `same day`.",
        ),
        (
            BASE + "  south:\n    name: n\n    shipping: 5 EUR\n",
            "line 7, column 11: name: n is also the name of `north`. Give each supplier a name of its own.",
        ),
    ],
)
def test_what_cannot_be_is_refused_with_its_line(lines: str, message: str) -> None:
    assert message in refused(lines)
