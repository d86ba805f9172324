"""Oil pressure against the sheet, and when the engine is stopped at once."""

import math

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.decision import decide, value_of
from gudgeon.bench.measured import measured
from gudgeon.bench.running.answers import Oil, OilLine
from gudgeon.bench.running.gathered import READ, Gathered, after_start, stated_in
from gudgeon.quantity.format import both
from gudgeon.sheet.after_start import OilPressure
from gudgeon.sources.first_run import run_figure


def oil_pressure(bench: Bench, wanted: Gathered) -> Oil:
    """Every speed that the sheet names, with what was read there."""
    stated = after_start(bench).oil_pressure
    notes = []
    if not stated:
        wanted.lacks(
            "the least oil pressure, with its speed",
            therefore="what the gauge shows cannot be judged",
            path="after_start.oil_pressure",
        )
        per_thousand = run_figure("oil_kpa_per_1000")
        notes.append(
            f"Where the manual is silent the trade asks for {both(per_thousand.value, kind='pressure_gauge')} for each "
            f"1000 r/min, hot ({per_thousand.source.provenance.lower()}); no verdict is given by it."
        )
    lines = tuple(_line_or_why(bench, one, index, wanted) for index, one in enumerate(stated, start=1))
    return Oil(lines, _stop(bench), tuple(notes))


def _line_or_why(bench: Bench, one: OilPressure, index: int, wanted: Gathered) -> OilLine:
    """One speed; where its figures cannot be judged that is named, and the other speeds are answered."""
    source = str(after_start(bench).source or "the data sheet")
    return wanted.attempt(
        lambda: _line(bench, one, index, wanted),
        otherwise=OilLine(one.at.value.text, one.least.value.text, "", "not measured", source),
        what=f"oil pressure at {one.at.value.text}",
        therefore="not judged",
        path=f"after_start.oil_pressure.{index}",
    )


def _line(bench: Bench, one: OilPressure, index: int, wanted: Gathered) -> OilLine:
    at = one.at.value.text + (f", oil {one.temperature.value.text}" if one.temperature is not None else "")
    source = str(one.cited(one.least) or after_start(bench).source or "the data sheet")
    least = one.least.value.low_in("kPa") or stated_in(one.least, "kPa")
    key = one.measured_as
    if key is None or key not in bench.sheet.characteristics:
        wanted.lacks(
            f"the characteristic that holds the oil pressure at {one.at.value.text}",
            therefore="what the gauge showed cannot be recorded and judged",
            path=f"after_start.oil_pressure.{index}.measured_as",
        )
        return OilLine(at, one.least.value.text, "", "not measured", source)
    read = [it for it in measured(bench, key).values() if math.isfinite(it.low + it.high)]
    if not read:
        wanted.lacks(
            f"oil pressure at {one.at.value.text}",
            therefore="not judged",
            do=f"Read it, then: {READ} {key} --as-left",
        )
        return OilLine(at, one.least.value.text, "", "not measured", source)
    lowest = min(read, key=lambda it: it.low)
    verdict = decide(value_of(lowest), low=least, high=None).verdict
    return OilLine(at, one.least.value.text, lowest.text, verdict, source)


def _stop(bench: Bench) -> str:
    """The stop rule: in the words of the sheet where one of its cautions has it, else of the trade."""
    for caution in bench.sheet.cautions:
        words = caution.text.lower()
        if "oil pressure" in words and "stop" in words:
            return f"{caution.text} ({caution.basis})"
    seconds = run_figure("oil_light_seconds")
    return (
        f"Stop at once when no oil pressure shows within {seconds.value:g} seconds of the start "
        f"({seconds.source.provenance.lower()}, {seconds.source.page}); the manual overrules it."
    )
