"""Which thing of an open list is meant: by its key, its place or bag, words of its name; never by less, never by two.

What is expected is HAND: nothing leaves a list by words that do not name it alone.
"""

from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.errors import AlreadyOpen, NothingNamed, NotOpen, SeveralFit
from gudgeon.book.state import State
from tests.unit.bench.benches import Job, make_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    put_in(made, "lock1", "Flywheel lock", where="flywheel")
    made.record("plugged", item="cap", name="Cap on the outlet", where="housing", due_before="fire")
    loose = {"why": "no wrench reaches it", "due_task": "borrow one", "due_before": "crank"}
    made.record("provisional-made", item="cover", name="Cover bolts (nipped by hand)", **loose)
    off(made, "coil_2", "Ignition coil 2", place="6")
    off(made, "cover_bolts", "Cover bolts M6, 6 long ones", group="bolt", count=9, bag="B3")
    return made


def put_in(job: Job, item: str, name: str, *, where: str) -> None:
    job.record("left-in", item=item, name=name, where=where, due_before="crank")


def off(job: Job, item: str, name: str, **said: Any) -> None:
    job.record(
        "taken-off", **{"group": "connector", "item": item, "name": name, "due_before": "crank", **said}
    )


def state(job: Job) -> State:
    return job.bench().state


CLOSING = {
    "taken-out": ({}, "left_in"),
    "opened": ({}, "plugged"),
    "refitted": ({}, "left_over"),
    "provisional-cleared": ({"how": "final"}, "provisional"),
}


@pytest.mark.parametrize("kind", CLOSING)
@pytest.mark.parametrize("said", ["", " "])
def test_a_blank_closes_nothing(job: Job, kind: str, said: str) -> None:
    more, items = CLOSING[kind]
    before = dict(getattr(state(job), items))
    with pytest.raises(NothingNamed, match=r"^A blank names nothing on the list of what is "):
        job.record(kind, item=said, **more)
    assert getattr(state(job), items) == before


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("taken-out", "l"),
        ("taken-out", "lock"[:3]),
        ("opened", "o"),
        ("opened", "on the"),
        ("provisional-cleared", "by"),
        ("provisional-cleared", "(by"),
        ("refitted", "m"),
    ],
)
def test_letters_and_words_that_stand_in_any_name_close_nothing(job: Job, kind: str, said: str) -> None:
    more, items = CLOSING[kind]
    before = dict(getattr(state(job), items))
    with pytest.raises(NotOpen):
        job.record(kind, item=said, **more)
    assert getattr(state(job), items) == before


@pytest.mark.parametrize(
    ("kind", "said", "key"),
    [
        ("taken-out", "lock1", "lock1"),
        ("taken-out", " lock1 ", "lock1"),
        ("taken-out", "LOCK", "lock1"),
        ("taken-out", "Flywheel", "lock1"),
        ("opened", "cap outlet", "cap"),
        ("provisional-cleared", "by hand", "cover"),
        ("refitted", "6", "coil_2"),
        ("refitted", "b3", "cover_bolts"),
        ("refitted", "M6", "cover_bolts"),
        ("refitted", "coil 2", "coil_2"),
    ],
)
def test_a_key_a_place_a_bag_and_whole_words_do(job: Job, kind: str, said: str, key: str) -> None:
    more, items = CLOSING[kind]
    job.record(kind, item=said, **more)
    assert key not in getattr(state(job), items)


def test_a_place_that_is_closed_is_not_found_again_in_the_words_of_another(job: Job) -> None:
    job.record("refitted", item="coil_2", place="6")
    with pytest.raises(NotOpen) as refused:
        job.record("refitted", item="6")
    assert str(refused.value) == "`6` is not on the list of what is off the engine. On it: cover_bolts."
    assert state(job).left_over["cover_bolts"].off == 9


def test_a_key_that_is_closed_is_not_the_next_thing_whose_name_holds_it(job: Job) -> None:
    put_in(job, "rag", "Rag", where="port 1")
    put_in(job, "second", "Another rag", where="port 2")
    job.record("taken-out", item="rag")
    with pytest.raises(NotOpen):
        job.record("taken-out", item="rag")
    assert "second" in state(job).left_in


def test_what_fits_several_closes_none_and_names_them(job: Job) -> None:
    put_in(job, "lock2", "Cam lock", where="cam")
    with pytest.raises(SeveralFit) as refused:
        job.record("taken-out", item="lock")
    assert str(refused.value) == (
        "`lock` fits several things on the list of what is left in: `lock1` (Flywheel lock), `lock2` (Cam lock). "
        "Nothing was written. Name the one you mean by its key."
    )
    assert {"lock1", "lock2"} <= state(job).left_in.keys()


def test_a_whole_name_counts_before_names_that_hold_it(job: Job) -> None:
    off(job, "strap", "Ground strap")
    off(job, "long_strap", "Ground strap, long")
    job.record("refitted", item="ground strap")
    assert "strap" not in state(job).left_over
    assert "long_strap" in state(job).left_over


def test_a_key_with_blanks_around_it_is_on_the_list_already(job: Job) -> None:
    off(job, "H1", "Top hose", group="hose")
    with pytest.raises(AlreadyOpen):
        off(job, " H1", "Top hose", group="hose")
    assert state(job).counts["hose"].off == 1
