"""What is missing is gathered while the rest is answered; and the air here."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

from gudgeon.bench.context import Bench
from gudgeon.bench.measured import CANNOT
from gudgeon.bench.running.answers import Air, Missing
from gudgeon.bench.sheet_place import line_of
from gudgeon.calc.engine.atmosphere import standard_air
from gudgeon.quantity.format import both
from gudgeon.sheet.after_start import AfterStart
from gudgeon.sheet.figures import Stated

READ = "gudgeon record reading"
Part = TypeVar("Part")


@dataclass
class Gathered:
    """What is missing, each once, in the order in which it was looked for."""

    bench: Bench
    missing: list[Missing] = field(default_factory=list)

    def lacks(self, what: str, *, therefore: str, path: str = "", do: str = "", wrong: str = "") -> None:
        """Name something that is not known; `path` is where the sheet states it, or would."""
        line = line_of(self.bench.papers.written, path) if path else None
        found = Missing(what, therefore, path, line, do, wrong)
        if found not in self.missing:
            self.missing.append(found)

    def attempt(
        self, work: Callable[[], Part], *, otherwise: Part, what: str, therefore: str, path: str = ""
    ) -> Part:
        """One part of the answer; where the figures make none, that is named, and the rest is still answered."""
        try:
            return work()
        except CANNOT as error:
            self.lacks(what, therefore=therefore, path=path, wrong=sentence(error))
            return otherwise


def sentence(error: Exception) -> str:
    """What an error says, as it stands between sentences."""
    words = str(error) or "its figures make no sense together"
    return words if words.endswith(".") else f"{words}."


def stated_in(figure: Stated | None, unit: str) -> float | None:
    """The middle of a stated figure; of a bound, as `max 1.1 bar`, the one end that it has."""
    if figure is None:
        return None
    low, high = figure.value.low_in(unit), figure.value.high_in(unit)
    if low is None or high is None:
        return high if low is None else low
    return figure.value.middle_in(unit)


def after_start(bench: Bench) -> AfterStart:
    """What the sheet asks of an engine that runs; nothing where it asks nothing."""
    return bench.sheet.after_start or AfterStart()


def here(bench: Bench, wanted: Gathered) -> Air:
    """The standard air at his altitude; at the sea where the kit does not say how high he works."""
    stated = _height_mm(bench, wanted)
    known, height_mm = stated is not None, stated or 0.0
    air = standard_air(height_mm / 1000)
    altitude, pressure = (
        both(height_mm, kind="altitude"),
        both(air.pressure_pa / 1000, kind="pressure_absolute"),
    )
    place = f"at {altitude}" if known else f"at the level of the sea, as {_why_sea(bench)}"
    words = f"standard air {place}: {pressure} absolute (U.S. Standard Atmosphere 1976)"
    return Air(
        altitude if known else "", pressure, air.pressure_pa / 1000, air.density_kg_per_m3, known, words
    )


def _why_sea(bench: Bench) -> str:
    return "the kit states no altitude" if bench.kit.altitude is None else "the altitude of the kit cannot be"


AT_SEA = "pressures are for the level of the sea, and 12 % too high at 1000 m"


def _height_mm(bench: Bench, wanted: Gathered) -> float | None:
    """How high he works; nothing where the kit does not say it, or says what cannot be."""
    stated = bench.kit.altitude
    if stated is None:
        wanted.lacks(
            "your altitude", therefore=AT_SEA, do="Write `altitude` into the kit, like `altitude: 500 m`."
        )
        return None
    try:
        height = stated.middle_in("mm")
        standard_air(height / 1000)
    except CANNOT as error:
        wanted.lacks(
            "your altitude", therefore=AT_SEA, do="Correct `altitude` in the kit.", wrong=sentence(error)
        )
        return None
    return height
