"""How much finer a clearance must be read so that some shim is sure to bring it inside, and with which blades."""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.blades import SAME_MM, Stack, stacks
from gudgeon.bench.shims.read import ValveRead
from gudgeon.calc.engine.lash import NM
from gudgeon.quantity.format import both, known_between


def finer_reading(bench: Bench, one: ValveRead, *, step_nm: int) -> Iterator[str]:
    """Where two blades leave so much open that no shim is sure: how much may be left open, and what might settle it."""
    valve = one.valve
    left_open = valve.high_nm - valve.low_nm
    room = valve.wanted_high_nm - valve.wanted_low_nm
    most = room - 2 * valve.guard_changed_nm - step_nm
    if left_open <= max(most, 0):
        return
    ends = known_between(valve.low_nm / NM, high=valve.high_nm / NM, kind="length_difference", decimals=2)
    sizes = f" and sizes {_length(step_nm)} apart" if step_nm else ""
    yield f"{ends} is too wide a reading for a range of {_length(room)}{sizes}" + (
        f": blades at most {_length(most)} apart leave a shim that is sure." if most > 0
        else ": blades are too coarse for it; read it with a dial gauge."
    ) + _settled_by(bench, one, most)  # fmt: skip


def _settled_by(bench: Bench, one: ValveRead, most_nm: int) -> str:
    """The blades of his, one or two together, that part what was left open into pieces that are narrow enough."""
    low, high = one.valve.low_nm / NM, one.valve.high_nm / NM
    gauge = bench.kit.gauges.get(one.clearance.instrument)
    if gauge is None or not gauge.blades or most_nm <= 0:
        return ""
    between = [it for it in stacks(gauge) if low + SAME_MM < it.thick < high - SAME_MM]
    fine = [it for it in between if max(it.thick - low, high - it.thick) <= most_nm / NM + SAME_MM]
    if not fine:
        return ""
    # nearest to the middle; of those the stack whose thinnest blade is thickest, since thin ones bend
    best: Stack = min(
        fine, key=lambda it: (len(it.blades), round(abs(2 * it.thick - low - high), 9), -min(it.blades))
    )
    return f" {best.words[0].upper()}{best.words[1:]} might settle it."


def _length(nm: int) -> str:
    return both(nm / NM, kind="length_difference", decimals=2 if nm % 10_000 == 0 else 3)
