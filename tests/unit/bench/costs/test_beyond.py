"""What is dearer than what was said yes to. Expected values are HAND: the amounts that each test writes down."""

from pathlib import Path

import pytest

from tests.unit.bench.benches import Job
from tests.unit.bench.costs.priced import account, answered, ceiling, cost, paid, priced_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    """A ceiling of 100 with 90 of it expected."""
    job = priced_job(tmp_path)
    cost(job, "head", "80", "90", "95")
    ceiling(job, "100")
    return job


def test_a_rise_after_a_yes_is_named_with_both_figures(job: Job) -> None:
    cost(job, "seal", "30")
    answered(job, "seal", amount="30", currency="EUR")
    assert (account(job).over, account(job).unapproved) == ("", ())
    cost(job, "seal", "50", "60", "80")
    found = account(job)
    assert found.over.startswith("Ask before you go on:")
    assert found.unapproved == ("seal: 50 to 80 EUR, as a rule 60; approved by Ada: 30 EUR",)
    answered(job, "seal", amount="60", currency="EUR")
    cost(job, "head", "300")
    assert account(job).unapproved == ("head: 300 EUR; as a rule 90 when the ceiling was agreed",)


def test_a_yes_without_an_amount_covers_what_was_expected_then(job: Job) -> None:
    cost(job, "seal", "30")
    answered(job, "seal")
    assert account(job).unapproved == ()
    cost(job, "seal", "45")
    assert account(job).unapproved == ("seal: 45 EUR; as a rule 30 when Ada said yes",)


def test_more_paid_than_was_approved_is_named(job: Job) -> None:
    answered(job, "seal", amount="30", currency="EUR")
    paid(job, "seal", "55.50")
    assert account(job).unapproved == ("seal: 55.50 EUR spent; approved by Ada: 30 EUR",)


def test_what_is_paid_without_a_word_or_against_a_no_is_named(job: Job) -> None:
    paid(job, "rings", "70")
    answered(job, "paint", "no")
    paid(job, "paint", "8")
    assert account(job).unapproved == ("paint: 8 EUR spent, and Ada said no", "rings: new, 70 EUR spent")


def test_more_paid_than_was_expected_at_worst_is_named_and_less_is_not(job: Job) -> None:
    paid(job, "head", "95")
    cost(job, "oil", "40")
    assert account(job).unapproved == ("oil: new, 40 EUR",)
    paid(job, "head", "0.01")
    assert account(job).unapproved == (
        "head: 95.01 EUR spent; as a rule 90 when the ceiling was agreed", "oil: new, 40 EUR",
    )  # fmt: skip


def test_what_was_paid_before_the_ceiling_was_known_then(tmp_path: Path) -> None:
    job = priced_job(tmp_path)
    paid(job, "rings", "70")
    ceiling(job, "60")
    assert account(job).over.startswith("70 EUR is spent, 10 EUR more than the 60 EUR")
    assert account(job).unapproved == ()
