"""What is away or on its way: as promised, after the usual time, or late."""

from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from gudgeon.bench.network import tasks_of
from gudgeon.bench.plan_errors import PastPromise
from gudgeon.bench.planning.arrivals import Arrival, arrivals, late_ones, rest_to_order, rests_to_order
from gudgeon.bench.standing import Network
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.planning.planned import DEMO, asked, kit, opened, planned_job

AFTERNOON = 17
"""PRINTED: `here_at` of planning.toml, common practice, no source. Tests run by UTC or by the clock of the machine."""


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return planned_job(tmp_path)


def coming(job: Job, *, on: str = "") -> tuple[Arrival, ...]:
    """What comes, asked at noon of a day."""
    if on:
        job.now = datetime.fromisoformat(f"{on}T12:00:00+00:00")
    with opened(job) as bench:
        return arrivals(Network(bench, tasks_of(bench.sheet, bench.state)), goal="first_start")


def day(moment: datetime) -> str:
    return moment.astimezone().date().isoformat()


def send(job: Job) -> None:
    job.record("shop-out", part="Cylinder head", shop="Shop in the next town", ordered="resurface it")


def test_nothing_is_away_and_nothing_is_ordered(job: Job) -> None:
    assert coming(job) == ()


def test_a_promise_of_the_shop_holds_up_what_gets_the_head_back(job: Job) -> None:
    """HAND: sent on March 7; promised for the 17th, ten days on: it slips by 0.3 · 10 = 3 days, by 3 at least."""
    send(job)
    job.record("promised", what="Cylinder head", of="shop", on="2026-03-17", by="the owner of the shop")
    (one,) = coming(job)
    assert (one.kind, one.holds, one.late, one.promised) == (
        "shop",
        ("shop_works",),
        False,
        date(2026, 3, 17),
    )
    assert one.planned == one.earliest == datetime(2026, 3, 17, AFTERNOON).astimezone()
    assert one.latest - one.planned == timedelta(days=3)
    assert one.words == "Cylinder head: back from the shop on Tue Mar 17, as promised"


def test_a_span_that_was_said_is_the_span(job: Job) -> None:
    send(job)
    job.record(
        "promised",
        what="cylinder HEAD",
        of="shop",
        on="2026-03-17",
        earliest="2026-03-16",
        latest="2026-03-24",
    )
    (one,) = coming(job)
    assert (day(one.earliest), day(one.planned), day(one.latest)) == (
        "2026-03-16",
        "2026-03-17",
        "2026-03-24",
    )


def test_a_promise_that_is_over_is_late_and_planned_from_tomorrow(job: Job) -> None:
    """HAND: on the 20th, three days after the 17th, it is planned for the 21st and, as it slips, up to the 24th."""
    send(job)
    job.record("promised", what="Cylinder head", of="shop", on="2026-03-17", by="the owner of the shop")
    found = coming(job, on="2026-03-20")
    (one,) = found
    assert (one.late, day(one.planned), day(one.earliest), day(one.latest)) == (
        True, "2026-03-21", "2026-03-21", "2026-03-24",
    )  # fmt: skip
    (late,) = late_ones(found, now=job.now)
    assert (late.what, late.promised, late.days) == ("Cylinder head", "Tue Mar 17", 3)
    assert late.words == (
        "Cylinder head: was promised by the owner of the shop for Tue Mar 17 and is late for 3 days. Planned as if it "
        "came on Sat Mar 21: ask, and write down what they say."
    )


def test_on_its_day_nothing_is_late(job: Job) -> None:
    send(job)
    job.record("promised", what="Cylinder head", of="shop", on="2026-03-17")
    (one,) = coming(job, on="2026-03-17")
    assert (one.late, day(one.planned)) == (False, "2026-03-17")
    (one,) = coming(job, on="2026-03-18")
    assert late_ones((one,), now=job.now)[0].words.startswith(
        "Cylinder head: was promised by Shop in the next town for Tue Mar 17 and is late since yesterday."
    )


def test_a_new_promise_counts_in_the_place_of_the_old_one(job: Job) -> None:
    send(job)
    job.record("promised", what="Cylinder head", of="shop", on="2026-03-10")
    job.record("promised", what="Cylinder head", of="shop", on="2026-03-13")
    (one,) = coming(job, on="2026-03-11")
    assert (one.late, day(one.planned)) == (False, "2026-03-13")


