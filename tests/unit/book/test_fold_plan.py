"""The plan, orders, prices and money in a book: the latest word counts, a strike gives back the one before."""

from typing import Any

import pytest

from gudgeon.book.plan_state import AddedTask, OwnMinutes, PlannedDay, PlanState
from tests.unit.book.chains import begun


def test_a_book_that_says_nothing_of_it_has_no_plan() -> None:
    state = begun().state
    assert state.plan == PlanState()
    assert (state.buying.orders, dict(state.buying.prices), state.agreed.told) == ((), {}, ())


def test_the_job_that_was_chosen_last_counts_and_a_strike_gives_back_the_one_before() -> None:
    chain = begun()
    chain.add("job-chosen", job="timing_belt", why="it is due")
    larger = chain.add("job-chosen", job="top_end", why="it jumped")
    assert (chain.state.plan.job, chain.state.plan.why) == ("top_end", "it jumped")
    chain.strike(larger)
    assert (chain.state.plan.job, chain.state.plan.why) == ("timing_belt", "it is due")


def test_a_task_of_his_own_is_kept_whole_and_said_again_comes_back() -> None:
    chain = begun()
    said: dict[str, Any] = {"task": "paint", "title": "Paint it", "minutes": 60, "after": ["wash_head"], "before": ["lay_gasket"],
            "needs": ["paint"], "two_people": True, "due_before": "fire", "why": "rust"}  # fmt: skip
    chain.add("task-added", **said)
    assert dict(chain.state.plan.added) == {
        "paint": AddedTask(
            "paint", "Paint it", ("wash_head",), ("lay_gasket",), 60, True, ("paint",), "fire", "rust"
        )
    }
    chain.add("task-dropped", task="paint", why="no rust")
    assert dict(chain.state.plan.dropped) == {"paint": "no rust"}
    again = chain.add("task-added", **said)
    assert dict(chain.state.plan.dropped) == {}
    chain.strike(again)
    assert dict(chain.state.plan.dropped) == {"paint": "no rust"}


def test_a_struck_drop_takes_the_task_in_again() -> None:
    chain = begun()
    dropped = chain.add("task-dropped", task="flush_radiator", why="a new one")
    assert "flush_radiator" in chain.state.plan.dropped
    chain.strike(dropped)
    assert "flush_radiator" not in chain.state.plan.dropped


def test_minutes_order_and_days_are_those_said_last() -> None:
    chain = begun()
    chain.add("task-minutes", task="wash_head", minutes=60)
    assert chain.state.plan.minutes["wash_head"] == OwnMinutes(60, 60, 60, "")
    wide = chain.add("task-minutes", task="wash_head", low=50, minutes=60, high=90, why="hard water")
    assert chain.state.plan.minutes["wash_head"] == OwnMinutes(50, 60, 90, "hard water")
    chain.strike(wide)
    assert chain.state.plan.minutes["wash_head"] == OwnMinutes(60, 60, 60, "")
    chain.add("task-order", task="wash_head", after=["drain_oil", "lift_head"])
    chain.add("task-order", task="wash_head", after=["lift_head"])
    assert dict(chain.state.plan.after) == {"wash_head": ("lift_head",)}
    chain.add("day-planned", day="2026-03-07", hours=["09:00-12:00"])
    chain.add("day-planned", day="2026-03-07", hours=[], whose="second person")
    chain.add("day-planned", day="2026-03-07", hours=["10:00-12:00"], why="late up")
    assert dict(chain.state.plan.days) == {
        ("own", "2026-03-07"): PlannedDay("2026-03-07", ("10:00-12:00",), "own", "late up"),
        ("second person", "2026-03-07"): PlannedDay("2026-03-07", (), "second person", ""),
    }


def test_a_promise_has_its_span_and_a_newer_one_takes_its_place() -> None:
    chain = begun()
    chain.add("promised", what="head", of="shop", on="2026-03-10")
    first = chain.state.plan.promises[("shop", "head")]
    assert (first.earliest, first.on, first.latest) == ("2026-03-10", "2026-03-10", "2026-03-10")
    chain.add("promised", what="head", of="delivery", on="2026-03-01")
    newer = chain.add(
        "promised", what="head", of="shop", on="2026-03-17", earliest="2026-03-16", latest="2026-03-24"
    )
    assert set(chain.state.plan.promises) == {("shop", "head"), ("delivery", "head")}
    kept = chain.state.plan.promises[("shop", "head")]
    assert (kept.earliest, kept.on, kept.latest, kept.said) == (
        "2026-03-16", "2026-03-17", "2026-03-24", newer.device_time,
    )  # fmt: skip


def test_what_is_bought_and_what_is_asked_for_it() -> None:
    chain = begun()
    first = chain.add(
        "part-ordered", part="gasket", supplier="Mill Lane", quantity=2, amount="84.50", currency="EUR"
    )
    chain.add("part-ordered", part="gasket", supplier="Mill Lane")
    assert [(one.quantity, one.amount, one.expected) for one in chain.state.buying.orders] == [
        (2, "84.50", ""),
        (1, "", ""),
    ]
    chain.strike(first)
    assert [one.quantity for one in chain.state.buying.orders] == [1]
    chain.add("price-seen", part="gasket", supplier="Mill Lane", price="40", currency="EUR")
    chain.add("price-seen", part="gasket", supplier="Mill Lane", price="38", currency="EUR", pack=2, days=0)
    (price,) = chain.state.buying.prices.values()
    assert (price.price, price.pack, price.days) == ("38", 2, 0), "no days is not the same as none said"


def test_what_was_told_and_agreed_about_money_stays_in_its_order() -> None:
    chain = begun()
    for low in ("80", "90"):
        chain.add(
            "cost-expected", what="bore", low=low, likely="100", high="120", currency="EUR", chance="0.3"
        )
    chain.add("estimate-told", at="start", low="400", middle="600", high="900", currency="EUR", to="owner")
    told = chain.add(
        "estimate-told", at="strip", low="500", middle="700", high="900", currency="EUR", to="owner"
    )
    chain.add("ceiling-agreed", amount="1000", currency="EUR", by="owner", until="strip")
    chain.add("approval", what="bore", answer="no", by="owner")
    agreed = chain.state.agreed
    assert [(key, one.low) for key, one in agreed.costs.items()] == [("bore", "90")]
    assert [one.at for one in agreed.told] == ["start", "strip"]
    assert [(one.amount, one.until) for one in agreed.ceilings] == [("1000", "strip")]
    assert [(one.what, one.answer, one.amount) for one in agreed.approvals] == [("bore", "no", "")]
    chain.strike(told)
    assert [one.at for one in chain.state.agreed.told] == ["start"]


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("job-chosen", {"job": "timing_belt"}),
        ("task-dropped", {"task": "wash_head", "why": "not dirty"}),
        ("ceiling-agreed", {"amount": "1000", "currency": "EUR", "by": "owner"}),
    ],
)
def test_a_plan_shakes_no_proof_and_no_joint(kind: str, body: dict[str, str]) -> None:
    chain = begun()
    chain.pull(1)
    chain.prove("walk_round")
    before = chain.state
    chain.add(kind, **body)
    assert dict(chain.state.holds) == dict(before.holds)
    assert dict(chain.state.joints) == dict(before.joints)
    assert chain.state.doubtful == before.doubtful
