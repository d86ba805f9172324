"""How long 300 labels take to print, against 30 on the same sheet, in one run.

The machine differs from day to day: what can be compared is the ratio. The limit is what a person should not wait
longer. `python benchmarks/labels.py` ends with 1 when the limit is broken.
"""

import sys
import time
from collections.abc import Callable
from dataclasses import replace
from statistics import median

from gudgeon.bench.answer import Heading
from gudgeon.bench.labels.ask import Labels
from gudgeon.bench.labels.sheets import COMMON
from gudgeon.bench.labels.things import Label
from gudgeon.calc.labels.arrange import flag
from gudgeon.calc.labels.codes import code_of
from gudgeon.calc.labels.sheet import places
from gudgeon.paper.labels import labels_pdf

LIMIT_S = 5.0
ROUNDS = 3
HEADING = Heading("Labels", "E", "mine", "", "2026-03-07T10:00:00+00:00", "", "", (), "0" * 64)


def answer(count: int) -> Labels:
    """So many labels, every fifth with a name that has to be made smaller."""
    made = tuple(
        Label(
            code_of(7919 * n), "left over", f"hose_{n}", "hose", f"H{n}",
            "a hose with a long name " * 4 if n % 5 == 0 else f"Hose {n}", f"place H{n}", "off", True, "Mar 07",
        )
        for n in range(count)
    )  # fmt: skip
    sheet = COMMON[0].sheet
    return Labels(HEADING, made, sheet, places(sheet, count=count))


def timed(work: Callable[[], object]) -> float:
    """Seconds, the median of the rounds."""
    found = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return median(found)


def main() -> int:
    """Time flat labels and flags, and say it."""
    many, few = answer(300), answer(30)
    sheet = many.sheet
    folded = flag(width_mm=sheet.label_width_mm, height_mm=sheet.label_height_mm, wire_mm=6.0)
    flat, some = timed(lambda: labels_pdf(many)), timed(lambda: labels_pdf(few))
    flags = timed(lambda: labels_pdf(replace(many, flag=folded, wire="6 mm")))
    print(f"300 labels: {flat:.2f} s, {flat / some:.1f} times as long as 30; as flags {flags:.2f} s")
    return 0 if max(flat, flags) < LIMIT_S else 1


if __name__ == "__main__":
    sys.exit(main())
