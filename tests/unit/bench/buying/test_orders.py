"""Orders in parts, receipts, refunds, too many, prices in two currencies. All names, figures and prices invented."""

from datetime import timedelta
from pathlib import Path

import pytest

from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import asked, buying_job, line


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return buying_job(tmp_path)


def stand(job: Job, name: str = "Exhaust nuts") -> tuple[str, int]:
    found = line(asked(job), name)
    return found.state, found.to_order


def test_what_is_not_ordered_yet_stays_on_the_list_when_the_rest_is_paid(job: Job) -> None:
    job.record(
        "part-ordered", part="exhaust_nuts", supplier="south", quantity=2, amount="1.80", currency="EUR"
    )
    job.record("money", what="nuts", amount="1.80", currency="EUR", way="spent", part="exhaust_nuts")
    assert stand(job) == ("to order", 2)
    bought = [one for made in asked(job).purchases for order in made.orders for one in order.lines]
    assert [one.pieces for one in bought if one.name == "Exhaust nuts"] == [2]
    job.record("part-received", part="exhaust_nuts", compared=True)
    assert stand(job) == ("to order", 2)


def test_a_receipt_closes_one_order_and_the_other_stays_open(job: Job) -> None:
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=2)
    job.record("part-ordered", part="exhaust_nuts", supplier="south", quantity=2)
    done = job.record("part-received", part="exhaust_nuts", compared=False)
    assert done.remarks == (
        "It closes one order. Still open is what was ordered of it at: south. If that came too, record that it came "
        "once more; a note that names the supplier says which of them.",
    )
    nuts = line(asked(job), "Exhaust nuts")
    assert (nuts.state, nuts.notes) == (
        "ordered", ("here: 2 of Nordrand Parts; still to come: 2 of Südhof Engines",),
    )  # fmt: skip
    job.record("part-received", part="exhaust_nuts", compared=True)  # of what lies there
    assert stand(job) == ("ordered", 0)
    assert job.record("part-received", part="exhaust_nuts", compared=True).remarks == ()
    assert stand(job) == ("compared", 0)


def days_told(job: Job) -> list[tuple[str, str, str]]:
    return [(one.supplier, one.expected, one.late) for one in line(asked(job), "Exhaust nuts").orders]


def test_what_was_promised_of_an_order_holds_when_more_of_the_part_is_ordered(job: Job) -> None:
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=2, expected="2026-03-10")
    job.record("promised", what="exhaust_nuts", of="delivery", on="2026-03-25", by="somebody at the counter")
    job.now += timedelta(days=4)
    job.record("part-ordered", part="exhaust_nuts", supplier="south", quantity=2, expected="2026-03-13")
    assert days_told(job) == [("Nordrand Parts", "Wed Mar 25", ""), ("Südhof Engines", "Fri Mar 13", "")]
    assert stand(job) == ("ordered", 0)


def test_a_promise_of_what_was_not_ordered_is_told(job: Job) -> None:
    said = job.record("promised", what="exhaust_nuts", of="delivery", on="2026-03-16", by="Nordrand Parts")
    assert said.remarks == (
        "By the book nobody ordered Exhaust nuts: the plan counts on that day, and the list goes on asking for it. If it is "
        "ordered, record that too, so that it is not bought twice.",
    )
    assert stand(job) == ("to order", 4)
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=4)
    again = job.record("promised", what="exhaust_nuts", of="delivery", on="2026-03-16", by="Nordrand Parts")
    assert (again.remarks, stand(job)) == ((), ("ordered", 0))


def test_a_promise_of_one_supplier_moves_no_order_of_another(job: Job) -> None:
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=2, expected="2026-03-10")
    job.record("part-ordered", part="exhaust_nuts", supplier="south", quantity=2, expected="2026-03-30")
    for by, on in (("Nordrand Parts, by telephone", "2026-03-16"), ("Südhof Engines", "2026-04-02")):
        job.record("promised", what="exhaust_nuts", of="delivery", on=on, by=by)
    assert days_told(job) == [("Nordrand Parts", "Mon Mar 16", ""), ("Südhof Engines", "Thu Apr 02", "")]
    job.record("promised", what="exhaust_nuts", of="delivery", on="2026-03-20", by="the man at the counter")
    assert [told[1] for told in days_told(job)] == ["Fri Mar 20", "Fri Mar 20"]


def test_a_note_names_the_supplier_whose_order_came(job: Job) -> None:
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=2)
    job.record("part-ordered", part="exhaust_nuts", supplier="south", quantity=2)
    job.record("part-received", part="exhaust_nuts", compared=False, note="from Südhof engines, all good")
    assert line(asked(job), "Exhaust nuts").notes == (
        "here: 2 of Südhof Engines; still to come: 2 of Nordrand Parts",
    )


