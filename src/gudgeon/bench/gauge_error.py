"""How far a gauge may be off, and what that does to one reading.

The kit says it, else a published standard does for its kind. A gauge that was set in another one brings the error of
that one along. Of blades each end of a reading has the errors of the blades that made it; under a straightedge the
error of the edge counts too.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

from gudgeon.bench.budget import Component, Spot
from gudgeon.book.state import ReadingState
from gudgeon.calc.metrology.uncertainty import from_permitted_error, from_resolution
from gudgeon.kit.gauges import DIFFERENCE, Gauge
from gudgeon.kit.model import Kit
from gudgeon.quantity.kinds import KINDS
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.model import DataSheet
from gudgeon.sources.tables import other_error, permitted_error

COMPARES = ("bore gauge", "dial gauge", "lever indicator", "telescoping gauge", "small-hole gauge")
"""Gauges that are set at one size, and then show how far another one is from it."""
NEEDS_A_MASTER = ("bore gauge", "telescoping gauge", "small-hole gauge")
"""Gauges that show nothing by themselves."""
STRAIGHTEDGES = ("straightedge", "knife straightedge", "shop straightedge")
LENGTHS = ("length", "length_difference")
MOST_STACKED = 4
SAME_MM = 1e-6
STRAIGHTEDGE_MM = 500.0
"""How long a straightedge counts whose length nobody states."""


@dataclass(frozen=True, slots=True)
class Gauged:
    """What a gauge brings into a reading; `known` says whether its error is stated by anybody.

    Of blades the low end of a reading has components of its own: other blades made it.
    """

    components: tuple[Component, ...]
    known: bool
    notes: tuple[str, ...] = ()
    low_components: tuple[Component, ...] | None = None


def half_width(gauge: Gauge, *, size_mm: float) -> tuple[float, str]:
    """How far a gauge may be off [mm], and who says so: the kit, or a published standard; nobody leaves it empty."""
    return permitted(gauge, kind="length", value=size_mm)


def permitted(gauge: Gauge, *, kind: str, value: float) -> tuple[float, str]:
    """How far a gauge may be off at a value [base unit of the kind], and who says so; nobody leaves it empty."""
    if gauge.error is not None:
        stated = gauge.error_at(value, unit=KINDS[kind].base)
        return (stated, "your kit") if stated is not None else (0.0, "")
    if kind in LENGTHS:
        standard = permitted_error(gauge.standard, length_mm=abs(value))
    else:
        standard = other_error(gauge.standard, kind=kind, reading=value)
    return (standard.value, str(standard.source)) if standard is not None else (0.0, "")


def standard_error(gauge: Gauge, *, kind: str, value: float) -> tuple[float, bool]:
    """The standard uncertainty of its error alone, and whether anybody states it."""
    error, source = permitted(gauge, kind=kind, value=value)
    if gauge.error is not None and gauge.stated_as == "U (k = 2)":
        return error / 2, bool(source)
    return from_permitted_error(error), bool(source)


def step_of(gauge: Gauge, *, kind: str) -> float:
    """One of its last digit, in the base unit of the kind."""
    if gauge.step is None or gauge.reads not in (kind, ONE_SCALE.get(kind)):
        return 0.0
    return gauge.step.middle_in(KINDS[difference_of(kind)].base)


ONE_SCALE = {"length_difference": "length"}
"""What is read off the scale of another kind of quantity: a gap off one of lengths."""


def difference_of(kind: str) -> str:
    """The kind of a difference of two readings of a kind."""
    return DIFFERENCE.get(kind, kind)


def standard_uncertainty(gauge: Gauge | None, kind: str, *, size_mm: float) -> tuple[float, bool]:
    """Standard uncertainty of one reading: permitted error and step, both rectangular; and whether it is known."""
    if gauge is None:
        return 0.0, False
    u, known = standard_error(gauge, kind=kind, value=size_mm)
    return (math.hypot(u, from_resolution(step_of(gauge, kind=kind))), True) if known else (0.0, False)


def gauged(sheet: DataSheet, kit: Kit, reading: ReadingState, *, ends: tuple[float, float]) -> Gauged:
    """What the gauge of a reading brings into it; `ends` are those of the reading in the base unit of its kind."""
    item, gauge = sheet.characteristics[reading.item], kit.gauges.get(reading.instrument)
    if gauge is None:
        return Gauged((), False)
    if gauge.kind == "feeler blades" and item.kind in LENGTHS:
        made = _of_blades(gauge, ends)
    else:
        made = _of_gauge(kit, reading, item.kind, value=_a_finite(ends))
    if item.method == "straightedge lines":
        edge = _straightedge(sheet, kit, item, place=reading.place)
        own = made.low_components
        return Gauged(
            (*made.components, *edge.components), made.known and edge.known, (*made.notes, *edge.notes),
            None if own is None else (*own, *edge.components),
        )  # fmt: skip
    return made


def _a_finite(ends: tuple[float, float]) -> float:
    return ends[1] if math.isfinite(ends[1]) else ends[0]


def _of_gauge(kit: Kit, reading: ReadingState, kind: str, *, value: float) -> Gauged:
    """Its own error, that of the gauge that set it, and its step."""
    key = reading.instrument
    gauge = kit.gauges[key]
    components, known, notes = _with_master(kit, key, kind, value=value, entry=reading.entry)
    if not known:
        return Gauged((), False, notes)
    step = step_of(gauge, kind=kind) or _strip_step(gauge, reading, value)
    if step:
        components.append(Component(f"step of the gauge, {gauge.name}", from_resolution(step)))
    return Gauged(tuple(components), True, notes)


def lacks_a_master(gauge: Gauge) -> bool:
    """Whether a gauge that only compares has nothing that sets it and no error of its own, so that it is not known."""
    return gauge.kind in NEEDS_A_MASTER and gauge.error is None and gauge.zeroed_in is None


def _with_master(
    kit: Kit, key: str, kind: str, *, value: float, entry: str
) -> tuple[list[Component], bool, tuple[str, ...]]:
    """The error of a gauge and, where it is set in another one, of that one; and whether all of it is known."""
    gauge = kit.gauges[key]
    u, known = standard_error(gauge, kind=kind, value=value)
    if lacks_a_master(gauge):
        return [], False, (f"the kit does not say what {gauge.name} is zeroed in, nor how far it is off",)
    compares = gauge.kind in COMPARES
    tag = f"{key}, set" if compares else f"{key}, {entry}"
    found = list(_halves(f"error of the gauge, {gauge.name}", u, spot=Spot(key, value, compares), tag=tag))
    master = kit.gauges.get(gauge.zeroed_in or "")
    if master is not None and gauge.zeroed_in != key:
        by, told = standard_error(master, kind=kind, value=value)
        known = known and told
        words = f"error of the gauge that sets it, {master.name}"
        spot = Spot(gauge.zeroed_in or "", value, compares=True)
        found += _halves(words, by, spot=spot, tag=f"{gauge.zeroed_in}, set")
    return found, known, ()


def _strip_step(gauge: Gauge, reading: ReadingState, value: float) -> float:
    """Between which printed widths of a plastic strip a plain value lies; an interval says that itself."""
    widths = gauge.step_widths_mm
    if reading.value is None or len(widths) < 2:
        return 0.0
    gaps = [(abs(value - (low + high) / 2), high - low) for low, high in pairwise(widths)]
    return min(gaps)[1]


def _halves(words: str, u: float, *, spot: Spot, tag: str) -> Iterator[Component]:
    """Half of the variance is the same all along the scale, half belongs to the spot."""
    half = u / math.sqrt(2)
    yield Component(words, half, tag=spot.gauge)
    yield Component(f"{words}, at this spot", half, tag=tag, spot=spot)


def _of_blades(gauge: Gauge, ends: tuple[float, float]) -> Gauged:
    """The errors of the blades that made each end; an end that no blade made has none."""
    notes: list[str] = []
    low, high = (_of_stack(gauge, end, notes) for end in ends)
    if low is None or high is None:
        return Gauged((), False, tuple(notes))
    return Gauged(high, True, tuple(dict.fromkeys(notes)), low)


def _of_stack(gauge: Gauge, end: float, notes: list[str]) -> tuple[Component, ...] | None:
    """The errors of the blades that make one end, each by itself; None where nobody states them."""
    if not math.isfinite(end) or end <= 0:
        return ()
    stack = stacked(gauge, end)
    if not stack:
        notes.append(f"no blades of {gauge.name} make {end:.4g} mm: counted as one blade")
    errors = [half_width(gauge, size_mm=blade) for blade in stack or (end,)]
    if not all(source for _, source in errors):
        return None
    words = f"error of a blade of the gauge, {gauge.name}"
    return tuple(Component(words, from_permitted_error(error)) for error, _ in errors)


def stacked(gauge: Gauge, thickness_mm: float) -> tuple[float, ...]:
    """The fewest blades that make a thickness; one, where the kit does not list them; none, where none do."""
    blades = sorted({blade.middle_in("mm") for blade in gauge.blades})
    if not blades:
        return (thickness_mm,)
    for count in range(1, MOST_STACKED + 1):
        # Thick stacks of many thin blades are nobody's: four at most, and the search stays short.
        for stack in combinations([blade for blade in blades if blade <= thickness_mm + SAME_MM], count):
            if abs(sum(stack) - thickness_mm) <= SAME_MM:
                return stack
    return ()


def _straightedge(sheet: DataSheet, kit: Kit, item: Characteristic, *, place: str) -> Gauged:
    """The error of the straightedge on this line: of several the worst, since nobody says which it was."""
    edges = [gauge for gauge in kit.gauges.values() if gauge.kind in STRAIGHTEDGES]
    if not edges:
        return Gauged((), True, ("no straightedge in the kit: its error is not counted",))
    found = [(edge, half_width(edge, size_mm=_line_mm(sheet, item, edge, place))) for edge in edges]
    edge, (error, source) = max(found, key=lambda one: one[1][0])
    if not source:
        return Gauged((), False, (f"how straight {edge.name} is, nobody says",))
    notes = ("several straightedges in the kit: the least straight is counted",) if len(edges) > 1 else ()
    u = from_permitted_error(error)
    return Gauged(
        (Component(f"straightness of the gauge, {edge.name}", u, tag=f"edge {edge.name}"),), True, notes
    )


def _line_mm(sheet: DataSheet, item: Characteristic, edge: Gauge, place: str) -> float:
    face = sheet.faces.get(item.face) if item.face is not None else None
    line = face.lines.get(place) if face is not None else None
    length = line.length_mm() if line is not None else None
    if length is None and edge.length is not None:
        length = edge.length.middle_in("mm")
    return length or STRAIGHTEDGE_MM
