"""Top dead center and lobe centers from the readings of the book, with what is uncertain of them, against the sheet.

The disk counts with the running direction and is not moved between the readings. Where the crank was read at a stop
both ways, lobe centers count from the middle of those readings, else from the zero of the disk.
"""

import math
from dataclasses import dataclass

from gudgeon.bench.budget import FACTOR, Component, signed, standard_uncertainty_of
from gudgeon.bench.context import Bench
from gudgeon.bench.measured import Measured, measured
from gudgeon.bench.timing.drive_model import DriveRemark, Remarks
from gudgeon.bench.timing.events import degrees
from gudgeon.calc.engine.events import Valve
from gudgeon.calc.engine.tdc import Middle, around, depth_of_stop, middle_of, stop_angles
from gudgeon.errors import InputError
from gudgeon.quantity.format import number
from gudgeon.quantity.written import Printed
from gudgeon.sheet.drive import Valves
from gudgeon.written.located import Path


@dataclass(frozen=True, slots=True)
class Center:
    """A dead center or a lobe center as read: its angle and expanded uncertainty [°], the limit, the verdict.

    `found_deg` of the top dead center is the reading of the disk there; of a lobe the crank angle of full lift, after
    top dead center for an intake and before it for an exhaust. None where it was not read; `missing` then says why.
    """

    what: str
    found_deg: float | None
    expanded_u_deg: float
    words: str
    limit: str
    verdict: str
    notes: tuple[str, ...]
    missing: str
    source: str


@dataclass(frozen=True, slots=True)
class Centers:
    """Top dead center first, then the lobes of intake and exhaust; with what the sheet lacks for them."""

    lines: tuple[Center, ...]
    remarks: tuple[DriveRemark, ...]


@dataclass(frozen=True, slots=True)
class _Read:
    middle: Middle
    components: tuple[Component, ...]
    known: bool
    entries: tuple[str, ...]

    @property
    def expanded(self) -> float:
        return FACTOR * standard_uncertainty_of(self.components)


@dataclass(frozen=True, slots=True)
class _Mean:
    components: tuple[Component, ...]


def centers(bench: Bench, *, late_by: dict[Valve, float]) -> Centers:
    """Everything that was read; `late_by` is by how many crank degrees the cut lets each valve come later."""
    remarks = Remarks(bench.papers.written)
    top, line = _top(bench, remarks)
    lobes = [_lobe(bench, valve, top, late_by.get(valve, 0.0), remarks) for valve in ("intake", "exhaust")]
    return Centers((line, *(one for one in lobes if one is not None)), remarks.all())


def _top(bench: Bench, remarks: Remarks) -> tuple[_Read | None, Center]:
    what = "Top dead center on the disk"
    drive = bench.sheet.drive
    key = drive.crank_stops if drive is not None else None
    if key is None or key not in bench.sheet.characteristics:
        why = "no characteristic holds where the crank stood at a piston stop (`crank_stops`)"
        remarks.add("missing", ("drive", "crank_stops"), f"Top dead center is not worked out: {why}.")
        return None, _none(what, "the sheet names no characteristic for the crank at a piston stop")
    found = _pair(bench, key, ("drive", "crank_stops"), remarks)
    if isinstance(found, str):
        return None, _none(what, found)
    error, notes = _of_offset(bench, found.middle.half_angle_deg)
    at = around(found.middle.middle_deg - error)
    words = f"{number(at, decimals=2)}° on the disk{_plus_minus(found)}"
    return _moved(found, at), Center(
        what, at, found.expanded, words, "", "", (*notes, *_unknown(found)), "", "readings in the book"
    )


def _moved(read: _Read, at: float) -> _Read:
    half = read.middle.half_angle_deg
    return _Read(Middle(at, half, read.middle.u_deg), read.components, read.known, read.entries)


def _pair(bench: Bench, key: str, path: Path, remarks: Remarks) -> _Read | str:
    """The middle of both readings of a characteristic; what is missing in words."""
    item = bench.sheet.characteristics[key]
    name = item.name
    if item.kind != "angle":
        remarks.add("error", path, f"`{key}` holds no angles. Say so there: `quantity: angle`.")
        return f"{name}: the sheet does not say that it is an angle (`quantity: angle`)"
    read = measured(bench, key)
    command = f"gudgeon record reading {key}"
    closed = {place: one for place, one in read.items() if math.isfinite(one.low + one.high)}
    if len(closed) != 2:
        return f"{name}: {len(closed)} of two readings in the book ({command})"
    first, second = closed.values()
    try:
        middle = middle_of(_value(first), second_deg=_value(second))
    except InputError as error:
        return f"{name}: {error.message}"
    parts = signed([(0.5, _whole(first)), (0.5, _whole(second))])
    return _Read(middle, parts, first.u_known and second.u_known, (*first.entries, *second.entries))


def _value(one: Measured) -> float:
    return (one.low + one.high) / 2


