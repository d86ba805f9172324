"""What a plan takes for granted: how far estimates miss, when promises are kept, what may go wrong. Data, not code."""

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import Any, Literal

from gudgeon.bench.network import Task

Points = tuple[float, float, float]
WaitKind = Literal["clock", "shop", "delivery", "answer"]
"""What runs by the clock, and three kinds of somebody else's time."""


@dataclass(frozen=True, slots=True)
class Figures:
    """How far estimates miss; factors are the least, the most likely and the greatest."""

    source: str
    minutes: Points
    all_minutes: Points
    shop: Points
    delivery: Points
    answer: Points
    here_at: str
    morning: str
    slip_share: float
    slip_days_shop: int
    slip_days_delivery: int
    least_left: float
    prior_tasks: float
    most_ratio: float
    least_days: int
    most_days: int
    long_wait: int

    def of_wait(self, kind: WaitKind) -> Points | None:
        """How far a wait may miss; nothing where the clock ends it."""
        return {"clock": None, "shop": self.shop, "delivery": self.delivery, "answer": self.answer}[kind]


@dataclass(frozen=True, slots=True)
class Mishap:
    """What may go wrong: in which tasks it shows, each with the task that waits for it, and what it takes."""

    key: str
    title: str
    shows: tuple[tuple[str, str], ...]
    chance: float
    minutes: int
    wait: int
    needs: tuple[str, ...]


@lru_cache(maxsize=1)
def figures() -> Figures:
    """The figures that are shipped."""
    read = _read("planning.toml")
    listed: dict[str, Any] = {
        name: tuple(value) if isinstance(value, list) else value for name, value in read.items()
    }
    return Figures(**listed)


@lru_cache(maxsize=1)
def mishaps() -> tuple[Mishap, ...]:
    """Everything that may go wrong, in the order of the work."""
    return tuple(
        Mishap(
            key, one["title"], tuple((at, before) for at, before in one["shows"]), one["chance"], one["minutes"],
            round(60 * one["wait_hours"]), tuple(one["needs"]),
        )
        for key, one in _read("setbacks.toml").items()
    )  # fmt: skip


def _read(name: str) -> dict[str, Any]:
    folder = resources.files("gudgeon.bench").joinpath("data")
    return tomllib.loads(folder.joinpath(name).read_text(encoding="utf-8"))


def wait_kind(task: Task) -> WaitKind:
    """Whose time a wait is."""
    if task.wait is None or task.wait.clock:
        return "clock"
    if task.shop_part:
        return "shop"
    return "delivery" if "part" in task.wait.what else "answer"