@pytest.mark.parametrize("came", [True, False])
def test_what_went_back_for_its_money_is_to_be_bought_again(job: Job, came: bool) -> None:
    job.record("part-ordered", part="head_gasket", supplier="south", amount="36.50", currency="EUR")
    job.record("money", what="gasket", amount="36.50", currency="EUR", way="spent", part="head_gasket")
    if came:
        job.record("part-received", part="head_gasket", compared=True)
    job.record("money", what="gasket", amount="36.50", currency="EUR", way="got back", part="head gasket")
    gasket = line(asked(job), "Head gasket")
    assert (gasket.state, gasket.to_order, gasket.orders) == ("to order", 1, ())
    assert gasket.notes == ("the money for 1 of Südhof Engines came back: it counts as sent back",)
    job.record("part-ordered", part="head_gasket", supplier="north")
    assert stand(job, "Head gasket") == ("ordered", 0)


def test_a_part_of_the_money_says_nothing_of_the_goods(job: Job) -> None:
    job.record("part-ordered", part="head_gasket", supplier="south", amount="36.50", currency="EUR")
    job.record("money", what="gasket", amount="36.50", currency="EUR", way="spent", part="head_gasket")
    job.record("part-received", part="head_gasket", compared=True)
    job.record("money", what="discount", amount="3.00", currency="EUR", way="got back", part="head_gasket")
    assert stand(job, "Head gasket") == ("compared", 0)


def test_too_many_are_told(job: Job) -> None:
    job.record("part-ordered", part="head_gasket", supplier="south", quantity=3)
    assert asked(job).remarks == (
        "Head gasket: 3 are ordered or here, and 1 is needed: 2 too many. If that was not meant, cancel the order or "
        "send it back, and strike it in the book",
    )


def test_what_a_pack_has_more_is_no_surprise(job: Job) -> None:
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=10)
    assert asked(job).remarks == ()
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=10)
    assert len(asked(job).remarks) == 1


def test_too_many_of_what_is_not_decided_are_told_by_the_sheet(job: Job) -> None:
    job.record("part-ordered", part="rings", supplier="south", quantity=2)
    assert asked(job).remarks == ()
    job.record("part-ordered", part="rings", supplier="south", quantity=3)
    assert (
        asked(job).remarks[0].startswith("Piston rings: 5 are ordered or here, and 2 are needed: 3 too many.")
    )


def test_what_was_ordered_and_is_used_again_is_told(job: Job) -> None:
    job.record("part-ordered", part="rings", supplier="south", quantity=2)
    job.record("part-disposition", part="rings", decision="reuse", why="good")
    assert asked(job).remarks == (
        "Piston rings: it was ordered, and you decided: use it again. If that was not meant, cancel the order or send "
        "it back, and strike it in the book",
    )


def test_a_newer_price_in_another_currency_leaves_the_last_one_of_the_shop(job: Job) -> None:
    job.record("price-seen", part="head_gasket", supplier="north", price="30.00", currency="EUR")
    job.now += timedelta(minutes=5)
    job.record("price-seen", part="head_gasket", supplier="Nordrand Parts", price="5.00", currency="USD")
    answer = asked(job)
    assert ("Nordrand Parts", "30.00 EUR") in {
        (one.supplier, one.price) for one in line(answer, "Head gasket").asked
    }
    (remark,) = answer.remarks
    assert remark.startswith("Nordrand Parts asks 5.00 USD for head gasket, and its shipping stands in EUR")
    assert remark.endswith(", 30.00 EUR")
    assert "What counts there is the price seen " in remark
    job.record("price-seen", part="head_gasket", supplier="north", price="31.00", currency="EUR")
    assert asked(job).remarks == ()


def test_a_price_for_what_is_there_is_told(job: Job) -> None:
    said = "By the book Head gasket came already and nothing of it is on its way: "
    job.record("part-ordered", part="head_gasket", supplier="south")
    assert (
        job.record("price-seen", part="head_gasket", supplier="north", price="9", currency="EUR").remarks
        == ()
    )
    job.record("part-received", part="head_gasket", compared=True)
    price = job.record("price-seen", part="head_gasket", supplier="north", price="30", currency="EUR")
    assert price.remarks[0].startswith(
        f"{said}no price is needed of it. It is kept. If it was not meant: gudgeon "
    )


def test_an_order_of_what_the_supplier_is_not_known_to_sell_is_told(job: Job) -> None:
    assert job.record("part-ordered", part="belt", supplier="north").remarks == ()
    assert job.record("part-ordered", part="belt", supplier="Südhof Engines").remarks == (
        "Neither the kit nor the book has a price of Fan belt at Südhof Engines. It is kept; look whether the supplier is "
        "the one that is meant.",
    )
    job.record("price-seen", part="belt", supplier="south", price="17", currency="EUR")
    assert job.record("part-ordered", part="belt", supplier="south").remarks == ()
    assert job.record("part-ordered", part="belt", supplier="market stall").remarks == ()
