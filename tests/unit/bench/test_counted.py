"""Counts at the strip against counts at the refit, bags, what is explained, and what is due after the first heat."""

from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.costs.money import sums
from gudgeon.bench.costs.money_errors import NoCurrency
from gudgeon.bench.open_lists import open_lists
from gudgeon.bench.ready import ready
from gudgeon.bench.reason import Reason
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_ready import finish
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    finish(made)
    return made


def reasons(job: Job, milestone: str = "crank") -> list[Reason]:
    return list(ready(job.bench(), milestone=milestone).reasons)


def whys(job: Job, milestone: str = "crank") -> list[str]:
    return [one.why for one in reasons(job, milestone)]


def off(job: Job, item: str, group: str = "connector", **more: Any) -> Any:
    return job.record(
        "taken-off", **{"item": item, "group": group, "name": item, "due_before": "fire", **more}
    )


def counted(job: Job, when: str, count: int, group: str = "connector") -> Any:
    return job.record("counted", group=group, when=when, count=count)


def test_what_was_counted_off_has_a_name_each(job: Job) -> None:
    for number in range(22):
        off(job, f"c{number}")
        job.record("refitted", item=f"c{number}")
    said = counted(job, "off", 24)
    counted(job, "back", 24)
    found = reasons(job, "fire")
    assert whys(job) == [], "due before the strictest milestone of the group, which is the first fire"
    assert [(one.why, one.due_before, one.about) for one in found] == [
        ("24 connectors were counted as they came off, 22 are on the list", "fire", "counted:connector")
    ]
    assert "24 connectors were counted as they came off, 22 are on the list. Give each" in said.remarks[0]
    off(job, "c22", due_before="crank")
    off(job, "c23", count=1)
    assert "counted" not in " ".join(whys(job, "fire"))


def test_one_that_is_counted_back_too_few_is_explained_piece_by_piece(job: Job) -> None:
    off(job, "cover", "bolt", count=7, bag="B3")
    counted(job, "off", 7, "bolt")
    assert whys(job, "fire")[-1] == (
        "7 bolts were counted as they came off, and nobody has counted them as they went back"
    )
    job.record("refitted", item="cover")
    counted(job, "back", 5, "bolt")
    assert whys(job, "fire") == ["7 bolts were counted as they came off, 5 as they went back: 2 are missing"]
    job.record(
        "explained",
        group="bolt",
        way="missing",
        what="M6 x 20",
        why="bent, in the scrap tin; a new one is in",
    )
    assert whys(job, "fire") == [
        "7 bolts were counted as they came off, 5 as they went back: 1 is missing; 1 explained"
    ]
    job.record(
        "explained", group="bolt", way="missing", what="M6 x 25", why="snapped, drilled out; a stud is in"
    )
    assert whys(job, "fire") == []
    counted(job, "back", 4, "bolt")
    assert len(whys(job, "fire")) == 1, "a third one is missing, and nobody has explained it"


def test_a_bolt_found_over_is_a_reason_too(job: Job) -> None:
    off(job, "cover", "bolt", count=7)
    job.record("refitted", item="cover")
    counted(job, "off", 7, "bolt")
    counted(job, "back", 8, "bolt")
    assert whys(job, "fire") == ["7 bolts were counted as they came off, 8 as they went back: 1 is over"]
    job.record("explained", group="bolt", way="missing", what="M6", why="it fell into the yard")
    assert len(whys(job, "fire")) == 1, "what explains one too few does not explain one too many"
    job.record("explained", group="bolt", way="over", what="M6 x 16", why="a spare out of the new kit")
    assert whys(job, "fire") == []


def test_counted_back_without_a_count_off_is_held_against_the_list(job: Job) -> None:
    off(job, "cover", "bolt", count=7)
    job.record("refitted", item="cover", count=5)
    counted(job, "back", 5, "bolt")
    assert (
        whys(job, "fire")[-1]
        == "The list names 7, 5 as they went back: 2 are missing, 2 of the list are still off"
    )


def test_a_group_that_the_list_does_not_know_is_due_before_anything(job: Job) -> None:
    counted(job, "off", 3, "strap")
    assert [one.due_before for one in reasons(job)] == ["crank", "crank"]


def test_a_bag_half_empty_says_what_is_still_off(job: Job) -> None:
    taken = off(job, "cover", "bolt", count=7, bag="B3", due_before="crank")
    assert taken.said == "taken off: bolt, cover, 7 in all, bag B3"
    said = job.record("refitted", item="cover", count=5)
    assert said.remarks == ("2 of 7 are still off, in bag B3: cover stays on the list.",)
    assert [one.why.partition(", since ")[0] for one in reasons(job)] == ["2 of 7 still off, bag B3"]
    (item,) = open_lists(job.bench()).lists[3].items
    assert (item.off, item.of, item.bag, item.why) == (2, 7, "B3", "2 of 7 still off, bag B3")


