"""What is missing is gathered while the rest is answered; and the air here."""

from dataclasses import dataclass, field

from gudgeon.bench.context import Bench
from gudgeon.bench.running.answers import Air, Missing
from gudgeon.bench.sheet_place import line_of
from gudgeon.calc.engine.atmosphere import standard_air
from gudgeon.quantity.format import both
from gudgeon.sheet.after_start import AfterStart
from gudgeon.sheet.figures import Stated

READ = "gudgeon record reading"


@dataclass
class Gathered:
    """What is missing, each once, in the order in which it was looked for."""

    bench: Bench
    missing: list[Missing] = field(default_factory=list)

    def lacks(self, what: str, *, therefore: str, path: str = "", do: str = "") -> None:
        """Name something that is not known; `path` is where the sheet would state it."""
        line = line_of(self.bench.papers.written, path) if path else None
        found = Missing(what, therefore, path, line, do)
        if found not in self.missing:
            self.missing.append(found)


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
    known = bench.kit.altitude is not None
    height_mm = bench.kit.altitude.middle_in("mm") if bench.kit.altitude is not None else 0.0
    air = standard_air(height_mm / 1000)
    altitude, pressure = (
        both(height_mm, kind="altitude"),
        both(air.pressure_pa / 1000, kind="pressure_absolute"),
    )
    if not known:
        wanted.lacks(
            "your altitude",
            therefore="pressures are for the level of the sea, and 12 % too high at 1000 m",
            do="Write `altitude` into the kit, like `altitude: 500 m`.",
        )
    place = f"at {altitude}" if known else "at the level of the sea, as the kit states no altitude"
    words = f"standard air {place}: {pressure} absolute (U.S. Standard Atmosphere 1976)"
    return Air(
        altitude if known else "", pressure, air.pressure_pa / 1000, air.density_kg_per_m3, known, words
    )
