"""What is still to buy or to pay beside what was paid. Expected values are HAND: sums of what each test writes.

At least cost the nuts are 0.90 each and the gasket 36.50, both in the south; four nuts are needed.
"""

from pathlib import Path
from typing import Any

import pytest

from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import SHEET, SHOP_KIT
from tests.unit.bench.costs.priced import account, asked, ceiling, cost, line, paid, priced_job

NUTS: dict[str, Any] = {"part": "exhaust_nuts"}


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return priced_job(tmp_path, sheet=SHEET, kit=SHOP_KIT)


def order(
    job: Job, quantity: int, amount: str = "", supplier: str = "south", part: str = "exhaust_nuts"
) -> None:
    more = {"amount": amount, "currency": "EUR"} if amount else {}
    job.record("part-ordered", part=part, supplier=supplier, quantity=quantity, **more)


def came(job: Job) -> None:
    job.record("part-received", part="exhaust_nuts", compared=True)


def nuts(job: Job) -> str:
    return line(job, "Exhaust nuts").counts


def unpaid(job: Job) -> tuple[str, ...]:
    closing = account(job, closing=True).closing
    assert closing is not None
    return tuple(one for one in closing.said if one.startswith("Agreed"))


def test_what_went_back_is_to_be_bought_again(job: Job) -> None:
    order(job, 4, "3.60")
    paid(job, "Exhaust nuts", "3.60", **NUTS)
    came(job)
    assert nuts(job) == "3.60 EUR"
    paid(job, "Exhaust nuts", "3.60", way="got back", **NUTS)
    one = line(job, "Exhaust nuts")
    # 3.60 − 3.60 spent, four at 0.90 to buy
    assert (one.counts, one.spent, one.note) == (
        "3.60 EUR", "0.00 EUR", "3.60 EUR is asked for what is still to be ordered",
    )  # fmt: skip
    assert unpaid(job) == ()
    order(job, 4, "5.20", "north")
    assert (nuts(job), unpaid(job)) == (
        "5.20 EUR", ("Agreed, and by the book not paid: Exhaust nuts, 5.20 EUR.",),
    )  # fmt: skip
    paid(job, "Exhaust nuts", "5.20", **NUTS)
    assert (nuts(job), unpaid(job)) == ("5.20 EUR", ())


def test_an_order_without_an_amount_after_the_first_went_back_counts_at_its_price(job: Job) -> None:
    order(job, 4, "3.60")
    paid(job, "Exhaust nuts", "3.60", **NUTS)
    paid(job, "Exhaust nuts", "3.60", way="got back", **NUTS)
    order(job, 4, supplier="north")
    assert nuts(job) == "5.20 EUR", "a pack of ten in the north"


def test_shipping_that_did_not_come_back_stays_spent_and_the_part_is_to_be_bought(job: Job) -> None:
    order(job, 1, "41.00", "north", "head_gasket")
    paid(job, "Head gasket", "47.90", part="head_gasket")
    paid(job, "Head gasket", "41.00", way="got back", part="head_gasket")
    # 47.90 − 41.00 = 6.90 spent, 36.50 to buy
    assert line(job, "Head gasket").counts == "43.40 EUR"


def test_the_rest_of_a_part_counts_beside_what_was_paid_of_it(job: Job) -> None:
    order(job, 2, "1.80")
    assert nuts(job) == "3.60 EUR", "1.80 ordered, two at 0.90 to order"
    assert unpaid(job) == ("Agreed, and by the book not paid: Exhaust nuts, 1.80 EUR.",)
    paid(job, "Exhaust nuts", "1.80", **NUTS)
    assert nuts(job) == "3.60 EUR", "1.80 paid, two at 0.90 to order"
    assert "Exhaust nuts: 1.80 EUR spent and 1.80 EUR asked for it, not expected before" in [
        one.words for one in account(job).changes
    ]
    came(job)
    order(job, 2, "2.40")
    one = line(job, "Exhaust nuts")
    # 1.80 + 2.40 agreed, of that 1.80 paid
    assert (one.counts, one.agreed, one.note) == (
        "4.20 EUR", "4.20 EUR", "2.40 EUR of the order is not paid yet",
    )  # fmt: skip
    assert unpaid(job) == ("Agreed, and by the book not paid: Exhaust nuts, 2.40 EUR.",)
    paid(job, "Exhaust nuts", "2.40", **NUTS)
    assert (nuts(job), unpaid(job)) == ("4.20 EUR", ())


def test_the_ceiling_is_held_against_what_is_still_to_buy(job: Job) -> None:
    ceiling(job, "44")
    order(job, 2, "1.80")
    paid(job, "Exhaust nuts", "1.80", **NUTS)
    # 1.80 + 1.80 + 36.50 + 4.50 of shipping = 44.60
    assert account(job).over == "Ask before you go on: it ends 0.60 EUR above the 44 EUR that Ada agreed to."


def test_what_was_never_ordered_does_not_count_once_the_engine_is_handed_over(job: Job) -> None:
    order(job, 2, "1.80")
    paid(job, "Exhaust nuts", "1.80", **NUTS)
    job.record("task-done", task="hand_over")
    assert account(job).said == "1.80 EUR is spent, and nothing more is expected."
    assert {one.what: one.counts for one in account(job).lines} == {
        "Exhaust nuts": "1.80 EUR", "Head gasket": "0.00 EUR", "Shipping, Südhof Engines": "0.00 EUR",
    }  # fmt: skip


