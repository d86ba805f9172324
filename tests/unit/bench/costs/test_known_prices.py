"""Ordered or come without an amount. Expected values are HAND: prices of the invented kit times how many."""

from pathlib import Path

import pytest

from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import SHEET, SHOP_KIT
from tests.unit.bench.costs.priced import account, asked, cost, line, paid, priced_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return priced_job(tmp_path, sheet=SHEET, kit=SHOP_KIT)


def named(job: Job) -> dict[str, str]:
    return {one.what: one.why for one in asked(job).missing}


def test_an_order_without_an_amount_counts_at_the_price_of_its_supplier(job: Job) -> None:
    job.record("part-ordered", part="Head gasket", supplier="north")
    one = line(job, "Head gasket")
    # 41.00 at the north, though the south asks 36.50
    assert (one.state, one.agreed, one.counts) == ("agreed", "41.00 EUR", "41.00 EUR")
    assert one.note == (
        "ordered, and not for how much: counted at the price of Nordrand Parts, as it stands in the kit"
    )
    assert "Head gasket" not in named(job)


def test_whole_packs_are_counted(job: Job) -> None:
    job.record("part-ordered", part="exhaust_nuts", supplier="Nordrand Parts", quantity=12)
    # 12 of packs of 10: two packs at 5.20
    assert line(job, "Exhaust nuts").agreed == "10.40 EUR"


def test_a_price_that_was_seen_counts(job: Job) -> None:
    job.record("price-seen", part="head_gasket", supplier="north", price="43.10", currency="EUR")
    job.record("part-ordered", part="head_gasket", supplier="north")
    one = line(job, "Head gasket")
    assert one.counts == "43.10 EUR"
    assert one.note == (
        "ordered, and not for how much: counted at the price of Nordrand Parts, seen on Sat Mar 07"
    )


def test_what_came_without_an_amount_counts_at_the_least_price(job: Job) -> None:
    job.record("part-received", part="exhaust_nuts", compared=True)
    one = line(job, "Exhaust nuts")
    # four by the sheet: a pack of ten in the north 5.20, which is 0.52 a piece and less than 0.90 in the south
    assert one.counts == "5.20 EUR"
    assert one.note == (
        "it came, and what it cost is not written down: counted at the price of Nordrand Parts, as it stands in the kit"
    )


@pytest.mark.parametrize("said", ["exhaust_nuts", "Exhaust nuts", "exhaust nut"])
def test_what_came_is_all_that_is_needed_however_it_is_named_and_once(tmp_path: Path, said: str) -> None:
    job = priced_job(tmp_path, sheet=SHEET.replace('quantity: "4"', 'quantity: "14"'), kit=SHOP_KIT)
    job.record("part-received", part=said, compared=True)
    # fourteen by the sheet: two packs of ten at 5.20
    assert line(job, "Exhaust nuts").counts == "10.40 EUR"
    job.record("part-received", part="exhaust_nuts", compared=True)
    job.record("part-received", part="Exhaust nuts", compared=True)
    assert line(job, "Exhaust nuts").counts == "10.40 EUR"


def test_an_amount_that_is_written_down_takes_its_place(job: Job) -> None:
    job.record("part-ordered", part="Head gasket", supplier="north")
    paid(job, "gasket", "39.90", part="Head gasket")
    one = line(job, "Head gasket")
    assert (one.counts, one.note) == (
        "39.90 EUR", "",
    )  # fmt: skip


def test_what_a_cost_names_is_left_to_it(job: Job) -> None:
    cost(job, "Gaskets and nuts", "60")
    job.record("part-ordered", part="Head gasket", supplier="north")
    assert [one.what for one in account(job).lines] == ["Gaskets and nuts"]
    assert "Head gasket" not in named(job)


def test_where_no_price_is_known_it_is_named(job: Job) -> None:
    job.record("part-ordered", part="Piston rings", supplier="north")
    assert named(job)["Piston rings"] == "ordered, and not for how much, and no price of it is known"


def test_what_counts_at_a_known_price_is_not_told_as_agreed_with_anybody(job: Job) -> None:
    job.record("part-received", part="exhaust_nuts", compared=True)
    assert "Exhaust nuts: 5.20 EUR by the price that is known, not expected before" in [
        one.words for one in account(job).changes
    ]
