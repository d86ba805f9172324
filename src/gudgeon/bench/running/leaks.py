"""The leak-down test: what is lost through the orifice of which tester, and where the air is heard."""

import math

from gudgeon.bench.context import Bench
from gudgeon.bench.measured import CANNOT, Measured, measured
from gudgeon.bench.running.answers import Air, HeardLine, LeakDown, LeakLine
from gudgeon.bench.running.gathered import READ, Gathered, after_start, sentence, stated_in
from gudgeon.bench.running.pressures import in_bar, shown
from gudgeon.calc.engine.leak_down import cylinder_behind_orifice_kpa, leak_down
from gudgeon.calc.errors import NotPositive
from gudgeon.quantity.format import both
from gudgeon.sources.first_run import acceptance, heard, leak_words, run_figure

DRILL_MM = 0.02
NOTE = (
    "The share depends on the orifice: the same leak shows less on a larger one. Two testers are compared by the "
    "equivalent hole."
)


def leaks(bench: Bench, air: Air, wanted: Gathered) -> LeakDown:
    """What the leak-down test says of every cylinder."""
    after = after_start(bench)
    supply, orifice = after.leak_down_supply, after.orifice
    supply_kpa = stated_in(supply, "kPa")
    orifice_mm = stated_in(orifice, "mm")
    usual, why = _usual_orifice(bench)
    other = usual if orifice_mm is None or not same(orifice_mm, other=usual) else _other_than(usual)
    notes = [NOTE, _acceptance()]
    if orifice_mm is None:
        wanted.lacks(
            "the orifice of the leak-down tester",
            therefore="a share lost says nothing by itself, and no hole can be told from it",
            path="after_start.orifice",
            do=f"Measure it with a drill shank; usual is {both(usual, kind='length')} {why}.",
        )
    elif not same(orifice_mm, other=usual):
        notes.append(f"For this bore the usual orifice is {both(usual, kind='length')} {why}; yours differs.")
    readings = _readings(bench, wanted)
    if readings and supply_kpa is None:
        wanted.lacks(
            "the supply pressure of the leak-down test",
            therefore="the share lost is not known",
            path="after_start.leak_down_supply",
        )
    supply_kpa = _above_zero(supply_kpa, "kPa", "Supply pressure", "after_start.leak_down_supply", wanted)
    orifice_mm = _above_zero(orifice_mm, "mm", "Orifice", "after_start.orifice", wanted)
    percent = _in_percent(bench)
    lines = tuple(
        _line(one, supply_kpa, orifice_mm, other, air, percent=percent, usual=usual, bar=in_bar(supply))
        for one in readings.values()
        if supply_kpa is not None
    )
    return LeakDown(
        orifice.value.text if orifice is not None else "",
        supply.value.text if supply is not None else "",
        both(other, kind="length"),
        lines,
        tuple(HeardLine(one.where, one.means, one.next) for one in heard()),
        _words(),
        tuple(notes),
    )


def _above_zero(value: float | None, unit: str, name: str, path: str, wanted: Gathered) -> float | None:
    """What the sheet states of the tester; nothing where no tester has it, and that is named."""
    if value is None or value > 0:
        return value
    wrong = sentence(NotPositive(name, value, unit))
    wanted.lacks(
        f"the {name.lower()} of the leak-down tester", therefore="no leak is judged", path=path, wrong=wrong
    )
    return None


def same(orifice: float, *, other: float) -> bool:
    """Whether two orifices are one size: drills are told apart by some hundredths of a millimeter."""
    return abs(orifice - other) <= DRILL_MM


def _usual_orifice(bench: Bench) -> tuple[float, str]:
    """The orifice that is usual for this bore, in mm, and why."""
    edge = run_figure("bore_of_larger_orifice_mm")
    cylinder = bench.sheet.cylinder
    bore = stated_in(cylinder.bore, "mm") if cylinder is not None else None
    found = run_figure("larger_orifice_mm" if bore is not None and bore >= edge.value else "orifice_mm")
    side = "from" if bore is not None and bore >= edge.value else "below"
    return found.value, f"for bores {side} {both(edge.value, kind='length', decimals=0)} ({found.source})"


def _other_than(usual: float) -> float:
    """The other one of the two usual orifices."""
    small, large = run_figure("orifice_mm").value, run_figure("larger_orifice_mm").value
    return large if same(usual, other=small) else small


def _readings(bench: Bench, wanted: Gathered) -> dict[str, Measured]:
    key = after_start(bench).leak_down
    if key is None or key not in bench.sheet.characteristics:
        wanted.lacks(
            "the characteristic that holds what the leak-down tester shows",
            therefore="a leak-down test cannot be recorded and compared",
            path="after_start.leak_down",
        )
        return {}
    found = {place: one for place, one in measured(bench, key).items() if math.isfinite(one.low + one.high)}
    if not found:
        wanted.lacks(
            bench.sheet.characteristics[key].name.lower(),
            therefore="no leak is known",
            do=f"Read it, then: {READ} {key} --as-left",
        )
    return found


def _in_percent(bench: Bench) -> bool:
    """Whether the tester shows the share lost, and not a pressure."""
    item = bench.sheet.characteristics.get(after_start(bench).leak_down or "")
    return item is not None and item.kind == "ratio"


def _line(
    one: Measured,
    supply: float,
    orifice: float | None,
    other: float,
    air: Air,
    *,
    percent: bool,
    usual: float,
    bar: bool,
) -> LeakLine:
    middle = (one.low + one.high) / 2
    cylinder = supply * (1 - middle) if percent else middle
    try:
        # The share needs no orifice; a hole is told only from one that is known.
        found = leak_down(
            supply, cylinder_kpa=cylinder, orifice_mm=orifice or other, ambient_kpa=air.pressure_kpa
        )
        behind = cylinder_behind_orifice_kpa(
            supply, hole_mm=found.equivalent_hole_mm, orifice_mm=other, ambient_kpa=air.pressure_kpa
        )
    except CANNOT as error:
        return LeakLine(one.place, one.text, "", "", "", str(error))
    lost = f"{100 * found.leak_share:.1f} %"
    if orifice is None:
        return LeakLine(one.place, one.text, lost, "", "", "not judged: the orifice is not known")
    verdict = _verdict(found.leak_share if same(orifice, other=usual) else 1 - behind / supply)
    there = f"{shown(behind, bar=bar)}, {100 * (1 - behind / supply):.1f} % lost"
    hole = both(found.equivalent_hole_mm, kind="length", decimals=2)
    return LeakLine(one.place, one.text, lost, hole, there, verdict)


def _verdict(lost: float) -> str:
    found = next(one for one in leak_words() if lost < one.below)
    return f"{found.words} ({found.source.provenance.lower()})"


def _acceptance() -> str:
    found = acceptance()
    return f"{found.words} ({found.source})"


def _words() -> str:
    parts, before = [], 0.0
    for one in leak_words():
        ends = (
            f"{100 * before:.0f} to {100 * one.below:.0f} %"
            if one.below <= 1
            else f"over {100 * before:.0f} %"
        )
        parts.append(f"{ends} lost: {one.words}")
        before = one.below
    return f"{'; '.join(parts)} ({leak_words()[0].source.provenance.lower()}, for the usual orifice)"