def test_what_came_back_for_what_was_only_expected_counts_once_the_engine_is_handed_over(job: Job) -> None:
    cost(job, "Core deposit", "20", "30", "40")
    paid(job, "Core deposit", "5", way="got back")
    job.record("task-done", task="hand_over")
    found = account(job)
    assert (found.said, found.to_come) == (
        "5 EUR more came back than was spent, and nothing more is expected.", None,
    )  # fmt: skip


def test_a_cost_of_the_part_gives_way_to_what_is_paid_and_what_is_still_to_buy(job: Job) -> None:
    cost(job, "Exhaust nuts", "3", "4", "6")
    assert nuts(job) == "3.00 to 6.00 EUR"
    order(job, 2, "1.80")
    paid(job, "Exhaust nuts", "1.80", **NUTS)
    assert nuts(job) == "3.60 EUR"
    paid(job, "Exhaust nuts", "1.80", way="got back", **NUTS)
    assert nuts(job) == "3.00 to 6.00 EUR", "all of it went back: what was expected is expected again"


@pytest.mark.parametrize(("what", "counts"), [("Exhaust nuts", "5.00 EUR"), ("nuts", "5.00 EUR")])
def test_what_was_paid_without_an_order_stands_for_all_of_it(job: Job, what: str, counts: str) -> None:
    paid(job, what, "5", **NUTS)
    assert nuts(job) == counts


def test_all_the_money_back_without_an_order_leaves_it_to_be_bought(job: Job) -> None:
    paid(job, "Exhaust nuts", "5", **NUTS)
    paid(job, "Exhaust nuts", "5", way="got back", **NUTS)
    assert nuts(job) == "3.60 EUR"


def test_more_paid_than_was_said_leaves_the_rest_to_be_bought(job: Job) -> None:
    order(job, 2, "1.80")
    paid(job, "Exhaust nuts", "2.50", **NUTS)
    # 2.50 paid, two at 0.90 to buy
    assert nuts(job) == "4.30 EUR"


def test_what_was_paid_before_the_order_was_written_down_is_for_it(job: Job) -> None:
    paid(job, "Exhaust nuts", "1.80", **NUTS)
    order(job, 2, "1.80")
    paid(job, "Exhaust nuts", "2.40", **NUTS)
    order(job, 2, "2.40")
    assert (nuts(job), unpaid(job)) == ("4.20 EUR", ())


def test_a_deposit_is_for_the_oldest_order_and_what_came_owes_no_more(job: Job) -> None:
    order(job, 2, "1.80")
    paid(job, "deposit", "1.00", **NUTS)
    order(job, 2, "2.40")
    # 1.00 paid, 0.80 and 2.40 to pay
    assert (nuts(job), unpaid(job)) == (
        "4.20 EUR", ("Agreed, and by the book not paid: Exhaust nuts, 3.20 EUR.",),
    )  # fmt: skip
    came(job)
    # the first two are here for 1.00
    assert unpaid(job) == ("Agreed, and by the book not paid: Exhaust nuts, 2.40 EUR.",)


def test_one_payment_pays_two_orders(job: Job) -> None:
    order(job, 2, "1.80")
    order(job, 2, "2.40")
    paid(job, "Exhaust nuts", "4.20", **NUTS)
    assert (nuts(job), unpaid(job)) == ("4.20 EUR", ())


def test_a_no_leaves_out_what_is_still_to_buy(job: Job) -> None:
    order(job, 2, "1.80")
    paid(job, "Exhaust nuts", "1.80", **NUTS)
    job.record("approval", what="Exhaust nuts", answer="no", by="Ada")
    assert nuts(job) == "1.80 EUR"


def test_an_amount_from_a_thousand_up_is_counted(tmp_path: Path) -> None:
    kit = SHOP_KIT.replace("36.50 EUR", "1036.50 EUR").replace("41.00 EUR", "2041.00 EUR")
    assert line(priced_job(tmp_path, sheet=SHEET, kit=kit), "Head gasket").counts == "1,036.50 EUR"


def test_where_no_purchase_can_be_made_up_what_is_asked_counts_and_why_is_said(tmp_path: Path) -> None:
    kit = SHOP_KIT[: SHOP_KIT.index("  south:")].replace("free_from: 80 EUR", "least_order: 50.01 EUR")
    job = priced_job(tmp_path, sheet=SHEET, kit=kit)
    found = account(job)
    # 41.00, and a pack of ten for 5.20
    assert {one.what: one.counts for one in found.lines} == {
        "Head gasket": "41.00 EUR", "Exhaust nuts": "5.20 EUR",
    }  # fmt: skip
    assert found.said == "It comes to 46.20 EUR. Nothing is spent yet."
    said = {one.what: one.why for one in asked(job).missing}
    assert said["Shipping, Nordrand Parts"].startswith(
        "no purchase can be worked out, so the parts stand at what is asked for them. Head gasket cannot be ordered: "
        "Nordrand Parts asks for 50.01 EUR at least, and all it has of the list comes to 46.20 EUR."
    )
    assert not {"Head gasket", "Exhaust nuts"} & set(said)


def test_a_price_of_a_supplier_that_the_kit_does_not_list_counts_without_its_shipping(job: Job) -> None:
    job.record("part-disposition", part="rings", decision="renew", why="worn")
    job.record("price-seen", part="rings", supplier="market stall", price="30", currency="EUR")
    # two sets at 30
    assert line(job, "Piston rings").counts == "60.00 EUR"
    said = {one.what: one.why for one in asked(job).missing}
    assert said["Shipping, market stall"] == (
        "the kit lists no such supplier, so what its shipping costs is not known"
    )
    assert "Piston rings" not in said
