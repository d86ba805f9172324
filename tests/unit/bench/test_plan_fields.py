"""What is said of the plan and of money: how it is read, and every refusal in its whole text."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.begin import begin
from gudgeon.bench.context import open_bench
from gudgeon.bench.costs.money_errors import RangeInOrder
from gudgeon.bench.errors import Unknown
from gudgeon.bench.network import job_of, tasks_of
from gudgeon.bench.plan_errors import (
    AfterItself,
    AfterNothing,
    AlreadyOut,
    AmountsInOrder,
    CameAlready,
    DoneAlready,
    IsAGate,
    LeftOut,
    MinutesInOrder,
    NeverSent,
    NoChance,
    NoDay,
    NoHours,
    NotMoney,
    NotThisEngine,
    PastDay,
    PastPromise,
    PromiseInOrder,
    ProvesSomething,
    ProvesThere,
    TaskThere,
    WaitForEachOther,
)
from gudgeon.bench.plan_fields import KINDS, an_amount, hours_of_day
from gudgeon.bench.record import record
from gudgeon.book.plan_state import Age, Life
from gudgeon.errors import GudgeonError
from tests.unit.bench.benches import KIT, START, Job, make_job
from tests.unit.bench.job_player import AIR, BELT, begun, pulled, write

MONEY: dict[str, Any] = {"low": "80", "likely": "100", "high": "120", "currency": "usd"}


@pytest.fixture
def made(tmp_path: Path) -> Job:
    return make_job(tmp_path, sheet=BELT)


def refusal(made: Job, kind: str, /, **fields: Any) -> GudgeonError:
    with pytest.raises(GudgeonError) as caught:
        made.record(kind, **fields)
    return caught.value


def after(job: Job, key: str) -> tuple[str, ...]:
    return job_of(job.bench().state).tasks[key].after


@pytest.mark.parametrize(
    ("kind", "fields", "error", "said"),
    [
        ("task-order", {"task": "lay_gasket", "after": ["tighten the head bolts"]}, WaitForEachOther,
         "“Lay the head gasket by its marks, every hole compared with the old one” cannot come after “Tighten the head "
         "bolts, stage by stage, each bolt ticked and marked”: the job has “Tighten the head bolts, stage by stage, each "
         "bolt ticked and marked” wait for it already, so neither could begin. Leave that order out, or put it the other "
         "way round."),
        ("task-order", {"task": "lay_gasket"}, AfterNothing,
         "After what “Lay the head gasket by its marks, every hole compared with the old one” is to come is not said. Name "
         "a task that is done before it, by words of its title."),
        ("task-added", {"title": "Paint it", "minutes": 60, "after": ["hand_over"], "before": ["read_code"]},
         WaitForEachOther,
         "“Read the engine code and number off the engine; photograph every plate” cannot come after “Paint it”: the job "
         "has “Paint it” wait for it already, so neither could begin. Leave that order out, or put it the other way round."),
        ("task-order", {"task": "lay_gasket", "after": ["lay_gasket"]}, AfterItself,
         "“Lay the head gasket by its marks, every hole compared with the old one” cannot come after itself. Name a task "
         "that is done before it."),
        ("task-dropped", {"task": "compare_parts", "why": "no time"}, ProvesSomething,
         "“Lay every new part on the old one before the old one goes” cannot be left out: in it is proved “New parts laid "
         "against the old ones”, and the engine may not be started without. Do it, or choose a smaller job that does not "
         "touch it."),
        ("task-dropped", {"task": "short_run", "why": "no time"}, IsAGate,
         "“Run it under load in short steps, a look after each” cannot be left out: before it everything that is open is "
         "asked for. What stands against it is told by gudgeon ready."),
        ("task-added", {"title": "put the battery on its charger", "minutes": 3}, TaskThere,
         "The job has “put the battery on its charger” already. Say what is different about yours."),
        ("task-minutes", {"task": "wash_head", "minutes": 60, "low": 70}, MinutesInOrder,
         "70 min at best, 60 min as a rule and 60 min at worst cannot be: the first is at most the second, and that at "
         "most the third. Look which of them is wrong."),
        ("promised", {"what": "head", "of": "shop", "on": "2026-03-06"}, PastPromise,
         "head: 2026-03-06 as promised is over, today is 2026-03-07. Write the day that was promised anew; if it came, "
         "record that it came."),
        ("part-ordered", {"part": "gasket", "supplier": "Mill Lane", "expected": "2025-12-01"}, PastPromise,
         "gasket: 2025-12-01 as promised is over, today is 2026-03-07. Write the day that was promised anew; if it came, "
         "record that it came."),
        ("promised", {"what": "head", "of": "shop", "on": "2026-03-20", "earliest": "2026-03-21"}, PromiseInOrder,
         "2026-03-21 at the earliest, 2026-03-20 as promised and 2026-03-20 at the latest cannot be: the first is at most "
         "the second, and that at most the third. Look which of them is wrong."),
        ("promised", {"what": "head", "of": "shop", "on": "next week"}, NoDay,
         "`next week` is no day. Write year, month and day, like `2026-03-07`."),
        ("day-planned", {"day": "2026-02-30"}, NoDay,
         "`2026-02-30` is no day. Write year, month and day, like `2026-03-07`."),
        ("day-planned", {"day": "2026-03-07", "hours": ["evening"]}, NoHours,
         "`evening` are no hours of a day. Write from when to when, like `19:00-21:30`, up to `24:00`, the earlier first; "
         "several are kept apart from each other."),
        ("cost-expected", {"what": "bore", **MONEY, "low": "-5"}, NotMoney,
         "`-5` is no amount for “at best”. Write a number that is not below 0, like `42.50`, without marks for thousands; the "
         "currency stands apart."),
        ("cost-expected", {"what": "bore", **MONEY, "low": "110"}, AmountsInOrder,
         "110 at best, 100 as a rule and 120 at worst cannot be: the first is at most the second, and that at most the "
         "third. Look which of them is wrong."),
        ("estimate-told", {"at": "start", "low": "4", "middle": "9", "high": "8", "currency": "USD", "to": "Ada"},
         RangeInOrder,
         "A range from 4 to 8 with 9 in the middle cannot be: the first is at most the middle, and that at most the last. "
         "Look which of them is wrong."),
        ("cost-expected", {"what": "bore", **MONEY, "chance": "130 %"}, NoChance,
         "`130 %` is no chance. Write a number above 0 and at most 1, like `0.3`, or in percent, like `30 %`."),
        ("cost-expected", {"what": "bore", **MONEY, "chance": "20 % or so"}, NoChance,
         "`20 % or so` is no chance. Write a number above 0 and at most 1, like `0.3`, or in percent, like `30 %`."),
        ("day-planned", {"day": "2026-03-06"}, PastDay,
         "2026-03-06 is over, today is 2026-03-07: nothing can be planned on it any more. Name today or a day that comes."),
        ("promised", {"what": "Starter", "of": "shop", "on": "2026-03-20"}, NeverSent,
         "Starter is not at the machine shop by the book, and no task of the job takes it there, so no day can be promised "
         "for it. Record first that it left: gudgeon record shop-out."),
        ("cost-expected", {"what": "bore", **MONEY, "chance": "0"}, NoChance,
         "`0` is no chance. Write a number above 0 and at most 1, like `0.3`, or in percent, like `30 %`."),
        ("job-chosen", {"job": "whole car"}, Unknown,
         "`whole car` is no job here. Known: Top end, Top end and bottom end, Timing belt only, Valve cover reseal."),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_refused_in_words(
    made: Job, kind: str, fields: dict[str, Any], error: type[GudgeonError], said: str
) -> None:
    caught = refusal(made, kind, **fields)
    assert (type(caught), str(caught)) == (error, said)
    assert kind not in {one.kind for one in entries(made)}, "nothing was written"


def test_nothing_is_promised_that_came_already(made: Job) -> None:
    made.record("part-received", part="thermostat seal", compared=True)
    made.record("shop-out", part="Cylinder head", shop="Mill Lane", ordered="resurface it")
    made.record("shop-back", part="Cylinder head", found="flat")
    for of, what, said in (
        ("delivery", "Thermostat seal",
         "Thermostat seal: the book says that it came, so no day is promised for it. If more of it is to come, record the "
         "order first."),
        ("shop", "head",
         "Cylinder head: the book says that it came back from the machine shop, so no day is promised for it. If it goes "
         "there again, record that it left first."),
    ):  # fmt: skip
        caught = refusal(made, "promised", what=what, of=of, on="2026-03-20")
        assert (type(caught), str(caught)) == (CameAlready, said)


def test_a_chance_in_percent_is_a_number_up_to_one(made: Job) -> None:
    """HAND: 20 % is 0.2, 100 % is 1, 2.5 % is 0.025."""
    from gudgeon.bench.plan_fields import _a_chance

    assert [_a_chance(one) for one in ("20 %", "100%", "2,5 %", "0.3")] == ["0.2", "1", "0.025", "0.3"]
    made.record("cost-expected", what="bore", **MONEY, chance="20 %")
    assert entries(made)[-1].body["chance"] == "0.2"


def entries(job: Job) -> list[Any]:
    bench = open_bench(job.book, now=job.now)
    try:
        return list(bench.store.entries(bench.build))
    finally:
        bench.store.close()


def test_a_task_that_was_begun_is_not_left_out(made: Job) -> None:
    made.record("task-started", task="flush_radiator")
    caught = refusal(made, "task-dropped", task="flush_radiator", why="a new one")
    assert type(caught) is DoneAlready
    assert str(caught) == (
        "A job without “Flush radiator and heater” cannot be: the book says of “Flush radiator and heater” that work on it "
        "was begun. Go on with the job that has it; an entry that is wrong can be struck."
    )


@pytest.mark.parametrize("how", ["task", "pull", "proof", "shop"])
def test_a_smaller_job_is_refused_once_work_was_begun_that_it_has_not(made: Job, how: str) -> None:
    made.read_code()
    made.record("job-chosen", job="timing_belt")
    made.record("job-chosen", job="top_end")
    said: dict[str, list[tuple[str, dict[str, object]]]] = {
        "task": [("task-started", {"task": "strip_head"})],
        "pull": [*pulled("exhaust_manifold")],
        "proof": [("hold-proved", {"hold": "cold_before_loosening", "value": "18 °C"})],
        "shop": [("shop-out", {"part": "cylinder head", "shop": "Mill Lane", "ordered": "wash"})],
    }
    title = {
        "task": "“Take valves, springs and seals out of the head, each valve with its own bag”",
        "pull": "“Exhaust on with new gaskets and nuts, in order”",
        "proof": "“Measure the temperature of the block before anything on the head is loosened”",
        "shop": "“Take the head to the machine shop, its parts numbered, the order with it”, “At the machine shop: wash, look "
        "for cracks, press for leaks”, “At the machine shop: straighten, guides and seats, resurface; as-left figures on "
        "paper”",
    }
    write(made, said[how])
    caught = refusal(made, "job-chosen", job="timing_belt")
    assert type(caught) is DoneAlready
    assert str(caught) == (
        f"The job “Timing belt only” cannot be: the book says of {title[how]} that work on it was begun. "
        "Go on with the job that has it; an entry that is wrong can be struck."
    )


def test_a_job_for_a_belt_is_refused_for_an_engine_without_one(tmp_path: Path) -> None:
    made = make_job(tmp_path, sheet=AIR)
    caught = refusal(made, "job-chosen", job="timing belt only")
    said = (
        "The job “Timing belt only” is for an engine with timing belt, and by the data sheet this one has none. Choose "
        "another job, or mend the sheet where it is wrong."
    )
    assert (type(caught), str(caught)) == (NotThisEngine, said)
    with pytest.raises(NotThisEngine):
        begin(tmp_path / "new.gudgeon", build="b", sheet=tmp_path / "sheet.yaml", kit=tmp_path / "kit.yaml", at=START,
              job="timing_belt")  # fmt: skip
    assert not (tmp_path / "new.gudgeon").exists()


def test_a_build_is_begun_with_its_job(tmp_path: Path) -> None:
    for name, text in (("sheet.yaml", BELT), ("kit.yaml", KIT)):
        (tmp_path / name).write_text(text, encoding="utf-8")
    book = tmp_path / "book.gudgeon"
    done = begin(book, build="b", sheet=tmp_path / "sheet.yaml", kit=tmp_path / "kit.yaml", at=START,
                 job="valve cover RESEAL")  # fmt: skip
    assert done.entries == 2
    assert Job(book).bench().state.plan.job == "cover_reseal"


def test_a_task_left_out_that_proves_something_in_the_larger_job_is_struck_first(tmp_path: Path) -> None:
    """The cover job proves nothing by warming it up; the top end proves the cooling system by it."""
    made = begun(tmp_path, sheet=BELT, job="cover_reseal")
    made.record("task-dropped", task="warm_up", why="it is summer")
    caught = refusal(made, "job-chosen", job="top_end")
    assert (type(caught), str(caught)) == (
        ProvesThere,
        "“Warm it up, and look round the valve cover for oil” was left out, and in the job “Top end” it proves “Warm, bled, "
        "heater hot”. Strike the entry that left it out, then choose the job.",
    )
    made.record("strike", entry=entries(made)[-1].id, why="the job grows")
    made.record("job-chosen", job="top_end")
    assert made.bench().state.plan.job == "top_end"


def test_tasks_added_left_out_timed_and_put_in_order_are_those_of_the_job(made: Job) -> None:
    before = after(made, "lay_gasket")
    done = made.record("task-added", title="Paint it", minutes=60, after=["wash the head once more"],
                       before=["lay_gasket"], needs=["paint"], two_people=True)  # fmt: skip
    assert done.said.endswith(
        "“Paint it”, 60 min, after “Wash the head once more, brush every passage, oil it, bag it”, before “Lay the head "
        "gasket by its marks, every hole compared with the old one”, two people"
    )
    assert after(made, "paint_it") == ("wash_head",)
    assert after(made, "lay_gasket") == (*before, "paint_it")
    made.record("task-minutes", task="paint_it", minutes=90, low=80, high=120)
    made.record("task-order", task="flush_radiator", after=["Paint it"])
    made.record("task-order", task="flush_radiator", after=["clean_head"])
    made.record("task-dropped", task="clean_crowns", why="they are clean")
    tasks = {one.key: one for one in tasks_of(made.bench().sheet, made.bench().state)}
    paint = tasks["paint_it"]
    assert (paint.minutes, paint.spread, paint.two_people, paint.phase) == (
        90,
        (80, 120),
        True,
        "Check what came",
    )
    assert tasks["flush_radiator"].after == ("hoses_off", "clean_head"), (
        "an order said anew takes the place of the old"
    )
    assert "clean_crowns" not in tasks
    # HAND: the crowns came after the deck, and the heights after the crowns and the gauges
    assert tasks["piston_heights"].after == ("clean_deck", "even_out")
    made.record("strike", entry=entries(made)[-1].id, why="they are not")
    assert "clean_crowns" in job_of(made.bench().state).tasks


def test_an_order_said_anew_is_held_against_the_job_and_not_against_what_it_replaces(made: Job) -> None:
    made.record("task-order", task="flush_radiator", after=["clean_manifolds"])
    made.record("task-order", task="flush_radiator", after=["clean_head"])
    made.record("task-order", task="clean_manifolds", after=["flush_radiator"])
    assert type(refusal(made, "task-order", task="clean_head", after=["clean_manifolds"])) is WaitForEachOther


def test_own_tasks_in_any_letters_have_keys_of_their_own_and_none_of_another_job(made: Job) -> None:
    for title in ("Дно промыть", "Клапан протереть", "Flywheel off"):
        made.record("task-added", title=title, minutes=10)
    assert {key: one.title for key, one in made.bench().state.plan.added.items()} == {
        "task": "Дно промыть", "task_2": "Клапан протереть", "flywheel_off_2": "Flywheel off",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("task-added", {"title": "Paint it", "minutes": 60}),
        ("task-dropped", {"task": "clean_crowns", "why": "clean"}),
        ("job-chosen", {"job": "cover_reseal"}),
    ],
)
def test_what_is_sent_twice_counts_once(made: Job, kind: str, fields: dict[str, Any]) -> None:
    for _ in range(2):
        bench = open_bench(made.book, now=made.now)
        try:
            record(bench, kind, fields, entry_id="a" * 32)
        finally:
            bench.store.close()
    assert [one.kind for one in entries(made)].count(kind) == 1


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        (["19:00-21:30"], ["19:00-21:30"]),
        (["9:00 to 12:00 and 13:00–24:00"], ["09:00-12:00", "13:00-24:00"]),
        (["18:00-19:00", "8:00-9:00"], ["08:00-09:00", "18:00-19:00"]),
        (["08:00-09:00; 09:00-10:00"], ["08:00-09:00", "09:00-10:00"]),
        ([], []),
    ],
)
def test_hours_are_read_as_people_write_them(said: list[str], kept: list[str]) -> None:
    assert hours_of_day(said) == kept


@pytest.mark.parametrize(
    "said", ["12:00-12:00", "13:00-12:00", "19:60-20:00", "23:00-24:30", "25:00-26:00", "9-12"]
)
def test_hours_that_are_none_are_refused(said: str) -> None:
    with pytest.raises(NoHours):
        hours_of_day([said])


def test_hours_that_lie_over_each_other_are_refused() -> None:
    with pytest.raises(NoHours):
        hours_of_day(["08:00-10:00", "09:00-11:00"])


@pytest.mark.parametrize(
    ("said", "kept"), [("42,50", "42.50"), (" 0 ", "0"), ("1000", "1000"), ("84.5", "84.5")]
)
def test_an_amount_may_have_a_comma_before_its_cents(said: str, kept: str) -> None:
    assert an_amount(said, what="price") == kept


@pytest.mark.parametrize(
    "said", ["1,000", "1,000.50", "1e3", "nan", "inf", "", "1_000", "٣", "$5", "-1", "5 000"]
)
def test_an_amount_that_could_be_read_in_two_ways_is_refused(said: str) -> None:
    with pytest.raises(NotMoney):
        an_amount(said, what="price")


def test_what_was_left_out_is_not_left_out_twice(made: Job) -> None:
    made.record("task-dropped", task="clean_crowns", why="they are clean")
    caught = refusal(made, "task-dropped", task="clean_crowns", why="they are clean")
    assert (type(caught), str(caught)) == (
        AlreadyOut,
        "“Clean the piston crowns in place, grease at the edge, everything wiped out again” is left out already. To take "
        "it in again, strike the entry that left it out.",
    )


@pytest.mark.parametrize("said", ["Clean the piston crowns", "clean crowns"])
@pytest.mark.parametrize("kind", ["task-started", "task-dropped", "task-order"])
def test_a_task_that_was_left_out_is_told_as_such_when_it_is_named(made: Job, kind: str, said: str) -> None:
    made.record("task-dropped", task="clean_crowns", why="they are clean")
    needed: dict[str, dict[str, Any]] = {
        "task-dropped": {"why": "they are clean"}, "task-order": {"after": ["lift_head"]},
    }  # fmt: skip
    caught = refusal(made, kind, task=said, **needed.get(kind, {}))
    assert (type(caught), str(caught)) == (
        LeftOut,
        "“Clean the piston crowns in place, grease at the edge, everything wiped out again” was left out of this job, so "
        "nothing is recorded of it. To take it in again, strike the entry that left it out.",
    )


def test_a_part_is_found_by_its_name_and_a_currency_is_written_large(made: Job) -> None:
    made.record("cost-expected", what="bore", **MONEY)
    assert made.bench().state.agreed.costs["bore"].currency == "USD"


EVERY: dict[str, dict[str, Any]] = {
    "job-chosen": {"job": "top_end"},
    "task-added": {"title": "Paint it", "minutes": 60},
    "task-dropped": {"task": "clean_crowns", "why": "clean"},
    "task-minutes": {"task": "wash_head", "minutes": 60},
    "task-order": {"task": "flush_radiator", "after": ["clean_head"]},
    "day-planned": {"day": "2026-03-08", "hours": ["09:00-12:00"]},
    "promised": {"what": "head", "of": "shop", "on": "2026-03-10"},
    "part-ordered": {"part": "gasket", "supplier": "Mill Lane"},
    "price-seen": {"part": "gasket", "supplier": "Mill Lane", "price": "40", "currency": "eur"},
    "part-age": {"part": "belt", "distance": "84000", "unit": "km", "basis": "book"},
    "part-life": {"part": "belt", "shape": "3", "life": "160000", "unit": "km", "until": "9", "cost": "2",
                  "currency": "EUR", "basis": "guess"},
    "cost-expected": {"what": "bore", **MONEY},
    "estimate-told": {"at": "start", "low": "4", "middle": "6", "high": "8", "currency": "USD", "to": "Ada"},
    "ceiling-agreed": {"amount": "1000", "currency": "USD", "by": "Ada"},
    "approval": {"what": "bore", "answer": "yes", "by": "Ada"},
}  # fmt: skip


def test_every_kind_is_recorded_and_told_in_words(made: Job) -> None:
    assert set(EVERY) == KINDS
    made.now = datetime(2026, 3, 7, 12, tzinfo=UTC)
    said = {kind: made.record(kind, **fields).said for kind, fields in EVERY.items()}
    assert said["task-order"] == (
        "task order: “Flush radiator and heater” after “Clean head, valves and covers with solvent, soft scraper and "
        "plastic brush”"
    )
    assert said["job-chosen"] == "job chosen: Top end"
    bought = made.bench().state.buying
    assert dict(bought.ages) == {"belt": Age("84000", "km", None, "book")}
    assert dict(bought.lives) == {"belt": Life("3", "160000", "km", "9", "2", "EUR", "guess")}
    assert all("_" not in words and "None" not in words for words in said.values()), said