def test_without_a_promise_the_usual_time_counts_and_nobody_is_late(job: Job) -> None:
    """HAND: sent on March 7 at 10:02; the tests of the shop take a day and its work two: the 10th at 10:02; from 0.7
    to 3 times: the 9th, and the 16th."""
    send(job)
    (one,) = coming(job)
    assert (day(one.planned), day(one.earliest), day(one.latest)) == (
        "2026-03-10",
        "2026-03-09",
        "2026-03-16",
    )
    assert (one.promised, one.words) == (
        None, "Cylinder head: back from the shop about Tue Mar 10, after the usual time; nobody promised a day",
    )  # fmt: skip
    (one,) = coming(job, on="2026-03-12")
    assert (one.late, day(one.planned)) == (False, "2026-03-13")


def test_what_is_back_is_awaited_no_more(job: Job) -> None:
    send(job)
    job.record("promised", what="Cylinder head", of="shop", on="2026-03-17")
    job.record("shop-back", part="Cylinder head", found="flat")
    assert coming(job) == ()


def test_a_promise_before_the_head_has_left_holds_up_its_check(job: Job) -> None:
    job.record("promised", what="Cylinder head", of="shop", on="2026-04-20")
    (one,) = coming(job)
    assert (one.holds, day(one.planned), one.since) == (("check_head",), "2026-04-20", None)
    assert one.still_here
    assert one.words == (
        "Cylinder head: back from the shop on Mon Apr 20, as promised; it has not left yet, and is away from when it leaves "
        "for the usual time at least"
    )
    answer = asked(job)
    (away,) = [one for one in answer.meanwhile if "machine shop" in one.what]
    (sent,) = [bar for bar in answer.bars if bar.task == "head_to_shop"]
    assert away.begins == sent.spans[-1].ends, "it is away from when it leaves, not from today"
    shop = [span for bar in answer.bars for span in bar.spans if span.kind == "shop"]
    assert min(span.begins for span in shop) >= sent.spans[-1].ends


def test_a_day_that_is_over_before_the_head_has_left_is_no_fault_of_the_shop(job: Job) -> None:
    job.record("promised", what="Cylinder head", of="shop", on="2026-03-10")
    (late,) = late_ones(coming(job, on="2026-03-12"), now=job.now)
    assert late.words == (
        "Cylinder head: was promised for Tue Mar 10, which is over, and by the book it has not left. Record that it left if "
        "it did, or ask for a new day."
    )


def test_one_part_under_two_names_has_one_promise_the_later_one(job: Job) -> None:
    job.record("promised", what="Cylinder head", of="shop", on="2026-04-20")
    job.record("promised", what="head", of="shop", on="2026-04-25")
    (one,) = coming(job)
    assert (one.what, day(one.planned)) == ("Cylinder head", "2026-04-25")
    send(job)
    job.record("promised", what="the head", of="shop", on="2026-04-27")
    job.record("promised", what="head", of="shop", on="2026-04-28")
    assert [(one.what, day(one.planned)) for one in coming(job)] == [("Cylinder head", "2026-04-28")]


@pytest.mark.parametrize(("part", "task"), [("Intake manifold", "intake_on"), ("The trailer", "first_start")])
def test_a_part_that_no_task_gets_back_holds_up_what_needs_it_else_the_start(
    job: Job, part: str, task: str
) -> None:
    job.record("shop-out", part=part, shop="welder", ordered="weld the ear")
    (one,) = coming(job)
    assert one.holds == (task,)


def test_a_part_that_leaves_once_more_holds_up_all_that_comes_after_it(job: Job) -> None:
    """What was done in between stays done; what was not waits for the part, though everything right before it is done."""
    send(job)
    job.record("shop-back", part="head", found="flat")
    for task in ("check_head", "wash_head", "build_valves", "lay_gasket"):
        job.record("task-done", task=task)
    with opened(job) as bench:
        before = Network(bench, tasks_of(bench.sheet, bench.state))
    job.now += timedelta(days=1)
    job.record("shop-out", part="Head", shop="Shop in the next town", ordered="once more")
    job.record("promised", what="head", of="shop", on="2026-04-20")
    (one,) = coming(job)
    assert (one.what, one.holds, day(one.planned)) == ("Cylinder head", ("shop_works",), "2026-04-20")
    with opened(job) as bench:
        network = Network(bench, tasks_of(bench.sheet, bench.state))
    head_down = next(key for key in network.order if "lay_gasket" in network.tasks[key].after)
    assert before.waits_for(head_down) == []
    assert network.waits_for(head_down) == ["shop_works"]
    assert network.stand(head_down).where == "blocked"
    plan = asked(job)
    assert plan.first_start is not None and day(plan.first_start) > "2026-04-20"


