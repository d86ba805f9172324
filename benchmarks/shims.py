"""How long the choice of shims for 32 valves takes, against the bare solver on the same square, in one run.

60 shims lie in stock and 33 sizes can be bought. The machine differs from day to day: what can be compared is the ratio
to the solver alone, which finds one match of one aim and proves nothing. `python benchmarks/shims.py` ends with 1 when
the limit is broken.
"""

import random
import sys
import time
from collections.abc import Callable
from statistics import median

import numpy as np
from scipy.optimize import linear_sum_assignment

from gudgeon.calc.engine.shim_choice import choose
from gudgeon.calc.engine.shim_valves import Supply, Valve

LIMIT_S = 1.0
VALVES, STOCK, SIZES = 32, 60, 33
ROUNDS = 7


def valves(chance: random.Random) -> list[Valve]:
    """Valves of which about half are tight or loose, read by blades."""
    found = []
    for at in range(VALVES):
        low, shim = chance.randrange(100, 400, 10) * 1000, chance.randrange(2000, 2800, 25) * 1000
        found.append(Valve(f"valve {at}", shim, low, low + 20_000, 200_000, 300_000, 5_000, 8_000))
    return found


def supply(chance: random.Random) -> Supply:
    """Stock of any sizes, and an even series at two prices."""
    stock = tuple((chance.randrange(2000, 2800, 25) * 1000, 1) for _ in range(STOCK))
    return Supply(stock, tuple((2_000_000 + 25_000 * at, chance.choice((480, 600))) for at in range(SIZES)))


def timed(work: Callable[[], object]) -> float:
    """Seconds, the median of the rounds."""
    found = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return median(found)


def main() -> int:
    """Time both and say it; the slowest of several choices counts."""
    worst, bare = 0.0, 0.0
    for seed in range(5):
        chance = random.Random(seed)
        some, had = valves(chance), supply(chance)
        square = (
            np.random.default_rng(seed)
            .integers(0, 10**6, (2 * VALVES + STOCK, 2 * VALVES + STOCK))
            .astype(float)
        )
        choose(some, supply=had)
        worst = max(worst, timed(lambda some=some, had=had: choose(some, supply=had)))  # type: ignore[misc]
        bare = max(bare, timed(lambda square=square: linear_sum_assignment(square)))  # type: ignore[misc]
    print(
        f"{VALVES} valves, {STOCK} in stock, {SIZES} sizes: chosen and proved in {worst:.3f} s, "
        f"{worst / bare:.0f} times as long as the bare solver"
    )
    return 0 if worst < LIMIT_S else 1


if __name__ == "__main__":
    sys.exit(main())
