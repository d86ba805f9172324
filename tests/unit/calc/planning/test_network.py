"""Networks of tasks: order, refusals, and floats whose meaning is tried out."""

from itertools import pairwise

import pytest

from gudgeon.calc.planning.network import critical_path, order_of
from gudgeon.calc.planning.network_errors import (
    DurationImpossible,
    DurationMissing,
    NoTasks,
    TasksInARing,
    UnknownPredecessor,
)
from gudgeon.errors import InputError

SIX = {"A": 3.0, "B": 2.0, "C": 5.0, "D": 1.0, "E": 1.0, "F": 3.0}
SIX_AFTER = {"D": ["A"], "E": ["B"], "F": ["C", "D", "E"]}


def refusal(kind: type[InputError], durations: dict[str, float], after: dict[str, list[str]]) -> str:
    with pytest.raises(kind) as caught:
        critical_path(durations, after=after)
    return caught.value.message


def test_no_task() -> None:
    assert refusal(NoTasks, {}, {}) == (
        "No task is given, so there is nothing to plan. Name at least one, with its duration."
    )


@pytest.mark.parametrize("duration", [-1.0, float("nan"), float("inf")])
def test_a_duration_that_cannot_be(duration: float) -> None:
    assert refusal(DurationImpossible, {**SIX, "B": duration}, SIX_AFTER) == (
        f"Duration {duration:g} of `B` cannot be: a task takes 0 or more. Check the figure and its sign."
    )


def test_durations_that_add_up_to_no_number() -> None:
    assert refusal(DurationImpossible, {"A": 1e308, "B": 1.5e308}, {"B": ["A"]}).startswith(
        "Duration 1.5e+308 of `B`"
    )


def test_a_predecessor_that_is_no_task() -> None:
    durations = {"head off": 2.0, "head away": 40.0}
    assert refusal(UnknownPredecessor, durations, {"head away": ["head of"]}) == (
        "`head away` is to come after `head of`, which is no task here. Did you mean `head off`? "
        "There are: `head off`, `head away`."
    )
    assert refusal(UnknownPredecessor, durations, {"head away": ["zzz"]}) == (
        "`head away` is to come after `zzz`, which is no task here. There are: `head off`, `head away`."
    )


def test_a_place_in_the_order_without_a_duration() -> None:
    assert refusal(DurationMissing, {"A": 1.0}, {"B": ["A"]}) == (
        "`B` has a place in the order and no duration. Give one; durations are given for: `A`."
    )


def test_a_ring_is_told_and_what_only_waits_for_it_is_not() -> None:
    after = {"A": ["C"], "B": ["A"], "C": ["B"], "D": ["C"], "E": ["D"]}
    assert refusal(TasksInARing, SIX, after) == (
        "No order can keep this: `A` waits for `C`, `C` waits for `B` and `B` waits for `A`. Take one of these out."
    )


def test_a_task_that_waits_for_itself() -> None:
    assert refusal(TasksInARing, SIX, {"F": ["F"]}) == (
        "`F` waits for itself and could never begin. Take that out."
    )


def test_a_long_ring_is_told_by_its_beginning() -> None:
    count = 5000
    after = {f"t{at}": [f"t{(at + 1) % count}"] for at in range(count)}
    told = refusal(TasksInARing, {f"t{at}": 1.0 for at in range(count)}, after)
    assert told.startswith("No order can keep this: `t0` waits for `t1`, ")
    assert told.endswith("`t7` waits for `t8`, and so on through 5000 tasks. Take one of these out.")


def test_the_order_keeps_to_what_is_given_where_it_can() -> None:
    assert order_of("FEDCBA", after=SIX_AFTER) == ("C", "B", "E", "A", "D", "F")
    assert order_of("ABCDEF", after=SIX_AFTER) == ("A", "B", "C", "D", "E", "F")


def test_a_predecessor_named_twice_counts_once() -> None:
    once = critical_path(SIX, after=SIX_AFTER)
    assert critical_path(SIX, after={**SIX_AFTER, "F": ["C", "D", "C", "E", "E"]}) == once


def test_tasks_that_take_nothing() -> None:
    """HAND: a milestone takes 0 and is critical; so is everything where all takes 0."""
    found = critical_path({"A": 2.0, "ready": 0.0}, after={"ready": ["A"]})
    assert (found.duration, found.critical) == (2.0, ("A", "ready"))
    assert critical_path({"A": 0.0, "B": 0.0}, after={}).critical == ("A", "B")


def test_a_chain_of_ten_thousand() -> None:
    names = [f"t{at}" for at in range(10_000)]
    after = {name: [before] for before, name in pairwise(names)}
    found = critical_path(dict.fromkeys(names, 0.1), after=after)
    assert found.duration == pytest.approx(1000)
    assert len(found.critical) == 10_000
