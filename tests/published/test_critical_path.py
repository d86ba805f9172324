"""Printed tables of networks, cell by cell; classical finishes, and one against a simulation by another program.

Taylor, Introduction to Management Science, chapter 8, solutions; the vignette on critical paths of the R package
critpath; a worked example of fourteen tasks; a worked example of three paths. PRINTED but where a test says otherwise.
"""

import json
from collections.abc import Mapping
from typing import Any

import numpy as np
import pytest

from gudgeon.calc.planning.estimate import (
    ThreePoint,
    chance_by,
    classical_finish,
    moments,
    simulated_finish,
)
from gudgeon.calc.planning.network import CriticalPath, TaskTimes, critical_path
from tests.reference import reference_file, reference_rows

ROUNDED = 0.005 + 1e-9  # tables print two decimals, or the exact figure
NINE = {
    "A": ThreePoint(3, 5, 7), "B": ThreePoint(5, 7, 9), "C": ThreePoint(5, 5, 8), "D": ThreePoint(1, 6, 8),
    "E": ThreePoint(6, 8, 10), "F": ThreePoint(2, 6, 7), "G": ThreePoint(5, 6, 7), "H": ThreePoint(3, 5, 7),
    "I": ThreePoint(4, 6, 8),
}  # fmt: skip
NINE_AFTER = {"B": "A", "C": "B", "D": "B", "E": "B", "F": "C", "G": "D", "H": "E", "I": "FGH"}
FOURTEEN = {
    "A": (5, 5, 7), "B": (1, 2, 5), "C": (5, 5, 5), "D": (4, 8, 13), "E": (1, 10, 17), "F": (1, 5, 7),
    "G": (2, 6, 9), "H": (4, 4, 6), "I": (2, 7, 10), "J": (2, 4, 7), "K": (6, 10, 13), "L": (2, 6, 6),
    "M": (2, 2, 3), "N": (7, 7, 12),
}  # fmt: skip


def tables() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(reference_file("data/cpm_pert_reference.json").read_text("utf-8"))
    return found


def solved(table: Mapping[str, Any]) -> CriticalPath:
    tasks = table["activities"].items()
    return critical_path(
        {name: one["duration"] for name, one in tasks}, after={name: one["preds"] for name, one in tasks}
    )


def cell(times: TaskTimes, name: str) -> float:
    names = {
        "ES": times.earliest_start, "EF": times.earliest_finish, "LS": times.latest_start,
        "LF": times.latest_finish, "TF": times.total_float, "FF": times.free_float,
    }  # fmt: skip
    return names[name]


def test_every_cell_of_every_printed_table() -> None:
    compared = 0
    for name, table in tables().items():
        found = solved(table)
        assert abs(found.duration - table["published_T"]) <= ROUNDED, name
        for task, row in table["published"].items():
            for column, printed in row.items():
                assert abs(cell(found.times[task], column) - printed) <= ROUNDED, (name, task, column)
                compared += 1
    assert compared == 35 + 65 + 36 + 54 + 30


def test_every_cell_of_the_tasks_whose_rows_were_not_seen() -> None:
    """OTHER TOOL: all rows of the five networks, from an independent script."""
    for name, table in tables().items():
        found = solved(table)
        for task, row in table["computed"].items():
            ours = {column: cell(found.times[task], column) for column in row}
            assert ours == pytest.approx(row, abs=1e-9), (name, task)


def test_every_printed_critical_path() -> None:
    found = {name: (solved(table).critical, table["published_critical"]) for name, table in tables().items()}
    for name, (ours, printed) in found.items():
        assert printed is None or list(ours) == printed, name
    assert [name for name, (_, printed) in found.items() if printed is None] == ["pert14"]


def test_the_rows_of_the_reference_table() -> None:
    rows = {row["id"]: row["value"] for row in reference_rows("planning.csv")}
    names = {"CPM1": "taylor_ch8_a", "CPM2": "taylor_ch8_b", "CPM3": "critpath_cpm1"}
    found = {key: solved(tables()[name]) for key, name in names.items()}
    assert {key: one.duration for key, one in found.items()} == {key: float(rows[key]) for key in names}
    assert found["CPM3"].critical == ("C", "F")
    assert (found["CPM3"].times["D"].free_float, found["CPM3"].times["E"].free_float) == (1, 2)


def test_the_classical_finish_of_nine_tasks() -> None:
    """31, and 1.491, which is the root of 20/9: HAND, variances 4, 4, 4, 4 and 4 ninths along the path."""
    found = classical_finish(NINE, after=NINE_AFTER)
    assert found.mean == pytest.approx(31, abs=1e-12)
    assert found.deviation == pytest.approx(1.491, abs=0.0005)
    assert found.path == ("A", "B", "E", "H", "I")
    assert chance_by(31, mean=found.mean, deviation=found.deviation) == pytest.approx(0.5, abs=1e-12)


def test_where_paths_meet_the_finish_is_later_than_the_classical_sum_says() -> None:
    """31 / 1.491 / 0.500 classical; OTHER TOOL, 40,000 trials of an independent script: 31.192 / 1.610 / 0.457.

    Both are simulations: four standard errors of 40,000 trials are allowed.
    """
    found = simulated_finish(NINE, after=NINE_AFTER, random=np.random.default_rng(31), trials=40_000)
    assert found.mean == pytest.approx(31.192, abs=4 * 1.6 / 200)
    assert found.deviation == pytest.approx(1.610, abs=4 * 1.6 / 283)
    assert found.chance_by(31) == pytest.approx(0.457, abs=4 * 0.5 / 200)


def test_means_and_deviations_of_fourteen_tasks() -> None:
    found = {task: moments(ThreePoint(*given)) for task, given in FOURTEEN.items()}
    means = [5.33, 2.33, 5.00, 8.17, 9.67, 4.67, 5.83, 4.33, 6.67, 4.17, 9.83, 5.33, 2.17, 7.83]
    deviations = [0.33, 0.67, 0.00, 1.50, 2.67, 1.00, 1.17, 0.33, 1.33, 0.83, 1.17, 0.67, 0.17, 0.83]
    assert [one.mean for one in found.values()] == pytest.approx(means, abs=ROUNDED)
    assert [one.deviation for one in found.values()] == pytest.approx(deviations, abs=ROUNDED)


def test_a_path_of_three_tasks_has_the_root_of_its_variance() -> None:
    """Three paths of means 20.5, 21.5 and 19.5 and variances 1.249, 1.805 and 0.528: D-F-G deviates by 1.344.

    HAND: three figures with the mean and a sixth of the width given are mean ∓ 3 and the mean itself.
    """
    each = [
        ThreePoint(mean - 3 * variance**0.5, mean, mean + 3 * variance**0.5)
        for mean, variance in ((20.5, 1.249), (21.5, 1.805), (19.5, 0.528))
    ]
    found = classical_finish(dict(zip(("A-C", "D-F-G", "B-E"), each, strict=True)), after={})
    assert found.path == ("D-F-G",)
    assert found.mean == pytest.approx(21.5, abs=1e-9)
    assert found.deviation == pytest.approx(1.344, abs=0.0005)
