"""From whom: the least cost with shipping, without delay, in several currencies. All names and prices invented."""

from decimal import Decimal
from pathlib import Path

import pytest

from gudgeon.bench.buying.model import BuyAnswer
from gudgeon.bench.buying.money_words import about, coins_words, money_words
from gudgeon.bench.costs.amounts import exact
from gudgeon.quantity.money import Money
from tests.unit.bench.benches import KIT, Job
from tests.unit.bench.buying.purchases import SHEET, SHOP_KIT, asked, buying_job, line

FAR = """\
  far:
    name: Far Island Parts
    shipping: 9.00 USD
    sells: {rings: 55 USD, head_gasket: 20 USD}
"""
GASKETS = """\
  gasket_thickness: 1.20 mm
  gaskets:
    standard: {thickness: 1.20 mm, mark: one notch, for_cut: max 0.15 mm, source: manual p. 4}
    repair: {thickness: 1.40 mm, mark: three notches, for_cut: 0.15–0.30 mm, source: manual p. 4}
"""


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return buying_job(tmp_path)


def bought(answer: BuyAnswer, number: int = 0) -> list[tuple[str, list[tuple[str, int, str]], str]]:
    return [
        (order.supplier, [(one.name, one.pieces, one.cost) for one in order.lines], order.total)
        for order in answer.purchases[number].orders
    ]


def test_the_least_cost_counts_shipping_and_is_proven(job: Job) -> None:
    # HAND: in the south 36.50 + 4 · 0.90 = 40.10, shipping 4.50: 44.60. In the north 41.00 + 5.20 = 46.20 (a pack of
    # ten), shipping 6.90: 53.10, 8.50 more. Shared, both shippings: 36.50 + 5.20 + 11.40 or 41.00 + 3.60 + 11.40.
    answer = asked(job)
    assert bought(answer) == [
        ("Südhof Engines", [("Head gasket", 1, "36.50 EUR"), ("Exhaust nuts", 4, "3.60 EUR")], "44.60 EUR")
    ]
    (one,) = answer.purchases
    assert (one.total, one.proven, one.proof) == (
        "44.60 EUR", True, "Proven: no other way of sharing it out costs less.",
    )  # fmt: skip
    assert one.alone == ("all from Nordrand Parts: 53.10 EUR, 8.50 EUR more",)
    assert (one.orders[0].goods, one.orders[0].shipping, one.orders[0].days) == (
        "40.10 EUR",
        "4.50 EUR",
        "in 7 days",
    )


def test_without_delay_nothing_comes_later_than_what_takes_longest_anyway(job: Job) -> None:
    # HAND: from the quickest everything is there in 4 days, so the south with its week delays.
    answer = asked(job, no_delay=True)
    assert [order[0] for order in bought(answer)] == ["Nordrand Parts"]
    assert (answer.no_delay, answer.purchases[0].too_late) == (True, ())


def test_a_part_that_comes_late_from_everywhere_sets_the_day_of_all(job: Job) -> None:
    # HAND: the nuts now take 7 days at the soonest, so a gasket in a week delays nothing either.
    job.record(
        "price-seen", part="exhaust_nuts", supplier="north", price="5.20", currency="EUR", pack=10, days=9
    )
    assert [order[0] for order in bought(asked(job, no_delay=True))] == ["Südhof Engines"]


UNKNOWN = "south:\n    name: Südhof Engines\n    shipping: 4.50 EUR\n    lead: 1 week\n"


def test_without_delay_an_unknown_time_is_no_time_at_all(tmp_path: Path) -> None:
    kit = SHOP_KIT.replace(UNKNOWN, UNKNOWN.replace("    lead: 1 week\n", ""))
    job = buying_job(tmp_path, kit=kit)
    # HAND: the south is cheapest, 44.60, and says of nothing when it comes; the north has all in 4 days for 53.10.
    (cheap,) = asked(job).purchases
    assert (cheap.total, cheap.orders[0].days) == ("44.60 EUR", "")
    (one,) = asked(job, no_delay=True).purchases
    assert [(order.supplier, order.days) for order in one.orders] == [("Nordrand Parts", "in 4 days")]
    assert one.total == "53.10 EUR"
    assert one.too_late == tuple(
        f"{part}: how long it takes from Südhof Engines is not known, so it is not bought there"
        for part in ("Head gasket", "Exhaust nuts")
    )


