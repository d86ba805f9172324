"""While it is open: the sums of keeping a part and of renewing it. All figures invented, worked out by hand.

With shape 2 and life 100 the cumulative hazard is (age / 100)²: H(60) = 0.36, H(100) = 1.00, H(40) = 0.16. A part that
lasted to 60 fails within 40 more with 1 − exp(−0.64) = 0.4727, a new one with 1 − exp(−0.16) = 0.1479.
"""

from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.buying.model import WhileOpen
from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import SHEET, asked, buying_job, part

LIFE: dict[str, Any] = {
    "part": "belt", "shape": "2", "life": "100000", "unit": "km", "until": "40000", "cost": "182", "currency": "EUR",
    "basis": "club of owners",
}  # fmt: skip
AGE: dict[str, Any] = {"part": "belt", "distance": "60000", "unit": "km", "months": 20, "basis": "odometer"}


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return buying_job(tmp_path, sheet=SHEET.replace("value: 60000 km or 60 months", "value: 40000 km"))


def sums(job: Job) -> WhileOpen:
    found = part(asked(job), "Fan belt").while_open
    assert found is not None
    return found


def test_all_sums_are_shown_and_nothing_is_decided(job: Job) -> None:
    job.record("part-life", **LIFE)
    job.record("part-age", **AGE)
    found = sums(job)
    # HAND: a failure is 182 + 18 = 200. Keep: 0.4727 · 200 = 94.54; renew: 18 + 0.1479 · 200 = 47.57; saved 46.97.
    # Both the same at a price p with p + 0.1479 · (182 + p) = 0.4727 · (182 + p): 182 · 0.3248 / 0.6752 = 87.57.
    assert found.sums == (
        "It is 60000 km (37300 mi) old and would stay in for another 40000 km (24900 mi). By your figures: club of "
        "owners, 63 of 100 such parts have failed by 100000 km (62100 mi) (Weibull, shape 2).",
        "Chance that it fails before then: 47 % as it is, 15 % with a new one.",
        "A failure costs 200 EUR: 182 EUR for opening it again and what else it breaks, 18.00 EUR for the new part "
        "then.",
        "Keep it: 47 % of 200 EUR is 94.54 EUR on the average.",
        "Renew it: 18.00 EUR now, and 15 % of 200 EUR, is 47.57 EUR on the average.",
        "Both cost the same at a price of 87.57 EUR.",
    )
    assert (
        found.said
        == "The figures speak for renewing it now: that saves 46.97 EUR on the average. You decide."
    )
    assert (found.speaks_for, found.missing) == ("renewing", ())
    assert found.chance_kept == pytest.approx(47.27, abs=0.01)
    belt = part(asked(job), "Fan belt")
    assert belt.decision == ""
    assert belt.asks == "the figures speak for renewing; decide"


def test_at_the_price_that_is_named_both_do_cost_the_same(job: Job) -> None:
    job.record("part-life", **LIFE)
    job.record("part-age", **AGE)
    job.record("price-seen", part="belt", supplier="north", price="87.57", currency="EUR")
    found = sums(job)
    assert found.kept == pytest.approx(found.renewed, abs=0.01)
    assert found.said.startswith("Keeping and renewing cost nearly the same on the average")


def test_the_best_age_is_where_the_cost_for_a_kilometer_is_least(job: Job) -> None:
    job.record("part-life", **LIFE)
    job.record("part-age", **AGE)
    # HAND: planned 18, failed 200. With x = age / 100000 the condition is 2 x ∫ exp(−t²) dt + exp(−x²) = 200 / 182 =
    # 1.0989. x = 0.32: ∫ = 0.30937, 0.19800 + 0.90267 = 1.10066; x = 0.31: ∫ = 0.30035, 0.18622 + 0.90838 = 1.09460.
    # Between them x = 0.31 + 0.01 · (1.09890 − 1.09460) / 0.00606 = 0.3171.
    assert sums(job).best_age.startswith("Renewed again and again, it costs least at an age of 317")
    assert "(that is past), as long as it is within reach anyway." in sums(job).best_age