def test_a_promise_of_the_time_before_is_none_of_this_time(job: Job) -> None:
    """HAND: promised for the 10th, back on the 9th, away again on the 10th: the usual three days from then."""
    send(job)
    job.record("promised", what="head", of="shop", on="2026-03-10")
    job.now = datetime.fromisoformat("2026-03-09T10:00:00+00:00")
    job.record("shop-back", part="head", found="flat")
    job.now = datetime.fromisoformat("2026-03-10T10:00:00+00:00")
    send(job)
    (one,) = coming(job, on="2026-03-11")
    assert (one.promised, one.late) == (None, False)
    assert day(one.planned) >= "2026-03-13"


def test_every_open_order_of_a_part_counts_and_an_older_promise_is_of_none(job: Job) -> None:
    for supplier, on in (("marl", "2026-04-20"), ("corner", "2026-03-12")):
        job.record("part-ordered", part="Spark plugs", supplier=supplier, quantity=2, expected=on)
    assert [day(one.planned) for one in coming(job)] == ["2026-03-12", "2026-04-20"]
    job.record("promised", what="Oil filter", of="delivery", on="2026-03-09")
    job.now += timedelta(days=1)
    job.record("part-ordered", part="Oil filter", supplier="nobody in the kit", quantity=1)
    (one,) = [one for one in coming(job) if one.what == "Oil filter"]
    assert one.promised is None


def test_a_promise_of_one_supplier_moves_no_order_of_another(job: Job) -> None:
    for supplier, on in (("marl", "2026-04-20"), ("corner", "2026-03-12")):
        job.record("part-ordered", part="Spark plugs", supplier=supplier, quantity=2, expected=on)
    job.record("promised", what="Spark plugs", of="delivery", on="2026-03-15", by="corner")
    assert [day(one.planned) for one in coming(job)] == ["2026-03-15", "2026-04-20"]


def test_a_part_that_nobody_ordered_holds_its_task_once_no_task_orders(tmp_path: Path) -> None:
    """HAND: 5 to 6 weeks by the kit are 42 days from March 7: April 18. Of another job's parts nothing is said."""
    slow = kit()
    for price in ("19.80", "16.50"):
        slow = slow.replace(
            f"auxiliary_belt: {price} EUR", f"auxiliary_belt: {{price: {price} EUR, lead: 5-6 weeks}}"
        )
    job = make_job(tmp_path, sheet=(DEMO / "sheet.yaml").read_text(encoding="utf-8"), kit=slow)
    job.record("identity-read", code="TW18-D4", read_from="pad")
    assert coming(job) == ()
    job.record("task-done", task="compare_parts")
    assert coming(job) == (), "a book that is told of no part says nothing of them"
    job.record("part-disposition", part="auxiliary_belt", decision="renew", why="cracked")
    (one,) = [one for one in coming(job) if one.what == "Auxiliary belt"]
    assert (one.ordered, one.holds, day(one.planned)) == (False, ("auxiliary_drive_on",), "2026-04-18")
    assert one.words.startswith(
        "Auxiliary belt: not ordered yet, here about Sat Apr 18: it takes 42 days from "
    )
    job.record("part-ordered", part="auxiliary_belt", supplier="corner", quantity=1, expected="2026-03-12")
    (one,) = [one for one in coming(job) if one.what == "Auxiliary belt"]
    assert one.ordered
    job.record("job-chosen", job="timing_belt")
    with opened(job) as bench:
        assert "Head gasket" not in {one.part for one in rests_to_order(bench)}


def test_an_order_holds_up_what_needs_it_and_the_first_the_look_at_what_came(job: Job) -> None:
    """HAND: ordered on March 7 for the 12th: five days on, 0.3 · 5 = 1.5, so it slips by 2 days, the least."""
    job.record("part-ordered", part="Head gasket", supplier="Parts by mail", expected="2026-03-12")
    (one,) = coming(job)
    assert (one.kind, one.holds, one.by) == (
        "delivery", ("compare_parts", "lay_gasket"), "Parts by mail",
    )  # fmt: skip
    assert one.latest - one.planned == timedelta(days=2)
    assert one.words == "Head gasket: delivered on Thu Mar 12, as promised"
    job.record("part-received", part="Head gasket", compared=True)
    assert coming(job) == ()


def test_the_later_word_on_a_delivery_counts(job: Job) -> None:
    job.record("promised", what="Head gasket", of="delivery", on="2026-03-20")
    job.record("part-ordered", part="Head gasket", supplier="Parts by mail", expected="2026-03-12")
    assert day(coming(job)[0].planned) == "2026-03-12"
    job.record("promised", what="Head gasket", of="delivery", on="2026-03-25")
    assert day(coming(job)[0].planned) == "2026-03-25"