def _whole(one: Measured) -> _Mean:
    """The causes of a reading, with its two ends as one of them."""
    half = (one.high - one.low) / 2
    ends = (Component("between two ends", half / math.sqrt(3), tag=f"{one.entry}, ends"),) if half > 0 else ()
    return _Mean((*one.worse.components, *ends))


def _of_offset(bench: Bench, half_angle_deg: float) -> tuple[float, tuple[str, ...]]:
    """What an offset pin leaves between the middle of both readings and the true top dead center."""
    cylinder = bench.sheet.cylinder
    offset = cylinder.pin_offset if cylinder is not None else None
    if cylinder is None or offset is None:
        return 0.0, ("no pin offset is stated: the middle is taken as top dead center",)
    stroke, rod = cylinder.stroke, cylinder.rod_length
    if stroke is None or rod is None:
        return 0.0, (
            "the pin is offset, and stroke or rod length is not stated: what that misses is left open",
        )
    sizes = {
        "stroke_mm": stroke.value.middle_in("mm"),
        "rod_length_mm": rod.value.middle_in("mm"),
        "pin_offset_mm": offset.value.middle_in("mm"),
    }
    try:
        error = stop_angles(depth_of_stop(half_angle_deg, **sizes), **sizes).error_deg
    except InputError as refused:
        return 0.0, (f"what the offset pin misses is left open: {refused.message}",)
    shown = number(error, decimals=3)
    return error, (
        f"the offset pin puts the middle of both readings {shown}° after the true one; allowed for",
    )


def _lobe(bench: Bench, valve: Valve, top: _Read | None, late_by: float, remarks: Remarks) -> Center | None:
    gear = bench.sheet.valve_gear
    stated = (gear.intake if valve == "intake" else gear.exhaust) if gear is not None else None
    if gear is None or stated is None:
        return None
    what, key = f"Full lift of the {valve} valves", stated.lobe
    if key is None or key not in bench.sheet.characteristics:
        why = "no characteristic holds where the disk stood at equal lift on both flanks (`lobe`)"
        remarks.add(
            "missing", ("valve_gear", valve, "lobe"), f"The {valve} lobe center is not worked out: {why}."
        )
        return _none(what, f"the sheet names no characteristic for the {valve} lobe")
    found = _pair(bench, key, ("valve_gear", valve, "lobe"), remarks)
    if isinstance(found, str):
        return _none(what, found)
    zero = top.middle.middle_deg if top is not None else 0.0
    after_top = found.middle.middle_deg - zero
    angle = around(after_top if valve == "intake" else -after_top)
    both = [(1.0, _Mean(found.components)), *([(-1.0, _Mean(top.components))] if top is not None else [])]
    expanded = FACTOR * standard_uncertainty_of(signed(both))
    notes = (
        () if top is not None else ("counted from the zero of the disk, since no top dead center was read",)
    )
    limit, verdict, told = _judged(
        stated, angle, expanded, late_by=late_by if valve == "intake" else -late_by
    )
    side = "after" if valve == "intake" else "before"
    words = f"{number(angle, decimals=1)}° {side} top dead center, ± {number(expanded, decimals=1)}°"
    source = str(stated.cited(stated.centerline) or gear.source or "")
    said = (*notes, *told, *_unknown(found))
    return Center(what, angle, expanded, words, limit, verdict, said, "", source)


def _judged(
    stated: Valves, angle: float, expanded: float, *, late_by: float
) -> tuple[str, str, tuple[str, ...]]:
    """A lobe center against the sheet's: the limit in words, the verdict, and by how much it comes late or early."""
    figure = stated.centerline.value if stated.centerline is not None else None
    if figure is None:
        return "not stated", "no limit given", ()
    low, high = _ends(figure)
    off = angle - figure.middle_in("°")
    said = [f"{degrees(abs(off))} {'more' if off > 0 else 'less'} than the sheet states"]
    if abs(late_by) >= 0.05:
        said.append(f"of which the cut explains {degrees(abs(late_by))} {'more' if late_by > 0 else 'less'}")
    if low <= angle - expanded and angle + expanded <= high:
        verdict = "inside"
    elif angle + expanded < low or angle - expanded > high:
        verdict = "outside"
    else:
        verdict = "in doubt"
    return figure.text, verdict, ("; ".join(said),)


def _ends(figure: Printed) -> tuple[float, float]:
    """A printed range, else half of the last digit to either side."""
    low, high = figure.low_in("°"), figure.high_in("°")
    if low is not None and high is not None and high > low:
        return low, high
    end = figure.first.low or figure.first.high
    half = end.half_digit_in("°") if end is not None else 0.0
    middle = figure.middle_in("°")
    return middle - half, middle + half


def _plus_minus(found: _Read) -> str:
    return f", ± {number(found.expanded, decimals=2)}°"


def _unknown(found: _Read) -> tuple[str, ...]:
    if found.known:
        return ()
    return ("what the angle gauge errs is not stated in the kit: more is uncertain than is counted",)


def _none(what: str, missing: str) -> Center:
    return Center(what, None, 0.0, "", "", "not measured", (), missing, "")
