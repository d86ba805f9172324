"""Plans of small and of large invented jobs: the rules are kept, the bound holds, nothing hangs on chance."""

import random
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from gudgeon.calc.planning.bound import lower_bound
from gudgeon.calc.planning.driving import Cause, driving, slack
from gudgeon.calc.planning.hours import Hours, Window
from gudgeon.calc.planning.rules import RULES
from gudgeon.calc.planning.schedule import schedule
from gudgeon.calc.planning.search import plan
from gudgeon.calc.planning.works import Work
from tests.garage_projects import broken_rules, some_project
from tests.naive_planner import best_finish


def small_job(seed: int) -> tuple[tuple[Work, ...], Hours]:
    """Four or five works and short hours, so that everything can be tried."""
    chance = random.Random(seed)
    works: list[Work] = []
    for at in range(chance.randint(4, 5)):
        after = tuple(one.key for one in works if chance.random() < 0.35)
        works.append(
            Work(
                str(at), chance.choice((15, 30, 30, 45, 60)), after=after, wait=chance.choice((0, 0, 0, 45, 600, 1500)),
                not_before=chance.choice((0, 0, 0, 0, 30, 1440)), two_people=chance.random() < 0.25,
                in_one_go=chance.random() < 0.3, not_late=chance.random() < 0.2,
            )
        )  # fmt: skip
    needed = {key for one in works for key in one.after}
    works.append(Work("goal", 15, after=tuple(one.key for one in works if one.key not in needed)))
    own: list[Window] = []
    both: list[Window] = []
    early: list[Window] = []
    for day in range(12):
        start = day * 1440 + 1080
        own.append((start, start + chance.choice((60, 75, 90))))
        early.append((start, start + 60))
        if chance.random() < 0.5 or day > 9:
            both.append((start + chance.choice((0, 15)), own[-1][1]))
    return tuple(works), Hours(tuple(own), tuple(both), tuple(early), 12 * 1440)


def placed_and_best(seed: int) -> tuple[int, int, int] | None:
    """Ours, the bound, and the best of everything; nothing where the job does not fit into its days."""
    works, hours = small_job(seed)
    if any(one.in_one_go and one.two_people and one.minutes > 45 for one in works):
        return None
    best = best_finish(works, hours=hours, goal="goal")
    if best is None:
        return None
    found = plan(works, hours=hours, goal="goal", trials=200, generator=np.random.default_rng(seed))
    assert found.schedule.late == ()
    assert broken_rules(found.schedule, works=works, hours=hours) == []
    return found.schedule.goal, lower_bound(works, hours=hours, goal="goal"), best


SMALL = range(8)


def test_no_plan_beats_the_bound_and_ours_is_nearly_always_the_best() -> None:
    """OTHER TOOL: every quarter of an hour tried with every work. The bound is below each best, ours never below it."""
    found = [one for seed in SMALL if (one := placed_and_best(seed)) is not None]
    assert len(found) >= 7
    assert all(bound <= best <= ours for ours, bound, best in found)
    assert sum(ours == best for ours, _, best in found) >= len(found) - 1
    assert sum(bound == best for _, bound, best in found) >= len(found) // 2


@pytest.mark.long
def test_no_plan_beats_the_bound_on_more_jobs() -> None:
    found = [one for seed in range(8, 90) if (one := placed_and_best(seed)) is not None]
    assert all(bound <= best <= ours for ours, bound, best in found)


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("rule", RULES)
def test_every_rule_keeps_the_rules_of_the_plan(seed: int, rule: str) -> None:
    works, hours = some_project(seed, count=60)
    found = schedule(works, hours=hours, priority=rule, goal="goal")
    assert broken_rules(found, works=works, hours=hours) == []
    assert found.goal >= lower_bound(works, hours=hours, goal="goal")


def test_the_same_seed_gives_the_same_plan() -> None:
    works, hours = some_project(3, count=50)
    first, second = (
        plan(works, hours=hours, goal="goal", trials=40, generator=np.random.default_rng(7)) for _ in range(2)
    )
    assert first == second


def test_more_hours_never_put_off_the_best_that_is_possible() -> None:
    """HAND: whatever can be done in some hours can be done in more of them."""
    works, hours = some_project(5, count=40)
    more = replace(hours, own=tuple((start, end + 30) for start, end in hours.own))
    assert lower_bound(works, hours=more, goal="goal") <= lower_bound(works, hours=hours, goal="goal")


def test_a_delivery_later_never_brings_the_bound_forward() -> None:
    works, hours = some_project(6, count=40)
    before = lower_bound(works, hours=hours, goal="goal")
    late = (replace(works[0], not_before=20 * 1440), *works[1:])
    assert lower_bound(late, hours=hours, goal="goal") >= before


def test_the_chain_leads_from_the_start_to_the_goal_and_has_no_slack_where_hands_are_bound() -> None:
    works, hours = some_project(8, count=40)
    found = plan(works, hours=hours, goal="goal", trials=40, generator=np.random.default_rng(8)).schedule
    chain = driving(found, works=works, hours=hours, goal="goal")
    assert chain[0].key == "goal" and chain[-1].by is None
    assert chain[-1].cause in (Cause.START, Cause.DELIVERY, Cause.SECOND_PERSON)
    assert all(found.begins[then.key] <= found.ends[one.key] for one, then in pairwise(chain))
    free = slack(works, hours=hours, schedule=found, goal="goal")
    assert free["goal"] == 0
    assert all(minutes >= 0 for minutes in free.values())
