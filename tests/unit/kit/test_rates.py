"""What an hour is worth, as kits write it. Expected values are HAND: the text, read by a person."""

import pytest

from gudgeon.kit.load import parse_kit
from gudgeon.kit.rates import an_hour


@pytest.mark.parametrize(
    "text", ["20 EUR", "20 EUR an hour", "20 EUR per hour", "20 EUR/h", "€20 per h", "EUR 20"]
)
def test_an_hour_as_an_amount(text: str) -> None:
    found = an_hour(text)
    assert found is not None
    assert found.words == "20 EUR"


def test_older_kits_with_free_words_load_and_nothing_is_reckoned_with_them() -> None:
    text = "gudgeon: kit 1\nrates: {own_hour: '20 an hour, for his own account', machine_shop_hour: 60 USD}\n"
    rates = parse_kit(text, file="kit.yaml").kit.rates
    assert rates is not None
    assert (rates.own_hour, rates.own) == ("20 an hour, for his own account", None)
    assert rates.machine_shop is not None
    assert rates.machine_shop.words == "60 USD"