def test_where_a_failure_costs_little_the_figures_speak_for_keeping(job: Job) -> None:
    job.record("part-life", **{**LIFE, "cost": "12"})
    job.record("part-age", **AGE)
    # HAND: a failure is 30; keep 14.18, renew 18 + 4.44 = 22.44; 8.25 less.
    assert (
        sums(job).said == "The figures speak for keeping it: that saves 8.25 EUR on the average. You decide."
    )
    assert sums(job).speaks_for == "keeping"


def test_near_break_even_the_figures_do_not_tell(job: Job) -> None:
    # HAND: 18 / (0.4727 − 0.1479) = 55.41 in all, less 18 for the part.
    job.record("part-life", **{**LIFE, "cost": "37.41"})
    job.record("part-age", **AGE)
    assert sums(job).said == (
        "Keeping and renewing cost nearly the same on the average: the figures do not tell. You decide."
    )
    assert part(asked(job), "Fan belt").asks == "proposed: renew it; decide"


def test_what_does_not_wear_out_is_never_better_renewed(job: Job) -> None:
    job.record("part-life", **{**LIFE, "shape": "1"})
    job.record("part-age", **AGE)
    found = sums(job)
    # HAND: with shape 1 an old part is as good as a new one, 1 − exp(−0.4) = 0.33.
    assert found.sums[1] == "Chance that it fails before then: 33 % as it is, 33 % with a new one."
    assert (found.speaks_for, found.best_age) == (
        "keeping", "In the long run no age is better than waiting for a failure: parts of this life do not wear out with "
        "age.",
    )  # fmt: skip


def test_what_is_missing_is_named(job: Job) -> None:
    job.record("part-life", **{**LIFE, "part": "rings", "currency": "USD"})
    found = part(asked(job), "Piston rings").while_open
    assert found is not None
    assert (found.sums, found.said) == ((), "")
    assert found.missing == (
        'its age: gudgeon record age "Piston rings" --distance N --unit km --basis …',
        'its price: gudgeon record price "Piston rings" SUPPLIER PRICE …',
    )


def test_a_price_in_another_currency_is_not_added(job: Job) -> None:
    job.record("part-life", **{**LIFE, "currency": "USD"})
    job.record("part-age", **AGE)
    found = sums(job)
    assert found.missing == (
        "its price in USD, as the cost of a failure is: it is known in EUR alone, and the two are not added",
    )
    assert (found.said, found.kept) == ("", None)


def test_with_the_figures_of_the_sheet_it_says_from_which_cost_on_it_pays(tmp_path: Path) -> None:
    wear = "wear: {shape: 2, life: 100000 km, source: manual p. 22}"
    sheet = SHEET.replace(
        "{value: 60000 km or 60 months, source: manual p. 21}",
        f"{{value: 40000 km, source: manual p. 21}}, {wear}",
    )
    job = buying_job(tmp_path, sheet=sheet)
    job.record("part-age", **AGE)
    found = sums(job)
    # HAND: 18 / (0.4727 − 0.1479) = 55.41.
    assert (
        found.sums[-1] == "Renewing it for 18.00 EUR pays where a failure costs more than 55.41 EUR in all."
    )
    assert found.missing == (
        'what a failure costs: gudgeon record life "Fan belt" --shape 2 --life 100000 --unit km --until N --cost N '
        "--currency … --basis …",
    )
    assert found.basis == "manual p. 22"


def test_an_age_at_which_no_part_is_left_is_refused_in_words(job: Job) -> None:
    job.record("part-life", **{**LIFE, "life": "100"})
    job.record("part-age", **AGE)
    found = sums(job)
    assert found.sums == ()
    assert "60000" in found.said


def test_a_part_that_is_renewed_anyway_has_no_such_sums(job: Job) -> None:
    job.record("part-life", **{**LIFE, "part": "head_gasket"})
    job.record("part-life", **LIFE)
    job.record("part-disposition", part="belt", decision="renew", why="while it is open")
    answer = asked(job)
    assert part(answer, "Head gasket").while_open is None
    assert part(answer, "Fan belt").while_open is None
