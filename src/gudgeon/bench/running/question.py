"""Does it run right? Everything that proves an engine after its first start; what is missing is named."""

import tomllib
from importlib import resources

from gudgeon.bench.context import Bench
from gudgeon.bench.running.answers import Running
from gudgeon.bench.running.compression import compression
from gudgeon.bench.running.coolant import LeftIn, coolant_mix
from gudgeon.bench.running.gathered import Gathered, here
from gudgeon.bench.running.later import again, later
from gudgeon.bench.running.leaks import leaks
from gudgeon.bench.running.oil import oil_pressure
from gudgeon.sheet.model import DataSheet

QUESTION = "Does it run right?"


def running(bench: Bench, *, left_in: str = "", glycol_in_it: str = "") -> Running:
    """The answer; `left_in` is the coolant still in the system, `glycol_in_it` its share of glycol."""
    bench.unlock()
    wanted = Gathered(bench)
    air = here(bench, wanted)
    pressures = compression(bench, air, wanted)
    leak = leaks(bench, air, wanted)
    oil = oil_pressure(bench, wanted)
    mix = coolant_mix(bench, wanted, left_in=LeftIn(left_in, glycol_in_it))
    afterward = later(bench, wanted)
    return Running(
        bench.heading(QUESTION),
        air,
        pressures,
        leak,
        oil,
        mix,
        again(bench),
        afterward,
        tuple(wanted.missing),
        cautions(bench.sheet),
    )


def cautions(sheet: DataSheet) -> tuple[str, ...]:
    """What can hurt, each with what it rests on; nothing of what the engine does not have."""
    file = resources.files("gudgeon.bench").joinpath("data/running_cautions.toml")
    rows = tomllib.loads(file.read_text(encoding="utf-8"))["caution"]
    return tuple(f"{row['text']} ({row['basis']})" for row in rows if not sheet.lacks(row.get("of", "")))
