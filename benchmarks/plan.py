"""How long a plan of 146 works and 2,000 simulated finishes take, and how near the plan is to the best possible.

Evenings and weekends, a second person at times, waits and deliveries. In the same run an exact solver gets the smaller
projects: what can be compared on a machine that differs from day to day is the ratio. `python benchmarks/plan.py` ends
with 1 when a limit is broken.
"""

import sys
import time

import numpy as np

from gudgeon.calc.planning.finishes import Setback, Spread, simulate
from gudgeon.calc.planning.search import plan
from tests.garage_projects import DAY, some_project
from tests.siblings.test_planner_against_solver import Model

PLAN_S, FINISHES_S = 2.0, 5.0
WORKS, FINISHES = 146, 2000
SEEDS = range(4)
SOLVER_S = 8.0


def main() -> int:
    """Plan, simulate, compare, and say it."""
    slowest_plan, slowest_finishes = 0.0, 0.0
    for seed in SEEDS:
        works, hours = some_project(seed, count=WORKS, weeks=60)
        start = time.process_time()
        found = plan(works, hours=hours, goal="goal", generator=np.random.default_rng(seed))
        took = time.process_time() - start
        spreads = {one.key: Spread((0.7 * one.minutes, one.minutes, 1.8 * one.minutes)) for one in works}
        setbacks = [
            Setback(f"setback {at}", (works[9 * at].key,), (works[9 * at + 9].key,), 0.1, 60, wait=1440)
            for at in range(16)
        ]
        start = time.process_time()
        simulate(
            works, hours=hours, goal="goal", priority=found.priority, spreads=spreads, setbacks=setbacks,
            trials=FINISHES, generator=np.random.default_rng(seed),
        )  # fmt: skip
        simulated = time.process_time() - start
        slowest_plan, slowest_finishes = max(slowest_plan, took), max(slowest_finishes, simulated)
        print(
            f"{WORKS} works: planned in {took:.2f} s ({found.tries} tries), goal on day "
            f"{found.schedule.goal / DAY:.1f}, "
            f"at most {found.gap_minutes / DAY:.2f} days above the best; {FINISHES:,} finishes in {simulated:.2f} s"
        )
    _against_the_solver()
    return 0 if slowest_plan < PLAN_S and slowest_finishes < FINISHES_S else 1


def _against_the_solver() -> None:
    for seed in SEEDS:
        works, hours = some_project(seed, count=40)
        start = time.process_time()
        ours = plan(works, hours=hours, goal="goal", generator=np.random.default_rng(seed))
        own = time.process_time() - start
        start = time.process_time()
        theirs = Model(works, hours, goal="goal", most=ours.schedule.goal).solved(seconds=SOLVER_S)
        other = time.process_time() - start
        proved = "proved" if theirs.proved else "not proved"
        print(
            f"40 works: ours {ours.schedule.goal / DAY:.2f} days, bound {ours.bound / DAY:.2f}, {own:.2f} s; the exact "
            f"solver {theirs.finish / DAY:.2f} days, bound {theirs.bound / DAY:.2f} ({proved}), {other:.1f} s of "
            f"processor, {other / own:.0f} times"
        )


if __name__ == "__main__":
    sys.exit(main())
