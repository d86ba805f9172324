"""The calculators of valve events and dead centers: from inputs to kernels and back to results."""

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.calc.calculator import Found, Value, Worked
from gudgeon.calc.engine.events import (
    SAME_DEG,
    Valve,
    ValveEvents,
    advanced,
    lobe_separation_deg,
    overlap_deg,
    separation_of_equal_lobes_deg,
    valve_events,
)
from gudgeon.calc.engine.events import rocker_ratio as ratio_of_rocker
from gudgeon.calc.engine.events_errors import OverlapContradicts
from gudgeon.calc.engine.tdc import StopAngles, around, middle_of, stop_angles
from gudgeon.calc.input_errors import InputNeeded
from gudgeon.calc.reading import figure, maybe, needed

TDC = "engine.tdc"
EVENTS = "engine.valve-events"
FIGURES = ("opening", "closing", "duration", "centerline")
EQUAL_LOBES = "The exhaust duration is not given: it was taken as that of the intake (equal lobes)."
FAR_FROM_EXPECTED_DEG = 3.0
"""More than this is no reading of a disk any more (common practice: it is read to about a degree)."""


@dataclass(frozen=True, slots=True)
class _Pair:
    intake: ValveEvents | None
    exhaust: ValveEvents | None
    flags: tuple[str, ...] = ()


def events(values: Mapping[str, Value]) -> Worked:
    """Works out engine.valve-events."""
    intake, exhaust = _given(values, "intake"), _given(values, "exhaust")
    overlap = maybe(values, "overlap")
    if len(intake) < 2 and len(exhaust) < 2:
        return _of_equal_lobes(values, overlap)
    pair = _with_overlap(_pair(intake, exhaust), exhaust, overlap)
    by = figure(values, "advance")
    found: dict[str, Found] = {}
    flags = list(pair.flags)
    after: dict[Valve, ValveEvents] = {}
    for one in (pair.intake, pair.exhaust):
        if one is not None:
            after[one.valve] = advanced(one, by_deg=by)
            found |= _results(after[one.valve])
            flags.extend(one.flags)
    if len(after) == 2:
        found["overlap_deg"] = overlap_deg(after["intake"], exhaust=after["exhaust"])
        found["lobe_separation_deg"] = lobe_separation_deg(after["intake"], exhaust=after["exhaust"])
    return Worked(found, tuple(flags))


def _given(values: Mapping[str, Value], valve: Valve) -> dict[str, float]:
    before = "exhaust_" if valve == "exhaust" else ""
    read = {name: maybe(values, f"{before}{name}") for name in FIGURES}
    return {name: value for name, value in read.items() if value is not None}


def _pair(intake: dict[str, float], exhaust: dict[str, float]) -> _Pair:
    # One figure of a valve is an omission to be told, none at all is a question about the other valve.
    lone = ("duration",)
    return _Pair(
        _events("intake", intake) if intake else None,
        _events("exhaust", exhaust) if exhaust and tuple(exhaust) != lone else None,
    )


def _events(valve: Valve, given: Mapping[str, float]) -> ValveEvents:
    return valve_events(
        valve,
        opens_deg=given.get("opening"),
        closes_deg=given.get("closing"),
        duration_deg=given.get("duration"),
        centerline_deg=given.get("centerline"),
    )


def _with_overlap(pair: _Pair, exhaust: Mapping[str, float], overlap: float | None) -> _Pair:
    """The exhaust found from the overlap, where nothing else tells it."""
    intake = pair.intake
    if pair.exhaust is not None:
        if intake is not None and overlap is not None:
            made = overlap_deg(intake, exhaust=pair.exhaust)
            if abs(made - overlap) > SAME_DEG:
                raise OverlapContradicts(overlap, made)
        return pair
    if exhaust and overlap is None:
        return _Pair(intake, _events("exhaust", exhaust))  # refused: one figure alone
    if intake is None or overlap is None:
        return pair
    duration = exhaust.get("duration", intake.duration_deg)
    closes = overlap - intake.opens_deg
    found = valve_events("exhaust", closes_deg=closes, duration_deg=duration)
    return _Pair(intake, found, () if "duration" in exhaust else (EQUAL_LOBES,))


