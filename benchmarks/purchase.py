"""How long the cheapest purchase takes, proof included, against a general solver on the same lists, in one run.

Fifty random lists of 40 parts and 6 suppliers with fees, limits and packs: the middle one and the slowest. The machine
differs from day to day: what can be compared is the ratio. The limit is what a person should not wait longer.
`python benchmarks/purchase.py` ends with 1 when the limit is broken, or where the two do not agree.
"""

import sys
import time
from statistics import median

from gudgeon.calc.planning.purchase import least_cost
from tests.random_purchases import by_highs, shopping

LIMIT_S = 3.0
LISTS = 50


def main() -> int:
    """Time both on every list and say it."""
    own, other, branches, wrong = [], [], [], 0
    for seed in range(LISTS):
        case = shopping(seed)
        start = time.perf_counter()
        found = least_cost(case[0], suppliers=case[1], offers=case[2])
        own.append(time.perf_counter() - start)
        start = time.perf_counter()
        least = by_highs(case)
        other.append(time.perf_counter() - start)
        branches.append(found.branches)
        wrong += found.total != least or not found.proven
    print(
        f"{LISTS} lists of 40 parts and 6 suppliers: {1000 * median(own):.0f} ms in the middle, "
        f"{1000 * max(own):.0f} ms at most ({max(branches)} branches), each proven; the general solver "
        f"{1000 * median(other):.0f} and {1000 * max(other):.0f} ms, {median(own) / median(other):.2f} times; "
        f"{wrong} differ"
    )
    return 0 if max(own) < LIMIT_S and not wrong else 1


if __name__ == "__main__":
    sys.exit(main())
