"""How amounts are told: what is sure to the cent, what is estimated rounded. Expected values are HAND unless said."""

from decimal import Decimal

import pytest

from gudgeon.bench.costs.amounts import a_range, exact, percent, places_of, spent_words, sure, told


@pytest.mark.parametrize(("amount", "said"), [
    ("1240.50", "1,240.50 EUR"), ("12345.67", "12,345.67 EUR"), ("0.30", "0.30 EUR"), ("1E+3", "1,000 EUR"),
    ("20000000000", "20,000,000,000 EUR"), ("0.125", "0.125 EUR"), ("-15", "−15 EUR"), ("0", "nothing"),
])  # fmt: skip
def test_what_is_sure_is_told_to_the_cent(amount: str, said: str) -> None:
    found = sure(Decimal(amount), "EUR")
    assert found.words == said
    assert (found.low, found.middle, found.high) == (float(amount),) * 3


@pytest.mark.parametrize(("points", "of_sure", "said", "three"), [
    # Three figures from a thousand up, whole amounts below, a tenth below ten.
    ((1234.5, 1555.1, 98765.4), "0", "1,230 to 98,800 EUR", ("1,230", "1,560", "98,800")),
    ((98.76, 120.4, 1004.9), "0", "99 to 1,000 EUR", ("99", "120", "1,000")),
    ((4.56, 7.0, 12.4), "0", "4.60 to 12.00 EUR", ("4.60", "7.00", "12.00")),
    # No powers of ten, however large.
    ((1.234e11, 2.5e11, 4e11), "0", "123,000,000,000 to 400,000,000,000 EUR",
     ("123,000,000,000", "250,000,000,000", "400,000,000,000")),
    ((1e15, 2e15, 3e15), "0", "1,000,000,000,000,000 to 3,000,000,000,000,000 EUR",
     ("1,000,000,000,000,000", "2,000,000,000,000,000", "3,000,000,000,000,000")),
    # Only what is uncertain is rounded: 12345.50 + 20.4, + 40.2, + 60.3.
    ((20.4, 40.2, 60.3), "12345.50", "12,366 to 12,406 EUR", ("12,366", "12,386", "12,406")),
    # What may come did not in the lower half: the sure sum stands as it is.
    ((0.0, 0.0, 80.0), "593.70", "593.70 to 674.00 EUR", ("593.70", "593.70", "674.00")),
    ((0.0, 0.0, 0.0), "593.70", "593.70 EUR", ("593.70", "593.70", "593.70")),
    ((0.0, 0.0, 0.0), "0", "nothing", ("0", "0", "0")),
    # In order, though 999 counts by ones and 1000.1 by tens: 404 + 1000.1 would be 1400.
    ((999.0, 1000.1, 1000.2), "404", "1,403 EUR", ("1,403", "1,403", "1,403")),
    ((10.0, 20.0, 40.0), "-15", "−5 to 25 EUR", ("−5", "5", "25")),
])  # fmt: skip
def test_only_what_is_estimated_is_rounded(
    points: tuple[float, ...], of_sure: str, said: str, three: tuple[str, ...]
) -> None:
    found = a_range(points, "EUR", sure=Decimal(of_sure))
    assert (found.words, told(found)) == (said, three)


@pytest.mark.parametrize(("amount", "places", "said"), [
    ("128", 2, "128.00 EUR"), ("128.5", 2, "128.50 EUR"), ("128.125", 2, "128.125 EUR"), ("1E+3", 0, "1,000 EUR"),
])  # fmt: skip
def test_an_amount_has_the_decimals_of_its_column(amount: str, places: int, said: str) -> None:
    assert exact(Decimal(amount), "EUR", places=places) == said


def test_a_column_has_the_decimals_of_its_finest_amount() -> None:
    assert places_of([Decimal(128), None, Decimal("128.50"), Decimal("1E+3")]) == 2
    assert places_of([Decimal("1E+3"), None]) == 0
    assert places_of([]) == 0


@pytest.mark.parametrize(("share", "said"), [
    (0.0, "less than 1 %"), (0.009, "less than 1 %"), (0.01, "1 %"), (0.3, "30 %"), (0.99, "99 %"),
    (0.991, "more than 99 %"), (1.0, "more than 99 %"),
])  # fmt: skip
def test_what_is_simulated_is_never_certain(share: float, said: str) -> None:
    assert percent(share) == said


def test_what_came_back_is_not_spent_below_nothing() -> None:
    assert spent_words(Decimal(-10), "EUR") == "10 EUR got back"
    assert spent_words(Decimal(10), "EUR", places=2) == "10.00 EUR"