def test_without_delay_a_part_of_which_nobody_knows_the_time_is_bought_and_told(tmp_path: Path) -> None:
    kit = SHOP_KIT.replace(UNKNOWN, UNKNOWN.replace("    lead: 1 week\n", ""))
    kit = kit.replace("head_gasket: 41.00 EUR, ", "").replace(
        "{price: 0.90 EUR}", "{price: 0.90 EUR, lead: 2 days}"
    )
    answer = asked(buying_job(tmp_path, kit=kit), no_delay=True)
    (one,) = answer.purchases
    # HAND: gasket and nuts in the south 36.50 + 3.60 + 4.50 = 44.60; when the gasket comes nobody knows.
    assert (one.total, [(order.supplier, order.days) for order in one.orders]) == (
        "44.60 EUR", [("Südhof Engines", "")],
    )  # fmt: skip
    assert one.too_late == (
        "Head gasket: how long it takes is known of no supplier, so whether it comes in time is not said",
    )


def test_by_a_plan_each_part_has_its_own_day(tmp_path: Path) -> None:
    hours = "hours:\n  week: {Saturday: 08:00-20:00, Sunday: 08:00-20:00}\n  second_person: {week: {Saturday: 08:00-20:00}}\n"
    job = buying_job(tmp_path, kit=SHOP_KIT + hours)
    for task in ("lift_head", "clean_deck"):
        job.record("task-done", task=task)
    answer = asked(job, no_delay=True)
    assert answer.purchases[0].orders
    assert all(one.day for one in answer.lines)


def test_the_newest_price_counts_whoever_says_it(job: Job) -> None:
    job.record(
        "price-seen", part="head_gasket", supplier="Nordrand Parts", price="20.00", currency="EUR", days=2
    )
    # HAND: north 20.00 + 5.20 + 6.90 = 32.10; south 44.60; shared 20.00 + 6.90 + 3.60 + 4.50 = 35.00.
    answer = asked(job)
    assert answer.purchases[0].total == "32.10 EUR"
    gasket = line(answer, "Head gasket")
    assert [(one.supplier, one.price, one.days, one.article, one.seen) for one in gasket.asked] == [
        ("Nordrand Parts", "20.00 EUR", "in 2 days", "", "Sat Mar 07"),
        ("Südhof Engines", "36.50 EUR", "in 7 days", "SH-7", ""),
    ]


def test_a_price_that_says_no_days_leaves_the_part_its_own_time(tmp_path: Path) -> None:
    slow = SHOP_KIT.replace("head_gasket: 41.00 EUR", "head_gasket: {price: 41.00 EUR, lead: 3 weeks}")
    job = buying_job(tmp_path, kit=slow)
    job.record("price-seen", part="head_gasket", supplier="north", price="20.00", currency="EUR")
    assert [(one.price, one.days) for one in line(asked(job), "Head gasket").asked][:1] == [
        ("20.00 EUR", "in 21 days")
    ]
    job.record("price-seen", part="head_gasket", supplier="north", price="20.00", currency="EUR", days=2)
    assert [(one.price, one.days) for one in line(asked(job), "Head gasket").asked][:1] == [
        ("20.00 EUR", "in 2 days")
    ]


def test_a_supplier_that_the_kit_does_not_know_is_told_and_not_bought_from(job: Job) -> None:
    job.record("price-seen", part="head_gasket", supplier="market stall", price="5", currency="EUR")
    answer = asked(job)
    assert answer.purchases[0].total == "44.60 EUR"
    assert answer.remarks == (
        "A price was seen at “market stall”, and the kit lists no such supplier: what its shipping costs is not known, "
        "so no purchase is worked out with it. Write it into the kit, among the suppliers",
    )
    assert line(answer, "Head gasket").asked[0].supplier == "market stall"


