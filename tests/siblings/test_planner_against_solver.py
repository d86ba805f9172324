"""The planner against an exact solver of another kind: constraint programming (CP-SAT of OR-Tools).

The solver is given the rules, not our plan: in each window of hours each work may have one piece, on a grid of 15 minutes
(all minutes and hours of these projects lie on it, and 15 minutes are the least piece). Looking only at finishes up to
ours loses nothing: when ours keeps the rules, the solver finds it too, and when the solver finds nothing, ours breaks a
rule. Public collections of scheduling problems have several persons and machines and no hours, so they are not used here.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pytest
from ortools.sat.python import cp_model

from gudgeon.calc.planning.hours import Hours, Window
from gudgeon.calc.planning.search import Planned, plan
from gudgeon.calc.planning.works import Work
from tests.garage_projects import DAY, GRID, broken_rules, some_project

SECONDS = 4.0


@dataclass(frozen=True, slots=True)
class Solved:
    """The best finish that the solver found, the bound that it proved, and whether the two meet [min]."""

    finish: int
    bound: int
    proved: bool


class Model:
    """The rules of the plan as constraints over a grid."""

    def __init__(self, works: Sequence[Work], hours: Hours, *, goal: str, most: int) -> None:
        self.model = cp_model.CpModel()
        self.most = -(-most // GRID)
        self.begins: dict[str, cp_model.IntVar] = {}
        self.ends: dict[str, cp_model.IntVar] = {}
        busy: list[cp_model.IntervalVar] = []
        by_key = {one.key: one for one in works}
        for work in _needed(by_key, goal):
            busy += self._work(work, hours)
        self.model.add_no_overlap(busy)
        for key in self.ends:
            for one in by_key[key].after:
                self.model.add(self.begins[key] >= self.ends[one] + -(-by_key[one].wait // GRID))
        self.goal = self.ends[goal]
        self.model.minimize(self.goal)

    def _work(self, work: Work, hours: Hours) -> list[cp_model.IntervalVar]:
        """The pieces of a work, at most one in each window that it may be done in."""
        key, minutes = work.key, work.minutes // GRID
        begin = self.begins[key] = self.model.new_int_var(
            -(-work.not_before // GRID), self.most, f"begin {key}"
        )
        end = self.ends[key] = self.model.new_int_var(0, self.most, f"end {key}")
        intervals, sizes, chosen = [], [], []
        for start, stop in _windows(work, hours):
            first, last = start // GRID, min(stop // GRID, self.most)
            least = minutes if work.in_one_go else 1
            if first >= last or last - first < least or stop <= work.not_before:
                continue
            there = self.model.new_bool_var("")
            size = self.model.new_int_var(least, min(minutes, last - first), "")
            at, until = self.model.new_int_var(first, last, ""), self.model.new_int_var(first, last, "")
            intervals.append(self.model.new_optional_interval_var(at, size, until, there, ""))
            counted = self.model.new_int_var(0, min(minutes, last - first), "")
            self.model.add(counted == size).only_enforce_if(there)
            self.model.add(counted == 0).only_enforce_if(~there)
            self.model.add(begin <= at).only_enforce_if(there)
            self.model.add(end >= until).only_enforce_if(there)
            sizes.append(counted)
            chosen.append(there)
        self.model.add(sum(sizes) == minutes)
        self.model.add(end >= begin + minutes)
        if work.in_one_go:
            self.model.add_exactly_one(chosen)
        return intervals

    def solved(self, *, seconds: float) -> Solved:
        """The best that is found in so many seconds."""
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = seconds
        solver.parameters.num_workers = 2
        solver.parameters.random_seed = 1
        status = solver.solve(self.model)
        assert status != cp_model.INFEASIBLE, "our plan breaks a rule of the solver's model"
        bound = round(solver.best_objective_bound) * GRID
        found = round(solver.objective_value) * GRID if status != cp_model.UNKNOWN else self.most * GRID
        return Solved(found, bound, status == cp_model.OPTIMAL)


def _needed(works: dict[str, Work], goal: str) -> list[Work]:
    found, left = {goal}, [goal]
    while left:
        for one in works[left.pop()].after:
            if one not in found:
                found.add(one)
                left.append(one)
    return [one for one in works.values() if one.key in found]


def _windows(work: Work, hours: Hours) -> list[Window]:
    """The hours that a work may be done in; early and both are cut with each other."""
    kinds = [hours.own]
    kinds += [hours.both] if work.two_people else []
    kinds += [hours.early] if work.not_late else []
    found = list(kinds[0])
    for kind in kinds[1:]:
        found = [
            (max(one[0], other[0]), min(one[1], other[1]))
            for one in found for other in kind if max(one[0], other[0]) < min(one[1], other[1])
        ]  # fmt: skip
    return found


def _compared(seed: int, *, count: int, seconds: float) -> tuple[Planned, Solved]:
    works, hours = some_project(seed, count=count)
    ours = plan(works, hours=hours, goal="goal", generator=np.random.default_rng(seed))
    assert broken_rules(ours.schedule, works=works, hours=hours) == []
    assert ours.schedule.late == ()
    theirs = Model(works, hours, goal="goal", most=ours.schedule.goal).solved(seconds=seconds)
    return ours, theirs


@pytest.mark.parametrize("seed", range(6))
def test_within_a_day_of_an_exact_solver(seed: int) -> None:
    """OTHER TOOL: what the solver finds and proves within a few seconds, for 30 to 60 works."""
    ours, theirs = _compared(seed, count=30 + seed % 4 * 10, seconds=SECONDS)
    assert theirs.bound <= ours.schedule.goal <= theirs.finish + DAY
    assert ours.bound <= theirs.finish


@pytest.mark.long
@pytest.mark.parametrize("seed", range(6, 24))
def test_within_a_day_on_more_projects(seed: int) -> None:
    """OTHER TOOL: the same on more of them, with more time."""
    ours, theirs = _compared(seed, count=30 + seed % 4 * 10, seconds=2 * SECONDS)
    assert theirs.bound <= ours.schedule.goal <= theirs.finish + DAY
    assert ours.bound <= theirs.finish
