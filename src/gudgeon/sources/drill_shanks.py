"""Diameters of twist drills by series: numbers, letters, fractions of an inch and millimeters."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from gudgeon.sources.figures import Source
from gudgeon.sources.tables import read

Series = Literal["fraction", "number", "letter", "metric"]
INCH_MM = 25.4


@dataclass(frozen=True, slots=True)
class DrillShank:
    """One size of one series, its name as it is stamped, and its diameter."""

    series: Series
    name: str
    diameter_mm: float
    source: Source


@lru_cache(maxsize=1)
def drill_shanks() -> tuple[DrillShank, ...]:
    """Every size of all series, the thinnest first."""
    data, found = read("drill_shanks")
    named: tuple[tuple[Series, str], ...] = (("number", "#"), ("letter", ""))
    sizes = [
        DrillShank(series, f"{mark}{name}", size * INCH_MM, found[data[series]["source"]])
        for series, mark in named
        for name, size in data[series]["sizes_in"].items()
    ]
    fractions = data["fractions"]
    sizes += [
        DrillShank("fraction", _fraction(count, fractions["parts"]), count * INCH_MM / fractions["parts"],
                   found[fractions["source"]])
        for count in range(1, fractions["most"] + 1)
    ]  # fmt: skip
    for row in data["metric"]["steps"]:
        first, last = (round(row[end] / row["step_mm"]) for end in ("above_mm", "up_to_mm"))
        for count in range(first + 1, last + 1):
            size = round(count * row["step_mm"], 2)
            sizes.append(DrillShank("metric", f"{size:g} mm", size, found[data["metric"]["source"]]))
    return tuple(sorted(sizes, key=lambda one: one.diameter_mm))


def _fraction(count: int, parts: int) -> str:
    return f"{Fraction(count, parts)} in"
