"""The list: how many, what of it is ordered or there, and before which task. All names and prices invented."""

from datetime import timedelta
from pathlib import Path

import pytest

from gudgeon.bench.buying.counts import Count, counted
from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import SHEET, asked, buying_job, line, part


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return buying_job(tmp_path)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (None, Count(1, "", True)),
        ("16", Count(16, "", True)),
        ("4 sets", Count(4, "sets", True)),
        ("2 x pair", Count(2, "pair", True)),
        ("two", Count(2, "", True)),
        ("some", Count(1, "", False)),
        ("0", Count(1, "", False)),
        ("1.5 m", Count(1, "", False)),
    ],
)
def test_how_many_a_quantity_says(text: str | None, found: Count) -> None:
    assert counted(text) == found


def test_a_quantity_without_a_number_is_one_and_told(tmp_path: Path) -> None:
    job = buying_job(tmp_path, sheet=SHEET.replace('quantity: "4"', "quantity: some"))
    nuts = line(asked(job), "Exhaust nuts")
    assert nuts.quantity == 1
    assert nuts.notes == ("the sheet says “some” of it, which is no number: one is counted; write how many",)


def test_sets_are_counted_as_sets(job: Job) -> None:
    job.record("part-disposition", part="rings", decision="renew", why="worn")
    rings = line(asked(job), "Piston rings")
    assert (rings.quantity, rings.counted, rings.to_order) == (2, "2 sets", 2)


def test_what_is_ordered_is_not_ordered_twice(job: Job) -> None:
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=3, expected="2026-03-12")
    nuts = line(asked(job), "Exhaust nuts")
    assert (nuts.state, nuts.to_order, nuts.notes) == ("to order", 1, ("ordered so far: 3",))
    job.record("part-ordered", part="Exhaust nuts", supplier="north", quantity=1)
    nuts = line(asked(job), "Exhaust nuts")
    assert (nuts.state, nuts.to_order) == ("ordered", 0)
    assert [(one.supplier, one.quantity, one.expected) for one in nuts.orders] == [
        ("Nordrand Parts", 3, "Thu Mar 12"), ("Nordrand Parts", 1, ""),
    ]  # fmt: skip


def test_an_order_whose_day_is_over_is_late_and_a_later_promise_counts(job: Job) -> None:
    job.record("part-ordered", part="head_gasket", supplier="south", expected="2026-03-10")
    job.now += timedelta(days=4)
    gasket = line(asked(job), "Head gasket")
    assert (gasket.state, gasket.orders[0].late) == ("late", "late: it should have come on Tue Mar 10")
    job.record("promised", what="head_gasket", of="delivery", on="2026-03-13", by="the supplier")
    gasket = line(asked(job), "Head gasket")
    assert (gasket.state, gasket.orders[0].expected) == ("ordered", "Fri Mar 13")


def test_what_came_is_compared_before_the_old_one_goes(job: Job) -> None:
    job.record("part-ordered", part="head_gasket", supplier="south")
    job.record("part-received", part="Head gasket", compared=False)
    gasket = line(asked(job), "Head gasket")
    assert (gasket.state, gasket.old, gasket.compare) == (
        "received", "keep the old one until the new one was laid on it", "every hole",
    )  # fmt: skip
    assert gasket.records == (
        ("Compared with the old one", 'gudgeon record received "Head gasket" --compared'),
    )
    job.record("part-received", part="Head gasket", compared=True)
    gasket = line(asked(job), "Head gasket")
    assert (gasket.state, gasket.old, gasket.records) == ("compared", "compared: the old one may go", ())


def test_what_came_without_a_word_of_an_order_is_all_of_it(job: Job) -> None:
    job.record("part-received", part="exhaust_nuts", compared=True)
    assert (line(asked(job), "Exhaust nuts").state, line(asked(job), "Exhaust nuts").to_order) == (
        "compared",
        0,
    )


def test_an_order_after_something_came_is_under_way(job: Job) -> None:
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=2)
    job.record("part-received", part="exhaust_nuts", compared=False)
    nuts = line(asked(job), "Exhaust nuts")
    assert (nuts.state, nuts.to_order) == ("to order", 2)
    job.record("part-ordered", part="exhaust_nuts", supplier="north", quantity=2)
    nuts = line(asked(job), "Exhaust nuts")
    assert (nuts.state, nuts.to_order, [one.expected for one in nuts.orders]) == ("ordered", 0, ["", ""])


def test_a_struck_order_is_none(job: Job) -> None:
    done = job.record("part-ordered", part="head_gasket", supplier="south")
    assert line(asked(job), "Head gasket").state == "ordered"
    job.record("strike", entry=done.entry, why="not sent")
    assert line(asked(job), "Head gasket").state == "to order"


def test_the_records_are_filled_in(job: Job) -> None:
    # HAND: 36.50 + 4 · 0.90 + 4.50 = 44.60 in the south; 41.00 + 5.20 + 6.90 = 53.10 in the north.
    assert line(asked(job), "Exhaust nuts").records[0] == (
        "Ordered", 'gudgeon record ordered "Exhaust nuts" --supplier "Südhof Engines" --quantity 4',
    )  # fmt: skip


def test_what_has_to_be_done_first_stands_first(job: Job) -> None:
    # HAND: 4 · 0.90 + 4.50 = 8.10.
    job.record("part-received", part="head_gasket", compared=True)
    assert [one.name for one in asked(job).lines] == ["Exhaust nuts", "Head gasket"]
    assert asked(job).said == (
        "1 line to order, 8.10 EUR at least, 1 compared. 4 more may still come: nothing is decided about them."
    )


def test_what_was_ordered_is_on_the_list_though_nothing_was_decided(job: Job) -> None:
    job.record("part-ordered", part="Fan belt", supplier="north", quantity=2)
    answer = asked(job)
    belt = line(answer, "Fan belt")
    assert (belt.state, belt.quantity, belt.to_order) == ("ordered", 2, 0)
    assert belt.notes == ("nothing is decided about it: say what becomes of the old one",)
    assert belt.records[-1] == ("Decide", 'gudgeon record part "Fan belt" renew')
    assert part(answer, "Fan belt").asks


def test_what_stays_by_a_decision_is_not_on_the_list_even_if_it_was_ordered(job: Job) -> None:
    job.record("part-ordered", part="Fan belt", supplier="north")
    job.record("part-disposition", part="Fan belt", decision="reuse", why="sent back")
    assert "Fan belt" not in {one.name for one in asked(job).lines}


def test_a_part_that_nothing_is_decided_about_is_not_on_the_list(job: Job) -> None:
    answer = asked(job)
    assert "Fan belt" not in {one.name for one in answer.lines}
    assert part(answer, "Fan belt").asks