def test_the_page_of_the_lists_holds_the_counts(job: Job) -> None:
    off(job, "cover", "bolt", count=7)
    counted(job, "off", 8, "bolt")
    (count,) = open_lists(job.bench()).counts
    assert (count.group, count.off, count.on, count.named, count.counted_off, count.counted_back) == (
        "bolt", 7, 0, 7, 8, None,
    )  # fmt: skip
    assert count.differs == (
        "8 bolts were counted as they came off, 7 are on the list",
        "8 bolts were counted as they came off, and nobody has counted them as they went back",
    )


def heated(tmp_path: Path) -> Job:
    sheet = SMALL.replace(
        "    total_turn: 90°\n",
        '    total_turn: 90°\n    again_after: {after: first heat, note: "24 N·m, cold"}\n',
    )
    return make_job(tmp_path, sheet=sheet)


def test_what_is_tightened_again_after_the_first_heat_is_due_later(tmp_path: Path) -> None:
    job = heated(tmp_path)
    finish(job)
    answer = ready(job.bench(), milestone="crank")
    assert (answer.answer, [(one.why, one.due_before) for one in answer.later]) == (
        "yes", [("to be tightened again after: first heat (24 N·m, cold)", "handover")],
    )  # fmt: skip
    assert ready(job.bench(), milestone="handover").answer == "no"
    job.record("tightened-again", joint="head", seen="none of four moved at 24 N·m, beam wrench")
    assert ready(job.bench(), milestone="handover").answer == "yes"
    job.record("joint-disturbed", joint="head", why="leaked")
    assert "Head nuts, again" in [one.what for one in ready(job.bench(), milestone="handover").reasons]


def test_tightened_again_before_it_was_tight_says_nothing(tmp_path: Path) -> None:
    job = heated(tmp_path)
    job.read_code()
    job.pull(1, "1")
    said = job.record("tightened-again", joint="head", seen="4 of 4 held")
    assert said.remarks == ("The joint is not finished: what is tightened again comes after its last stage.",)
    finish(job)
    assert ready(job.bench(), milestone="handover").answer == "no"


def test_a_signature_says_what_is_open_now_and_what_was_written_since(job: Job) -> None:
    job.record("signed-off", milestone="crank", by="Robin", words="walked round, nothing loose")
    (line,) = ready(job.bench(), milestone="fire").signed
    assert line.startswith("Robin, before you turn it with the starter, ")
    assert line.endswith(": “walked round, nothing loose”")
    job.record("left-in", item="rag", name="rag", where="intake", due_before="crank")
    job.record("note", text="phone")
    (line,) = ready(job.bench(), milestone="crank").signed
    assert line.endswith("; 1 thing due before it is open now; 2 entries since")
    job.record("signed-off", milestone="drive", by="Ada", words="ready for the road")
    assert len(ready(job.bench(), milestone="crank").signed) == 1
    assert len(ready(job.bench(), milestone="drive").signed) == 2
    assert ready(job.bench(), milestone="crank").answer == "no", "no signature closes anything"


def test_money_is_kept_to_the_cent_and_summed_by_currency(job: Job) -> None:
    job.record("money", what="gasket", amount="0.10", currency="eur")
    job.record("money", what="bolts", amount="0.20", currency="EUR")
    job.record("money", what="old head", amount="0.30", currency="EUR", way="got back", to="the yard")
    job.record("money", what="manual", amount="25", currency="USD")
    # HAND: 0.10 + 0.20 - 0.30 is nothing at all, which binary fractions do not give
    assert [(one.currency, one.spent, one.back, one.total) for one in sums(job.bench())] == [
        ("EUR", "0.30", "0.30", "0.00"), ("USD", "25", "0", "25"),
    ]  # fmt: skip
    job.record("strike", entry=job.bench().state.money[0].entry, why="paid by the owner")
    assert sums(job.bench())[0].total == "−0.10"


@pytest.mark.parametrize("currency", ["EURO", "€", "E1R"])
def test_a_currency_has_three_letters(job: Job, currency: str) -> None:
    with pytest.raises(NoCurrency) as refused:
        job.record("money", what="gasket", amount="1", currency=currency)
    assert str(refused.value) == (
        f"`{currency}` is no currency. A book takes its three letters by ISO 4217, like `USD` or `EUR`: write those, "
        "without the sign and apart from the amount."
    )


def test_a_wait_and_a_count_can_be_let_pass_by_a_name(job: Job) -> None:
    counted(job, "back", 1, "strap")
    task = "Fill oil to the mark"
    job.record("timer-started", timer="wait", name="A wait", minutes=600, task=task)
    for about in ("timer:wait", "counted:strap"):
        job.record("override", about=about, by="Robin", why="seen")
    assert ready(job.bench(), milestone="crank").answer == "yes, with what was accepted"
    counted(job, "back", 2, "strap")
    assert [one.about for one in reasons(job)] == ["counted:strap"], "another count is another state of it"
