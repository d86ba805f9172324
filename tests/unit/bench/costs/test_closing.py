"""The closing account, and what is in no sum. Expected values are HAND: sums on paper of what each test writes down."""

from pathlib import Path

import pytest

from gudgeon.bench.costs.model import Closing
from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import SHEET
from tests.unit.bench.costs.priced import account, answered, asked, ceiling, cost, paid, priced_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return priced_job(tmp_path)


def closed(job: Job) -> Closing:
    found = account(job, closing=True).closing
    assert found is not None
    return found


def missing(job: Job) -> list[tuple[str, str]]:
    return [(one.what, one.why) for one in asked(job).missing]


def test_expected_against_spent_to_the_cent(job: Job) -> None:
    cost(job, "head", "100", "150.10", "300")
    cost(job, "crack", "40", "60", "90", chance="0.3")
    cost(job, "oil", "30")
    paid(job, "head", "175.35")
    paid(job, "rags", "4.05")
    found = closed(job)
    # HAND: 150.10 + 0.3 · 60 + 30 = 198.10; 175.35 + 4.05 = 179.40; 179.40 − 198.10 = −18.70
    assert (found.expected, found.spent, found.difference) == ("198.10 EUR", "179.40 EUR", "−18.70 EUR")
    assert [(one.what, one.expected, one.spent, one.difference, one.note) for one in found.lines] == [
        ("head", "150.10 EUR", "175.35 EUR", "+25.25 EUR", ""),
        ("crack", "18.00 EUR", "", "−18.00 EUR",
         "60 EUR in 30 % of the cases; it did not come, or nobody wrote down what it cost"),
        ("oil", "30.00 EUR", "", "−30.00 EUR", "nothing was written down as spent"),
        ("rags", "", "4.05 EUR", "+4.05 EUR", "nothing was expected under these words, so it comes on top"),
    ]  # fmt: skip


def test_what_may_come_is_weighed_to_the_cent(job: Job) -> None:
    cost(job, "crack", "30.01", "33.33", "40", chance="0.333")
    cost(job, "oil", "0.005")
    # HAND: 0.333 · 33.33 = 11.09889, to the cent 11.10; an amount that was written finer keeps what was written
    assert [one.expected for one in closed(job).lines] == ["11.100 EUR", "0.005 EUR"]
    assert closed(job).expected == "11.105 EUR"


@pytest.mark.parametrize(("spent", "said"), [
    ("80", "below"), ("90", "inside"), ("120", "inside"), ("120.01", "above"),
])  # fmt: skip
def test_against_the_first_range_that_was_told(job: Job, spent: str, said: str) -> None:
    job.record("estimate-told", at="start", low="90", middle="100", high="120", currency="EUR", to="Ada")
    job.record("estimate-told", at="strip", low="1", middle="2", high="3", currency="EUR", to="Ada")
    paid(job, "head", spent)
    assert closed(job).said == (
        f"The first range told, at the start, was 90 to 120 EUR: what was spent is {said} it.",
    )


def test_against_the_ceiling_and_what_is_owed(job: Job) -> None:
    ceiling(job, "100")
    paid(job, "head", "60.50")
    answered(job, "studs", amount="12", currency="EUR")
    assert closed(job).said == (
        "That is within the ceiling of 112 EUR, with 51.50 EUR left.",
        "Agreed, and by the book not paid: studs, 12 EUR.",
    )
    paid(job, "paint", "60")
    assert closed(job).said[0] == "That is 8.50 EUR above the ceiling of 112 EUR."


def test_it_is_closed_when_the_engine_is_handed_over(tmp_path: Path) -> None:
    job = priced_job(tmp_path)
    cost(job, "head", "100")
    cost(job, "oil", "30")
    paid(job, "head", "90")
    assert (asked(job).closed, account(job).closing) == (False, None)
    job.record("task-done", task="hand_over")
    assert asked(job).closed
    found = account(job)
    assert found.closing is not None
    assert found.said == "90 EUR is spent, and nothing more is expected.", (
        "what was only expected did not come"
    )
    assert (found.closing.expected, found.closing.spent) == ("130 EUR", "90 EUR")


def test_parts_without_an_amount_are_named(tmp_path: Path) -> None:
    job = priced_job(tmp_path, sheet=SHEET)
    job.record("part-ordered", part="Piston rings", supplier="north")
    job.record("part-received", part="Crankshaft", compared=True)
    found = missing(job)
    assert ("Piston rings", "ordered, and not for how much, and no price of it is known") in found
    assert ("Head gasket", "to be bought, and no price or cost of it is written down") in found
    assert ("Exhaust nuts", "to be bought, and no price or cost of it is written down") in found
    assert (
        "Crankshaft",
        "it came, and what it cost is not written down, and no price of it is known",
    ) in found
    cost(job, "Gaskets and nuts", "60")
    paid(job, "rings", "80", part="Piston rings")
    paid(job, "Crankshaft, used", "200")
    names = [what for what, _ in missing(job)]
    assert not {"Piston rings", "Head gasket", "Exhaust nuts", "Crankshaft"} & set(names)


def test_work_at_the_shop_without_a_cost_is_named(job: Job) -> None:
    job.record("part-disposition", part="cylinder head", decision="rework", why="bent")
    said = ("cylinder head", "to be worked on at the machine shop, and no cost of it is written down")
    assert said in missing(job)
    job.record("shop-out", part="cylinder head", shop="Millward", ordered="skim it.", most_off="0.10 mm")
    assert ("cylinder head, at Millward", "ordered: skim it. No cost of it is written down") in missing(job)
    cost(job, "Cylinder head, skimmed", "90", of="shop")
    assert [what for what, _ in missing(job) if "head" in what] == []


def test_a_bill_of_the_shop_covers_what_was_ordered_there(job: Job) -> None:
    job.record("shop-out", part="cylinder head", shop="Millward", ordered="skim it", most_off="0.10 mm")
    paid(job, "a cut", "90", to="Millward")
    assert [what for what, _ in missing(job) if "head" in what] == []


def test_tools_and_supplies_are_named_until_a_cost_names_them(job: Job) -> None:
    before = dict(missing(job))
    tools = [what for what, why in before.items() if why.startswith("the kit lacks it")]
    assert "used up by the job, and no cost of supplies is written down" in before.values()
    assert tools != []
    cost(job, "oil and rags", "60", of="supplies")
    cost(job, tools[0], "15", of="tool")
    after = missing(job)
    assert tools[0] not in [what for what, _ in after]
    assert not any("used up" in why for _, why in after)
