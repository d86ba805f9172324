"""What do I do now? The lists that reach the screen, and the words in them."""

import re
from collections.abc import Iterable
from pathlib import Path

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import open_bench
from gudgeon.bench.network import job
from gudgeon.bench.now import Now, TaskLine, now
from gudgeon.bench.standing import Network
from tests.unit.bench.benches import START, Job, make_job
from tests.unit.bench.test_network import CODE, UNDERSCORED


def asked(garage: Job) -> Now:
    return now(garage.bench())


def lines(answer: Now) -> tuple[TaskLine, ...]:
    return (*answer.running, *answer.ready, *answer.waiting, *answer.blocked, *answer.finished)


def shown(line: TaskLine) -> Iterable[str]:
    """Every text of a line but the key by which a form sends it back."""
    yield from (line.title, line.phase, line.wait, line.why, line.since, line.state)
    yield from (*line.needs, *line.holds, *line.cautions)


def of(answer: Now, key: str) -> TaskLine:
    return next(line for line in lines(answer) if line.task == key)


@pytest.fixture
def busy(tmp_path: Path) -> Job:
    """Something running, left standing, waiting, at the machine shop, disturbed, void, and taken as done."""
    garage = make_job(tmp_path)
    garage.read_code()
    garage.record("task-done", task="let_it_cool")
    garage.record("task-started", task="unplug_connectors")
    garage.record("task-paused", task="photograph_all", why="the light went")
    garage.record("task-done", task="two_turns")
    garage.record("shop-out", part="head", shop="Miller", ordered="resurface")
    garage.record("hold-proved", hold="cold_before_loosening", value="19 °C")
    garage.record("hold-voided", hold="cold_before_loosening", why="it was run again")
    garage.tighten_all()
    garage.record("joint-disturbed", joint="head", why="nut 3 turned back")
    return garage


def test_every_task_of_the_engine_stands_on_one_list(busy: Job) -> None:
    answer = asked(busy)
    keys = [line.task for line in lines(answer)]
    wanted = [task.key for task in job().for_engine(busy.bench().sheet)]
    assert sorted(keys) == sorted(wanted)
    assert answer.total == len(wanted)
    assert answer.done + answer.taken == len(answer.finished)
    assert answer.taken > 0
    assert [line.task for line in sorted(lines(answer), key=lambda line: line.place)] == wanted
    assert all(line.state == "ready" for line in answer.ready)
    assert answer.phases == tuple(dict.fromkeys(job().tasks[key].phase for key in wanted))


def test_a_line_says_what_it_takes_and_why_it_stands_so(busy: Job) -> None:
    answer = asked(busy)
    running = of(answer, "unplug_connectors")
    assert (running.state, running.minutes, running.needs) == ("running", 45, ("tags", "paint pen", "list"))
    assert of(answer, "photograph_all").why == "left standing: the light went"
    cool = of(answer, "let_it_cool")
    assert cool.wait == "the engine cooling down, 8 h"
    soak = of(answer, "soak_exhaust")
    assert soak.wait == "penetrating oil at work, 12 h"
    assert of(answer, "hand_over").wait == "the first 300 to 600 miles (500 to 1000 km), 14 days"
    turns = of(answer, "two_turns")
    assert turns.holds == ("Valve timing proved by hand over two turns",)
    assert of(answer, "tighten_head").joint in ("", "head")
    assert "Let it cool. (common practice)" in of(answer, "exhaust_off").cautions[1]
    assert not of(answer, "lift_head").two_people, "a head of one cylinder is lifted by one"


def test_what_most_hangs_on_comes_first_and_what_is_nearest_to_be_free(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    garage.record("task-done", task="secure_it")
    answer, bench = asked(garage), garage.bench()
    assert len(answer.ready) > 1
    network = Network(bench, job().for_engine(bench.sheet))
    assert answer.ready[-1].task == "charge_battery", "the least hangs on it"
    ahead = [network.stand(line.task).ahead for line in answer.ready]
    assert ahead == sorted(ahead, reverse=True)
    far = [network.stand(line.task).far for line in answer.blocked]
    assert far == sorted(far)


def test_no_key_and_no_code_stands_in_a_line(busy: Job) -> None:
    for line in lines(asked(busy)):
        for text in shown(line):
            assert not CODE.search(text), text
            assert not UNDERSCORED.search(text), text


def test_no_key_and_no_code_stands_in_a_line_of_the_invented_job(tmp_path: Path) -> None:
    begun = open_demo(tmp_path / "demo", now=START)
    bench = open_bench(begun.book, now=START)
    try:
        answer = now(bench)
    finally:
        bench.store.close()
    assert answer.total > 90
    assert {line.state for line in lines(answer)} >= {"ready", "blocked", "done"}
    codes = bench.sheet.engine.codes
    for line in lines(answer):
        for text in shown(line):
            assert not UNDERSCORED.search(text), text
            assert not CODE.search(text) or any(code in text for code in codes), text


def test_before_anything_is_done_the_code_is_asked_for(tmp_path: Path) -> None:
    answer = asked(make_job(tmp_path))
    assert [line.task for line in answer.ready] == ["read_code"]
    assert (answer.done, answer.taken) == (0, 0)
    assert "code" in answer.next[0]
    assert answer.running == answer.waiting == answer.finished == ()


def test_a_proof_of_bolts_that_nobody_pulled_is_not_what_comes_next(tmp_path: Path) -> None:
    made = make_job(tmp_path)
    made.read_code()
    first = ""
    for _ in range(40):
        (first,) = now(made.bench()).next[:1]
        hold = re.search(r"gudgeon record hold (\w+) VALUE", first)
        if hold is None:
            break
        made.record("hold-proved", hold=hold[1], value="seen, 4 of 4")
    assert first == (
        "Head nuts: 0 of 16 pulls are in the book. gudgeon tighten head, "
        "for the proof “Every head bolt shows every stage”"
    )