def _of_equal_lobes(values: Mapping[str, Value], overlap: float | None) -> Worked:
    """What duration and overlap alone tell."""
    duration = maybe(values, "duration")
    if duration is None or overlap is None:
        given = _given(values, "intake") or _given(values, "exhaust")
        if given:
            _events("intake" if _given(values, "intake") else "exhaust", given)  # refused: one figure alone
        raise InputNeeded(
            "two figures of a valve, or duration and overlap", EVENTS, "opening=12° closing=48°"
        )
    other = maybe(values, "exhaust_duration")
    mean = duration if other is None else (duration + other) / 2
    found: dict[str, Found] = {
        "duration_deg": duration,
        "overlap_deg": overlap,
        "lobe_separation_deg": separation_of_equal_lobes_deg(mean, overlap_deg=overlap),
    }
    if other is not None:
        found["exhaust_duration_deg"] = other
    return Worked(found, () if other is not None else (EQUAL_LOBES,))


def _results(one: ValveEvents) -> dict[str, Found]:
    before = "exhaust_" if one.valve == "exhaust" else ""
    return {
        f"{before}opening_deg": one.opens_deg,
        f"{before}closing_deg": one.closes_deg,
        f"{before}duration_deg": one.duration_deg,
        f"{before}centerline_deg": one.centerline_deg,
    }


def tdc(values: Mapping[str, Value]) -> Worked:
    """Works out engine.tdc."""
    offset = figure(values, "pin_offset")
    stop = _stop(values, offset)
    each = figure(values, "uncertainty")
    found = middle_of(
        figure(values, "first"),
        second_deg=figure(values, "second"),
        u_first_deg=each,
        u_second_deg=each,
        half_angle_deg=None if stop is None else stop.half_angle_deg,
    )
    error = 0.0 if stop is None else stop.error_deg
    against = values["disk_counts"] == "against the turning"
    results: dict[str, Found] = {
        "tdc_deg": found.middle_deg,
        "expected_error_deg": error,
        "true_tdc_deg": around(found.middle_deg + (error if against else -error)),
        "half_angle_deg": found.half_angle_deg,
        "uncertainty_deg": found.u_deg,
    }
    if stop is not None:
        results["expected_half_angle_deg"] = stop.half_angle_deg
    return Worked(results, _far(found.half_angle_deg, stop))


def _stop(values: Mapping[str, Value], offset: float) -> StopAngles | None:
    """The stop by the geometry; nothing where no offset asks for it and none of it is given."""
    names = ("stop_depth", "stroke", "rod_length")
    if offset == 0 and all(values[name] is None for name in names):
        return None
    examples = dict(zip(names, ("'10 mm'", "'86 mm'", "'143 mm'"), strict=True))
    depth, stroke, rod = (
        needed(values, name, calculator=TDC, example=f"{name}={examples[name]}") for name in names
    )
    return stop_angles(depth, stroke_mm=stroke, rod_length_mm=rod, pin_offset_mm=offset)


def _far(half: float, stop: StopAngles | None) -> tuple[str, ...]:
    if stop is None or abs(half - stop.half_angle_deg) <= FAR_FROM_EXPECTED_DEG:
        return ()
    return (
        f"The readings lie {half:.4g}° to either side of the middle; a stop at that depth would leave "
        f"{stop.half_angle_deg:.4g}°: check the depth and both readings.",
    )


def lobe_center(values: Mapping[str, Value]) -> Worked:
    """Works out engine.lobe-center."""
    each = figure(values, "uncertainty")
    found = middle_of(
        figure(values, "first"), second_deg=figure(values, "second"), u_first_deg=each, u_second_deg=each
    )
    return Worked(
        {
            "center_deg": found.middle_deg,
            "half_angle_deg": found.half_angle_deg,
            "uncertainty_deg": found.u_deg,
        }
    )


def rocker_ratio(values: Mapping[str, Value]) -> Worked:
    """Works out engine.rocker-ratio."""
    return Worked(
        {
            "ratio": ratio_of_rocker(
                figure(values, "valve_lift"),
                lash_mm=figure(values, "lash"),
                cam_lift_mm=figure(values, "cam_lift"),
            )
        }
    )
