"""The valve events of the sheet: as printed, checked against each other, and as the cut leaves them."""

from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.timing.drive_model import DriveModel, DriveRemark, Remarks
from gudgeon.bench.timing.shift import CamShift, DriveShift
from gudgeon.calc.engine.events import (
    Valve,
    ValveEvents,
    advanced,
    lobe_separation_deg,
    overlap_deg,
    valve_events,
)
from gudgeon.errors import InputError
from gudgeon.quantity.errors import BoundOpen
from gudgeon.quantity.format import number
from gudgeon.quantity.written import Printed
from gudgeon.sheet.drive import Valves
from gudgeon.sheet.figures import Stated

_VALVES: tuple[Valve, ...] = ("intake", "exhaust")
_NAMES = {
    "opens": "opens_deg",
    "closes": "closes_deg",
    "duration": "duration_deg",
    "centerline": "centerline_deg",
}


@dataclass(frozen=True, slots=True)
class EventLine:
    """One valve: its events as printed [crank °], and after the cut where that is known; with the words for both.

    `shift_crank_deg` is by how much it comes later, with its standard uncertainty; None where it is not known.
    """

    valve: str
    opens_deg: float
    closes_deg: float
    duration_deg: float
    centerline_deg: float
    shift_crank_deg: float | None
    shift_u_crank_deg: float
    after_opens_deg: float | None
    after_closes_deg: float | None
    after_centerline_deg: float | None
    opens: str
    closes: str
    duration: str
    centerline: str
    at_lift: str
    source: str
    flags: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Events:
    """The events of both valves, their overlap and lobe separation, and what the sheet gets wrong or leaves out."""

    lines: tuple[EventLine, ...]
    overlap: str
    separation: str
    remarks: tuple[DriveRemark, ...]


@dataclass(frozen=True, slots=True)
class _Pair:
    printed: ValveEvents
    after: ValveEvents | None


def events(bench: Bench, model: DriveModel | None, shift: DriveShift | None) -> Events:
    """What the sheet states of the valve events, and what the cut makes of them."""
    remarks = Remarks(bench.papers.written)
    gear = bench.sheet.valve_gear
    pairs: dict[Valve, _Pair] = {}
    lines = []
    for valve in _VALVES:
        stated = (gear.intake if valve == "intake" else gear.exhaust) if gear is not None else None
        found = stated_events(valve, stated, remarks)
        if found is None or stated is None:
            continue
        moved = _shift_of(valve, model, shift)
        after = advanced(found, by_deg=-moved.crank_deg) if moved is not None else None
        pairs[valve] = _Pair(found, after)
        cited = stated.cited(None) or (gear.source if gear is not None else None)
        lines.append(_line(stated, pairs[valve], moved, str(cited or "")))
    return Events(tuple(lines), _overlap(pairs), _separation(pairs), remarks.all())


def stated_events(valve: Valve, stated: Valves | None, remarks: Remarks) -> ValveEvents | None:
    """The events of one valve as its part of the sheet states them; what is wrong or missing becomes a remark."""
    path = ("valve_gear", valve)
    given: dict[str, float] = {}
    half: dict[str, float] = {}
    for name in _NAMES:
        figure: Stated | None = getattr(stated, name) if stated is not None else None
        if figure is None:
            continue
        try:
            given[name] = figure.value.middle_in("°")
        except BoundOpen:
            remarks.add("doubt", (*path, name), f"`{figure.value.text}` is a bound; an angle is needed.")
            continue
        half[name] = _half(figure.value)
    if len(given) < 2:
        needed = "two of opening, closing, duration and centerline"
        remarks.add(
            "missing", path, f"When the {valve} valves open and close is left open: {needed} are needed."
        )
        return None
    try:
        return valve_events(
            valve,
            opens_deg=given.get("opens"),
            closes_deg=given.get("closes"),
            duration_deg=given.get("duration"),
            centerline_deg=given.get("centerline"),
            slack_deg=sum(half.get(name, 0.0) for name in ("opens", "closes", "duration")),
            # halfway between two events is off by half of what either is
            center_slack_deg=half.get("centerline", 0.0)
            + max((half.get("opens", 0.0) + half.get("closes", 0.0)) / 2, half.get("duration", 0.0) / 2),
        )
    except InputError as error:
        field = "duration" if "duration" in given else "opens"
        remarks.add("error", (*path, field), error.message)
        return None


