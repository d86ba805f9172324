"""The drive of the camshafts as a picture: wheels, belt, marks, counted teeth, running direction, tight side."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from gudgeon.bench.timing.drive_model import DriveModel, DriveWheel, TeethCounted
from gudgeon.bench.timing.drive_words import thing
from gudgeon.calc.engine.drive_path import DrivePath, WheelAt, Wrap, span_between
from gudgeon.calc.metrology.contour import Spot
from gudgeon.errors import InputError
from gudgeon.quantity.format import number

_STEP_DEG = 4.0
"""An arc is drawn through points so far apart."""


@dataclass(frozen=True, slots=True)
class DrawnWheel:
    """A wheel at its place; the mark stands at an angle of the clock. `said` is what the key tells of it."""

    number: int
    name: str
    said: str
    x_mm: float
    y_mm: float
    radius_mm: float
    toothed: bool
    tensioner: bool
    mark_at_deg: float | None


@dataclass(frozen=True, slots=True)
class Arrow:
    """A place on the belt and the way in which it runs there, as an angle of the clock."""

    at: Spot
    heading_deg: float


@dataclass(frozen=True, slots=True)
class DrawnCount:
    """A count of teeth along the belt between two marks: what is written beside it, and what the key tells."""

    text: str
    line: tuple[Spot, ...]
    said: str


@dataclass(frozen=True, slots=True)
class DrivePicture:
    """The picture of a drive; x to the right and y upward [mm]. Each line is drawn through its points."""

    title: str
    viewed_from: str
    turns: str
    wheels: tuple[DrawnWheel, ...]
    belt: tuple[Spot, ...]
    tight: tuple[Spot, ...]
    tight_said: str
    arrows: tuple[Arrow, ...]
    counts: tuple[DrawnCount, ...]
    tensioner: str
    not_drawn: tuple[str, ...]
    words: str


def drive_picture(model: DriveModel) -> DrivePicture:
    """The picture of a drive, as far as its sheet tells the places."""
    keys = [*model.order, *(key for key in model.wheels if key not in model.order)]
    wheels = tuple(
        drawn
        for place, key in enumerate(keys, start=1)
        if (drawn := _wheel(place, model.wheels[key], model.kind)) is not None
    )
    path = model.path
    counts = tuple(
        _count(model, path, one) for one in model.counts if path is not None and one.by_path is not None
    )
    tight = _tight_line(model)
    title = f"The {model.kind}"
    turns = {True: "It runs clockwise.", False: "It runs counterclockwise.", None: ""}[model.clockwise]
    return DrivePicture(
        title=title,
        viewed_from=model.viewed_from,
        turns=turns,
        wheels=wheels,
        belt=_loop(path) if path is not None else (),
        tight=tight,
        tight_said=_tight(model) if tight else "",
        arrows=_arrows(path) if path is not None and model.clockwise is not None else (),
        counts=counts,
        tensioner=_tensioner(model),
        not_drawn=_not_drawn(model),
        words=_words(model, wheels, counts),
    )


def _wheel(place: int, one: DriveWheel, kind: str) -> DrawnWheel | None:
    if one.at is None:
        return None
    size = f"{one.teeth} teeth" if one.teeth is not None else "smooth"
    parts = [size, f"{thing(kind)}'s back on it" if one.back else "", "no key" if one.keyless else ""]
    said = ", ".join(filter(None, parts))
    if one.mark:
        said += f"; mark: {one.mark}"
    return DrawnWheel(
        place,
        one.name,
        said,
        one.at.x_mm,
        one.at.y_mm,
        one.at.radius_mm,
        one.teeth is not None,
        one.is_tensioner,
        one.mark_at_deg,
    )


def _arc(wheel: WheelAt, start_deg: float, length_deg: float, *, clockwise: bool) -> list[Spot]:
    """Points of the belt on a wheel, from an angle of the clock on, as it runs."""
    steps = max(1, math.ceil(length_deg / _STEP_DEG))
    found = []
    for step in range(steps + 1):
        turn = length_deg * step / steps
        angle = math.radians(start_deg + (turn if clockwise else -turn))
        found.append(
            (wheel.x_mm + wheel.radius_mm * math.sin(angle), wheel.y_mm + wheel.radius_mm * math.cos(angle))
        )
    return found


def _wrapped(path: DrivePath, place: int, start_deg: float, length_deg: float) -> list[Spot]:
    """Part of the belt on a wheel of the path."""
    return _arc(path.wheels[place], start_deg, length_deg, clockwise=path.wraps[place].clockwise)


def _loop(path: DrivePath) -> tuple[Spot, ...]:
    """The whole belt, closed by its first point."""
    spots = [
        spot
        for place, wrap in enumerate(path.wraps)
        for spot in _wrapped(path, place, wrap.arrives_deg, wrap.wrap_deg)
    ]
    return (*spots, spots[0])


def _tight_line(model: DriveModel) -> tuple[Spot, ...]:
    """The tight side, from where it leaves the camshaft to where it arrives at the crankshaft, where all is placed."""
    placed = [model.wheels[key].at for key in model.tight]
    wheels = [one for one in placed if one is not None]
    clockwise = model.clockwise
    impossible = model.path is None and any(one.path == "drive.path" for one in model.errors)
    if len(wheels) < max(len(placed), 2) or clockwise is None or impossible:
        return ()
    try:
        spans = [
            span_between(first, second=second, clockwise=clockwise) for first, second in pairwise(wheels)
        ]
    except InputError:  # wheels that overlap: what cannot be worked out is said elsewhere
        return ()
    found = [spans[0].start]
    for wheel, before, after in zip(wheels[1:-1], spans[:-1], spans[1:], strict=True):
        own = clockwise != wheel.back
        turn = after.heading_deg - before.heading_deg if own else before.heading_deg - after.heading_deg
        start = before.heading_deg + (-90.0 if own else 90.0)
        found += _arc(wheel, start, turn % 360.0, clockwise=own)
    return (*found, spans[-1].end)


def _count(model: DriveModel, path: DrivePath | None, one: TeethCounted) -> DrawnCount:
    assert path is not None
    assert one.by_path is not None
    first, last = path.at(one.start), path.at(one.end)
    marks = [model.wheels[key].mark_at_deg or 0.0 for key in (one.start, one.end)]
    before, after = path.wraps[first], path.wraps[last]
    spots = _wrapped(path, first, marks[0], before.wrap_deg - _turned(before, marks[0]))
    at = (first + 1) % len(path.wheels)
    while at != last:
        spots += _wrapped(path, at, path.wraps[at].arrives_deg, path.wraps[at].wrap_deg)
        at = (at + 1) % len(path.wheels)
    spots += _wrapped(path, last, after.arrives_deg, _turned(after, marks[1]))
    names = f"{model.wheels[one.start].name} to {model.wheels[one.end].name}"
    way = f", {one.way}" if one.way else ""
    printed = f"{one.printed} {model.units}" if one.printed is not None else "not printed"
    off = one.off
    doubt = off is not None and abs(off) >= 0.05  # what a tenth of a tooth shows
    along = f"; along the path {number(one.by_path, decimals=1)}" if doubt else ""
    figure = str(one.printed) if one.printed is not None else number(one.by_path, decimals=1)
    text = f"{figure} {model.units}"
    return DrawnCount(text, tuple(spots), f"{names}{way}: {printed}{along}")


def _turned(wrap: Wrap, mark_deg: float) -> float:
    """How far a mark lies behind the place where the belt arrives [°]."""
    turn = mark_deg - wrap.arrives_deg
    turned = (turn if wrap.clockwise else -turn) % 360.0
    return 0.0 if turned > 360.0 - 1e-6 else min(turned, wrap.wrap_deg)


def _arrows(path: DrivePath) -> tuple[Arrow, ...]:
    """One on each of the longer spans, a third of the way along it."""
    longest = max(one.length_mm for one in path.spans)
    return tuple(
        Arrow(
            (
                one.start[0] + (one.end[0] - one.start[0]) / 3,
                one.start[1] + (one.end[1] - one.start[1]) / 3,
            ),
            one.heading_deg,
        )
        for one in path.spans
        if one.length_mm > 0.3 * longest
    )


def _tight(model: DriveModel) -> str:
    ends = [model.wheels[key].name for key in (model.tight[0], model.tight[-1])]
    return f"The {thing(model.kind)} is pulled tight from {ends[0]} to {ends[1]}."


def _tensioner(model: DriveModel) -> str:
    drive = model.drive
    named = next((one.name for one in model.wheels.values() if one.is_tensioner), drive.tensioner or "")
    if not named:
        return ""
    pin = f"; pin: {drive.tensioner_pin}" if drive.tensioner_pin else ""
    return f"{named}{pin}" if "tension" in named.lower() else f"Tensioner: {named}{pin}"


def _not_drawn(model: DriveModel) -> tuple[str, ...]:
    found = [
        f"{one.name} is not drawn: no {one.lacks.replace('`', '')}"
        for one in model.wheels.values()
        if one.at is None and model.kind != "timing gears"
    ]
    if model.path is None:
        named = thing(model.kind)
        errors = [one.text for one in model.errors if one.path == "drive.path"]
        why = errors[0] if errors else "its path or a place is not known."
        found.append(
            "Gears are not drawn: they mesh, and no path leads over them."
            if named == "gears"
            else f"The {named} is not drawn: {why}"
        )
    return tuple(found)


def _words(model: DriveModel, wheels: Sequence[DrawnWheel], counts: Sequence[DrawnCount]) -> str:
    """The picture for somebody who does not see it."""
    seen = f", seen from the {model.viewed_from}" if model.viewed_from else ""
    said = [f"The {model.kind}{seen}"]
    if model.path is not None and model.clockwise is not None:
        names = ", ".join(model.wheels[key].name for key in model.order)
        said.append(f"It runs {'clockwise' if model.clockwise else 'counterclockwise'} over {names}")
    said += [
        f"Mark of {one.name} at {one.mark_at_deg:g}° of the clock, 0° is up"
        for one in wheels
        if one.mark_at_deg is not None
    ]
    said += [one.said for one in counts]
    if model.tight and model.clockwise is not None:
        said.append(_tight(model).rstrip("."))
    return ". ".join((*said, *(one.rstrip(".") for one in _not_drawn(model)))) + "."
