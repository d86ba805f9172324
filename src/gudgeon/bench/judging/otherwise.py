"""What a reading proved on the day it was taken: by the limit of that day, and the gauge as it was said to be."""

import math
from dataclasses import replace

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.gauge_error import standard_uncertainty
from gudgeon.bench.judging.decision import Value, decide, value_of
from gudgeon.bench.made_against import gauge_figures, stated
from gudgeon.bench.measured import CANNOT, Measured
from gudgeon.book.state import ReadingState
from gudgeon.kit.model import Kit
from gudgeon.quantity.written import Printed, parse_printed
from gudgeon.sheet.inspections import Characteristic


def judged_then(reading: ReadingState, *, item: Characteristic, value: Measured, kit: Kit) -> str:
    """The verdict of that day; empty where the entry does not hold what it was judged by."""
    shown = reading.shown
    if "method" not in shown or shown.get("kind", item.kind) != item.kind:
        return ""
    text = shown.get("required") or shown.get("wear limit")
    if text is None:
        return "no limit given"
    try:
        limit = parse_printed(text, kind=item.kind)
        judged = value_of(value)
        u = _gauge_then(reading, judged, item, kit)
        then = judged if u == judged.u else replace(judged, u=u, u_ends=None)
        return decide(then, as_read=item.accept == "as read", **_ends(limit, item)).verdict
    except CANNOT:
        return ""


def _ends(limit: Printed, item: Characteristic) -> dict[str, float | None]:
    base = BASE_UNIT[item.kind]
    return {"low": limit.low_in(base), "high": limit.high_in(base)}


def _gauge_then(reading: ReadingState, judged: Value, item: Characteristic, kit: Kit) -> float:
    """The uncertainty with the error that the kit stated that day, as far as the entry holds it."""
    gauge = kit.gauges.get(reading.instrument)
    then, now = stated(reading.shown, "gauge"), gauge_figures(gauge, kit)
    said = {name: text for name, text in then.items() if name in ("error", "step")}
    if not said or said == {name: text for name, text in now.items() if name in said}:
        return judged.u
    half, digit = (parse_printed(said[name], kind="length_difference").high_in("mm") if name in said else 0.0
                   for name in ("error", "step"))  # fmt: skip
    was = math.hypot(abs(half or 0.0) / math.sqrt(3), (digit or 0.0) / math.sqrt(12))
    is_now, _ = standard_uncertainty(
        gauge, item.kind, size_mm=judged.low if math.isinf(judged.high) else judged.high
    )
    return math.sqrt(max(0.0, judged.u**2 - is_now**2) + was**2)