def test_an_order_without_a_day_takes_the_usual_time(job: Job) -> None:
    """HAND: two days, from half of that to three times."""
    job.record("part-ordered", part="Head gasket", supplier="Parts by mail")
    (one,) = coming(job)
    assert (day(one.planned), day(one.latest), one.promised) == ("2026-03-09", "2026-03-13", None)


@pytest.mark.parametrize(
    ("part", "task"),
    [("Coolant", "fill_coolant"), ("Head gasket", "lay_gasket"), ("Something of nowhere", "build_valves")],
)
def test_once_what_came_was_looked_at_the_task_that_names_a_part_waits(
    job: Job, part: str, task: str
) -> None:
    job.record("task-done", task="compare_parts")
    job.record("part-ordered", part=part, supplier="Parts by mail", expected="2026-03-12")
    (one,) = [one for one in coming(job) if one.ordered]
    assert one.holds == (task,)


def test_what_comes_is_told_by_its_day(job: Job) -> None:
    for part, on in (("Head gasket", "2026-03-20"), ("Oil filter", "2026-03-10")):
        job.record("part-ordered", part=part, supplier="Parts by mail", expected=on)
    assert [(one.what, one.holds) for one in coming(job)] == [
        ("Oil filter", ("compare_parts", "fill_oil")), ("Head gasket", ("lay_gasket",)),
    ]  # fmt: skip


def test_a_past_promise_names_the_part_as_the_sheet_does(job: Job) -> None:
    with pytest.raises(PastPromise) as caught:
        job.record("part-ordered", part="head_gasket", supplier="Marl", expected="2025-12-01")
    assert str(caught.value) == (
        "Head gasket: 2025-12-01 as promised is over, today is 2026-03-07. Write the day that was promised anew; if it "
        "came, record that it came."
    )


def test_an_order_without_a_day_takes_as_long_as_the_kit_says_of_its_supplier(job: Job) -> None:
    """PRINTED in the kit: Marl takes 2 to 4 days; the later is planned. HAND: ordered on March 7, it comes on the 11th."""
    job.record("part-ordered", part="Head gasket", supplier="marl")
    (one,) = coming(job)
    assert (day(one.planned), one.promised) == ("2026-03-11", None)
    assert one.words == (
        "Head gasket: delivered about Wed Mar 11, after the 4 days of Marl Motor Parts (invented), as kit and book have it; "
        "nobody promised a day"
    )


def test_of_several_articles_the_one_that_takes_longest_is_planned(tmp_path: Path) -> None:
    """PRINTED in the kit: all of Marl takes up to 4 days, the second article 1. HAND: March 7 and four days, the 11th."""
    two = kit().replace(
        "head_gasket: 46.50 EUR", "head_gasket: {price: 46.50 EUR, also: [{price: 50 EUR, lead: 1 day}]}"
    )
    assert two != kit()
    job = make_job(tmp_path, sheet=(DEMO / "sheet.yaml").read_text(encoding="utf-8"), kit=two)
    job.record("identity-read", code="TW18-D4", read_from="pad")
    job.record("part-ordered", part="Head gasket", supplier="marl")
    (one,) = coming(job)
    assert day(one.planned) == "2026-03-11"


def test_parts_that_nobody_ordered_take_as_long_as_the_soonest_supplier_says(tmp_path: Path) -> None:
    """PRINTED in the kit: Marl needs 4 days at most, Tarn 2 weeks for a timing belt, which here Marl does not sell."""
    sheet = (DEMO / "sheet.yaml").read_text(encoding="utf-8")
    for name in ("usual", "slow"):
        (tmp_path / name).mkdir()
    usual = make_job(tmp_path / "usual", sheet=sheet, kit=kit())
    slow = make_job(tmp_path / "slow", sheet=sheet, kit=kit().replace("      timing_belt: 34.90 EUR\n", ""))
    with opened(usual) as bench:
        rest = rest_to_order(bench)
    assert rest is not None and (rest.days, rest.shop) == (4, "Marl Motor Parts (invented)")
    with opened(slow) as bench:
        rest = rest_to_order(bench)
    assert rest is not None
    assert rest.words == (
        "Parts that are not ordered yet take 14 days once they are: Timing belt does not come sooner, from "
        "Tarn Valley Spares (invented), as kit and book have it."
    )
    later, sooner = asked(slow), asked(usual)
    assert rest.words in later.assumed
    assert later.first_start is not None and sooner.first_start is not None
    assert later.first_start > sooner.first_start
    slow.record("part-received", part="Timing belt", compared=True)
    with opened(slow) as bench:
        rest = rest_to_order(bench)
    assert rest is not None and rest.days == 4