def test_a_price_in_another_currency_than_its_shipping_is_left_out(job: Job) -> None:
    job.record("price-seen", part="head_gasket", supplier="north", price="5", currency="USD")
    answer = asked(job)
    assert answer.purchases[0].total == "44.60 EUR"
    assert answer.remarks == (
        "Nordrand Parts asks 5.00 USD for head gasket, and its shipping stands in EUR in the kit: the two are not "
        "added, and that price is left out of the purchase. What counts there is the price of the kit, 41.00 EUR",
    )


def test_currencies_are_never_added(tmp_path: Path) -> None:
    job = buying_job(tmp_path, kit=SHOP_KIT + FAR)
    job.record("part-disposition", part="rings", decision="renew", why="worn")
    answer = asked(job)
    # HAND: two sets at 55 USD and 9 USD of shipping.
    assert [(one.currency, one.total) for one in answer.purchases] == [
        ("EUR", "44.60 EUR"),
        ("USD", "119.00 USD"),
    ]
    assert answer.remarks == (
        "Prices stand in EUR and USD, and amounts of different currencies are not added: each has a purchase of its "
        "own. In more than one is sold: Head gasket; which is less there cannot be said.",
    )
    assert answer.said.startswith("3 lines to order, 44.60 EUR and 119.00 USD at least.")


def test_what_nobody_sells_is_told_and_the_rest_is_bought(job: Job) -> None:
    job.record("part-disposition", part="rings", decision="renew", why="worn")
    answer = asked(job)
    assert (answer.nobody, answer.purchases[0].total) == (("Piston rings",), "44.60 EUR")


def test_a_least_order_that_is_not_reached_is_said(tmp_path: Path) -> None:
    kit = KIT + SHOP_KIT.removeprefix(KIT).replace(
        "shipping: 4.50 EUR", "shipping: 4.50 EUR\n    least_order: 500 EUR"
    )
    kit = kit.replace("free_from: 80 EUR", "free_from: 80 EUR\n    least_order: 400 EUR")
    (one,) = asked(buying_job(tmp_path, kit=kit)).purchases
    assert (one.orders, one.total) == ((), "")
    assert one.cannot == (
        "Head gasket cannot be ordered: Nordrand Parts asks for 400.00 EUR at least, and all it has of the list comes to "
        "46.20 EUR; Südhof Engines asks for 500.00 EUR at least, and all it has of the list comes to 40.10 EUR. Add to "
        "the list what is needed anyway, or find another supplier."
    )


def test_a_kit_without_suppliers_names_all_that_nobody_sells(tmp_path: Path) -> None:
    answer = asked(buying_job(tmp_path, kit=KIT))
    assert (answer.purchases, answer.nobody) == ((), ("Head gasket", "Exhaust nuts"))
    assert answer.open == 2


def test_an_article_of_another_grade_does_not_serve(tmp_path: Path) -> None:
    sheet = SHEET.replace("  stroke: {value", f"{GASKETS}  stroke: {{value")
    sold = "head_gasket: {price: 30 EUR, article: repair size, also: [{price: 36.50 EUR, article: Standard}]}"
    kit = SHOP_KIT.replace("head_gasket: {price: 36.50 EUR, article: SH-7}", sold)
    answer = asked(buying_job(tmp_path, sheet=sheet, kit=kit))
    gasket = line(answer, "Head gasket")
    # HAND: nothing was cut, and up to 0.15 mm the standard gasket is meant.
    assert gasket.size == "standard (one notch), 1.20 mm"
    assert [one.article for one in gasket.asked] == ["Standard", ""]
    assert answer.purchases[0].total == "44.60 EUR"


def test_amounts_are_told_as_in_the_estimate() -> None:
    # HAND: 123 450 coins of a hundredth are 1 234.50; thousands are set apart, as in every sum of money.
    assert coins_words(123450, currency="EUR", decimals=2) == "1,234.50 EUR"
    assert money_words(Money(Decimal("1234.5"), "EUR")) == exact(Decimal("1234.50"), "EUR") == "1,234.50 EUR"
    assert about(1234.4, "EUR") == "1,234 EUR"