def _half(figure: Printed) -> float:
    """What range and last digit of a printed angle leave open."""
    low, high = figure.low_in("°"), figure.high_in("°")
    end = figure.first.low or figure.first.high
    half = end.half_digit_in("°") if end is not None else 0.0
    return half if low is None or high is None else half + (high - low) / 2


def _shift_of(valve: Valve, model: DriveModel | None, shift: DriveShift | None) -> CamShift | None:
    """What the cut does to the camshaft that moves these valves: the only one, else the one that is named so."""
    if model is None or shift is None:
        return None
    if len(shift.camshafts) == 1 and sum(one.is_camshaft for one in model.wheels.values()) == 1:
        return shift.camshafts[0]
    named = [one for one in shift.camshafts if valve in f"{one.wheel} {one.name}".lower()]
    if len(named) == 1:
        return named[0]
    first = shift.camshafts[0] if shift.camshafts else None
    same = first is not None and all(abs(one.cam_deg - first.cam_deg) < 0.005 for one in shift.camshafts)
    return first if same and not named else None


def _line(stated: Valves, pair: _Pair, moved: CamShift | None, source: str) -> EventLine:
    one, after = pair.printed, pair.after
    opening, closing = (
        ("before top", "after bottom") if one.valve == "intake" else ("before bottom", "after top")
    )
    middle = "after top" if one.valve == "intake" else "before top"
    return EventLine(
        one.valve, one.opens_deg, one.closes_deg, one.duration_deg, one.centerline_deg,
        moved.crank_deg if moved is not None else None,
        moved.crank_deg_u if moved is not None else 0.0,
        after.opens_deg if after is not None else None,
        after.closes_deg if after is not None else None,
        after.centerline_deg if after is not None else None,
        _both(one.opens_deg, after.opens_deg if after is not None else None, opening),
        _both(one.closes_deg, after.closes_deg if after is not None else None, closing),
        f"{degrees(one.duration_deg)} open",
        _both(one.centerline_deg, after.centerline_deg if after is not None else None, middle),
        stated.at_lift.value.text if stated.at_lift is not None else "",
        source,
        one.flags,
    )  # fmt: skip


def _both(before: float, after: float | None, side: str) -> str:
    """`12° → 11.7° before top dead center`; an event on the other side is told on that side."""
    if after is None or degrees(after) == degrees(before):
        return sided(before, side)
    if (before < 0) == (after < 0):
        return f"{degrees(abs(before))} → {sided(after, side)}"
    return f"{sided(before, side)} → {sided(after, side)}"


def sided(angle: float, side: str) -> str:
    """An angle with the side of the dead center that it is on: a minus is the other side."""
    way, center = side.split()
    if angle < 0:
        way = "after" if way == "before" else "before"
    return f"{degrees(abs(angle))} {way} {center} dead center"


def degrees(angle: float) -> str:
    """To a tenth of a degree, and no zeros behind it."""
    return f"{number(angle, decimals=1).removesuffix('.0')}°"


def _overlap(pairs: dict[Valve, _Pair]) -> str:
    if len(pairs) < 2:
        return ""
    before = overlap_deg(pairs["intake"].printed, exhaust=pairs["exhaust"].printed)
    first, second = pairs["intake"].after, pairs["exhaust"].after
    after = overlap_deg(first, exhaust=second) if first is not None and second is not None else None
    told = "none, a pause of " if before < 0 else ""
    shown = degrees(abs(before))
    if after is not None and degrees(after) != degrees(before):
        return f"{told}{shown} → {degrees(after)}"
    return f"{told}{shown}"


def _separation(pairs: dict[Valve, _Pair]) -> str:
    if len(pairs) < 2:
        return ""
    found = lobe_separation_deg(pairs["intake"].printed, exhaust=pairs["exhaust"].printed)
    return f"{degrees(found)} at the camshaft"
