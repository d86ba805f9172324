"""How an account is told: to the cent where it is sure, no false alarm. Expected values are HAND: sums of what is written."""

from pathlib import Path

import pytest

from gudgeon.bench.pictures.costs import costs_picture
from tests.unit.bench.benches import Job
from tests.unit.bench.costs.priced import account, asked, ceiling, cost, line, paid, priced_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return priced_job(tmp_path)


def test_a_sure_sum_from_a_thousand_up_is_told_to_the_cent(job: Job) -> None:
    paid(job, "head", "1240.50")
    cost(job, "pump", "5.05")
    found = account(job)
    assert found.today.words == "1,245.55 EUR"
    assert found.to_come is not None
    assert found.to_come.words == "5.05 EUR"
    assert costs_picture(asked(job)).bars[-1].words == "1,245.55 EUR"


def test_what_is_paid_is_not_rounded_beside_what_is_estimated(job: Job) -> None:
    paid(job, "head", "12345.50")
    cost(job, "pump", "20", "40", "60")
    found = account(job)
    # between 12345.50 + 20 and 12345.50 + 60, and never below what is spent already
    assert 12_365 <= found.today.low < found.today.middle < found.today.high <= 12_406
    assert found.said.startswith("In eight of ten cases it ends between 12,3")


def test_a_range_told_to_the_owner_holds_where_only_rounding_exceeds_it(job: Job) -> None:
    paid(job, "head", "1236")
    job.record("estimate-told", at="start", low="900", middle="1100", high="1236", currency="EUR", to="Ada")
    assert account(job).remarks == (), "1236 to three figures would be 1240"
    paid(job, "rag", "0.01")
    assert account(job).remarks == (
        "Ada was told at the start that in nine of ten cases it ends under 1,236 EUR. That no longer holds: tell it anew.",
    )


def test_a_range_as_it_stands_on_the_page_may_be_told(job: Job) -> None:
    """Told to three figures as shown, it is no excess that it was a little more before it was rounded."""
    cost(job, "head", "1000", "1100", "1300")
    job.record("estimate-told", at="start", low="1000", middle="1100", currency="EUR", to="Ada",
               high=f"{account(job).today.high:.0f}")  # fmt: skip
    assert account(job).remarks == ()


def test_a_range_moves_only_when_a_cost_does(job: Job) -> None:
    cost(job, "head", "1000", "1100", "1300")
    before = account(job).today
    job.record("note", text="the coffee is out")
    assert account(job).today == before
    cost(job, "valves", "100", "110", "130")
    assert account(job).today.low > before.low + 90


def test_no_alarm_from_binary_fractions(job: Job) -> None:
    # 0.10 three times is not above 0.30, whether it comes by chance or not
    for number in range(3):
        cost(job, f"screw {number}", "0.10", chance="0.9")
    ceiling(job, "0.30")
    assert account(job).over == ""


def test_nothing_in_eight_of_ten_cases_is_said_in_words(job: Job) -> None:
    cost(job, "crack", "100", "200", "300", chance="0.02")
    found = account(job)
    assert found.said == (
        "In eight of ten cases it costs nothing; what may come by chance is on top of that. Nothing is spent yet."
    )
    assert found.today.words == "nothing"
    assert found.to_come is not None
    assert found.to_come.words == "nothing in eight of ten cases"
    paid(job, "head", "80.50")
    assert account(job).said == (
        "In eight of ten cases it comes to 80.50 EUR; what may come by chance is on top of that. 80.50 EUR of it is spent."
    )


def test_amounts_of_a_column_have_the_same_decimals(job: Job) -> None:
    cost(job, "head", "100", "128", "200")
    paid(job, "pump", "128.50")
    paid(job, "seal", "128")
    found = asked(job).accounts[0]
    assert [one.counts for one in found.lines] == ["100.00 to 200.00 EUR", "128.50 EUR", "128.00 EUR"]
    assert [one.spent for one in found.lines] == ["", "128.50 EUR", "128.00 EUR"]
    assert found.lines[0].expected == "100 to 200 EUR, as a rule 128"
    assert [one.amount for one in asked(job).payments] == ["128.50", "128.00"]


def test_a_simulated_chance_is_never_certain(job: Job) -> None:
    cost(job, "head", "100", "150", "200")
    ceiling(job, "5000")
    found = account(job).ceiling
    assert found is not None
    assert found.within == "more than 99 % of the cases stay within it"
    ceiling(job, "50")
    assert account(job).over.startswith(
        "Ask before you go on: in more than 99 % of the cases it ends above the 50 EUR"
    )


def test_more_that_came_back_is_said_to_have_come_back(job: Job) -> None:
    paid(job, "core", "10", way="got back")
    cost(job, "pump", "4")
    found = asked(job)
    assert (found.accounts[0].spent, line(job, "core").spent) == ("10 EUR got back", "10 EUR got back")
    assert found.accounts[0].said == (
        "In the end 6 EUR more comes back than is spent. 10 EUR more came back than was spent."
    )
    assert (costs_picture(found).spent_words, found.sums[0].total) == ("10 EUR got back", "−10")
