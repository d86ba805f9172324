"""What was put together and is taken apart again by a later word of the book is asked for before a milestone.

The order of both is that of the work (COMMON PRACTICE, no source): a head that is lifted off after its bolts were pulled
is not tight, whatever the pulls say; an engine whose oil was drained after it was filled has none.
"""

from pathlib import Path

import pytest

from gudgeon.bench.network import job as job_named
from gudgeon.bench.ready import Readiness, ready
from gudgeon.bench.undone_since import left_for_the_shop, put_back
from tests.unit.bench.benches import Job
from tests.unit.bench.job_player import able_to_be_cranked, copied, pulled, why_not, write

JOBS = ("top_end", "with_bottom_end", "timing_belt", "cover_reseal")


@pytest.fixture(scope="module")
def done(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return able_to_be_cranked(tmp_path_factory.mktemp("done"))


@pytest.fixture
def job(done: Job, tmp_path: Path) -> Job:
    return copied(done, tmp_path / "job")


def asked(job: Job) -> Readiness:
    return ready(job.bench(), milestone="crank")


def test_each_task_that_takes_apart_comes_before_the_one_that_puts_together() -> None:
    known = set[str]()
    for name in JOBS:
        order = list(job_named(name).tasks)
        for apart, back in {**put_back(), **left_for_the_shop()}.items():
            if apart in order and back in order:
                assert order.index(apart) < order.index(back)
                known.add(apart)
    assert known == {*put_back(), *left_for_the_shop()}, (
        "each of them stands in a job, with the one that puts it back"
    )


def test_a_head_that_was_lifted_off_again_is_no_yes_until_it_is_tight_again(job: Job) -> None:
    assert why_not(job) == {}
    job.record("task-done", task="lift_head")
    number = job.bench().state.tasks["lift_head"].order
    (one,) = asked(job).reasons
    assert one.what.startswith("Tighten the head bolts")
    assert one.why.startswith("after it “Lift the head off onto wood")
    assert one.close_with == (
        f"gudgeon record disturbed cylinder_head --why …, or written late: gudgeon strike {number} --why …"
    )
    job.record("joint-disturbed", joint="cylinder_head", why="the gasket was laid the wrong way round")
    assert "The cylinder head" in why_not(job)
    write(job, pulled("cylinder_head"))
    assert not any(text.startswith("after it") for text in why_not(job).values())


@pytest.mark.parametrize("part", ["head", "Head, left", "cylinder_head"])
def test_a_head_that_left_for_the_shop_was_off(job: Job, part: str) -> None:
    job.record("shop-out", part=part, shop="Mill", ordered="weld a crack")
    job.record("shop-back", part=part, found="welded")
    for hold in ("head_back_inside_limits", "head_tested", "galley_plugs_in", "valve_locks_seated"):
        job.record("hold-proved", hold=hold, value="seen, 4 of 4")
    (one,) = asked(job).reasons
    assert (one.what.partition(",")[0], one.close_with) == (
        "Tighten the head bolts", "gudgeon record disturbed cylinder_head --why …",
    )  # fmt: skip
    assert one.why.startswith("after it ")
    assert " left for Mill (" in one.why
    job.record("joint-disturbed", joint="cylinder_head", why="the head was off")
    write(job, pulled("cylinder_head"))
    assert not any(text.startswith("after it") for text in why_not(job).values())


def test_a_word_that_was_written_late_is_struck_or_let_pass_by_somebody(job: Job) -> None:
    said = job.record("task-done", task="slacken_head_bolts").entry
    assert len(why_not(job)) == 1
    job.record("override", about=f"entry:{said}", by="Ada", why="that was on Saturday, and written late")
    assert (why_not(job), asked(job).answer) == ({}, "yes, with what was accepted")
    (passed,) = asked(job).accepted
    assert "Ada" in passed
    job.record("strike", entry=said, why="that was on Saturday")
    assert why_not(job) == {}
    after = asked(job)
    assert (after.answer, after.accepted) == ("yes", ())
    (text,) = after.earlier
    assert "let pass by Ada" in text
    assert text.endswith("because that was on Saturday, and written late")


def test_what_is_put_back_by_no_entry_is_no_yes(job: Job) -> None:
    """All that comes after it is done by the book, and itself it is in no entry."""
    job.record("strike", entry=job.bench().state.tasks["rockers_on"].entry, why="those were the followers")
    (one,) = asked(job).reasons
    assert one.what.startswith("Pushrods and rockers back")
    assert one.why.startswith("“Take rockers and pushrods off")
    assert one.why.endswith("), and nothing says that this was")
    assert (one.close_with, one.how) == (
        "gudgeon record task-done rockers_on", "Do it, and say that it is done.",
    )  # fmt: skip
    job.record("task-done", task="rockers_on")
    assert why_not(job) == {}


def test_oil_that_is_drained_again_is_filled_again(job: Job) -> None:
    job.record("task-done", task="drain_oil")
    assert any("Drain the oil" in text for text in why_not(job).values())
    job.record("task-done", task="fill_oil")
    assert why_not(job) == {}


def test_a_drain_plug_that_is_tight_fills_no_oil(job: Job) -> None:
    """The joint of a task says that it is done, until somebody says after its last pull that something is left."""
    job.record("task-paused", task="fill_oil", why="2 L in, the shop is closed")
    (text,) = why_not(job).values()
    assert text.startswith("left standing: 2 L in, the shop is closed")
    job.record("task-done", task="fill_oil")
    assert why_not(job) == {}
