"""Bolts that the manual has renewed every time: no yes before the book says that new ones are in.

Expected answers are HAND: four head nuts of an invented engine, whose sheet has them renewed every time.
"""

from pathlib import Path

import pytest

from gudgeon.bench.ready import ready
from gudgeon.bench.reason import Reason
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

NEW = "four of them, out of the sealed bag"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    rule = "    reuse: {rule: always new}\n    total_turn: 90°\n"
    made = make_job(tmp_path, sheet=SMALL.replace("    total_turn: 90°\n", rule))
    made.read_code()
    return made


def asked(job: Job) -> list[Reason]:
    return [
        one for one in ready(job.bench(), milestone="crank").reasons if one.about == "part:new bolts of head"
    ]


def new(job: Job, bolt: str) -> None:
    job.record("part-disposition", joint="head", bolt=bolt, why=NEW)


def test_nothing_is_asked_before_the_first_pull(job: Job) -> None:
    assert asked(job) == []


def test_pulls_of_bolts_that_may_be_old_are_no_yes(job: Job) -> None:
    job.tighten_all()
    (found,) = asked(job)
    assert found.why == "the manual has them renewed every time, and the book knows of no new ones"
    assert found.close_with == "gudgeon record new-bolt head all --why …"
    assert found.due_before == "crank"


def test_each_of_them_has_to_be_new(job: Job) -> None:
    job.tighten_all()
    for bolt in ("1", "2", "4"):
        new(job, bolt)
    (found,) = asked(job)
    assert found.why == "the manual has them renewed every time, and the book knows of no new bolt for 3"
    assert found.close_with == "gudgeon record new-bolt head 3 --why …"
    new(job, "3")
    assert asked(job) == []


@pytest.mark.parametrize("when", ["before", "after"])
def test_it_may_be_said_before_or_after(job: Job, when: str) -> None:
    if when == "before":
        new(job, "all")
    job.tighten_all()
    if when == "after":
        new(job, "all")
    assert asked(job) == []


def test_the_part_that_came_and_was_compared_says_it_too(job: Job) -> None:
    job.record("part-received", part="head nuts", compared=True)
    job.tighten_all()
    assert asked(job) == []


def test_another_part_whose_name_is_in_that_of_the_joint_says_nothing_of_its_bolts(job: Job) -> None:
    job.record("part-received", part="head", compared=True)
    job.tighten_all()
    assert len(asked(job)) == 1


def test_what_was_tightened_to_the_last_stage_is_used_up(job: Job) -> None:
    new(job, "all")
    job.tighten_all()
    job.record("joint-disturbed", joint="head", why="the gasket was the wrong one")
    assert asked(job) == []
    job.pull(1, "1")
    assert len(asked(job)) == 1
    new(job, "all")
    assert asked(job) == []


def test_what_was_let_go_before_the_last_stage_is_not(job: Job) -> None:
    new(job, "all")
    job.pull(1, "1")
    job.record("joint-disturbed", joint="head", why="a nut was missing")
    job.pull(1, "1")
    assert asked(job) == []


def test_a_struck_word_is_none(job: Job) -> None:
    said = job.record("part-disposition", joint="head", bolt="all", why=NEW)
    job.tighten_all()
    job.record("strike", entry=said.entry, why="they were the old ones")
    assert len(asked(job)) == 1


def test_somebody_may_answer_for_it(job: Job) -> None:
    job.tighten_all()
    job.record(
        "override", about=asked(job)[0].about, by="Ann", why="the maker takes them twice, bulletin of May"
    )
    assert asked(job) == []


def test_other_rules_ask_for_nothing_here(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.read_code()
    job.tighten_all()
    assert asked(job) == []
