"""Rules of the trade for an engine that is cranked or runs, each with its source; where they disagree, all of them."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from gudgeon.sources.figures import Figure, Source
from gudgeon.sources.tables import read


@dataclass(frozen=True, slots=True)
class BalanceRule:
    """How far cylinders may differ; `least_kpa` is what none may be under, where the rule says so."""

    words: str
    rule: str
    limit: float
    least_kpa: float | None
    source: Source


@dataclass(frozen=True, slots=True)
class LeakWords:
    """What a share lost is called, below a share."""

    below: float
    words: str
    source: Source


@dataclass(frozen=True, slots=True)
class Acceptance:
    """What one maker accepts, in words."""

    words: str
    source: Source


@dataclass(frozen=True, slots=True)
class Heard:
    """Where the air of a leak-down test is heard, what that means, and what is done next."""

    where: str
    means: str
    next: str
    source: Source


@lru_cache(maxsize=1)
def _first_run() -> tuple[dict[str, Any], dict[str, Source]]:
    return read("running")


def balance_rules() -> tuple[BalanceRule, ...]:
    """The rules by which cylinders are compared where the manual has none."""
    data, found = _first_run()
    return tuple(
        BalanceRule(row["words"], row["rule"], row["limit"], row.get("least_kpa"), found[row["source"]])
        for row in data["balance"]
    )


def leak_words() -> tuple[LeakWords, ...]:
    """What shares lost are called, the least first."""
    data, found = _first_run()
    return tuple(LeakWords(row["below"], row["words"], found[row["source"]]) for row in data["leak"])


def acceptance() -> Acceptance:
    """What one maker accepts of a leak-down test."""
    data, found = _first_run()
    return Acceptance(data["acceptance"]["words"], found[data["acceptance"]["source"]])


def heard() -> tuple[Heard, ...]:
    """Where the air is heard, and what it means."""
    data, found = _first_run()
    return tuple(
        Heard(row["where"], row["means"], row["next"], found[row["source"]]) for row in data["heard"]
    )


def run_figure(name: str) -> Figure:
    """One figure by its name."""
    data, found = _first_run()
    row = next(one for one in data["figure"] if one["name"] == name)
    return Figure(row["value"], row["unit"], found[row["source"]])
