"""Whatever entries say of a job, it stays one that can be worked: no circle, nothing that waits for what is not there."""

from collections.abc import Mapping
from dataclasses import replace
from graphlib import TopologicalSorter

from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.bench.network import JOBS, Task, adapted, circle, job
from gudgeon.book.plan_state import AddedTask, OwnMinutes, PlanState

OWN = ("own_a", "own_b", "own_c")
STRANGE = "a_task_of_a_later_program"
KEYS = st.sampled_from([*list(job("timing_belt").tasks)[::4], *list(job().tasks)[::12], *OWN, STRANGE])
NAMES = st.lists(KEYS, max_size=3).map(tuple)


def added(key: str, after: tuple[str, ...], before: tuple[str, ...], minutes: int) -> AddedTask:
    return AddedTask(key, f"Title of {key}", after, before, minutes, False, (), "crank", "")


def spread(low: int, likely: int, high: int) -> OwnMinutes:
    return OwnMinutes(low, likely, high, "")


PLANS = st.builds(
    PlanState,
    added=st.dictionaries(st.sampled_from(OWN), st.tuples(NAMES, NAMES, st.integers(1, 300))).map(
        lambda found: {key: added(key, *said) for key, said in found.items()}
    ),
    dropped=st.dictionaries(KEYS, st.just("why"), max_size=6),
    minutes=st.dictionaries(
        KEYS,
        st.tuples(*[st.integers(1, 400)] * 3).map(lambda three: spread(*sorted(three))),
        max_size=4,
    ),
    after=st.dictionaries(KEYS, NAMES, max_size=5),
)


def behind(tasks: Mapping[str, Task]) -> dict[str, set[str]]:
    """All that comes before each task; fails when they go round in a circle, or wait for what is not there."""
    found: dict[str, set[str]] = {}
    for key in TopologicalSorter({key: task.after for key, task in tasks.items()}).static_order():
        found[key] = set(tasks[key].after).union(*(found[name] for name in tasks[key].after))
    return found


@settings(max_examples=60, deadline=None)
@given(name=st.sampled_from(JOBS), plan=PLANS)
def test_a_job_with_changes_of_his_own_can_be_worked_and_keeps_the_order_of_what_stays(
    name: str, plan: PlanState
) -> None:
    whole = job(name)
    made = adapted(whole, plan)
    now, was = behind(made.tasks), behind(whole.tasks)
    assert set(now) == (set(whole.tasks) | set(plan.added)) - set(plan.dropped)
    assert (made.name, made.whole, made.engine_has) == (whole.name, whole.whole, whole.engine_has)
    for key in set(now) & set(was):
        assert was[key] & set(now) <= now[key], "what is left out hands its order on"
    for key, said in plan.minutes.items():
        if key in made.tasks:
            assert made.tasks[key].minutes == said.likely
    for task in made.tasks.values():
        assert len(task.after) == len(set(task.after))


@settings(max_examples=60, deadline=None)
@given(plan=PLANS)
def test_an_order_of_his_own_is_kept_where_no_circle_is_told(plan: PlanState) -> None:
    whole = job("timing_belt")
    plan = replace(plan, dropped={})
    if circle(whole, plan):
        return
    now = behind(adapted(whole, plan).tasks)
    wanted = [(key, one) for key, names in plan.after.items() for one in names]
    wanted += [(key, one) for key, task in plan.added.items() for one in task.after]
    wanted += [(one, key) for key, task in plan.added.items() for one in task.before]
    assert [(key, one) for key, one in wanted if key in now and one in now and one not in now[key]] == []


def test_a_circle_is_told_with_the_two_that_would_wait_for_each_other() -> None:
    """HAND: in the belt job the tension comes after the belt is on."""
    assert circle(job("timing_belt"), PlanState(after={"belt_on": ("tension_belt",)})) == (
        "tension_belt",
        "belt_on",
    )
    assert circle(job("timing_belt"), PlanState(after={"tension_belt": ("belt_on",)})) == ()
