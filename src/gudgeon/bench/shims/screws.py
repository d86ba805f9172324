"""Valves that are set by screws: by how much each clearance must change."""

from collections.abc import Sequence

from gudgeon.bench.shims.model import ScrewLine
from gudgeon.bench.shims.read import ValveRead
from gudgeon.quantity.format import both

SETTLED_MM = 0.0005


def screw_lines(valves: Sequence[ValveRead]) -> tuple[ScrewLine, ...]:
    """Every valve with the way its screw is to be set: to the middle of what is wanted."""
    return tuple(_line(one) for one in valves)


def _line(one: ValveRead) -> ScrewLine:
    valve = one.valve
    change = (one.wanted.low_mm + one.wanted.high_mm - one.clearance.low - one.clearance.high) / 2
    now = valve.verdict(valve.shim_nm, kept=True)
    size = both(abs(change), kind="length_difference", decimals=3)
    words = "leave it" if abs(change) < SETTLED_MM else f"{'more' if change > 0 else 'less'} by {size}"
    shown = "in doubt" if now == "inside" and one.unsure else now
    return ScrewLine(one.side, one.place, one.clearance.text, one.wanted.text, shown, words, change)
