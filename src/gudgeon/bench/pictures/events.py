"""What the wheel of the valve events shows: arcs of the crankshaft in which a valve is open, in degrees from the top.

Angles run clockwise from top dead center, as the crankshaft is turned on the drawing; an end beyond 360° is in the next
turn.
"""

from dataclasses import dataclass

from gudgeon.bench.timing.events import EventLine, Events, degrees

_BOTTOM = 180.0


@dataclass(frozen=True, slots=True)
class Arc:
    """One valve: from where it opens to where it closes, with the words at either end.

    `late_deg` is by how much it comes later after the cut; None where that is not known.
    """

    valve: str
    opens_deg: float
    closes_deg: float
    opens: str
    closes: str
    duration: str
    late_deg: float | None
    late: str


@dataclass(frozen=True, slots=True)
class EventsPicture:
    """The wheel: its arcs, and the overlap about top dead center as printed; no `overlap` where there is none."""

    title: str
    words: str
    arcs: tuple[Arc, ...]
    overlap: str
    overlap_deg: tuple[float, float] | None
    at_lift: str


def events_picture(found: Events, *, engine: str) -> EventsPicture:
    """The wheel of the events that the sheet states."""
    arcs = tuple(_arc(one) for one in found.lines)
    by_valve = {one.valve: one for one in found.lines}
    between = None
    if len(by_valve) == 2:
        between = (-by_valve["intake"].opens_deg, by_valve["exhaust"].closes_deg)
    overlaps = between is not None and between[1] > between[0]
    lifts = dict.fromkeys(f"{one.valve} at {one.at_lift} lift" for one in found.lines if one.at_lift)
    said = [f"{one.valve}: opens {one.opens}, closes {one.closes}, {one.duration}" for one in arcs]
    if overlaps and between is not None:
        said.append(f"both open together for {degrees(between[1] - between[0])} about top dead center")
    return EventsPicture(
        f"Valve events, {engine}",
        "; ".join(said),
        arcs,
        f"both open, {degrees(between[1] - between[0])}" if overlaps and between is not None else "",
        between if overlaps else None,
        "; ".join(lifts),
    )


def _arc(one: EventLine) -> Arc:
    if one.valve == "intake":
        opens, closes = -one.opens_deg, _BOTTOM + one.closes_deg
    else:
        opens, closes = _BOTTOM - one.opens_deg, 2 * _BOTTOM + one.closes_deg
    late = one.shift_crank_deg
    return Arc(
        one.valve, opens, closes, degrees(one.opens_deg), degrees(one.closes_deg), one.duration, late,
        "" if late is None else _late(late),
    )  # fmt: skip


def _late(by: float) -> str:
    if degrees(by) in ("0°", "-0°"):
        return "as before"
    return f"{degrees(abs(by))} {'later' if by > 0 else 'earlier'}"
