"""Cleaner, rags and gloves: by parts, joints and hours of the job; habits of the trade, and said to be that."""

import math
from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.network import Task
from gudgeon.bench.supplies.model import PRACTICE, Supply, liters
from gudgeon.sources.supplies import supply_figure

SOAKED = ("cleaner", "solvent", "parts washer", "brushes", "kerosene or vacuum pump")
"""What lies on the bench where parts are cleaned."""


def cleaning(bench: Bench, tasks: tuple[Task, ...]) -> Iterator[Supply]:
    """What cleaning takes, and what hands and joints are wiped with."""
    if any(one in task.needs for task in tasks for one in SOAKED):
        yield from _cleaner(bench)
    joints = [task for task in tasks if task.joint]
    if joints:
        each = supply_figure("rags_for_joint").value
        count = math.ceil(each * len(joints))
        yield Supply(
            "rags", "Lint-free rags", f"{count}", "joints and bores; counted in, counted out",
            f"{each:.0f} for each of {len(joints)} joints that the job closes", PRACTICE,
        )  # fmt: skip
    hours = sum(task.minutes for task in tasks) / 60
    if hours:
        lasts = supply_figure("hours_for_gloves").value
        pairs = math.ceil(hours / lasts)
        yield Supply(
            "gloves", "Pairs of thin gloves", f"{pairs}", "used oil, solvent, coolant",
            f"a pair for every {lasts:.0f} h of {hours:.0f} h of hands", PRACTICE,
        )  # fmt: skip


def _cleaner(bench: Bench) -> Iterator[Supply]:
    """By the parts of the sheet that go back: what is always renewed is not cleaned."""
    parts = [one for one in bench.sheet.parts.values() if not one.one_time]
    if not parts:
        yield Supply(
            "cleaner",
            "Cleaner for parts",
            "",
            "parts that go back",
            "",
            PRACTICE,
            "the parts of the engine: list them in the data sheet",
        )
        return
    each = 1000 * supply_figure("cleaner_for_part").value
    yield Supply(
        "cleaner", "Cleaner for parts", liters(each * len(parts)), "parts that go back",
        f"{liters(each)} for each of {len(parts)} parts of the sheet that are not always renewed", PRACTICE,
    )  # fmt: skip
