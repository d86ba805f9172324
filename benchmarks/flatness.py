"""How quickly the least zone of a face is found, against a linear program and one pass over its points, in one run.

The machine differs from day to day: what can be compared are ratios of one run. The linear program is that of all
points, turned to their plane of least squares, heights in µm, places over 225 mm: least h with z − a x − b y − c ≤ h
and −z + a x + b y + c ≤ h for each point, by the dual simplex of HiGHS (scipy's linprog, `highs-ds`). The pass computes
z − (a x + b y + c) of every point with numpy, its largest and its least. Rounds go in turn, the least time of
each counts. `python -m benchmarks.flatness` writes flatness.md and ends with 1 when a limit is broken.
"""

import platform
import sys
import time
import tracemalloc
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from gudgeon.calc.metrology.flatness import flatness
from gudgeon.calc.metrology.plane import least_squares_plane

PAGE = Path(__file__).with_suffix(".md")
RATIOS = {1_000: 15.0, 10_000: 60.0, 100_000: 300.0}
REACH = 225.0  # places are scaled to about ±1, or the program ends at its tolerance beside its optimum
SHORT = 0.05  # seconds
MILLION, LIMIT_PASSES, LIMIT_MB = 1_000_000, 10.0, 200.0
ROUNDS = {1_000: 40, 10_000: 15, 100_000: 4, MILLION: 9}
Floats = NDArray[np.float64]
HEAD = """# Flatness

Written by `python3 do.py bench`. Python {python}, numpy {numpy}, {machine}. The least zone of a face of 450 × 180 mm,
read at random places, with everything that the answer holds: the plane of least squares, the zone across it, the
orthogonal zone, the points that touch and the proof. Times are the least of rounds that went in turn, of five calls on
end where one is short; the machine has two processors and did other work too.

{program}
"""
PROGRAM = """The linear program is that of all points, turned to their plane of least squares, heights in µm, places
over 225 mm: least h with z − a x − b y − c ≤ h and −z + a x + b y + c ≤ h for each point, by the dual simplex of
HiGHS (scipy's `linprog`, `highs-ds`). The pass computes z − (a x + b y + c) of every point, its largest and its
least: over the rows of points that the answer is given too, and over columns that were laid out beforehand."""


def faces(count: int) -> dict[str, Floats]:
    """Faces of one size: rough, twisted, and with a spike; the same in every run."""
    random = np.random.default_rng(count)
    x, y = random.uniform(0, 450, count), random.uniform(0, 180, count)
    rough = 0.01 * random.standard_normal(count)
    twisted = 0.05 * (x / 225 - 1) * (y / 90 - 1) + 0.1 * rough
    domed = 0.05 * ((x / 225 - 1) ** 2 + (y / 90 - 1) ** 2)
    spiked = rough.copy()
    spiked[count // 3] += 0.5
    shapes = {"rough": rough, "twisted": twisted, "domed": domed, "spiked": spiked}
    return {name: np.column_stack([x, y, z]) for name, z in shapes.items()}


def program(points: Floats) -> float:
    """The zone across the plane of least squares by the linear program [mm]."""
    from scipy.optimize import linprog

    plane = least_squares_plane(points)
    local = (points - plane.center_mm) @ plane.axes.T
    height, ones = 1000 * local[:, 2], np.ones(len(local))
    rows = np.column_stack([local[:, :2] / REACH, ones])
    bounds = np.block([[-rows, -ones[:, None]], [rows, -ones[:, None]]])
    found = linprog(
        [0, 0, 0, 1],
        A_ub=bounds,
        b_ub=np.concatenate([-height, height]),
        bounds=[(None, None)] * 3 + [(0, None)],
        method="highs-ds",
    )
    assert found.x is not None  # a face always has a zone
    return 2 * float(found.x[3]) / 1000


def pass_over_rows(points: Floats) -> tuple[float, float]:
    """Largest and least of z − (a x + b y + c), from rows x, y, z."""
    rest = points[:, 2] - (1e-5 * points[:, 0] + 2e-5 * points[:, 1] + 1e-3)
    return float(rest.max()), float(rest.min())


def pass_over_columns(columns: Floats) -> tuple[float, float]:
    """The same from columns that each lie in one piece."""
    x, y, z = columns
    rest = z - (1e-5 * x + 2e-5 * y + 1e-3)
    return float(rest.max()), float(rest.min())


def in_turn(rounds: int, *works: Callable[[], object]) -> list[float]:
    """The least seconds of each, taken in turn; short work five times on end, so that each finds its memory warm."""
    taken: list[list[float]] = [[] for _ in works]
    for _ in range(rounds):
        for times, work in zip(taken, works, strict=True):
            for _ in range(5):
                start = time.perf_counter()
                work()
                times.append(time.perf_counter() - start)
                if times[-1] > SHORT:
                    break
    return [min(times) for times in taken]


def against_the_program() -> tuple[list[str], bool]:
    """Rows of the table, and whether each ratio is kept and each zone the same."""
    rows, kept = [], True
    for count, least in RATIOS.items():
        for name, points in faces(count).items():
            apart = abs(flatness(points).across_least_squares_mm - program(points))
            ours, theirs = in_turn(ROUNDS[count], partial(flatness, points), partial(program, points))
            within = theirs / ours >= least and apart < 1e-9
            kept = kept and within
            rows.append(
                f"| {name} | {count:,} | {1e3 * ours:.2f} ms | {1e3 * theirs:.0f} ms | {theirs / ours:.0f} × | "
                f"{least:.0f} × | {apart:.0e} mm | {'within' if within else 'above'} |"
            )
    return rows, kept


def a_million() -> tuple[list[str], bool]:
    """Rows of the table for a million points, and whether the limits are kept."""
    rows, kept = [], True
    for name, points in faces(MILLION).items():
        columns = np.ascontiguousarray(points.T)
        ours, by_rows, by_columns = in_turn(
            ROUNDS[MILLION],
            partial(flatness, points),
            partial(pass_over_rows, points),
            partial(pass_over_columns, columns),
        )
        tracemalloc.start()
        gap = flatness(points).certificate_gap_mm
        most = tracemalloc.get_traced_memory()[1] / 1e6
        tracemalloc.stop()
        within = ours <= LIMIT_PASSES * by_columns and most < LIMIT_MB and gap < 1e-9
        kept = kept and within
        rows.append(
            f"| {name} | {1e3 * ours:.0f} ms | {ours / by_rows:.1f} × | {ours / by_columns:.1f} × | {most:.0f} MB | "
            f"{gap:.0e} mm | {'within' if within else 'above'} |"
        )
    return rows, kept


def main() -> int:
    """Time all, write the page, and say it."""
    small, kept_small = against_the_program()
    large, kept_large = a_million()
    machine = f"{platform.system()} {platform.machine()}"
    told = [
        HEAD.format(python=platform.python_version(), numpy=np.__version__, machine=machine, program=PROGRAM),
        "| face | points | here | linear program | ratio | at least | zones differ by | |",
        "| --- | --- | --- | --- | --- | --- | --- | --- |",
        *small,
        "",
        f"A million points; limits {LIMIT_PASSES:.0f} × the pass over columns, {LIMIT_MB:.0f} MB above the points.",
        "",
        "| face | here | passes over rows | passes over columns | memory | gap of the proof | |",
        "| --- | --- | --- | --- | --- | --- | --- |",
        *large,
    ]
    text = "\n".join(told) + "\n"
    PAGE.write_text(text, encoding="utf-8")
    print(text)
    return 0 if kept_small and kept_large else 1


if __name__ == "__main__":
    sys.exit(main())
