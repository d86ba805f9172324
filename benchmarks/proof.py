"""How long proof-reading a sheet of 500 figures takes, against reading the same sheet, in one run.

The machine differs from day to day: what can be compared is the ratio. The limit is what a person should not wait
longer. `python benchmarks/proof.py` ends with 1 when the limit is broken.
"""

import sys
import time
from collections.abc import Callable
from statistics import median

from gudgeon.bench.proof.figures import figures
from gudgeon.bench.proof.run import proofread
from gudgeon.sheet.load import parse_sheet

LIMIT_S = 1.0
ROUNDS = 5
HEAD = """gudgeon: data sheet 1
engine: {name: E, codes: [E], code_is_read: on the pad, layout: inline, cylinders: 4, numbered_from: front}
sources: {manual: {title: Manual, edition: first}}
characteristics:
"""
RIGHT = "new_range: 25.94–25.96 mm (1.0213–1.0220 in), wear_limit: min 25.90 mm (1.0197 in)"
WRONG = "new_range: 25.94–25.96 mm (1.0213–1.2022 in), wear_limit: min 259.0 mm (1.0197 in)"


def text(count: int) -> str:
    """A sheet of so many figures in two units; every tenth pair of them is wrong, as no manual's are."""
    rows = (
        f"  item_{n}: {{name: Item {n}, part: Part, source: manual p. {n}, {RIGHT if n % 10 else WRONG}}}\n"
        for n in range(count // 2)
    )
    return HEAD + "".join(rows)


def timed(work: Callable[[], object]) -> float:
    """Seconds, the median of the rounds."""
    found = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return median(found)


def main() -> int:
    """Time both and say it."""
    written = text(500)
    loaded = parse_sheet(written, file="sheet.yaml")
    count = sum(1 for _ in figures(loaded.sheet))
    reading = timed(lambda: parse_sheet(written, file="sheet.yaml"))
    proof = timed(lambda: proofread(loaded.sheet, written=loaded.written))
    print(
        f"{count} figures: read in {reading:.3f} s, proof-read in {proof:.3f} s, {proof / reading:.2f} times as long"
    )
    return 0 if proof < LIMIT_S else 1


if __name__ == "__main__":
    sys.exit(main())
